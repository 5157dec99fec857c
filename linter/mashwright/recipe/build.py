"""A parsed document -> a Recipe. Reads as far as it can; what it cannot read it lists."""

import re
from collections.abc import Callable, Iterator
from dataclasses import replace
from typing import Any, NamedTuple

from mashwright.reading.document import Document
from mashwright.reading.nodes import Mapping, Node, Scalar, Sequence
from mashwright.reading.quantity import Kind, implies_imperial
from mashwright.recipe.cursor import OTHER_SPELLINGS, Cursor, Gathered, QuantityProblem, unsaid
from mashwright.recipe.model import (
    Accepted,
    Addition,
    Amount,
    Batch,
    Boil,
    BrewDay,
    CerealMash,
    FermentStep,
    GristLine,
    Hop,
    Mash,
    Package,
    Priming,
    Recipe,
    Rest,
    Sparge,
    Steep,
    Targets,
    TopUp,
    Water,
    Yeast,
)

_VESSELS = {"bottle": "bottles"}
GROUPS = ("grain", "sugar", "fruit", "extract")  # beside the others `extract` is what they give, not what they are


def build_recipe(document: Document) -> tuple[Recipe, tuple[QuantityProblem, ...]]:
    """The typed recipe of a document, and the quantities in it that could not be read.

    A document whose root is no mapping gives an empty recipe.
    """
    root = document.root if isinstance(document.root, Mapping) else None
    gathered = Gathered()
    sections = _sections(Cursor(root, (), gathered), tuple(_SECTIONS))
    if any(implies_imperial(unit) for unit in gathered.units):
        # beside quarters or imperial pints a bare gallon may be either, so it is asked about
        gathered = Gathered(imperial=True)
        sections = _sections(Cursor(root, (), gathered), tuple(_SECTIONS))
    recipe = Recipe(
        **sections,
        unreadable=frozenset(gathered.unreadable),
        readings=tuple(gathered.readings),
        imperial=gathered.imperial,
    )
    return recipe, unsaid(gathered.problems, document)


def rebuild(recipe: Recipe, document: Document, keys: frozenset[str]) -> Recipe:
    """The recipe after a change below some of its top-level keys; the rest is taken over as it was built.

    Gives what ``build_recipe`` would, but for a change that brings in the first imperial measure.
    """
    root = document.root if isinstance(document.root, Mapping) else None
    gathered = Gathered(imperial=recipe.imperial)
    names = tuple(name for name, section in _SECTIONS.items() if section.keys & keys)
    sections = _sections(Cursor(root, (), gathered), names)
    kept = frozenset(path for path in recipe.unreadable if path[0] not in keys)
    readings = tuple(reading for reading in recipe.readings if reading[0][0] not in keys)
    return replace(
        recipe,
        **sections,
        unreadable=kept | gathered.unreadable,
        readings=(*readings, *gathered.readings),
    )


class _Section(NamedTuple):
    """One field of a Recipe: the top-level keys that it is built from, and how."""

    keys: frozenset[str]
    build: Callable[[Cursor], Any]


def _section(key: str, build: Callable[[Cursor], Any]) -> _Section:
    return _Section(frozenset(name for name in (key, OTHER_SPELLINGS.get(key)) if name is not None), build)


def _sections(top: Cursor, names: tuple[str, ...]) -> dict[str, Any]:
    return {name: _SECTIONS[name].build(top) for name in names}


def _notes(top: Cursor) -> str:
    """The notes as text; of the club's own data, all texts in it, a line each."""
    found = top.find("notes")
    return "\n".join(_texts(found[1])) if found is not None else ""


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


def _batch(top: Cursor) -> Batch | None:
    found = top.find("batch")
    if found is not None and isinstance(found[1], Scalar):
        return Batch(("batch",), fermenter=top.quantity("batch", Kind.VOLUME))
    return build_batch(top.inside("batch"))


def build_batch(cursor: Cursor | None) -> Batch | None:
    """A batch given as a mapping of where it was counted."""
    if cursor is None:
        return None
    return Batch(
        cursor.path,
        fermenter=cursor.quantity("fermenter", Kind.VOLUME),
        kettle=cursor.quantity("kettle", Kind.VOLUME),
        package=cursor.quantity("package", Kind.VOLUME),
    )


def _grist_line(line: Cursor) -> GristLine:
    group = next((key for key in GROUPS if line.has(key)), "")
    substance = {"grain": "malt", "sugar": "sugar"}.get(group, "")
    return GristLine(
        line.path,
        group=group,
        name=line.text(group) if group else "",
        weight=line.quantity("weight", Kind.MASS, substance),
        share=line.quantity("share", Kind.SHARE),
        add=line.text("add"),
        cereal_mash=line.text("prepare") == "cereal mash",
        lot=line.text("lot"),
        kind=line.text("kind"),
        cereal=line.text("cereal"),
        colour=line.quantity("colour", Kind.MALT_COLOUR if group == "grain" else Kind.SUGAR_COLOUR),
        extract=line.quantity("extract", Kind.EXTRACT) if group != "extract" else None,
        moisture=line.quantity("moisture", Kind.SHARE),
        diastatic_power=line.quantity("diastatic-power", Kind.DIASTATIC_POWER),
        gelatinises=line.quantity("gelatinises", Kind.TEMPERATURE),
        fermentable=line.quantity("fermentable", Kind.SHARE),
    )


def _amounts(owner: Cursor, key: str, substance: str) -> tuple[Amount, ...]:
    """A mapping of names to amounts: weights or volumes."""
    inner = owner.inside(key)
    if inner is None or inner.node is None:
        return ()
    amounts = []
    for name, value in inner.node.entries:
        path = (*inner.path, name.text)
        quantity = None
        if isinstance(value, Scalar) and value.text:
            kind = Kind.VOLUME if re.search(r"\d\s*(?:m?l|fl\.? ?oz)\s*$", value.text) else Kind.MASS
            quantity = inner.read(path, value, kind, name.text, substance)
        amounts.append(Amount(path, name.text, quantity))
    return tuple(amounts)


def _rests(owner: Cursor) -> tuple[Rest, ...]:
    return tuple(
        Rest(
            rest.path,
            at=rest.quantity("at", Kind.TEMPERATURE),
            time=rest.quantity("for", Kind.TIME),
            to=rest.quantity("to", Kind.TEMPERATURE),
            by=rest.text("by"),
            water=rest.quantity("water", Kind.VOLUME),
            of=rest.quantity("of", Kind.TEMPERATURE),
            pull=rest.quantity("pull", _pull_kind(rest)),
            boil=rest.quantity("boil", Kind.TIME),
        )
        for rest in owner.items("rests")
    )


def _pull_kind(rest: Cursor) -> Kind:
    return Kind.SHARE if "%" in rest.text("pull") else Kind.VOLUME


def _mash(mash: Cursor | None) -> Mash | None:
    if mash is None:
        return None
    return Mash(
        mash.path,
        water=mash.quantity("water", Kind.VOLUME),
        thickness=mash.quantity("thickness", Kind.THICKNESS),
        strike=mash.quantity("strike", Kind.TEMPERATURE),
        grain_temperature=mash.quantity("grain-temperature", Kind.TEMPERATURE),
        crush=mash.text("crush"),
        ph=mash.quantity("ph", Kind.PH),
        salts=_amounts(mash, "salts", "salt"),
        acid=_amounts(mash, "acid", "acid"),
        enzymes=_amounts(mash, "enzymes", ""),
        bag=mash.flag("bag") is True,
        rests=_rests(mash),
    )


def _cereal_mash(cooker: Cursor | None) -> CerealMash | None:
    if cooker is None:
        return None
    return CerealMash(
        cooker.path,
        water=cooker.quantity("water", Kind.VOLUME),
        rests=_rests(cooker),
        boil=cooker.quantity("boil", Kind.TIME),
    )


def _steep(steep: Cursor | None) -> Steep | None:
    if steep is None:
        return None
    return Steep(
        steep.path,
        water=steep.quantity("water", Kind.VOLUME),
        at=steep.quantity("at", Kind.TEMPERATURE),
        time=steep.quantity("for", Kind.TIME),
    )


def _sparge(sparge: Cursor | None) -> Sparge | None:
    if sparge is None:
        return None
    return Sparge(
        sparge.path,
        by=sparge.text("by"),
        water=sparge.quantity("water", Kind.VOLUME),
        at=sparge.quantity("at", Kind.TEMPERATURE),
        ph=sparge.quantity("ph", Kind.PH),
        salts=_amounts(sparge, "salts", "salt"),
        acid=_amounts(sparge, "acid", "acid"),
    )


def build_water(water: Cursor | None) -> Water | None:
    """The ions of a water, in a recipe or a brewhouse."""
    if water is None:
        return None
    return Water(
        water.path,
        calcium=water.quantity("calcium", Kind.CONCENTRATION),
        magnesium=water.quantity("magnesium", Kind.CONCENTRATION),
        sodium=water.quantity("sodium", Kind.CONCENTRATION),
        chloride=water.quantity("chloride", Kind.CONCENTRATION),
        sulfate=water.quantity("sulfate", Kind.CONCENTRATION),
        bicarbonate=water.quantity("bicarbonate", Kind.CONCENTRATION),
        alkalinity=water.quantity("alkalinity", Kind.ALKALINITY),
        ph=water.quantity("ph", Kind.PH),
        dilution=water.quantity("dilution", Kind.SHARE),
    )


def _top_up(top_up: Cursor | None) -> TopUp | None:
    if top_up is None:
        return None
    return TopUp(
        top_up.path,
        kettle=top_up.quantity("kettle", Kind.VOLUME),
        fermenter=top_up.quantity("fermenter", Kind.VOLUME),
    )


def _boil(boil: Cursor | None) -> Boil | None:
    if boil is None:
        return None
    return Boil(
        boil.path,
        volume=boil.quantity("volume", Kind.VOLUME),
        time=boil.quantity("for", Kind.TIME),
        salts=_amounts(boil, "salts", "salt"),
    )


def _hop(hop: Cursor) -> Hop:
    return Hop(
        hop.path,
        name=hop.text("hop"),
        weight=hop.quantity("weight", Kind.MASS),
        alpha_units=hop.quantity("alpha-units", Kind.ALPHA_UNITS),
        bitterness=hop.quantity("bitterness", Kind.BITTERNESS),
        alpha=hop.quantity("alpha", Kind.SHARE),
        lot=hop.text("lot"),
        form=hop.text("form").removesuffix("s"),
        age=hop.quantity("age", Kind.TIME),
        harvest=hop.text("harvest"),
        mash=hop.flag("mash") is True,
        first_wort=hop.flag("first-wort") is True,
        boil=hop.quantity("boil", Kind.TIME),
        whirlpool=hop.quantity("whirlpool", Kind.TIME),
        at=hop.quantity("at", Kind.TEMPERATURE),
        dry=hop.quantity("dry", Kind.TIME),
    )


def _addition(addition: Cursor) -> Addition:
    return Addition(
        addition.path,
        what=addition.text("what"),
        weight=addition.quantity("weight", Kind.MASS, addition.text("what")),
        volume=addition.quantity("volume", Kind.VOLUME),
        count=addition.quantity("count", Kind.COUNT),
        when=addition.text("when"),
    )


def _yeasts(top: Cursor) -> tuple[Yeast, ...]:
    found = top.find("yeast")
    if found is not None and isinstance(found[1], Mapping):
        one = top.inside("yeast")
        return (_yeast(one),) if one is not None else ()
    return tuple(_yeast(item) for item in top.items("yeast"))


def _yeast(yeast: Cursor) -> Yeast:
    return Yeast(
        yeast.path,
        kind=yeast.text("kind"),
        attenuation=yeast.quantity("attenuation", Kind.SHARE),
        tolerance=yeast.quantity("tolerance", Kind.SHARE),
        flocculation=yeast.text("flocculation"),
        diastatic=yeast.flag("diastatic"),
        pitch=yeast.quantity("pitch", Kind.PITCH),
        viability=yeast.quantity("viability", Kind.SHARE),
        starter=yeast.quantity("starter", Kind.VOLUME),
        at=yeast.quantity("at", Kind.TEMPERATURE),
    )


def _ferment_step(step: Cursor) -> FermentStep:
    return FermentStep(
        step.path,
        at=step.quantity("at", Kind.TEMPERATURE),
        to=step.quantity("to", Kind.TEMPERATURE),
        time=step.quantity("for", Kind.TIME),
        enzymes=_amounts(step, "enzymes", ""),
    )


def _package(package: Cursor | None) -> Package | None:
    if package is None:
        return None
    return Package(
        package.path,
        vessel=_VESSELS.get(package.text("in"), package.text("in")),
        carbonation=package.quantity("carbonation", Kind.CARBONATION),
        priming=_priming(package.inside("priming")),
        pressure=package.quantity("pressure", Kind.PRESSURE),
        at=package.quantity("at", Kind.TEMPERATURE),
        bottle_rating=package.quantity("bottle-rating", Kind.BOTTLE_RATING),
        gravity=package.quantity("gravity", Kind.GRAVITY),
    )


def _priming(priming: Cursor | None) -> Priming | None:
    if priming is None:
        return None
    group = next((key for key in ("sugar", "extract") if priming.has(key)), "")
    return Priming(
        priming.path,
        name=priming.text(group) if group else "",
        group=group,
        weight=priming.quantity("weight", Kind.MASS, "sugar"),
        rate=priming.quantity("rate", Kind.DOSE),
        each=priming.quantity("each", Kind.MASS, "sugar"),
        bottle=priming.quantity("bottle", Kind.VOLUME),
    )


def _targets(targets: Cursor | None) -> Targets:
    if targets is None:
        return Targets(("targets",))
    return Targets(
        targets.path,
        og=targets.quantity("og", Kind.GRAVITY),
        fg=targets.quantity("fg", Kind.GRAVITY),
        abv=targets.quantity("abv", Kind.SHARE),
        bitterness=targets.quantity("bitterness", Kind.BITTERNESS),
        colour=targets.quantity("colour", Kind.BEER_COLOUR),
        pre_boil_gravity=targets.quantity("pre-boil-gravity", Kind.GRAVITY),
        first_wort_gravity=targets.quantity("first-wort-gravity", Kind.GRAVITY),
        attenuation=targets.quantity("attenuation", Kind.SHARE),
    )


def _brew_day(day: Cursor) -> BrewDay:
    found = day.find("batch")
    if found is not None and isinstance(found[1], Scalar):
        batch: Batch | None = Batch((*day.path, "batch"), fermenter=day.quantity("batch", Kind.VOLUME))
    else:
        batch = build_batch(day.inside("batch"))
    return BrewDay(day.path, day.text("date"), _targets(day), batch, _temperatures(day))


def _temperatures(day: Cursor) -> tuple[Amount, ...]:
    inner = day.inside("temperatures")
    if inner is None or inner.node is None:
        return ()
    return tuple(
        Amount((*inner.path, name.text), name.text, inner.quantity(name.text, Kind.TEMPERATURE))
        for name, _ in inner.node.entries
    )


def build_accepted(item: Cursor) -> Accepted:
    """A suppression, in a recipe or a brewhouse."""
    return Accepted(
        item.path, rule=item.text("rule"), reason=item.text("reason"), until=item.text("until"), where=item.text("in")
    )


_SECTIONS = {
    "name": _section("recipe", lambda top: top.text("recipe")),
    "by": _section("by", lambda top: top.text("by")),
    "style": _section("style", lambda top: top.text("style")),
    "source": _section("source", lambda top: top.text("source")),
    "notes": _section("notes", _notes),
    "batch": _section("batch", _batch),
    "efficiency": _section("efficiency", lambda top: top.quantity("efficiency", Kind.SHARE)),
    "mash_efficiency": _section("mash-efficiency", lambda top: top.quantity("mash-efficiency", Kind.SHARE)),
    "grist": _section("grist", lambda top: tuple(_grist_line(line) for line in top.items("grist"))),
    "steep": _section("steep", lambda top: _steep(top.inside("steep"))),
    "mash": _section("mash", lambda top: _mash(top.inside("mash"))),
    "cereal_mash": _section("cereal-mash", lambda top: _cereal_mash(top.inside("cereal-mash"))),
    "sparge": _section("sparge", lambda top: _sparge(top.inside("sparge"))),
    "water": _section("water", lambda top: build_water(top.inside("water"))),
    "top_up": _section("top-up", lambda top: _top_up(top.inside("top-up"))),
    "boil": _section("boil", lambda top: _boil(top.inside("boil"))),
    "hops": _section("hops", lambda top: tuple(_hop(hop) for hop in top.items("hops"))),
    "additions": _section("additions", lambda top: tuple(_addition(addition) for addition in top.items("additions"))),
    "yeast": _section("yeast", _yeasts),
    "ferment": _section("ferment", lambda top: tuple(_ferment_step(step) for step in top.items("ferment"))),
    "package": _section("package", lambda top: _package(top.inside("package"))),
    "targets": _section("targets", lambda top: _targets(top.inside("targets"))),
    "measured": _section("measured", lambda top: tuple(_brew_day(day) for day in top.items("measured"))),
    "accepted": _section("accepted", lambda top: tuple(build_accepted(item) for item in top.items("accepted"))),
}
