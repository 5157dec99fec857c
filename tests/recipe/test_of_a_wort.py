"""Every section that is one wort's own reaches its beer."""

from mashwright.brew import Brew
from mashwright.recipe.model import Recipe, Wort

TWO = """\
recipe: Two
grist: [{grain: pale ale malt, weight: 9 kg}]
mash: {water: 24 l, rests: [{at: 66 °C, for: 60 min}]}
worts:
  - {wort: Anchor, runnings: {first: all}, batch: 10 l}
  - wort: Buoy
    runnings: rest
    batch: 12 l
    chill: {by: no-chill}
    aeration: {by: air}
    souring: {in: kettle}
    package: [{in: keg}, {in: cask}]
"""


def test_what_a_wort_has_for_itself_is_its_beers() -> None:
    first, second = (Brew.of(TWO).recipe.of_wort(number) for number in (0, 1))
    assert (first.chill.known, first.aeration.known, first.souring.known) == (False, False, False)
    assert (second.chill.by, second.aeration.by, second.souring.place) == ("no-chill", "air", "kettle")
    assert [one.vessel for one in second.packages] == ["keg", "cask"]


def test_no_section_of_a_wort_is_left_behind() -> None:
    own = set(Wort.__struct_fields__) - {"path", "name", "style", "runnings", "grist"}
    assert own <= set(Recipe.__struct_fields__)
    assert {"chill", "aeration", "souring", "package", "beside"} <= own
