"""What a mash needs, in numbers: infusions, decoctions, acid, soda and gypsum."""

import pytest

from mashwright.brew.brew import Brew
from mashwright.brewing.acids import meq_per_ml
from mashwright.brewing.heat import decoction_share, infusion_water_kg
from mashwright.figures.mash.step_heat import decoction_needed, infusion_needed, steps
from mashwright.figures.water.acidity import calcium_salt_needed, mash_acid_needed, mash_ph, mash_soda_needed
from mashwright.recipe.stated import Unknown

HEAD = "recipe: Test Brew\nbatch: 20 l\ngrist:\n  - {grain: Pilsner malt, weight: 4 kg}\n"


def brew(more: str, head: str = HEAD) -> Brew:
    return Brew.of(head + more)


def test_each_infusion_has_its_water_and_all_have_their_sum() -> None:
    mash = (
        "mash:\n  water: 10 l\n  rests:\n    - {at: 52 °C, for: 15 min}\n"
        "    - {at: 63 °C, for: 40 min, by: infusion, of: 95 °C}\n"
        "    - {at: 72 °C, for: 20 min, by: infusion, water: 5 l, of: 95 °C}\n"
    )
    said = brew(mash)
    figure = infusion_needed(said)
    names = [name for name, _ in figure.parts]
    assert names == ["rest 2", "rest 3"]
    first, second = (value for _, value in figure.parts)
    heat = 10 + 4 * 0.4
    assert first.typical == pytest.approx(infusion_water_kg(52, 63, 95, heat), rel=0.02)
    assert second.typical == pytest.approx(infusion_water_kg(63, 72, 95, heat + first.typical), rel=0.02)
    assert first.low <= first.typical < first.high
    assert figure.typical == pytest.approx(first.typical + second.typical)
    assert figure.working().splitlines()[-2:] == [
        "  rest 3, from 63 °C to 72 °C: 6.1 l, the recipe has 5 l",
        "  together 10.1 l",
    ]
    with pytest.raises(Unknown):
        decoction_needed(said)


def test_a_decoction_has_its_pull() -> None:
    mash = (
        "mash:\n  water: 12 l\n  rests:\n    - {at: 66 °C, for: 60 min}\n"
        "    - {at: 76 °C, for: 10 min, by: decoction}\n"
    )
    said = brew(mash)
    figure = decoction_needed(said)
    volume = 12 + 4 * 0.66
    assert figure.typical == pytest.approx(1.15 * decoction_share(66, 76) * volume, rel=0.01)
    assert figure.low == pytest.approx(decoction_share(66, 76) * volume, rel=0.01)
    assert figure.high > figure.typical
    assert figure.typical == steps(said)[0].needed_l


WATER = "water: {calcium: 20 mg/l, magnesium: 5 mg/l, alkalinity: 200 mg/l}\n"


def test_the_acid_that_is_told_brings_the_mash_where_it_should_be() -> None:
    plain = brew("mash: {water: 13 l}\n" + WATER)
    needs = mash_acid_needed(plain)
    assert needs.low < needs.typical < needs.high
    assert dict(needs.parts)["phosphoric acid 10 %"].typical > 5 * needs.typical
    acid = f"mash: {{water: 13 l, acid: {{lactic acid 88 %: {needs.typical:.3f} ml}}}}\n"
    assert mash_ph(brew(acid + WATER)).typical == pytest.approx(5.4, abs=0.005)
    moved = mash_ph(plain).typical - 5.4
    assert needs.typical == pytest.approx(moved * 4 * 42 / meq_per_ml("lactic acid", 88), rel=0.01)
    assert mash_soda_needed(plain).typical == 0
    assert "goggles and gloves" in needs.working()
    stated = mash_acid_needed(brew("mash: {water: 13 l, ph: 5.6}\n" + WATER))
    assert stated.typical < needs.typical


def test_a_sour_mash_needs_soda_and_no_acid() -> None:
    grist = "  - {grain: pale ale malt, weight: 2 kg}\n  - {grain: black malt, weight: 1 kg}\n"
    head = f"recipe: A\nbatch: 20 l\ngrist:\n{grist}"
    water = "water: {calcium: 20 mg/l, magnesium: 5 mg/l, alkalinity: 20 mg/l}\n"
    said = brew("mash: {water: 9 l}\n" + water, head)
    needs = mash_soda_needed(said)
    assert mash_acid_needed(said).typical == 0
    assert needs.typical > 1
    # 1 g of baking soda is 11.9 mEq, of which nine tenths are taken up at 5.4
    assert f"{needs.typical:.2g} g" in needs.working()


def test_gypsum_for_soft_water() -> None:
    figure = calcium_salt_needed(brew("mash: {water: 13 l}\n" + WATER))
    # 1 g of gypsum in 10 l is 23.3 mg/l of calcium
    assert figure.typical == pytest.approx((50 - 20) * 13 / 232.8, rel=0.001)
    assert dict(figure.parts)["as calcium chloride"].typical == pytest.approx(30 * 13 / 272.6, rel=0.001)
    hard = WATER.replace("calcium: 20", "calcium: 80")
    assert calcium_salt_needed(brew("mash: {water: 13 l}\n" + hard)).typical == 0
    with pytest.raises(Unknown):
        calcium_salt_needed(brew("mash: {ph: 5.4}\n" + WATER))
