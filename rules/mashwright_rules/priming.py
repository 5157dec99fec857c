"""Does the priming sugar give the stated carbonation, and can the bottles hold it?

A few grams decide between flat beer and burst glass. Sugar is weighed for the whole batch, so a slip in its weight
or in the volume reaches every bottle; and beer that gets gas from somewhere else too, from fruit or a cylinder, gets
it twice.

Computed: what fermentation left, at the warmest temperature since it slowed, and what the sugar adds by its
stoichiometry (by the trade's ratio for dry malt extract, 1.3 to 1.5 times table sugar), in the beer that is packaged.
Where that is more than half a volume above what is stated, or nothing is stated, it is held against the bottles'
rating: past it an error, a warning where only the unfavourable end is; in bottles of unknown rating a note above 2.8
volumes, a warning above 3.3, an error above 4.0, and an error above 3.3 already where less was wanted. Otherwise a
difference of half a volume from the stated carbonation is a note, and a warning where it is so at the near end too.
In a keg more than 4 bar at 20 °C is a warning, in a cask more than 2 volumes a note, more than 2.5 a warning. Sugar,
syrup, juice and fruit among the additions whose `when` speaks of packaging count with the priming; what brings sugar
and cannot be reckoned is a warning. Wort counts with what of it ferments, krausen with some two thirds of that unless
its gravity is stated. Fruit in the fermenter or gas on the keg beside priming is a note; bottles filled under pressure
hold that gas too.

On the day: weigh the sugar on a scale, boil it in a little water, and mix it well; measure the volume in the bottling
vessel and not in the recipe. Two equal gravities three days apart come first. The bottles' rating and local code come
before any figure here.

Sources: [troester-priming] [priming-article] [co2-hibberd] [home-brewery-hazards] [common-practice] [judgement]
"""

from collections.abc import Iterator

from mashwright.brewing.carbonation import volumes_from_sugar
from mashwright.rule import (
    Brew,
    Evidence,
    Example,
    Finding,
    Kind,
    Knob,
    Level,
    Limit,
    Path,
    Priming,
    Range,
    Settings,
    Sugar,
    Unknown,
    above,
    another_text,
    at_packaging,
    brings_sugar,
    carbonation,
    differs,
    from_canonical,
    gap,
    gas_of_sugars,
    in_bottles,
    known_fermentable,
    residual_co2,
    row,
    said,
    stress,
    stress_unrated,
    told,
    unknown_sugars,
    words_of,
)


class Limits(Settings):
    """What is compared with."""

    distance_volumes = Limit(0.5, "volumes", low=0.1, high=2, source="judgement")
    bottle_note_volumes = Limit(2.8, "volumes", low=1, high=6, source="common-practice")
    bottle_warning_volumes = Limit(3.3, "volumes", low=1, high=6, source="common-practice")
    bottle_error_volumes = Limit(4.0, "volumes", low=1, high=8, source="common-practice")
    cask_volumes = Limit(2.0, "volumes", low=0.5, high=4, source="common-practice")
    cask_warning_volumes = Limit(2.5, "volumes", low=0.5, high=5, source="judgement")
    keg_bar = Limit(4.0, "bar", low=1, high=10, source="from-memory")


_IDLE_PERCENT = 10.0  # of what dissolves; below it a sugar gives no gas to speak of, judgement
_WITHIN = 0.9  # of the rating, so that what a remedy names does not stand right at it; judgement
_USUAL_VOLUMES = {"keg": 2.4, "cask": 1.3}  # where none is stated; common practice
_IN_FERMENTER = frozenset({
    "primary", "secondary", "fermenter", "fermentor", "ferment", "fermenting", "fermentation", "fermented",
    "condition", "conditioning", "conditioned", "mature", "maturing", "maturation", "rack", "racking", "racked",
})  # fmt: skip


def check(brew: Brew, limits: Limits) -> Iterator[Finding]:
    package = brew.recipe.package
    if package is None or (package.priming is None and not brew.recipe.additions):
        return
    yield from _unknown(brew)
    if package.priming is not None:
        yield from _twice(brew)
        if (idle := _does_not_ferment(package.priming)) is not None:
            yield idle
            return
    try:
        gas, sugars = gas_of_sugars(brew)
    except Unknown:
        return  # what is not said is no fault
    wanted = package.carbonation
    if wanted is None or gas.typical > wanted.range.high + limits.distance_volumes:
        past = _past_the_glass if in_bottles(package) else _past_the_vessel
        findings = list(past(brew, limits, gas))
        if findings:
            yield from findings
            return
    if wanted is None or (package.vessel == "keg" and package.pressure is not None):
        return
    level = differs(gas, wanted.range, limits.distance_volumes)
    if level is not None:
        gives = _volumes(gas.typical, wanted.unit, wanted.range.typical)
        message = f"{_amount(brew)} {_gives(sugars)} about {gives}, not the stated {wanted.text}"
        yield _finding(brew, Level(level - 1), message, wanted.range.typical, gap(gas, wanted.range.typical))


def _unknown(brew: Brew) -> Iterator[Finding]:
    """What surely brings sugar when the beer is packaged, though nobody can say how much."""
    package = brew.recipe.package
    assert package is not None
    for one in unknown_sugars(brew):
        amount = one.weight or one.volume
        name = f"{amount.text} of {one.what}" if amount is not None else one.what
        vessel = "bottles' rating" if in_bottles(package) else "rating of the vessel"
        yield Finding(
            (*one.path, "what"),
            Level.WARNING if in_bottles(package) else Level.NOTE,
            f"{name} brings sugar when the beer is packaged, nobody can say how much, and it makes gas;"
            f" let it ferment out first, and keep to the {vessel}",
            gap=1.0,
        )


def _does_not_ferment(priming: Priming) -> Finding | None:
    entry = known_fermentable(priming.name) if priming.name else None
    if entry is None or entry.fermentable is None or entry.fermentable.high >= _IDLE_PERCENT:
        return None
    message = f"yeast does not ferment {priming.name}, so it gives no gas; table sugar or dextrose does"
    return Finding((*priming.path, priming.group), Level.WARNING, message, gap=1.0)


def _past_the_glass(brew: Brew, limits: Limits, gas: Range) -> Iterator[Finding]:
    package = brew.recipe.package
    assert package is not None
    wanted = package.carbonation
    stated = f", where {wanted.text} are stated" if wanted is not None else ""
    held, gives = stress(gas, package), f"{_amount(brew)} {_gives(gas_of_sugars(brew)[1])} about"
    if held is not None:
        level = above(held.value, held.limit, harm=True)
        if level is not None:
            safe = gas.typical * held.limit / held.value.high
            if not held.in_bar:
                safe = gas.typical - (gas.high - held.limit)
            safe *= _WITHIN
            could = "can" if level is Level.ERROR else "may"
            message = (
                f"{gives} {held.held}{stated}, and {could} burst bottles rated {held.rating};"
                f" keep to the bottles' rating"
            )
            target = wanted.range.typical if wanted is not None else safe
            yield _finding(brew, level, message, min(target, safe), gap(held.value, held.limit))
        return
    steps = (
        (limits.bottle_error_volumes, Level.ERROR),
        (limits.bottle_warning_volumes, Level.WARNING if wanted is None else Level.ERROR),
        (limits.bottle_note_volumes, Level.NOTE if wanted is None else Level.WARNING),
    )
    for limit, level in steps:
        if above(gas, limit, harm=True) is Level.ERROR:
            volumes = _volumes(gas.typical, wanted.unit if wanted is not None else "volumes", limit)
            message = (
                f"{gives} {volumes}{stated}; ordinary bottles hold about 3 volumes, so keep to your bottles' rating"
            )
            target = wanted.range.typical if wanted is not None else limits.bottle_note_volumes - 0.1
            yield _finding(brew, level, message, target, gap(gas, limit))
            return


def _past_the_vessel(brew: Brew, limits: Limits, gas: Range) -> Iterator[Finding]:
    """A keg or a cask: what they usually take, since a recipe states no rating of them."""
    package = brew.recipe.package
    assert package is not None
    held = stress_unrated(gas, package.vessel, limits.keg_bar, limits.cask_volumes)
    if held is None or above(held.value, held.limit) is None:
        return
    if held.in_bar:
        tail = f"more than the {held.rating} that many kegs and lines take; keep to the lowest rating of them"
    else:
        tail = f"and a cask seldom holds more than {held.rating}; vent it with care, and keep to its rating"
    target = package.carbonation.range.typical if package.carbonation is not None else _USUAL_VOLUMES[package.vessel]
    message = f"{_amount(brew)} {_gives(gas_of_sugars(brew)[1])} about {held.held}, {tail}"
    lively = not held.in_bar and above(gas, limits.cask_warning_volumes) is None
    level = Level.NOTE if lively else Level.WARNING
    yield _finding(brew, level, message, target, gap(held.value, held.limit))


def _gives(sugars: tuple[Sugar, ...]) -> str:
    return "gives" if len(sugars) == 1 else "give"


def _amount(brew: Brew) -> str:
    _, sugars = gas_of_sugars(brew)
    package = brew.recipe.package
    amounts = " and ".join(
        f"{sugar.text} of {sugar.name}" if " to each " not in sugar.text else f"{sugar.name}, {sugar.text},"
        for sugar in sugars
    )
    if package is not None and in_bottles(package) and package.pressure is not None and package.at is not None:
        return f"{amounts} on top of what the beer holds under {package.pressure.text} at {package.at.text}"
    return amounts


def _volumes(value: float, unit: str, limit: float) -> str:
    """Carbonation in the recipe's unit, never printed like the limit that it misses."""
    written, past = (from_canonical(one, unit, Kind.CARBONATION) for one in (value, limit))
    return f"{told(written, past)} {unit}"


def _finding(brew: Brew, level: Level, message: str, target_volumes: float, past: float) -> Finding:
    gas, sugars = gas_of_sugars(brew)
    held = residual_co2(brew)
    rows = []
    for sugar in sugars:
        assert sugar.grams_per_l is not None
        rows.append(Evidence(f"{sugar.name} to a litre", sugar.grams_per_l.typical, "g/l", sugar.path))
        rows.append(Evidence("gas from a gram of it", sugar.co2_per_g.typical, "g"))
    return Finding(
        sugars[0].path,
        level,
        message,
        gap=past,
        evidence=(row(held), *rows, row(carbonation(brew), sugars[0].path)),
        related=(("package", "carbonation"), *(sugar.path for sugar in sugars[1:])),
        knobs=_enough(brew, target_volumes, gas, sugars),
    )


def _enough(brew: Brew, target: float, gas: Range, sugars: tuple[Sugar, ...]) -> tuple[Knob, ...]:
    """As much of the first sugar as gives the target, in volumes, beside the others."""
    package = brew.recipe.package
    priming = package.priming if package is not None else None
    first = sugars[0]
    assert first.grams_per_l is not None
    adds = Range.span(volumes_from_sugar, first.grams_per_l, first.co2_per_g).typical
    factor = (target - (gas.typical - adds)) / adds if adds > 0 else 0.0
    if priming is None or factor <= 0:
        return ()
    stated = ("weight", priming.weight), ("volume", priming.volume), ("rate", priming.rate), ("each", priming.each)
    for key, quantity in stated:
        if quantity is not None:
            text = said(quantity.range.typical * factor, quantity.unit, quantity.kind)
            name = priming.name or "priming sugar"
            return (another_text((*priming.path, key), text, f"{text} of {name} instead of {quantity.text}"),)
    return ()


def _twice(brew: Brew) -> Iterator[Finding]:
    """Gas from two sources."""
    package = brew.recipe.package
    assert package is not None
    if package.vessel == "keg" and package.pressure is not None:
        yield Finding(
            ("package", "priming"),
            Level.NOTE,
            f"the keg is primed and set to {package.pressure.text} as well; one of the two gives the gas",
            related=(("package", "pressure"),),
        )
    fruit = next(_sugar_in_the_fermenter(brew), None)
    if fruit is not None and in_bottles(package) and package.gravity is None:
        name, path = fruit
        yield Finding(
            ("package", "priming"),
            Level.NOTE,
            f"the sugar of {name} in the fermenter adds to the priming if it has not all fermented;"
            " wait for two equal gravities three days apart",
            related=(path,),
        )
    if in_bottles(package) and package.pressure is not None and package.at is None:
        yield Finding(
            ("package", "priming"),
            Level.WARNING,
            f"beer bottled under {package.pressure.text} holds gas already, to which the sugar adds;"
            f" keep to the bottles' rating",
            related=(("package", "pressure"),),
        )


def _sugar_in_the_fermenter(brew: Brew) -> Iterator[tuple[str, Path]]:
    """Fruit, and additions that bring sugar late, by their own words."""
    for line in brew.recipe.grist:
        if line.group == "fruit" and line.add in ("", "fermenter"):
            yield line.name, line.path
    packaged = {one.path for one in at_packaging(brew)}
    for one in brew.recipe.additions:
        if one.path not in packaged and not words_of(one.when).isdisjoint(_IN_FERMENTER) and brings_sugar(one.what):
            yield one.what, one.path


SOUND = """\
recipe: Two Piers Pale
by: Saltmarsh Lane Mash Circle
batch: 20 l
grist:
  - {grain: pale ale malt, weight: 4.2 kg}
ferment: [{at: 19 °C, for: 10 d}]
package: {in: bottles, carbonation: 2.3 volumes, priming: {sugar: table sugar, weight: 110 g}}
"""
FAULTY = Example(
    """\
recipe: Two Piers Pale
by: Saltmarsh Lane Mash Circle
batch: 20 l
grist:
  - {grain: pale ale malt, weight: 4.2 kg}
ferment: [{at: 19 °C, for: 10 d}]
package:
  in: bottles
  carbonation: 2.3 volumes
  priming: {sugar: table sugar, weight: 200 g}
""",
    "error",
    10,
    41,
    "200 g of table sugar gives about 3.6 volumes, where 2.3 volumes are stated; ordinary bottles hold about 3 volumes,"
    " so keep to your bottles' rating",
)
