"""The lines of the grist with their values filled in: from the recipe, its lots, the brewhouse, or the tables."""

from functools import cache
from typing import NamedTuple

from msgspec import Struct

from mashwright.brew.own import own, own_fermentable
from mashwright.brewing.extract import as_is
from mashwright.brewing.mash_rates import LATE_CEREALS
from mashwright.finding import Path
from mashwright.ingredients.fermentables import Fermentable, any_grain
from mashwright.ingredients.kinds import Cereal, Group, IngredientKind, NeedsMash, Place, Sort
from mashwright.ingredients.lookup import fermentable as look_up
from mashwright.ingredients.lookup import unknown as stand_in
from mashwright.measures.bounds import Bounds
from mashwright.measures.quantity import Kind, Quantity
from mashwright.measures.range import Range
from mashwright.recipe.brewhouse import Brewhouse, Described, Lot
from mashwright.recipe.model import GristLine, Recipe
from mashwright.recipe.stated import NOWHERE, Open, Stated, Unknown, Unsaid
from mashwright.words.vocabulary import mentions

SUGARS = (IngredientKind.SUGAR, IngredientKind.SYRUP)
MALT_EXTRACTS = (IngredientKind.DRY_EXTRACT, IngredientKind.LIQUID_EXTRACT)
MALTS = (
    IngredientKind.BASE_MALT,
    IngredientKind.KILNED_MALT,
    IngredientKind.CARAMEL_MALT,
    IngredientKind.ROASTED_MALT,
    IngredientKind.ACIDULATED_MALT,
    IngredientKind.MALTED_ADJUNCT,
)
PREGELATINISED = (IngredientKind.FLAKED_GRAIN, IngredientKind.TORREFIED_GRAIN)
NO_ENZYMES = (
    IngredientKind.CARAMEL_MALT,
    IngredientKind.ROASTED_MALT,
    IngredientKind.ACIDULATED_MALT,
)  # counted as 0 whatever a laboratory finds
UNMALTED = (IngredientKind.RAW_GRAIN, IngredientKind.GRITS, IngredientKind.FLAKED_GRAIN, IngredientKind.TORREFIED_GRAIN)
MASHED_PLACES = (Place.MASH, Place.LATE_MASH)
# Extract of a fine grind over that of a coarse one, points of per cent, well-modified malt; common practice.
FINE_OVER_COARSE = Range(1.0, 1.5, 2.0)
# What makes fine meal of a grain, and what says that a root or fruit was cooked; words of its name.
_REMEMBERED = ("diastatic-power", "extract", "moisture", "fermentable")
_KINDS_OF_GROUP: dict[str, str] = {
    Group.SUGAR: IngredientKind.SUGAR,
    Group.EXTRACT: IngredientKind.LIQUID_EXTRACT,
    Group.FRUIT: IngredientKind.FRUIT_OR_OTHER,
}


class Part(Struct, frozen=True, gc=False):
    """One thing that goes into the beer.

    Attributes:
        line: as the recipe has it.
        group: grain, sugar, extract or fruit: what it is by the tables, whatever key its line has.
        place: mash, late mash, steep, kettle or fermenter.
        weight: in the recipe's own unit; its share of the grist where shares cannot be turned into weights.
        needs_mash: whether its starch has to be mashed, ``yes``, ``no``, or ``steep``: steeping is enough.
        extract: kg of extract in a kg as it is weighed, 0-1.
        moisture: % of its weight.
        power_lintner: 0 for what has no enzymes.
        max_share: its usual upper share of the grist, %; None where none is usual.
        fermentable: per cent of the extract that ordinary yeast ferments; None for what a mash converts.
        known: in a table, in the brewhouse, or described in the recipe.
        guessed: nothing is known of it, so it is taken for something of its sort.
        memory: properties whose value rests on memory alone.
        sources: bibliography keys of its values.
    """

    line: GristLine
    group: str
    place: str
    kind: str
    cereal: str
    weight: Quantity
    malted: bool
    pregelatinised: bool
    husk: bool
    needs_mash: str
    extract: Range | None
    moisture: Range
    power_lintner: Range | None
    colour_lovibond: Range | None
    gelatinises_c: Range | None
    fermentable: Range | None
    max_share: float | None
    known: bool
    guessed: bool
    memory: tuple[str, ...]
    sources: tuple[str, ...]
    table_name: str

    @property
    def path(self) -> Path:
        """Where its line stands."""
        return self.line.path

    @property
    def name(self) -> str:
        """As the recipe calls it."""
        return self.line.name

    def ferments(self, otherwise: float) -> float:
        """Share of its extract that ordinary yeast ferments, 0-1; ``otherwise`` where nothing says it."""
        return self.fermentable.typical / 100 if self.fermentable else otherwise

    @property
    def weight_kg(self) -> float:
        """Typical weight, kg; Unknown where only its share of the grist is known."""
        if self.weight.kind is not Kind.MASS:
            raise Unknown("the target OG, without which shares cannot be turned into weights", ("targets",))
        return self.weight.range.typical

    @property
    def amount(self) -> float:
        """Typical weight, kg, or share of the grist, %: the same for all lines, so it serves for proportions."""
        return self.weight.range.typical

    @property
    def mashed(self) -> bool:
        """Whether it enters the mash."""
        return self.place in MASHED_PLACES

    @property
    def hulls(self) -> bool:
        """Whether it only loosens the grain bed."""
        return self.kind == IngredientKind.HULLS

    @property
    def unmalted(self) -> bool:
        """Whether it is unmalted starch."""
        return self.kind in UNMALTED or (
            self.kind == IngredientKind.FRUIT_OR_OTHER
            and self.needs_mash == NeedsMash.YES
            and self.cereal != Cereal.NONE
        )

    @property
    def stony(self) -> bool:
        """Whether it is raw grits or coarse meal of a cereal that gelatinises late: stones to a mash, flour apart."""
        fine = mentions("ground-fine", "ingredient", self.name)
        return (
            self.kind in (IngredientKind.RAW_GRAIN, IngredientKind.GRITS) and self.cereal in LATE_CEREALS and not fine
        )

    @property
    def root(self) -> bool:
        """Whether it is starch of no cereal, such as potato, that has to be converted like grain."""
        return self.starchy_fruit and self.cereal == Cereal.NONE

    @property
    def starchy_fruit(self) -> bool:
        """Whether it is no grain and yet starch that a mash has to convert: potato, chestnut, bread."""
        return self.kind == IngredientKind.FRUIT_OR_OTHER and self.needs_mash == NeedsMash.YES

    @property
    def sweet(self) -> bool:
        """Whether it ferments by itself: sugar and fruit."""
        return self.group in (Group.SUGAR, Group.FRUIT) and not self.starchy_fruit

    @property
    def cooked(self) -> bool:
        """Whether its starch is ready for enzymes: by its maker, in the cereal cooker, or as its name says."""
        said_so = self.root and mentions("cooked", "ingredient", self.name)
        return self.pregelatinised or self.line.cereal_mash or said_so

    def extract_share(self) -> Range:
        """Its extract, kg in a kg as it is weighed, or Unknown where nothing says it."""
        if self.extract is None:
            raise Unknown(f"the extract of {self.name}", self.path)
        return self.extract

    def power(self) -> Range:
        """Its diastatic power, °Lintner, or Unknown where nothing says it."""
        if self.power_lintner is None:
            raise Unknown(f"the diastatic power of {self.name}", self.path)
        return self.power_lintner


def weighed(parts: tuple[Part, ...]) -> tuple[Part, ...]:
    """The same parts, or Unknown where only their shares of the grist are known."""
    for part in parts[:1]:
        part.weight_kg  # noqa: B018  (asked for its Unknown)
    return parts


def table_entry(line: GristLine, brewhouse: Brewhouse) -> Fermentable | None:
    """What the tables know of a line, by its own name or that of its lot; of the brewhouse's own thing, by its kind."""
    if (known := _entry_of(line.name, brewhouse)) is not None:
        return known
    lot = lot_of(line, brewhouse)
    return _entry_of(lot.of, brewhouse) if lot is not None else None


def _entry_of(name: str, brewhouse: Brewhouse) -> Fermentable | None:
    thing = own(brewhouse, Sort.GRIST, name) if brewhouse.ingredients else None
    return look_up(name) if thing is None else own_fermentable(thing, name)


def described_by(line: GristLine, brewhouse: Brewhouse) -> Described | None:
    """What the brewhouse says of a thing of its own, by the line's name or that of its lot."""
    if not brewhouse.ingredients:
        return None
    if (thing := own(brewhouse, Sort.GRIST, line.name)) is not None:
        return thing
    lot = lot_of(line, brewhouse)
    return own(brewhouse, Sort.GRIST, lot.of) if lot is not None and look_up(line.name) is None else None


def group_of(line: GristLine, entry: Fermentable | None) -> str:
    """What a line is: the tables know sugar under `grain` or `extract` for what it is; else its key decides."""
    kind = line.kind or (entry.kind if entry is not None else "")
    if kind in SUGARS:
        return Group.SUGAR
    if kind in MALT_EXTRACTS:
        return Group.EXTRACT
    if kind in ("", IngredientKind.FRUIT_OR_OTHER):
        return line.group if kind == "" or line.group == Group.GRAIN else Group.FRUIT
    return Group.GRAIN


def lot_of(line: GristLine, brewhouse: Brewhouse) -> Lot | None:
    """The lot that a line names, or whose number stands in place of a name."""
    return brewhouse.lots.get(line.lot or line.name)


def resolve(
    line: GristLine, weight: Quantity, place: str, recipe: Recipe, brewhouse: Brewhouse, bounds: Bounds, guess: str
) -> Part:
    """Fill in one line: a value in the recipe beats the lot, the lot the brewhouse's description, that the table.

    Args:
        bounds: past which a value cannot be meant.
        guess: the kind that a grain of which nothing is known is taken for, with the widest ranges; "" for anything.
    """
    entry = table_entry(line, brewhouse)
    described = described_by(line, brewhouse)
    known = entry is not None or described is not None or bool(line.kind)
    kind = line.kind or (described.kind if described else "") or _KINDS_OF_GROUP.get(line.group, "")
    guessed = entry is None and not kind and line.group == Group.GRAIN
    if guessed:
        kind = guess
    if entry is not None:
        facts = _facts(entry.name)
    else:
        entry = any_grain() if guessed and not kind else None
        if kind:
            entry = _stand_in(kind, line.cereal or (described.cereal if described else ""))
        facts = _facts_of(entry)
    lot = lot_of(line, brewhouse)
    values = _Values(line, lot, described, entry, facts, recipe, group_of(line, entry), bounds.most_lintner)
    moisture = values.moisture()
    return Part(
        line=line,
        group=values.group,
        place=place,
        kind=line.kind or (entry.kind if entry else ""),
        cereal=line.cereal or (entry.cereal if entry else ""),
        weight=weight,
        malted=entry.malted if entry else False,
        pregelatinised=entry.pregelatinised if entry else False,
        husk=bool(entry.husk) if entry else True,
        needs_mash=entry.needs_mash if entry else NeedsMash.YES,
        extract=values.extract(moisture),
        moisture=moisture,
        power_lintner=values.power(),
        colour_lovibond=values.pick("colour", entry.colour_lovibond if entry else None),
        gelatinises_c=values.pick("gelatinises", entry.gelatinises_c if entry else None),
        fermentable=values.pick("fermentable", entry.fermentable if entry else None),
        max_share=entry.max_share if entry else None,
        known=known,
        guessed=guessed,
        memory=values.memory(),
        sources=facts.sources,
        table_name=entry.name if entry else line.name,
    )


def _stand_in(kind: str, cereal: str) -> Fermentable | None:
    """Wide ranges for a thing that is only described; None where the description is no kind that is known."""
    try:
        return stand_in(kind, cereal or None)
    except ValueError:
        return None


class _Facts(NamedTuple):
    """What follows from a table entry alone: its extract as it is weighed, and what its values rest on."""

    extract: Range | None
    remembered: tuple[str, ...]
    sources: tuple[str, ...]


@cache
def _facts(name: str) -> _Facts:
    """The facts of an entry of the table; kept, since most lines of most recipes have no more than their names."""
    return _facts_of(look_up(name))


def _facts_of(entry: Fermentable | None) -> _Facts:
    if entry is None:
        return _Facts(None, (), ())
    extract = _as_is(entry.extract_dry, entry.dampness) if entry.extract_dry is not None else None
    remembered = tuple(field for field in _REMEMBERED if entry.from_memory(field))
    wanted = ("diastatic-power", "extract", "moisture", "fermentable")
    sources = tuple(dict.fromkeys(key for name, keys in entry.sources if name in wanted for key in keys))
    return _Facts(extract, remembered, sources)


class _Values(Struct, frozen=True, gc=False):
    line: GristLine
    lot: Lot | None
    described: Described | None
    entry: Fermentable | None
    facts: _Facts
    recipe: Recipe
    group: str
    most_lintner: float

    def stated(self, field: str) -> Stated:
        """A value of the recipe, the lot or the brewhouse, or Open where it stands there but cannot be read."""
        attribute = field.replace("-", "_")
        own: Stated = getattr(self.line, attribute)
        if own.known:
            return own
        for owner in (self.lot, self.described):
            quantity: Stated = getattr(owner, attribute, NOWHERE) if owner is not None else NOWHERE
            if quantity.known:
                return quantity
        if isinstance(own, Unsaid):  # nearly always
            return own
        return own.readable(f"a readable {field.replace('-', ' ')} of {self.line.name}")

    def pick(self, field: str, table: Range | None) -> Range | None:
        stated = self.stated(field)
        return stated.range if stated.known else table

    def moisture(self) -> Range:
        if (stated := self.stated("moisture")).known:
            return stated.range
        return self.entry.dampness if self.entry else Range.exact(0.0)

    def power(self) -> Range | None:
        stated = self.stated("diastatic-power")
        in_recipe = stated.known and stated is self.line.diastatic_power
        if self.entry is not None and self.entry.kind in NO_ENZYMES and not in_recipe:
            return Range.exact(0.0)
        if stated.known:
            if stated.range.typical > self.most_lintner:
                path = self.line.diastatic_power.path
                raise Open(f"a diastatic power of {self.line.name} that a malt can have", path)
            return stated.range
        if self.entry is None:
            return None if self.group == Group.GRAIN else Range.exact(0.0)
        return self.entry.power_lintner if self.entry.power_lintner is not None else Range.exact(0.0)

    def extract(self, moisture: Range) -> Range | None:
        if not self.line.extract.known and (certified := self.certified_extract(moisture)) is not None:
            return certified
        if (stated := self.stated("extract")).known:
            dry = self.group == Group.GRAIN and stated.unit == "%"
            return _as_is(stated.range, moisture) if dry else stated.range * 0.01
        if self.entry is None or self.entry.extract_dry is None:
            return None
        if moisture is self.entry.moisture:
            return self.facts.extract
        return _as_is(self.entry.extract_dry, moisture)

    def certified_extract(self, moisture: Range) -> Range | None:
        """Fine-grind extract as is, kg in a kg, by the lot's analysis; a coarse grind alone leaves some doubt."""
        lot = self.lot
        if lot is None:
            return None
        for quantity, dry, coarse in (
            (lot.extract_fine_dry, True, False),
            (lot.extract_fine_as_is, False, False),
            (lot.extract_coarse_dry, True, True),
            (lot.extract_coarse_as_is, False, True),
        ):
            if quantity.known:
                fine = quantity.range
                if coarse:
                    fine = Range.weighted_sum([(fine, 1.0), (FINE_OVER_COARSE, 1.0)])
                return _as_is(fine, moisture) if dry else fine * 0.01
        return None

    def memory(self) -> tuple[str, ...]:
        remembered = self.facts.remembered
        if not remembered:
            return ()
        certified = self.certified_extract(Range.exact(0.0)) is not None
        return tuple(
            field for field in remembered if not self.stated(field).known and not (certified and field == "extract")
        )


def _as_is(dry_percent: Range, moisture_percent: Range) -> Range:
    return Range.span(as_is, dry_percent * 0.01, moisture_percent * 0.01)
