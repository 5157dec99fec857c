"""The sulfite that goes in with the additions and the salts."""

from collections.abc import Iterator
from dataclasses import dataclass

from mashwright.brewing.sulfite import TABLET_G, sulfur_dioxide_mg
from mashwright.figures.brew import Brew
from mashwright.finding import Path
from mashwright.ingredients.allergens import is_sulfite
from mashwright.ingredients.cautions import words_of
from mashwright.reading.quantity import Quantity


@dataclass(frozen=True, slots=True)
class Dose:
    """One thing that gives sulfite.

    Attributes:
        path: where its name or its amount stands.
        text: its amount and name, as a brewer says them.
        so2_mg: all sulfur dioxide that it can give, mg; None where no amount is said.
    """

    path: Path
    text: str
    so2_mg: float | None


def sulfite(brew: Brew) -> tuple[Dose, ...]:
    """Every thing that gives sulfite, in the recipe's order; what is bound or driven off is not taken from it."""
    return tuple(
        _dose(path, name, weight, count) for path, name, weight, count in _named(brew) if name and is_sulfite(name)
    )


def _named(brew: Brew) -> Iterator[tuple[Path, str, Quantity | None, Quantity | None]]:
    recipe = brew.recipe
    for holder in (recipe.mash, recipe.sparge, recipe.boil):
        for salt in holder.salts if holder is not None else ():
            yield salt.path, salt.name, salt.quantity, None
    for one in recipe.additions:
        yield (*one.path, "what"), one.what, one.weight, one.count


def _dose(path: Path, name: str, weight: Quantity | None, count: Quantity | None) -> Dose:
    said = words_of(name)
    if weight is not None:
        # unnamed, the salt of potassium is meant, as brewers buy it; common practice
        so2_mg = sulfur_dioxide_mg(weight.range.typical, sodium="sodium" in said)
        return Dose(path, f"{weight.text} of {name}", so2_mg)
    if count is not None and not said.isdisjoint(("campden", "tablet")):
        so2_mg = sulfur_dioxide_mg(count.range.typical * TABLET_G / 1000, sodium="potassium" not in said)
        return Dose(path, f"{count.text} {name}", so2_mg)
    return Dose(path, name, None)
