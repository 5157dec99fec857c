"""What the worts of a mash take and claim, against what it gives."""

from collections.abc import Iterator

from mashwright.brew import Brew, litres_in, number, weight_in
from mashwright.brew.worts import number_of_worts
from mashwright.brewing.gravity import extract_kg
from mashwright.figures.kettle.runnings import extract_in, runnings, taken
from mashwright.figures.kettle.worts import runnings_extract, worts_of
from mashwright.figures.mash import converted_share, deliveries, fermenter_volume, potential_extract
from mashwright.figures.mash import og as og_figure
from mashwright.knobs import Knob, stated_instead, stated_right
from mashwright.measures import Kind, Range
from mashwright.recipe.model import ORDER, Take
from mashwright.rule import Finding, Level, Path, above, below, gap, row, say
from mashwright.words.plurals import in_a_row
from mashwright_rules.kettle.wort_balance._limits import Limits


def found(brew: Brew, limits: Limits) -> Iterator[Finding]:
    """All that is to be said of the worts together."""
    yield from _too_many(brew)
    yield from _of_no_wort(brew)
    yield from _missing(brew)
    overdrawn = list(_overdrawn(brew, limits))
    yield from overdrawn
    if not overdrawn:
        yield from _claimed(brew)
    yield from _efficient(brew, limits)
    yield from _unused(brew, limits)


def _of_no_wort(brew: Brew) -> Iterator[Finding]:
    for part in brew.grist():
        if not part.mashed and not part.hulls:
            yield Finding((*part.path, part.line.group), Level.ERROR, say("whose", name=part.name), gap=1.0)


def _too_many(brew: Brew) -> Iterator[Finding]:
    most = number_of_worts(brew)
    if len(brew.recipe.worts) > most:
        yield Finding(brew.recipe.worts[most].name.path, Level.WARNING, say("too-many", most=most), gap=1.0)


def _missing(brew: Brew) -> Iterator[Finding]:
    count = len(runnings(brew).usual)
    for take in taken(brew).missing:
        if count == 1:
            yield Finding(take.path, Level.ERROR, say("no-sparge", name=take.name), gap=1.0)
        else:
            message = say("no-such-runnings", name=take.name, there=in_a_row(ORDER[:count]))
            yield Finding(take.path, Level.ERROR, message, gap=1.0)


def _overdrawn(brew: Brew, limits: Limits) -> Iterator[Finding]:
    """Runnings of which the worts take more than there is; told where the last of them takes."""
    run, takes = runnings(brew), taken(brew)
    for which, name in enumerate(ORDER[: len(run.usual)]):
        litres, share = run.litres(which), takes.share_of(which)
        if share <= 1 + limits.reading_percent / 100:
            continue
        wanted = share * litres.typical
        last = max(one for one, own in enumerate(takes.parts) if any(piece.number == which for piece in own))
        asked = [one for one in brew.recipe.worts[last].runnings if one.name in (name, "all", "")]
        measured = any(one.amount.known and one.amount.kind is Kind.VOLUME for one in asked)
        level = below(litres, wanted / (1 + limits.reading_percent / 100)) if measured else Level.ERROR
        if not level:
            continue
        told = {"name": name, "taken": litres_in(brew, wanted)}
        if level is Level.ERROR:
            message = say("overdrawn", most=litres_in(brew, litres.high if measured else litres.typical), **told)
        else:
            message = say("probably-overdrawn", litres=litres_in(brew, litres.typical), **told)
        path: Path = asked[-1].path if asked else brew.recipe.worts[last].runnings.path
        knobs = _less(asked[-1], wanted - litres.typical, litres.typical) if asked else ()
        yield Finding(path, level, message, gap(litres, wanted), (row(runnings_extract(brew)),), (), knobs)


def _less(take: Take, excess_l: float, whole_l: float) -> tuple[Knob, ...]:
    """As much less of a stated amount as there is too little of the runnings."""
    if not take.amount.known or whole_l <= 0:
        return ()
    excess = 100 * excess_l / whole_l if take.amount.kind is Kind.SHARE else excess_l
    left = take.amount.range.typical - excess
    what = f"take from the {take.name} runnings" if take.name not in ("", "all") else "take"
    enough = left > _LEFT * take.amount.range.typical
    return (stated_instead(take.path, take.amount, left, what),) if enough else ()


_LEFT = 0.05  # of what was to be taken; less is not worth the pouring, judgement


def _claimed(brew: Brew) -> Iterator[Finding]:
    """The extract that the stated gravities need, against all that there is."""
    stated = [(own, own.recipe.targets.og) for own in worts_of(brew)]
    claims = [
        (own, og, Range.along(extract_kg, (fermenter_volume(own)[0], og.range)))
        for own, og in stated
        if og.known and og.range.low > 1
    ]
    if not claims:
        return
    claimed = Range.weighted_sum([(one, 1.0) for _, _, one in claims])
    whole = Range.weighted_sum([(potential_extract(brew).range, 1.0), *((one, 1.0) for one in _own_extract(brew))])
    if not (level := above(claimed, whole.typical)):
        return
    level = Level.ERROR if claimed.low > whole.high and not potential_extract(brew).memory else Level.WARNING
    own, og, _ = max(claims, key=lambda one: one[1].range.typical)
    sentence = "more-than-all" if level is Level.ERROR else "probably-more-than-all"
    most = whole.high if level is Level.ERROR else whole.typical
    yield Finding(
        og.path,
        level,
        say(sentence, claimed=weight_in(brew, claimed.typical), whole=weight_in(brew, most)),
        gap=gap(claimed, whole.typical),
        evidence=(row(potential_extract(brew)), row(runnings_extract(brew))),
        related=tuple(one.path for _, one, _ in claims if one.path != og.path),
        knobs=(stated_right(og.path, og, og_figure(own).typical, "OG"),),
    )


def _own_extract(brew: Brew) -> Iterator[Range]:
    """All the extract of what goes into single worts."""
    for own in worts_of(brew):
        if any(line.path[:1] == ("worts",) for line in own.recipe.grist):
            yield from (one.laboratory_kg for one in deliveries(own) if one.part.path[:1] == ("worts",))


def _efficient(brew: Brew, limits: Limits) -> Iterator[Finding]:
    """A stated efficiency against what these worts hold of what the mash dissolves."""
    recipe, free = brew.recipe, converted_share(brew).typical
    held = runnings_extract(brew).range * free
    for stated in (recipe.efficiency, recipe.mash_efficiency):
        if not stated.known or not (level := below(held, stated.range.low - limits.reading_percent)):
            continue
        if level is Level.ERROR:
            message = say("too-efficient", efficiency=stated, most=number(held.high, 2))
        else:
            message = say("probably-too-efficient", efficiency=stated, held=number(held.typical, 2))
        knobs = (stated_right(stated.path, stated, float(int(held.typical)), "efficiency"),)
        yield Finding(
            stated.path, level, message, gap(held, stated.range.low), (row(runnings_extract(brew)),), (), knobs
        )


def _unused(brew: Brew, limits: Limits) -> Iterator[Finding]:
    run, takes = runnings(brew), taken(brew)
    held = sum(extract_in(run.usual, own) for own in takes.parts)
    left = 100 * (sum(off.share for off in run.usual) - held)
    if left > limits.unused_percent and not takes.missing:
        message = say("unused", share=number(left, 2))
        last = brew.recipe.worts[len(takes.parts) - 1]
        yield Finding(last.runnings.path, Level.NOTE, message, 1.0, (row(runnings_extract(brew)),))
