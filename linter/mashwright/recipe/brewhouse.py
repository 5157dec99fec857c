"""The vessels, losses, water and habits that a collection is brewed on."""

from collections.abc import Mapping as Lookup
from dataclasses import dataclass, field

from mashwright.finding import Path
from mashwright.reading.quantity import Quantity
from mashwright.recipe.model import Accepted, Water


@dataclass(frozen=True, slots=True)
class Vessel:
    """A tun, a kettle or a fermenter; volumes in l, ``boil_off`` in l/h."""

    path: Path
    volume: Quantity | None = None
    dead_space: Quantity | None = None
    loss: Quantity | None = None
    heat: Quantity | None = None
    boil_off: Quantity | None = None


@dataclass(frozen=True, slots=True)
class Lot:
    """One delivery of malt or hops with its certificate of analysis."""

    path: Path
    of: str
    colour: Quantity | None = None
    moisture: Quantity | None = None
    extract_fine_dry: Quantity | None = None
    extract_coarse_dry: Quantity | None = None
    extract_fine_as_is: Quantity | None = None
    extract_coarse_as_is: Quantity | None = None
    diastatic_power: Quantity | None = None
    alpha: Quantity | None = None
    analysed: str = ""
    expires: str = ""


@dataclass(frozen=True, slots=True)
class Described:
    """An ingredient that no table knows, described once."""

    path: Path
    kind: str
    cereal: str = ""
    colour: Quantity | None = None
    extract: Quantity | None = None
    moisture: Quantity | None = None
    diastatic_power: Quantity | None = None
    gelatinises: Quantity | None = None
    fermentable: Quantity | None = None


@dataclass(frozen=True, slots=True)
class Brewhouse:
    """A brewhouse, all of it optional.

    Attributes:
        ratings: what each kind of vessel for beer is rated for, by its key: bar or volumes.
        rules: per rule its settings as written: text by setting name; ``{"off": ""}`` where the rule is off.
        stop_at: error, warning or note.
        file: from which it was read, as reports show it.
    """

    name: str = ""
    efficiency: Quantity | None = None
    mash_tun: Vessel | None = None
    kettle: Vessel | None = None
    fermenter: Vessel | None = None
    ratings: Lookup[str, Quantity] = field(default_factory=dict)
    absorption: Quantity | None = None
    altitude: Quantity | None = None
    water: Water | None = None
    lots: Lookup[str, Lot] = field(default_factory=dict)
    ingredients: Lookup[str, Described] = field(default_factory=dict)
    rules: Lookup[str, Lookup[str, str]] = field(default_factory=dict)
    stop_at: str = "error"
    recipes: tuple[str, ...] = ()
    accepted: tuple[Accepted, ...] = ()
    unreadable: frozenset[Path] = frozenset()
    file: str = ""
