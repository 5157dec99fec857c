"""Is there something among the additions that can poison?

Most herbs, roots and fruits that people brew with are food. Some are not, or only in part, or only boiled: raw
cassava, elder leaves and stems, the kernels of stone fruit set free cyanide; pennyroyal, tansy and wormwood have hurt
people; plants that are picked wild (foraged) are mistaken for others. Some things of the old books (cocculus,
copperas, salicylic acid) are barred today, sanitisers and coolants are no food, and dry ice bursts what is closed.
Beer tells nobody what is in it.

Computed: the words of each addition, hop, grist line and fruit are looked up in a table of such things; no book was
read for it, it holds what is commonly warned of or is from memory, and is marked so. What can poison in a brewer's
amounts, or burst a bottle, is an error, what may by the plant, its part or the amount a warning (as is all that
rests on memory alone), what asks for care a note. Some things count only raw, or only above so many grams to the litre
(nutmeg, liquorice). Whatever is called foraged, wild, picked, gathered or of the hedgerow is warned of for what looks
like it, whatever else is said. Sulfite (Campden tablets, metabisulfite) is reckoned by its molar mass: a warning above
what countries commonly allow, an error from twice that on. A thing that draws nothing here is not thereby fit to eat,
and no dose is given.

On the day: taste nothing that you cannot name; ask somebody who is competent (a botanist, a pharmacist, the poisons
line), keep to the food rules of your country, and tell drinkers what is in the glass. If somebody feels ill, call the
poisons line or a doctor at once. Sulfite gives off a choking gas with acids: weigh it where there is air.

Sources: [common-practice] [from-memory] [judgement]
"""

from collections.abc import Iterator
from functools import partial
from typing import NamedTuple

from mashwright.rule import (
    Brew,
    Evidence,
    Example,
    Finding,
    Kind,
    Knob,
    Level,
    Limit,
    Path,
    Quantity,
    Range,
    Settings,
    Unknown,
    above,
    another_text,
    caution,
    fermenter_volume,
    gap,
    number,
    said,
    sulfite,
    told,
    words_of,
)


class Limits(Settings):
    """What is compared with."""

    sulfite_mg_per_l = Limit(50, "mg/l", low=5, high=200, source="from-memory")


_LEVELS = {"poison": Level.ERROR, "danger": Level.ERROR, "risk": Level.WARNING, "care": Level.NOTE}
_VERBS = {"poison": "can poison", "danger": "can hurt", "risk": "can harm"}
_ASK = "ask for competent advice and keep to your local food rules"
_FAR_ABOVE = 2.0  # times the limit on sulfite from which on a drinker is put at risk; judgement
_IN_KETTLE = frozenset({"boil", "boiling", "boiled", "kettle", "copper"})
_NOT_BOILED = (
    *("after", "post", "not", "un", "never", "without", "no", "flame", "flameout", "off", "out", "knockout"),
    *("whirlpool", "stand", "cool", "cooled", "cooling", "chilled"),
)
_MINUTES = frozenset({"min", "minute", "last", "at", "for", "the", "to", "end", "left", "before", "final"})
_CLOSED = (
    *("bottle", "bottling", "bottled", "keg", "kegging", "kegged", "cask", "package", "packaging", "sealed"),
    *("closed", "capped", "corked", "growler", "priming", "jar", "demijohn", "carboy"),
)


class _Named(NamedTuple):
    """One thing that goes in, and where its name stands."""

    path: Path
    name: str
    amount: Quantity | None
    boiled: bool
    pieces: Quantity | None = None
    sealed: bool = False
    knob: Knob | None = None

    @property
    def called(self) -> str:
        if self.amount is not None:
            return f"{self.amount.text} of {self.name}"
        return f"{self.pieces.text} {self.name}" if self.pieces is not None else self.name


def check(brew: Brew, limits: Limits) -> Iterator[Finding]:
    for one in _all(brew):
        found = caution(one.name, boiled=one.boiled, sealed=one.sealed, g_per_l=partial(_g_per_l, brew, one.amount))
        if found is None:
            continue
        level = _LEVELS[found.harm]
        if found.source == "from-memory":
            level = min(level, Level.WARNING)
        verb = _VERBS["risk" if level is Level.WARNING else found.harm] if level > Level.NOTE else ""
        subject = f"{one.called} {verb}" if verb else f"take care with {one.called}"
        yield Finding(
            one.path,
            level,
            f"{subject}: {found.told(one.name, _ending(level, alike=found.alike))}",
            gap=1.0,
            knobs=(one.knob,) if found.raw and one.knob is not None else (),
        )
    yield from _sulfite(brew, limits)


def _ending(level: Level, *, alike: bool) -> str:
    """What to do about it; what is not itself a poison may be used by whoever knows it for certain."""
    if alike and level < Level.ERROR:
        return f", else leave {{them}} out; {'where in doubt, ' if level is Level.NOTE else ''}{_ASK}"
    return f"; where in doubt, {_ASK}" if level is Level.NOTE else f"; leave {{them}} out, or {_ASK}"


def _g_per_l(brew: Brew, amount: Quantity | None) -> float | None:
    if amount is None or amount.kind is not Kind.MASS:
        return None
    try:
        return amount.range.high * 1000 / fermenter_volume(brew)[0].typical
    except Unknown:
        return None


def _boiled(when: frozenset[str]) -> bool:
    """Whether an addition at that time is boiled; minutes alone are those of the boil, as with hops."""
    words = frozenset(word for word in when if not word.isdecimal())
    timed = words <= _MINUTES and not words.isdisjoint(("min", "minute"))
    return timed or (not words.isdisjoint(_IN_KETTLE) and words.isdisjoint(_NOT_BOILED))


def _all(brew: Brew) -> Iterator[_Named]:
    recipe = brew.recipe
    for addition in recipe.additions:
        when, amount, name = words_of(addition.when), addition.weight or addition.volume, addition.what
        where = when | words_of(name)
        sealed = not where.isdisjoint(_CLOSED) and "before" not in when
        yield _Named((*addition.path, "what"), name, amount, _boiled(when), addition.count, sealed)
    for line in recipe.grist:
        boiled = line.add not in ("", "fermenter") or (not line.add and line.group != "fruit")
        knob = another_text((*line.path, "add"), "kettle", f"boil {line.name} (add: kettle)")
        yield _Named((*line.path, line.group), line.name, line.weight, boiled, knob=knob)
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
    far = total >= _FAR_ABOVE * limit
    times = number(total / limit, 2)
    past = "above" if not far else "twice" if times == "2" else f"{times} times"
    much = f"up to {told(total, limit)} mg/l of sulfite, {past} the"
    leave = "leave it out or use far less, and" if far else "so"
    yield Finding(
        doses[0].path,
        Level.ERROR if far else Level.WARNING,
        f"{what}{beer}: {much} {number(limit, 3)} that countries commonly allow beer; it can set off asthma"
        f"{'; ' if far else ', '}{leave} {_ASK}",
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
    " used, off their stems; leave them out, or ask for competent advice and keep to your local food rules",
)
