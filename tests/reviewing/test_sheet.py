"""The sheet of all figures: what keeps one figure from being shown never keeps the others."""

import pytest

from mashwright.brew.brew import Brew
from mashwright.figures.figure import Figure
from mashwright.figures.function import figure
from mashwright.measures.range import Range
from mashwright.recipe.stated import Unknown
from mashwright.reviewing import sheet
from mashwright.reviewing.sheet import sheet_of

TEXT = "recipe: Tried\nbatch: 20 l\ngrist: [{grain: pale ale malt, weight: 4.5 kg}]\n"


@figure("tried", unit="l")
def _tried(brew: Brew) -> Figure:
    """A figure whose working asks for more than the recipe has."""

    def working() -> str:
        raise Unknown("the boil", ("boil",))

    return Figure(Range.exact(1.0), working)


def test_a_working_that_cannot_be_shown(monkeypatch: pytest.MonkeyPatch) -> None:
    brew = Brew.of(TEXT)
    monkeypatch.setattr(sheet, "ALL", (_tried, *sheet.ALL))
    first, *others = sheet_of(brew, "tried.yaml").rows
    assert (first.id, first.missing, first.typical) == ("tried", "the boil (`boil`)", None)
    assert len(others) == len(sheet.ALL) - 1
