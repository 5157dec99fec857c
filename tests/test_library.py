"""The same as a library: frozen values that can be sent between processes."""

import os
import pickle
from pathlib import Path

import pytest

import mashwright
from mashwright.finding import Level
from mashwright.reading.document import Place

FAULTY = "recipe: Lane Bitter\nbatch: 20 l\ngrist:\n  - {grain: pale ale malt, weight: 4}\n"


def test_a_text_is_reviewed() -> None:
    review = mashwright.review_text(FAULTY, "a.yaml", today="2026-01-01")
    (recipe,) = review.recipes
    assert (recipe.path, recipe.name) == ("a.yaml", "Lane Bitter")
    (result,) = recipe.results
    assert (result.rule, result.level, result.place) == ("quantity", Level.ERROR, Place(4, 36, 4, 37))
    assert review.failed
    assert (review.counts.reviewed, review.counts.errors) == (1, 1)


@pytest.mark.parametrize("today", ["31.12.2027", "2027-02-29", ""])
def test_a_day_that_is_none(today: str) -> None:
    with pytest.raises(ValueError, match=r"^today is .*, no date; write it as 2027-12-31$"):
        mashwright.review_text(FAULTY, today=today)
    with pytest.raises(ValueError, match="no date"):
        mashwright.review([], today=today)


def test_files_and_folders_are_reviewed(tmp_path: Path) -> None:
    (tmp_path / "a.yaml").write_text(FAULTY)
    (tmp_path / "b.yaml").write_text(FAULTY.replace("weight: 4", "weight: 4 kg").replace("Bitter", "Pale"))
    review = mashwright.review([str(tmp_path)])
    assert [(recipe.path, len(recipe.results)) for recipe in review.recipes] == [
        (os.path.relpath(tmp_path / "a.yaml"), 1),
        (os.path.relpath(tmp_path / "b.yaml"), 0),
    ]
    assert not mashwright.review([str(tmp_path / "b.yaml")], stop_at=Level.NOTE).failed
    with pytest.raises(FileNotFoundError):
        mashwright.review([str(tmp_path / "c.yaml")])


def test_the_level_from_which_a_review_fails(tmp_path: Path) -> None:
    path = tmp_path / "a.yaml"
    path.write_text(FAULTY.replace("weight: 4", "weight: 4 kg") + "accepted: [{rule: run-off, reason: x}]\n")
    review = mashwright.review([str(path)])
    assert [result.level for result in review.recipes[0].results] == [Level.WARNING]
    assert not review.failed
    assert mashwright.review([str(path)], stop_at=Level.WARNING).failed
    (tmp_path / "brewhouse.yaml").write_text("brewhouse: Shed\nstop-at: warning\n")
    assert mashwright.review([str(path)]).failed


def test_figures_of_a_text() -> None:
    sheet = mashwright.figures_of(FAULTY.replace("weight: 4", "weight: 4 kg"))
    rows = {row.id: row for row in sheet.rows}
    assert (rows["grist-weight"].typical, rows["grist-weight"].unit) == (4, "kg")
    assert rows["grist-weight"].lines == (4,)


def test_results_are_frozen_and_can_be_sent_between_processes() -> None:
    review = mashwright.review_text(FAULTY)
    sheet = mashwright.figures_of(FAULTY)
    assert pickle.loads(pickle.dumps(review)) == review
    assert pickle.loads(pickle.dumps(sheet)) == sheet
    with pytest.raises(AttributeError):
        review.failed = False  # type: ignore[misc]


def test_loading_the_package_loads_nothing_else() -> None:
    assert set(mashwright.__all__) == {"figures_of", "review", "review_text", "try_rule"}
    assert (Path(mashwright.__file__).parent / "py.typed").exists()
