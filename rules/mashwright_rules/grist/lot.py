"""Is the lot known, is it of this ingredient, and can its analysis be true?

A lot's certificate of analysis replaces the wide range of the tables by what was measured on this very sack, so
doubts become verdicts. A slip in its number, or in one of its values, then puts every sum wrong without a sound.

Computed: each lot that a grist line or a hop names is looked up in brewhouse.yaml. One that is not there is a warning
with those whose number is a slip away, or a note where no lots are recorded at all. A known one is compared with its
line: of the same ingredient (a note between base malts of one cereal and about one colour, else a warning), not
expired by the day of the review, its numbers such as that kind of malt or hop can have: enzymes on caramel malt, more
extract as is than dry, coarse grind above fine; extract more than 3 points above or 8 below what such a grain gives,
as is or dry; malt of less than 1 % of moisture, or 2 points damper than malts of its kind are sold, most of them with
up to 6 %. What cannot be by definition is an error, what can hardly be a warning.

On the day: read the number off the sack and the values off the maltster's own sheet; malt that smells musty or feels
soft between the teeth has drawn water, whatever its sheet says, and mouldy grain is thrown away.

Sources: [byo-specs] moisture, [noonan-malt-analysis] [oxford-lintner] [by-definition] [common-practice] [judgement];
what a grain gives and how damp it is sold, the table of grains
"""

from collections.abc import Iterable, Iterator
from typing import TYPE_CHECKING, NamedTuple

from mashwright.brew import MALTS, UNMALTED, Brew, number
from mashwright.ingredients.fermentables import Fermentable
from mashwright.ingredients.kinds import IngredientKind
from mashwright.ingredients.lookup import fermentable as known_fermentable
from mashwright.ingredients.lookup import hop as known_hop
from mashwright.ingredients.lookup import most_guessed
from mashwright.knobs import Knob, another_text
from mashwright.measures import Kind, Range, from_canonical, said
from mashwright.measures.constants import EBC_BELOW_LOVIBOND, EBC_PER_LOVIBOND
from mashwright.recipe.brewhouse import Lot
from mashwright.rule import Evidence, Example, Finding, Level, Limit, Path, Say, Settings, say
from mashwright.words.nearest import close
from mashwright.words.vocabulary import mentions

if TYPE_CHECKING:
    from mashwright.recipe.stated import Stated


class Limits(Settings):
    """What is compared with."""

    alike_percent = Limit(60, "%", low=30, high=100, source="judgement")
    dark_lintner = Limit(20, "°Lintner", low=1, high=60, source="common-practice")
    wettest_percent = Limit(15, "%", low=8, high=30, source="common-practice")
    dampest_malt_percent = Limit(6, "%", low=4, high=12, source="byo-specs")
    damper_percent = Limit(2, "%", low=0.5, high=6, source="judgement")
    driest_malt_percent = Limit(1, "%", low=0, high=2.5, source="judgement")
    extract_above_percent = Limit(3, "%", low=1, high=10, source="judgement")
    extract_below_percent = Limit(8, "%", low=2, high=30, source="judgement")
    reading_percent = Limit(1.5, "%", low=0.5, high=5, source="judgement")
    coarse_percent = Limit(0.5, "%", low=0, high=3, source="judgement")
    past_range_times = Limit(1.6, "times", low=1.1, high=5, source="judgement")
    strongest_alpha_percent = Limit(25, "%", low=15, high=40, source="common-practice")


class _Named(NamedTuple):
    """A line that names a lot."""

    path: Path
    key: str
    name: str
    lot: str
    described: bool
    hop: bool


Fault = tuple[Level, Say]


SAYS = {
    "not-recorded": "no brewhouse.yaml here records lot {lot}, so the tables' values stand for its analysis",
    "no-such-lot": "brewhouse.yaml holds no lot {lot}",
    "did-you-mean-lot": "did you mean {lots}",
    "has-of-it": "of {name} it has {lots}",
    "has": "it has {lots}",
    "lot": "lot {lot}",
    "and-it": "and it",
    "of-another": " is of {of}, but this line says {name}",
    "analysed-late": " was analysed on {analysed}, after it had expired on {expires}",
    "expired": " expired on {expires}; taste it before weighing, and count on less than its sheet says",
    "to-come": " was analysed on {analysed}, a day that is still to come",
    "alpha-of-grain": " has {alpha} of alpha acid, which only hops have",
    "power-of-hops": " has {power} of diastatic power, which only malt has",
    "more-alpha-than-any": " has {alpha} of alpha acid, more than any hop",
    "other-alpha": " has {alpha} of alpha acid, where {of} has {usual}",
    "power-of-dark": " has {power} of diastatic power, where {kind} has next to none",
    "is-it-colour": "is it its colour",
    "more-power-than-any": " has {power} of diastatic power, more than any malt; is it {meant}",
    "other-power": " has {power} of diastatic power, where {of} has {usual}",
    "mouldy": " has {moisture} of moisture; above {most} % grain goes mouldy, and mould can poison",
    "damp": " has {moisture} of moisture, where malt is sold with up to {most} %; so damp it goes slack and mouldy",
    "too-dry": " has {moisture} of moisture, drier than a kiln leaves any malt",
    "other-colour": " has a colour of {colour}, where {of} has {usual}",
    "is-it": "is it {meant}",
    "other-extract": " has {extract} of {grind}-grind extract {how}, where {of} has {usual}",
    "wetter-than-dry": " has {extract} of {grind}-grind extract as is and {dry} dry, which cannot be",
    "does-not-follow": " has {extract} of {grind}-grind extract as is, where {dry} dry at {moisture} of moisture"
    " gives {follows}",
    "coarse-gives-more": " gives more in the coarse grind, {coarse} {how}, than in the fine, {fine}",
}


def check(brew: Brew, limits: Limits) -> Iterator[Finding]:
    told: set[str] = set()
    guesses = most_guessed(len(brew.brewhouse.lots))  # each goes through all lots
    for line in _lines(brew):
        lot = brew.brewhouse.lots.get(line.lot)
        path = (*line.path, "lot")
        if lot is None:
            guesses -= 1
            yield _unknown(brew, line, path, limits, guess=guesses >= 0)
            continue
        of_another = _of_another(line, lot, limits)
        faults = [of_another] if of_another is not None else []
        if line.lot not in told:
            told.add(line.lot)
            faults += _aged(lot, brew.today)
            faults += _analysis(lot, limits, brew.bounds.most_lintner)
        if faults:
            guesses -= of_another is not None
            first, *others = (said_of_it for _, said_of_it in faults)
            further = [part for one in others for part in (say("and-it"), one)]
            yield Finding(
                path,
                max(level for level, _ in faults),
                say("lot", lot=line.lot).and_then(first, *further),
                gap=1.0,
                evidence=tuple(_rows(lot)),
                knobs=_knobs(brew, line, lot, limits) if of_another is not None and guesses >= 0 else (),
            )


def _lines(brew: Brew) -> Iterator[_Named]:
    for one in brew.recipe.grist:
        if one.lot:
            described = bool(one.kind) or one.name in brew.brewhouse.ingredients
            yield _Named(one.path, one.group, one.name, one.lot, described, hop=False)
    for hop in brew.recipe.hops:
        if hop.lot:
            yield _Named(hop.path, "hop", hop.name, hop.lot, described=False, hop=True)


def _unknown(brew: Brew, line: _Named, path: Path, limits: Limits, *, guess: bool) -> Finding:
    lots = brew.brewhouse.lots
    if not lots:
        return Finding(path, Level.NOTE, say("not-recorded", lot=line.lot), gap=1.0)
    near = _near(brew, line, limits) if guess else ()
    if near:
        told = say("did-you-mean-lot", lots=" or ".join(f"{name}, of {lots[name].of}" for name in near))
    else:
        alike = lots.items() if guess else ()
        same = [name for name, lot in alike if lot.of and _of_another(line, lot, limits) is None]
        told = say("has-of-it", name=line.name, lots=_listed(same)) if same else say("has", lots=_listed(lots))
    return Finding(
        path,
        Level.WARNING,
        say("no-such-lot", lot=line.lot).and_then(told),
        gap=1.0,
        knobs=tuple(another_text(path, name, f"{name} instead of {line.lot}") for name in near if _plain(name)),
    )


def _listed(lots: Iterable[str]) -> str:
    names = list(lots)
    return f"{', '.join(names[:3])}{' and others' if len(names) > 3 else ''}"


def _near(brew: Brew, line: _Named, limits: Limits) -> tuple[str, ...]:
    """Lots whose number is a slip away, those of the same ingredient first; at most two."""
    lots = brew.brewhouse.lots
    alike = {
        name: likeness
        for likeness, name in close(line.lot, lots, limits.alike_percent / 100)
        if not _of_the_other_sort(line, lots[name])
    }
    other = {name for name in alike if _of_another(line, lots[name], limits) is not None}
    return tuple(sorted(alike, key=lambda name: (name in other, -alike[name], name))[:2])


def _plain(text: str) -> bool:
    """Whether a text may stand in a recipe without quotes."""
    return bool(text) and text[0].isalnum() and all(letter.isalnum() or letter in " -_./" for letter in text)


def _of_the_other_sort(line: _Named, lot: Lot) -> bool:
    """Whether a lot is of hops and the line of grain, or the other way round; nothing can make one of the other."""
    as_hop, as_grain = known_hop(lot.of) is not None, known_fermentable(lot.of) is not None
    return (as_hop and not as_grain) if not line.hop else (as_grain and not as_hop)


def _of_another(line: _Named, lot: Lot, limits: Limits) -> Fault | None:
    """What to say where the lot is of something else than the line names."""
    if not lot.of or lot.of.casefold() == line.name.casefold():
        return None
    if _of_the_other_sort(line, lot):
        return Level.WARNING, say("of-another", of=lot.of, name=line.name)
    if line.described:
        return None
    text = say("of-another", of=lot.of, name=line.name)
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
    return Level.NOTE if its is not None and _takes_its_place(mine, its, limits) else Level.WARNING, text


def _takes_its_place(mine: Fermentable, its: Fermentable, limits: Limits) -> bool:
    """Whether two base malts are so alike that the beer is hardly another: about as pale, and neither smoked."""
    if not mine.kind == its.kind == IngredientKind.BASE_MALT or mine.cereal != its.cereal:
        return False
    smoked = [mentions("smoked", "ingredient", one.name) for one in (mine, its)]
    if smoked[0] is not smoked[1] or mine.colour_lovibond is None or its.colour_lovibond is None:
        return False
    paler, darker = sorted((mine.colour_lovibond, its.colour_lovibond), key=lambda colour: colour.typical)
    return darker.low <= paler.high * limits.past_range_times


def _knobs(brew: Brew, line: _Named, lot: Lot, limits: Limits) -> tuple[Knob, ...]:
    """The name put right, or the lot that is of what the line names."""
    others = [name for name, other in brew.brewhouse.lots.items() if _of_another(line, other, limits) is None]
    right = [another_text((*line.path, "lot"), name, f"lot {name} instead of {line.lot}") for name in others]
    found = known_hop(lot.of) is not None if line.hop else known_fermentable(lot.of) is not None
    if found and _plain(lot.of):
        right.append(another_text((*line.path, line.key), lot.of, f"{lot.of} instead of {line.name}"))
    return tuple(right[:2])


def _aged(lot: Lot, today: str) -> Iterator[Fault]:
    if lot.analysed and lot.expires and lot.analysed > lot.expires:
        yield Level.WARNING, say("analysed-late", analysed=lot.analysed, expires=lot.expires)
    elif lot.expires and today and lot.expires < today:
        yield Level.WARNING, say("expired", expires=lot.expires)
    elif lot.analysed and today and lot.analysed > today:
        yield Level.NOTE, say("to-come", analysed=lot.analysed)


def _analysis(lot: Lot, limits: Limits, most_lintner: float) -> Iterator[Fault]:
    """What in a certificate contradicts the kind of thing, or itself."""
    entry = known_fermentable(lot.of)
    if entry is None:
        yield from _of_hops(lot, limits)
    else:
        if lot.alpha.known:
            yield Level.WARNING, say("alpha-of-grain", alpha=lot.alpha)
        if entry.kind in MALTS or entry.kind in UNMALTED:
            yield from _enzymes(lot, entry, limits, most_lintner)
            yield from _moisture(lot, entry, limits)
            yield from _colour(lot, entry, limits)
            yield from _yield(lot, entry, limits)
    yield from _extract(lot, limits)


def _of_hops(lot: Lot, limits: Limits) -> Iterator[Fault]:
    if (cultivar := known_hop(lot.of)) is None:
        return
    if lot.diastatic_power.known:
        yield Level.WARNING, say("power-of-hops", power=lot.diastatic_power)
    if not lot.alpha.known:
        return
    alpha, usual = lot.alpha.range.typical, cultivar.alpha
    if alpha > limits.strongest_alpha_percent:
        yield Level.WARNING, say("more-alpha-than-any", alpha=lot.alpha)
    elif _outside(alpha, usual, limits):
        between = f"{number(usual.low, 3)}-{number(usual.high, 3)} %"
        yield Level.WARNING, say("other-alpha", alpha=lot.alpha, of=lot.of, usual=between)


def _outside(value: float, usual: Range, limits: Limits) -> bool:
    """Far past what the tables know, either way."""
    return value > usual.high * limits.past_range_times or value < usual.low / limits.past_range_times


def _enzymes(lot: Lot, entry: Fermentable, limits: Limits, most_lintner: float) -> Iterator[Fault]:
    power = lot.diastatic_power
    if not power.known:
        return
    value = power.range.typical
    if entry.kind in (IngredientKind.CARAMEL_MALT, IngredientKind.ROASTED_MALT) or entry.kind in UNMALTED:
        if value > limits.dark_lintner:
            is_it = (
                say("is-it-colour")
                if entry.kind in (IngredientKind.CARAMEL_MALT, IngredientKind.ROASTED_MALT)
                else None
            )
            yield Level.WARNING, say("power-of-dark", power=power, kind=entry.kind).and_then(is_it)
    elif value > most_lintner:
        text = f"{number(from_canonical(value, power.unit, Kind.DIASTATIC_POWER), 4)} °WK"
        yield Level.WARNING, say("more-power-than-any", power=power, meant=text)
    elif entry.power_lintner is not None and entry.power_lintner.low > limits.dark_lintner:
        usual = entry.power_lintner
        if _outside(value, usual, limits):
            between = said(usual, power.unit, Kind.DIASTATIC_POWER)
            yield Level.WARNING, say("other-power", power=power, of=lot.of, usual=between)


def _moisture(lot: Lot, entry: Fermentable, limits: Limits) -> Iterator[Fault]:
    moisture = lot.moisture
    if not moisture.known:
        return
    value = moisture.range.typical
    malted = entry.kind in MALTS
    most = max(limits.dampest_malt_percent, entry.moisture.high if entry.moisture is not None else 0.0)
    if value > limits.wettest_percent:
        yield Level.WARNING, say("mouldy", moisture=moisture, most=number(limits.wettest_percent, 6))
    elif malted and value > most + limits.damper_percent:
        yield Level.WARNING, say("damp", moisture=moisture, most=number(most))
    elif malted and value < limits.driest_malt_percent:
        yield Level.WARNING, say("too-dry", moisture=moisture)


def _colour(lot: Lot, entry: Fermentable, limits: Limits) -> Iterator[Fault]:
    colour, usual = lot.colour, entry.colour_lovibond
    if not colour.known or usual is None:
        return
    if not _outside(colour.range.typical, Range(usual.low, usual.typical, usual.high + 1), limits):
        return
    written = from_canonical(colour.range.typical, colour.unit, Kind.MALT_COLOUR)
    as_ebc = (written + EBC_BELOW_LOVIBOND) / EBC_PER_LOVIBOND
    fits = colour.unit != "EBC" and usual.low * 0.8 <= as_ebc <= usual.high * 1.2
    is_it = say("is-it", meant=f"{number(written, 4)} EBC") if fits else None
    between = said(usual, colour.unit, Kind.MALT_COLOUR)
    yield Level.WARNING, say("other-colour", colour=colour, of=lot.of, usual=between).and_then(is_it)


def _yield(lot: Lot, entry: Fermentable, limits: Limits) -> Iterator[Fault]:
    """An extract that such a grain cannot give; the first one alone, since the others follow from it."""
    if entry.extract_dry is None:
        return
    wet = lot.moisture.range if lot.moisture.known else entry.moisture
    for stated, grind, how in (
        (lot.extract_fine_dry, "fine", "dry"),
        (lot.extract_fine_as_is, "fine", "as is"),
        (lot.extract_coarse_dry, "coarse", "dry"),
        (lot.extract_coarse_as_is, "coarse", "as is"),
    ):
        if not stated.known:
            continue
        usual = entry.extract_dry
        if how == "as is" and wet is not None:
            # the driest of the best, the dampest of the poorest
            usual = Range(
                usual.low * (1 - wet.high / 100),
                usual.typical * (1 - wet.typical / 100),
                usual.high * (1 - wet.low / 100),
            )
        value = stated.range.typical
        if usual.low - limits.extract_below_percent <= value <= usual.high + limits.extract_above_percent:
            continue
        between = said(usual, stated.unit, Kind.EXTRACT)
        yield Level.WARNING, say("other-extract", extract=stated, grind=grind, how=how, of=lot.of, usual=between)
        return


def _extract(lot: Lot, limits: Limits) -> Iterator[Fault]:
    fine, coarse = lot.extract_fine_dry, lot.extract_coarse_dry
    fine_wet, coarse_wet = lot.extract_fine_as_is, lot.extract_coarse_as_is
    for dry, wet, grind in ((fine, fine_wet, "fine"), (coarse, coarse_wet, "coarse")):
        if not dry.known or not wet.known:
            continue
        if wet.range.typical > dry.range.typical:
            yield Level.ERROR, say("wetter-than-dry", extract=wet, grind=grind, dry=dry)
        elif lot.moisture.known:
            follows = dry.range.typical * (1 - lot.moisture.range.typical / 100)
            if abs(follows - wet.range.typical) > limits.reading_percent:
                text = said(follows, wet.unit, Kind.EXTRACT)
                yield (
                    Level.WARNING,
                    say("does-not-follow", extract=wet, grind=grind, dry=dry, moisture=lot.moisture, follows=text),
                )
    for high, low, how in ((fine, coarse, "dry"), (fine_wet, coarse_wet, "as is")):
        if high.known and low.known and low.range.typical - high.range.typical > limits.coarse_percent:
            yield Level.WARNING, say("coarse-gives-more", coarse=low, how=how, fine=high)


def _rows(lot: Lot) -> Iterator[Evidence]:
    fields: tuple[tuple[str, Stated], ...] = (
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
        if quantity.known:
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
