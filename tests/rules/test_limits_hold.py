"""Each limit of each rule has an example on either side of it: moved by a quarter, it judges that one anew.

``limits.txt`` keeps the examples, each with a line of three hyphens at its end: a line for each setting that the recipe
holds (``rule: setting: value, value``), an empty line, the recipe with ``<>`` where a value goes, after ``&&&`` a
second one for a rule about several, and after ``+++`` a brewhouse where one is needed. With the first value the verdict
changes when the limit is lowered, with the second when it is raised; a hyphen stands where another example holds that
side.
"""

import os
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
MEANT = "if this is meant, RENEW_GOLDEN=1 writes it anew; then read the diff"
GOLDEN = Path(__file__).parent.parent / "golden" / "rules"


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
    *blocks, rest = (Path(__file__).parent / "limits.txt").read_text(encoding="utf-8").split("---\n")
    assert rest == "", "an example in limits.txt ends in a line of three hyphens, the last one too"
    for block in blocks:
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
    assert sorted(every - held - set(NOT_HELD)) == [], (
        "write an example of each in limits.txt, as this module's docstring shows"
    )
    assert sorted((held | set(NOT_HELD)) - every) == [], "examples of limits that are gone"
    assert sorted(held & set(NOT_HELD)) == [], "held by an example and yet in NOT_HELD"


@pytest.mark.parametrize("rule", RULES)
def test_what_its_examples_are_told(printed: Found, rule: str) -> None:
    """Whole, as a review prints it: level, words, the sum beside it, the remedy and by how much it misses.

    Renewed by RENEW_GOLDEN=1, which still fails where anything changed: read the change as a brewer would.
    """
    module = rule_of(rule).module
    sound, faulty = getattr(module, "SOUND", ""), module.FAULTY
    examples = [("SOUND", sound, ""), ("FAULTY", getattr(faulty, "recipe", ""), getattr(faulty, "brewhouse", ""))]
    examples += [(f"{one.setting} {one.way}", one.recipe, one.brewhouse) for one in SIDES if one.rule == rule]
    told = []
    for name, recipe, brewhouse in examples:
        if recipe and rule_of(rule).check is not None:
            told += [f"{name}:", *printed(rule, recipe, brewhouse), ""]
    text = "\n".join(told)
    path = GOLDEN / f"{rule.replace('_', '-')}.txt"
    before = path.read_text(encoding="utf-8") if path.exists() else ""
    if os.environ.get("RENEW_GOLDEN") and text:
        path.write_text(text, encoding="utf-8")
    assert text == before, MEANT


VERBS = {
    "add", "boil", "bring", "carbonate", "change", "close", "cook", "cut", "leave", "mash", "move", "package", "pitch",
    "put", "rest", "set", "sparge", "steep", "strike", "take", "use", "write",
}  # fmt: skip
"""What a brewer or a writer of recipes does; the first word of every mend."""


def test_every_mend_begins_with_a_verb() -> None:
    mends = [
        line
        for path in GOLDEN.iterdir()
        for line in path.read_text(encoding="utf-8").splitlines()
        if line.startswith(("    mend it: ", "    or: "))
    ]
    assert len(mends) > 200
    assert [line for line in mends if line.split(": ", 1)[1].split()[0] not in VERBS] == []


def test_no_rule_is_told_of_that_is_gone() -> None:
    assert {path.stem.replace("-", "_") for path in GOLDEN.iterdir()} <= set(RULES)


@pytest.mark.parametrize("rule", RULES)
def test_its_settings_are_those_that_brewhouses_may_write(rule: str) -> None:
    """A name, a unit or a bound that changed is another language for those who wrote a brewhouse.yaml."""
    settings = [
        f"{rule_of(rule).id}: {key}: {one.default:g} {one.unit}, {one.low:g} to {one.high:g} [{one.source}]"
        for key, one in rule_of(rule).limits.limits().items()
    ]
    path = GOLDEN.parent / "settings.txt"
    every = path.read_text(encoding="utf-8").splitlines()
    before = [line for line in every if line.startswith(f"{rule_of(rule).id}: ")]
    if os.environ.get("RENEW_GOLDEN"):
        renewed = sorted([*(line for line in every if line not in before), *settings])
        path.write_text("".join(f"{line}\n" for line in renewed), encoding="utf-8")
    assert sorted(settings) == before, MEANT


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
