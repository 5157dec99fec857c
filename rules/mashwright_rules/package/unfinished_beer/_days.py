"""How long a wort usually ferments, and how long this one is said to."""

from mashwright.brew import Brew
from mashwright.brew import degrees as degrees_in
from mashwright.brew import kinds as yeast_kinds
from mashwright.brewing.yeast import fermenting_days
from mashwright.figures.beer import wort_strength, yeast_class
from mashwright.ingredients.kinds import YeastSort
from mashwright.measures.constants import MIN_PER_DAY
from mashwright.rule import Unknown


def sort_of_yeast(brew: Brew) -> str:
    """The sort of yeast by its haste; an unknown one may be as quick as kveik."""
    known = yeast_kinds(brew)
    if any(one is None or one.quick for one in known):
        return "kveik"
    if any(one is not None and one.surely_splits for one in known):
        return "diastatic"
    return "lager" if yeast_class(brew) == YeastSort.LAGER else "ale"


def usual_days(brew: Brew, sort: str) -> tuple[float, str]:
    """Days that such a wort usually needs with this yeast at this temperature, and the wort in words."""
    try:
        strength, text = wort_strength(brew)
        og, wort = strength.typical, f"a wort of {text}"
    except Unknown:
        og, wort = 1.0, "a wort"
    at = next((step.at for step in brew.recipe.ferment if step.at.known), None)
    known = yeast_kinds(brew)
    middles = [(one.temperature_c.low + one.temperature_c.high) / 2 for one in known if one is not None]
    if at is None:
        return fermenting_days(sort, og), wort
    cold_c = min(middles) - at.range.typical if middles else 0.0
    return fermenting_days(sort, og, max(0.0, cold_c)), f"{wort} at {degrees_in(brew, at.range.typical)}"


def awake_days(brew: Brew, coldest_c: float) -> float:
    """Days of the steps that are not all below a temperature; one without a temperature counts."""
    minutes = 0.0
    for step in brew.recipe.ferment:
        ends = [end.range.high for end in (step.at, step.to) if end.known]
        if step.time.known and (not ends or max(ends) >= coldest_c):
            minutes += step.time.range.high
    return minutes / MIN_PER_DAY
