"""Which gas lies on the beer: read, or asked about with both ways out."""

import pytest

from mashwright.measures.gas import co2_percent
from mashwright.measures.quantity import QuantityError


@pytest.mark.parametrize(
    ("text", "percent"),
    [
        ("CO2", 100),
        ("co2", 100),
        ("CO₂", 100),
        ("pure CO2", 100),
        ("carbon dioxide", 100),
        ("100 % CO2", 100),
        ("nitrogen", 0),
        ("N2", 0),
        ("30 % CO2", 30),
        ("30% CO2", 30),
        ("30 CO2", 30),
        ("30 % of CO2", 30),
        ("30 percent carbon dioxide", 30),
        ("70 % nitrogen", 30),
        ("75% N2", 25),
        ("30 % CO2, 70 % N2", 30),
        ("30 % CO2 and 70 % nitrogen", 30),
        ("30% CO2/70% N2", 30),
        ("70 % N2 + 30 % CO2", 30),
        ("62.5 % CO2", 62.5),
    ],
)
def test_what_is_read(text: str, percent: float) -> None:
    assert co2_percent(text) == percent


@pytest.mark.parametrize(
    ("text", "asked"),
    [
        ("70/30", "does not say which part is CO2; write 70 % CO2 or 30 % CO2"),
        ("30/70", "does not say which part is CO2; write 30 % CO2 or 70 % CO2"),
        ("mixed gas 70/30", "does not say which part is CO2; write 70 % CO2 or 30 % CO2"),
        ("30 %", "does not say which part is CO2; write 30 % CO2 or 70 % CO2"),
        ("beer gas", "does not say how much of it is CO2; write for instance 30 % CO2, or CO2 where it is pure"),
        ("nitro", "does not say how much of it is CO2; write for instance 30 % CO2, or CO2 where it is pure"),
        ("air", "does not say how much of it is CO2; write for instance 30 % CO2, or CO2 where it is pure"),
        ("130 % CO2", "is more than all of the gas; write for instance 30 % CO2"),
        ("30 % CO2, 60 % N2", "does not add up to 100 % of CO2 and nitrogen; write for instance 30 % CO2"),
        ("30 % CO2, 70 % CO2", "does not add up to 100 % of CO2 and nitrogen; write for instance 30 % CO2"),
    ],
)
def test_what_is_asked_about(text: str, asked: str) -> None:
    with pytest.raises(QuantityError) as error:
        co2_percent(text)
    assert error.value.message == f'the gas "{text}" {asked}'
