"""Another unit that would give the stated gravity."""

from collections.abc import Iterator

from mashwright.brew import Brew, grain_unit
from mashwright.brewing.gravity import points
from mashwright.figures.mash import og
from mashwright.knobs import Knob, one_change, same_number
from mashwright.measures import Quantity
from mashwright.rule import Edit, Say, Unknown, say


def meant_units(brew: Brew, stated: Quantity) -> tuple[Say | None, tuple[Knob, ...]]:
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
            words = f"use {text} of {line.name} instead of {weight.text}{others}"
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
            yield (
                say("is-it", meant=swapped),
                f"use a batch of {swapped} instead of {volume.text}",
                (Edit(path, swapped),),
            )


def _mixed_systems(brew: Brew) -> bool:
    """Whether the grain is weighed in one system of units and the batch measured in the other."""
    batch = brew.recipe.batch
    volume = batch.stated
    return volume.known and (volume.unit in ("l", "hl", "ml")) != (grain_unit(brew) in ("kg", "g"))
