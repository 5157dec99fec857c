"""The vessels, losses, water and habits that a collection is brewed on."""

from collections.abc import Mapping as Lookup

from msgspec import Struct, field

from mashwright.finding import Path
from mashwright.recipe.model import Accepted, Water, absent
from mashwright.recipe.stated import NO_TEXT, NOWHERE, Lines, Said, Section, Stated, Text, Unsaid


class Vessel(Section, frozen=True):
    """A tun, a kettle or a fermenter; volumes in l, ``boil_off`` in l/h."""

    volume: Stated = NOWHERE
    dead_space: Stated = NOWHERE
    loss: Stated = NOWHERE
    heat: Stated = NOWHERE
    boil_off: Stated = NOWHERE


class Lot(Struct, frozen=True):
    """One delivery of malt or hops with its certificate of analysis."""

    path: Path
    of: Text
    colour: Stated = NOWHERE
    moisture: Stated = NOWHERE
    extract_fine_dry: Stated = NOWHERE
    extract_coarse_dry: Stated = NOWHERE
    extract_fine_as_is: Stated = NOWHERE
    extract_coarse_as_is: Stated = NOWHERE
    diastatic_power: Stated = NOWHERE
    alpha: Stated = NOWHERE
    analysed: Text = NO_TEXT
    expires: Text = NO_TEXT


class Described(Struct, frozen=True):
    """An ingredient of the brewhouse's own: a malt, sugar, hop, yeast or enzyme that it describes once.

    Attributes:
        name: by which it stands in the brewhouse.
        kind: a word of the format, such as ``base malt``, or a name of the tables that it is one of.
        also: its other names.
        temperature: at which a yeast ferments or an enzyme works.
        diastatic: whether a yeast ferments dextrins; None where it is not said.
    """

    path: Path
    name: str
    kind: Text
    also: tuple[Text, ...] = ()
    cereal: Text = NO_TEXT
    colour: Stated = NOWHERE
    extract: Stated = NOWHERE
    moisture: Stated = NOWHERE
    diastatic_power: Stated = NOWHERE
    gelatinises: Stated = NOWHERE
    fermentable: Stated = NOWHERE
    alpha: Stated = NOWHERE
    attenuation: Stated = NOWHERE
    tolerance: Stated = NOWHERE
    temperature: Stated = NOWHERE
    flocculation: Text = NO_TEXT
    diastatic: bool | None = None


class Brewhouse(Struct, frozen=True):
    """A brewhouse, all of it optional.

    Attributes:
        ratings: what each kind of vessel for beer is rated for, by its key: bar or volumes.
        rules: per rule its settings as written: text by setting name; or the one text that stands there, ``off``.
        stop_at: error, warning or note.
        file: from which it was read, as reports show it.
        by_name: the ingredients by sort and name, made when one is first looked up.
    """

    name: Text = NO_TEXT
    efficiency: Stated = Unsaid(("efficiency",))
    mash_tun: Vessel = absent(Vessel, "mash-tun")
    kettle: Vessel = absent(Vessel, "kettle")
    fermenter: Vessel = absent(Vessel, "fermenter")
    ratings: Lookup[str, Said] = field(default_factory=dict)
    absorption: Stated = Unsaid(("absorption",))
    altitude: Stated = Unsaid(("altitude",))
    water: Water = absent(Water, "water")
    lots: Lookup[str, Lot] = field(default_factory=dict)
    ingredients: Lookup[str, Described] = field(default_factory=dict)
    rules: Lookup[str, str | Lookup[str, str]] = field(default_factory=dict)
    stop_at: str = "error"
    recipes: tuple[str, ...] = ()
    accepted: Lines[Accepted] = Lines()
    file: str = ""
    by_name: dict[tuple[str, str], Described | None] = field(default_factory=dict)
