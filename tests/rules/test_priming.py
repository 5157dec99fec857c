"""The priming sugar against the stated carbonation and the bottles."""

from collections.abc import Callable

import pytest

from mashwright.figures.package.priming import is_wort

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
                "5:88: error: 200 g of table sugar gives about 3.6 volumes, where 2.3 volumes are stated, a"
                "nd can burst ordinary bottles, good for about 3 volumes; keep to the bottles' rating"
            ),
        ],
    ),
    "the same with nothing stated": (
        """\
package: {in: bottles, priming: {sugar: table sugar, weight: 200 g}}
""",
        [
            (
                "5:62: warning: 200 g of table sugar gives about 3.6 volumes, and may burst ordinary bottle"
                "s, good for about 3 volumes; keep to the bottles' rating"
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
                "5:62: error: 200 g of table sugar gives about 3.6 volumes, 3.3 bar at 20 °C, 5.3 at 30 °C,"
                " and can burst bottles rated 3 bar; keep to the bottles' rating"
            ),
        ],
    ),
    "past a rating in bar on a hot day": (
        """\
package: {in: bottles, priming: {sugar: table sugar, weight: 200 g}, bottle-rating: 4 bar}
""",
        [
            (
                "5:62: warning: 200 g of table sugar gives about 3.6 volumes, 3.3 bar at 20 °C, 5.3 at 30 °"
                "C, and may burst bottles rated 4 bar; keep to the bottles' rating"
            ),
        ],
    ),
    "wheat beer of unknown rating": (
        """\
package: {in: bottles, priming: {sugar: table sugar, weight: 150 g}}
""",
        [],
    ),
    "far past anything": (
        """\
package: {in: bottles, priming: {sugar: table sugar, weight: 300 g}}
""",
        [
            (
                "5:62: error: 300 g of table sugar gives about 4.9 volumes, and can burst ordinary bottles,"
                " good for about 3 volumes; keep to the bottles' rating"
            ),
        ],
    ),
    "a slip of a unit": (
        """\
package: {in: bottles, carbonation: 2.4 volumes, priming: {sugar: table sugar, weight: 110 kg}}
""",
        [
            (
                "5:88: error: 110 kg of table sugar gives about 1507 volumes, where 2.4 volumes are stated,"
                " and can burst ordinary bottles, good for about 3 volumes; keep to the bottles' rating"
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
                "6:39: error: table sugar, 6 g to each 500 ml, gives about 4 to 4.1 volumes, where 2.4 volu"
                "mes are stated, and can burst ordinary bottles, good for about 3 volumes; keep to the bott"
                "les' rating"
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
                "6:41: error: 110 g of table sugar on top of what the beer holds under 0.8 bar at 5 °C give"
                "s about 3.9 to 4.02 volumes, where 2.4 volumes are stated, and can burst ordinary bottles,"
                " good for about 3 volumes; keep to the bottles' rating"
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
    "honey on top of the sugar": (
        """\
additions: [{what: honey, weight: 300 g, when: at bottling}]
package: {in: bottles, priming: {sugar: table sugar, weight: 105 g}}
""",
        [
            (
                "6:62: error: 105 g of table sugar and 300 g of honey give about 5.3 volumes, and can burst"
                " ordinary bottles, good for about 3 volumes; keep to the bottles' rating"
            ),
        ],
    ),
    "an addition alone that primes": (
        """\
additions: [{what: dextrose, weight: 250 g, when: into the bottling bucket}]
package: {in: bottles, bottle-rating: 3.5 volumes}
""",
        [
            (
                "5:38: error: 250 g of dextrose gives about 3.8 volumes, and can burst bottles rated 3.5 volumes;"
                " keep to the bottles' rating"
            ),
        ],
    ),
    "honey in the primary is not priming": (
        """\
additions: [{what: honey, weight: 500 g, when: primary fermenter}]
package: {in: bottles, carbonation: 2.3 volumes, priming: {sugar: table sugar, weight: 105 g}}
""",
        [
            (
                "6:50: note: the sugar of honey in the fermenter adds to the priming if it has not all fermented;"
                " wait for two equal gravities three days apart"
            ),
        ],
    ),
    "nor is what goes in days before": (
        """\
additions: [{what: honey, weight: 500 g, when: 10 days before bottling}]
package: {in: bottles, carbonation: 2.3 volumes, priming: {sugar: table sugar, weight: 105 g}}
""",
        [],
    ),
    "words that only look like it": (
        """\
additions:
  - {what: honey, weight: 500 g, when: at the primrose stage}
  - {what: honey, weight: 300 g, when: cracked barley time}
package: {in: bottles, carbonation: 2.3 volumes, priming: {sugar: table sugar, weight: 105 g}}
""",
        [],
    ),
    "honey for bottle conditioning is told once": (
        """\
additions: [{what: honey, weight: 300 g, when: bottle conditioning}]
package: {in: bottles, priming: {sugar: table sugar, weight: 105 g}}
""",
        [
            (
                "6:62: error: 105 g of table sugar and 300 g of honey give about 5.3 volumes, and can burst"
                " ordinary bottles, good for about 3 volumes; keep to the bottles' rating"
            ),
        ],
    ),
    "a syrup by its volume": (
        """\
additions: [{what: maple syrup, volume: 100 ml, when: at bottling}]
package: {in: bottles, carbonation: 2.2 volumes}
""",
        [],
    ),
    "a cordial of which nothing is known": (
        """\
additions: [{what: blackcurrant cordial, volume: 1 l, when: at bottling}]
package: {in: bottles, carbonation: 2.3 volumes}
""",
        [
            (
                "5:20: warning: 1 l of blackcurrant cordial brings sugar when the beer is packaged; how much is"
                " unknown, and it makes gas; let it ferment out first, and keep to the bottles' rating"
            ),
        ],
    ),
    "additions that bring none": (
        """\
additions:
  - {what: lactose, weight: 300 g, when: at bottling}
  - {what: vanilla pods, count: 2, when: at bottling}
  - {what: coffee, volume: 500 ml, when: at packaging}
  - {what: honey, weight: 300 g, when: end of the boil}
package: {in: bottles, carbonation: 2.3 volumes, priming: {sugar: table sugar, weight: 105 g}}
""",
        [],
    ),
    "fruit among the additions": (
        """\
additions: [{what: raspberries, weight: 2 kg, when: in secondary}]
package: {in: bottles, carbonation: 2.3 volumes, priming: {sugar: table sugar, weight: 105 g}}
""",
        [
            (
                "6:50: note: the sugar of raspberries in the fermenter adds to the priming if it has not all fermented;"
                " wait for two equal gravities three days apart"
            ),
        ],
    ),
    "far too much for a keg": (
        "package: {in: keg, priming: {sugar: table sugar, weight: 400 g}}\n",
        [
            (
                "5:58: warning: 400 g of table sugar gives about 6.3 volumes, 6.6 bar at 20 °C, and may be "
                "too much for a keg of unknown make, good for about 4 bar; keep to the keg's rating"
            ),
        ],
    ),
    "an ordinary keg": ("package: {in: keg, priming: {sugar: table sugar, weight: 90 g}}\n", []),
    "lively in a cask": (
        "package: {in: cask, priming: {sugar: table sugar, weight: 120 g}}\n",
        [
            (
                "5:59: warning: 120 g of table sugar gives about 2.5 volumes, and may be too much for a cas"
                "k, good for about 2 volumes; keep to the cask's rating"
            ),
        ],
    ),
    "far too much for a cask": (
        "package: {in: cask, priming: {sugar: table sugar, weight: 300 g}}\n",
        [
            (
                "5:59: error: 300 g of table sugar gives about 4.9 volumes, and is too much for a cask, goo"
                "d for about 2 volumes; keep to the cask's rating"
            ),
        ],
    ),
    "an ordinary cask": ("package: {in: cask, priming: {sugar: table sugar, weight: 35 g}}\n", []),
    "too much wort": (
        """\
package: {in: bottles, priming: {extract: wort, volume: 3 l}}
targets: {og: 1.050, fg: 1.012}
""",
        [
            (
                "5:57: warning: 3 l of wort gives about 3.5 volumes, and may burst ordinary bottles, good f"
                "or about 3 volumes; keep to the bottles' rating"
            ),
        ],
    ),
    "wort and krausen in usual measure": (
        """\
package: {in: bottles, carbonation: 2.4 volumes, priming: {extract: krausen, volume: 2 l}}
targets: {og: 1.050, fg: 1.012}
""",
        [],
    ),
}


@pytest.mark.parametrize("case", CASES)
def test_priming(found: Found, case: str) -> None:
    text, expected = CASES[case]
    assert found("priming", HEAD + text) == expected


@pytest.mark.parametrize(
    "when",
    [
        "priming",
        "to prime",
        "when primed",
        "at bottling",
        "bottling day",
        "in the bottles",
        "just before bottling",
        "at packaging",
        "into the keg",
        "when kegged",
        "in the cask",
    ],
)
def test_what_goes_in_with_the_priming(found: Found, when: str) -> None:
    text = f"{HEAD}additions: [{{what: honey, weight: 500 g, when: {when}}}]\npackage: {{in: bottles}}\n"
    (finding,) = found("priming", text)
    assert finding.startswith("5:35: error: 500 g of honey gives about ")


@pytest.mark.parametrize("when", ["primary", "in primary", "primary, 3 days before bottling", "prima", "last 5 min"])
def test_what_does_not(found: Found, when: str) -> None:
    text = f'{HEAD}additions: [{{what: honey, weight: 500 g, when: "{when}"}}]\npackage: {{in: bottles}}\n'
    assert found("priming", text) == []


@pytest.mark.parametrize(("grams", "level"), [(50, []), (110, ["note"]), (150, ["warning"])])
def test_sugar_for_bottles_in_a_cask(found: Found, grams: int, level: list[str]) -> None:
    text = f"""\
recipe: Tried
batch: 20 l
grist:
  - {{grain: pale ale malt, weight: 4.3 kg}}
yeast: {{kind: English ale}}
ferment: [{{at: 19 °C, for: 6 d}}]
package: {{in: cask, priming: {{sugar: table sugar, weight: {grams} g}}}}
"""
    assert [line.split(": ")[1] for line in found("priming", text)] == level


@pytest.mark.parametrize("name", ["wort", "Speise", "gyle", "sweet-wort", "krausen", "Kräusen", "kraeusened beer"])
def test_primed_with_wort(name: str) -> None:
    assert is_wort(name)


@pytest.mark.parametrize("name", ["mugwort syrup", "soapwort honey", "table sugar", ""])
def test_primed_with_no_wort(name: str) -> None:
    assert not is_wort(name)
