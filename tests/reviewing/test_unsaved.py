"""A recipe and a brewhouse that nobody has saved: judged and mended as texts, without a look at any file."""

import builtins
import os
from collections.abc import Callable
from contextlib import suppress
from pathlib import Path
from typing import NoReturn, TypeVar

import pytest

import mashwright
from mashwright.finding import Level

T = TypeVar("T")

HEAD = "recipe: Unsaved bitter\nbatch: 20 l\n"
SOUND = (
    HEAD
    + """\
grist:
  - {grain: pale ale malt, weight: 4.2 kg}
mash:
  water: 12 l
  rests:
    - {at: 66 °C, for: 60 min}
boil: {for: 60 min}
hops:
  - {hop: Fuggle, weight: 40 g, alpha: 4.5 %, boil: 60 min}
yeast: {kind: English ale}
ferment:
  - {at: 19 °C, for: 12 d}
"""
)
HOT = SOUND.replace("66 °C", "80 °C")


def told(text: str, brewhouse: str | None = "{}", **more: bool) -> list[str]:
    review = mashwright.review_text(text, today="2026-01-01", brewhouse=brewhouse, **more)
    assert review.faults == ()
    return [
        f"{recipe.path}:{one.place.line}: {one.level.word}: {one.rule}"
        for recipe in review.recipes
        for one in recipe.results
        if one.level > Level.NOTE
    ]


@pytest.fixture
def untouched(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> Callable[[Callable[[], T]], T]:
    """Calls something in a folder whose brewhouse cannot be read, and with a file system that nobody may touch."""
    (tmp_path / "brewhouse.yaml").write_text("brewhouse: [\n")
    monkeypatch.chdir(tmp_path)

    def touched(path: object, *_: object, **__: object) -> NoReturn:
        raise InterruptedError(str(path))

    def call(work: Callable[[], T]) -> T:
        with suppress(InterruptedError):
            work()  # what is imported on the way is there
        with monkeypatch.context() as patched:
            for name in ("stat", "lstat", "open", "scandir", "listdir", "readlink"):
                patched.setattr(os, name, touched)
            patched.setattr(builtins, "open", touched)
            return work()

    return call


def test_no_file_is_looked_at(untouched: Callable[[Callable[[], list[str]]], list[str]]) -> None:
    assert untouched(lambda: told(SOUND)) == []
    assert untouched(lambda: told(HOT)) == told(HOT)
    assert told(SOUND, None) == ["brewhouse.yaml:1: error: unreadable"], "the one in the folder"


def test_the_brewhouse_that_is_given_counts(untouched: Callable[[Callable[[], float]], float]) -> None:
    def gravity(brewhouse: str) -> float:
        rows = {row.id: row for row in mashwright.figures_of(SOUND, brewhouse=brewhouse).rows}
        assert rows["og"].typical is not None
        return rows["og"].typical

    assert untouched(lambda: gravity("efficiency: 60 %\n")) < untouched(lambda: gravity("efficiency: 80 %\n"))


def test_its_settings_count() -> None:
    rules = sorted({line.rsplit(" ", 1)[1] for line in told(HOT)})
    assert rules != []
    assert told(HOT, "rules:\n" + "".join(f"  {rule}: off\n" for rule in rules)) == []


def test_what_is_wrong_with_the_brewhouse_comes_first_under_its_name() -> None:
    brewhouse = "brewhouse: Shed\nkettle: {volume: 3}\n"
    assert told(HOT, brewhouse) == ["brewhouse.yaml:2: error: quantity", *told(HOT)]


def test_what_it_accepts_is_accepted_and_what_has_ended_is_told() -> None:
    (first, *_) = told(HOT)
    rule = first.rsplit(" ", 1)[1]
    accepted = f"accepted:\n  - {{rule: {rule}, reason: a porridge}}\n"
    review = mashwright.review_text(HOT, today="2026-01-01", brewhouse=accepted)
    assert {one.rule for one in review.recipes[0].results if one.accepted is not None} == {rule}
    ended = accepted.replace("porridge}", "porridge, until: 2025-12-31}")
    assert "brewhouse.yaml:2: warning: accepted" in told(HOT, ended)


def test_what_mends_a_finding_is_looked_for_only_where_it_is_wanted() -> None:
    reviews = [mashwright.review_text(HOT, brewhouse="{}", remedies=wanted) for wanted in (True, False)]
    mended, found = ([one.remedies for one in review.recipes[0].results] for review in reviews)
    assert any(mended)
    assert len(found) == len(mended)
    assert not any(found)
    assert told(HOT, remedies=False) == told(HOT)
