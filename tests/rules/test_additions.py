"""What can poison among the additions, and what is left in peace."""

# ruff: noqa: E501 -- a finding is asserted whole, on its line

from collections.abc import Callable

import pytest

import mashwright
from mashwright.ingredients.bibliography import source
from mashwright.ingredients.cautions import HARMS, listed
from mashwright.words.plurals import agreed

Found = Callable[..., list[str]]

ASK = "ask an expert and keep to your local food rules"
LEAVE = f"leave it out, or {ASK}"
LEAVE_THEM = f"leave them out, or {ASK}"
CERTAIN = "so identify every piece with certainty"
CYANIDE = "they set free cyanide, which can kill"


def added(*items: str) -> str:
    lines = "".join(f"  - {{{item}}}\n" for item in items)
    return f"recipe: Test Brew\nbatch: 20 l\ngrist:\n  - {{grain: pale malt, weight: 4 kg}}\nadditions:\n{lines}"


CASES = {
    "elder stems": (
        "what: Elder stems, weight: 20 g",
        (
            "error: 20 g of Elder stems can poison: they set free cyanide, which can kill; only elderflowers and ripe"
            " berries"
            f" are used, off their stems; {LEAVE_THEM}"
        ),
    ),
    "one leaf": (
        "what: elder leaf",
        (
            "error: elder leaf can poison: it sets free cyanide, which can kill; only elderflowers and ripe berries are"
            f" used, off their stems; {LEAVE}"
        ),
    ),
    "kernels": (
        "what: apricot kernels, weight: 40 g",
        f"error: 40 g of apricot kernels can poison: {CYANIDE}; {LEAVE_THEM}",
    ),
    "bitter almonds": ("what: bitter almonds", f"error: bitter almonds can poison: {CYANIDE}; {LEAVE_THEM}"),
    "pennyroyal": (
        "what: pennyroyal",
        "error: pennyroyal can poison: it harms the liver and ends pregnancies; its oil has killed; " + LEAVE,
    ),
    "tansy": (
        "what: dried tansy, weight: 10 g",
        (
            "warning: 10 g of dried tansy can harm: it holds thujone, a nerve poison, in amounts that vary from plant"
            " to"
            f" plant; not for anybody pregnant; {LEAVE}"
        ),
    ),
    "its oil": (
        "what: oil of tansy, volume: 1 ml",
        "error: 1 ml of oil of tansy can poison: a few drops of such oils poison, and they have killed; " + LEAVE,
    ),
    "wormwood": (
        "what: wormwood, weight: 3 g",
        (
            "warning: 3 g of wormwood can harm: it holds thujone, a nerve poison for which countries set limits in"
            " drinks;"
            f" not for anybody pregnant; {LEAVE}"
        ),
    ),
    "raw cassava": (
        "what: raw cassava, weight: 1 kg",
        (
            "error: 1 kg of raw cassava can poison: it sets free cyanide, which can kill; only roots that were made"
            " fit to"
            f" eat, by soaking or grating and thorough cooking, are used; {LEAVE}"
        ),
    ),
    "a poison by name": (
        "what: henbane seed",
        f"error: henbane seed can poison: it has no place in a drink, in any amount; {LEAVE}",
    ),
    "an old book's poison": (
        "what: cocculus indicus, weight: 3 lb",
        f"error: 3 lb of cocculus indicus can poison: it is a poison that old brewers were fined for; {LEAVE}",
    ),
    "from memory alone it is no error": (
        "what: copperas, weight: 1 oz",
        (
            "warning: 1 oz of copperas can harm: it is of the old books, for the head or for keeping, and is barred"
            " from"
            f" beer in most countries today; {LEAVE}"
        ),
    ),
    "something to ask about": (
        "what: mugwort, weight: 5 g",
        "note: take care with 5 g of mugwort: it holds a little thujone; not for anybody pregnant; where in doubt, "
        + ASK,
    ),
    "foraged": (
        "what: foraged nettles",
        (
            f"note: take care with foraged nettles: they are easily mistaken for something poisonous, {CERTAIN}, else"
            f" leave them out; where in doubt, {ASK}"
        ),
    ),
    "foraged, and nobody says what": (
        "what: wild herbs",
        (
            f"warning: wild herbs can harm: they are easily mistaken for something poisonous, {CERTAIN}, else leave"
            f" them out; {ASK}"
        ),
    ),
    "foraged, and something else to say": (
        "what: foraged yarrow, weight: 100 g",
        (
            "note: take care with 100 g of foraged yarrow: it is of the old gruit and holds thujone;"
            f" not for anybody pregnant; it is also easily mistaken for something poisonous, {CERTAIN}, else leave it"
            f" out; where in doubt, {ASK}"
        ),
    ),
    "foraged, and a poison by itself": (
        "what: hedgerow elder stems, weight: 10 g",
        (
            "error: 10 g of hedgerow elder stems can poison: they set free cyanide, which can kill; only elderflowers"
            " and ripe berries are used, off their stems; they are also easily mistaken for something poisonous,"
            f" {CERTAIN}; {LEAVE_THEM}"
        ),
    ),
    "a look-alike is told of once": (
        "what: foraged wild garlic, weight: 20 g",
        (
            "warning: 20 g of foraged wild garlic can harm: it is easily mistaken for something poisonous (hemlock and"
            f" lily of the valley are deadly), {CERTAIN}, else leave it out; {ASK}"
        ),
    ),
    "stones, perhaps cracked": (
        "what: crushed cherry stones",
        (
            "warning: crushed cherry stones can harm: the kernels in the stones set free cyanide once they are crushed;"
            f" fruit is stoned, or its stones stay whole; {LEAVE_THEM}"
        ),
    ),
    "counted": (
        "what: tonka beans, count: 2",
        f"warning: 2 tonka beans can harm: they are barred from food or limited in some countries; {LEAVE_THEM}",
    ),
    "raw berries, even in the boil": (
        'what: "elderberries, raw", weight: 100 g, when: last 10 min of the boil',
        (
            "note: take care with 100 g of elderberries, raw: they set free cyanide while raw, so see that they are"
            " ripe"
            f" and boil right through; where in doubt, {ASK}"
        ),
    ),
    "chokecherries": (
        "what: chokecherries, weight: 1 kg, when: secondary",
        (
            "warning: 1 kg of chokecherries can harm: the stones and leaves set free cyanide, which can kill; only ripe"
            f" flesh is used, stoned and boiled; {LEAVE_THEM}"
        ),
    ),
    "chokecherries in the boil": (
        "what: chokecherries, weight: 1 kg, when: last 15 min of the boil",
        (
            "note: take care with 1 kg of chokecherries: the stones and leaves set free cyanide, which can kill; keep"
            f" leaves out, and stones whole; where in doubt, {ASK}"
        ),
    ),
    "lobelia": (
        "what: lobelia, weight: 5 g",
        f"error: 5 g of lobelia can poison: it holds lobeline, a poison like the nicotine of tobacco; {LEAVE}",
    ),
    "glycol": (
        "what: glycol, weight: 100 g",
        (
            "error: 100 g of glycol can poison: it is for cooling, not a food; of ethylene glycol little is"
            f" deadly; {LEAVE}"
        ),
    ),
    "a sanitiser": (
        "what: peracetic acid, volume: 50 ml, when: before bottling",
        (
            "error: 50 ml of peracetic acid can poison: it is for cleaning, burns mouth and gullet, and has no place in"
            f" a drink; {LEAVE}"
        ),
    ),
    "dry ice that is closed in": (
        "what: dry ice, weight: 200 g, when: in the bottle",
        (
            "error: 200 g of dry ice can hurt: it turns into so much gas that whatever is closed bursts, bottles, kegs"
            f" and fermenters alike; {LEAVE}"
        ),
    ),
    "dry ice elsewhere": (
        "what: dry ice, weight: 200 g, when: fermenter before bottling",
        (
            "warning: 200 g of dry ice can harm: it freezes skin and gullet, smothers people in closed rooms, and"
            " bursts"
            f" whatever is closed; {LEAVE}"
        ),
    ),
    "cassava flour is asked about": (
        "what: cassava flour, weight: 100 g, when: mash",
        (
            "note: take care with 100 g of cassava flour: it holds cyanide where the roots were not soaked or grated"
            " and"
            f" then dried or roasted, so ask how it was made; where in doubt, {ASK}"
        ),
    ),
    "a spice by the ladle": (
        "what: nutmeg, weight: 100 g",
        (
            "warning: 100 g of nutmeg can harm: a few grams of nutmeg or mace, drunk or eaten at once, make people ill"
            f" and see things; {LEAVE}"
        ),
    ),
    "much liquorice": (
        "what: liquorice root, weight: 150 g",
        (
            "note: take care with 150 g of liquorice root: it raises the blood pressure of those who drink much; not"
            " for"
            f" anybody with a weak heart or pregnant; where in doubt, {ASK}"
        ),
    ),
}


@pytest.mark.parametrize("case", CASES)
def test_what_can_hurt(found: Found, case: str) -> None:
    item, message = CASES[case]
    assert found("additions", added(item)) == [f"6:12: {message}"]


@pytest.mark.parametrize(
    "name",
    [
        "elderflowers",
        "elderflower, stems removed",
        "coriander seed",
        "Irish moss",
        "cherries, stones removed",
        "almond essence",
        "bitter almond extract",
        "hemp seeds",
        "wild yeast",
        "wild rice",
        "wild hops",
        "sage",
        "bay laurel",
        "sweet orange peel",
        "gypsum",
        "tapioca starch",
        "yeast nutrient",
        "ground ivy",
        "chestnuts",
        "nutmeg",
        "cocoa nibs",
        "rhubarb",
        "potato flakes",
        "tobacco barrel staves",
        "tomato",
        "lily of Kent",
        "cassava starch",
        "lactic acid",
        "phosphoric acid",
        "propylene glycol alginate",
        "hand-picked hops",
        "raspberries picked in the garden",
        "sea buckthorn",
        "star anise",
        "bittersweet chocolate",
        "butternut and buttercup squash",
        "edible glitter",
        "poppy seed",
        "sour cherries",
        "potassium sorbate",
        "calcium chloride",
        "heat-treated wood chips",
    ],
)
def test_what_is_left_in_peace(found: Found, name: str) -> None:
    assert found("additions", added(f'what: "{name}"')) == []


def test_raw_elderberries_want_the_boil(found: Found) -> None:
    text = "recipe: Test Brew\nbatch: 20 l\ngrist:\n  - {grain: pale malt, weight: 4 kg}\n"
    raw = text + "  - {fruit: elderberries, weight: 1 kg}\n"
    assert found("additions", raw) == [
        (
            "5:13: warning: 1 kg of elderberries can harm: they set free cyanide and upset the stomach badly while raw;"
            f" ripe ones are boiled first; {LEAVE_THEM}"
        )
    ]
    assert found("additions", text + "  - {fruit: elderberries, weight: 1 kg, add: kettle}\n") == []


@pytest.mark.parametrize("when", ["last 10 min of the boil", "kettle", "15 min", "copper, 30 min", "boiled 20 min"])
def test_what_is_boiled(found: Found, when: str) -> None:
    assert found("additions", added(f'what: elderberries, when: "{when}"')) == []


@pytest.mark.parametrize("when", ["secondary", "after the boil", "unboiled", "kettle at flame-out", "7 days"])
def test_what_is_not_boiled(found: Found, when: str) -> None:
    assert [one[:13] for one in found("additions", added(f'what: elderberries, when: "{when}"'))] == ["6:12: warning"]


@pytest.mark.parametrize(
    ("name", "little", "much"),
    [
        ("nutmeg", "10 g", "30 g"),
        ("mace", "2 g", "40 g"),
        ("saffron", "1 g", "30 g"),
        ("liquorice root", "40 g", "60 g"),
        ("Epsom salt", "10 g", "50 g"),
        ("zinc sulfate", "0.05 g", "1 g"),
    ],
)
def test_what_only_an_amount_makes_bad(found: Found, name: str, little: str, much: str) -> None:
    assert found("additions", added(f"what: {name}, weight: {little}")) == []
    assert len(found("additions", added(f"what: {name}, weight: {much}"))) == 1
    assert found("additions", added(f"what: {name}, weight: {much}").replace("20 l", "200 l")) == []


def test_a_poison_is_told_where_the_batch_is_not_known(found: Found) -> None:
    text = added("what: nutmeg, weight: 100 g", "what: henbane").replace("batch: 20 l\n", "")
    assert [one.split(" can ")[0] for one in found("additions", text)] == ["6:12: error: henbane"]


@pytest.mark.parametrize(
    "name",
    [
        "foraged elderflowers",
        "wild elder flowers",
        "sloes from the hedge",
        "hand-picked nettles",
        "blackberries gathered by the river",
        "foraged hops",
        "wild-grown dandelions",
    ],
)
def test_what_somebody_gathered_has_look_alikes(found: Found, name: str) -> None:
    (message,) = found("additions", added(f"what: {name}"))
    assert f"they are easily mistaken for something poisonous, {CERTAIN}, else leave them out" in message


def test_names_of_grain_and_hops_are_read_too(found: Found) -> None:
    text = (
        "recipe: Test Brew\nbatch: 20 l\ngrist:\n  - {grain: raw cassava, weight: 4 kg}\n"
        "hops:\n  - {hop: henbane, weight: 5 g, boil: 60 min}\n"
    )
    assert [one.split(" can ")[0] for one in found("additions", text)] == [
        "4:13: error: 4 kg of raw cassava",
        "6:11: error: 5 g of henbane",
    ]


EU = "20 mg/l in the EU and the UK"
ANZ = "25 mg/l in Australia and New Zealand"


@pytest.mark.parametrize(
    ("item", "vessel", "level", "told"),
    [
        # 2 × 64.064 of 222.32 g/mol is 57.6 %, of 190.1 g/mol 67.4 %
        ("what: potassium metabisulfite, weight: 0.69 g", "bottles", "", ""),  # 19.9 mg/l
        ("what: potassium metabisulfite, weight: 0.8 g", "bottles", "warning", f"up to 23 mg/l of sulfite; beer may contain at most {EU};"),
        ("what: potassium metabisulfite, weight: 0.8 g", "cask", "", ""),  # where 50 are allowed
        ("what: potassium metabisulfite, weight: 1 g", "cask", "warning", f"up to 29 mg/l of sulfite; beer may contain at most {ANZ};"),
        ("what: potassium metabisulfite, weight: 1.8 g", "bottles", "warning", f"up to 52 mg/l of sulfite; beer may contain at most {EU}, 25 mg/l in Australia and New Zealand, 50 mg/l in the Codex;"),
        ("what: Campden tablet, count: 1", "bottles", "", ""),  # 0.44 g of the salt of sodium: 14.8 mg/l
        ("what: Campden tablets, count: 4", "bottles", "warning", "up to 59 mg/l of sulfite; beer may contain at most"),
        ("what: metabisulfite", "bottles", "", ""),
        ("what: potassium metabisulfite, weight: 3.4 g", "bottles", "warning", "up to 98 mg/l of sulfite;"),
        ("what: potassium metabisulfite, weight: 3.5 g", "bottles", "error", "up to 101 mg/l of sulfite;"),
        ("what: metabisulphite tablets, count: 9", "bottles", "error", "up to 133 mg/l of sulfite;"),
        # what goes into the brewing water is used up, 0.02 g of the salt to a litre of it
        ("what: Campden tablet, count: 1, when: strike water", "bottles", "", ""),
        ("what: Campden tablets, count: 2, when: in the liquor before the boil", "bottles", "", ""),
        ("what: Campden tablets, count: 4, when: brewing water", "bottles", "warning", "up to 39 mg/l of sulfite;"),
        ("what: Campden tablets, count: 4, when: in water at bottling", "bottles", "warning", "up to 59 mg/l of sulfite;"),
    ],
)  # fmt: skip
def test_sulfite(found: Found, item: str, vessel: str, level: str, told: str) -> None:
    lines = found("additions", added(item) + f"package: {{in: {vessel}}}\n")
    assert [line.split(": ")[1] for line in lines] == ([level] if level else [])
    assert all(told in line and "it can trigger asthma; " in line and line.endswith(ASK) for line in lines)


def test_sulfite_in_several_places_adds_up(found: Found) -> None:
    text = added("what: Campden tablets, count: 2").replace(
        "additions:", "mash:\n  salts: {potassium metabisulfite: 1 g}\nadditions:"
    )
    (line,) = found("additions", text)
    assert line.startswith("6:36: warning: 1 g of potassium metabisulfite and 2 Campden tablets in 20 l: up to 4")


@pytest.mark.parametrize(
    ("what", "level", "told"),
    [
        ("broom tops", "warning", "they hold sparteine, which acts on heart and womb"),
        ("juniper berries", "note", "they are not for anybody pregnant or with weak kidneys"),
        ("horehound", "note", "not for anybody pregnant"),
        ("gentian root", "note", "not for anybody pregnant"),
        ("angelica root", "note", "by custom not for anybody pregnant"),
        ("yarrow", "note", "thujone"),
    ],
)
def test_bitter_herbs_of_old(found: Found, what: str, level: str, told: str) -> None:
    (line,) = found("additions", added(f"what: {what}, weight: 20 g, when: boil"))
    assert f": {level}: " in line
    assert told in line


@pytest.mark.parametrize("what", ["broomcorn millet", "gin with juniper", "juniper wood"])
def test_what_is_only_called_alike(found: Found, what: str) -> None:
    assert found("additions", added(f"what: {what}, weight: 20 g, when: boil")) == []


def test_the_table_is_honest_about_its_sources() -> None:
    for one in listed():
        assert one.harm in HARMS
        assert source(one.source).key in ("common-practice", "from-memory", "herbs-in-pregnancy", "juniper-monograph")
        assert one.words
        assert all(one.words)
        for plural in (False, True):
            told = agreed(one.says, plural=plural)
            assert "{" not in told
            assert "}" not in told
        assert not one.says.endswith(".")


@pytest.mark.parametrize("word", ["safe", "harmless", "gluten-free"])
def test_nothing_is_ever_called_safe(word: str) -> None:
    assert not any(word in one.says for one in listed())


def dosed(what: str, *, style: str = "", batch: str = "20 l", notes: str = "") -> str:
    lines = "".join(f"{key}: {value}\n" for key, value in (("style", style), ("notes", notes)) if value)
    text = added(what).replace("batch: 20 l", f"batch: {batch}")
    return text + lines


@pytest.mark.parametrize(
    ("what", "expected"),
    [
        (
            "what: coriander seed, weight: 200 g, when: boil",
            (
                "6:36: warning: 200 g of coriander seed in 20 l is 6.7 times the usual maximum of 30 g; has the"
                " decimal point slipped?"
            ),
        ),
        (
            "what: coriander seed, weight: 100 g, when: boil",
            "6:36: note: 100 g of coriander seed in 20 l is 3.3 times the usual maximum of 30 g; is this on purpose?",
        ),
        (
            "what: cloves, weight: 100 g",
            (
                "6:28: warning: 100 g of cloves in 20 l is 17 times the usual maximum of 6 g; has the decimal point"
                " slipped?"
            ),
        ),
        (
            "what: cinnamon, weight: 100 g",
            (
                "6:30: warning: 100 g of cinnamon in 20 l is 5 times the usual maximum of 20 g; has the decimal point"
                " slipped?"
            ),
        ),
        (
            "what: Irish moss, weight: 60 g",
            (
                "6:32: warning: 60 g of Irish moss in 20 l is 15 times the usual maximum of 4 g; has the decimal"
                " point slipped?"
            ),
        ),
        (
            "what: yeast nutrient, weight: 100 g",
            (
                "6:36: warning: 100 g of yeast nutrient in 20 l is 5 times the usual maximum of 20 g; has the decimal"
                " point slipped?"
            ),
        ),
    ],
)
def test_many_times_the_usual_dose(found: Found, what: str, expected: str) -> None:
    assert found("additions", dosed(what)) == [expected]


def test_a_dose_in_the_recipe_s_own_units(found: Found) -> None:
    assert found("additions", dosed("what: coriander seed, weight: 6 oz", batch="5 gal")) == [
        (
            "6:36: warning: 6 oz of coriander seed in 5 gal is 6 times the usual maximum of 1 oz; has the decimal"
            " point slipped?"
        )
    ]


@pytest.mark.parametrize(
    "what",
    [
        "what: coriander seed, weight: 50 g",
        "what: coriander seed, weight: 0.6 oz",
        "what: sweet orange peel, weight: 0.75 oz",
        "what: Irish moss, weight: 7 g",
        "what: cinnamon sticks, count: 3",
        "what: cinnamon sticks, weight: 10 g",
        "what: fresh ginger, weight: 600 g",
        "what: cinnamon syrup, weight: 500 g",
        "what: vanilla beans, weight: 30 g",
        "what: leaf gelatine, weight: 3 g",
        "what: cocoa nibs, weight: 400 g",
    ],
)
def test_doses_that_brewers_use(found: Found, what: str) -> None:
    assert found("additions", dosed(what)) == []


SALT_NOTE = "tastes salty, as beer does from about 30 g; is a salty beer the aim, such as a gose?"
SALT_WARNING = "is more than the 80 g that even a gose tolerates; has the decimal point slipped?"


@pytest.mark.parametrize(
    ("what", "style", "expected"),
    [
        ("what: sea salt, weight: 180 g", "gose", f"6:30: warning: 180 g of sea salt in 20 l {SALT_WARNING}"),
        ("what: salt, weight: 180 g", "porter", f"6:26: warning: 180 g of salt in 20 l {SALT_WARNING}"),
        (
            "what: pink Himalayan salt, weight: 36 g",
            "porter",
            f"6:41: note: 36 g of pink Himalayan salt in 20 l {SALT_NOTE}",
        ),
        ("what: sea salt, weight: 36 g", "mongoose bitter", f"6:30: note: 36 g of sea salt in 20 l {SALT_NOTE}"),
        ("what: sea salt, weight: 36 g", "gose", ""),
        ("what: sea salt, weight: 36 g", "salted caramel stout", ""),
        ("what: sea salt, weight: 18 g", "porter", ""),
        ("what: Epsom salt, weight: 25 g", "porter", ""),
        ("what: salted caramel, weight: 300 g", "stout", ""),
        ("what: salt cod, weight: 300 g", "stout", ""),
        ("what: sea salt", "porter", ""),
    ],
)
def test_table_salt_among_the_additions(found: Found, what: str, style: str, expected: str) -> None:
    assert found("additions", dosed(what, style=style)) == ([expected] if expected else [])


def test_a_salty_beer_that_is_taken_back(found: Found) -> None:
    text = dosed("what: sea salt, weight: 36 g", notes="this is not salty at all")
    assert found("additions", text) == [f"6:30: note: 36 g of sea salt in 20 l {SALT_NOTE}"]


def test_no_batch_and_no_dose(found: Found) -> None:
    assert found("additions", dosed("what: cloves, weight: 100 g").replace("batch: 20 l\n", "")) == []


@pytest.mark.parametrize(
    ("what", "remedy"),
    [
        ("what: sea salt, weight: 180 g", "use 18 g of sea salt instead of 180 g"),
        ("what: coriander seed, weight: 200 g", "use 20 g of coriander seed instead of 200 g"),
        ("what: Irish moss, weight: 60 g", "use 4 g of Irish moss instead of 60 g"),
    ],
)
def test_a_tenth_or_the_usual_mends_it(what: str, remedy: str) -> None:
    review = mashwright.review_text(dosed(what))
    mended = [one.remedies for one in review.recipes[0].results if one.rule == "additions"]
    assert [[one.text for one in remedies] for remedies in mended] == [[remedy]]


def test_a_house_that_spices_more_sets_it(found: Found) -> None:
    text = dosed("what: coriander seed, weight: 100 g")
    assert found("additions", text, past_usual_times=4.0) == []
    assert len(found("additions", text, past_usual_times=1.2, far_past_usual_times=1.5)) == 1
