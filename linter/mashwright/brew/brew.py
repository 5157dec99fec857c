"""One brew: a recipe on its brewhouse, with everything that figures and rules ask of it."""

from collections.abc import Callable, Iterable
from functools import cached_property
from typing import Any

from msgspec import Struct, field
from msgspec.structs import replace

from mashwright.brew.batch import assumed_losses, batch_volume, counted_volume, stated_batch
from mashwright.brew.board import share as in_percent
from mashwright.brew.enzymes import mash_enzymes
from mashwright.brew.grist_lines import GUESSED_SHARE, Wort, parts_of
from mashwright.brew.guess import ANYTHING, READINGS, Guess
from mashwright.brew.intent import intent_of
from mashwright.brew.own import enzyme_of, has_alpha
from mashwright.brew.parts import Part
from mashwright.brew.plan import Plan, PlannedRest, mash_plan
from mashwright.brewing.extract import usual_efficiency
from mashwright.brewing.gravity import gravity_of, points
from mashwright.brewing.mash_rates import LATE_CEREALS
from mashwright.finding import Edit, Path
from mashwright.ingredients.enzymes import Enzyme
from mashwright.ingredients.kinds import Group, Place
from mashwright.measures.bounds import USUAL, Bounds
from mashwright.measures.quantity import Kind, Quantity, said
from mashwright.measures.range import Range
from mashwright.reading.document import Document, read_document
from mashwright.reading.editing import edited
from mashwright.reading.schema import understood
from mashwright.recipe.brewhouse import Brewhouse
from mashwright.recipe.build import build_recipe, rebuild
from mashwright.recipe.model import Recipe
from mashwright.recipe.stated import Lines, Open, Stated, Unknown
from mashwright.words.intent import Intent

# How far one brewhouse strays from its efficiency, either way; common practice.
HOUSE_BAND = 0.06
# How far the same recipe on the same brewhouse strays from brew to brew, either way; from memory.
REPEATED_BAND = 0.02
# A cereal that reached this is cooked, and the enzymes beside it are gone, °C; common practice.
COOKED_C = 85.0
_ENOUGH_POINTS = 0.001  # no hydrometer shows so little; by definition of the scale


class Efficiency(Struct, frozen=True, gc=False):
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


class OfMash(Struct, frozen=True):
    """What one wort has of a mash that gives several.

    Attributes:
        recipe: the whole one.
        number: of the wort, from 0.
        share: of what arrives of the mashed extract, by the efficiency, 0-1; or why it cannot be had.
        litres: of the run-off; None where the recipe leaves its waters open.
        strongest: the wort as it runs off if all extract were dissolved, SG; or why it cannot be had.
        efficiency: of all worts together; or why it cannot be had.
        assumed: of all that, where the recipe does not say it.
    """

    recipe: Recipe
    number: int
    share: Range | Unknown
    litres: Range | None
    strongest: Range | Unknown
    efficiency: Efficiency | Unknown
    assumed: tuple[str, ...] = ()

    @property
    def path(self) -> Path:
        """Where the wort stands."""
        return self.recipe.worts[self.number].path


class Brew(Struct, frozen=True, eq=False, dict=True):
    """A recipe with its brewhouse.

    Attributes:
        recipe: as written.
        brewhouse: the nearest one, or an empty one.
        document: what the recipe was built from, so that a change of it can be tried.
        computed: what was computed once already, by the function that did, or why it cannot be had.
        today: YYYY-MM-DD, or "" where no day matters.
        bounds: past which a number cannot be meant.
        guess: the reading of what nothing is known of.
        opened: what figures that were asked for met and could not read or mean, in the order of asking.
        of_mash: where this is one of several worts of a mash, what it has of it; None of a whole recipe.
    """

    recipe: Recipe
    brewhouse: Brewhouse
    document: Document
    computed: dict[Callable[..., Any], Any] = field(default_factory=dict)
    today: str = ""
    bounds: Bounds = USUAL
    guess: Guess = ANYTHING
    opened: list[Open] = field(default_factory=list)
    of_mash: OfMash | None = None

    @classmethod
    def of(cls, text: str, house: str = "") -> "Brew":
        """The brew of the texts of a recipe and of a brewhouse; what in them cannot be read is Unreadable there."""
        from mashwright.recipe.build_brewhouse import build_brewhouse  # a start without a brewhouse does not need it

        document, _ = understood(read_document(text), "recipe")
        brewhouse = Brewhouse()
        if house:
            brewhouse = build_brewhouse(understood(read_document(house, "brewhouse"), "brewhouse")[0])[0]
        return cls(build_recipe(document)[0], brewhouse, document)

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
        if self.of_mash is not None:
            base = rebuild(self.of_mash.recipe, changed, keys)
            of_mash = replace(self.of_mash, recipe=base)
            recipe = base.of_wort(of_mash.number)
            return replace(self, recipe=recipe, document=changed, computed={}, opened=[], of_mash=of_mash)
        recipe = rebuild(self.recipe, changed, keys)
        return replace(self, recipe=recipe, document=changed, computed={}, opened=[])

    @cached_property
    def intent(self) -> Intent:
        """What is meant by the recipe: a sour beer, one that is not boiled, an old one; and what is claimed of it."""
        return intent_of(self.recipe, self.brewhouse)

    @cached_property
    def unknown(self) -> tuple[Unknown, ...]:
        """The ingredients of which nothing is known and on which figures hang: what a rule would need to know."""
        recipe, house = self.recipe, self.brewhouse
        found = []
        if not isinstance(self._grist, Unknown):
            little = GUESSED_SHARE * sum(part.amount for part in self._grist)
            found += [
                Unknown(f"what {part.name} is", (*part.path, part.line.group))
                for part in self._grist
                if part.guessed and part.amount > little
            ]
        found += [
            Unknown(f"the alpha acid of {hop.name}", hop.name.path)
            for hop in recipe.hops
            if hop.name and not hop.alpha.known and not hop.alpha_units.known and not hop.bitterness.known
            if (hop.lot or hop.name) not in house.lots and not has_alpha(house, hop.name)
        ]
        return tuple(found)

    @cached_property
    def other_readings(self) -> "tuple[Brew, ...]":
        """The brew with each single reading of what nothing is known of; none where all is known."""
        if not self.unknown:
            return ()
        return tuple(replace(self, guess=guess, computed={}, opened=[]) for guess in READINGS)

    def by_package(self) -> "tuple[Brew, ...]":
        """The brew with each of its packages in turn, as if it went into that one alone; itself where it has one."""
        return self._apart if self.recipe.beside else (self,)

    @cached_property
    def _apart(self) -> "tuple[Brew, ...]":
        first, others = self.recipe.package, self.recipe.beside
        every = (first, *others)
        return tuple(
            replace(
                self,
                recipe=replace(
                    self.recipe, package=one, beside=Lines.at(others.path, tuple(x for x in every if x is not one))
                ),
                computed={},
            )
            for one in every
        )

    def refused(self, why: Unknown) -> Unknown:
        """What to raise once more of a figure that cannot be had; kept where the recipe leaves it open."""
        if not self.is_open(why):
            return why.again()
        # two of them: one that is raised holds on to the brew, and what the brew holds must not
        self.opened.append(Open(why.missing, why.path))
        return Open(why.missing, why.path)

    def is_open(self, why: Unknown) -> bool:
        """Whether something stands there that cannot be read or meant, so that no silence may follow from it."""
        unreadable = self.recipe.unread
        return isinstance(why, Open) or any(why.path[:length] in unreadable for length in range(1, len(why.path) + 1))

    @cached_property
    def _grist(self) -> tuple[Part, ...] | Unknown:
        if self.of_mash is not None and any(line.share.known for line in self.of_mash.recipe.grist):
            return Unknown(
                "the weights of the grist, since shares do not say how much there is", self.recipe.grist.path
            )
        recipe = self.recipe
        if self.of_mash is not None:  # a weight is plausible for all of the worts, and not for one of them
            recipe = replace(recipe, batch=self.of_mash.recipe.batch)
        try:
            parts = parts_of(recipe, self.brewhouse, self._wort, self.bounds, self.guess.grain)
            return parts if self.of_mash is None else _of_one_wort(parts, self.of_mash)
        except Unknown as unknown:
            return unknown.again()

    def grist(self) -> tuple[Part, ...]:
        """All that goes in, in the recipe's order.

        Raises:
            Unknown: the recipe has no grist, or a line has no weight that can be read.
        """
        if isinstance(self._grist, Unknown):
            raise self.refused(self._grist)
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
            raise Unknown("grain that is mashed", self.recipe.grist.path)
        return self._mashed

    @cached_property
    def _mashed(self) -> tuple[Part, ...]:
        return tuple(
            part for part in self.placed(Place.MASH) if not part.hulls and part.group in (Group.GRAIN, Group.FRUIT)
        )

    def converting(self) -> tuple[Part, ...]:
        """What enters the mash and what brings it enzymes: beside the grain, malt extract that keeps some.

        Raises:
            Unknown: nothing is mashed.
        """
        extracts = [
            part
            for part in self.placed(Place.MASH)
            if part.group == Group.EXTRACT and part.power_lintner is not None and part.power_lintner.typical > 0
        ]
        return (*self.mashed(), *extracts) if extracts else self.mashed()

    def power_of(self, part: Part) -> Range:
        """Diastatic power that a part brings to the mash: none if it is boiled in the cereal cooker first."""
        return Range.exact(0.0) if part.line.cereal_mash and self.cooker_boils else part.power()

    @cached_property
    def is_opaque_beer(self) -> bool:
        """Whether malt of sorghum, millet or maize alone converts a porridge that was cooked; its beer keeps starch.

        Raises:
            Unknown: nothing is mashed.

        Source: common practice.
        """
        mashed = self.mashed()
        converts = [part for part in mashed if self.power_of(part).typical > 0]
        porridge = [part for part in mashed if part not in converts]
        malts = bool(converts) and all(part.cereal in LATE_CEREALS for part in converts)
        return malts and bool(porridge) and all(part.line.cereal_mash or part.cooked for part in porridge)

    @cached_property
    def has_enzymes(self) -> bool:
        """Whether anything in the mash can convert starch; taken so where a malt's enzymes are not known."""
        if self.adds("starch"):
            return True
        return any(
            part.power_lintner is None or self.power_of(part).typical > 0
            for part in self.placed(Place.MASH)
            if not part.hulls
        )

    def adds(self, works_on: str) -> bool:
        """Whether an enzyme that works on some thing (starch, dextrins, gums) is added to the mash, and some of it."""
        return bool(self.added(works_on))

    def added(self, works_on: str) -> tuple[Enzyme, ...]:
        """The enzymes added to the mash that work on some thing, those left out of which there is nothing."""
        return tuple(
            known
            for one in mash_enzymes(self.recipe, self.brewhouse)
            for known in (enzyme_of(self.brewhouse, one.name),)
            if known is not None
            if works_on in known.works_on and (not one.quantity.known or one.quantity.range.high > 0)
        )

    @property
    def cooker_boils(self) -> bool:
        """Whether what goes through the cereal cooker is boiled; taken so unless its rests say otherwise."""
        cooker = self.recipe.cereal_mash
        if not cooker.known or cooker.boil.known:
            return True
        return self.cooker_hottest is None or self.cooker_hottest.range.high >= COOKED_C

    @property
    def cooker_hottest(self) -> Quantity | None:
        """The hottest temperature that the cereal cooker's rests state, or None."""
        cooker = self.recipe.cereal_mash
        rests = cooker.rests if cooker.known else ()
        stated = [quantity for rest in rests for quantity in (rest.at, rest.to) if quantity.known]
        return max(stated, key=lambda quantity: quantity.range.high, default=None)

    @cached_property
    def plan(self) -> Plan:
        """The rests of the mash, with what was assumed where the recipe does not say."""
        return mash_plan(self.recipe, self.bounds)

    def rests(self) -> tuple[PlannedRest, ...]:
        """The rests of the mash, to be followed.

        Raises:
            Unknown: one of them is not stated, or cannot be read or meant.
        """
        if self.plan.missing is not None:
            raise self.refused(self.plan.missing)
        return self.plan.rests

    @cached_property
    def efficiency(self) -> Efficiency:
        """The recipe's efficiency, else the brewhouse's, else the usual one; that of all worts of a mash."""
        if self.of_mash is not None:
            if isinstance(self.of_mash.efficiency, Unknown):
                raise self.of_mash.efficiency.again()
            return self.of_mash.efficiency
        recipe = self.recipe
        for key, quantity, in_kettle in (
            ("efficiency", recipe.efficiency, False),
            ("mash-efficiency", recipe.mash_efficiency, True),
        ):
            quantity.readable(f"a readable {key.replace('-', ' ')}")
            if quantity.known:
                share = _as_repeated(quantity.range * 0.01)
                return Efficiency(share, stated=True, in_kettle=in_kettle, assumed="", path=(key,))
        share = self.unstated_efficiency(self._expected_points())
        house = self.brewhouse.efficiency
        if not house.known:
            band = f"{in_percent(share.low)} to {in_percent(share.high)}"
            assumed = f"an efficiency of {in_percent(share.typical)} ({band}), since none is stated"
        else:
            assumed = f"the brewhouse's efficiency of {house.text}, give or take 6 points from brew to brew"
        return Efficiency(share, stated=False, in_kettle=False, assumed=assumed, path=None)

    def unstated_efficiency(self, og_points: float) -> Range:
        """The efficiency to reckon with for a wort of some strength where the recipe states none, 0-1."""
        usual = usual_efficiency(og_points) * 0.01
        house = self.brewhouse.efficiency
        if not house.known:
            return usual
        lost = usual_efficiency(0.0).typical / 100 - usual.typical  # by a strong wort
        typical = house.range.typical / 100 - lost
        return Range(max(0.01, typical - HOUSE_BAND), typical, min(1.0, typical + HOUSE_BAND))

    def _expected_points(self) -> float:
        """About how strong the wort will be: by the grist, else by the stated OG; strong worts leave more behind."""
        recipe = self.recipe
        if all(line.weight.known for line in recipe.grist):
            try:
                volume = batch_volume(recipe).typical
                kg = sum(part.weight_kg * part.extract_share().typical for part in self.grist())
            except Unknown:
                volume = kg = 0.0
            if volume > 0 and kg > 0:
                return _usually_arriving(points(gravity_of(kg, volume)))
        og = recipe.targets.og
        return points(og.range.typical) if og.known else 50.0

    def wort_volume(self) -> tuple[Range, str]:
        """The volume in which the extract of the efficiency is counted, l at 20 °C, and how it was found.

        Raises:
            Unknown: the recipe gives no batch that can be read, or one of which nothing is left.
        """
        return counted_volume(self.recipe, self.brewhouse, in_kettle=self.efficiency.in_kettle)

    def assumed_losses(self) -> tuple[str, ...]:
        """What was assumed of the losses that this volume holds, where no brewhouse says them."""
        return assumed_losses(self.recipe, self.brewhouse, in_kettle=self.efficiency.in_kettle)

    @property
    def batch(self) -> Stated:
        """The batch as it is stated, wherever it is counted; None where that cannot be read."""
        return stated_batch(self.recipe)

    def _wort(self) -> Wort:
        return Wort(self.wort_volume()[0].typical, self.efficiency.share.typical)


def _of_one_wort(parts: tuple[Part, ...], of_mash: OfMash) -> tuple[Part, ...]:
    """What one wort has: its part of what is mashed for all of them, and what goes into it alone.

    Raises:
        Unknown: what part that is.
    """
    found = []
    for part in parts:
        if part.path[:1] == ("worts",):
            found.append(part)
        elif part.mashed:  # what does not go into the mash, of the common grist, is in no wort yet
            if isinstance(of_mash.share, Unknown):
                raise of_mash.share.again()
            weight = part.weight.range.times(of_mash.share)
            text = said(weight.typical, part.weight.unit, Kind.MASS)
            own = Quantity(Kind.MASS, weight, part.weight.unit, text)
            found.append(replace(part, weight=own))
    if not found:
        raise Unknown("what of the grist goes into this wort", of_mash.path)
    return tuple(found)


def _as_repeated(share: Range) -> Range:
    """A stated efficiency with the width that brews of one recipe have; a range is taken as it is stated."""
    if not share.known:
        return share
    high = max(share.high, min(1.0, share.high + REPEATED_BAND))
    return Range(max(0.0, share.low - REPEATED_BAND), share.typical, high)


def _usually_arriving(whole: float) -> float:
    """Points of wort by the usual efficiency, which itself falls with them, where all of the extract makes so many."""
    most = usual_efficiency(0.0).typical / 100 * whole
    if usual_efficiency(most).typical / 100 * whole >= most:
        return most
    least = 0.0
    while most - least > _ENOUGH_POINTS:
        tried = (least + most) / 2
        if usual_efficiency(tried).typical / 100 * whole > tried:
            least = tried
        else:
            most = tried
    return most
