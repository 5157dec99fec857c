"""Is each added enzyme known, dosed, and used where it works?

Enzymes from a packet can do what the malt cannot. They turn the starch of raw
grain into sugar, open a sticky mash or dry out a beer. Each does one thing,
between two temperatures, and more heat destroys it. An enzyme that cannot
work leaves the starch in the wort.

What is checked: each line under `enzymes`, in the mash and in the steps of
the fermentation. A table says what each enzyme does, and how hot.

- warning: the table does not know the name, so nothing counts the enzyme
- warning: the amount is zero
- warning: it works in none of the stated rests of the mash; or neither in
  its step of the fermentation nor in a later one
- skipped: an enzyme among the additions. Starch, attenuation and pressure
  count it all the same. Its `when` says where it goes: the mash, otherwise
  the fermenter. The boil destroys it.

On the day: follow the maker's sheet for dose, temperature and pH; it comes
before this table. Keep the dust of dry enzymes out of eyes and lungs: it can
make you allergic for life. Test with iodine before run-off.

Sources: [from-memory] for the temperatures
"""

from collections.abc import Iterator

from mashwright.brew import Brew, enzyme_of, own_names
from mashwright.brew import degrees as degrees_in
from mashwright.ingredients.enzymes import Enzyme, nearest_enzyme
from mashwright.ingredients.kinds import Sort
from mashwright.measures import Range
from mashwright.recipe.model import Amount
from mashwright.rule import Example, Finding, Level, Path, Settings, Unknown, say


class Limits(Settings):
    """Nothing is set here: where an enzyme works is a fact of the enzyme."""


SAYS = {
    "none-of-it": "{dose} of {enzyme} does nothing; write the dose, or leave the line out",
    "never-at-that": "{enzyme} works at {band}; no step of the {where} is in that range, so it may do nothing",
    "unknown": "nothing is known of an enzyme called {enzyme}, so it is not counted",
    "name-it": "name it by what it is, such as alpha-amylase",
    "did-you-mean": "did you mean {near}?",
}


def check(brew: Brew, limits: Limits) -> Iterator[Finding]:  # noqa: ARG001  (the contract's signature)
    mash = brew.recipe.mash
    for one in mash.enzymes if mash.known else ():
        yield from _judged(brew, one, _rests(brew), "mash")
    for number, step in enumerate(brew.recipe.ferment):
        stays = brew.recipe.ferment[number:]  # what is in the beer works in the later steps as well
        heats = [quantity.range for later in stays for quantity in (later.at, later.to) if quantity.known]
        for one in step.enzymes:
            yield from _judged(brew, one, heats, "fermentation")


def _rests(brew: Brew) -> list[Range]:
    """The heat of each rest from beginning to end; none where they cannot be followed or are not stated."""
    try:
        planned = brew.plan.known()
    except Unknown:
        return []
    if not brew.plan.stated:
        return []
    ends = [(rest.at_c, rest.to_c or rest.at_c) for rest in planned]
    return [Range(min(one.low, other.low), one.typical, max(one.high, other.high)) for one, other in ends]


def _judged(brew: Brew, one: Amount, heats: list[Range], where: str) -> Iterator[Finding]:
    known = enzyme_of(brew.brewhouse, one.name)
    if known is None:
        yield _unknown(brew, one)
        return
    if one.quantity.known and one.quantity.range.high <= 0:
        message = say("none-of-it", dose=one.quantity, enzyme=one.name)
        yield Finding(one.path, Level.WARNING, message, gap=1.0)
    elif heats and not any(_works(known, heat) for heat in heats):
        band = degrees_in(brew, Range(known.low_c, known.low_c, known.high_c))
        message = say("never-at-that", enzyme=one.name, band=band, where=where)
        yield Finding(one.path, Level.WARNING, message, gap=1.0)


def _works(known: Enzyme, heat: Range) -> bool:
    return heat.low <= known.high_c and heat.high >= known.low_c


def _unknown(brew: Brew, one: Amount) -> Finding:
    near = nearest_enzyme(one.name, own_names(brew.brewhouse, Sort.ENZYME))
    path: Path = one.path
    asked = say("did-you-mean", near=near) if near is not None else say("name-it")
    return Finding(path, Level.WARNING, say("unknown", enzyme=one.name).and_then(asked), gap=1.0)


SOUND = """\
recipe: Raw Harbour
by: Saltmarsh Lane Mash Circle
batch: 20 l
grist:
  - {grain: two-row pale malt, weight: 2.5 kg}
  - {grain: raw wheat, weight: 2 kg}
mash: {enzymes: {alpha-amylase: 5 g}, rests: [{at: 66 °C, for: 60 min}]}
"""
FAULTY = Example(
    """\
recipe: Raw Harbour
by: Saltmarsh Lane Mash Circle
batch: 20 l
grist:
  - {grain: two-row pale malt, weight: 2.5 kg}
  - {grain: raw wheat, weight: 2 kg}
mash: {enzymes: {alfa-amylase: 5 g}, rests: [{at: 66 °C, for: 60 min}]}
""",
    "warning",
    7,
    32,
    "nothing is known of an enzyme called alfa-amylase, so it is not counted; did you mean alpha-amylase?",
)
