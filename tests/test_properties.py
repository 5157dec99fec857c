"""What holds for every recipe: no crash, places inside the text, units and order without a say, remedies that mend."""

import random
import re
from functools import cache
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from mashwright.brew.brew import Brew
from mashwright.figures.mash.converting import conversion_time
from mashwright.finding import Level
from mashwright.reading.document import Place
from mashwright.reviewing.collection import Collection
from mashwright.reviewing.files import decode
from mashwright.reviewing.plugins import installed
from mashwright.reviewing.results import RemedyRow, Result, Reviewed
from mashwright.reviewing.settings import Run
from mashwright.rule import Example

SAMPLES = sorted((Path(__file__).parent.parent / "sample-recipes").glob("*/*.yaml"))


def review(text: str | bytes) -> Reviewed:
    """A text without a brewhouse; no rule may fail on it."""
    collection = Collection(Run("2026-01-01"))
    loaded = decode(text) if isinstance(text, bytes) else decode(text.encode())
    (reviewed,) = collection.text(loaded, "/nowhere/recipe.yaml")
    assert collection.faults == []
    return reviewed


def findings(text: str) -> set[tuple[str, Level, str]]:
    """Rule, level and place of each finding."""
    return {(one.rule, one.level, one.pointer) for one in review(text).results}


def worst(text: str, *rules: str) -> int:
    """The worst level that any of these rules reaches, 0 where none speaks."""
    return max((int(one.level) for one in review(text).results if one.rule in rules), default=0)


@cache
def sample(path: Path) -> str:
    return path.read_text(encoding="utf-8")


@cache
def texts() -> tuple[str, ...]:
    """Every recipe that is at hand: the samples, and the two examples of each rule."""
    modules = [rule.module for rule in installed().rules.values() if isinstance(rule.module.FAULTY, Example)]
    examples = [text for module in modules for text in (module.SOUND, module.FAULTY.recipe)]
    return (*(sample(path) for path in SAMPLES), *examples)


# --- no bytes whatever end in a traceback, and every place lies inside the text ---


def assert_inside(reviewed: Reviewed, text: str) -> None:
    lines = re.split(r"\r\n|\r|\n", text)

    def inside(place: Place) -> bool:
        ends = ((place.line, place.column), (place.end_line, place.end_column))
        return ends[0] <= ends[1] and all(
            1 <= line <= len(lines) and 1 <= column <= len(lines[line - 1]) + 2 for line, column in ends
        )

    for result in reviewed.results:
        assert inside(result.place), result
        assert all(inside(edit.place) for remedy in result.remedies for edit in remedy.edits), result
        assert result.message == result.message.strip()
        assert "\n" not in result.message


@settings(max_examples=150)
@given(st.binary(max_size=200))
def test_no_bytes_end_in_a_traceback(data: bytes) -> None:
    assert_inside(review(data), decode(data).text)


@settings(max_examples=150)
@given(st.text("ab:-#{}[],'\"&*!|>%@`? \n\t\r\\0.5\ufeff\u2028é🍺kgl", max_size=60))
def test_no_text_ends_in_a_traceback(text: str) -> None:
    assert_inside(review(text), decode(text.encode()).text)


SLIPS = ("", "- ", "  ", "&a ", "*a", "!x ", "1e9", *" :\n{}['\"50-,#~°")


@settings(max_examples=120)
@given(st.integers(0, 10**6), st.integers(1, 4))
def test_no_mistyped_recipe_ends_in_a_traceback(seed: int, slips: int) -> None:
    chance = random.Random(seed)
    text = chance.choice(texts())
    for _ in range(slips):
        start = chance.randrange(len(text))
        text = text[:start] + chance.choice(SLIPS) + text[start + chance.choice((0, 1, 1, 5)) :]
    assert_inside(review(text), text)


@settings(max_examples=120)
@given(st.integers(0, 10**6))
def test_no_odd_value_ends_in_a_traceback(seed: int) -> None:
    """Values swapped for others of any size and unit, lines left out: what stays is reviewed."""
    chance = random.Random(seed)
    text = chance.choice(texts())
    weights = ("0 kg", "1e-9 kg", "900000 kg", "0 l", "0 min")
    odd = (*weights, "-5 °C", "100 °C", "0 %", "100 %", "1.000", "1.200", "0 °Lintner")
    values = list(re.finditer(r"(?<=: )\d[^,}\n#]*", text))
    for match in reversed(chance.sample(values, min(len(values), 3))):
        text = text[: match.start()] + chance.choice(odd) + text[match.end() :]
    lines = text.splitlines(keepends=True)
    del lines[chance.randrange(len(lines))]
    text = "".join(lines)
    assert_inside(review(text), text)


# --- units and order have no say ---

KG_LB, L_GAL = 0.45359237, 3.785411784


def american(text: str) -> str:
    """The same recipe in pounds, gallons and degrees Fahrenheit; digits enough that rounding has no say."""

    def swap(unit: str, other: str, change: float, offset: float = 0.0) -> None:
        nonlocal text

        def changed(match: re.Match[str]) -> str:
            ends = (f"{float(end) * change + offset:.9f}" for end in match[1].split("-"))
            return f"{'-'.join(ends)} {other}"

        pattern = rf"(?<![\w.-])(\d+(?:\.\d+)?(?:-\d+(?:\.\d+)?)?) {unit}(?![\w/°²])"
        text = re.sub(pattern, changed, text)

    swap("kg", "lb", 1 / KG_LB)
    swap("g", "oz", 16 / KG_LB / 1000)
    swap("l", "gal", 1 / L_GAL)
    swap("ml", "fl oz", 128 / L_GAL / 1000)
    swap("°C", "°F", 1.8, 32)
    return text


METRIC = [
    path for path in SAMPLES if not re.search(r"\d (lb|oz|gal|°F|bushel|quarter|barrel|°Ré)|tsp|tbsp", sample(path))
]


@pytest.mark.parametrize("path", METRIC, ids=lambda path: path.stem)
def test_pounds_and_gallons_find_what_kilograms_and_litres_find(path: Path) -> None:
    text = american(sample(path))
    assert text != sample(path)
    assert findings(text) == findings(sample(path))


def grist_of(text: str) -> tuple[str, list[str], str] | None:
    """What stands before the lines of a grist, the lines, and what stands behind; None where they are not so simple."""
    match = re.search(r"(?m)^grist:\n((?:  - \{.*\}.*\n)+)(?![ ])", text)
    if match is None:
        return None
    return text[: match.start(1)], match[1].splitlines(keepends=True), text[match.end(1) :]


ORDERED = [text for text in texts() if (grist := grist_of(text)) is not None and len(grist[1]) > 1]


def unordered(text: str) -> list[tuple[str, Level, str]]:
    """Rule, level and, where it is about one line, that line."""
    lines = text.splitlines()
    told = []
    for one in review(text).results:
        about = lines[one.place.line - 1] if one.pointer.startswith("/grist/") else one.pointer
        told.append((one.rule, one.level, about))
    return sorted(told)


@settings(max_examples=60)
@given(st.sampled_from(ORDERED), st.randoms(use_true_random=False))
def test_the_order_of_the_grist_changes_nothing(text: str, chance: random.Random) -> None:
    grist = grist_of(text)
    assert grist is not None
    before, lines, after = grist
    shuffled = lines.copy()
    chance.shuffle(shuffled)
    assert unordered(before + "".join(shuffled) + after) == unordered(text)


# --- more of a good thing ---

MASH = """\
recipe: Trial
batch: 20 l
grist:
  - {{grain: {malt}, weight: {malt_kg:.2f} kg}}
  - {{grain: {other}, weight: {other_kg:.2f} kg}}
mash: {{rests: [{{at: {at_c:.1f} °C, for: {minutes} min}}]}}
"""
OTHERS = st.sampled_from(
    ["raw wheat", "flaked maize", "flaked oats", "caramel malt 60", "light Munich malt", "black malt"]
)
MALTS = st.sampled_from(["two-row pale malt", "six-row pale malt", "Pilsner malt", "wheat malt"])
ENZYMES = ("enzyme-sufficiency", "adjunct-share", "no-base-malt")
CONVERSION = ("conversion-time", "saccharification-rest")


@settings(max_examples=40)
@given(MALTS, OTHERS, st.floats(0.1, 5), st.floats(0.1, 5), st.floats(0.05, 4), st.floats(58, 74), st.integers(5, 100))
def test_more_of_the_strongest_malt_never_makes_enzymes_worse(
    malt: str, other: str, malt_kg: float, other_kg: float, more_kg: float, at_c: float, minutes: int
) -> None:
    def text(kg: float) -> str:
        return MASH.format(malt=malt, malt_kg=kg, other=other, other_kg=other_kg, at_c=at_c, minutes=minutes)

    assert worst(text(malt_kg + more_kg), *ENZYMES) <= worst(text(malt_kg), *ENZYMES)


@settings(max_examples=40)
@given(MALTS, OTHERS, st.floats(0.1, 5), st.floats(0.1, 5), st.floats(40, 85), st.integers(1, 120), st.integers(1, 120))
def test_a_longer_last_rest_never_makes_conversion_worse(
    malt: str, other: str, malt_kg: float, other_kg: float, at_c: float, minutes: int, more: int
) -> None:
    def text(length: int) -> str:
        return MASH.format(malt=malt, malt_kg=malt_kg, other=other, other_kg=other_kg, at_c=at_c, minutes=length)

    assert worst(text(minutes + more), *CONVERSION) <= worst(text(minutes), *CONVERSION)


# --- reviewed after a fix, nothing is left to apply ---


def applied(text: str, remedy: RemedyRow) -> str:
    """The text after a remedy, from the last piece to the first."""
    for edit in sorted(remedy.edits, key=lambda one: one.replacement.span, reverse=True):
        piece = edit.replacement
        text = text[: piece.span.start] + piece.text + text[piece.span.end :]
    return text


def levels(results: tuple[Result, ...]) -> dict[tuple[str, str], Level]:
    found: dict[tuple[str, str], Level] = {}
    for one in results:
        found[one.rule, one.pointer] = max(one.level, found.get((one.rule, one.pointer), one.level))
    return found


@pytest.mark.parametrize("index", range(len(texts())))
def test_every_remedy_mends_and_makes_nothing_worse(index: int) -> None:
    text = texts()[index]
    results = review(text).results
    before = levels(results)
    for result in results:
        for remedy in result.remedies:
            after = levels(review(applied(text, remedy)).results)
            assert after.get((result.rule, result.pointer), Level.NOTE) <= Level.NOTE, remedy
            worse = {place: level for place, level in after.items() if level > before.get(place, 0)}
            assert worse == {}, remedy


@settings(max_examples=25)
@given(st.floats(0.3, 4), st.floats(62, 71), st.integers(1, 40), st.booleans())
def test_a_rest_that_is_drawn_out_is_as_long_as_the_mash_needs(
    munich_kg: float, at_c: float, minutes: int, mash_out: bool
) -> None:
    text = MASH.format(
        malt="pale ale malt", malt_kg=1, other="light Munich malt", other_kg=munich_kg, at_c=at_c, minutes=minutes
    )
    text = text.replace("}]}", "}, {at: 76 °C, for: 10 min}]}") if mash_out else text
    asked = [one for one in review(text).results if one.rule == "conversion-time" and one.remedies]
    for result in asked:
        brew = Brew.of(applied(text, result.remedies[0]))
        assert conversion_time(brew).typical <= brew.plan.rests[0].minutes.typical


def test_remedies_are_there_to_be_tried() -> None:
    """Most rules can say what mends their own faulty example."""
    rules = installed().rules
    mended = [
        rule_id
        for rule_id, rule in rules.items()
        if isinstance(rule.module.FAULTY, Example)
        and any(one.rule == rule_id and one.remedies for one in review(rule.module.FAULTY.recipe).results)
    ]
    assert len(mended) > len(rules) / 2
