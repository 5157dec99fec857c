"""One recipe twice, under another name or in another size."""

import random
import time

import pytest

import mashwright
from mashwright_rules.collection import same_recipe
from mashwright_rules.collection.same_recipe import Sheet

PALE = "{grain: two-row pale malt, weight: 3 kg}"
WHEAT = "{grain: wheat malt, weight: 1 kg}"
HOPS = "hops:\n  - {{hop: {0}, weight: {1}, alpha: 5 %, boil: 60 min}}\n"
ALONE = "the same grist in the same shares"
ALMOST = "the same grist in almost the same shares"
SAME = f"{ALONE} and the same hops"


def recipe(*lines: str, name: str = "Test", hops: str = "", weight: str = "30 g") -> str:
    grist = "".join(f"  - {line}\n" for line in lines)
    return f"recipe: {name}\nbatch: 20 l\ngrist:\n{grist}{hops and HOPS.format(hops, weight)}"


def hopped(*hops: str, yeast: str = "") -> str:
    """The same grist with hops, one line each, and a yeast."""
    listed = "".join(f"  - {{{hop}}}\n" for hop in hops)
    grist = f"  - {PALE}\n  - {WHEAT}\n"
    more = f"yeast: {yeast}\n" if yeast else ""
    return f"recipe: Test\nbatch: 20 l\ngrist:\n{grist}hops:\n{listed}{more}"


def found(*recipes: str, brewhouse: str = "") -> list[str]:
    return mashwright.try_rule(same_recipe, *recipes, brewhouse=brewhouse)


@pytest.mark.parametrize(
    ("lines", "weight", "size"),
    [
        ((PALE, WHEAT), "30 g", ""),
        ((WHEAT, PALE), "30 g", ""),
        (("{grain: two-row pale malt, weight: 6 kg}", "{grain: wheat malt, weight: 2 kg}"), "60 g", ", twice as much"),
        (
            ("{grain: two-row pale malt, weight: 1.5 kg}", "{grain: wheat malt, weight: 500 g}"),
            "15 g",
            ", 0.5 times as much",
        ),
        (
            ("{grain: two-row pale malt, weight: 9 kg}", "{grain: wheat malt, weight: 3 kg}"),
            "90 g",
            ", 3 times as much",
        ),
        (("{grain: American two-row, weight: 6.6 lb}", "{grain: malted wheat, weight: 2 lb 3 oz}"), "1 oz", ""),
        (("{grain: two-row pale malt, weight: 2.96 kg}", WHEAT), "30 g", ""),
        ((PALE.replace("3 kg", "2 kg"), PALE.replace("3 kg", "1 kg"), WHEAT), "30 g", ""),
    ],
    ids=["copied", "in another order", "doubled", "halved", "three times", "lb and aliases", "a near share", "parted"],
)
def test_one_recipe_twice(lines: tuple[str, ...], weight: str, size: str) -> None:
    told = f"second.yaml:4:1: warning: this is the recipe of first.yaml{size}: {SAME}"
    first = recipe(PALE, WHEAT, hops="Fuggle")
    other = recipe(*lines, name="Other", hops="fuggle", weight=weight).replace("grist:", "by: us\ngrist:")
    assert found(first, other) == [told]


BITTER, AROMA = "hop: Fuggle, weight: 45 g, boil: 60 min", "hop: Fuggle, weight: 20 g, boil: 10 min"
DRY = "hop: Fuggle, weight: 40 g, dry: 4 d"


@pytest.mark.parametrize(
    "hops",
    [
        (BITTER.replace("45 g", "30 g"), AROMA, DRY),
        (BITTER, AROMA, DRY.replace("40 g", "80 g")),
        (BITTER, AROMA),
        (BITTER, AROMA, DRY, DRY),
        (BITTER.replace("60 min", "10 min"), AROMA.replace("10 min", "60 min"), DRY),
        (BITTER, AROMA.replace("10 min", "30 min"), DRY),
        (BITTER, AROMA.replace("boil: 10 min", "whirlpool: 10 min"), DRY),
        (BITTER.replace("Fuggle", "Golding"), AROMA, DRY),
        (BITTER.replace("45 g", "45"), AROMA, DRY),
    ],
    ids=[
        "less of them", "more dry hops", "no dry hops", "an addition more", "times swapped", "another time",
        "a stand", "another hop", "a weight that cannot be read",
    ],
)  # fmt: skip
def test_other_hops_are_another_recipe(hops: tuple[str, ...]) -> None:
    assert found(hopped(BITTER, AROMA, DRY), hopped(*hops)) == []
    assert found(hopped(*hops), hopped(BITTER, AROMA, DRY)) == []


@pytest.mark.parametrize(
    "hops",
    [
        (DRY, AROMA, BITTER),
        (BITTER.replace("Fuggle", "fuggles"), AROMA, DRY),
        (BITTER.replace("45 g", "1.6 oz"), AROMA.replace("20 g", "0.7 oz"), DRY.replace("40 g", "1.4 oz")),
        (BITTER, AROMA.replace("10 min", "12 min"), DRY.replace("4 d", "5 d")),
        (BITTER.replace("45 g", "45 g, alpha: 5.2 %"), AROMA, DRY),
    ],
    ids=["another order", "another spelling", "in ounces", "some minutes more", "this year's alpha acid"],
)
def test_the_same_hops_are_the_same_recipe(hops: tuple[str, ...]) -> None:
    told = f"second.yaml:3:1: warning: this is the recipe of first.yaml: {SAME}"
    assert found(hopped(BITTER, AROMA, DRY), hopped(*hops)) == [told]


def test_another_yeast_is_another_recipe() -> None:
    ale, wheat = hopped(BITTER, yeast="{kind: English ale}"), hopped(BITTER, yeast="{kind: German wheat}")
    both = hopped(BITTER, yeast="[{kind: English ale}, {kind: German wheat}]")
    told = f"second.yaml:3:1: warning: this is the recipe of first.yaml: {ALONE}"
    assert found(ale, wheat) == []
    assert found(ale, both) == []
    assert found(ale, ale.replace("English ale", "english ales, pitch: 11 g")) == [
        f"{told}, the same hops and the same yeast"
    ]
    assert found(ale, hopped(BITTER)) == [f"{told} and the same hops"]


def test_alpha_units_are_scaled_with_the_grist() -> None:
    units = hopped("hop: Fuggle, alpha-units: 6 AAU, boil: 60 min")
    doubled = units.replace("3 kg", "6 kg").replace("1 kg", "2 kg").replace("6 AAU", "12 AAU")
    assert found(units, doubled) == [
        f"second.yaml:3:1: warning: this is the recipe of first.yaml, twice as much: {SAME}"
    ]
    assert found(units, doubled.replace("12 AAU", "6 AAU")) == []


def test_how_far_hops_may_be_apart_is_a_setting() -> None:
    both = hopped(BITTER), hopped(BITTER.replace("45 g", "36 g").replace("60 min", "50 min"))
    told = f"second.yaml:3:1: warning: this is the recipe of first.yaml: {SAME}"
    assert found(*both) == []
    assert found(*both, brewhouse="rules: {same-recipe: {hops-apart: 25 %, times-apart: 15 min}}\n") == [told]


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
    told = f"second.yaml:3:1: warning: this is nearly the recipe of first.yaml: {ALMOST}"
    assert found(*both) == []
    assert found(*both, brewhouse="rules: {same-recipe: {apart: 2 %}}\n") == [told]


def test_each_copy_is_told_once() -> None:
    told = [
        f"second.yaml:3:1: warning: this is the recipe of first.yaml: {ALONE}",
        f"third.yaml:3:1: warning: this is the recipe of second.yaml: {ALONE}",
    ]
    assert found(*[recipe(PALE, WHEAT)] * 3) == told


def gathered(number: int, kinds: int) -> list[tuple[str, Sheet]]:
    """So many recipes of so many lists of ingredients; each tenth is a copy of the one before it."""
    chance = random.Random(1)
    made: list[tuple[str, Sheet]] = []
    for index in range(number):
        names = ("pale malt", f"malt {index % kinds}", "wheat malt")
        shares = [chance.uniform(1, 10) for _ in names]
        whole = sum(shares)
        rounded = tuple(round(100 * one / whole, 2) for one in shares)
        sheet = Sheet(names, rounded, (("Saaz", "boil"),), ((60.0, 5.0),), ("English ale",), whole)
        made.append((f"{index:06}.yaml", made[-1][1] if index % 10 == 9 else sheet))
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
            (path, sheet._replace(shares=tuple(map(Counted, sheet.shares)))) for path, sheet in gathered(number, 1)
        ]
        for _ in same_recipe.check_collection(values, same_recipe.Limits()):
            pass
        return Counted.count

    assert comparisons(4000) < 2.5 * comparisons(2000)


def brewed(more: str) -> str:
    return f"{recipe(PALE, WHEAT, hops='Fuggle')}{more}\n"


TOLD = f"second.yaml:4:1: warning: this is the recipe of first.yaml: {SAME}"
CELLS = "water: {calcium: 60 mg/l, sulfate: 55 mg/l}"


@pytest.mark.parametrize(
    ("one", "two"),
    [
        ("mash: {rests: [{at: 63 °C}]}", "mash: {rests: [{at: 70 °C}]}"),
        ("mash: {rests: [{at: 66 °C}]}", "mash: {rests: [{at: 68.5 °C}]}"),
        ("mash: {rests: [{at: 66 °C}]}", "mash: {rests: [{at: 50 °C}, {at: 66 °C}]}"),
        (CELLS, "water: {calcium: 150 mg/l, sulfate: 350 mg/l}"),
        ("package: {in: bottles}", "package: {in: cask}"),
        ("ferment: [{at: 18 °C, for: 7 d}]", "ferment: [{at: 22 °C, for: 7 d}]"),
        ("ferment: [{at: 18 °C}]", "ferment: [{at: 18 °C, to: 24 °C}]"),
    ],
    ids=[
        *("another rest", "2.5 °C more", "a rest more", "another water", "another package"),
        *("fermented warmer", "let rise"),
    ],
)
def test_brewed_otherwise_is_another_recipe(one: str, two: str) -> None:
    assert found(brewed(one).replace("grist:", "by: us\ngrist:"), brewed(two)) == []


@pytest.mark.parametrize(
    ("one", "two"),
    [
        ("mash: {rests: [{at: 66 °C}]}", "mash: {rests: [{at: 152 °F}]}"),
        ("mash: {rests: [{at: 66 °C}]}", "mash: {rests: [{at: 66 °C}, {at: 78 °C}]}"),
        ("mash: {rests: [{at: 66 °C}]}", ""),
        (CELLS, "water: {calcium: 65 mg/l, sulfate: 50 mg/l, chloride: 300 mg/l}"),
        (CELLS, ""),
        ("package: {in: bottles}", "package: {carbonation: 2 volumes}"),
        ("package: {in: bottles}", ""),
        ("ferment: [{at: 18 °C, for: 7 d}]", "ferment: [{at: 67 °F, for: 2 weeks}, {at: 2 °C, for: 5 d}]"),
        ("ferment: [{at: 18 °C}]", ""),
        ("ferment: [{at: 18 °C}]", "ferment: [{for: 7 d}]"),
    ],
    ids=[
        *("2 °C at most", "a mash-out", "no rests", "nearly the water", "no water", "no vessel", "no package"),
        *("nearly as warm", "no fermentation", "no warmth"),
    ],
)
def test_what_only_one_of_them_says_makes_no_other(one: str, two: str) -> None:
    later = brewed(two).replace("grist:", "by: us\ngrist:")
    assert found(brewed(one), later) == [TOLD]


def crystal(weight: str) -> str:
    return recipe("{grain: pale malt, weight: 10 lb}", f"{{grain: caramel malt 40, weight: {weight}}}")


def test_a_little_of_something_counts_in_proportion() -> None:
    told = f"second.yaml:3:1: warning: this is the recipe of first.yaml: {ALONE}"
    assert found(crystal("1 oz"), crystal("2 oz")) == []
    assert found(crystal("1 oz"), crystal("28 g")) == [told]
    assert found(crystal("1 oz"), crystal("30 g")) == [told]


def test_nearly_the_same_shares_are_told_so() -> None:
    told = f"second.yaml:3:1: warning: this is nearly the recipe of first.yaml: {ALMOST}"
    assert found(crystal("9 oz"), crystal("10 oz")) == [told]
    assert found(recipe(PALE, WHEAT), recipe(PALE.replace("3 kg", "2.9 kg"), WHEAT)) == [told]
