"""Can something among the additions poison, or is it dosed many times over?

Most herbs, roots and fruits that people brew with are food. Some are not, or
only in part, or only boiled. Raw cassava, elder leaves and stems, and the
kernels of stone fruit set free cyanide. Pennyroyal, tansy and wormwood have
hurt people. Plants picked wild (foraged) are mistaken for others. Some things
of the old books (cocculus, copperas, salicylic acid) are barred today.
Sanitisers and coolants are no food, and dry ice bursts what is closed. Nobody
sees in the glass what a beer contains.

What is checked: the words of each addition, hop, grist line and fruit, in a
table of such things. No book was read for the table: it contains what is
commonly warned of or is from memory, and is marked so.

- error: what can poison in a brewer's amounts, or burst a bottle
- warning: what may, by the plant, its part or the amount; and all that rests
  on memory alone
- note: what needs care
- some things count only raw, or only above so many g/l (nutmeg, liquorice)
- what is called foraged, wild, picked, gathered or of the hedgerow is warned
  of for what looks like it, whatever else is said

Sulfite (Campden tablets, metabisulfite) counts by its molar mass, as SO2. What
goes into brewing water counts only above 0.02 g/l, since water, mash and boil
use that up.

- warning: above what the EU and the UK allow in beer (20 mg/l; 50 mg/l if all
  of it goes into casks), Australia and New Zealand (25 mg/l) and the Codex
  (50 mg/l)
- error: from 2 times the highest limit on

Common spices, finings and nutrient count by weight, each line by itself,
against what a beer usually gets at most.

- warning: above 4 times
- note: above 2.5 times

Table or sea salt:

- warning: above 4 g/l in any beer
- note: above 1.5 g/l, unless name, style or notes speak of a gose or another
  salty beer

Only a thing that is named plainly is judged, not its syrup or extract. A thing
with no finding here is not thereby fit to eat, and no dose is advised.

On the day: taste nothing that you cannot name. Ask an expert (a botanist, a
pharmacist, the poisons line), keep to the food rules of your country, and tell
drinkers what is in the glass. If someone feels ill, call the poisons line or a
doctor at once. Sulfite gives off a choking gas with acids: weigh it where there
is air.

Sources: [herbs-in-pregnancy] [juniper-monograph] [uk-1333-2008] [codex-192]
[common-practice] [from-memory] [judgement]
"""

from collections.abc import Iterator
from functools import partial
from typing import NamedTuple

from mashwright.brew import Brew, number, told
from mashwright.figures.beer import sulfite
from mashwright.figures.mash import fermenter_volume
from mashwright.figures.package import is_sort
from mashwright.ingredients.cautions import caution
from mashwright.ingredients.doses import usual_dose
from mashwright.ingredients.kinds import Group, Place
from mashwright.ingredients.minerals import is_kitchen_salt
from mashwright.ingredients.sulfite_limits import contents as sulfite_contents
from mashwright.ingredients.vessels import VesselSort
from mashwright.knobs import Knob, another_text
from mashwright.measures import Kind, Range, said
from mashwright.recipe.model import Addition
from mashwright.recipe.stated import NOWHERE, Stated
from mashwright.rule import Evidence, Example, Finding, Level, Limit, Path, Say, Settings, Unknown, above, gap, say
from mashwright.words.vocabulary import mentions
from mashwright.words.when import when


class Limits(Settings):
    """What is compared with."""

    salt_g_per_l = Limit(1.5, "g/l", low=0.3, high=5, source="judgement")
    most_salt_g_per_l = Limit(4, "g/l", low=1, high=10, source="judgement")
    past_usual_times = Limit(2.5, "times", low=1.2, high=20, source="judgement")
    far_past_usual_times = Limit(4, "times", low=1.5, high=50, source="judgement")


_LEVELS = {"poison": Level.ERROR, "danger": Level.ERROR, "risk": Level.WARNING, "care": Level.NOTE}
_ASK = "ask an expert and keep to your local food rules"
_FAR_ABOVE = 2.0  # times the highest limit on sulfite, from which on a drinker is put at risk; judgement
_LEAST_SALT_G_PER_L = 0.2  # below it salt does not show; judgement


class _Named(NamedTuple):
    """One thing that goes in, and where its name stands."""

    path: Path
    name: str
    amount: Stated
    boiled: bool
    pieces: Stated = NOWHERE
    sealed: bool = False
    knob: Knob | None = None

    @property
    def called(self) -> str:
        if self.amount.known:
            return f"{self.amount.text} of {self.name}"
        return f"{self.pieces.text} {self.name}" if self.pieces.known else self.name


SAYS = {
    "poison": "{thing} can poison: {caution}",
    "danger": "{thing} can hurt: {caution}",
    "risk": "{thing} can harm: {caution}",
    "care": "take care with {thing}: {caution}",
    "too-much-sulfite": "{what}: up to {sulfite} mg/l of sulfite; beer may contain at most {limits}",
    "too-much-sulfite-in": "{what} in {beer}: up to {sulfite} mg/l of sulfite; beer may contain at most {limits}",
    "use-far-less": "it can trigger asthma; leave it out or use far less, ask an expert and keep to your local food"
    " rules",
    "use-less": "it can trigger asthma; use less, ask an expert and keep to your local food rules",
    "many-times": "{amount} of {name} is {times} times the usual maximum of {most}",
    "many-times-in": "{amount} of {name} in {beer} is {times} times the usual maximum of {most}",
    "too-salty": "{amount} of {name} is more than the {most} that even a gose tolerates",
    "too-salty-in": "{amount} of {name} in {beer} is more than the {most} that even a gose tolerates",
    "tastes-of-salt": "{amount} of {name} tastes salty, as beer does from about {most}; is a salty beer the aim,"
    " such as a gose?",
    "tastes-of-salt-in": "{amount} of {name} in {beer} tastes salty, as beer does from about {most}; is a salty beer"
    " the aim, such as"
    " a gose?",
    "slipped": "has the decimal point slipped?",
    "is-it-meant": "is this on purpose?",
}


def check(brew: Brew, limits: Limits) -> Iterator[Finding]:
    for one in _all(brew):
        found = caution(one.name, boiled=one.boiled, sealed=one.sealed, g_per_l=partial(_g_per_l, brew, one.amount))
        if found is None:
            continue
        level = _LEVELS[found.harm]
        if found.source == "from-memory":
            level = min(level, Level.WARNING)
        sentence = "care" if level is Level.NOTE else "risk" if level is Level.WARNING else found.harm
        yield Finding(
            one.path,
            level,
            say(sentence, thing=one.called, caution=found.told(one.name, _ending(level, alike=found.alike))),
            gap=1.0,
            knobs=(one.knob,) if found.raw and one.knob is not None else (),
        )
    yield from _sulfite(brew)
    for addition in brew.recipe.additions:
        yield from _dosed(brew, addition, limits)


def _ending(level: Level, *, alike: bool) -> str:
    """What to do about it; what is not itself a poison may be used by whoever knows it for certain."""
    if alike and level < Level.ERROR:
        return f", else leave {{them}} out; {'where in doubt, ' if level is Level.NOTE else ''}{_ASK}"
    return f"; where in doubt, {_ASK}" if level is Level.NOTE else f"; leave {{them}} out, or {_ASK}"


def _g_per_l(brew: Brew, amount: Stated) -> float | None:
    if not amount.known or amount.kind is not Kind.MASS:
        return None
    try:
        return amount.range.high * 1000 / fermenter_volume(brew)[0].typical
    except Unknown:
        return None


def _all(brew: Brew) -> Iterator[_Named]:
    recipe = brew.recipe
    for addition in recipe.additions:
        amount, name, goes_in = addition.weight or addition.volume, addition.what, when(addition.when)
        sealed = goes_in.closed or (mentions("closed", "ingredient", name) and not goes_in.before)
        yield _Named(addition.what.path, name, amount, goes_in.boiled, addition.count or NOWHERE, sealed)
    for line in recipe.grist:
        boiled = line.add not in ("", Place.FERMENTER) or (not line.add and line.group != Group.FRUIT)
        knob = another_text(line.add.path, "kettle", f"boil {line.name} (add: kettle)")
        yield _Named((*line.path, line.group), line.name, line.weight or NOWHERE, boiled, knob=knob)
    for hop in recipe.hops:
        yield _Named(hop.name.path, hop.name, hop.weight or NOWHERE, boiled=not hop.dry.known)


def _sulfite(brew: Brew) -> Iterator[Finding]:
    doses = [one for one in sulfite(brew) if one.so2_mg is not None]
    if not doses:
        return
    litres = fermenter_volume(brew)[0].typical
    total = sum(one.so2_mg for one in doses if one.so2_mg is not None) / litres
    cask = all(package.known and is_sort(package, VesselSort.CASK) for package in brew.recipe.packages)
    countries = sulfite_contents(cask=cask)
    dose, highest = Range.exact(total), countries[-1].mg_per_l
    past = [one for one in countries if above(dose, one.mg_per_l)]
    if not past:
        return
    volume = brew.recipe.batch.stated
    what = " and ".join(one.text for one in doses)
    far = total >= _FAR_ABOVE * highest
    limits = ", ".join(f"{number(one.mg_per_l, 3)} mg/l in {one.where}" for one in past)
    message = say(
        "too-much-sulfite-in" if volume.known else "too-much-sulfite",
        what=what,
        beer=said(litres, volume.unit, volume.kind) if volume.known else "",
        sulfite=told(total, past[-1].mg_per_l),
        limits=limits,
    )
    yield Finding(
        doses[0].path,
        Level.ERROR if far else Level.WARNING,
        message.and_then(say("use-far-less" if far else "use-less")),
        gap=gap(dose, past[0].mg_per_l),
        evidence=tuple(Evidence(f"{one.text}, as SO2", (one.so2_mg or 0) / litres, "mg/l", one.path) for one in doses),
        related=tuple(one.path for one in doses[1:]),
    )


def _dosed(brew: Brew, addition: Addition, limits: Limits) -> Iterator[Finding]:
    """A spice, a fining or salt of which there is many times what a beer gets."""
    name, weight = addition.what, addition.weight
    if not weight.known or weight.kind is not Kind.MASS:
        return
    salt = is_kitchen_salt(name)
    usual = None if salt else usual_dose(name)
    if usual is None and not salt:
        return
    try:
        litres = fermenter_volume(brew)[0].typical
    except Unknown:
        return
    dose = Range.exact(1000 * weight.range.typical / litres)
    batch = brew.recipe.batch.stated

    def weighed(g_per_l: float) -> str:
        return said(g_per_l * litres / 1000, weight.unit, weight.kind)

    def much(sentence: str, **values: str) -> Say:
        if not batch.known:
            return say(sentence, amount=weight, name=name, **values)
        return say(f"{sentence}-in", amount=weight, name=name, beer=said(litres, batch.unit, batch.kind), **values)

    if usual is not None:
        least, most = usual.low, usual.high
        times = much("many-times", times=number(dose.typical / most, 2), most=weighed(most))
        steps = (
            (limits.far_past_usual_times * most, Level.WARNING, times.and_then(say("slipped"))),
            (limits.past_usual_times * most, Level.NOTE, times.and_then(say("is-it-meant"))),
        )
    else:
        least, most = _LEAST_SALT_G_PER_L, limits.salt_g_per_l
        bears = much("too-salty", most=weighed(limits.most_salt_g_per_l))
        tasted = much("tastes-of-salt", most=weighed(most))
        steps = (
            (limits.most_salt_g_per_l, Level.WARNING, bears.and_then(say("slipped"))),
            *(() if brew.intent.salty else ((most, Level.NOTE, tasted),)),
        )
    for limit, level, message in steps:
        if not above(dose, limit):
            continue
        path = addition.weight.path
        text = weighed(dose.typical / 10 if least <= dose.typical / 10 <= most else most)
        less = another_text(path, text, f"use {text} of {name} instead of {weight.text}")
        yield Finding(
            path,
            level,
            message,
            gap=gap(dose, limit),
            evidence=(Evidence(f"{name} to a litre", dose.typical, "g/l", path),),
            knobs=(less,) if level > Level.NOTE else (),
        )
        return


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
    " used, off their stems; leave them out, or ask an expert and keep to your local food rules",
)
