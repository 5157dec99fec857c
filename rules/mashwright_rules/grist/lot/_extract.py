"""What a certificate says of the extract, against the grain and against itself."""

from collections.abc import Iterator

from mashwright.ingredients.fermentables import Fermentable
from mashwright.measures import Kind, Range, said
from mashwright.recipe.brewhouse import Lot
from mashwright.rule import Level, say
from mashwright_rules.grist.lot._limits import Fault, Limits


def no_such_yield(lot: Lot, entry: Fermentable, limits: Limits) -> Iterator[Fault]:
    """An extract that such a grain cannot give; the first one alone, since the others follow from it."""
    if entry.extract_dry is None:
        return
    wet = lot.moisture.range if lot.moisture.known else entry.moisture
    for stated, grind, how in (
        (lot.extract_fine_dry, "fine", "dry"),
        (lot.extract_fine_as_is, "fine", "as is"),
        (lot.extract_coarse_dry, "coarse", "dry"),
        (lot.extract_coarse_as_is, "coarse", "as is"),
    ):
        if not stated.known:
            continue
        usual = entry.extract_dry
        if how == "as is" and wet is not None:
            # the driest of the best, the dampest of the poorest
            usual = Range(
                usual.low * (1 - wet.high / 100),
                usual.typical * (1 - wet.typical / 100),
                usual.high * (1 - wet.low / 100),
            )
        value = stated.range.typical
        if usual.low - limits.extract_below_percent <= value <= usual.high + limits.extract_above_percent:
            continue
        between = said(usual, stated.unit, Kind.EXTRACT)
        yield Level.WARNING, say("other-extract", extract=stated, grind=grind, how=how, of=lot.of, usual=between)
        return


def contradictions(lot: Lot, limits: Limits) -> Iterator[Fault]:
    """Values of one certificate that cannot all be true."""
    fine, coarse = lot.extract_fine_dry, lot.extract_coarse_dry
    fine_wet, coarse_wet = lot.extract_fine_as_is, lot.extract_coarse_as_is
    for dry, wet, grind in ((fine, fine_wet, "fine"), (coarse, coarse_wet, "coarse")):
        if not dry.known or not wet.known:
            continue
        if wet.range.typical > dry.range.typical:
            yield Level.ERROR, say("wetter-than-dry", extract=wet, grind=grind, dry=dry)
        elif lot.moisture.known:
            follows = dry.range.typical * (1 - lot.moisture.range.typical / 100)
            if abs(follows - wet.range.typical) > limits.reading_percent:
                text = said(follows, wet.unit, Kind.EXTRACT)
                yield (
                    Level.WARNING,
                    say("does-not-follow", extract=wet, grind=grind, dry=dry, moisture=lot.moisture, follows=text),
                )
    for high, low, how in ((fine, coarse, "dry"), (fine_wet, coarse_wet, "as is")):
        if high.known and low.known and low.range.typical - high.range.typical > limits.coarse_percent:
            yield Level.WARNING, say("coarse-gives-more", coarse=low, how=how, fine=high)
