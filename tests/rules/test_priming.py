"""The priming sugar against the stated carbonation and the bottles."""

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
    "gives what is stated": (
        """\
package: {in: bottles, carbonation: 2.4 volumes, priming: {sugar: table sugar, weight: 110 g}}
""",
        [],
    ),
    "two hundred grams in twenty litres": (
        """\
package: {in: bottles, carbonation: 2.3 volumes, priming: {sugar: table sugar, weight: 200 g}}
""",
        [
            (
                "5:88: error: 200 g of table sugar gives about 3.6 volumes, where 2.3 volumes are stated;"
                " ordinary bottles hold about 3 volumes, so keep to your bottles' rating"
            ),
        ],
    ),
    "the same with nothing stated": (
        """\
package: {in: bottles, priming: {sugar: table sugar, weight: 200 g}}
""",
        [
            (
                "5:62: warning: 200 g of table sugar gives about 3.6 volumes; ordinary bottles hold about"
                " 3 volumes, so keep to your bottles' rating"
            ),
        ],
    ),
    "the same in rated bottles": (
        """\
package: {in: bottles, priming: {sugar: table sugar, weight: 200 g}, bottle-rating: 3.5 volumes}
""",
        [
            (
                "5:62: error: 200 g of table sugar gives about 3.6 volumes, and can burst bottles rated 3"
                ".5 volumes; keep to the bottles' rating"
            ),
        ],
    ),
    "the same in strong bottles": (
        """\
package: {in: bottles, carbonation: 3.6 volumes,
  priming: {sugar: table sugar, weight: 200 g}, bottle-rating: 4.5 volumes}
""",
        [],
    ),
    "past the rating at the unfavourable end only": (
        """\
package: {in: bottles, priming: {sugar: table sugar, weight: 185 g}, bottle-rating: 3.5 volumes}
""",
        [
            (
                "5:62: warning: 185 g of table sugar gives about 3.4 to 3.7 volumes, and may burst bottle"
                "s rated 3.5 volumes; keep to the bottles' rating"
            ),
        ],
    ),
    "past a rating in bar": (
        """\
package: {in: bottles, priming: {sugar: table sugar, weight: 200 g}, bottle-rating: 3 bar}
""",
        [
            (
                "5:62: error: 200 g of table sugar gives about 3.3 bar at 20 °C, 5.3 at 30 °C, and can bu"
                "rst bottles rated 3 bar; keep to the bottles' rating"
            ),
        ],
    ),
    "past a rating in bar on a hot day": (
        """\
package: {in: bottles, priming: {sugar: table sugar, weight: 200 g}, bottle-rating: 4 bar}
""",
        [
            (
                "5:62: warning: 200 g of table sugar gives about 3.3 bar at 20 °C, 5.3 at 30 °C, and may "
                "burst bottles rated 4 bar; keep to the bottles' rating"
            ),
        ],
    ),
    "wheat beer of unknown rating": (
        """\
package: {in: bottles, priming: {sugar: table sugar, weight: 150 g}}
""",
        [
            (
                "5:62: note: 150 g of table sugar gives about 2.9 volumes; ordinary bottles hold about 3 "
                "volumes, so keep to your bottles' rating"
            ),
        ],
    ),
    "far past anything": (
        """\
package: {in: bottles, priming: {sugar: table sugar, weight: 300 g}}
""",
        [
            (
                "5:62: error: 300 g of table sugar gives about 4.9 volumes; ordinary bottles hold about 3"
                " volumes, so keep to your bottles' rating"
            ),
        ],
    ),
    "a slip of a unit": (
        """\
package: {in: bottles, carbonation: 2.4 volumes, priming: {sugar: table sugar, weight: 110 kg}}
""",
        [
            (
                "5:88: error: 110 kg of table sugar gives about 1507 volumes, where 2.4 volumes are state"
                "d; ordinary bottles hold about 3 volumes, so keep to your bottles' rating"
            ),
        ],
    ),
    "hardly any fizz": (
        """\
package: {in: bottles, carbonation: 2.4 volumes, priming: {sugar: table sugar, weight: 50 g}}
""",
        [
            "5:88: warning: 50 g of table sugar gives about 1.5 volumes, not the stated 2.4 volumes",
        ],
    ),
    "a little short": (
        """\
package: {in: bottles, carbonation: 2.4 volumes, priming: {sugar: table sugar, weight: 77 g}}
""",
        [
            "5:88: note: 77 g of table sugar gives about 1.9 volumes, not the stated 2.4 volumes",
        ],
    ),
    "more than stated, but no harm": (
        """\
package: {in: bottles, carbonation: 1.8 volumes, priming: {sugar: table sugar, weight: 120 g}}
""",
        [
            "5:88: note: 120 g of table sugar gives about 2.5 volumes, not the stated 1.8 volumes",
        ],
    ),
    "a weight for each bottle": (
        """\
package: {in: bottles, carbonation: 2.4 volumes,
  priming: {sugar: table sugar, each: 3 g, bottle: 500 ml}}
""",
        [],
    ),
    "twice as much for each bottle": (
        """\
package: {in: bottles, carbonation: 2.4 volumes,
  priming: {sugar: table sugar, each: 6 g, bottle: 500 ml}}
""",
        [
            (
                "6:39: error: table sugar, 6 g to each 500 ml, gives about 4 volumes, where 2.4 volumes a"
                "re stated; ordinary bottles hold about 3 volumes, so keep to your bottles' rating"
            ),
        ],
    ),
    "by the litre, in grams of gas": (
        """\
package: {in: bottles, carbonation: 5 g/l, priming: {sugar: dextrose, rate: 7 g/l}}
""",
        [],
    ),
    "malt extract": (
        """\
package: {in: bottles, carbonation: 2.4 volumes,
  priming: {extract: light dry malt extract, weight: 160 g}}
""",
        [],
    ),
    "nobody said how much": (
        """\
package: {in: bottles, carbonation: 2.4 volumes, priming: {sugar: table sugar}}
""",
        [],
    ),
    "lactose": (
        """\
package: {in: bottles, carbonation: 2.4 volumes, priming: {sugar: lactose, weight: 120 g}}
""",
        [
            "5:67: warning: yeast does not ferment lactose, so it gives no gas; table sugar or dextrose does",
        ],
    ),
    "stated too high itself is another question": (
        """\
package: {in: bottles, carbonation: 4.5 volumes,
  priming: {sugar: table sugar, weight: 270 g}, bottle-rating: 3.5 volumes}
""",
        [],
    ),
    "fruit beside it": (
        """\
  - {fruit: raspberries, weight: 2 kg}
package: {in: bottles, carbonation: 2.4 volumes, priming: {sugar: table sugar, weight: 110 g}}
""",
        [
            (
                "6:50: note: the sugar of raspberries in the fermenter adds to the priming if it has not "
                "all fermented; wait for two equal gravities three days apart"
            ),
        ],
    ),
    "fruit that has fermented": (
        """\
  - {fruit: raspberries, weight: 2 kg}
package: {in: bottles, carbonation: 2.4 volumes,
  priming: {sugar: table sugar, weight: 110 g}, gravity: 1.010}
""",
        [],
    ),
    "gas on the keg beside it": (
        """\
package: {in: keg, carbonation: 2.4 volumes, pressure: 0.8 bar, at: 5 °C,
  priming: {sugar: table sugar, weight: 110 g}}
""",
        [
            "6:3: note: the keg is primed and set to 0.8 bar as well; one of the two gives the gas",
        ],
    ),
    "bottled under pressure": (
        """\
package: {in: bottles, carbonation: 2.4 volumes, pressure: 0.8 bar, at: 5 °C,
  priming: {sugar: table sugar, weight: 110 g}}
""",
        [
            (
                "6:41: error: 110 g of table sugar on top of what the beer holds under 0.8 bar at 5 °C gi"
                "ves about 3.9 volumes, where 2.4 volumes are stated; ordinary bottles hold about 3 volum"
                "es, so keep to your bottles' rating"
            ),
        ],
    ),
    "bottled under pressure, nobody said how cold": (
        """\
package: {in: bottles, carbonation: 2.4 volumes, pressure: 0.8 bar,
  priming: {sugar: table sugar, weight: 110 g}}
""",
        [
            (
                "6:3: warning: beer bottled under 0.8 bar holds gas already, to which the sugar adds; kee"
                "p to the bottles' rating"
            ),
        ],
    ),
    "no priming": (
        """\
package: {in: bottles, carbonation: 2.4 volumes}
""",
        [],
    ),
}


@pytest.mark.parametrize("case", CASES)
def test_priming(found: Found, case: str) -> None:
    text, expected = CASES[case]
    assert found("priming", HEAD + text) == expected
