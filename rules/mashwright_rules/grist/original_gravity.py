"""Can the stated original gravity come from this grist, and is it a wort at all?

The laboratory tells how much of a grain can be dissolved. No brewer gets more than all of it, and most get 60 to 81 %
of it into the fermenter (less of a strong wort, since more of it stays in the bigger grain bed). A stated original
gravity (OG, American: starting gravity) outside of that is a slip in the weights, in the volume or in the gravity
itself.

Computed: the extract of each line by mass, in the volume of the batch. All of it gives the highest OG there can be: a
stated one above it is an error, up to two points above it a warning (nothing, where no grain is mashed, since syrups
differ by that much). Where kilograms stand beside gallons, or pounds beside litres, and the other unit would give the
stated OG, that is asked. Where the recipe or the brewhouse states an efficiency, the stated OG is doubted if it is
more than a tenth of its points, and two points at least, away from what that gives. At the recipe's own efficiency,
give or take two points from brew to brew, it is an error if even the favourable end is so far away. Where none is
stated it is doubted only if no efficiency gives it at which published recipes were brewed (48 to 87 %), and a note is
made outside the usual 60 to 81 %. A beer of a parti-gyle (a small beer, first or second runnings) may be as weak as
it likes, since its grist gives another beer too. Where the rests convert less than nine tenths of the starch, what
they set free is counted and no more. A point is allowed for reading. Sugar and fruit that go into the fermenter may
be counted in the stated OG or not. A wort below 1.010 or above 1.160 is asked about, never more than a warning, since
it may be meant; one so far out that a unit must have slipped is left to another question.

On the day: measure the gravity of the run-off (lauter) and its volume before the boil; volume times points is what
you will have in the end, so that there is time to boil longer, or to add malt extract.

Sources: [brix-tables] [nbs-c440] [troester-efficiency] [troester-brewhouse-efficiency] [common-practice] [judgement]
and our own reading of published recipes for the efficiencies
"""

from collections.abc import Iterator

from mashwright.brew import Brew, grain_unit, number, told
from mashwright.brewing.extract import usual_efficiency
from mashwright.brewing.gravity import extract_kg, gravity_of, points
from mashwright.figures.mash import converted_share, deliveries, fermenter_share, fermenter_volume, highest_og, og
from mashwright.knobs import Knob, another_text, one_change, same_number, stated_instead
from mashwright.measures import Kind, Quantity, Range, said
from mashwright.rule import Edit, Example, Finding, Level, Limit, Say, Settings, Unknown, below, row, say


class Limits(Settings):
    """What is compared with."""

    distance_percent = Limit(10, "%", low=3, high=50, source="judgement")
    # own reading of 66 published recipes that were brewed: 10th and 90th percentile, lowest and highest
    usual_low_percent = Limit(60, "%", low=40, high=75, source="judgement")
    usual_high_percent = Limit(81, "%", low=70, high=100, source="judgement")
    lowest_percent = Limit(48, "%", low=20, high=70, source="judgement")
    highest_percent = Limit(87, "%", low=75, high=100, source="judgement")
    reading_points = Limit(1, "points", difference=True, low=0, high=5, source="judgement")
    rounding_points = Limit(2, "points", difference=True, low=0, high=10, source="judgement")
    weakest_points = Limit(10, "points", low=2, high=20, source="common-practice")
    strongest_points = Limit(160, "points", low=100, high=200, source="common-practice")


SAYS = {
    "no-wort": "this grist gives about {og}, which is hardly a wort: are its weights and the batch as you meant them",
    "no-mash-gives-that": "this grist gives about {og}, which is stronger than any wort that comes from a mash: are"
    " its weights and the batch as you meant them",
    "above-all": "OG {stated} cannot come from this grist: even all of its extract would give only {highest}",
    "stated-gives": ", and the stated {share} % of the mashed grain's gives about {og}",
    "house-gives": ", and the brewhouse's {share} % of the mashed grain's gives about {og}",
    "usual-gives": ", and a usual {share} % of the mashed grain's gives about {og}",
    "grist-gives": "this grist gives about {og}, not {stated}",
    "at-stated": "at the stated efficiency of {share} % this grist gives about {og}, not {stated}",
    "at-stated-poorly": "at the stated efficiency of {share} % this grist, converted so poorly, gives about {og},"
    " not {stated}",
    "at-house-strong": "at the brewhouse's efficiency of {efficiency}, {share} % for so strong a wort, this grist"
    " gives about {og}, not {stated}",
    "at-house": "at the brewhouse's efficiency of {efficiency} this grist gives about {og}, not {stated}",
    "converts-little": "OG {stated} does not come from rests that convert so little: a usual {least} to {most} % of"
    " what they set free gives {og}",
    "less-than-sugars": "OG {stated} is less than the sugars and extracts give by themselves; with a usual {least}"
    " to {most} % of the mashed extract it would be {og}",
    "asks-for": "OG {stated} asks for {share} % of the mashed grain's extract; the usual {least} to {most} % gives"
    " {og}",
    "is-it": "is it {meant}",
    "is-it-in": "is it {meant}, and {unit} in the other lines too",
}


def check(brew: Brew, limits: Limits) -> Iterator[Finding]:
    highest = highest_og(brew)
    if not 2 < points(highest.typical) < 500:
        return  # no wort of any kind: a unit has slipped
    stated = brew.recipe.targets.og
    if not stated.known:
        yield from _no_wort(brew, limits)
    elif limits.weakest_points <= points(stated.range.typical) <= 180:
        if level := _past_all(brew, limits, stated):
            surely = _surely_another(brew, limits, stated)
            yield _doubt(brew, Level.ERROR if surely else level, _above_all(brew, stated))
        elif 0.1 < brew.efficiency.share.typical <= 1:  # others are no efficiency, which is another question
            doubts = list(_unlikely(brew, limits, stated))
            yield from doubts or _no_wort(brew, limits)


def _no_wort(brew: Brew, limits: Limits) -> Iterator[Finding]:
    given = og(brew)
    for missed, sentence in (
        (points(given.typical) < limits.weakest_points, "no-wort"),
        (points(given.typical) > limits.strongest_points, "no-mash-gives-that"),
    ):
        # where the rests convert next to nothing, that is another question
        if missed and converted_share(brew).typical == 1:
            message = say(sentence, og=said(given.typical, "SG", Kind.GRAVITY))
            yield Finding(
                brew.recipe.grist.path,
                Level.WARNING,
                message,
                evidence=(row(given, brew.recipe.batch.path), row(highest_og(brew), brew.recipe.batch.path)),
            )


def _past_all(brew: Brew, limits: Limits, stated: Quantity) -> Level | None:
    """How surely the stated OG is more than all of the extract gives; a point or two are never an error."""
    highest = highest_og(brew)
    level = below(highest, stated.range.low)
    over = points(stated.range.low) - points(highest.typical)
    if not level or (not _mashed_kg(brew) and over < limits.rounding_points + 0.5):
        return None
    surely = points(stated.range.low) - points(highest.high) > limits.rounding_points
    return level if surely else min(level, Level.WARNING)


def _above_all(brew: Brew, stated: Quantity) -> Say:
    highest, given = (said(one.typical, stated.unit, Kind.GRAVITY) for one in (highest_og(brew), og(brew)))
    all_of_it = say("above-all", stated=stated, highest=highest)
    if not any(one.part.mashed for one in deliveries(brew)):
        return all_of_it
    share = number(100 * brew.efficiency.share.typical, 2)
    how = "stated" if brew.efficiency.stated else "house" if brew.brewhouse.efficiency else "usual"
    return all_of_it.and_then(say(f"{how}-gives", share=share, og=given))


def _unlikely(brew: Brew, limits: Limits, stated: Quantity) -> Iterator[Finding]:
    given, want = og(brew), points(stated.range.typical)
    late = fermenter_share(brew)
    without = points(given.typical) * (1 - late)
    allowed = max(want * limits.distance_percent / 100, limits.rounding_points)
    if want >= without - allowed and want <= points(given.typical) + allowed:
        return
    if want < without and brew.intent.parti_gyle:
        return
    known = brew.efficiency.stated or brew.brewhouse.efficiency.known or not _mashed_kg(brew)
    if known:
        spread = given.range
        if points(spread.low) * (1 - late) <= want <= points(spread.high):
            return
        level = Level.ERROR if _surely_another(brew, limits, stated) else Level.WARNING
        yield _doubt(brew, level, _not_at_this_efficiency(brew, stated))
        return
    lost = 60 - usual_efficiency(want).low
    for level, low, high in (
        (Level.WARNING, limits.lowest_percent - lost, limits.highest_percent),
        (Level.NOTE, limits.usual_low_percent - lost, limits.usual_high_percent - lost),
    ):
        spread = _og_between(brew, low, high)
        slack = limits.reading_points
        if not points(spread.low) * (1 - late) - slack <= want <= points(spread.high) + slack:
            usual = _og_between(brew, limits.usual_low_percent - lost, limits.usual_high_percent - lost)
            asked = _asked(brew, want) if converted_share(brew).typical == 1 else None
            yield _doubt(brew, level, _at_no_usual(stated, asked, usual, limits, lost))
            return


def _surely_another(brew: Brew, limits: Limits, stated: Quantity) -> bool:
    """Whether even the favourable end of the recipe's own efficiency is too far from the stated OG."""
    given, want = og(brew), points(stated.range.typical)
    if not brew.efficiency.stated or given.memory or converted_share(brew).typical < 1:
        return False
    allowed = max(want * limits.distance_percent / 100, limits.rounding_points)
    lowest = points(given.low) * (1 - fermenter_share(brew))
    return not lowest - allowed <= want <= points(given.high) + allowed


def _not_at_this_efficiency(brew: Brew, stated: Quantity) -> Say:
    share = number(100 * brew.efficiency.share.typical, 3)
    gives = said(og(brew).typical, stated.unit, Kind.GRAVITY)
    if not _mashed_kg(brew):
        return say("grist-gives", og=gives, stated=stated)
    if brew.efficiency.stated:
        sentence = "at-stated-poorly" if converted_share(brew).typical < 1 else "at-stated"
        return say(sentence, share=share, og=gives, stated=stated)
    house = brew.brewhouse.efficiency.need("the brewhouse's efficiency")
    if brew.efficiency.share.typical < house.range.typical / 100 - 0.005:
        return say("at-house-strong", efficiency=house, share=share, og=gives, stated=stated)
    return say("at-house", efficiency=house, og=gives, stated=stated)


def _at_no_usual(stated: Quantity, asked: float | None, usual: Range, limits: Limits, lost: float) -> Say:
    gives = said(usual, stated.unit, Kind.GRAVITY)
    low, high = (number(one - lost, 2) for one in (limits.usual_low_percent, limits.usual_high_percent))
    if asked is None:
        return say("converts-little", stated=stated, least=low, most=high, og=gives)
    if asked <= 0:
        return say("less-than-sugars", stated=stated, least=low, most=high, og=gives)
    share = told(asked, limits.usual_high_percent - lost)
    return say("asks-for", stated=stated, share=share, least=low, most=high, og=gives)


def _doubt(brew: Brew, level: Level, message: Say) -> Finding:
    stated, given = brew.recipe.targets.og.need("a stated OG"), og(brew)
    path = stated.path
    want, have = points(stated.range.typical), points(given.typical)
    meant, units = _meant_units(brew, stated)
    return Finding(
        path,
        level,
        message.and_then(meant),
        gap=round(abs(want - have) / want, 4),
        evidence=(row(highest_og(brew), brew.recipe.batch.path), row(given, brew.recipe.batch.path)),
        related=(brew.recipe.batch.path,),
        knobs=(*units, *_of_the_largest(brew, stated), stated_instead(path, stated, given.typical, "say OG")),
    )


def _meant_units(brew: Brew, stated: Quantity) -> tuple[Say | None, tuple[Knob, ...]]:
    """Pounds for kilograms or gallons for litres, where the other unit gives the stated OG: what to ask, the change."""
    want = points(stated.range.typical)
    for asked, words, edits in _other_units(brew):
        try:
            given = points(og(brew.edited(edits)).typical)
        except (Unknown, KeyError):
            continue
        if abs(given - want) <= _LIKE * want:
            return asked, (one_change(edits, words),)
    return None, ()


_LIKE = 0.15  # of the points: how near the other unit has to come to be asked about; judgement


def _other_units(brew: Brew) -> Iterator[tuple[Say, str, tuple[Edit, ...]]]:
    """What to ask, what to say of the change, and the change."""
    if not _mixed_systems(brew):
        return
    for unit, other in (("kg", "lb"), ("lb", "kg")):
        same = [
            (line, line.weight, text)
            for line in brew.recipe.grist
            if line.weight.known and line.weight.unit == unit and (text := same_number(line.weight, other))
        ]
        if same:
            line, weight, text = max(same, key=lambda one: one[1].range.typical)
            others = f", and {other} in the other lines too" if len(same) > 1 else ""
            words = f"{text} of {line.name} instead of {weight.text}{others}"
            meant = f"{text} of {line.name}"
            yield (
                say("is-it-in", meant=meant, unit=other) if others else say("is-it", meant=meant),
                words,
                tuple(Edit(one.weight.path, its) for one, _, its in same),
            )
    batch = brew.recipe.batch
    volume = batch.fermenter
    if not volume.known or volume.unit not in ("l", "gal"):
        return
    swapped = same_number(volume, "gal" if volume.unit == "l" else "l")
    if swapped is not None:
        for path in (
            brew.recipe.batch.fermenter.path,
            brew.recipe.batch.path,
        ):  # the first has no place where the batch is one value
            yield say("is-it", meant=swapped), f"a batch of {swapped} instead of {volume.text}", (Edit(path, swapped),)


def _mixed_systems(brew: Brew) -> bool:
    """Whether the grain is weighed in one system of units and the batch measured in the other."""
    batch = brew.recipe.batch
    volume = batch.stated
    return volume.known and (volume.unit in ("l", "hl", "ml")) != (grain_unit(brew) in ("kg", "g"))


def _of_the_largest(brew: Brew, stated: Quantity) -> tuple[Knob, ...]:
    """As much of the largest mashed line as gives the stated OG."""
    lines = [one for one in deliveries(brew) if one.part.mashed and one.part.line.weight.known]
    largest = max(lines, key=lambda one: one.part.weight_kg, default=None)
    if largest is None or largest.typical_kg <= 0 or converted_share(brew).typical < 1:
        return ()
    want = stated.range.typical
    efficiency = brew.efficiency.share if brew.efficiency.stated else brew.unstated_efficiency(points(want))
    if efficiency.typical <= 0:  # however much of it there is, nothing arrives
        return ()
    given = sum(one.typical_kg for one in deliveries(brew) if not one.part.mashed)
    needed = (extract_kg(fermenter_volume(brew)[0].typical, want) - given) / efficiency.typical
    factor = 1 + (needed - _mashed_kg(brew)) / largest.laboratory_kg.typical
    if not 0.1 < factor < 5:
        return ()
    part = largest.part
    text = said(part.weight_kg * factor, part.weight.unit, Kind.MASS)
    return (another_text((*part.path, "weight"), text, f"{text} of {part.name} instead of {part.weight.text}"),)


def _mashed_kg(brew: Brew) -> float:
    return sum(one.laboratory_kg.typical for one in deliveries(brew) if one.part.mashed)


def _og_between(brew: Brew, low_percent: float, high_percent: float) -> Range:
    """OG at two efficiencies of the mashed grain, everything else as in the figure."""
    given, volume = deliveries(brew), fermenter_volume(brew)[0].typical
    mashed, free = _mashed_kg(brew), converted_share(brew).typical
    other = [one.laboratory_kg * 1.0 for one in given if not one.part.mashed]
    shares = [one.share for one in given if not one.part.mashed]
    low, high = (
        gravity_of(
            mashed * free * percent / 100 + sum(kg.typical * share for kg, share in zip(other, ends, strict=True)),
            volume,
        )
        for percent, ends in (
            (low_percent, [share.low for share in shares]),
            (high_percent, [share.high for share in shares]),
        )
    )
    return Range(low, (low + high) / 2, high)


def _asked(brew: Brew, want_points: float) -> float:
    """Efficiency of the mashed grain that gives so many points, %; below 0 where the rest gives more already."""
    low, high = (points(end) for end in (_og_between(brew, 50, 50).typical, _og_between(brew, 90, 90).typical))
    return 50 + 40 * (want_points - low) / (high - low)


SOUND = """\
recipe: Quay Street Pale
by: Saltmarsh Lane Mash Circle
batch: 20 l
grist:
  - {grain: two-row pale malt, weight: 4.2 kg}
  - {grain: caramel malt 40, weight: 300 g}
targets:
  og: 1.050
"""
FAULTY = Example(
    """\
recipe: Quay Street Pale
by: Saltmarsh Lane Mash Circle
batch: 20 l
grist:
  - {grain: two-row pale malt, weight: 4 kg}
targets:
  og: 1.090
""",
    "error",
    7,
    7,
    "OG 1.090 cannot come from this grist: even all of its extract would give only 1.060, and a usual 72"
    " % of the mashed grain's gives about 1.043",
)
