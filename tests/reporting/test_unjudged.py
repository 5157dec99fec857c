"""A rule that found nothing because it could not look is told in every form, apart from one that found nothing."""

import json
from pathlib import Path

import pytest

import mashwright
from mashwright.reporting import written
from mashwright.reporting.text import closing, recipe_findings
from mashwright.reviewing.results import Review

OPEN = """\
recipe: Lane Trial
batch: 20 l
grist:
  - {grain: pale ale malt, weight: 4.5 kg}
hops:
  - {hop: Fuggle, weight: 30 g, alpha: 45 %, boil: 60 min}
targets: {bitterness: 20 IBU}
"""
NEEDS = "a plausible alpha acid of Fuggle"


@pytest.fixture
def review() -> Review:
    return mashwright.review_text(OPEN)


def test_the_rule_that_tells_of_the_slip_is_not_among_them(review: Review) -> None:
    (recipe,) = review.recipes
    assert [result.rule for result in recipe.results] == ["hop-alpha"]
    assert [(one.rule, one.missing, one.pointer, one.place.line, one.place.column) for one in recipe.unjudged] == [
        ("bitterness", NEEDS, "/hops/0/alpha", 6, 40),
    ]


def test_text(review: Review) -> None:
    (recipe,) = review.recipes
    lines = list(recipe_findings(recipe, notes=True, colour=False))
    assert lines[-2:] == [f"recipe.yaml:6:40: open: 1 rule cannot judge; it needs {NEEDS}", "    bitterness"]
    assert not any("open:" in line for line in recipe_findings(recipe, notes=False, colour=False))


def test_the_closing_line_counts_them(review: Review) -> None:
    said = "1 rule could not judge 1 recipe"
    assert closing(review) == f"1 recipe reviewed: 1 error; {said} (--notes shows why)"
    assert closing(review, notes=True) == f"1 recipe reviewed: 1 error; {said}"
    assert said in written("markdown", review)


def test_json(review: Review) -> None:
    document = json.loads(written("json", review))
    told = {"rule": "bitterness", "needs": NEEDS, "pointer": "/hops/0/alpha", "line": 6, "column": 40}
    assert document["recipes"][0]["open"][0] == told
    assert document["counts"]["open"] == 1


def test_sarif_has_them_as_open_without_a_level(review: Review) -> None:
    run = json.loads(written("sarif", review))["runs"][0]
    (told, *_) = [one for one in run["results"] if one.get("kind") == "open"]
    assert (told["ruleId"], told["level"]) == ("bitterness", "none")
    assert run["tool"]["driver"]["rules"][told["ruleIndex"]]["id"] == "bitterness"
    assert told["message"] == {"text": f"this rule cannot judge; it needs {NEEDS}"}
    assert told["locations"][0]["physicalLocation"]["region"]["startLine"] == 6


def test_junit_has_them_beside_the_case(review: Review) -> None:
    assert f"could not judge: bitterness; it needs {NEEDS} (line 6)" in written("junit", review)


def test_a_terse_recipe_stays_silent() -> None:
    review = mashwright.review_text("recipe: Terse\nbatch: 20 l\ngrist:\n  - {grain: pale ale malt, weight: 4.5 kg}\n")
    assert review.recipes[0].unjudged == ()
    assert closing(review) == "1 recipe reviewed: no errors, no warnings"


def test_green_and_could_not_look_print_differently(tmp_path: Path) -> None:
    """A club that switches the slip's own rule off still sees that nothing was judged."""
    (tmp_path / ".git").mkdir()
    (tmp_path / "brewhouse.yaml").write_text("brewhouse: Saltmarsh Lane\nrules: {unit-slip: off}\n")
    (tmp_path / "recipe.yaml").write_text(
        "recipe: Heavy\nbatch: 3 l\ngrist:\n  - {grain: pale ale malt, weight: 4 kg}\n"
    )
    review = mashwright.review([str(tmp_path / "recipe.yaml")])
    assert [one.results for one in review.recipes] == [()]
    assert "rules could not judge 1 recipe" in closing(review)
