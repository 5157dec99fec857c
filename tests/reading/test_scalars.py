"""Plain values by the YAML 1.2 core schema, and what YAML 1.1 would have made of others."""

import math

import pytest

from mashwright.reading.scalars import core_value, is_finite


@pytest.mark.parametrize(
    ("text", "value"),
    [
        ("", None),
        ("~", None),
        ("null", None),
        ("NULL", None),
        ("true", True),
        ("True", True),
        ("FALSE", False),
        ("0", 0),
        ("0o7", 7),
        ("0x3A", 58),
        ("-19", -19),
        ("+12", 12),
        ("007", 7),
        ("0.", 0.0),
        ("-0.0", -0.0),
        (".5", 0.5),
        ("+12e03", 12000.0),
        ("-2E+05", -200000.0),
        (".inf", math.inf),
        ("-.Inf", -math.inf),
        ("+.INF", math.inf),
    ],
)
def test_numbers_and_words_of_the_core_schema(text: str, value: object) -> None:
    """YAML Ain't Markup Language 1.2.2 (2021), section 10.3.2."""
    read = core_value(text)
    assert (read, type(read)) == (value, type(value))


@pytest.mark.parametrize("text", [".nan", ".NaN", ".NAN"])
def test_what_is_not_a_number(text: str) -> None:
    assert math.isnan(core_value(text))  # type: ignore[arg-type]
    assert not is_finite(core_value(text))


@pytest.mark.parametrize(
    "text",
    [
        *("yes", "no", "on", "off", "y", "n", "Null ", "nULL", "tRUE"),
        *("2027-12-31", "1_000", "12:30", "1,5", "1.2.3", "0b101", "0o8", "0xG", "1e", "e5", "."),
        *("+", "-", "--1", "+.nan", "inf", "nan", "½", "٣", "1 kg", "=", "<<"),
    ],
)
def test_everything_else_is_text(text: str) -> None:
    assert core_value(text) == text


def test_numbers_past_all_bounds_are_read_without_trouble() -> None:
    assert core_value("9" * 250) == int("9" * 250)
    assert not is_finite(core_value("9" * 5000))
    assert not is_finite(core_value("1e999"))
    assert is_finite("1e999")
    assert is_finite(core_value("1e-999"))
