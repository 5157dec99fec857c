"""Can the stated original gravity come from this grist, and is it a wort at all?

The laboratory says how much of a grain can be dissolved. No brewer gets more
than all of it. Most get 60 to 81 % of it into the fermenter, less of a strong
wort, since more stays in the bigger grain bed. A stated original gravity (OG,
American: starting gravity) outside that is a slip in the weights, the volume or
the gravity.

What is checked: the extract of each line by mass, in the volume of the batch.
Where the rests convert less than 90 % of the starch, only what they release
counts. Sugar and fruit in the fermenter may be counted in the stated OG or not.
Where a mash gives several worts, each is judged by its part of the extract, as
the runnings share it out (see wort-balance), and never more than a warning,
since no sum knows how well each water was mixed.

Against all of the extract, which gives the highest OG there can be:

- error: a stated OG more than 2 points above the best case
- warning: any other stated OG above it
- skipped: up to 2.5 points above, where no grain is mashed, since syrups
  differ by that much

Against the efficiency, where the stated OG is more than 10 % of its points, and
at least 2 points, from what the grist gives:

- error: so far even at the favourable end of the recipe's own efficiency,
  give or take 2 points from brew to brew; never where the rests convert
  little
- warning: outside what the recipe's efficiency gives, or the brewhouse's give
  or take 6 points, or a grist that is not mashed
- warning, where no efficiency is stated: none from 48 to 87 % gives it, at
  which published recipes were brewed
- note, where none is stated: none of the usual 60 to 81 % gives it
- allowed: 1 point of gravity for reading; above 1.060 the bounds (not the
  87 %) are 0.25 points lower for each point of gravity, 40 at most
- skipped: an OG too low for a parti-gyle (a small beer, first or second
  runnings), since its grist gives another beer too

Beyond these:

- warning: the grist gives a wort below 1.010 or above 1.160; never more,
  since it may be on purpose
- also asked of a doubted OG: kilograms beside gallons, or pounds beside
  litres, if the other unit comes within 15 % of its points
- skipped: a stated OG below 1.010 or above 1.180, or a grist whose extract
  gives at most 2 points or at least 500 (see unit-slip); an efficiency of at
  most 10 % or above 100 % (see efficiency); a wort of rests that convert too
  little

On the day: measure the gravity and the volume of the run-off before the boil.
Volume times points is what you will have in the end. There is still time to
boil longer or to add malt extract.

Sources: [brix-tables] [nbs-c440] [troester-efficiency]
[troester-brewhouse-efficiency] [common-practice] [judgement] and our own
reading of published recipes for the efficiencies
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
    "wort-above-all": "this wort is unlikely to have OG {stated}: it has {share} % of the mash's extract, and"
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
        return say("wort-above-all", stated=stated, share=share, highest=highest)
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
