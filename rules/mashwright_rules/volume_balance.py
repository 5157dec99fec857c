"""Do the stated waters give the stated boil, and the boil the batch?

Every litre of water (liquor) goes somewhere: into the grain, under the false bottom, up as steam, down with hops and
trub, or into the fermenter. A recipe whose waters do not add up gives another volume, and so another strength.

Computed: strike, infusions, cereal mash, sparge, steep and top-up, less about 1 l kept by each kg of grain (0.6-1.0
in a bag) and the dead space, against the stated volume before the boil. That, less the boil-off, 4 % for cooling and
what the kettle keeps, against the batch in the fermenter. Or, where no boil is stated, the waters against the batch.
The brewhouse's losses are taken where it states them, usual ones with a wide range else. A warning where the typical
sum is a tenth off, an error where even the favourable end is a quarter short; too much is a note, and a warning from a
quarter. Silent where a water is not stated, and for malt extract boiled small, which is topped up anyhow.

On the day: mark litres on a stick for kettle and tun; what is left over stays in the tun, what is short is sparged
before the boil. Stay away from the steam when you measure.

Sources: [grain-absorption-page] [oxford-evaporation] [iapws-95] [catalogue-conversions] hops, [common-practice]
"""

from collections.abc import Iterator

from mashwright.rule import (
    MALT_EXTRACTS,
    Brew,
    Evidence,
    Example,
    Finding,
    Kind,
    Knob,
    Level,
    Limit,
    Path,
    Pour,
    Quantity,
    Range,
    Settings,
    Unknown,
    differs,
    from_waters,
    left_for_fermenter,
    litres_in,
    pre_boil_volume,
    said,
    stated_instead,
)


class Limits(Settings):
    """What is compared with."""

    off_percent = Limit(10, "%", low=3, high=40, source="judgement")
    far_off_percent = Limit(25, "%", low=5, high=60, source="judgement")


def check(brew: Brew, limits: Limits) -> Iterator[Finding]:
    boil, stated = brew.recipe.boil, None
    if boil is not None and boil.volume is not None and boil.volume.range.low > 0:
        stated = boil.volume
    given = _from_waters(brew)
    if given is not None and stated is not None:
        yield from _waters_and_boil(brew, given, stated, limits)
    before = stated.range if stated is not None else given[0] if given is not None else None
    if before is not None:
        yield from _boil_and_batch(brew, before, stated, given, limits)


Given = tuple[Range, tuple[Pour, ...]]


def _from_waters(brew: Brew) -> Given | None:
    try:
        return from_waters(brew)
    except Unknown:
        return None


def _level(value: Range, stated: Range, limits: Limits) -> Level | None:
    """Short is a warning from a tenth and an error from a surely missing quarter; too much is one level less."""
    off = differs(value, stated, stated.typical * limits.off_percent / 100)
    if off is None:
        return None
    far = differs(value, stated, stated.typical * limits.far_off_percent / 100)
    if value.typical > stated.typical:
        return Level.WARNING if far is Level.ERROR else Level.NOTE
    return Level.ERROR if far is Level.ERROR else Level.WARNING


def _waters_and_boil(brew: Brew, given: Given, stated: Quantity, limits: Limits) -> Iterator[Finding]:
    value, pours = given
    if (level := _level(value, stated.range, limits)) is None:
        return
    brings = said(value.typical, stated.unit, Kind.VOLUME)
    path: Path = ("boil", "volume")
    message = f"the stated waters bring about {brings} to the kettle, not {stated.text}"
    off = abs(value.typical - stated.range.typical) / stated.range.typical
    knobs = (
        *_other_sparge(brew, stated.range.typical - value.typical),
        stated_instead(path, stated, value.typical, "boil"),
    )
    yield Finding(path, level, message, round(off, 4), _rows(pours), _paths(pours), knobs)


def _boil_and_batch(
    brew: Brew, before: Range, stated: Quantity | None, given: Given | None, limits: Limits
) -> Iterator[Finding]:
    recipe, batch = brew.recipe, brew.recipe.batch
    if batch is None or batch.stated is None or batch.stated.range.low <= 0:
        return
    extract = any(part.kind in MALT_EXTRACTS for part in brew.grist())
    small = before.typical < pre_boil_volume(brew).typical
    if small and (extract or (given is not None and stated is None and not _all_said(brew))):
        return
    if batch.fermenter is None:
        wanted = pre_boil_volume(brew).range
        level, left = _level(before, wanted, limits), said(before.typical, batch.stated.unit, Kind.VOLUME)
        needs = said(wanted.typical, batch.stated.unit, Kind.VOLUME)
        message = f"{batch.stated.text} needs about {needs} before the boil, and there are {left}"
        off = abs(before.typical - wanted.typical) / wanted.typical
    else:
        leaves = left_for_fermenter(brew, before)
        level, left = _level(leaves, batch.fermenter.range, limits), litres_in(brew, leaves.typical)
        source = f"{stated.text} before the boil leaves" if stated is not None else "the stated waters leave"
        message = f"{source} about {left} for the fermenter, not {batch.fermenter.text}"
        off = abs(leaves.typical - batch.fermenter.range.typical) / batch.fermenter.range.typical
    if level is None:
        return
    needed = pre_boil_volume(brew).typical
    if stated is not None:
        path: Path = ("boil", "volume")
        message += f"; it takes about {said(needed, stated.unit, Kind.VOLUME)}" if batch.fermenter is not None else ""
        knobs: tuple[Knob, ...] = (stated_instead(path, stated, needed, "boil"),)
    else:
        sparge = recipe.sparge
        path = (*sparge.path, "water") if sparge is not None and sparge.water is not None else ("batch",)
        knobs = _other_sparge(brew, needed - before.typical)
    rows = (
        Evidence("needed before the boil", needed, "l", ("batch",)),
        *(_rows(given[1]) if given is not None else ()),
    )
    yield Finding(path, level, message, round(off, 4), rows, (("batch",),), knobs)


def _all_said(brew: Brew) -> bool:
    """Whether the sparge is stated, so that no water can be missing by silence alone."""
    return brew.recipe.sparge is not None


def _rows(pours: tuple[Pour, ...]) -> tuple[Evidence, ...]:
    return tuple(Evidence(pour.name, pour.litres.typical, "l", pour.path) for pour in pours if pour.litres.high > 0)


def _paths(pours: tuple[Pour, ...]) -> tuple[Path, ...]:
    return tuple(pour.path for pour in pours if pour.stated)


def _other_sparge(brew: Brew, more_l: float) -> tuple[Knob, ...]:
    """So much more or less sparge water, where some is stated and some is left."""
    sparge = brew.recipe.sparge
    if sparge is None or sparge.water is None or sparge.water.range.typical + more_l <= 0:
        return ()
    litres = sparge.water.range.typical + more_l
    return (stated_instead((*sparge.path, "water"), sparge.water, litres, "sparge with"),)


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
    "the stated waters bring about 20.2 l to the kettle, not 26 l",
)
