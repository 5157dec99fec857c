"""Does every field have a name that a recipe knows, and the kind of value that belongs there?

A misspelt field would be passed over in silence, and a recipe with half its grist unread would look sound. So an
unknown field is an error, with the nearest known one named; so is a field that lacks, a list where one thing belongs,
a word where one of a few must stand.

Computed: nothing; the recipe is held against the published schema of the format (JSON Schema 2020-12), which editors
can use too to complete and check while you type.

On the day: nothing; mend the text first. Figures that need the missing value are unknown, and no rule speaks on them.

Sources: the format is our own.
"""

from mashwright.rule import Example

SOUND = """\
recipe: Lane Bitter
batch: 20 l
grist:
  - {grain: pale ale malt, weight: 4 kg}
"""

FAULTY = Example(
    """\
recipe: Lane Bitter
batch: 20 l
grist:
  - {grain: pale ale malt, wieght: 4 kg}
""",
    "error",
    4,
    28,
    "`wieght` is not known here; did you mean `weight`?",
)
