"""Will yeast that splits dextrins go on fermenting in the bottle?

Diastatic yeast (many saison strains), Brettanomyces and enzymes in the fermenter open up what ordinary yeast leaves
behind, slowly and for months. Beer that reads the same for two weeks may still have four points to go, and four points
are two volumes of gas in a bottle that was primed for its own two.

Computed: the stated gravity at packaging, else the final gravity, as apparent attenuation. It may go on to about 92
%, and at the unfavourable end to 100 % from 85 %, the less far the drier it is, and no further from 96 % on. What
that makes is added to the carbonation and held against the bottles' rating: past it an error, a warning where only
the unfavourable end is, else a note. In bottles of unknown rating it is an error above 4.5 volumes and else a
warning. In a keg above 4 bar at 20 °C, or a cask above 2.5 volumes, it is a warning that asks to vent it, else a
note. What stays below all of that from 90 % on draws nothing. Brettanomyces is never more than a warning. Where no
gravity is stated, it is a note. An enzyme that went into the mash alone is ended by the boil, so it makes a drier
beer and does not go on; where the boil is stated as none, it counts like one in the fermenter.

On the day: give it weeks, warm, and take two equal gravities two weeks apart; bottle only in heavy glass, store it
boxed and cool. Clean with care: this yeast travels to the next beer. The bottles' rating and local code come before
any figure here.

Sources: [sta1-guide] [brett-wiki] [balling-nielsen] [home-brewery-hazards] [from-memory] [judgement]
"""

from collections.abc import Iterator

from mashwright.brewing.alcohol import apparent_attenuation, final_gravity
from mashwright.brewing.carbonation import fermented_volumes
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
    Quantity,
    Range,
    Settings,
    Unknown,
    above,
    another_text,
    carbonation,
    in_bottles,
    known_yeast,
    number,
    residual_co2,
    said,
    still_splitting,
    stress,
    stress_unrated,
    wort_strength,
)


class Limits(Settings):
    """What is compared with."""

    dry_percent = Limit(90.0, "%", low=75, high=100, source="judgement")
    usual_end_percent = Limit(92.0, "%", low=80, high=105, source="from-memory")
    lowest_end_percent = Limit(100.0, "%", low=85, high=110, source="from-memory")
    bottle_error_volumes = Limit(4.5, "volumes", low=1, high=8, source="common-practice")
    keg_pressure_bar = Limit(4.0, "bar", low=1, high=10, source="from-memory")
    cask_volumes = Limit(2.5, "volumes", low=0.5, high=5, source="judgement")
    settled_percent = Limit(96.0, "%", low=85, high=110, source="judgement")


def check(brew: Brew, limits: Limits) -> Iterator[Finding]:
    package = brew.recipe.package
    if package is None or not (in_bottles(package) or package.vessel in ("keg", "cask")):
        return
    who, path, wild = _who(brew)
    if not who:
        return
    stated, where = _gravity(brew)
    if stated is None and {("package", "gravity"), ("targets", "fg")} & brew.recipe.unreadable:
        return
    if stated is None:
        yield Finding(
            path,
            Level.NOTE,
            f"{who} goes on fermenting in {_where(brew)} unless the beer is fully dry, and no final gravity is stated;"
            f" take two equal gravities two weeks apart, and keep to {_whose(brew)} rating",
            related=(("package",),),
        )
        return
    strength, _ = wort_strength(brew)
    start, at = strength.typical, stated.range.typical
    reached = apparent_attenuation(start, at)
    if at >= start or reached >= limits.settled_percent:
        return
    usual, lowest = _ends(reached, limits)
    ends = [final_gravity(start, percent) for percent in (usual, lowest)]
    left = Range(0.0, *(fermented_volumes(start, at, end) for end in ends))
    found = _finding(
        brew, limits, f"{who} can take {stated.text}, {number(reached, 2)} % attenuation,", where, left, ends, wild
    )
    if found is not None:
        yield found


def _ends(reached: float, limits: Limits) -> tuple[float, float]:
    """Where such a beer usually ends and at the lowest, %: the drier it is, the less far it still goes."""
    usual = max(reached, limits.usual_end_percent)
    near = min(1.0, max(0.0, (limits.settled_percent - reached) / (limits.settled_percent - _STILL_SWEET_PERCENT)))
    return usual, max(usual, reached + (limits.lowest_end_percent - reached) * near)


_STILL_SWEET_PERCENT = 85.0  # up to here it may still go all the way; judgement


def _where(brew: Brew) -> str:
    package = brew.recipe.package
    return "bottles" if package is None or in_bottles(package) else f"the {package.vessel}"


def _whose(brew: Brew) -> str:
    package = brew.recipe.package
    return "the bottles'" if package is None or in_bottles(package) else f"the {package.vessel}'s"


def _who(brew: Brew) -> tuple[str, Path, bool]:
    """What splits dextrins, where it stands, and whether it is only Brettanomyces."""
    if (splitter := still_splitting(brew)) is not None:
        return splitter.name, splitter.path, False
    for yeast in brew.recipe.yeast:
        known = known_yeast(yeast.kind) if yeast.kind else None
        if known is not None and known.species.startswith("Brettanomyces"):
            return yeast.kind, (*yeast.path, "kind"), True
    return "", (), False


def _gravity(brew: Brew) -> tuple[Quantity | None, Path]:
    package = brew.recipe.package
    if package is not None and package.gravity is not None:
        return package.gravity, ("package", "gravity")
    return brew.recipe.targets.fg, ("targets", "fg")


def _finding(
    brew: Brew, limits: Limits, can: str, where: Path, left: Range, ends: list[float], wild: bool
) -> Finding | None:
    package = brew.recipe.package
    assert package is not None
    try:
        given = carbonation(brew).range
    except Unknown:
        given = residual_co2(brew).range
    gas = Range(given.low, given.typical + left.typical, given.high + left.high)
    held = stress(gas, package)
    if held is not None:
        level = above(held.value, held.limit, harm=True)
        asked = f"{held.held} in bottles rated {held.rating}"
    elif not in_bottles(package):
        vented = stress_unrated(gas, package.vessel, limits.keg_pressure_bar, limits.cask_volumes)
        assert vented is not None
        past = above(vented.value, vented.limit, harm=True)
        level = Level.WARNING if past is not None else None
        asked = f"{vented.held} in a {package.vessel} of at most {vented.rating}, unless it is vented"
    else:
        level = above(gas, limits.bottle_error_volumes, harm=True)
        asked = f"{number(gas.typical, 2)} volumes in the bottle"
    stated, _ = _gravity(brew)
    assert stated is not None
    if level is None:
        if apparent_attenuation(wort_strength(brew)[0].typical, stated.range.typical) >= limits.dry_percent:
            return None
        level = Level.WARNING if held is None and in_bottles(package) else Level.NOTE
    elif wild:
        level = Level.WARNING
    low = said(ends[0], stated.unit, Kind.GRAVITY)
    return Finding(
        where,
        level,
        f"{can} down to {low} and lower: about {asked}; let it finish first, and keep to {_whose(brew)} rating",
        gap=round(left.typical / 5, 4),
        evidence=(
            Evidence("gas from what can still ferment", left.typical, "volumes", where),
            Evidence("the same if nothing is left", left.high, "volumes", where),
        ),
        related=(("package",),),
        knobs=(another_text(("package", "in"), "keg", "a keg instead of bottles"),)
        if package.vessel == "bottles"
        else (),
    )


def _knobs(vessel: str) -> tuple[Knob, ...]:
    return (another_text(("package", "in"), "keg", "a keg instead of bottles"),) if vessel == "bottles" else ()


SOUND = """\
recipe: Hayloft Saison
by: Saltmarsh Lane Mash Circle
batch: 20 l
grist:
  - {grain: Pilsner malt, weight: 4.6 kg}
mash:
  rests: [{at: 64 °C, for: 90 min}]
yeast: {kind: saison}
package: {in: bottles, carbonation: 2.8 volumes, bottle-rating: 4.5 volumes}
targets: {og: 1.054, fg: 1.003}
"""
FAULTY = Example(
    """\
recipe: Hayloft Saison
by: Saltmarsh Lane Mash Circle
batch: 20 l
grist:
  - {grain: Pilsner malt, weight: 4.6 kg}
mash:
  rests: [{at: 64 °C, for: 90 min}]
yeast: {kind: saison}
package: {in: bottles, carbonation: 2.8 volumes, bottle-rating: 4.5 volumes, gravity: 1.012}
targets: {og: 1.054, fg: 1.004}
""",
    "error",
    9,
    87,
    "diastatic saison yeast can take 1.012, 78 % attenuation, down to 1.004 and lower: about 6.8 volumes in bottles"
    " rated 4.5 volumes; let it finish first, and keep to the bottles' rating",
)
