"""Mash pH of a cooled sample: what the grist gives in distilled water, and what water and acid make of it.

Rough by nature: two malts of one name differ by 0.1, so the result is a band, +-0.15 at best.
"""

from collections.abc import Callable, Iterable
from math import hypot
from typing import NamedTuple

from mashwright.measures.range import Range

_SOUREST, _SWEETEST = 2.5, 11.0  # where no straight line through a malt's buffer leads any more; judgement
BAND_PH = 0.15
"""Half of the narrowest band. Source: [judgement]; no measured spread of this model was found."""


class Grain(NamedTuple):
    """What a grain does to the pH of a mash by itself.

    Attributes:
        ph: of its own mash in distilled water, cooled.
        buffer: mEq that move the pH of 1 kg of it by 1.
    """

    ph: Range
    buffer: Range


_BASE_BUFFER = Range(30, 38, 45)  # titrations, [from-memory]
_ROAST_BUFFER = Range(45, 60, 85)  # [judgement], fit so that the band of a fifth of dark malt holds 0.5 [mash-ph-page]
_RAW_BUFFER = Range(10, 20, 30)  # [judgement]: little phosphate is dissolved yet


def grain_of(kind: str, cereal: str, lovibond: float) -> Grain:
    """A grain by its kind, cereal and colour.

    Args:
        kind: of the tables, such as ``base malt``.
        cereal: ``barley``, ``wheat`` and so on.
        lovibond: colour, °Lovibond.

    Source: base malt 5.7-5.8, caramel 4.5-4.8, roast 4.0-4.5 [mash-ph-page]; pale malt to 6.0 [briggs-2004]; Munich
    5.4-5.5, wheat about 6.0, roast 4.6-4.8 [from-memory]; the lines between by colour [judgement].
    """
    if kind == "caramel malt":
        ph = max(4.55, 5.2 - 0.006 * lovibond)
        return Grain(Range(min(4.5, ph), ph, ph + 0.2), _ROAST_BUFFER)
    if kind == "roasted malt":
        return Grain(Range(4.1, 4.5, 4.8), _ROAST_BUFFER)
    if kind in ("base malt", "kilned malt", "acidulated malt"):
        # 5.76 at the colour of Pilsner malt, 5.5 at that of light Munich, never below that of brown malt
        ph = max(4.9, 5.77 - 0.035 * max(0.0, (2.2 if kind == "acidulated malt" else lovibond) - 1.7))
        return Grain(Range(ph - 0.1, ph, ph + 0.15), _BASE_BUFFER)
    if kind == "malted adjunct grain":
        ph = 5.9 if cereal in ("wheat", "rye", "spelt") else 5.8
        return Grain(Range(ph - 0.15, ph, ph + 0.15), _BASE_BUFFER)
    return Grain(Range(5.7, 5.95, 6.2), _RAW_BUFFER)


def distilled_water_ph(grains: Iterable[tuple[Grain, float]]) -> Range:
    """Mash pH of several grains in distilled water: their mean by what each buffers.

    Args:
        grains: each with its weight, kg; together above 0.

    Raises:
        ValueError: there is none.

    Source: [delange-2015], proton balance with straight lines for the curves of each malt.
    """
    parts = list(grains)
    if sum(weight for _, weight in parts) <= 0:
        raise ValueError("no grain, no pH")
    base = 5.7

    def mean(end: str) -> float:
        top = bottom = 0.0
        for grain, weight in parts:
            ph = getattr(grain.ph, end)
            # at the acid end what is acid buffers most, at the other end least
            towards = {"low": "high", "high": "low"} if ph < base else {"low": "low", "high": "high"}
            buffer = weight * getattr(grain.buffer, towards.get(end, "typical"))
            top += buffer * ph
            bottom += buffer
        return float(top / bottom)

    low, typical, high = mean("low"), mean("typical"), mean("high")
    return Range(min(low, typical), typical, max(high, typical))


def slope_ph_per_meq_l(liquor_to_grist: float) -> Range:
    """How far 1 mEq/l of residual alkalinity moves the pH; a thin mash more than a thick one.

    Args:
        liquor_to_grist: l/kg, above 0.

    Source: [troester-mash-ph], slope 0.013 R + 0.013 [from-memory]; the high end by the buffer of base malt.
    """
    measured = 0.013 * liquor_to_grist + 0.013
    return Range(0.8 * measured, measured, max(measured, liquor_to_grist / _BASE_BUFFER.typical))


ACID_BUFFER_MEQ = Range(30, 42, 60)
"""mEq of acid that lower 1 kg of grist by 1 pH. Source: titrations of base malt 30-45 [from-memory]; up to 60 by the
slope of [troester-mash-ph]."""


def acid_buffer_meq(grains: Iterable[tuple[Grain, float]]) -> Range:
    """Acid that lowers 1 kg of a grist by 1 pH, mEq: its grains by weight.

    Args:
        grains: each with its weight, kg; together above 0.

    Raises:
        ValueError: there is none.

    Source: buffers of the grains as beside ``grain_of``; all base malt gives ACID_BUFFER_MEQ.
    """
    parts = list(grains)
    if sum(weight for _, weight in parts) <= 0:
        raise ValueError("no grain, no buffer")
    mean = Range.weighted_mean([(grain.buffer, weight) for grain, weight in parts])
    # in a mash malt meets acid with more than its titration says, by the slope of [troester-mash-ph]
    return Range(
        mean.low * ACID_BUFFER_MEQ.low / _BASE_BUFFER.low,
        mean.typical * ACID_BUFFER_MEQ.typical / _BASE_BUFFER.typical,
        mean.high * ACID_BUFFER_MEQ.high / _BASE_BUFFER.high,
    )


def ph_with_acid(start_ph: float, buffer_meq: float, meq_per_kg: Callable[[float], float]) -> float:
    """Where acid brings a mash: a weak acid gives off the less, the sourer the mash has become.

    Args:
        start_ph: without the acid.
        buffer_meq: mEq that move 1 kg by 1 pH, above 0.
        meq_per_kg: what the acid delivers at some pH to 1 kg of grist; not less at a higher pH.

    Source: proton balance, a straight line for the malt as in ``distilled_water_ph``.
    """
    low, high = start_ph - meq_per_kg(start_ph) / buffer_meq, start_ph
    for _ in range(_HALVINGS):
        middle = (low + high) / 2
        if (start_ph - middle) * buffer_meq > meq_per_kg(middle):
            low = middle
        else:
            high = middle
    return (low + high) / 2


_HALVINGS = 30  # to a millionth of a pH

ACIDULATED_PH_PER_PERCENT = Range(0.07, 0.1, 0.12)
"""How far 1 % of acidulated malt lowers a mash. Source: [oxford-acidulated] 0.1; the ends [judgement]."""


class Shift(NamedTuple):
    """What moves the pH, and how far."""

    what: str
    ph: Range


def mash_ph_band(distilled: Range, shifts: Iterable[Shift]) -> Range:
    """The pH of the mash as a band: shifts added up, what is not known combined in quadrature with BAND_PH.

    Args:
        distilled: as ``distilled_water_ph`` gives it.
        shifts: each with its own range, below 0 for acid.

    Returns:
        pH of a cooled sample, held to 2.5-11, where the straight lines end at the latest; on each side of the middle
        at least BAND_PH wide, there too.
    """
    moved = list(shifts)
    typical = distilled.typical + sum(shift.ph.typical for shift in moved)
    terms = (distilled, *(shift.ph for shift in moved))
    down = hypot(BAND_PH, *(term.typical - term.low for term in terms))
    up = hypot(BAND_PH, *(term.high - term.typical for term in terms))
    middle = min(max(typical, _SOUREST + BAND_PH), _SWEETEST - BAND_PH)
    return Range(max(_SOUREST, middle - down), middle, min(_SWEETEST, middle + up))
