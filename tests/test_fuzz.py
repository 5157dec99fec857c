"""The whole review on texts that nobody wrote: no crash, no place outside the text, in time, in every form.

Bounded by numbers of examples, not by a clock, so that each run is the same run. ``FUZZ_TIMES=20`` makes it twenty
times as long, with other examples each time.
"""

import importlib.util
import json
import os
import re
import subprocess
import sys
import time
from pathlib import Path
from types import ModuleType
from xml.etree.ElementTree import fromstring

import pytest
from hypothesis import HealthCheck, example, given, settings
from hypothesis import strategies as st

import mashwright
from mashwright.finding import Level
from mashwright.reading.document import Place
from mashwright.reporting import written
from mashwright.reporting.text import closing, faults, recipe_findings
from mashwright.reviewing.collection import Collection
from mashwright.reviewing.files import Loaded, decode
from mashwright.reviewing.results import Review
from mashwright.reviewing.settings import Run


def strategies() -> ModuleType:
    spec = importlib.util.spec_from_file_location("strategies", Path(__file__).parent / "strategies.py")
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


RECIPES = strategies()
TIMES = int(os.environ.get("FUZZ_TIMES", "1"))
LONGEST_S = 1.0
MOST_MB = 200
DEEPER = 40
"""Calls by which a time is measured once more, farther down the stack; about half of a piece of it."""


def fuzz(number: int) -> settings:
    return settings(
        max_examples=number * TIMES,
        derandomize=TIMES == 1,
        deadline=None,
        suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large],
    )


def took_deeper_s(loaded: Loaded, frames: int) -> float:
    """The same review's time so many calls deeper.

    Where a call lies at the end of a piece of Python's own stack, each one like it maps memory anew (CPython 3.11), and
    a review that is begun there takes four times as long.
    """
    if frames:
        return took_deeper_s(loaded, frames - 1)
    collection = Collection(Run("2026-01-01", collection=True))
    began = time.process_time()
    collection.finished(list(collection.text(loaded, "/nowhere/recipe.yaml")))
    return time.process_time() - began


def assert_sound(data: bytes) -> Review:
    """Reviewed within the time, without a fault, in every form; figures too."""
    loaded = decode(data)
    began = time.process_time()
    collection = Collection(Run("2026-01-01", collection=True))
    review = collection.finished(list(collection.text(loaded, "/nowhere/recipe.yaml")))
    took_s = time.process_time() - began
    if took_s >= LONGEST_S:
        took_s = min(took_s, took_deeper_s(loaded, DEEPER))
    assert review.faults == ()
    assert took_s < LONGEST_S, f"{took_s:.2f} s for {len(data)} bytes"

    lines = re.split(r"\r\n|\r|\n", loaded.text)

    def assert_inside(place: Place) -> None:
        for line, column in ((place.line, place.column), (place.end_line, place.end_column)):
            assert 1 <= line <= len(lines), place
            assert 1 <= column <= len(lines[line - 1]) + 2, place

    for result in review.recipes[0].results:
        assert_inside(result.place)
        assert result.level in Level
        assert result.message, result
        assert "\n" not in result.message
        assert all(1 <= row.line <= len(lines) for row in result.evidence if row.line is not None)
        for remedy in result.remedies:
            for edit in remedy.edits:
                assert_inside(edit.place)
                assert 0 <= edit.replacement.span.start <= edit.replacement.span.end <= len(loaded.text)

    json.loads(written("json", review))
    json.loads(written("sarif", review))
    fromstring(written("junit", review))
    assert len(written("markdown", review)) < 65_536
    told = [line for recipe in review.recipes for line in recipe_findings(recipe, notes=True, colour=False)]
    printed = [*told, *faults(review), closing(review)]
    assert all(line.isprintable() for line in printed)
    if loaded.problem is None:
        json.dumps([row.id for row in mashwright.figures_of(loaded.text).rows])
    return review


@fuzz(80)
@given(st.binary(max_size=400))
def test_bytes(data: bytes) -> None:
    assert_sound(data)


@fuzz(60)
@given(RECIPES.recipe_texts())
def test_valid_recipes(text: str) -> None:
    review = assert_sound(text.encode())
    told = [one for one in review.recipes[0].results if one.rule in ("unreadable", "field")]
    assert told == [], text


@fuzz(120)
@given(RECIPES.nearly_valid_recipes())
@example(
    "recipe: Trial\nbatch: 3 l\ngrist: [{grain: pale malt, weight: 1 kg}]\nefficiency: 0 %\ntargets: {og: 1.001}\n"
)
@example(
    "recipe: Trial\nbatch: 3 l\ngrist:\n  - {grain: two-row pale malt, weight: 1 kg, diastatic-power: 0 °Lintner}\n"
    "water: {}\ntargets: {og: 1.001}\nefficiency: 0 %\n"
)
@example(
    "recipe: Trial\nbatch: 19 l\ngrist:\n  - {grain: two-row pale malt, weight: 1 kg}\n"
    "  - {grain: two-row pale malt, weight: 1 kg, diastatic-power: 0 °Lintner}\n"
    "  - {sugar: table sugar, weight: 1 kg}\ntargets: {fg: 4 °P}\n"
)
def test_nearly_valid_recipes(text: str) -> None:
    assert_sound(text.encode("utf-8", "surrogatepass"))


@fuzz(40)
@given(RECIPES.recipe_texts(), st.data())
def test_recipes_with_bytes_turned(text: str, data: st.DataObject) -> None:
    raw = bytearray(text.encode())
    for _ in range(data.draw(st.integers(1, 3))):
        raw[data.draw(st.integers(0, len(raw) - 1))] = data.draw(st.integers(0, 255))
    assert_sound(bytes(raw))


@pytest.mark.parametrize("codec", ["utf-16", "utf-16-le", "utf-16-be", "utf-32", "latin-1", "utf-7", "utf-8-sig"])
def test_other_encodings(codec: str) -> None:
    assert_sound("recipe: Bräu\nbatch: 20 l\ngrist:\n  - {grain: pale malt, weight: 4 kg}\n".encode(codec))


@pytest.mark.parametrize("size", [2_000, 100_000])
@pytest.mark.parametrize("name", RECIPES.LARGE)
def test_a_text_full_of_one_thing(name: str, size: int) -> None:
    assert_sound(RECIPES.LARGE[name](size).encode())


def test_aliases_of_aliases() -> None:
    assert_sound(RECIPES.BOMB.encode())


RUN = """
import importlib.util, json, sys, time
import mashwright
spec = importlib.util.spec_from_file_location("strategies", sys.argv[1])
strategies = importlib.util.module_from_spec(spec)
spec.loader.exec_module(strategies)
mashwright.review_text(strategies.PALE)
told = []
for name in sys.argv[2:]:
    text = strategies.LARGE[name](2**20 - 4096)
    began = time.process_time()
    review = mashwright.review_text(text)
    told.append([name, time.process_time() - began, len(review.faults)])
with open("/proc/self/status") as status:
    peak_mb = next(int(line.split()[1]) for line in status if line.startswith("VmHWM")) / 1024
print(json.dumps([told, peak_mb]))
"""


@pytest.mark.skipif(not os.path.exists("/proc/self/status"), reason="the peak of memory is read from Linux")
def test_a_mebibyte_of_one_thing() -> None:
    """Each is stopped within the time, and all of them within the memory."""
    module = Path(__file__).parent / "strategies.py"
    done = subprocess.run(
        [sys.executable, "-c", RUN, str(module), *RECIPES.LARGE],
        capture_output=True,
        text=True,
        timeout=120,
        check=False,
    )
    assert done.returncode == 0, done.stderr
    told, peak_mb = json.loads(done.stdout)
    assert [name for name, took_s, _ in told if took_s >= LONGEST_S] == []
    assert [name for name, _, faulty in told if faulty] == []
    assert peak_mb < MOST_MB
