"""Claims against what is in the recipe, and what drinkers are not told."""

import inspect
import re
from collections.abc import Callable

import pytest

import mashwright
from mashwright_rules.beer import allergen_claim
from mashwright_rules.kettle import additions

Found = Callable[..., list[str]]

BARLEY = "{grain: pale malt, weight: 4 kg}"
RICE = "{grain: rice malt, weight: 4 kg}"
UNTOLD = "name, style and notes do not warn of it"


def recipe(*grist: str, name: str = "Test Brew", style: str = "ale", more: str = "") -> str:
    lines = "".join(f"  - {line}\n" for line in grist or (BARLEY,))
    return f"recipe: {name}\nstyle: {style}\nbatch: 20 l\ngrist:\n{lines}{more}"


def holds(what: str) -> str:
    return (
        f"claimed to be free of gluten, but it contains {what}; gluten makes coeliac drinkers ill, no enzyme"
        " changes that, and food law forbids the claim"
    )


GLUTEN = {
    "barley in the name": (recipe(name="Gluten-Free Pale"), [f"1:9: error: {holds('pale malt (barley)')}"]),
    "in the style": (recipe(style="gluten free ale"), [f"2:8: error: {holds('pale malt (barley)')}"]),
    "in the notes": (recipe(more="notes: free from gluten\n"), [f"6:8: error: {holds('pale malt (barley)')}"]),
    "in the club's own data": (
        recipe(more="notes: {label: [12 % off, no gluten]}\n"),
        [f"6:1: error: {holds('pale malt (barley)')}"],
    ),
    "whatever enzyme": (
        recipe(more="notes: gluten free by the clarity enzyme\n"),
        [f"6:8: error: {holds('pale malt (barley)')}"],
    ),
    "the grain names it itself": (
        recipe("{grain: raw wheat, weight: 2 kg}", "{grain: rye malt, weight: 2 kg}", name="No Gluten"),
        [f"1:9: error: {holds('raw wheat and rye malt')}"],
    ),
    "spelt and its kin": (
        recipe("{grain: spelt malt, weight: 2 kg}", name="Gluten Free"),
        [f"1:9: error: {holds('spelt malt')}"],
    ),
    "malt extract": (
        recipe("{extract: light dry malt extract, weight: 2 kg}", name="Gluten Free"),
        [f"1:9: error: {holds('light dry malt extract (barley)')}"],
    ),
    "a cereal that is described": (
        recipe("{grain: Jetty grain, kind: raw grain, cereal: rye, weight: 2 kg}", name="Gluten Free"),
        [f"1:9: error: {holds('Jetty grain (rye)')}"],
    ),
    "among the additions": (
        recipe(RICE, name="Gluten Free", more="additions: [{what: wheat flour, weight: 20 g}]\n"),
        [f"1:9: error: {holds('wheat flour')}"],
    ),
    "oats depend": (
        recipe(RICE, "{grain: oat malt, weight: 2 kg}", name="Gluten Free"),
        [
            (
                "1:9: warning: claimed to be free of gluten, but it contains oat malt; whether oats may carry that"
                " claim depends on what was grown and milled beside them, and on the country; ask your supplier, a"
                " laboratory and the local authority"
            )
        ],
    ),
    "nothing is known": (
        recipe("{grain: moon dust, weight: 2 kg}", name="Gluten Free"),
        [
            (
                "1:9: warning: claimed to be free of gluten, but the cereal of moon dust is not named; ask your"
                " supplier, a laboratory and the local authority"
            )
        ],
    ),
    "no gluten cereal is named": (
        recipe(RICE, "{grain: buckwheat malt, weight: 1 kg}", "{sugar: honey, weight: 1 kg}", name="Gluten Free"),
        [
            (
                "1:9: note: claimed to be free of gluten: this recipe names no gluten cereal; ask about cross-contact"
                " in mill, sacks, yeast and brewhouse, and what the local law needs for the claim"
            )
        ],
    ),
    "for those who must": (
        recipe(more="notes: brewed for coeliacs\n"),
        [
            "6:8: error: "
            + holds("pale malt (barley)").replace("claimed to be free of gluten", "meant for coeliac drinkers")
        ],
    ),
    "taken back": (recipe(more="notes: this is not gluten free\n"), []),
    "taken back another way": (recipe(more="notes: can't be called gluten-free\n"), []),
    "no longer": (recipe(more="notes: no longer gluten free since the malt changed\n"), []),
    "asked": (recipe(more="notes: is it gluten free?\n"), []),
    "after another clause": (
        recipe(more="notes: not vegan, gluten free\n"),
        [f"6:8: error: {holds('pale malt (barley)')}"],
    ),
    "only told of": (recipe(more="notes: contains gluten\n"), []),
    "less of it is another claim": (
        recipe(more="notes: gluten reduced by enzyme\n"),
        [
            (
                "6:8: warning: claimed to be low in gluten, but it contains pale malt (barley); coeliac drinkers"
                " can fall ill from it; in the EU these are not among the two terms allowed, so ask a laboratory"
                " and the local authority"
            )
        ],
    ),
}


@pytest.mark.parametrize("case", GLUTEN)
def test_gluten(found: Found, case: str) -> None:
    text, expected = GLUTEN[case]
    assert found("allergen_claim", text) == expected


VEGAN = {
    "isinglass": ("additions: [{what: isinglass}]\n", "isinglass comes from fish"),
    "gelatine": ("additions: [{what: leaf gelatine, weight: 3 g}]\n", "leaf gelatine comes from animals"),
    "honey to prime": (
        "package: {in: bottles, priming: {sugar: honey, weight: 100 g}}\n",
        "honey comes from bees",
    ),
    "two": (
        "additions: [{what: isinglass}, {what: gelatin}]\n",
        "isinglass comes from fish, and gelatin comes from animals",
    ),
}


@pytest.mark.parametrize("case", VEGAN)
def test_vegan(found: Found, case: str) -> None:
    more, what = VEGAN[case]
    assert found("allergen_claim", recipe(name="Vegan Stout", more=more)) == [
        f"1:9: error: claimed to be vegan, but {what}"
    ]
    assert found("allergen_claim", recipe(more=more)) == []


def test_vegan_with_lactose_is_told_twice_for_two_kinds_of_drinkers(found: Found) -> None:
    text = recipe(BARLEY, "{sugar: lactose, weight: 400 g}", style="vegan stout")
    assert found("allergen_claim", text) == [
        "2:8: error: claimed to be vegan, but lactose comes from milk",
        f"6:13: warning: with lactose it contains milk; {UNTOLD}",
    ]


@pytest.mark.parametrize(
    ("item", "what"),
    [
        ("isinglass", "isinglass comes from fish"),
        ("gelatine sheets", "gelatine sheets come from animals"),
        ("cochineal", "cochineal comes from animals"),
    ],
)
@pytest.mark.parametrize("claim", ["vegetarian stout", "fit for vegetarians", "veggie ale"])
def test_vegetarian(found: Found, claim: str, item: str, what: str) -> None:
    text = recipe(style=claim, more=f"additions: [{{what: {item}}}]\n")
    assert found("allergen_claim", text) == [f"2:8: error: claimed to be vegetarian, but {what}"]


def test_vegetarian_with_oysters_is_told_to_those_who_are_allergic_too(found: Found) -> None:
    text = recipe(style="vegetarian stout", more="additions: [{what: oysters}]\n")
    assert found("allergen_claim", text) == [
        "2:8: error: claimed to be vegetarian, but oysters are molluscs",
        f"6:20: warning: with oysters it contains molluscs; {UNTOLD}",
    ]


def test_vegetarians_drink_milk_and_honey(found: Found) -> None:
    grist = (BARLEY, "{sugar: lactose, weight: 400 g}", "{sugar: honey, weight: 400 g}")
    assert found("allergen_claim", recipe(*grist, style="vegetarian milk stout")) == []


@pytest.mark.parametrize("notes", ["not vegetarian", "non-vegetarian", "non-vegan", "is it vegetarian?"])
def test_no_claim_to_be_vegetarian(found: Found, notes: str) -> None:
    assert found("allergen_claim", recipe(more=f"additions: [{{what: isinglass}}]\nnotes: {notes}\n")) == []


def test_both_claims_are_one_finding(found: Found) -> None:
    text = recipe(style="vegetarian and vegan stout", more="additions: [{what: isinglass}]\n")
    assert found("allergen_claim", text) == ["2:8: error: claimed to be vegan, but isinglass comes from fish"]


@pytest.mark.parametrize("item", ["Irish moss", "vegan gelatine", "honeycomb toffee", "oat milk"])
def test_vegan_without_animals(found: Found, item: str) -> None:
    assert found("allergen_claim", recipe(name="Vegan Stout", more=f"additions: [{{what: {item}}}]\n")) == []


@pytest.mark.parametrize(
    ("item", "of"),
    [
        ("lactose", "milk"),
        ("whey powder", "milk"),
        ("milk chocolate", "milk"),
        ("peanut butter powder", "peanuts"),
        ("hazelnuts", "nuts"),
        ("oysters", "molluscs"),
        ("egg whites", "eggs"),
        ("sesame seeds", "sesame"),
    ],
)
def test_allergens_without_a_word(found: Found, item: str, of: str) -> None:
    more = f"additions: [{{what: {item}}}]\n"
    assert found("allergen_claim", recipe(more=more)) == [f"6:20: warning: with {item} it contains {of}; {UNTOLD}"]
    told = recipe(more=f"{more}notes: contains {item}\n")
    assert found("allergen_claim", told) == []


@pytest.mark.parametrize(
    "item",
    [
        "coconut",
        "coconut milk",
        "cocoa butter",
        "nutmeg",
        "chestnuts",
        "cream of tartar",
        "milk thistle",
        "oyster mushroom",
        "lactic acid",
        "isinglass",
        "yeast nutrient",
        "walnut wood chips",
    ],
)
def test_what_needs_no_word(found: Found, item: str) -> None:
    assert found("allergen_claim", recipe(more=f"additions: [{{what: {item}}}]\n")) == []


@pytest.mark.parametrize("name", ["Milk Stout", "Milk Ale", "Lactose Stout", "Dairy Stout", "Stout for no allergics"])
def test_the_name_is_a_word(found: Found, name: str) -> None:
    assert found("allergen_claim", recipe(BARLEY, "{sugar: lactose, weight: 400 g}", name=name)) == []


HAZELNUT = "additions: [{what: hazelnut paste, weight: 200 g}]\n"


@pytest.mark.parametrize(
    "words",
    [
        "recipe: Nutmeg Porter",
        "recipe: Nut Brown",
        "style: nut brown ale",
        "style: nutty porter",
        "notes: boil for 90 minutes",
        "notes: a nut-brown colour, with a taste of nuts",
        "notes: serve with nuts",
        "notes: does not contain hazelnuts",
        "notes: contains milk",
        "notes: 'allergens: milk, barley'",
        "notes: 'allergens: gluten'",
        "notes: contains no allergens",
        "notes: contains peanuts",
    ],
)
def test_words_that_do_not_tell_of_nuts(found: Found, words: str) -> None:
    key = words.split(":", maxsplit=1)[0]
    text = re.sub(rf"^{key}: .*\n", "", recipe(more=HAZELNUT), flags=re.MULTILINE) + f"{words}\n"
    (line,) = [at for at, one in enumerate(text.split("\n"), 1) if one.startswith("additions")]
    assert found("allergen_claim", text) == [
        f"{line}:20: warning: with hazelnut paste it contains nuts; {UNTOLD}",
    ]


@pytest.mark.parametrize(
    "words",
    [
        "Hazelnut Porter",
        "Porter with nuts",
        "nut brown ale with hazelnut",
    ],
)
def test_name_and_style_that_tell_of_nuts(found: Found, words: str) -> None:
    assert found("allergen_claim", recipe(name=words, more=HAZELNUT)) == []
    assert found("allergen_claim", recipe(style=words, more=HAZELNUT)) == []


@pytest.mark.parametrize(
    "notes",
    [
        "contains nuts",
        "boil for 90 minutes; contains nuts (hazelnut paste)",
        "Hazelnuts go in at packaging.",
        "'allergens: barley, nuts'",
        "not for those with a nut allergy",
        "tell those with allergies",
        "nut brown in the glass. There are nuts in it.",
    ],
)
def test_notes_that_tell_of_nuts(found: Found, notes: str) -> None:
    assert found("allergen_claim", recipe(more=f"{HAZELNUT}notes: {notes}\n")) == []


def test_each_nut_is_told_of_or_all(found: Found) -> None:
    two = "additions: [{what: hazelnut paste}, {what: peanut butter}]\n"
    assert found("allergen_claim", recipe(name="Hazelnut Porter", more=two)) == [
        f"6:44: warning: with peanut butter it contains peanuts; {UNTOLD}"
    ]
    assert found("allergen_claim", recipe(more=f"{two}notes: contains nuts\n")) == [
        f"6:44: warning: with peanut butter it contains peanuts; {UNTOLD}"
    ]
    assert found("allergen_claim", recipe(more=f"{two}notes: contains nuts and peanuts\n")) == []


@pytest.mark.parametrize(
    ("item", "words", "told"),
    [
        ("lactose", "Dairyman's Stout", False),
        ("lactose", "Oat Milk Stout", False),
        ("lactose", "Eggnog Stout", False),
        ("egg whites", "Eggnog Stout", False),
        ("egg whites", "Egg Stout", True),
        ("heavy cream", "cream ale", False),
        ("heavy cream", "Milk Stout", True),
        ("oysters", "Oyster Stout", True),
        ("oysters", "Oystercatcher Stout", False),
        ("soy lecithin", "Soysambu Stout", False),
    ],
)
def test_whole_words_tell(found: Found, item: str, words: str, told: bool) -> None:
    assert (found("allergen_claim", recipe(name=words, more=f"additions: [{{what: {item}}}]\n")) == []) is told


@pytest.mark.parametrize(
    ("notes", "told"),
    [
        ("contains oats, milk and wheat", True),
        ("contains milk, oats and wheat", True),
        ("as white as milk", False),
        ("contains oat milk", False),
    ],
)
def test_notes_that_tell_of_milk(found: Found, notes: str, told: bool) -> None:
    text = recipe(BARLEY, "{sugar: lactose, weight: 400 g}", more=f"notes: {notes}\n")
    assert (found("allergen_claim", text) == []) is told


@pytest.mark.parametrize(
    "item", ["lactose", "hazelnut paste", "soy lecithin", "lupins", "oysters", "egg whites", "tahini"]
)
def test_the_offered_word_tells(found: Found, item: str) -> None:
    text = recipe(more=f"additions: [{{what: {item}}}]\nnotes: brewed for the fair\n")
    (result,) = [one for one in mashwright.review_text(text).recipes[0].results if one.rule == "allergen-claim"]
    (remedy,) = result.remedies
    assert found("allergen_claim", text.replace("brewed for the fair", remedy.edits[0].text)) == []


def test_one_finding_for_one_group(found: Found) -> None:
    text = recipe(BARLEY, "{sugar: lactose, weight: 400 g}", more="additions: [{what: milk chocolate}]\n")
    assert found("allergen_claim", text) == [f"6:13: warning: with lactose it contains milk; {UNTOLD}"]


@pytest.mark.parametrize(
    ("claim", "item", "message"),
    [
        ("milk-free", "lactose", "claimed to be free of milk, but it contains lactose"),
        ("dairy free", "whey", "claimed to be free of milk, but it contains whey"),
        ("no lactose", "lactose", "claimed to be free of milk, but it contains lactose"),
        ("free of nuts", "almonds", "claimed to be free of nuts, but it contains almonds"),
        ("without eggs", "egg white", "claimed to be free of eggs, but it contains egg white"),
    ],
)
def test_claims_against_allergens(found: Found, claim: str, item: str, message: str) -> None:
    text = recipe(style=claim, more=f"additions: [{{what: {item}}}]\n")
    assert found("allergen_claim", text) == [f"2:8: error: {message}; someone who is allergic can be hurt"]


ALCOHOL = (
    "claimed to be free of alcohol, but it {}; countries draw the line at 0.05 to 0.5 %, and some drinkers must"
    " avoid all of it"
)


@pytest.mark.parametrize(
    ("style", "targets", "expected"),
    [
        ("alcohol-free ale", "abv: 4.8 %", ["2:8: error: " + ALCOHOL.format("states 4.8 % vol")]),
        ("non-alcoholic ale", "abv: 0.6 %", ["2:8: error: " + ALCOHOL.format("states 0.6 % vol")]),
        ("0.0 %", "abv: 0.4-0.6 %", ["2:8: warning: " + ALCOHOL.format("may contain 0.6 % vol")]),
        ("alcohol-free ale", "abv: 0.3 %", ["2:8: note: " + ALCOHOL.format("states 0.3 % vol")]),
        ("alcohol-free ale", "abv: 0.05 %", []),
        ("dealcoholised ale, alcohol free", "abv: 4.8 %", ["2:8: note: " + ALCOHOL.format("states 4.8 % vol")]),
        ("ale", "abv: 4.8 %", []),
        ("not an alcohol-free ale", "abv: 4.8 %", []),
        ("10.0 % ale", "abv: 10 %", []),
    ],
)
def test_alcohol(found: Found, style: str, targets: str, expected: list[str]) -> None:
    assert found("allergen_claim", recipe(style=style, more=f"targets: {{{targets}}}\n")) == expected


def test_alcohol_is_reckoned_where_none_is_stated(found: Found) -> None:
    text = recipe(style="alcohol-free ale", more="mash: {rests: [{at: 66 °C, for: 60 min}]}\n")
    (finding,) = found("allergen_claim", text)
    assert finding.startswith("2:8: error: claimed to be free of alcohol, but it contains about 4.")
    assert found("allergen_claim", recipe(style="alcohol-free ale").replace("batch: 20 l\n", "")) == []


@pytest.mark.parametrize(
    ("item", "expected"),
    [
        (
            "what: potassium metabisulfite, weight: 0.5 g",  # 14.4 mg/l
            [
                (
                    f"6:20: warning: 0.5 g of potassium metabisulfite: up to 14 mg/l of sulfite; {UNTOLD}; most labels"
                    f" must declare it above 10 mg/l"
                )
            ],
        ),
        (
            "what: Campden tablet, count: 0.5",  # 7.4 mg/l
            [
                (
                    f"6:20: note: 0.5 Campden tablet: up to 7.4 mg/l of sulfite; {UNTOLD}; up to 10 mg/l most labels"
                    f" need"
                    f" not declare it"
                )
            ],
        ),
        (
            "what: Campden tablet",
            [
                (
                    f"6:20: warning: Campden tablet: an unknown amount of sulfite; {UNTOLD}; most labels must declare"
                    f" it"
                    f" above 10 mg/l"
                )
            ],
        ),
    ],
)
def test_sulfite(found: Found, item: str, expected: list[str]) -> None:
    text = recipe(more=f"additions: [{{{item}}}]\n")
    assert found("allergen_claim", text) == expected
    assert found("allergen_claim", f"{text}notes: contains sulfites\n") == []
    name = item.split(",", maxsplit=1)[0].removeprefix("what: ")
    (claimed,) = found("allergen_claim", text.replace("Test Brew", "No Sulphites"))
    assert claimed.startswith("1:9: error: claimed to be free of sulfite, but it contains ")
    assert claimed.endswith(f"{name}; some people with asthma must avoid it")


@pytest.mark.parametrize(
    ("notes", "after"),
    [
        ("", 'notes: "contains milk (lactose)"'),
        ("notes: for the fair\n", 'notes: "for the fair; contains milk (lactose)"'),
    ],
)
def test_the_remedy_writes_the_word(notes: str, after: str) -> None:
    text = recipe(BARLEY, "{sugar: lactose, weight: 400 g}", more=notes)
    (result,) = [one for one in mashwright.review_text(text).recipes[0].results if one.rule == "allergen-claim"]
    (remedy,) = result.remedies
    assert remedy.text == "add to the notes: contains milk (lactose)"
    (edit,) = remedy.edits
    assert edit.text in after
    assert edit.pointer == "/notes"


def test_nothing_is_ever_said_to_be_free_of_gluten_or_safe() -> None:
    for module in (allergen_claim, additions):
        source = inspect.getsource(module).casefold()
        assert "gluten-free" not in source
        assert "is safe" not in source
    for text, _ in GLUTEN.values():
        for result in mashwright.review_text(text).recipes[0].results:
            assert "gluten-free" not in result.message
            assert "safe" not in result.message.replace("unsafe", "")


@pytest.mark.parametrize(
    ("name", "notes", "level"),
    [
        ("GF Pale", "", "error"),
        ("Glutenfreies Pils", "", "error"),
        ("Bière sans gluten", "", "error"),
        ("Cerveza sin gluten", "", "error"),
        ("Glutenvrij Blond", "", "error"),
        ("Glutenfri Pilsner", "", "error"),
        ("Birra senza glutine", "", "error"),
        ("Piwo bezglutenowe", "", "error"),
        ("Pale", "brewed for our coeliac member", "error"),
        ("Pale", "celiac-friendly", "error"),
        ("Pale", "für Zöliakiebetroffene", "error"),
        ("Gluten-Reduced Pale", "", "warning"),
        ("Low-Gluten Pale", "", "warning"),
        ("Pale", "very low gluten", "warning"),
        ("Pale", "sehr geringer Glutengehalt", "warning"),
        ("Pale", "contains gluten", ""),
        ("Pale", "not gluten-free", ""),
        ("Pale", "nicht glutenfrei", ""),
        ("Pale", "coeliacs should avoid this beer", ""),
        ("Pale", "a gift of my gf", ""),
        ("Pale", "not for coeliac drinkers", ""),
    ],
)
def test_what_is_said_of_gluten(found: Found, name: str, notes: str, level: str) -> None:
    text = recipe(BARLEY, more=f"notes: {notes}\n" if notes else "").replace("Test Brew", name)
    assert [line.split(": ")[1] for line in found("allergen_claim", text)] == ([level] if level else [])


@pytest.mark.parametrize(
    ("what", "notes", "told"),
    [
        ("peanut butter powder", "contains nuts", "contains peanuts"),
        ("peanut butter powder", "contains peanuts", ""),
        ("monkey nuts", "contains nuts", "contains peanuts"),
        ("hazelnuts", "contains peanuts", "contains nuts"),
        ("oysters", "contains crustaceans", "contains molluscs"),
        ("oysters", "contains molluscs", ""),
        ("crab shells", "contains molluscs", "contains crustaceans"),
        ("pine nuts", "contains nuts", ""),
        ("pine nuts", "for the fair", "contains pine nuts"),
        ("kola nuts", "for the fair", ""),
        ("isinglass", "for the fair", ""),
        ("anchovy paste", "for the fair", "contains fish"),
    ],
)
def test_one_group_is_not_told_by_another(found: Found, what: str, notes: str, told: str) -> None:
    text = recipe(BARLEY, more=f"additions: [{{what: {what}, weight: 100 g}}]\nnotes: {notes}\n")
    lines = found("allergen_claim", text)
    assert [told in line for line in lines] == ([True] if told else [])


def test_free_of_nuts_is_believed_of_peanuts_too(found: Found) -> None:
    text = recipe(BARLEY, more="additions: [{what: peanuts, weight: 100 g}]\nnotes: nut-free\n")
    (line,) = found("allergen_claim", text)
    assert ": error: claimed to be free of peanuts, but it contains peanuts" in line


@pytest.mark.parametrize("when", ["strike water", "in the liquor", "before the boil", "sparge water"])
def test_a_tablet_in_the_brewing_water_is_no_sulfite_in_the_beer(found: Found, when: str) -> None:
    text = recipe(BARLEY, more=f"additions: [{{what: Campden tablet, count: 1, when: {when}}}]\n")
    assert found("allergen_claim", text) == []
    (line,) = found("allergen_claim", text.replace("Test Brew", "Sulfite-Free"))
    assert ": note: claimed to be free of sulfite, but yeast makes some itself" in line


def test_no_mend_writes_what_may_not_be_true() -> None:
    text = recipe(BARLEY, more="additions: [{what: Campden tablets, count: 4, when: brewing water}]\n")
    remedies = [one.remedies for one in mashwright.review_text(text).recipes[0].results if one.rule == "allergen-claim"]
    assert remedies == [()]
    text = text.replace("brewing water", "at bottling")
    (told,) = [one for one in mashwright.review_text(text).recipes[0].results if one.rule == "allergen-claim"]
    assert [one.text for one in told.remedies] == ["add to the notes: contains sulfite"]
