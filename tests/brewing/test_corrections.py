"""Corrections of a wort: a balance of extract, checked against mixing by hand."""

import pytest

from mashwright.brewing.corrections import DRY_EXTRACT, correction
from mashwright.brewing.gravity import extract_kg, gravity_of


def test_a_wort_as_planned_needs_nothing() -> None:
    after_sg = gravity_of(extract_kg(26, 1.042), 22)
    way = correction(26, 1.042, 22, after_sg, 4)
    assert way.left_l == pytest.approx(22, abs=1e-6)
    assert way.boil_min == pytest.approx(0, abs=1e-4)
    assert max(way.water_l, way.dry_extract_kg) == pytest.approx(0, abs=1e-6)


@pytest.mark.parametrize(("litres", "sg"), [(26, 1.036), (26, 1.048), (23, 1.042), (29, 1.042), (24, 1.050)])
def test_each_way_gives_the_planned_gravity(litres: float, sg: float) -> None:
    way = correction(litres, sg, 22, 1.050, 4)
    assert gravity_of(extract_kg(litres, sg), way.left_l) == pytest.approx(1.050, abs=1e-9)
    if way.water_l:
        assert gravity_of(extract_kg(litres, sg), 22 + way.water_l) == pytest.approx(1.050, abs=1e-9)
    else:
        extract = extract_kg(litres, sg) + DRY_EXTRACT * way.dry_extract_kg
        assert gravity_of(extract, 22) == pytest.approx(1.050, abs=1e-9)
    assert 60 * (22 - way.left_l) / 4 == pytest.approx(way.boil_min)
