"""What the README shows is what the program does."""

import re
from pathlib import Path

import mashwright
from mashwright.finding import Level

ROOT = Path(__file__).parent.parent
README = (ROOT / "README.md").read_text(encoding="utf-8")


def blocks(language: str) -> list[str]:
    return re.findall(rf"^```{language}\n(.*?)^```$", README, re.MULTILINE | re.DOTALL)


def test_the_review_shown_is_part_of_the_samples_review() -> None:
    shown = next(block for block in blocks("") if block.startswith("sample-recipes/"))
    golden = (ROOT / "tests/golden/sample-review.txt").read_text(encoding="utf-8")
    findings = re.split(r"^(?=sample-recipes/)", shown, flags=re.MULTILINE)[1:]
    assert len(findings) == 4
    for finding in findings:
        assert finding in golden


def test_the_recipe_shown_is_sound() -> None:
    recipe = next(block for block in blocks("yaml") if block.startswith("recipe:"))
    results = mashwright.review_text(recipe).recipes[0].results
    assert [result.message for result in results if result.level > Level.NOTE] == []


def test_the_brewhouse_shown_is_sound() -> None:
    brewhouse = next(block for block in blocks("yaml") if block.startswith("brewhouse:"))
    review = mashwright.review_text(brewhouse, "brewhouse.yaml")
    assert review.recipes == ()
    faulty = mashwright.review_text(brewhouse.replace("floor", "flor"), "brewhouse.yaml")
    assert [result.message for result in faulty.recipes[0].results] == [
        "enzyme-sufficiency has no setting flor; did you mean floor?"
    ]


def test_the_acceptance_shown_can_be_read() -> None:
    accepted = next(block for block in blocks("yaml") if block.startswith("accepted:"))
    recipe = "recipe: Lane Wheat\nbatch: 20 l\ngrist:\n  - {grain: wheat malt, weight: 5 kg}\n" + accepted
    results = mashwright.review_text(recipe, today="2026-11-25").recipes[0].results
    assert [(result.rule, result.accepted is not None) for result in results if result.level > Level.NOTE] == [
        ("run-off", True)
    ]


def test_contributors_are_given_the_same_test_command() -> None:
    command = next(block for block in blocks("") if block.rstrip().endswith("pytest"))
    assert command in (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
