"""Where does the beer leave the published ranges of its stated style?

Two bodies publish style guidelines: the judges' programme and the brewers'
trade association. Both revise them every few years. A beer outside a range is
not wrong, only harder to sell, or to judge, under that name.

What is checked: original and final gravity, alcohol, bitterness and colour, as
stated. What is not stated is worked out.

- note, never more: all of a value, even its near end, is outside the style's
  range in every edition that is known of it
- allowed for rounding: 0.5 points of gravity, 0.05 % vol, 0.5 IBU, 0.5 SRM
- no upper end: a colour range that goes up to 40 SRM, where beer is black
- skipped: a style that is not found, or that could be several

On the day: brew the beer that you like, and name it afterwards.

Sources: [judge-2021-text] [judge-2015-csv] [trade-2026] [from-memory] (black
from 40 SRM), and those behind the table of styles
"""

from collections.abc import Iterator
from math import inf
from typing import TYPE_CHECKING, NamedTuple

from mashwright.brew import Brew
from mashwright.figures.beer import abv, colour, fg
from mashwright.figures.kettle import bitterness
from mashwright.figures.mash import og
from mashwright.ingredients.lookup import style as known_style
from mashwright.knobs import as_written
from mashwright.measures import Kind, Range, said
from mashwright.recipe.stated import Stated
from mashwright.rule import Evidence, Example, Finding, Level, Limit, Path, Settings, Unknown, above, below, say

if TYPE_CHECKING:
    from collections.abc import Callable

    from mashwright.figures.figure import Figure


class Limits(Settings):
    """How far outside still counts as inside: what rounding does."""

    gravity_points = Limit(0.5, "points", difference=True, low=0, high=10, source="judgement")
    alcohol_percent = Limit(0.05, "% vol", low=0, high=1, source="judgement")
    bitterness_ibu = Limit(0.5, "IBU", low=0, high=10, source="judgement")
    colour_srm = Limit(0.5, "SRM", difference=True, low=0, high=10, source="judgement")
    black_srm = Limit(40, "SRM", low=30, high=100, source="from-memory")


class _Measure(NamedTuple):
    """One of the five figures of a style.

    Attributes:
        key: in the table of styles.
        field: in the recipe's targets.
        stated: what the recipe says, or None.
        endless: an upper end from which there is none.
    """

    key: str
    field: str
    word: str
    stated: Stated
    figured: "Callable[[Brew], Figure]"
    unit: str
    kind: Kind
    allowed: float
    endless: float = inf


SAYS = {
    "below": "{what} {value} is below the {band} of {style} ({edition})",
    "below-and-others": "{what} {value} is below the {band} of {style} ({edition}; outside that of {others} too)",
    "below-open": "{what} {value} is below the {band} or more of {style} ({edition})",
    "below-and-others-open": "{what} {value} is below the {band} or more of"
    " {style} ({edition}; outside that of {others} too)",
    "above": "{what} {value} is above the {band} of {style} ({edition})",
    "above-and-others": "{what} {value} is above the {band} of {style} ({edition}; outside that of {others} too)",
}

_SENTENCES = {
    "below": ("below", "below-and-others", "below-open", "below-and-others-open"),
    "above": ("above", "above-and-others"),
}


def check(brew: Brew, limits: Limits) -> Iterator[Finding]:
    if not brew.recipe.style or not (style := known_style(brew.recipe.style)):
        return
    for measure in _measures(brew, limits):
        editions = [(style.edition, getattr(style, measure.key))]
        editions += [(other.edition, one) for other in style.others for key, one in other.bounds if key == measure.key]
        bounds = {edition: _ends(one.low, one.high, measure.endless) for edition, one in editions}
        value = _value(brew, measure)
        if value is None or any(_side(value, *ends, measure.allowed) is None for ends in bounds.values()):
            continue
        edition, (low, high) = next(iter(bounds.items()))
        side = _side(value, low, high, measure.allowed) or "above"
        unit = measure.stated.unit if measure.stated.known else measure.unit
        band = said(Range(low, low, high or low), unit, measure.kind)
        here = measure.stated.text if measure.stated.known else f"about {said(value.typical, unit, measure.kind)}"
        others = " and of ".join(list(bounds)[1:])
        upward = "" if high is not None else " and more"
        path: Path = brew.recipe.style.path
        if measure.stated.known:
            path = as_written(brew, (*brew.recipe.targets.path, measure.field))
        yield Finding(
            path,
            Level.NOTE,
            say(
                _SENTENCES[side][bool(others) + 2 * bool(upward)],
                what=measure.word,
                value=here,
                band=band,
                style=style.name,
                edition=edition,
                others=others,
            ),
            evidence=(Evidence(f"{style.name}, {edition}", f"{band}{upward}", "", brew.recipe.style.path),),
            related=(brew.recipe.style.path,),
        )


def _ends(low: float, high: float | None, endless: float) -> tuple[float, float | None]:
    """The ends of a range, the upper one None where it is one from which there is none."""
    return low, high if high is not None and high < endless else None


def _value(brew: Brew, measure: _Measure) -> Range | None:
    """As stated, else as figured; None where it is not known."""
    if measure.stated.known:
        return measure.stated.range
    if measure.stated.mentioned:
        return None
    try:
        return measure.figured(brew).range
    except Unknown:
        return None


def _side(value: Range, low: float, high: float | None, allowed: float) -> str | None:
    """On which side of a range all of a value lies, or None."""
    if below(value, low - allowed) is Level.ERROR:
        return "below"
    return "above" if high is not None and above(value, high + allowed) is Level.ERROR else None


def _measures(brew: Brew, limits: Limits) -> tuple[_Measure, ...]:
    stated = brew.recipe.targets
    sg = limits.gravity_points / 1000
    return (
        _Measure("og", "og", "OG", stated.og, og, "SG", Kind.GRAVITY, sg),
        _Measure("fg", "fg", "FG", stated.fg, fg, "SG", Kind.GRAVITY, sg),
        _Measure("abv", "abv", "alcohol of", stated.abv, abv, "%", Kind.SHARE, limits.alcohol_percent),
        _Measure(
            "ibu",
            "bitterness",
            "bitterness of",
            stated.bitterness,
            bitterness,
            "IBU",
            Kind.BITTERNESS,
            limits.bitterness_ibu,
        ),
        _Measure(
            "srm",
            "colour",
            "colour of",
            stated.colour,
            colour,
            "SRM",
            Kind.BEER_COLOUR,
            limits.colour_srm,
            limits.black_srm,
        ),
    )


SOUND = """\
recipe: Pilot Cutter Pils
by: Saltmarsh Lane Mash Circle
style: German pils
batch: 20 l
grist:
  - {grain: Pilsner malt, weight: 4.2 kg}
targets: {og: 1.048, fg: 1.010, abv: 5.0 %, bitterness: 34 IBU, colour: 3.5 SRM}
"""
FAULTY = Example(
    """\
recipe: Pilot Cutter Pils
by: Saltmarsh Lane Mash Circle
style: German pils
batch: 20 l
grist:
  - {grain: Pilsner malt, weight: 4.2 kg}
targets:
  og: 1.048
  bitterness: 15 IBU
""",
    "note",
    9,
    15,
    "bitterness of 15 IBU is below the 22-40 IBU of German pils (judge programme 2021;"
    " outside that of trade association 2026 too)",
)
