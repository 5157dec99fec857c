"""Specific gravity and degrees Plato: one scale in two spellings."""


def plato(gravity_sg: float) -> float:
    """Degrees Plato (Brix, Balling) of a specific gravity.

    Args:
        gravity_sg: apparent specific gravity 20 °C/20 °C, 1.000-1.179; below 1 (finished beer) the curve is
            followed on.

    Returns:
        °P; negative below 1.000, 0 at 1.000.

    Source: cubic fitted to the NBS C440 sucrose table, rms 0.0009 °Bx, as printed in the open encyclopaedia's
        article on Brix.
    """
    found = ((182.4601 * gravity_sg - 775.6821) * gravity_sg + 1262.7794) * gravity_sg - 669.5622
    return 0.0 if found < 0 and gravity_sg >= 1 else found  # the fit misses water itself by 0.005 °Bx


def specific_gravity(extract_plato: float) -> float:
    """Specific gravity 20 °C/20 °C of a wort of so many degrees Plato: the inverse of `plato`.

    Args:
        extract_plato: °P, 0-40 by the table behind the cubic; the curve rises everywhere, so others are followed on.

    Returns:
        SG, 1 at 0 °P.
    """
    if not extract_plato:
        return 1.0
    gravity = 1 + extract_plato / (258.6 - 0.8796 * extract_plato) if extract_plato < 100 else 1.5
    for _ in range(4):  # Newton; from this start two steps reach 1e-9 up to 40 °P
        value = ((182.4601 * gravity - 775.6821) * gravity + 1262.7794) * gravity - 669.5622 - extract_plato
        slope = (547.3803 * gravity - 1551.3642) * gravity + 1262.7794
        gravity -= value / slope
    return max(gravity, 1.0) if extract_plato >= 0 else min(gravity, 1.0)
