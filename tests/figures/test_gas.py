"""All gas of a package is one sum, and it is held against one limit."""

import pytest

import mashwright
from mashwright.brew.brew import Brew
from mashwright.figures.package.gas import all_gas, gas_of
from mashwright.figures.package.pressure import bearing, bottle_pressure, stress
from mashwright.figures.package.still_to_come import to_come
from mashwright.measures.range import Range

HEAD = """\
recipe: Tried
batch: {package: 20 l}
grist:
  - {grain: pale ale malt, weight: 4.4 kg}
"""
GAS_RULES = {"carbonation", "priming", "unfinished-beer", "diastatic-yeast"}


def brew(text: str, house: str = "") -> Brew:
    return Brew.of(HEAD + text, house)


def levels(text: str) -> dict[str, str]:
    """The worst level of each rule about gas."""
    found: dict[str, mashwright.Level] = {}
    for one in mashwright.review_text(HEAD + text).recipes[0].results:
        if one.rule in GAS_RULES:
            found[one.rule] = max(one.level, found.get(one.rule, one.level))
    return {rule: level.word for rule, level in found.items()}


def test_every_cause_is_a_part_of_the_sum() -> None:
    tried = brew("""\
  - {fruit: raspberries, weight: 2 kg, add: fermenter}
yeast: {kind: American ale}
hops: [{hop: Cascade, weight: 120 g, dry: 4 d}]
additions: [{what: honey, weight: 50 g, when: at bottling}]
measured: [{date: 2026-03-01, fg: 1.010}]
package: {in: bottles, priming: {sugar: table sugar, weight: 80 g}}
targets: {og: 1.050, fg: 1.010}
""")
    gas = gas_of(tried)
    names = [name for name, _ in gas.rows]
    assert names == [
        "left by fermentation",
        "table sugar",
        "honey",
        "fermentation restarted by dry hops, at most",
        "sugar of raspberries, at most",
    ]
    assert gas.total.high == pytest.approx(sum(value.high for _, value in gas.rows))
    assert gas.given.typical == gas.total.typical
    assert all_gas(tried).range == gas.total
    assert all_gas(tried).parts == gas.rows


def test_points_that_are_left_and_krausen_are_parts_too() -> None:
    tried = brew("""\
yeast: {kind: American ale}
package: {in: bottles, gravity: 1.014, priming: {extract: krausen, volume: 1 l}}
targets: {og: 1.050, fg: 1.010}
""")
    assert [name for name, _ in gas_of(tried).rows] == ["left by fermentation", "krausen", "points left to ferment"]


def test_what_splits_dextrins_is_a_part() -> None:
    tried = brew("""\
yeast: {kind: saison}
package: {in: bottles, carbonation: 2.4 volumes}
targets: {og: 1.050, fg: 1.008}
""")
    assert [name for name, _ in gas_of(tried).rows] == ["carbonation", "diastatic saison yeast"]
    assert bottle_pressure(tried).typical > 3.5, "the pressure is that of the sum"


@pytest.mark.parametrize(
    ("package", "targets"),
    [
        # each was silent about pressure, though the sheet showed some eight bar
        ("in: bottles, carbonation: 2.3 volumes", "og: 1.050, fg: 1.024"),
        ("in: bottles, carbonation: 2.3 volumes", "og: 1.103, fg: 1.038"),
        ("in: bottles, carbonation: 2.3 volumes, gravity: 1.024", "og: 1.050, fg: 1.024"),
        ("in: cans, carbonation: 2.3 volumes", "og: 1.050, fg: 1.024"),
        ("in: growlers, carbonation: 2.3 volumes", "og: 1.050, fg: 1.024"),
    ],
)
def test_a_wrong_final_gravity_never_switches_the_alarm_off(package: str, targets: str) -> None:
    mash, yeast = "mash: {rests: [{at: 67 °C, for: 60 min}]}", "yeast: {kind: American ale}"
    found = levels(f"{mash}\n{yeast}\npackage: {{{package}}}\ntargets: {{{targets}}}\n")
    assert found["unfinished-beer"] == "error"


def test_a_brew_day_that_stopped_high_is_a_doubt() -> None:
    text = "measured: [{date: 2026-03-01, og: 1.050, fg: 1.024}]\nyeast: {kind: American ale}\n"
    text += "package: {in: bottles, carbonation: 2.3 volumes}\ntargets: {og: 1.050, fg: 1.024}\n"
    assert levels(text)["unfinished-beer"] == "warning"


@pytest.mark.parametrize("fg", ["1.008", "1.012", "1.013"])
def test_a_final_gravity_that_can_be_draws_none(fg: str) -> None:
    text = "yeast: {kind: American ale}\npackage: {in: bottles, carbonation: 2.3 volumes}\n"
    assert levels(f"{text}targets: {{og: 1.050, fg: {fg}}}\n") == {}


@pytest.mark.parametrize(
    ("vessel", "level"),
    [("bottles", "error"), ("champagne bottles", "error"), ("keg", "error"), ("soda keg", "error"), ("cask", "error")],
)
def test_diastatic_yeast_in_every_vessel(vessel: str, level: str) -> None:
    """Packaged at 1.030 with 1.004 to come."""
    text = f"yeast: {{kind: saison}}\npackage: {{in: {vessel}, carbonation: 2.3 volumes, gravity: 1.030}}\n"
    assert levels(text + "targets: {og: 1.054, fg: 1.004}\n")["diastatic-yeast"] == level


def test_no_mend_leads_from_bottles_into_a_keg_that_holds_no_more() -> None:
    text = "yeast: {kind: saison}\npackage: {in: bottles, carbonation: 2.8 volumes, gravity: 1.020}\n"
    (result,) = [
        one
        for one in mashwright.review_text(HEAD + text + "targets: {og: 1.054, fg: 1.004}\n").recipes[0].results
        if one.rule == "diastatic-yeast"
    ]
    assert [remedy.text for remedy in result.remedies] == ["package at 1.004 instead of 1.020"]


@pytest.mark.parametrize("package", ["in: bottles", "in: bottles, bottle-rating: 4.5 volumes", "in: keg"])
@pytest.mark.parametrize("kind", ["saison", "Brettanomyces"])
def test_no_cliff_in_attenuation(package: str, kind: str) -> None:
    """From 80 to 97 % in steps of a tenth of a per cent the level falls by one step at a time, and never rises."""
    steps = {"error": 3, "warning": 2, "note": 1}
    before = None
    for tenths in range(800, 970, 4):
        fg = 1 + 0.060 * (1 - tenths / 1000)
        text = f"yeast: {{kind: {kind}}}\npackage: {{{package}, carbonation: 2.8 volumes}}\n"
        found = steps.get(levels(text + f"targets: {{og: 1.060, fg: {fg:.5f}}}\n").get("diastatic-yeast", ""), 0)
        assert before is None or before - found in (0, 1, 2 if before == 2 else 1), f"{tenths / 10} %"
        before = found
    assert before == 0


def test_the_attenuation_of_the_old_cliff() -> None:
    text = "yeast: {kind: saison}\npackage: {in: bottles, carbonation: 2.8 volumes}\n"
    above, under = (levels(text + f"targets: {{og: 1.100, fg: {fg}}}\n") for fg in ("1.0100", "1.0101"))
    assert above == under == {"diastatic-yeast": "warning"}


@pytest.mark.parametrize("vessel", ["bottles", "champagne bottles", "cans", "keg", "soda keg", "steel keg", "cask"])
def test_one_vessel_one_limit(vessel: str) -> None:
    """The least gas that is an error is the same, whichever cause it has, and is that of the table."""
    plain = brew(f"package: {{in: {vessel}, carbonation: 2 volumes}}\n")
    bears = bearing(plain)
    assert bears is not None
    held = stress(plain, Range.exact(9.0))
    assert held is not None
    assert held.bearing.limit == bears.vessel.bears


def test_a_rating_of_the_brewhouse_counts_for_every_rule() -> None:
    house = "vessels: {bottles: {rating: 5 volumes}, soda-keg: {rating: 60 psi}}\n"
    stated = bearing(brew("package: {in: bottle, carbonation: 2.3 volumes}\n", house))
    assert stated is not None
    assert (stated.limit.high, stated.called) == (5, "bottles rated 5 volumes")
    keg = bearing(brew("package: {in: ball-lock keg, carbonation: 2.3 volumes}\n", house))
    assert keg is not None
    assert keg.limit.high == pytest.approx(4.137, abs=0.001)
    own = bearing(brew("package: {in: bottles, bottle-rating: 4 volumes}\n", house))
    assert own is not None
    assert own.limit.high == 4, "the recipe's own comes first"
    other = bearing(brew("package: {in: cans}\n", house))
    assert other is not None
    assert other.rating == ""


@pytest.mark.parametrize(
    ("pressure", "level", "much", "asked"),
    [
        ("12 bar", "error", "is too much for a keg of unknown make, good for about 4 bar", "; did you mean 12 psi?"),
        (
            "6 bar",
            "warning",
            "may be too much for a keg of unknown make, good for about 4 bar",
            "; did you mean 6 psi?",
        ),
        ("100 psi", "warning", "may be too much for a keg of unknown make, good for about 58 psi", ""),
    ],
)
def test_a_pressure_that_no_keg_bears(pressure: str, level: str, much: str, asked: str) -> None:
    review = mashwright.review_text(HEAD + f"package: {{in: keg, pressure: {pressure}, at: 5 °C}}\n")
    (found,) = [one for one in review.recipes[0].results if one.rule == "carbonation"]
    rest = f"{much}; keep to the lowest rating of keg, lines and taps{asked}"
    assert (found.level.word, found.message) == (level, f"{pressure} {rest}")


def test_a_pressure_that_any_keg_bears() -> None:
    review = mashwright.review_text(HEAD + "package: {in: keg, pressure: 0.8 bar, at: 5 °C}\n")
    assert [one for one in review.recipes[0].results if one.rule == "carbonation"] == []


@pytest.mark.parametrize("vessel", ["growlers", "jars", "demijohn"])
def test_priming_in_glass_that_was_never_made_for_gas(vessel: str) -> None:
    text = f"package: {{in: {vessel}, priming: {{sugar: table sugar, weight: 100 g}}}}\n"
    (found,) = [one for one in mashwright.review_text(HEAD + text).recipes[0].results if one.rule == "priming"]
    assert found.level.word == "error"
    assert "not made for beer that makes gas" in found.message


@pytest.mark.parametrize("vessel", ["cans", "champagne bottles", "PET bottles", "swing-top bottles", "mini keg", "pin"])
def test_no_vessel_is_a_fault_by_itself(vessel: str) -> None:
    review = mashwright.review_text(HEAD + f"yeast: {{kind: English ale}}\npackage: {{in: {vessel}}}\n")
    assert [one.message for one in review.recipes[0].results if one.level > 1] == []


@pytest.mark.parametrize(("time", "counted"), [("", True), (", for: 5 d", True), (", for: 21 d", False)])
def test_fruit_that_stood_long_enough_makes_no_more_gas(time: str, counted: bool) -> None:
    tried = Brew.of(
        "recipe: Tried\nbatch: 20 l\ngrist:\n  - {grain: pale ale malt, weight: 4 kg}\n"
        f"  - {{fruit: raspberries, weight: 2 kg, add: fermenter{time}}}\n"
        "package: {in: bottles, carbonation: 2.4 volumes}\ntargets: {og: 1.045, fg: 1.010}\n"
    )
    assert any("raspberries" in one.name for one in to_come(tried).causes) is counted
