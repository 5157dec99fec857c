"""Are the alpha acids of the hops believable?

The alpha acid is what bitters. It stands on the packet and differs by cultivar and harvest; a decimal point out, or
the figure of another hop, and the beer is ten times or twice as bitter as meant.

Computed: the stated alpha acid against what any hops have (above 30 % an error, unless form or name says that it is an
extract, and above 75 % not even that; below 1 % only old hops), and against the range of its cultivar: a note where it
is 1.4 times outside, a warning where it is twice outside. Hops with an age or a harvest may have any less. Where a
decimal point put right gives an ordinary figure, it is offered. Dry hops bitter hardly, so of those no more than a
note. A hop that no table knows and that states no alpha acid is a note.

On the day: read the packet; the alpha acid of last year's harvest is not this year's.

Sources: [common-practice] [judgement] and the growers' and official descriptions behind the table of hops, such as
[usda-21092] [usda-19209] [oxford-golding]
"""

from collections.abc import Iterator
from typing import NamedTuple

from mashwright.brew import Brew, number, told
from mashwright.ingredients.lookup import hop as known_hop
from mashwright.ingredients.lookup import most_guessed, nearest
from mashwright.knobs import Knob, another_text
from mashwright.measures import Kind, Quantity, Range, bounds, said
from mashwright.recipe.model import Hop
from mashwright.rule import Example, Finding, Level, Limit, Path, Settings, above, below, gap
from mashwright.words.nearest import close
from mashwright.words.plurals import with_noun
from mashwright.words.vocabulary import speaks_of


class Limits(Settings):
    """What is compared with."""

    most_percent = Limit.of(bounds.MOST_ALPHA_PERCENT)
    most_in_extract_percent = Limit.of(bounds.MOST_ALPHA_IN_EXTRACT_PERCENT)
    least_percent = Limit(1, "%", low=0.1, high=3, source="common-practice")
    outside_times = Limit(1.4, "times", low=1, high=5, source="judgement")
    far_outside_times = Limit(2, "times", low=1.2, high=10, source="judgement")


class _Doubt(NamedTuple):
    """What there is to say of a stated alpha acid: how bad, in which words, how far past."""

    level: Level
    words: str
    gap: float


def check(brew: Brew, limits: Limits) -> Iterator[Finding]:
    unknown = 0
    for hop in brew.recipe.hops:
        if not (stated := hop.alpha).known:
            if not hop.dry.known and hop.weight.known and not hop.bitterness.known and not hop.alpha_units.known:
                found = _unknown(brew, hop, guess=unknown < most_guessed())
                unknown += found is not None
                yield from (found,) if found is not None else ()
            continue
        name = _cultivar(brew, hop)
        old = hop.age.known or bool(hop.harvest) or speaks_of("aged-hops", "ingredient", hop.name)
        doubt = _hardly_any_hop(stated, _form(hop), limits, old=old) or _not_this_one(
            stated, name, hop.form, limits, old=old
        )
        if doubt is None:
            continue
        path = hop.alpha.path
        level = Level.NOTE if hop.dry.known else doubt.level
        asked, knobs = _shifted(path, stated, name) if doubt.level > Level.NOTE else ("", ())
        most, in_extract = limits.most_percent, limits.most_in_extract_percent
        if not asked and not _form(hop) and most < stated.range.typical <= in_extract:
            asked = "; of an extract, say form: extract"
        yield Finding(path, level, doubt.words + asked, gap=doubt.gap, knobs=knobs)


_ALIKE = 0.8  # how like a known name is one that a typing slip made of it; judgement


def _cultivar(brew: Brew, hop: Hop) -> str:
    lot = brew.brewhouse.lots.get(hop.lot or hop.name)
    return lot.of if lot is not None else hop.name


def _form(hop: Hop) -> str:
    """The form as stated, or by the name where that tells of an extract."""
    return hop.form or ("extract" if speaks_of("hop-extract", "ingredient", hop.name) else "")


def _hardly_any_hop(stated: Quantity, form: str, limits: Limits, *, old: bool) -> _Doubt | None:
    """Outside of what any hops have."""
    value, acid = stated.range, f"{stated.text} alpha acid"
    extract = limits.most_in_extract_percent
    if level := above(value, extract):
        return _Doubt(
            level,
            f"{acid} is more than hops or their extract have, {number(extract)} % at the most",
            gap(value, extract),
        )
    if form == "extract":
        return None
    if level := above(value, limits.most_percent):
        return _Doubt(level, f"{acid} is more than any hops have, about 2 to 20 %", gap(value, limits.most_percent))
    if not old and below(value, limits.least_percent):
        said_so = (
            f"{told(value.typical, limits.least_percent)} % alpha acid is less than fresh hops have, about 2 to 20 %"
        )
        return _Doubt(Level.WARNING, said_so, gap(value, limits.least_percent))
    return None


def _not_this_one(stated: Quantity, name: str, form: str, limits: Limits, *, old: bool) -> _Doubt | None:
    """Outside of what its cultivar has."""
    cultivar = known_hop(name) if form != "extract" else None
    if cultivar is None:
        return None
    value, usual = stated.range, cultivar.alpha
    too_low = 0.0 if old or value.high <= 0 else usual.low / value.high
    times = Range.exact(max(value.low / usual.high, too_low))
    if not above(times, limits.outside_times):
        return None
    far = bool(above(times, limits.far_outside_times))
    memory = dict(cultivar.sources).get("alpha") == ("from-memory",)
    side = "above" if value.low > usual.high else "below"
    band = f"{side} the {said(usual, '%', Kind.SHARE)} of {name}"
    words = f"{stated.text} alpha acid is {'far ' if far else ''}{band}"
    return _Doubt(Level.WARNING if far and not memory else Level.NOTE, words, gap(times, 1))


def _shifted(path: Path, stated: Quantity, name: str) -> tuple[str, tuple[Knob, ...]]:
    """The decimal point put right, where that gives what the cultivar, or else any hop, has."""
    cultivar = known_hop(name)
    usual = cultivar.alpha if cultivar is not None else Range(2, 8, 18)  # any hop; common practice
    for factor in (0.1, 10, 0.01):
        value = stated.range.typical * factor
        # a fifth past the cultivar's range is still taken for it; judgement
        if stated.range.known and 0.8 * usual.low <= value <= 1.2 * usual.high:
            text = f"{number(value, 3)} %"
            return f"; is it {text}", (another_text(path, text, f"{text} instead of {stated.text}"),)
    return "", ()


def _unknown(brew: Brew, hop: Hop, *, guess: bool) -> Finding | None:
    """A hop that boils, states no alpha acid, and is in no table."""
    lot = brew.brewhouse.lots.get(hop.lot or hop.name)
    if not hop.name or (lot is not None and lot.alpha.known) or (hop.alpha.mentioned and not hop.alpha.known):
        return None
    if known_hop(_cultivar(brew, hop)) is not None:
        return None
    near = close(hop.name, nearest(hop.name, "hops", 1), _ALIKE) if guess else []
    meant = f"did you mean {near[0][1]}, or else state" if near else "state"
    name = with_noun(hop.name, "hops")
    message = f"nothing is known of {name}; {meant} their alpha acid here"
    return Finding(hop.name.path, Level.NOTE, message, gap=1.0)


SOUND = """\
recipe: Towpath Pale
by: Saltmarsh Lane Mash Circle
batch: 20 l
grist:
  - {grain: pale ale malt, weight: 4 kg}
hops:
  - {hop: Cascade, weight: 30 g, alpha: 5.2 %, boil: 60 min}
  - {hop: Saaz, weight: 20 g, alpha: 3 %, boil: 10 min}
"""
FAULTY = Example(
    """\
recipe: Towpath Pale
by: Saltmarsh Lane Mash Circle
batch: 20 l
grist:
  - {grain: pale ale malt, weight: 4 kg}
hops:
  - {hop: Cascade, weight: 30 g, alpha: 52 %, boil: 60 min, form: pellet}
""",
    "error",
    7,
    41,
    "52 % alpha acid is more than any hops have, about 2 to 20 %; is it 5.2 %",
)
