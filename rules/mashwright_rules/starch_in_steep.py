"""Is something steeped that only a mash can use?

Steeping is a rinse: it takes out of caramel (crystal) and roasted malt what their makers already turned to sugar
or colour. Flakes, raw grain, torrefied grain and pale kilned malts still hold starch, and without the enzymes of
base malt that stays starch: haze, hardly any extract, and food for what should not grow in beer.

Computed: for each thing that is steeped, or put into the kettle (copper), whether it needs a mash and whether base
malt is steeped with it. Amber, biscuit and brown malt and dextrin malt give a note, since some of their colour and
taste does come out.

On the day: hold it with as much pale malt at 66-68 °C (150-155 °F) for 45 min, in the same bag: that is a small
mash.

Sources: [palmer-steeping] measured yields, [palmer-adjuncts] [mash-or-steep-article] [common-practice]
"""

from collections.abc import Iterator

from mashwright.brewing.extract import steeped_share
from mashwright.rule import (
    MALT_EXTRACTS,
    MALTS,
    Brew,
    Edit,
    Evidence,
    Example,
    Finding,
    Kind,
    Knob,
    Level,
    Limit,
    Part,
    Range,
    Settings,
    above,
    added_grain,
    another_text,
    grain_unit,
    number,
    one_change,
    said,
)


class Limits(Settings):
    trace_percent = Limit(2, "%", low=0, high=20, source="judgement")


SOUND = """\
recipe: Oyster Bed Stout
by: Saltmarsh Lane Mash Circle
batch: 20 l
grist:
  - {extract: light dry malt extract, weight: 2.5 kg}
  - {grain: flaked oats, weight: 400 g, add: steep}
  - {grain: pale malt, weight: 500 g, add: steep}
  - {grain: roasted barley, weight: 200 g, add: steep}
steep: {water: 5 l, at: 67 °C, for: 45 min}
"""

FAULTY = Example(
    """\
recipe: Oyster Bed Stout
by: Saltmarsh Lane Mash Circle
batch: 20 l
grist:
  - {extract: light dry malt extract, weight: 2.5 kg}
  - {grain: flaked oats, weight: 400 g}
  - {grain: roasted barley, weight: 200 g}
steep: {water: 5 l, at: 67 °C, for: 30 min}
""",
    "warning",
    6,
    6,
    "steeped without malt, the starch of flaked oats stays starch: haze, and about 12 % of its extract",
)


USUAL_SHARE = 0.72  # of the extract of a mash that arrives; common practice
PALE_MALT = 0.78  # kg of extract in a kg as it is weighed; common practice


def check(brew: Brew, limits: Limits) -> Iterator[Finding]:
    steeped = brew.placed("steep")
    if any(part.power().typical > 0 for part in steeped):
        return
    for part in (*steeped, *brew.placed("kettle", "fermenter")):
        if part.group != "grain" or part.needs_mash != "yes":
            continue
        share = Range.exact(100 * part.amount / sum(one.amount for one in brew.grist()))
        little = above(share, limits.trace_percent) is None
        gives = steeped_share(_kind(part), part.colour_lovibond.typical if part.colour_lovibond else None)
        yield Finding(
            (*part.path, "add") if part.line.add else part.path,
            Level.NOTE if little or part.kind in ("kilned malt", "caramel malt") else Level.WARNING,
            _message(part, gives),
            gap=1.0,
            evidence=(
                Evidence(
                    f"{part.name}, {part.weight.text}: extract that a steep gives",
                    f"{number(100 * gives.low, 2)} to {number(100 * gives.high, 2)}",
                    "%",
                    part.path,
                ),
            ),
            knobs=_knobs(brew, part),
        )


def _kind(part: Part) -> str:
    return {"caramel malt": "caramel", "kilned malt": "kilned"}.get(part.kind, "")


def _message(part: Part, gives: Range) -> str:
    percent = number(100 * gives.typical, 2)
    if part.place != "steep":
        return f"put into the {part.place}, the starch of {part.name} stays starch: only a mash turns it into sugar"
    without = "without base malt" if part.kind in MALTS else "without malt"
    return f"steeped {without}, the starch of {part.name} stays starch: haze, and about {percent} % of its extract"


def _knobs(brew: Brew, part: Part) -> tuple[Knob, ...]:
    """Into the mash where there is one; else base malt beside it."""
    if brew.placed("mash"):
        return (another_text((*part.path, "add"), "mash", f"put the {part.name} into the mash"),)
    if part.place == "kettle" and part.kind == "base malt":
        return (another_text((*part.path, "add"), "mash", f"mash the {part.name}"),)
    if part.place != "steep" or part.line.weight is None:
        return ()
    starchy = [one for one in brew.placed("steep") if one.needs_mash == "yes"]
    starchy_kg = sum(one.weight_kg for one in starchy)
    beside = added_grain("pale malt", grain_unit(brew), starchy_kg, 4 * starchy_kg, "add: steep")
    return beside, _for_extract(brew, starchy)


def _for_extract(brew: Brew, starchy: list[Part]) -> Knob:
    """As much base malt as there is starch, and malt extract taken out for what the small mash gives."""
    extracts = [part for part in brew.grist() if part.kind in MALT_EXTRACTS and part.line.weight is not None]
    if not extracts:
        return Knob(0, lambda _: (), lambda _: "")
    largest = max(extracts, key=lambda part: part.weight_kg)
    malt_kg = sum(part.weight_kg for part in starchy)
    gives_kg = malt_kg * USUAL_SHARE * PALE_MALT
    for part in starchy:
        better = USUAL_SHARE - steeped_share(_kind(part), None).typical
        gives_kg += part.weight_kg * part.extract_share().typical * better
    left_kg = largest.weight_kg - gives_kg / largest.extract_share().typical
    if left_kg <= 0:
        return Knob(0, lambda _: (), lambda _: "")
    malt, left = (
        said(kg, unit, Kind.MASS) for kg, unit in ((malt_kg, grain_unit(brew)), (left_kg, largest.weight.unit))
    )
    line = Edit(("grist", "-"), f"{{grain: pale malt, weight: {malt}, add: steep}}")
    words = f"add {malt} of pale malt (add: steep), and {left} of {largest.name} instead of {largest.weight.text}"
    return one_change((line, Edit((*largest.path, "weight"), left)), words)
