"""Shares of which there can be no more: one finding, and no basis for a sum."""

import pytest

from mashwright.reading.document import read_document
from mashwright.recipe.build import build_recipe


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("grist: [{grain: pale malt, moisture: 200 %}]", "a moisture of 200 % cannot be, 100 % at the most"),
        ("grist: [{grain: pale malt, extract: 300 %}]", "an extract of 300 % cannot be, 105 % at the most"),
        ("grist: [{grain: pale malt, extract: 60 ppg}]", "an extract of 60 ppg cannot be, 48.5 ppg at the most"),
        ("grist: [{grain: pale malt, share: 140 %}]", "a share of 140 % cannot be, 100 % at the most"),
        ("yeast: {attenuation: 300 %}", "an attenuation of 300 % cannot be, 125 % at the most"),
        ("yeast: {tolerance: 90 %}", "a tolerance of 90 % cannot be, 30 % at the most"),
    ],
)
def test_more_than_there_can_be(text: str, message: str) -> None:
    recipe, problems = build_recipe(read_document(text))
    assert [problem.message for problem in problems] == [message]
    assert problems[0].path in recipe.unread


def test_the_bound_itself_can_be() -> None:
    text = "grist: [{grain: pale malt, moisture: 100 %, extract: 105 %}]\nyeast: {attenuation: 122 %}"
    assert build_recipe(read_document(text))[1] == ()
