"""Brew days that were measured: the efficiency and the attenuation that they show, and the days beside the figures."""

import pytest

import mashwright
from mashwright.brew.brew import Brew
from mashwright.brewing.gravity import extract_kg
from mashwright.figures.beer.measured import measured_attenuation, measured_efficiency
from mashwright.figures.function import FigureFunction
from mashwright.measures.range import Range
from mashwright.recipe.stated import Unknown

RECIPE = """\
recipe: Test Brew
batch: 20 l
efficiency: 70 %
grist:
  - {grain: two-row pale malt, weight: 4 kg, extract: 80 %, moisture: 5 %}
  - {sugar: table sugar, weight: 200 g}
mash: {rests: [{at: 66 °C, for: 60 min}]}
yeast: {kind: English ale}
measured:
"""
MASHED_KG = 4 * 0.8 * 0.95
TWO_DAYS = RECIPE + (
    "  - {date: 2026-03-14, og: 1.049, fg: 1.012, temperatures: {mash: 65.5 °C, room: 61 °F}}\n"
    "  - {date: 2026-05-02, og: 1.051, fg: 1.011, batch: 19 l}\n"
)


def brew(text: str) -> Brew:
    return Brew.of(text)


def efficiency(litres: float, og: float, other_kg: float = 0.2) -> float:
    return 100 * (extract_kg(litres, og) - other_kg) / MASHED_KG


def test_efficiency_of_each_day_and_their_mean() -> None:
    figure = measured_efficiency(brew(TWO_DAYS))
    first, second = efficiency(20, 1.049), efficiency(19, 1.051)
    assert figure.unit == "%"
    assert figure.typical == pytest.approx((first + second) / 2, rel=1e-4)
    assert figure.low == pytest.approx(min(first, second), rel=1e-3)
    assert figure.high == pytest.approx(max(first, second), rel=1e-3)
    assert [(name, round(value.typical, 1)) for name, value in figure.parts] == [
        ("2026-03-14", 77.1),
        ("2026-05-02", 76.2),
    ]
    assert figure.assumed == ("the recipe's own batch on 2026-03-14, since no other was measured",)
    assert figure.paths == (("measured", 0, "og"), ("measured", 1, "og"))
    assert figure.working().splitlines() == [
        (
            "2026-03-14: 1.049, 20 l into the fermenter, is 2.54 kg of extract, 2.34 kg of it mashed;"
            " ÷ 3.04 kg in the mashed grain = 77.1 %"
        ),
        (
            "2026-05-02: 1.051, 19 l into the fermenter, is 2.52 kg of extract, 2.32 kg of it mashed;"
            " ÷ 3.04 kg in the mashed grain = 76.2 %"
        ),
        "on average (77.1 + 76.2) ÷ 2 = 76.7 %",
        "the recipe says 70 %",
    ]


def test_what_the_malt_leaves_open_stays_open() -> None:
    figure = measured_efficiency(brew(TWO_DAYS.replace(", extract: 80 %, moisture: 5 %", "")))
    assert figure.high - figure.low > 5


def test_a_day_counted_in_the_kettle_loses_what_stays_there() -> None:
    day = "  - {date: 2026-03-14, og: 1.049, batch: {kettle: 22 l}}\n"
    in_kettle = measured_efficiency(brew(RECIPE + day))
    # hot wort shrinks by 4 %, and 2.5 to 10 % of it stays with the trub
    assert in_kettle.typical == pytest.approx(efficiency(22 * 0.96 * 0.94, 1.049), rel=1e-3)
    of_mash = measured_efficiency(brew((RECIPE + day).replace("efficiency: 70", "mash-efficiency: 70")))
    assert of_mash.typical == pytest.approx(efficiency(22 * 0.96, 1.049), rel=1e-3)


def test_attenuation_of_each_day_and_their_mean() -> None:
    figure = measured_attenuation(brew(TWO_DAYS))
    assert figure.typical == pytest.approx(100 * (37 / 49 + 40 / 51) / 2)
    assert (figure.low, figure.high) == pytest.approx((100 * 37 / 49, 100 * 40 / 51))
    assert figure.working().splitlines() == [
        "2026-03-14: (1.049 - 1.012) ÷ (1.049 - 1) × 100 = 75.5 %",
        "2026-05-02: (1.051 - 1.011) ÷ (1.051 - 1) × 100 = 78.4 %",
        "on average (75.5 + 78.4) ÷ 2 = 77 %",
    ]


def test_an_attenuation_that_was_written_down_serves_where_gravities_do_not() -> None:
    figure = measured_attenuation(brew(RECIPE + "  - {attenuation: 74-76 %}\n  - {og: 1.050}\n"))
    assert figure.range == Range(74.0, 75.0, 76.0)
    assert figure.parts == ()
    assert figure.working() == "day 1: 74-76 % as measured"


def test_two_brews_of_one_day_are_told_apart() -> None:
    text = RECIPE + "  - {date: 2026-03-14, og: 1.049}\n  - {date: 2026-03-14, og: 1.047}\n"
    assert [name for name, _ in measured_efficiency(brew(text)).parts] == ["2026-03-14", "2026-03-14 (2)"]


@pytest.mark.parametrize(
    ("figure", "text", "missing"),
    [
        (measured_efficiency, RECIPE.removesuffix("measured:\n"), "a measured brew day"),
        (measured_attenuation, RECIPE.removesuffix("measured:\n"), "a measured brew day"),
        (measured_efficiency, RECIPE + "  - {fg: 1.012}\n", "a measured brew day with its OG"),
        (measured_attenuation, RECIPE + "  - {og: 1.049}\n", "a measured brew day with its OG and FG"),
        (
            measured_efficiency,
            "batch: 20 l\ngrist: [{extract: light dry malt extract, weight: 3 kg}]\nmeasured: [{og: 1.05}]\n",
            "mashed grain that gives extract",
        ),
    ],
)
def test_what_is_missing_is_said(figure: FigureFunction, text: str, missing: str) -> None:
    with pytest.raises(Unknown) as unknown:
        figure(brew(text))
    assert unknown.value.missing == missing


def test_no_rule_calls_a_brew_day_wrong() -> None:
    absurd = RECIPE + "  - {date: 2026-03-14, og: 1.150, fg: 1.140}\n"
    places = [result.pointer for result in mashwright.review_text(absurd).recipes[0].results]
    assert [place for place in places if place.startswith("/measured")] == []


def test_days_stand_beside_the_figures() -> None:
    sheet = mashwright.figures_of(TWO_DAYS)
    og = next(row.typical for row in sheet.rows if row.id == "og")
    fg = next(row.typical for row in sheet.rows if row.id == "fg")
    assert og is not None
    assert fg is not None
    beside = f"OG 1.049 (worked out: {og:.3f}), FG 1.012 (worked out: {fg:.3f})"
    assert sheet.measured == (
        (10, f"2026-03-14: {beside}, mash 65.5 °C, room 61 °F"),
        (11, f"2026-05-02: OG 1.051 (worked out: {og:.3f}), FG 1.011 (worked out: {fg:.3f}), batch 19 l"),
    )
