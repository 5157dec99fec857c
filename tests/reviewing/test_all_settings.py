"""Every setting of every rule is read in each unit that its number can have, and asks for those in place of another."""

import pytest

from mashwright.measures.unit_table import ROWS, Kind
from mashwright.measures.units import from_canonical, to_canonical
from mashwright.reading.document import read_document
from mashwright.recipe.build_brewhouse import build_brewhouse
from mashwright.reviewing.plugins import installed
from mashwright.reviewing.settings import House, house_of
from mashwright.rule import Limit

LIMITS = [(rule.id, key, limit) for rule in installed().rules.values() for key, limit in rule.limits.limits().items()]
NAMES = [f"{rule}:{key}" for rule, key, _ in LIMITS]
OF_ANOTHER_KIND = {"pressure": "60 psi", "temperature": "66 °C"}
SCALES_APART = {
    (Kind.TEMPERATURE_DIFFERENCE, "°F"): (5, 9),
    (Kind.GRAVITY_DIFFERENCE, "°P"): (4, 1),
    (Kind.GRAVITY_DIFFERENCE, "SG"): (4, 0.004),
    (Kind.MALT_COLOUR_DIFFERENCE, "EBC"): (10, 26.5),
    (Kind.BEER_COLOUR_DIFFERENCE, "EBC"): (12.7, 25),
}


def house(rule: str, key: str, text: str) -> House:
    brewhouse, _ = build_brewhouse(read_document(f"brewhouse: Shed\nrules: {{{rule}: {{{key}: {text}}}}}\n"))
    return house_of(brewhouse, installed())


def read(rule: str, limit: Limit, text: str) -> float:
    made = house(rule, limit.key, text)
    assert made.problems == ()
    (values,) = [one.limits.values for one in made.rules if one.rule.id == rule]
    return values[limit.attribute]


def refused(rule: str, limit: Limit, text: str) -> str:
    (problem,) = house(rule, limit.key, text).problems
    assert problem.path == ("rules", rule, limit.key)
    assert problem.rule == "quantity"
    return problem.message


def texts(limit: Limit) -> list[str]:
    """The default in each unit of its kind."""
    kind, unit = limit.declared.kind, limit.declared.name
    names = [row[0][0] for row in ROWS[kind] if row[0][0] not in ("lb oz", "h min", "barrels")]
    canonical = to_canonical(limit.default, unit, kind)
    return [f"{from_canonical(canonical, name, kind)!r} {name}".rstrip() for name in names]


@pytest.mark.parametrize(("rule", "key", "limit"), LIMITS, ids=NAMES)
def test_a_setting_is_read_in_each_unit_of_its_kind(rule: str, key: str, limit: Limit) -> None:
    written = [f"{limit.default:g} {limit.unit}".rstrip(), *texts(limit)]
    for text in written:
        assert read(rule, limit, text) == pytest.approx(limit.default, rel=1e-6, abs=1e-9), text


@pytest.mark.parametrize(("rule", "key", "limit"), LIMITS, ids=NAMES)
def test_another_kind_is_refused_with_the_units_that_will_do(rule: str, key: str, limit: Limit) -> None:
    noun, text = next(
        (noun, text)
        for noun, text in OF_ANOTHER_KIND.items()
        if noun != ("temperature" if limit.declared.kind is Kind.TEMPERATURE_DIFFERENCE else limit.declared.kind)
    )
    message = refused(rule, limit, text)
    assert message.startswith(f'the {key} "{text}" is a {noun} in {text.split()[1]}; write ')
    if limit.declared.kind is Kind.NUMBER:
        assert message.endswith(f"; write a number, for instance {limit.default:g}")
    else:
        assert limit.declared.name in message.partition("; write it in ")[2]


@pytest.mark.parametrize(("rule", "key", "limit"), LIMITS, ids=NAMES)
def test_an_example_that_is_given_can_be_read(rule: str, key: str, limit: Limit) -> None:
    message = refused(rule, limit, "plenty")
    assert read(rule, limit, message.partition("for instance ")[2]) == pytest.approx(limit.default)


def test_no_kind_of_unit_goes_unused() -> None:
    kinds = {limit.declared.kind for _, _, limit in LIMITS}
    assert {kind for kind, _ in SCALES_APART} <= kinds
    assert kinds >= {Kind.FACTOR, Kind.EQUIVALENTS, Kind.EQUIVALENTS_TO_GRAIN, Kind.ALKALINITY, Kind.PRESSURE}


@pytest.mark.parametrize(
    ("rule", "key", "text", "value"),
    [
        ("carbonation", "keg-distance", "1 g/l", 0.50582),
        ("unit-slip", "highest-rating", "290 psi", 19.9948),
        ("step-temperature", "off", "7.2 °F", 4),
        ("step-temperature", "off", "4 K", 4),
        ("sparge", "hottest-bed", "172.4 °F", 78),
        ("hop-rate", "much", "4 oz/gal", 29.957),
        ("pitching-rate", "weak", "1.050", 12.388),
        ("pitching-rate", "weak", "50 points", 12.388),
        ("pitching-rate", "weak", "11", 11),
        ("efficiency", "strong", "1.075", 75),
        ("efficiency", "strong", "80", 80),
        ("style-range", "gravity", "0.001 SG", 1),
        ("wort-strength", "allowed", "4 points", 1),
        ("colour", "black", "60 EBC", 30.48),
        ("colour", "reading", "4 EBC", 2.032),
        ("colour", "paler", "0.5", 0.5),
        ("colour", "paler", "0.5 times", 0.5),
        ("colour", "paler", "0.5 x", 0.5),
        ("unfinished-beer", "equal-days", "48 h", 2),
        ("unfinished-beer", "equal-days", "2", 2),
        ("unit-slip", "longest-cold", "60 months", 5),
        ("sparge", "soft", "4 °dH", 71.392),
        ("mash-ph", "residual", "-10 mEq/l", -10),
        ("mash-ph", "residual", "-500 mg/l", -9.992),
        ("mash-ph", "lowest", "pH 5.3", 5.3),
        ("low-alcohol", "weak", "3 %", 3),
        ("low-alcohol", "weak", "3 % vol", 3),
        ("usual-share", "caramel", "30 % of grist", 30),
        ("boil", "old-before", "1850", 1850),
        ("boil", "shortest", "0.5 h", 30),
    ],
)
def test_what_a_brewer_may_write(rule: str, key: str, text: str, value: float) -> None:
    limit = installed().rules[rule].limits.limits()[key]
    assert read(rule, limit, text) == pytest.approx(value, rel=1e-4)


@pytest.mark.parametrize(
    ("rule", "key", "text", "message"),
    [
        ("carbonation", "keg-distance", "60 psi", "is a pressure in psi; write it in volumes or g/l"),
        (
            "efficiency",
            "strong",
            "60 psi",
            "is a pressure in psi; write it in points, SG or °P, for instance 75 points",
        ),
        ("boil", "old-before", "60 min", "is a time in min; write a number, for instance 1900"),
        ("colour", "paler", "60 min", "is a time in min; write it in times"),
        ("mash-ph", "lowest", "60 min", "is a time in min; write it in pH"),
        ("mash-ph", "lowest", "-5 pH", "is below zero; write 5 pH"),
        ("step-temperature", "off", "4", "has no unit; write 4 °C or 4 °F"),
    ],
)
def test_what_is_said_of_another_kind(rule: str, key: str, text: str, message: str) -> None:
    limit = installed().rules[rule].limits.limits()[key]
    assert refused(rule, limit, text) == f'the {key} "{text}" {message}'


@pytest.mark.parametrize(("scale", "both"), SCALES_APART.items(), ids=str)
def test_a_difference_starts_at_nothing_on_every_scale(scale: tuple[Kind, str], both: tuple[float, float]) -> None:
    kind, unit = scale
    here, there = both
    assert to_canonical(there, unit, kind) == pytest.approx(here)
    assert to_canonical(0, unit, kind) == 0
