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
Fruit in the fermenter or gas on the keg beside priming is a note; bottles filled under pressure hold that gas too.

On the day: weigh the sugar on a scale, boil it in a little water, and mix it well; measure the volume in the bottling
vessel and not in the recipe. Two equal gravities three days apart come first. The bottles' rating and local code come
before any figure here.

Sources: [troester-priming] [priming-article] [co2-hibberd] [home-brewery-hazards] [common-practice] [judgement]
"""

from collections.abc import Iterator

from mashwright.rule import (
    Brew,
    Evidence,
    Example,
    Finding,
    Kind,
    Knob,
    Level,
    Limit,
    Priming,
    Range,
    Settings,
    Unknown,
    above,
    another_text,
    carbonation,
    differs,
    from_canonical,
    gap,
    gas_of_sugar,
    in_bottles,
    known_fermentable,
    residual_co2,
    row,
    said,
    stress,
    told,
)


class Limits(Settings):
    """What is compared with."""

    distance_volumes = Limit(0.5, "volumes", low=0.1, high=2, source="judgement")
    bottle_note_volumes = Limit(2.8, "volumes", low=1, high=6, source="common-practice")
    bottle_warning_volumes = Limit(3.3, "volumes", low=1, high=6, source="common-practice")
    bottle_error_volumes = Limit(4.0, "volumes", low=1, high=8, source="common-practice")


_IDLE_PERCENT = 10.0  # of what dissolves; below it a sugar gives no gas to speak of, judgement
_MARGIN_VOLUMES = 0.05  # so that what is weighed in whole grams stays within the rating; judgement


def check(brew: Brew, limits: Limits) -> Iterator[Finding]:
    package = brew.recipe.package
    if package is None or package.priming is None:
        return
    yield from _twice(brew)
    if (idle := _does_not_ferment(package.priming)) is not None:
        yield idle
        return
    try:
        gas, _ = gas_of_sugar(brew)
    except Unknown:
        return  # what is not said is no fault
    wanted = package.carbonation
    if in_bottles(package) and (wanted is None or gas.typical > wanted.range.high + limits.distance_volumes):
        past = list(_past_the_glass(brew, limits, gas))
        if past:
            yield from past
            return
    if wanted is None or (package.vessel == "keg" and package.pressure is not None):
        return
    level = differs(gas, wanted.range, limits.distance_volumes)
    if level is not None:
        gives = _volumes(gas.typical, wanted.unit, wanted.range.typical)
        message = f"{_amount(brew)} gives about {gives}, not the stated {wanted.text}"
        yield _finding(brew, Level(level - 1), message, wanted.range.typical, gap(gas, wanted.range.typical))


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
    held = stress(gas, package)
    if held is not None:
        level = above(held.value, held.limit, harm=True)
        if level is not None:
            safe = gas.typical * held.limit / held.value.high
            if not held.in_bar:
                safe = gas.typical - (gas.high - held.limit) - _MARGIN_VOLUMES
            could = "can" if level is Level.ERROR else "may"
            message = (
                f"{_amount(brew)} gives about {held.held}{stated}, and {could} burst bottles rated {held.rating};"
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
            gives = _volumes(gas.typical, wanted.unit if wanted is not None else "volumes", limit)
            message = (
                f"{_amount(brew)} gives about {gives}{stated};"
                f" ordinary bottles hold about 3 volumes, so keep to your bottles' rating"
            )
            target = wanted.range.typical if wanted is not None else limits.bottle_note_volumes - 0.1
            yield _finding(brew, level, message, target, gap(gas, limit))
            return


def _amount(brew: Brew) -> str:
    _, sugar = gas_of_sugar(brew)
    package = brew.recipe.package
    if package is not None and in_bottles(package) and package.pressure is not None and package.at is not None:
        under = f"{package.pressure.text} at {package.at.text}"
        return f"{sugar.text} of {sugar.name} on top of what the beer holds under {under}"
    return f"{sugar.text} of {sugar.name}" if " to each " not in sugar.text else f"{sugar.name}, {sugar.text},"


def _volumes(value: float, unit: str, limit: float) -> str:
    """Carbonation in the recipe's unit, never printed like the limit that it misses."""
    written, past = (from_canonical(one, unit, Kind.CARBONATION) for one in (value, limit))
    return f"{told(written, past)} {unit}"


def _finding(brew: Brew, level: Level, message: str, target_volumes: float, past: float) -> Finding:
    gas, sugar = gas_of_sugar(brew)
    held = residual_co2(brew)
    grams = sugar.grams_per_l
    assert grams is not None
    return Finding(
        sugar.path,
        level,
        message,
        gap=past,
        evidence=(
            row(held),
            Evidence(f"{sugar.name} to a litre", grams.typical, "g/l", sugar.path),
            Evidence("gas from a gram of it", sugar.co2_per_g.typical, "g"),
            row(carbonation(brew), sugar.path),
        ),
        related=(("package", "carbonation"),),
        knobs=_enough(brew, target_volumes, gas.typical, held.typical),
    )


def _enough(brew: Brew, target: float, gives: float, held: float) -> tuple[Knob, ...]:
    """As much sugar as gives the target, in volumes."""
    package = brew.recipe.package
    priming = package.priming if package is not None else None
    if priming is None or gives <= held or target <= held:
        return ()
    factor = (target - held) / (gives - held)
    for key, stated in (("weight", priming.weight), ("rate", priming.rate), ("each", priming.each)):
        if stated is not None:
            text = said(stated.range.typical * factor, stated.unit, stated.kind)
            name = priming.name or "priming sugar"
            return (another_text((*priming.path, key), text, f"{text} of {name} instead of {stated.text}"),)
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
    fruit = next((line for line in brew.recipe.grist if line.group == "fruit" and line.add in ("", "fermenter")), None)
    if fruit is not None and in_bottles(package) and package.gravity is None:
        yield Finding(
            ("package", "priming"),
            Level.NOTE,
            f"the sugar of {fruit.name} in the fermenter adds to the priming if it has not all fermented;"
            " wait for two equal gravities three days apart",
            related=(fruit.path,),
        )
    if in_bottles(package) and package.pressure is not None and package.at is None:
        yield Finding(
            ("package", "priming"),
            Level.WARNING,
            f"beer bottled under {package.pressure.text} holds gas already, to which the sugar adds;"
            f" keep to the bottles' rating",
            related=(("package", "pressure"),),
        )


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
