"""Does the stated water give the stated boil, and the boil the batch?

Every litre of water goes somewhere: into grain, steam, hops and trub, under
the false bottom, or into the fermenter. If the volumes do not add up, the
recipe gives another volume, and so another strength.

What is checked: three sums. The brewhouse's losses count if it states them,
otherwise usual ones with a wide range.

  water and boil   strike water, infusions, cereal mash, sparge, steep and
                   top-up, less the dead space and about 1 l for each kg of
                   grain (0.6-1.0 l in a bag), against the stated boil
  boil and batch   that, less boil-off, 4 % for cooling and what the kettle
                   keeps, against the batch in the fermenter; a batch counted
                   elsewhere, by what it needs before the boil
  water and batch  the same from the stated water, with or without a stated
                   boil

- warning: over 10 % short. Without a stated `top-up`, water may go in that
  nobody wrote down, so the message asks for it.
- error: a `top-up` is stated, and even the best case is over 25 % short
- note: over 10 % too much; a warning if even the best case is over 25 %
- two parts off the same way, each by a little, are reported once, as a whole
- water and batch agree, but not the boil between them: the boil's volume is
  wrong
- the batch, if no brewhouse states the boil-off: no finding if the batch is
  within the range of the sum. Short is a note; a warning if even the best
  case is over 10 % short.
- note: malt extract, boiled in full, is short and states no top-up in the
  fermenter. The note says how much to top up.
- skipped: the same, boiled in less water than the batch
- skipped: too much in a parti-gyle, whose water goes into another beer too
- of several worts of one mash, each is judged by its part of the run-off
- skipped: a water that the recipe leaves open
- skipped: too little, where the `top-up` goes in `as needed`
- skipped: a mash in a bag that is short, and states neither sparge nor boil

On the day: mark the litres of kettle and tun on a stick. What is left over
stays in the tun; what is short is sparged before the boil. Keep clear of the
steam when you measure.

Sources: [grain-absorption-page] [oxford-evaporation] [boil-off-pages]
[boil-off-forum] [iapws-95] [catalogue-conversions] hops, [common-practice]
"""

from collections.abc import Iterator

from mashwright.brew import Brew, Pour, litres_in
from mashwright.knobs import Knob, one_change, stated_instead
from mashwright.measures import Kind, Quantity, said
from mashwright.rule import Edit, Example, Finding, Level, Limit, Path, Say, Settings, say
from mashwright_rules.water.volume_balance._changes import other_sparge, paths, rows, sparge_text, topped_up
from mashwright_rules.water.volume_balance._ends import (
    Allowed,
    End,
    Given,
    all_said,
    end_of,
    level,
    needed_l,
    waters_of,
)


class Limits(Settings):
    """What is compared with."""

    off_percent = Limit(10, "%", low=3, high=40, source="judgement")
    far_off_percent = Limit(25, "%", low=5, high=60, source="judgement")


SAYS = {
    "waters-and-boil": "the stated water gives about {brings} in the kettle, not {stated}",
    "boil-alone": "the stated water gives about {brings} in the kettle and the batch needs about {takes}, not {stated}",
    "waters-boil-and-batch": "the stated water gives about {brings} in the kettle, not {stated}; {batch} needs about"
    " {needed} before the"
    " boil",
    "waters-boil-and-fermenter": "the stated water gives about {brings} in the kettle, not {stated}, and leaves about"
    " {left} for the"
    " fermenter, not {batch}",
    "waters-and-fermenter": "the stated water leaves about {left} for the fermenter, not {batch}",
    "before-the-boil": "{batch} needs about {needed} before the boil; there are {brings}",
    "boil-and-fermenter": "{stated} before the boil leaves about {left} for the fermenter, not {batch}",
    "takes": "it needs about {takes}",
    "top-up": "top up with about {more}",
    "perhaps-up-to": "at most {most} if boil-off is low; state `boil-off`",
    "perhaps-enough": "{least} is enough if boil-off is low; state `boil-off`",
    "state-top-up": "if more water goes in, state `top-up`",
}


def check(brew: Brew, limits: Limits) -> Iterator[Finding]:
    if brew.recipe.worts:
        return  # each of them is asked for itself
    allowed = Allowed(limits.off_percent, limits.far_off_percent)
    boil, stated = brew.recipe.boil, None
    if boil.volume.known and boil.volume.range.low > 0:
        stated = boil.volume
    given = waters_of(brew)
    if stated is None:
        if given is not None and (whole := end_of(brew, given[0], allowed, all_said=all_said(brew))) is not None:
            yield from _waters_and_batch(brew, given, whole)
        return
    second = end_of(brew, stated.range, allowed)
    if given is None:
        if second is not None:
            yield from _boil_and_batch(brew, second, stated, ())
        return
    first, whole = level(brew, given[0], stated.range, allowed), end_of(brew, given[0], allowed)
    if second is not None and whole is not None:
        off = (given[0].typical - stated.range.typical) / stated.range.typical
        if first and second.level and not whole.level:
            yield _boil_alone(brew, given, stated, max(first, second.level), off)
            return
        halves = (first or 0, second.level or 0)
        hidden = 0 if not whole.level else whole.level
        if hidden >= max(halves) and (hidden > max(halves) or 0 not in halves) and off * second.off > 0:
            yield from _whole(brew, given, stated, whole)
            return
    if first:
        yield from _waters_and_boil(brew, given, stated, first)
    if second is not None:
        yield from _boil_and_batch(brew, second, stated, given[1])


def _before_the_boil(brew: Brew, end: End, brings_l: float) -> Say:
    """What the batch needs in the kettle against what is there, where it is not counted in the fermenter."""
    needed, brings = (litres_in(brew, litres) for litres in (end.wanted.typical, brings_l))
    return say("before-the-boil", batch=brew.recipe.batch.stated, needed=needed, brings=brings)


def _rest(brew: Brew, end: End) -> Say | None:
    """What is still to be said of a batch that the volumes do not give."""
    if end.to_top_up > 0:
        return say("top-up", more=litres_in(brew, end.to_top_up))
    return end.perhaps or _if_unsaid(brew, short=end.off < 0)


def _if_unsaid(brew: Brew, *, short: bool) -> Say | None:
    """What to write where water that is missing may have been added and not written down."""
    return say("state-top-up") if short and not brew.recipe.top_up.known else None


def _waters_and_boil(brew: Brew, given: Given, stated: Quantity, level: Level) -> Iterator[Finding]:
    value, pours = given
    brings = said(value.typical, stated.unit, Kind.VOLUME)
    path: Path = brew.recipe.boil.volume.path
    message = say("waters-and-boil", brings=brings, stated=stated)
    message = message.and_then(_if_unsaid(brew, short=value.typical < stated.range.typical))
    off = abs(value.typical - stated.range.typical) / stated.range.typical
    knobs = (
        *other_sparge(brew, stated.range.typical - value.typical),
        stated_instead(path, stated, value.typical, "boil"),
    )
    yield Finding(path, level, message, round(off, 4), rows(brew, pours), paths(pours), knobs)


def _boil_alone(brew: Brew, given: Given, stated: Quantity, level: Level, off: float) -> Finding:
    """Waters and batch agree, so the boil between them is what is wrong."""
    value, pours = given
    brings, takes = (said(one, stated.unit, Kind.VOLUME) for one in (value.typical, needed_l(brew)))
    path: Path = brew.recipe.boil.volume.path
    message = say("boil-alone", brings=brings, takes=takes, stated=stated)
    knobs = (stated_instead(path, stated, value.typical, "boil"),)
    return Finding(
        path, level, message, round(abs(off), 4), rows(brew, pours), (brew.recipe.batch.path, *paths(pours)), knobs
    )


def _whole(brew: Brew, given: Given, stated: Quantity, whole: End) -> Iterator[Finding]:
    """From the waters to the batch, where each half hides a part of what is off."""
    assert whole.level
    value, pours = given
    brings = said(value.typical, stated.unit, Kind.VOLUME)
    batch, boiled = brew.recipe.batch, {"brings": brings, "stated": stated}
    if batch.fermenter.known:
        left = litres_in(brew, whole.comes.typical)
        message = say("waters-boil-and-fermenter", **boiled, left=left, batch=batch.fermenter)
    else:
        message = say(
            "waters-boil-and-batch", **boiled, batch=batch.stated, needed=litres_in(brew, whole.wanted.typical)
        )
    path: Path = brew.recipe.boil.volume.path
    needed = needed_l(brew)
    knobs: tuple[Knob, ...] = ()
    if (sparge := sparge_text(brew, needed - value.typical)) is not None:
        place, text, instead = sparge
        volume = said(needed, stated.unit, Kind.VOLUME)
        words = f"sparge with {text} instead of {instead} and boil {volume} instead of {stated.text}"
        knobs = (one_change((Edit(place, text), Edit(path, volume)), words),)
    related = (brew.recipe.batch.path, *paths(pours))
    message = message.and_then(_rest(brew, whole))
    yield Finding(path, whole.level, message, round(abs(whole.off), 4), rows(brew, pours, needed), related, knobs)


def _waters_and_batch(brew: Brew, given: Given, whole: End) -> Iterator[Finding]:
    """Where no volume of the boil is stated."""
    if not whole.level:
        return
    value, pours = given
    batch, sparge, needed = brew.recipe.batch, brew.recipe.sparge, needed_l(brew)
    if batch.fermenter.known:
        left = litres_in(brew, whole.comes.typical)
        message = say("waters-and-fermenter", left=left, batch=batch.fermenter)
    else:
        message = _before_the_boil(brew, whole, value.typical)
    path: Path = sparge.water.path if sparge.water.known else brew.recipe.batch.path
    knobs = topped_up(brew, whole) or other_sparge(brew, needed - value.typical)
    yield Finding(
        path,
        whole.level,
        message.and_then(_rest(brew, whole)),
        round(abs(whole.off), 4),
        rows(brew, pours, needed),
        (brew.recipe.batch.path,),
        knobs,
    )


def _boil_and_batch(brew: Brew, end: End, stated: Quantity, pours: tuple[Pour, ...]) -> Iterator[Finding]:
    batch = brew.recipe.batch
    if not end.level or not batch.stated.known:
        return
    needed = needed_l(brew)
    takes = said(needed, stated.unit, Kind.VOLUME)
    if not batch.fermenter.known:
        message = _before_the_boil(brew, end, end.comes.typical).and_then(_rest(brew, end))
    else:
        left = litres_in(brew, end.comes.typical)
        message = say("boil-and-fermenter", stated=stated, left=left, batch=batch.fermenter)
        if end.to_top_up <= 0 and end.perhaps is None:
            message = message.and_then(say("takes", takes=takes))
        message = message.and_then(_rest(brew, end))
    path: Path = brew.recipe.boil.volume.path
    knobs = topped_up(brew, end) or (stated_instead(path, stated, needed, "boil"),)
    yield Finding(
        path, end.level, message, round(abs(end.off), 4), rows(brew, pours, needed), (brew.recipe.batch.path,), knobs
    )


SOUND = """\
recipe: Ebb and Flow
by: Saltmarsh Lane Mash Circle
batch: 20 l
grist:
  - {grain: pale ale malt, weight: 4.5 kg}
mash:
  water: 14 l
  rests:
    - {at: 66 °C, for: 60 min}
sparge: {by: batch, water: 17 l, at: 76 °C}
boil: {volume: 26 l, for: 60 min}
"""
FAULTY = Example(
    """\
recipe: Ebb and Flow
by: Saltmarsh Lane Mash Circle
batch: 20 l
grist:
  - {grain: pale ale malt, weight: 4.5 kg}
mash:
  water: 14 l
  rests:
    - {at: 66 °C, for: 60 min}
sparge: {by: batch, water: 11 l, at: 76 °C}
boil: {volume: 26 l, for: 60 min}
""",
    "warning",
    11,
    16,
    "the stated water gives about 20.2 l in the kettle, not 26 l; if more water goes in, state `top-up`",
)
