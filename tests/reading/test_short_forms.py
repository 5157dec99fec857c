"""Short forms: each says the same as fields would, each value at its place, and an edit of it does what it is to do."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from mashwright.finding import Edit, Path
from mashwright.reading.document import Document, read_document
from mashwright.reading.editing import can_edit, edited, replacements
from mashwright.reading.nodes import at, data
from mashwright.reading.schema import understood

HEAD = "recipe: Ferry Bitter\nbatch: 20 l\n"
GRIST = f"{HEAD}grist:\n"
BASE = f"{GRIST}  - {{grain: rye, weight: 3 kg}}\n"


def read(text: str, schema: str = "recipe") -> Document:
    document, problems = understood(read_document(text, schema), schema)
    assert [problem.message for problem in problems] == []
    return document


def said(text: str, schema: str = "recipe") -> object:
    root = read(text, schema).root
    assert root is not None
    return data(root)


@pytest.mark.parametrize(
    ("short", "full"),
    [
        ("boil: 60 min", "boil: {for: 60 min}"),
        ("boil: 25 l for 60 min", "boil: {volume: 25 l, for: 60 min}"),
        ("boil: {time: 60 min}", "boil: {for: 60 min}"),
        ("boil-time: 60 min", "boil: {for: 60 min}"),
        ("yeast: English ale", "yeast: {kind: English ale}"),
        (
            "yeast: 11 g English ale, 75 %, at 18 °C",
            "yeast: {pitch: 11 g, kind: English ale, attenuation: 75 %, at: 18 °C}",
        ),
        (
            "yeast: [English ale, 2 packs sour culture]",
            "yeast: [{kind: English ale}, {pitch: 2 packs, kind: sour culture}]",
        ),
        ("yeast: {strain: English ale, amount: 11 g}", "yeast: {kind: English ale, pitch: 11 g}"),
        ("sparge: 15 l", "sparge: {water: 15 l}"),
        ("sparge: 15 l at 76 °C", "sparge: {water: 15 l, at: 76 °C}"),
        ("sparge: fly sparge, 15 l", "sparge: {by: fly, water: 15 l}"),
        ("sparge: none", "sparge: {by: none}"),
        ("steep: 4 l at 68 °C for 30 min", "steep: {water: 4 l, at: 68 °C, for: 30 min}"),
        ("mash: 66 °C, 60 min", "mash: {rests: [{at: 66 °C, for: 60 min}]}"),
        ("mash: 66 °C for 60 min", "mash: {rests: [{at: 66 °C, for: 60 min}]}"),
        ("mash: single infusion, 152 °F, 1 hour", "mash: {rests: [{at: 152 °F, for: 1 hour}]}"),
        (
            "mash: 52 °C 15 min, then 65 °C 45 min, 72 °C 15 min",
            "mash: {rests: [{at: 52 °C, for: 15 min}, {at: 65 °C, for: 45 min}, {at: 72 °C, for: 15 min}]}",
        ),
        ("mash: {rests: [66 °C for 60 min]}", "mash: {rests: [{at: 66 °C, for: 60 min}]}"),
        ("mash: {rests: [72 °C decoction 15 min]}", "mash: {rests: [{at: 72 °C, by: decoction, for: 15 min}]}"),
        ("mash: {at: 66 °C, for: 60 min}", "mash: {rests: [{at: 66 °C, for: 60 min}]}"),
        ("mash: {temp: 66 °C, time: 60 min}", "mash: {rests: [{at: 66 °C, for: 60 min}]}"),
        ("mash: {steps: [{temp: 66 °C, time: 60 min}]}", "mash: {rests: [{at: 66 °C, for: 60 min}]}"),
        ("mash-temperature: 66 °C", "mash: {rests: [{at: 66 °C}]}"),
        ("hops: none", "hops: []"),
        ("ferment: 19 °C for 10 d", "ferment: [{at: 19 °C, for: 10 d}]"),
        ("ferment: {at: 19 °C, for: 10 d}", "ferment: [{at: 19 °C, for: 10 d}]"),
        ("ferment: 19 °C 7 d, 12 °C 14 d", "ferment: [{at: 19 °C, for: 7 d}, {at: 12 °C, for: 14 d}]"),
        ("ferment: [19 °C for 10 d]", "ferment: [{at: 19 °C, for: 10 d}]"),
        ("fermentation: [{temp: 19 °C, days: 10 d}]", "ferment: [{at: 19 °C, for: 10 d}]"),
        ("package: bottles", "package: {in: bottles}"),
        ("package: bottles, 2.3 volumes", "package: {in: bottles, carbonation: 2.3 volumes}"),
        (
            "package: {in: bottles, priming: 120 g table sugar}",
            "package: {in: bottles, priming: {weight: 120 g, sugar: table sugar}}",
        ),
        ("package: [bottles, keg at 1.2 bar]", "package: [{in: bottles}, {in: keg, pressure: 1.2 bar}]"),
        ("priming: 5.5 g/l dextrose", "package: {priming: {rate: 5.5 g/l, sugar: dextrose}}"),
        ("og: 1.050\nABV: 5 %\nibu: 30", "targets: {og: 1.050, abv: 5 %, bitterness: 30 IBU}"),
        ("targets: {IBU: 30, SRM: 8}", "targets: {bitterness: 30 IBU, colour: 8 SRM}"),
        ("hops: [{hop: Fuggle, weight: 20 g, form: leaf}]", "hops: [{hop: Fuggle, weight: 20 g, form: cone}]"),
        ("hops: [{name: Fuggle, amount: 20 g, dry hop: 4 d}]", "hops: [{hop: Fuggle, weight: 20 g, dry: 4 d}]"),
        (
            "hops: [{hop: Fuggle, weight: 20 g, use: dry hop, time: 4 d}]",
            "hops: [{hop: Fuggle, weight: 20 g, dry: 4 d}]",
        ),
        ("hops: [{hop: Fuggle, weight: 20 g, when: 60}]", "hops: [{hop: Fuggle, weight: 20 g, boil: 60 min}]"),
        (
            "hops: [{hop: Fuggle, weight: 20 g, first-wort: 75 min}]",
            "hops: [{hop: Fuggle, weight: 20 g, first-wort: true, boil: 75 min}]",
        ),
        ("hops: [30 g Fuggle @ 60]", "hops: [{weight: 30 g, hop: Fuggle, boil: 60 min}]"),
        ("hops: {Fuggle: 20 g}", "hops: [{hop: Fuggle, weight: 20 g}]"),
        (
            "additions: [1 tablet Irish moss, 15 g coriander seed at 10 min]",
            "additions: [{count: 1 tablet, what: Irish moss}, {weight: 15 g, what: coriander seed, when: at 10 min}]",
        ),
    ],
)
def test_a_short_form_says_what_fields_would(short: str, full: str) -> None:
    assert said(f"{BASE}{short}\n") == said(f"{BASE}{full}\n")


@pytest.mark.parametrize(
    ("short", "full"),
    [
        ("4.5 kg pale ale malt", "{weight: 4.5 kg, grain: pale ale malt}"),
        ("pale ale malt 4.5 kg", "{grain: pale ale malt, weight: 4.5 kg}"),
        ("pale ale malt, 4.5 kg", "{grain: pale ale malt, weight: 4.5 kg}"),
        ("pale ale malt: 4.5 kg", "{grain: pale ale malt, weight: 4.5 kg}"),
        ("4.5 kg: pale ale malt", "{weight: 4.5 kg, grain: pale ale malt}"),
        ("10 lb 8 oz of 2-row pale malt", "{weight: 10 lb 8 oz, grain: 2-row pale malt}"),
        ("crystal malt (60 °L) 8 oz, steeped", "{grain: crystal malt, colour: 60 °L, weight: 8 oz, add: steep}"),
        ("pilsner malt 80 %", "{grain: pilsner malt, share: 80 %}"),
        ("500 g honey in the kettle", "{weight: 500 g, sugar: honey, add: kettle}"),
        ("1 kg light dry extract", "{weight: 1 kg, extract: light dry extract}"),
        ("2 kg raspberries in secondary", "{weight: 2 kg, fruit: raspberries, add: fermenter}"),
        ("1 kg whole wheat malt", "{weight: 1 kg, grain: whole wheat malt}"),
        ('"4.5 kg pale ale malt"', "{weight: 4.5 kg, grain: pale ale malt}"),
    ],
)
def test_a_line_of_the_grist_says_what_fields_would(short: str, full: str) -> None:
    assert said(f"{GRIST}  - {short}\n") == said(f"{GRIST}  - {full}\n")


@pytest.mark.parametrize(
    ("text", "full"),
    [
        ("mash_tun: 30 l", "mash-tun: {volume: 30 l}"),
        ("kettle: 50 l", "kettle: {volume: 50 l}"),
        ("fermenter: 30 l", "fermenter: {volume: 30 l}"),
    ],
)
def test_a_brewhouse_in_short(text: str, full: str) -> None:
    assert said(f"brewhouse: A\n{text}\n", "brewhouse") == said(f"brewhouse: A\n{full}\n", "brewhouse")


def test_each_value_is_at_its_place_in_the_text() -> None:
    text = f"{BASE}hops:\n  - 30 g East Kent Golding (5.2 %) at 60 min\n"
    document = read(text)
    for path, shown in {
        ("hops", 0, "weight"): "30 g",
        ("hops", 0, "hop"): "East Kent Golding",
        ("hops", 0, "alpha"): "5.2 %",
        ("hops", 0, "boil"): "60 min",
        ("hops", 0): "30 g East Kent Golding (5.2 %) at 60 min",
        ("hops", 0, "form"): "30 g East Kent Golding (5.2 %) at 60 min",
    }.items():
        where = document.span_of(path)
        assert text[where.start : where.end] == shown


EDITS: list[tuple[str, list[tuple[Path, str]], str]] = [
    ("hops: [30 g Fuggle at 60 min]", [(("hops", 0, "weight"), "45 g")], "hops: [45 g Fuggle at 60 min]"),
    ("hops: [30 g Fuggle @ 60]", [(("hops", 0, "boil"), "45 min")], "hops: [30 g Fuggle @ 45 min]"),
    ("hops: [30 g Fuggle flameout]", [(("hops", 0, "boil"), "10 min")], "hops: [30 g Fuggle 10 min]"),
    (
        "hops: [30 g Fuggle at 60 min]",
        [(("hops", 0, "alpha"), "5 %"), (("hops", 0, "weight"), "45 g")],
        "hops: [{weight: 45 g, hop: Fuggle, boil: 60 min, alpha: 5 %}]",
    ),
    (
        "hops: [FWH 30 g Fuggle]",
        [(("hops", 0, "first-wort"), "false")],
        "hops: [{first-wort: false, weight: 30 g, hop: Fuggle}]",
    ),
    ("boil: 60 min", [(("boil", "for"), "90 min")], "boil: 90 min"),
    ("boil: 60 min", [(("boil", "volume"), "25 l")], "boil: {for: 60 min, volume: 25 l}"),
    ("mash: 66 °C, 60 min", [(("mash", "rests", 0, "at"), "64 °C")], "mash: 64 °C, 60 min"),
    (
        "mash: 66 °C, 60 min",
        [(("mash", "rests", 0, "to"), "64 °C")],
        "mash: {rests: [{at: 66 °C, for: 60 min, to: 64 °C}]}",
    ),
    ("mash: 66 °C, 60 min", [(("mash", "water"), "14 l")], "mash: {rests: [{at: 66 °C, for: 60 min}], water: 14 l}"),
    ("package: bottles, 3.9 volumes", [(("package", "carbonation"), "2.5 volumes")], "package: bottles, 2.5 volumes"),
    ("og: 1.050", [(("targets", "og"), "1.045")], "og: 1.045"),
    ("yeast: English ale", [(("yeast", "pitch"), "11 g")], "yeast: {kind: English ale, pitch: 11 g}"),
]


@pytest.mark.parametrize(("before", "changes", "after"), EDITS)
def test_an_edit_changes_the_number_in_the_text_or_writes_the_fields_out(
    before: str, changes: list[tuple[Path, str]], after: str
) -> None:
    text = f"{BASE}{before}  # as always\n"
    root = read(text).root
    assert root is not None
    edits = [Edit(path, value) for path, value in changes]
    assert can_edit(root, *(edit.path for edit in edits))
    for piece in reversed(replacements(text, root, edits)):
        text = text[: piece.span.start] + piece.text + text[piece.span.end :]
    assert text == f"{BASE}{after}  # as always\n"
    assert said(text) == data(edited(root, edits))


def test_a_list_that_is_written_as_something_else_does_not_grow() -> None:
    root = read(f"{BASE}mash: {{at: 66 °C, for: 60 min}}\n").root
    assert root is not None
    assert not can_edit(root, ("mash", "rests", "-"))
    assert can_edit(root, ("mash", "rests", 0, "for"))


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("hops: [FWH 10 g Saaz maybe 20]", '"20" has no unit in "FWH 10 g Saaz maybe 20"; write 20 min'),
        ("hops: [10 g Saaz at 80 °C]", '"80 °C" is not understood'),
        ("hops: [10 g Saaz 10 min 20 min]", '"20 min" is not understood'),
        ("sparge: 12 l, maybe", '"maybe" is not understood in "12 l, maybe"; write sparge: {'),
        ("boil: 60 min 90 min", '"90 min" is not understood'),
        ("mash: 66 °C for 60 min and for 30 min", '"30 min" is not understood'),
    ],
)
def test_what_is_not_clear_is_asked_about(text: str, message: str) -> None:
    _, problems = understood(read_document(f"{BASE}{text}\n"), "recipe")
    assert [problem.message[: len(message)] for problem in problems] == [message]


def test_a_name_for_a_field_that_is_there_already_is_asked_about() -> None:
    _, problems = understood(read_document(f"{GRIST}  - {{grain: rye, weight: 3 kg, amount: 2 kg}}\n"), "recipe")
    assert len(problems) == 1
    assert "`amount`" in problems[0].message


@given(st.text(st.characters(codec="utf-8", categories=["L", "N", "P", "Zs"]), max_size=40))
def test_any_text_in_a_list_is_read_or_asked_about(line: str) -> None:
    document = read_document(f"{GRIST}  - {line}\n")
    wide, problems = understood(document, "recipe")
    if wide.root is None or document.problems or problems:
        return
    item = at(wide.root, ("grist", 0))
    assert item is not None
    for path in (("grist", 0, "weight"), ("grist", 0, "share")):
        value = at(wide.root, path)
        if value is not None:
            assert wide.text[value.start : value.end].strip("\"' ") in line
