"""Whether the worts of one mash take and claim what it gives; and that each wort is judged as a beer of its own."""

from collections.abc import Callable

import pytest

import mashwright
from mashwright.budgets import WORTS
from mashwright_rules.kettle import wort_balance

Found = Callable[..., list[str]]

SOUND = wort_balance.SOUND
FIRST, SECOND = "runnings: first", "runnings: second"
SPARGE = "sparge: {by: batch, water: 14 l}"


@pytest.mark.parametrize(
    ("old", "new", "expected"),
    [
        (SECOND, SECOND, []),
        (SECOND, "runnings: rest", []),
        (SECOND, "runnings: 2nd runnings", []),
        (SECOND, "runnings: the second mash", []),
        (SECOND, "runnings: {second: all}", []),
        (SECOND, "runnings: {second: 14 l}", []),
        (
            FIRST,
            "runnings: {first: 90 %, second: 2 l}",
            ["9:33: error: the second runnings are at most 14 l, and the worts take 16 l"],
        ),
        (FIRST, "runnings: 10 l", ["9:33: note: 11 % of the extract runs off into no wort"]),
        (FIRST, "runnings: 15 l", ["9:33: error: the second runnings are at most 14 l, and the worts take 16.4 l"]),
        (SECOND, "runnings: {second: 50 %}", ["9:23: note: 13 % of the extract runs off into no wort"]),
        (
            SECOND,
            "runnings: {second: 17 l}",
            ["9:42: error: the second runnings are at most 14 l, and the worts take 17 l"],
        ),
        (
            SECOND,
            "runnings: {first: 1.5 l, second: 13 l}",
            ["9:41: warning: the first runnings are about 12.6 l, and the worts take 14.1 l"],
        ),
        (
            SECOND,
            "runnings: third",
            [("9:33: error: this recipe has no third runnings; the mash and its sparge give only first and second")],
        ),
        (
            SPARGE,
            "sparge: {by: none}",
            ["9:33: error: this recipe has no second runnings, since nothing is sparged; add sparge water"],
        ),
        (SPARGE, "notes: as much as it takes", []),
        (
            "1.080",
            "1.190",
            ["8:65: error: the worts together need 6.13 kg of extract; all of the grist contains only 5.66 kg"],
        ),
        ("1.080", "1.150", []),
        (
            "mash: {",
            "efficiency: 97 %\nmash: {",
            ["5:13: error: an efficiency of 97 % cannot be reached; these worts contain at most 84 % of the extract"],
        ),
        (
            "mash: {",
            "efficiency: 86 %\nmash: {",
            ["5:13: warning: an efficiency of 86 % is unlikely; these worts contain about 79 % of the extract"],
        ),
        ("mash: {", "efficiency: 78 %\nmash: {", []),
        (
            "mash: {",
            "  - {sugar: table sugar, weight: 300 g}\nmash: {",
            [
                (
                    "5:13: error: table sugar does not go into the mash, and no wort has it; write it in the `grist` of"
                    " that wort"
                )
            ],
        ),
    ],
)
def test_wort_balance(found: Found, old: str, new: str, expected: list[str]) -> None:
    assert old in SOUND
    assert found("wort_balance", SOUND.replace(old, new)) == expected


def test_a_recipe_for_one_beer_is_not_asked(found: Found) -> None:
    assert found("wort_balance", "recipe: One\nbatch: 20 l\ngrist: [{grain: pale ale malt, weight: 4 kg}]\n") == []


def test_more_worts_than_are_judged_are_told(found: Found) -> None:
    line = "  - {wort: Neap Mild, runnings: {second: 1 l}, batch: 1 l}\n"
    text = SOUND[: SOUND.index("  - {wort: Neap")] + line * WORTS
    assert found("wort_balance", text)[-1] == (
        f"{8 + WORTS}:12: warning: at most {WORTS} worts of one mash are judged; give the others a recipe of their own"
    )


def mends(text: str) -> list[str]:
    return mashwright.try_rule(wort_balance, text, mends=True)


def test_what_mends_it() -> None:
    assert mends(SOUND.replace("1.080", "1.190"))[1:] == ["    mend it: change the stated OG from 1.190 to 1.093"]
    too_much = SOUND.replace(SECOND, "runnings: {second: 17 l}")
    told = "    mend it: take from the second runnings 14 l instead of 17 l; OG goes from 1.046 to 1.038, ABV from 5.0"
    assert mends(too_much)[1].startswith(told)
    assert mends(SOUND.replace("mash: {", "efficiency: 86 %\nmash: {"))[1:] == [
        "    mend it: change the stated efficiency from 86 % to 79 %"
    ]


def test_unreadable_runnings_are_told_and_leave_the_rest_open() -> None:
    results = mashwright.review_text(SOUND.replace(SECOND, "runnings: secnd"), "a.yaml").recipes[0]
    assert [(one.rule, one.place.line, one.message) for one in results.results] == [
        (
            "quantity",
            9,
            (
                'runnings of "secnd" are not known; write first, second, third, fourth, fifth, all, rest, a volume or a'
                " share"
            ),
        )
    ]
    assert "wort-balance" in {one.rule for one in results.unjudged}


def told(text: str) -> list[tuple[str, int, str]]:
    reviewed = mashwright.review_text(text, "a.yaml").recipes[0]
    return [(one.rule, one.place.line, one.message) for one in reviewed.results if one.level.word != "note"]


BEERS = """\
recipe: Ebb Ale and Neap Mild
grist:
  - {grain: pale ale malt, weight: 7 kg}
mash: {water: 20 l, rests: [{at: 66 °C, for: 60 min}]}
sparge: {by: batch, water: 14 l, at: 76 °C}
worts:
  - wort: Ebb Ale
    runnings: first
    batch: 9 l
    boil: {volume: 12.5 l, for: 60 min}
    hops: [{hop: Golding, weight: 40 g, alpha: 5 %, boil: 60 min}]
    yeast: {kind: English ale}
    targets: {og: 1.092}
  - wort: Neap Mild
    runnings: second
    batch: 11 l
    boil: {volume: 14 l, for: 60 min}
    hops: [{hop: Golding, weight: 15 g, alpha: 5 %, boil: 60 min}]
    yeast: {kind: English ale}
    package: {in: bottles, priming: {sugar: table sugar, weight: 60 g}}
    targets: {og: 1.040}
"""


def test_sound_worts_are_told_nothing() -> None:
    assert told(BEERS) == []


@pytest.mark.parametrize(
    ("old", "new", "rule", "line", "message"),
    [
        (
            "og: 1.040",
            "og: 1.056",
            "original-gravity",
            21,
            "with 31 % of the mash's extract this wort usually comes to 1.036-1.048, not 1.056",
        ),
        (
            "og: 1.092",
            "og: 1.150",
            "original-gravity",
            13,
            (
                "this wort is unlikely to have OG 1.150: it has 63 % of the mash's extract, and all of that gives only"
                " 1.146"
            ),
        ),
        ("15 g", "15 kg", "hop-rate", 18, "15 kg of Golding is 1364 g to each litre of beer"),
        ("weight: 60 g}", "weight: 300 g}", "priming", 20, "300 g of table sugar"),
        ("batch: 11 l", "batch: 16 l", "volume-balance", 17, "14 l before the boil leaves about"),
        ("first\n", "first\n    top-up: {kettle: 9 l}\n", "volume-balance", 11, "the stated water gives about 21.6 l"),
        (
            "for: 60 min}\n    hops: [{hop: Golding, weight: 40",
            "for: 5 min}\n    hops: [{hop: Golding, weight: 40",
            "boil",
            11,
            "",
        ),
        ("English ale}\n    package", "English al}\n    package", "unknown-ingredient", 19, "nothing is known of"),
    ],
)
def test_each_wort_is_judged_as_a_beer(old: str, new: str, rule: str, line: int, message: str) -> None:
    assert BEERS.count(old) == 1
    found = told(BEERS.replace(old, new))
    assert [one for one in found if one[0] == rule and one[1] == line and one[2].startswith(message)], found


def test_the_strongest_of_its_runnings_bounds_a_wort() -> None:
    text = BEERS.replace("{og: 1.040}", "{og: 1.040, pre-boil-gravity: 1.060}")
    assert told(text) == [
        (
            "wort-strength",
            21,
            (
                "a gravity before the boil of 1.060 is stated, but the runnings of this wort are at most 1.040, if the"
                " mash dissolves all of its extract"
            ),
        )
    ]


def test_what_is_wrong_with_the_mash_is_told_once() -> None:
    text = BEERS.replace("pale ale malt", "caramel malt 60")
    assert [one[0] for one in told(text)].count("no-base-malt") == 1
    assert all(line < 6 for rule, line, _ in told(text) if rule == "no-base-malt")


def test_the_order_of_the_worts_changes_nothing() -> None:
    first, second = BEERS.index("  - wort: Ebb"), BEERS.index("  - wort: Neap")
    turned = BEERS[:first] + BEERS[second:] + BEERS[first:second]
    text, other = BEERS.replace("1.040", "1.056"), turned.replace("1.040", "1.056")
    assert [(rule, said) for rule, _, said in told(text)] == [(rule, said) for rule, _, said in told(other)]


def test_fields_of_one_wort_at_the_top_are_sent_to_it() -> None:
    text = BEERS.replace("worts:", "batch: 20 l\nworts:")
    assert told(text) == [
        (
            "field",
            6,
            "where a mash gives several worts each has its own `batch`; write it in the items of `worts`",
        )
    ]


SHORT = """\
recipe: Ebb Ale and Neap Mild
grist: [7 kg pale ale malt]
mash: {water: 20 l, rests: [66 °C for 60 min]}
sparge: batch sparge, 14 l at 76 °C
worts:
  - name: Ebb Ale
    runnings: first
    batch: 9 l
    boil: 12.5 l for 60 min
    hops: [40 g Golding (5 %) at 60 min]
    yeast: English ale
    og: 1.092
  - wort: Neap Mild
    runnings: second
    batch: 11 l
    boil: 14 l for 60 min
    hops: [15 g Golding (5 %) at 60 min]
    yeast: English ale
    package: {in: bottles, priming: 60 g table sugar}
    og: 1.040
"""


def test_short_forms_are_read_in_a_wort_as_at_the_top() -> None:
    long, short = (mashwright.figures_of(text).worts for text in (BEERS, SHORT))
    assert [(row.id, row.typical) for one in long for row in one.rows] == [
        (row.id, row.typical) for one in short for row in one.rows
    ]
    assert told(SHORT) == []
    assert told(SHORT.replace("runnings:", "from:").replace("- wort:", "- beer:").replace("- name:", "- gyle:")) == []
    assert ("hop-rate", 17) in [one[:2] for one in told(SHORT.replace("15 g Golding", "15 kg Golding"))]


def test_a_weight_is_plausible_for_all_worts_together() -> None:
    text = BEERS.replace("batch: 9 l", "batch: 5 l").replace("volume: 12.5 l", "volume: 8.5 l")
    sheet = mashwright.figures_of(text.replace("runnings: first", "runnings: {first: 8.5 l}")).worts[0]
    assert next(row for row in sheet.rows if row.id == "og").missing == ""


def test_more_top_up_than_beer_ends_no_rule() -> None:
    text = BEERS.replace("batch: 11 l", "batch: {package: 9 l}\n    top-up: {fermenter: 50 l}")
    review = mashwright.review_text(text, "a.yaml")
    assert review.faults == ()


def test_a_claim_of_all_beers_is_held_against_what_goes_into_one() -> None:
    text = BEERS.replace("recipe: Ebb Ale and Neap Mild\n", "recipe: Ebb Ale and Neap Mild\nnotes: both are vegan\n")
    with_milk = text.replace("    batch: 11 l\n", "    batch: 11 l\n    grist: [{sugar: lactose, weight: 200 g}]\n")
    assert told(text) == []
    assert ("allergen-claim", 2) in [one[:2] for one in told(with_milk)]


def test_what_a_wort_comes_to_is_never_an_error() -> None:
    text = BEERS.replace("grist:", "efficiency: 72 %\ngrist:", 1).replace("1.040", "1.075")
    reviewed = mashwright.review_text(text, "a.yaml").recipes[0]
    levels = [one.level.word for one in reviewed.results if one.rule == "original-gravity"]
    assert set(levels) == {"warning"}
