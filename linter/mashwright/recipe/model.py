"""A recipe as typed values: what its author wrote, each with the path where it stands.

A quantity that is missing and one that could not be read are both None; the recipe's ``unreadable`` tells them apart,
so that nothing is assumed in place of what somebody did write.
"""

import re
from dataclasses import dataclass

from mashwright.finding import Path
from mashwright.reading.quantity import Quantity


@dataclass(frozen=True, slots=True)
class Batch:
    """How much beer, counted at one place or several; volumes in l."""

    path: Path
    fermenter: Quantity | None = None
    kettle: Quantity | None = None
    package: Quantity | None = None

    @property
    def stated(self) -> Quantity | None:
        """The batch wherever it is counted."""
        return self.fermenter or self.kettle or self.package


@dataclass(frozen=True, slots=True)
class GristLine:
    """One line of the grist and sugars.

    Attributes:
        group: the deciding key: grain, sugar, extract or fruit.
        add: mash, late mash, steep, kettle, fermenter, or "" where the recipe leaves it to the kind.
        cereal_mash: goes through the cereal cooker first.
    """

    path: Path
    group: str
    name: str
    weight: Quantity | None = None
    share: Quantity | None = None
    add: str = ""
    cereal_mash: bool = False
    lot: str = ""
    kind: str = ""
    cereal: str = ""
    colour: Quantity | None = None
    extract: Quantity | None = None
    moisture: Quantity | None = None
    diastatic_power: Quantity | None = None
    gelatinises: Quantity | None = None
    fermentable: Quantity | None = None


@dataclass(frozen=True, slots=True)
class Amount:
    """A named amount: a salt, an acid, an enzyme, a temperature that was measured."""

    path: Path
    name: str
    quantity: Quantity | None


@dataclass(frozen=True, slots=True)
class Rest:
    """One rest of a mash."""

    path: Path
    at: Quantity | None = None
    time: Quantity | None = None
    to: Quantity | None = None
    by: str = ""
    water: Quantity | None = None
    of: Quantity | None = None
    pull: Quantity | None = None
    boil: Quantity | None = None


@dataclass(frozen=True, slots=True)
class Mash:
    """The main mash."""

    path: Path
    water: Quantity | None = None
    thickness: Quantity | None = None
    strike: Quantity | None = None
    grain_temperature: Quantity | None = None
    crush: str = ""
    ph: Quantity | None = None
    salts: tuple[Amount, ...] = ()
    acid: tuple[Amount, ...] = ()
    enzymes: tuple[Amount, ...] = ()
    bag: bool = False
    rests: tuple[Rest, ...] = ()


@dataclass(frozen=True, slots=True)
class CerealMash:
    """The cooker beside the main mash."""

    path: Path
    water: Quantity | None = None
    rests: tuple[Rest, ...] = ()
    boil: Quantity | None = None


@dataclass(frozen=True, slots=True)
class Steep:
    """Grain steeped without a mash."""

    path: Path
    water: Quantity | None = None
    at: Quantity | None = None
    time: Quantity | None = None


@dataclass(frozen=True, slots=True)
class Sparge:
    """How the grain is rinsed."""

    path: Path
    by: str = ""
    water: Quantity | None = None
    at: Quantity | None = None
    ph: Quantity | None = None
    salts: tuple[Amount, ...] = ()
    acid: tuple[Amount, ...] = ()


@dataclass(frozen=True, slots=True)
class Water:
    """Ions of the brewing liquor, in mg/l."""

    path: Path
    calcium: Quantity | None = None
    magnesium: Quantity | None = None
    sodium: Quantity | None = None
    chloride: Quantity | None = None
    sulfate: Quantity | None = None
    bicarbonate: Quantity | None = None
    alkalinity: Quantity | None = None
    ph: Quantity | None = None
    dilution: Quantity | None = None


@dataclass(frozen=True, slots=True)
class TopUp:
    """Water added after the mash."""

    path: Path
    kettle: Quantity | None = None
    fermenter: Quantity | None = None


@dataclass(frozen=True, slots=True)
class Boil:
    """The boil; its volume is the one before it begins."""

    path: Path
    volume: Quantity | None = None
    time: Quantity | None = None
    salts: tuple[Amount, ...] = ()


@dataclass(frozen=True, slots=True)
class Hop:
    """One hop addition; exactly one of the times and flags says when."""

    path: Path
    name: str
    weight: Quantity | None = None
    alpha_units: Quantity | None = None
    bitterness: Quantity | None = None
    alpha: Quantity | None = None
    lot: str = ""
    form: str = ""
    age: Quantity | None = None
    harvest: str = ""
    mash: bool = False
    first_wort: bool = False
    boil: Quantity | None = None
    whirlpool: Quantity | None = None
    at: Quantity | None = None
    dry: Quantity | None = None


@dataclass(frozen=True, slots=True)
class Addition:
    """Spices, finings, nutrients: carried and shown."""

    path: Path
    what: str
    weight: Quantity | None = None
    volume: Quantity | None = None
    count: Quantity | None = None
    when: str = ""


@dataclass(frozen=True, slots=True)
class Yeast:
    """A yeast or another culture."""

    path: Path
    kind: str
    attenuation: Quantity | None = None
    tolerance: Quantity | None = None
    flocculation: str = ""
    diastatic: bool | None = None
    pitch: Quantity | None = None
    viability: Quantity | None = None
    starter: Quantity | None = None
    at: Quantity | None = None


@dataclass(frozen=True, slots=True)
class FermentStep:
    """One step of the fermentation."""

    path: Path
    at: Quantity | None = None
    to: Quantity | None = None
    time: Quantity | None = None
    enzymes: tuple[Amount, ...] = ()


@dataclass(frozen=True, slots=True)
class Priming:
    """Sugar, extract or wort for the bottle.

    Attributes:
        gravity: of the wort, as it goes in.
    """

    path: Path
    name: str = ""
    group: str = ""
    weight: Quantity | None = None
    rate: Quantity | None = None
    each: Quantity | None = None
    bottle: Quantity | None = None
    volume: Quantity | None = None
    gravity: Quantity | None = None


@dataclass(frozen=True, slots=True)
class Package:
    """Bottles, keg or cask."""

    path: Path
    vessel: str = ""
    carbonation: Quantity | None = None
    priming: Priming | None = None
    pressure: Quantity | None = None
    at: Quantity | None = None
    bottle_rating: Quantity | None = None
    gravity: Quantity | None = None


@dataclass(frozen=True, slots=True)
class Targets:
    """What the author says the recipe gives."""

    path: Path
    og: Quantity | None = None
    fg: Quantity | None = None
    abv: Quantity | None = None
    bitterness: Quantity | None = None
    colour: Quantity | None = None
    pre_boil_gravity: Quantity | None = None
    first_wort_gravity: Quantity | None = None
    attenuation: Quantity | None = None


@dataclass(frozen=True, slots=True)
class BrewDay:
    """What was measured on one brew day.

    Attributes:
        temperatures: each under a name of the brewer's own.
    """

    path: Path
    date: str
    measured: Targets
    batch: Batch | None = None
    temperatures: tuple[Amount, ...] = ()


@dataclass(frozen=True, slots=True)
class Accepted:
    """A finding that somebody accepts, with the reason.

    Attributes:
        until: a date as YYYY-MM-DD, or "".
        where: a glob over recipes, in a brewhouse only.
    """

    path: Path
    rule: str
    reason: str
    until: str = ""
    where: str = ""


@dataclass(frozen=True, slots=True)
class Recipe:
    """A whole recipe, format 1.

    Attributes:
        unreadable: places that hold something which could not be read.
        readings: how an archaic or unclear measure was taken, by its place.
        imperial: measured in British or archaic units, so that a bare gallon may be either.
    """

    name: str = ""
    by: str = ""
    style: str = ""
    source: str = ""
    notes: str = ""
    batch: Batch | None = None
    efficiency: Quantity | None = None
    mash_efficiency: Quantity | None = None
    grist: tuple[GristLine, ...] = ()
    steep: Steep | None = None
    mash: Mash | None = None
    cereal_mash: CerealMash | None = None
    sparge: Sparge | None = None
    water: Water | None = None
    top_up: TopUp | None = None
    boil: Boil | None = None
    hops: tuple[Hop, ...] = ()
    additions: tuple[Addition, ...] = ()
    yeast: tuple[Yeast, ...] = ()
    ferment: tuple[FermentStep, ...] = ()
    package: Package | None = None
    targets: Targets = Targets(("targets",))
    measured: tuple[BrewDay, ...] = ()
    accepted: tuple[Accepted, ...] = ()
    unreadable: frozenset[Path] = frozenset()
    readings: tuple[tuple[Path, str], ...] = ()
    imperial: bool = False

    @property
    def lines(self) -> int:
        """Lines of all its lists, by which it takes the longer to judge; a rest, followed often, counts for three."""
        mash, cooker, sparge, boil = self.mash, self.cereal_mash, self.sparge, self.boil
        lists: list[tuple[object, ...]] = [
            self.grist,
            self.hops,
            self.additions,
            self.yeast,
            self.ferment,
            self.measured,
        ]
        lists += [step.enzymes for step in self.ferment] + [day.temperatures for day in self.measured]
        if mash is not None:
            lists += [mash.rests, mash.rests, mash.rests, mash.salts, mash.acid, mash.enzymes]
        if cooker is not None:
            lists.append(cooker.rests)
        if sparge is not None:
            lists += [sparge.salts, sparge.acid]
        if boil is not None:
            lists.append(boil.salts)
        return sum(map(len, lists))

    @property
    def years(self) -> tuple[int, ...]:
        """The years, from 1000 on, that the source tells, or the name of a recipe that has a source."""
        if not self.source:
            return ()
        return tuple(int(year) for year in re.findall(r"\b[1-9]\d{3}\b", f"{self.source} {self.name}"))
