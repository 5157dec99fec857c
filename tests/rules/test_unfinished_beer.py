"""Gravity at packaging, and what dry hops can restart."""

import re
from collections.abc import Callable

import pytest

import mashwright

Found = Callable[..., list[str]]

HEAD = """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: pale ale malt, weight: 4.4 kg}
"""

CASES = {
    "finished": (
        """\
yeast: {kind: American ale}
package: {in: bottles, carbonation: 2.3 volumes, gravity: 1.010}
targets: {og: 1.050, fg: 1.010}
""",
        [],
    ),
    "a reading above": (
        """\
yeast: {kind: American ale}
package: {in: bottles, carbonation: 2.3 volumes, gravity: 1.011}
targets: {og: 1.050, fg: 1.010}
""",
        [],
    ),
    "ten points early": (
        """\
yeast: {kind: American ale}
package: {in: bottles, carbonation: 2.3 volumes, gravity: 1.020}
targets: {og: 1.050, fg: 1.010}
""",
        [
            (
                "6:59: error: 1.020 at packaging is 10 points above the 1.010 at which this beer ends: ab"
                "out 7.5 volumes, and ordinary bottles hold 3; wait for two equal gravities three days ap"
                "art, and keep to the bottles' rating"
            ),
        ],
    ),
    "ten points early in degrees Plato": (
        """\
yeast: {kind: American ale}
package: {in: bottles, carbonation: 2.3 volumes, bottle-rating: 3.5 volumes, gravity: 5 °P}
targets: {og: 12.5 °P, fg: 2.5 °P}
""",
        [
            (
                "6:87: error: 5 °P at packaging is 9.9 points above the 2.5 °P at which this beer ends: a"
                "bout 7.5 volumes in bottles rated 3.5 volumes; wait for two equal gravities three days a"
                "part, and keep to the bottles' rating"
            ),
        ],
    ),
    "two points early, primed": (
        """\
yeast: {kind: American ale}
package: {in: bottles, priming: {sugar: table sugar, weight: 110 g},
  carbonation: 2.3 volumes, gravity: 1.0122}
targets: {og: 1.050, fg: 1.010}
""",
        [
            (
                "7:38: warning: 1.0122 at packaging is 2.2 points above the 1.010 at which this beer ends"
                ": about 3.5 volumes, and ordinary bottles hold 3; wait for two equal gravities three day"
                "s apart, and keep to the bottles' rating"
            ),
        ],
    ),
    "three points early, primed, in strong bottles": (
        """\
yeast: {kind: American ale}
package: {in: bottles, priming: {sugar: table sugar, weight: 110 g},
  carbonation: 2.3 volumes, bottle-rating: 6 volumes, gravity: 1.013}
targets: {og: 1.050, fg: 1.010}
""",
        [
            (
                "7:64: warning: 1.013 at packaging is 3 points above the 1.010 at which this beer ends: a"
                "bout 3.9 volumes in place of 2.4; wait for two equal gravities three days apart, and kee"
                "p to the bottles' rating"
            ),
        ],
    ),
    "past the rating": (
        """\
yeast: {kind: American ale}
package: {in: bottles, priming: {sugar: table sugar, weight: 110 g},
  carbonation: 2.3 volumes, bottle-rating: 3.5 volumes, gravity: 1.013}
targets: {og: 1.050, fg: 1.010}
""",
        [
            (
                "7:66: error: 1.013 at packaging is 3 points above the 1.010 at which this beer ends: abo"
                "ut 3.9 volumes in bottles rated 3.5 volumes; wait for two equal gravities three days apa"
                "rt, and keep to the bottles' rating"
            ),
        ],
    ),
    "past a rating in bar": (
        """\
yeast: {kind: American ale}
package: {in: bottles, priming: {sugar: table sugar, weight: 110 g},
  carbonation: 2.3 volumes, bottle-rating: 3 bar, gravity: 1.014}
targets: {og: 1.050, fg: 1.010}
""",
        [
            (
                "7:60: error: 1.014 at packaging is 4 points above the 1.010 at which this beer ends: abo"
                "ut 4.4 bar at 20 °C, 6.6 at 30 °C in bottles rated 3 bar; wait for two equal gravities t"
                "hree days apart, and keep to the bottles' rating"
            ),
        ],
    ),
    "early on purpose": (
        """\
yeast: {kind: American ale}
package: {in: bottles, carbonation: 2.3 volumes, gravity: 1.013}
targets: {og: 1.050, fg: 1.010}
""",
        [
            (
                "6:59: note: 1.013 at packaging is 3 points above the 1.010 at which this beer ends; is i"
                "t meant to make its own gas, about 2.4 volumes"
            ),
        ],
    ),
    "no carbonation stated": (
        """\
yeast: {kind: American ale}
package: {in: bottles, gravity: 1.020}
targets: {og: 1.050, fg: 1.010}
""",
        [
            (
                "6:33: error: 1.020 at packaging is 10 points above the 1.010 at which this beer ends: ab"
                "out 6.1 volumes, and ordinary bottles hold 3; wait for two equal gravities three days ap"
                "art, and keep to the bottles' rating"
            ),
        ],
    ),
    "within the band of what it may end at": (
        """\
yeast: {kind: American ale}
mash: {rests: [{at: 66 °C, for: 60 min}]}
package: {in: bottles, carbonation: 2.3 volumes, gravity: 1.013}
""",
        [],
    ),
    "above all that it may end at": (
        """\
yeast: {kind: American ale}
mash: {rests: [{at: 66 °C, for: 60 min}]}
package: {in: bottles, carbonation: 2.3 volumes, gravity: 1.020}
""",
        [
            (
                "7:59: error: 1.020 at packaging is above the 1.005-1.014 at which this grist, mash and y"
                "east end: about 8 volumes, and ordinary bottles hold 3; wait for two equal gravities thr"
                "ee days apart, and keep to the bottles' rating"
            ),
        ],
    ),
    "brew days say where it ends": (
        """\
yeast: {kind: American ale}
measured: [{date: 2026-03-01, fg: 1.008}]
package: {in: bottles, carbonation: 2.3 volumes, gravity: 1.013, priming: {weight: 110 g}}
""",
        [
            (
                "7:59: error: 1.013 at packaging is 5 points above the 1.008 at which this beer ends: abo"
                "ut 5 volumes, and ordinary bottles hold 3; wait for two equal gravities three days apart"
                ", and keep to the bottles' rating"
            ),
        ],
    ),
    "a keg": (
        """\
yeast: {kind: American ale}
package: {in: keg, carbonation: 2.3 volumes, gravity: 1.013}
targets: {og: 1.050, fg: 1.010}
""",
        [],
    ),
    "a keg far from the end": (
        """\
yeast: {kind: American ale}
package: {in: keg, carbonation: 2.3 volumes, gravity: 1.020}
targets: {og: 1.050, fg: 1.010}
""",
        [
            (
                "6:55: warning: 1.020 at packaging is 10 points above the 1.010 at which this beer ends:"
                " about 7.5 volumes, 8.1 bar at 20 °C, where many kegs and lines take 4 bar;"
                " vent it and let it finish, and keep to the lowest rating"
            ),
        ],
    ),
    "a keg some points from the end": (
        """\
yeast: {kind: American ale}
package: {in: keg, gravity: 1.0145}
targets: {og: 1.050, fg: 1.010}
""",
        [
            (
                "6:29: note: 1.0145 at packaging is 4.5 points above the 1.010 at which this beer ends;"
                " a keg has to be vented, or the beer left to finish"
            ),
        ],
    ),
    "a cask racked with a few points to go, as is usual": (
        """\
yeast: {kind: English ale}
package: {in: cask, gravity: 1.0125}
targets: {og: 1.042, fg: 1.010}
""",
        [],
    ),
    "a cask far from the end": (
        """\
yeast: {kind: English ale}
package: {in: cask, gravity: 1.018}
targets: {og: 1.042, fg: 1.010}
""",
        [
            (
                "6:30: warning: 1.018 at packaging is 8 points above the 1.010 at which this beer ends:"
                " about 5 volumes, where a cask seldom holds 2.5 volumes;"
                " vent it and let it finish, and keep to the lowest rating"
            ),
        ],
    ),
    "yeast that splits dextrins is another question": (
        """\
yeast: {kind: saison}
package: {in: bottles, carbonation: 2.3 volumes, gravity: 1.020}
targets: {og: 1.050, fg: 1.010}
""",
        [],
    ),
    "few dry hops": (
        """\
yeast: {kind: American ale}
hops: [{hop: Cascade, weight: 70 g, dry: 4 d}]
package: {in: bottles, carbonation: 2.4 volumes}
targets: {og: 1.050, fg: 1.010}
""",
        [],
    ),
    "many dry hops": (
        """\
yeast: {kind: American ale}
hops: [{hop: Cascade, weight: 160 g, dry: 4 d}]
package: {in: bottles, carbonation: 2.4 volumes}
targets: {og: 1.050, fg: 1.010}
""",
        [
            (
                "6:9: warning: 160 g of dry hops can restart the beer by up to 3.7 points in the bottle, "
                "4.3 volumes; wait for two equal gravities three days apart after them, and keep to the b"
                "ottles' rating"
            ),
        ],
    ),
    "very many dry hops are never an error": (
        """\
yeast: {kind: American ale}
hops: [{hop: Cascade, weight: 9 oz, dry: 4 d}]
package: {in: bottles, carbonation: 2.6 volumes, bottle-rating: 3.5 volumes}
targets: {og: 1.050, fg: 1.010}
""",
        [
            (
                "6:9: warning: 9 oz of dry hops can restart the beer by up to 5 points in the bottle, 5.2"
                " volumes in bottles rated 3.5 volumes; wait for two equal gravities three days apart aft"
                "er them, and keep to the bottles' rating"
            ),
        ],
    ),
    "many dry hops in strong bottles": (
        """\
yeast: {kind: American ale}
hops: [{hop: Cascade, weight: 160 g, dry: 4 d}]
package: {in: bottles, carbonation: 2.4 volumes, bottle-rating: 5 volumes}
targets: {og: 1.050, fg: 1.010}
""",
        [],
    ),
    "many dry hops in a keg": (
        """\
yeast: {kind: American ale}
hops: [{hop: Cascade, weight: 160 g, dry: 4 d}]
package: {in: keg, carbonation: 2.4 volumes}
targets: {og: 1.050, fg: 1.010}
""",
        [],
    ),
    "many hops in the boil": (
        """\
yeast: {kind: American ale}
hops: [{hop: Cascade, weight: 160 g, boil: 5 min}]
package: {in: bottles, carbonation: 2.4 volumes}
targets: {og: 1.050, fg: 1.010}
""",
        [],
    ),
}


@pytest.mark.parametrize("case", CASES)
def test_unfinished_beer(found: Found, case: str) -> None:
    text, expected = CASES[case]
    assert found("unfinished_beer", HEAD + text) == expected


def fermented(steps: str, *, vessel: str = "bottles", yeast: str = "English ale", more: str = "") -> str:
    return f"""\
recipe: Tried
batch: 20 l
grist:
  - {{grain: pale ale malt, weight: 4 kg}}
yeast: {{kind: {yeast}}}
ferment: [{steps}]
package: {{in: {vessel}, carbonation: 2.3 volumes{more}}}
"""


@pytest.mark.parametrize(
    ("text", "told"),
    [
        (fermented("{at: 19 °C, for: 1 d}"), "1 d is hardly a fermentation, which takes 5 d"),
        (fermented("{at: 19 °C, for: 1.5 d}", vessel="cask"), "1.5 d is hardly a fermentation, which takes 5 d"),
        (fermented("{at: 19 °C, for: 1 d}, {at: 20 °C, for: 10 h}"), "1.4 d in all is hardly a fermentation"),
        (fermented("{at: 19 °C, for: 1 d}, {at: 2 °C, for: 6 d}"), "1 d in all is hardly a fermentation"),
        (fermented("{at: 19 °C, for: 1 d}", yeast="the old jar's"), "1 d is hardly a fermentation, which takes 4 d"),
        (fermented("{at: 19 °C, for: 2 d}", yeast="saison"), "2 d is hardly a fermentation, which takes 5 d"),
        (fermented("{at: 9 °C, for: 5 d}", yeast="German lager"), "5 d is hardly a fermentation, which takes 10 d"),
        (fermented("{at: 35 °C, for: 1 d}", yeast="kveik"), "1 d is hardly a fermentation, which takes 4 d"),
    ],
)
def test_bottled_while_it_ferments(found: Found, text: str, told: str) -> None:
    (line,) = found("unfinished_beer", text)
    assert line.startswith("6:")
    assert f": warning: {told}" in line
    assert "wait for two equal gravities three days apart, and keep to the vessel's rating" in line
    assert line.endswith(" rating")


@pytest.mark.parametrize(("hours", "asked"), [(24, "; is it 24 d"), (10, "; is it 10 d"), (2, "'s rating")])
def test_days_are_asked_for_where_they_would_do(found: Found, hours: int, asked: str) -> None:
    (line,) = found("unfinished_beer", fermented(f"{{at: 19 °C, for: {hours} h}}"))
    assert line.endswith(asked)


def test_the_day_that_was_meant_mends_it() -> None:
    (finding,) = mashwright.review_text(fermented("{at: 19 °C, for: 24 h}")).recipes[0].results
    assert [remedy.text for remedy in finding.remedies] == ["24 d instead of 24 h"]


def test_an_old_bottle_is_told_too(found: Found) -> None:
    text = fermented("{at: 60 °F, for: 36 h}") + "source: brewhouse ledger, 1823\n"
    assert "36 h is hardly a fermentation" in found("unfinished_beer", text)[0]


@pytest.mark.parametrize(
    "text",
    [
        fermented("{at: 19 °C, for: 5 d}"),
        fermented("{at: 20 °C, for: 4-6 d}"),
        fermented("{at: 19 °C, for: 4 d}", yeast="the old jar's"),
        fermented("{at: 18 °C, for: 10 d}", yeast="German lager"),
        fermented("{at: 9 °C, for: 6 d}, {at: 1 °C, for: 5 weeks}", yeast="German lager"),
        fermented("{at: 60 °F, for: 36 h}", vessel="cask") + "source: brewhouse ledger, 1823\n",
        fermented("{at: 35 °C, for: 4 d}", yeast="kveik"),
        fermented("{at: 19 °C, for: 24 h}", vessel="keg"),
        fermented("{at: 19 °C, for: 24 h}", more=", gravity: 1.009"),
        fermented("{at: 19 °C, for: 1 d}, {at: 12 °C}"),
    ],
)
def test_a_fermentation_that_may_be_over(found: Found, text: str) -> None:
    assert [line for line in found("unfinished_beer", text) if "hardly a fermentation" in line] == []


@pytest.mark.parametrize(
    ("step", "og", "told"),
    [
        ("{at: 19 °C, for: 3 d}", "1.048", "takes 5 d"),
        ("{at: 19 °C, for: 6 d}", "1.072", "takes 7.2 d"),
        ("{at: 13 °C, for: 5 d}", "1.048", "takes 5.8"),
        ("{at: 19 °C, for: 8 d}", "1.072", ""),
    ],
)
def test_three_days_are_no_ale(found: Found, step: str, og: str, told: str) -> None:
    """By strength, heat and yeast, and never less than two equal gravities three days apart allow."""
    text = fermented(step) + f"targets: {{og: {og}}}\n"
    lines = [line for line in found("unfinished_beer", text) if "hardly a fermentation" in line]
    assert [told in line for line in lines] == ([True] if told else [])


STATED = """\
recipe: Sweet Promise
batch: 20 l
grist: [{{grain: pale ale malt, weight: {weight}}}]
mash: {{rests: [{{at: 66 °C, for: 60 min}}]}}
yeast: {{kind: English ale}}
package: {{in: {vessel}, carbonation: 2.4 volumes}}
targets: {{og: {og}, fg: {fg}}}
"""


@pytest.mark.parametrize(("weight", "og", "fg"), [("4.5 kg", "1.050", "1.024"), ("9.3 kg", "1.103", "1.038")])
def test_a_stated_end_that_is_too_high_never_switches_the_alarm_off(
    found: Found, weight: str, og: str, fg: str
) -> None:
    (line,) = found("unfinished_beer", STATED.format(weight=weight, vessel="bottles", og=og, fg=fg))
    assert re.match(r"7:\d+: (error|warning): this beer is likely to end at ", line)
    assert f"below the stated FG of {fg}; bottled at that it may make about " in line
    assert line.endswith("wait for two equal gravities three days apart, and keep to the bottles' rating")


def test_it_is_told_of_a_keg_and_not_of_what_was_measured(found: Found) -> None:
    keg = STATED.format(weight="4.5 kg", vessel="keg", og="1.050", fg="1.024")
    assert "the keg may come to" in found("unfinished_beer", keg)[0]
    measured = STATED.format(weight="4.5 kg", vessel="bottles", og="1.050", fg="1.024")
    assert found("unfinished_beer", measured + "measured: [{date: 2026-01-02, fg: 1.024}]\n") == []
    sound = STATED.format(weight="4.5 kg", vessel="bottles", og="1.050", fg="1.013")
    assert found("unfinished_beer", sound) == []
