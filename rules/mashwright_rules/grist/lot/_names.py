"""The number of a lot or the name of a line put right."""

from collections.abc import Iterable

from mashwright.brew import Brew
from mashwright.ingredients.lookup import fermentable as known_fermentable
from mashwright.ingredients.lookup import hop as known_hop
from mashwright.knobs import Knob, another_text
from mashwright.recipe.brewhouse import Lot
from mashwright.rule import Finding, Level, Path, say
from mashwright.words.nearest import close
from mashwright_rules.grist.lot._limits import Limits
from mashwright_rules.grist.lot._lines import Line, of_another, of_the_other_sort


def not_recorded(brew: Brew, line: Line, path: Path, limits: Limits, *, guess: bool) -> Finding:
    """A lot that no brewhouse.yaml records, with those that may be meant.

    Args:
        brew: whose brewhouse is asked.
        line: that names the lot.
        path: of the lot's number.
        limits: how alike two numbers are.
        guess: whether the recorded lots are gone through.
    """
    lots = brew.brewhouse.lots
    if not lots:
        return Finding(path, Level.NOTE, say("not-recorded", lot=line.lot), gap=1.0)
    near = _near(brew, line, limits) if guess else ()
    if near:
        first, *others = near
        further = (say("or-lot", lot=name, of=lots[name].of) for name in others)
        told = say("did-you-mean-lot", lot=first, of=lots[first].of).and_then(*further, say("asked"))
    else:
        alike = lots.items() if guess else ()
        same = [name for name, lot in alike if lot.of and of_another(line, lot, limits) is None]
        told = say("has-of-it", name=line.name, lots=_listed(same)) if same else say("has", lots=_listed(lots))
    return Finding(
        path,
        Level.WARNING,
        say("no-such-lot", lot=line.lot).and_then(told),
        gap=1.0,
        knobs=tuple(another_text(path, name, f"use {name} instead of {line.lot}") for name in near if _plain(name)),
    )


def _listed(lots: Iterable[str]) -> str:
    names = list(lots)
    return f"{', '.join(names[:3])}{' and others' if len(names) > 3 else ''}"


def _near(brew: Brew, line: Line, limits: Limits) -> tuple[str, ...]:
    """Lots whose number is a slip away, those of the same ingredient first; at most two."""
    lots = brew.brewhouse.lots
    alike = {
        name: likeness
        for likeness, name in close(line.lot, lots, limits.alike_percent / 100)
        if not of_the_other_sort(line, lots[name])
    }
    other = {name for name in alike if of_another(line, lots[name], limits) is not None}
    return tuple(sorted(alike, key=lambda name: (name in other, -alike[name], name))[:2])


def _plain(text: str) -> bool:
    """Whether a text may stand in a recipe without quotes."""
    return bool(text) and text[0].isalnum() and all(letter.isalnum() or letter in " -_./" for letter in text)


def other_lots(brew: Brew, line: Line, lot: Lot, limits: Limits) -> tuple[Knob, ...]:
    """The name put right, or the lot that is of what the line names."""
    others = [name for name, other in brew.brewhouse.lots.items() if of_another(line, other, limits) is None]
    right = [another_text((*line.path, "lot"), name, f"use lot {name} instead of {line.lot}") for name in others]
    found = known_hop(lot.of) if line.hop else known_fermentable(lot.of)
    if found and _plain(lot.of):
        right.append(
            another_text(
                (*line.path, line.key),
                lot.of,
                f"use {lot.of} instead of {line.name}" if line.name else f"write {lot.of}",
            )
        )
    return tuple(right[:2])
