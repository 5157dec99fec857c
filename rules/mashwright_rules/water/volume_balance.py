"""Do the stated waters give the stated boil, and the boil the batch?

Every litre of water (liquor) goes somewhere: into the grain, under the false bottom, up as steam, down with hops and
trub, or into the fermenter. A recipe whose waters do not add up gives another volume, and so another strength.

Computed: strike, infusions, cereal mash, sparge, steep and top-up, less about 1 l kept by each kg of grain (0.6-1.0
in a bag) and the dead space, against the stated volume before the boil. That, less the boil-off, 4 % for cooling and
what the kettle keeps, against the batch in the fermenter. And the waters against the batch, whether a boil is stated
or not: two halves that are each a little short are said once, as the whole; where waters and batch agree, it is the
boil's volume that is off. The brewhouse's losses are taken where it states them, usual ones with a wide range else. A
warning where the typical sum is a tenth off; an error where a top-up is stated and even the favourable end is a
quarter short. Without a stated top-up water may have been added that nobody wrote down, so short is a warning that
asks for it. Too much is a note, and a warning from a quarter; of a parti-gyle, whose waters are another beer's too,
it is nothing. Where no brewhouse states the boil-off, a batch that the range of the sum holds is none; one that comes
short is a note, and a warning only if even the favourable end is a tenth short. Silent where a water is not stated,
and for malt extract boiled small without a stated top-up in the fermenter; boiled full, it is a note that says how
much to top up.

On the day: mark litres on a stick for kettle and tun; what is left over stays in the tun, what is short is sparged
before the boil. Stay away from the steam when you measure.

Sources: [grain-absorption-page] [oxford-evaporation] [boil-off-pages] [boil-off-forum] [iapws-95]
[catalogue-conversions] hops, [common-practice]
"""

from collections.abc import Iterator
from typing import NamedTuple

from mashwright.brew import MALT_EXTRACTS, Brew, Pour, kit, litres_in
from mashwright.brewing.volumes import COOLED_SHARE
from mashwright.figures.kettle import from_waters, left_for_fermenter, pre_boil_volume
from mashwright.knobs import Knob, one_change, stated_instead
from mashwright.measures import Kind, Quantity, Range, from_canonical, said
from mashwright.rule import Edit, Evidence, Example, Finding, Level, Limit, Path, Settings, Unknown, differs


class Limits(Settings):
    """What is compared with."""

    off_percent = Limit(10, "%", low=3, high=40, source="judgement")
    far_off_percent = Limit(25, "%", low=5, high=60, source="judgement")


Given = tuple[Range, tuple[Pour, ...]]


class _End(NamedTuple):
    """A volume before the boil against the batch.

    Attributes:
        comes, wanted: l, in the fermenter; before the boil where the batch is counted in kettle or package.
        level: None where they agree.
        perhaps: what it would be if little boiled away, where nothing is surely wrong; "" else.
        to_top_up: l that malt extract boiled full still wants in the fermenter; 0 for all else.
    """

    comes: Range
    wanted: Range
    level: Level | None
    perhaps: str = ""
    to_top_up: float = 0.0

    @property
    def off(self) -> float:
        """How far off, as a share; below 0 if short."""
        return (self.comes.typical - self.wanted.typical) / self.wanted.typical


def check(brew: Brew, limits: Limits) -> Iterator[Finding]:
    boil, stated = brew.recipe.boil, None
    if boil.volume.known and boil.volume.range.low > 0:
        stated = boil.volume
    given = _from_waters(brew)
    if stated is None:
        if given is not None and (whole := _end(brew, given[0], limits, all_said=_all_said(brew))) is not None:
            yield from _waters_and_batch(brew, given, whole)
        return
    second = _end(brew, stated.range, limits)
    if given is None:
        if second is not None:
            yield from _boil_and_batch(brew, second, stated, ())
        return
    first, whole = _level(brew, given[0], stated.range, limits), _end(brew, given[0], limits)
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


def _from_waters(brew: Brew) -> Given | None:
    try:
        return from_waters(brew)
    except Unknown:
        return None


def _level(brew: Brew, value: Range, stated: Range, limits: Limits) -> Level | None:
    """Short is a warning from a tenth and an error from a surely missing quarter; too much is one level less.

    Where no top-up is stated, water may have been added that nobody wrote down: then short is a warning at most.
    """
    off = differs(value, stated, stated.typical * limits.off_percent / 100)
    if not off:
        return None
    far = differs(value, stated, stated.typical * limits.far_off_percent / 100)
    if value.typical > stated.typical:
        if brew.intent.parti_gyle:
            return None  # the rest is another beer's
        return Level.WARNING if far is Level.ERROR else Level.NOTE
    return Level.ERROR if far is Level.ERROR and brew.recipe.top_up.known else Level.WARNING


def _if_unsaid(brew: Brew, *, short: bool) -> str:
    """What to write where water that is missing may have been added and not written down."""
    return "; if more water goes in, state `top-up`" if short and not brew.recipe.top_up.known else ""


def _end(brew: Brew, before: Range, limits: Limits, *, all_said: bool = True) -> _End | None:
    """What a volume before the boil makes of the batch; None where nothing can be said of that.

    Args:
        brew: the recipe.
        before: hot, l.
        limits: of the rule.
        all_said: no water can be missing by silence alone.
    """
    batch = brew.recipe.batch
    if not batch.stated.known or batch.stated.range.low <= 0:
        return None
    needed = pre_boil_volume(brew).range
    topped = brew.recipe.top_up.fermenter.known
    extract = not topped and any(part.kind in MALT_EXTRACTS for part in brew.grist())
    short = before.typical < needed.typical
    if short and (before.typical < batch.stated.range.typical if extract else not all_said):
        return None  # topped up anyhow, or sparged with what nobody states
    if not batch.fermenter.known:
        comes, wanted = before, needed
    else:
        comes, wanted = left_for_fermenter(brew, before), batch.fermenter.range
    level = _level(brew, comes, wanted, limits)
    kettle = kit(brew).kettle
    assumed = not kettle.boil_off.known
    if not level or not short:
        return _End(comes, wanted, None if assumed and _may_be(comes, wanted) else level)
    if extract:
        missing = COOLED_SHARE * (wanted.typical - comes.typical) if not batch.fermenter.known else 0.0
        return _End(comes, wanted, Level.NOTE, to_top_up=missing or wanted.typical - comes.typical)
    if assumed and _may_be(comes, wanted):
        return _End(comes, wanted, None)
    if level is Level.WARNING and assumed and differs(comes, wanted, _tenth(wanted, limits)) is not Level.ERROR:
        return _End(comes, wanted, Level.NOTE, _if_little_boils_away(brew, comes, wanted))
    return _End(comes, wanted, level)


def _may_be(comes: Range, wanted: Range) -> bool:
    """Whether one of the two lies within the range of the other, which holds what may boil away."""
    return comes.low <= wanted.typical <= comes.high or wanted.low <= comes.typical <= wanted.high


def _tenth(wanted: Range, limits: Limits) -> float:
    return wanted.typical * limits.off_percent / 100


def _if_little_boils_away(brew: Brew, comes: Range, wanted: Range) -> str:
    batch = brew.recipe.batch
    counted = batch.fermenter.known
    most = f"up to {litres_in(brew, comes.high)}" if counted else f"{litres_in(brew, wanted.low)} is enough"
    return f"; {most} if little boils away, which is not stated"


def _waters_and_boil(brew: Brew, given: Given, stated: Quantity, level: Level) -> Iterator[Finding]:
    value, pours = given
    brings = said(value.typical, stated.unit, Kind.VOLUME)
    path: Path = brew.recipe.boil.volume.path
    message = f"the stated waters bring about {brings} to the kettle, not {stated.text}"
    message += _if_unsaid(brew, short=value.typical < stated.range.typical)
    off = abs(value.typical - stated.range.typical) / stated.range.typical
    knobs = (
        *_other_sparge(brew, stated.range.typical - value.typical),
        stated_instead(path, stated, value.typical, "boil"),
    )
    yield Finding(path, level, message, round(off, 4), _rows(brew, pours), _paths(pours), knobs)


def _boil_alone(brew: Brew, given: Given, stated: Quantity, level: Level, off: float) -> Finding:
    """Waters and batch agree, so the boil between them is what is wrong."""
    value, pours = given
    brings, takes = (said(one, stated.unit, Kind.VOLUME) for one in (value.typical, _needed(brew)))
    path: Path = brew.recipe.boil.volume.path
    message = (
        f"the stated waters bring about {brings} to the kettle and the batch takes about {takes}, not {stated.text}"
    )
    knobs = (stated_instead(path, stated, value.typical, "boil"),)
    return Finding(
        path, level, message, round(abs(off), 4), _rows(brew, pours), (brew.recipe.batch.path, *_paths(pours)), knobs
    )


def _whole(brew: Brew, given: Given, stated: Quantity, whole: _End) -> Iterator[Finding]:
    """From the waters to the batch, where each half hides a part of what is off."""
    assert whole.level
    value, pours = given
    brings = said(value.typical, stated.unit, Kind.VOLUME)
    message = f"the stated waters bring about {brings} to the kettle, not {stated.text}, and {_leave(brew, whole)}"
    message += _rest(brew, whole)
    path: Path = brew.recipe.boil.volume.path
    needed = _needed(brew)
    knobs: tuple[Knob, ...] = ()
    if (sparge := _sparge_text(brew, needed - value.typical)) is not None:
        place, text, instead = sparge
        volume = said(needed, stated.unit, Kind.VOLUME)
        say = f"sparge with {text} instead of {instead} and boil {volume} instead of {stated.text}"
        knobs = (one_change((Edit(place, text), Edit(path, volume)), say),)
    related = (brew.recipe.batch.path, *_paths(pours))
    yield Finding(path, whole.level, message, round(abs(whole.off), 4), _rows(brew, pours, needed), related, knobs)


def _leave(brew: Brew, whole: _End) -> str:
    """What is left for the batch, in words."""
    batch = brew.recipe.batch
    if not batch.fermenter.known:
        stated = batch.stated.need("the size of the batch")
        return f"{stated.text} needs about {litres_in(brew, whole.wanted.typical)} before the boil"
    return f"leave about {litres_in(brew, whole.comes.typical)} for the fermenter, not {batch.fermenter.text}"


def _rest(brew: Brew, end: _End) -> str:
    if end.to_top_up > 0:
        return f"; top up with about {litres_in(brew, end.to_top_up)}"
    return end.perhaps or _if_unsaid(brew, short=end.off < 0)


def _waters_and_batch(brew: Brew, given: Given, whole: _End) -> Iterator[Finding]:
    """Where no volume of the boil is stated."""
    if not whole.level:
        return
    value, pours = given
    batch, sparge, needed = brew.recipe.batch, brew.recipe.sparge, _needed(brew)
    if batch.fermenter.known:
        message = f"the stated waters {_leave(brew, whole)}{_rest(brew, whole)}"
    else:
        message = f"{_leave(brew, whole)}, and there are {litres_in(brew, value.typical)}{_rest(brew, whole)}"
    path: Path = sparge.water.path if sparge.water.known else brew.recipe.batch.path
    knobs = _topped_up(brew, whole) or _other_sparge(brew, needed - value.typical)
    yield Finding(
        path,
        whole.level,
        message,
        round(abs(whole.off), 4),
        _rows(brew, pours, needed),
        (brew.recipe.batch.path,),
        knobs,
    )


def _boil_and_batch(brew: Brew, end: _End, stated: Quantity, pours: tuple[Pour, ...]) -> Iterator[Finding]:
    batch = brew.recipe.batch
    if not end.level or not batch.stated.known:
        return
    needed = _needed(brew)
    takes = said(needed, stated.unit, Kind.VOLUME)
    if not batch.fermenter.known:
        message = f"{_leave(brew, end)}, and there are {litres_in(brew, end.comes.typical)}{_rest(brew, end)}"
    else:
        left = litres_in(brew, end.comes.typical)
        message = f"{stated.text} before the boil leaves about {left} for the fermenter, not {batch.fermenter.text}"
        message += (_rest(brew, end) if end.to_top_up > 0 or end.perhaps else "") or f"; it takes about {takes}"
        message += _if_unsaid(brew, short=end.off < 0) if end.to_top_up <= 0 and not end.perhaps else ""
    path: Path = brew.recipe.boil.volume.path
    knobs = _topped_up(brew, end) or (stated_instead(path, stated, needed, "boil"),)
    yield Finding(
        path, end.level, message, round(abs(end.off), 4), _rows(brew, pours, needed), (brew.recipe.batch.path,), knobs
    )


def _needed(brew: Brew) -> float:
    return pre_boil_volume(brew).typical


def _all_said(brew: Brew) -> bool:
    """Whether the sparge is stated, so that no water can be missing by silence alone; extract takes none."""
    return brew.recipe.sparge.known or not brew.recipe.mash.known


def _rows(brew: Brew, pours: tuple[Pour, ...], needed: float = 0.0) -> tuple[Evidence, ...]:
    """What is needed and what is poured, in the unit of the batch."""
    batch, top_up = brew.recipe.batch, brew.recipe.top_up
    unit = batch.stated.unit if batch.stated.known else "l"

    def row(label: str, litres: float, path: Path) -> Evidence:
        return Evidence(label, from_canonical(litres, unit, Kind.VOLUME), unit, path)

    rows = [row("needed before the boil", needed, brew.recipe.batch.path)] if needed > 0 else []
    rows += [row(pour.name, pour.litres.typical, pour.path) for pour in pours if pour.litres.high > 0]
    if pours and top_up.kettle.known:
        rows.append(row("top-up in the kettle", top_up.kettle.range.typical, top_up.kettle.path))
    return tuple(rows)


def _paths(pours: tuple[Pour, ...]) -> tuple[Path, ...]:
    return tuple(pour.path for pour in pours if pour.stated)


def _sparge_text(brew: Brew, more_l: float) -> tuple[Path, str, str] | None:
    """Where the sparge water stands, what it is with so much more, and what is stated; None if none would be left."""
    sparge = brew.recipe.sparge
    if not sparge.water.known or sparge.water.range.typical + more_l <= 0:
        return None
    text = said(sparge.water.range.typical + more_l, sparge.water.unit, Kind.VOLUME)
    return sparge.water.path, text, sparge.water.text


def _other_sparge(brew: Brew, more_l: float) -> tuple[Knob, ...]:
    """So much more or less sparge water, where some is stated and some is left."""
    if (sparge := _sparge_text(brew, more_l)) is None:
        return ()
    path, text, instead = sparge
    return (one_change((Edit(path, text),), f"sparge with {text} instead of {instead}"),)


def _topped_up(brew: Brew, end: _End) -> tuple[Knob, ...]:
    """What malt extract boiled full still wants, poured into the fermenter."""
    batch = brew.recipe.batch
    if end.to_top_up <= 0 or not batch.known or (batch.kettle.known and not batch.fermenter.known):
        return ()
    text = litres_in(brew, end.to_top_up)
    top_up = brew.recipe.top_up
    edit = (
        Edit(top_up.fermenter.path, text) if top_up.known else Edit(brew.recipe.top_up.path, f"{{fermenter: {text}}}")
    )
    return (one_change((edit,), f"top up the fermenter with {text}"),)


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
    "the stated waters bring about 20.2 l to the kettle, not 26 l; if more water goes in, state `top-up`",
)
