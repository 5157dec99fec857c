"""The stated carbonation against bottles, kegs and casks."""

# ruff: noqa: E501 -- a finding is asserted whole, on its line

from collections.abc import Callable

import pytest

Found = Callable[..., list[str]]

HEAD = """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: pale ale malt, weight: 4.4 kg}
"""

CASES = {
    "within the rating": (
        """\
package: {in: bottles, carbonation: 3.5 volumes, bottle-rating: 3.5 volumes}
""",
        [],
    ),
    "past the rating": (
        """\
package: {in: bottles, carbonation: 4.5 volumes, bottle-rating: 3.5 volumes}
""",
        [
            "5:37: error: 4.5 volumes can burst bottles rated 3.5 volumes; keep to the bottles' rating",
        ],
    ),
    "hardly past the rating": (
        """\
package: {in: bottles, carbonation: 3.51 volumes, bottle-rating: 3.5 volumes}
""",
        [
            "5:37: error: 3.51 volumes can burst bottles rated 3.5 volumes; keep to the bottles' rating",
        ],
    ),
    "a range that reaches past the rating": (
        """\
package: {in: bottles, carbonation: 3.0-3.8 volumes, bottle-rating: 3.5 volumes}
""",
        [
            "5:37: warning: 3.0-3.8 volumes may burst bottles rated 3.5 volumes; keep to the bottles' rating",
        ],
    ),
    "a range past the rating in its middle": (
        """\
package: {in: bottles, carbonation: 3.4-3.8 volumes, bottle-rating: 3.5 volumes}
""",
        [
            "5:37: error: 3.4-3.8 volumes can burst bottles rated 3.5 volumes; keep to the bottles' rating",
        ],
    ),
    "a pressure that holds on a hot day": (
        """\
package: {in: bottles, carbonation: 2.5 volumes, bottle-rating: 4 bar}
""",
        [],
    ),
    "a pressure that holds but on a hot day": (
        """\
package: {in: bottles, carbonation: 4.5 volumes, bottle-rating: 5 bar}
""",
        [
            (
                "5:37: warning: 4.5 volumes (4.4 bar at 20 °C, 6.3 at 30 °C) may burst bottles rated 5 ba"
                "r; keep to the bottles' rating"
            ),
        ],
    ),
    "a pressure that does not hold": (
        """\
package: {in: bottles, carbonation: 4.5 volumes, bottle-rating: 60 psi}
""",
        [
            (
                "5:37: error: 4.5 volumes (4.4 bar at 20 °C, 6.3 at 30 °C) can burst bottles rated 60 psi"
                "; keep to the bottles' rating"
            ),
        ],
    ),
    "grams to the litre": (
        """\
package: {in: bottles, carbonation: 9 g/l, bottle-rating: 3.5 volumes}
""",
        [
            "5:37: error: 9 g/l can burst bottles rated 3.5 volumes; keep to the bottles' rating",
        ],
    ),
    "unknown rating, at the note": (
        """\
package: {in: bottles, carbonation: 2.8 volumes}
""",
        [],
    ),
    "unknown rating, past the note": (
        """\
package: {in: bottles, carbonation: 2.9 volumes}
""",
        [],
    ),
    "unknown rating, past the warning": (
        """\
package: {in: bottles, carbonation: 3.4 volumes}
""",
        [
            (
                "5:37: warning: 3.4 volumes may burst ordinary bottles, good for about 3 volumes; keep to t"
                "he bottles' rating, which is not stated"
            ),
        ],
    ),
    "unknown rating, at the error": (
        """\
package: {in: bottles, carbonation: 4.0 volumes}
""",
        [
            (
                "5:37: warning: 4.0 volumes may burst ordinary bottles, good for about 3 volumes; keep to t"
                "he bottles' rating, which is not stated"
            ),
        ],
    ),
    "unknown rating, past the error": (
        """\
package: {in: bottles, carbonation: 4.1 volumes}
""",
        [
            (
                "5:37: error: 4.1 volumes can burst ordinary bottles, good for about 3 volumes; keep to the"
                " bottles' rating, which is not stated"
            ),
        ],
    ),
    "a keg is exempt": (
        """\
package: {in: keg, carbonation: 4.5 volumes}
""",
        [
            (
                "5:33: warning: 4.5 volumes (4.4 bar at 20 °C) may be too much for a keg of unknown make, g"
                "ood for about 4 bar; keep to the keg's rating, which is not stated"
            ),
        ],
    ),
    "a keg whose pressure holds it": (
        """\
package: {in: keg, carbonation: 2.5 volumes, pressure: 11 psi, at: 38 °F}
""",
        [],
    ),
    "closed at a gravity that gives what is wanted": (
        """\
ferment: [{at: 10 °C, for: 14 d}]
package: {in: keg, carbonation: 2.5 volumes, spund: {gravity: 1.0146}}
targets: {og: 1.048, fg: 1.012}
""",
        [],
    ),
    "closed too soon": (
        """\
ferment: [{at: 10 °C, for: 14 d}]
package: {in: soda keg, carbonation: 2.5 volumes, spund: {gravity: 1.018}}
targets: {og: 1.048, fg: 1.012}
""",
        [
            (
                "6:68: warning: the beer is closed at 1.018, with 6 points to go; the beer then holds about 4.27 volumes,"
                " not 2.5 volumes; that needs 1.015"
            ),
        ],
    ),
    "closed far too soon in a keg": (
        """\
ferment: [{at: 10 °C, for: 14 d}]
package: {in: mini keg, spund: {gravity: 1.020}}
targets: {og: 1.048, fg: 1.012}
""",
        [
            (
                "6:42: error: the beer is closed at 1.020, with 8 points to go; 5.3 volumes, 5.4 bar at 20 °C is too much"
                " for a mini keg, good for about 1.9 bar; keep to the mini keg's rating"
            ),
        ],
    ),
    "a valve that leaves too little": (
        """\
ferment: [{at: 10 °C, for: 14 d}]
package: {in: keg, carbonation: 2.5 volumes, spund: {pressure: 0.4 bar}}
targets: {og: 1.048, fg: 1.012}
""",
        [
            (
                "6:64: warning: the valve is set to 0.4 bar; the beer then holds about 1.6 volumes, not 2.5 volumes; that"
                " needs 1.19 bar"
            ),
        ],
    ),
    "a valve set past the keg": (
        """\
package: {in: steel keg, spund: {pressure: 6 bar, at: 2 °C}}
""",
        [
            (
                "5:44: error: 6 bar is too much for a steel keg, good for about 4 bar; keep to the lowest rating of keg,"
                " lines and taps; did you mean 6 psi?"
            ),
        ],
    ),
    "for bottles": (
        """\
ferment: [{at: 10 °C, for: 14 d}]
package: {in: bottles, carbonation: 2.5 volumes, spund: {gravity: 1.0146}}
targets: {og: 1.048, fg: 1.012}
""",
        [
            (
                "6:50: note: beer that is closed before its end needs a vessel made for pressure, with a relief valve; does"
                " yours have one?"
            ),
        ],
    ),
    "stout gas on a lager": (
        """\
package: {in: keg, carbonation: 2.5 volumes, gas: 30 % CO2, pressure: 2 bar, at: 4 °C}
""",
        [
            (
                "5:51: warning: with 30 % CO2, 2.5 volumes at 4 °C needs 5 bar, too much for a keg of unknown make,"
                " good for about 4 bar; use a gas with more CO2"
            ),
        ],
    ),
    "stout gas on a stout": (
        """\
package: {in: keg, carbonation: 1.3 volumes, gas: 70 % nitrogen, pressure: 2 bar, at: 4 °C}
""",
        [],
    ),
    "mixed gas at too little pressure": (
        """\
package: {in: keg, carbonation: 2.5 volumes, gas: 60 % CO2, pressure: 1 bar, at: 4 °C}
""",
        [
            (
                "5:71: warning: 1 bar of 60 % CO2 at 4 °C keeps 1.67 volumes in the beer, not 2.5 volumes;"
                " that needs 1.99 bar"
            ),
        ],
    ),
    "nitrogen alone": (
        """\
package: {in: keg, carbonation: 2.5 volumes, gas: nitrogen}
""",
        ["5:51: warning: nitrogen keeps no carbonation in the beer; use a gas with CO2 in it"],
    ),
    "two numbers": (
        """\
package: {in: keg, carbonation: 2.5 volumes, gas: 70/30, pressure: 1 bar, at: 4 °C}
""",
        ["5:51: open: a readable package"],
    ),
    "each of several packages by itself": (
        """\
package:
  - {in: champagne bottles, carbonation: 4.5 volumes}
  - {in: bottles, carbonation: 4.5 volumes}
  - {in: mini keg, carbonation: 2.4 volumes, pressure: 5 bar, at: 5 °C}
""",
        [
            (
                "7:32: error: 4.5 volumes can burst ordinary bottles, good for about 3 volumes; keep to the bottles'"
                " rating, which is not stated"
            ),
            (
                "8:56: error: 5 bar is too much for a mini keg, good for about 1.9 bar; keep to the lowest rating of"
                " keg, lines and taps; did you mean 5 psi?"
            ),
        ],
    ),
    "a keg whose pressure holds more": (
        """\
package: {in: keg, carbonation: 2.5 volumes, pressure: 2 bar, at: 5 °C}
""",
        [
            ("5:56: warning: 2 bar at 5 °C keeps 4.04 volumes in the beer, not 2.5 volumes; that needs 0.85 bar"),
        ],
    ),
    "a keg whose pressure holds less": (
        """\
package: {in: keg, carbonation: 2.5 volumes, pressure: 5 psi, at: 50 °F}
""",
        [
            ("5:56: warning: 5 psi at 50 °F keeps 1.54 volumes in the beer, not 2.5 volumes; that needs 17.3 psi"),
        ],
    ),
    "more than many kegs take": (
        """\
package: {in: keg, carbonation: 2.5 volumes, pressure: 100 psi, at: 38 °F}
""",
        [
            (
                "5:56: warning: 100 psi may be too much for a keg of unknown make, good for about 58 psi; k"
                "eep to the lowest rating of keg, lines and taps"
            ),
        ],
    ),
    "a keg without its temperature": (
        """\
package: {in: keg, carbonation: 2.5 volumes, pressure: 2 bar}
""",
        [],
    ),
    "a cask": (
        """\
package: {in: cask, carbonation: 1.3 volumes}
""",
        [],
    ),
    "a lively cask": (
        """\
package: {in: cask, carbonation: 2.4 volumes}
""",
        [
            (
                "5:34: note: 2.4 volumes could be too much for a cask, good for about 2 volumes; keep to th"
                "e cask's rating, which is not stated"
            ),
        ],
    ),
    "a cask carbonated as bottles are": (
        """\
package: {in: cask, carbonation: 2.5 volumes}
""",
        [
            (
                "5:34: warning: 2.5 volumes may be too much for a cask, good for about 2 volumes; keep to t"
                "he cask's rating, which is not stated"
            ),
        ],
    ),
    "a cask at its most": (
        """\
package: {in: cask, carbonation: 2 volumes}
""",
        [],
    ),
    "a very lively cask": (
        """\
package: {in: cask, carbonation: 3.2 volumes}
""",
        [
            (
                "5:34: warning: 3.2 volumes may be too much for a cask, good for about 2 volumes; keep to t"
                "he cask's rating, which is not stated"
            ),
        ],
    ),
    "no vessel is named": (
        """\
package: {carbonation: 4.5 volumes}
""",
        [],
    ),
    "no carbonation is stated": (
        """\
package: {in: bottles}
""",
        [],
    ),
    "an unreadable rating": (
        """\
package: {in: bottles, carbonation: 4.5 volumes, bottle-rating: strong}
""",
        ["5:65: open: a readable package"],
    ),
}


@pytest.mark.parametrize("case", CASES)
def test_carbonation(found: Found, case: str) -> None:
    text, expected = CASES[case]
    assert found("carbonation", HEAD + text) == expected


def test_twelve_bar_on_a_keg_can_burst_it(found: Found) -> None:
    text = (
        "recipe: T\nbatch: 20 l\ngrist: [{grain: pale ale malt, weight: 4.5 kg}]\n"
        "package: {in: keg, carbonation: 2.4 volumes, pressure: %s, at: 4 °C}\n"
    )
    (told,) = found("carbonation", text % "12 bar")
    assert ": error: 12 bar is too much for a keg of unknown make, good for about 4 bar" in told
    assert told.endswith("did you mean 12 psi?")
    assert ": warning: " in found("carbonation", text % "5 bar")[0]
