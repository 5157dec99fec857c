"""What dry hops and fruit may still bring to a vessel that bears all the rest."""

from collections.abc import Iterator

from mashwright.brew import Brew, number
from mashwright.figures.package import DRY_HOPS, FRUIT, gas_of, stress, to_come
from mashwright.measures import Kind, Range, said
from mashwright.rule import Evidence, Finding, Level, say, strained


def at_worst(brew: Brew) -> Iterator[Finding]:
    """Dry hops and fruit in a sealed vessel, at the unfavourable end only: never more than a warning."""
    gas, coming = gas_of(brew), to_come(brew)
    held, given = stress(brew, gas.total), stress(brew, gas.given)
    if held is None or given is None or (strained(held) or 0) <= max(Level.NOTE, strained(given) or 0):
        return
    worst = stress(brew, Range.exact(gas.total.high))
    assert worst is not None
    cause = max(coming.causes, key=lambda one: one.volumes.high)
    beside = any(one is not cause and one.sort in (DRY_HOPS, FRUIT) for one in coming.causes)
    if cause.sort == DRY_HOPS:
        hops, path = _dry_hops(brew)
        sentence = "dry-hops-and-fruit" if beside else "dry-hops"
        message = say(sentence, hops=hops, points=number(coming.creep_points, 2))
    else:
        path = cause.path
        sentence = "ferments-on-with-hops" if beside else "ferments-on"
        message = say(sentence, thing=cause.name.removesuffix(", at most"))
    yield Finding(
        path,
        Level.WARNING,
        message.and_then(
            say("may-burst-at-worst", gas=worst.held, vessel=worst.bearing.called),
            say("wait-after", rating=worst.rating_of),
        ),
        gap=round(cause.volumes.high, 4),
        evidence=tuple(Evidence(name, value.high, "volumes at most") for name, value in gas.rows),
        related=(brew.recipe.package.path,),
    )


def _dry_hops(brew: Brew) -> tuple[str, tuple[str | int, ...]]:
    dry = [one for one in brew.recipe.hops if one.dry.known and one.weight.known]
    hop, first = dry[0], dry[0].weight.need(f"the weight of {dry[0].name}")
    kg = sum(one.weight.range.typical for one in dry if one.weight.known)
    return f"{said(kg, first.unit, Kind.MASS)} of dry hops", hop.path
