"""The brew day of a recipe in the order of work: what to do, how much of what, and what to measure.

Nothing is computed here: what the recipe says is taken as it says it, the rest are figures. What neither says is "not
stated"; only what a figure assumed is marked as assumed.
"""

from collections.abc import Iterator

from msgspec import Struct
from msgspec.structs import replace

from mashwright.brew.brew import Brew
from mashwright.brew.own_units import weight_in
from mashwright.brew.pours import USUAL_THICKNESS, strike_water, unstated_water
from mashwright.brewing.corrections import correction
from mashwright.brewing.volumes import COOLED_SHARE
from mashwright.finding import Level
from mashwright.ingredients.kinds import Oxygen, Souring
from mashwright.measures.quantity import Kind, said
from mashwright.recipe.model import Addition, Hop, Package
from mashwright.recipe.stated import Said, Stated, Unknown
from mashwright.reviewing.results import Result, pointer
from mashwright.reviewing.sheet import FigureRow, Sheet
from mashwright.words.when import when

NOT_STATED = "not stated"


class Step(Struct, frozen=True):
    """One thing to do.

    Attributes:
        do: what, in a few words.
        planned: how much, how hot, how long; "" where there is nothing to plan.
        measure: units of what is to be measured, a blank for each; "" for a number without one.
        assumed: what was assumed for what is planned.
        minutes: how long it takes, as far as that is known; for the clock.
        caution: the danger in it, "" else.
        objections: what the review has to say of it, each with its first mend.
    """

    do: str
    planned: str = ""
    measure: tuple[str, ...] = ()
    assumed: tuple[str, ...] = ()
    minutes: float | None = None
    caution: str = ""
    objections: tuple[str, ...] = ()


class Part(Struct, frozen=True):
    """A part of the day, with what the review says of it as a whole."""

    title: str
    steps: tuple[Step, ...]
    objections: tuple[str, ...] = ()


class BrewDay(Struct, frozen=True):
    """The whole day, its parts in the order of work; ``corrections``: what to do with a wort that is off."""

    name: str
    path: str
    batch: str
    parts: tuple[Part, ...]
    corrections: tuple[tuple[str, str], ...] = ()


SCALD = "Hot water and mash scald: gloves, closed shoes, no full vessels carried."
BOIL_OVER = "It boils over in the first minutes and at each addition: stay beside it, keep children away."
CLEAN = "From here on all that touches the wort is clean and disinfected."
GAS = "Fermentation gives off carbon dioxide: air the room, never bend into a vessel."
GERMS = (
    "Other germs grow in sweet warm wort too: cool it first, bring it to pH 4.5, keep air out. What smells of vomit or"
    " rot is thrown away untasted."
)
FIRE = "Pure oxygen feeds fire: no flame, no spark, no grease on the valve."
PRESSURE = (
    "Bottles and kegs can burst: only such as are rated for it, undamaged; goggles when in doubt. The rating and local"
    " code come before any figure here."
)
ACID = "Acid into water, never water into acid; goggles and gloves."
COOKED = "A cooked mash sticks and spits: stir to the bottom."


class _Maker:
    """Gathers the parts of a day."""

    def __init__(self, brew: Brew, sheet: Sheet, results: tuple[Result, ...]) -> None:
        self.brew, self.recipe = brew, brew.recipe
        self.rows = {row.id: row for row in sheet.rows}
        self.results = [one for one in results if one.level > Level.NOTE and one.accepted is None]
        self.told: set[int] = set()

    def figure(self, name: str) -> FigureRow | None:
        row = self.rows.get(name)
        return row if row is not None and not row.missing else None

    def planned(self, stated: Stated, name: str = "") -> tuple[str, tuple[str, ...]]:
        """What is planned, and what was assumed for it: the recipe's own words, else a figure."""
        if isinstance(stated, Said):
            return stated.text, ()
        row = self.figure(name) if name else None
        return (f"{row.shown} (computed)", row.assumed) if row is not None else (NOT_STATED, ())

    def objections(self, *places: str) -> tuple[str, ...]:
        """What the review says of some places, once."""
        found = []
        for index, one in enumerate(self.results):
            within = any(one.pointer == place or one.pointer.startswith(f"{place}/") for place in places)
            if within and index not in self.told:
                self.told.add(index)
                mend = f"; mend it: {one.remedies[0].text}" if one.remedies else ""
                found.append(f"{one.level.word}: {one.message}{mend}")
        return tuple(found)

    def row(self, do: str, name: str, *measure: str, caution: str = "") -> Iterator[Step]:
        """A figure as a step, where it is known."""
        row = self.figure(name)
        if row is not None:
            yield Step(do, f"{row.shown} (computed)", measure, row.assumed, caution=caution)


def brew_day(brew: Brew, sheet: Sheet, results: tuple[Result, ...], *, corrections: bool = False) -> BrewDay:
    """The brew day of a recipe.

    Args:
        brew: of the recipe.
        sheet: its figures.
        results: of its review, errors and warnings of which stand at their steps.
        corrections: with what to do when the wort before the boil is not as planned.
    """
    maker = _Maker(brew, sheet, results)
    parts = [
        Part("Weigh and crush", tuple(_grist(maker))),
        Part("Water", tuple(_water(maker)), maker.objections("/water")),
        Part("Cereal mash", tuple(_cooker(maker)), maker.objections("/cereal-mash")),
        Part("Mash", tuple(_mash(maker)), maker.objections("/mash")),
        Part("Run-off and sparge", tuple(_run_off(maker)), maker.objections("/sparge")),
    ]
    if sheet.worts:
        parts += _of_worts(maker, sheet)
    else:
        parts += _from_the_kettle(maker, "", "")
    parts.append(Part("What else the review says", (), maker.objections("")))
    batch = brew.recipe.batch.said
    kept = tuple(_cautioned_once([part for part in parts if part.steps or part.objections]))
    name, rows = brew.recipe.name or "A recipe without a name", tuple(_corrections(maker)) if corrections else ()
    return BrewDay(name, sheet.path, batch.text if batch else "", kept, rows)


_OFF_SHARES = (0.9, 0.95, 1.05, 1.1)
"""Volumes before the boil for which the table has rows, of that planned; judgement."""
_OFF_POINTS = (-6, -4, -2, 2, 4, 6)
"""Points of gravity off for which it has rows; judgement."""


def _corrections(maker: _Maker) -> Iterator[tuple[str, str]]:
    """What to do when the wort before the boil is not as planned, computed for this recipe."""
    from mashwright.brew.pours import boil_off

    before, gravity = maker.figure("pre-boil-volume"), maker.figure("pre-boil-gravity")
    after, og = maker.figure("post-boil-volume"), maker.figure("og")
    known = [row.typical for row in (before, gravity, after, og) if row is not None and row.typical is not None]
    if len(known) < 4:  # one of them is not known
        return
    before_l, before_sg, after_l, after_sg = known
    rate = boil_off(maker.brew, after_l)[0].typical
    if min(before_l, after_l, rate) <= 0 or before_sg <= 1 or after_sg <= 1:
        return
    unit = _volume(maker)
    for points in _OFF_POINTS:
        off = before_sg + points / 1000
        if off > 1:
            yield (
                f"{said(before_l, unit, Kind.VOLUME)} at {off:.3f}",
                _do(before_l, off, after_l, after_sg, rate, maker),
            )
    for share in _OFF_SHARES:
        litres = before_l * share
        shown = f"{said(litres, unit, Kind.VOLUME)} at {before_sg:.3f}"
        yield shown, _do(litres, before_sg, after_l, after_sg, rate, maker)


def _do(litres: float, sg: float, after_l: float, after_sg: float, rate: float, maker: _Maker) -> str:
    """One row: boil longer or shorter for the gravity, or add what keeps the volume as well."""
    cold = COOLED_SHARE  # the balance is of cold wort, and the kettle's marks are read hot
    way = correction(litres * cold, sg, after_l * cold, after_sg, rate * cold)
    volume = said(max(way.left_l / cold, 0.0), _volume(maker), Kind.VOLUME)
    planned, planned_l = 60 * (litres - after_l) / rate, said(after_l, _volume(maker), Kind.VOLUME)
    minutes = planned + way.boil_min
    if minutes < 0:
        boil = "too thick to boil to it"
    else:
        boil = f"boil {said(minutes, 'min', Kind.TIME)} in all: {volume} of {after_sg:.3f}"
    if way.dry_extract_kg > 0:
        weight = weight_in(maker.brew, way.dry_extract_kg)
        return f"{boil}; or end at {planned_l} and add {weight} of dry malt extract"
    if way.water_l > 0:
        return f"{boil}; or end at {planned_l} and add {said(way.water_l, _volume(maker), Kind.VOLUME)} of boiled water"
    return boil


def _of_worts(maker: _Maker, sheet: Sheet) -> Iterator[Part]:
    """What each of several worts goes through by itself."""
    from mashwright.figures.kettle.worts import worts_of  # most recipes give one beer

    for own, figures in zip(worts_of(maker.brew), sheet.worts, strict=False):
        of_it = _Maker(own, figures, ())
        of_it.results, of_it.told = maker.results, maker.told
        yield from _from_the_kettle(of_it, figures.pointer, f"{figures.name}: ")


def _from_the_kettle(maker: _Maker, where: str, title: str) -> list[Part]:
    """The boil and all behind it.

    Args:
        maker: of the recipe, or of one of its worts.
        where: the pointer of that wort, "" for the recipe.
        title: what the titles begin with.
    """

    def objections(*sections: str) -> tuple[str, ...]:
        return maker.objections(*(f"{where}/{section}" for section in sections))

    return [
        Part(f"{title}Boil", tuple(_boil(maker)), objections("boil", "hops", "additions")),
        Part(f"{title}Cool and pitch", tuple(_pitch(maker)), objections("yeast", "chill", "souring")),
        Part(f"{title}Cellar", tuple(_cellar(maker)), objections("ferment")),
        Part(f"{title}Package", tuple(_package(maker)), objections("package")),
    ]


def _cautioned_once(parts: list[Part]) -> Iterator[Part]:
    """Each caution where its danger comes first; one that stands everywhere is read nowhere."""
    said: set[str] = set()
    for part in parts:
        steps = []
        for step in part.steps:
            steps.append(replace(step, caution="") if step.caution in said else step)
            said.add(step.caution)
        yield replace(part, steps=tuple(steps))


def _unit(stated: Stated, usual: str) -> str:
    return stated.unit if isinstance(stated, Said) else usual


def _grist(maker: _Maker) -> Iterator[Step]:
    try:
        parts = maker.brew.grist()
    except Unknown:
        parts = ()
    crushed = {
        part.line.path for part in parts if part.place in ("mash", "late mash", "steep") and part.group == "grain"
    }
    places = {part.line.path: part.place for part in parts}
    for line in maker.recipe.grist:
        stated = line.weight if isinstance(line.weight, Said) else line.share
        name = f"{line.name}, lot {line.lot}" if line.lot else str(line.name)
        place = places.get(line.path, str(line.add))
        how = [] if line.path not in crushed else ["crush"]
        how += [f"for the {place}"] if place and place != "mash" else []
        how += [f"for {line.time.text}"] if isinstance(line.time, Said) else []
        do = ", ".join((name or "a line without a name", *how))
        planned = maker.planned(stated)[0]
        yield Step(do, planned, (_unit(stated, ""),), objections=maker.objections(pointer(line.path)))
    yield from maker.row("grain in the mash, in all", "mash-weight")


def _water(maker: _Maker) -> Iterator[Step]:
    recipe, mash = maker.recipe, maker.recipe.mash
    if not mash.there and not recipe.sparge.there and maker.figure("total-liquor") is None:
        return
    yield from maker.row("water in all", "total-liquor", _volume(maker))
    text, assumed = maker.planned(mash.water)
    poured, spare = _unstated_waters(maker)
    if not mash.water.known and poured:
        text, assumed = f"{poured} (computed)", (unstated_water(maker.brew, USUAL_THICKNESS.typical),)
    if mash.there:
        yield Step("mash water", text, (_unit(mash.water, _volume(maker)),), assumed)
        heat, more = maker.planned(mash.strike, "strike-temperature")
        yield Step("heat it for the strike to", heat, (_heat(maker),), more, caution=SCALD)
    if recipe.sparge.there and recipe.sparge.by != "none" and not recipe.sparges:
        rinsed = recipe.sparge.water
        text = rinsed.text if isinstance(rinsed, Said) else f"{spare} (computed)" if spare else NOT_STATED
        yield Step("sparge water", text, (_unit(rinsed, _volume(maker)),))
    elif mash.there and not recipe.sparge.there and not mash.bag and spare:
        yield Step("the rest of the water, to sparge with", f"{spare} (computed)", (_volume(maker),))
    for section, where in ((mash, "mash"), (recipe.sparge, "sparge water")):
        for salt in section.salts:
            yield Step(f"{salt.name} into the {where}", recipe_text(salt.quantity), ("",))
        for acid in section.acid:
            yield Step(f"{acid.name} into the {where}", recipe_text(acid.quantity), ("",), caution=ACID)


def _unstated_waters(maker: _Maker) -> tuple[str, str]:
    """The mash water, and what is left of all the water to sparge with; "" for what cannot be known."""
    try:
        strike = strike_water(maker.brew).litres.typical
    except Unknown:
        return "", ""
    every = maker.figure("total-liquor")
    added = (maker.recipe.top_up.kettle, maker.recipe.top_up.fermenter)
    later = sum(one.range.typical for one in added if isinstance(one, Said))
    rest = (every.typical or 0) - strike - later if every is not None else 0.0
    unit = _volume(maker)
    return str(said(strike, unit, Kind.VOLUME)), str(said(rest, unit, Kind.VOLUME)) if rest > 0 else ""


def recipe_text(stated: Stated) -> str:
    """A quantity as the recipe states it."""
    return stated.text if isinstance(stated, Said) else NOT_STATED


def _volume(maker: _Maker) -> str:
    return maker.recipe.batch.unit


def _heat(maker: _Maker) -> str:
    said = next((rest.at for rest in maker.recipe.mash.rests if isinstance(rest.at, Said)), None)
    return said.unit if said is not None else "°C"


def _cooker(maker: _Maker) -> Iterator[Step]:
    cooker = maker.recipe.cereal_mash
    if not cooker.there:
        return
    yield Step("water into the cooker, with what is cooked", recipe_text(cooker.water), (_unit(cooker.water, "l"),))
    for rest in cooker.rests:
        yield Step(
            "rest", f"{recipe_text(rest.at)} for {recipe_text(rest.time)}", (_heat(maker),), minutes=_min(rest.time)
        )
    yield Step("boil, stirring", recipe_text(cooker.boil), minutes=_min(cooker.boil), caution=COOKED)


def _min(stated: Stated) -> float | None:
    return stated.range.typical if isinstance(stated, Said) else None


def _mash(maker: _Maker) -> Iterator[Step]:
    mash = maker.recipe.mash
    if not mash.there:
        return
    if mash.number > 1:
        each = "stirred into the wort of the one before" if mash.reiterated else "with its part of the water"
        yield Step(f"{mash.number} mashes, each of an equal part of the grain", each)
    yield Step(
        "stir the grain in; note the heat when it is even", "", (_heat(maker),), caution="" if mash.bag else SCALD
    )
    for index, rest in enumerate(mash.rests):
        said = [recipe_text(rest.at), f"for {recipe_text(rest.time)}"]
        if isinstance(rest.to, Said):
            said.append(f"down or up to {rest.to.text} at its end")
        if isinstance(rest.water, Said):
            said.append(f"by {rest.water.text} of water{f' of {rest.of.text}' if isinstance(rest.of, Said) else ''}")
        elif isinstance(rest.pull, Said):
            boiled = f", boiled {rest.boil.text}" if isinstance(rest.boil, Said) else ""
            said.append(f"by a decoction of {rest.pull.text}{boiled}")
        elif rest.by:
            said.append(f"by {rest.by}")
        here = pointer(rest.path)
        yield Step(
            f"rest {index + 1}" if len(mash.rests) > 1 else "rest",
            ", ".join(said),
            (_heat(maker),),
            minutes=_min(rest.time),
            caution=COOKED if isinstance(rest.pull, Said) else "",
            objections=maker.objections(here),
        )
    for name, do in (("infusion-needed", "infusions as computed"), ("decoction-needed", "decoctions as computed")):
        row = maker.figure(name)
        if row is not None:
            yield Step(do, row.shown, (), row.assumed)
    yield from maker.row("pH of a cooled sample", "mash-ph", "pH")
    yield Step("iodine on a white saucer", "no blue and no black: converted", ("",))


def _run_off(maker: _Maker) -> Iterator[Step]:
    recipe = maker.recipe
    if not recipe.mash.there:
        return
    by = {"batch": "drain, fill up with the sparge water, stir, drain again", "fly": "sparge as fast as it runs off"}
    sparge = recipe.sparge
    if recipe.mash.bag:
        yield Step("lift the bag out and let it drain", "", (), caution=SCALD)
    elif recipe.sparges:
        for number, water in enumerate(recipe.sparges, 2):
            said = " at ".join(recipe_text(one) for one in (water.water, water.at) if one.known)
            yield Step(
                f"water {number} on the drained grain, stir, drain by itself", said, (_volume(maker), _heat(maker))
            )
    elif sparge.by != "none":
        known = [recipe_text(one) for one in (sparge.water, sparge.at) if one.known]
        heat = " at ".join(known) if sparge.water.known else ", ".join(["with the rest of the water", *known])
        yield Step(by.get(str(sparge.by), "run off and sparge"), heat, (_heat(maker),), caution=SCALD)
    else:
        yield Step("run off, without a sparge")
    if recipe.worts:
        return
    text, assumed = maker.planned(recipe.boil.volume, "pre-boil-volume")
    yield Step("volume before the boil, hot", text, (_volume(maker),), assumed)
    text, assumed = maker.planned(recipe.targets.pre_boil_gravity, "pre-boil-gravity")
    yield Step("gravity before the boil, cooled", text, ("SG",), assumed)


def _boil(maker: _Maker) -> Iterator[Step]:
    recipe = maker.recipe
    if not recipe.boil.there and not any(hop.boil.known for hop in recipe.hops) and not recipe.mash.there:
        return
    if recipe.souring.place != Souring.FERMENTER:
        yield from _souring(maker)
    text, assumed = maker.planned(recipe.boil.time)
    yield Step("boil, lid off", text, (), assumed, _min(recipe.boil.time), BOIL_OVER)
    timed = [(_left(hop), _hop(maker, hop)) for hop in recipe.hops if not hop.dry.known]
    for addition in recipe.additions:
        goes = when(addition.when)
        if goes.in_kettle or goes.boiled or goes.in_water:
            timed.append((_minutes_in(addition), _addition(maker, addition)))
    timed += [(1000.0, Step(f"{salt.name} into the kettle", recipe_text(salt.quantity))) for salt in recipe.boil.salts]
    yield from (step for _, step in sorted(timed, key=lambda one: -one[0]))
    yield from maker.row("volume after the boil, hot", "post-boil-volume", _volume(maker))


def _souring(maker: _Maker) -> Iterator[Step]:
    souring = maker.recipe.souring
    if not souring.there:
        return
    said = [f"at {souring.at.text}"] if isinstance(souring.at, Said) else []
    said += [f"for {souring.time.text}"] if isinstance(souring.time, Said) else []
    said += [f"from pH {souring.start_ph.text}"] if isinstance(souring.start_ph, Said) else []
    said += [f"to pH {souring.ph.text}"] if isinstance(souring.ph, Said) else []
    where = f" in the {souring.place}" if souring.place else ""
    do = f"sour it{where} with {souring.culture or 'the bacteria'}"
    yield Step(do, ", ".join(said) or NOT_STATED, (_heat(maker), "pH"), caution=GERMS)


def _left(hop: Hop) -> float:
    """Minutes to the end of the boil; first wort and mash hops come first, a stand last."""
    if hop.mash or hop.first_wort:
        return 2000.0 if hop.mash else 1500.0
    if isinstance(hop.boil, Said):
        return hop.boil.range.typical
    return -1.0


def _amount(hop: Hop) -> str:
    for stated in (hop.weight, hop.alpha_units, hop.bitterness):
        if isinstance(stated, Said):
            return stated.text
    return NOT_STATED


def _hop(maker: _Maker, hop: Hop) -> Step:
    where = "at a time that is not stated"
    if hop.mash:
        where = "in the mash"
    elif hop.first_wort:
        where = "as the first wort runs in"
    elif isinstance(hop.boil, Said):
        where = f"{hop.boil.text} before the end" if hop.boil.range.typical else "as the heat goes off"
    elif isinstance(hop.whirlpool, Said):
        heat = f" at {hop.at.text}" if isinstance(hop.at, Said) else ""
        falls = f", cooling to {hop.to.text}" if isinstance(hop.to, Said) else ""
        where = f"after the boil, for {hop.whirlpool.text}{heat}{falls}"
    do = f"{hop.name}{_strength(hop)}: {where}"
    return Step(do, _amount(hop), (), objections=maker.objections(pointer(hop.path)))


def _strength(hop: Hop) -> str:
    return f", {hop.alpha.text} alpha acid" if isinstance(hop.alpha, Said) else ""


def _minutes_in(addition: Addition) -> float:
    numbers = [float(word) for word in str(addition.when).replace("-", " ").split() if word.isdigit()]
    return numbers[0] if numbers else 0.0


def _addition(maker: _Maker, addition: Addition) -> Step:
    amount = next((one.text for one in (addition.weight, addition.volume, addition.count) if isinstance(one, Said)), "")
    do = f"{addition.what}: {addition.when or 'when is not stated'}"
    return Step(do, amount or NOT_STATED, (), objections=maker.objections(pointer(addition.path)))


def _pitch(maker: _Maker) -> Iterator[Step]:
    recipe = maker.recipe
    how = str(recipe.chill.by) or "cool it quickly"
    yield Step(how, recipe_text(recipe.chill.time) if recipe.chill.time.known else "", (_heat(maker),), caution=CLEAN)
    text, assumed = maker.planned(recipe.batch.fermenter)
    if recipe.batch.fermenter.known:
        yield Step("into the fermenter", text, (_volume(maker),), assumed)
    target = f"; stated: {recipe.targets.og.text}" if isinstance(recipe.targets.og, Said) else ""
    row = maker.figure("og")
    if row is not None or target:
        shown = f"{row.shown} (computed)" if row is not None else NOT_STATED
        yield Step("original gravity", f"{shown}{target}", ("SG",), row.assumed if row is not None else ())
    for yeast in recipe.yeast:
        said = [recipe_text(yeast.pitch)] if yeast.pitch.known else []
        said += [f"at {yeast.at.text}"] if isinstance(yeast.at, Said) else []
        said += [f"from a starter of {yeast.starter.text}"] if isinstance(yeast.starter, Said) else []
        here = maker.objections(pointer(yeast.path))
        yield Step(
            f"pitch {yeast.kind or 'the yeast'}", ", ".join(said) or NOT_STATED, (_heat(maker),), objections=here
        )
    yield from maker.row("cells that it needs", "cells-needed")
    aeration = recipe.aeration
    if aeration.there:
        by = {"air": "give it air", "oxygen": "give it pure oxygen", "none": "give it no oxygen"}
        said = [aeration.oxygen.text] if isinstance(aeration.oxygen, Said) else []
        said += (
            [f"{aeration.times.text} times" if aeration.times.text != "1" else "once"]
            if (isinstance(aeration.times, Said))
            else []
        )
        fire = FIRE if aeration.by == Oxygen.OXYGEN else ""
        yield Step(by.get(str(aeration.by), "aerate it"), ", ".join(said), caution=fire)
    if recipe.souring.place == Souring.FERMENTER:
        yield from _souring(maker)


def _cellar(maker: _Maker) -> Iterator[Step]:
    recipe = maker.recipe
    day = 0.0
    for index, step in enumerate(recipe.ferment):
        to = f" to {step.to.text}" if isinstance(step.to, Said) else ""
        minutes = _min(step.time)
        from_day = f"from day {day:g}: " if day or index else ""
        planned = f"{from_day}{recipe_text(step.at)}{to} for {recipe_text(step.time)}"
        here = maker.objections(pointer(step.path))
        do = "ferment" if index == 0 else "then"
        yield Step(do, planned, (_heat(maker),), caution=GAS if not index else "", objections=here)
        day += (minutes or 0) / 1440
    for hop in recipe.hops:
        if hop.dry.known:
            here = maker.objections(pointer(hop.path))
            name = f"{hop.name}{_strength(hop)}"
            yield Step(f"{name} into the beer, for {recipe_text(hop.dry)}", _amount(hop), (), objections=here)
    for addition in recipe.additions:
        goes = when(addition.when)
        if goes.in_fermenter and not goes.packaged:
            yield _addition(maker, addition)
    row = maker.figure("fg")
    if row is not None:
        yield Step("gravity twice, three days apart, the same", f"{row.shown} (computed)", ("SG", "SG"), row.assumed)


def _taken(package: Package) -> str:
    """How much of the beer goes into a package, by its own words."""
    if isinstance(package.count, Said):
        size = f" × {package.size.text}" if isinstance(package.size, Said) else ""
        return f"{package.count.text}{size}"
    return next((one.text for one in (package.volume, package.share) if isinstance(one, Said)), "")


def _package(maker: _Maker) -> Iterator[Step]:
    recipe = maker.recipe
    for package in recipe.packages:
        gas = f" with {package.carbonation.text}" if isinstance(package.carbonation, Said) else ""
        spund = package.spund
        if spund.there:
            said = [f"at {spund.gravity.text}"] if isinstance(spund.gravity, Said) else []
            said += [f"valve at {spund.pressure.text}"] if isinstance(spund.pressure, Said) else []
            yield Step("close it before its end", ", ".join(said) or NOT_STATED, ("SG",), caution=PRESSURE)
        do = f"into {package.vessel}{gas}" if package.vessel else f"package{gas}: {NOT_STATED}"
        yield Step(do, _taken(package), caution=PRESSURE)
        priming = package.priming
        if priming.there:
            amounts = (priming.weight, priming.rate, priming.each, priming.volume)
            amount = next((one.text for one in amounts if isinstance(one, Said)), NOT_STATED)
            yield Step(f"prime with {priming.name or 'sugar'}", amount, ("",))
        if isinstance(package.pressure, Said):
            at = f" at {package.at.text}" if isinstance(package.at, Said) else ""
            of = f" of {package.gas.text}" if isinstance(package.gas, Said) else ""
            yield Step("pressure", f"{package.pressure.text}{of}{at}", ("",))
        elif isinstance(package.gas, Said):
            yield Step("gas on it", package.gas.text)
    if recipe.packages and not any(package.priming.there for package in recipe.packages):
        yield from maker.row("priming sugar for the stated gas", "priming-sugar", "")
    for addition in recipe.additions:
        if when(addition.when).packaged:
            yield _addition(maker, addition)
