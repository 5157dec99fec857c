"""Each limit of each rule has an example on either side of it: moved by a quarter, it judges that one anew.

``limits.txt`` keeps the examples, each between two lines of three hyphens: a line for each setting that the recipe
holds (``rule: setting: value, value``), an empty line, the recipe with ``<>`` where a value goes, after ``&&&`` a
second one for a rule about several, and after ``+++`` a brewhouse where one is needed. With the first value the verdict
changes when the limit is lowered, with the second when it is raised; a hyphen stands where another example holds that
side.
"""

import re
from collections.abc import Callable
from pathlib import Path
from typing import NamedTuple

import pytest

import mashwright
from mashwright.reviewing.plugins import Rule, installed
from mashwright.rule import Limit

Found = Callable[..., list[str]]

RULES = [rule_id.replace("-", "_") for rule_id in installed().rules]
LOWERED, RAISED = "lowered", "raised"


class Side(NamedTuple):
    """An example of one side of one limit."""

    rule: str
    setting: str
    way: str
    recipe: str
    brewhouse: str


def sides() -> list[Side]:
    """The examples as they are kept."""
    found = []
    for block in (Path(__file__).parent / "limits.txt").read_text(encoding="utf-8").split("---\n"):
        held, _, text = block.partition("\n\n")
        recipe, _, brewhouse = text.partition("+++\n")
        for line in held.splitlines():
            rule, setting, values = line.split(": ")
            for way, value in zip((LOWERED, RAISED), values.split(", "), strict=True):
                if value != "-":
                    found.append(Side(rule, setting, way, recipe.replace("<>", value), brewhouse.replace("<>", value)))
    return found


SIDES = sides()


def rule_of(name: str) -> Rule:
    return installed().rules[name.replace("_", "-")]


def limits(rule: str) -> dict[str, Limit]:
    """A rule's limits by their attribute."""
    return {limit.attribute: limit for limit in rule_of(rule).limits.limits().values()}


def moved(limit: Limit, way: str) -> float:
    """A quarter of the way to what it may be set to at most; past that, where it stands there already."""
    end = limit.low if way == LOWERED else limit.high
    if end != limit.default:
        return limit.default + (end - limit.default) / 4
    return limit.default + (abs(limit.default) / 4 if way == RAISED else -abs(limit.default) / 4)


def without_numbers(told: list[str]) -> list[str]:
    """What is found, where, and in which words; the numbers are left out, for the limit itself is among them."""
    placed = (one.split(":", 2) for one in told)
    return [":".join((*where, re.sub(r"[0-9][0-9.,:]*", "#", what))) for *where, what in placed]


@pytest.mark.parametrize("side", SIDES, ids=[f"{one.rule}-{one.setting}-{one.way}" for one in SIDES])
def test_the_verdict_hangs_on_the_limit(found: Found, mended: Found, side: Side) -> None:
    limit = limits(side.rule)[side.setting]
    value = moved(limit, side.way)
    if rule_of(side.rule).check_collection is not None:
        setting = f"rules: {{{side.rule.replace('_', '-')}: {{{limit.key}: {value} {limit.unit}}}}}\n"
        assert of_several(side, "") != of_several(side, setting)
        return
    here = side.rule, side.recipe, side.brewhouse
    verdict, other = found(*here), found(*here, **{side.setting: value})
    if without_numbers(verdict) == without_numbers(other):  # it may be one that only a remedy goes by
        assert mended(*here) != mended(*here, **{side.setting: value})


def of_several(side: Side, setting: str) -> list[str]:
    return mashwright.try_rule(
        rule_of(side.rule).module, *side.recipe.split("&&&\n"), brewhouse=side.brewhouse + setting
    )


def test_every_limit_is_held_on_both_sides() -> None:
    held = {(side.rule, side.setting, side.way) for side in SIDES}
    every = {(rule, name, way) for rule in RULES for name in limits(rule) for way in (LOWERED, RAISED)}
    assert held | set(NOT_HELD) == every
    assert not held & set(NOT_HELD)


NOT_HELD = {
    ("cereal_mash", "hottest_c", LOWERED): "no example found: it only picks the rest that a remedy warms",
    ("cereal_mash", "hottest_c", RAISED): "no example found, as lowered",
    ("colour", "usually_darker_times", RAISED): "no example found: a grist so much darker is outside of its range too",
    ("no_base_malt", "hopeless_lintner", LOWERED): "no example found: no malt without enzymes may have so many",
    ("no_base_malt", "hopeless_lintner", RAISED): "no example found, as lowered",
    ("style_range", "black_srm", LOWERED): "no style of the table ends between 37.5 and 40 SRM",
    ("unknown_ingredient", "slip_percent", RAISED): "no example found: a name that is alike by 90 to 92.5 %",
}
"""Sides without an example, and why."""
