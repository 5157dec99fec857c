"""The hook as pre-commit runs it, in a scratch repository; without the network, so with this interpreter's program."""

import os
import subprocess
import sys
from pathlib import Path

import pytest

from mashwright.reading.document import read_document
from mashwright.reading.nodes import data

ROOT = Path(__file__).parent.parent

SOUND = "recipe: Lane Bitter\nbatch: 20 l\ngrist:\n  - {grain: pale ale malt, weight: 4 kg}\n"
FAULTY = SOUND.replace("4 kg", "4")
TOLD = 'faulty.yaml:4:36: error: quantity: the weight "4" has no unit; write 4 kg or 4 lb'


def hook() -> dict[str, object]:
    """What .pre-commit-hooks.yaml offers; there is one hook."""
    root = read_document((ROOT / ".pre-commit-hooks.yaml").read_text()).root
    assert root is not None
    (offered,) = data(root)  # type: ignore[misc]
    return offered  # type: ignore[no-any-return]


def test_what_is_offered() -> None:
    offered = hook()
    assert offered.pop("description")
    assert offered == {
        "id": "mashwright",
        "name": "review beer recipes",
        "entry": "mashwright review --skip-others",
        "language": "python",
        "types": ["yaml"],
        "pass_filenames": True,
        "require_serial": True,
    }


@pytest.fixture
def repository(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A scratch repository whose commits pass through the hook."""
    entry = str(hook()["entry"]).replace("mashwright", f'"{sys.executable}" -m mashwright', 1)
    config = f"""\
repos:
  - repo: local
    hooks:
      - id: mashwright
        name: {hook()["name"]}
        entry: '{entry}'
        language: system
        types: [yaml]
        pass_filenames: true
        require_serial: true
"""
    monkeypatch.setenv("PRE_COMMIT_HOME", str(tmp_path / "home"))
    monkeypatch.setenv("GIT_CONFIG_GLOBAL", os.devnull)
    for who in ("AUTHOR", "COMMITTER"):
        monkeypatch.setenv(f"GIT_{who}_NAME", "Brewer")
        monkeypatch.setenv(f"GIT_{who}_EMAIL", "brewer@example.org")
    folder = tmp_path / "recipes"
    folder.mkdir()
    git(folder, "init", "-q")
    (folder / ".pre-commit-config.yaml").write_text(config)
    install = [sys.executable, "-m", "pre_commit", "install"]
    subprocess.run(install, cwd=folder, check=True, capture_output=True, timeout=60)
    return folder


def git(folder: Path, *arguments: str) -> "subprocess.CompletedProcess[str]":
    return subprocess.run(["git", *arguments], cwd=folder, capture_output=True, text=True, check=False, timeout=120)


def commit(folder: Path, **files: str) -> "subprocess.CompletedProcess[str]":
    for name, text in files.items():
        (folder / f"{name}.yaml").write_text(text)
    git(folder, "add", ".")
    return git(folder, "commit", "-m", "brew")


def test_a_faulty_recipe_blocks_the_commit_and_is_told(repository: Path) -> None:
    done = commit(repository, faulty=FAULTY, sound=SOUND)
    assert done.returncode == 1
    assert TOLD in done.stderr.splitlines()
    assert "2 recipes reviewed: 1 error; 1 file without a recipe skipped" in done.stderr.splitlines()
    assert git(repository, "log").returncode != 0


def test_a_sound_recipe_passes_and_a_file_that_is_none_is_passed_over(repository: Path) -> None:
    done = commit(repository, sound=SOUND, other="name: x\nlist: [1, 2]\n", broken="a: [\n")
    assert done.returncode == 0, done.stderr
    assert "Passed" in done.stderr
    assert git(repository, "log", "--format=%s").stdout == "brew\n"


def test_a_faulty_brewhouse_blocks_the_commit(repository: Path) -> None:
    done = commit(repository, brewhouse="brewhouse: Shed\nkettel: {volume: 30 l}\n")
    assert done.returncode == 1
    told = "brewhouse.yaml:2:1: error: field: `kettel` is not known here; did you mean `kettle`?"
    assert told in done.stderr.splitlines()
