"""Can every quantity be read: a number and a unit?

Five of what? A weight without a unit, a decimal comma or a thousands separator can be read in two ways, and a recipe
that is read wrongly is worse than one that is not read. So the number must have a unit that fits the field, and a
point for its decimals; the finding says the exact text to write.

Computed: nothing. Taken are kg, g, lb, oz (also 10 lb 8 oz), l, hl, US and imperial gallons, °C and °F, min, h and d,
SG and °P, °Lintner and °WK, ranges such as 64-66 °C, and archaic measures of old books. Spoons and cups are taken for
salts, sugars, acids and hulls as a wide range, with a note that asks for a weight.

On the day: weigh it. A cup of malt extract is anything.

Sources: units by their definitions; kitchen measures are common practice.
"""

from mashwright.rule import Example

SOUND = """\
recipe: Lane Bitter
batch: 20 l
grist:
  - {grain: pale ale malt, weight: 4.5 kg}
"""

FAULTY = Example(
    """\
recipe: Lane Bitter
batch: 20 l
grist:
  - grain: pale ale malt
    weight: 4,5 kg
""",
    "error",
    5,
    13,
    'the weight "4,5 kg" has a decimal comma; write 4.5 kg',
)
