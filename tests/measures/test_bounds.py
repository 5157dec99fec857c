"""One home for each bound of what can be meant: the figures and the rule that tells of a slip never part."""

from pathlib import Path

import pytest
from msgspec.structs import fields

import mashwright
from mashwright.measures.bounds import USUAL, Bounds
from mashwright.reviewing.plugins import installed

RECIPE = """\
recipe: Lane Trial
batch: {batch}
grist:
  - {{grain: caramel malt 60, weight: 4 kg}}
  - {{grain: roasted barley, weight: 1 kg}}
mash: {{rests: [{{at: {at}, for: 60 min}}]}}
"""


def found(folder: Path, house: str, recipe: str) -> list[str]:
    (folder / ".git").mkdir(exist_ok=True)
    (folder / "brewhouse.yaml").write_text(f"brewhouse: Saltmarsh Lane\nrules:\n  {house}\n", encoding="utf-8")
    path = folder / "recipe.yaml"
    path.write_text(recipe, encoding="utf-8")
    (review,) = [one for one in mashwright.review([str(path)]).recipes if one.name == "Lane Trial"]
    return [f"{one.level.word}: {one.rule}" for one in review.results]


def test_each_bound_is_a_setting_of_one_rule() -> None:
    bound = [
        (limit.bound, limit.default)
        for rule in installed().rules.values()
        for limit in rule.limits.limits().values()
        if limit.bound
    ]
    assert sorted(bound) == sorted((field.name, getattr(USUAL, field.name)) for field in fields(Bounds))


def test_what_three_rules_believe_has_one_home() -> None:
    """The same number under one name in three rules is no taste of each."""
    rules: dict[tuple[str, str, float], list[str]] = {}
    for rule in installed().rules.values():
        for limit in rule.limits.limits().values():
            rules.setdefault((limit.attribute, limit.unit, limit.default), []).append(limit.belief or limit.bound)
    shared = {key: beliefs for key, beliefs in rules.items() if len(beliefs) >= 3}
    assert len(shared) >= 5
    for key, beliefs in shared.items():
        assert len({*beliefs}) == 1, key
        assert beliefs[0], key


def test_an_old_setting_of_each_rule_is_still_read() -> None:
    for rule, key, text in (
        ("conversion-time", "hottest", "74 °C"),
        ("saccharification-rest", "hottest", "165 °F"),
        ("final-gravity", "hottest", "76 °C"),
        ("hop-rate", "old-before", "1930"),
        ("strike-water", "most-meant", "12 l/kg"),
        ("water-ions", "laxative-magnesium", "100 mg/l"),
    ):
        limit = installed().rules[rule].limits.limits()[key]
        assert limit.belief
        assert limit.low <= limit.declared.read(text, key, limit.default) <= limit.high


def test_a_heavier_weight_that_may_be_meant_is_judged(tmp_path: Path) -> None:
    recipe = RECIPE.format(batch="3 l", at="66 °C")
    assert "error: no-base-malt" in found(tmp_path, "unit-slip: {heaviest: 2000 g/l}", recipe)


def test_a_weight_that_cannot_be_meant_is_one_slip(tmp_path: Path) -> None:
    recipe = RECIPE.format(batch="3 l", at="66 °C")
    assert found(tmp_path, "unit-slip: {heaviest: 1200 g/l}", recipe) == ["error: unit-slip"]


def test_a_rest_above_the_usual_boil_is_judged_where_it_may_be_meant(tmp_path: Path) -> None:
    recipe = RECIPE.format(batch="20 l", at="105 °C").replace("caramel malt 60", "pale ale malt")
    assert "error: saccharification-rest" in found(tmp_path, "unit-slip: {boil: 110 °C}", recipe)
    assert found(tmp_path, "unit-slip: {boil: 100.5 °C}", recipe) == ["error: unit-slip"]


@pytest.mark.parametrize(
    ("setting", "line", "rule"),
    [
        ("hop-alpha: {most: 40 %}", "{hop: Fuggle, weight: 200 g, alpha: 36 %, boil: 60 min}", "bitterness"),
        ("hop-rate: {soaked-up: 300 g/l}", "{hop: Fuggle, weight: 4.5 kg, alpha: 4.5 %, boil: 60 min}", "bitterness"),
    ],
)
def test_hops_past_the_usual_are_judged_where_they_may_be_meant(
    tmp_path: Path, setting: str, line: str, rule: str
) -> None:
    recipe = f"""\
recipe: Lane Trial
batch: 20 l
grist:
  - {{grain: pale ale malt, weight: 4.5 kg}}
hops:
  - {line}
targets: {{bitterness: 20 IBU}}
"""
    judged = [one.partition(": ")[2] for one in found(tmp_path, setting, recipe)]
    assert rule in judged
    usual = [one.partition(": ")[2] for one in found(tmp_path, "usual-share: off", recipe)]
    assert rule not in usual


@pytest.mark.parametrize(
    ("setting", "before", "after"),
    [
        ("unit-slip: {most: 300 °Lintner}", "weight: 4 kg", "weight: 4 kg, diastatic-power: 260 °Lintner"),
        ("unit-slip: {coldest-rest: -2 °C}", "at: 66 °C", "at: -1 °C, for: 5 min}, {at: 66 °C"),
    ],
)
def test_what_may_be_meant_leaves_no_rule_open(tmp_path: Path, setting: str, before: str, after: str) -> None:
    recipe = RECIPE.format(batch="20 l", at="66 °C").replace("caramel malt 60", "pale ale malt")
    recipe = recipe.replace(before, after)

    def open_rules(house: str) -> set[str]:
        found(tmp_path, house, recipe)
        (review,) = [one for one in mashwright.review([str(tmp_path)]).recipes if one.name == "Lane Trial"]
        return {one.rule for one in review.unjudged}

    assert open_rules("usual-share: off")
    assert not open_rules(setting)


def test_a_rating_that_no_bottle_has_hides_nothing(tmp_path: Path) -> None:
    recipe = RECIPE.format(batch="20 l", at="66 °C").replace("caramel malt 60", "pale ale malt")
    recipe += "package: {in: bottles, carbonation: 4.8 volumes, bottle-rating: 60 volumes}\n"
    judged = found(tmp_path, "usual-share: off", recipe)
    assert "error: unit-slip" in judged
    (review,) = [one for one in mashwright.review([str(tmp_path)]).recipes if one.name == "Lane Trial"]
    assert "carbonation" in {one.rule for one in review.unjudged}
