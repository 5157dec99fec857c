"""Does the pH of the mash suit its enzymes and the taste of the beer?

Between pH 5.2 and 5.6, in a cooled sample, starch turns to sugar fastest and
the wort runs clear. The husks give little harshness. Pale malt in alkaline
water stays above that. Much dark malt in soft water, or too much acid, goes
below. The hot mash reads about 0.35 lower than the same sample cooled.

What is checked: the pH that the grist gives in distilled water, by kind,
colour and buffer of each grain. The residual alkalinity of water and salts
moves it, more in a thin mash than in a thick one. Acids and acidulated malt
lower it, as far as they dissociate at the pH that results. Two malts of one
name differ by 0.1. So this is a band, 0.15 either way at best, and never an
error.

- warning: the whole band is outside pH 5.2-5.8
- note: the middle of the band is more than 0.1 outside
- only the brewhouse states the water: only a note, if the whole band is
  outside
- a pH too high, with at least 0.1 of it from baking soda, washing soda, chalk
  or lime: the message names them. Less or none is offered before acid.
- skipped: nothing is known of the water, or nothing in the mash has enzymes
- skipped: a pH too low in a sour beer, or with over 10 % acidulated malt (see
  acidulated-malt)
- skipped: the amount of acid or calcium is in doubt: above 80 mEq of acid to
  a kg of grain (see salts), or residual alkalinity below -8 mEq/l

If the recipe states a pH, it counts as measured or meant:

- warning: it is below 5.0 or above 6.0
- note: it is below 5.2 or above 5.8. A low one may be a hot reading.
- note: grist and water give a band that ends more than 0.15 away from it
- skipped: too low in a sour beer, or with over 10 % acidulated malt

On the day: after 10 min cool a spoon of mash to room temperature and measure.
Add acid a millilitre at a time. Strong acid burns: goggles and gloves, and
acid into water, never water into acid.

Sources: [palmer-15] 5.2-5.6, [troester-ph-control] 5.0-6.0, [briggs-2004] hot
and cooled, [troester-mash-ph] [mash-ph-page] [delange-2015]
[oxford-acidulated], [from-memory] and [judgement] the malts, 5.8 and the
width of the band
"""

from collections.abc import Iterator

from mashwright.brew import Brew, number, told
from mashwright.figures.figure import Figure
from mashwright.figures.grist import acidulated_share
from mashwright.figures.water import acid_meq, liquor, mash_ph, residual_alkalinity, tap_water
from mashwright.knobs import Knob
from mashwright.measures import Kind, Quantity, Range
from mashwright.measures.constants import CACO3_MG_PER_MEQ
from mashwright.rule import Example, Finding, Level, Limit, Path, Say, Settings, Unknown, above, below, gap, row, say
from mashwright.words.sentences import Measure
from mashwright_rules.water.mash_ph._changes import less_acid, less_lift, lifting_salts, more_acid, named


class Limits(Settings):
    lowest_ph = Limit(5.2, "pH", low=4.5, high=5.5, source="palmer-15")
    highest_ph = Limit(5.8, "pH", low=5.5, high=6.5, source="judgement")
    stated_lowest_ph = Limit(5.0, "pH", low=4.0, high=5.4, source="troester-ph-control")
    stated_highest_ph = Limit(6.0, "pH", low=5.6, high=7.0, source="troester-ph-control")
    doubt_ph = Limit(0.1, "pH", low=0, high=1, source="judgement")
    apart_ph = Limit(0.15, "pH", low=0.05, high=1, source="judgement")
    acid_meq_per_kg = Limit(80, "mEq/kg", low=20, high=200, source="judgement")
    lifted_ph = Limit(0.1, "pH", low=0.01, high=1, source="judgement")
    residual_meq_per_l = Limit(-8, "mEq/l", kind=Kind.ALKALINITY, low=-20, high=0, source="judgement")
    acidulated_percent = Limit(10, "%", low=2, high=100, source="oxford-acidulated")


SAYS = {
    "comes-to": "mash pH is about {ph} ({low} to {high})",
    "by-salts": ", {part} of it from {salts}",
    "too-high": "above {most} the starch converts slowly and the husks give a harsh taste",
    "too-low": "below {least} the enzymes slow down and the beer may taste sharp",
    "stated-high": "a mash pH of {ph} is above {most}; the starch converts slowly and the husks give a harsh taste",
    "stated-low": "a mash pH of {ph} is below {least}",
    "hot-reading": "is it a reading in the hot mash, which is about 0.35 below that of a cooled sample?",
    "elsewhere": "grist and water give a pH of about {ph} ({low} to {high})",
    "takes-less-acid": "{stated} needs less acid, or chalk or baking soda that the recipe does not state",
    "takes-less-salts": "{stated} needs less than {salts}",
    "takes-acid": "{stated} needs acid or acidulated malt that the recipe does not state",
}


def check(brew: Brew, limits: Limits) -> Iterator[Finding]:
    mash = brew.recipe.mash
    stated = mash.ph
    if mash.known and stated.known:
        path = mash.ph.path
        if (finding := _stated(brew, path, stated, limits)) is not None:
            yield finding
        else:
            yield from _elsewhere(brew, path, stated, limits)
        return
    if not brew.has_enzymes:
        return  # it converts nothing at any pH
    band = mash_ph(brew)
    if _by_an_amount(brew, limits):
        return  # a weight or a volume is wrong, which is another question
    if level := above(band, limits.highest_ph):
        yield from _too_high(brew, band, level, limits)
    elif (level := below(band, limits.lowest_ph)) and not _sour(brew, limits):
        yield from _too_low(brew, band, level, limits)


def _too_high(brew: Brew, band: Figure, level: Level, limits: Limits) -> Iterator[Finding]:
    most = limits.highest_ph
    lifting = lifting_salts(brew, limits.lifted_ph)
    knobs = less_lift(brew, band.typical, lifting, most) if lifting else more_acid(brew, band.typical)
    part = number(sum(one.ph for one in lifting), 2)
    message = say("comes-to", ph=told(band.typical, most), low=_tenths(band.low), high=_tenths(band.high)).and_then(
        say("by-salts", part=part, salts=named(lifting)) if lifting else None, say("too-high", most=number(most))
    )
    yield from _off(brew, band, most, level, limits.doubt_ph, message, knobs)


def _too_low(brew: Brew, band: Figure, level: Level, limits: Limits) -> Iterator[Finding]:
    least = limits.lowest_ph
    message = say("comes-to", ph=told(band.typical, least), low=_tenths(band.low), high=_tenths(band.high))
    message = message.and_then(say("too-low", least=number(least)))
    yield from _off(brew, band, least, level, limits.doubt_ph, message, less_acid(brew))


def _off(
    brew: Brew, band: Figure, limit: float, level: Level, doubt_ph: float, message: Say, knobs: tuple[Knob, ...]
) -> Iterator[Finding]:
    """The band past a limit.

    A band is no verdict, so each level is one lower than it would be; a water of which the recipe says nothing lowers
    it once more.
    """
    mash = brew.recipe.mash
    surely, speaks = level is Level.ERROR, _speaks_of_water(brew)
    if not surely and not (speaks and abs(band.typical - limit) > doubt_ph):
        return
    yield Finding(
        mash.path if mash.known else brew.recipe.grist.path,
        Level.WARNING if surely and speaks else Level.NOTE,
        message,
        gap=gap(band, limit),
        evidence=(row(band), row(residual_alkalinity(brew))),
        knobs=knobs,
    )


def _speaks_of_water(brew: Brew) -> bool:
    """Whether the recipe itself says anything of its water, salts or acid."""
    mash = brew.recipe.mash
    return tap_water(brew).of_recipe or (mash.known and bool(mash.salts or mash.acid))


def _tenths(ph: float) -> Measure:
    return Measure(f"{ph:.1f}", ph, "")


def _by_an_amount(brew: Brew, limits: Limits) -> bool:
    """Whether so much acid or calcium is in the mash that its weight can hardly be meant."""
    acid = acid_meq(liquor(brew).mash_acids).typical
    if acid and acid > limits.acid_meq_per_kg * sum(part.weight_kg for part in brew.mashed()):
        return True
    return residual_alkalinity(brew).typical / CACO3_MG_PER_MEQ < limits.residual_meq_per_l


def _stated(brew: Brew, path: Path, stated: Quantity, limits: Limits) -> Finding | None:
    ph = stated.range
    wide = Range(ph.typical, ph.typical, ph.typical)
    if below(wide, limits.lowest_ph):
        if _sour(brew, limits):
            return None
        level = Level.WARNING if below(wide, limits.stated_lowest_ph) else Level.NOTE
        message = say("stated-low", ph=_plain(stated), least=number(limits.lowest_ph)).and_then(say("hot-reading"))
        return Finding(path, level, message, gap=gap(wide, limits.lowest_ph))
    if above(wide, limits.highest_ph):
        level = Level.WARNING if above(wide, limits.stated_highest_ph) else Level.NOTE
        message = say("stated-high", ph=_plain(stated), most=number(limits.highest_ph))
        return Finding(path, level, message, gap=gap(wide, limits.highest_ph))
    return None


def _plain(stated: Quantity) -> Measure:
    """What is stated, without its unit."""
    return Measure(stated.text.replace("pH", "").strip(), stated.range.typical, "")


def _elsewhere(brew: Brew, path: Path, stated: Quantity, limits: Limits) -> Iterator[Finding]:
    """The grist and the water lead to another pH than the recipe states."""
    band = mash_ph(brew)
    off = max(stated.range.low - band.high, band.low - stated.range.high)
    if off <= limits.apart_ph:
        return
    if band.typical <= stated.range.typical:
        takes = say("takes-less-acid", stated=_plain(stated))
    elif lifting := lifting_salts(brew, limits.lifted_ph):
        takes = say("takes-less-salts", stated=_plain(stated), salts=named(lifting))
    else:
        takes = say("takes-acid", stated=_plain(stated))
    there = {"ph": _tenths(band.typical), "low": _tenths(band.low), "high": _tenths(band.high)}
    yield Finding(
        path,
        Level.NOTE,
        say("elsewhere", **there).and_then(takes),
        gap=round(off, 4),
        evidence=(row(band), row(residual_alkalinity(brew))),
    )


def _sour(brew: Brew, limits: Limits) -> bool:
    """Whether a sour beer is meant, or the share of acidulated malt is asked about anyhow."""
    if brew.intent.sour:
        return True
    try:
        return acidulated_share(brew).typical > limits.acidulated_percent
    except Unknown:
        return False


SOUND = """\
recipe: Chalk Path Pale
by: Saltmarsh Lane Mash Circle
batch: 20 l
grist:
  - {grain: Pilsner malt, weight: 4 kg}
mash:
  water: 13 l
  acid: {lactic acid 88 %: 6 ml}
water: {calcium: 140 mg/l, magnesium: 10 mg/l, alkalinity: 300 mg/l}
"""
FAULTY = Example(
    """\
recipe: Chalk Path Pale
by: Saltmarsh Lane Mash Circle
batch: 20 l
grist:
  - {grain: Pilsner malt, weight: 4 kg}
mash:
  water: 13 l
water: {calcium: 40 mg/l, magnesium: 10 mg/l, alkalinity: 400 mg/l}
""",
    "warning",
    6,
    1,
    "mash pH is about 6.2 (6.0 to 6.5); above 5.8 the starch converts slowly and the husks give a harsh taste",
)
