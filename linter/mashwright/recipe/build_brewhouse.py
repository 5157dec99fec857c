"""A parsed brewhouse.yaml -> a Brewhouse."""

from mashwright.measures.quantity import Kind, said
from mashwright.measures.range import Range
from mashwright.reading.document import Document
from mashwright.reading.nodes import Mapping, Scalar, Sequence
from mashwright.recipe.brewhouse import Brewhouse, Described, Lot, Vessel
from mashwright.recipe.build_beer import build_accepted
from mashwright.recipe.build_mash import build_water
from mashwright.recipe.cursor import Cursor, Gathered, QuantityProblem, cursor, unsaid
from mashwright.recipe.stated import Said, Stated, Text

OFF = "off"
# Between the shore of the lowest lake and the highest towns, with room to spare, m; from memory.
LOWEST_M, HIGHEST_M = -430.0, 6000.0


def build_brewhouse(document: Document) -> tuple[Brewhouse, tuple[QuantityProblem, ...]]:
    """The typed brewhouse of a document, and the quantities in it that could not be read."""
    root = document.root if isinstance(document.root, Mapping) else None
    gathered = Gathered()
    top = cursor(root, (), gathered)
    brewhouse = Brewhouse(
        name=top.text("brewhouse"),
        efficiency=top.quantity("efficiency", Kind.SHARE),
        mash_tun=_vessel(top.inside("mash-tun")),
        kettle=_vessel(top.inside("kettle")),
        fermenter=_vessel(top.inside("fermenter")),
        ratings=_ratings(top.inside("vessels")),
        absorption=top.quantity("absorption", Kind.ABSORPTION),
        altitude=_altitude(top),
        water=build_water(top.inside("water")),
        lots={name: _lot(lot) for name, lot in _named(top.inside("lots"))},
        ingredients={name: _described(name, thing) for name, thing in _named(top.inside("ingredients"))},
        rules=_rules(top.inside("rules")),
        stop_at=top.text("stop-at") or "error",
        recipes=_texts(top, "recipes"),
        accepted=top.items("accepted", build_accepted),
    )
    return brewhouse, unsaid(gathered.problems, document)


def _altitude(top: Cursor) -> Stated:
    """The altitude; one at which nobody lives is a problem, and no basis for a boiling point."""
    stated, found = top.quantity("altitude", Kind.ALTITUDE), top.scalar("altitude")
    if not stated.known or not isinstance(found, tuple):
        return stated
    if stated.range.low >= LOWEST_M and stated.range.high <= HIGHEST_M:
        return stated
    path, scalar = found
    bounds = said(Range(LOWEST_M, 0.0, HIGHEST_M), stated.unit, Kind.ALTITUDE)
    message = f"nobody brews at {stated.text}; give an altitude of {bounds} above the sea"
    return top.refused(path, scalar, message)


def _named(owner: Cursor) -> list[tuple[str, Cursor]]:
    if owner.node is None:
        return []
    inner = ((key.text, owner.inside(key.text)) for key, _ in owner.node.entries)
    return [(name, cursor) for name, cursor in inner if cursor.node is not None]


def _vessel(vessel: Cursor) -> Vessel:
    return Vessel(
        *vessel.section,
        volume=vessel.quantity("volume", Kind.VOLUME),
        dead_space=vessel.quantity("dead-space", Kind.VOLUME),
        loss=vessel.quantity("loss", Kind.VOLUME),
        heat=vessel.quantity("heat", Kind.VOLUME),
        boil_off=vessel.quantity("boil-off", Kind.RATE),
    )


def _ratings(vessels: Cursor) -> dict[str, Said]:
    """What each kind of vessel for beer is rated for; a rating that cannot be read leaves the kind out."""
    read = ((name, vessel.quantity("rating", Kind.BOTTLE_RATING)) for name, vessel in _named(vessels))
    return {name: rating for name, rating in read if isinstance(rating, Said)}


def _lot(lot: Cursor) -> Lot:
    return Lot(
        lot.path,
        of=lot.text("of"),
        colour=lot.quantity("colour", Kind.MALT_COLOUR),
        moisture=lot.quantity("moisture", Kind.SHARE),
        extract_fine_dry=lot.quantity("extract-fine-dry", Kind.EXTRACT),
        extract_coarse_dry=lot.quantity("extract-coarse-dry", Kind.EXTRACT),
        extract_fine_as_is=lot.quantity("extract-fine-as-is", Kind.EXTRACT),
        extract_coarse_as_is=lot.quantity("extract-coarse-as-is", Kind.EXTRACT),
        diastatic_power=lot.quantity("diastatic-power", Kind.DIASTATIC_POWER),
        alpha=lot.quantity("alpha", Kind.SHARE),
        analysed=lot.text("analysed"),
        expires=lot.text("expires"),
    )


def _described(name: str, thing: Cursor) -> Described:
    return Described(
        thing.path,
        name,
        kind=thing.text("kind"),
        also=_names(thing, "also"),
        cereal=thing.text("cereal"),
        colour=thing.quantity("colour", Kind.MALT_COLOUR),
        extract=thing.quantity("extract", Kind.EXTRACT),
        moisture=thing.quantity("moisture", Kind.SHARE),
        diastatic_power=thing.quantity("diastatic-power", Kind.DIASTATIC_POWER),
        gelatinises=thing.quantity("gelatinises", Kind.TEMPERATURE),
        fermentable=thing.quantity("fermentable", Kind.SHARE),
        alpha=thing.quantity("alpha", Kind.SHARE),
        attenuation=thing.quantity("attenuation", Kind.SHARE),
        tolerance=thing.quantity("tolerance", Kind.SHARE),
        temperature=thing.quantity("temperature", Kind.TEMPERATURE),
        flocculation=thing.text("flocculation"),
        diastatic=thing.flag("diastatic"),
    )


def _names(owner: Cursor, key: str) -> tuple[Text, ...]:
    """One name or a list of them, each with its place."""
    if (found := owner.find(key)) is None:
        return ()
    path, value = (*owner.path, found[0]), found[1]
    if isinstance(value, Scalar):
        return (Text(value.text, path),) if value.text else ()
    items = enumerate(value.items) if isinstance(value, Sequence) else ()
    return tuple(Text(item.text, (*path, at)) for at, item in items if isinstance(item, Scalar) and item.text)


def _rules(rules: Cursor) -> dict[str, str | dict[str, str]]:
    """Settings as written; a rule's own Limits read them, since only they know the units."""
    if rules.node is None:
        return {}
    settings: dict[str, str | dict[str, str]] = {}
    for key, value in rules.node.entries:
        if isinstance(value, Scalar):
            settings[key.text] = value.text
        elif isinstance(value, Mapping):
            settings[key.text] = {name.text: item.text for name, item in value.entries if isinstance(item, Scalar)}
    return settings


def _texts(owner: Cursor, key: str) -> tuple[str, ...]:
    found = owner.find(key)
    if found is None or not isinstance(found[1], Sequence):
        return ()
    return tuple(item.text for item in found[1].items if isinstance(item, Scalar))
