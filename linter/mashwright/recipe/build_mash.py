"""Parts of a recipe up to and with the boil: batch, grist, mash, waters."""

import re

from msgspec.structs import replace

from mashwright.budgets import MASHES, SPARGES
from mashwright.finding import Path
from mashwright.measures.quantity import Kind
from mashwright.measures.range import Range
from mashwright.reading.nodes import Node, Scalar, Sequence
from mashwright.recipe.cursor import Cursor
from mashwright.recipe.model import (
    Amount,
    Batch,
    Boil,
    CerealMash,
    GristLine,
    Mash,
    Rest,
    Sparge,
    Steep,
    TopUp,
    Water,
)
from mashwright.recipe.stated import NOWHERE, Lines, Said, Stated, Text, Unsaid

GROUPS = ("grain", "sugar", "fruit", "extract")  # beside the others `extract` is what they give, not what they are


def whole_batch(top: Cursor) -> Batch:
    found = top.find("batch")
    if found is not None and isinstance(found[1], Scalar):
        return Batch((*top.path, "batch"), fermenter=top.quantity("batch", Kind.VOLUME))
    return build_batch(top.inside("batch"))


def build_batch(cursor: Cursor) -> Batch:
    """A batch given as a mapping of where it was counted."""
    return Batch(
        *cursor.section,
        fermenter=cursor.quantity("fermenter", Kind.VOLUME),
        kettle=cursor.quantity("kettle", Kind.VOLUME),
        package=cursor.quantity("package", Kind.VOLUME),
    )


def grist_line(line: Cursor) -> GristLine:
    group = next((key for key in GROUPS if line.has(key)), "")
    substance = {"grain": "malt", "sugar": "sugar"}.get(group, "")
    return GristLine(
        line.path,
        group=group,
        name=line.text(group) if group else Text("", line.path),
        weight=line.quantity("weight", Kind.MASS, substance),
        share=line.quantity("share", Kind.SHARE),
        add=line.text("add"),
        cereal_mash=line.text("prepare") == "cereal mash",
        lot=line.text("lot"),
        kind=line.choice("kind", "grist-line"),
        cereal=line.text("cereal"),
        colour=line.quantity("colour", Kind.MALT_COLOUR if group == "grain" else Kind.SUGAR_COLOUR),
        extract=line.quantity("extract", Kind.EXTRACT) if group != "extract" else NOWHERE,
        moisture=line.quantity("moisture", Kind.SHARE),
        diastatic_power=line.quantity("diastatic-power", Kind.DIASTATIC_POWER),
        gelatinises=line.quantity("gelatinises", Kind.TEMPERATURE),
        fermentable=line.quantity("fermentable", Kind.SHARE),
        bitterness=line.quantity("bitterness", Kind.BITTERNESS),
        time=line.quantity("for", Kind.TIME),
    )


def amounts(owner: Cursor, key: str, substance: str) -> Lines[Amount]:
    """A mapping of names to amounts: weights or volumes."""
    inner = owner.inside(key)
    if inner.node is None:
        return inner.lines(())
    return inner.lines(_amount(inner, name.text, value, substance) for name, value in inner.node.entries)


def _amount(inner: Cursor, name: str, value: Node, substance: str) -> Amount:
    path = (*inner.path, name)
    quantity: Stated = Unsaid(path)
    if isinstance(value, Scalar) and value.text:
        kind = Kind.VOLUME if re.search(r"\d\s*(?:m?l|fl\.? ?oz)\s*$", value.text) else Kind.MASS
        quantity = inner.read(path, value, kind, name, substance)
    return Amount(path, Text(name, path), quantity)


def _rests(owner: Cursor) -> Lines[Rest]:
    return owner.items("rests", _rest)


def _rest(rest: Cursor) -> Rest:
    return Rest(
        rest.path,
        at=rest.quantity("at", Kind.TEMPERATURE),
        time=rest.quantity("for", Kind.TIME),
        to=rest.quantity("to", Kind.TEMPERATURE),
        by=rest.choice("by", "rest"),
        water=rest.quantity("water", Kind.VOLUME),
        of=rest.quantity("of", Kind.TEMPERATURE),
        pull=rest.quantity("pull", _pull_kind(rest)),
        boil=rest.quantity("boil", Kind.TIME),
    )


def _pull_kind(rest: Cursor) -> Kind:
    return Kind.SHARE if "%" in rest.text("pull") else Kind.VOLUME


def _mashes(mash: Cursor) -> Stated:
    stated = mash.quantity("mashes", Kind.COUNT)
    if not isinstance(stated, Said) or stated.range.typical in range(1, MASHES + 1):
        return stated
    found = mash.scalar("mashes")
    message = f"{stated.text} mashes of one grist are not possible here; write a number from 1 to {MASHES}"
    return mash.refused(*found, message) if isinstance(found, tuple) else stated


def main_mash(mash: Cursor) -> Mash:
    return _with_its_first_water(_main_mash(mash))


def _with_its_first_water(mash: Mash) -> Mash:
    """Mash water that is written at the first rest is the mash water, and its temperature that of the strike."""
    if type(mash.rests) is not Lines or not mash.rests or not isinstance(mash.water, Unsaid):
        return mash
    if not isinstance(mash.thickness, Unsaid):
        return mash
    first = mash.rests[0]
    if not isinstance(first.water, Said) or first.by not in ("", "infusion"):
        return mash
    of = first.of if isinstance(mash.strike, Unsaid) else NOWHERE
    rest = replace(first, water=Unsaid(first.water.path), of=Unsaid((*first.path, "of")), by=Text("", first.by.path))
    rests = Lines.at(mash.rests.path, (rest, *mash.rests[1:]))
    strike = of if isinstance(of, Said) else mash.strike
    return replace(mash, water=first.water, strike=strike, rests=rests)


def _main_mash(mash: Cursor) -> Mash:
    return Mash(
        *mash.section,
        mashes=_mashes(mash),
        reiterated=mash.flag("reiterated") is True,
        water=mash.water("water"),
        thickness=mash.quantity("thickness", Kind.THICKNESS),
        strike=mash.quantity("strike", Kind.TEMPERATURE),
        grain_temperature=mash.quantity("grain-temperature", Kind.TEMPERATURE),
        crush=mash.choice("crush", "mash"),
        ph=mash.quantity("ph", Kind.PH),
        salts=amounts(mash, "salts", "salt"),
        acid=amounts(mash, "acid", "acid"),
        enzymes=amounts(mash, "enzymes", ""),
        bag=mash.flag("bag") is True,
        rests=_rests(mash),
    )


def cereal_mash(cooker: Cursor) -> CerealMash:
    return CerealMash(
        *cooker.section,
        water=cooker.quantity("water", Kind.VOLUME),
        rests=_rests(cooker),
        boil=cooker.quantity("boil", Kind.TIME),
    )


def steeped(steep: Cursor) -> Steep:
    return Steep(
        *steep.section,
        water=steep.quantity("water", Kind.VOLUME),
        at=steep.quantity("at", Kind.TEMPERATURE),
        time=steep.quantity("for", Kind.TIME),
    )


def whole_sparge(top: Cursor) -> Sparge:
    """The sparge; of several waters all of them together, as hot as the hottest."""
    each = each_sparge(replace(top, gathered=top.gathered.quiet()))
    if not each:
        return sparged(top.inside("sparge"))
    waters = [one.water for one in each]
    by = next((one.by for one in each if one.by == "fly"), Text("batch", ("sparge",)))
    hot = [one.at for one in each if isinstance(one.at, Said)]
    acidity = [one.ph for one in each if isinstance(one.ph, Said)]
    nothing: Stated = Unsaid(("sparge",))
    return Sparge(
        ("sparge",),
        by=by,
        water=summed(waters, ("sparge",)),
        at=max(hot, key=lambda one: one.range.typical, default=next((one.at for one in each), nothing)),
        ph=max(acidity, key=lambda one: one.range.typical, default=next((one.ph for one in each), nothing)),
        salts=Lines.at(("sparge",), tuple(salt for one in each for salt in one.salts)),
        acid=Lines.at(("sparge",), tuple(acid for one in each for acid in one.acid)),
    )


def each_sparge(top: Cursor) -> Lines[Sparge]:
    """The waters after the mash, where they are a list; none where there is one sparge, or none."""
    found = top.find("sparge")
    if found is None or not isinstance(found[1], Sequence):
        return Lines.at(("sparge",))
    if len(found[1].items) > SPARGES:
        return top.too_many("sparge")
    return top.items("sparge", sparged)


def summed(stated: list[Stated], path: Path) -> Stated:
    """Several volumes as one, at the place of their list; what of them cannot be read or is not stated in its stead."""
    said = [one for one in stated if isinstance(one, Said)]
    if len(said) < len(stated):
        return next(one for one in stated if not isinstance(one, Said))
    if not said:
        return Unsaid(path)
    total = Range.weighted_sum([(one.range, 1.0) for one in said])
    text = " + ".join(one.text for one in said)
    return Said(said[0].kind, total, said[0].unit, text, path=path)


def sparged(sparge: Cursor) -> Sparge:
    return Sparge(
        *sparge.section,
        by=sparge.choice("by", "sparge"),
        water=sparge.water("water"),
        at=sparge.quantity("at", Kind.TEMPERATURE),
        ph=sparge.quantity("ph", Kind.PH),
        salts=amounts(sparge, "salts", "salt"),
        acid=amounts(sparge, "acid", "acid"),
    )


def build_water(water: Cursor) -> Water:
    """The ions of a water, in a recipe or a brewhouse."""
    return Water(
        *water.section,
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


def topped_up(top_up: Cursor) -> TopUp:
    return TopUp(
        *top_up.section,
        kettle=top_up.water("kettle"),
        fermenter=top_up.water("fermenter"),
        kettle_as_needed=top_up.as_needed("kettle"),
        fermenter_as_needed=top_up.as_needed("fermenter"),
    )


def boiled(boil: Cursor) -> Boil:
    return Boil(
        *boil.section,
        volume=boil.quantity("volume", Kind.VOLUME),
        time=boil.quantity("for", Kind.TIME),
        salts=amounts(boil, "salts", "salt"),
    )
