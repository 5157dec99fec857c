"""Is every ingredient known?

The extract, enzymes and colour of an ingredient are looked up by its name.
Where no table, brewhouse or lot knows the name, the sums go on without them or
with a wide guess. Every other rule then has half an answer.

What is checked: each name of the grist and each kind of yeast. Case, accents,
hyphens, plurals and word order do not matter.

- warning: a name in the grist that is not known, and that neither the recipe,
  the brewhouse nor a lot describes; the nearest names are offered
- note, not a warning: a fruit with no known name near it, since a wide guess
  is good enough for a fruit
- note: a kind of yeast that is not known, with no stated attenuation
- warning: a kind of yeast that is plainly a slip of the pen, whatever is
  stated of it. The rules on heat, time and gas treat it as the kind that was
  meant.
- note: a known name with the wrong field, such as sugar under `grain`; it is
  counted as what it is. Syrup may be under `extract`.

On the day: the sack's label or the maltster's sheet says what to write.
Describe a thing that no table knows in its own line. Its `kind` alone is
enough: the sums then span all that is known of the kind. More makes them
surer, if the label says it:

  base malt                     diastatic power, extract
  kilned malt                   diastatic power, colour
  caramel or roasted malt       colour
  raw or flaked grain, grits    cereal, temperature where it gelatinises
  sugar, syrup, malt extract    extract, fermentable share

Or describe it once for all, under `ingredients` of the brewhouse.
`mashwright names malts` lists what is known.

Sources: [by-definition]
"""

from collections.abc import Iterator

from mashwright.brew import Brew, described_by, group_of, hop_of, own_names, table_entry, yeast_of
from mashwright.ingredients.kinds import Group, IngredientKind, Sort
from mashwright.ingredients.lookup import keeps_words, most_guessed, nearest
from mashwright.ingredients.probable import slip_of
from mashwright.ingredients.slips import kind_by_words, slips
from mashwright.knobs import Knob, another_text, one_change
from mashwright.recipe.model import GristLine
from mashwright.rule import Edit, Example, Finding, Level, Limit, Path, Say, Settings, say
from mashwright.words.nearest import close
from mashwright.words.vocabulary import mentions

_SAID_OF: dict[str, str] = {Group.SUGAR: "sugar", Group.EXTRACT: "malt extract", Group.FRUIT: "fruit"}
_KINDS: dict[str, tuple[str, ...]] = {
    Group.SUGAR: (IngredientKind.SUGAR, IngredientKind.SYRUP),
    Group.EXTRACT: (IngredientKind.LIQUID_EXTRACT, IngredientKind.DRY_EXTRACT),
    Group.FRUIT: (IngredientKind.FRUIT_OR_OTHER,),
}
_OTHERS = {kind for kinds in _KINDS.values() for kind in kinds}
_GRAIN = tuple(kind for kind in IngredientKind if kind not in _OTHERS)
_KINDS[Group.GRAIN] = (IngredientKind.BASE_MALT, IngredientKind.CARAMEL_MALT, *_GRAIN)
"""What a line with each key can be; the first two are shown as examples."""


class Limits(Settings):
    """What is compared with."""

    alike_percent = Limit(80, "%", low=50, high=100, source="judgement")
    slip_percent = Limit(90, "%", low=50, high=100, source="judgement")


SAYS = {
    "unknown": "nothing is known of {name}; describe it here",
    "is-enough": ": `kind: {kind}` is enough",
    "such-as": ": its kind is enough, such as `kind: {kind}` or `kind: {other}`",
    "or-near": ", or did you mean {near}?",
    "unknown-yeast": "nothing is known of {yeast}; state its attenuation here",
    "unknown-yeast-but-near": "nothing is known of {yeast}; state its attenuation here, or did you mean {near}?",
    "slip-in-yeast": "nothing is known of {yeast}; did you mean {near}?",
    "misplaced": "{name} is {what:a}, and is counted as one; write `{right}:` instead of `{wrong}:`",
}


def check(brew: Brew, limits: Limits) -> Iterator[Finding]:
    yield from _misplaced(brew)
    yield from _unknown(brew, limits)
    yield from _unknown_yeasts(brew, limits)


def _unknown(brew: Brew, limits: Limits) -> Iterator[Finding]:
    """Lines of the grist that no table and no description explains."""
    unknown, most = 0, most_guessed(len(own_names(brew.brewhouse, Sort.GRIST)))
    for line in brew.recipe.grist:
        # what is not known of a lot, its brewhouse is told
        house = brew.brewhouse
        lot = house.lots.get(line.lot or line.name)
        mine = described_by(line, house) is not None
        described = line.kind or mine or (lot is not None and not hop_of(house, lot.of))
        if not line.group or not line.name or described or table_entry(line, brew.brewhouse) is not None:
            continue
        path = (*line.path, line.group)
        unknown += 1
        near = _near(line.name, brew, limits) if unknown <= most else ()
        level = Level.NOTE if line.group == Group.FRUIT and not near else Level.WARNING
        kind = kind_by_words(line.name, frozenset(_KINDS[line.group])) if unknown <= most else ""
        enough = say("is-enough", kind=kind) if kind else _such_as(*_KINDS[line.group][:2])
        asked = say("or-near", near=_either(near)) if near else None
        message = say("unknown", name=line.name).and_then(enough, asked)
        knobs = (*_knobs(path, line.name, near), *_described(line, kind))
        yield Finding(path, level, message, gap=1.0, knobs=knobs)


def _unknown_yeasts(brew: Brew, limits: Limits) -> Iterator[Finding]:
    """Yeasts of which nothing is known, and names that are slips whatever is said of them."""
    unknown, own = 0, own_names(brew.brewhouse, Sort.YEAST)
    most = most_guessed(len(own))
    for yeast in brew.recipe.yeast:
        if not yeast.kind or yeast_of(brew.brewhouse, yeast.kind):
            continue
        path = yeast.kind.path
        unknown += 1
        near = _close(yeast.kind, (*nearest(yeast.kind, "yeasts"), *own), limits) if unknown <= most else ()
        meant_kind = slip_of(yeast.kind) if unknown <= most else None
        near = near or ((meant_kind,) if meant_kind is not None else ())
        near = near or (slips(yeast.kind, "yeasts") if unknown <= most else ())
        slip = meant_kind is not None or bool(_close(yeast.kind, near, limits, limits.slip_percent))
        if yeast.attenuation.known and not slip:
            continue  # a name of its own, of which what counts is said
        said = yeast.kind if _says_what(yeast.kind) else f"{yeast.kind} yeast"
        if yeast.attenuation.known:
            message = say("slip-in-yeast", yeast=said, near=_either(near))
        elif near:
            message = say("unknown-yeast-but-near", yeast=said, near=_either(near))
        else:
            message = say("unknown-yeast", yeast=said)
        level = Level.WARNING if slip else Level.NOTE
        yield Finding(path, level, message, gap=1.0, knobs=_knobs(path, yeast.kind, near))


def _near(name: str, brew: Brew, limits: Limits) -> tuple[str, ...]:
    names = (*nearest(name, "fermentables"), *_by_colour(name))
    known = tuple(one for one in names if keeps_words(name, one))
    return _close(name, (*known, *own_names(brew.brewhouse, Sort.GRIST)), limits) or slips(name, "fermentables")


def _such_as(kind: str, other: str = "") -> Say:
    return say("such-as", kind=kind, other=other) if other else say("is-enough", kind=kind)


def _described(line: GristLine, kind: str) -> tuple[Knob, ...]:
    """The line with the kind that the words of its name say."""
    return (one_change((Edit(line.kind.path, kind),), f"add kind: {kind}"),) if kind else ()


def _misplaced(brew: Brew) -> Iterator[Finding]:
    """Sugar under `grain`: taken for what it is, and said, since readers may take it otherwise."""
    for line in brew.recipe.grist:
        entry = table_entry(line, brew.brewhouse)
        group = group_of(line, entry)
        as_extract = (
            line.group == Group.EXTRACT and entry and entry.kind == IngredientKind.SYRUP
        )  # the trade calls it so
        if not entry or not line.group or group == line.group or as_extract:
            continue
        what = _SAID_OF.get(group, "grain")
        message = say("misplaced", name=line.name, what=what, right=group, wrong=line.group)
        yield Finding((*line.path, line.group), Level.NOTE, message, gap=0.1)


def _says_what(kind: str) -> bool:
    """Whether the name of a culture says itself what it is."""
    return mentions("names-culture", "ingredient", kind.rpartition(" ")[2])


def _close(
    name: str, candidates: tuple[str, ...], limits: Limits, alike_percent: float | None = None
) -> tuple[str, ...]:
    """The names that a typing slip away from this one could be, the nearest first."""
    alike = close(name, candidates, (limits.alike_percent if alike_percent is None else alike_percent) / 100)
    return tuple(one for likeness, one in alike if likeness >= alike[0][0] - 0.08)[:2]


def _by_colour(name: str) -> tuple[str, ...]:
    """The caramel malts of a name that ends in a colour, which no list of names holds."""
    colour = "".join(sign for sign in name if sign.isdigit())
    return (f"caramel malt {colour}", f"crystal malt {colour}", f"crystal {colour}") if colour else ()


def _either(names: tuple[str, ...]) -> str:
    return " or ".join(names)


def _knobs(path: Path, name: str, near: tuple[str, ...]) -> tuple[Knob, ...]:
    return tuple(another_text(path, one, f"use {one} instead of {name}") for one in near)


SOUND = """\
recipe: Hedge Row Rye
by: Saltmarsh Lane Mash Circle
batch: 20 l
grist:
  - {grain: Two Row Pale Malts, weight: 3.5 kg}
  - {grain: village rye, kind: raw grain, cereal: rye, extract: 68 %, weight: 500 g}
"""
FAULTY = Example(
    """\
recipe: Hedge Row Rye
by: Saltmarsh Lane Mash Circle
batch: 20 l
grist:
  - {grain: two-row pale mlt, weight: 3.5 kg}
  - {grain: rye malt, weight: 500 g}
""",
    "warning",
    5,
    13,
    "nothing is known of two-row pale mlt; describe it here: `kind: base malt` is enough, or did you mean two-row"
    " pale malt?",
)
