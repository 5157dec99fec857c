import pytest

from mashwright.brewing.acids import ACIDS
from mashwright.brewing.water import CALCIUM_CHLORIDE, SALTS
from mashwright.ingredients import minerals
from mashwright.ingredients.minerals import acid, nearest, salt


@pytest.mark.parametrize(
    ("name", "known"),
    [
        ("gypsum", "gypsum"),
        ("Gypsum", "gypsum"),
        ("calcium sulphate", "gypsum"),
        ("calcium chloride", "calcium chloride"),
        ("calcium chloride (CaCl2)", "calcium chloride"),
        ("CaCl2", "calcium chloride"),
        ("Epsom salts", "Epsom salt"),
        ("MgSO4", "Epsom salt"),
        ("salt", "table salt"),
        ("sea salt", "table salt"),
        ("bicarbonate of soda", "baking soda"),
        ("chalk", "chalk"),
        ("pickling lime", "slaked lime"),
        ("Ca(OH)2", "slaked lime"),
        ("campden tablets", "uncounted"),
        ("gypsm", None),
    ],
)
def test_salts_by_name(name: str, known: str | None) -> None:
    assert salt(name) == known


@pytest.mark.parametrize(
    ("name", "known"),
    [
        ("lactic acid 88 %", ("lactic acid", 88)),
        ("88% lactic acid", ("lactic acid", 88)),
        ("lactic acid (80 %)", ("lactic acid", 80)),
        ("lactic acid 87.5 %", ("lactic acid", 87.5)),
        ("lactic acid", ("lactic acid", None)),
        ("phosphoric 10%", ("phosphoric acid", 10)),
        ("H3PO4 85 %", ("phosphoric acid", 85)),
        ("acid malt", ("acidulated malt", None)),
        ("lactc acid", None),
    ],
)
def test_acids_by_name(name: str, known: tuple[str, float | None] | None) -> None:
    assert acid(name) == known


@pytest.mark.parametrize(
    ("name", "table", "near"),
    [
        ("gypsm", "salts", "gypsum"),
        ("epson salt", "salts", "Epsom salt"),
        ("calcium clorid", "salts", "calcium chloride"),
        ("lactc acid", "acids", "lactic acid"),
        ("stardust", "salts", None),
    ],
)
def test_the_nearest(name: str, table: str, near: str | None) -> None:
    assert nearest(name, table) == near


def test_every_name_has_its_science() -> None:
    assert set(minerals._LISTED["salts"]) == {*SALTS, CALCIUM_CHLORIDE}
    assert set(minerals._LISTED["acids"]) == {*ACIDS, "acidulated malt"}
