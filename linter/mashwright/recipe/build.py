"""A parsed document -> a Recipe. Reads as far as it can; what it cannot read it lists."""

from collections.abc import Callable, Iterator
from typing import Any, NamedTuple

from msgspec.structs import replace

from mashwright.measures.quantity import Kind, implies_imperial
from mashwright.reading.document import Document
from mashwright.reading.fields import OTHER_SPELLINGS
from mashwright.reading.nodes import Mapping, Node, Scalar, Sequence
from mashwright.recipe.build_beer import (
    addition,
    aerated,
    brew_day,
    build_accepted,
    chilled,
    ferment_step,
    first_package,
    hop_addition,
    other_packages,
    soured,
    stated_targets,
    yeasts,
)
from mashwright.recipe.build_mash import (
    boiled,
    build_water,
    cereal_mash,
    each_sparge,
    grist_line,
    main_mash,
    steeped,
    topped_up,
    whole_batch,
    whole_sparge,
)
from mashwright.recipe.cursor import Cursor, Gathered, QuantityProblem, cursor, unsaid
from mashwright.recipe.model import Batch, Recipe, Wort
from mashwright.recipe.stated import Lines, Text


def build_recipe(document: Document) -> tuple[Recipe, tuple[QuantityProblem, ...]]:
    """The typed recipe of a document, and the quantities in it that could not be read.

    A document whose root is no mapping gives an empty recipe.
    """
    root = document.root if isinstance(document.root, Mapping) else None
    gathered = Gathered()
    sections = _sections(cursor(root, (), gathered), tuple(_SECTIONS))
    if any(implies_imperial(unit) for unit in gathered.units):
        # beside quarters or imperial pints a bare gallon may be either, so it is asked about
        gathered = Gathered(imperial=True)
        sections = _sections(cursor(root, (), gathered), tuple(_SECTIONS))
    if gathered.problems and len(scales := gathered.units & _SCALES) == 1:
        # beside temperatures in °F a bare degree is asked about in °F
        gathered = Gathered(imperial=gathered.imperial, scale=scales.pop())
        sections = _sections(cursor(root, (), gathered), tuple(_SECTIONS))
    recipe = Recipe(
        **sections,
        unread=frozenset(gathered.unread),
        asked=gathered.asked,
        readings=tuple(gathered.readings),
        imperial=gathered.imperial,
    )
    return recipe, unsaid(gathered.problems, document)


_SCALES = frozenset(("°C", "°F"))


def rebuild(recipe: Recipe, document: Document, keys: frozenset[str]) -> Recipe:
    """The recipe after a change below some of its top-level keys; the rest is taken over as it was built.

    Gives what ``build_recipe`` would, but for a change that brings in the first imperial measure.
    """
    root = document.root if isinstance(document.root, Mapping) else None
    gathered = Gathered(imperial=recipe.imperial, asked=recipe.asked)
    names = tuple(name for name, section in _SECTIONS.items() if section.keys & keys)
    sections = _sections(cursor(root, (), gathered), names)
    kept = frozenset(path for path in recipe.unread if path[0] not in keys)
    readings = tuple(reading for reading in recipe.readings if reading[0][0] not in keys)
    return replace(
        recipe,
        **sections,
        unread=kept | gathered.unread,
        readings=(*readings, *gathered.readings),
    )


class _Section(NamedTuple):
    """One field of a Recipe: the top-level keys that it is built from, and how."""

    keys: frozenset[str]
    build: Callable[[Cursor], Any]


def _section(key: str, build: Callable[[Cursor], Any]) -> _Section:
    return _Section(frozenset(name for name in (key, OTHER_SPELLINGS.get(key)) if name is not None), build)


def _sections(top: Cursor, names: tuple[str, ...]) -> dict[str, Any]:
    written = top.fields.keys()
    return {
        name: getattr(_NOTHING, name) if _SECTIONS[name].keys.isdisjoint(written) else _SECTIONS[name].build(top)
        for name in names
    }


_NOTHING = Recipe()
"""A recipe of which nothing is written, for the parts that a recipe leaves out."""


def _notes(top: Cursor) -> Text:
    """The notes as text; of the club's own data, all texts in it, a line each."""
    found = top.find("notes")
    return Text("\n".join(_texts(found[1])) if found is not None else "", (*top.path, "notes"))


def _texts(node: Node) -> Iterator[str]:
    if isinstance(node, Scalar):
        yield node.text
    elif isinstance(node, Sequence):
        for item in node.items:
            yield from _texts(item)
    else:
        for key, value in node.entries:
            inner = tuple(_texts(value))
            yield f"{key.text}: {', '.join(inner)}" if inner else key.text


def _worts(top: Cursor) -> Lines[Wort]:
    from mashwright.recipe.build_worts import worts_of  # most recipes give one beer

    return worts_of(top)


def _batch(top: Cursor) -> Batch:
    """The batch; of several worts, all of them together."""
    if not top.has("worts"):
        return whole_batch(top)
    from mashwright.recipe.build_worts import of_all, worts_of

    worts = worts_of(replace(top, gathered=top.gathered.quiet()))
    return of_all(worts, ("worts",))


_SECTIONS = {
    "name": _section("recipe", lambda top: top.text("recipe")),
    "by": _section("by", lambda top: top.text("by")),
    "style": _section("style", lambda top: top.text("style")),
    "source": _section("source", lambda top: top.text("source")),
    "notes": _section("notes", _notes),
    "batch": _Section(frozenset(("batch", "worts")), _batch),
    "efficiency": _section("efficiency", lambda top: top.quantity("efficiency", Kind.SHARE)),
    "mash_efficiency": _section("mash-efficiency", lambda top: top.quantity("mash-efficiency", Kind.SHARE)),
    "grist": _section("grist", lambda top: top.items("grist", grist_line)),
    "steep": _section("steep", lambda top: steeped(top.inside("steep"))),
    "mash": _section("mash", lambda top: main_mash(top.inside("mash"))),
    "cereal_mash": _section("cereal-mash", lambda top: cereal_mash(top.inside("cereal-mash"))),
    "sparge": _section("sparge", whole_sparge),
    "sparges": _section("sparge", each_sparge),
    "water": _section("water", lambda top: build_water(top.inside("water"))),
    "top_up": _section("top-up", lambda top: topped_up(top.inside("top-up"))),
    "boil": _section("boil", lambda top: boiled(top.inside("boil"))),
    "chill": _section("chill", lambda top: chilled(top.inside("chill"))),
    "souring": _section("souring", lambda top: soured(top.inside("souring"))),
    "hops": _section("hops", lambda top: top.items("hops", hop_addition)),
    "additions": _section("additions", lambda top: top.items("additions", addition)),
    "yeast": _section("yeast", yeasts),
    "aeration": _section("aeration", lambda top: aerated(top.inside("aeration"))),
    "ferment": _section("ferment", lambda top: top.items("ferment", ferment_step)),
    "package": _section("package", first_package),
    "beside": _section("package", other_packages),
    "targets": _section("targets", lambda top: stated_targets(top.inside("targets"))),
    "measured": _section("measured", lambda top: top.items("measured", brew_day)),
    "worts": _section("worts", _worts),
    "accepted": _section("accepted", lambda top: top.items("accepted", build_accepted)),
}
