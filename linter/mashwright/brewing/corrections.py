"""What to do when the wort before the boil is not as planned: boil on, add water, or add malt extract.

A balance of extract: boiling drives off water alone. Volumes at 20 °C.
"""

from typing import NamedTuple

from mashwright.brewing.gravity import extract_kg, gravity_of

DRY_EXTRACT = 0.95
"""kg of extract in a kg of dry malt extract; common practice, 3 to 5 % of it is water."""


_DIGITS = 9  # decimals of a litre; what lies behind them is left of the halving


class Correction(NamedTuple):
    """One way to get what was planned.

    Attributes:
        boil_min: minutes to boil longer than planned; below 0 shorter.
        left_l: what is then left after the boil, l.
        water_l: water to add in place of that, so that the volume is as planned and the gravity too; 0 for none.
        dry_extract_kg: dry malt extract to add in place of that; 0 for none.
    """

    boil_min: float
    left_l: float
    water_l: float
    dry_extract_kg: float


def correction(
    before_l: float, before_sg: float, after_l: float, after_sg: float, boil_off_l_per_h: float
) -> Correction:
    """What to do with a wort that was measured before the boil.

    Args:
        before_l, before_sg: as measured, at 20 °C; above 0 l and above 1.
        after_l, after_sg: as planned after the boil; above 0 l and above 1.
        boil_off_l_per_h: water that boils away in an hour; above 0.

    Returns:
        The minutes are counted beside a boil that ends at ``after_l``.
    """
    there, wanted = extract_kg(before_l, before_sg), extract_kg(after_l, after_sg)
    left_l = _litres_at(there, after_sg)
    left_l = round(left_l, _DIGITS)
    boil_min = 60 * (after_l - left_l) / boil_off_l_per_h
    if there >= wanted:
        return Correction(boil_min, left_l, max(left_l - after_l, 0.0), 0.0)
    return Correction(boil_min, left_l, 0.0, (wanted - there) / DRY_EXTRACT)


def _litres_at(extract: float, sg: float) -> float:
    """The litres in which so much extract has a gravity."""
    low, high = 1e-6, 1e9  # litres; halved by their ratio
    for _ in range(200):
        middle = float((low * high) ** 0.5)
        low, high = (middle, high) if gravity_of(extract, middle) > sg else (low, middle)
    return float((low * high) ** 0.5)
