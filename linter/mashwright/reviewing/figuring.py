"""The figures of one file or text, on its nearest brewhouse."""

from msgspec.structs import replace

from mashwright.brew.brew import Brew
from mashwright.finding import Level
from mashwright.reviewing.capping import capped
from mashwright.reviewing.files import Loaded
from mashwright.reviewing.houses import Houses, unsaved
from mashwright.reviewing.place import misread_places
from mashwright.reviewing.plugins import ConfigurationError, installed
from mashwright.reviewing.read import read
from mashwright.reviewing.results import shown_path
from mashwright.reviewing.sheet import Sheet, sheet_of


def sheet_of_loaded(text: str | Loaded, path: str, brewhouse: str | None = None) -> Sheet:
    """Every figure of a recipe, and what of it could not be read.

    Args:
        text: of the recipe, or what loading its file gave.
        path: of the recipe; it need not lie on the disk.
        brewhouse: the text of the brewhouse that counts; None for the nearest file.

    Raises:
        ConfigurationError: the rules that are installed contradict each other; or the program cannot take its
            brewhouse.
    """
    houses = Houses(installed(), given=unsaved(brewhouse) if brewhouse is not None else None)
    file = houses.nearest(path)
    house = file.house if file is not None else houses.plain()
    for fault in file.faults if file is not None else ():
        raise ConfigurationError(f"{fault.path}: {fault.message}")
    recipe = read(text, shown_path(path))
    misread = sorted(misread_places(recipe), key=lambda one: (one.place, one.rule, one.message))
    problems = tuple(result for result in capped(misread) if result.level is Level.ERROR)
    wrong_house = file.reviewed if file is not None and file.reviewed is not None and file.reviewed.results else None
    if recipe.recipe is None:
        return Sheet(recipe.path, "", (), (), problems, wrong_house)
    brew = Brew(recipe.recipe, house.brewhouse, recipe.document, bounds=house.bounds)
    return replace(sheet_of(brew, recipe.path), problems=problems, wrong_house=wrong_house)
