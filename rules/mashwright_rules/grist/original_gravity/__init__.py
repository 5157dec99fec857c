"""Can the stated original gravity come from this grist, and is it a wort at all?

The laboratory tells how much of a grain can be dissolved. No brewer gets more than all of it, and most get 60 to 81 %
of it into the fermenter (less of a strong wort, since more of it stays in the bigger grain bed). A stated original
gravity (OG, American: starting gravity) outside of that is a slip in the weights, in the volume or in the gravity
itself.

Computed: the extract of each line by mass, in the volume of the batch. All of it gives the highest OG there can be: a
stated one above it is an error, up to two points above it a warning (nothing, where no grain is mashed, since syrups
differ by that much). Where kilograms stand beside gallons, or pounds beside litres, and the other unit would give the
stated OG, that is asked. Where the recipe or the brewhouse states an efficiency, the stated OG is doubted if it is
more than a tenth of its points, and two points at least, away from what that gives. At the recipe's own efficiency,
give or take two points from brew to brew, it is an error if even the favourable end is so far away. Where none is
stated it is doubted only if no efficiency gives it at which published recipes were brewed (48 to 87 %), and a note is
made outside the usual 60 to 81 %. A beer of a parti-gyle (a small beer, first or second runnings) may be as weak as
it likes, since its grist gives another beer too. Where the rests convert less than nine tenths of the starch, what
they set free is counted and no more. Where a mash gives several worts (`worts`), each is judged by its part of the
extract, as the runnings share it out (see wort-balance). A point is allowed for reading. Sugar and fruit that go into
the fermenter may be counted in the stated OG or not. A wort below 1.010 or above 1.160 is asked about, never more than
a warning, since it may be meant; one so far out that a unit must have slipped is left to another question.

On the day: measure the gravity of the run-off (lauter) and its volume before the boil; volume times points is what
you will have in the end, so that there is time to boil longer, or to add malt extract.

Sources: [brix-tables] [nbs-c440] [troester-efficiency] [troester-brewhouse-efficiency] [common-practice] [judgement]
and our own reading of published recipes for the efficiencies
"""

from collections.abc import Iterator

from mashwright.brew import Brew, number
from mashwright.brewing.gravity import points
from mashwright.figures.mash import converted_share, deliveries, highest_og, og
from mashwright.measures import Kind, Quantity, said
from mashwright.rule import Example, Finding, Level, Say, below, row, say
from mashwright_rules.grist.original_gravity._doubt import doubt
from mashwright_rules.grist.original_gravity._efficiencies import at_no_likely_efficiency, surely_another
from mashwright_rules.grist.original_gravity._limits import Limits
from mashwright_rules.grist.original_gravity._sums import mashed_kg, of_the_mash

SAYS = {
    "no-wort": "this grist gives about {og}, which is hardly a wort; are the weights and the batch right?",
    "no-mash-gives-that": "this grist gives about {og}, which is stronger than any wort that comes from a mash; are"
    " the weights and the batch right?",
    "above-all": "this grist cannot give OG {stated}: all of its extract gives only {highest}",
    "probably-above-all": "this grist is unlikely to give OG {stated}: all of its extract gives only {highest}",
    "stated-gives": ", and at the stated efficiency of {share} % about {og}",
    "house-gives": ", and at the brewhouse's efficiency of {share} % about {og}",
    "usual-gives": ", and at a usual efficiency of {share} % about {og}",
    "grist-gives": "this grist gives about {og}, not {stated}",
    "at-stated": "at the stated efficiency of {share} % this grist gives about {og}, not {stated}",
    "at-stated-poorly": "at the stated efficiency of {share} % this grist, converted so"
    " poorly, gives about {og}, not {stated}",
    "at-house-strong": "at the brewhouse's efficiency of {efficiency}, {share} % in a wort this strong, this grist"
    " gives about {og}, not {stated}",
    "at-house": "at the brewhouse's efficiency of {efficiency} this grist gives about {og}, not {stated}",
    "converts-little": "OG {stated} is unlikely from rests that convert so little: a usual {least} to {most} % of what"
    " they release gives {og}",
    "less-than-sugars": "the sugars and extracts alone give more than OG {stated}; with a usual {least} to {most} % of"
    " the mashed extract it would be {og}",
    "asks-for": "OG {stated} needs {share} % of the mashed grain's extract; the usual {least} to {most} % gives {og}",
    "wort-above-all": "this wort cannot have OG {stated}: it has {share} % of the mash's extract, and all of that gives"
    " only {highest}",
    "wort-probably-above-all": "this wort is unlikely to have OG {stated}: it has {share} % of the mash's extract, and"
    " all of that gives only {highest}",
    "wort-gives": "with {share} % of the mash's extract this wort comes to about {og}, not {stated}",
    "wort-usually-gives": "with {share} % of the mash's extract this wort usually comes to {og}, not {stated}",
    "is-it": "did you mean {meant}?",
    "is-it-in": "did you mean {meant}, and {unit} in the other lines too?",
}


def check(brew: Brew, limits: Limits) -> Iterator[Finding]:
    highest = highest_og(brew)
    if not 2 < points(highest.typical) < 500:
        return  # no wort of any kind: a unit has slipped
    stated = brew.recipe.targets.og
    if not stated.known:
        yield from _no_wort(brew, limits)
    elif limits.weakest_points <= points(stated.range.typical) <= 180:
        if level := _past_all(brew, limits, stated):
            surely = surely_another(brew, limits, stated)
            level = Level.ERROR if surely else level
            yield doubt(brew, level, _above_all(brew, stated, level))
        elif 0.1 < brew.efficiency.share.typical <= 1:  # others are no efficiency, which is another question
            doubts = list(at_no_likely_efficiency(brew, limits, stated))
            yield from doubts or _no_wort(brew, limits)


def _no_wort(brew: Brew, limits: Limits) -> Iterator[Finding]:
    given = og(brew)
    for missed, sentence in (
        (points(given.typical) < limits.weakest_points, "no-wort"),
        (points(given.typical) > limits.strongest_points, "no-mash-gives-that"),
    ):
        # where the rests convert next to nothing, that is another question
        if missed and converted_share(brew).typical == 1:
            message = say(sentence, og=said(given.typical, "SG", Kind.GRAVITY))
            yield Finding(
                brew.recipe.grist.path,
                Level.WARNING,
                message,
                evidence=(row(given, brew.recipe.batch.path), row(highest_og(brew), brew.recipe.batch.path)),
            )


def _past_all(brew: Brew, limits: Limits, stated: Quantity) -> Level | None:
    """How surely the stated OG is more than all of the extract gives; a point or two are never an error."""
    highest = highest_og(brew)
    level = below(highest, stated.range.low)
    over = points(stated.range.low) - points(highest.typical)
    if not level or (not mashed_kg(brew) and over < limits.rounding_points + 0.5):
        return None
    surely = points(stated.range.low) - points(highest.high) > limits.rounding_points
    return level if surely else min(level, Level.WARNING)


def _above_all(brew: Brew, stated: Quantity, level: Level) -> Say:
    highest, given = (said(one.typical, stated.unit, Kind.GRAVITY) for one in (highest_og(brew), og(brew)))
    if (share := of_the_mash(brew)) is not None:
        sentence = "wort-above-all" if level is Level.ERROR else "wort-probably-above-all"
        return say(sentence, stated=stated, share=share, highest=highest)
    all_of_it = say("above-all" if level is Level.ERROR else "probably-above-all", stated=stated, highest=highest)
    if not any(one.part.mashed for one in deliveries(brew)):
        return all_of_it
    share = number(100 * brew.efficiency.share.typical, 2)
    house = brew.brewhouse.efficiency
    sentence = "stated-gives" if brew.efficiency.stated else "house-gives" if house else "usual-gives"
    return all_of_it.and_then(say(sentence, share=share, og=given))


SOUND = """\
recipe: Quay Street Pale
by: Saltmarsh Lane Mash Circle
batch: 20 l
grist:
  - {grain: two-row pale malt, weight: 4.2 kg}
  - {grain: caramel malt 40, weight: 300 g}
targets:
  og: 1.050
"""
FAULTY = Example(
    """\
recipe: Quay Street Pale
by: Saltmarsh Lane Mash Circle
batch: 20 l
grist:
  - {grain: two-row pale malt, weight: 4 kg}
targets:
  og: 1.090
""",
    "error",
    7,
    7,
    "this grist cannot give OG 1.090: all of its extract gives only 1.060, and at a usual efficiency of 72 % about"
    " 1.043",
)
