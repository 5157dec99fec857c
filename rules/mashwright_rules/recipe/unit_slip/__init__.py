"""Has a unit slipped: a number a thousand times off, Fahrenheit for Celsius, enzymes for colour?

Grams written as kilograms, 152 °C where 152 °F was meant, "60 °L" read as the enzymes of a caramel malt: each gives
numbers that no brew day can have, and all the sums after them are worthless. It is the commonest slip when recipes
are typed over.

Computed: weights against the batch (more than 1.2 kg of one thing to a litre, or less than a third of a gram); all
mash water against the grain (below 1 or above 15 l/kg); temperatures against the boil, the frost, what yeast lives in,
and a minus too many (mash and water below 0 °C, everything else below -10); times against the longest rest, boil
and hop stand, the shortest fermentation and ten years in a cellar; a bottle's rating against 13 volumes or 20 bar;
gravities against 1.010 and 1.180; enzymes on caramel or roasted malt, more than any malt has
(240 °Lintner), the colour of a roast on base malt, and a malt's stated colour against what the tables know of that malt
(three times paler or darker, and 10 °Lovibond, or twice as dark where the number is right in EBC; a caramel malt
without its number may have any); a base malt whose power is the number of its colour; shares against a sum of 100 %,
and whether there is an OG to turn them into weights. What cannot be is an error, what can hardly be meant a warning;
where another unit, a shifted decimal point or no minus makes the number an ordinary one, that is offered.

On the day: read the recipe aloud with its units before weighing; liquor (water) hotter than it should be scalds.

Sources: [common-practice] [by-definition] [judgement]
"""

from collections.abc import Iterator

from mashwright.brew import Brew
from mashwright.rule import Example, Finding
from mashwright_rules.recipe.unit_slip._limits import Limits
from mashwright_rules.recipe.unit_slip._malts import malts
from mashwright_rules.recipe.unit_slip._sums import gravities, ratings, shares_of_grist
from mashwright_rules.recipe.unit_slip._temperatures import temperatures
from mashwright_rules.recipe.unit_slip._times import times
from mashwright_rules.recipe.unit_slip._weights import water_of_mash, weights

SAYS = {
    "weights-and-shares": "some lines of the grist have a weight and others a share; use one kind throughout",
    "shares-without-og": "shares need a target OG to become weights; write targets: {{og: ...}}, or weights instead",
    "shares-not-100": "the shares of the grist add up to {total} %, not 100 %",
    "nothing": "{weight} of {name} is nothing; weigh it or leave the line out",
    "no-beer": "a batch of {batch} is not a beer",
    "too-heavy": "{weight} of {name} is {rate} kg to each litre of beer, more than any mash",
    "next-to-nothing": "{weight} of {name} does almost nothing in {batch}",
    "another-batch": "a batch of {batch} would have {rate} kg of grist and sugars to each litre",
    "above-the-boil": "{temperature} is hotter than boiling",
    "no-heat-for-a-mash": "{temperature} is not a mash temperature",
    "ice": "{temperature} is ice, not water",
    "frozen": "{temperature} is below what wort or beer freezes at",
    "hot-grain": "{temperature} is hotter than any grain store",
    "cold-grain": "{temperature} is colder than any grain store",
    "dead-yeast": "{temperature} is hotter than any brewing yeast lives in",
    "gelatinises": "{temperature} is not a temperature at which starch gelatinises",
    "longer-than-a-day": "{step:a} of {time} is longer than a day",
    "longer-than-years": "{step:a} of {time} is longer than {most} years",
    "over-at-once": "{step:a} of {time} is too short to do anything",
    "no-such-bottle": "{rating} is more than any bottle is made for, at most about {most}; read it off the bottle",
    "weak-wort": "a wort of {gravity} is hardly stronger than water",
    "strong-wort": "a wort of {gravity} is stronger than any wort",
    "too-strong-malt": "{power} is more than any malt has, at most {most} °Lintner",
    "too-weak-malt": "{power} is far less than any {name} has",
    "no-enzymes": "{name} has no enzymes, so {power} cannot be its diastatic power",
    "dark-malt": "{colour} is the colour of a dark malt, not of {name}",
    "darker": "{colour} is much darker than {name} is, {usual}",
    "paler": "{colour} is much paler than {name} is, {usual}",
    "no-mash": "{water} of mash water is not a mash",
    "too-little-water": "{water} of mash water is {thickness}, too little to wet the grain",
    "too-much-water": "{water} of mash water is {thickness}, far too thin for a mash",
    "too-thick": "a mash of {thickness} is too little to wet the grain",
    "too-thin": "a mash of {thickness} is far too thin for a mash",
    "is-it": "did you mean {meant}?",
    "is-it-in-fahrenheit": "did you mean {meant} ({celsius})?",
    "is-it-in-wk": "did you mean {meant} (about {lintner} °Lintner)?",
    "is-it-its-colour": "is {meant} its colour?",
    "is-it-its-power": "is {meant} its diastatic power?",
    "did-you-mean-its-colour": "did you mean its colour, {meant}?",
}


def check(brew: Brew, limits: Limits) -> Iterator[Finding]:
    yield from shares_of_grist(brew, limits)
    yield from weights(brew, limits)
    yield from temperatures(brew, limits)
    yield from times(brew, limits)
    yield from ratings(brew, limits)
    yield from gravities(brew, limits)
    yield from malts(brew, limits)
    yield from water_of_mash(brew, limits)


SOUND = """\
recipe: Ferry Stage Amber
by: Saltmarsh Lane Mash Circle
batch: 20 l
grist:
  - {grain: two-row pale malt, weight: 4 kg}
  - {grain: caramel malt 60, weight: 400 g}
mash:
  rests:
    - {at: 66 °C, for: 60 min}
"""
FAULTY = Example(
    """\
recipe: Ferry Stage Amber
by: Saltmarsh Lane Mash Circle
batch: 20 l
grist:
  - {grain: two-row pale malt, weight: 4 kg}
  - {grain: caramel malt 60, weight: 400 g, diastatic-power: 60 °Lintner}
mash:
  rests:
    - {at: 66 °C, for: 60 min}
""",
    "warning",
    6,
    62,
    "caramel malt 60 has no enzymes, so 60 °Lintner cannot be its diastatic power; is 60 °Lovibond its colour?",
)
