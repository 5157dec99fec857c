"""An unknown ingredient may be anything of its sort: what cannot be even so is told, what hangs on it is open."""

import mashwright
from mashwright.finding import Level
from mashwright.reporting.text import closing

RECIPE = """\
recipe: Marsh Red
batch: 20 l
grist:
  - {{grain: {grain}, weight: {weight}}}
  - {{grain: pale ale malt, weight: 2 kg}}
targets: {{{targets}}}
hops:
  - {{hop: {hop}, weight: 30 g, boil: 60 min}}
"""


def judged(
    targets: str, grain: str = "Wharf Red Special", weight: str = "2 kg", hop: str = "Fuggle"
) -> tuple[list[str], list[str]]:
    """Errors and warnings apart from the name itself, and the rules that could not judge."""
    (recipe,) = mashwright.review_text(RECIPE.format(grain=grain, weight=weight, targets=targets, hop=hop)).recipes
    others = [one for one in recipe.results if one.level > Level.NOTE and one.rule != "unknown-ingredient"]
    found = [f"{one.level.word}: {one.rule}" for one in others]
    return found, [one.rule for one in recipe.unjudged]


def test_a_gravity_that_no_grain_gives_is_an_error() -> None:
    assert judged("og: 1.090") == (["error: original-gravity"], [])


def test_a_gravity_that_some_grain_gives_is_none() -> None:
    assert judged("og: 1.044") == ([], [])


def test_a_colour_that_hangs_on_it_is_open() -> None:
    assert judged("colour: 40 SRM") == ([], ["colour"])


def test_a_little_of_it_changes_nothing() -> None:
    assert judged("og: 1.045", weight="200 g")[1] == []


def test_bitterness_of_an_unknown_hop() -> None:
    assert judged("bitterness: 200 IBU", hop="hedge hop", grain="pale ale malt")[0] == ["error: bitterness"]
    assert judged("bitterness: 40 IBU", hop="hedge hop", grain="pale ale malt") == ([], ["bitterness"])


def test_no_mend_is_offered_that_hangs_on_it() -> None:
    (recipe,) = mashwright.review_text(
        RECIPE.format(grain="Wharf Red Special", weight="2 kg", targets="og: 1.090", hop="Fuggle")
    ).recipes
    assert [one.remedies for one in recipe.results if one.rule == "original-gravity"] == [()]


def test_the_closing_line_says_so() -> None:
    text = RECIPE.format(grain="Wharf Red Special", weight="2 kg", targets="colour: 40 SRM", hop="Fuggle")
    assert "1 rule could not judge 1 recipe" in closing(mashwright.review_text(text))


def test_figures_are_as_wide_as_what_it_may_be_and_say_why() -> None:
    text = RECIPE.format(grain="Wharf Red Special", weight="2 kg", targets="og: 1.044", hop="Fuggle")
    rows = {row.id: row for row in mashwright.figures_of(text).rows}
    known = {row.id: row for row in mashwright.figures_of(text.replace("Wharf Red Special", "Munich malt")).rows}
    for figure in ("og", "highest-og", "colour", "grist-diastatic-power"):
        low, high = rows[figure].low, rows[figure].high
        assert low is not None
        assert high is not None
        assert (low <= (known[figure].low or 0), high >= (known[figure].high or 0)) == (True, True), figure
        assert "the widest possible range; unknown is what Wharf Red Special is" in rows[figure].assumed
