"""Do the hops give the stated bitterness?

Bitterness (IBU, EBU) comes from the alpha acids of the hops. A boil of an hour
brings 25 % of them into the beer, less in strong wort. A stated figure that no
model comes near is a slip in a weight, an alpha acid, a time or the figure
itself, and the beer will be bland or harsh.

What is checked: the stated bitterness, of the beer or of one addition, against
the range of the models for the batch into the fermenter. The middle is
Tinseth's formula in the mean gravity of the boil. A partial boil is followed
from the filled kettle to what is left of it, with or without a stated top-up.

- the range: Rager's older and more generous table; 10 % more for pellets; 20
  % less for losses
- first-wort, mash and stand (whirlpool) hops: the minutes of boil that would
  form as much, from 33 % to 150 % of them. A laboratory reads more below the
  boil, at 63 °C half of what a boil gives; so far the range goes.
- slow cooling (`chill`): by its time; no-chill counts as 15 to 20 min more of
  boil for all hops in the kettle, by the kinetics as up to 35 min
- hopped extract and kits: what the line states (`bitterness`); above 150 IBU
  it is that of the extract, by makers' sum IBU × kg ÷ l of beer
- dry hops: nothing in the formulas. In beer below 30 IBU a laboratory may
  read up to 1.5 IBU more for each g/l, above 50 IBU a little less.
- altitude, if the brewhouse states it: wort boils cooler and forms less. At
  1500 m it is about 75 % in an hour and 67 % in 15 min.
- alpha acid stated beside an age or a harvest: that of the brew day. Only
  what a table or a lot says is aged.

Published recipes state 0.9 to 1.7 times what the formula gives.

- error: more than 2 times above the range or below it
- warning: more than 1.4 times; always a warning if all hops are dry hops
- note: outside the range by at least 1 IBU. Less than 5 IBU is never more.
- at the weight: one weight 10 times larger or smaller gives the stated
  figure, and the stated one is at least 4 g/l or at most 0.3 g/l
- at the age, a warning where the range leaves no other level: hops of that
  age, kept cool, give less than 33 % of the stated figure, and fresh ones
  would give it
- also asked: one number for IBU and for alpha acid units (AAU); grams that
  are right as ounces, in a recipe of pounds
- note: above 110 IBU, about the most that beer contains, whatever a sum says
- warning: above 150 IBU; or one addition alone gives above 110 IBU, and 10 %
  of it would be usual (no `source` and no stated figure)
- skipped: hops with an alpha acid below 1 %, or an alpha acid or a weight
  that cannot be meant (see hop-alpha, hop-rate); the beer's figure, where the
  one of an addition is doubted

Old recipes have a `source`, and a year before 1940 there or in the name, or
"old" there and no year. They took two or three times as many hops as ours,
which were weaker and often a year or more old, and the beer lay until its
bitterness had faded. If such a recipe states neither age nor harvest of its
hops:

- note at most: a sum above the stated figure, or above what beer contains; it
  asks for age and alpha acid
- skipped: what beer contains, where no alpha acid and no figure is stated;
  the sum is then made with the hops of today

On the day: weigh hops to the gram, take the alpha acid from the packet, and
taste beside a beer of known bitterness. Fit the formula's constant to your own
kettle.

Sources: [tinseth-1997] [rager-1990] [palmer-5] [malowicki-2005]
[whirlpool-bitterness] [stand-estimate] [sub-boiling-hops] [maye-2016]
[parkin-2017] [oxford-bitterness-units] [common-practice] [judgement]
"""

from collections.abc import Iterator

from mashwright.brew import Brew, grain_unit, number
from mashwright.figures.figure import Figure
from mashwright.figures.kettle import HopAddition, bitterness, boiling_wort, hop_additions
from mashwright.knobs import Knob, another_text, one_change, same_number, stated_right
from mashwright.measures import Kind, Quantity, Range, said
from mashwright.measures.bounds import OLD_BEFORE
from mashwright.measures.constants import KG_PER_OZ
from mashwright.recipe.model import Hop
from mashwright.rule import Edit, Evidence, Example, Finding, Level, Limit, Path, Say, Settings, above, say
from mashwright.words.sentences import Measure


class Limits(Settings):
    """What is compared with."""

    doubtful_times = Limit(1.4, "times", low=1.05, high=5, source="common-practice")
    impossible_times = Limit(2, "times", low=1.1, high=10, source="judgement")
    usually_times = Limit(3, "times", low=1.5, high=20, source="judgement")
    reading_ibu = Limit(1, "IBU", low=0, high=10, source="judgement")
    slip_times = Limit(1.4, "times", low=1, high=3, source="judgement")
    many_g_per_l = Limit(4, "g/l", low=1, high=20, source="judgement")
    few_g_per_l = Limit(0.3, "g/l", low=0.05, high=1, source="judgement")
    least_ibu = Limit(5, "IBU", low=1, high=20, source="judgement")
    most_ibu = Limit(110, "IBU", low=80, high=150, source="oxford-bitterness-units")
    far_more_ibu = Limit(150, "IBU", low=100, high=500, source="judgement")
    least_alpha_percent = Limit(1, "%", low=0.1, high=3, source="common-practice")
    old_before = Limit.at(OLD_BEFORE)


SAYS = {
    "hardly-any": "{stated} is not possible: these hops give hardly any",
    "hardly-any-but": "{stated} is not possible: these hops give hardly any, at most {most} IBU",
    "more-than-usual": "{stated} is more than these hops usually give: about {ibu} by published models",
    "more": "{stated} is more than these hops give: about {ibu} by published models",
    "less": "these hops give more than {stated}: about {ibu} by published models",
    "one-hardly-any": "{stated} is not possible: {hop} gives hardly any",
    "one-hardly-any-but": "{stated} is not possible: {hop} gives hardly any, at most {most} IBU",
    "one-more-than-usual": "{stated} is more than {hop} usually gives: about {ibu} by published models",
    "one-more": "{stated} is more than {hop} gives: about {ibu} by published models",
    "one-less": "{hop} gives more than {stated}: about {ibu} by published models",
    "decimal-slip": "with {amount} of {hop} these hops would give about {ibu} IBU, not {stated}",
    "alone": "{amount} of {hop} alone would give {ibu} IBU on paper, but beer rarely contains more than {most} IBU",
    "did-you-mean": "did you mean {meant}?",
    "aged": "kept cool, {hop} has little alpha acid left after {age}; these hops give about {ibu} IBU, not {stated};"
    " fresh they would give about {fresh} IBU",
    "of-an-old-harvest": "kept cool, {hop} of the {age} harvest has little alpha acid left; these hops give about"
    " {ibu} IBU, not {stated}; fresh they would give about {fresh} IBU",
    "units-for-ibu": "did you mean {stated}, about {units}?",
    "ounces": "did you mean {amount} of {hop}?",
    "how-old": "hops then were weaker and often a year old or older; state how old they were",
    "alpha-and-age": "hops then were weaker and often a year old or older; state"
    " their alpha acid and how old they were",
    "beyond-beer": "{ibu} IBU on paper, but beer rarely contains more than {most} IBU",
    "hops-beyond-beer": "the hops add up to {ibu} IBU on paper, but beer rarely contains more than {most} IBU",
}


def check(brew: Brew, limits: Limits) -> Iterator[Finding]:
    recipe = brew.recipe
    stated = recipe.targets.bitterness
    if not recipe.hops and not any(line.bitterness.known for line in recipe.grist):
        return
    if not stated.known and all(not hop.bitterness.known and hop.dry.known for hop in recipe.hops):
        return
    path = recipe.targets.bitterness.path
    claims = list(_claims(brew, limits))
    yield from claims
    bitter = bitterness(brew)
    if not stated.known:
        yield from _more_than_beer_holds(brew, bitter, bitter.low, limits, recipe.hops.path)
        return
    doubt = None if claims or _slipped(brew, limits) else _doubt(bitter.range, stated, limits)
    aged = None if claims or _slipped(brew, limits) else _aged(brew, bitter, stated, doubt or Level.WARNING, limits)
    mild = doubt is None or doubt is Level.NOTE
    holds = list(_more_than_beer_holds(brew, bitter, stated.range.low, limits, path)) if mild else []
    if aged is not None:
        yield aged
    elif holds:
        yield from holds
    elif doubt is not None:
        if recipe.hops and all(hop.dry.known for hop in recipe.hops):
            doubt = Level.WARNING  # dry hops alone: what they give is not much, but a laboratory may read it
        old = stated.range.typical < bitter.typical and _old_hops(brew, limits)
        asked, slips = _slip_of(brew, bitter, stated)
        if not old and not slips and (slip := _decimal_slip(brew, bitter, stated, doubt, limits)) is not None:
            yield slip
            return
        level = Level.NOTE if old else doubt
        yield Finding(
            path,
            level,
            _gives(bitter.range, stated, level).and_then(_asked(brew) if old else asked),
            gap=round(abs(stated.range.typical - bitter.typical) / max(bitter.typical, 1.0), 4),
            evidence=tuple(
                Evidence(f"{one.hop.name}, {one.when}", one.ibu.typical, "IBU", one.path) for one in hop_additions(brew)
            ),
            related=tuple(one.path for one in hop_additions(brew)),
            knobs=slips
            or (
                *_other_weight(hop_additions(brew), stated),
                *((stated_right(path, stated, bitter.typical, "bitterness"),) if bitter.typical >= 1 else ()),
            ),
        )


def _doubt(given: Range, stated: Quantity, limits: Limits) -> Level | None:
    """How far a stated bitterness is outside what the models give."""
    want = stated.range
    apart = max(want.low - given.high, given.low - want.high)
    if apart < limits.least_ibu:
        return Level.NOTE if apart >= limits.reading_ibu else None
    times = max(want.low / max(given.high, 0.1), given.low / max(want.high, 0.1))
    if times > limits.impossible_times:
        return Level.ERROR
    return Level.WARNING if times > limits.doubtful_times else Level.NOTE


def _decimal_slip(brew: Brew, bitter: Figure, stated: Quantity, level: Level, limits: Limits) -> Finding | None:
    """One weight of hops that is ten times off, where the shifted decimal point gives the stated bitterness."""
    want, added = stated.range.typical, hop_additions(brew)
    for one in added:
        factor = _shifted(brew, one, limits)
        would = bitter.typical + one.ibu.typical * (factor - 1)
        weight = one.hop.weight
        if not weight.known or factor == 1 or not want / limits.slip_times <= would <= want * limits.slip_times:
            continue
        text = said(weight.range.typical * factor, weight.unit, weight.kind)
        message = say(
            "decimal-slip", amount=weight, hop=one.hop.name, ibu=number(bitter.typical, 2), stated=stated
        ).and_then(say("did-you-mean", meant=text))
        path = weight.path
        return Finding(
            path,
            level,
            message,
            gap=round(abs(want - bitter.typical) / max(bitter.typical, 1.0), 4),
            evidence=tuple(
                Evidence(f"{each.hop.name}, {each.when}", each.ibu.typical, "IBU", each.path) for each in added
            ),
            related=(brew.recipe.targets.bitterness.path,),
            knobs=(another_text(path, text, f"use {text} of {one.hop.name} instead of {weight.text}"),),
        )
    return None


def _too_much_alone(brew: Brew, limits: Limits) -> Finding | None:
    """One addition that by itself would give more than beer holds, and a tenth of which would be a usual one."""
    for one in hop_additions(brew):
        weight = one.hop.weight
        if not weight.known or one.ibu.typical <= limits.most_ibu or _shifted(brew, one, limits) >= 1:
            continue
        text = said(weight.range.typical / 10, weight.unit, weight.kind)
        message = say(
            "alone",
            amount=weight,
            hop=one.hop.name,
            ibu=number(one.ibu.typical, 3),
            most=number(limits.most_ibu, 3),
        ).and_then(say("did-you-mean", meant=text))
        path = weight.path
        return Finding(
            path,
            Level.WARNING,
            message,
            gap=round(one.ibu.typical / limits.most_ibu - 1, 4),
            evidence=(Evidence(f"{one.hop.name}, {one.when}", one.ibu.typical, "IBU", one.path),),
            knobs=(another_text(path, text, f"use {text} of {one.hop.name} instead of {weight.text}"),),
        )
    return None


def _shifted(brew: Brew, one: HopAddition, limits: Limits) -> float:
    """A tenth for an addition that few would make so large, ten times for one that few would make so small; else 1."""
    weight = one.hop.weight
    if not weight.known or not weight.range.known or one.ibu.typical <= 0:
        return 1.0
    grams_per_l = 1000 * weight.range.typical / boiling_wort(brew).volume_l.typical
    return 0.1 if grams_per_l >= limits.many_g_per_l else 10.0 if grams_per_l <= limits.few_g_per_l else 1.0


def _aged(brew: Brew, bitter: Figure, stated: Quantity, level: Level, limits: Limits) -> Finding | None:
    """A stated bitterness that hops of this age hardly give, and fresh ones would."""
    want = stated.range.low
    if want < limits.usually_times * bitter.typical or want - bitter.typical < limits.least_ibu:
        return None
    added = [one for one in hop_additions(brew) if one.alpha is not None and (one.hop.age or one.hop.harvest)]
    oldest = max(added, key=lambda one: _fresh_ibu(one) - one.ibu.typical, default=None)
    fresh = bitter.typical + sum(_fresh_ibu(one) - one.ibu.typical for one in added)
    if oldest is None or fresh * limits.doubtful_times < want:
        return None
    hop = oldest.hop
    key, age = ("age", hop.age.text) if hop.age.known else ("harvest", hop.harvest)
    message = say(
        "aged" if key == "age" else "of-an-old-harvest",
        hop=hop.name,
        age=age,
        ibu=number(bitter.typical, 2),
        stated=stated,
        fresh=number(fresh, 2),
    )
    path = (*hop.path, key)
    return Finding(
        path,
        level,
        message,
        gap=round(abs(stated.range.typical - bitter.typical) / max(bitter.typical, 1.0), 4),
        evidence=tuple(
            Evidence(f"{one.hop.name}, {one.when}", one.ibu.typical, "IBU", one.path) for one in hop_additions(brew)
        ),
        related=(brew.recipe.targets.bitterness.path,),
        knobs=(another_text(path, "6 months", f"use {hop.name} of 6 months instead of {age}"),) if key == "age" else (),
    )


def _fresh_ibu(one: HopAddition) -> float:
    """What an addition would give if no age had taken of its alpha acids."""
    weight, alpha = one.hop.weight, one.alpha
    if not weight.known or alpha is None or alpha.percent is None or alpha.kg.typical <= 0:
        return one.ibu.typical
    return one.ibu.typical * weight.range.typical * alpha.percent.typical / 100 / alpha.kg.typical


def _slip_of(brew: Brew, bitter: Figure, stated: Quantity) -> tuple[Say | None, tuple[Knob, ...]]:
    """What to ask where a slip of the pen would explain a stated bitterness, and the change."""
    if stated.range.typical < bitter.typical:
        return _same_number(brew.recipe.hops, bitter.typical, stated)
    return _grams_for_ounces(brew, bitter, stated)


def _same_number(hops: tuple[Hop, ...], given_ibu: float, stated: Quantity) -> tuple[Say | None, tuple[Knob, ...]]:
    """The number of the IBU written as alpha acid units too: how many of those it would take."""
    units = [(hop, hop.alpha_units) for hop in hops if hop.alpha_units.known]
    together = sum(one.range.typical for _, one in units)
    want = stated.range.typical
    if not units or abs(together - want) > 0.005 * together or given_ibu <= want:
        return None, ()
    factor = want / given_ibu
    edits = tuple(Edit(hop.alpha_units.path, f"{_short(one.range.typical * factor)} AAU") for hop, one in units)
    number_ = f"{_short(together * factor)} AAU"
    words = f"use {number_} of hops instead of {_short(together)} AAU"
    return say("units-for-ibu", stated=stated, units=number_), (one_change(edits, words),)


def _short(units: float) -> str:
    return number(float(f"{units:.2g}"), 3)


def _grams_for_ounces(brew: Brew, bitter: Figure, stated: Quantity) -> tuple[Say | None, tuple[Knob, ...]]:
    """Hops in grams in a recipe of pounds, where as many ounces would give what is stated."""
    weighed = [(hop, hop.weight) for hop in brew.recipe.hops if hop.weight.known and hop.weight.unit == "g"]
    if len(weighed) < len(brew.recipe.hops) or not grain_unit(brew).startswith(("lb", "oz")):
        return None, ()
    as_ounces = bitter.range * (1000 * KG_PER_OZ)
    if not as_ounces.low <= stated.range.typical <= as_ounces.high:
        return None, ()
    texts = [(hop, weight, same_number(weight, "oz")) for hop, weight in weighed]
    if any(text is None for _, _, text in texts):
        return None, ()
    edits = tuple(Edit(hop.weight.path, text) for hop, _, text in texts if text is not None)
    first, weight, text = texts[0]
    said_ = f"use {text} of {first.name} instead of {weight.text}" + (
        ", and the other hops likewise" if len(texts) > 1 else ""
    )
    return say("ounces", amount=text, hop=first.name), (one_change(edits, said_),)


def _gives(given: Range, stated: Quantity, level: Level, hop: str = "") -> Say:
    """What all hops give, or one of them, against what is stated of it."""
    about = Measure(f"{given.typical:.0f} IBU ({given.low:.0f} to {given.high:.0f})", given.typical, "IBU")
    if given.typical < 0.5:
        sentence = "hardly-any-but" if given.high >= 0.5 else "hardly-any"
    elif stated.range.typical > given.typical:
        sentence = "more-than-usual" if level is Level.NOTE else "more"
    else:
        sentence = "less"
    most = Measure(f"{given.high:.0f}", given.high, "IBU")
    return say(f"one-{sentence}" if hop else sentence, stated=stated, hop=hop, ibu=about, most=most)


def _claims(brew: Brew, limits: Limits) -> Iterator[Finding]:
    """What the recipe claims for one addition, beside its weight."""
    if all(not hop.bitterness.known for hop in brew.recipe.hops):
        return
    for one in hop_additions(brew):
        claim = one.hop.bitterness
        if not claim.known or one.alpha is None or _thin(one, limits):
            continue
        spread = Range(
            one.ibu.low * one.alpha.kg.low / one.alpha.kg.typical,
            one.ibu.typical,
            one.ibu.high * one.alpha.kg.high / one.alpha.kg.typical,
        )
        if level := _doubt(spread, claim, limits):
            weight = (one.hop.weight or one.hop.alpha_units).need(f"the weight of {one.hop.name}")
            path = claim.path
            asked, slips = _same_number((one.hop,), spread.typical, claim)
            yield Finding(
                path,
                level,
                _gives(spread, claim, level, f"{weight.text} of {one.hop.name}").and_then(asked),
                gap=round(abs(claim.range.typical - spread.typical) / max(spread.typical, 1.0), 4),
                evidence=(Evidence(f"{one.hop.name}, {one.when}", spread.typical, "IBU", one.path),),
                knobs=slips
                or ((stated_right(path, claim, spread.typical, "bitterness"),) if spread.typical >= 1 else ()),
            )


def _thin(one: HopAddition, limits: Limits) -> bool:
    """Whether an alpha acid is stated that is doubted elsewhere."""
    percent = one.alpha.percent if one.alpha is not None else None
    return percent is not None and percent.typical < limits.least_alpha_percent


def _slipped(brew: Brew, limits: Limits) -> bool:
    return any(_thin(one, limits) for one in hop_additions(brew))


def _other_weight(added: tuple[HopAddition, ...], stated: Quantity) -> tuple[Knob, ...]:
    """As much of the addition that bitters most as gives the stated figure."""
    most = max((one for one in added if one.hop.weight.known), key=lambda one: one.ibu.typical, default=None)
    if most is None or not most.hop.weight.known or most.ibu.typical <= 0:
        return ()
    rest = sum(one.ibu.typical for one in added) - most.ibu.typical
    factor = (stated.range.typical - rest) / most.ibu.typical
    if not 0.2 < factor < 5:
        return ()
    weight = most.hop.weight
    step = 0.1 * 0.028349523 if weight.unit in ("oz", "lb", "lb oz") else 0.001  # kg
    text = said(max(1, round(weight.range.typical * factor / step)) * step, weight.unit, Kind.MASS)
    return (another_text(most.hop.weight.path, text, f"use {text} of {most.hop.name} instead of {weight.text}"),)


def _asked(brew: Brew) -> Say:
    """What an old recipe is asked of its hops."""
    stated = all(hop.alpha.known or hop.alpha_units.known for hop in brew.recipe.hops if not hop.dry.known)
    return say("how-old" if stated else "alpha-and-age")


def _old_hops(brew: Brew, limits: Limits) -> bool:
    """Whether an old recipe leaves it open how old its hops were."""
    recipe = brew.recipe
    if not recipe.source or all(hop.age.known or hop.harvest for hop in recipe.hops if not hop.dry.known):
        return False
    return brew.intent.old(limits.old_before)


def _more_than_beer_holds(brew: Brew, bitter: Figure, told_ibu: float, limits: Limits, path: Path) -> Iterator[Finding]:
    if not above(Range.exact(told_ibu), limits.most_ibu):
        return
    of_hops = path == brew.recipe.hops.path
    old = _old_hops(brew, limits)
    if of_hops and not brew.recipe.source and (slip := _too_much_alone(brew, limits)) is not None:
        yield slip
        return
    if old and of_hops and all(not hop.alpha.known and not hop.alpha_units.known for hop in brew.recipe.hops):
        return  # made with the alpha acids of today
    level = Level.WARNING if above(Range.exact(told_ibu), limits.far_more_ibu) and not old else Level.NOTE
    ibu = number(bitter.typical if of_hops else told_ibu, 3)
    message = say("hops-beyond-beer" if of_hops else "beyond-beer", ibu=ibu, most=number(limits.most_ibu, 3))
    yield Finding(
        path,
        level,
        message.and_then(_asked(brew) if old else None),
        gap=round(told_ibu / limits.most_ibu - 1, 4),
    )


SOUND = """\
recipe: Lock Gate Bitter
by: Saltmarsh Lane Mash Circle
batch: 20 l
grist:
  - {grain: pale ale malt, weight: 3.6 kg}
boil: {for: 60 min}
hops:
  - {hop: Challenger, weight: 25 g, alpha: 7 %, boil: 60 min}
  - {hop: East Kent Golding, weight: 30 g, alpha: 5 %, boil: 10 min}
targets: {og: 1.042, bitterness: 30 IBU}
"""
FAULTY = Example(
    """\
recipe: Lock Gate Bitter
by: Saltmarsh Lane Mash Circle
batch: 20 l
grist:
  - {grain: pale ale malt, weight: 3.6 kg}
boil: {for: 60 min}
hops:
  - {hop: Fuggle, weight: 20 g, alpha: 4.5 %, boil: 60 min}
targets:
  og: 1.042
  bitterness: 90 IBU
""",
    "error",
    11,
    15,
    "90 IBU is more than these hops give: about 11 IBU (9 to 14) by published models",
)
