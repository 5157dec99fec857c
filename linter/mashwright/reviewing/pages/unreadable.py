"""Can this file be read at all?

A recipe is YAML text in UTF-8: a field, a colon, a blank, a value; what belongs together stands under each other with
the same number of blanks in front. Where that is broken nothing below it can be trusted, so this is said before
anything else.

Found: bytes that are not UTF-8, control characters, tabs in front of a line, brackets and quotes that are not closed, a
value that starts with a sign which YAML keeps for itself, a second document in one file, a field that stands twice,
tags, copied fields (<<), a name of a field that is no text, numbers that are none, lists nested past all need, a file
above 1 MiB or one that cannot be opened. Also what is longer than is read: a name or a quantity of more than 200
characters, a list of more than 500 lines; and of more than 200 findings in one file, how many are not told.

On the day: nothing; mend the text first. What can be read past is read past, so that the rest is still reviewed.

Sources: YAML as in [yaml-1-2-2]; the bounds on size and nesting are our own judgement.
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
  - {grain: pale ale malt, weight: 4 kg
""",
    "error",
    4,
    5,
    "the { that starts here is not closed, or lacks a comma; add } at its end",
)
