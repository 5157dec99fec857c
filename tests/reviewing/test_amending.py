"""Mending to the end: over all samples and the faulty recipe of every rule, in other line ends and styles."""

from pathlib import Path

import pytest

from mashwright import review_text
from mashwright.reviewing.amending import amend, applied
from mashwright.reviewing.plugins import example_of, installed
from mashwright.reviewing.results import READING_RULES, Reviewed

SAMPLES = sorted((Path(__file__).parents[2] / "sample-recipes").glob("**/*.yaml"))
TEXTS = {path.stem: path.read_text(encoding="utf-8") for path in SAMPLES if path.name != "brewhouse.yaml"}


def faulty() -> dict[str, str]:
    found = {}
    for rule in installed().rules.values():
        example = example_of(rule.id, rule)
        if example is not None and "with this brewhouse.yaml" not in example[1] and isinstance(example[1], str):
            found[rule.id] = example[1]
    return found


TEXTS |= faulty()


def review(text: str) -> Reviewed | None:
    return next((one for one in review_text(text, brewhouse="{}").recipes if one.path == "recipe.yaml"), None)


def worst(reviewed: Reviewed | None) -> int:
    return sum(1 for one in reviewed.results if one.level > 1) if reviewed is not None else 0


@pytest.mark.parametrize("name", TEXTS)
def test_mending_helps_ends_and_leaves_the_rest_alone(name: str) -> None:
    text = TEXTS[name]
    before = review(text)
    done = amend(text, review)
    after = review(done.text)
    assert bool(done.changes) is (done.text != text)
    slips = sum(1 for one in before.results if one.rule in READING_RULES) if before is not None else 0
    if not slips:  # what a slip hid is found once it is mended
        assert worst(after) <= worst(before) - (1 if done.changes else 0)
    again = amend(done.text, review)
    assert again.changes == ()
    assert again.text == done.text
    assert done.text.count("#") == text.count("#")
    assert amend(text, review) == done


@pytest.mark.parametrize("name", [name for name in TEXTS if review(TEXTS[name]) is not None])
def test_every_edit_that_is_offered_parses_and_removes_its_finding(name: str) -> None:
    text = TEXTS[name]
    before = review(text)
    assert before is not None
    for result in before.results:
        for remedy in result.remedies:
            pieces = [edit.replacement for edit in remedy.edits]
            if not pieces:
                continue
            better = applied(text, pieces)
            outside = text
            for piece in sorted(pieces, key=lambda one: one.span, reverse=True):
                outside = outside[: piece.span.start] + outside[piece.span.end :]
            kept = better
            for piece in pieces:
                kept = kept.replace(piece.text, "", 1)
            assert sorted(kept) == sorted(outside)
            after = review(better)
            assert after is not None
            assert (result.identity, result.message) not in [(one.identity, one.message) for one in after.results]
            if result.rule not in READING_RULES:
                gained = {one.rule for one in after.results if one.level > 1} - {one.rule for one in before.results}
                assert gained == set(), remedy.text
