"""Will something split dextrins on in the bottle, the keg or the cask?

Diastatic yeast (many saison strains), Brettanomyces, and enzymes that nothing
has ended open up what ordinary yeast leaves behind, slowly and for months. Beer
that reads the same for two weeks may still have four points to go. Four points
are two volumes of gas on top of the priming. A keg that nobody vents tolerates
no more than it was made for.

What is checked: the gravity at packaging, else the final gravity, as apparent
attenuation. Such beer usually ends at 92 %, or where it is now if that is
further. Up to 85 % it may go on to 100 %; from 95 % on nothing is left; between
these, the more has fermented, the less is left. The gas of that is added to the
gas of all other causes. The sum is compared with the vessel's rating, else with
the table of the rule carbonation. Each of several packages is judged by itself.

- error, warning or note: by the vessel's rating or kind
- note: what is left is half a volume or more, and the vessel tolerates it
- note: no gravity is stated, in bottles or cans
- Brettanomyces alone is never more than a warning
- skipped: the gravity is stated and the beer has had half a year

Added enzymes:

- in the mash, the boil ends them: the beer is drier, and does not go on
- in the mash, where the boil is stated as none: as in the fermenter

The malt's own enzymes survive in wort that is not boiled (`boil: {for: 0 min}`,
or "raw ale" or "unboiled" in name, style or notes), where no rest and no stand
was above 78 °C. Such beer usually ends near 95 %.

A misspelt kind counts as the one that it is a slip of.

On the day: give it weeks, warm, and take two equal gravities two weeks apart.
Bottle only in heavy glass; store it boxed and cool. Vent a keg until it is
still. Clean with care: this yeast travels to the next beer. The vessel's rating
and local code come before any figure here.

Sources: [sta1-guide] [sta1-talk] [raw-ale-answer] [brett-wiki]
[balling-nielsen] [home-brewery-hazards] [from-memory] [judgement]
"""

from collections.abc import Iterator

from mashwright.brew import Brew, number
from mashwright.brewing.alcohol import apparent_attenuation, final_gravity
from mashwright.figures.package import SPLITTING, ToCome, gas_of, is_sealed, stress, to_come
from mashwright.knobs import stated_instead
from mashwright.measures import Kind, said
from mashwright.rule import Evidence, Example, Finding, Level, Limit, Settings, of_each_package, say, strained


class Limits(Settings):
    """What is compared with."""

    worth_saying_volumes = Limit(0.5, "volumes", low=0.1, high=2, source="judgement")


SAYS = {
    "goes-on": "{yeast} can ferment from {gravity} ({reached} % attenuation) down to {usual} or lower",
    "goes-on-still": "{yeast} can ferment below {gravity} ({reached} % attenuation)",
    "gas": ": about {gas}",
    "gas-at-most": ": up to {gas}",
    "can-burst": ", which can burst {vessel}",
    "may-burst": ", which may burst {vessel}",
    "is-too-much": ", which is too much for {vessel}",
    "may-be-too-much": ", which may be too much for {vessel}",
    "could-be-too-much": ", which could be too much for {vessel}",
    "bears": ", which the vessel tolerates",
    "finish-first": "let it finish first, and keep to {rating}",
    "no-fg": "{yeast} can go on in the vessel until the beer is fully dry, and no final gravity is stated; take two"
    " equal gravities two weeks apart, and keep to the vessel's rating",
}


def check(brew: Brew, limits: Limits) -> Iterator[Finding]:
    yield from of_each_package(brew, lambda one: _check(one, limits))


def _check(brew: Brew, limits: Limits) -> Iterator[Finding]:
    package = brew.recipe.package
    if not package.known:
        return
    coming = to_come(brew)
    slow = coming.slow
    if slow is None or coming.slow_is_over:
        return
    if not coming.stated.known:
        if is_sealed(package):
            yield Finding(
                slow.path,
                Level.NOTE,
                say("no-fg", yeast=slow.name),
                related=(brew.recipe.package.path,),
            )
        return
    yield from _going_on(brew, limits, coming)


def _going_on(brew: Brew, limits: Limits, coming: ToCome) -> Iterator[Finding]:
    gas, left = gas_of(brew), coming.of(SPLITTING)
    held, alone = stress(brew, gas.total), stress(brew, gas.given)
    slow, stated = coming.slow, coming.stated
    if held is None or alone is None or slow is None or not stated.known or left.high <= 0:
        return
    level = strained(held)
    if level and slow.wild:
        level = min(level, Level.WARNING)
    if (level or 0) <= (strained(alone) or 0):  # the carbonation alone is as bad, and is told of
        level = None if left.typical < limits.worth_saying_volumes else level or Level.NOTE
    if not level:
        return
    reached = apparent_attenuation(coming.start, stated.range.typical)
    usual = said(final_gravity(coming.start, slow.usual_percent), stated.unit, Kind.GRAVITY)
    surely = left.typical > 0
    message = say(
        "goes-on" if reached < slow.usual_percent else "goes-on-still",
        yeast=slow.name,
        gravity=stated,
        reached=number(reached, 2),
        usual=usual,
    ).and_then(
        say("gas" if surely else "gas-at-most", gas=held.held if surely else f"{number(gas.total.high, 2)} volumes"),
        say(held.does(level), vessel=held.bearing.called) if strained(held) else say("bears"),
        say("finish-first", rating=held.rating_of),
    )
    at_packaging = "package" in coming.path
    end = final_gravity(coming.start, slow.usual_percent)
    yield Finding(
        coming.path,
        level,
        message,
        gap=round(left.typical / 5, 4),
        evidence=tuple(Evidence(name, value.typical, "volumes") for name, value in gas.rows),
        related=(brew.recipe.package.path,),
        knobs=(stated_instead(coming.path, stated, end, "package at"),) if at_packaging and left.typical > 0 else (),
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
    "diastatic saison yeast can ferment from 1.012 (78 % attenuation) down to 1.004 or lower: about 7 volumes,"
    " which can"
    " burst bottles rated 4.5 volumes; let it finish first, and keep to the bottles' rating",
)
