"""A brewhouse's settings for each rule: taken in their own units, and told of where they cannot be used."""

from collections.abc import Callable

import pytest

from mashwright.finding import Level
from mashwright.reading.document import read_document
from mashwright.recipe.build_brewhouse import build_brewhouse
from mashwright.reviewing.plugins import installed
from mashwright.reviewing.settings import House, house_of
from mashwright.rule import Limit, Settings

RULE = '''
"""Is it so?"""
from mashwright.rule import Limit, Settings

ALIASES = ("old-name",)

class Limits(Settings):
    floor_lintner = Limit(30, "°Lintner", low=15, high=100, source="judgement")
    hottest_c = Limit(75, "°C", old=("warmest", "top"), low=60, high=90, source="judgement")
    longest_min = Limit(90, "min", low=10, high=600, source="judgement")
    most_percent = Limit(40, "% of grist", low=0, high=100, source="judgement")
    thinnest_l_per_kg = Limit(6, "l/kg", low=1, high=12, source="judgement")
    allowed_points = Limit(3, "points", low=0, high=20, source="judgement")
    fold = Limit(2, "", low=1, high=5, source="judgement")

def check(brew, limits):
    return ()
'''


@pytest.fixture(autouse=True)
def two_rules(install: Callable[..., None]) -> None:
    install(ours={"one_rule": RULE, "another_rule": RULE.replace("old-name", "older-name")})


def house(rules: str) -> House:
    brewhouse, _ = build_brewhouse(read_document(f"brewhouse: Shed\nrules: {rules}\n"))
    return house_of(brewhouse, installed())


def values(rules: str) -> dict[str, float]:
    made = house(rules)
    assert made.problems == ()
    return next(dict(one.limits.values) for one in made.rules if one.rule.id == "one-rule")


def problems(rules: str) -> list[tuple[str, str]]:
    return [("/".join(str(step) for step in one.path), one.message) for one in house(rules).problems]


def test_without_settings_every_rule_runs_with_its_own() -> None:
    made = house("{}")
    assert [(one.rule.id, one.limits.values, one.ceiling) for one in made.rules] == [
        ("another-rule", {}, Level.ERROR),
        ("one-rule", {}, Level.ERROR),
    ]
    limits = made.rules[1].limits
    assert (limits.floor_lintner, limits.fold) == (30, 2)  # type: ignore[attr-defined]


@pytest.mark.parametrize(
    ("setting", "value"),
    [
        ("floor: 35 °Lintner", {"floor_lintner": 35}),
        ("floor: 124 °WK", {"floor_lintner": 40}),
        ("hottest: 167 °F", {"hottest_c": 75}),
        ("longest: 2 h", {"longest_min": 120}),
        ("most: 25 %", {"most_percent": 25}),
        ("thinnest: 5 l/kg", {"thinnest_l_per_kg": 5}),
        ("thinnest: 2 qt/lb", {"thinnest_l_per_kg": 4.172702}),
        ("fold: 1.5", {"fold": 1.5}),
        ("allowed: 4", {"allowed_points": 4}),
        ("allowed: 4 points", {"allowed_points": 4}),
        ("floor: 15 °Lintner, most: 0 %", {"floor_lintner": 15, "most_percent": 0}),
    ],
)
def test_settings_in_units_of_the_trade(setting: str, value: dict[str, float]) -> None:
    assert values(f"{{one-rule: {{{setting}}}}}") == pytest.approx(value)


@pytest.mark.parametrize(
    ("setting", "path", "message"),
    [
        ("floor: 35", "floor", 'the floor "35" has no unit; write 35 °Lintner or 35 °WK'),
        ("floor: 5 °Lintner", "floor", "floor must be between 15 and 100 °Lintner, not 5 °Lintner"),
        ("floor: 120 °Lintner", "floor", "floor must be between 15 and 100 °Lintner, not 120 °Lintner"),
        ("fold: 9", "fold", "fold must be between 1 and 5, not 9"),
        ("fold: lots", "fold", 'the fold "lots" is not a number; write a number, for instance 2'),
        ("hotest: 70 °C", "hotest", "one-rule has no setting hotest; did you mean hottest?"),
        (
            "x: 1",
            "x",
            "one-rule has no setting x; it has level, floor, hottest, longest, most, thinnest, allowed, fold",
        ),
        ("level: fatal", "level", "fatal is not a level; write warning or note"),
        ("level: error", "level", "error changes nothing here; write warning or note, or leave it out"),
    ],
)
def test_settings_that_cannot_be_used(setting: str, path: str, message: str) -> None:
    assert problems(f"{{one-rule: {{{setting}}}}}") == [(f"rules/one-rule/{path}", message)]


@pytest.mark.parametrize(
    ("rules", "path", "message"),
    [
        ("{won-rule: off}", "rules/won-rule", "no rule is called won-rule; did you mean one-rule?"),
        ("{x: off}", "rules/x", "no rule is called x; mashwright explain lists the rules that are installed"),
        ("{field: off}", "rules/field", "field says what cannot be read, and can be neither set nor accepted"),
        ("{one-rule: on}", "rules/one-rule", "one-rule may be off, or have settings in braces"),
    ],
)
def test_rules_that_cannot_be_set(rules: str, path: str, message: str) -> None:
    assert problems(rules) == [(path, message)]
    assert [one.rule.id for one in house(rules).rules] == ["another-rule", "one-rule"]


def test_a_rule_that_is_off_and_one_under_a_ceiling() -> None:
    made = house("{one-rule: off, another-rule: {level: note}}")
    assert made.problems == ()
    assert [(one.rule.id, one.ceiling) for one in made.rules] == [("another-rule", Level.NOTE)]


def test_an_old_name_stands_for_the_new_one() -> None:
    assert values("{old-name: {fold: 3}}") == {"fold": 3}
    assert problems("{old-name: {fold: 9}}") == [("rules/old-name/fold", "fold must be between 1 and 5, not 9")]
    assert problems("{old-name: on}") == [("rules/old-name", "one-rule may be off, or have settings in braces")]


@pytest.mark.parametrize(("text", "level"), [("error", Level.ERROR), ("note", Level.NOTE), ("never", Level.ERROR)])
def test_the_level_from_which_a_review_fails(text: str, level: Level) -> None:
    brewhouse, _ = build_brewhouse(read_document(f"stop-at: {text}\n"))
    assert house_of(brewhouse, installed()).stop_at is level


@pytest.mark.parametrize("name", ["hottest", "warmest", "top"])
def test_a_setting_is_read_by_its_old_names(name: str) -> None:
    assert values(f"{{one-rule: {{{name}: 167 °F}}}}") == pytest.approx({"hottest_c": 75})


def test_an_old_name_is_told_by_what_was_written() -> None:
    assert problems("{one-rule: {warmest: 20 °C}}") == [
        ("rules/one-rule/warmest", "warmest must be between 60 and 90 °C, not 20 °C")
    ]
    assert problems("{one-rule: {warmest: 70 °C, top: 71 °C}}") == [
        ("rules/one-rule/top", "warmest and top are one setting; keep hottest")
    ]


def test_a_setting_may_have_a_name_of_its_own() -> None:
    limit = Limit(3, "points", name="may-miss", low=0, high=20, source="judgement")
    assert list(type("Limits", (Settings,), {"allowed_points": limit}).limits()) == ["may-miss"]


@pytest.mark.parametrize(
    ("attribute", "unit", "name"),
    [
        ("floor_lintner", "°Lintner", "floor"),
        ("least_g_per_l", "g/l", "least"),
        ("most_percent", "% of grist", "most"),
        ("weak_plato", "°P", "weak"),
        ("acid_meq_per_kg", "mEq/kg", "acid"),
        ("lowest_ph", "pH", "lowest"),
        ("equal_days", "d", "equal-days"),
        ("old_before", "", "old-before"),
        ("most_in_a_share", "%", "most-in-a-share"),
        ("hottest_c", "°F", "hottest-c"),
        ("points", "points", "points"),
    ],
)
def test_the_name_is_the_attribute_without_the_declared_unit(attribute: str, unit: str, name: str) -> None:
    made = type("Limits", (Settings,), {attribute: Limit(1, unit, low=0, high=2, source="judgement")})
    assert list(made.limits()) == [name]
