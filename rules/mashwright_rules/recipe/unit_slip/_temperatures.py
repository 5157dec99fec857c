"""Temperatures: Fahrenheit for Celsius, a minus too many, and what cannot be where it stands."""

from collections.abc import Iterator
from typing import NamedTuple

from mashwright.brew import Brew, number
from mashwright.knobs import Knob, another_text, same_number
from mashwright.measures import Kind, Quantity, bounds, from_canonical, said, to_canonical
from mashwright.rule import Finding, Level, Path, Say, say
from mashwright.words.sentences import Measure
from mashwright_rules.recipe.unit_slip._limits import Limits


class Place(NamedTuple):
    """A temperature, where it stands, what it can be, and what it is usually, °C; the usual by common practice.

    ``too_low`` and ``too_high`` are sentences. Below ``low_c`` it is told where another unit makes it a usual one,
    below ``never_c`` always.
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


def temperatures(brew: Brew, limits: Limits) -> Iterator[Finding]:
    """Heat that no mash, hop, yeast or vessel has."""
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
        sentence = place.too_high if hot else place.too_low
        yield Finding(
            place.path,
            place.too_high_is if hot else Level.ERROR if never and place.never_c > limits.coldest_c else Level.WARNING,
            say(sentence, temperature=place.stated).and_then(asked),
            gap=round(abs(typical - (place.high_c if hot else place.never_c if never else place.low_c)) / 100, 3),
            knobs=knobs,
        )


def _other_degrees(place: Place) -> tuple[Say | None, tuple[Knob, ...]]:
    stated = place.stated
    other = {"°C": "°F", "°F": "°C"}.get(stated.unit)
    text = same_number(stated, other) if other else None
    if other is None or text is None:
        return None, ()
    as_written = from_canonical(stated.range.typical, stated.unit, Kind.TEMPERATURE)
    meant_c = as_written if other == "°C" else (as_written - 32) * 5 / 9
    if not place.usual_low_c <= meant_c <= place.usual_high_c:
        return None, ()
    asked = say("is-it", meant=text)
    if other == "°F":
        asked = say("is-it-in-fahrenheit", meant=text, celsius=said(meant_c, "°C", Kind.TEMPERATURE))
    return asked, (another_text(place.path, text, f"use {text} instead of {stated.text}"),)


def _other_sign(place: Place) -> tuple[Say | None, tuple[Knob, ...]]:
    """The number without its sign, where that is a usual temperature here."""
    stated = place.stated
    as_written = from_canonical(stated.range.typical, stated.unit, Kind.TEMPERATURE)
    meant_c = to_canonical(-as_written, stated.unit, Kind.TEMPERATURE)
    if as_written >= 0 or not stated.range.known or not place.usual_low_c <= meant_c <= place.usual_high_c:
        return None, ()
    text = Measure(f"{number(-as_written, 6)} {stated.unit}", -as_written, stated.unit)
    return say("is-it", meant=text), (another_text(place.path, text, f"use {text} instead of {stated.text}"),)


_NEVER_C = -300.0  # below all that can be written: it is not asked about
_ABOVE_BOIL, _COLD, _ICE, _FROZEN = "above-the-boil", "no-heat-for-a-mash", "ice", "frozen"


def _places(brew: Brew, limits: Limits) -> Iterator[Place]:
    yield from _in_mash_and_sparge(brew, limits)
    yield from _behind_the_kettle(brew, limits)
    for line in brew.recipe.grist:
        if line.gelatinises.known:
            path, no = line.gelatinises.path, "gelatinises"
            yield Place(path, line.gelatinises, _NEVER_C, limits.boil_c, 45, 95, no, no, Level.WARNING)


def _in_mash_and_sparge(brew: Brew, limits: Limits) -> Iterator[Place]:
    recipe = brew.recipe
    mash, cooker, sparge = recipe.mash, recipe.cereal_mash, recipe.sparge
    rests = mash.rests if mash.known else ()
    warm = any(rest.at.known and rest.at.range.typical >= limits.coldest_mash_c for rest in rests)
    coldest = _NEVER_C if warm else limits.coldest_mash_c  # a cold dough-in before warmer rests is an old custom
    for rest in (*rests, *(cooker.rests if cooker.known else ())):
        for key, stated, low in (("at", rest.at, coldest), ("to", rest.to, _NEVER_C), ("of", rest.of, _NEVER_C)):
            if stated.known:
                path, low_is, never_c = (*rest.path, key), _ICE if key == "of" else _COLD, limits.coldest_rest_c
                yield Place(path, stated, low, limits.boil_c, 35, 100, low_is, _ABOVE_BOIL, never_c=never_c)
    if mash.strike.known:
        yield Place(mash.strike.path, mash.strike, coldest, limits.boil_c, 40, 100, _COLD, _ABOVE_BOIL)
    if mash.grain_temperature.known:
        path, stated, coldest_c = mash.grain_temperature.path, mash.grain_temperature, limits.coldest_c
        yield Place(path, stated, _NEVER_C, 60, 0, 40, "cold-grain", "hot-grain", Level.WARNING, coldest_c)
    if recipe.steep.at.known:
        yield Place(recipe.steep.at.path, recipe.steep.at, _NEVER_C, limits.boil_c, 35, 100, _ICE, _ABOVE_BOIL)
    for at in [one.at for one in recipe.sparges or (sparge,)]:
        if not at.known:
            continue
        yield Place(at.path, at, _NEVER_C, limits.boil_c, 40, 95, _ICE, _ABOVE_BOIL)


def _behind_the_kettle(brew: Brew, limits: Limits) -> Iterator[Place]:
    recipe, boil_c, coldest_c = brew.recipe, limits.boil_c, limits.coldest_c
    for hop in recipe.hops:
        for at in (hop.at, hop.to):
            if at.known:
                low = 10 if hop.dry.known else 30
                yield Place(at.path, at, _NEVER_C, boil_c, low, 100, _FROZEN, _ABOVE_BOIL, never_c=coldest_c)
    living = [((*step.path, key), at) for step in recipe.ferment for key, at in (("at", step.at), ("to", step.to))]
    living += [(yeast.at.path, yeast.at) for yeast in recipe.yeast]
    for path, stated in living:
        if stated.known:
            dead_c, frozen_c = limits.dead_yeast_c, limits.frozen_c
            yield Place(path, stated, frozen_c, dead_c, 3, 43, _FROZEN, "dead-yeast", never_c=coldest_c)
    souring = recipe.souring.at
    if souring.known:
        yield Place(souring.path, souring, _NEVER_C, boil_c, 10, 60, _FROZEN, _ABOVE_BOIL, never_c=coldest_c)
    for at in (at for one in recipe.packages for at in (one.at, one.spund.at)):
        if at.known:
            yield Place(at.path, at, _NEVER_C, boil_c, 0, 43, _FROZEN, _ABOVE_BOIL, never_c=coldest_c)
    for one in (one for day in recipe.measured for one in day.temperatures):
        if one.quantity.known:
            yield Place(one.path, one.quantity, _NEVER_C, boil_c, 0, 100, _FROZEN, _ABOVE_BOIL, never_c=coldest_c)
