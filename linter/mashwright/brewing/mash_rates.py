"""The rates of a mash: what heat releases, what enzymes convert, how long they last.

Its numbers are few, and each says where it comes from: a fit to published trials, common practice, or our judgement.
A mash is mostly water, so a temperature below freezing or above boiling is taken as freezing or boiling.
"""

from math import erf, exp, exp2, sqrt

from msgspec import Struct

from mashwright.measures.bounds import ENZYMES_END_C
from mashwright.measures.constants import ICE_K

_SPENT_C = ENZYMES_END_C.usual

GELATINISATION_C: dict[str, tuple[float, float]] = {
    # mean and spread of the temperature at which a cereal's starch gives way; fitted, with what follows slowly, to 20
    # rows of 4 h trials with kilned-malt extract [lintner-1890] [paccaud-1890]
    "barley": (54.4, 3.66),
    "wheat": (53.7, 3.66),
    "rye": (53.05, 3.66),
    "oat": (55.05, 3.66),
    "maize": (63.3, 3.66),
    "rice": (71.7, 14.5),
    "potato": (59.7, 3.15),
    # judgement: near kin, or measured ranges that lie close to the grain which stands for them
    "spelt": (53.7, 3.66),
    "einkorn": (53.7, 3.66),
    "emmer": (53.7, 3.66),
    "triticale": (53.7, 3.66),
    "sorghum": (63.3, 3.66),
    "millet": (63.3, 3.66),
    "teff": (63.3, 3.66),
    "fonio": (63.3, 3.66),
    "buckwheat": (63.3, 3.66),
    "quinoa": (63.3, 3.66),
    "amaranth": (63.3, 3.66),
}
ADDED_LINTNER = 40.0  # what an added enzyme counts for in its own heat; judgement, see added_rate_per_min
# They gelatinise hotter than malt; what cooks them is a cereal mash.
LATE_CEREALS = frozenset(name for name, (mean_c, _) in GELATINISATION_C.items() if mean_c > 60)
# How fast water and enzymes get into grits and coarse meal, relative to malt of the same crush: judgement, so that an
# hour and more at 65-67 °C gives a third to a half of the starch of raw maize grits, as is remembered.
STONY = 0.1
RELEASABLE = 0.962  # of the starch of raw or malted grain, however hot; same fit
RELEASABLE_COOKED = 0.97  # of flaked, torrefied or cooked grain, at any temperature; judgement
# Where enzymes are taken to work at all: down to ice, slower and slower, and up to 5 °C above a mash at 80 °C that gave
# a beer [chandrasekhar]; both bounds judgement, see conversion_rate_per_min.
COLDEST_CONVERTING_C = 0.0
HOTTEST_CONVERTING_C = 85.0


class Conditions(Struct, frozen=True, gc=False):
    """What no recipe says about a mash.

    Attributes:
        theta: minutes in which a mash of 40 °Lintner at 67 °C converts what has been released.
        shift_c: by how many °C a thick mash delays gelatinisation; below 0 where the malt gelatinises early.
        crush: fineness of the grind; 1 laboratory, 0.5 home mill, 0.25 coarse.
    """

    theta: float
    shift_c: float
    crush: float


# theta fitted to the times of a malt standard [tgl-17756] and to 60 min at 40 °Lintner (common practice); shift half of
# what was measured for the strength of the wort [de-schepper-courtin-2022], judgement, and at the favourable end a malt
# that gelatinises early: 0.8 °C of the 1.3 by which samples lay from their middle [rittenauer-2021], judgement; crush
# common practice
FAVOURABLE = Conditions(theta=20, shift_c=-0.8, crush=1)
TYPICAL = Conditions(theta=30, shift_c=2, crush=0.5)
TRADE = Conditions(theta=45, shift_c=2, crush=0.5)
UNFAVOURABLE = Conditions(theta=45, shift_c=4, crush=0.25)


def thickness_shift_c(litres_per_kg: float) -> float:
    """By how many °C a mash of some thickness delays gelatinisation: 0.3 at 6 l/kg, 2 at 3, 2.7 at 2.5.

    Args:
        litres_per_kg: water to grain, above 0.

    Source: 1 °C for 2.5 g of extract in 100 g of wort [de-schepper-courtin-2022], half of it taken, judgement, around
    the 2 °C of a usual mash; 0.8 kg of extract in a kg of malt, common practice.
    """
    wort_percent = 80 / (litres_per_kg + 0.8)
    return max(0.0, TYPICAL.shift_c + 0.5 * (wort_percent - 80 / 3.8) / 2.5)


def gelatinised_share(cereal: str, temperature_c: float, shift_c: float = 0) -> float:
    """Share of a raw or malted cereal's starch that a temperature can release at once, 0-0.962; more follows slowly.

    Args:
        cereal: a key of GELATINISATION_C; malted grain goes by its raw grain, since malting does not help it here.
        temperature_c: of the mash, °C.
        shift_c: delay as in Conditions, -0.8 to 4 °C.

    Raises:
        ValueError: no such cereal.

    Source: a normal distribution over temperature [potter-coulter]; its numbers fitted to [lintner-1890] and
    [paccaud-1890], residuals -1.9 to +2.6 points of per cent.
    """
    try:
        mean_c, spread_c = GELATINISATION_C[cereal]
    except KeyError:
        raise ValueError(f"no gelatinisation temperature is known for {cereal!r}") from None
    return RELEASABLE * 0.5 * (1 + erf((_in_water(temperature_c) - shift_c - mean_c) / (spread_c * sqrt(2))))


def release_rate_per_min(temperature_c: float, crush: float, *, cooked: bool = False, stony: bool = False) -> float:
    """How fast starch that can be released is released, 1/min.

    Args:
        temperature_c: of the mash, °C.
        crush: as in Conditions, above 0.
        cooked: flaked, torrefied or cooked grain, as quick at any temperature as raw grain is at 65 °C.
        stony: raw grits or coarse meal of a cereal that gelatinises late.

    Source: 0.35 at 65 °C, doubling each 6 °C, and the rule for cooked grain: judgement, in line with [rittenauer-2021].
    """
    temperature_c = _in_water(temperature_c)
    if cooked:
        temperature_c = max(temperature_c, 65.0)
    return 0.35 * crush * (STONY if stony else 1) * exp2((temperature_c - 65) / 6)


def slow_release_rate_per_min(cereal: str, temperature_c: float, shift_c: float = 0, *, stony: bool = False) -> float:
    """How fast what a temperature does not release at once is released in the end, 1/min.

    Args:
        cereal, temperature_c, shift_c: as of gelatinised_share.
        stony: as of release_rate_per_min.

    Source: half a per cent an hour at the cereal's mean temperature, doubling each 2 °C, so that a mash at 60 °C gives
    its extract in a night, as it did [schultze-1878], and the 4 h trials are met as before; judgement between the two.
    """
    mean_c, _ = GELATINISATION_C[cereal]
    return 0.005 / 60 * (STONY if stony else 1) * exp2((_in_water(temperature_c) - shift_c - mean_c) / 2)


def enzyme_loss_per_min(temperature_c: float) -> float:
    """Rate at which heat spends the starch-splitting enzymes, 1/min.

    It is the loss of what still liquefies starch at 73 °C, so it stands for alpha-amylase; for the other one see
    beta_amylase_loss_per_min.

    Source: fitted to malt extract at 73 °C [kjeldahl-1880]; its activation energy, 224 kJ/mol, from memory.
    """
    return 0.029 * exp(-26967 * (1 / (_in_water(temperature_c) + ICE_K) - 1 / 346.15))


def beta_amylase_loss_per_min(temperature_c: float) -> float:
    """Rate at which heat spends beta-amylase, which makes most of the sugar, 1/min: half of it in 14 min at 65 °C.

    In plain water it is lost sooner, half in 20 min at 55 °C [lintner-1888]; strong sugar saves nearly all of it
    [maltose-effects-2016].

    Source: 0.05 at 65 °C, between 0.041 in malt extract [kjeldahl-1880] and 50, 17, 8 % left after 10, 30, 60 min in a
    mash [muller-1991]; activation energy 300 kJ/mol, so that it lasts 1-3 min at 72 °C, from memory.
    """
    return 0.05 * exp(-36083 * (1 / (_in_water(temperature_c) + ICE_K) - 1 / 338.15))


def converting_power(power_lintner: float) -> float:
    """What a malt's diastatic power counts for when a mash converts, °Lintner; 0 or more.

    Diastatic power is mostly beta-amylase, which the kiln spends first; what liquefies starch is spent later. So a malt
    weaker than the least Pilsner malt of a standard converts sooner than its power says: with the 0.6th power of it.
    What dilutes a malt dilutes all of its enzymes alike [kjeldahl-1880], so this is asked of each malt and not of the
    average of a grist.

    Source: the exponent fitted to 25 min for Munich malt of 27 °Lintner, beside 10-15 for Pilsner malt of 62
    [tgl-17756].
    """
    if power_lintner >= _PILSNER_LINTNER:
        return power_lintner
    counts: float = _PILSNER_LINTNER * (max(power_lintner, 0.0) / _PILSNER_LINTNER) ** 0.6
    return counts


_PILSNER_LINTNER = 62.0  # 200 °WK, the least of Pilsner malt [tgl-17756]


def conversion_rate_per_min(temperature_c: float, power_lintner: float, theta: float) -> float:
    """How fast fresh enzyme turns released starch to sugar, 1/min.

    It doubles each 10 °C up to 75 °C, where it levels off, and is 0 outside 0-85 °C. Diastatic power itself is
    measured at 20 °C [degree-lintner]; that it goes on halving below is our judgement. The hottest mash that was seen
    to give a beer was at 80 °C [chandrasekhar], 5 °C more allows for thermometers and uneven tuns, and above that half
    of the enzyme is gone in less than two minutes.

    Args:
        temperature_c: of the mash, °C.
        power_lintner: average, of all that enters the mash, of what each counts for (converting_power), 0 or more.
        theta: as in Conditions, above 0.

    Source: in proportion to the enzyme [kjeldahl-1880]; doubling each 10 °C common practice.
    """
    if not COLDEST_CONVERTING_C <= temperature_c <= HOTTEST_CONVERTING_C:
        return 0.0
    return 3 / theta * (power_lintner / 40) * exp2((min(temperature_c, _SPENT_C) - 67) / 10)


def added_rate_per_min(temperature_c: float, theta: float) -> float:
    """How fast one added enzyme turns released starch to sugar where it works, 1/min.

    Source: judgement: the maker's dose does what a mash of 40 °Lintner does without waiting; doubling each 10 °C up to
    75 °C as malt's enzymes do.
    """
    return 3 / theta * (ADDED_LINTNER / 40) * exp2((min(temperature_c, _SPENT_C) - 67) / 10)


def minutes_on_the_board(temperature_c: float, power_lintner: float, conditions: Conditions) -> float | None:
    """Minutes to the end of conversion in one rest, by a sum that fits on a board; None where nothing converts.

    power_lintner is as of conversion_rate_per_min. Release and conversion, each to 95 %, are counted one after the
    other, and enzyme loss is left out: an estimate to show beside the minute-by-minute model. Within 10 min of that for
    30-125 °Lintner at 66-68 °C; short by a quarter of an hour at 20.
    """
    rate = conversion_rate_per_min(temperature_c, power_lintner, conditions.theta)
    if rate <= 0:
        return None
    return 3 / release_rate_per_min(temperature_c, conditions.crush) + 3 / rate


def _in_water(temperature_c: float) -> float:
    return min(max(temperature_c, 0.0), 100.0)
