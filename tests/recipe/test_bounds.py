"""Shares of which there can be no more: one finding, and no basis for a sum."""

import pytest

from mashwright.reading.document import read_document
from mashwright.recipe.build import build_recipe


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("grist: [{grain: pale malt, moisture: 200 %}]", "a moisture of 200 % is not possible; at most 100 % is"),
        ("grist: [{grain: pale malt, extract: 300 %}]", "an extract of 300 % is not possible; at most 105 % is"),
        ("grist: [{grain: pale malt, extract: 60 ppg}]", "an extract of 60 ppg is not possible; at most 48.5 ppg is"),
        ("grist: [{grain: pale malt, share: 140 %}]", "a share of 140 % is not possible; at most 100 % is"),
        ("yeast: {attenuation: 300 %}", "an attenuation of 300 % is not possible; at most 125 % is"),
        ("yeast: {tolerance: 90 %}", "a tolerance of 90 % is not possible; at most 30 % is"),
    ],
)
def test_more_than_there_can_be(text: str, message: str) -> None:
    recipe, problems = build_recipe(read_document(text))
    assert [problem.message for problem in problems] == [message]
    assert problems[0].path in recipe.unread


def test_the_bound_itself_can_be() -> None:
    text = "grist: [{grain: pale malt, moisture: 100 %, extract: 105 %}]\nyeast: {attenuation: 122 %}"
    assert build_recipe(read_document(text))[1] == ()
