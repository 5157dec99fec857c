"""What the water states of an ion, what the salts bring of it, and where either stands."""

from mashwright.brew import Brew
from mashwright.figures.water import Dose, ions_in_kettle, liquor, tap_water
from mashwright.knobs import as_written
from mashwright.measures import Range
from mashwright.rule import Evidence, Open, Path, Unknown


def _told_of(brew: Brew) -> bool:
    """Whether recipe or brewhouse says anything of the water.

    Raises:
        Unknown: it stands there but cannot be read.
    """
    try:
        tap_water(brew)
    except Open:
        raise
    except Unknown:
        return False
    return True


def of_recipe(brew: Brew) -> bool:
    """Whether the recipe itself says anything of its water."""
    return _told_of(brew) and tap_water(brew).of_recipe


def stated_ion(brew: Brew, ion: str) -> Range | None:
    """What the water states of an ion, mg/l."""
    return tap_water(brew).ions.get(ion) if _told_of(brew) else None


def in_beer(brew: Brew, ion: str) -> Range | None:
    """An ion in all the water, mg/l: where the water does not state it, what the salts bring; None without either."""
    if stated_ion(brew, ion) is not None:
        return ions_in_kettle(brew).get(ion)
    added = liquor(brew).in_kettle(ion)
    return added if added.typical > 0 else None


def place(brew: Brew, ion: str) -> Path:
    """The salt that brings most of an ion, or the water."""
    doses = [dose for dose in all_salts(brew) if ion in dose.gives]
    if doses and by_salts(brew, ion):
        return max(doses, key=lambda dose: dose.gives[ion].typical).amount.path
    if of_recipe(brew):
        return as_written(brew, ("water", ion))
    return max(all_salts(brew), key=lambda dose: sum(one.typical for one in dose.gives.values())).amount.path


def all_salts(brew: Brew) -> tuple[Dose, ...]:
    """Every salt of mash, sparge and boil."""
    put_in = liquor(brew)
    return (*put_in.mash, *put_in.sparge, *put_in.kettle)


def by_salts(brew: Brew, ion: str) -> bool:
    """Whether the salts bring more of an ion than the water itself."""
    stated = stated_ion(brew, ion)
    return liquor(brew).in_kettle(ion).typical > (stated.typical if stated is not None else 0.0)


def rows(brew: Brew, ion: str) -> tuple[Evidence, ...]:
    """What brings an ion, as rows of evidence."""
    stated = stated_ion(brew, ion)
    water = (Evidence(f"{ion} of the water", stated.typical, "mg/l"),) if stated is not None else ()
    salts = (
        Evidence(
            f"{dose.amount.name}, {dose.quantity.text}",
            dose.gives[ion].typical,
            f"mg of {ion}",
            dose.amount.path,
        )
        for dose in all_salts(brew)
        if ion in dose.gives
    )
    return (*water, *salts)
