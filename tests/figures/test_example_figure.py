"""The figure that DEVELOPERS.md shows to contributors works as it stands there."""

import re
from pathlib import Path
from typing import Any

import pytest

from mashwright.brew import Brew
from mashwright.figures.function import FigureFunction
from mashwright.ingredients.bibliography import source
from mashwright.recipe.stated import Unknown

PAGE = Path(__file__).parents[2] / "DEVELOPERS.md"
GRIST = """
  - {grain: Pilsner malt, weight: 4 kg, extract: 80 %, moisture: 5 %}
  - {grain: wheat malt, weight: 2 kg, extract: 70 %, moisture: 5 %}
"""


@pytest.fixture
def shown() -> FigureFunction:
    (block,) = re.findall(r"```python\n(.*?@figure.*?)```", PAGE.read_text(encoding="utf-8"), re.DOTALL)
    names: dict[str, Any] = {}
    exec(block, names)
    (made,) = (one for one in names.values() if isinstance(one, FigureFunction))
    return made


def test_it_is_computed_and_told(shown: FigureFunction) -> None:
    told = shown(Brew.of(f"recipe: Tried\nbatch: 20 l\ngrist:{GRIST}"))
    assert (told.id, told.title, told.unit) == ("extract-brought", "Extract of the mashed grain", "kg")
    assert told.typical == pytest.approx(0.95 * (4 * 0.8 + 2 * 0.7))  # stated of the dry matter
    assert told.working() == "4 kg × 0.76, Pilsner malt\n2 kg × 0.665, wheat malt\n= 4.37 kg"
    assert told.paths == (("grist", 0), ("grist", 1))
    assert all(source(key).citation for key in told.sources)


def test_without_grain_it_cannot_be_had(shown: FigureFunction) -> None:
    with pytest.raises(Unknown):
        shown(Brew.of("recipe: Tried\nbatch: 20 l\ngrist: [{sugar: table sugar, weight: 2 kg}]\n"))
