from collections.abc import Callable

import pytest

import mashwright

Found = Callable[..., list[str]]


def recipe(step: str, mash: str = "water: 11 l") -> str:
    """A short recipe whose second rest is on line 8."""
    return f"""\
recipe: Tried
batch: 20 l
grist: [{{grain: pale ale malt, weight: 4.5 kg}}]
mash:
  {mash}
  rests:
    - {{at: 62 °C, for: 40 min}}
    - {{at: 72 °C, for: 20 min, {step}}}
"""


@pytest.mark.parametrize(
    "step",
    [
        "by: infusion, water: 5 l, of: 98 °C",
        "by: infusion, water: 5 l",
        "by: infusion",
        "by: heat",
        "by: decoction, pull: 30 %",
        "by: decoction, pull: 4 l",
        "by: decoction",
    ],
)
def test_steps_that_arrive_or_do_not_say_how(found: Found, step: str) -> None:
    assert found("step_temperature", recipe(step)) == []


@pytest.mark.parametrize(
    ("water", "level", "got"),
    [
        ("3.5 l", "note", "69.7 °C"),
        ("2.5 l", "warning", "67.9 °C"),
        ("0.5 l", "error", "63.4 °C"),
        ("20 l", "error", "84 °C"),
    ],
)
def test_an_infusion_too_small_or_too_large(found: Found, water: str, level: str, got: str) -> None:
    message = f"{water} of water at 98 °C brings the mash from 62 °C to about {got}, not 72 °C; it needs about 4.9 l"
    assert found("step_temperature", recipe(f"by: infusion, water: {water}, of: 98 °C")) == [
        f"8:53: {level}: {message}"
    ]


def test_water_that_is_too_cool_whatever_its_amount(found: Found) -> None:
    assert found("step_temperature", recipe("by: infusion, water: 5 l, of: 68 °C")) == [
        (
            "8:53: error: 5 l of water at 68 °C brings the mash from 62 °C to about 63.7 °C, not 72 °C; no amount"
            " of it is enough"
        )
    ]


def test_decoctions_by_share_and_by_volume(found: Found) -> None:
    assert found("step_temperature", recipe("by: decoction, pull: 12 %")) == [
        "8:53: warning: a decoction of 12 % brings the mash from 62 °C to about 66 °C, not 72 °C; it needs about 30.3 %"
    ]
    assert found("step_temperature", recipe("by: decoction, pull: 1 l")) == [
        "8:53: warning: a decoction of 1 l brings the mash from 62 °C to about 64.4 °C, not 72 °C; it needs about 4.2 l"
    ]


def test_without_mash_water_only_shares_are_judged(found: Found) -> None:
    assert found("step_temperature", recipe("by: infusion, water: 1 l, of: 98 °C", "crush: fine")) == []
    assert found("step_temperature", recipe("by: decoction, pull: 5 %", "crush: fine")) == [
        "8:53: error: a decoction of 5 % brings the mash from 62 °C to about 63.7 °C, not 72 °C; it needs about 30.3 %"
    ]


def test_hotter_than_water_boils_at_the_altitude(found: Found) -> None:
    text = recipe("by: infusion, water: 5 l, of: 99 °C")
    assert found("step_temperature", text, "brewhouse: Tried\naltitude: 1600 m\n") == [
        "8:62: error: infusion water of 99 °C is not possible: water boils at 94.6 °C at 1600 m"
    ]


def test_a_slip_of_the_mash_water_is_another_question(found: Found) -> None:
    assert found("step_temperature", recipe("by: infusion, water: 5 l, of: 98 °C", "water: 110 l")) == []


CEREAL = """\
recipe: Tried
batch: 20 l
grist:
  - {grain: six-row pale malt, weight: 3 kg}
  - {grain: maize grits, weight: 1.5 kg, prepare: cereal mash}
cereal-mash: {water: 5 l, boil: 30 min}
mash:
  water: 9 l
  rests:
    - {at: 50 °C, for: 15 min}
    - {at: 66 °C, for: 60 min, by: cereal mash}
"""


def test_a_cereal_mash_that_brings_too_much(found: Found) -> None:
    assert found("step_temperature", CEREAL) == []
    assert found("step_temperature", CEREAL.replace("water: 5 l", "water: 14 l")) == [
        "11:12: error: the cereal mash brings the mash from 50 °C to about 78.3 °C, not 66 °C"
    ]


def test_in_american_units(found: Found) -> None:
    text = """\
recipe: Tried
batch: 5 gal
grist: [{grain: pale ale malt, weight: 14 lb}]
mash:
  water: 14 qt
  rests:
    - {at: 130 °F, for: 20 min}
    - {at: 154 °F, for: 1 h, by: infusion, water: 4 qt, of: 210 °F}
"""
    assert found("step_temperature", text) == [
        (
            "8:51: warning: 4 qt of water at 210 °F brings the mash from 130 °F to about 145 °F, not 154 °F;"
            " it needs about 7.15 qt"
        )
    ]


def test_evidence_is_in_the_recipes_own_unit() -> None:
    text = (
        "recipe: Tried\nbatch: 5 gal\ngrist: [{grain: pale ale malt, weight: 10 lb}]\nmash:\n  water: 3 gal\n  rests:\n"
        "    - {at: 145 °F, for: 40 min}\n    - {at: 162 °F, for: 30 min, by: decoction, pull: 10 %}\n"
    )
    findings = mashwright.review_text(text).recipes[0].results
    (row,) = next(one for one in findings if one.rule == "step-temperature").evidence
    assert row.unit == "°F"
    assert 145 < float(row.value) < 162
