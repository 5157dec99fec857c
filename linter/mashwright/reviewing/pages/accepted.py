"""Does every acceptance still have something to accept?

A brewer may know better than a rule: accepted: with the rule and the reason keeps its findings from failing a review,
and until: with a date brings them back. Left behind after the finding is gone, an acceptance would hide the next one,
so one that accepts nothing, has ended, or names no rule is a finding itself.

Computed: an acceptance covers every finding of its rule in its recipe, or with in: (in brewhouse.yaml) in the recipes
that match. It holds up to and with the day of until:.

On the day: nothing.

Sources: suppressions with their justification as in [sarif-2.1.0].
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
  - {grain: pale ale malt, weight: 4 kg}
accepted:
  - {rule: run-off, reason: it always ran off well}
""",
    "warning",
    6,
    12,
    "run-off finds nothing here now; delete this entry",
)
