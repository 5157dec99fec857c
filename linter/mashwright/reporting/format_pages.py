"""What ``explain`` prints of the format: a page for each section, and of a unit or a word of the trade.

The fields, what each means and its examples are the schema's; short forms are those of ``reading.short_forms``; here
stand only what a section is for, what is assumed where a field is left out, and an example.
"""

from collections.abc import Iterator
from typing import Any, NamedTuple

from mashwright.measures.unit_table import ROWS, USUAL, Kind
from mashwright.measures.units import find
from mashwright.reading.fields import Schema, at_path, examples, keys
from mashwright.reading.short_forms import EXAMPLES
from mashwright.reading.wording import flow, other_names
from mashwright.reporting.glossary import TERMS
from mashwright.reporting.words import wrapped
from mashwright.words.nearest import nearest
from mashwright_schema import load


class Section(NamedTuple):
    """What the schema does not say of a section.

    Attributes:
        purpose: what it is for, in a sentence or two.
        left_out: what is assumed without it, or without one of its fields.
        example: as a brewer writes it.
    """

    purpose: str
    left_out: tuple[str, ...]
    example: str


RECIPE: dict[str, Section] = {
    "recipe": Section(
        "A recipe is a YAML file. Only `recipe`, `batch` and `grist` are needed; what else you write is checked.",
        ("a section that you leave out is no fault; figures say what was assumed in its place",),
        "recipe: Harbour Wheat\nbatch: 20 l\ngrist:\n  - 4.2 kg pale ale malt\nmash: 66 °C for 60 min\nboil: 60 min\n"
        "hops:\n  - 30 g East Kent Golding (5.2 %) at 60 min\nyeast: English ale",
    ),
    "batch": Section(
        "How much beer it gives. A volume alone is what goes into the fermenter.",
        ("counted in the kettle or in the package, the losses between come from the brewhouse",),
        "batch: {kettle: 23 l}",
    ),
    "grist": Section(
        "All that gives extract: grain, sugar, malt extract and fruit. Each has a weight, or a share where the original"
        " gravity says how much it is in all.",
        (
            "`add`: grain goes into the mash, sugar and extract into the kettle, fruit into the fermenter",
            "colour, extract, moisture and diastatic power: the table's for the name, or the lot's or the brewhouse's",
            "`kind`: the table's for the name; a name that it does not know needs one",
        ),
        "grist:\n  - 4.2 kg pale ale malt\n  - {grain: heritage rye, kind: raw grain, weight: 500 g}",
    ),
    "steep": Section(
        "Grain that is soaked and taken out, without a mash: lines of the grist with `add: steep`.",
        ("time and temperature: none is assumed",),
        "steep: 4 l at 68 °C for 30 min",
    ),
    "mash": Section(
        "How the starch is converted: the water, its heat, and the rests.",
        (
            "`water`: as much as the batch needs, at about 3 l to each kg",
            "`grain-temperature`: 20 °C",
            "`rests`: one of 60 min at 66.5 °C",
            "`ph`: computed from the water, the salts and the malt",
            "`mashes`: one; `reiterated` without it: two",
        ),
        "mash:\n  water: 14 l\n  strike: 73 °C\n  rests:\n    - {at: 66 °C, for: 60 min}\n"
        "    - {at: 76 °C, for: 10 min, by: heat}",
    ),
    "cereal-mash": Section(
        "A second mash in which raw grain is cooked before it joins the others: lines of the grist with"
        " `prepare: cereal mash`.",
        ("its water counts to that of the mash",),
        "cereal-mash: {water: 6 l, boil: 30 min}",
    ),
    "sparge": Section(
        "How the wort is rinsed out of the grain; a list where it is mashed or rinsed again and drained each time, as"
        " in old books. Each water then gives runnings of its own (see `worts`).",
        (
            "`by`: a batch sparge",
            "`water`: as much as the kettle needs beside the mash water",
            "`at`: hot, below 78 °C",
        ),
        "sparge: {by: fly, water: 12 l, at: 75 °C}",
    ),
    "water": Section(
        "What is in the brewing water, as a report of the waterworks states it.",
        ("the brewhouse's water; without one no pH is computed", "an ion that is not stated has a usual range"),
        "water: {calcium: 60 mg/l, alkalinity: 110 mg/l}",
    ),
    "top-up": Section(
        "Water that is added to the kettle or the fermenter.",
        ("none is added",),
        "top-up: {fermenter: 8 l}",
    ),
    "boil": Section(
        "How long and how much is boiled.",
        ("`volume`: the batch with what boils away and what the kettle keeps", "`for`: as long as the longest hops"),
        "boil: {volume: 25 l, for: 60 min}",
    ),
    "souring": Section(
        "Wort or beer that bacteria sour: with what, where, how warm, how long and to which pH.",
        (
            "a stated `souring` makes the recipe a sour beer to every rule",
            "`in`: the rules ask where it sours, since hops hinder the bacteria",
        ),
        "souring: {with: Lactobacillus plantarum, in: kettle, at: 37 °C, for: 36 h, ph: 3.4}",
    ),
    "chill": Section(
        "How the wort is cooled after the boil. Hops go on bittering while it is hot.",
        ("a chiller that cools the wort quickly",),
        "chill: {by: no-chill}",
    ),
    "hops": Section(
        "Each addition of hops: how much, how strong, and when.",
        (
            "`alpha`: the table's range for the cultivar, wide as harvests are",
            "`form`: cones and pellets both",
            "`boil`, `whirlpool`, `dry`, `first-wort` or `mash`: one of them; without any the addition gives no figure",
        ),
        "hops:\n  - {hop: East Kent Golding, weight: 30 g, alpha: 5.2 %, boil: 60 min}\n  - 25 g Cascade dry 4 d",
    ),
    "additions": Section(
        "Spices, finings, nutrient, acids and all else that gives no extract.",
        ("`when`: where it goes is then not known, and some rules ask",),
        "additions:\n  - 15 g coriander seed, last 10 min of the boil",
    ),
    "yeast": Section(
        "What ferments the beer; several as a list.",
        (
            "`attenuation`, tolerance and temperatures: the table's for the kind",
            "`pitch`: whether there is enough yeast is then not asked",
        ),
        "yeast: {kind: English ale, attenuation: 75 %, pitch: 11 g, at: 18 °C}",
    ),
    "aeration": Section(
        "The oxygen that the wort is given before the yeast works: by air, by pure oxygen, or none.",
        ("no rule asks whether the yeast has its oxygen",),
        "aeration: {by: oxygen, oxygen: 10 mg/l}",
    ),
    "ferment": Section(
        "The steps of fermentation and conditioning, one after the other.",
        ("without steps, no rule asks whether the beer has had its time",),
        "ferment:\n  - {at: 19 °C, for: 10 d}\n  - {at: 4 °C, for: 14 d}",
    ),
    "package": Section(
        "What the beer goes into, and how it gets its gas; several as a list.",
        (
            "`gravity`: fermentation has ended when it is packaged",
            "`bottle-rating`: usual bottles, good for about 3.3 volumes (3 to 4)",
        ),
        "package: {in: bottles, carbonation: 2.3 volumes, priming: {sugar: table sugar, weight: 110 g}}",
    ),
    "worts": Section(
        "Several worts of one mash, each a beer of its own: a strong ale and a small beer, or blends of the runnings."
        " Grist, mash and sparge stand at the top; what is one wort's own stands in it, and nowhere at the top.",
        (
            "`sparge`: as much water as the worts need; state it, and the runnings have their volumes",
            "an amount in `runnings`: all of them",
            "`efficiency`: a usual one, and less where little is sparged; a stated one is of all worts together",
        ),
        "worts:\n  - {wort: Old Ale, runnings: {first: all, second: 3 l}, batch: 10 l, targets: {og: 1.080}}\n"
        "  - {wort: Small Beer, runnings: rest, batch: 12 l, targets: {og: 1.036}}",
    ),
    "targets": Section(
        "What you say that the recipe gives. Each is checked against what it can give.",
        ("nothing is assumed; the figures show what is computed",),
        "targets: {og: 1.050, fg: 1.012, abv: 5.0 %, bitterness: 30 IBU}",
    ),
    "measured": Section(
        "What brew days gave, each with its date: it shows how your brewhouse differs from the sums.",
        ("the recipe's batch, where none was measured",),
        "measured:\n  - {date: 2026-03-14, og: 1.049, batch: 19.5 l}",
    ),
    "accepted": Section(
        "Findings that you have judged yourself, each with the reason.",
        ("`until`: for ever",),
        'accepted:\n  - {rule: run-off, reason: "in a bag, it always ran off well", until: 2027-12-31}',
    ),
}
BREWHOUSE = Section(
    "The nearest file brewhouse.yaml in a recipe's folder or above it says what the recipes are brewed on.",
    (
        "`efficiency`: 72 % (60 to 81 %)",
        "losses, boil-off and absorption: usual ranges, which figures show",
        "`stop-at`: a review fails on an error",
    ),
    "brewhouse: Saltmarsh Lane, 30-litre kit\nefficiency: 72 %\nkettle: {volume: 35 l, boil-off: 4 l/h}",
)
NAMES = Section(
    "Your own names for grain, sugar, hops, yeasts and enzymes, said once in brewhouse.yaml. A recipe beneath it may"
    " then use them; what the recipe itself states still wins. `mashwright names` shows all that are known.",
    ("what you do not state of one: the table's for its kind",),
    "brewhouse: Saltmarsh Lane\ningredients:\n  the pale: {kind: pale ale malt, diastatic-power: 62 °Lintner}",
)


def topics() -> tuple[str, ...]:
    """The sections of the format that have a page."""
    return (*RECIPE, "brewhouse", "names")


def topic(name: str, width: int) -> str | None:
    """The page of a section, or of a unit or a word of the trade; None where it is none.

    Args:
        name: as it was typed.
        width: in columns.
    """
    if name in RECIPE:
        path = () if name == "recipe" else (name,)
        return _page(name, RECIPE[name], load("recipe"), path, width)
    if name == "brewhouse":
        return _page(name, BREWHOUSE, load("brewhouse"), (), width)
    if name == "names":
        return _page(name, NAMES, load("brewhouse"), ("ingredients", "any"), width)
    return _word(name, width)


def near(name: str, rules: list[str]) -> str | None:
    """The section, the rule or the word that was probably meant."""
    return nearest(name, [*rules, *topics(), *TERMS], 0.6)


def _page(name: str, section: Section, root: Schema, path: tuple[str | int, ...], width: int) -> str:
    here = at_path(root, path)
    if not keys(here):
        path = (*path, 0)
        here = at_path(root, path)
    lines = [name, "=" * len(name), "", *wrapped(section.purpose.replace("\n", " "), width), ""]
    lines += ["Fields:" if keys(here) else "What it takes: " + flow(examples(here)[0])]
    for key in keys(here):
        lines += _field(root, (*path, key), width, tuple(keys(here)))
    short = EXAMPLES.get(root["title"].lower(), {})
    forms = [text for place, texts in short.items() if place[:1] == path[:1] and path for text in texts]
    if forms:
        lines += ["", "In short:", *(line for form in forms for line in wrapped(form, width, "    ", "        "))]
    lines += ["", "Left out:", *(line for one in section.left_out for line in wrapped(one, width, "  - ", "    "))]
    lines += ["", "An example:", "", *(f"    {line}" for line in section.example.split("\n"))]
    return "\n".join(lines)


def _field(root: Schema, path: tuple[str | int, ...], width: int, among: tuple[str, ...]) -> Iterator[str]:
    yield from wrapped(f"{path[-1]}: {field_in_words(root, path, among)}".strip(), width, "  ", "      ")


def field_in_words(root: Schema, path: tuple[str | int, ...], among: tuple[str, ...]) -> str:
    """What a field means, its other names and an example.

    Args:
        root: the schema of a recipe or a brewhouse.
        among: the fields that may stand beside it.
    """
    here = at_path(root, path)
    told: dict[str, Any] = here[0] if here else {}
    key = str(path[-1])
    shown = next((example for example in examples(here) if not isinstance(example, dict | list)), None)
    such_as = "" if shown is None else f" ({key}: {flow(shown)})"
    others = other_names(key, among) if root["title"] == "Recipe" and len(path) > 1 else []
    also = f" Also: {', '.join(others[:4])}." if others else ""
    return f"{told.get('description', '')}{also}{such_as}"


def _word(name: str, width: int) -> str | None:
    term = TERMS.get(name.casefold())
    lines = [] if term is None else list(wrapped(term, width))
    for kind in Kind:
        rows = ROWS.get(kind, ())[: USUAL.get(kind, len(ROWS.get(kind, ())))]
        unit = find(name, kind) if rows else None
        if unit is not None and unit.name:
            others = ", ".join(row[0][0] for row in rows if row[0][0] and row[0][0] != unit.name)
            beside = f" Other units of it: {others}." if others else ""
            meaning = f" Read as {unit.meaning}." if unit.meaning else ""
            lines += wrapped(f"{unit.name} is a unit of {kind.value}.{meaning}{beside}", width)
    return "\n".join([name, "=" * len(name), "", *lines]) if lines else None
