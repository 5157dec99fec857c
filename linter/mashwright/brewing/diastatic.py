"""Degrees of diastatic power."""


def wk_of_lintner(power_lintner: float) -> float:
    """°Windisch-Kolbach of a power in °Lintner, never below 0.

    Source: [windisch-kolbach-unit], °WK = 3.5 × °Lintner - 16. A second rule in print, °Lintner = 0.3 × °WK + 4, is
    not used: it is 3 °Lintner off at 250 °WK.
    """
    return max(0.0, 3.5 * power_lintner - 16)


def lintner_of_wk(power_wk: float) -> float:
    """°Lintner of a power in °Windisch-Kolbach; 0 for malt without any.

    Source: [windisch-kolbach-unit]; the line does not pass through 0, so that malt whose analysis reads 0 is left at 0.
    """
    return (power_wk + 16) / 3.5 if power_wk > 0 else 0.0
