"""The brewing waters of a recipe with what is put into them: salts and acids by weight, counted into their volumes."""

from collections.abc import Iterable
from functools import partial

from msgspec import Struct, field

from mashwright.brew.brew import Brew
from mashwright.brew.once import once
from mashwright.brew.pours import absorption, dead_space, in_the_tun, less, weight_kg
from mashwright.brewing.acids import ACIDS, meq_per_g, meq_per_ml
from mashwright.brewing.water import IONS, USUAL_MAGNESIUM_MG_L, residual_alkalinity_meq_l, salt_gives
from mashwright.figures.mash import mash_water
from mashwright.finding import Path
from mashwright.ingredients.kinds import SpargeBy
from mashwright.ingredients.minerals import acid as known_acid
from mashwright.ingredients.minerals import salt as known_salt
from mashwright.measures.constants import BICARBONATE_MG_PER_MEQ, CACO3_MG_PER_MEQ
from mashwright.measures.quantity import Kind
from mashwright.measures.range import Range
from mashwright.recipe.model import Amount, Water
from mashwright.recipe.stated import Said, Unknown

Gives = dict[str, Range]
"""mg by ion, and ``alkalinity`` in mEq: of a whole water, or in 1 l of it."""

# Kettle full before the boil over the batch, where no boil volume is stated; common practice.
KETTLE_OVER_BATCH = Range(1.1, 1.25, 1.4)
_NOTHING = Range.exact(0.0)


class Tap(Struct, frozen=True, gc=False):
    """The water before anything is put in, diluted as the recipe says.

    Attributes:
        ions: mg/l by ion, as far as they are stated; bicarbonate apart.
        alkalinity_meq_l: None where neither alkalinity nor bicarbonate is stated.
        of_recipe: stated in the recipe itself and not in its brewhouse.
    """

    ions: Gives
    alkalinity_meq_l: Range | None
    of_recipe: bool
    assumed: tuple[str, ...]
    paths: tuple[Path, ...]


class Dose(Struct, frozen=True, gc=False):
    """One salt or acid as it is counted.

    Attributes:
        known: its name among the salts or acids that are counted.
        quantity: of it, which is stated.
        gives: what all of it brings.
    """

    amount: Amount
    known: str
    quantity: Said
    gives: Gives


class Liquor(Struct, frozen=True, gc=False):
    """What is put into the waters.

    Attributes:
        mash_l, sparge_l, kettle_l: volumes; None where the recipe does not say. The kettle's is that before the boil.
        mash, sparge, kettle: salts by the water that they go into.
        mash_acids, sparge_acids: acids likewise; acidulated malt apart.
        uncounted: salts that cannot be counted, since the volume of their water is not known.
    """

    mash_l: Range | None
    sparge_l: Range | None
    kettle_l: Range | None
    mash: tuple[Dose, ...] = ()
    sparge: tuple[Dose, ...] = ()
    kettle: tuple[Dose, ...] = ()
    mash_acids: tuple[Dose, ...] = ()
    sparge_acids: tuple[Dose, ...] = ()
    uncounted: tuple[Amount, ...] = ()
    assumed: tuple[str, ...] = field(default=())

    def in_mash(self, what: str) -> Range:
        """What the salts add to 1 l of mash water: mg of an ion, or mEq of ``alkalinity``."""
        return per_litre(_total(self.mash, what), self.mash_l)

    def in_kettle(self, what: str) -> Range:
        """What the salts add to 1 l of all the wort before the boil."""
        into_tun = summed((_total(self.mash, what), _total(self.sparge, what)))
        tun_l = summed(one for one in (self.mash_l, self.sparge_l) if one is not None)
        return summed(
            (per_litre(into_tun, tun_l), per_litre(_total(self.kettle, what), self.kettle_l)),
        )


def per_litre(amount: Range, volume_l: Range | None) -> Range:
    """An amount in 1 l of a volume; nothing in no volume."""
    if not amount.high or volume_l is None or volume_l.low <= 0:
        return _NOTHING
    return Range(amount.low / volume_l.high, amount.typical / volume_l.typical, amount.high / volume_l.low)


def summed(values: Iterable[Range]) -> Range:
    """Independent values added up; most sums here are of one thing and nothing."""
    some = [value for value in values if value.low or value.high]
    if len(some) < 2:
        return some[0] if some else _NOTHING
    return Range.weighted_sum([(value, 1.0) for value in some])


def _total(doses: tuple[Dose, ...], what: str) -> Range:
    return summed(dose.gives[what] for dose in doses if what in dose.gives)


@once
def tap_water(brew: Brew) -> Tap:
    """The water as it comes, by the recipe, else by its brewhouse.

    Raises:
        Unknown: neither says anything of it, or what it says cannot be read.
    """
    own, house = brew.recipe.water, brew.brewhouse.water
    own.readable("a readable water")
    water = own if _states_ions(own) else house
    dilution = own.dilution
    if not dilution.known and water.known and water is house:
        dilution = house.dilution
    if not water.known or not _states_ions(water):
        if not dilution.known or dilution.range.low < 100:
            raise Unknown("what is dissolved in the water", brew.recipe.water.path)
        water = Water(brew.recipe.water.path)  # distilled water alone
    share = (100 - dilution.range.typical) / 100 if dilution.known else 1.0
    stated = {ion: getattr(water, ion) for ion in IONS if ion != "bicarbonate"}
    if share <= 0:
        ions: Gives = dict.fromkeys(stated, _NOTHING)
        alkalinity: Range | None = _NOTHING
    else:
        ions = {ion: quantity.range * share for ion, quantity in stated.items() if quantity.known}
        alkalinity = None
        if water.alkalinity.known:
            alkalinity = water.alkalinity.range * (share / CACO3_MG_PER_MEQ)
        elif water.bicarbonate.known:
            alkalinity = water.bicarbonate.range * (share / BICARBONATE_MG_PER_MEQ)
    assumed: tuple[str, ...] = (
        () if water is own or share <= 0 else ("the brewhouse's water, since the recipe states none",)
    )
    if dilution.known and share > 0:
        assumed += (f"{dilution.text} of it distilled water",)
    return Tap(ions, alkalinity, water is not house, assumed, (brew.recipe.water.path,) if own.known else ())


def _states_ions(water: Water) -> bool:
    names = (*IONS, "alkalinity")
    return any(getattr(water, name).known for name in names)


@once
def liquor(brew: Brew) -> Liquor:
    """What is put into the waters of a recipe, and how much water each is.

    Raises:
        Unknown: an amount or a volume stands there that cannot be read.
    """
    recipe = brew.recipe
    mash, sparge, boil = recipe.mash, recipe.sparge, recipe.boil
    for one in (*mash.salts, *mash.acid, *sparge.salts, *sparge.acid, *boil.salts):
        one.quantity.readable(f"a readable weight of {one.name}")
    found = mash_water(brew)
    mash_l = found[0] if found is not None and found[0].low > 0 else None
    salts_mash = _salts(mash.salts if mash.known else ())
    salts_sparge = _salts(sparge.salts if sparge.known else ())
    salts_kettle = _salts(boil.salts if boil.known else ())
    acids_mash = _acids(mash.acid if mash.known else ())
    acids_sparge = _acids(sparge.acid if sparge.known else ())
    if not (salts_mash or salts_sparge or salts_kettle or acids_mash or acids_sparge):
        return Liquor(mash_l, None, None)
    assumed: list[str] = []
    kettle_l = _kettle_l(brew, assumed)
    sparge_l = _sparge_l(brew, mash_l, kettle_l, assumed)
    uncounted = tuple(
        dose.amount
        for doses, volume in ((salts_mash, mash_l), (salts_sparge, sparge_l), (salts_kettle, kettle_l))
        for dose in doses
        if volume is None
    )
    if uncounted:
        names = ", ".join(amount.name for amount in uncounted)
        assumed.append(f"{names} left out, since the volume of that water is not stated")
    return Liquor(
        mash_l,
        sparge_l,
        kettle_l,
        salts_mash if mash_l is not None else (),
        salts_sparge if sparge_l is not None else (),
        salts_kettle if kettle_l is not None else (),
        acids_mash,
        acids_sparge,
        uncounted,
        tuple(assumed),
    )


def _kettle_l(brew: Brew, assumed: list[str]) -> Range | None:
    boil = brew.recipe.boil
    if boil.volume.known:
        return boil.volume.range if boil.volume.range.low > 0 else None
    stated = brew.batch
    if not stated.known or stated.range.low <= 0:
        return None
    assumed.append("a kettle filled with 1.25 times the batch (1.1 to 1.4), since no boil volume is stated")
    return stated.range.times(KETTLE_OVER_BATCH)


def _sparge_l(brew: Brew, mash_l: Range | None, kettle_l: Range | None, assumed: list[str]) -> Range | None:
    """All water that is not in the mash: of the sparge, or what fills the kettle up."""
    sparge, top_up = brew.recipe.sparge, brew.recipe.top_up
    added = top_up.kettle.range if top_up.kettle.known else _NOTHING
    if sparge.water.known:
        return summed((sparge.water.range, added))
    if sparge.known and sparge.by == SpargeBy.NONE:
        return added
    if mash_l is None or kettle_l is None:
        return None
    try:
        grain_kg = weight_kg(in_the_tun(brew))
    except Unknown:
        return added
    filled = kettle_l + absorption(brew)[0] * grain_kg + dead_space(brew)[0]
    rest = less(filled, mash_l)
    if rest.high > 0:
        assumed.append("the rest of the kettle filled with the same water")
    return rest


def _salts(amounts: tuple[Amount, ...]) -> tuple[Dose, ...]:
    doses = []
    for amount in amounts:
        known = known_salt(amount.name)
        if known is None or known == "uncounted" or not amount.quantity.known or amount.quantity.kind is not Kind.MASS:
            continue
        grams = amount.quantity.range * 1000
        gives = {what: grams.times(one) for what, one in salt_gives(known).items()}
        doses.append(Dose(amount, known, amount.quantity, gives))
    return tuple(doses)


def _acids(amounts: tuple[Amount, ...]) -> tuple[Dose, ...]:
    doses = []
    for amount in amounts:
        found = known_acid(amount.name)
        if found is None or found[0] not in ACIDS or not amount.quantity.known:
            continue
        known, percent = found
        quantity = amount.quantity
        strengths = ACIDS[known].percents if percent is None else Range.exact(percent)
        by_volume = quantity.kind is not Kind.MASS
        if by_volume and ACIDS[known].density is None:
            continue
        strength = strengths.map(partial(meq_per_ml if by_volume else meq_per_g, known))
        doses.append(Dose(amount, known, quantity, {"acid": (quantity.range * 1000).times(strength)}))
    return tuple(doses)


def acid_meq(doses: tuple[Dose, ...]) -> Range:
    """All the acid in some doses, mEq."""
    return _total(doses, "acid")


class MashWater(Struct, frozen=True, gc=False):
    """The water in the mash, as far as it is known.

    Attributes:
        residual_meq_l: residual alkalinity with the salts, before any acid.
        of_tap_meq_l: that of the water as it comes.
        acid_meq_l: mEq of acid in 1 l of it; None without acid or without a stated volume.
    """

    calcium_mg_l: Range
    magnesium_mg_l: Range
    alkalinity_meq_l: Range
    residual_meq_l: Range
    of_tap_meq_l: Range
    acid_meq_l: Range | None
    assumed: tuple[str, ...]


def water_in_mash(brew: Brew) -> MashWater:
    """What the pH of the mash depends on.

    Raises:
        Unknown: alkalinity or calcium is not stated, or salts are, without the volume of the mash water.
    """
    tap, put_in = tap_water(brew), liquor(brew)
    if tap.alkalinity_meq_l is None:
        raise Unknown("the alkalinity of the water", brew.recipe.water.alkalinity.path)
    if "calcium" not in tap.ions:
        raise Unknown("the calcium of the water", brew.recipe.water.calcium.path)
    mash = brew.recipe.mash
    if mash.known and mash.salts and put_in.mash_l is None:
        raise Unknown("the mash water, into which the salts go", brew.recipe.mash.water.path)
    assumed = list(tap.assumed)
    magnesium = tap.ions.get("magnesium")
    if magnesium is None:
        magnesium = USUAL_MAGNESIUM_MG_L
        assumed.append("5 mg/l of magnesium (0 to 20), since none is stated")
    of_tap = Range.span(residual_alkalinity_meq_l, tap.alkalinity_meq_l, tap.ions["calcium"], magnesium)
    with_salts = [
        summed((before, put_in.in_mash(what)))
        for what, before in (
            ("alkalinity", tap.alkalinity_meq_l),
            ("calcium", tap.ions["calcium"]),
            ("magnesium", magnesium),
        )
    ]
    residual = Range.span(residual_alkalinity_meq_l, *with_salts) if put_in.mash else of_tap
    acid = acid_meq(put_in.mash_acids)
    acid_meq_l = per_litre(acid, put_in.mash_l) if acid.high > 0 and put_in.mash_l is not None else None
    return MashWater(with_salts[1], with_salts[2], with_salts[0], residual, of_tap, acid_meq_l, tuple(assumed))
