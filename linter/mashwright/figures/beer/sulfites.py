"""The sulfite that goes in with the additions and the salts, and what of it the beer may hold."""

from collections.abc import Iterator

from msgspec import Struct

from mashwright.brew.brew import Brew
from mashwright.brewing.sulfite import TABLET_G, USED_UP_IN_WATER_G_PER_L, sulfur_dioxide_mg
from mashwright.figures.kettle import total_liquor
from mashwright.figures.mash import fermenter_volume
from mashwright.finding import Path
from mashwright.ingredients.allergens import is_sulfite
from mashwright.recipe.stated import NOWHERE, Stated, Unknown
from mashwright.words.vocabulary import mentions
from mashwright.words.when import when

# Brewing water to a litre of beer, where the recipe does not let it be reckoned; common practice.
_WATER_PER_BEER = 1.4


class Dose(Struct, frozen=True, gc=False):
    """One thing that gives sulfite.

    Attributes:
        path: where its name or its amount stands.
        text: its amount and name, as a brewer says them.
        so2_mg: all sulfur dioxide that it can give the beer, mg; None where no amount is said.
        in_water: it goes into the brewing water, where little of it outlives mash and boil.
    """

    path: Path
    text: str
    so2_mg: float | None
    in_water: bool


def sulfite(brew: Brew) -> tuple[Dose, ...]:
    """Every thing that may leave sulfite in the beer, in the recipe's order.

    What goes into the brewing water counts only beyond what water, mash and boil use up; where it is no more than that,
    or no amount is said, it is left out. Of the rest nothing is taken off for what is bound or driven off.
    """
    found = []
    for path, name, weight, count, in_water in _named(brew):
        if name and is_sulfite(name):
            text, kg, so2_mg = _amount(name, weight, count)
            if in_water:
                left = max(0.0, 1 - _used_up_kg(brew) / kg) if kg else 0.0
                so2_mg = so2_mg * left if so2_mg is not None else 0.0
            if not in_water or so2_mg:
                found.append(Dose(path, text, so2_mg, in_water))
    return tuple(found)


def _named(brew: Brew) -> Iterator[tuple[Path, str, Stated, Stated, bool]]:
    recipe = brew.recipe
    for holder in (recipe.mash, recipe.sparge, recipe.boil):
        for salt in holder.salts if holder.known else ():
            yield salt.path, salt.name, salt.quantity, NOWHERE, holder is not recipe.boil
    for one in recipe.additions:
        yield one.what.path, one.what, one.weight, one.count, when(one.when).in_water


def _amount(name: str, weight: Stated, count: Stated) -> tuple[str, float, float | None]:
    """What a brewer says, the weight in kg, and its sulfur dioxide in mg, None where no amount is said."""
    if weight.known:
        # unnamed, the salt of potassium is meant, as brewers buy it; common practice
        kg = weight.range.typical
        return f"{weight.text} of {name}", kg, sulfur_dioxide_mg(kg, sodium=mentions("of-sodium", "ingredient", name))
    if count.known and mentions("tablet", "ingredient", name):
        kg = count.range.typical * TABLET_G / 1000
        sodium = not mentions("of-potassium", "ingredient", name)
        return f"{count.text} {name}", kg, sulfur_dioxide_mg(kg, sodium=sodium)
    return name, 0.0, None


def _used_up_kg(brew: Brew) -> float:
    """Metabisulfite that the brewing water uses up, kg."""
    try:
        litres = total_liquor(brew).typical
    except Unknown:
        litres = _WATER_PER_BEER * fermenter_volume(brew)[0].typical
    return USED_UP_IN_WATER_G_PER_L * litres / 1000
