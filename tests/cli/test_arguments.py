"""Files whose names look like options, as a stranger may have put them into a repository."""

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

Call = Callable[..., Any]
FAULTY = "recipe: Lane Bitter\nbatch: 20 l\ngrist:\n  - {grain: pale ale malt, weight: 4}\n"
TOLD = ':4:36: error: quantity: the weight "4" has no unit; write 4 kg or 4 lb'


@pytest.mark.parametrize(
    "name", ["--baseline=x.yaml", "--output=x.yml", "--write-baseline.yaml", "-x.yaml", "--jobs=7.YAML", "--.yaml"]
)
@pytest.mark.parametrize("before", [(), ("--skip-others",), ("--notes", "--stop-at", "warning")])
def test_a_file_is_no_option(name: str, before: tuple[str, ...], mashwright: Call, folder: Path) -> None:
    for one in (name, "a.yaml"):
        (folder / one).write_text(FAULTY)
    for arguments in ((*before, name, "a.yaml"), ("a.yaml", name, *before), (*before, "--", "a.yaml", name)):
        ended = mashwright("review", *arguments)
        assert ended.status == 1
        errors = [line for line in ended.out.splitlines() if ": error: " in line]
        assert sorted(errors) == sorted([f"{name}{TOLD}", f"a.yaml{TOLD}"])
        assert ended.err.startswith("2 recipes reviewed: 2 errors")
        assert ended.err.count("\n") == 1
    assert sorted(path.name for path in folder.iterdir()) == sorted([".git", "a.yaml", name])


def test_figures_of_a_file_that_is_no_option(mashwright: Call, folder: Path, sound: str) -> None:
    (folder / "--format=json.yaml").write_text(sound)
    ended = mashwright("figures", "--format=json.yaml")
    assert (ended.status, ended.err) == (0, "")
    assert ended.out.startswith("Lane Bitter, --format=json.yaml\n")


@pytest.mark.parametrize("name", ["--quiet", "--stop-at=warning", "--skip-others", "--stop-at", "-h", "--help"])
def test_what_could_be_either_is_refused(name: str, mashwright: Call, folder: Path, sound: str) -> None:
    """Neither does the file act as an option, nor is an option that somebody gave lost to a file."""
    (folder / name).write_text(sound)
    (folder / "warning").write_text(sound)
    ended = mashwright("review", name, "warning")
    told = f"{name} is an option and a file here; rename the file, or write ./{name} for it"
    assert ended == (2, "", f"mashwright: {told}\n")
    assert mashwright("review", f"./{name}") == (0, "", "1 recipe reviewed: no errors, no warnings\n")


def test_the_value_of_an_option_is_no_file_to_review(mashwright: Call, folder: Path, sound: str) -> None:
    (folder / "a.yaml").write_text(sound)
    (folder / "--known").write_text("# findings that are known\n")
    ended = mashwright("review", "--baseline", "--known", "a.yaml")
    assert ended == (0, "", "1 recipe reviewed: no errors, no warnings\n")


def test_an_unknown_option_is_still_told(mashwright: Call) -> None:
    ended = mashwright("review", "--qiet")
    assert ended.status == 2
    assert ended.err.startswith("mashwright: no such option '--qiet'")
