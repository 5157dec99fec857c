"""Figures of the kettle: what the batch needs before and after the boil, and what the stated waters bring there."""

from msgspec import Struct

from mashwright.brew.board import number
from mashwright.brew.brew import Brew
from mashwright.brew.once import once
from mashwright.brew.own_units import litres_in
from mashwright.brew.parts import MALT_EXTRACTS, weighed
from mashwright.brew.pours import (
    Pour,
    absorption,
    boil_minutes,
    boil_off,
    dead_space,
    dissolved,
    in_the_tun,
    into_fermenter,
    kettle_loss,
    less,
    mash_pours,
    sparge_pour,
    top_up,
    total,
    weight_kg,
)
from mashwright.brewing.volumes import COOLED_SHARE, into_fermenter_l, post_boil_l, pre_boil_l, run_off_l
from mashwright.figures.figure import Figure
from mashwright.figures.function import figure
from mashwright.figures.mash import water_of_open_steps
from mashwright.finding import Path
from mashwright.ingredients.kinds import Place
from mashwright.measures.range import Range
from mashwright.recipe.stated import Unknown


class Kettle(Struct, frozen=True, gc=False):
    """What the batch needs of the kettle, l; in the kettle hot, kept and fermenter at 20 °C.

    Attributes:
        wort: into the fermenter from the kettle, without what is topped up there.
        loss: left behind.
        post: hot, at the end of the boil.
        rate: boiled away in an hour.
        hours: of the boil.
        pre: hot, before the boil.
    """

    wort: Range
    loss: Range
    post: Range
    rate: Range
    hours: Range
    pre: Range
    assumed: tuple[str, ...]


@once
def kettle(brew: Brew) -> Kettle:
    """The kettle reckoned back from the batch.

    Raises:
        Unknown: the recipe gives no batch that can be read, or the length of the boil cannot be read.
    """
    if brew.recipe.worts:
        return _of_all_worts(brew)
    batch = brew.recipe.batch
    wort = less(into_fermenter(brew), top_up(brew, "fermenter"))
    if batch.kettle.known and not batch.fermenter.known:
        post = batch.kettle.range
        loss, assumed_loss = kettle_loss(brew, post * COOLED_SHARE)
    else:
        loss, assumed_loss = kettle_loss(brew, wort)
        post = Range(
            post_boil_l(wort.low, loss.low),
            post_boil_l(wort.typical, loss.typical),
            post_boil_l(wort.high, loss.high),
        )
    rate, assumed_rate = boil_off(brew, post.typical)
    minutes, assumed_time = boil_minutes(brew)
    hours = minutes * (1 / 60)
    pre = Range(
        pre_boil_l(post.low, rate.low, hours.low),
        pre_boil_l(post.typical, rate.typical, hours.typical),
        pre_boil_l(post.high, rate.high, hours.high),
    )
    assumed = tuple(one for one in (assumed_loss, assumed_rate, assumed_time) if one)
    return Kettle(wort, loss, post, rate, hours, pre, assumed)


def _of_all_worts(brew: Brew) -> Kettle:
    """What several worts of a mash need of their kettles, added up."""
    from mashwright.brew.worts import bare_worts  # most recipes give one beer

    each = [kettle(own) for own in bare_worts(brew)]
    nothing = Range.exact(0.0)

    def of_all(name: str) -> Range:
        return sum((getattr(one, name) for one in each), nothing)

    boiled = sum((one.rate.times(one.hours) for one in each), nothing)
    assumed = tuple(dict.fromkeys(text for one in each for text in one.assumed))
    wort, loss, post = of_all("wort"), of_all("loss"), of_all("post")
    return Kettle(wort, loss, post, boiled, Range.exact(1.0), of_all("pre"), assumed)


def from_waters(brew: Brew) -> tuple[Range, tuple[Pour, ...]] | None:
    """What the stated waters bring to the kettle, l, with the waters; None where the recipe leaves one open.

    Raises:
        Unknown: the weight of what is mashed or steeped is not known, or a water that is stated cannot be read.
    """
    if (of_mash := brew.of_mash) is not None:
        if of_mash.litres is None:
            return None
        runnings = Pour("runnings", of_mash.litres, (*of_mash.path, "runnings"))
        return of_mash.litres + top_up(brew, "kettle") + Range.exact(dissolved(brew)), (runnings,)
    if not brew.recipe.mash.known:
        return _without_mash(brew)
    poured, sparge = mash_pours(brew), sparge_pour(brew)
    if sparge is None or not poured[0].stated or water_of_open_steps(brew) > 0:
        return None
    if brew.recipe.cereal_mash.known and not brew.recipe.cereal_mash.water.known:
        return None
    waters = (*poured, sparge)
    run_off = run_off_of(brew, total(waters))
    steep = brew.recipe.steep
    if steep.water.known:
        waters = (*waters, Pour("steep", steep.water.range, steep.water.path))
        run_off = run_off + steep.water.range
    return run_off + top_up(brew, "kettle") + Range.exact(dissolved(brew)), waters


def _without_mash(brew: Brew) -> tuple[Range, tuple[Pour, ...]] | None:
    """The same of malt extract: its steep and what the kettle is topped up with; None where that is left open."""
    recipe = brew.recipe
    filled, steep = recipe.top_up, recipe.steep
    if not filled.kettle.known or recipe.sparge.known:
        return None
    if not any(part.kind in MALT_EXTRACTS for part in brew.grist()):
        return None
    grain_kg = weight_kg(weighed(brew.placed(Place.MASH, Place.LATE_MASH, Place.STEEP)))
    waters: tuple[Pour, ...] = ()
    if steep.water.known:
        waters = (Pour("steep", steep.water.range, steep.water.path),)
    elif grain_kg > 0:
        return None
    steeped, kept = total(waters), absorption(brew)[0]
    run_off = Range(
        run_off_l(steeped.low, grain_kg, kept.high),
        run_off_l(steeped.typical, grain_kg, kept.typical),
        run_off_l(steeped.high, grain_kg, kept.low),
    )
    return run_off + filled.kettle.range + Range.exact(dissolved(brew)), waters


def run_off_of(brew: Brew, water: Range) -> Range:
    kept, dead = absorption(brew)[0], dead_space(brew)[0]
    grain_kg = weight_kg(in_the_tun(brew))
    return Range(
        run_off_l(water.low, grain_kg, kept.high, dead.high),
        run_off_l(water.typical, grain_kg, kept.typical, dead.typical),
        run_off_l(water.high, grain_kg, kept.low, dead.low),
    )


KETTLE_SOURCES = ("iapws-95", "oxford-evaporation", "boil-off-pages", "boil-off-forum", "common-practice")


@figure("pre-boil-volume", unit="l", sources=KETTLE_SOURCES)
def pre_boil_volume(brew: Brew) -> Figure:
    """Wort needed before the boil, hot."""
    reckoned = kettle(brew)
    parts: list[tuple[str, Range]] = []
    boil = brew.recipe.boil
    if boil.volume.known:
        parts.append(("as stated", boil.volume.range))
    try:
        given = from_waters(brew)
    except Unknown:
        given = None
    if given is not None:
        parts.append(("from the stated water", given[0]))

    def working() -> str:
        boiled = reckoned.pre.typical - reckoned.post.typical
        return (
            f"{litres_in(brew, reckoned.post.typical)} after the boil +"
            f" {litres_in(brew, reckoned.rate.typical)} an hour × {number(reckoned.hours.typical, 3)} h"
            f" ({litres_in(brew, boiled)}) = {litres_in(brew, reckoned.pre.typical)}"
        )

    return Figure(reckoned.pre, working, boil_paths(brew), reckoned.assumed, parts=tuple(parts))


@figure("post-boil-volume", unit="l", sources=("iapws-95", "common-practice"))
def post_boil_volume(brew: Brew) -> Figure:
    """Wort needed at the end of the boil, hot."""
    reckoned = kettle(brew)
    batch, boil = brew.recipe.batch, brew.recipe.boil
    parts: tuple[tuple[str, Range], ...] = ()
    if boil.volume.known:
        parts = (("from the stated boil", after_boil(brew, boil.volume.range)),)

    def working() -> str:
        if batch.kettle.known and not batch.fermenter.known:
            return f"the batch is counted there: {batch.kettle.text}"
        wort, loss = litres_in(brew, reckoned.wort.typical), litres_in(brew, reckoned.loss.typical)
        topped = top_up(brew, "fermenter").typical
        added = f" (without {litres_in(brew, topped)} of top-up)" if topped > 0 else ""
        return (
            f"({wort} into the fermenter{added} + {loss} left in the kettle) ÷ {COOLED_SHARE:g}"
            f" = {litres_in(brew, reckoned.post.typical)}; hot wort shrinks by 4 % on cooling"
        )

    return Figure(reckoned.post, working, boil_paths(brew), reckoned.assumed[:1], parts=parts)


def after_boil(brew: Brew, before: Range) -> Range:
    """Hot wort that is left of a volume at the end of the boil, l."""
    reckoned = kettle(brew)
    return less(before, reckoned.rate.times(reckoned.hours))


def left_for_fermenter(brew: Brew, before: Range) -> Range:
    """What a volume before the boil leaves for the fermenter, top-up there included, l at 20 °C."""
    after, loss, added = after_boil(brew, before), kettle(brew).loss, top_up(brew, "fermenter")
    return Range(
        into_fermenter_l(after.low, loss.high) + added.low,
        into_fermenter_l(after.typical, loss.typical) + added.typical,
        into_fermenter_l(after.high, loss.low) + added.high,
    )


def boil_paths(brew: Brew) -> tuple[Path, ...]:
    boil = brew.recipe.boil
    timed = boil.time.known
    return (brew.recipe.batch.path, *((boil.time.path,) if boil.known and timed else ()))
