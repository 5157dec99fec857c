"""What stands at the top of a recipe and belongs to a section is read there, or stays and is asked about."""

import pytest

from mashwright.finding import Edit
from mashwright.reading.document import Document, read_document
from mashwright.reading.editing import can_edit, replacements
from mashwright.reading.nodes import data
from mashwright.reading.schema import understood

HEAD = "recipe: Ferry Bitter\nbatch: 20 l\n"
BASE = f"{HEAD}grist:\n  - {{grain: rye, weight: 3 kg}}\n"


def read(text: str) -> tuple[Document, list[str]]:
    document, problems = understood(read_document(text), "recipe")
    return document, [problem.message for problem in problems]


def said(text: str) -> object:
    document, problems = read(text)
    assert problems == []
    assert document.root is not None
    return data(document.root)


@pytest.mark.parametrize(
    ("typed", "full"),
    [
        ("lagering: 2 °C for 4 weeks", "ferment: [{at: 2 °C, for: 4 weeks}]"),
        (
            "ferment: 9 °C, 10 d\nlagering: 2 °C 4 weeks",
            "ferment: [{at: 9 °C, for: 10 d}, {at: 2 °C, for: 4 weeks}]",
        ),
        (
            "primary: 19 °C 7 d\nsecondary: {temp: 12 °C, time: 14 d}",
            "ferment: [{at: 19 °C, for: 7 d}, {at: 12 °C, for: 14 d}]",
        ),
        ("ferment: 20 °C rising to 27 °C, 14 days", "ferment: [{at: 20 °C, to: 27 °C, for: 14 days}]"),
        ("ferment: 20 °C a week", "ferment: [{at: 20 °C, for: 1 week}]"),
        (
            "mash: [52 °C 15 min, 65 °C 60 min]",
            "mash: {rests: [{at: 52 °C, for: 15 min}, {at: 65 °C, for: 60 min}]}",
        ),
        ("mash-out: 78 °C\nmash: 66 °C 60 min", "mash: {rests: [{at: 66 °C, for: 60 min}, {at: 78 °C}]}"),
        (
            "mash: {rests: [66 °C 60 min], mash out: 78 °C 10 min}",
            "mash: {rests: [{at: 66 °C, for: 60 min}, {at: 78 °C, for: 10 min}]}",
        ),
        ("mash: 66 °C 60 min, 14 l", "mash: {rests: [{at: 66 °C, for: 60 min}], water: 14 l}"),
        ("mash: 14 l, 66 °C/60 min", "mash: {rests: [{at: 66 °C, for: 60 min}], water: 14 l}"),
        ("mash: {temp: 66 °C, duration: 60 min}", "mash: {rests: [{at: 66 °C, for: 60 min}]}"),
        ("mash-temperature: 66 °C\nmash-time: 60 min", "mash: {rests: [{at: 66 °C, for: 60 min}]}"),
        ("mash: {strike: 16 l, rests: [66 °C 1 h]}", "mash: {water: 16 l, rests: [{at: 66 °C, for: 1 h}]}"),
        (
            "mash: 66 °C 1 h\nstrike: 14 l at 73 °C",
            "mash: {rests: [{at: 66 °C, for: 1 h}], water: 14 l, strike: 73 °C}",
        ),
        ("mash: {rests: [decoction to 72 °C 30 min]}", "mash: {rests: [{by: decoction, at: 72 °C, for: 30 min}]}"),
        ("rests: [66 °C 60 min]\nmash in: 14 l", "mash: {rests: [{at: 66 °C, for: 60 min}], water: 14 l}"),
        (
            "method: BIAB\nwater: 24 l\nmash: 66 °C 1 h",
            "mash: {rests: [{at: 66 °C, for: 1 h}], bag: true, water: 24 l}",
        ),
        ("water: 14 l\nsparge: 12 l", "mash: {water: 14 l}\nsparge: {water: 12 l}"),
        ("method: all grain\ncost: 12", "notes: {method: all grain, cost: 12}"),
        ("notes: good\ndate: 2026-03-01", "notes: {notes: good, date: 2026-03-01}"),
        (
            "package: bottles\npriming: 7 g/l table sugar",
            "package: {in: bottles, priming: {rate: 7 g/l, sugar: table sugar}}",
        ),
        ("bottling: 90 g table sugar", "package: {in: bottles, priming: {weight: 90 g, sugar: table sugar}}"),
        ("keg: 2.4 vols", "package: {in: keg, carbonation: 2.4 vols}"),
        (
            "package: bottles with 120 g table sugar",
            "package: {in: bottles, priming: {weight: 120 g, sugar: table sugar}}",
        ),
        ("priming: speise 1.5 l", "package: {priming: {wort: speise, volume: 1.5 l}}"),
        ("yeast: English ale, 2 l starter", "yeast: {kind: English ale, starter: 2 l}"),
        ("yeast: English ale\npitch: 16 °C\nstarter: 1 l", "yeast: {kind: English ale, at: 16 °C, starter: 1 l}"),
        ("boil: 60 min\npre-boil volume: 25 l", "boil: {for: 60 min, volume: 25 l}"),
        ("targets: OG 1.048, FG 1.011", "targets: {og: 1.048, fg: 1.011}"),
        ("targets: {og: 1.048}\nibu: 30", "targets: {og: 1.048, bitterness: 30 IBU}"),
        ("hops: 25 g Fuggle 4.5 % 60 min", "hops: [{weight: 25 g, hop: Fuggle, alpha: 4.5 %, boil: 60 min}]"),
        (
            "hops: 20 g Citra @ 60, 30 g Citra @ 5",
            "hops: [{weight: 20 g, hop: Citra, boil: 60 min}, {weight: 30 g, hop: Citra, boil: 5 min}]",
        ),
        ("hops: [{hop: Fuggle, g: 20, boil: 5 min}]", "hops: [{hop: Fuggle, weight: 20 g, boil: 5 min}]"),
        (
            "boil: 75 min\nhops: [20 g Saaz start of boil]",
            "boil: {for: 75 min}\nhops: [{weight: 20 g, hop: Saaz, boil: 75 min}]",
        ),
        (
            "hops: [20 g Saaz 60 min]\ndry hops: [Citra 60 g 4 d, Citra 20 g]",
            (
                "hops: [{weight: 20 g, hop: Saaz, boil: 60 min}, {hop: Citra, weight: 60 g, dry: 4 d}, "
                "{hop: Citra, weight: 20 g, dry: true}]"
            ),
        ),
        ("finings: 1 tablet Irish moss at 15 min", "additions: [{count: 1 tablet, what: Irish moss, when: at 15 min}]"),
        ("additions: [Irish moss 1 tsp 15 min]", "additions: [{what: Irish moss, weight: 1 tsp, when: 15 min}]"),
    ],
)
def test_what_stands_elsewhere_is_read_where_it_belongs(typed: str, full: str) -> None:
    assert said(f"{BASE}{typed}\n") == said(f"{BASE}{full}\n")


@pytest.mark.parametrize(
    ("typed", "full"),
    [
        ("grist: 4.1 kg rye", "grist: [{weight: 4.1 kg, grain: rye}]"),
        ("grist: 4 kg rye, 1 kg rye malt", "grist: [{weight: 4 kg, grain: rye}, {weight: 1 kg, grain: rye malt}]"),
        ("grist: 4 kg crystal malt 60", "grist: [{weight: 4 kg, grain: crystal malt 60}]"),
        (
            "grist:\n  rye: 4 kg\n  crystal malt 120: 500 g",
            "grist: [{grain: rye, weight: 4 kg}, {grain: crystal malt 120, weight: 500 g}]",
        ),
        (
            "grain: [4 kg rye]\nsugar: 200 g table sugar",
            "grist: [{weight: 4 kg, grain: rye}, {weight: 200 g, sugar: table sugar}]",
        ),
        (
            "grist: [4 kg rye]\nfruit: 2 kg raspberries in secondary 7 days",
            "grist: [{weight: 4 kg, grain: rye}, {weight: 2 kg, fruit: raspberries, add: fermenter, for: 7 days}]",
        ),
        (
            "grist: [4 kg rye, 400 g table sugar last 10 min]",
            "grist: [{weight: 4 kg, grain: rye}, {weight: 400 g, sugar: table sugar, add: kettle}]",
        ),
        ("grist: [{malt: rye, kg: 7.5}]", "grist: [{grain: rye, weight: 7.5 kg}]"),
        ("grist: [{sugar: honey, weight: 1 kg, when: 10 min}]", "grist: [{sugar: honey, weight: 1 kg, add: kettle}]"),
    ],
)
def test_a_grist_in_other_shapes(typed: str, full: str) -> None:
    assert said(f"{HEAD}{typed}\n") == said(f"{HEAD}{full}\n")


@pytest.mark.parametrize(
    "typed",
    [
        "secondary: 14 d",
        "water: 30 l",
        "method: parti-gyle",
        "grist: [4 kg rye, 2 kg honey malt 12 d]",
        "package: bottles\nkeg: 2.4 vols",
        "mash: {rests: [66 °C 1 h], water: 12 l}\nmash-water: 14 l",
        "yeast: [English ale, wild]\nstarter: 1 l",
        "targets: {og: 1.048}\nOG: 1.050",
    ],
)
def test_what_could_mean_another_thing_is_asked_about(typed: str) -> None:
    base = HEAD if typed.startswith("grist") else BASE
    _, problems = read(f"{base}{typed}\n")
    assert len(problems) == 1


def test_what_moved_can_be_changed_at_its_place_and_nothing_is_added_to_it() -> None:
    text = f"{BASE}package: bottles\npriming: 7 g/l table sugar\n"
    document, _ = read(text)
    assert document.root is not None
    (piece,) = replacements(text, document.root, [Edit(("package", "priming", "rate"), "5 g/l")])
    assert f"{text[: piece.span.start]}{piece.text}{text[piece.span.end :]}" == text.replace("7 g/l", "5 g/l")
    assert can_edit(document.root, ("package", "priming", "rate"))
    assert not can_edit(document.root, ("package", "carbonation"))
