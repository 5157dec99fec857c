"""The ingredient tables against printed values."""

import pytest

from mashwright.ingredients.lookup import fermentable, hop
from mashwright.measures.range import Range


def value(name: str, attribute: str) -> Range:
    found = getattr(fermentable(name), attribute)
    assert isinstance(found, Range)
    return found


def lintner(windisch_kolbach: float) -> float:
    """°WK = 3.5 × °Lintner − 16. Source: [windisch-kolbach-unit]."""
    return (windisch_kolbach + 16) / 3.5


@pytest.mark.parametrize(
    ("name", "yield_percent"),
    [
        ("Pilsner malt", 80),
        ("pale ale malt", 81),
        ("Vienna malt", 75),
        ("light Munich malt", 75),
        ("biscuit malt", 75),
        ("caramel malt 10", 75),
        ("caramel malt 15", 75),
        ("caramel malt 30", 74),
        ("caramel malt 40", 74),
        ("caramel malt 60", 74),
        ("caramel malt 75", 74),
        ("caramel malt 120", 72),
        ("dextrin malt", 70),
        ("brown malt", 70),
        ("black malt", 55),
        ("rye malt", 63),
        ("flaked oats", 70),
        ("flaked barley", 70),
        ("flaked wheat", 77),
        ("table sugar", 100),
    ],
)
def test_yield(name: str, yield_percent: float) -> None:
    """J. J. Palmer, How to Brew, 1st ed. (2001), chapter 12, Table 9, typical malt yields, column max. yield."""
    extract = value(name, "extract_dry")
    assert extract.low <= yield_percent <= extract.high


@pytest.mark.parametrize(
    ("low", "high", "name"),
    [(81.4, 82.6, "two-row pale malt"), (82.0, 82.0, "Pilsner malt")],
)
def test_extract_of_shipped_malt(low: float, high: float, name: str) -> None:
    """Master Brewers Association, Unraveling the Malt Puzzle, p. 37: fine grind, dry, North America and Europe."""
    extract = value(name, "extract_dry")
    assert extract.low <= low <= high <= extract.high


@pytest.mark.parametrize(
    ("name", "dry", "as_is"),
    [
        ("chocolate malt", (68, 75), (65, 70)),
        ("roasted barley", (60, 70), None),
        ("black malt", (60, 70), None),
        ("flaked maize", (82, 88), (78, 82)),
        ("flaked rice", (84, 90), None),
    ],
)
def test_extract_of_roasts_and_flakes(name: str, dry: tuple[float, float], as_is: tuple[float, float] | None) -> None:
    """Usual figures of maltsters' and millers' sheets, from memory, fine grind: of dry matter, and as it is weighed."""
    extract, moisture = value(name, "extract_dry"), value(name, "moisture")
    assert dry[0] <= extract.typical <= dry[1]
    assert extract.low <= dry[0] < dry[1] <= extract.high + 1e-9
    if as_is is not None:
        assert as_is[0] <= extract.typical * (100 - moisture.typical) / 100 <= as_is[1]


def test_extract_of_a_chocolate_malt_and_of_a_roasted_barley_that_were_analysed() -> None:
    """A shop's sheet: chocolate malt of at least 70 %, fine grind; a trade portal: roasted barley 265-275 l°/kg dry."""
    chocolate, barley = value("chocolate malt", "extract_dry"), value("roasted barley", "extract_dry")
    assert chocolate.typical >= 70
    assert barley.low < 265 / 3.86 <= 275 / 3.86 <= barley.high


def test_a_substandard_base_malt_is_below_the_table() -> None:
    """G. Noonan, article on malt analysis: a base malt below 78 % fine grind, dry basis, is substandard."""
    for name in ("two-row pale malt", "Pilsner malt", "pale ale malt"):
        assert value(name, "extract_dry").low > 78


@pytest.mark.parametrize(("name", "least_wk"), [("Pilsner malt", 200), ("light Munich malt", 80)])
def test_least_diastatic_power(name: str, least_wk: float) -> None:
    """TGL 17756 (1966), p. 3: Windisch-Kolbach power of at least 200 in pale malt and 80 in Munich malt."""
    assert value(name, "power_lintner").low == pytest.approx(lintner(least_wk), abs=1)


@pytest.mark.parametrize(
    ("name", "low", "high"),
    [
        ("two-row pale malt", 110, 140),
        ("six-row pale malt", 150, 160),
        ("wheat malt", 160, 160),
        ("rye malt", 100, 110),
    ],
)
def test_diastatic_power_of_an_article(name: str, low: float, high: float) -> None:
    """Web article on the diastatic power of grains (secondary; it names no source of its own)."""
    power = value(name, "power_lintner")
    assert power.low <= low <= high <= power.high


def test_two_row_by_the_companion() -> None:
    """G. Oliver (ed.), The Oxford Companion to Beer (2012), entry Lintner: North American two-row 125 or more, six-row
    above 160, a low single-infusion malt 35, Pilsner malt about 100."""
    assert value("two-row pale malt", "power_lintner").typical == 125
    assert value("six-row pale malt", "power_lintner").high > 160
    assert value("pale ale malt", "power_lintner").low == 35
    assert value("Pilsner malt", "power_lintner").typical == pytest.approx(100, abs=10)


def test_two_row_in_the_trade() -> None:
    """Common practice: North American two-row malt has 100-120 °Lintner."""
    power = value("two-row pale malt", "power_lintner")
    assert power.low <= 100
    assert power.high >= 120


def test_light_munich_in_the_trade() -> None:
    """Common practice: light Munich malt has about 40 °Lintner."""
    assert value("light Munich", "power_lintner").typical == 40


@pytest.mark.parametrize(
    "name", ["black malt", "chocolate malt", "roasted barley", *(f"caramel malt {n}" for n in (10, 40, 60, 120))]
)
def test_no_power_in_caramel_and_roast(name: str) -> None:
    """Common practice: caramel and roasted malts have lost their enzymes."""
    assert value(name, "power_lintner") == Range.exact(0)


def test_oat_malt_is_weak() -> None:
    """Morawski, Glaser, Dingler's Polyt. J. 269 (1888) 276 [morawski-glaser-1888]: oat malt 11.4, barley 46.8."""
    share = value("oat malt", "power_lintner").typical / value("two-row pale malt", "power_lintner").typical
    assert share == pytest.approx(11.4 / 46.8, abs=0.05)


@pytest.mark.parametrize(
    ("name", "low", "high"),
    [
        ("raw barley", 61, 62),
        ("raw wheat", 52, 54),
        ("maize grits", 70, 75),
        ("rice", 68, 75),
        ("sorghum", 70, 75),
        ("potatoes", 56, 69),
    ],
)
def test_gelatinisation(name: str, low: float, high: float) -> None:
    """Institute of Brewing, Malting, Wort Production and Fermentation, pp. 50-51."""
    starch = value(name, "gelatinises_c")
    assert starch.low <= low <= high <= starch.high


def test_crystal_water_of_dextrose() -> None:
    """By definition: C6H12O6·H2O holds 18.02 / 198.17 of water."""
    assert value("dextrose", "moisture").typical == pytest.approx(100 * 18.02 / 198.17, abs=0.05)


def test_maple_syrup() -> None:
    """USDA AMS, United States Standards for Grades of Maple Syrup (2015): 66.0 to 68.9 % solids."""
    moisture = value("maple syrup", "moisture")
    assert moisture.low <= 100 - 68.9 + 0.2
    assert moisture.high >= 100 - 66.0 - 0.2


@pytest.mark.parametrize(("nominal", "ebc"), [(40, 104.8), (60, 157.8), (80, 210.8), (120, 316.8)])
def test_colour_of_caramel_malts(nominal: float, ebc: float) -> None:
    """EBC = 2.65 × °Lovibond − 1.2, study cards on malt analysis sheets; the EBC figures are worked out by it."""
    found = fermentable(f"crystal malt {ebc:.0f} EBC")
    assert found is not None
    assert found.name == f"caramel malt {nominal}"


def test_noble_hops_are_low_in_alpha_acids() -> None:
    """Common practice: landrace aroma hops have less than 7 % alpha acids, bittering hops more than 8."""
    for name in ("Saaz", "Tettnanger", "Spalt", "Hallertauer Mittelfrüh", "Fuggle"):
        found = hop(name)
        assert found is not None
        assert found.alpha.high <= 7
    for name in ("Magnum", "Nugget", "Target", "Galena"):
        found = hop(name)
        assert found is not None
        assert found.alpha.high > 8
