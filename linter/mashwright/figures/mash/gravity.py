"""Figures of the extract: how much there is, and how strong a wort it makes."""

from msgspec import Struct

from mashwright.brew.board import gravity, lines, number, share
from mashwright.brew.brew import Brew, OfMash
from mashwright.brew.once import once
from mashwright.brew.own_units import volume_unit, weight_in
from mashwright.brew.parts import Part, weighed
from mashwright.brew.pours import of_one_mash, with_top_up
from mashwright.brewing.extract import steeped_share, wort_limit_plato
from mashwright.brewing.gravity import extract_kg, gravity_of, plato, points
from mashwright.figures.figure import Figure
from mashwright.figures.function import figure
from mashwright.figures.mash.converting import conversion, follow, follow_to_run_off, starches_of
from mashwright.finding import Path
from mashwright.ingredients.kinds import Group, IngredientKind, Place
from mashwright.measures.quantity import Kind, said
from mashwright.measures.range import Range
from mashwright.recipe.stated import Unknown

_STEEP_KINDS: dict[str, str] = {
    IngredientKind.CARAMEL_MALT: "caramel",
    IngredientKind.ROASTED_MALT: "roasted",
    IngredientKind.KILNED_MALT: "kilned",
}
CONVERTED_WELL = 90.0  # %; below it a mash is worth a closer look, judgement
_WHOLE = Range.exact(1.0)
_PASTE = 0.5  # of what is released and not converted runs off all the same, as paste; judgement
_COLD_WATER = 0.2  # of malt's extract is there before any mash: 16-20 of its 80 %; common practice


class Delivery(Struct, frozen=True, gc=False):
    """What one part gives to the wort.

    Attributes:
        laboratory_kg: all the extract in it.
        share: what part of that arrives, 0-1; for mashed lines, the efficiency.
    """

    part: Part
    laboratory_kg: Range
    share: Range

    @property
    def typical_kg(self) -> float:
        """Extract that arrives, kg."""
        return self.laboratory_kg.typical * self.share.typical


@once
def deliveries(brew: Brew) -> tuple[Delivery, ...]:
    """What each part gives, hulls left out.

    Raises:
        Unknown: the extract of a part is not known.
    """
    return tuple(
        Delivery(part, part.weight.range.times(part.extract_share()), _arriving(brew, part))
        for part in weighed(brew.grist())
        if not part.hulls
    )


def _arriving(brew: Brew, part: Part) -> Range:
    if part.mashed and brew.has_enzymes:
        return _of_the_mashed(brew)
    if part.group != Group.GRAIN and not part.starchy_fruit:
        return _WHOLE
    lovibond = part.colour_lovibond.typical if part.colour_lovibond is not None else None
    # steeped, or in a mash without enzymes, which is no more than a steep
    return steeped_share(_STEEP_KINDS.get(part.kind, ""), lovibond)


def _of_the_mashed(brew: Brew) -> Range:
    """What part of the mashed extract arrives, 0-1."""
    return _efficiency(brew).times(converted_share(brew))


def _efficiency(brew: Brew) -> Range:
    """The efficiency as it is known before the starch is followed, 0-1."""
    if not brew.recipe.mash.reiterated:
        return brew.efficiency.share
    from mashwright.figures.mash.reiterated import efficiency_of_beds  # few mashes are

    return efficiency_of_beds(brew) or brew.efficiency.share


class Extract(Struct, frozen=True, gc=False):
    """Extract by the way it takes, kg: in the laboratory what a mash with enzymes holds, and what the rest gives.

    Attributes:
        arriving: what part of the mashed extract arrives, 0-1: the efficiency, less where the mash converts poorly.
    """

    mashed: Range
    other: Range
    arriving: Range


@once
def converted_share(brew: Brew) -> Range:
    """What the efficiency is cut to where the rests convert less than a usual mash does, 0-1; 1 where they do not.

    What a malt holds of sugar and the like dissolves even in the cold. A stated efficiency knows its mash, so that it
    is only cut where it is more than the mash converts.

    Source: judgement; what cold water dissolves common practice.
    """
    try:
        if follow(brew).typical.converted >= CONVERTED_WELL:
            return _WHOLE
        starch, mashed = starches_of(brew), follow_to_run_off(brew)
        ends = [
            one.converted + _PASTE * (one.released - one.converted)
            for one in (mashed.worst, mashed.typical, mashed.best)
        ]
        total = sum(part.amount * part.extract_share().typical for part in brew.mashed())
    except Unknown:
        return _WHOLE
    bound = sum(one.amount * (1 - _COLD_WATER if part.malted else 1.0) for part, one in starch)
    if total <= 0:
        return _WHOLE
    stated = brew.efficiency.share.typical if brew.efficiency.stated else 0.0

    def cut(converted: float) -> float:
        free = 1 - bound / total * (1 - min(1.0, converted / CONVERTED_WELL))
        return min(1.0, free / stated) if stated > 0 else free

    low, typical, high = (cut(converted) for converted in ends)
    return Range(min(low, typical), typical, max(high, typical))


def extract_of(brew: Brew) -> Extract:
    """The extract of a brew by the way it takes."""
    given = deliveries(brew)
    counted = brew.has_enzymes
    other = [one.laboratory_kg.times(one.share) for one in given if not (one.part.mashed and counted)]
    mashed = [(one.laboratory_kg, 1.0) for one in given if one.part.mashed and counted]
    arriving = _of_the_mashed(brew) if mashed else brew.efficiency.share
    return Extract(Range.weighted_sum(mashed), Range.weighted_sum([(one, 1.0) for one in other]), arriving)


@figure("potential-extract", unit="kg")
def potential_extract(brew: Brew) -> Figure:
    """Laboratory extract of the grist."""
    given = deliveries(brew)
    total = Range.weighted_sum([(one.laboratory_kg, 1.0) for one in given])

    def working() -> str:
        rows = [
            f"  {one.part.weight.text} × {share(one.part.extract_share().typical)}, {one.part.name}" for one in given
        ]
        return lines(
            ["each weight × its extract as it is weighed:", *rows, f"  = {weight_in(brew, total.typical)} of extract"]
        )

    return Figure(
        total,
        working,
        paths=tuple(one.part.path for one in given),
        assumed=tuple(
            f"{one.part.name} taken for a {one.part.kind}, since nothing is known of it"
            for one in given
            if one.part.guessed
        ),
        sources=tuple(key for one in given for key in one.part.sources),
        memory=bool(given) and all("extract" in one.part.memory for one in given),
    )


@figure("highest-og", unit="SG", sources=("nbs-c440",))
def highest_og(brew: Brew) -> Figure:
    """Highest possible original gravity."""
    total = potential_extract(brew)
    volume, counted = fermenter_volume(brew)
    value = Range.along(gravity_of, (total.range,), (volume,))
    return Figure(
        value,
        lambda: lines(
            [
                f"{weight_in(brew, total.typical)} of extract in {_litres(brew, volume)} ({counted})",
                f"  = {number(plato(value.typical), 3)} °P = {gravity(value.typical)}",
            ]
        ),
        paths=(*total.paths, brew.recipe.batch.path),
        parts=(("in °P", value.map(plato)),),
        memory=total.memory,
        sources=total.sources,
    )


@figure("og", unit="SG", sources=("nbs-c440",))
def og(brew: Brew) -> Figure:
    """Original gravity from this grist."""
    extract = extract_of(brew)
    efficiency = brew.efficiency
    volume, counted = brew.wort_volume()
    volume = with_top_up(brew, volume)
    value = Range.along(
        lambda m, e, o, v: gravity_of(m * e + o, v), (extract.mashed, extract.arriving, extract.other), (volume,)
    )
    paths = tuple(part.path for part in brew.grist() if not part.hulls)

    def working() -> str:
        arrives = extract.mashed.typical * extract.arriving.typical + extract.other.typical
        rows, free = [], converted_share(brew).typical
        poorly = f" × {share(free)}" if free < 1 else ""
        if extract.mashed.typical > 0:
            rows.append(
                f"mashed: {weight_in(brew, extract.mashed.typical)} × {share(_efficiency(brew).typical)}{poorly}"
                f" = {weight_in(brew, extract.mashed.typical * extract.arriving.typical)} of extract"
            )
        rows += [
            f"{one.part.name} ({one.part.place}): {weight_in(brew, one.laboratory_kg.typical)}"
            f" × {share(one.share.typical)} = {weight_in(brew, one.typical_kg)}"
            for one in deliveries(brew)
            if not (one.part.mashed and brew.has_enzymes)
        ]
        rows.append(f"together {weight_in(brew, arrives)} in {_litres(brew, volume)} ({counted})")
        rows.append(f"  = {number(plato(value.typical), 3)} °P = {gravity(value.typical)}")
        if (converted := _converted(brew)) is not None and converted < CONVERTED_WELL:
            less = f"so {share(free)} of the efficiency" if free < 1 else "which the stated efficiency allows for"
            rows.append(f"  these rests convert only {number(converted, 2)} % of the starch, {less}")
        return lines(rows)

    steeped = any(one.part.place == Place.STEEP or not brew.has_enzymes for one in deliveries(brew))
    return Figure(
        value,
        working,
        paths=(*paths, brew.recipe.batch.path, *((efficiency.path,) if efficiency.path else ())),
        assumed=(
            *((efficiency.assumed,) if efficiency.assumed and extract.mashed.typical > 0 else ()),
            *_kept_by_beds(brew),
            *brew.assumed_losses(),
        ),
        sources=(*(("palmer-steeping",) if steeped else ()), *potential_extract(brew).sources),
        parts=(("in °P", value.map(plato)),),
        memory=potential_extract(brew).memory,
    )


def _kept_by_beds(brew: Brew) -> tuple[str, ...]:
    if not brew.recipe.mash.reiterated:
        return ()
    from mashwright.figures.mash.reiterated import told_of_beds  # as above

    return told_of_beds(brew)


def _converted(brew: Brew) -> float | None:
    """Starch that the mash converts, %, or None where that cannot be said."""
    try:
        return conversion(brew).typical
    except Unknown:
        return None


def fermenter_volume(brew: Brew) -> tuple[Range, str]:
    """The wort that all extract is counted in, l, with what it is."""
    volume, counted = brew.wort_volume()
    return with_top_up(brew, volume), counted


def _litres(brew: Brew, volume: Range) -> str:
    return said(volume.typical, volume_unit(brew), Kind.VOLUME)


def fermenter_share(brew: Brew) -> float:
    """Share of the extract that only goes into the fermenter, 0-0.9; a stated OG may count it or not.

    Raises:
        Unknown: the extract of a line is not known.
    """
    given = deliveries(brew)
    total = sum(one.typical_kg for one in given)
    late = sum(one.typical_kg for one in given if one.part.place == Place.FERMENTER)
    return min(0.9, late / total) if total > 0 else 0.0


@figure("efficiency-needed", unit="%", sources=("nbs-c440",))
def efficiency_needed(brew: Brew) -> Figure:
    """Efficiency needed for the stated OG."""
    target = brew.recipe.targets.og.need("a stated OG")
    extract = extract_of(brew)
    if extract.mashed.typical <= 0:
        raise Unknown("mashed grain that gives extract", brew.recipe.grist.path)
    volume = fermenter_volume(brew)[0]
    value = Range.along(
        lambda sg, v, o, m: 100 * (extract_kg(v, sg) - o) / m, (target.range, volume), (extract.other, extract.mashed)
    )
    needed = extract_kg(volume.typical, target.range.typical)

    def working() -> str:
        rest = "" if extract.other.typical <= 0 else f" - {weight_in(brew, extract.other.typical)} that is not mashed"
        return lines(
            [
                f"{target.text} in {_litres(brew, volume)} holds {weight_in(brew, needed)} of extract{rest}",
                f"÷ {weight_in(brew, extract.mashed.typical)} in the mashed grain = {number(value.typical, 3)} %",
            ]
        )

    return Figure(
        value,
        working,
        paths=(brew.recipe.targets.og.path, brew.recipe.batch.path),
        sources=potential_extract(brew).sources,
    )


@figure("wort-limit", unit="°P", sources=("troester-efficiency",))
def wort_limit(brew: Brew) -> Figure:
    """Strongest wort from this grain and water."""
    if brew.of_mash is not None:
        return _strongest_of(brew.of_mash)
    if brew.recipe.mash.reiterated:
        from mashwright.figures.mash.reiterated import reiterated_limit  # as above

        return reiterated_limit(brew)
    water = mash_water(brew)
    if water is None:
        raise Unknown("the mash water", brew.recipe.mash.water.path)
    litres, path = water
    extract = extract_of(brew).mashed
    if extract.typical <= 0:
        raise Unknown("mashed grain that gives extract", brew.recipe.grist.path)
    moisture = sum(part.weight_kg * part.moisture.typical / 100 for part in brew.mashed())
    value = Range.along(lambda e, w: wort_limit_plato(e, w + moisture), (extract,), (litres,))
    return Figure(
        value,
        lambda: (
            f"100 × {weight_in(brew, extract.typical)} of extract ÷ ({weight_in(brew, litres.typical)} of water"
            f" + {weight_in(brew, moisture)} in the malt + {weight_in(brew, extract.typical)})\n"
            f"  = {number(value.typical, 3)} °P"
        ),
        paths=(path,),
        parts=(("as SG", value.map(_sg)),),
    )


def _strongest_of(of_mash: OfMash) -> Figure:
    """The strongest wort that its runnings can be."""
    if isinstance(of_mash.strongest, Unknown):
        raise of_mash.strongest.again()
    value = of_mash.strongest.map(plato)
    told = number(value.typical, 3)
    return Figure(
        value,
        lambda: f"its part of the runnings, if the mash dissolves all of its extract = {told} °P",
        paths=((*of_mash.path, "runnings"),),
        assumed=of_mash.assumed,
        parts=(("as SG", of_mash.strongest),),
    )


def _sg(degrees: float) -> float:
    from mashwright.brewing.gravity import specific_gravity

    return specific_gravity(degrees)


def mash_water(brew: Brew) -> tuple[Range, Path] | None:
    """All water that the mash is made with, l, or None where the recipe does not say."""
    mash = brew.recipe.mash
    if not mash.known:
        return None
    mash.water.readable("a readable water of the mash")
    mash.thickness.readable("a readable thickness of the mash")
    infused = [rest.water.range for rest in mash.rests if rest.water.known]
    cooker = brew.recipe.cereal_mash
    if cooker.water.known:
        infused.append(cooker.water.range)
    if mash.water.known:
        first, path = mash.water.range, mash.water.path
    elif mash.thickness.known:
        grain, poured_in = of_one_mash(brew)
        weight = sum(part.weight_kg for part in brew.mashed()) * grain / poured_in
        first, path = mash.thickness.range * weight, mash.thickness.path
    else:
        return None
    return Range.weighted_sum([(volume, 1.0) for volume in (first, *infused)]), path


@figure("sugar-share", unit="% of extract")
def sugar_share(brew: Brew) -> Figure:
    """Share of fermentable sugars and syrups."""
    given = [one for one in deliveries(brew) if one.typical_kg > 0]
    total = sum(one.typical_kg for one in given)
    if total <= 0:
        raise Unknown("extract in the grist", brew.recipe.grist.path)
    sugars = [one for one in given if is_fermentable_sugar(one.part)]
    value = 100 * sum(one.typical_kg for one in sugars) / total

    def working() -> str:
        if not sugars:
            return "there is no fermentable sugar in the recipe"
        top = " + ".join(f"{weight_in(brew, one.typical_kg)} of {one.part.name}" for one in sugars)
        return f"({top}) ÷ {weight_in(brew, total)} of extract × 100 = {number(value, 3)} %"

    return Figure(Range.exact(value), working, paths=tuple(one.part.path for one in sugars))


def is_fermentable_sugar(part: Part) -> bool:
    """Sugar or syrup that yeast eats: not lactose, not maltodextrin."""
    return part.group == Group.SUGAR and part.ferments(1.0) > 0.3


__all__ = [
    "Delivery",
    "converted_share",
    "deliveries",
    "efficiency_needed",
    "extract_of",
    "fermenter_share",
    "fermenter_volume",
    "highest_og",
    "is_fermentable_sugar",
    "mash_water",
    "og",
    "points",
    "potential_extract",
    "sugar_share",
    "wort_limit",
]
