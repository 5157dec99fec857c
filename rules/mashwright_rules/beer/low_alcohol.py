"""Does this beer or wort keep, or can it spoil dangerously?

Alcohol, hops, a low pH and the lack of sugar keep harmful germs out of beer.
Beer with little alcohol has lost one of them. Wort that was boiled and is kept
has only the hops: no-chill wort in a closed vessel, starter wort in jars. Such
wort is not sour enough by itself to hold back the germs that make botulin.

What is checked: the stated alcohol; else that of the stated gravities; else the
most that this grist, mash and yeast can give. Notes and additions are read for
no-chill and stored wort.

- warning: below 1.2 % vol, where alcohol need hardly be declared
- note: below 2.5 % vol
- warning: no-chill wort, or starter wort that is stored
- note: `chill` by no-chill; a warning if the yeast goes in after over 36 h
- note instead of a warning: an acid is added; a souring culture is pitched;
  the notes (for wort, the words that tell of it) speak of acid, cold or heat;
  or weak beer is sour by style or name
- skipped: no alcohol is stated, and no yeast is stated or the mash makes
  hardly anything to ferment

Small beer and sour beer are old and may be meant, so nothing here is an error.

On the day: keep it cold from the first hour; or bring it to a low pH and
measure that; or heat it as someone shows you who knows how. A kitchen boil does
not kill spores. Before you give it to others, ask an expert. Local food law
comes before anything here.

Sources: [home-brewery-hazards] [common-practice] [judgement]
"""

from collections.abc import Iterator

from mashwright.brew import Brew, kind_of, number, sours, told
from mashwright.brewing.alcohol import alcohol_by_volume
from mashwright.figures.beer import abv, apparent_attenuation
from mashwright.ingredients.kinds import Chilling, Sort
from mashwright.measures import Range
from mashwright.measures.bounds import NO_WORT_PERCENT
from mashwright.measures.constants import MIN_PER_DAY
from mashwright.rule import Evidence, Example, Finding, Level, Limit, Path, Settings, Unknown, below, gap, say
from mashwright.words.vocabulary import mentions, speaks_of

_OVER_NIGHT_D = 1.5  # longer is kept, and not only left to cool; judgement


class Limits(Settings):
    """What is compared with."""

    weak_percent = Limit(2.5, "% vol", low=0.5, high=4, source="common-practice")
    alcohol_free_percent = Limit(1.2, "% vol", low=0.3, high=3, source="common-practice")
    no_wort_percent = Limit.at(NO_WORT_PERCENT)


SAYS = {
    "weak": "{alcohol} % alcohol protects less against germs than {least} % or more; if this is on purpose, it needs"
    " low pH, cold or heat, so ask an expert",
    "kept-wort": "wort that cools in a closed vessel (no-chill) is not sour enough to be kept; pitch it the next day;"
    " to be kept it needs low pH, cold or heat, so ask an expert",
    "stored-starter": "stored starter wort is not sour enough to hold back dangerous germs, boiled or not; it needs"
    " low pH, cold or heat, so ask an expert",
}


def check(brew: Brew, limits: Limits) -> Iterator[Finding]:
    yield from _stored_wort(brew)
    yield from _weak(brew, limits)


def _weak(brew: Brew, limits: Limits) -> Iterator[Finding]:
    try:
        alcohol, path = _alcohol(brew, limits)
    except Unknown:
        return
    if alcohol is None or not below(alcohol, limits.weak_percent):
        return
    nearly_free = bool(below(alcohol, limits.alcohol_free_percent))
    kept = speaks_of("kept-safe", "notes", brew.recipe.notes) or _soured(brew) or brew.intent.sour
    level = Level.WARNING if nearly_free and not kept else Level.NOTE
    yield Finding(
        path,
        level,
        say("weak", alcohol=told(alcohol.typical, limits.weak_percent), least=number(limits.weak_percent, 6)),
        gap=gap(alcohol, limits.weak_percent),
        evidence=(Evidence("alcohol by volume", alcohol.typical, "% vol", path),),
    )


def _alcohol(brew: Brew, limits: Limits) -> tuple[Range | None, Path]:
    """Alcohol as stated, else by the gravities, else the most that the wort gives; None where it is no beer."""
    targets = brew.recipe.targets
    if targets.abv.known:
        return targets.abv.range, targets.abv.path
    if targets.abv.mentioned:
        return None, ()
    if targets.og.known and targets.fg.known:
        start, end = targets.og.range, targets.fg.range
        if end.typical >= start.typical:
            return None, ()
        return Range.exact(alcohol_by_volume(start.typical, end.typical)), brew.recipe.targets.fg.path
    if not brew.recipe.yeast or apparent_attenuation(brew).typical < limits.no_wort_percent:
        return None, ()
    reckoned = abv(brew).range
    return (Range(reckoned.low, reckoned.high, reckoned.high), brew.recipe.grist.path)


def _stored_wort(brew: Brew) -> Iterator[Finding]:
    soured = _soured(brew)
    yield from _not_chilled(brew, soured=soured)
    for path, where, text in _texts(brew):
        if mentions("no-chill", where, text):
            sentence = "kept-wort"
        elif mentions("starter-wort", where, text) and mentions("stored", where, text):
            sentence = "stored-starter"
        else:
            continue
        level = Level.NOTE if soured or speaks_of("kept-safe", where, text) else Level.WARNING
        yield Finding(path, level, say(sentence), gap=1.0)


def _not_chilled(brew: Brew, *, soured: bool) -> Iterator[Finding]:
    """Wort that is left to cool in a closed vessel, and for how long."""
    chill = brew.recipe.chill
    if not chill.known or chill.by != Chilling.NO_CHILL:
        return
    long = chill.time.known and chill.time.range.typical > _OVER_NIGHT_D * MIN_PER_DAY
    path = chill.time.path if chill.time.known else chill.by.path
    yield Finding(path, Level.WARNING if long and not soured else Level.NOTE, say("kept-wort"), gap=1.0)


def _texts(brew: Brew) -> Iterator[tuple[Path, str, str]]:
    recipe = brew.recipe
    yield recipe.notes.path, "notes", recipe.notes
    for addition in recipe.additions:
        yield addition.path, "ingredient", f"{addition.what} {addition.when}"


def _soured(brew: Brew) -> bool:
    """Whether an acid or a culture makes such beer or wort sour."""
    acid = any(speaks_of("acid", "ingredient", addition.what) for addition in brew.recipe.additions)
    return (
        acid
        or brew.recipe.souring.known
        or any(sours(kind_of(brew.brewhouse, Sort.YEAST, yeast.kind)) for yeast in brew.recipe.yeast)
    )


SOUND = """\
recipe: Gate Table Beer
by: Saltmarsh Lane Mash Circle
batch: 20 l
grist:
  - {grain: pale ale malt, weight: 2.6 kg}
mash:
  rests: [{at: 68 °C, for: 60 min}]
yeast: {kind: English ale}
targets: {og: 1.030, fg: 1.009, abv: 2.8 %}
"""
FAULTY = Example(
    """\
recipe: Gate Table Beer
by: Saltmarsh Lane Mash Circle
batch: 20 l
grist:
  - {grain: pale ale malt, weight: 1.1 kg}
mash:
  rests: [{at: 68 °C, for: 60 min}]
yeast: {kind: English ale}
targets: {og: 1.012, fg: 1.004, abv: 1.0 %}
""",
    "warning",
    9,
    38,
    "1 % alcohol protects less against germs than 2.5 % or more; if this is on purpose, it needs low pH, cold or"
    " heat, so ask an expert",
)
