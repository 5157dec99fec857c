"""What waters and boil make of the batch, and how far off that is."""

from typing import NamedTuple

from mashwright.brew import MALT_EXTRACTS, Brew, Pour, kit, litres_in
from mashwright.brewing.volumes import COOLED_SHARE
from mashwright.figures.kettle import from_waters, left_for_fermenter, pre_boil_volume
from mashwright.measures import Range
from mashwright.rule import Level, Say, Unknown, differs, say

Given = tuple[Range, tuple[Pour, ...]]


class Allowed(NamedTuple):
    """How far off a volume may be, %: a little, and by far."""

    off_percent: float
    far_off_percent: float


class End(NamedTuple):
    """A volume before the boil against the batch.

    Attributes:
        comes, wanted: l, in the fermenter; before the boil where the batch is counted in kettle or package.
        level: None where they agree.
        perhaps: what it would be if little boiled away, where nothing is surely wrong; None else.
        to_top_up: l that malt extract boiled full still wants in the fermenter; 0 for all else.
    """

    comes: Range
    wanted: Range
    level: Level | None
    perhaps: Say | None = None
    to_top_up: float = 0.0

    @property
    def off(self) -> float:
        """How far off, as a share; below 0 if short."""
        return (self.comes.typical - self.wanted.typical) / self.wanted.typical


def waters_of(brew: Brew) -> Given | None:
    try:
        return from_waters(brew)
    except Unknown:
        return None


def needed_l(brew: Brew) -> float:
    return pre_boil_volume(brew).typical


def all_said(brew: Brew) -> bool:
    """Whether the sparge is stated, so that no water can be missing by silence alone; extract takes none."""
    return brew.recipe.sparge.known or not brew.recipe.mash.known


def level(brew: Brew, value: Range, stated: Range, allowed: Allowed) -> Level | None:
    """Short is a warning from a tenth and an error from a surely missing quarter; too much is one level less.

    Where no top-up is stated, water may have been added that nobody wrote down: then short is a warning at most.
    """
    off = differs(value, stated, stated.typical * allowed.off_percent / 100)
    if not off:
        return None
    if value.typical < stated.typical and brew.recipe.top_up.kettle_as_needed:
        return None  # what is missing goes in, on purpose unsaid
    far = differs(value, stated, stated.typical * allowed.far_off_percent / 100)
    if value.typical > stated.typical:
        if brew.intent.parti_gyle and brew.of_mash is None:
            return None  # the rest is another beer's
        return Level.WARNING if far is Level.ERROR else Level.NOTE
    return Level.ERROR if far is Level.ERROR and brew.recipe.top_up.known else Level.WARNING


def end_of(brew: Brew, before: Range, allowed: Allowed, *, all_said: bool = True) -> End | None:
    """What a volume before the boil makes of the batch; None where nothing can be said of that.

    Args:
        brew: the recipe.
        before: hot, l.
        allowed: how far off it may be.
        all_said: no water can be missing by silence alone.
    """
    batch = brew.recipe.batch
    if not batch.stated.known or batch.stated.range.low <= 0:
        return None
    needed = pre_boil_volume(brew).range
    topped = brew.recipe.top_up.fermenter.known
    extract = not topped and any(part.kind in MALT_EXTRACTS for part in brew.grist())
    short = before.typical < needed.typical
    if short and (brew.recipe.top_up.kettle_as_needed or brew.recipe.top_up.fermenter_as_needed):
        return None
    if short and (before.typical < batch.stated.range.typical if extract else not all_said):
        return None  # topped up anyhow, or sparged with what nobody states
    if not batch.fermenter.known:
        comes, wanted = before, needed
    else:
        comes, wanted = left_for_fermenter(brew, before), batch.fermenter.range
    if wanted.typical <= 0:
        return None  # more is topped up than the batch is, which is another question
    worst = level(brew, comes, wanted, allowed)
    kettle = kit(brew).kettle
    assumed = not kettle.boil_off.known
    if not worst or not short:
        return End(comes, wanted, None if assumed and _may_be(comes, wanted) else worst)
    if extract:
        missing = COOLED_SHARE * (wanted.typical - comes.typical) if not batch.fermenter.known else 0.0
        return End(comes, wanted, Level.NOTE, to_top_up=missing or wanted.typical - comes.typical)
    if assumed and _may_be(comes, wanted):
        return End(comes, wanted, None)
    if worst is Level.WARNING and assumed and differs(comes, wanted, _tenth(wanted, allowed)) is not Level.ERROR:
        return End(comes, wanted, Level.NOTE, _if_little_boils_away(brew, comes, wanted))
    return End(comes, wanted, worst)


def _may_be(comes: Range, wanted: Range) -> bool:
    """Whether one of the two lies within the range of the other, which holds what may boil away."""
    return comes.low <= wanted.typical <= comes.high or wanted.low <= comes.typical <= wanted.high


def _tenth(wanted: Range, allowed: Allowed) -> float:
    return wanted.typical * allowed.off_percent / 100


def _if_little_boils_away(brew: Brew, comes: Range, wanted: Range) -> Say:
    if brew.recipe.batch.fermenter.known:
        return say("perhaps-up-to", most=litres_in(brew, comes.high))
    return say("perhaps-enough", least=litres_in(brew, wanted.low))
