"""Is the lot known, is it of this ingredient, and can its analysis be true?

A lot's certificate of analysis replaces the wide range of the tables with what
was measured on this very sack. So doubts become verdicts. A slip in the lot's
number, or in one of its values, then makes every sum wrong without a sound.

What is checked: each lot that a grist line or a hop names, in brewhouse.yaml.
It must fit the line, the calendar, and what that kind of malt or hop can have.

The lot and its line:

- warning: brewhouse.yaml has other lots, but not this one; those whose number
  is a slip away are offered
- note, not a warning: brewhouse.yaml records no lots at all
- warning: the lot is of another ingredient
- note, not a warning: both are base malts of one cereal and about one colour,
  and both are smoked or neither is
- skipped: what the lot is of, where the line or the brewhouse describes the
  grain itself, or a name is not known; but hops are never grain
- warning: the lot expired before the day of the review, or was analysed after
  it had expired
- note: the lot was analysed on a day to come

Its analysis, once for each lot:

- error: more extract as is than dry, of the same grind
- warning: extract as is more than 1.5 points from what the dry extract gives
  at the stated moisture; coarse grind more than 0.5 points above fine
- warning: extract more than 3 points above or 8 below what such a grain
  gives, as is or dry
- warning: above 20 °Lintner in caramel or roasted malt or unmalted grain;
  more than any malt has (240 °Lintner)
- warning: diastatic power, colour or alpha acid more than 1.6 times past the
  tables' range for it; alpha acid above 25 %
- warning: alpha acid in grain, or diastatic power in hops
- warning: moisture below 1 % in malt, or above 15 % in any grain; or malt
  2 points damper than its kind is sold, which for most malts is up to 6 %
- skipped: alpha acid that the tables know from memory alone

On the day: read the number on the sack, and the values on the maltster's own
sheet. Malt that smells musty or feels soft between the teeth has drawn water,
whatever its sheet says. Throw mouldy grain away.

Sources: [byo-specs] moisture, [noonan-malt-analysis] [oxford-lintner]
[by-definition] [common-practice] [judgement]; what a grain gives and how damp
it is sold, the table of grains
"""

from collections.abc import Iterator
from typing import TYPE_CHECKING

from mashwright.brew import Brew
from mashwright.ingredients.lookup import most_guessed
from mashwright.recipe.brewhouse import Lot
from mashwright.rule import Evidence, Example, Finding, Level, say
from mashwright_rules.grist.lot._analysis import analysis
from mashwright_rules.grist.lot._limits import Fault, Limits
from mashwright_rules.grist.lot._lines import lines_with_lots, of_another
from mashwright_rules.grist.lot._names import not_recorded, other_lots

if TYPE_CHECKING:
    from mashwright.recipe.stated import Stated


SAYS = {
    "not-recorded": "no brewhouse.yaml here records lot {lot}, so the tables' values are used for its analysis",
    "no-such-lot": "brewhouse.yaml has no lot {lot}",
    "did-you-mean-lot": "did you mean {lot}, of {of}",
    "or-lot": " or {lot}, of {of}",
    "asked": "?",
    "has-of-it": "of {name} it has {lots}",
    "has": "it has {lots}",
    "lot": "lot {lot}",
    "and-it": "and it",
    "of-another": " is of {of}, but this line says {name}",
    "analysed-late": " was analysed on {analysed}, after it had expired on {expires}",
    "expired": " expired on {expires}; taste it before weighing, and expect less than its certificate says",
    "to-come": " was analysed on {analysed}, which is in the future",
    "alpha-of-grain": " has {alpha} of alpha acid, which only hops have",
    "power-of-hops": " has {power} of diastatic power, which only malt has",
    "more-alpha-than-any": " has {alpha} of alpha acid, more than any hop",
    "other-alpha": " has {alpha} of alpha acid, but {of} has {usual}",
    "power-of-dark": " has {power} of diastatic power, but {kind} has almost none",
    "is-it-colour": "is it its colour?",
    "more-power-than-any": " has {power} of diastatic power, more than any malt; did you mean {meant}?",
    "other-power": " has {power} of diastatic power, but {of} has {usual}",
    "mouldy": " has {moisture} of moisture; above {most} % grain goes mouldy, and mould can poison",
    "damp": " has {moisture} of moisture, but malt is sold with at most {most} %; this damp it goes slack and mouldy",
    "too-dry": " has {moisture} of moisture, drier than a kiln leaves any malt",
    "other-colour": " has a colour of {colour}, but {of} has {usual}",
    "is-it": "did you mean {meant}?",
    "other-extract": " has {extract} of {grind}-grind extract {how}, but {of} has {usual}",
    "wetter-than-dry": " has {extract} of {grind}-grind extract as is and {dry} dry, which is not possible",
    "does-not-follow": " has {extract} of {grind}-grind extract as is, but {dry} dry at {moisture} of moisture gives"
    " {follows}",
    "coarse-gives-more": " gives more in the coarse grind, {coarse} {how}, than in the fine, {fine}",
}


def check(brew: Brew, limits: Limits) -> Iterator[Finding]:
    told: set[str] = set()
    guesses = most_guessed(len(brew.brewhouse.lots))  # each goes through all lots
    for line in lines_with_lots(brew):
        lot = brew.brewhouse.lots.get(line.lot)
        path = (*line.path, "lot")
        if lot is None:
            guesses -= 1
            yield not_recorded(brew, line, path, limits, guess=guesses >= 0)
            continue
        another = of_another(line, lot, limits)
        faults = [another] if another is not None else []
        if line.lot not in told:
            told.add(line.lot)
            faults += _aged(lot, brew.today)
            faults += analysis(lot, limits, brew.bounds.most_lintner)
        if faults:
            guesses -= another is not None
            first, *others = (said_of_it for _, said_of_it in faults)
            further = [part for one in others for part in (say("and-it"), one)]
            yield Finding(
                path,
                max(level for level, _ in faults),
                say("lot", lot=line.lot).and_then(first, *further),
                gap=1.0,
                evidence=tuple(_rows(lot)),
                knobs=other_lots(brew, line, lot, limits) if another is not None and guesses >= 0 else (),
            )


def _aged(lot: Lot, today: str) -> Iterator[Fault]:
    if lot.analysed and lot.expires and lot.analysed > lot.expires:
        yield Level.WARNING, say("analysed-late", analysed=lot.analysed, expires=lot.expires)
    elif lot.expires and today and lot.expires < today:
        yield Level.WARNING, say("expired", expires=lot.expires)
    elif lot.analysed and today and lot.analysed > today:
        yield Level.NOTE, say("to-come", analysed=lot.analysed)


def _rows(lot: Lot) -> Iterator[Evidence]:
    fields: tuple[tuple[str, Stated], ...] = (
        ("diastatic power", lot.diastatic_power),
        ("moisture", lot.moisture),
        ("extract, fine, dry", lot.extract_fine_dry),
        ("extract, fine, as is", lot.extract_fine_as_is),
        ("extract, coarse, dry", lot.extract_coarse_dry),
        ("extract, coarse, as is", lot.extract_coarse_as_is),
        ("colour", lot.colour),
        ("alpha acid", lot.alpha),
    )
    for label, quantity in fields:
        if quantity.known:
            yield Evidence(f"{lot.of}, {label} by its analysis", quantity.text)


SOUND = """\
recipe: Tollgate Amber
by: Saltmarsh Lane Mash Circle
batch: 20 l
grist:
  - {grain: two-row pale malt, weight: 4 kg, diastatic-power: 112 °Lintner}
  - {grain: caramel malt 40, weight: 300 g, colour: 41 °Lovibond}
"""
FAULTY = Example(
    """\
recipe: Tollgate Amber
by: Saltmarsh Lane Mash Circle
batch: 20 l
grist:
  - {grain: two-row pale malt, weight: 4 kg}
  - {grain: caramel malt 40, weight: 300 g, lot: CM-0491}
""",
    "note",
    6,
    50,
    "no brewhouse.yaml here records lot CM-0491, so the tables' values are used for its analysis",
)
