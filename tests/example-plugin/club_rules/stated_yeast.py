"""Does the recipe say which yeast it wants, and how much?

Whoever brews from the circle's book should not have to guess. "Ale yeast" on the shelf is three different yeasts, and
a pinch of it is not a pitch.

What is checked:

- a warning: no yeast is stated with its kind, or none with its pitch
- a note: the pitch is less than the circle has ever used

On the day: weigh the yeast, and write the packet's date into the book.

Sources: [common-practice]
"""

from collections.abc import Iterator

from mashwright.brew import Brew
from mashwright.measures import Kind, said
from mashwright.rule import Example, Finding, Level, Limit, Settings, say


class Limits(Settings):
    """What is compared with."""

    least_g_per_l = Limit(0.3, "g/l", low=0.05, high=3, source="common-practice")


SAYS = {
    "no-yeast": "no yeast is stated; the circle writes down which, and how much",
    "no-pitch": "{yeast} is stated without its pitch; the circle writes down how much",
    "thin-pitch": "{pitch} of {yeast} is less than the circle pitches, {least} for this batch",
}

SOUND = """\
recipe: Circle Pale
batch: 20 l
grist:
  - {grain: pale ale malt, weight: 4.2 kg}
yeast: {kind: English ale, pitch: 11 g}
"""

FAULTY = Example(
    """\
recipe: Circle Pale
batch: 20 l
grist:
  - {grain: pale ale malt, weight: 4.2 kg}
yeast: {kind: English ale}
""",
    "warning",
    5,
    1,
    "English ale is stated without its pitch; the circle writes down how much",
)


def check(brew: Brew, limits: Limits) -> Iterator[Finding]:
    if not brew.recipe.yeast:
        yield Finding(brew.recipe.yeast.path, Level.WARNING, say("no-yeast"))
    for yeast in brew.recipe.yeast:
        if not yeast.pitch.known:
            yield Finding(yeast.path, Level.WARNING, say("no-pitch", yeast=yeast.kind))
        elif yeast.pitch.kind is Kind.MASS and (batch := brew.recipe.batch.stated).known:
            litres = batch.range.typical
            least_kg = limits.least_g_per_l * litres / 1000
            if yeast.pitch.range.high < least_kg:
                least = said(least_kg, yeast.pitch.unit, Kind.MASS)
                message = say("thin-pitch", pitch=yeast.pitch, yeast=yeast.kind, least=least)
                yield Finding(yeast.pitch.path, Level.NOTE, message)
