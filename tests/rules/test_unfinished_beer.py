"""Gravity at packaging, and what dry hops can restart."""

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
    "a keg that is closed early under a valve": (
        """\
package: {in: keg, gravity: 1.024, spund: {pressure: 1 bar}}
targets: {og: 1.048, fg: 1.012}
""",
        [],
    ),
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
                "6:59: error: 1.020 at packaging is 10 points above the final gravity of 1.010: about 7.5 v"
                "olumes, which can burst ordinary bottles, good for about 3 volumes; wait for two equal gra"
                "vities three days apart, and keep to the bottles' rating"
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
                "6:87: error: 5 °P at packaging is 9.9 points above the final gravity of 2.5 °P: about 7.5 "
                "volumes, which can burst bottles rated 3.5 volumes; wait for two equal gravities three day"
                "s apart, and keep to the bottles' rating"
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
                "7:38: warning: 1.0122 at packaging is 2.2 points above the final gravity of 1.010: about 3"
                ".5 volumes, which may burst ordinary bottles, good for about 3 volumes; wait for two equal"
                " gravities three days apart, and keep to the bottles' rating"
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
                "7:64: warning: 1.013 at packaging is 3 points above the final gravity of 1.010: about 3.9 volumes"
                " instead of 2.4 volumes; wait for two equal gravities three days apart, and keep to the bot"
                "tles' rating"
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
                "7:66: error: 1.013 at packaging is 3 points above the final gravity of 1.010: about 3.9 vo"
                "lumes, which can burst bottles rated 3.5 volumes; wait for two equal gravities three days "
                "apart, and keep to the bottles' rating"
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
                "7:60: error: 1.014 at packaging is 4 points above the final gravity of 1.010: about 4.5 vo"
                "lumes, 4.4 bar at 20 °C, 6.6 at 30 °C, which can burst bottles rated 3 bar; wait for two e"
                "qual gravities three days apart, and keep to the bottles' rating"
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
                "6:59: note: 1.013 at packaging is 3 points above the final gravity of 1.010; is the beer to make"
                " its own gas, about 2.4 volumes?"
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
                "6:33: error: 1.020 at packaging is 10 points above the final gravity of 1.010: about 6.1 v"
                "olumes, which can burst ordinary bottles, good for about 3 volumes; wait for two equal gra"
                "vities three days apart, and keep to the bottles' rating"
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
                "7:59: error: 1.020 at packaging is above the 1.006-1.013 at which this grist, mash and yea"
                "st end: about 5.9 volumes, which can burst ordinary bottles, good for about 3 volumes; wai"
                "t for two equal gravities three days apart, and keep to the bottles' rating"
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
                "7:59: error: 1.013 at packaging is 5 points above the final gravity of 1.008: about 5 volu"
                "mes, which can burst ordinary bottles, good for about 3 volumes; wait for two equal gravit"
                "ies three days apart, and keep to the bottles' rating"
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
                "6:55: warning: 1.020 at packaging is 10 points above the final gravity of 1.010: about 7.5"
                " volumes, 8.1 bar at 20 °C, which may be too much for a keg of unknown make, good for abou"
                "t 4 bar; wait for two equal gravities three days apart, and keep to the keg's rating"
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
                "6:29: note: 1.0145 at packaging is 4.5 points above the final gravity of 1.010; vent the keg, or"
                " let the beer finish"
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
                "6:30: error: 1.018 at packaging is 8 points above the final gravity of 1.010: about 5 volu"
                "mes, which is too much for a cask, good for about 2 volumes; wait for two equal gravities "
                "three days apart, and keep to the cask's rating"
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
                "6:9: warning: 160 g of dry hops can restart the beer by up to 5.2 points: up to 5.1 volume"
                "s, which may burst ordinary bottles, good for about 3 volumes; then wait for two equal gravitie"
                "s three days apart, and keep to the bottles' rating"
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
                "6:9: warning: 9 oz of dry hops can restart the beer by up to 7 points: up to 6.3 volumes, "
                "which may burst bottles rated 3.5 volumes; then wait for two equal gravities three days apart,"
                " and keep to the bottles' rating"
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
        [
            (
                "6:9: warning: 160 g of dry hops can restart the beer by up to 5.2 points: up to 5.1 volume"
                "s, which may burst bottles rated 5 volumes; then wait for two equal gravities three days"
                " apart, and keep to the bottles' rating"
            ),
        ],
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


def fermented(
    steps: str, *, vessel: str = "bottles", yeast: str = "English ale", more: str = "", og: str = "1.044"
) -> str:
    return f"""\
recipe: Tried
batch: 20 l
grist:
  - {{grain: pale ale malt, weight: 4 kg}}
yeast: {{kind: {yeast}}}
ferment: [{steps}]
package: {{in: {vessel}, carbonation: 2.3 volumes{more}}}
targets: {{og: {og}}}
"""


@pytest.mark.parametrize(
    ("text", "told"),
    [
        (fermented("{at: 19 °C, for: 1 d}"), "1 d is too short; a wort of 1.044 at 19 °C needs at least 5 d"),
        (fermented("{at: 19 °C, for: 3 d}"), "3 d is too short; a wort of 1.044 at 19 °C needs at least 5 d"),
        (fermented("{at: 19 °C, for: 1.5 d}", vessel="cask"), "1.5 d is too short; a wort of 1.044 at 19 °C needs"),
        (fermented("{at: 19 °C, for: 1 d}, {at: 20 °C, for: 10 h}"), "1.4 d in all is too short"),
        (fermented("{at: 19 °C, for: 1 d}, {at: 2 °C, for: 6 d}"), "1 d in all is too short"),
        (fermented("{at: 19 °C, for: 2 d}", yeast="the old jar's"), "2 d is too short; a wort of 1.044 at 19 °C needs"),
        (
            fermented("{at: 24 °C, for: 4 d}", yeast="saison"),
            "4 d is too short; a wort of 1.044 at 24 °C needs at least 7 d",
        ),
        (fermented("{at: 9 °C, for: 6 d}", yeast="German lager"), "6 d is too short"),
        (
            fermented("{at: 35 °C, for: 3 d}", yeast="kveik"),
            "3 d is too short; a wort of 1.044 at 35 °C needs at least 4 d",
        ),
        (
            fermented("{at: 19 °C, for: 5 d}", og="1.072"),
            "5 d is too short; a wort of 1.072 at 19 °C needs at least 6 d",
        ),
        (
            fermented("{at: 19 °C, for: 10 d}", og="1.100"),
            "10 d is too short; a wort of 1.100 at 19 °C needs at least 14 d",
        ),
        (fermented("{at: 13 °C, for: 5 d}"), "5 d is too short; a wort of 1.044 at 13 °C needs at least 6 d"),
        (fermented("{at: 19 °C, for: 3 d}", vessel="cans"), "3 d is too short"),
        (fermented("{at: 19 °C, for: 3 d}", vessel="swing-top bottles"), "3 d is too short"),
    ],
)
def test_bottled_while_it_ferments(found: Found, text: str, told: str) -> None:
    (line,) = found("unfinished_beer", text)
    assert line.startswith("6:")
    assert f": warning: {told}" in line
    assert "wait for two equal gravities three days apart, and keep to the vessel's rating" in line
    assert line.endswith(" rating")


@pytest.mark.parametrize(
    ("text", "told"),
    [
        (fermented("{at: 20 °C, for: 5 d}"), "5 d could be too short: a wort of 1.044 at 20 °C usually needs 7 d"),
        (
            fermented("{at: 20 °C, for: 8 d}", og="1.072"),
            "8 d could be too short: a wort of 1.072 at 20 °C usually needs 11 d",
        ),
        (
            fermented("{at: 11 °C, for: 11 d}", yeast="German lager"),
            "11 d could be too short: a wort of 1.044 at 11 °C",
        ),
    ],
)
def test_a_fermentation_that_is_short_is_asked_about(found: Found, text: str, told: str) -> None:
    (line,) = found("unfinished_beer", text)
    assert f": note: {told}" in line
    assert line.endswith("; did two equal gravities three days apart show that it had ended?")


@pytest.mark.parametrize(
    ("hours", "asked"), [(24, "; did you mean 24 d?"), (10, "; did you mean 10 d?"), (2, "'s rating")]
)
def test_days_are_asked_for_where_they_would_do(found: Found, hours: int, asked: str) -> None:
    (line,) = found("unfinished_beer", fermented(f"{{at: 19 °C, for: {hours} h}}"))
    assert line.endswith(asked)


def test_the_day_that_was_meant_mends_it() -> None:
    (finding,) = mashwright.review_text(fermented("{at: 19 °C, for: 24 h}")).recipes[0].results
    assert [remedy.text for remedy in finding.remedies] == ["use 24 d instead of 24 h"]


def test_an_old_bottle_is_told_too(found: Found) -> None:
    text = fermented("{at: 60 °F, for: 36 h}") + "source: brewhouse ledger, 1823\n"
    assert "36 h is too short; a wort" in found("unfinished_beer", text)[0]


@pytest.mark.parametrize(
    "text",
    [
        fermented("{at: 19 °C, for: 7 d}"),
        fermented("{at: 19 °C, for: 14 d}", og="1.080"),
        fermented("{at: 20 °C, for: 5-7 d}"),
        fermented("{at: 19 °C, for: 4 d}", yeast="the old jar's"),
        fermented("{at: 18 °C, for: 8 d}", yeast="German lager"),
        fermented("{at: 9 °C, for: 6 d}, {at: 1 °C, for: 5 weeks}", yeast="German lager"),
        fermented("{at: 60 °F, for: 36 h}", vessel="cask") + "source: brewhouse ledger, 1823\n",
        fermented("{at: 60 °F, for: 36 h}", vessel="cask") + "source: old brewing book\n",
        fermented("{at: 35 °C, for: 4 d}", yeast="kveik"),
        fermented("{at: 19 °C, for: 3 d}", vessel="cask"),
        fermented("{at: 19 °C, for: 24 h}", vessel="keg"),
        fermented("{at: 19 °C, for: 24 h}", vessel="soda keg"),
        fermented("{at: 19 °C, for: 24 h}", more=", gravity: 1.009"),
        fermented("{at: 19 °C, for: 1 d}, {at: 12 °C}"),
    ],
)
def test_a_fermentation_that_may_be_over(found: Found, text: str) -> None:
    assert [line for line in found("unfinished_beer", text) if "too short" in line] == []


STATED = """\
recipe: Sweet Promise
batch: 20 l
grist: [{{grain: pale ale malt, weight: {weight}}}]
mash: {{rests: [{{at: 66 °C, for: 60 min}}]}}
yeast: {{kind: English ale}}
package: {{in: {vessel}, carbonation: 2.4 volumes}}
targets: {{og: {og}, fg: {fg}}}
"""


@pytest.mark.parametrize(
    ("weight", "og", "fg", "level"),
    [("4.5 kg", "1.050", "1.024", "error"), ("9.3 kg", "1.103", "1.038", "warning")],
)
def test_a_stated_end_that_is_too_high_never_switches_the_alarm_off(
    found: Found, weight: str, og: str, fg: str, level: str
) -> None:
    (line,) = found("unfinished_beer", STATED.format(weight=weight, vessel="bottles", og=og, fg=fg))
    assert f": {level}: a final gravity of {fg} is above the " in line
    assert line.endswith("; wait for two equal gravities three days apart, and keep to the bottles' rating")


def test_it_is_told_of_a_keg_and_doubted_where_it_was_measured(found: Found) -> None:
    keg = STATED.format(weight="4.5 kg", vessel="keg", og="1.050", fg="1.024")
    assert "a keg of unknown make, good for about 4 bar" in found("unfinished_beer", keg)[0]
    measured = STATED.format(weight="4.5 kg", vessel="bottles", og="1.050", fg="1.024")
    (line,) = found("unfinished_beer", measured + "measured: [{date: 2026-01-02, fg: 1.024}]\n")
    assert ": warning: " in line
    sound = STATED.format(weight="4.5 kg", vessel="bottles", og="1.050", fg="1.013")
    assert found("unfinished_beer", sound) == []
