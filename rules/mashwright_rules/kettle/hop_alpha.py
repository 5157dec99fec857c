"""Is the stated alpha acid of the hops believable?

Alpha acid is what makes beer bitter. It is printed on the packet, and differs
with cultivar and harvest. With a decimal point out, or the figure of another
hop, the beer is ten times or twice as bitter.

What is checked: the stated alpha acid, against what any hop has and against the
range of its cultivar.

- error: above 75 % in anything; above 30 %, unless the form or the name says
  that it is an extract. A warning where a stated range leaves it open.
- warning: below 1 %
- warning: 2 times outside the range of the cultivar
- note: 1.4 times outside the range of the cultivar
- note: hops other than dry hops state a weight, but neither alpha acid
  (units) nor bitterness, and no table or lot knows their alpha acid
- also asked: did you mean the figure with the decimal point moved? From 30 to
  75 %: is it an extract?
- never more than a note: dry hops, which give hardly any bitterness
- skipped: too low a figure, where an age or a harvest is stated or the name
  calls them aged; the range of the cultivar, where the form is extract or the
  range is from memory alone (it serves only where no alpha acid is stated)

On the day: copy the figure from the packet. Last year's harvest had another.

Sources: [common-practice] [judgement] and the growers' and official
descriptions behind the table of hops, such as [usda-21092] [usda-19209]
[oxford-golding]
"""

from collections.abc import Iterator
from typing import NamedTuple

from mashwright.brew import Brew, has_alpha, hop_of, number, own_names, told
from mashwright.ingredients.kinds import HopForm, Sort
from mashwright.ingredients.lookup import most_guessed, nearest
from mashwright.ingredients.slips import slips
from mashwright.knobs import Knob, another_text
from mashwright.measures import Kind, Quantity, Range, bounds, said
from mashwright.recipe.model import Hop
from mashwright.rule import Example, Finding, Level, Limit, Path, Say, Settings, above, below, gap, say
from mashwright.words.nearest import close
from mashwright.words.plurals import with_noun
from mashwright.words.sentences import Measure
from mashwright.words.vocabulary import mentions


class Limits(Settings):
    """What is compared with."""

    most_percent = Limit.of(bounds.MOST_ALPHA_PERCENT)
    most_in_extract_percent = Limit.of(bounds.MOST_ALPHA_IN_EXTRACT_PERCENT)
    least_percent = Limit(1, "%", low=0.1, high=3, source="common-practice")
    outside_times = Limit(1.4, "times", low=1, high=5, source="judgement")
    far_outside_times = Limit(2, "times", low=1.2, high=10, source="judgement")


class _Doubt(NamedTuple):
    """What there is to say of a stated alpha acid: how bad, what is said, how far past."""

    level: Level
    message: Say
    gap: float


SAYS = {
    "more-than-extract": "{alpha} alpha acid is more than any hop or hop extract has, at most {most} %",
    "more-than-any": "{alpha} alpha acid is more than any hop has, about 2 to 20 %",
    "less-than-fresh": "{alpha} % alpha acid is less than fresh hops have, about 2 to 20 %",
    "above": "{alpha} alpha acid is above the {usual} of {hop}",
    "far-above": "{alpha} alpha acid is far above the {usual} of {hop}",
    "below": "{alpha} alpha acid is below the {usual} of {hop}",
    "far-below": "{alpha} alpha acid is far below the {usual} of {hop}",
    "is-it": "did you mean {alpha}?",
    "of-an-extract": "for an extract, add form: extract",
    "name-only": "the alpha acid of {hops} is not known; state it here",
    "unknown": "nothing is known of {hops}; state their alpha acid here",
    "unknown-but-near": "nothing is known of {hops}; state their alpha acid here, or did you mean {near}?",
}


def check(brew: Brew, limits: Limits) -> Iterator[Finding]:
    unknown, guesses = 0, most_guessed(len(own_names(brew.brewhouse, Sort.HOP)))
    for hop in brew.recipe.hops:
        if not (stated := hop.alpha).known:
            if not hop.dry.known and hop.weight.known and not hop.bitterness.known and not hop.alpha_units.known:
                found = _unknown(brew, hop, guess=unknown < guesses)
                unknown += found is not None
                yield from (found,) if found is not None else ()
            continue
        name = _cultivar(brew, hop)
        old = hop.age.known or bool(hop.harvest) or mentions("aged-hops", "ingredient", hop.name)
        doubt = _hardly_any_hop(stated, _form(hop), limits, old=old) or _not_this_one(
            brew, stated, name, hop.form, limits, old=old
        )
        if doubt is None:
            continue
        path = hop.alpha.path
        level = Level.NOTE if hop.dry.known else doubt.level
        asked, knobs = _shifted(brew, path, stated, name) if doubt.level > Level.NOTE else (None, ())
        most, in_extract = limits.most_percent, limits.most_in_extract_percent
        if not asked and not _form(hop) and most < stated.range.typical <= in_extract:
            asked = say("of-an-extract")
        yield Finding(path, level, doubt.message.and_then(asked), gap=doubt.gap, knobs=knobs)


_ALIKE = 0.8  # how like a known name is one that a typing slip made of it; judgement


def _cultivar(brew: Brew, hop: Hop) -> str:
    lot = brew.brewhouse.lots.get(hop.lot or hop.name)
    return lot.of if lot is not None else hop.name


def _form(hop: Hop) -> str:
    """The form as stated, or by the name where that tells of an extract."""
    return hop.form or (HopForm.EXTRACT if mentions("hop-extract", "ingredient", hop.name) else "")


def _hardly_any_hop(stated: Quantity, form: str, limits: Limits, *, old: bool) -> _Doubt | None:
    """Outside of what any hops have."""
    value = stated.range
    extract = limits.most_in_extract_percent
    if level := above(value, extract):
        return _Doubt(level, say("more-than-extract", alpha=stated, most=number(extract)), gap(value, extract))
    if form == HopForm.EXTRACT:
        return None
    if level := above(value, limits.most_percent):
        return _Doubt(level, say("more-than-any", alpha=stated), gap(value, limits.most_percent))
    if not old and below(value, limits.least_percent):
        message = say("less-than-fresh", alpha=told(value.typical, limits.least_percent))
        return _Doubt(Level.WARNING, message, gap(value, limits.least_percent))
    return None


def _not_this_one(brew: Brew, stated: Quantity, name: str, form: str, limits: Limits, *, old: bool) -> _Doubt | None:
    """Outside of what its cultivar has."""
    cultivar = hop_of(brew.brewhouse, name) if form != HopForm.EXTRACT else None
    usual = cultivar.alpha_to_compare if cultivar is not None else None
    if usual is None:
        return None
    value = stated.range
    too_low = 0.0 if old or value.high <= 0 else usual.low / value.high
    times = Range.exact(max(value.low / usual.high, too_low))
    if not above(times, limits.outside_times):
        return None
    far = bool(above(times, limits.far_outside_times))
    side = "above" if value.low > usual.high else "below"
    message = say(f"far-{side}" if far else side, alpha=stated, usual=said(usual, "%", Kind.SHARE), hop=name)
    return _Doubt(Level.WARNING if far else Level.NOTE, message, gap(times, 1))


def _shifted(brew: Brew, path: Path, stated: Quantity, name: str) -> tuple[Say | None, tuple[Knob, ...]]:
    """The decimal point put right, where that gives what the cultivar, or else any hop, has."""
    cultivar = hop_of(brew.brewhouse, name)
    usual = (cultivar.alpha if cultivar is not None else None) or Range(2, 8, 18)  # any hop; common practice
    for factor in (0.1, 10, 0.01):
        value = stated.range.typical * factor
        # a fifth past the cultivar's range is still taken for it; judgement
        if stated.range.known and 0.8 * usual.low <= value <= 1.2 * usual.high:
            text = Measure(f"{number(value, 3)} %", value, "%")
            return say("is-it", alpha=text), (another_text(path, text, f"use {text} instead of {stated.text}"),)
    return None, ()


def _unknown(brew: Brew, hop: Hop, *, guess: bool) -> Finding | None:
    """A hop that boils, states no alpha acid, and has none in the table."""
    lot = brew.brewhouse.lots.get(hop.lot or hop.name)
    if not hop.name or (lot is not None and lot.alpha.known) or (hop.alpha.mentioned and not hop.alpha.known):
        return None
    if has_alpha(brew.brewhouse, _cultivar(brew, hop)):
        return None
    if hop_of(brew.brewhouse, _cultivar(brew, hop)):
        return Finding(hop.name.path, Level.NOTE, say("name-only", hops=with_noun(hop.name, "hops")), gap=1.0)
    known = (*nearest(hop.name, "hops", 1), *own_names(brew.brewhouse, Sort.HOP)) if guess else ()
    near = [name for _, name in close(hop.name, known, _ALIKE)] or (list(slips(hop.name, "hops")) if guess else [])
    name = with_noun(hop.name, "hops")
    message = say("unknown-but-near", hops=name, near=near[0]) if near else say("unknown", hops=name)
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
    "52 % alpha acid is more than any hop has, about 2 to 20 %; did you mean 5.2 %?",
)
