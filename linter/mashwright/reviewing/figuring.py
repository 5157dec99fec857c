"""The figures of one file or text, on its nearest brewhouse."""

from dataclasses import replace

from mashwright.figures.brew import Brew
from mashwright.finding import Level
from mashwright.reading.document import read_document
from mashwright.recipe.build import build_recipe
from mashwright.reviewing.files import Loaded
from mashwright.reviewing.houses import Houses
from mashwright.reviewing.plugins import ConfigurationError, installed
from mashwright.reviewing.results import shown_path
from mashwright.reviewing.review import review_loaded
from mashwright.reviewing.settings import House, Run
from mashwright.reviewing.sheet import Sheet, sheet_of


def sheet_of_loaded(loaded: Loaded, path: str) -> Sheet:
    """Every figure of a recipe, and what of it could not be read.

    Raises:
        ConfigurationError: the rules that are installed contradict each other; or the program cannot take its
            brewhouse.
    """
    houses = Houses(installed())
    file = houses.nearest(path)
    house = file.house if file is not None else houses.plain()
    for fault in file.faults if file is not None else ():
        raise ConfigurationError(f"{fault.path}: {fault.message}")
    shown = shown_path(path)
    only_reading = House(house.brewhouse, ())
    reviewed, *_ = review_loaded(loaded, shown, only_reading, Run(today="", remedies=False))
    problems = tuple(result for result in reviewed.results if result.level is Level.ERROR)
    wrong_house = file.reviewed if file is not None and file.reviewed is not None and file.reviewed.results else None
    document = read_document(loaded.text)
    if loaded.problem is not None or document.root is None:
        return Sheet(shown, "", (), (), problems, wrong_house)
    sheet = sheet_of(Brew(build_recipe(document)[0], house.brewhouse, document, bounds=house.bounds), shown)
    return replace(sheet, problems=problems, wrong_house=wrong_house)


def sheet_of_text(text: str, name: str) -> Sheet:
    """Every figure of a text under a name; it need not lie on the disk."""
    return sheet_of_loaded(Loaded(text, None), name)
