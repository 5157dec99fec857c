"""Bytes to text, and which files are looked at: everything that hinders is one finding."""

import os
import re
import subprocess
from pathlib import Path
from time import process_time

import pytest
from hypothesis import given
from hypothesis import strategies as st

from mashwright.reading.recognising import looks_like_recipe
from mashwright.reviewing import files, ordinary
from mashwright.reviewing.files import Loaded, candidates, decode, glob_matches, load, walk
from mashwright.reviewing.repository import Git

TEXT = "recipe: Bräu\nbatch: 20 l\n"


def told(loaded: Loaded) -> str:
    assert loaded.problem is not None
    return loaded.problem.message


@pytest.mark.parametrize("data", [TEXT.encode(), b"\xef\xbb\xbf" + TEXT.encode()])
def test_utf8_with_or_without_a_mark(data: bytes) -> None:
    assert decode(data) == Loaded(TEXT, None)


@pytest.mark.parametrize(
    ("codec", "message"),
    [
        ("utf-16", "this file is UTF-16 text; save it as UTF-8"),
        ("utf-32", "this file is UTF-32 text; save it as UTF-8"),
        ("utf-16-le", "this file is UTF-16 text without a mark; save it as UTF-8"),
        ("utf-16-be", "this file is UTF-16 text without a mark; save it as UTF-8"),
    ],
)
def test_other_codes_are_named_as_what_they_are(codec: str, message: str) -> None:
    loaded = decode(TEXT.encode(codec))
    assert told(loaded) == message
    assert looks_like_recipe(loaded.text.removeprefix("\ufeff"))
    assert told(decode("recipe: 麦酒 β\n".encode(codec))) == message


@pytest.mark.parametrize(
    ("data", "start", "message"),
    [
        (
            TEXT.encode("cp1252"),
            10,
            "the byte 0xE4 is not UTF-8, perhaps ä of an older encoding; save the file as UTF-8",
        ),
        (
            "ä€ °".encode() + b"\xb0",
            4,
            "the byte 0xB0 is not UTF-8, perhaps ° of an older encoding; save the file as UTF-8",
        ),
        (b"\xef\xbb\xbfa\x81", 1, "the byte 0x81 is not UTF-8; save the file as UTF-8"),
        (b"a\xe2\x82", 1, "the byte 0xE2 is not UTF-8, perhaps â of an older encoding; save the file as UTF-8"),
    ],
)
def test_the_first_byte_that_is_not_utf8(data: bytes, start: int, message: str) -> None:
    loaded = decode(data)
    assert loaded.problem is not None
    assert (loaded.problem.span.start, loaded.problem.message) == (start, message)


def test_a_file_past_one_mebibyte(tmp_path: Path) -> None:
    path = tmp_path / "big.yaml"
    path.write_bytes(b"#" * (1 << 20))
    assert load(str(path)).problem is None
    path.write_bytes(b"#" * ((1 << 20) + 1))
    assert told(load(str(path))) == (
        "this file is larger than 1 MiB, which no recipe is; split it, or name the right file"
    )


def test_a_file_that_cannot_be_had(tmp_path: Path) -> None:
    assert told(load(str(tmp_path / "gone.yaml"))) == (
        "this file was there a moment ago and is gone; was it moved while it was read?"
    )
    (tmp_path / "link.yaml").symlink_to("nowhere.yaml")
    assert told(load(str(tmp_path / "link.yaml"))) == (
        "this link points to 'nowhere.yaml', which is not there; mend or delete the link"
    )
    (tmp_path / "loop.yaml").symlink_to("loop.yaml")
    assert told(load(str(tmp_path / "loop.yaml"))) == "this link leads back to itself; use the file itself"
    os.mkfifo(tmp_path / "pipe.yaml")
    assert told(load(str(tmp_path / "pipe.yaml"))) == "this is no ordinary file; name a text file"
    (tmp_path / "folder.yaml").mkdir()
    assert (
        told(load(str(tmp_path / "folder.yaml")))
        == "this folder may not be opened; allow it to be read, or leave it out"
    )


@pytest.mark.parametrize(
    ("error", "message"),
    [
        (PermissionError(13, "Permission denied"), "this file may not be read; give yourself permission to read it"),
        (FileNotFoundError(2, "gone"), "this file was there a moment ago and is gone; was it moved while it was read?"),
        (
            OSError(5, "Input/output error"),
            "this file cannot be read (Input/output error); look at the disk or the folder it lies in",
        ),
    ],
)
def test_a_file_that_fails_while_it_is_read(
    error: OSError, message: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def fail(*_: object, **__: object) -> None:
        raise error

    path = tmp_path / "a.yaml"
    path.write_text(TEXT)
    monkeypatch.setattr(ordinary, "open", fail, raising=False)
    assert told(load(str(path))) == message


@pytest.mark.parametrize(
    ("path", "glob", "matches"),
    [
        ("house/a.yaml", "house/*.yaml", True),
        ("house/old/a.yaml", "house/*.yaml", False),
        ("house/old/a.yaml", "house/**/*.yaml", True),
        ("house/a.yaml", "house/**/*.yaml", True),
        ("house/old/a.yaml", "house/**", True),
        ("house", "house/**", True),
        ("other/house/a.yaml", "house/**", False),
        ("a.yaml", "**", True),
        ("x/y/a.yaml", "**/a.yaml", True),
        ("a.yml", "*.yaml", False),
        ("a[1].yaml", "a[[]1].yaml", True),
    ],
)
def test_globs(path: str, glob: str, matches: bool) -> None:
    assert glob_matches(path, glob) is matches


@given(st.lists(st.sampled_from("ab"), min_size=1, max_size=6), st.lists(st.sampled_from(["a", "b", "*", "**"])))
def test_a_glob_is_what_a_regular_expression_of_it_is(names: list[str], patterns: list[str]) -> None:
    as_expression = "".join({"*": "[ab]/", "**": "(?:[ab]/)*"}.get(pattern, f"{pattern}/") for pattern in patterns)
    expected = re.fullmatch(as_expression, "".join(f"{name}/" for name in names)) is not None
    assert glob_matches("/".join(names), "/".join(patterns)) is expected


@pytest.mark.parametrize(("part", "folder"), [("**/", "a/"), ("**/a/", "a/"), ("*a", "a"), ("a*", "a")])
def test_many_stars_take_no_time(part: str, folder: str) -> None:
    began = process_time()
    assert not glob_matches(f"{folder * 40}a/a.yaml", f"{part * 60}b")
    assert process_time() - began < 0.1


def test_a_walk_is_in_order_and_passes_over_what_is_hidden_linked_or_ignored(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    for name in (
        "b.yaml",
        "a.yml",
        "c.txt",
        ".h.yaml",
        "d/z.yaml",
        "d/a.yaml",
        ".git-not/x.yaml",
        "build/y.yaml",
        "e.yaml",
    ):
        path = tmp_path / name
        path.parent.mkdir(exist_ok=True)
        path.write_text("recipe: x\n")
    (tmp_path / "link.yaml").symlink_to("b.yaml")
    (tmp_path / "linked").symlink_to("d")
    (tmp_path / ".gitignore").write_text("build/\ne.yaml\n")
    monkeypatch.chdir(tmp_path)
    assert list(walk(".", Git(), [])) == ["a.yml", "b.yaml", "e.yaml", "build/y.yaml", "d/a.yaml", "d/z.yaml"]
    subprocess.run(["git", "init", "-q", "."], check=True)
    assert list(walk(".", Git(), [])) == ["a.yml", "b.yaml", "d/a.yaml", "d/z.yaml"]
    assert list(walk("d", Git(), [])) == ["d/a.yaml", "d/z.yaml"]
    found = candidates(("d/z.yaml", "build/y.yaml", ".", "./d/z.yaml"), Git(), [])
    assert [tuple(one) for one in found] == [
        ("d/z.yaml", True),
        ("build/y.yaml", True),
        ("a.yml", False),
        ("b.yaml", False),
        ("d/a.yaml", False),
    ]


def test_a_folder_that_cannot_be_opened_is_told(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def fail(folder: str) -> None:
        raise PermissionError(13, "Permission denied", folder)

    monkeypatch.setattr(files.os, "scandir", fail)
    assert list(walk(str(tmp_path), Git(), [])) == [str(tmp_path)]
