"""Is there something among the additions that can poison?

Most herbs, roots and fruits that people brew with are food. Some are not, or only in part, or only boiled: raw
cassava, elder leaves and stems, the kernels of stone fruit set free cyanide; pennyroyal, tansy and wormwood have hurt
people; plants that are picked wild (foraged) are mistaken for others. Some things of the old books (cocculus,
copperas, salicylic acid) are barred today. Beer tells nobody what is in it.

Computed: the words of each addition, hop, grist line and fruit are looked up in a table of such things; no book was
read for it, it holds what is commonly warned of or is from memory, and is marked so. What can poison in a brewer's
amounts is an error, what may by the plant, its part or the amount a warning (as is all that rests on memory alone),
what asks for care a note. Sulfite (Campden tablets, metabisulfite) is reckoned by its molar mass: a warning above what
countries commonly allow. A thing that draws nothing here is not thereby fit to eat, and no dose is given.

On the day: taste nothing that you cannot name; ask somebody who is competent (a botanist, a pharmacist, the poisons
line), keep to the food rules of your country, and tell drinkers what is in the glass. If somebody feels ill, call the
poisons line or a doctor at once. Sulfite gives off a choking gas with acids: weigh it where there is air.

Sources: [common-practice] [from-memory] [judgement]
"""

from collections.abc import Iterator
from typing import NamedTuple

from mashwright.rule import (
    Brew,
    Evidence,
    Example,
    Finding,
    Knob,
    Level,
    Limit,
    Path,
    Quantity,
    Range,
    Settings,
    above,
    another_text,
    caution,
    fermenter_volume,
    gap,
    number,
    said,
    sulfite,
    told,
)


class Limits(Settings):
    """What is compared with."""

    sulfite_mg_per_l = Limit(50, "mg/l", low=5, high=200, source="from-memory")


_LEVELS = {"poison": Level.ERROR, "risk": Level.WARNING, "care": Level.NOTE}
_ASK = "ask for competent advice and keep to your local food rules"


class _Named(NamedTuple):
    """One thing that goes in, and where its name stands."""

    path: Path
    name: str
    amount: Quantity | None
    boiled: bool
    knob: Knob | None = None


def check(brew: Brew, limits: Limits) -> Iterator[Finding]:
    for one in _all(brew):
        found = caution(one.name)
        if found is None or (found.raw and one.boiled):
            continue
        level = _LEVELS[found.harm]
        if found.source == "from-memory":
            level = min(level, Level.WARNING)
        amount = f"{one.amount.text} of {one.name}" if one.amount is not None else one.name
        yield Finding(
            one.path,
            level,
            f"{_does(level, amount)}: {found.says}; {_leave(level)}",
            gap=1.0,
            knobs=(one.knob,) if found.raw and one.knob is not None else (),
        )
    yield from _sulfite(brew, limits)


def _does(level: Level, amount: str) -> str:
    if level is Level.NOTE:
        return f"take care with {amount}"
    return f"{amount} can {'poison' if level is Level.ERROR else 'harm'}"


def _leave(level: Level) -> str:
    return f"leave it out, or {_ASK}" if level > Level.NOTE else f"where in doubt, {_ASK}"


def _all(brew: Brew) -> Iterator[_Named]:
    recipe = brew.recipe
    for addition in recipe.additions:
        amount = addition.weight or addition.volume
        boiled = "boil" in addition.when.casefold() or "kettle" in addition.when.casefold()
        yield _Named((*addition.path, "what"), addition.what, amount, boiled)
    for line in recipe.grist:
        boiled = line.add not in ("", "fermenter") or (not line.add and line.group != "fruit")
        knob = another_text((*line.path, "add"), "kettle", "boil them (add: kettle)")
        yield _Named((*line.path, line.group), line.name, line.weight, boiled, knob)
    for hop in recipe.hops:
        yield _Named((*hop.path, "hop"), hop.name, hop.weight, boiled=hop.dry is None)


def _sulfite(brew: Brew, limits: Limits) -> Iterator[Finding]:
    doses = [one for one in sulfite(brew) if one.so2_mg is not None]
    if not doses:
        return
    litres = fermenter_volume(brew)[0].typical
    total = sum(one.so2_mg for one in doses if one.so2_mg is not None) / litres
    limit = limits.sulfite_mg_per_l
    dose = Range.exact(total)
    if above(dose, limit) is None:
        return
    volume = brew.recipe.batch.stated if brew.recipe.batch is not None else None
    beer = f" in {said(litres, volume.unit, volume.kind)}" if volume is not None else ""
    what = " and ".join(one.text for one in doses)
    much = (
        f"up to {told(total, limit)} mg/l of sulfite, above the {number(limit, 3)} that countries commonly allow beer"
    )
    yield Finding(
        doses[0].path,
        Level.WARNING,
        f"{what}{beer}: {much}; it can set off asthma, so {_ASK}",
        gap=gap(dose, limit),
        evidence=tuple(Evidence(f"{one.text}, as SO2", (one.so2_mg or 0) / litres, "mg/l", one.path) for one in doses),
        related=tuple(one.path for one in doses[1:]),
    )


SOUND = """\
recipe: Hedge Lane Wit
by: Saltmarsh Lane Mash Circle
batch: 20 l
grist:
  - {grain: Pilsner malt, weight: 2.5 kg}
  - {grain: flaked wheat, weight: 1.5 kg}
additions:
  - {what: coriander seed, weight: 15 g, when: last 10 min of the boil}
  - {what: elderflowers, weight: 50 g, when: flame out}
"""
FAULTY = Example(
    """\
recipe: Hedge Lane Wit
by: Saltmarsh Lane Mash Circle
batch: 20 l
grist:
  - {grain: Pilsner malt, weight: 4 kg}
additions:
  - {what: elder leaves, weight: 50 g, when: flame out}
""",
    "error",
    7,
    12,
    "50 g of elder leaves can poison: they set free cyanide, which can kill; only elderflowers and ripe berries are"
    " used, off their stems; leave it out, or ask for competent advice and keep to your local food rules",
)
