"""What a brewer means to brew, as far as the recipe's own words say it."""

from collections.abc import Callable, Iterable
from functools import cached_property

from msgspec import Struct

from mashwright.patterns import pattern
from mashwright.words.claims import Speech, speech
from mashwright.words.vocabulary import speaks_of

_YEAR = pattern(r"\b[1-9]\d{3}\b")


class Intent(Struct, frozen=True, dict=True):
    """What is meant by one recipe; each is found out when it is first asked for.

    Attributes:
        name, style, notes, source: as they were written.
        cultures: gives the names of yeasts and other cultures; not asked where nothing hangs on them.
        souring: whether it says how it is soured.
        listed: the style of the tables that a text names, "" where it names none.
        sours: whether a culture of that name does.
    """

    name: str = ""
    style: str = ""
    notes: str = ""
    source: str = ""
    cultures: Callable[[], Iterable[str]] = tuple
    listed: Callable[[str], str] = lambda _: ""
    souring: bool = False
    sours: Callable[[str], bool] = lambda name: speaks_of("souring", "ingredient", name)

    @cached_property
    def sour(self) -> bool:
        """A sour beer: it is soured, by its style, its name, its notes or a culture that sours."""
        if self.souring or any(map(self.sours, self.cultures())) or self._says("sour"):
            return True
        return bool(self.style) and speaks_of("sour", "style", self.listed(self.style))

    @cached_property
    def raw(self) -> bool:
        """A beer that is brewed without a boil: raw ale, an old one, or a sour one of that kind."""
        return self._says("raw") or any(speaks_of("raw", "ingredient", one) for one in self.cultures()) or self.sour

    @cached_property
    def unboiled(self) -> str | None:
        """Which of ``name``, ``style`` and ``notes`` says plainly that the wort is not boiled; None where none does."""
        return next((where for where, text in self._texts if speaks_of("unboiled", where, text)), None)

    @cached_property
    def parti_gyle(self) -> bool:
        """The grist gives more than this one beer: a small beer of later runnings, or a strong one of the first."""
        return self._says("parti-gyle")

    @cached_property
    def turbid(self) -> bool:
        """A turbid mash, as of lambic: its bed ends, and is sparged, hotter than others by custom."""
        return self._says("turbid-mash")

    @cached_property
    def salty(self) -> bool:
        """A beer that is salted on purpose."""
        return self._says("salted")

    @cached_property
    def spunded(self) -> bool:
        """Beer that ferments out under a valve, which lets the rest of its gas out."""
        return speaks_of("spunded", "notes", self.notes)

    @cached_property
    def of_bread(self) -> bool:
        """A drink that is brewed of bread."""
        return speaks_of("of-bread", "name", self.name) or speaks_of("of-bread", "style", self.style)

    @cached_property
    def of_sugar(self) -> bool:
        """A drink of which honey or sugar is half or more."""
        return speaks_of("of-sugar", "name", self.name) or speaks_of("of-sugar", "style", self.style)

    @cached_property
    def years(self) -> tuple[int, ...]:
        """The years, from 1000 on, that the source tells, or the name of a recipe that has a source."""
        return tuple(map(int, _YEAR().findall(f"{self.source} {self.name}"))) if self.source else ()

    def old(self, before: float) -> bool:
        """Whether the recipe is from before a year, or from an old source of which no year is told."""
        return min(self.years) < before if self.years else speaks_of("old", "source", self.source)

    @cached_property
    def to_drinkers(self) -> Speech:
        """What is said to those who drink it."""
        return speech(self.name, self.style, self.notes)

    @property
    def _texts(self) -> tuple[tuple[str, str], ...]:
        return ("name", self.name), ("style", self.style), ("notes", self.notes)

    def _says(self, tag: str) -> bool:
        return any(speaks_of(tag, where, text) for where, text in self._texts)
