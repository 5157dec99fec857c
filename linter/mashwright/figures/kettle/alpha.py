"""The alpha acids of an addition of hops: stated, of a lot or of the cultivar, less what age has taken."""

from datetime import date

from msgspec import Struct

from mashwright.brew.board import spread
from mashwright.brew.brew import Brew
from mashwright.brew.guess import alpha_percent
from mashwright.brew.own import hop_of
from mashwright.brewing.bitterness import alpha_kept
from mashwright.ingredients.hops import FROM_MEMORY
from mashwright.ingredients.kinds import HopForm
from mashwright.measures.constants import MIN_PER_MONTH
from mashwright.measures.quantity import Kind, said, to_canonical
from mashwright.measures.range import Range
from mashwright.recipe.model import Hop
from mashwright.recipe.stated import Open, Unknown

# Hops are kept between frozen (and sealed, which halves the loss once more) and a warm room; common practice.
FROZEN_C, FRIDGE_C, ROOM_C = -35.0, 5.0, 20.0
USUAL_LOSS_PERCENT = Range(20, 35, 50)  # in six months, of a cultivar whose loss is not known; common practice
_MONTHS_OF_A_HARVEST = Range(0, 6, 18)  # age on a brew day that is not stated; common practice


class Alpha(Struct, frozen=True, gc=False):
    """The alpha acids of an addition.

    Attributes:
        kg: what goes in.
        percent: of the hops, or None where they are counted in alpha units.
        assumed: what the recipe does not say.
        memory: the values rest on memory alone.
    """

    kg: Range
    percent: Range | None
    assumed: tuple[str, ...] = ()
    memory: bool = False
    sources: tuple[str, ...] = ()


def alpha_of(brew: Brew, hop: Hop) -> Alpha:
    """The alpha acids of an addition: as stated, of its lot, else of its cultivar; less what age has taken.

    Raises:
        Unknown: nothing says them.
    """
    lot = brew.brewhouse.lots.get(hop.lot or hop.name)
    percent: Range | None = None
    sources: tuple[str, ...] = ()
    assumed, memory = list[str](), False
    if not hop.alpha_units.known or hop.weight.known:
        if hop.alpha.known:
            percent = hop.alpha.range
        elif lot is not None and lot.alpha.known:
            percent = lot.alpha.range
        elif not hop.alpha_units.known:
            entry = hop_of(brew.brewhouse, lot.of if lot is not None else hop.name)
            if entry is not None and entry.alpha is not None:
                percent, sources = entry.alpha, dict(entry.sources).get("alpha", ())
                memory = sources == FROM_MEMORY
                why = "since none is stated" if sources else "by the brewhouse"
            else:
                percent = alpha_percent(brew.guess)
                why = "of which nothing is known" if entry is None else "whose own is not known"
            assumed.append(f"{said(percent, '%', Kind.SHARE)} alpha acid for {hop.name}, {why}")
    bounds = brew.bounds
    most = bounds.most_alpha_in_extract_percent if hop.form == HopForm.EXTRACT else bounds.most_alpha_percent
    if percent is not None and percent.typical > most:
        raise Open(f"a plausible alpha acid of {hop.name}", hop.alpha.path)
    if percent is not None and hop.weight.known:
        kg = Range.span(lambda weight, share: weight * share / 100, hop.weight.range, percent)
    elif hop.alpha_units.known:
        kg = hop.alpha_units.range * (to_canonical(1, "oz", Kind.MASS) / 100)  # ounces times per cent
    else:
        raise Unknown(f"the weight of {hop.name}", hop.weight.path)
    kept = _kept(brew, hop, lot.of if lot is not None else hop.name)
    if kept is not None and (hop.alpha.known or hop.alpha_units.known):
        # the alpha acid beside an age or a harvest is that of the brew day; at the worst it is that of the harvest
        kg = kg.times(Range(kept.low, 1.0, 1.0))
        when = "its age" if hop.age.known else "the brew day"
        assumed.append(f"the stated alpha acid of {hop.name} as that of {when}, and not aged again")
    elif kept is not None:
        kg = kg.times(kept)
        assumed.append(f"{spread(kept * 100, 2)} % of the alpha acid of {hop.name} left at its age, kept cool")
    return Alpha(kg, percent, tuple(assumed), memory, sources)


def _kept(brew: Brew, hop: Hop, name: str) -> Range | None:
    """Share of the alpha acids that is left, by the age and the cultivar's storage loss; None where no age is said."""
    if hop.age.known:
        months = hop.age.range * (1 / MIN_PER_MONTH)
    elif hop.harvest:
        days = [day.date for day in brew.recipe.measured if day.date]
        months = _MONTHS_OF_A_HARVEST if not days else months_since(hop.harvest, min(days)) or _MONTHS_OF_A_HARVEST
    else:
        return None
    if months.low < 0:
        return None
    entry = hop_of(brew.brewhouse, name)
    loss = (entry.storage_loss if entry is not None else None) or USUAL_LOSS_PERCENT
    return Range(
        alpha_kept(loss.high, months.high, ROOM_C),
        alpha_kept(loss.typical, months.typical, FRIDGE_C),
        alpha_kept(loss.low, months.low, FROZEN_C),
    )


def months_since(harvest: str, day: str) -> Range | None:
    """Months from a harvest to a day YYYY-MM-DD; None where the calendar has no such day or the harvest comes after it.

    Args:
        harvest: a year, YYYY-MM or YYYY-MM-DD. A bare year is taken as the northern autumn or the southern one half a
            year before.
    """
    bare = harvest.isdecimal()
    try:
        now = date.fromisoformat(day)
        picked = date(int(harvest), 9, 1) if bare else date.fromisoformat(f"{harvest}-01"[:10])
    except ValueError:
        return None
    passed = float(12 * (now.year - picked.year) + now.month - picked.month)
    months = Range(max(0.0, passed), max(0.0, passed), max(0.0, passed + 6.0)) if bare else Range.exact(passed)
    return months if months.low >= 0 and months.high < 1200 else None
