"""Will yeast that splits dextrins go on fermenting in the bottle?

Diastatic yeast (many saison strains), Brettanomyces and enzymes in the fermenter open up what ordinary yeast leaves
behind, slowly and for months. Beer that reads the same for two weeks may still have four points to go, and four points
are two volumes of gas in a bottle that was primed for its own two.

Computed: the stated gravity at packaging, else the final gravity, as apparent attenuation. From 90 % on the beer is as
low as such yeast usually takes it, and nothing is said. Below that it may go on to about 92 %, and to 100 % at the
unfavourable end; what that makes is added to the carbonation and held against the bottles' rating: past it an error,
a warning where only the unfavourable end is, else a note. In bottles of unknown rating it is an error above 4.5
volumes and else a warning. Brettanomyces is never more than a warning. Where no gravity is stated, it is a note. Kegs
are exempt. An enzyme that went into the mash alone is ended by the boil, so it makes a drier beer and does not go on;
where the boil is stated as none, it counts like one in the fermenter.

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
    wort_strength,
)


class Limits(Settings):
    """What is compared with."""

    dry_percent = Limit(90.0, "%", low=75, high=100, source="judgement")
    usual_end_percent = Limit(92.0, "%", low=80, high=105, source="from-memory")
    lowest_end_percent = Limit(100.0, "%", low=85, high=110, source="from-memory")
    bottle_error_volumes = Limit(4.5, "volumes", low=1, high=8, source="common-practice")


def check(brew: Brew, limits: Limits) -> Iterator[Finding]:
    package = brew.recipe.package
    if package is None or not in_bottles(package):
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
            f"{who} goes on fermenting in bottles unless the beer is as dry as it gets, and no final gravity is stated;"
            " take two equal gravities two weeks apart, and keep to the bottles' rating",
            related=(("package",),),
        )
        return
    strength, _ = wort_strength(brew)
    start, at = strength.typical, stated.range.typical
    reached = apparent_attenuation(start, at)
    if at >= start or reached >= limits.dry_percent:
        return
    ends = [final_gravity(start, percent) for percent in (limits.usual_end_percent, limits.lowest_end_percent)]
    left = Range(0.0, *(fermented_volumes(start, at, end) for end in ends))
    yield _finding(
        brew, limits, f"{who} can take {stated.text}, {number(reached, 2)} % attenuation,", where, left, ends, wild
    )


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


def _finding(brew: Brew, limits: Limits, can: str, where: Path, left: Range, ends: list[float], wild: bool) -> Finding:
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
    else:
        level = above(gas, limits.bottle_error_volumes, harm=True)
        asked = f"{number(gas.typical, 2)} volumes in the bottle"
    if level is None:
        level = Level.WARNING if held is None else Level.NOTE
    elif wild:
        level = Level.WARNING
    stated, _ = _gravity(brew)
    assert stated is not None
    low = said(ends[0], stated.unit, Kind.GRAVITY)
    return Finding(
        where,
        level,
        f"{can} down to {low} and lower: about {asked}; let it finish first, and keep to the bottles' rating",
        gap=round(left.typical / 5, 4),
        evidence=(
            Evidence("gas from what can still ferment", left.typical, "volumes", where),
            Evidence("the same if nothing is left", left.high, "volumes", where),
        ),
        related=(("package",),),
        knobs=(another_text(("package", "in"), "keg", "a keg instead of bottles"),) if package.vessel else (),
    )


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
