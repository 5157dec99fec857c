"""Has each lot one certificate of analysis, and does a recipe use it?

A lot is one delivery, and was analysed once. If two sheets or two recipes give
one lot two analyses, one was copied wrong or belongs to another sack. And a
certificate that no recipe names helps nobody. The sums then use the wide range
of the tables, though the sack was measured.

What is checked: what each brewhouse.yaml records of a lot, and what the grist
lines and hops that name the lot say themselves. Each value is compared with the
first one: certificates come before recipes, then by path.

- warning: a value more than 5 % from the first one, which is more than
  rounding between units explains; in the later place
- warning: one lot is of two ingredients, where the tables know both
- note: no recipe under its brewhouse.yaml names the lot; in the
  brewhouse.yaml
- skipped: a review of one file, not of a folder. What is said of a brewhouse
  needs a review of everything below it.

On the day: read the lot's number on the sack, and find the certificate with
that number.

Sources: one analysis to a lot is [common-practice]; how far rounding goes is
[judgement].
"""

from collections.abc import Iterator, Mapping
from typing import NamedTuple

from mashwright.brew import Brew
from mashwright.ingredients.lookup import fermentable as known_fermentable
from mashwright.ingredients.lookup import hop as known_hop
from mashwright.measures import Quantity
from mashwright.recipe.brewhouse import Lot
from mashwright.recipe.stated import Stated
from mashwright.rule import ExampleOfTwo, Finding, Level, Limit, Path, Say, Settings, say


class Limits(Settings):
    """What is compared with."""

    apart_percent = Limit(5, "%", low=0.5, high=30, source="judgement")


class _Said(NamedTuple):
    """What one place says of a lot: of what it is, and its values by their names."""

    path: Path
    lot: str
    of: str
    values: tuple[tuple[str, Quantity], ...]


class Known(NamedTuple):
    """What a recipe knows of lots.

    Attributes:
        house: the file of its brewhouse, or "".
        lots: as its brewhouse records them.
        said: what its own lines say.
        names: everything it asks for by name.
    """

    house: str
    lots: Mapping[str, Lot]
    said: tuple[_Said, ...]
    names: frozenset[str]


SOUND = """\
recipe: Tollgate Amber
by: Saltmarsh Lane Mash Circle
batch: 20 l
grist:
  - {grain: two-row pale malt, weight: 4 kg, lot: PM-0388, diastatic-power: 112 °Lintner}
  - {grain: caramel malt 40, weight: 300 g}
"""

FAULTY = ExampleOfTwo(
    SOUND,
    """\
recipe: Samphire Gold
by: Saltmarsh Lane Mash Circle
batch: 20 l
grist:
  - {grain: two-row pale malt, weight: 4.2 kg, lot: PM-0388, diastatic-power: 141 °Lintner}
  - {grain: wheat malt, weight: 300 g}
""",
    "warning",
    5,
    53,
    "lot PM-0388 has 141 °Lintner of diastatic power here and 112 °Lintner in first.yaml; one lot has one"
    " analysis, so correct one, or use two lot names",
)


def gather(brew: Brew) -> Known | None:
    house, recipe = brew.brewhouse, brew.recipe
    said: list[_Said] = []
    names: set[str] = set()
    for line in recipe.grist:
        names.update((line.lot, line.name))
        if line.lot:
            named = (
                ("colour", line.colour),
                ("moisture", line.moisture),
                ("extract", line.extract),
                ("diastatic power", line.diastatic_power),
            )
            said.append(_said(line.path, line.lot, line.name, named))
    for hop in recipe.hops:
        names.update((hop.lot, hop.name))
        if hop.lot:
            said.append(_said(hop.path, hop.lot, hop.name, (("alpha acid", hop.alpha),)))
    if not said and not house.lots:
        return None
    return Known(house.file, house.lots, tuple(said), frozenset(names))


def _said(path: Path, lot: str, of: str, named: tuple[tuple[str, Stated], ...]) -> _Said:
    return _Said((*path, "lot"), lot, of, tuple((label, value) for label, value in named if value.known))


SAYS = {
    "unused": "no recipe here names lot {lot}; write `lot: {lot}` where that sack is used, or delete it",
    "lot": "lot {lot}",
    "and-it": "and it",
    "another": " is {here} here and {there} in {file}",
    "another-elsewhere": " is {here} here and {there} elsewhere",
    "apart": " has {here} of {what} here and {there} in {file}",
    "apart-elsewhere": " has {here} of {what} here and {there} elsewhere",
    "one-analysis": "one lot has one analysis, so correct one, or use two lot names",
}


def check_collection(gathered: list[tuple[str, Known]], limits: Limits) -> Iterator[tuple[str, Finding]]:
    recorded = {known.house: known.lots for _, known in gathered}
    named: dict[str, set[str]] = {house: set() for house in recorded}
    for _, known in gathered:
        named[known.house] |= known.names
    for house, lots in sorted(recorded.items()):
        for name, lot in lots.items():
            if name not in named[house]:
                yield house, Finding(lot.path, Level.NOTE, say("unused", lot=name), gap=1.0)
    every = [(house, _recorded(name, lot)) for house, lots in sorted(recorded.items()) for name, lot in lots.items()]
    every += [(path, said) for path, known in sorted(gathered, key=_by_path) for said in known.said]
    yield from _contradictions(every, limits)


def _by_path(one: tuple[str, Known]) -> str:
    return one[0]


def _recorded(name: str, lot: Lot) -> _Said:
    """What a certificate says of its lot."""
    fields = (
        ("colour", lot.colour),
        ("moisture", lot.moisture),
        ("diastatic power", lot.diastatic_power),
        ("fine-grind extract, dry,", lot.extract_fine_dry),
        ("fine-grind extract as is", lot.extract_fine_as_is),
        ("coarse-grind extract, dry,", lot.extract_coarse_dry),
        ("coarse-grind extract as is", lot.extract_coarse_as_is),
        ("alpha acid", lot.alpha),
    )
    return _Said(lot.path, name, lot.of, tuple((label, value) for label, value in fields if value.known))


def _contradictions(every: list[tuple[str, _Said]], limits: Limits) -> Iterator[tuple[str, Finding]]:
    """Each place that says something else of a lot than the first that spoke of it."""
    first: dict[tuple[str, str], tuple[str, Quantity]] = {}
    things: dict[str, tuple[str, str]] = {}
    for file, said in every:
        told = []
        whose, thing = things.setdefault(said.lot, (file, said.of))
        if _another(said.of, thing):
            told.append(_contradiction("another", file, whose, here=said.of, there=thing))
        for label, value in said.values:
            where, before = first.setdefault((said.lot, label), (file, value))
            if _apart(value, before, limits):
                told.append(_contradiction("apart", file, where, here=value, what=label, there=before))
        if told:
            its, *others = told
            further = [part for one in others for part in (say("and-it"), one)]
            message = say("lot", lot=said.lot).and_then(its, *further, say("one-analysis"))
            yield file, Finding(said.path, Level.WARNING, message, gap=1.0)


_ELSEWHERE = {"another": "another-elsewhere", "apart": "apart-elsewhere"}


def _contradiction(sentence: str, file: str, where: str, **values: object) -> Say:
    """What is said of a lot here and otherwise in another file, or elsewhere in this one."""
    if where == file:
        return say(_ELSEWHERE[sentence], **values)
    return say(sentence, file=where, **values)


def _another(one: str, other: str) -> bool:
    """Whether two names are surely not of one thing: the tables know both, and as two."""
    malts = known_fermentable(one), known_fermentable(other)
    if malts[0] is not None and malts[1] is not None:
        return malts[0].name != malts[1].name
    hops = known_hop(one), known_hop(other)
    return hops[0] is not None and hops[1] is not None and hops[0].name != hops[1].name


def _apart(one: Quantity, other: Quantity, limits: Limits) -> bool:
    low, high = sorted((one.range.typical, other.range.typical))
    return high - low > limits.apart_percent / 100 * abs(high)
