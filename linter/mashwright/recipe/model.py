"""A recipe as typed values: what its author wrote, each with the path where it stands.

Every section is there, also one that the recipe does not have; its values are then unsaid.
"""

from typing import Any, TypeVar

from msgspec import Struct
from msgspec.structs import replace

from mashwright.finding import Path
from mashwright.recipe.stated import NO_TEXT, NOWHERE, Lines, Said, Section, Stated, Text, Unsaid

_KEYS = {"time": "for", "vessel": "in", "place": "in", "culture": "with"}
"""Attributes whose key of the format has another name."""

_S = TypeVar("_S", bound=Section)


def absent(kind: type[_S], *path: str) -> _S:
    """A section that the recipe does not have: its values are unsaid, each at its own place."""
    own: dict[str, Any] = {}
    for name in kind.__struct_fields__:
        usual, there = getattr(kind(path), name), (*path, _KEYS.get(name, name.replace("_", "-")))
        if isinstance(usual, Unsaid):
            own[name] = Unsaid(there)
        elif isinstance(usual, Text):
            own[name] = Text("", there)
        elif isinstance(usual, Lines):
            own[name] = Lines.at(there)
    return kind(path, there=False, **own)


class Batch(Section, frozen=True):
    """How much beer, counted at one place or several; volumes in l."""

    fermenter: Stated = NOWHERE
    kettle: Stated = NOWHERE
    package: Stated = NOWHERE

    @property
    def stated(self) -> Stated:
        """The batch wherever it is counted."""
        return self.fermenter or self.kettle or self.package

    @property
    def said(self) -> Said | None:
        """The batch wherever it is counted, for what does not hang on it: one that cannot be read is not asked for."""
        return next((one for one in (self.fermenter, self.kettle, self.package) if isinstance(one, Said)), None)

    @property
    def unit(self) -> str:
        """The unit in which it is counted; l where it is not stated."""
        said = self.said
        return said.unit if said is not None else "l"


class GristLine(Struct, frozen=True):
    """One line of the grist and sugars.

    Attributes:
        group: the deciding key: grain, sugar, extract or fruit.
        add: mash, late mash, steep, kettle, fermenter, or "" where the recipe leaves it to the kind.
        bitterness: of a hopped extract.
        time: that fruit stays in the fermenter.
        cereal_mash: goes through the cereal cooker first.
    """

    path: Path
    group: str
    name: Text
    weight: Stated = NOWHERE
    share: Stated = NOWHERE
    add: Text = NO_TEXT
    cereal_mash: bool = False
    lot: Text = NO_TEXT
    kind: Text = NO_TEXT
    cereal: Text = NO_TEXT
    colour: Stated = NOWHERE
    extract: Stated = NOWHERE
    moisture: Stated = NOWHERE
    diastatic_power: Stated = NOWHERE
    gelatinises: Stated = NOWHERE
    fermentable: Stated = NOWHERE
    bitterness: Stated = NOWHERE
    time: Stated = NOWHERE


class Amount(Struct, frozen=True):
    """A named amount: a salt, an acid, an enzyme, a temperature that was measured."""

    path: Path
    name: Text
    quantity: Stated


class Rest(Struct, frozen=True):
    """One rest of a mash."""

    path: Path
    at: Stated = NOWHERE
    time: Stated = NOWHERE
    to: Stated = NOWHERE
    by: Text = NO_TEXT
    water: Stated = NOWHERE
    of: Stated = NOWHERE
    pull: Stated = NOWHERE
    boil: Stated = NOWHERE


class Mash(Section, frozen=True):
    """The main mash, or several one after the other; grist and water are those of all of them.

    Attributes:
        reiterated: the wort of each is the water of the next, so that the water is drawn for the first alone.
    """

    mashes: Stated = NOWHERE
    reiterated: bool = False
    water: Stated = NOWHERE
    thickness: Stated = NOWHERE
    strike: Stated = NOWHERE
    grain_temperature: Stated = NOWHERE
    crush: Text = NO_TEXT
    ph: Stated = NOWHERE
    salts: Lines[Amount] = Lines()
    acid: Lines[Amount] = Lines()
    enzymes: Lines[Amount] = Lines()
    bag: bool = False
    rests: Lines[Rest] = Lines()

    @property
    def number(self) -> int:
        """In how many mashes the grist is mashed; a reiterated mash is two, where it does not say."""
        if self.mashes.known:
            return max(1, round(self.mashes.range.typical))
        return 2 if self.reiterated else 1


class CerealMash(Section, frozen=True):
    """The cooker beside the main mash."""

    water: Stated = NOWHERE
    rests: Lines[Rest] = Lines()
    boil: Stated = NOWHERE


class Steep(Section, frozen=True):
    """Grain steeped without a mash."""

    water: Stated = NOWHERE
    at: Stated = NOWHERE
    time: Stated = NOWHERE


class Sparge(Section, frozen=True):
    """How the grain is rinsed."""

    by: Text = NO_TEXT
    water: Stated = NOWHERE
    at: Stated = NOWHERE
    ph: Stated = NOWHERE
    salts: Lines[Amount] = Lines()
    acid: Lines[Amount] = Lines()


class Water(Section, frozen=True):
    """Ions of the brewing liquor, in mg/l."""

    calcium: Stated = NOWHERE
    magnesium: Stated = NOWHERE
    sodium: Stated = NOWHERE
    chloride: Stated = NOWHERE
    sulfate: Stated = NOWHERE
    bicarbonate: Stated = NOWHERE
    alkalinity: Stated = NOWHERE
    ph: Stated = NOWHERE
    dilution: Stated = NOWHERE


class TopUp(Section, frozen=True):
    """Water added after the mash; of what is added as needed the volume is not stated."""

    kettle: Stated = NOWHERE
    fermenter: Stated = NOWHERE
    kettle_as_needed: bool = False
    fermenter_as_needed: bool = False


class Boil(Section, frozen=True):
    """The boil; its volume is the one before it begins."""

    volume: Stated = NOWHERE
    time: Stated = NOWHERE
    salts: Lines[Amount] = Lines()


class Chill(Section, frozen=True):
    """How the wort is cooled: chiller, water bath or no-chill, and in what time."""

    by: Text = NO_TEXT
    time: Stated = NOWHERE


class Souring(Section, frozen=True):
    """Wort or beer that bacteria make sour.

    Attributes:
        place: mash, kettle or fermenter; "" where the recipe does not say it.
    """

    culture: Text = NO_TEXT
    place: Text = NO_TEXT
    at: Stated = NOWHERE
    time: Stated = NOWHERE
    start_ph: Stated = NOWHERE
    ph: Stated = NOWHERE


class Hop(Struct, frozen=True):
    """One hop addition; exactly one of the times and flags says when."""

    path: Path
    name: Text
    weight: Stated = NOWHERE
    alpha_units: Stated = NOWHERE
    bitterness: Stated = NOWHERE
    alpha: Stated = NOWHERE
    lot: Text = NO_TEXT
    form: Text = NO_TEXT
    age: Stated = NOWHERE
    harvest: Text = NO_TEXT
    mash: bool = False
    first_wort: bool = False
    boil: Stated = NOWHERE
    whirlpool: Stated = NOWHERE
    at: Stated = NOWHERE
    to: Stated = NOWHERE
    dry: Stated = NOWHERE


class Addition(Struct, frozen=True):
    """Spices, finings, nutrients: carried and shown."""

    path: Path
    what: Text
    weight: Stated = NOWHERE
    volume: Stated = NOWHERE
    count: Stated = NOWHERE
    when: Text = NO_TEXT


class Yeast(Struct, frozen=True):
    """A yeast or another culture."""

    path: Path
    kind: Text
    attenuation: Stated = NOWHERE
    tolerance: Stated = NOWHERE
    flocculation: Text = NO_TEXT
    diastatic: bool | None = None
    pitch: Stated = NOWHERE
    viability: Stated = NOWHERE
    starter: Stated = NOWHERE
    at: Stated = NOWHERE


class Aeration(Section, frozen=True):
    """Oxygen for the yeast: by air, oxygen or none; mg/l; and how often."""

    by: Text = NO_TEXT
    oxygen: Stated = NOWHERE
    times: Stated = NOWHERE


class FermentStep(Struct, frozen=True):
    """One step of the fermentation."""

    path: Path
    at: Stated = NOWHERE
    to: Stated = NOWHERE
    time: Stated = NOWHERE
    enzymes: Lines[Amount] = Lines()


class Spund(Section, frozen=True):
    """Closed before the beer has finished: at a gravity, or with a valve that lets gas out above a pressure."""

    gravity: Stated = NOWHERE
    pressure: Stated = NOWHERE
    at: Stated = NOWHERE


class Priming(Section, frozen=True):
    """Sugar, extract or wort for the bottle.

    Attributes:
        group: the deciding key: sugar, extract or wort.
        gravity: of the wort, as it goes in.
        attenuation: of that wort, by its original gravity.
    """

    name: Text = NO_TEXT
    group: str = ""
    weight: Stated = NOWHERE
    rate: Stated = NOWHERE
    each: Stated = NOWHERE
    bottle: Stated = NOWHERE
    volume: Stated = NOWHERE
    gravity: Stated = NOWHERE
    attenuation: Stated = NOWHERE


class Package(Section, frozen=True):
    """Bottles, keg or cask.

    Attributes:
        share: of the beer, %; in its place stand a volume, or a count of them with the size of one.
        gas: carbon dioxide in what lies on the beer, % by volume.
    """

    vessel: Text = NO_TEXT
    share: Stated = NOWHERE
    volume: Stated = NOWHERE
    count: Stated = NOWHERE
    size: Stated = NOWHERE
    carbonation: Stated = NOWHERE
    priming: Priming = absent(Priming, "package", "priming")
    spund: Spund = absent(Spund, "package", "spund")
    gas: Stated = NOWHERE
    pressure: Stated = NOWHERE
    at: Stated = NOWHERE
    bottle_rating: Stated = NOWHERE
    gravity: Stated = NOWHERE


class Targets(Section, frozen=True):
    """What the author says the recipe gives."""

    og: Stated = NOWHERE
    fg: Stated = NOWHERE
    abv: Stated = NOWHERE
    bitterness: Stated = NOWHERE
    colour: Stated = NOWHERE
    pre_boil_gravity: Stated = NOWHERE
    first_wort_gravity: Stated = NOWHERE
    attenuation: Stated = NOWHERE


class BrewDay(Struct, frozen=True):
    """What was measured on one brew day.

    Attributes:
        temperatures: each under a name of the brewer's own.
    """

    path: Path
    date: Text
    measured: Targets
    batch: Batch = absent(Batch, "measured", "batch")
    temperatures: Lines[Amount] = Lines()


ORDER = ("first", "second", "third", "fourth", "fifth")
"""The runnings of a mash, in their order."""


class Take(Struct, frozen=True):
    """What one wort takes of the run-off of the mash.

    Attributes:
        path: where that stands.
        name: ``first`` to ``fifth`` for the runnings in their order, ``all`` of them mixed, the ``rest``; "" for what
            comes next as the wort runs off.
        amount: a volume or a share of these; unsaid, all of them.
    """

    path: Path
    name: str
    amount: Stated = NOWHERE


class Wort(Struct, frozen=True):
    """One of several worts of a mash: what is its own, and becomes a beer of its own.

    Attributes:
        runnings: what it takes of the run-off.
        grist: what goes into this wort alone, beside its part of the mash.
    """

    path: Path
    name: Text
    style: Text
    runnings: Lines[Take]
    batch: Batch
    grist: Lines[GristLine]
    top_up: TopUp
    boil: Boil
    chill: Chill
    souring: Souring
    hops: Lines[Hop]
    additions: Lines[Addition]
    yeast: Lines[Yeast]
    aeration: Aeration
    ferment: Lines[FermentStep]
    package: Package
    beside: Lines[Package]
    targets: Targets
    measured: Lines[BrewDay]


class Accepted(Struct, frozen=True):
    """A finding that somebody accepts, with the reason.

    Attributes:
        until: a date as YYYY-MM-DD, or "".
        where: a glob over recipes, in a brewhouse only.
    """

    path: Path
    rule: Text
    reason: Text
    until: Text = NO_TEXT
    where: Text = NO_TEXT


class Recipe(Struct, frozen=True):
    """A whole recipe, format 1.

    Attributes:
        sparges: where several waters follow the mash, each drained by itself; the sparge is all of them together then.
        worts: where one mash gives several; the batch is all of them then, and what is one wort's own stands in it.
        unread: all that could not be read, for those who tell of it; what judges a recipe meets it in the values.
        asked: the places of these that somebody asked for in vain.
        readings: how an archaic or unclear measure was taken, by its place.
        package: the package; the first of several.
        beside: the others, where the beer goes into several.
        imperial: measured in British or archaic units, so that a bare gallon may be either.
    """

    name: Text = Text("", ("recipe",))
    by: Text = Text("", ("by",))
    style: Text = Text("", ("style",))
    source: Text = Text("", ("source",))
    notes: Text = Text("", ("notes",))
    batch: Batch = absent(Batch, "batch")
    efficiency: Stated = Unsaid(("efficiency",))
    mash_efficiency: Stated = Unsaid(("mash-efficiency",))
    grist: Lines[GristLine] = Lines.at(("grist",))
    steep: Steep = absent(Steep, "steep")
    mash: Mash = absent(Mash, "mash")
    cereal_mash: CerealMash = absent(CerealMash, "cereal-mash")
    sparge: Sparge = absent(Sparge, "sparge")
    sparges: Lines[Sparge] = Lines.at(("sparge",))
    water: Water = absent(Water, "water")
    top_up: TopUp = absent(TopUp, "top-up")
    boil: Boil = absent(Boil, "boil")
    chill: Chill = absent(Chill, "chill")
    souring: Souring = absent(Souring, "souring")
    hops: Lines[Hop] = Lines.at(("hops",))
    additions: Lines[Addition] = Lines.at(("additions",))
    yeast: Lines[Yeast] = Lines.at(("yeast",))
    aeration: Aeration = absent(Aeration, "aeration")
    ferment: Lines[FermentStep] = Lines.at(("ferment",))
    package: Package = absent(Package, "package")
    beside: Lines[Package] = Lines.at(("package",))
    targets: Targets = absent(Targets, "targets")
    measured: Lines[BrewDay] = Lines.at(("measured",))
    worts: Lines[Wort] = Lines.at(("worts",))
    accepted: Lines[Accepted] = Lines.at(("accepted",))
    unread: frozenset[Path] = frozenset()
    asked: list[Path] = []  # a struct makes a new one for each
    readings: tuple[tuple[Path, str], ...] = ()
    imperial: bool = False

    @property
    def packages(self) -> tuple[Package, ...]:
        """All packages: one, stated or not, or several."""
        return (self.package, *self.beside)

    @property
    def lines(self) -> int:
        """Lines of all its lists, by which it takes the longer to judge; a rest, followed often, counts for three."""
        mash, cooker, sparge, boil = self.mash, self.cereal_mash, self.sparge, self.boil
        lists: list[tuple[object, ...]] = [
            *(mash.rests, mash.rests, mash.rests, mash.salts, mash.acid, mash.enzymes),
            *(cooker.rests, sparge.salts, sparge.acid, boil.salts),
            self.grist,
            self.hops,
            self.additions,
            self.yeast,
            self.ferment,
            self.measured,
        ]
        lists += [step.enzymes for step in self.ferment] + [day.temperatures for day in self.measured]
        of_worts = [self.of_wort(number).lines for number in range(len(self.worts))] if self.worts else ()
        return sum(map(len, lists)) * (1 + len(self.beside)) + sum(of_worts)  # each package is judged with all of it

    def of_wort(self, number: int) -> "Recipe":
        """One of its worts as a recipe of its own: the common mash with what is that wort's."""
        wort = self.worts[number]
        own: dict[str, Any] = {name: getattr(wort, name) for name in _OF_A_WORT}
        grist = self.grist if not wort.grist else self.grist.and_those(wort.grist)
        name, style = wort.name or self.name, wort.style
        return replace(self, **own, name=name, style=style, grist=grist, worts=Lines.at(self.worts.path))


_OF_A_WORT = tuple(
    name for name in Wort.__struct_fields__ if name not in ("path", "name", "style", "runnings", "grist")
)
"""The sections that are one wort's own, where a mash gives several."""
