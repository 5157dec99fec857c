"""Whole recipes for hypothesis: valid ones, nearly valid ones, and those that are made to hurt."""

from hypothesis import strategies as st

__all__ = ["BOMB", "LARGE", "PALE", "nearly_valid_recipes", "recipe_texts"]

BASES = ("two-row pale malt", "pilsner malt", "Maris Otter", "Vienna malt", "six-row", "wheat malt", "heritage barley")
GRAINS = ("raw wheat", "flaked oats", "flaked maize", "maize grits", "caramel malt 60", "roasted barley", "rice hulls")
SUGARS = ("table sugar", "lactose", "honey", "brewing sugar")
HOPS = ("Fuggle", "East Kent Golding", "Saaz", "Cascade")
YEASTS = ("English ale", "lager", "saison", "German wheat", "wild")
SALTS = ("gypsum", "calcium chloride", "baking soda", "table salt")


def quantity(low: float, high: float, *units: str, places: int = 2) -> st.SearchStrategy[str]:
    """A number between two bounds with one of some units; sometimes a range."""
    numbers = st.floats(low, high).map(lambda value: f"{value:.{places}f}".rstrip("0").rstrip("."))
    one = st.builds(lambda number, unit: f"{number} {unit}", numbers, st.sampled_from(units))
    span = st.builds(
        lambda value, unit: f"{value:.{places}f}-{value * 1.1:.{places}f} {unit}",
        st.floats(low, high),
        st.sampled_from(units),
    )
    return st.one_of(one, one, one, span)


def fields(required: dict[str, st.SearchStrategy[str]], **maybe: st.SearchStrategy[str]) -> st.SearchStrategy[str]:
    """A mapping in braces; an underline in a name stands for a hyphen."""
    optional = {name.replace("_", "-"): value for name, value in maybe.items()}
    return st.fixed_dictionaries(required, optional=optional).map(
        lambda given: "{" + ", ".join(f"{name}: {value}" for name, value in given.items()) + "}"
    )


def lines(items: st.SearchStrategy[str], most: int, least: int = 0) -> st.SearchStrategy[str]:
    """A list, a line an item."""
    return st.lists(items, min_size=least, max_size=most).map(
        lambda some: "\n" + "\n".join(f"  - {one}" for one in some) if some else " []"
    )


temperatures = quantity(30, 99, "°C", "C", places=0) | quantity(90, 210, "°F", places=0)
minutes = quantity(0, 120, "min", places=0) | quantity(0.1, 3, "h")
volumes = quantity(1, 60, "l") | quantity(1, 15, "gal", "imp gal")
weights = quantity(0.01, 12, "kg") | quantity(1, 900, "g", "oz") | quantity(0.1, 25, "lb")
percents = quantity(0, 100, "%")
colours = quantity(1, 600, "°Lovibond", "EBC", "SRM")

grist_lines = st.one_of(
    fields(
        {"grain": st.sampled_from(BASES), "weight": weights},
        diastatic_power=quantity(0, 250, "°Lintner", "°WK"),
        extract=quantity(40, 85, "%"),
        colour=colours,
        lot=st.just("PM-0388"),
    ),
    fields(
        {"grain": st.sampled_from(GRAINS), "weight": weights},
        add=st.sampled_from(("mash", "late mash", "steep", "kettle")),
        prepare=st.just("cereal mash"),
        moisture=percents,
    ),
    fields({"sugar": st.sampled_from(SUGARS), "weight": weights}, add=st.sampled_from(("kettle", "fermenter"))),
)
rests = fields(
    {"at": temperatures, "for": minutes},
    to=temperatures,
    by=st.sampled_from(("heat", "decoction", "cereal mash")),
)
salts = st.dictionaries(st.sampled_from(SALTS), quantity(0, 20, "g", "tsp"), max_size=3).map(
    lambda given: "{" + ", ".join(f"{name}: {value}" for name, value in given.items()) + "}"
)
ions = st.sampled_from(("calcium", "magnesium", "sodium", "chloride", "sulfate", "bicarbonate", "alkalinity"))
hop_lines = fields(
    {"hop": st.sampled_from(HOPS), "weight": quantity(1, 200, "g", "oz")},
    alpha=quantity(1, 20, "%"),
    boil=minutes,
    form=st.sampled_from(("cone", "pellet", "extract")),
)
yeast_fields = fields(
    {"kind": st.sampled_from(YEASTS)},
    attenuation=percents,
    tolerance=quantity(3, 20, "%"),
    pitch=quantity(1, 40, "g") | quantity(10, 900, "billion cells", "ml"),
    diastatic=st.just("true"),
)
gravities = st.integers(980, 1160).map(lambda points: f"{points / 1000:.3f}") | quantity(0, 35, "°P")

package_fields = fields(
    {"in": st.sampled_from(("bottles", "keg", "cask", "firkin", "cans"))},
    share=quantity(0, 100, "%"),
    size=volumes,
    spund=fields({"pressure": quantity(0, 4, "bar", "psi")}, gravity=gravities, at=temperatures),
    gas=st.sampled_from(("CO2", "30 % CO2", "70 % N2", "nitrogen", "70/30")),
    pressure=quantity(0, 5, "bar", "psi"),
    at=temperatures,
    carbonation=quantity(0, 5, "volumes", "g/l"),
    gravity=gravities,
    bottle_rating=quantity(2, 8, "volumes", "bar"),
)

SECTIONS: dict[str, st.SearchStrategy[str]] = {
    "by": st.just(" Saltmarsh Lane Mash Circle"),
    "style": st.sampled_from((" wheat ale", " stout", " pilsner", " nobody's ale")),
    "efficiency": percents.map(" {}".format),
    "steep": fields({"at": temperatures, "for": minutes}, water=volumes).map(" {}".format),
    "mash": st.builds(
        lambda water, strike, acidity, some, steps: (
            f"\n  water: {water}\n  strike: {strike}\n  ph: {acidity:.2f}\n"
            f"  salts: {some}\n  rests: [{', '.join(steps)}]"
        ),
        volumes,
        temperatures,
        st.floats(4, 7),
        salts,
        st.lists(rests, max_size=4),
    ),
    "cereal-mash": fields({"water": volumes, "boil": minutes}).map(" {}".format),
    "sparge": fields(
        {"by": st.sampled_from(("batch", "fly", "none"))},
        water=volumes,
        at=temperatures,
    ).map(" {}".format),
    "water": st.dictionaries(ions, quantity(0, 500, "mg/l", "ppm"), max_size=5).map(
        lambda given: " {" + ", ".join(f"{name}: {value}" for name, value in given.items()) + "}"
    ),
    "boil": fields({"for": minutes}, volume=volumes).map(" {}".format),
    "hops": lines(hop_lines, 4),
    "yeast": st.one_of(yeast_fields.map(" {}".format), lines(yeast_fields, 2, 1)),
    "ferment": lines(fields({"at": quantity(1, 40, "°C"), "for": quantity(0, 60, "d", "weeks")}), 3),
    "package": st.one_of(package_fields.map(" {}".format), lines(package_fields, 4, 1)),
    "targets": fields(
        {},
        og=gravities,
        fg=gravities,
        abv=quantity(0, 20, "%"),
        bitterness=quantity(0, 150, "IBU"),
        colour=colours,
    ).map(" {}".format),
}  # fmt: skip


@st.composite
def recipe_texts(draw: st.DrawFn) -> str:
    """A recipe of which every field is valid; whether the beer is, is another question."""
    names = draw(st.lists(st.sampled_from(sorted(SECTIONS)), unique=True, max_size=9))
    parts = [f"recipe: Trial {draw(st.integers(0, 99))}", f"batch: {draw(volumes)}"]
    parts.append(f"grist:{draw(lines(grist_lines, 7, 1))}")
    parts += [f"{name}:{draw(SECTIONS[name])}" for name in names]
    return "\n".join(parts) + "\n"


SLIPS = (
    "", " ", "  ", "- ", ": ", "\t", "\n", "\r", "#", "&a ", "*a ", "!!str ", "|", ">", "'", '"', "{", "}", "[", "]",
    ",", "0", "-1", "1e9", "1e-9", "½", "¾", "½ ½", "°", "kg", "lb", "%", "~", "null", "yes", ".nan", "…", "–",
    "\u00a0", "\u200b", "\ufeff", "\u2028", "\x00", "🍺", "weight", "grain", "recipe: x\n", "---\n", "<<: *a",
)  # fmt: skip


@st.composite
def nearly_valid_recipes(draw: st.DrawFn) -> str:
    """A recipe after a few slips of the pen: pieces left out, doubled, swapped for others."""
    text = draw(recipe_texts())
    for _ in range(draw(st.integers(1, 4))):
        start = draw(st.integers(0, len(text)))
        end = min(len(text), start + draw(st.sampled_from((0, 0, 1, 2, 5, 30))))
        middle = draw(st.sampled_from(SLIPS)) if draw(st.booleans()) else text[start:end] * 2
        text = text[:start] + middle + text[end:]
    return text


HEAD = "recipe: Trial\nbatch: 20 l\n"
PALE = HEAD + "grist:\n  - {grain: pale malt, weight: 4 kg}\n"
LARGE = {
    "many lines of grist": lambda size: HEAD + "grist:\n" + "  - {grain: raw wheat, weight: 1 kg}\n" * (size // 37),
    "one kind in many colours": lambda size: (
        HEAD + "grist:\n" + "".join(f"  - {{grain: malt {n}, weight: {n} g}}\n" for n in range(size // 34))
    ),
    "many hops": lambda size: PALE + "hops:\n" + "  - {hop: Saaz, weight: 1 g, boil: 9 min}\n" * (size // 41),
    "many rests": lambda size: PALE + "mash:\n  rests:\n" + "    - {at: 66 °C, for: 9 min}\n" * (size // 31),
    "a long name": lambda size: "recipe: " + "x " * (size // 2) + "\nbatch: 20 l\ngrist: []\n",
    "a long number": lambda size: "recipe: x\nbatch: " + "9" * size + " l\ngrist: []\n",
    "a long quantity": lambda size: "recipe: x\nbatch: " + "1 lb " * (size // 5) + "\ngrist: []\n",
    "a long literal": lambda size: HEAD + "grist: []\nnotes: |\n" + "  text\n" * (size // 7),
    "deep lists": lambda size: HEAD + "grist: " + "[" * size,
    "deep braces": lambda size: HEAD + "mash: " + "{rests: " * (size // 8),
    "nothing but dashes": lambda size: "recipe: x\ngrist:\n" + "-\n" * (size // 2),
    "nothing but colons": lambda size: "recipe:" * (size // 7),
    "nothing but quotes": lambda size: "recipe: " + "'" * size,
    "comments": lambda size: "recipe: x\n" + "# text\n" * (size // 7),
    "line ends": lambda size: "recipe: x\n" + "\r" * size,
    "aliases": lambda size: "recipe: &a x\ngrist: [" + "*a," * (size // 3) + "]\n",
    "one key many times": lambda size: "recipe: x\n" + "batch: 20 l\n" * (size // 12),
    "accepted without end": lambda size: PALE + "accepted:\n" + "  - {rule: run-off, reason: x}\n" * (size // 31),
}  # fmt: skip
"""What a text of some size, in characters, may be full of."""


BOMB = "recipe: x\na: &a [x,x,x,x,x,x,x,x,x]\n" + "".join(
    f"{chr(one + 1)}: &{chr(one + 1)} [{','.join(['*' + chr(one)] * 9)}]\n" for one in range(ord("a"), ord("k"))
)
"""Aliases of aliases: 9 values to the tenth power."""
