"""Names that nothing knows, and the nearest ones."""

from collections.abc import Callable

import pytest

from mashwright.ingredients.kinds import IngredientKind

Found = Callable[..., list[str]]

CASES = {
    "known by other spellings": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: Malt Pale two row, weight: 4 kg}
  - {grain: crystal 40, weight: 300 g}
""",
        [],
    ),
    "a slip": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: two-row pale mlt, weight: 4 kg}
""",
        [
            (
                "4:13: warning: nothing is known of two-row pale mlt; describe it here: `kind: base malt` is"
                " enough, or did you mean two-row pale malt?"
            ),
        ],
    ),
    "nothing like it": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: moon dust, weight: 4 kg}
""",
        [
            (
                "4:13: warning: nothing is known of moon dust; describe it here: its kind is enough, such as"
                " `kind: base malt` or `kind: caramel malt`"
            ),
        ],
    ),
    "without a weight too": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: moon dust}
""",
        [
            (
                "4:13: warning: nothing is known of moon dust; describe it here: its kind is enough, such as"
                " `kind: base malt` or `kind: caramel malt`"
            ),
        ],
    ),
    "sugar": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: two-row pale malt, weight: 4 kg}
  - {sugar: tabel sugar, weight: 200 g}
""",
        [
            (
                "5:13: warning: nothing is known of tabel sugar; describe it here: its kind is enough, such as"
                " `kind: sugar` or `kind: syrup`, or did you mean table sugar?"
            ),
        ],
    ),
    "extract": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {extract: swamp extract, weight: 3 kg}
""",
        [
            (
                "4:15: warning: nothing is known of swamp extract; describe it here: its kind is enough, such as"
                " `kind: liquid extract` or `kind: dry extract`"
            ),
        ],
    ),
    "fruit is a note": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: two-row pale malt, weight: 4 kg}
  - {fruit: gooseberries, weight: 1 kg}
""",
        [
            "5:13: note: nothing is known of gooseberries; describe it here: `kind: fruit or other` is enough",
        ],
    ),
    "fruit with a slip": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: two-row pale malt, weight: 4 kg}
  - {fruit: raspberies, weight: 1 kg}
""",
        [
            (
                "5:13: warning: nothing is known of raspberies; describe it here: `kind: fruit or other` is"
                " enough, or did you mean raspberries?"
            ),
        ],
    ),
    "described in place": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: village rye, kind: raw grain, cereal: rye, weight: 1 kg}
""",
        [],
    ),
    "yeast that is a slip of the pen": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: two-row pale malt, weight: 4 kg}
yeast: {kind: Englsh ale}
""",
        [
            (
                "5:15: warning: nothing is known of Englsh ale yeast; state its attenuation here, or did you mean"
                " English ale?"
            ),
        ],
    ),
    "yeast is a note": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: two-row pale malt, weight: 4 kg}
yeast: {kind: Ardennes}
""",
        ["5:15: note: nothing is known of Ardennes yeast; state its attenuation here"],
    ),
    "a culture is not called yeast twice": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: two-row pale malt, weight: 4 kg}
yeast: {kind: uncle's yeast}
""",
        ["5:15: note: nothing is known of uncle's yeast; state its attenuation here"],
    ),
    "sugar under grain": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: two-row pale malt, weight: 4 kg}
  - {grain: table sugar, weight: 400 g}
  - {extract: rice syrup, weight: 400 g}
  - {extract: maltodextrin, weight: 100 g}
""",
        [
            "5:13: note: table sugar is a sugar, and is counted as one; write `sugar:` instead of `grain:`",
            "7:15: note: maltodextrin is a sugar, and is counted as one; write `sugar:` instead of `extract:`",
        ],
    ),
    "a misspelt caramel malt of a colour": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: two-row pale malt, weight: 4 kg}
  - {grain: cristal malt 60, weight: 400 g}
""",
        [
            (
                "5:13: warning: nothing is known of cristal malt 60; describe it here: `kind: caramel malt` is"
                " enough, or did you mean crystal malt 60?"
            ),
        ],
    ),
    "yeast with its attenuation": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: two-row pale malt, weight: 4 kg}
yeast: {kind: house culture, attenuation: 76 %}
""",
        [],
    ),
    "no name at all": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {weight: 4 kg}
""",
        [],
    ),
}


@pytest.mark.parametrize("case", CASES)
def test_unknown_ingredient(found: Found, case: str) -> None:
    recipe, expected = CASES[case]
    assert found("unknown_ingredient", recipe) == expected


@pytest.mark.parametrize("name", ["biscuit rice malt", "caramel munich malt 2", "smoked wheat beech malt"])
def test_a_name_that_says_in_a_word_of_ours_what_it_is_of_is_no_slip_of_another(found: Found, name: str) -> None:
    (told,) = found("unknown_ingredient", RICE.replace("NAME", name))
    assert told == f"5:13: warning: nothing is known of {name}; describe it here{OF_GRAIN}"


OF_GRAIN = ": its kind is enough, such as `kind: base malt` or `kind: caramel malt`"
RICE = "recipe: A\nbatch: 20 l\ngrist:\n  - {grain: rice malt, weight: 4 kg}\n  - {grain: NAME, weight: 300 g}\n"


OURS = """\
ingredients:
  chapel malt: {kind: base malt, also: [barn malt]}
  lane yeast: {kind: English ale}
  lane hop: {kind: hop, alpha: 5 %}
  lane drier: {kind: glucoamylase}
"""
SLIPS = """\
recipe: A
batch: 20 l
grist:
  - {grain: NAME, weight: 4 kg}
hops: [{hop: HOP, weight: 20 g, boil: 60 min}]
yeast: {kind: YEAST}
mash: {enzymes: {ENZYME: 1 g}}
"""


def slips(grain: str, hop: str, yeast: str, enzyme: str) -> str:
    text = SLIPS.replace("NAME", grain).replace("HOP", hop).replace("YEAST", yeast)
    return text.replace("ENZYME", enzyme)


def test_a_slip_of_a_name_of_the_brewhouses_own(found: Found) -> None:
    text = slips("barn mlt", "lane hpo", "lane yesat", "lane direr")
    assert found("unknown_ingredient", text, OURS) == [
        (
            "4:13: warning: nothing is known of barn mlt; describe it here: its kind is enough, such as"
            " `kind: base malt` or `kind: caramel malt`, or did you mean barn malt?"
        ),
        "6:15: warning: nothing is known of lane yesat yeast; state its attenuation here, or did you mean lane yeast?",
    ]
    assert found("hop_alpha", text, OURS) == [
        "5:14: note: nothing is known of lane hpo hops; state their alpha acid here, or did you mean lane hop?"
    ]
    assert found("added_enzymes", text, OURS) == [
        (
            "7:30: warning: nothing is known of an enzyme called lane direr, so it is not counted; did you mean lane"
            " drier?"
        ),
    ]


def test_names_of_the_brewhouses_own_are_known(found: Found) -> None:
    text = slips("Barn malts", "lane hops", "Lane Yeast", "lane-drier")
    for rule in ("unknown_ingredient", "hop_alpha", "added_enzymes"):
        assert found(rule, text, OURS) == []


def test_a_yeast_of_the_brewhouses_own_ferments_where_the_brewhouse_says(found: Found) -> None:
    text = "recipe: A\nbatch: 20 l\nyeast: {kind: lane yeast}\nferment: [{at: 24 °C, for: 9 d}]\n"
    house = "ingredients: {Lane yeast: {kind: English ale, temperature: 12-14 °C}}\n"
    assert found("fermentation_temperature", text, house) == [
        "4:16: warning: 24 °C is warm for lane yeast, which ferments at 12 to 14 °C"
    ]
    assert found("fermentation_temperature", text, house.replace("12-14", "20-26")) == []


@pytest.mark.parametrize(
    ("name", "kind"),
    [
        ("village crystal", "caramel malt"),
        ("six-row chapel", "base malt"),
        ("flaked allotment spelt", "flaked grain"),
        ("chapel malt", ""),
        ("black patent wheat", ""),
    ],
)
def test_the_kind_that_all_its_known_words_say_is_enough(found: Found, mended: Found, name: str, kind: str) -> None:
    text = RICE.replace("NAME", name)
    enough = f": `kind: {kind}` is enough" if kind else OF_GRAIN
    told = f"5:13: warning: nothing is known of {name}; describe it here{enough}"
    assert found("unknown_ingredient", text) == [told]
    assert mended("unknown_ingredient", text) == ([f"add kind: {kind}"] if kind else [])


@pytest.mark.parametrize("kind", list(IngredientKind))
def test_the_kind_alone_is_enough(found: Found, kind: str) -> None:
    assert found("unknown_ingredient", RICE.replace("NAME", f"moon dust, kind: {kind}")) == []


def test_what_some_must_avoid_does_not_hide_behind_a_name_of_ones_own(found: Found) -> None:
    """In allergen-claim: the brewhouse says what a thing is."""
    text = "recipe: A\nbatch: 20 l\nnotes: vegan and gluten-free\ngrist:\n  - {grain: rice malt, weight: 4 kg}\n"
    line = "  - {sugar: chapel white, weight: 300 g}\n"
    assert [one for one in found("allergen_claim", text + line) if "milk" in one or "wheat" in one] == []
    milk, wheat = "ingredients: {chapel white: {kind: lactose}}\n", "ingredients: {chapel white: {kind: wheat malt}}\n"
    told = found("allergen_claim", text + line, milk)
    assert [one for one in told if "chapel white comes from milk" in one] != []
    told = found("allergen_claim", text + "additions: [{what: chapel white, when: mash}]\n", wheat)
    assert [one for one in told if "it contains chapel white (wheat)" in one] != []
