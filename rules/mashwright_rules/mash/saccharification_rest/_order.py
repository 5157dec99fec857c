"""Rests that take the enzymes from the ones after them, or that a mash cannot come to."""

from collections.abc import Iterator
from itertools import pairwise

from mashwright.brew import Brew, PlannedRest, number
from mashwright.brew import degrees as degrees_in
from mashwright.figures.beer import apparent_attenuation
from mashwright.figures.mash import follow
from mashwright.ingredients.kinds import RestBy
from mashwright.knobs import NOTHING, Knob, one_change
from mashwright.measures import Range
from mashwright.rule import Edit, Evidence, Finding, Level, Path, Unknown, above, row, say
from mashwright_rules.mash.saccharification_rest._aim import is_meant
from mashwright_rules.mash.saccharification_rest._limits import Limits


def place_of(brew: Brew, rest: Path | None) -> Path:
    """Where a rest says its temperature; the mash, of a rest that nobody states."""
    return (*rest, "at") if rest is not None else brew.recipe.mash.path


def spent(brew: Brew, index: int, limits: Limits) -> Finding:
    """A good rest that comes when a hotter one has used up the enzymes."""
    rests = brew.plan.rests
    hot = max(range(index), key=lambda one: rests[one].hottest_c)
    left = 100 * follow(brew).best.rests[index - 1].enzyme_left
    before, at = degrees_in(brew, rests[hot].hottest_c), degrees_in(brew, rests[index].hottest_c)
    path = rests[hot].path
    if left >= 1:
        message = say("spent", hot=before, left=number(left, 1), heat=at)
    else:
        message = say("spent-nearly-all", hot=before, heat=at)
    return Finding(
        place_of(brew, path),
        Level.NOTE if is_meant(brew, limits) else Level.WARNING,
        message,
        gap=1.0,
        evidence=(Evidence("Enzymes left before that rest, at best", left, "%", rests[index].path),),
    )


def out_of_order(brew: Brew, limits: Limits) -> Iterator[Finding]:
    """A hot rest before the ones that it takes the enzymes from, or a mash that is to cool by itself."""
    rests = brew.plan.rests
    if len(rests) < 2 or all(one.hottest_c <= two.at_c.typical for one, two in pairwise(rests)):
        return  # most mashes climb
    meant = is_meant(brew, limits)
    hot = next((index for index in range(len(rests) - 1) if _hot_before_cooler(brew, index, limits)), None)
    if hot is not None:
        yield _hot_first(brew, hot, Level.NOTE if meant else Level.WARNING)
    elif (falls := [index for index in range(1, len(rests)) if _falls(brew, index, limits)]) != []:
        yield _falling(brew, falls[0], Level.NOTE if meant else Level.WARNING)


def _hot_before_cooler(brew: Brew, index: int, limits: Limits) -> bool:
    """Whether a rest above the enzymes' heat turns much of the starch, and a cooler one comes after it."""
    rests = brew.plan.rests
    if not above(Range.exact(rests[index].hottest_c), limits.hottest_c):
        return False
    cooler = any(rest.hottest_c <= limits.hottest_c for rest in rests[index + 1 :])
    before = sum(one.converted for one in follow(brew).typical.rests[:index])
    turned = follow(brew).typical.rests[index].converted
    return cooler and turned > before and bool(above(Range.exact(turned), limits.hot_share_percent))


def _hot_first(brew: Brew, index: int, level: Level) -> Finding:
    rests = brew.plan.rests
    rest, after = rests[index], min(rests[index + 1 :], key=lambda one: one.at_c.typical)
    at, later = degrees_in(brew, rest.hottest_c), degrees_in(brew, after.at_c.typical)
    left = 100 * follow(brew).typical.rests[index].enzyme_left
    turned = follow(brew).typical.rests[index].converted
    order = [one for one in range(len(rests)) if one != index]
    return Finding(
        place_of(brew, rest.path),
        level,
        say("hot-first", hot=at, heat=later),
        gap=1.0,
        evidence=(
            Evidence(f"Starch that is turned to sugar at {at}", turned, "%", rest.path),
            Evidence("All enzymes left after it", left, "%", rest.path),
            *_attenuation(brew),
        ),
        knobs=(_in_order(brew, [*order, index], f"move the rest at {at} to the end"),),
    )


def _attenuation(brew: Brew) -> tuple[Evidence, ...]:
    try:
        return (row(apparent_attenuation(brew)),)
    except Unknown:
        return ()


def _falls(brew: Brew, index: int, limits: Limits) -> bool:
    """Whether a rest is cooler than a mash gets by itself after the one before it, and nothing says what cools it."""
    before, rest = brew.plan.rests[index - 1 : index + 1]
    end = before.to_c if before.to_c is not None else before.at_c
    fall = Range.exact(end.low - rest.at_c.high)
    long = max(before.minutes.high, rest.minutes.high) >= limits.cooled_min
    return bool(above(fall, limits.fall_c)) and not long and not _watered(brew, rest)


def _watered(brew: Brew, rest: PlannedRest) -> bool:
    """Whether a rest is reached by water that is poured in."""
    mash = brew.recipe.mash
    written = next((one for one in (mash.rests if mash.known else ()) if one.path == rest.path), None)
    return written is not None and (written.by == RestBy.INFUSION or written.water.known)


def _falling(brew: Brew, index: int, level: Level) -> Finding:
    rests = brew.plan.rests
    before, rest = rests[index - 1], rests[index]
    end = before.to_c if before.to_c is not None else before.at_c
    unit = degrees_in(brew, rest.at_c.typical)
    order = sorted(range(len(rests)), key=lambda one: rests[one].at_c.typical)
    listed = ", ".join(degrees_in(brew, rests[one].at_c.typical) for one in order)
    return Finding(
        place_of(brew, rest.path),
        level,
        say("falls", hot=degrees_in(brew, end.typical), heat=unit),
        gap=1.0,
        evidence=(
            Evidence(
                f"All enzymes left after the rest at {degrees_in(brew, before.hottest_c)}",
                100 * follow(brew).typical.rests[index - 1].enzyme_left,
                "%",
                before.path,
            ),
        ),
        related=(before.path,) if before.path is not None else (),
        knobs=(_in_order(brew, order, f"put the rests in order, cool to hot: {listed}"),),
    )


def _in_order(brew: Brew, order: list[int], words: str) -> Knob:
    """The same rests in another order; only where each states no more than its heat and its length."""
    rests = brew.recipe.mash.rests if brew.recipe.mash.known else ()
    more = any(rest.by or rest.to or rest.water or rest.of or rest.pull or rest.boil for rest in rests)
    if len(rests) != len(order) or more or len({not rest.time.known for rest in rests}) > 1:
        return NOTHING
    edits: list[Edit] = []
    for place, moved in zip(rests, (rests[one] for one in order), strict=True):
        for key, was, now in (("at", place.at, moved.at), ("for", place.time, moved.time)):
            if was.known and now.known and was.text != now.text:
                edits.append(Edit((*place.path, key), now.text))
    return one_change(tuple(edits), words)
