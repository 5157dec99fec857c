"""Schema errors: whole sentences at their places, one for each cause."""

# ruff: noqa: E501 -- a table reads best with a row to a line

import copy
import importlib
import json
import re
import subprocess
import sys
from collections.abc import Iterator
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from mashwright.reading.document import read_document
from mashwright.reading.nodes import data
from mashwright.reading.schema import check_fields, known_keys, understood
from mashwright_schema import load

RECIPE = """\
recipe: Harbour Wheat
by: Saltmarsh Lane Mash Circle
style: wheat ale                    # free text
batch: 20 l                         # into the fermenter
efficiency: 70 %                    # of the mashed lines: their extract in the fermenter / in the grist

grist:
  - grain: two-row pale malt        # name or alias from the reference table, from a lot, or described right here
    weight: 2.9 kg
  - grain: raw wheat
    weight: 1.35 kg
  - grain: caramel malt 40
    weight: 300 g
    colour: 41 °Lovibond            # overrides: colour, extract, moisture, diastatic-power, gelatinises
    lot: CM-0419
  - sugar: table sugar
    weight: 200 g
    add: kettle

mash:
  water: 14 l                       # strike water; or thickness: 3.1 l/kg
  strike: 73 °C                     # its temperature
  grain-temperature: 18 °C
  ph: 5.4                           # of a cooled sample
  salts: {gypsum: 4 g, calcium chloride: 2 g}
  rests:
    - {at: 66 °C, for: 60 min}
    - {at: 76 °C, for: 10 min, by: infusion, water: 7.3 l, of: 98 °C}
sparge: {by: batch, water: 8.5 l, at: 75 °C}
water: {calcium: 60 mg/l, magnesium: 8 mg/l, sodium: 20 mg/l, chloride: 40 mg/l, sulfate: 55 mg/l, alkalinity: 110 mg/l}

boil: {volume: 25 l, for: 60 min}
hops:
  - {hop: East Kent Golding, weight: 30 g, alpha: 5.2 %, boil: 60 min, form: pellet}
  - {hop: Fuggle, weight: 20 g, alpha: 4.5 %, whirlpool: 20 min, at: 80 °C}
  - {hop: Fuggle, weight: 25 g, alpha: 4.5 %, dry: 4 d}

yeast: {kind: English ale, attenuation: 75 %, tolerance: 9 %, pitch: 11 g}
ferment:
  - {at: 19 °C, for: 10 d}
package: {in: bottles, carbonation: 2.3 volumes, priming: {sugar: table sugar, weight: 110 g}, bottle-rating: 3.5 volumes}

targets:                            # what the author says the recipe gives; checked against what it can give
  og: 1.050                         # or 12.4 °P
  fg: 1.012
  abv: 5.0 %
  bitterness: 20 IBU
  colour: 6 SRM

accepted:                           # a suppression, with its justification; unused or expired ones are findings
  - {rule: adjunct-share, reason: "brewed twice with this share, it ran off well", until: 2027-12-31}
"""

BREWHOUSE = """\
brewhouse: Saltmarsh Lane, 30-litre kit
efficiency: 72 %
mash-tun: {volume: 30 l, dead-space: 1 l, heat: 2 l}     # heat: the water that would take up as much as the vessel
kettle: {volume: 35 l, loss: 1 l, boil-off: 4 l/h}
fermenter: {volume: 30 l, loss: 1 l}
absorption: 1.0 l/kg
altitude: 120 m
water: {calcium: 60 mg/l, alkalinity: 110 mg/l}
lots:
  CM-0419: {of: caramel malt 40, colour: 41 °Lovibond, moisture: 4.6 %, analysed: 2026-09-02}
  PM-0388: {of: two-row pale malt, diastatic-power: 112 °Lintner, extract-fine-dry: 80.9 %, moisture: 4.1 %}
ingredients:                        # things the table does not know, described once
  heritage rye: {kind: raw grain, cereal: rye, extract: 68 %, colour: 2 °Lovibond}
rules:
  enzyme-sufficiency: {floor: 35 °Lintner}
  usual-share: off
  style-range: {level: note}        # a ceiling
stop-at: error                      # error | warning | note: from which level a review fails
recipes: ["house/**/*.yaml", "guests/**/*.yaml"]
accepted:
  - {rule: hop-rate, in: "guests/**", reason: guests hop as they like}
"""

HEAD = "recipe: Mild\nbatch: 20 l\n"
BASE = HEAD + "grist:\n  - {grain: pale malt, weight: 5 kg}\n"  # a line under test is line 5
LINE = HEAD + "grist:\n  - "  # a grist line under test is line 4, from column 5


def told(text: str, schema: str = "recipe") -> list[tuple[int, int, str]]:
    document = read_document(text)
    problems = check_fields(document, schema)
    return [(*document.place(problem.span)[:2], problem.message) for problem in problems]


@pytest.mark.parametrize(("text", "schema"), [(RECIPE, "recipe"), (BREWHOUSE, "brewhouse"), (BASE, "recipe")])
def test_sound_documents_have_no_problems(text: str, schema: str) -> None:
    assert read_document(text).problems == ()
    assert told(text, schema) == []


def keywords(schema: Any) -> Iterator[str]:
    for keyword, value in schema.items():
        yield keyword
        if keyword in ("properties", "$defs"):
            for inner in value.values():
                yield from keywords(inner)
        elif keyword == "allOf":
            for inner in value:
                yield from keywords(inner)
        elif isinstance(value, dict) and keyword not in ("examples", "const"):
            yield from keywords(value)


ANNOTATIONS = {"$schema", "$id", "$defs", "title", "description", "examples", "errorMessage"}
REST = "- {at: 66 °C, for: 60 min}"

KEYWORDS: dict[str, list[tuple[str, str, tuple[int, int, str]]]] = {
    "type": [
        ("recipe", "- a\n", (1, 1, "a recipe takes fields, not a list; write recipe: Harbour Wheat and batch: 20 l")),
        (
            "recipe",
            BASE + "sparge: 8 g\n",
            (5, 9, "`sparge` takes fields, not 8 g; write sparge: {by: batch, water: 8.5 l, at: 75 °C}"),
        ),
        (
            "recipe",
            BASE + "mash: {rests: {who: 66 °C}}\n",
            (5, 8, f"`rests` is a list; put a dash in front of each thing in it: {REST}"),
        ),
        (
            "recipe",
            LINE + "{grain: rye, weight: [5 kg]}\n",
            (4, 18, "`weight` takes one value, such as 2.9 kg, not a list"),
        ),
        ("recipe", BASE + "mash: {bag: yes}\n", (5, 13, "`bag` is true or false, not yes; write bag: true")),
    ],
    "required": [
        (
            "recipe",
            BASE.replace("batch: 20 l\n", ""),
            (1, 1, "the recipe has no `batch`; add one, such as batch: 20 l"),
        ),
        ("recipe", LINE + "{grain: rye}\n", (4, 6, "this line has no weight; add one, such as weight: 2.9 kg")),
        (
            "brewhouse",
            "lots: {A: {moisture: 4 %}}\n",
            (1, 8, "this lot does not say of what it is; add one, such as of: two-row pale malt"),
        ),
    ],
    "additionalProperties": [
        (
            "recipe",
            LINE + "{grain: rye, wieght: 5 kg}\n",
            (4, 18, "`wieght` is not known here; did you mean `weight`?"),
        ),
        (
            "recipe",
            BASE + "mash: {salts: {gypsum: [4 g]}}\n",
            (5, 16, "`gypsum` takes one value, such as 4 g, not a list"),
        ),
    ],
    "enum": [
        (
            "recipe",
            LINE + "{grain: rye, weight: 1 kg, add: kettel}\n",
            (4, 37, "`add` does not take kettel; did you mean kettle?"),
        ),
        (
            "brewhouse",
            "stop-at: never\n",
            (1, 10, "`stop-at` takes error, warning or note, not never"),
        ),
    ],
    "const": [
        ("recipe", BASE + "format: 2\n", (5, 9, "`format` is 1, not 2; write format: 1")),
        ("recipe", BASE + "format: '1'\n", (5, 9, "`format` is 1, not that in quotes; write format: 1")),
        (
            "brewhouse",
            "rules: {hop-rate: on}\n",
            (1, 19, "a rule takes off or its settings, such as {floor: 35 °Lintner}"),
        ),
    ],
    "not": [
        (
            "recipe",
            LINE + "{grain: rye, sugar: honey, weight: 1 kg}\n",
            (4, 18, "`grain` and `sugar` stand in one line; give each a line of its own"),
        ),
    ],
    "pattern": [
        (
            "recipe",
            BASE + "accepted: [{rule: colour, reason: no, until: 31.12.2027}]\n",
            (5, 46, "`until` is a date such as 2027-12-31, not 31.12.2027"),
        ),
        (
            "recipe",
            LINE + "{grain: rye, extract: light dry extract, weight: 1 kg}\n",
            (
                4,
                27,
                (
                    "`grain` and `extract` stand in one line; give each a line of its own, or write what this one yields,"
                    " such as extract: 80 %"
                ),
            ),
        ),
    ],
    "minItems": [
        (
            "recipe",
            HEAD + "grist: []\n",
            (3, 1, "`grist` is empty; write grist: [{grain: two-row pale malt, weight: 2.9 kg}]"),
        ),
    ],
    "maxItems": [
        (
            "recipe",
            BASE + "package: [" + ", ".join(["{in: keg}"] * 21) + "]\n",
            (5, 1, "these are more than 20 packages of one beer; put those of a kind together"),
        ),
    ],
    "minLength": [
        ("recipe", BASE.replace("Mild", '""'), (1, 9, "`recipe` is empty; write recipe: Harbour Wheat")),
    ],
    "minProperties": [("recipe", BASE.replace("20 l", "{}"), (2, 1, "`batch` is empty; write batch: 20 l"))],
    "properties": [
        ("recipe", BASE + "by: [Ann]\n", (5, 1, "`by` takes one value, such as Saltmarsh Lane Mash Circle, not a list"))
    ],
    "items": [
        (
            "recipe",
            BASE + "mash: {rests: [warm]}\n",
            (
                5,
                16,
                "an item of `rests` takes fields, not warm; write - {at: 66 °C, for: 60 min}",
            ),
        ),
    ],
    "$ref": [
        ("recipe", BASE + "water: {ph: {of: 7}}\n", (5, 9, "`ph` takes one value, such as 7.4, not fields")),
    ],
    "allOf": [
        (
            "recipe",
            BASE + "targets: {color: 6 SRM, colour: 6 SRM}\n",
            (5, 11, "`colour` and `color` are one field in two spellings; keep one of them"),
        ),
    ],
    "if": [
        (
            "recipe",
            BASE + "mash: {rests: [{at: 76 °C, by: heat, water: 3 l}]}\n",
            (5, 38, "`water` belongs to an infusion; leave it out, or change `by`"),
        ),
    ],
    "then": [
        (
            "recipe",
            LINE + "{sugar: honey, weight: 1 kg, prepare: cereal mash}\n",
            (4, 34, "a sugar has no starch to cook; leave `prepare` out"),
        ),
    ],
    "else": [
        (
            "recipe",
            LINE + "{weight: 1 kg}\n",
            (
                4,
                6,
                (
                    "this line does not say what it is; name it by `grain`, `sugar`, `extract` or `fruit`, such as grain:"
                    " two-row pale malt"
                ),
            ),
        ),
    ],
}


def test_the_table_has_every_keyword_that_the_schemas_use() -> None:
    used = {keyword for name in ("recipe", "brewhouse") for keyword in keywords(load(name))}
    assert used - ANNOTATIONS == set(KEYWORDS)


@pytest.mark.parametrize(("schema", "text", "problem"), [row for rows in KEYWORDS.values() for row in rows])
def test_every_keyword_in_words(schema: str, text: str, problem: tuple[int, int, str]) -> None:
    assert told(text, schema) == [problem]


@pytest.mark.parametrize(
    ("text", "problems"),
    [
        (
            HEAD + "Grist:\n  - {grain: rye, weight: 5 kg}\ngrist:\n  - {grain: rye, weight: 5 kg}\n",
            [(3, 1, "`Grist` does not go here; it goes at the top of the recipe as `grist`")],
        ),
        (
            HEAD + "grisst:\n  - {grain: rye, weight: 5 kg}\n",
            [(3, 1, "`grisst` is not known here; did you mean `grist`?")],
        ),
        (HEAD + "grain-bill:\n  - {grain: rye, weight: 5 kg}\n", []),
        (
            HEAD + "grist:\n",
            [(3, 1, "`grist` has nothing under it; write grist: [{grain: two-row pale malt, weight: 2.9 kg}]")],
        ),
        (
            HEAD + "grist: {grain: rye, weight: 5 kg}\n",
            [
                (
                    3,
                    1,
                    "`grist` is a list; put a dash in front of each thing in it: - {grain: two-row pale malt, weight: 2.9 kg}",
                )
            ],
        ),
        (
            LINE + "{grian: rye, wieght: 5 kg}\n",
            [
                (4, 6, "`grian` is not known here; did you mean `grain`?"),
                (4, 18, "`wieght` is not known here; did you mean `weight`?"),
            ],
        ),
        (LINE + "{grain: rye, shrae: 5 %}\n", [(4, 18, "`shrae` is not known here; did you mean `share`?")]),
        (
            LINE + "{grain: rye, share: 5 %, weight: 1 kg}\n",
            [(4, 30, "`weight` and `share` stand in one line; keep one of them")],
        ),
        (LINE + "{grain: rye, weight: }\n", [(4, 18, "`weight` has no value; write weight: 2.9 kg")]),
        (
            LINE + "{grain: rye, weight: 1 kg, lot: }\n",
            [(4, 32, "`lot` has no value; write lot: CM-0419, or leave it out")],
        ),
        (LINE + "{grain: rye, weight: true}\n", [(4, 26, "`weight` takes one value, such as 2.9 kg, not true")]),
        (LINE + "{grain: rye, extract: 80 %, weight: 1 kg}\n", []),
        (LINE + "{grain: 1066, weight: 5}\n", []),  # a missing unit is for the quantity parser to say
        (
            LINE + "{extract: light dry extract, weight: 1 kg, prepare: cereal mash}\n",
            [(4, 48, "a malt extract has no starch to cook; leave `prepare` out")],
        ),
        (
            LINE + "{grain: rye, weight: 1 kg, kind: crystal malt}\n",
            [(4, 38, "`kind` does not take crystal malt; did you mean caramel malt?")],
        ),
    ],
)
def test_grist(text: str, problems: list[tuple[int, int, str]]) -> None:
    assert told(text) == problems


@pytest.mark.parametrize(
    ("line", "column", "message"),
    [
        ("mash: {style: mild}", 8, "`style` does not go here; it goes at the top of the recipe"),
        (
            "mash: {grain_temprature: 18 °C}",
            8,
            "`grain_temprature` is not known here; did you mean `grain-temperature`?",
        ),
        (
            "mash:",
            1,
            "`mash` has nothing under it; write mash: {water: 14 l, strike: 73 °C, rests: [{at: 66 °C, for: 60 min}]}, or leave it out",
        ),
        ("mash: {water: 1 l, thickness: 3 l/kg}", 20, "`water` and `thickness` stand together; keep one of them"),
        (
            "sparge: {by: none, foo: 1}",
            20,
            "`foo` is not a field here; the others are `water`, `at`, `ph`, `salts` and `acid`",
        ),
        ("boil: 60 kg", 7, "`boil` takes fields, not 60 kg; write boil: {volume: 25 l, for: 60 min}"),
        (
            "hops: {hop: Fuggle}",
            1,
            "`hops` is a list; put a dash in front of each thing in it: - {hop: East Kent Golding, weight: 30 g, alpha: 5.2 %, boil: 60 min}",
        ),
        (
            "hops: [{hop: Fuggle, boil: 60 min, dry: 3 d}]",
            36,
            "`boil` and `dry` stand in one addition; give each a line of its own",
        ),
        ("hops: [{hop: Fuggle, form: pelet}]", 28, "`form` does not take pelet; did you mean pellet?"),
        ("notes: [a]", 1, "`notes` takes one value or fields, not a list; write notes: brewed for the harvest supper"),
        ("targets: {bitternes: 30}", 11, "`bitternes` is not known here; did you mean `bitterness`?"),
        (
            "accepted: [{rule: colour}]",
            13,
            "say why this finding is accepted, such as reason: brewed twice with this share, it ran off well",
        ),
        (
            "accepted: [{reason: old}]",
            13,
            "this does not say which finding is accepted; name its rule, such as rule: adjunct-share",
        ),
        (
            "accepted: [{rule: colour, reason: }]",
            27,
            "say why this finding is accepted, such as reason: brewed twice with this share, it ran off well",
        ),
        ("accepted: [{rule: colour, reason: old, until: 2027}]", 47, "`until` is a date such as 2027-12-31, not 2027"),
    ],
)
def test_the_rest_of_a_recipe(line: str, column: int, message: str) -> None:
    assert told(f"{BASE}{line}\n") == [(5, column, message)]


def test_a_key_that_is_like_none_lists_what_can_stand() -> None:
    ((line, column, message),) = told(BASE + "zzz: 1\n")
    assert (line, column) == (5, 1)
    assert message.startswith("`zzz` is not a field here; the others are `by`, `style`, `source`, `notes`, ")
    assert message.endswith(", `measured` and `accepted`; data of your own can stand under `notes`")
    assert "`batch`" not in message


@pytest.mark.parametrize(
    ("text", "problem"),
    [
        (
            "mash_tum: {volume: 30 l}\n",
            (1, 1, "`mash_tum` is not known here; did you mean `mash-tun`?"),
        ),
        ("efficency: 72 %\n", (1, 1, "`efficency` is not known here; did you mean `efficiency`?")),
        ("boil-off: 3 l/h\n", (1, 1, "`boil-off` does not go here; it goes under `kettle`")),
        ("lots: {A: pale malt}\n", (1, 11, "`A` takes fields, not pale malt; write A: {of: pale malt}")),
        ("ingredients: {rye: {cereal: rye}}\n", (1, 15, "this ingredient needs its kind, such as kind: raw grain")),
        (
            "recipes: house/*\n",
            (1, 10, "`recipes` is a list; put a dash in front of each thing in it: - house/**/*.yaml"),
        ),
        ("rules: {colour: {level: loud}}\n", (1, 25, "`level` takes error, warning or note, not loud")),
        ("rules: {colour: false}\n", (1, 17, "`colour` takes one value or fields, not false; write colour: off")),
    ],
)
def test_a_brewhouse(text: str, problem: tuple[int, int, str]) -> None:
    assert told(text, "brewhouse") == [problem]


def test_what_reading_has_said_is_not_said_again() -> None:
    document = read_document(LINE + "{grain: rye, weight: .nan}\n")
    assert len(document.problems) == 1
    assert check_fields(document, "recipe") == []


def test_a_text_that_is_no_document_has_no_fields_to_check() -> None:
    assert check_fields(read_document("a: [\n"), "recipe") == []


def test_a_missing_key_is_named_in_the_path() -> None:
    (problem,) = check_fields(read_document(LINE + "{grain: rye}\n"), "recipe")
    assert problem.path == ("grist", 0, "weight")


def test_known_keys_of_open_mappings_and_of_nothing() -> None:
    assert known_keys("brewhouse", ("rules", "colour")) == ("level",)
    assert known_keys("recipe", ("mash", "salts")) == ()
    assert known_keys("recipe", ("nowhere",)) == ()


def test_a_sound_recipe_does_without_the_slow_library() -> None:
    script = (
        "import sys; from mashwright.reading.document import read_document; "
        "from mashwright.reading.schema import check_fields, understood; "
        f"assert check_fields(read_document({BASE!r}), 'recipe') == []; "
        "print('jsonschema' in sys.modules)"
    )
    done = subprocess.run([sys.executable, "-c", script], capture_output=True, text=True, check=True)
    assert done.stdout == "False\n"


def test_sixty_deep_is_one_problem() -> None:
    text = BASE + "mash: " + "[" * 60 + "]" * 60 + "\n"
    assert [message for _, _, message in told(text)] == [
        "an item of `rests` takes fields, not a list; write - {at: 66 °C, for: 60 min}"
    ]


SAMPLES: dict[str, Any] = {
    "recipe": data(read_document(RECIPE).root),  # type: ignore[arg-type]
    "brewhouse": data(read_document(BREWHOUSE).root),  # type: ignore[arg-type]
}
ALL_KEYS = sorted({key for name in SAMPLES for key in re.findall(r"[a-z-]+", str(load(name)))})
VALUES = st.one_of(
    st.none(),
    st.booleans(),
    st.integers(),
    st.just(1.5),
    st.text(max_size=8),
    st.just([]),
    st.just({}),
    st.just([None]),
    st.sampled_from(["5 kg", "kettle", "off", "yes", "2027-12-31"]),
)


def places(value: Any, path: tuple[str | int, ...] = ()) -> Iterator[tuple[str | int, ...]]:
    yield path
    pairs = value.items() if isinstance(value, dict) else enumerate(value) if isinstance(value, list) else ()
    for key, inner in pairs:
        yield from places(inner, (*path, key))


@st.composite
def mutated(draw: st.DrawFn, schema: str) -> Any:
    """A sample in which a few values are replaced, taken away, or joined by a key."""
    value = copy.deepcopy(SAMPLES[schema])
    for _ in range(draw(st.integers(1, 3))):
        path = draw(st.sampled_from([place for place in places(value) if place] or [()]))
        if not path:
            break
        owner = value
        for step in path[:-1]:
            owner = owner[step]
        change = draw(st.sampled_from(["replace", "remove", "add"]))
        if change == "replace":
            owner[path[-1]] = copy.deepcopy(draw(VALUES))
        elif change == "remove":
            del owner[path[-1]]
        elif isinstance(owner, dict):
            owner[draw(st.sampled_from(ALL_KEYS) | st.text(max_size=6))] = copy.deepcopy(draw(VALUES))
    return value


@pytest.mark.parametrize("schema", ["recipe", "brewhouse"])
@settings(max_examples=120, deadline=None)
@given(choice=st.data())
def test_both_checkers_agree_and_every_fault_is_told(schema: str, choice: st.DataObject) -> None:
    quick = importlib.import_module("jsonschema_rs").Draft202012Validator(load(schema))
    thorough = importlib.import_module("jsonschema").Draft202012Validator(load(schema))
    value = choice.draw(mutated(schema))
    assert quick.is_valid(value) == thorough.is_valid(value)
    document = read_document(json.dumps(value))
    if document.root is None or document.problems:
        return
    document, problems = understood(document, schema)
    assert document.root is not None
    assert bool(problems) != quick.is_valid(data(document.root))
    for problem in problems:
        assert 0 <= problem.span.start <= problem.span.end <= len(document.text)
        assert re.match(r"[a-z`\"]", problem.message)
        assert not problem.message.endswith(".")
        assert problem.message.isprintable()
        assert not re.search(
            r"is not of type|required property|Additional propert|is not one of|should not be valid", problem.message
        )
    assert len({problem.path for problem in problems}) == len(problems)
