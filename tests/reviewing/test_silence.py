"""No silence follows from what cannot be read or meant: each stated quantity of complete recipes, made so in turn."""

import re
from functools import cache
from pathlib import Path

import pytest

from mashwright.finding import Level
from mashwright.reviewing.collection import Collection
from mashwright.reviewing.files import decode
from mashwright.reviewing.results import Reviewed
from mashwright.reviewing.settings import Run

SAMPLES = Path(__file__).parent.parent.parent / "sample-recipes"
COMPLETE = """\
recipe: Everything Bitter
batch: 20 l
efficiency: 72 %
grist:
  - {grain: pale ale malt, weight: 4 kg, moisture: 4 %, diastatic-power: 70 °Lintner, colour: 3 °Lovibond}
  - {grain: crystal malt 60, weight: 300 g, colour: 60 °Lovibond}
  - {grain: flaked maize, weight: 400 g, extract: 80 %}
  - {sugar: table sugar, weight: 200 g, fermentable: 100 %}
water: {calcium: 60 mg/l, sulfate: 80 mg/l, chloride: 50 mg/l, alkalinity: 60 mg/l, sodium: 20 mg/l, magnesium: 8 mg/l}
mash:
  water: 13 l
  strike: 72 °C
  grain-temperature: 18 °C
  ph: 5.4
  salts: {gypsum: 3 g}
  acid: {lactic acid 80 %: 2 ml}
  rests:
    - {at: 66 °C, for: 60 min}
    - {at: 76 °C, for: 10 min, by: heat}
sparge: {by: batch, water: 15 l, at: 76 °C, ph: 5.6}
boil: {volume: 24 l, for: 70 min, salts: {calcium chloride: 2 g}}
hops:
  - {hop: Fuggle, weight: 30 g, alpha: 4.5 %, boil: 60 min}
  - {hop: Golding, weight: 20 g, alpha: 5 %, whirlpool: 20 min, at: 85 °C}
  - {hop: Golding, weight: 20 g, alpha: 5 %, age: 6 months, dry: 4 d}
additions:
  - {what: Irish moss, weight: 5 g, when: 10 min}
yeast: {kind: English ale, attenuation: 75 %, tolerance: 10 %, pitch: 200 billion, viability: 90 %, starter: 1 l}
ferment:
  - {at: 19 °C, to: 21 °C, for: 10 d}
package: {in: bottles, carbonation: 2.2 volumes, at: 20 °C, gravity: 1.011, priming: {sugar: table sugar, weight: 80 g}}
targets: {og: 1.047, fg: 1.011, abv: 4.8 %, bitterness: 30 IBU, colour: 10 SRM, pre-boil-gravity: 1.041}
"""
VALUE = re.compile(r"(?<=: )(\d+(?:\.\d+)?)([^,}\n#\d:]*?)(?=\s*[,}\n#])")
OTHERS = (0.1, 0.7, 1.4, 10)  # of what is stated: at each the value can be read
BY_READING = {"unreadable", "field", "quantity", "accepted"}


@cache
def reviewed(text: str) -> Reviewed:
    collection = Collection(Run("2026-01-01", remedies=False))
    (made,) = collection.text(decode(text.encode()), "/nowhere/recipe.yaml")
    assert collection.faults == []
    return made


def told(text: str) -> dict[str, set[tuple[Level, str, str]]]:
    """What each rule finds."""
    found: dict[str, set[tuple[Level, str, str]]] = {}
    for one in reviewed(text).results:
        found.setdefault(one.rule, set()).add((one.level, one.message, one.pointer))
    return found


def judging(text: str, value: re.Match[str]) -> set[str]:
    """The rules that a value is something to: they find other things where it is another."""
    before = told(text)
    rules: set[str] = set()
    for times in OTHERS:
        now = told(put(text, value, f"{float(value[1]) * times:.5g}{value[2]}"))
        rules |= {rule for rule in before.keys() | now.keys() if before.get(rule) != now.get(rule)}
    return rules - BY_READING


def put(text: str, value: re.Match[str], other: str) -> str:
    return text[: value.start()] + other + text[value.end() :]


TEXTS = {
    "complete": COMPLETE,
    **{
        name: (SAMPLES / "house" / f"{name}.yaml").read_text(encoding="utf-8")
        for name in ("harbour-wheat", "lantern-porter")
    },
}
CASES = [
    pytest.param(text, value, id=f"{name}-{text.count(chr(10), 0, value.start()) + 1}-{value[0]}")
    for name, text in TEXTS.items()
    for value in VALUE.finditer(text)
]


@pytest.mark.parametrize(("text", "value"), CASES)
def test_a_rule_that_judges_a_quantity_is_open_where_it_cannot_be_read(text: str, value: re.Match[str]) -> None:
    unread = put(text, value, "blubb")
    silent = judging(text, value) - told(unread).keys() - {one.rule for one in reviewed(unread).unjudged}
    assert silent == set()


@pytest.mark.parametrize(("text", "value"), CASES)
def test_a_quantity_beyond_meaning_is_never_green(text: str, value: re.Match[str]) -> None:
    times = 1000 if value[2] else 30  # a bare 1050 is a gravity as brewers say it
    beyond = reviewed(put(text, value, f"{float(value[1]) * times:.9g}{value[2]}"))
    assert any(one.level > Level.NOTE for one in beyond.results) or beyond.unjudged


def test_most_of_what_is_stated_is_judged() -> None:
    """The sweep asks something: hardly a quantity is nothing to any rule."""
    idle = [case.id for case in CASES if not judging(*case.values)]
    assert len(idle) < len(CASES) / 4, idle


def test_a_rule_that_needs_nothing_of_what_is_unreadable_is_not_open() -> None:
    unread = COMPLETE.replace("bitterness: 30 IBU", "bitterness: blubb")
    assert {one.rule for one in reviewed(unread).unjudged} <= {"bitterness", "style-range"}


@pytest.mark.parametrize(
    ("before", "after", "rule", "missing"),
    [
        ("calcium: 60 mg/l", "calcium: blubb", "water-ions", "a readable water"),
        ("{at: 19 °C,", "{at: hot,", "fermentation-temperature", "a readable temperature"),
        ("bitterness: 30 IBU", "bitterness: blubb", "bitterness", "a readable bitterness"),
        ("Irish moss, weight: 5 g", "Irish moss, weight: some", "additions", "a readable weight"),
    ],
)
def test_what_is_missing_is_named(before: str, after: str, rule: str, missing: str) -> None:
    unjudged = {one.rule: one.missing for one in reviewed(COMPLETE.replace(before, after)).unjudged}
    assert unjudged[rule] == missing
