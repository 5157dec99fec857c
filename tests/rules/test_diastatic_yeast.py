"""Yeast and enzymes that split dextrins, in bottles."""

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
    "as dry as it gets": (
        """\
yeast: {kind: saison}
package: {in: bottles, carbonation: 2.8 volumes, bottle-rating: 4.5 volumes}
targets: {og: 1.050, fg: 1.004}
""",
        [],
    ),
    "not dry, rated bottles": (
        """\
yeast: {kind: saison}
package: {in: bottles, carbonation: 2.8 volumes, bottle-rating: 4.5 volumes}
targets: {og: 1.050, fg: 1.010}
""",
        [
            (
                "7:26: error: diastatic saison yeast can ferment from 1.010 (80 % attenuation) down to 1.004 or lo"
                "wer: about 5.9 volumes, which can burst bottles rated 4.5 volumes; let it finish first, an"
                "d keep to the bottles' rating"
            ),
        ],
    ),
    "past the rating at the unfavourable end": (
        """\
yeast: {kind: saison}
package: {in: bottles, carbonation: 2.4 volumes, bottle-rating: 4.5 volumes}
targets: {og: 1.050, fg: 1.006}
""",
        [
            (
                "7:26: warning: diastatic saison yeast can ferment from 1.006 (88 % attenuation) down to 1.004 or"
                " lower: about 3.5 to 4.6 volumes, which may burst bottles rated 4.5 volumes; let it finish "
                "first, and keep to the bottles' rating"
            ),
        ],
    ),
    "not dry, strong bottles": (
        """\
yeast: {kind: saison}
package: {in: bottles, carbonation: 2.4 volumes, bottle-rating: 9 volumes}
targets: {og: 1.050, fg: 1.006}
""",
        [
            (
                "7:26: note: diastatic saison yeast can ferment from 1.006 (88 % attenuation) down to 1.004 or lower:"
                " about 3.5 volumes, which the vessel tolerates; let it finish first, and keep to the bottles'"
                " rating"
            ),
        ],
    ),
    "not dry, unknown rating": (
        """\
yeast: {kind: saison}
package: {in: bottles, carbonation: 2.8 volumes}
targets: {og: 1.050, fg: 1.010}
""",
        [
            (
                "7:26: error: diastatic saison yeast can ferment from 1.010 (80 % attenuation) down to 1.004 or lo"
                "wer: about 5.9 volumes, which can burst ordinary bottles, good for about 3 volumes; let it"
                " finish first, and keep to the bottles' rating"
            ),
        ],
    ),
    "gravity at packaging comes first": (
        """\
yeast: {kind: saison}
package: {in: bottles, carbonation: 2.8 volumes, gravity: 1.014}
targets: {og: 1.050, fg: 1.003}
""",
        [
            (
                "6:59: error: diastatic saison yeast can ferment from 1.014 (72 % attenuation) down to 1.004 or lo"
                "wer: about 8.6 volumes, which can burst ordinary bottles, good for about 3 volumes; let it"
                " finish first, and keep to the bottles' rating"
            ),
        ],
    ),
    "nobody says how dry": (
        """\
yeast: {kind: saison}
package: {in: bottles, carbonation: 2.8 volumes}
""",
        [
            (
                "5:15: note: diastatic saison yeast can go on in the vessel until the beer is fully dry, an"
                "d no final gravity is stated; take two equal gravities two weeks apart, and keep to the ve"
                "ssel's rating"
            ),
        ],
    ),
    "said to be diastatic": (
        """\
yeast: {kind: house, diastatic: true}
package: {in: bottles, carbonation: 2.4 volumes}
targets: {og: 1.050, fg: 1.010}
""",
        [
            (
                "7:26: error: diastatic house yeast can ferment from 1.010 (80 % attenuation) down to 1.004 or low"
                "er: about 5.5 volumes, which can burst ordinary bottles, good for about 3 volumes; let it "
                "finish first, and keep to the bottles' rating"
            ),
        ],
    ),
    "said not to be": (
        """\
yeast: {kind: saison, diastatic: false}
package: {in: bottles, carbonation: 2.4 volumes}
targets: {og: 1.050, fg: 1.010}
""",
        [],
    ),
    "a kind with both sorts": (
        """\
yeast: {kind: Belgian ale}
package: {in: bottles, carbonation: 2.4 volumes}
targets: {og: 1.050, fg: 1.010}
""",
        [],
    ),
    "enzymes in the fermenter": (
        """\
yeast: {kind: American ale}
ferment: [{at: 18 °C, enzymes: {glucoamylase: 2 ml}}]
package: {in: bottles, carbonation: 2.4 volumes}
targets: {og: 1.050, fg: 1.008}
""",
        [
            (
                "8:26: error: glucoamylase in the fermenter can ferment from 1.008 (84 % attenuation) down to"
                " 1.004 or lower: about 4.5 volumes, which can burst ordinary bottles, good for about 3 volumes;"
                " let it finish first, and keep to the bottles' rating"
            ),
        ],
    ),
    "of several enzymes the one that splits dextrins": (
        """\
yeast: {kind: American ale}
ferment: [{at: 18 °C, enzymes: {proteinase: 1 ml}}, {at: 20 °C, enzymes: {acetolactate decarboxylase: 1 ml,
  glucoamylase: 2 ml}}]
package: {in: bottles, carbonation: 2.4 volumes}
""",
        [
            (
                "7:17: note: glucoamylase in the fermenter can go on in the vessel until the beer is fully "
                "dry, and no final gravity is stated; take two equal gravities two weeks apart, and keep to"
                " the vessel's rating"
            ),
        ],
    ),
    "a blend with a proteinase": (
        """\
yeast: {kind: American ale}
ferment: [{at: 18 °C, enzymes: {glucoamylase and protease: 2 ml}}]
package: {in: bottles, carbonation: 2.4 volumes}
""",
        [
            (
                "6:60: note: glucoamylase and protease in the fermenter can go on in the vessel until the b"
                "eer is fully dry, and no final gravity is stated; take two equal gravities two weeks apart"
                ", and keep to the vessel's rating"
            ),
        ],
    ),
    "enzymes that split no dextrins": (
        """\
yeast: {kind: American ale}
ferment: [{at: 18 °C, enzymes: {proteinase: 2 ml}}, {at: 18 °C, enzymes: {acetolactate decarboxylase: 1 ml}}]
package: {in: bottles, carbonation: 2.4 volumes}
targets: {og: 1.050, fg: 1.008}
""",
        [],
    ),
    "enzymes in the mash are ended by the boil": (
        """\
yeast: {kind: American ale}
mash: {enzymes: {glucoamylase: 5 g}}
boil: {for: 60 min}
package: {in: bottles, carbonation: 2.4 volumes}
targets: {og: 1.050, fg: 1.008}
""",
        [],
    ),
    "a boil that nobody states is still a boil": (
        """\
yeast: {kind: American ale}
mash: {enzymes: {glucoamylase: 5 g}}
package: {in: bottles, carbonation: 2.4 volumes}
targets: {og: 1.050, fg: 1.008}
""",
        [],
    ),
    "enzymes in the mash of a beer that is not boiled": (
        """\
yeast: {kind: American ale}
mash: {enzymes: {beta-glucanase: 1 g, glucoamylase: 5 g}}
boil: {for: 0 min}
package: {in: bottles, carbonation: 2.4 volumes}
targets: {og: 1.050, fg: 1.008}
""",
        [
            (
                "9:26: error: glucoamylase in wort that was not boiled can ferment from 1.008 (84 % attenuation) do"
                "wn to 1.004 or lower: about 4.5 volumes, which can burst ordinary bottles, good for about"
                " 3 volumes; let it finish first, and keep to the bottles' rating"
            ),
        ],
    ),
    "Brettanomyces beside an enzyme of the mash": (
        """\
yeast: [{kind: American ale}, {kind: Brettanomyces}]
mash: {enzymes: {glucoamylase: 5 g}}
package: {in: bottles, carbonation: 2.4 volumes}
targets: {og: 1.050, fg: 1.010}
""",
        [
            (
                "8:26: warning: Brettanomyces can ferment from 1.010 (80 % attenuation) down to 1.004 or lower: ab"
                "out 5.5 volumes, which may burst ordinary bottles, good for about 3 volumes; let it finish"
                " first, and keep to the bottles' rating"
            ),
        ],
    ),
    "Brettanomyces is never an error": (
        """\
yeast: [{kind: American ale}, {kind: Brettanomyces}]
package: {in: bottles, carbonation: 2.4 volumes}
targets: {og: 1.050, fg: 1.010}
""",
        [
            (
                "7:26: warning: Brettanomyces can ferment from 1.010 (80 % attenuation) down to 1.004 or lower: ab"
                "out 5.5 volumes, which may burst ordinary bottles, good for about 3 volumes; let it finish"
                " first, and keep to the bottles' rating"
            ),
        ],
    ),
    "an unreadable gravity": (
        """\
yeast: {kind: saison}
package: {in: bottles, carbonation: 2.8 volumes}
targets: {og: 1.050, fg: dry}
""",
        ["7:26: open: a readable final gravity"],
    ),
    "in a keg": (
        """\
yeast: {kind: saison}
package: {in: keg, carbonation: 2.8 volumes}
targets: {og: 1.050, fg: 1.010}
""",
        [
            (
                "7:26: warning: diastatic saison yeast can ferment from 1.010 (80 % attenuation) down to 1.004 or"
                " lower: about 5.9 volumes, 6.2 bar at 20 °C, which may be too much for a keg of unknown mak"
                "e, good for about 4 bar; let it finish first, and keep to the keg's rating"
            ),
        ],
    ),
    "ordinary yeast": (
        """\
yeast: {kind: American ale}
package: {in: bottles, carbonation: 2.4 volumes}
targets: {og: 1.050, fg: 1.012}
""",
        [],
    ),
}


@pytest.mark.parametrize("case", CASES)
def test_diastatic_yeast(found: Found, case: str) -> None:
    text, expected = CASES[case]
    assert found("diastatic_yeast", HEAD + text) == expected


def test_there_is_no_cliff(found: Found) -> None:
    """A tenth of a per cent of attenuation never turns an error into silence."""
    text = HEAD + (
        "yeast: {kind: saison}\npackage: {in: bottles, carbonation: 3.9 volumes, bottle-rating: 4.5 volumes}\n"
        "targets: {og: 1.060, fg: %.4f}\n"
    )
    levels = []
    for percent in (89.8, 89.9, 90.0, 90.1, 90.2):
        told = found("diastatic_yeast", text % (1.060 - 0.060 * percent / 100))
        levels.append([one.split(": ")[1] for one in told])
    assert all(level in (["error"], ["warning"]) for level in levels), levels
