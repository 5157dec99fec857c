"""Lines that were written another way: one finding for each cause, where it is, with the text to write instead."""

import pytest

from mashwright.reading.document import read_document
from mashwright.reading.schema import check_fields
from mashwright.reading.slips import named_and_weighed

HEAD = "recipe: Mild\nbatch: 20 l\n"
GRIST = HEAD + "grist:\n"  # a line of the grist under test is line 4
BASE = GRIST + "  - {grain: pale malt, weight: 5 kg}\n"  # a line under test is line 5
NONE = "this is not a recipe: it has no `recipe:`, `batch:` or `grist:`"


def told(text: str, schema: str = "recipe") -> list[str]:
    document = read_document(text)
    assert document.problems == ()
    problems = check_fields(document, schema)
    places = [document.place(problem.span) for problem in problems]
    return [f"{place.line}:{place.column}: {problem.message}" for place, problem in zip(places, problems, strict=True)]


@pytest.mark.parametrize(
    ("line", "message"),
    [
        ("pilsner malt: 3", "`pilsner malt` is not a field; write - {grain: pilsner malt, weight: 3 kg}"),
        (
            "pilsner malt: 3 kg\n    colour: 4 EBC",
            "`pilsner malt` is not a field; write grain: pilsner malt and weight: 3 kg",
        ),
        ("3 pale malt", '"3" has no unit in "3 pale malt"; write 3 kg or 3 lb'),
        ("2 kg", "a line of the grist says what it is; this one has only 2 kg"),
        (
            "2 kg rye 30 % of Tuesday's",
            '"Tuesday\'s" is not understood in "2 kg rye 30 % of Tuesday\'s"; write - {weight: 2 kg, share: 30 %}',
        ),
    ],
)
def test_a_line_without_its_fields(line: str, message: str) -> None:
    assert told(f"{GRIST}  - {line}\n") == [f"4:5: {message}"]


def test_a_hop_or_a_spice_without_its_fields() -> None:
    assert told(BASE + "hops:\n  - Hallertau: 40\n") == [
        "6:5: `Hallertau` is not a field; write - {hop: Hallertau, weight: 40 g}"
    ]
    assert told(BASE + "additions:\n  - coriander seed: 15\n") == [
        "6:5: `coriander seed` is not a field; write - {what: coriander seed, weight: 15 g}"
    ]


@pytest.mark.parametrize(
    ("text", "message"),
    [
        (
            GRIST + "  - grain: pilsner malt 3 kg\n",
            "4:12: the weight is in the name; write grain: pilsner malt and weight: 3 kg",
        ),
        (
            GRIST + "  - {grain: 3 kg of pilsner malt}\n",
            "4:13: the weight is in the name; write grain: pilsner malt and weight: 3 kg",
        ),
        (
            BASE + "hops: [{hop: Fuggle 30 g}]\n",
            "5:14: the weight is in the name; write hop: Fuggle and weight: 30 g",
        ),
        (
            BASE + "hops: [{hop: Fuggle 30 g, weight: 30 g}]\n",
            "5:9: the weight is in the name of the hop; write it under `weight`",
        ),
    ],
)
def test_a_weight_in_the_name(text: str, message: str) -> None:
    assert told(text) == [message]


@pytest.mark.parametrize(
    "name", ["caramel malt 40", "C60", "chocolate malt (450 °Lovibond)", "6-row malt", "1066 malt", "malt kg"]
)
def test_a_number_in_a_name_is_no_weight(name: str) -> None:
    assert named_and_weighed(name, ("grain",)) is None
    assert told(f"{GRIST}  - {{grain: {name}, weight: 3 kg}}\n") == []


@pytest.mark.parametrize(
    ("key", "meant"),
    [("type", "grain"), ("item", "grain"), ("ingredient", "grain")],
)
def test_other_words_for_the_name(key: str, meant: str) -> None:
    assert told(f"{GRIST}  - {{{key}: pilsner malt, weight: 3 kg}}\n") == [
        f"4:6: `{key}` is not known here; did you mean `{meant}`?"
    ]


def test_the_type_of_a_thing_that_has_a_name_is_its_kind() -> None:
    assert told(f"{GRIST}  - {{grain: heritage rye, type: raw grain, weight: 3 kg}}\n") == [
        "4:27: `type` is not known here; did you mean `kind`?"
    ]
    assert told(f"{GRIST}  - {{sugar: honey, name: lime, weight: 3 kg}}\n") == [
        "4:20: `name` is not known here; did you mean `kind`?"
    ]


@pytest.mark.parametrize("key", ["poids", "quantity"])
def test_other_words_for_the_weight(key: str) -> None:
    assert told(f"{GRIST}  - grain: pilsner malt\n    {key}: 400 g\n") == [
        f"5:5: `{key}` is not known here; did you mean `weight`?"
    ]


def test_a_dash_too_many() -> None:
    dash = "a dash too many: {} to the line above; write a space instead of the dash"
    assert told(GRIST + "  - grain: pilsner malt\n  - weight: 4 kg\n  - {grain: rye, weight: 1 kg}\n") == [
        "5:3: " + dash.format("`weight` belongs")
    ]
    assert told(BASE + "hops:\n  - hop: Fuggle\n  - weight: 40 g\n    alpha: 5 %\n  - boil: 60 min\n") == [
        "7:3: " + dash.format("`weight` and `alpha` belong"),
        "9:3: " + dash.format("`boil` belongs"),
    ]
    assert told(GRIST + "  - {grain: pilsner malt}\n  - {weight: 4 kg}\n") == [
        "5:6: `weight` belongs to the line above; put both into the same braces"
    ]


def test_a_weight_at_the_margin() -> None:
    message = "`weight` belongs in a line of {}, the one above; {}"
    assert told(GRIST + "  - grain: pilsner malt\nweight: 3 kg\nmash: {water: 14 l}\n") == [
        "5:1: " + message.format("the grist", "put 4 spaces in front of it")
    ]
    assert told(BASE + "hops:\n- {hop: Fuggle}\nweight: 3 kg\n") == [
        "7:1: " + message.format("the hops", "put it into the braces there")
    ]


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("Przepis: A\nObjętość: 20 l\nSłód:\n  - pilzneński: 3 kg\n", NONE + "; the names of fields are in English"),
        ("on: push\njobs:\n  test: {runs-on: x}\n", NONE),
        ("name: CI\non: push\n", NONE),
        ("{}\n", NONE),
        ("mash: {water: 14 l}\n", NONE),
        ("brewhouse: A\nefficiency: 72 %\n", NONE + "; a brewhouse is read from a file named brewhouse.yaml"),
    ],
)
def test_a_file_that_is_no_recipe(text: str, message: str) -> None:
    assert told(text) == [f"1:1: {message}"]


def test_a_recipe_in_german_is_one() -> None:
    text = "Rezept: A\nMenge: 20 l\nSchüttung:\n  - {Malz: Pilsner Malz, Menge: 3 kg}\nHefe: {Sorte: Ale}\n"
    assert told(text) == [
        "1:1: `Rezept` is not known here; did you mean `recipe`?",
        "2:1: `Menge` is not known here; did you mean `batch`?",
        "3:1: `Schüttung` is not known here; did you mean `grist`?",
        "5:1: `Hefe` is not known here; did you mean `yeast`?",
    ]


def test_a_recipe_in_other_words_is_one() -> None:
    assert told("name: A\nsize: 20 l\nfermentables:\n  - {grain: rye, weight: 3 kg}\n") == [
        "2:1: `size` is not known here; did you mean `batch`?",
    ]
    assert told("Recipe: A\nBATCH: 20 l\ngrist:\n  - {grain: rye, weight: 3 kg}\n") == []


def test_a_time_that_nobody_knows_is_left_to_the_list_of_fields() -> None:
    assert told(f"{BASE}hops: [{{hop: Fuggle, when: Tuesday}}]\n") == [
        "5:22: `when` does not go here; it goes in an item of `additions`"
    ]


def test_a_short_word_mistyped() -> None:
    assert told(BASE + "sparge: {by: flie}\n") == ["5:14: `by` does not take flie; did you mean fly?"]


EMPTY = "this line is empty; write - {0}, or take it out"


@pytest.mark.parametrize(
    ("text", "place", "example"),
    [
        (GRIST + "  - {}\n", "4:5", "{grain: two-row pale malt, weight: 2.9 kg}"),
        (GRIST + "  -\n", "4:4", "{grain: two-row pale malt, weight: 2.9 kg}"),
        (BASE + "hops: [{}]\n", "5:8", "{hop: East Kent Golding, weight: 30 g, alpha: 5.2 %, boil: 60 min}"),
        (BASE + "mash: {rests: [{}]}\n", "5:16", "{at: 66 °C, for: 60 min}"),
        (BASE + "cereal-mash: {rests: [{}]}\n", "5:23", "{at: 66 °C, for: 60 min}"),
        (BASE + "ferment: [{}]\n", "5:11", "{at: 19 °C, for: 10 d}"),
        (BASE + "additions: [{}]\n", "5:13", "{what: coriander seed, weight: 15 g, when: last 10 min of the boil}"),
        (BASE + "measured: [{}]\n", "5:12", "{date: 2026-03-14, og: 1.049, batch: 19.5 l}"),
    ],
)
def test_an_empty_line_of_a_list(text: str, place: str, example: str) -> None:
    assert told(text) == [f"{place}: {EMPTY.format(example)}"]


@pytest.mark.parametrize(
    ("day", "why"),
    [
        ("2027-13-45", "has month 13; write year-month-day, such as 2027-12-31"),
        ("2027-00-10", "has month 00; write year-month-day, such as 2027-12-31"),
        ("2027-04-31", "has day 31, and that month has 30; write 2027-04-30"),
        ("2027-02-29", "has day 29, and that month has 28; write 2027-02-28"),
        ("1900-02-29", "has day 29, and that month has 28; write 1900-02-28"),
        ("2027-01-00", "has day 00, and that month has 31; write 2027-01-31"),
    ],
)
def test_a_date_that_no_calendar_has(day: str, why: str) -> None:
    message = f"`until` is not a day of the calendar: {day} {why}"
    assert told(f"{BASE}accepted: [{{rule: colour, reason: no, until: {day}}}]\n") == [f"5:46: {message}"]
    assert told(f"accepted: [{{rule: colour, reason: no, until: {day}}}]\n", "brewhouse") == [f"1:46: {message}"]


@pytest.mark.parametrize("day", ["2028-02-29", "2000-02-29", "2027-12-31", "2027-09-30"])
def test_a_date_that_is_one(day: str) -> None:
    assert told(f"{BASE}accepted: [{{rule: colour, reason: no, until: {day}}}]\n") == []


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("efficiency 72 %\n", "1:1: a colon is missing here; write efficiency: 72 %"),
        ("# ours\nefficiency 72 %\n", "2:1: a colon is missing here; write efficiency: 72 %"),
        ("efficiency:72 %\nabsorption:1 l/kg\n", "1:11: put a space after this colon; write efficiency: 72 %"),
        (
            "ours\n",
            (
                "1:1: a brewhouse takes fields, not ours;"
                " write brewhouse: Saltmarsh Lane, 30-litre kit and efficiency: 72 %"
            ),
        ),
    ],
)
def test_a_brewhouse_that_is_one_long_text(text: str, message: str) -> None:
    assert told(text, "brewhouse") == [message]


@pytest.mark.parametrize("value", ["'true'", "“true”"])
def test_true_in_quotes(value: str) -> None:
    assert told(f"{BASE}mash: {{bag: {value}}}\n") == ["5:13: `bag` is true without quotes; write bag: true"]


def test_a_list_marked_with_other_signs_is_told_at_its_sign() -> None:
    assert told(HEAD + "grist:\n  – pale malt, 5 kg\n  – rye, 2 kg\n") == [
        "4:3: – is not the dash of a list; write - and a space"
    ]
    assert told(HEAD + "grist:\n  -\xa0pale malt\n") == ["4:4: use an ordinary space, not U+00A0"]
    assert told(HEAD + "grist:\n  - • pale malt\n") == ["4:5: • is not the dash of a list; write - and a space"]
