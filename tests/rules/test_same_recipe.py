"""One recipe twice, under another name or in another size."""

import random
import time

import pytest

import mashwright
from mashwright_rules import same_recipe
from mashwright_rules.same_recipe import Grist

PALE = "{grain: two-row pale malt, weight: 3 kg}"
WHEAT = "{grain: wheat malt, weight: 1 kg}"
HOPS = "hops:\n  - {{hop: {0}, weight: 30 g, alpha: 5 %, boil: 60 min}}\n"
SAME = "the same grist in the same shares, and the same hops"


def recipe(*lines: str, name: str = "Test", hops: str = "") -> str:
    grist = "".join(f"  - {line}\n" for line in lines)
    return f"recipe: {name}\nbatch: 20 l\ngrist:\n{grist}{hops and HOPS.format(hops)}"


def found(*recipes: str, brewhouse: str = "") -> list[str]:
    return mashwright.try_rule(same_recipe, *recipes, brewhouse=brewhouse)


@pytest.mark.parametrize(
    ("lines", "size"),
    [
        ((PALE, WHEAT), ""),
        ((WHEAT, PALE), ""),
        (("{grain: two-row pale malt, weight: 6 kg}", "{grain: wheat malt, weight: 2 kg}"), ", twice as much"),
        (("{grain: two-row pale malt, weight: 1.5 kg}", "{grain: wheat malt, weight: 500 g}"), ", 0.5 times as much"),
        (("{grain: two-row pale malt, weight: 9 kg}", "{grain: wheat malt, weight: 3 kg}"), ", 3 times as much"),
        (("{grain: American two-row, weight: 6.6 lb}", "{grain: malted wheat, weight: 2 lb 3 oz}"), ""),
        (("{grain: two-row pale malt, weight: 2.96 kg}", WHEAT), ""),
        ((PALE.replace("3 kg", "2 kg"), PALE.replace("3 kg", "1 kg"), WHEAT), ""),
    ],
    ids=["copied", "in another order", "doubled", "halved", "three times", "lb and aliases", "a near share", "parted"],
)
def test_one_recipe_twice(lines: tuple[str, ...], size: str) -> None:
    told = f"second.yaml:4:1: warning: this is the recipe of first.yaml{size}: {SAME}"
    first = recipe(PALE, WHEAT, hops="Fuggle")
    assert found(first, recipe(*lines, name="Other", hops="fuggle").replace("grist:", "by: us\ngrist:")) == [told]


@pytest.mark.parametrize(
    "other",
    [
        recipe("{grain: two-row pale malt, weight: 2.8 kg}", WHEAT, hops="Fuggle"),
        recipe(PALE, WHEAT.replace("wheat malt", "raw wheat"), hops="Fuggle"),
        recipe(PALE, WHEAT, "{grain: caramel malt 40, weight: 50 g}", hops="Fuggle"),
        recipe(PALE, WHEAT, hops="Saaz"),
        recipe(PALE, WHEAT),
        recipe(PALE, WHEAT.replace("1 kg", "1"), hops="Fuggle"),
    ],
    ids=["another share", "another grain", "a grain more", "another hop", "no hop", "a weight that cannot be read"],
)
def test_another_recipe(other: str) -> None:
    assert found(recipe(PALE, WHEAT, hops="Fuggle"), other) == []


def test_a_single_malt_is_no_copy() -> None:
    assert found(recipe(PALE), recipe(PALE)) == []


def test_the_share_that_may_differ_is_a_setting() -> None:
    both = recipe(PALE, WHEAT), recipe("{grain: two-row pale malt, weight: 2.8 kg}", WHEAT)
    told = f"second.yaml:3:1: warning: this is the recipe of first.yaml: {SAME}"
    assert found(*both) == []
    assert found(*both, brewhouse="rules: {same-recipe: {apart: 2 %}}\n") == [told]


def test_each_copy_is_told_once() -> None:
    told = [
        f"second.yaml:3:1: warning: this is the recipe of first.yaml: {SAME}",
        f"third.yaml:3:1: warning: this is the recipe of second.yaml: {SAME}",
    ]
    assert found(*[recipe(PALE, WHEAT)] * 3) == told


def gathered(number: int, kinds: int) -> list[tuple[str, Grist]]:
    """So many recipes of so many lists of ingredients; each tenth is a copy of the one before it."""
    chance = random.Random(1)
    made: list[tuple[str, Grist]] = []
    for index in range(number):
        names = ("pale malt", f"malt {index % kinds}", "wheat malt")
        shares = [chance.uniform(1, 10) for _ in names]
        whole = sum(shares)
        grist = (names, tuple(round(100 * one / whole, 2) for one in shares), ("saaz",), whole)
        made.append((f"{index:06}.yaml", made[-1][1] if index % 10 == 9 else grist))
    return made


@pytest.mark.parametrize("kinds", [10_000, 100, 1], ids=["few alike", "many alike", "all of the same malts"])
def test_ten_thousand_recipes(kinds: int) -> None:
    values = gathered(10_000, kinds)
    began = time.process_time()
    findings = list(same_recipe.check_collection(values, same_recipe.Limits()))
    took_s = time.process_time() - began
    copies = {f"{index:06}.yaml" for index in range(9, 10_000, 10)}
    assert copies <= {path for path, _ in findings}
    assert took_s < 2


def test_twice_the_recipes_take_about_twice_the_time() -> None:
    """Counted in comparisons of numbers, which no other work on the machine can slow down."""

    class Counted(float):
        count = 0

        def __sub__(self, other: float) -> float:
            Counted.count += 1
            return float(self) - float(other)

    def comparisons(number: int) -> int:
        Counted.count = 0
        values = [
            (path, (names, tuple(map(Counted, shares)), hops, whole))
            for path, (names, shares, hops, whole) in gathered(number, 1)
        ]
        for _ in same_recipe.check_collection(values, same_recipe.Limits()):
            pass
        return Counted.count

    assert comparisons(4000) < 2.5 * comparisons(2000)
