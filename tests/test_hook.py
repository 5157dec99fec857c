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


def hook(identity: str = "mashwright") -> dict[str, object]:
    """What .pre-commit-hooks.yaml offers under an id."""
    root = read_document((ROOT / ".pre-commit-hooks.yaml").read_text()).root
    assert root is not None
    offered = data(root)
    assert isinstance(offered, list)
    assert [one["id"] for one in offered] == ["mashwright", "mashwright-collection"]
    return next(one for one in offered if one["id"] == identity)


def test_what_is_offered_for_the_whole_collection() -> None:
    offered = hook("mashwright-collection")
    assert offered.pop("description")
    assert offered == {
        "id": "mashwright-collection",
        "name": "review the whole collection of beer recipes",
        "entry": "mashwright review",
        "language": "python",
        "types": ["yaml"],
        "pass_filenames": False,
        "require_serial": True,
    }


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


def config(identity: str, *arguments: str) -> str:
    """A hook as it is offered, but for the language: this interpreter's program is run."""
    offered = hook(identity)
    entry = str(offered["entry"]).replace("mashwright", f'"{sys.executable}" -m mashwright', 1)
    return f"""\
repos:
  - repo: local
    hooks:
      - id: {identity}
        name: {offered["name"]}
        entry: '{entry}'
        language: system
        types: [yaml]
        pass_filenames: {str(offered["pass_filenames"]).lower()}
        require_serial: {str(offered["require_serial"]).lower()}
        args: [{", ".join(arguments)}]
"""


@pytest.fixture
def repository(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A scratch repository whose commits pass through the hook."""
    monkeypatch.setenv("PRE_COMMIT_HOME", str(tmp_path / "home"))
    monkeypatch.setenv("GIT_CONFIG_GLOBAL", os.devnull)
    for who in ("AUTHOR", "COMMITTER"):
        monkeypatch.setenv(f"GIT_{who}_NAME", "Brewer")
        monkeypatch.setenv(f"GIT_{who}_EMAIL", "brewer@example.org")
    folder = tmp_path / "recipes"
    folder.mkdir()
    git(folder, "init", "-q")
    (folder / ".pre-commit-config.yaml").write_text(config("mashwright"))
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
    closing = (
        "2 recipes reviewed: 1 error; 15 rules could not judge 1 recipe (--notes shows why);"
        " 1 file without a recipe skipped (.pre-commit-config.yaml)"
    )
    assert closing in done.stderr.splitlines()
    assert git(repository, "log").returncode != 0


def test_the_readme_shows_what_a_blocked_commit_prints(repository: Path) -> None:
    git(repository, "add", ".")
    git(repository, "commit", "-m", "the hook")
    done = commit(repository, **{"lane-bitter": FAULTY})
    assert f"```\n{done.stderr}```\n" in (ROOT / "README.md").read_text(encoding="utf-8")


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


def test_a_changed_brewhouse_has_what_lies_under_it_reviewed_and_no_draft(repository: Path) -> None:
    """A setting makes a sound recipe faulty; a draft that nobody added is nobody's business."""
    bag = SOUND + "mash: {water: 12 l, rests: [{at: 66 °C, for: 60 min}]}\n"
    done = commit(repository, bag=bag)
    assert done.returncode == 0, done.stderr
    (repository / "draft.yaml").write_text(FAULTY)
    (repository / "brewhouse.yaml").write_text("brewhouse: Shed\nmash-tun: {volume: 14 l}\n")
    git(repository, "add", "brewhouse.yaml")
    done = git(repository, "commit", "-m", "a smaller tun")
    assert "draft.yaml" not in done.stderr
    assert done.returncode == 1, done.stderr
    assert "bag.yaml:" in done.stderr
    assert "mash-tun-volume" in done.stderr


def test_the_second_hook_sees_the_whole_collection_once(repository: Path) -> None:
    """What was not touched is reviewed beside what was, in one run, however many files are committed."""
    (repository / ".pre-commit-config.yaml").write_text(config("mashwright-collection", "--stop-at", "warning"))
    first = commit(repository, **{f"r{index:03}": SOUND.replace("Bitter", f"No. {index}") for index in range(60)})
    assert first.returncode == 0, first.stderr
    done = commit(repository, other=SOUND.replace("Bitter", "No. 7"))
    assert done.returncode == 1
    told = "Lane No. 7 is the name of other.yaml too; rename one of the two, or delete it"
    assert f"r007.yaml:1:9: warning: same-name: {told}" in done.stderr.splitlines()
    counts = [line for line in done.stderr.splitlines() if "recipes reviewed" in line]
    assert counts == ["61 recipes reviewed: 1 warning"]


def test_the_second_hook_fails_on_new_trouble_only(repository: Path) -> None:
    """With a baseline the old faults of a collection stand in nobody's way."""
    call = [sys.executable, "-m", "mashwright", "review", "--baseline", "known.txt", "--write-baseline"]
    (repository / "old.yaml").write_text(FAULTY)
    subprocess.run(call, cwd=repository, check=True, capture_output=True, timeout=60)
    (repository / ".pre-commit-config.yaml").write_text(config("mashwright-collection", "--baseline", "known.txt"))
    assert commit(repository, new=SOUND.replace("Bitter", "Mild")).returncode == 0
    done = commit(repository, faulty=FAULTY.replace("Bitter", "Stout"))
    assert done.returncode == 1
    assert TOLD in done.stderr.splitlines()
    assert [line for line in done.stderr.splitlines() if ": error: " in line] == [TOLD]


@pytest.mark.parametrize("name", ["--baseline=x", "--write-baseline", "-"])
def test_a_tracked_file_is_no_option(name: str, repository: Path) -> None:
    """Files come behind the entry and the user's own options, so nothing between them can end the options."""
    (repository / ".pre-commit-config.yaml").write_text(config("mashwright", "--stop-at", "warning", "--notes"))
    done = commit(repository, **{name: FAULTY, "sound": SOUND})
    assert done.returncode == 1
    assert f"{TOLD.replace('faulty', name)}" in done.stderr.splitlines()
    assert "2 recipes reviewed: 1 error; " in done.stderr
    assert not (repository / "x.yaml").exists()
