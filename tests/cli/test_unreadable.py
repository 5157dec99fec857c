"""What cannot be read, of each kind, among what can: it is told at its place, and the others are reviewed."""

import os
import socket
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from mashwright.reviewing import files

Call = Callable[..., Any]

PLAIN = "this is no ordinary file; name a text file"
OUT = "this link leads out of its repository, so it is not followed; use the file itself"
FOLDER = "this folder may not be opened; allow it to be read, or leave it out"


@pytest.fixture
def made(folder: Path, sound: str) -> Path:
    """A folder with one of each kind, and recipes before and behind them."""
    for name in ("a.yaml", "z.yaml", "folder.yaml/in.yaml"):
        (folder / name).parent.mkdir(exist_ok=True)
        (folder / name).write_text(sound.replace("Bitter", name))
    os.mkfifo(folder / "pipe.yaml")
    (folder / "loop.yaml").symlink_to("round.yaml")
    (folder / "round.yaml").symlink_to("loop.yaml")
    (folder / "device.yaml").symlink_to("/dev/zero")
    with socket.socket(socket.AF_UNIX) as one:
        one.bind("socket.yaml")
    (folder / "big.yaml").write_bytes(b"recipe: x\n" + b"#" * (1 << 20))
    (folder / "bytes.yaml").write_bytes(b"recipe: \xff\0\n")
    return folder


NAMED = (
    "a.yaml", "pipe.yaml", "loop.yaml", "device.yaml", "socket.yaml", "/dev/zero", "folder.yaml", "gone.yaml",
    "x" * 300 + ".yaml", "/".join(["x" * 250] * 30), "a.yaml/b.yaml", "z.yaml",
)  # fmt: skip


def test_each_kind_by_its_name(made: Path, process: Call) -> None:
    """As a process, so that one that would wait for a pipe is ended."""
    ended = process("review", *NAMED)
    lines = ended.out.splitlines()
    zero = os.path.relpath("/dev/zero")
    assert lines == [
        f"pipe.yaml:1:1: error: unreadable: {PLAIN}",
        "loop.yaml:1:1: error: unreadable: this link leads back to itself; use the file itself",
        f"device.yaml:1:1: error: unreadable: {OUT}",
        f"socket.yaml:1:1: error: unreadable: {PLAIN}",
        f"{zero}:1:1: error: unreadable: {PLAIN}",
    ]
    missing = ["gone.yaml", "x" * 300 + ".yaml", "/".join(["x" * 250] * 30), "a.yaml/b.yaml"]
    told = [f"mashwright: {name}: there is no such file or folder" for name in missing]
    assert ended.err.splitlines() == [*told, "8 recipes reviewed: 5 errors"]
    assert ended.status == 2


def test_each_kind_in_a_walk(made: Path, process: Call) -> None:
    ended = process("review", ".")
    assert [line.partition(": error")[0] for line in ended.out.splitlines()] == [
        "big.yaml:1:1", "bytes.yaml:1:9", "pipe.yaml:1:1", "socket.yaml:1:1",
    ]  # fmt: skip
    links = "device.yaml, loop.yaml, round.yaml; name what they lead to, or put that in their place"
    assert ended.err == f"mashwright: links are not reviewed: {links}\n7 recipes reviewed: 4 errors\n"
    assert ended.status == 1


def test_what_may_not_be_read(folder: Path, mashwright: Call, sound: str, monkeypatch: pytest.MonkeyPatch) -> None:
    """Refused by hand, since whoever runs the tests may be allowed to read everything."""
    for name in ("a.yaml", "b.yaml", "c.yaml"):
        (folder / name).write_text(sound.replace("Bitter", name))
    (folder / "house").mkdir()
    (folder / "house" / "brewhouse.yaml").write_text("efficiency: 72 %\n")
    (folder / "house" / "d.yaml").write_text(sound)
    look, scan = os.open, os.scandir
    shut = {"b.yaml", "brewhouse.yaml"}

    def refuse(path: str, flags: int, mode: int = 0o777) -> int:
        if os.path.basename(path) in shut:
            raise PermissionError(13, "Permission denied", path)
        return look(path, flags, mode)

    def refuse_folder(path: str) -> Any:
        if os.path.basename(path) == "shut":
            raise PermissionError(13, "Permission denied", path)
        return scan(path)

    (folder / "shut").mkdir()
    monkeypatch.setattr(files.os, "open", refuse)
    monkeypatch.setattr(files.os, "scandir", refuse_folder)
    ended = mashwright("review", "a.yaml", "b.yaml", "c.yaml", "house", "shut")
    why = "this file may not be read; give yourself permission to read it"
    assert ended.out.splitlines() == [
        f"b.yaml:1:1: error: unreadable: {why}",
        f"house/brewhouse.yaml:1:1: error: unreadable: {why}",
        f"shut:1:1: error: unreadable: {FOLDER}",
    ]
    assert ended.status == 2  # for the brewhouse


def test_a_baseline_that_leads_elsewhere(mashwright: Call, folder: Path, sound: str) -> None:
    (folder.parent / "elsewhere.txt").write_text("a.yaml\twholly-secret\t/grist\terror\t1\n")
    (folder / "known.txt").symlink_to("../elsewhere.txt")
    (folder / "a.yaml").write_text(sound)
    ended = mashwright("review", "--baseline", "known.txt", "a.yaml")
    assert ended == (2, "", f"mashwright: known.txt: {OUT}\n")
    (folder / "known.txt").unlink()
    (folder / "kept.txt").write_text("")
    (folder / "known.txt").symlink_to("kept.txt")
    assert mashwright("review", "--baseline", "known.txt", "a.yaml").status == 0


def test_figures_of_a_link_that_leads_elsewhere(mashwright: Call, folder: Path, sound: str) -> None:
    (folder.parent / "elsewhere.yaml").write_text(sound)
    (folder / "a.yaml").symlink_to("../elsewhere.yaml")
    ended = mashwright("figures", "a.yaml")
    assert ended.status == 1
    assert "Bitter" not in ended.out + ended.err
    assert OUT in " ".join(ended.out.split())
