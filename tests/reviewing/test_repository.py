"""Git is asked what it leaves out, and nothing that a repository holds is run for it."""

import os
import shutil
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest

from mashwright.reviewing import repository
from mashwright.reviewing.files import walk
from mashwright.reviewing.repository import Git

SO = "what git ignores is reviewed too"


@pytest.fixture
def club(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """An empty folder for a repository; nobody's settings of git count."""
    for name in [name for name in os.environ if name.startswith("GIT_")]:
        monkeypatch.delenv(name)
    monkeypatch.setenv("GIT_CONFIG_GLOBAL", os.devnull)
    monkeypatch.setenv("GIT_CONFIG_NOSYSTEM", "1")
    for who in ("AUTHOR", "COMMITTER"):
        monkeypatch.setenv(f"GIT_{who}_NAME", "Brewer")
        monkeypatch.setenv(f"GIT_{who}_EMAIL", "brewer@example.org")
    folder = tmp_path / "club with späces"
    folder.mkdir()
    monkeypatch.chdir(folder)
    return folder


def git(*arguments: str, folder: Path | str = ".") -> str:
    call = ["git", "-C", str(folder), *arguments]
    return subprocess.run(call, check=True, capture_output=True, text=True, timeout=60).stdout


def fill(folder: Path, *names: str) -> None:
    for name in names:
        (folder / name).parent.mkdir(parents=True, exist_ok=True)
        (folder / name).write_text("recipe: x\n")


def walked(folder: str = ".") -> tuple[list[str], list[str]]:
    """What a walk finds, and what it has to tell."""
    asked = Git()
    return list(walk(folder, asked, [])), asked.told()


def marker(folder: Path) -> tuple[Path, Path]:
    """A program that leaves a mark, and the mark."""
    mark = folder.parent / "mark"
    program = folder / "leave-mark"
    program.write_text(f"#!/bin/sh\necho run >>'{mark}'\nexit 1\n")
    program.chmod(0o755)
    return program, mark


def test_what_is_ignored_is_left_out_unless_it_is_tracked(club: Path) -> None:
    git("init", "-q")
    fill(club, "kept.yaml", "old/a.yaml", "old/tracked.yaml", "by-exclude.yaml", "sub/ignored.yaml", "sub/b.yaml")
    (club / ".gitignore").write_text("old/\n")
    (club / "sub/.gitignore").write_text("ignored.yaml\n")
    (club / ".git/info").mkdir(exist_ok=True)
    (club / ".git/info/exclude").write_text("by-exclude.yaml\n")
    git("add", "-f", "old/tracked.yaml")
    assert walked() == (["kept.yaml", "old/tracked.yaml", "sub/b.yaml"], [])
    assert walked("sub") == (["sub/b.yaml"], [])
    assert walked("./sub/") == (["sub/b.yaml"], [])
    assert walked(str(club / "sub")) == ([str(club / "sub/b.yaml")], [])


def test_a_folder_reached_by_a_link_is_asked_about_where_it_lies(club: Path, tmp_path: Path) -> None:
    git("init", "-q")
    fill(club, "house/a.yaml", "house/b.yaml")
    (club / ".gitignore").write_text("b.yaml\n")
    (tmp_path / "link").symlink_to(club / "house")
    assert walked("../link") == (["../link/a.yaml"], [])


@pytest.mark.parametrize("kind", ["plain", "split-index", "sha256", "sparse-index"])
def test_every_form_of_index_is_read(club: Path, kind: str) -> None:
    git("init", "-q", f"--object-format={'sha256' if kind == 'sha256' else 'sha1'}")
    fill(club, "a.yaml", "old/b.yaml", "far/deep/d.yaml")
    (club / ".gitignore").write_text("old/\n")
    git("add", "-f", ".gitignore", "a.yaml", "old/b.yaml", "far")
    git("commit", "-q", "-m", "brew")
    if kind == "split-index":
        git("update-index", "--split-index")
    if kind == "sparse-index":
        git("sparse-checkout", "set", "--cone", "--sparse-index", "old")
    fill(club, "old/c.yaml", "far/deep/d.yaml")
    assert walked() == (["a.yaml", "far/deep/d.yaml", "old/b.yaml"], [])


def test_a_linked_work_tree_and_a_git_folder_apart(club: Path, tmp_path: Path) -> None:
    git("init", "-q")
    fill(club, "a.yaml", "b.yaml")
    (club / ".git/info").mkdir(exist_ok=True)
    (club / ".git/info/exclude").write_text("b.yaml\nc.yaml\n")
    git("add", "a.yaml")
    git("add", "-f", "b.yaml")
    git("commit", "-q", "-m", "brew")
    git("worktree", "add", "-q", "../linked")
    fill(tmp_path / "linked", "c.yaml", "d.yaml")
    assert walked("../linked") == ([f"../linked/{name}.yaml" for name in "abd"], [])
    git("init", "-q", "--separate-git-dir", str(tmp_path / "apart"), str(tmp_path / "other"))
    fill(tmp_path / "other", "a.yaml", "b.yaml")
    (tmp_path / "other/.gitignore").write_text("b.yaml\n")
    assert walked("../other") == (["../other/a.yaml"], [])


def test_a_submodule_ignores_for_itself_and_an_untracked_clone_is_left_out(club: Path, tmp_path: Path) -> None:
    guests = tmp_path / "guests"
    git("init", "-q", str(guests))
    fill(guests, "g.yaml")
    (guests / ".gitignore").write_text("own.yaml\n")
    git("add", ".", folder=guests)
    git("commit", "-q", "-m", "brew", folder=guests)
    git("init", "-q")
    (club / ".gitignore").write_text("g.yaml\n")
    git("-c", "protocol.file.allow=always", "submodule", "add", "-q", str(guests), "sub")
    fill(club, "a.yaml", "sub/own.yaml")
    for number in range(5):
        git("clone", "-q", str(guests), f"clone{number}")
        told = (
            ["clone0 is a repository that git does not track here; it is left out; name it to review it"],
            ["repositories that git does not track here are left out: clone0, clone1; name them to review them"],
        )
        if number < 2:
            assert walked() == (["a.yaml", "sub/g.yaml"], told[number])
    more = "clone0, clone1, clone2 and 2 more"
    assert walked()[1] == [f"repositories that git does not track here are left out: {more}; name them to review them"]
    assert walked("clone0") == (["clone0/g.yaml"], [])


def test_clones_in_a_folder_that_is_no_repository_are_reviewed(club: Path) -> None:
    for name in ("one", "two"):
        git("init", "-q", name)
        fill(club, f"{name}/a.yaml", f"{name}/b.yaml")
    (club / "two/.gitignore").write_text("a.yaml\n")
    assert walked() == (["one/a.yaml", "one/b.yaml", "two/b.yaml"], [])


def test_where_no_repository_is_git_is_not_called(club: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(repository, "_program", lambda top: pytest.fail(f"git was looked for in {top}"))
    fill(club, "a.yaml")
    (club / ".git").mkdir()  # no repository, since nothing is in it
    assert walked() == (["a.yaml"], [])


def test_without_git_it_is_said_once_and_nothing_is_left_out(club: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    for name in ("one", "two"):
        git("init", "-q", name)
        fill(club, f"{name}/a.yaml")
        (club / name / ".gitignore").write_text("a.yaml\n")
    monkeypatch.setenv("PATH", str(club / "empty"))
    assert walked() == (["one/a.yaml", "two/a.yaml"], [f"git is not found on PATH; {SO}"])


def test_a_git_that_is_slow_or_fails_is_told(club: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    git("init", "-q")
    fill(club, "a.yaml")
    (club / ".gitignore").write_text("a.yaml\n")
    assert walked() == ([], [])
    (club / ".git/index").write_bytes(b"no index at all, but long enough for one")
    found, told = walked()
    assert (found, told[0].startswith("git cannot say what it leaves out of . (fatal: ")) == (["a.yaml"], True)
    assert str(tmp_path) not in told[0]
    slow = tmp_path / "slow"
    slow.mkdir()
    (slow / "git").write_text("#!/bin/sh\nexec sleep 60\n")
    (slow / "git").chmod(0o755)
    monkeypatch.setenv("PATH", f"{slow}{os.pathsep}{os.environ['PATH']}")
    monkeypatch.setattr(repository, "GIT_SECONDS", 0.2)
    assert walked() == (["a.yaml"], [f"git did not say within 0.2 s what it leaves out; {SO}"])


@pytest.mark.skipif(sys.platform != "linux", reason="bounded by Linux alone")
def test_a_git_that_eats_memory_is_ended_and_told(club: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """As one would that follows an index without end; here a stand-in that asks for three times what it may have."""
    git("init", "-q")
    fill(club, "a.yaml")
    (tmp_path / "bin").mkdir()
    stand_in = f"#!/bin/sh\nexec \"{sys.executable}\" -c 'import time; time.sleep(0.3); len(bytearray(3 << 30))'\n"
    (tmp_path / "bin/git").write_text(stand_in)
    (tmp_path / "bin/git").chmod(0o755)
    monkeypatch.setenv("PATH", f"{tmp_path / 'bin'}{os.pathsep}{os.environ['PATH']}")
    assert walked() == (["a.yaml"], [f"git cannot say what it leaves out of . (MemoryError); {SO}"])


def pipes_and_devices(club: Path) -> None:
    os.mkfifo(club / ".git/info/exclude")
    os.mkfifo(club / ".git/index")
    os.mkfifo(club / ".git/commondir")
    (club / ".git/config").write_text("[core]\n\texcludesFile = /dev/zero\n\tattributesFile = /dev/zero\n")


def test_pipes_and_devices_keep_nobody_waiting(club: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    git("init", "-q", "--template=")
    (club / ".git/info").mkdir()
    pipes_and_devices(club)
    fill(club, "a.yaml")
    monkeypatch.setattr(repository, "GIT_SECONDS", 5.0)
    assert walked() == (["a.yaml"], [])


def by_monitor(folder: Path, program: Path) -> None:
    git("config", "core.fsmonitor", f"'{program}'", folder=folder)


def by_included_config(folder: Path, program: Path) -> None:
    (folder / "more.cfg").write_text(f"[core]\n\tfsmonitor = \"'{program}'\"\n")
    git("config", "include.path", "../more.cfg", folder=folder)


def by_config_of_the_work_tree(folder: Path, program: Path) -> None:
    git("config", "extensions.worktreeConfig", "true", folder=folder)
    git("config", "--worktree", "core.fsmonitor", f"'{program}'", folder=folder)


LIVE = [by_monitor, by_included_config, by_config_of_the_work_tree]
"""Each makes a plain ``git ls-files`` run a program of the repository's config."""


@pytest.mark.parametrize("arm", LIVE)
def test_no_program_of_a_config_is_run(club: Path, arm: Callable[[Path, Path], None]) -> None:
    git("init", "-q")
    program, mark = marker(club)
    fill(club, "a.yaml", "b.yaml")
    (club / ".gitignore").write_text("b.yaml\n")
    arm(club, program)
    git("ls-files", "--others", "--ignored", "--exclude-standard")
    assert mark.exists(), "the decoy is dead, so that the test would prove nothing"
    mark.unlink()
    assert walked() == (["a.yaml"], [])
    assert not mark.exists()


def test_a_tracked_folder_that_looks_like_a_repository_is_none(club: Path) -> None:
    git("init", "-q")
    program, mark = marker(club)
    bare = club / "recipes"
    fill(club, "recipes/a.yaml", "recipes/b.yaml")
    git("init", "-q", "--bare", str(bare))
    git("config", "--file", str(bare / "config"), "core.bare", "false")
    git("config", "--file", str(bare / "config"), "core.worktree", str(bare))
    git("config", "--file", str(bare / "config"), "core.fsmonitor", f"'{program}'")
    (bare / "info/exclude").write_text("a.yaml\n")
    git("ls-files", "--others", "--ignored", "--exclude-standard", folder=bare)
    assert mark.exists(), "the decoy is dead, so that the test would prove nothing"
    mark.unlink()
    assert walked("recipes") == (["recipes/a.yaml", "recipes/b.yaml"], [])
    assert walked() == (["recipes/a.yaml", "recipes/b.yaml"], [])
    os.chdir(bare)
    assert walked() == (["a.yaml", "b.yaml"], [])
    assert not mark.exists()


def test_a_git_file_that_points_to_files_under_review_is_not_believed(club: Path) -> None:
    git("init", "-q", "--bare", "decoy")
    (club / "decoy/info/exclude").write_text("a.yaml\n")
    fill(club, "a.yaml")
    (club / ".git").write_text("gitdir: ./decoy\n")
    told = [f".git points to files under review; {SO}"]
    assert walked() == (["a.yaml"], told)
    (club / ".git").unlink()
    (club / ".git").symlink_to("decoy")
    assert walked() == (["a.yaml"], told)
    (club / ".git").unlink()
    for nothing in ("gitdir:\n", "gitdir: nowhere\n", "worktree: ./decoy\n", "\0", ""):
        (club / ".git").write_text(nothing)
        assert walked() == (["a.yaml"], [])


def test_hooks_aliases_filters_and_attributes_are_left_alone(club: Path) -> None:
    """None of them runs for a listing even of a plain git; with no config read, none can."""
    git("init", "-q")
    program, mark = marker(club)
    fill(club, "a.yaml")
    hooks = club / ".git/hooks"
    hooks.mkdir(exist_ok=True)
    for name in ("fsmonitor-watchman", "post-index-change", "pre-commit", "post-checkout"):
        shutil.copy(program, hooks / name)
    (club / ".gitattributes").write_text("* filter=decoy diff=decoy merge=decoy export-subst\n")
    settings = {
        "alias.ls-files": f"!{program}",
        "filter.decoy.clean": str(program),
        "filter.decoy.process": str(program),
        "diff.decoy.command": str(program),
        "core.pager": str(program),
        "core.sshCommand": str(program),
        "core.gitProxy": str(program),
        "core.askPass": str(program),
        "pager.ls-files": str(program),
        "trace2.normalTarget": str(mark),
        "core.hooksPath": str(club),
        "uploadpack.packObjectsHook": str(program),
    }
    for name, value in settings.items():
        git("config", name, value)
    assert walked() == (["a.yaml"], [])
    assert not mark.exists()


def test_a_shell_that_git_would_heed_is_not_heeded(club: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    git("init", "-q")
    program, mark = marker(club)
    fill(club, "a.yaml", "b.yaml")
    (club / ".gitignore").write_text("b.yaml\n")
    home = tmp_path / "home"
    home.mkdir()
    (home / ".gitconfig").write_text(f"[core]\n\tfsmonitor = '{program}'\n\texcludesFile = {tmp_path / 'all'}\n")
    (tmp_path / "all").write_text("*\n")
    for name, value in {
        "HOME": str(home),
        "GIT_CONFIG_GLOBAL": str(home / ".gitconfig"),
        "GIT_CONFIG_SYSTEM": str(home / ".gitconfig"),
        "GIT_CONFIG_COUNT": "1",
        "GIT_CONFIG_KEY_0": "core.fsmonitor",
        "GIT_CONFIG_VALUE_0": f"'{program}'",
        "GIT_TRACE": str(mark),
        "GIT_TRACE2_EVENT": str(mark),
        "GIT_EXEC_PATH": str(club),
        "GIT_DIR": str(tmp_path / "elsewhere"),
        "GIT_WORK_TREE": str(tmp_path),
        "GIT_INDEX_FILE": str(tmp_path / "elsewhere"),
        "GIT_CEILING_DIRECTORIES": str(tmp_path),
    }.items():
        monkeypatch.setenv(name, value)
    assert walked() == (["a.yaml"], [])
    assert not mark.exists()


@pytest.mark.parametrize("entry", ["", ".", "bin", "{club}", "{club}/bin", "{outside}"])
def test_a_git_out_of_what_is_reviewed_is_never_run(
    entry: str, club: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    git("init", "-q")
    program, mark = marker(club)
    fill(club, "a.yaml", "b.yaml")
    (club / ".gitignore").write_text("b.yaml\n")
    (club / "bin").mkdir()
    (tmp_path / "outside").mkdir()
    for folder in (club, club / "bin"):
        for name in ("git", "git.exe", "git.cmd", "git.bat"):
            shutil.copy(program, folder / name)
    (tmp_path / "outside/git").symlink_to(club / "bin/git")
    first = entry.format(club=club, outside=tmp_path / "outside")
    monkeypatch.setenv("PATH", f"{first}{os.pathsep}{os.environ['PATH']}")
    assert walked() == (["a.yaml"], [])
    assert not mark.exists()


def test_nothing_is_left_behind_or_written_into_the_repository(
    club: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    git("init", "-q")
    fill(club, "a.yaml")
    git("add", ".")
    scratch = tmp_path / "scratch"
    scratch.mkdir()
    monkeypatch.setattr("tempfile.tempdir", str(scratch))
    before = {path: path.stat().st_mtime_ns for path in club.rglob("*")}
    assert walked() == (["a.yaml"], [])
    assert {path: path.stat().st_mtime_ns for path in club.rglob("*")} == before
    assert list(scratch.iterdir()) == []
