"""Acids: how much of an acid's strength arrives at the pH of a mash."""

from typing import NamedTuple

from mashwright.measures.range import Range

MASH_PH = 5.4
"""Where acids are reckoned; the middle of the wanted band [palmer-15]."""


class Acid(NamedTuple):
    """An acid.

    Attributes:
        g_mol: molar mass.
        pkas: of its steps, at 25 °C; from memory.
        density: coefficients a, b of 0.998 + a p + b p² in kg/l with p in % by weight; fit to two tabled densities
            from memory, within 0.01 of them. None where it is weighed.
        percents: strengths at which it is sold, % by weight, where a recipe does not say.
    """

    g_mol: float
    pkas: tuple[float, ...]
    density: tuple[float, float] | None
    percents: Range


ACIDS = {
    # 88 % lactic acid has 1.206 kg/l
    "lactic acid": Acid(90.08, (3.86,), (0.002364, 0.0), Range(80, 80, 88)),
    # 10 % phosphoric acid has 1.053 kg/l and 85 % has 1.685
    "phosphoric acid": Acid(97.99, (2.15, 7.20, 12.35), (0.005156, 3.443e-5), Range(10, 10, 85)),
    # 10 % hydrochloric acid has 1.048 kg/l and 37 % has 1.18
    "hydrochloric acid": Acid(36.46, (-6.0,), (0.00503, -3.0e-6), Range(10, 10, 37)),
    # 10 % sulfuric acid has 1.066 kg/l and 96 % has 1.84
    "sulfuric acid": Acid(98.08, (-3.0, 1.99), (0.00656, 2.3e-5), Range(10, 10, 98)),
    "citric acid": Acid(192.12, (3.13, 4.76, 6.40), None, Range.exact(100)),
    "tartaric acid": Acid(150.09, (2.98, 4.34), None, Range.exact(100)),
    "malic acid": Acid(134.09, (3.40, 5.20), None, Range.exact(100)),
}

CARBONIC_PK1 = 6.38  # from memory


def equivalents_per_mol(pkas: tuple[float, ...], ph: float) -> float:
    """Protons that one molecule of an acid has given off at some pH, on average.

    Args:
        pkas: of its steps, rising.
        ph: 0-14.

    Source: law of mass action.
    """
    weight, total, given = 1.0, 1.0, 0.0
    for step, pka in enumerate(pkas, 1):
        weight *= 10 ** (ph - pka)
        total += weight
        given += step * weight
    return given / total


def share_given(name: str, ph: float) -> float:
    """What an acid delivers where a mash ends, as a share of what it does at MASH_PH.

    Raises:
        KeyError: no such acid.

    Source: as ``equivalents_per_mol``.
    """
    pkas = ACIDS[name].pkas
    return equivalents_per_mol(pkas, ph) / equivalents_per_mol(pkas, MASH_PH)


def density_kg_l(name: str, percent: float) -> float:
    """Density of an acid of some strength, kg/l at 20 °C, within 0.01.

    Raises:
        KeyError: no such acid.
        ValueError: it is not sold as a liquid.

    Source: [from-memory].
    """
    coefficients = ACIDS[name].density
    if coefficients is None:
        raise ValueError(f"{name} is weighed")
    linear, square = coefficients
    return 0.998 + linear * percent + square * percent * percent


def meq_per_g(name: str, percent: float, ph: float = MASH_PH) -> float:
    """Acid that 1 g delivers in a mash, mEq.

    Args:
        name: a key of ``ACIDS``.
        percent: strength by weight, 0-100.
        ph: where it ends.

    Raises:
        KeyError: no such acid.

    Source: molar mass and dissociation.
    """
    acid = ACIDS[name]
    return 10 * percent / acid.g_mol * equivalents_per_mol(acid.pkas, ph)


def meq_per_ml(name: str, percent: float, ph: float = MASH_PH) -> float:
    """Acid that 1 ml delivers in a mash, mEq; otherwise as ``meq_per_g``. Source: as there, and density."""
    return meq_per_g(name, percent, ph) * density_kg_l(name, percent)


def carbonate_share_removed(ph: float) -> float:
    """Share of the alkalinity that acid has turned to carbonic acid at some pH, 0-1. Source: law of mass action."""
    return 1 / (1 + 10 ** (ph - CARBONIC_PK1))
