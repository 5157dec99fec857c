"""What can poison among the additions, and what is left in peace."""

# ruff: noqa: E501 -- a finding is asserted whole, on its line

from collections.abc import Callable

import pytest

from mashwright.ingredients.bibliography import source
from mashwright.ingredients.cautions import HARMS, listed

Found = Callable[..., list[str]]

ASK = "ask for competent advice and keep to your local food rules"
LEAVE = f"leave it out, or {ASK}"
CYANIDE = "they set free cyanide, which can kill"


def added(*items: str) -> str:
    lines = "".join(f"  - {{{item}}}\n" for item in items)
    return f"recipe: Test Brew\nbatch: 20 l\ngrist:\n  - {{grain: pale malt, weight: 4 kg}}\nadditions:\n{lines}"


CASES = {
    "elder stems": (
        "what: Elder stems, weight: 20 g",
        (
            "error: 20 g of Elder stems can poison: they set free cyanide, which can kill; only elderflowers and ripe berries"
            f" are used, off their stems; {LEAVE}"
        ),
    ),
    "kernels": (
        "what: apricot kernels, weight: 40 g",
        f"error: 40 g of apricot kernels can poison: {CYANIDE}; {LEAVE}",
    ),
    "bitter almonds": ("what: bitter almonds", f"error: bitter almonds can poison: {CYANIDE}; {LEAVE}"),
    "pennyroyal": (
        "what: pennyroyal",
        "error: pennyroyal can poison: it harms the liver and ends pregnancies; its oil has killed; " + LEAVE,
    ),
    "tansy": (
        "what: dried tansy, weight: 10 g",
        (
            "warning: 10 g of dried tansy can harm: it holds thujone, a nerve poison, in amounts that vary from plant to"
            f" plant; not for anybody pregnant; {LEAVE}"
        ),
    ),
    "its oil": (
        "what: oil of tansy, volume: 1 ml",
        "error: 1 ml of oil of tansy can poison: it is a poison in drops; oils of these plants have killed; " + LEAVE,
    ),
    "wormwood": (
        "what: wormwood, weight: 3 g",
        (
            "warning: 3 g of wormwood can harm: it holds thujone, a nerve poison for which countries set limits in drinks;"
            f" not for anybody pregnant; {LEAVE}"
        ),
    ),
    "raw cassava": (
        "what: raw cassava, weight: 1 kg",
        (
            "error: 1 kg of raw cassava can poison: it sets free cyanide, which can kill; only roots that were made fit to"
            f" eat, by soaking or grating and thorough cooking, are used; {LEAVE}"
        ),
    ),
    "a poison by name": (
        "what: henbane seed",
        f"error: henbane seed can poison: it is a poison, and has no place in a drink; {LEAVE}",
    ),
    "an old book's poison": (
        "what: cocculus indicus, weight: 3 lb",
        f"error: 3 lb of cocculus indicus can poison: it is a poison that old brewers were fined for; {LEAVE}",
    ),
    "from memory alone it is no error": (
        "what: copperas, weight: 1 oz",
        (
            "warning: 1 oz of copperas can harm: it is of the old books, for the head or for keeping, and is barred from"
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
            "note: take care with foraged nettles: it is easily mistaken for a poisonous plant; somebody who knows them looks at"
            f" every piece; where in doubt, {ASK}"
        ),
    ),
    "foraged, and nobody says what": (
        "what: wild herbs",
        (
            "warning: wild herbs can harm: it is easily mistaken for a poisonous plant; somebody who knows them looks at"
            f" every piece; {LEAVE}"
        ),
    ),
    "stones, perhaps cracked": (
        "what: crushed cherry stones",
        (
            "warning: crushed cherry stones can harm: they hold kernels that set free cyanide once they are crushed; fruit"
            f" is stoned, or its stones stay whole; {LEAVE}"
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
        "juniper",
        "bay laurel",
        "sweet orange peel",
        "gypsum",
        "tapioca starch",
        "cassava flour",
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
    ],
)
def test_what_is_left_in_peace(found: Found, name: str) -> None:
    assert found("additions", added(f'what: "{name}"')) == []


def test_raw_elderberries_want_the_boil(found: Found) -> None:
    text = "recipe: Test Brew\nbatch: 20 l\ngrist:\n  - {grain: pale malt, weight: 4 kg}\n"
    raw = text + "  - {fruit: elderberries, weight: 1 kg}\n"
    assert found("additions", raw) == [
        (
            "5:13: warning: 1 kg of elderberries can harm: they upset the stomach badly while they are raw; ripe ones are"
            f" boiled first; {LEAVE}"
        )
    ]
    assert found("additions", text + "  - {fruit: elderberries, weight: 1 kg, add: kettle}\n") == []
    assert found("additions", added("what: elderberries, when: last 10 min of the boil")) == []
    assert [one[:13] for one in found("additions", added("what: elderberries, when: secondary"))] == ["6:12: warning"]


def test_names_of_grain_and_hops_are_read_too(found: Found) -> None:
    text = (
        "recipe: Test Brew\nbatch: 20 l\ngrist:\n  - {grain: raw cassava, weight: 4 kg}\n"
        "hops:\n  - {hop: henbane, weight: 5 g, boil: 60 min}\n"
    )
    assert [one.split(" can ")[0] for one in found("additions", text)] == [
        "4:13: error: 4 kg of raw cassava",
        "6:11: error: 5 g of henbane",
    ]


@pytest.mark.parametrize(
    ("item", "messages"),
    [
        # 2 × 64.064 of 222.32 g/mol is 57.6 %, of 190.1 g/mol 67.4 %
        ("what: potassium metabisulfite, weight: 1.7 g", []),  # 49.0 mg/l
        (
            "what: potassium metabisulfite, weight: 1.8 g",
            [
                (
                    "6:12: warning: 1.8 g of potassium metabisulfite in 20 l: up to 52 mg/l of sulfite, above the 50 that"
                    f" countries commonly allow beer; it can set off asthma, so {ASK}"
                )
            ],
        ),
        ("what: Campden tablet, count: 3", []),  # 3 × 0.44 g of the salt of sodium: 44.5 mg/l
        (
            "what: Campden tablets, count: 4",
            [
                (
                    "6:12: warning: 4 Campden tablets in 20 l: up to 59 mg/l of sulfite, above the 50 that"
                    f" countries commonly allow beer; it can set off asthma, so {ASK}"
                )
            ],
        ),
        ("what: metabisulfite", []),
    ],
)
def test_sulfite(found: Found, item: str, messages: list[str]) -> None:
    assert found("additions", added(item)) == messages


def test_sulfite_in_several_places_adds_up(found: Found) -> None:
    text = added("what: Campden tablets, count: 2").replace(
        "additions:", "mash:\n  salts: {potassium metabisulfite: 1 g}\nadditions:"
    )
    assert found("additions", text) == [
        (
            "6:36: warning: 1 g of potassium metabisulfite and 2 Campden tablets in 20 l: up to 58 mg/l of sulfite, above"
            f" the 50 that countries commonly allow beer; it can set off asthma, so {ASK}"
        )
    ]


def test_the_table_is_honest_about_its_sources() -> None:
    for one in listed():
        assert one.harm in HARMS
        assert source(one.source).key in ("common-practice", "from-memory")
        assert one.words
        assert all(one.words)
        assert one.says.startswith(("it ", "they "))
        assert not one.says.endswith(".")


@pytest.mark.parametrize("word", ["safe", "harmless", "gluten-free"])
def test_nothing_is_ever_called_safe(word: str) -> None:
    assert not any(word in one.says for one in listed())
