import pytest
from hypothesis import given
from hypothesis import strategies as st

from mashwright.measures.archaic import ASKED, IMPERIAL
from mashwright.measures.gravity_scale import plato, specific_gravity
from mashwright.measures.range import Range
from mashwright.measures.spellings import unit_key
from mashwright.measures.unit_table import EITHER, ROWS, TABLES
from mashwright.measures.units import Kind, find, from_canonical, said, step_of, to_canonical, units_of

LB = 0.45359237
ALL = [(kind, name) for kind, table in TABLES.items() for name in {unit.name for unit in table.values()}]


@pytest.mark.parametrize(
    ("value", "unit", "kind", "text"),
    [
        (1.62, "kg", Kind.MASS, "1.62 kg"),
        (2.9, "kg", Kind.MASS, "2.9 kg"),
        (0.004, "kg", Kind.MASS, "0.004 kg"),
        (0, "kg", Kind.MASS, "0 kg"),
        (0.3, "g", Kind.MASS, "300 g"),
        (0.0034, "g", Kind.MASS, "3.4 g"),
        (3.57 * LB, "lb", Kind.MASS, "3.57 lb"),
        (57 / 16 * LB, "lb oz", Kind.MASS, "3 lb 9 oz"),
        (8 / 16 * LB, "lb oz", Kind.MASS, "8 oz"),
        (3 * LB, "lb oz", Kind.MASS, "3 lb"),
        (7.3, "l", Kind.VOLUME, "7.3 l"),
        (0.355, "l", Kind.VOLUME, "0.35 l"),
        (66.0, "°C", Kind.TEMPERATURE, "66 °C"),
        (66.52, "°C", Kind.TEMPERATURE, "66.5 °C"),
        (-0.001, "°C", Kind.TEMPERATURE, "-0.001 °C"),
        (66.667, "°F", Kind.TEMPERATURE, "152 °F"),
        (Range(64, 65, 66), "°C", Kind.TEMPERATURE, "64-66 °C"),
        (Range(-1, 0, 2), "°C", Kind.TEMPERATURE, "-1 to 2 °C"),
        (90, "h min", Kind.TIME, "1 h 30 min"),
        (10080, "weeks", Kind.TIME, "1 week"),
        (20160, "weeks", Kind.TIME, "2 weeks"),
        (525960, "years", Kind.TIME, "1 year"),
        (1.05, "SG", Kind.GRAVITY, "1.050"),
        (Range(1.048, 1.05, 1.052), "SG", Kind.GRAVITY, "1.048-1.052"),
        (1.0501, "°P", Kind.GRAVITY, "12.4 °P"),
        (1.048, "points", Kind.GRAVITY, "48 points"),
        (2.3, "volumes", Kind.CARBONATION, "2.3 volumes"),
        (200, "billion cells", Kind.CELLS, "200 billion cells"),
        (1, "billion cells", Kind.CELLS, "1 billion cells"),
        (5.4, "pH", Kind.PH, "5.4"),
        (2, "", Kind.COUNT, "2"),
        (336 * LB, "quarters of malt", Kind.MASS, "1 quarter of malt"),
        (0.1, "EBC", Kind.MALT_COLOUR, "0 EBC"),
    ],
)
def test_said(value: float | Range, unit: str, kind: Kind, text: str) -> None:
    assert said(value, unit, kind) == text


def test_usual_units_for_messages_and_editors() -> None:
    assert units_of(Kind.MASS) == ("kg", "g", "lb", "oz")
    assert units_of(Kind.DIASTATIC_POWER) == ("°Lintner", "°WK", "°IoB")
    assert units_of(Kind.BOTTLE_RATING) == ("bar", "psi", "volumes")
    assert units_of(Kind.NUMBER) == ()
    assert set(ROWS) | set(EITHER) == set(Kind)


def test_british_and_asked_units_exist() -> None:
    names = {name for _, name in ALL}
    assert names >= IMPERIAL
    assert names.issuperset(ASKED)
    assert {imp for imp, _ in ASKED.values()} <= IMPERIAL
    assert names.issuperset(american for _, american in ASKED.values())


@pytest.mark.parametrize(
    ("unit", "kind", "step"),
    [
        ("kg", Kind.MASS, 0.01),
        ("lb", Kind.MASS, LB / 16),
        ("lb oz", Kind.MASS, LB / 16),
        ("g", Kind.MASS, 0.001),
        ("min", Kind.TIME, 1),
        ("h min", Kind.TIME, 1),
        ("°C", Kind.TEMPERATURE, 0.5),
        ("°F", Kind.TEMPERATURE, 5 / 9),
        ("SG", Kind.GRAVITY, 0.001),
        ("°P", Kind.GRAVITY, 0.0004),
    ],
)
def test_steps(unit: str, kind: Kind, step: float) -> None:
    assert step_of(unit, kind) == pytest.approx(step)


def test_a_unit_of_another_kind_is_refused() -> None:
    with pytest.raises(ValueError, match=r"^'kg' is not a unit of volume$"):
        to_canonical(5, "kg", Kind.VOLUME)
    for refused in (from_canonical, said):
        with pytest.raises(ValueError, match="not a unit"):
            refused(5, "kg", Kind.VOLUME)
    with pytest.raises(ValueError, match="not a unit"):
        step_of("kg", Kind.VOLUME)


@pytest.mark.parametrize(("kind", "name"), ALL)
def test_every_unit_is_found_by_its_own_name(kind: Kind, name: str) -> None:
    unit = find(name, kind)
    assert unit is not None
    assert unit.name == name
    if name:
        again = TABLES[kind].get(unit_key(name))
        assert again is not None, f"{name} has no key {unit_key(name)}"
        assert again.name == name


@pytest.mark.parametrize(("kind", "name"), ALL)
@given(number=st.floats(3, 60))
def test_there_and_back(kind: Kind, name: str, number: float) -> None:
    if (kind, name) == (Kind.GRAVITY, "SG"):
        number = 1 + number / 500
    assert from_canonical(to_canonical(number, name, kind), name, kind) == pytest.approx(number, rel=1e-6)


@given(st.floats(0.0, 40.0))
def test_plato_and_gravity_are_inverse(extract_plato: float) -> None:
    gravity = specific_gravity(extract_plato)
    assert gravity >= 1
    assert plato(gravity) == pytest.approx(extract_plato, abs=0.006)
    if extract_plato > 0.01:
        assert plato(gravity) == pytest.approx(extract_plato, abs=1e-7)


def test_the_ends_of_the_gravity_scale() -> None:
    assert plato(1.0) == 0
    assert specific_gravity(0) == 1
    assert plato(0.998) == pytest.approx(-0.52, abs=0.01)
    assert plato(specific_gravity(-0.5)) == pytest.approx(-0.5, abs=1e-6)
    assert specific_gravity(500) > specific_gravity(80) > specific_gravity(60)
