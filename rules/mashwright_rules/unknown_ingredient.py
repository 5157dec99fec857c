"""Is there a name that nothing knows?

What an ingredient brings, its extract, enzymes, colour, is looked up by its name. A name that neither the tables nor
the brewhouse nor a lot knows leaves the sums without it, or with a wide guess, and every other question about the
recipe with half an answer.

Computed: each name of the grist, with case, accents, hyphens, plurals and word order forgiven. Not known and not
described in the recipe is a warning with the nearest names; a fruit, which a wide guess serves well enough, is a
note, and so is a kind of yeast without a stated attenuation.

On the day: the sack's label or the maltster's sheet tells what to write; a thing that no table knows is described in
place with its kind, extract and diastatic power, or once for all in the brewhouse's ingredients.

Sources: [by-definition]
"""

from collections.abc import Iterator

from mashwright.rule import (
    Brew,
    Example,
    Finding,
    Knob,
    Level,
    Limit,
    Path,
    Settings,
    another_text,
    known_yeast,
    nearest,
    table_entry,
)

_TO_DESCRIBE = {
    "grain": "kind, extract and diastatic-power",
    "sugar": "kind, extract and fermentable",
    "extract": "kind and colour",
    "fruit": "kind and extract",
}


class Limits(Settings):
    """What is compared with."""

    alike_percent = Limit(80, "%", low=50, high=100, source="judgement")


def check(brew: Brew, limits: Limits) -> Iterator[Finding]:
    for line in brew.recipe.grist:
        described = line.kind or line.name in brew.brewhouse.ingredients
        if not line.group or not line.name or described or table_entry(line, brew.brewhouse) is not None:
            continue
        path = (*line.path, line.group)
        near = _close(line.name, (*nearest(line.name, "fermentables"), *brew.brewhouse.ingredients), limits)
        meant = f"did you mean {_either(near)}, or else describe it" if near else "describe it"
        level = Level.NOTE if line.group == "fruit" and not near else Level.WARNING
        message = f"nothing is known of {line.name}; {meant} here with {_TO_DESCRIBE[line.group]}"
        yield Finding(path, level, message, gap=1.0, knobs=_knobs(path, line.name, near))
    for yeast in brew.recipe.yeast:
        if not yeast.kind or yeast.attenuation is not None or known_yeast(yeast.kind) is not None:
            continue
        path = (*yeast.path, "kind")
        near = _close(yeast.kind, nearest(yeast.kind, "yeasts"), limits)
        meant = f"did you mean {_either(near)}, or else state" if near else "state"
        message = f"nothing is known of {yeast.kind} yeast; {meant} its attenuation here"
        yield Finding(path, Level.NOTE, message, gap=1.0, knobs=_knobs(path, yeast.kind, near))


def _close(name: str, candidates: tuple[str, ...], limits: Limits) -> tuple[str, ...]:
    """The names that a typing slip away from this one could be, the nearest first."""
    from difflib import SequenceMatcher

    matcher = SequenceMatcher(b=name.casefold())

    def likeness(other: str) -> float:
        matcher.set_seq1(other.casefold())
        return matcher.ratio()

    ranked = sorted(((likeness(one), one) for one in dict.fromkeys(candidates)), key=lambda pair: -pair[0])
    close = [one for share, one in ranked if 100 * share >= limits.alike_percent]
    best = ranked[0][0] if ranked else 0.0
    return tuple(one for one in close if likeness(one) >= best - 0.08)[:2]


def _either(names: tuple[str, ...]) -> str:
    return " or ".join(names)


def _knobs(path: Path, name: str, near: tuple[str, ...]) -> tuple[Knob, ...]:
    return tuple(another_text(path, one, f"{one} instead of {name}") for one in near)


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
    "nothing is known of two-row pale mlt; did you mean two-row pale malt,"
    " or else describe it here with kind, extract and diastatic-power",
)
