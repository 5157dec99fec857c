"""One brew: a recipe on its brewhouse, with everything that figures and rules ask of it."""

from collections.abc import Iterable
from dataclasses import dataclass, field, replace
from functools import cached_property
from typing import Any

from mashwright.brewing.extract import usual_efficiency
from mashwright.brewing.gravity import extract_kg, gravity_of, points
from mashwright.figures.board import share as in_percent
from mashwright.figures.figure import Unknown
from mashwright.figures.parts import MASHED_PLACES, NO_ENZYMES, Part, group_of, resolve, table_entry
from mashwright.figures.plan import Plan, mash_plan
from mashwright.finding import Edit, Path, Range
from mashwright.ingredients.fermentables import Fermentable
from mashwright.reading.document import Document
from mashwright.reading.editing import edited
from mashwright.reading.quantity import Kind, Quantity, said
from mashwright.recipe.brewhouse import Brewhouse
from mashwright.recipe.build import rebuild
from mashwright.recipe.model import GristLine, Recipe

# Hot wort at the end of the boil shrinks by this much when it is cooled to 20 °C; water by CoolProp, [iapws-95].
COOLING = 0.96
# Left in the kettle with hops and trub, where no brewhouse says it; l for 20 l of beer, common practice.
KETTLE_LOSS_SHARE = Range(0.025, 0.06, 0.10)
# Left in the fermenter with the yeast, where no brewhouse says it; share of the beer, common practice.
FERMENTER_LOSS_SHARE = Range(0.02, 0.05, 0.10)

# Part of a grist's extract that usually arrives, to tell about how strong a wort will be; common practice.
USUAL_SHARE = 0.72
# How far one brewhouse strays from its efficiency, either way; common practice.
HOUSE_BAND = 0.06
# Up to this share of the grist an unknown malt cannot change much, so the figures go on with wide ranges; judgement.
GUESSED_SHARE = 0.10
# A cereal that reached this is cooked, and the enzymes beside it are gone, °C; common practice.
COOKED_C = 85.0
# More of one thing to a litre of beer cannot be meant; judgement: a wort of 1.130 takes about 0.7 kg.
MOST_KG_PER_LITRE = 1.2


@dataclass(frozen=True, slots=True)
class Efficiency:
    """What part of the mashed lines' extract arrives.

    Attributes:
        share: 0-1.
        stated: in the recipe itself.
        in_kettle: counted in the kettle and not in the fermenter.
        assumed: a sentence where the recipe does not say it, else "".
        path: where it stands, if it does.
    """

    share: Range
    stated: bool
    in_kettle: bool
    assumed: str
    path: Path | None


@dataclass(frozen=True)
class Brew:
    """A recipe with its brewhouse.

    Attributes:
        recipe: as written.
        brewhouse: the nearest one, or an empty one.
        document: what the recipe was built from, so that a change of it can be tried.
        computed: figures that were asked for already, or why they cannot be had.
        today: YYYY-MM-DD, or "" where no day matters.
    """

    recipe: Recipe
    brewhouse: Brewhouse
    document: Document
    computed: dict[str, Any] = field(default_factory=dict, repr=False, compare=False)
    today: str = ""

    def edited(self, edits: Iterable[Edit]) -> "Brew":
        """The brew as it would be after a change of the recipe, built the same way.

        Raises:
            KeyError: an edit has no place in the recipe.
        """
        if self.document.root is None:
            raise KeyError(())
        changes = tuple(edits)
        changed = Document(self.document.text, edited(self.document.root, changes))
        keys = frozenset(str(edit.path[0]) for edit in changes)
        return Brew(rebuild(self.recipe, changed, keys), self.brewhouse, changed, today=self.today)

    @cached_property
    def _grist(self) -> tuple[Part, ...] | Unknown:
        try:
            return self._resolved()
        except Unknown as unknown:
            return unknown.again()

    def grist(self) -> tuple[Part, ...]:
        """All that goes in, in the recipe's order.

        Raises:
            Unknown: the recipe has no grist, or a line has no weight that can be read.
        """
        if isinstance(self._grist, Unknown):
            raise self._grist.again()
        return self._grist

    def placed(self, *places: str) -> tuple[Part, ...]:
        """The parts that go to some places."""
        grist = self.grist()
        return tuple([part for part in grist if part.place in places])

    def mashed(self) -> tuple[Part, ...]:
        """What enters the mash at its beginning, hulls and sugars left out.

        Raises:
            Unknown: nothing is mashed.
        """
        if not self.grist() or not self._mashed:
            raise Unknown("grain that is mashed", ("grist",))
        return self._mashed

    @cached_property
    def _mashed(self) -> tuple[Part, ...]:
        return tuple(part for part in self.placed("mash") if not part.hulls and part.group in ("grain", "fruit"))

    def power_of(self, part: Part) -> Range:
        """Diastatic power that a part brings to the mash: none if it is boiled in the cereal cooker first."""
        return Range.exact(0.0) if part.line.cereal_mash and self.cooker_boils else part.power()

    @cached_property
    def has_enzymes(self) -> bool:
        """Whether anything in the mash can convert starch; taken so where a malt's enzymes are not known."""
        mash = self.recipe.mash
        if mash is not None and mash.enzymes:
            return True
        return any(
            part.power_lintner is None or self.power_of(part).typical > 0
            for part in self.placed("mash")
            if not part.hulls
        )

    @property
    def cooker_boils(self) -> bool:
        """Whether what goes through the cereal cooker is boiled; taken so unless its rests say otherwise."""
        cooker = self.recipe.cereal_mash
        if cooker is None or cooker.boil is not None:
            return True
        return self.cooker_hottest is None or self.cooker_hottest.range.high >= COOKED_C

    @property
    def cooker_hottest(self) -> Quantity | None:
        """The hottest temperature that the cereal cooker's rests state, or None."""
        cooker = self.recipe.cereal_mash
        rests = cooker.rests if cooker is not None else ()
        stated = [quantity for rest in rests for quantity in (rest.at, rest.to) if quantity is not None]
        return max(stated, key=lambda quantity: quantity.range.high, default=None)

    @cached_property
    def plan(self) -> Plan:
        """The rests of the mash, with what was assumed where the recipe does not say."""
        return mash_plan(self.recipe)

    @cached_property
    def efficiency(self) -> Efficiency:
        """The recipe's efficiency, else the brewhouse's, else the usual one."""
        recipe = self.recipe
        for key, quantity, in_kettle in (
            ("efficiency", recipe.efficiency, False),
            ("mash-efficiency", recipe.mash_efficiency, True),
        ):
            if (key,) in recipe.unreadable:
                raise Unknown(f"a readable {key.replace('-', ' ')}", (key,))
            if quantity is not None:
                return Efficiency(quantity.range * 0.01, stated=True, in_kettle=in_kettle, assumed="", path=(key,))
        share = self.unstated_efficiency(self._expected_points())
        house = self.brewhouse.efficiency
        if house is None:
            band = f"{in_percent(share.low)} to {in_percent(share.high)}"
            assumed = f"an efficiency of {in_percent(share.typical)} ({band}), since none is stated"
        else:
            assumed = f"the brewhouse's efficiency of {house.text}, give or take 6 points from brew to brew"
        return Efficiency(share, stated=False, in_kettle=False, assumed=assumed, path=None)

    def unstated_efficiency(self, og_points: float) -> Range:
        """The efficiency to reckon with for a wort of some strength where the recipe states none, 0-1."""
        usual = usual_efficiency(og_points) * 0.01
        house = self.brewhouse.efficiency
        if house is None:
            return usual
        typical = house.range.typical / 100 - max(0.0, USUAL_SHARE - usual.typical)
        return Range(max(0.01, typical - HOUSE_BAND), typical, min(1.0, typical + HOUSE_BAND))

    def _expected_points(self) -> float:
        """About how strong the wort will be, since strong worts leave more behind: by the grist, else by the stated OG.

        Where all of the extract would make p points, an efficiency e makes about p × e, and e falls by a quarter point
        for each above 60: so e = (0.72 + 0.0025 × 60) / (1 + 0.0025 × p).
        """
        recipe = self.recipe
        if all(line.weight is not None for line in recipe.grist):
            try:
                volume = self._batch_volume().typical
                kg = sum(part.weight_kg * part.extract_share().typical for part in self.grist())
            except Unknown:
                volume = kg = 0.0
            if volume > 0 and kg > 0:
                whole = points(gravity_of(kg, volume))
                return min(USUAL_SHARE, (USUAL_SHARE + 0.15) / (1 + 0.0025 * whole)) * whole
        og = recipe.targets.og
        return points(og.range.typical) if og is not None else 50.0

    def _batch_volume(self) -> Range:
        """The batch as it is stated, wherever it is counted, l."""
        batch = self.recipe.batch
        quantity = batch.stated if batch is not None else None
        if quantity is None:
            raise Unknown("the size of the batch", ("batch",))
        return quantity.range

    def wort_volume(self) -> tuple[Range, str]:
        """The volume in which the extract of the efficiency is counted, l at 20 °C, and how it was found.

        Raises:
            Unknown: the recipe gives no batch that can be read, or one of which nothing is left.
        """
        volume, working = self._counted_volume()
        if volume.low <= 0:
            raise Unknown("a batch of more than nothing", ("batch",))
        return volume, working

    def _counted_volume(self) -> tuple[Range, str]:
        batch = self.recipe.batch
        if batch is None or batch.stated is None:
            raise Unknown("the size of the batch", ("batch",))
        in_kettle = self.efficiency.in_kettle
        if batch.fermenter is not None:
            volume, working = batch.fermenter.range, f"{batch.fermenter.text} into the fermenter"
            if not in_kettle:
                return volume, working
            loss = self._kettle_loss(volume)
            return _plus(volume, loss), f"{working} and {self._litres(loss)} left in the kettle"
        if batch.kettle is not None:
            cold = batch.kettle.range * COOLING
            working = f"{batch.kettle.text} in the kettle × {COOLING:g} for cooling"
            if in_kettle:
                return cold, working
            loss = self._kettle_loss(cold)
            left = Range(cold.low - loss.high, cold.typical - loss.typical, cold.high - loss.low)
            return left, f"{working}, less {self._litres(loss)} left in the kettle"
        package = batch.package
        assert package is not None
        loss = self._fermenter_loss(package.range)
        volume = _plus(package.range, loss)
        working = f"{package.text} packaged and {self._litres(loss)} left in the fermenter"
        if not in_kettle:
            return volume, working
        left_in_kettle = self._kettle_loss(volume)
        return _plus(volume, left_in_kettle), f"{working} and {self._litres(left_in_kettle)} in the kettle"

    def assumed_losses(self) -> tuple[str, ...]:
        """What was assumed of the losses that the counted volume holds, where no brewhouse says them."""
        batch, house = self.recipe.batch, self.brewhouse
        if batch is None or batch.stated is None:
            return ()
        assumed = []
        packaged = batch.fermenter is None and batch.kettle is None
        volume = batch.stated.range
        if packaged and not (house.fermenter and house.fermenter.loss):
            loss = self._fermenter_loss(volume)
            assumed.append(f"{self._litres(loss)} left in the fermenter with the yeast, since no brewhouse says it")
            volume = _plus(volume, loss)
        counts_kettle = self.efficiency.in_kettle == (batch.fermenter is not None or packaged)
        if counts_kettle and not (house.kettle and house.kettle.loss):
            loss = self._kettle_loss(volume if batch.kettle is None or batch.fermenter else volume * COOLING)
            assumed.append(f"{self._litres(loss)} left in the kettle with hops and trub, since no brewhouse says it")
        return tuple(assumed)

    def _litres(self, volume: Range) -> str:
        batch = self.recipe.batch
        stated = batch.stated if batch is not None else None
        return said(volume.typical, stated.unit if stated is not None else "l", Kind.VOLUME)

    def _fermenter_loss(self, volume: Range) -> Range:
        house = self.brewhouse.fermenter
        if house is not None and house.loss is not None:
            return house.loss.range
        return Range.span(lambda v, share: v * share, volume, FERMENTER_LOSS_SHARE)

    def _kettle_loss(self, volume: Range) -> Range:
        kettle = self.brewhouse.kettle
        if kettle is not None and kettle.loss is not None:
            return kettle.loss.range
        return Range.span(lambda v, share: v * share, volume, KETTLE_LOSS_SHARE)

    def _resolved(self) -> tuple[Part, ...]:
        lines = self.recipe.grist
        if not lines:
            raise Unknown("the grist", ("grist",))
        weights = self._weights(lines)
        places = self._places(lines)
        little = GUESSED_SHARE * sum(weight.range.typical for weight in weights)
        parts = tuple(
            resolve(line, weight, place, self.recipe, self.brewhouse, guess=weight.range.typical <= little)
            for line, weight, place in zip(lines, weights, places, strict=True)
        )
        return _small_mash(parts)

    def _places(self, lines: tuple[GristLine, ...]) -> list[str]:
        """Where each line goes; unsaid, by its kind."""
        recipe = self.recipe
        entries = [table_entry(line, self.brewhouse) for line in lines]
        groups = [group_of(line, entry) for line, entry in zip(lines, entries, strict=True)]
        # beside malt extract, grain that no mash is written for is steeped, unless there is base malt in it
        enzymes = any(
            _may_convert(entry)
            for line, entry, group in zip(lines, entries, groups, strict=True)
            if group == "grain" and not line.add
        )
        extract_beer = "extract" in groups and (not enzymes or any(line.add == "steep" for line in lines))
        steep = recipe.mash is None and (recipe.steep is not None or extract_beer)
        usual = {"grain": "steep" if steep else "mash", "fruit": "fermenter"}
        return [line.add or usual.get(group, "kettle") for line, group in zip(lines, groups, strict=True)]

    def _weights(self, lines: tuple[GristLine, ...]) -> list[Quantity]:
        if all(line.share is not None and line.weight is None for line in lines) and not self._weighable:
            return [line.share for line in lines if line.share is not None]
        if any(line.share is not None for line in lines) and all(line.weight is None for line in lines):
            return self._weights_of_shares(lines)
        weights = []
        for line in lines:
            if line.weight is None:
                raise Unknown(f"the weight of {line.name or 'a line of the grist'}", (*line.path, "weight"))
            if line.weight.range.low <= 0:
                raise Unknown(f"a weight of more than nothing of {line.name}", (*line.path, "weight"))
            self._refuse_slip(line, line.weight)
            weights.append(line.weight)
        return weights

    @property
    def _weighable(self) -> bool:
        """Whether shares can be turned into weights: without a target OG they stay shares."""
        targets = self.recipe.targets
        return targets.og is not None or (*targets.path, "og") in self.recipe.unreadable

    def _refuse_slip(self, line: GristLine, weight: Quantity) -> None:
        """A weight that cannot be meant is no basis for a sum: one slip of a unit would put every figure out."""
        batch = self.recipe.batch
        volume = batch.stated if batch is not None else None
        if volume is not None and weight.range.typical > MOST_KG_PER_LITRE * volume.range.typical:
            raise Unknown(f"a weight of {line.name} that can be meant", (*line.path, "weight"))

    def _weights_of_shares(self, lines: tuple[GristLine, ...]) -> list[Quantity]:
        """Weights that give the stated OG in these shares."""
        og = self.recipe.targets.og
        if og is None:
            raise Unknown("the target OG, without which shares cannot be turned into weights", ("targets",))
        if any(line.share is None for line in lines):
            line = next(line for line in lines if line.share is None)
            raise Unknown(f"the share of {line.name or 'a line of the grist'}", (*line.path, "share"))
        shares = [line.share.range.typical / 100 for line in lines if line.share is not None]
        places = self._places(lines)
        token = Quantity(Kind.MASS, Range.exact(1.0), "kg", "1 kg")
        yields = []
        for line, place in zip(lines, places, strict=True):
            extract = resolve(line, token, place, self.recipe, self.brewhouse).extract_share().typical
            yields.append(extract * (self.efficiency.share.typical if place in MASHED_PLACES else 1.0))
        needed = extract_kg(self.wort_volume()[0].typical, og.range.typical)
        given = sum(share * share_yield for share, share_yield in zip(shares, yields, strict=True))
        if given <= 0 or min(shares) <= 0:
            raise Unknown("extract in every share of the grist", ("grist",))
        if needed <= 0:
            raise Unknown("a target OG above that of water", ("targets", "og"))
        total = needed / given
        unit = self._weight_unit()
        return [
            Quantity(Kind.MASS, Range.exact(share * total), unit, said(share * total, unit, Kind.MASS))
            for share in shares
        ]

    def _weight_unit(self) -> str:
        batch = self.recipe.batch
        volume = batch.stated if batch is not None else None
        return "kg" if volume is None or volume.unit in ("l", "ml", "hl") else "lb"


def _may_convert(entry: Fermentable | None) -> bool:
    """Whether a grain may have enzymes; what no table knows may."""
    power = entry.power_lintner if entry is not None else None
    return entry is None or (power is not None and power.high > 0 and entry.kind not in NO_ENZYMES)


def _small_mash(parts: tuple[Part, ...]) -> tuple[Part, ...]:
    """Base malt that is steeped with starchy grain is a small mash, and judged as one; beside crystal it is steeped."""
    steeped = [part for part in parts if part.place == "steep"]
    enzymes = any(part.power_lintner is not None and part.power_lintner.typical > 0 for part in steeped)
    starchy = any(
        part.needs_mash == "yes" and part.power_lintner is not None and part.power_lintner.high <= 0 for part in steeped
    )
    if not (enzymes and starchy) or any(part.place == "mash" for part in parts):
        return parts
    return tuple(replace(part, place="mash") if part.place == "steep" else part for part in parts)


def _plus(first: Range, second: Range) -> Range:
    return Range(first.low + second.low, first.typical + second.typical, first.high + second.high)
