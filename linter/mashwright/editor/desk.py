"""The work on open texts: reviews, readings and brews, each with what nobody has saved yet.

It is done in one thread, apart from the one that talks to the client; what it needs is handed to it whole with each
question, so that the two share nothing that changes.
"""

import os
from collections import OrderedDict
from collections.abc import Callable, Iterator, Mapping
from datetime import UTC, datetime
from functools import partial
from typing import TYPE_CHECKING, NamedTuple, TypeVar, cast

from mashwright.brew.brew import Brew
from mashwright.budgets import FILE_BYTES
from mashwright.editor.asked import Asked, is_house
from mashwright.reading.document import Document, read_document
from mashwright.reading.nodes import Span
from mashwright.reading.recognising import looks_like_recipe
from mashwright.reading.schema import understood
from mashwright.recipe.brewhouse import Brewhouse
from mashwright.reviewing.collection import Collection
from mashwright.reviewing.files import BREWHOUSE_NAMES, Loaded, candidates, decode, house_in, load, matches
from mashwright.reviewing.houses import HouseFile, Houses
from mashwright.reviewing.plugins import installed
from mashwright.reviewing.read import Read, read
from mashwright.reviewing.repository import Git, is_inside, is_top
from mashwright.reviewing.results import Fault, Result, shown_path
from mashwright.reviewing.settings import Run
from mashwright.reviewing.sheet import Sheet, sheet_of

if TYPE_CHECKING:
    from mashwright.editor.completing import Offer
    from mashwright.editor.hints import Hint
    from mashwright.editor.hovering import Hover
    from mashwright.editor.lots import Renaming
    from mashwright.editor.outline import Part

_KEPT = 6
"""Answers that are kept, so that a second question about the same text costs nothing."""

T = TypeVar("T")


class Told(NamedTuple):
    """What is to be told of a text; faults are the program's own, or those of the rules of others."""

    results: tuple[Result, ...] = ()
    faults: tuple[Fault, ...] = ()


class Desk:
    """Answers from texts; to be asked by one thread at a time.

    Every method may raise ConfigurationError, where the rules that are installed contradict each other.
    """

    def __init__(self) -> None:
        self._kept: OrderedDict[tuple[str, object], object] = OrderedDict()

    def review(self, asked: Asked, *, remedies: bool) -> Told:
        """What is found in a recipe or a brewhouse; nothing in a text that is neither.

        Args:
            remedies: whether to look for what mends it, which takes longer.
        """
        today = datetime.now(UTC).date().isoformat()
        house = self.house(asked)
        if not asked.is_house and not self._is_recipe(asked, house):
            return Told()
        return self._once(("review", remedies, today), asked, house, lambda: _reviewed(asked, house, remedies, today))

    def house(self, asked: Asked) -> HouseFile | None:
        """The brewhouse that counts for a text: the nearest, as it is typed; of a brewhouse itself."""
        if asked.is_house:
            return self._read_house(asked.path, asked.text)
        folder = os.path.dirname(asked.path)
        while True:
            unsaved = [os.path.join(folder, name) for name in BREWHOUSE_NAMES]
            found = next((path for path in unsaved if path in asked.houses), None) or house_in(folder)
            if found is not None:
                return self._read_house(found, asked.houses.get(found))
            if is_top(folder) or os.path.dirname(folder) == folder:
                return None
            folder = os.path.dirname(folder)

    def brewhouse(self, asked: Asked) -> Brewhouse:
        """The same as it was read, or one that says nothing."""
        house = self.house(asked)
        return house.house.brewhouse if house is not None else Brewhouse()

    def reading(self, asked: Asked) -> Read:
        """A recipe as it was read."""
        return self._once("read", asked, None, lambda: read(_loaded(asked.text), shown_path(asked.path)))

    def document(self, asked: Asked) -> Document:
        """A text with its short forms written out."""
        if not asked.is_house:
            return self.reading(asked).document
        return self._once("document", asked, None, lambda: _house_document(asked.text))

    def brew(self, asked: Asked) -> Brew | None:
        """A recipe on its brewhouse; None where it is none, or cannot be read."""
        recipe = None if asked.is_house else self.reading(asked)
        if recipe is None or recipe.judgeable is None:
            return None
        judgeable, document = recipe.judgeable, recipe.document
        file = self.house(asked)

        def settled() -> Brew:
            house = file.house if file is not None else Houses(installed()).plain()
            return Brew(judgeable, house.brewhouse, document, bounds=house.bounds)

        return self._once("brew", asked, file, settled)

    def sheet(self, asked: Asked) -> Sheet | None:
        """The figures of a recipe."""
        brew = self.brew(asked)
        if brew is None:
            return None
        return self._once("sheet", asked, self.house(asked), lambda: sheet_of(brew, shown_path(asked.path)))

    def offers(self, asked: Asked, index: int) -> "list[Offer]":
        """What may stand at the cursor."""
        from mashwright.editor.completing import offers
        from mashwright.editor.where import spot

        found = spot(asked.text, index)
        if found is None:
            return []
        return offers(asked.text, index, found, _schema(asked), self.brewhouse(asked), installed())

    def hover(self, asked: Asked, index: int) -> "Hover | None":
        """What is told of the place under the cursor."""
        from mashwright.editor.hovering import hover

        document, house = self.document(asked), self.brewhouse(asked)
        sheet, brew = partial(self.sheet, asked), partial(self.brew, asked)
        return hover(document, index, _schema(asked), house, installed(), sheet, brew)

    def parts(self, asked: Asked) -> "tuple[Part, ...]":
        """The parts of a text, for an outline."""
        from mashwright.editor.outline import parts

        return parts(self.plain(asked))

    def folds(self, asked: Asked) -> list[Span]:
        """What may be folded."""
        from mashwright.editor.outline import folds

        return list(folds(self.plain(asked)))

    def plain(self, asked: Asked) -> Document:
        """A text as it is written, short forms as they are."""
        noun = _schema(asked)
        return self._once("plain", asked, None, lambda: read_document(asked.text, noun))

    def hints(self, asked: Asked, kinds: frozenset[str]) -> "list[Hint]":
        """Figures beside a recipe."""
        from mashwright.editor.hints import hints

        brew = self.brew(asked)
        return [] if brew is None else list(hints(self.document(asked), brew, self.sheet(asked), kinds))

    def certificate(self, asked: Asked, index: int) -> tuple[str, str, Span] | None:
        """Where the lot under the cursor is described: the brewhouse's path, its text, and the place there."""
        from mashwright.editor.lots import use_at, uses

        used = use_at(self.document(asked), index, is_house=asked.is_house)
        house = self.house(asked)
        if used is None or house is None:
            return None
        found = next((one for one in uses(house.document, is_house=True) if one.name == used.name), None)
        return (_real(house), house.document.text, found.span) if found is not None else None

    def renamed(
        self, asked: Asked, index: int, name: str, folders: tuple[str, ...], texts: Mapping[str, str]
    ) -> "Renaming":
        """Another name for the lot under the cursor, in its brewhouse and in all recipes that are brewed on it.

        Args:
            folders: in which recipes are looked for.
            texts: the open ones, by their paths; they count as they are typed.
        """
        from mashwright.editor.lots import Renaming, use_at, uses

        used, house = use_at(self.document(asked), index, is_house=asked.is_house), self.house(asked)
        if used is None:
            return Renaming("no lot is named here")
        lots = {one.name: one.span for one in uses(house.document, is_house=True)} if house is not None else {}
        if house is None or used.name not in lots:
            return Renaming(f"lot {used.name} is not in a brewhouse; add it there, or correct its name")
        if not name.strip() or name in lots:
            return Renaming(f"the brewhouse has a lot {name}; use another name" if name.strip() else "a lot has a name")
        places = {_real(house): (house.document.text, [lots[used.name]])}
        for path, text in self._texts(house.folder, folders, texts):
            if used.name in text and not is_house(path):
                one = Asked(path, text, asked.houses)
                spans = [each.span for each in uses(self.document(one), is_house=False) if each.name == used.name]
                own = self.house(one) if spans else None
                if own is not None and _real(own) == _real(house):
                    places[path] = (text, spans)
        return Renaming("", places)

    def _texts(self, house: str, folders: tuple[str, ...], texts: Mapping[str, str]) -> Iterator[tuple[str, str]]:
        """Every recipe below a brewhouse or in the folders, with its text; what git ignores is left out."""
        yield from texts.items()
        for candidate in candidates((house, *(one for one in folders if not is_inside(one, house))), Git(), []):
            path = os.path.abspath(candidate.path)
            if path not in texts and (loaded := load(path)).problem is None:
                yield path, loaded.text

    def _is_recipe(self, asked: Asked, house: HouseFile | None) -> bool:
        """Whether a text is a recipe: by its words, or since the brewhouse says that its recipes lie there."""
        claimed = house is not None and matches(asked.path, house.folder, house.house.brewhouse.recipes)
        return claimed or looks_like_recipe(asked.text)

    def _read_house(self, path: str, text: str | None) -> HouseFile:
        """A brewhouse by its text, or else by its file; it is read again only where it is another text."""
        loaded = load(path) if text is None else _loaded(text)

        def settled() -> HouseFile:
            return Houses(installed()).of_text(loaded, shown_path(path), os.path.dirname(path))

        return self._once(("house", loaded.problem), Asked(path, loaded.text, {}), None, settled)

    def _once(self, what: object, asked: Asked, house: HouseFile | None, work: Callable[[], T]) -> T:
        key = (asked.path, (what, asked.text, house.document.text if house is not None else None))
        if key in self._kept:
            self._kept.move_to_end(key)
            return cast("T", self._kept[key])
        found = work()
        self._kept[key] = found
        while len(self._kept) > _KEPT:
            self._kept.popitem(last=False)
        return found


def _real(house: HouseFile) -> str:
    """The path of a brewhouse's file."""
    return os.path.join(house.folder, os.path.basename(house.path))


def _schema(asked: Asked) -> str:
    return "brewhouse" if asked.is_house else "recipe"


def _loaded(text: str) -> Loaded:
    """A text as if it came from a file, which may be too long to be one of ours."""
    if len(text) * 4 <= FILE_BYTES:
        return Loaded(text, None)
    return decode(text.encode("utf-8", "surrogatepass"))


def _house_document(text: str) -> Document:
    return understood(read_document(text, "brewhouse"), "brewhouse")[0]


def _reviewed(asked: Asked, house: HouseFile | None, remedies: bool, today: str) -> Told:
    if asked.is_house:
        assert house is not None
        return Told(house.reviewed.results if house.reviewed is not None else (), house.faults)
    collection = Collection(Run(today, remedies=remedies), given=house)
    shown = shown_path(asked.path)
    results = [
        one for done in collection.text(_loaded(asked.text), asked.path) if done.path == shown for one in done.results
    ]
    return Told(tuple(results), tuple(collection.faults))
