"""Is there enough yeast for this wort?

Too few cells must multiply too often. The beer starts late, while everything
else grows in it; it gets flavours that yeast should not make, and may stop
before its end. Lager is pitched cold and needs twice as much yeast, strong wort
more than weak.

What is checked: dry yeast by weight; packs, slurry, starters and cells against
the cells that the wort needs. These are 0.75 million to each ml and °P for ale,
1.5 for lager pitched cold, 1 where neither is named. With several yeasts, only
far too much of one by weight is checked.

- error: more than 60 g of yeast to the litre; did you mean grams?
- warning: more than 30 times the cells that the wort needs
- warning: dry yeast below 0.35 g/l in ale wort, or below 0.7 g/l in lager
  wort; in proportion more above 15 °P and less below 12 °P
- warning: less than 45 % of the cells that the wort needs
- note: by less than 10 % short of any of these
- starters: about 100 thousand million cells to the litre, fewer where much
  yeast begins the starter; cells stated beside a starter are taken as what it
  brings
- skipped, apart from far too much: kveik, which is pitched thin by custom,
  and cultures of bacteria or wild yeast; dry yeast in a starter

On the day: look at the date. Wake dry yeast as its packet says, give liquid
yeast a starter two days before, and air the wort well. Thick slurry has about
one thousand million (American: billion) cells to the ml, fewer if it is old.

Sources: [fix-pitching] [pitching-articles] [starter-trials]
[troester-yeast-growth] [common-practice] [from-memory] [judgement]
"""

from collections.abc import Iterator
from math import ceil

from mashwright.brew import Brew, into_fermenter, litres_in, number, told
from mashwright.brew import kinds as yeast_kinds
from mashwright.brew.intent import sours
from mashwright.brewing.gravity import plato
from mashwright.figures.beer import DRY_UP_TO_G_PER_L, dry_g_per_l, wort_strength, yeast_class
from mashwright.figures.beer import needed as cells_needed
from mashwright.figures.beer import pitched as cells_pitched
from mashwright.ingredients.kinds import YeastSort
from mashwright.knobs import Knob, another_text, same_number
from mashwright.measures import Kind, Quantity, said, step_of
from mashwright.rule import Evidence, Example, Finding, Level, Limit, Settings, above, below, gap, row, say
from mashwright.words.vocabulary import speaks_of


class Limits(Settings):
    """What is compared with."""

    ale_g_per_l = Limit(0.35, "g/l", low=0.1, high=2, source="common-practice")
    lager_g_per_l = Limit(0.7, "g/l", low=0.2, high=3, source="common-practice")
    weak_plato = Limit(12.0, "°P", low=5, high=15, source="common-practice")
    strong_plato = Limit(15.0, "°P", low=10, high=25, source="judgement")
    a_little_percent = Limit(10.0, "%", low=0, high=30, source="judgement")
    cells_percent = Limit(45.0, "%", low=10, high=100, source="judgement")
    thickest_g_per_l = Limit(60, "g/l", low=20, high=500, source="judgement")
    too_many_times = Limit(30, "times", low=5, high=500, source="judgement")


SAYS = {
    "far-too-much": "{pitch} of yeast is {rate} g/l; even thick barm is at most {most} g/l",
    "many-times": "{pitch} is about {times} times the yeast that this wort needs",
    "on-purpose": "is this on purpose?",
    "did-you-mean": "did you mean {meant}?",
    "thin": "{pitch} of dry yeast is thin",
    "too-little": "{pitch} of dry yeast is {rate} g/l",
    "a-lager-wants": "a lager needs at least {least} g/l",
    "an-ale-wants": "an ale needs at least {least} g/l",
    "a-strong-lager-wants": "a lager of {strength} needs at least {least} g/l",
    "a-strong-ale-wants": "an ale of {strength} needs at least {least} g/l",
    "few-cells": "{pitch} is {share} % of the {cells} billion cells that this wort of {strength} needs",
    "brings-few-cells": "{pitch} has about {brings} billion cells, {share} % of the {cells} billion that this wort of"
    " {strength}"
    " needs",
}


def check(brew: Brew, limits: Limits) -> Iterator[Finding]:
    yeasts = brew.recipe.yeast
    far_too_much = list(_far_too_much(brew, limits))
    yield from far_too_much
    if far_too_much or len(yeasts) != 1 or not yeasts[0].pitch.known:
        return
    yeast, pitch = yeasts[0], yeasts[0].pitch
    known = yeast_kinds(brew)[0]
    if known is not None and (known.quick or not known.of_beer):
        return
    if known is None and (sours(yeast.kind) or speaks_of("wild", "ingredient", yeast.kind)):
        return
    if pitch.kind in (Kind.MASS, Kind.DOSE) and dry_g_per_l(brew, pitch).typical <= DRY_UP_TO_G_PER_L:
        if not yeast.starter.known:
            yield from _dry(brew, limits, pitch)
    else:
        yield from _cells(brew, limits, pitch)


def _far_too_much(brew: Brew, limits: Limits) -> Iterator[Finding]:
    """More yeast than anybody pitches: a slip of the unit or of the decimal point."""
    for yeast in brew.recipe.yeast:
        pitch = yeast.pitch
        if not pitch.known:
            continue
        path = yeast.pitch.path
        if pitch.kind in (Kind.MASS, Kind.DOSE):
            rate = dry_g_per_l(brew, pitch)
            if not above(rate, limits.thickest_g_per_l):
                continue
            litres = into_fermenter(brew).typical
            whole = pitch.range.typical if pitch.kind is Kind.MASS else 0.0
            asked, knobs = None, tuple[Knob, ...]()
            meant = same_number(pitch, "g") if pitch.unit == "kg" else None
            if meant is not None and whole / litres <= limits.thickest_g_per_l:  # so many g in place of kg
                asked = say("did-you-mean", meant=meant)
                knobs = (another_text(path, meant, f"use {meant} instead of {pitch.text}"),)
            much, most = told(rate.typical, limits.thickest_g_per_l), number(limits.thickest_g_per_l, 3)
            message = say("far-too-much", pitch=pitch, rate=much, most=most).and_then(asked)
            yield Finding(path, Level.ERROR, message, gap=gap(rate, limits.thickest_g_per_l), knobs=knobs)
        elif len(brew.recipe.yeast) == 1:
            want, have = cells_needed(brew), cells_pitched(brew)
            if want.typical <= 0 or have.low <= limits.too_many_times * want.high:
                continue
            times = number(have.typical / want.typical, 2)
            message = say("many-times", pitch=pitch, times=times).and_then(say("on-purpose"))
            yield Finding(path, Level.WARNING, message, gap=1.0, evidence=(row(want), row(have)))


def _dry(brew: Brew, limits: Limits, pitch: Quantity) -> Iterator[Finding]:
    lager = yeast_class(brew) == YeastSort.LAGER
    usual = limits.lager_g_per_l if lager else limits.ale_g_per_l
    strength, text = wort_strength(brew)
    degrees = plato(strength.typical)
    least = usual * max(1.0, degrees / limits.strong_plato) * min(1.0, degrees / limits.weak_plato)
    slack = least * limits.a_little_percent / 100  # no rate is weighed or counted closer
    rate = dry_g_per_l(brew, pitch)
    if not below(rate, least):
        return
    path = brew.recipe.yeast[0].pitch.path
    volume = into_fermenter(brew)
    if number(least, 2) == number(usual, 2):
        wants = say("a-lager-wants" if lager else "an-ale-wants", least=number(least, 2))
    else:
        wants = say("a-strong-lager-wants" if lager else "a-strong-ale-wants", strength=text, least=number(least, 2))
    if pitch.kind is Kind.DOSE:
        message = say("thin", pitch=pitch).and_then(wants)
    else:
        message = say("too-little", pitch=pitch, rate=told(rate.typical, least)).and_then(wants)
    knobs: tuple[Knob, ...] = (_more(brew, pitch, least / rate.typical),) if rate.typical > 0 else ()
    meant = same_number(pitch, "g") if pitch.unit == "mg" else None
    if meant is not None and rate.typical * 1000 >= least / 2:  # so many g in place of mg
        message = message.and_then(say("did-you-mean", meant=meant))
        knobs = (another_text(path, meant, f"use {meant} instead of {pitch.text}"),)
    yield Finding(
        path,
        Level.WARNING if rate.typical < least - slack else Level.NOTE,
        message,
        gap=gap(rate, least),
        evidence=(
            Evidence("dry yeast pitched", rate.typical, "g/l", path),
            Evidence("wort", litres_in(brew, volume.typical), "", brew.recipe.batch.path),
        ),
        knobs=knobs,
    )


def _cells(brew: Brew, limits: Limits, pitch: Quantity) -> Iterator[Finding]:
    want, have = cells_needed(brew), cells_pitched(brew)
    if want.typical <= 0 or have.typical <= 0:
        return
    share = have.range * (100 / want.typical)
    if below(share, limits.cells_percent) not in (Level.WARNING, Level.ERROR):
        return
    path = brew.recipe.yeast[0].pitch.path
    _, text = wort_strength(brew)
    slack = limits.cells_percent * limits.a_little_percent / 100
    yield Finding(
        path,
        Level.WARNING if share.typical < limits.cells_percent - slack else Level.NOTE,
        say(
            "few-cells" if pitch.kind is Kind.CELLS else "brings-few-cells",
            pitch=pitch,
            brings=number(have.typical, 2),
            share=told(share.typical, limits.cells_percent),
            cells=number(want.typical, 2),
            strength=text,
        ),
        gap=gap(share, limits.cells_percent),
        evidence=(row(want), row(have)),
        related=(brew.recipe.batch.path,),
        knobs=(_more(brew, pitch, want.typical / have.typical),),  # what the wort needs, not the edge of the warning
    )


def _more(brew: Brew, pitch: Quantity, factor: float) -> Knob:
    """As much more of the same as is enough, rounded up to what can be weighed or bought."""
    step = step_of(pitch.unit, pitch.kind)
    value = ceil(pitch.range.typical * factor / step - 1e-9) * step
    text = said(value, pitch.unit, pitch.kind)
    path = brew.recipe.yeast[0].pitch.path
    return another_text(path, text, f"pitch {text} instead of {pitch.text}")


SOUND = """\
recipe: Cold Store Lager
by: Saltmarsh Lane Mash Circle
batch: 20 l
grist:
  - {grain: Pilsner malt, weight: 4.4 kg}
yeast: {kind: Bavarian lager, pitch: 23 g}
ferment: [{at: 10 °C, for: 14 d}]
targets: {og: 1.050}
"""
FAULTY = Example(
    """\
recipe: Cold Store Lager
by: Saltmarsh Lane Mash Circle
batch: 20 l
grist:
  - {grain: Pilsner malt, weight: 4.4 kg}
yeast: {kind: Bavarian lager, pitch: 11 g}
ferment: [{at: 10 °C, for: 14 d}]
targets: {og: 1.050}
""",
    "warning",
    6,
    38,
    "11 g of dry yeast is 0.55 g/l; a lager needs at least 0.7 g/l",
)
