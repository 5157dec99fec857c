"""Alters a recipe on purpose: another size, other units, another efficiency, this year's hops.

Each gives edits of the recipe's numbers, in the recipe's own order, and remarks on what does not follow by itself.
"""

from collections.abc import Callable, Iterable, Iterator
from typing import NamedTuple

from msgspec import Struct

from mashwright.brew.brew import Brew
from mashwright.finding import Edit, Path
from mashwright.ingredients.lookup import hop as hop_named
from mashwright.measures.quantity import Kind, Quantity, QuantityError, read_quantity
from mashwright.measures.range import Range
from mashwright.measures.units import find, said
from mashwright.reading.document import read_document
from mashwright.reading.editing import can_edit, replacements
from mashwright.reading.nodes import Scalar, at
from mashwright.reading.schema import understood
from mashwright.recipe.build import build_recipe
from mashwright.recipe.model import Hop
from mashwright.recipe.stated import Said, Unknown
from mashwright.reviewing.amending import applied


class Altered(NamedTuple):
    """What to change, and what a brewer has to see to besides."""

    edits: tuple[Edit, ...]
    remarks: tuple[str, ...] = ()


class CannotAlterError(Exception):
    """Why it cannot be done, in a sentence."""


def stated(recipe: object) -> Iterator[Said]:
    """Every quantity that a recipe states, each with its path."""
    if isinstance(recipe, Said):
        yield recipe
    elif isinstance(recipe, Struct):
        for name in recipe.__struct_fields__:
            yield from stated(getattr(recipe, name))
    elif isinstance(recipe, tuple):
        for one in recipe:
            yield from stated(one)


_IN_STEP = frozenset((Kind.MASS, Kind.VOLUME, Kind.ALPHA_UNITS, Kind.CELLS, Kind.PACKS, Kind.COUNT))
"""Kinds of which there is twice as much in twice the batch."""
_FOR_ITSELF = frozenset(("each", "bottle", "size", "loss", "of", "mashes", "times"))
"""Fields that say how large one of several is, or how often a thing is done."""


def _as_written(brew: Brew) -> Iterator[Said]:
    """Every quantity that stands in the recipe, without what is made of several, as the batch of all worts."""
    root = brew.document.root
    return (one for one in stated(brew.recipe) if root is not None and isinstance(at(root, one.path), Scalar))


def _of(path: Path, section: str) -> bool:
    """Whether a place is in a section, of the recipe or of one of its worts."""
    return section in path[:3:2] and (path[0] in (section, "worts"))


def to_batch(brew: Brew, batch: str) -> Altered:
    """The recipe for another batch, counted where the recipe counts it; of several worts all of them together.

    Args:
        brew: of the recipe.
        batch: with its unit, such as ``40 l``.

    Raises:
        CannotAlterError: the batch cannot be read, of either.
    """
    wanted = _read(batch, Kind.VOLUME, "batch")
    now = brew.recipe.batch.said
    if now is None:
        raise CannotAlterError("the recipe states no batch that can be read")
    factor = wanted.range.typical / now.range.typical
    edits = [] if brew.recipe.worts else [Edit(now.path, _as_read(wanted))]
    others = (one for one in _as_written(brew) if one.path != now.path and not _of(one.path, "measured"))
    edits += [Edit(one.path, _said(one, factor)) for one in others if _in_step(one)]
    return Altered(_once(edits), _unscaled())


def _in_step(one: Said) -> bool:
    return one.kind in _IN_STEP and one.path[-1] not in _FOR_ITSELF


def _unscaled() -> tuple[str, ...]:
    return (
        "a kettle boils away by its width and not by the batch: check the boil volume",
        "times and temperatures stay; a larger mash keeps its heat better",
        "the vessels of the brewhouse are as large as before: the review says if they are too small",
    )


SYSTEMS = ("metric", "US", "imperial")
_UNITS: dict[str, dict[Kind, tuple[tuple[str, float], ...]]] = {
    # unit of each kind, each from a canonical amount on
    "metric": {
        Kind.MASS: (("kg", 1.0), ("g", 0.0)),
        Kind.VOLUME: (("l", 0.5), ("ml", 0.0)),
        Kind.TEMPERATURE: (("°C", -99.0),),
        Kind.THICKNESS: (("l/kg", 0.0),),
        Kind.PRESSURE: (("bar", 0.0),),
        Kind.DOSE: (("g/l", 0.0),),
    },
    "US": {
        Kind.MASS: (("lb oz", 0.45), ("oz", 0.003), ("g", 0.0)),
        Kind.VOLUME: (("gal", 1.8), ("qt", 0.4), ("fl oz", 0.02), ("ml", 0.0)),
        Kind.TEMPERATURE: (("°F", -99.0),),
        Kind.THICKNESS: (("qt/lb", 0.0),),
        Kind.PRESSURE: (("psi", 0.0),),
        Kind.DOSE: (("oz/gal", 0.0),),
    },
    "imperial": {
        Kind.MASS: (("lb oz", 0.45), ("oz", 0.003), ("g", 0.0)),
        Kind.VOLUME: (("imp gal", 2.2), ("imp pt", 0.25), ("imp fl oz", 0.02), ("ml", 0.0)),
        Kind.TEMPERATURE: (("°F", -99.0),),
        Kind.THICKNESS: (("imp qt/lb", 0.0),),
        Kind.PRESSURE: (("psi", 0.0),),
        Kind.DOSE: (("oz/imp gal", 0.0),),
    },
}
"""The units that a brewer of each country uses, the first that the amount reaches; common practice."""


def to_units(brew: Brew, system: str) -> Altered:
    """The recipe in the units of a country.

    Args:
        brew: of the recipe.
        system: one of ``SYSTEMS``.
    """
    edits = []
    for one in _as_written(brew):
        if _of(one.path, "yeast") or {"salts", "acid", "enzymes"} & set(one.path):
            continue  # packets and salts are weighed in grams everywhere
        choices = _UNITS[system].get(one.kind, ())
        unit = next((unit for unit, least in choices if abs(one.range.typical) >= least), one.unit)
        mine = {name for name, _ in choices}
        if unit != one.unit and not (one.unit in mine and one.kind is not Kind.MASS):
            known = find(unit, one.kind)
            if known is not None:
                edits.append(Edit(one.path, said(one.range, known.name, one.kind)))
    return Altered(_once(edits))


def to_efficiency(brew: Brew, efficiency: str) -> Altered:
    """The recipe on a brewhouse of another efficiency, with its gravity kept: more grain, or less.

    Raises:
        CannotAlterError: the efficiency cannot be read, or the grist is stated in shares.
    """
    wanted = _read(efficiency, Kind.SHARE, "efficiency")
    recipe = brew.recipe
    try:
        before = 100 * brew.efficiency.share.typical
        mashed = {part.line.path for part in brew.placed("mash")}
    except Unknown as why:
        raise CannotAlterError(f"it cannot be computed what the grist gives now: {why.missing} is missing") from None
    if not 1 <= wanted.range.typical <= 100:
        raise CannotAlterError(f"{efficiency} is no efficiency; write for instance 70 %")
    factor = before / wanted.range.typical
    lines = [line for line in recipe.grist if line.path in mashed]
    if not all(isinstance(line.weight, Said) for line in lines):
        raise CannotAlterError("the grist is stated in shares, which are right for any efficiency")
    edits = [Edit(line.weight.path, _said(line.weight, factor)) for line in lines if isinstance(line.weight, Said)]
    place: Path = ("mash-efficiency",) if recipe.mash_efficiency.known else ("efficiency",)
    remarks = ("the mash water stays as it is stated; more grain makes a thicker mash",)
    return Altered(_once([*edits, Edit(place, _as_read(wanted))]), remarks)


def to_alpha(brew: Brew, hops: str) -> Altered:
    """The recipe with this year's hops, its bitterness kept: ``Saaz=3.1 %``.

    Raises:
        CannotAlterError: no such hops are in the recipe, or it cannot be known how strong they were.
    """
    name, equals, alpha = hops.partition("=")
    if not equals or not name.strip():
        raise CannotAlterError(f"{hops} does not say which hops have which alpha acid; write for instance 'Saaz=3.1 %'")
    wanted = _read(alpha, Kind.SHARE, "alpha acid")
    if not wanted.range.typical > 0:
        raise CannotAlterError(f"hops with {alpha.strip()} alpha acid give no bitterness")
    edits: list[Edit] = []
    beers = brew.recipe.worts or (brew.recipe,)
    here = [hop for beer in beers for hop in beer.hops if _is(hop, name.strip())]
    if not here:
        raise CannotAlterError(f"no hops of the recipe are called {name.strip()}")
    remarks = []
    for hop in here:
        if isinstance(hop.weight, Said) and not hop.dry.known:
            before = _alpha(hop)
            if before is None:
                raise CannotAlterError(f"the recipe does not say how strong {hop.name} was, and no table knows it")
            if not hop.alpha.known:
                remarks.append(f"{hop.name} had no alpha acid stated; {before:g} % was assumed, as is usual")
            edits.append(Edit(hop.weight.path, _said(hop.weight, before / wanted.range.typical)))
        edits.append(Edit((*hop.path, "alpha"), _as_read(wanted)))
    return Altered(_once(edits), tuple(dict.fromkeys(remarks)))


def _is(hop: Hop, name: str) -> bool:
    if hop.name.casefold() == name.casefold():
        return True
    known, other = hop_named(hop.name), hop_named(name)
    return known is not None and other is not None and known.name == other.name


def _alpha(hop: Hop) -> float | None:
    if isinstance(hop.alpha, Said):
        return hop.alpha.range.typical
    known = hop_named(hop.name)
    alpha: Range | None = getattr(known, "alpha", None)
    return alpha.typical if alpha is not None else None


def _read(text: str, kind: Kind, what: str) -> Quantity:
    try:
        return read_quantity(text, kind, what=what)
    except QuantityError as error:
        raise CannotAlterError(error.message) from None


def _as_read(quantity: Quantity) -> str:
    return str(said(quantity.range, quantity.unit, quantity.kind))


def _said(one: Said, factor: float) -> str:
    """A quantity times a factor, in its own unit, as a brewer writes it."""
    if one.kind in (Kind.COUNT, Kind.PACKS):
        count = max(round(one.range.typical * factor, 1), 0.1)
        unit = f" {one.unit}" if one.unit else ""
        return f"{count:g}{unit}"
    low, typical, high = one.range.low * factor, one.range.typical * factor, one.range.high * factor
    return str(said(Range(low, typical, high) if low != high else typical, one.unit, one.kind))


def altered(text: str, brew: Brew, ways: Iterable[Callable[[Brew], Altered]]) -> tuple[str, tuple[str, ...]]:
    """The text of a recipe after alterations, one after the other, and what a brewer has to see to besides.

    Args:
        text: of the recipe.
        brew: of it.
        ways: each gives the edits of a brew.

    Raises:
        CannotAlterError: one of them cannot be done.
    """
    remarks: list[str] = []
    for way in ways:
        change = way(brew)
        remarks += change.remarks
        root = brew.document.root
        if root is None:
            raise CannotAlterError("the recipe cannot be read")
        if not can_edit(root, *(edit.path for edit in change.edits)):
            raise CannotAlterError("one text stands for several places here (an alias); write each out first")
        text = applied(text, replacements(text, root, change.edits))
        document, _ = understood(read_document(text), "recipe")
        brew = Brew(build_recipe(document)[0], brew.brewhouse, document)
    return text, tuple(dict.fromkeys(remarks))


def _once(edits: list[Edit]) -> tuple[Edit, ...]:
    """One edit a place; a value that is used twice is changed once."""
    return tuple({edit.path: edit for edit in edits}.values())
