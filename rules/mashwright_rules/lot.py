"""Is the lot known, is it of this ingredient, and can its analysis be true?

A lot's certificate of analysis replaces the wide range of the tables by what was measured on this very sack, so
doubts become verdicts. A slip in its number, or in one of its values, then puts every sum wrong without a sound.

Computed: each lot that a grist line or a hop names is looked up in brewhouse.yaml. One that is not there is a warning
with the nearest ones, or a note where no lots are recorded at all. A known one is compared with its line: of the same
ingredient, not expired by the day of the review, its numbers such as that kind of malt or hop can have (enzymes on
caramel malt, moisture at which malt spoils, more extract as is than dry, coarse grind above fine). What cannot
be by definition is an error, what can hardly be a warning.

On the day: read the number off the sack and the values off the maltster's own sheet; malt that smells musty or feels
soft between the teeth has drawn water, whatever its sheet says, and mouldy grain is thrown away.

Sources: [byo-specs] [noonan-malt-analysis] [oxford-lintner] [by-definition] [common-practice] [judgement]
"""

from collections.abc import Iterable, Iterator
from typing import NamedTuple

from mashwright.rule import (
    MALTS,
    MOST_LINTNER,
    UNMALTED,
    Brew,
    Evidence,
    Example,
    Fermentable,
    Finding,
    Kind,
    Knob,
    Level,
    Limit,
    Lot,
    Path,
    Quantity,
    Range,
    Settings,
    another_text,
    from_canonical,
    known_fermentable,
    known_hop,
    number,
    said,
)


class Limits(Settings):
    """What is compared with."""

    alike_percent = Limit(60, "%", low=30, high=100, source="judgement")
    dark_lintner = Limit(20, "°Lintner", low=1, high=60, source="common-practice")
    wettest_percent = Limit(15, "%", low=8, high=30, source="common-practice")
    reading_percent = Limit(1.5, "%", low=0.5, high=5, source="judgement")
    coarse_percent = Limit(0.5, "%", low=0, high=3, source="judgement")
    past_range_times = Limit(1.6, "", low=1.1, high=5, source="judgement")
    strongest_alpha_percent = Limit(25, "%", low=15, high=40, source="common-practice")


class _Named(NamedTuple):
    """A line that names a lot."""

    path: Path
    key: str
    name: str
    lot: str
    described: bool
    hop: bool


Complaint = tuple[Level, str]


def check(brew: Brew, limits: Limits) -> Iterator[Finding]:
    told: set[str] = set()
    for line in _lines(brew):
        lot = brew.brewhouse.lots.get(line.lot)
        path = (*line.path, "lot")
        if lot is None:
            yield _unknown(brew, line, path, limits)
            continue
        of_another = _of_another(line, lot)
        complaints = [of_another] if of_another is not None else []
        if line.lot not in told:
            told.add(line.lot)
            complaints += _aged(lot, brew.today)
            complaints += _analysis(lot, limits)
        if complaints:
            yield Finding(
                path,
                max(level for level, _ in complaints),
                f"lot {line.lot} {'; and it '.join(text for _, text in complaints)}",
                gap=1.0,
                evidence=tuple(_rows(lot)),
                knobs=_knobs(brew, line, lot) if of_another is not None else (),
            )


def _lines(brew: Brew) -> Iterator[_Named]:
    for one in brew.recipe.grist:
        if one.lot:
            described = bool(one.kind) or one.name in brew.brewhouse.ingredients
            yield _Named(one.path, one.group, one.name, one.lot, described, hop=False)
    for hop in brew.recipe.hops:
        if hop.lot:
            yield _Named(hop.path, "hop", hop.name, hop.lot, described=False, hop=True)


def _unknown(brew: Brew, line: _Named, path: Path, limits: Limits) -> Finding:
    lots = brew.brewhouse.lots
    if not lots:
        message = f"no brewhouse.yaml here records lot {line.lot}, so the tables' values stand for its analysis"
        return Finding(path, Level.NOTE, message, gap=1.0)
    near = _near(brew, line, limits)
    meant = f"did you mean {' or '.join(f'{name}, of {lots[name].of}' for name in near)}" if near else _listed(lots)
    return Finding(
        path,
        Level.WARNING,
        f"brewhouse.yaml holds no lot {line.lot}; {meant}",
        gap=1.0,
        knobs=tuple(another_text(path, name, f"{name} instead of {line.lot}") for name in near if _plain(name)),
    )


def _listed(lots: Iterable[str]) -> str:
    names = list(lots)
    return f"it has {', '.join(names[:3])}{' and others' if len(names) > 3 else ''}"


def _near(brew: Brew, line: _Named, limits: Limits) -> tuple[str, ...]:
    """Lots whose number is a slip away, then those of the same ingredient; at most two."""
    from difflib import SequenceMatcher

    lots = brew.brewhouse.lots
    alike = {name: SequenceMatcher(None, line.lot.casefold(), name.casefold()).ratio() for name in lots}
    same = {name for name, lot in lots.items() if _of_another(line, lot) is None}
    close = [name for name in lots if 100 * alike[name] >= limits.alike_percent]
    return tuple(sorted(close or same, key=lambda name: (name not in same, -alike[name], name))[:2])


def _plain(text: str) -> bool:
    """Whether a text may stand in a recipe without quotes."""
    return bool(text) and text[0].isalnum() and all(letter.isalnum() or letter in " -_./" for letter in text)


def _of_another(line: _Named, lot: Lot) -> Complaint | None:
    """What to say where the lot is of something else than the line names."""
    if not lot.of or lot.of.casefold() == line.name.casefold() or line.described:
        return None
    text = f"is of {lot.of}, but this line says {line.name}"
    if line.hop:
        theirs, ours = known_hop(lot.of), known_hop(line.name)
        same = theirs is not None and ours is not None and theirs.name == ours.name
        unsure = theirs is None and known_fermentable(lot.of) is None
        return None if same or unsure else (Level.WARNING, text)
    mine, its = known_fermentable(line.name), known_fermentable(lot.of)
    if mine is None or (its is None and known_hop(lot.of) is None):
        return None  # a name of the house's own, that the lot explains
    if its is not None and its.name == mine.name:
        return None
    close = its is not None and mine.kind == its.kind == "base malt" and mine.cereal == its.cereal
    return Level.NOTE if close else Level.WARNING, text


def _knobs(brew: Brew, line: _Named, lot: Lot) -> tuple[Knob, ...]:
    """The name put right, or the lot that is of what the line names."""
    others = [name for name, other in brew.brewhouse.lots.items() if _of_another(line, other) is None]
    right = [another_text((*line.path, "lot"), name, f"lot {name} instead of {line.lot}") for name in others]
    found = known_hop(lot.of) is not None if line.hop else known_fermentable(lot.of) is not None
    if found and _plain(lot.of):
        right.append(another_text((*line.path, line.key), lot.of, f"{lot.of} instead of {line.name}"))
    return tuple(right[:2])


def _aged(lot: Lot, today: str) -> Iterator[Complaint]:
    if lot.analysed and lot.expires and lot.analysed > lot.expires:
        yield Level.WARNING, f"was analysed on {lot.analysed}, after it had expired on {lot.expires}"
    elif lot.expires and today and lot.expires < today:
        yield (
            Level.WARNING,
            f"expired on {lot.expires}; taste it before weighing, and count on less than its sheet says",
        )
    elif lot.analysed and today and lot.analysed > today:
        yield Level.NOTE, f"was analysed on {lot.analysed}, a day that is still to come"


def _analysis(lot: Lot, limits: Limits) -> Iterator[Complaint]:
    """What in a certificate contradicts the kind of thing, or itself."""
    entry = known_fermentable(lot.of)
    if entry is None:
        yield from _of_hops(lot, limits)
    else:
        if lot.alpha is not None:
            yield Level.WARNING, f"has {lot.alpha.text} of alpha acid, which only hops have"
        if entry.kind in MALTS or entry.kind in UNMALTED:
            yield from _enzymes(lot, entry, limits)
            yield from _moisture(lot, limits)
            yield from _colour(lot, entry, limits)
    yield from _extract(lot, limits)


def _of_hops(lot: Lot, limits: Limits) -> Iterator[Complaint]:
    if (cultivar := known_hop(lot.of)) is None:
        return
    if lot.diastatic_power is not None:
        yield Level.WARNING, f"has {lot.diastatic_power.text} of diastatic power, which only malt has"
    if lot.alpha is None:
        return
    alpha, usual = lot.alpha.range.typical, cultivar.alpha
    if alpha > limits.strongest_alpha_percent:
        yield Level.WARNING, f"has {lot.alpha.text} of alpha acid, more than any hop"
    elif _outside(alpha, usual, limits):
        between = f"{number(usual.low, 3)}-{number(usual.high, 3)} %"
        yield Level.WARNING, f"has {lot.alpha.text} of alpha acid, where {cultivar.name} has {between}"


def _outside(value: float, usual: Range, limits: Limits) -> bool:
    """Far past what the tables know, either way."""
    return value > usual.high * limits.past_range_times or value < usual.low / limits.past_range_times


def _enzymes(lot: Lot, entry: Fermentable, limits: Limits) -> Iterator[Complaint]:
    power = lot.diastatic_power
    if power is None:
        return
    value = power.range.typical
    if entry.kind in ("caramel malt", "roasted malt") or entry.kind in UNMALTED:
        if value > limits.dark_lintner:
            is_it = "; is it its colour" if entry.kind in ("caramel malt", "roasted malt") else ""
            yield Level.WARNING, f"has {power.text} of diastatic power, where {entry.kind} has next to none{is_it}"
    elif value > MOST_LINTNER:
        text = f"{number(from_canonical(value, power.unit, Kind.DIASTATIC_POWER), 4)} °WK"
        yield Level.WARNING, f"has {power.text} of diastatic power, more than any malt; is it {text}"
    elif entry.power_lintner is not None and entry.power_lintner.low > limits.dark_lintner:
        usual = entry.power_lintner
        if _outside(value, usual, limits):
            between = said(usual, power.unit, Kind.DIASTATIC_POWER)
            yield Level.WARNING, f"has {power.text} of diastatic power, where {entry.name} has {between}"


def _moisture(lot: Lot, limits: Limits) -> Iterator[Complaint]:
    moisture = lot.moisture
    if moisture is not None and moisture.range.typical > limits.wettest_percent:
        keeps = f"{limits.wettest_percent:g} %"
        yield Level.WARNING, f"has {moisture.text} of moisture; above {keeps} grain goes mouldy, and mould can poison"


def _colour(lot: Lot, entry: Fermentable, limits: Limits) -> Iterator[Complaint]:
    colour, usual = lot.colour, entry.colour_lovibond
    if colour is None or usual is None:
        return
    if not _outside(colour.range.typical, Range(usual.low, usual.typical, usual.high + 1), limits):
        return
    written = from_canonical(colour.range.typical, colour.unit, Kind.MALT_COLOUR)
    as_ebc = (written + 1.2) / 2.65  # as the units are read: common practice
    fits = colour.unit != "EBC" and usual.low * 0.8 <= as_ebc <= usual.high * 1.2
    is_it = f"; is it {number(written, 4)} EBC" if fits else ""
    between = said(usual, colour.unit, Kind.MALT_COLOUR)
    yield Level.WARNING, f"has a colour of {colour.text}, where {entry.name} has {between}{is_it}"


def _extract(lot: Lot, limits: Limits) -> Iterator[Complaint]:
    fine, coarse = lot.extract_fine_dry, lot.extract_coarse_dry
    fine_wet, coarse_wet = lot.extract_fine_as_is, lot.extract_coarse_as_is
    for dry, wet, grind in ((fine, fine_wet, "fine"), (coarse, coarse_wet, "coarse")):
        if dry is None or wet is None:
            continue
        if wet.range.typical > dry.range.typical:
            yield Level.ERROR, f"has {wet.text} of {grind}-grind extract as is and {dry.text} dry, which cannot be"
        elif lot.moisture is not None:
            follows = dry.range.typical * (1 - lot.moisture.range.typical / 100)
            if abs(follows - wet.range.typical) > limits.reading_percent:
                text = said(follows, wet.unit, Kind.EXTRACT)
                dried = f"{dry.text} dry at {lot.moisture.text} of moisture"
                yield Level.WARNING, f"has {wet.text} of {grind}-grind extract as is, where {dried} gives {text}"
    for high, low, how in ((fine, coarse, "dry"), (fine_wet, coarse_wet, "as is")):
        if high is not None and low is not None and low.range.typical - high.range.typical > limits.coarse_percent:
            yield Level.WARNING, f"gives more in the coarse grind, {low.text} {how}, than in the fine, {high.text}"


def _rows(lot: Lot) -> Iterator[Evidence]:
    fields: tuple[tuple[str, Quantity | None], ...] = (
        ("diastatic power", lot.diastatic_power),
        ("moisture", lot.moisture),
        ("extract, fine, dry", lot.extract_fine_dry),
        ("extract, fine, as is", lot.extract_fine_as_is),
        ("extract, coarse, dry", lot.extract_coarse_dry),
        ("extract, coarse, as is", lot.extract_coarse_as_is),
        ("colour", lot.colour),
        ("alpha acid", lot.alpha),
    )
    for label, quantity in fields:
        if quantity is not None:
            yield Evidence(f"{lot.of}, {label} by its analysis", quantity.text)


SOUND = """\
recipe: Tollgate Amber
by: Saltmarsh Lane Mash Circle
batch: 20 l
grist:
  - {grain: two-row pale malt, weight: 4 kg, diastatic-power: 112 °Lintner}
  - {grain: caramel malt 40, weight: 300 g, colour: 41 °Lovibond}
"""
FAULTY = Example(
    """\
recipe: Tollgate Amber
by: Saltmarsh Lane Mash Circle
batch: 20 l
grist:
  - {grain: two-row pale malt, weight: 4 kg}
  - {grain: caramel malt 40, weight: 300 g, lot: CM-0491}
""",
    "note",
    6,
    50,
    "no brewhouse.yaml here records lot CM-0491, so the tables' values stand for its analysis",
)
