"""The nearest brewhouse.yaml above a recipe, up to the root of the repository; each is read once in a run."""

import os
from typing import NamedTuple

from msgspec import Struct, field

from mashwright.crash import missing_part, of_file
from mashwright.reading.document import Document
from mashwright.recipe.brewhouse import Brewhouse
from mashwright.reviewing.files import BREWHOUSE_NAMES, Loaded, house_in, load
from mashwright.reviewing.plugins import Installed, installed
from mashwright.reviewing.read_house import read_house
from mashwright.reviewing.repository import is_top
from mashwright.reviewing.results import Fault, Reviewed, shown_path
from mashwright.reviewing.settings import House, house_of
from mashwright.reviewing.trusted import Trusted


class HouseFile(NamedTuple):
    """A brewhouse as read from a file.

    Attributes:
        folder: where it lies, or would lie beside the recipes under review; its globs count from there.
        reviewed: its own findings; None where the program could not take it.
        document: its text with places.
        faults: the program's own, on it.
    """

    house: House
    path: str
    folder: str
    reviewed: Reviewed | None
    document: Document
    faults: tuple[Fault, ...] = ()


class Houses(Struct):
    """Finds brewhouses and keeps those that it has read.

    Attributes:
        trusted: the copy whose brewhouses count for recipes under review; None where theirs do.
        given: the one that counts for every recipe, such as a text that nobody has saved; None to look for files.
    """

    found: Installed
    trusted: Trusted | None = None
    given: HouseFile | None = None
    _files: dict[str, HouseFile] = field(default_factory=dict)
    _shown: dict[str, HouseFile] = field(default_factory=dict)
    _nearest: dict[str, HouseFile | None] = field(default_factory=dict)
    _loaded: dict[str, Loaded] = field(default_factory=dict)
    _plain: House | None = None

    def plain(self) -> House:
        """A brewhouse that says nothing."""
        if self._plain is None:
            self._plain = house_of(Brewhouse(), self.found)
        return self._plain

    def nearest(self, recipe_path: str) -> HouseFile | None:
        """The brewhouse for a recipe, or None."""
        if self.given is not None:
            return self.given
        folder = os.path.dirname(os.path.abspath(recipe_path))
        return self._of(self.trusted.twin(folder) if self.trusted is not None else folder)

    def _of(self, folder: str) -> HouseFile | None:
        below: list[str] = []
        while folder not in self._nearest:  # a loop, since folders may lie deeper than functions can call each other
            below.append(folder)
            here = house_in(folder)
            if here is not None:
                self._nearest[folder] = self.read(here)
            elif self._ends_at(folder) or os.path.dirname(folder) == folder:
                self._nearest[folder] = None
            else:
                folder = os.path.dirname(folder)
        known = self._nearest[folder]
        self._nearest.update(dict.fromkeys(below, known))
        return known

    def _ends_at(self, folder: str) -> bool:
        """Whether nothing above a folder is looked at: it is the top of a repository, under review or trusted."""
        if self.trusted is None:
            return is_top(folder)
        return folder == self.trusted.folder or is_top(folder) or is_top(self.trusted.back(folder))

    def known(self, shown: str) -> HouseFile:
        """A brewhouse by its path as reports show it; one that another process has read is read here."""
        if self.given is not None and self.given.path == shown:
            return self.given
        return self._shown.get(shown) or self.read(shown)

    def read(self, path: str) -> HouseFile:
        """A brewhouse file with what is wrong in it."""
        key = os.path.abspath(path)
        if key not in self._files:
            loaded, shown, folder = self.loaded(path), shown_path(path), os.path.dirname(key)
            if self.trusted is not None and self.trusted.holds(key):
                twin = self.trusted.back(key)
                folder = os.path.dirname(twin)
                if self.loaded(twin).text == loaded.text:
                    shown = shown_path(twin)  # there it can be looked at beside the recipes
            self._files[key] = self._shown[shown] = self.of_text(loaded, shown, folder)
        return self._files[key]

    def loaded(self, path: str) -> Loaded:
        """The text of a brewhouse file; where a trusted copy counts, the one under review is looked at beside it."""
        if self.trusted is None:
            return load(path)
        key = os.path.abspath(path)
        if key not in self._loaded:
            self._loaded[key] = load(path)
        return self._loaded[key]

    def of_text(self, text: str | Loaded, shown: str, folder: str = "") -> HouseFile:
        """A brewhouse by its text. What the program itself cannot take is told, and its recipes are reviewed without.

        Args:
            text: of a brewhouse, or what loading a file gave.
            shown: its path, as reports are to show it.
            folder: where it lies.
        """
        try:
            house, reviewed, document = read_house(text, shown, self.found)
        except Exception as error:
            if missing_part(error) is not None:
                raise
            fault = Fault("", shown, of_file(error, "brewhouse"))
            return HouseFile(self.plain(), shown, folder, None, Document("", None), (fault,))
        return HouseFile(house, shown, folder, reviewed, document)


def unsaved(text: str) -> HouseFile:
    """A brewhouse that is nothing but a text, such as one in an editor; it lies in no folder.

    Raises:
        ConfigurationError: the rules that are installed contradict each other.
    """
    return Houses(installed()).of_text(text, BREWHOUSE_NAMES[0])
