"""Has a unit slipped: a number a thousand times off, Fahrenheit for Celsius, enzymes for colour?

Grams written as kilograms, 152 °C where 152 °F was meant, "60 °L" read as the enzymes of a caramel malt: each gives
numbers that no brew day can have, and all the sums after them are worthless. It is the commonest slip when recipes
are typed over.

Computed: weights against the batch (more than 1.2 kg of one thing to a litre, or less than a third of a gram); all
mash water against the grain (below 1 or above 15 l/kg); temperatures against the boil, the frost, what yeast lives in,
and a minus too many (mash and water below 0 °C, everything else below -10); times against the longest rest, boil
and hop stand, the shortest fermentation and ten years in a cellar; a bottle's rating against 13 volumes or 20 bar;
gravities against 1.010 and 1.180; enzymes on caramel or roasted malt, more than any malt has
(240 °Lintner), the colour of a roast on base malt, and a malt's stated colour against what the tables know of that malt
(three times paler or darker, and 10 °Lovibond, or twice as dark where the number is right in EBC; a caramel malt
without its number may have any); a base malt whose power is the number of its colour; shares against a sum of 100 %,
and whether there is an OG to turn them into weights. What cannot be is an error, what can hardly be meant a warning;
where another unit, a shifted decimal point or no minus makes the number an ordinary one, that is offered.

On the day: read the recipe aloud with its units before weighing; liquor (water) hotter than it should be scalds.

Sources: [common-practice] [by-definition] [judgement]
"""

from collections.abc import Iterator
from typing import NamedTuple

from mashwright.brew import MALTS, Brew, group_of, number, table_entry, thickness_unit
from mashwright.figures.mash import mash_water
from mashwright.ingredients.fermentables import Fermentable
from mashwright.ingredients.kinds import Group, IngredientKind
from mashwright.knobs import Knob, another_text, as_written, one_change, other_size, same_number, stated_instead
from mashwright.measures import Kind, Quantity, Range, bounds, from_canonical, said, to_canonical
from mashwright.recipe.model import GristLine
from mashwright.recipe.stated import NOWHERE, Stated
from mashwright.rule import Edit, Example, Finding, Level, Limit, Path, Settings, gap


class Limits(Settings):
    """What is compared with."""

    heaviest_g_per_l = Limit.of(bounds.HEAVIEST_G_PER_L)
    lightest_g_per_l = Limit(0.3, "g/l", low=0.01, high=5, source="judgement")
    boil_c = Limit.of(bounds.BOIL_C)
    dead_yeast_c = Limit.of(bounds.DEAD_YEAST_C)
    frozen_c = Limit.of(bounds.FROZEN_C)
    coldest_rest_c = Limit.of(bounds.COLDEST_REST_C)
    coldest_c = Limit(-10, "°C", low=-40, high=-5, source="judgement")
    coldest_mash_c = Limit(30, "°C", low=10, high=40, source="judgement")
    longest_hot_min = Limit(1440, "min", low=300, high=10000, source="judgement")
    longest_cold_years = Limit(10, "years", low=1, high=100, source="judgement")
    shortest_ferment_min = Limit(60, "min", low=5, high=1440, source="judgement")
    weakest_points = Limit(10, "points", low=2, high=20, source="common-practice")
    strongest_points = Limit(180, "points", low=120, high=300, source="common-practice")
    base_malt_lovibond = Limit(30, "°Lovibond", low=15, high=100, source="common-practice")
    other_colour_times = Limit(3, "times", low=1.5, high=10, source="judgement")
    colour_apart_lovibond = Limit(10, "°Lovibond", difference=True, low=1, high=100, source="judgement")
    most_lintner = Limit.of(bounds.MOST_LINTNER)
    strongest_bottle_volumes = Limit.of(bounds.STRONGEST_BOTTLE_VOLUMES)
    highest_rating_bar = Limit.of(bounds.HIGHEST_RATING_BAR)
    caramel_lintner = Limit(5, "°Lintner", low=1, high=40, source="common-practice")
    thickest_l_per_kg = Limit(1.0, "l/kg", low=0.5, high=1.5, source="common-practice")
    thinnest_l_per_kg = Limit(15, "l/kg", low=8, high=50, source="common-practice")
    share_sum_percent = Limit(2, "%", low=0.1, high=10, source="judgement")


def check(brew: Brew, limits: Limits) -> Iterator[Finding]:
    yield from _shares(brew, limits)
    yield from _weights(brew, limits)
    yield from _temperatures(brew, limits)
    yield from _times(brew, limits)
    yield from _ratings(brew, limits)
    yield from _gravities(brew, limits)
    yield from _degrees(brew, limits)
    yield from _mash_water(brew, limits)


# Bounds of the ordinary in this module, such as 0.05-0.8 kg of grist to a litre of beer or 1.2-12 l of water to a kg of
# grain, are common practice; they only decide whether another unit is offered.


def _weights(brew: Brew, limits: Limits) -> Iterator[Finding]:
    batch = brew.recipe.batch
    volume = batch.stated
    weighed = [(line, line.weight) for line in brew.recipe.grist if line.weight.known]
    for line, weight in weighed:
        if weight.range.low <= 0:
            message = f"{weight.text} of {line.name} is nothing; weigh it or take the line out"
            yield Finding(line.weight.path, Level.WARNING, message, gap=1.0)
    if volume.known and volume.range.low <= 0:
        yield Finding(brew.recipe.batch.path, Level.ERROR, f"a batch of {volume.text} is no beer at all", gap=1.0)
    if not volume.known or volume.range.low <= 0 or not weighed:
        return
    litres = volume.range.typical
    total = sum(weight.range.typical for _, weight in weighed)
    heavy = [pair for pair in weighed if pair[1].range.typical > limits.heaviest_g_per_l / 1000 * litres]
    thin = total * 1000 / litres < 10 * limits.lightest_g_per_l
    if (heavy and litres < 1) or (thin and litres >= 200):
        yield _batch(brew, volume, total)
        return
    for line, weight in heavy:
        path = line.weight.path
        per_litre = weight.range.typical / litres
        others = total / litres - per_litre
        asked, knobs = other_size(path, weight, max(0.0003, 0.05 - others) * litres, 0.8 * litres)
        each = f"{number(per_litre, 3)} kg to each litre of beer"
        message = f"{weight.text} of {line.name} is {each}, more than a mash can be{asked}"
        yield Finding(path, Level.ERROR, message, gap=round(1000 * per_litre / limits.heaviest_g_per_l, 3), knobs=knobs)
    for line, weight in weighed:
        grams = weight.range.typical * 1000 / litres
        if grams >= limits.lightest_g_per_l or grams <= 0 or _group(brew, line) == Group.FRUIT:
            continue
        path = line.weight.path
        asked, knobs = other_size(path, weight, 0.002 * litres, 0.6 * litres)
        if asked:
            message = f"{weight.text} of {line.name} is next to nothing in {volume.text}{asked}"
            level = Level.ERROR if thin else Level.WARNING  # with no more in all, no beer
            yield Finding(path, level, message, gap=1.0, knobs=knobs)


def _group(brew: Brew, line: GristLine) -> str:
    return group_of(line, table_entry(line, brew.brewhouse))


def _batch(brew: Brew, volume: Quantity, total_kg: float) -> Finding:
    asked, knobs = other_size(brew.recipe.batch.path, volume, total_kg / 0.8, total_kg / 0.05)
    per_litre = number(total_kg / volume.range.typical, 2)
    message = f"a batch of {volume.text} would have {per_litre} kg of grist and sugars to each litre{asked}"
    scalar = brew.recipe.batch.known and brew.recipe.batch.fermenter is volume
    return Finding(brew.recipe.batch.path, Level.ERROR, message, gap=1.0, knobs=knobs if scalar else ())


def _mash_water(brew: Brew, limits: Limits) -> Iterator[Finding]:
    """Water to grain that no mash can have; what is only thick or thin is another question."""
    mash = brew.recipe.mash
    if not mash.known:
        return
    for key, stated in (("thickness", mash.thickness), ("water", mash.water)):
        if not stated.known:
            continue
        path = (*mash.path, key)
        if stated.range.typical <= 0:
            yield Finding(path, Level.ERROR, f"{stated.text} of mash water is no mash", gap=1.0)
            return
        grain_kg = sum(part.weight_kg for part in brew.mashed()) if key == "water" else 1.0
        litres = stated.range.typical if key == "thickness" else _all_water(brew)
        per_kg = litres / grain_kg
        if limits.thickest_l_per_kg <= per_kg <= limits.thinnest_l_per_kg:
            continue
        words = f"a mash of {stated.text} is "
        if key == "water":
            words = f"{stated.text} of mash water is {said(per_kg, thickness_unit(brew), Kind.THICKNESS)}, "
        words += "too little to wet the grain" if per_kg < limits.thickest_l_per_kg else "more soup than mash"
        asked, knobs = _meant_water(path, stated, grain_kg, litres - stated.range.typical)
        cannot_be = per_kg < limits.thickest_l_per_kg / 2 or per_kg > 2 * limits.thinnest_l_per_kg
        level = Level.ERROR if cannot_be else Level.WARNING
        yield Finding(path, level, f"{words}{asked}", gap=1.0, knobs=knobs)
        return


def _all_water(brew: Brew) -> float:
    water = mash_water(brew)
    return water[0].typical if water is not None else 0.0


def _meant_water(path: Path, stated: Quantity, grain_kg: float, others: float) -> tuple[str, tuple[Knob, ...]]:
    """Another unit, or a shifted decimal point, with which it would be an ordinary mash."""
    low, high = 2 * grain_kg - others, 6 * grain_kg - others
    if path[-1] == "water":
        asked, knobs = other_size(path, stated, low, high)
        if asked:
            return asked, knobs
    elif stated.unit == "l/kg" and low <= to_canonical(stated.range.typical, "qt/lb", Kind.THICKNESS) <= high:
        text = same_number(stated, "qt/lb") or stated.text
        return f"; is it {text}", (another_text(path, text, f"{text} instead of {stated.text}"),)
    for factor in (0.1, 10, 0.01, 100):
        if stated.range.known and low <= stated.range.typical * factor <= high:
            text = said(stated.range.typical * factor, stated.unit, stated.kind)
            return f"; is it {text}", (another_text(path, text, f"{text} instead of {stated.text}"),)
    return "", ()


class _Place(NamedTuple):
    """A temperature, where it stands, what it can be, and what it is usually, °C; the usual by common practice.

    Below ``low_c`` it is told where another unit makes it a usual one, below ``never_c`` always.
    """

    path: Path
    stated: Quantity
    low_c: float
    high_c: float
    usual_low_c: float
    usual_high_c: float
    too_low: str
    too_high: str
    too_high_is: Level = Level.ERROR
    never_c: float = bounds.COLDEST_REST_C.usual  # water is ice


def _temperatures(brew: Brew, limits: Limits) -> Iterator[Finding]:
    for place in _places(brew, limits):
        typical = place.stated.range.typical
        hot, never = typical > place.high_c, typical < place.never_c
        if not hot and not never and typical >= place.low_c:
            continue
        asked, knobs = _other_degrees(place)
        if never and not asked:
            asked, knobs = _other_sign(place)
        if not hot and not never and not asked:
            continue
        words = place.too_high if hot else place.too_low
        yield Finding(
            place.path,
            place.too_high_is if hot else Level.ERROR if never and place.never_c > limits.coldest_c else Level.WARNING,
            f"{place.stated.text} is {words}{asked}",
            gap=round(abs(typical - (place.high_c if hot else place.never_c if never else place.low_c)) / 100, 3),
            knobs=knobs,
        )


def _other_degrees(place: _Place) -> tuple[str, tuple[Knob, ...]]:
    stated = place.stated
    other = {"°C": "°F", "°F": "°C"}.get(stated.unit)
    text = same_number(stated, other) if other else None
    if other is None or text is None:
        return "", ()
    as_written = from_canonical(stated.range.typical, stated.unit, Kind.TEMPERATURE)
    meant_c = as_written if other == "°C" else (as_written - 32) * 5 / 9
    if not place.usual_low_c <= meant_c <= place.usual_high_c:
        return "", ()
    also = f" ({said(meant_c, '°C', Kind.TEMPERATURE)})" if other == "°F" else ""
    return f"; is it {text}{also}", (another_text(place.path, text, f"{text} instead of {stated.text}"),)


def _other_sign(place: _Place) -> tuple[str, tuple[Knob, ...]]:
    """The number without its sign, where that is a usual temperature here."""
    stated = place.stated
    as_written = from_canonical(stated.range.typical, stated.unit, Kind.TEMPERATURE)
    meant_c = to_canonical(-as_written, stated.unit, Kind.TEMPERATURE)
    if as_written >= 0 or not stated.range.known or not place.usual_low_c <= meant_c <= place.usual_high_c:
        return "", ()
    text = f"{number(-as_written, 6)} {stated.unit}"
    return f"; is it {text}", (another_text(place.path, text, f"{text} instead of {stated.text}"),)


def _places(brew: Brew, limits: Limits) -> Iterator[_Place]:
    recipe, never, coldest_c = brew.recipe, -300.0, limits.coldest_c
    mash, cooker, sparge = recipe.mash, recipe.cereal_mash, recipe.sparge
    above_boil, cold, ice = "above the boil", "no heat for a mash", "ice, not water"
    frozen = "below what wort or beer freezes at"
    rests = mash.rests if mash.known else ()
    warm = any(rest.at.known and rest.at.range.typical >= limits.coldest_mash_c for rest in rests)
    coldest = never if warm else limits.coldest_mash_c  # a cold dough-in before warmer rests is an old custom
    for rest in (*rests, *(cooker.rests if cooker.known else ())):
        for key, stated, low in (("at", rest.at, coldest), ("to", rest.to, never), ("of", rest.of, never)):
            if stated.known:
                path, words, never_c = (*rest.path, key), ice if key == "of" else cold, limits.coldest_rest_c
                yield _Place(path, stated, low, limits.boil_c, 35, 100, words, above_boil, never_c=never_c)
    if mash.strike.known:
        yield _Place(mash.strike.path, mash.strike, coldest, limits.boil_c, 40, 100, cold, above_boil)
    if mash.grain_temperature.known:
        path, stated, hot = mash.grain_temperature.path, mash.grain_temperature, "hotter than any grain store"
        yield _Place(path, stated, never, 60, 0, 40, "colder than any grain store", hot, Level.WARNING, coldest_c)
    if recipe.steep.at.known:
        yield _Place(recipe.steep.at.path, recipe.steep.at, never, limits.boil_c, 35, 100, ice, above_boil)
    if sparge.at.known:
        yield _Place(sparge.at.path, sparge.at, never, limits.boil_c, 40, 95, ice, above_boil)
    for hop in recipe.hops:
        if hop.at.known:
            path, low = hop.at.path, 10 if hop.dry.known else 30
            yield _Place(path, hop.at, never, limits.boil_c, low, 100, frozen, above_boil, never_c=coldest_c)
    dead = "hotter than any brewing yeast lives in"
    living = [((*step.path, key), at) for step in recipe.ferment for key, at in (("at", step.at), ("to", step.to))]
    living += [(yeast.at.path, yeast.at) for yeast in recipe.yeast]
    for path, stated in living:
        if stated.known:
            yield _Place(path, stated, limits.frozen_c, limits.dead_yeast_c, 3, 43, frozen, dead, never_c=coldest_c)
    package = recipe.package
    if package.at.known:
        path = package.at.path
        yield _Place(path, package.at, never, limits.boil_c, 0, 43, frozen, above_boil, never_c=coldest_c)
    for one in (one for day in recipe.measured for one in day.temperatures):
        if one.quantity.known:
            yield _Place(one.path, one.quantity, never, limits.boil_c, 0, 100, frozen, above_boil, never_c=coldest_c)
    for line in recipe.grist:
        if line.gelatinises.known:
            path, words = line.gelatinises.path, "no heat at which starch gelatinises"
            yield _Place(path, line.gelatinises, never, limits.boil_c, 45, 95, words, words, Level.WARNING)


def _times(brew: Brew, limits: Limits) -> Iterator[Finding]:
    recipe = brew.recipe
    mash, boil = recipe.mash, recipe.boil
    hot = [("rest", rest.time.path, rest.time) for rest in (mash.rests if mash.known else ()) if _warm(rest.at)]
    if boil.known:
        hot.append(("boil", boil.time.path, boil.time))
    hot += [("hop addition", hop.boil.path, hop.boil) for hop in recipe.hops]
    hot += [("hop stand", hop.whirlpool.path, hop.whirlpool) for hop in recipe.hops]
    for what, path, stated in hot:
        if stated.known and stated.range.typical > limits.longest_hot_min:
            yield _time(path, stated, f"a {what} of {stated.text} is longer than a day", "min")
    cold = [("fermentation step", step.time.path, step.time) for step in recipe.ferment]
    cold += [("dry hopping", hop.dry.path, hop.dry) for hop in recipe.hops]
    for what, path, stated in cold:
        if stated.known and stated.range.typical > limits.longest_cold_years * _MIN_IN_A_YEAR:
            years = f"{number(limits.longest_cold_years, 3)} years"
            yield Finding(path, Level.WARNING, f"a {what} of {stated.text} is longer than {years}", gap=1.0)
            continue
        if stated.known and stated.range.typical < limits.shortest_ferment_min and not _warm(_step_at(brew, path)):
            yield _time(path, stated, f"a {what} of {stated.text} is over before anything happens", "d")


_MIN_IN_A_YEAR = 365.25 * 24 * 60


def _ratings(brew: Brew, limits: Limits) -> Iterator[Finding]:
    """A rating that no bottle has would hide that the beer can burst those that there are."""
    package = brew.recipe.package
    rating = package.bottle_rating
    if not package.known or not rating.known:
        return
    most = limits.highest_rating_bar if rating.kind is Kind.PRESSURE else limits.strongest_bottle_volumes
    if rating.range.typical > most:
        bound = said(most, rating.unit, rating.kind)
        message = f"{rating.text} is more than any bottle is made for, at most about {bound}; read it off the bottle"
        yield Finding(package.bottle_rating.path, Level.ERROR, message, gap=gap(rating.range, most))


def _step_at(brew: Brew, path: Path) -> Stated:
    return next((step.at for step in brew.recipe.ferment if step.time.path == path), NOWHERE)


def _warm(at: Stated) -> bool:
    """Above the heat of a sour mash, in which grain may stand for days."""
    return at.known and at.range.typical > 50


def _time(path: Path, stated: Quantity, message: str, unit: str) -> Finding:
    text = same_number(stated, unit)
    knobs = (another_text(path, text, f"{text} instead of {stated.text}"),) if text else ()
    return Finding(path, Level.WARNING, f"{message}; is it {text}" if text else message, gap=1.0, knobs=knobs)


def _gravities(brew: Brew, limits: Limits) -> Iterator[Finding]:
    targets = brew.recipe.targets
    for key, stated in (
        ("og", targets.og),
        ("pre-boil-gravity", targets.pre_boil_gravity),
        ("first-wort-gravity", targets.first_wort_gravity),
    ):
        if not stated.known:
            continue
        points = (stated.range.typical - 1) * 1000
        weak, strong = points < limits.weakest_points, points > limits.strongest_points
        if not weak and not strong:
            continue
        degrees = points if stated.unit == "SG" else from_canonical(stated.range.typical, stated.unit, Kind.GRAVITY)
        factors = ((10.0, 100.0) if weak else (0.1,)) if stated.unit == "SG" else ((1.0,) if strong else ())
        meant = next((1 + degrees * factor / 1000 for factor in factors if 15 <= degrees * factor <= 130), None)
        path = (*targets.path, key)
        text = said(meant, "SG", Kind.GRAVITY) if meant is not None and stated.range.known else None
        knobs = (another_text(path, text, f"{text} instead of {stated.text}"),) if text else ()
        words = "hardly stronger than water" if weak else "stronger than any wort"
        asked = f"; is it {text}" if text else ""
        yield Finding(
            path,
            Level.WARNING if weak else Level.ERROR,
            f"a wort of {stated.text} is {words}{asked}",
            gap=1.0,
            knobs=knobs,
        )


def _degrees(brew: Brew, limits: Limits) -> Iterator[Finding]:
    """°Lintner and °Lovibond, which the trade both writes °L."""
    for line in brew.recipe.grist:
        entry = table_entry(line, brew.brewhouse)
        kind = line.kind or (entry.kind if entry is not None else "")
        power, colour = line.diastatic_power, line.colour
        if power.known and power.range.typical > limits.most_lintner:
            yield _too_strong(line, power, limits.most_lintner)
            continue
        if power.known and entry is not None and (found := _too_weak(line, power, entry)) is not None:
            yield found
            continue
        dark = kind in (IngredientKind.CARAMEL_MALT, IngredientKind.ROASTED_MALT)
        if dark and power.known and power.range.typical > limits.caramel_lintner:
            path = line.diastatic_power.path
            text = same_number(power, "°Lovibond") if power.unit == "°Lintner" and not colour.known else None
            edits = (Edit(path, "0 °Lintner"), Edit(line.colour.path, text or ""))
            asked = f"; is {text} its colour" if text else ""
            knobs = (one_change(edits, f"colour: {text}, and no diastatic power"),) if text else ()
            message = f"{line.name} has no enzymes, so {power.text} cannot be its diastatic power{asked}"
            yield Finding(path, Level.WARNING, message, gap=1.0, knobs=knobs)
        if kind == IngredientKind.BASE_MALT and colour.known and colour.range.typical > limits.base_malt_lovibond:
            path = line.colour.path
            text = same_number(colour, "°Lintner") if not power.known and colour.range.typical <= 250 else None
            usual = entry.colour_lovibond if entry is not None else None
            knobs = ()
            if text and usual is not None:
                pale = said(usual.typical, colour.unit, colour.kind)
                edits = (Edit(path, pale), Edit(line.diastatic_power.path, text))
                knobs = (one_change(edits, f"diastatic-power: {text}, and a colour of {pale}"),)
            asked = f"; is {text} its diastatic power" if text else ""
            message = f"{colour.text} is the colour of a dark malt, not of {line.name}{asked}"
            yield Finding(path, Level.WARNING, message, gap=1.0, knobs=knobs)
        elif colour.known and entry is not None and entry.colour_lovibond is not None and kind in MALTS:
            yield from _another_colour(brew, line, colour, entry.colour_lovibond, kind, limits)


def _too_weak(line: GristLine, power: Quantity, entry: Fermentable) -> Finding | None:
    """A malt with next to no enzymes whose stated power is the number of its colour."""
    usual, colour = entry.power_lintner, entry.colour_lovibond
    if usual is None or colour is None or entry.kind != IngredientKind.BASE_MALT or line.colour.known:
        return None
    if not power.range.known or power.unit != "°Lintner" or power.range.typical * _FAR_WEAKER > usual.low:
        return None
    if not colour.low / _FAR_WEAKER <= power.range.typical <= colour.high * 2:
        return None
    path = line.diastatic_power.path
    text = same_number(power, "°Lovibond") or ""
    usually = said(usual.typical, "°Lintner", Kind.DIASTATIC_POWER)
    edits = (Edit(path, usually), Edit(line.colour.path, text))
    message = f"{power.text} is far less than any {line.name} has; did you mean its colour, {text}?"
    knobs = (one_change(edits, f"colour: {text}, and diastatic-power: {usually}"),) if text else ()
    return Finding(path, Level.WARNING, message, gap=1.0, knobs=knobs)


_FAR_WEAKER = 4  # times; judgement: no lot of base malt is so far below its kind


def _another_colour(
    brew: Brew, line: GristLine, colour: Quantity, usual: Range, kind: str, limits: Limits
) -> Iterator[Finding]:
    """A colour that no malt of this name has."""
    if kind == IngredientKind.CARAMEL_MALT and not any(sign.isdigit() for sign in line.name):
        return  # the name says no colour, so the table's is no more than the usual one
    have, times, apart = colour.range, limits.other_colour_times, limits.colour_apart_lovibond
    dark = have.low > max(times * usual.high, usual.high + apart) or _ebc_for_lovibond(colour, usual)
    pale = have.high * times < usual.low and have.high + apart < usual.low
    if not dark and not pale:
        return
    path = as_written(brew, line.colour.path)
    text = _ordinary_colour(colour, usual)
    what = "darker" if dark else "paler"
    low, high = (from_canonical(end, colour.unit, colour.kind) for end in (usual.low, usual.high))
    band = f"{number(low, 3)}-{number(high, 3)} {colour.unit}"
    near = f"{number(from_canonical(usual.typical, colour.unit, colour.kind), 3)} {colour.unit}"
    asked = f"; is it {text}" if text else ""
    message = f"{colour.text} is much {what} than {line.name} is, {band}{asked}"
    instead = text or near
    yield Finding(
        path,
        Level.WARNING,
        message,
        gap=round(abs(have.typical - usual.typical) / usual.typical, 4),
        knobs=(another_text(path, instead, f"{instead} instead of {colour.text}"),),
    )


def _ebc_for_lovibond(colour: Quantity, usual: Range) -> bool:
    """Whether the number is too dark in °Lovibond and right in EBC, which is about twice as many."""
    if colour.unit != "°Lovibond" or not colour.range.known:
        return False
    if colour.range.low <= max(usual.high * _DARKER, usual.high + _DARKER_LOVIBOND):
        return False
    return usual.low <= to_canonical(colour.range.typical, "EBC", colour.kind) <= usual.high


_DARKER, _DARKER_LOVIBOND = 1.4, 50.0  # times and degrees; judgement: lots of one malt differ by less


def _ordinary_colour(colour: Quantity, usual: Range) -> str:
    """The number in another unit, or with its point shifted, where that is this malt's colour; else nothing."""
    if not colour.range.known:
        return ""
    written = from_canonical(colour.range.typical, colour.unit, colour.kind)
    for factor, unit in ((0.1, colour.unit), (10, colour.unit), (1, "°Lovibond"), (1, "EBC")):
        if usual.low <= to_canonical(written * factor, unit, colour.kind) <= usual.high:
            return f"{number(written * factor, 6)} {unit}"
    return ""


def _too_strong(line: GristLine, power: Quantity, most: float) -> Finding:
    path = line.diastatic_power.path
    meant = f"{number(from_canonical(power.range.typical, power.unit, power.kind), 6)} °WK"
    lintner = to_canonical(from_canonical(power.range.typical, power.unit, power.kind), "°WK", Kind.DIASTATIC_POWER)
    asked, knobs = "", tuple[Knob, ...]()
    if power.range.known and power.unit != "°WK" and 20 <= lintner <= most:
        asked = f"; is it {meant} (about {number(lintner, 2)} °Lintner)"
        knobs = (another_text(path, meant, f"{meant} instead of {power.text}"),)
    message = f"{power.text} is more than any malt has, {number(most)} °Lintner at the most{asked}"
    return Finding(path, Level.ERROR, message, gap=1.0, knobs=knobs)


def _shares(brew: Brew, limits: Limits) -> Iterator[Finding]:
    lines = brew.recipe.grist
    shares = [line.share.range for line in lines if line.share.known]
    if not shares:
        return
    weighed = next((line for line in lines if line.weight.known), None)
    if weighed is not None:
        message = "some lines of the grist have a weight and others a share; give all of them the one or the other"
        yield Finding(brew.recipe.grist.path, Level.WARNING, message, gap=1.0)
        return
    if len(shares) < len(lines):
        return
    if not brew.recipe.targets.og.mentioned:
        message = "shares need a target OG to become weights; write targets: {og: ...}, or weights in their place"
        yield Finding(brew.recipe.grist.path, Level.WARNING, message, gap=1.0)
    low, total, high = (sum(ends) for ends in zip(*((one.low, one.typical, one.high) for one in shares), strict=True))
    if high < 100 - limits.share_sum_percent or low > 100 + limits.share_sum_percent:
        message = f"the shares of the grist add up to {number(total, 4)} %, not 100 %"
        missed = round(abs(total - 100) / 100, 4)
        yield Finding(brew.recipe.grist.path, Level.WARNING, message, gap=missed, knobs=_rest_of_it(brew, 100 - total))


def _rest_of_it(brew: Brew, missing: float) -> tuple[Knob, ...]:
    """The largest line made what the others leave."""
    largest = max(brew.recipe.grist, key=lambda line: line.share.range.typical if line.share.known else 0.0)
    stated = largest.share
    if not stated.known or not stated.range.known or not 0 < stated.range.typical + missing <= 100:
        return ()
    return (stated_instead(largest.share.path, stated, stated.range.typical + missing, f"{largest.name}:"),)


SOUND = """\
recipe: Ferry Stage Amber
by: Saltmarsh Lane Mash Circle
batch: 20 l
grist:
  - {grain: two-row pale malt, weight: 4 kg}
  - {grain: caramel malt 60, weight: 400 g}
mash:
  rests:
    - {at: 66 °C, for: 60 min}
"""
FAULTY = Example(
    """\
recipe: Ferry Stage Amber
by: Saltmarsh Lane Mash Circle
batch: 20 l
grist:
  - {grain: two-row pale malt, weight: 4 kg}
  - {grain: caramel malt 60, weight: 400 g, diastatic-power: 60 °Lintner}
mash:
  rests:
    - {at: 66 °C, for: 60 min}
""",
    "warning",
    6,
    62,
    "caramel malt 60 has no enzymes, so 60 °Lintner cannot be its diastatic power; is 60 °Lovibond its colour",
)
