"""Has a unit slipped, or a sign, or a decimal point?

Grams written as kilograms, 152 °C where 152 °F was meant, "60 °L" read as the
enzymes of a caramel malt: no brew day has such numbers. All sums after them are
worthless. It is the commonest slip when recipes are typed over.

What is checked: each number against what can be (an error beyond it) and
against what is hardly meant (a warning). Another unit, a shifted decimal point
or no minus is offered where it gives an ordinary number.

Weights and volumes:

- error: more than 1.2 kg of one ingredient to a litre of beer
- warning: less than 0.3 g/l of one ingredient (not fruit), where another unit
  gives an ordinary weight; an error if the whole grist is below 3 g/l
- warning: a weight of 0
- error: a batch of 0; or, by its grist, of another size: below 1 l with too
  much of one ingredient, or at least 200 l with less than 3 g/l in all
- error: all mash water is 0, below 0.5 or above 30 l/kg of grain
- warning: all mash water is below 1 or above 15 l/kg of grain

Temperatures:

- error: above 100.5 °C in mash, steep, sparge, hops, package or a brew day
- error: below 0 °C in mash, steep or sparge, or as a heat for gelatinising
- error: above 50 °C for yeast or fermentation
- warning: below -10 °C anywhere else; stored grain above 60 °C; gelatinising
  above 100.5 °C
- warning: a rest or strike water below 30 °C where no rest is warmer, or
  fermentation below -2.5 °C; only if the other unit makes it usual

Times, gravities, ratings:

- warning: more than 24 h of a rest above 50 °C, a boil, a hop addition or a
  hop stand
- warning: a fermentation step (up to 50 °C) or dry hopping below 1 h; any
  above 10 years
- error: OG, pre-boil gravity or first-wort gravity above 1.180
- warning: one of these below 1.010
- error: a bottle's rating above 13 volumes or 20 bar

Malts, and shares of the grist:

- error: more enzymes than any malt has (240 °Lintner)
- warning: above 5 °Lintner on caramel or roasted malt
- warning: base malt above 30 °Lovibond, the colour of a roast
- warning: base malt whose power is a quarter of its kind's least or below,
  and is the number of its colour
- warning: a colour 3 times and 10 °Lovibond darker or paler than the tables'
  for that malt; or 1.4 times and 50 °Lovibond darker, where the number is
  right in EBC
- skipped: the colour of a caramel malt without a number in its name
- warning: shares that do not add up to 98 to 102 %, that stand beside
  weights, or that have no OG to turn them into weights

On the day: read the recipe aloud with its units before weighing. Water hotter
than it should be scalds.

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
