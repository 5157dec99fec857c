"""Is there more acidulated malt than a beer that is not meant sour carries?

Acidulated malt contains lactic acid. A few per cent of the grist bring the mash
to its best pH where the water is alkaline. More can be tasted, and much of it
takes the mash below the pH at which its enzymes work well. Sour beer is made
that way on purpose.

What is checked: acidulated malt as a share of all grain and malt extract,
without hulls. Each per cent lowers the pH of the mash by about 0.1, up to 10 %.

- warning: above 10 %; is a sour beer meant?
- note: above 5 %
- note, not a warning: style, name, notes or a souring culture say sour; or
  all of the acidulated malt goes in when the mash is done

On the day: mash in, wait 10 min, cool a sample and measure its pH: 5.2 to 5.6.
Taste the wort.

Sources: [oxford-acidulated] 0.1 pH a per cent and up to 10 %,
[encyc-malt-types] 2-4 %, [common-practice] 1-5 %
"""

from collections.abc import Iterator

from mashwright.brew import Brew, Part, number, told
from mashwright.figures.grist import acidulated_share
from mashwright.ingredients.kinds import IngredientKind, Place
from mashwright.knobs import Knob, less_of
from mashwright.rule import Example, Finding, Level, Limit, Settings, above, gap, rows_of, say


class Limits(Settings):
    usual_percent = Limit(5, "% of grist", low=0, high=90, source="common-practice")
    most_percent = Limit(10, "% of grist", low=0, high=100, source="oxford-acidulated")


SOUND = """\
recipe: Saltpan Helles
by: Saltmarsh Lane Mash Circle
batch: 20 l
grist:
  - {grain: Pilsner malt, weight: 4.4 kg}
  - {grain: acidulated malt, weight: 130 g}
"""

FAULTY = Example(
    """\
recipe: Saltpan Helles
by: Saltmarsh Lane Mash Circle
batch: 20 l
grist:
  - {grain: Pilsner malt, weight: 4.4 kg}
  - {grain: acidulated malt, weight: 600 g}
""",
    "warning",
    6,
    6,
    "12 % of the grist is acidulated malt, which lowers mash pH by more than 1; is a sour beer meant?",
)


RULE_HOLDS_TO_PERCENT = 10  # a tenth of a pH for each per cent, up to there [oxford-acidulated]


SAYS = {
    "much": "{share} % of the grist is {malt}, which lowers mash pH by about {fall}",
    "very-much": "{share} % of the grist is {malt}, which lowers mash pH by more than {fall}",
    "is-it-sour": "is a sour beer meant?",
    "usual": "{usual} % is usual at most",
}


def check(brew: Brew, limits: Limits) -> Iterator[Finding]:
    share = acidulated_share(brew)
    much = bool(above(share, limits.most_percent))
    limit = limits.most_percent if much else limits.usual_percent
    if not above(share, limit):
        return
    parts = [part for part in brew.grist() if part.kind == IngredientKind.ACIDULATED_MALT]
    largest = max(parts, key=lambda part: part.amount)
    all_of_it = sum(part.amount for part in parts)
    late = all(part.place == Place.LATE_MASH for part in parts)
    level = Level.WARNING if much and not late and not brew.intent.sour else Level.NOTE
    most = min(share.typical, RULE_HOLDS_TO_PERCENT)
    sentence = "much" if most == share.typical else "very-much"
    message = say(sentence, share=told(share.typical, limit), malt=largest.name, fall=number(0.1 * most, 2))
    asked = say("is-it-sour") if level is Level.WARNING else say("usual", usual=number(limits.usual_percent))
    yield Finding(
        largest.path,
        level,
        message.and_then(asked),
        gap=gap(share, limit),
        evidence=rows_of(parts, lambda part: share.typical * part.amount / all_of_it, "% of grist"),
        knobs=(_less(brew, largest, limits),) if level > Level.NOTE else (),
    )


def _less(brew: Brew, largest: Part, limits: Limits) -> Knob:
    """As much less as brings the share to the usual one."""
    share = acidulated_share(brew).typical
    all_of_it = sum(part.amount for part in brew.grist() if part.kind == IngredientKind.ACIDULATED_MALT)
    usual = limits.usual_percent / (100 - limits.usual_percent) * all_of_it * (100 / share - 1)
    return less_of(largest, first_kg=max(0.0, usual - (all_of_it - largest.amount)))
