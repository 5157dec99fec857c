"""The schemas themselves: sound, complete for editors, and of one piece."""

import re
from collections.abc import Iterator
from datetime import date
from typing import Any

import pytest
from jsonschema import Draft202012Validator
from referencing import Registry, Resource

from mashwright.budgets import PACKAGES
from mashwright.reading.fields import examples, layers
from mashwright.reading.schema import known_keys
from mashwright.reviewing.of_worts import OWN
from mashwright_schema import load

SCHEMAS = ("recipe", "brewhouse")
OF_NAMES = ("properties", "$defs")
OF_ONE = ("items", "additionalProperties", "if", "then", "else", "not")


def walk(schema: dict[str, Any], where: str = "#") -> Iterator[tuple[str, dict[str, Any]]]:
    """Every subschema with its place."""
    yield where, schema
    for keyword, value in schema.items():
        if keyword in OF_NAMES:
            for name, inner in value.items():
                yield from walk(inner, f"{where}/{keyword}/{name}")
        elif keyword == "allOf":
            for index, inner in enumerate(value):
                yield from walk(inner, f"{where}/{keyword}/{index}")
        elif keyword in OF_ONE and isinstance(value, dict):
            yield from walk(value, f"{where}/{keyword}")


def fields(schema: dict[str, Any]) -> Iterator[tuple[str, dict[str, Any]]]:
    """The properties that an editor shows: not those that a condition looks at or forbids."""
    for where, subschema in walk(schema):
        if re.search(r"/properties/[^/]+$", where) and not re.search(r"/(if|then|else)/", where):
            yield where, subschema


@pytest.mark.parametrize("name", SCHEMAS)
def test_is_a_schema_of_draft_2020_12(name: str) -> None:
    schema = load(name)
    Draft202012Validator.check_schema(schema)
    assert schema["$schema"] == "https://json-schema.org/draft/2020-12/schema"
    assert schema["$id"] == f"urn:mashwright:{name}:1"


def test_an_unknown_schema_is_refused() -> None:
    with pytest.raises(
        ValueError, match="no schema is called cellar; there are recipe, brewhouse, review, figures, names"
    ):
        load("cellar")


@pytest.mark.parametrize("name", SCHEMAS)
def test_every_field_has_what_an_editor_shows(name: str) -> None:
    bare = [
        f"{where}: {keyword}"
        for where, field in fields(load(name))
        for keyword in ("title", "description", "examples")
        if not field.get(keyword)
    ]
    assert bare == []
    assert len(list(fields(load(name)))) > 50


@pytest.mark.parametrize("name", SCHEMAS)
def test_every_definition_is_described_and_used(name: str) -> None:
    schema = load(name)
    named = {subschema["$ref"] for _, subschema in walk(schema) if "$ref" in subschema}
    used = {name.removeprefix("#/$defs/") for name in named if name.startswith("#/$defs/")}
    assert used == set(schema["$defs"])
    assert [key for key, value in schema["$defs"].items() if not value.get("description")] == []


@pytest.mark.parametrize("name", SCHEMAS)
def test_every_reference_resolves(name: str) -> None:
    schema = load(name)
    lost = [
        where
        for where, subschema in walk(schema)
        if "$ref" in subschema
        and subschema["$ref"] not in {f"#/{kind}/{name}" for kind in OF_NAMES for name in schema[kind]}
    ]
    assert lost == []


@pytest.mark.parametrize("name", SCHEMAS)
def test_every_example_is_valid(name: str) -> None:
    schema = load(name)
    faulty, count = [], 0
    for where, subschema in walk(schema):
        whole = schema["$id"]
        registry = Registry().with_resource(whole, Resource.from_contents(schema))
        validator = Draft202012Validator({"$ref": f"{whole}{where}"}, registry=registry)
        for example in subschema.get("examples", ()):
            count += 1
            faulty += [f"{where}: {example}: {error.message}" for error in validator.iter_errors(example)]
    assert faulty == []
    assert count > 80


@pytest.mark.parametrize("name", SCHEMAS)
def test_items_and_named_values_have_an_example_too(name: str) -> None:
    schema = load(name)
    bare = []
    for where, subschema in walk(schema):
        for keyword in ("items", "additionalProperties"):
            inner = subschema.get(keyword)
            if isinstance(inner, dict) and not examples(layers(schema, inner)):
                bare.append(f"{where}/{keyword}")
    assert bare == []


@pytest.mark.parametrize("name", SCHEMAS)
def test_field_names_are_lower_case_and_hyphenated(name: str) -> None:
    names = {where.rpartition("/")[2] for where, _ in fields(load(name))} - {"$schema"}  # which JSON Schema has so
    assert [key for key in names if not re.fullmatch(r"[a-z]+(-[a-z0-9]+)*", key)] == []


def test_what_both_schemas_define_is_the_same() -> None:
    recipe, brewhouse = load("recipe")["$defs"], load("brewhouse")["$defs"]
    shared = (set(recipe) & set(brewhouse)) - {"accepted-finding"}
    assert "water" in shared
    assert {name for name in shared if recipe[name] != brewhouse[name]} == set()


@pytest.mark.parametrize("name", SCHEMAS)
def test_nothing_branches_widely_or_forbids_by_false(name: str) -> None:
    used = {keyword for _, subschema in walk(load(name)) for keyword in subschema}
    assert used.isdisjoint({"oneOf", "anyOf", "dependentSchemas", "$comment"})
    # additionalProperties apart, no subschema is a bare false
    assert [
        where
        for where, subschema in walk(load(name))
        if any(subschema.get(key) is False for key in ("not", "then", "else", "items"))
    ] == []


@pytest.mark.parametrize("name", SCHEMAS)
def test_sentences_in_a_schema_are_a_brewers(name: str) -> None:
    sentences = [subschema["errorMessage"] for _, subschema in walk(load(name)) if "errorMessage" in subschema]
    assert sentences
    for sentence in sentences:
        assert re.match(r"[a-z`]", sentence), sentence
        assert not sentence.endswith("."), sentence
        assert "\n" not in sentence


# the fields of format 1 by where they stand; a change here is a change of the format
FORMAT_1 = {
    (): "recipe by style source notes format batch efficiency mash-efficiency grist grain-bill steep mash cereal-mash"
    " sparge water top-up boil chill souring hops additions yeast aeration ferment package targets worts measured"
    " accepted",
    ("batch",): "fermenter kettle package",
    ("grist", 0): "grain sugar extract fruit weight share add prepare lot colour color moisture diastatic-power"
    " gelatinises gelatinizes bitterness for fermentable kind cereal",
    ("steep",): "water at for",
    ("mash",): "water thickness strike grain-temperature crush ph salts acid enzymes bag mashes reiterated rests",
    ("mash", "rests", 0): "at for to by water of pull boil",
    ("cereal-mash",): "water rests boil",
    ("sparge",): "by water at ph salts acid",
    ("sparge", 0): "by water at ph salts acid",
    ("water",): "calcium magnesium sodium chloride sulfate sulphate bicarbonate alkalinity ph dilution",
    ("top-up",): "kettle fermenter",
    ("boil",): "volume for salts",
    ("chill",): "by for",
    ("souring",): "with in at for start-ph ph",
    (
        "hops",
        0,
    ): "hop weight alpha-units bitterness alpha lot form age harvest mash first-wort boil whirlpool at to dry",
    ("additions", 0): "what weight volume count when",
    ("yeast",): "kind attenuation tolerance flocculation diastatic pitch viability starter at",
    ("yeast", 0): "kind attenuation tolerance flocculation diastatic pitch viability starter at",
    ("aeration",): "by oxygen times",
    ("ferment", 0): "at to for enzymes",
    ("package",): "in share volume count size carbonation priming spund gas pressure at bottle-rating gravity",
    ("package", 0): "in share volume count size carbonation priming spund gas pressure at bottle-rating gravity",
    ("package", "spund"): "gravity pressure at",
    ("package", "priming"): "sugar extract wort weight rate each bottle volume gravity attenuation",
    ("targets",): "og fg abv bitterness colour color pre-boil-gravity first-wort-gravity attenuation",
    ("measured", 0): "date og fg abv bitterness colour color pre-boil-gravity first-wort-gravity attenuation batch"
    " temperatures",
    ("worts", 0): "wort runnings style batch grist top-up boil chill souring hops additions yeast aeration ferment"
    " package targets measured",
    ("worts", 0, "runnings"): "first second third fourth fifth all",
    ("worts", 0, "boil"): "volume for salts",
    ("accepted", 0): "rule reason until",
}


def test_each_section_is_either_all_worts_or_each_ones_own() -> None:
    """A new one at the top is of the mash, or a wort has it too, and is sent there."""
    common = {"recipe", "by", "style", "source", "notes", "format", "efficiency", "mash-efficiency", "grist"}
    common |= {"grain-bill", "steep", "mash"}
    common |= {"cereal-mash", "sparge", "water", "worts", "accepted", "$schema"}
    recipe, wort = load("recipe"), load("recipe")["$defs"]["wort"]["properties"]
    own = set(recipe["properties"]) - common
    assert own == set(wort) - {"wort", "runnings", "style", "grist"}
    refused = next(one["then"] for one in recipe["allOf"] if one["if"].get("required") == ["worts"])
    assert set(refused["properties"]) == own == OWN - {"worts"}


@pytest.mark.parametrize("path", FORMAT_1)
def test_the_fields_of_format_1(path: tuple[str | int, ...]) -> None:
    assert known_keys("recipe", path) == tuple(FORMAT_1[path].split())


def test_there_may_be_as_many_packages_as_are_judged() -> None:
    assert load("recipe")["properties"]["package"]["allOf"][0]["maxItems"] == PACKAGES


def is_a_day(text: str) -> bool:
    try:
        return date.fromisoformat(text).isoformat() == text
    except ValueError:
        return False


@pytest.mark.parametrize("name", SCHEMAS)
def test_a_date_is_what_the_calendar_has(name: str) -> None:
    """The pattern is for editors, which know no calendar; it may not part from it."""
    pattern = re.compile(load(name)["$defs"]["date"]["pattern"])
    for year in (1, 1600, 1900, 1996, 2000, 2023, 2024, 2027, 2100, 9999):
        for month in range(14):
            for day in range(33):
                text = f"{year:04d}-{month:02d}-{day:02d}"
                assert bool(pattern.search(text)) is is_a_day(text), text
    for text in ("2027-1-01", "20270101", "2027-W01-1", "2027-01-01T10:00", " 2027-01-01", "31.12.2027"):
        assert not pattern.search(text), text
