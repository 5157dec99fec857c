"""The stated OG against the grist: sound, every level at its edge, and what keeps the rule silent."""

from collections.abc import Callable

import pytest

Found = Callable[..., list[str]]

CASES = {
    "at its usual efficiency": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: two-row pale malt, weight: 4.5 kg}
targets: {og: 1.048}
""",
        [],
    ),
    "at the edge of what was seen": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: two-row pale malt, weight: 4.5 kg}
targets: {og: 1.058}
""",
        [
            ("5:15: note: OG 1.058 needs 86 % of the mashed grain's extract; the usual 60 to 81 % gives 1.040-1.054"),
        ],
    ),
    "beyond what was seen": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: two-row pale malt, weight: 4.5 kg}
targets: {og: 1.062}
""",
        [
            (
                "5:15: warning: OG 1.062 needs 92 % of the mashed grain's extract; the usual 59 to 80 % gives"
                " 1.040-1.054"
            ),
        ],
    ),
    "a note above the usual": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: two-row pale malt, weight: 4.5 kg}
targets: {og: 1.056}
""",
        [
            ("5:15: note: OG 1.056 needs 83 % of the mashed grain's extract; the usual 60 to 81 % gives 1.040-1.054"),
        ],
    ),
    "far below the usual": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: two-row pale malt, weight: 4.5 kg}
targets: {og: 1.030}
""",
        [
            (
                "5:15: warning: OG 1.030 needs 45 % of the mashed grain's extract; the usual 60 to 81 % gives"
                " 1.040-1.054"
            ),
        ],
    ),
    "more than all of it": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: two-row pale malt, weight: 4 kg}
targets: {og: 1.090}
""",
        [
            (
                "5:15: error: this grist cannot give OG 1.090: all of its extract gives only 1.060, and at a usual"
                " efficiency of 72 % about 1.043"
            ),
        ],
    ),
    "more than all of it in pounds and plato": (
        """\
recipe: Test Brew
batch: 5 gal
grist:
  - {grain: two-row pale malt, weight: 9 lb}
targets: {og: 21.6 °P}
""",
        [
            (
                "5:15: error: this grist cannot give OG 21.6 °P: all of its extract gives only 15.7 °P, and at a"
                " usual efficiency of 72 % about 11.5 °P"
            ),
        ],
    ),
    "only the best malt would": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: two-row pale malt, weight: 4 kg}
targets: {og: 1.0605}
""",
        [
            (
                "5:15: warning: this grist is unlikely to give OG 1.0605: all of its extract gives only 1.060, and"
                " at a usual efficiency of 72 % about 1.043"
            ),
        ],
    ),
    "a strong wort at a low efficiency": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: two-row pale malt, weight: 10 kg}
targets: {og: 1.100}
""",
        [],
    ),
    "a tenth off the stated efficiency": (
        """\
recipe: Test Brew
batch: 20 l
efficiency: 70 %
grist:
  - {grain: two-row pale malt, weight: 4.5 kg}
targets: {og: 1.051}
""",
        [],
    ),
    "past a tenth off the stated efficiency": (
        """\
recipe: Test Brew
batch: 20 l
efficiency: 70 %
grist:
  - {grain: two-row pale malt, weight: 4.5 kg}
targets: {og: 1.054}
""",
        [
            "6:15: warning: at the stated efficiency of 70 % this grist gives about 1.047, not 1.054",
        ],
    ),
    "below the stated efficiency": (
        """\
recipe: Test Brew
batch: 20 l
efficiency: 70 %
grist:
  - {grain: two-row pale malt, weight: 4.5 kg}
targets: {og: 1.040}
""",
        [
            "6:15: warning: at the stated efficiency of 70 % this grist gives about 1.047, not 1.040",
        ],
    ),
    "counted in the kettle": (
        """\
recipe: Test Brew
batch: 20 l
mash-efficiency: 75 %
grist:
  - {grain: two-row pale malt, weight: 4.5 kg}
targets: {og: 1.047}
""",
        [],
    ),
    "an impossible efficiency is no ground": (
        """\
recipe: Test Brew
batch: 20 l
efficiency: 120 %
grist:
  - {grain: two-row pale malt, weight: 4.5 kg}
targets: {og: 1.050}
""",
        [],
    ),
    "extract gives what it gives": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {extract: light dry malt extract, weight: 2.8 kg}
targets: {og: 1.050}
""",
        [],
    ),
    "extract does not give a fifth less": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {extract: light dry malt extract, weight: 2.8 kg}
targets: {og: 1.040}
""",
        [
            "5:15: warning: this grist gives about 1.052, not 1.040",
        ],
    ),
    "less than the sugar alone": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: two-row pale malt, weight: 1 kg}
  - {sugar: table sugar, weight: 3 kg}
targets: {og: 1.040}
""",
        [
            (
                "6:15: warning: the sugars and extracts alone give more than OG 1.040; with a usual 60 to 81 % of"
                " the mashed extract it would be 1.067-1.070"
            ),
        ],
    ),
    "fruit may be counted or not": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: two-row pale malt, weight: 4.5 kg}
  - {sugar: table sugar, weight: 600 g, add: fermenter}
targets: {og: 1.048}
""",
        [],
    ),
    "fruit may be counted too": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: two-row pale malt, weight: 4.5 kg}
  - {sugar: table sugar, weight: 600 g, add: fermenter}
targets: {og: 1.059}
""",
        [],
    ),
    "hardly a wort": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: two-row pale malt, weight: 500 g}
""",
        [
            (
                "3:1: warning: this grist gives about 1.005, which is hardly a wort; are the weights and the"
                " batch right?"
            ),
        ],
    ),
    "stronger than any wort": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: two-row pale malt, weight: 16 kg}
  - {grain: light Munich malt, weight: 10 kg}
""",
        [
            (
                "3:1: warning: this grist gives about 1.173, which is stronger than any wort that comes from a"
                " mash; are the weights and the batch right?"
            ),
        ],
    ),
    "a slipped unit is asked elsewhere": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: two-row pale malt, weight: 4500 kg}
targets: {og: 1.050}
""",
        ["4:40: open: a plausible weight of two-row pale malt"],
    ),
    "a slipped gravity is asked elsewhere": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: two-row pale malt, weight: 4.5 kg}
targets: {og: 1.0048}
""",
        [],
    ),
    "no batch": (
        """\
recipe: Test Brew
grist:
  - {grain: two-row pale malt, weight: 4 kg}
targets: {og: 1.090}
""",
        ["not stated: the size of the batch"],
    ),
    "a weight that cannot be read": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: two-row pale malt, weight: lots}
targets: {og: 1.090}
""",
        ["4:40: open: the weight of two-row pale malt"],
    ),
    "an unknown grain": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: moon dust, weight: 4 kg}
targets: {og: 1.090}
""",
        [
            (
                "5:15: error: this grist cannot give OG 1.090: all of its extract gives only 1.059, and at a usual"
                " efficiency of 72 % about 1.042"
            ),
        ],
    ),
    "a point more than all of it": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: two-row pale malt, weight: 4 kg}
targets: {og: 1.063}
""",
        [
            (
                "5:15: warning: this grist is unlikely to give OG 1.063: all of its extract gives only 1.060, and"
                " at a usual efficiency of 72 % about 1.043"
            ),
        ],
    ),
    "syrups differ by two points": (
        """\
recipe: Test Brew
batch: 23 l
grist:
  - {extract: liquid malt extract, weight: 1.7 kg}
  - {sugar: dextrose, weight: 1 kg}
targets: {og: 1.040}
""",
        [],
    ),
    "syrups and three points": (
        """\
recipe: Test Brew
batch: 23 l
grist:
  - {extract: liquid malt extract, weight: 1.7 kg}
  - {sugar: dextrose, weight: 1 kg}
targets: {og: 1.042}
""",
        [
            "6:15: error: this grist cannot give OG 1.042: all of its extract gives only 1.038",
        ],
    ),
    "kilograms beside gallons": (
        """\
recipe: Test Brew
batch: 5 gal
grist:
  - {grain: pale malt, weight: 10 kg}
  - {grain: crystal 60, weight: 1 kg}
targets: {og: 1.052}
""",
        [
            (
                "6:15: warning: OG 1.052 needs 30 % of the mashed grain's extract; the usual 60 to 81 % gives"
                " 1.103-1.138; did you mean 10 lb of pale malt, and lb in the other lines too?"
            ),
        ],
    ),
    "pounds beside litres": (
        """\
recipe: Test Brew
batch: 5 l
grist:
  - {grain: pale malt, weight: 10 lb}
targets: {og: 1.050}
""",
        [
            (
                "5:15: warning: OG 1.050 needs 18 % of the mashed grain's extract; the usual 60 to 81 % gives"
                " 1.161-1.216; did you mean 5 gal?"
            ),
        ],
    ),
}


STATED = """\
recipe: Test Brew
batch: 20 l
efficiency: 72 %
grist:
  - {{grain: pale ale malt, weight: 5 kg}}
targets: {{og: {og}}}
"""


@pytest.mark.parametrize(
    ("og", "level"), [("1.079", "error"), ("1.063", "warning"), ("1.059", ""), ("1.055", ""), ("1.044", "error")]
)
def test_at_its_own_efficiency_far_off_is_an_error(found: Found, og: str, level: str) -> None:
    """5 kg give 1.056 at 72 %, and 1.054 to 1.058 from brew to brew."""
    told = found("original_gravity", STATED.format(og=og))
    assert [one.split(": ")[1] for one in told] == ([level] if level else [])
    house = found("original_gravity", STATED.format(og=og).replace("efficiency: 72 %\n", ""))
    assert all("error" not in one for one in house)


@pytest.mark.parametrize("case", CASES)
def test_original_gravity(found: Found, case: str) -> None:
    recipe, expected = CASES[case]
    assert found("original_gravity", recipe) == expected


HOUSE = "brewhouse: Saltmarsh Lane\nefficiency: 72 %\n"


def test_the_brewhouse_states_the_efficiency(found: Found) -> None:
    recipe = CASES["at its usual efficiency"][0]
    assert found("original_gravity", recipe.replace("1.048", "1.052"), HOUSE) == []
    assert found("original_gravity", recipe.replace("1.048", "1.060"), HOUSE) == [
        "5:15: warning: at the brewhouse's efficiency of 72 % this grist gives about 1.048, not 1.060"
    ]


def test_a_lot_pins_what_the_malt_can_give(found: Found) -> None:
    poor = "brewhouse: x\nlots:\n  P-1: {of: two-row pale malt, extract-fine-dry: 70 %, moisture: 4 %}\n"
    recipe = (
        "recipe: Test Brew\nbatch: 20 l\ngrist:\n"
        "  - {grain: two-row pale malt, weight: 4 kg, lot: P-1}\ntargets: {og: 1.055}\n"
    )
    assert found("original_gravity", recipe, poor) == [
        (
            "5:15: error: this grist cannot give OG 1.055: all of its extract gives only 1.052, and at a usual"
            " efficiency of 72 % about 1.037"
        )
    ]
    assert [one.split(": ")[1] for one in found("original_gravity", recipe)] == ["warning"]


def test_a_setting_of_the_brewhouse(found: Found) -> None:
    recipe = CASES["beyond what was seen"][0]
    assert [one.split(": ")[1] for one in found("original_gravity", recipe, highest_percent=95)] == ["note"]


def test_the_brewhouse_gets_less_of_a_strong_wort(found: Found) -> None:
    recipe = CASES["a strong wort at a low efficiency"][0].replace("10 kg", "7 kg").replace("1.100", "1.092")
    assert found("original_gravity", recipe, HOUSE) == [
        (
            "5:15: warning: at the brewhouse's efficiency of 72 %, 69.1 % in a wort this strong, this grist gives"
            " about 1.072, not 1.092"
        )
    ]


@pytest.mark.parametrize(("said", "told"), [("1.015", []), ("1.013", ["6:15"])])
def test_two_points_are_within_what_a_weak_wort_varies(found: Found, said: str, told: list[str]) -> None:
    """This grist gives 1.0161."""
    text = f"""\
recipe: Test Brew
batch: 20 l
efficiency: 72 %
grist:
  - {{grain: pale malt, weight: 1.5 kg}}
targets: {{og: {said}}}
"""
    assert [line.partition(": ")[0] for line in found("original_gravity", text)] == told


def test_a_stated_og_that_the_rests_do_not_set_free(found: Found) -> None:
    text = (
        "recipe: T\nbatch: 20 l\ngrist: [{grain: pale malt, weight: 4 kg}]\n"
        "mash: {rests: [{at: %s, for: 60 min}]}\ntargets: {og: 1.043}\n"
    )
    (told,) = found("original_gravity", text % "12 °C")
    assert told.startswith("5:15: warning: OG 1.043 is unlikely from rests that convert so little: a usual 60 to 81 %")
    assert found("original_gravity", text % "66 °C") == []
    (told,) = found("original_gravity", f"{text % '54 °C'}efficiency: 72 %\n")
    assert "at the stated efficiency of 72 % this grist, converted so poorly, gives about" in told
