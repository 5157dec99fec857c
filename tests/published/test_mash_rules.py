"""What published texts ask of a mash, answered by the rules: whole recipes, and what is said above a note."""

import pytest

import mashwright
import mashwright_rules.mash.beta_glucan_rest as beta_glucan
from mashwright.finding import Level


def told(*grist: str, rests: str, least: Level = Level.WARNING, rule: str = "") -> list[str]:
    """Level, rule and message of what is found from a level on, of one rule where it is named; all could judge."""
    lines = "\n".join(f"  - {{grain: {one}}}" for one in grist)
    text = f"recipe: Lane Trial\nbatch: 20 l\ngrist:\n{lines}\nmash: {{rests: [{rests}]}}\n"
    (reviewed,) = mashwright.review_text(text).recipes
    assert reviewed.unjudged == ()
    return [
        f"{one.level.word}: {one.rule}: {one.message}"
        for one in reviewed.results
        if one.level >= least and (not rule or one.rule == rule)
    ]


MALT = "two-row pale malt, weight: 3 kg"


@pytest.mark.parametrize(
    ("adjunct", "rest_c", "finding"),
    [
        (
            "maize grits",
            67,
            (
                "error: cereal-mash: without cooking, about 48 % of the starch in maize grits is released at 67"
                " °C; boil raw"
                " maize"
            ),
        ),
        (
            "rice",
            66,
            "error: cereal-mash: without cooking, about 20 % of the starch in rice is released at 66 °C; boil raw rice",
        ),
    ],
)
def test_what_is_cooked_first(adjunct: str, rest_c: float, finding: str) -> None:
    """Institute of Brewing, as quoted [iob-gel], and T. Goldammer, The Brewers' Handbook, on adjuncts
    [goldammer-adjuncts]: grits of maize and rice."""
    assert told(MALT, f"{adjunct}, weight: 1.2 kg", rests=f"{{at: {rest_c} °C, for: 60 min}}") == [
        f"{finding} before the mash"
    ]


@pytest.mark.parametrize(("adjunct", "rest_c"), [("flaked maize", 67), ("raw wheat", 66), ("potatoes", 66)])
def test_what_is_not(adjunct: str, rest_c: float) -> None:
    """The same: flakes and milled raw wheat go straight into the mash; potato starch is paste at 65 °C (C. J. Lintner,
    Dingler's Polyt. J. 273 (1889) 375-376 [lintner-1889])."""
    assert told(MALT, f"{adjunct}, weight: 1.2 kg", rests=f"{{at: {rest_c} °C, for: 60 min}}") == []


@pytest.mark.parametrize(("mash_out_c", "level"), [(76, ""), (78, ""), (79, "warning"), (80, "warning")])
def test_a_mash_out_too_hot(mash_out_c: float, level: str) -> None:
    """W. Kunze, Technologie Brauer und Mälzer, 7th ed. 1998, p. 245, as quoted [kunze-1998]: above 78 °C starch comes
    out that nothing converts; encyclopaedia article on mashing [mashing-encyclopaedia]: rarely above 78."""
    found = told(MALT, rests=f"{{at: 66 °C, for: 60 min}}, {{at: {mash_out_c} °C, for: 10 min}}", rule="mash-out")
    limit = min(mash_out_c - 1, 79)
    words = f"a mash-out at {mash_out_c} °C is above {limit} °C and draws out tannin and starch"
    assert found == ([f"{level}: mash-out: {words}; 76 °C is enough"] if level else [])


@pytest.mark.parametrize("rest_c", [40, 45, 48])
def test_a_beta_glucan_rest_by_any_of_the_published_bands(rest_c: float) -> None:
    """Encyclopaedia 40-45 °C, teaching text 37-45 [palmer-14], trade article 45-50 [mash-temperature-article], model 48
    [kettunen-1996]: a rest inside any of them, up to the model's, is one; the page names where they disagree."""
    rests = f"{{at: {rest_c} °C, for: 20 min}}, {{at: 66 °C, for: 60 min}}"
    barley = "raw barley, weight: 1.5 kg"
    assert told(MALT, barley, rests=rests, least=Level.NOTE, rule="beta-glucan-rest") == []
    without = told(MALT, barley, rests="{at: 66 °C, for: 60 min}", least=Level.NOTE, rule="beta-glucan-rest")
    assert [one.split(":")[0] for one in without] == ["note"]
    page = beta_glucan.__doc__
    assert page is not None
    assert "48 °C" in page
    assert "35-45 °C" in page


def test_a_reading_in_the_hot_mash() -> None:
    """Briggs et al. 2004, table 4.9, as quoted [briggs-2004]: 5.35 at 65 °C reads 5.70 in the cooled sample.

    The program takes a stated pH as that of a cooled sample and converts none; what is too low for one is asked about.
    """
    text = f"recipe: Lane Trial\nbatch: 20 l\ngrist:\n  - {{grain: {MALT}}}\nmash:\n  ph: 4.9\n"
    found = [one.message for one in mashwright.review_text(text).recipes[0].results if one.rule == "mash-ph"]
    assert len(found) == 1
    assert "is it a reading in the hot mash, which is about 0.35 below that of a cooled sample" in found[0]
