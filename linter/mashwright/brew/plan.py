"""The rests of a mash as they are to be followed, with what was assumed where a recipe does not say."""

from msgspec import Struct

from mashwright.brew.scale import scale_of_recipe
from mashwright.brewing.mash import MASH_OUT_C
from mashwright.finding import Path
from mashwright.measures.bounds import Bounds
from mashwright.measures.quantity import Kind, said
from mashwright.measures.range import Range
from mashwright.recipe.model import Recipe, Rest
from mashwright.recipe.stated import Open, Unknown, unreadable_place

# An infusion of pale malt where a recipe states no mash, °C and min: common practice.
USUAL_REST_C = Range(65, 66.5, 68)
USUAL_REST_MIN = Range(60, 60, 75)
# Lengths where a rest states none, by its temperature: common practice.
DEXTRIN_REST_FROM_C = 70.0
PROTEIN_REST_BELOW_C = 57.0


class PlannedRest(Struct, frozen=True, gc=False):
    """One rest with its numbers.

    Attributes:
        path: the rest in the recipe, or None where it was assumed.
        at_c, minutes: as stated or assumed.
        to_c: at its end, where it falls or rises.
        minutes_path: where its length stands, if it does.
    """

    path: Path | None
    at_c: Range
    minutes: Range
    to_c: Range | None = None
    minutes_path: Path | None = None

    @property
    def hottest_c(self) -> float:
        """Typical temperature at its hotter end, °C."""
        return max(self.at_c.typical, self.to_c.typical if self.to_c else self.at_c.typical)


class Plan(Struct, frozen=True, gc=False):
    """All rests in order.

    Attributes:
        missing: what keeps the mash from being followed, or None.
        stated: whether any rest stands in the recipe.
    """

    rests: tuple[PlannedRest, ...]
    assumed: tuple[str, ...]
    stated: bool
    missing: Unknown | None = None

    def known(self) -> "tuple[PlannedRest, ...]":
        """The rests, or Unknown where one cannot be followed."""
        if self.missing is not None:
            raise self.missing.again()
        return self.rests

    @property
    def mash_out(self) -> bool:
        """Whether the mash ends in a rest that stops the enzymes."""
        return bool(self.rests) and self.rests[-1].hottest_c >= MASH_OUT_C and len(self.rests) > 1


def mash_plan(recipe: Recipe, bounds: Bounds) -> Plan:
    """The rests that the recipe states; one usual infusion where it states none."""
    if (problem := _unreadable(recipe)) is not None:
        return Plan((), (), stated=True, missing=problem)
    rests = recipe.mash.rests if recipe.mash.known else ()
    if not rests:
        return _steep_plan(recipe, bounds) if not recipe.mash.known and recipe.steep.known else _usual_plan(recipe)
    assumed: list[str] = []
    planned = []
    for number, rest in enumerate(rests, 1):
        if not rest.at.known:
            missing = Unknown(f"the temperature of rest {number}", rest.at.path)
            return Plan((), (), stated=True, missing=missing)
        for key, stated in (("at", rest.at), ("to", rest.to)):
            if stated.known and not bounds.coldest_rest_c <= stated.range.typical <= bounds.boil_c:
                missing = Open(f"a temperature of rest {number} that a mash can have", (*rest.path, key))
                return Plan((), (), stated=True, missing=missing)
        if not rest.time.known:
            minutes = usual_minutes(rest.at.range.typical, alone=len(rests) == 1)
            assumed.append(f"{minutes.typical:g} min for rest {number}, which states no time")
        else:
            minutes = rest.time.range
        to_c = rest.to.range if rest.to.known else None
        planned.append(PlannedRest(rest.path, rest.at.range, minutes, to_c, _minutes_path(rest)))
    return Plan(tuple(planned), tuple(assumed), stated=True)


def usual_minutes(at_c: float, *, alone: bool) -> Range:
    """How long a rest usually lasts, by its temperature. Source: common practice."""
    if at_c >= MASH_OUT_C and not alone:
        return Range(5, 10, 15)
    if at_c < PROTEIN_REST_BELOW_C and not alone:
        return Range(10, 15, 30)
    if at_c >= DEXTRIN_REST_FROM_C and not alone:
        return Range(10, 20, 30)
    return Range(45, 60, 75) if alone else Range(20, 40, 60)


def _minutes_path(rest: Rest) -> Path | None:
    return rest.time.path if rest.time.known else None


def _usual_plan(recipe: Recipe) -> Plan:
    rest = PlannedRest(None, USUAL_REST_C, USUAL_REST_MIN)
    heat = said(USUAL_REST_C.typical, scale_of_recipe(recipe), Kind.TEMPERATURE)
    text = f"one rest of {USUAL_REST_MIN.typical:g} min at {heat}, since no rests are stated"
    return Plan((rest,), (text,), stated=False)


def _steep_plan(recipe: Recipe, bounds: Bounds) -> Plan:
    """Base malt steeped with starchy grain is a small mash; its steep is its rest."""
    steep = recipe.steep
    at_c = steep.at.range if steep.at.known else USUAL_REST_C
    if not bounds.coldest_rest_c <= at_c.typical <= bounds.boil_c:
        missing = Open("a temperature of the steep that water can have", steep.at.path)
        return Plan((), (), stated=True, missing=missing)
    # half an hour is the steep of [palmer-steeping]; the ends common practice
    minutes = steep.time.range if steep.time.known else Range(20, 30, 45)
    assumed = ["the steep taken as a small mash, since there is malt with enzymes in it"]
    if not steep.at.known:
        heat = said(at_c.typical, scale_of_recipe(recipe), Kind.TEMPERATURE)
        assumed.append(f"{heat} for the steep, which states no temperature")
    if not steep.time.known:
        assumed.append(f"{minutes.typical:g} min for the steep, which states no time")
    rest = PlannedRest(steep.path, at_c, minutes, None, steep.time.path if steep.time.known else None)
    return Plan((rest,), tuple(assumed), stated=steep.at.known)


def _unreadable(recipe: Recipe) -> Unknown | None:
    """A rest, or the mash itself, that stands there but cannot be read."""
    mash, steep = recipe.mash, recipe.steep
    of_rests = [value for rest in mash.rests for value in (rest.at, rest.time, rest.to)]
    for thing in (mash, mash.rests, *of_rests, steep, steep.at, steep.time):
        if (place := unreadable_place(thing)) is not None:
            return Open("a readable mash", place)
    return None
