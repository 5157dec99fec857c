"""Where results are written: whole or not at all, through no link, and over nothing that is read."""

import os
import stat
import subprocess
import sys
import threading
from collections.abc import Callable
from pathlib import Path

import pytest

from mashwright.cli import output

Call = Callable[..., tuple[int, str, str]]

FAULTY = "recipe: Lane Bitter\nbatch: 20 l\ngrist:\n  - {grain: pale ale malt, weight: 4}\n"
LINE = 'a.yaml:4:36: error: quantity: the weight "4" has no unit; write 4 kg or 4 lb\n'
LINK = "is a link, and nothing is written through one; name the file itself"


@pytest.fixture(autouse=True)
def faulty(folder: Path) -> Path:
    path = folder / "a.yaml"
    path.write_text(FAULTY)
    return path


def names(folder: Path) -> list[str]:
    return sorted(set(os.listdir(folder)) - {".git", "a.yaml"})


# --- links ---


@pytest.mark.parametrize("target", ["kept", "nowhere", "../elsewhere", "/dev/null", "/dev/zero", "a.yaml"])
@pytest.mark.parametrize(
    "arguments",
    [
        ("review", "--output", "r", "a.yaml"),
        ("figures", "--output", "r", "a.yaml"),
        ("review", "--baseline", "r", "--write-baseline", "a.yaml"),
    ],
    ids=["review", "figures", "baseline"],
)
def test_nothing_is_written_through_a_link(
    arguments: tuple[str, ...], target: str, mashwright: Call, folder: Path
) -> None:
    (folder / "kept").write_text("")
    (folder.parent / "elsewhere").write_text("")
    (folder / "r").symlink_to(target)
    status, _, err = mashwright(*arguments)
    assert status == 2
    assert err.splitlines()[-1].startswith("mashwright: r")
    if "--baseline" not in arguments and target != "a.yaml":
        assert err == f"mashwright: r {LINK}\n"
    assert os.readlink(folder / "r") == target
    assert (folder / "kept").read_text() == (folder.parent / "elsewhere").read_text() == ""
    assert (folder / "a.yaml").read_text() == FAULTY
    assert names(folder) == ["kept", "r"]


def test_a_baseline_that_is_a_link_is_read_and_not_written(mashwright: Call, folder: Path) -> None:
    (folder / "kept").write_text("")
    (folder / "known").symlink_to("kept")
    assert mashwright("review", "--baseline", "known", "--quiet")[::2] == (1, "")
    assert mashwright("review", "--baseline", "known", "--write-baseline")[::2] == (2, f"mashwright: known {LINK}\n")
    assert (folder / "kept").read_text() == ""


def test_a_folder_on_the_way_leads_nowhere_else(mashwright: Call, folder: Path) -> None:
    (folder.parent / "elsewhere").mkdir()
    (folder / "reports").symlink_to("../elsewhere")
    told = "the folder reports is a link that leads out of its repository, so it is not followed; use the folder itself"
    assert mashwright("review", "--output", "reports/r", "a.yaml") == (2, "", f"mashwright: reports/r: {told}\n")
    assert os.listdir(folder.parent / "elsewhere") == []
    (folder / "in").mkdir()
    (folder / "door").symlink_to("in")
    assert mashwright("review", "--output", "door/r", "a.yaml")[0] == 1
    assert (folder / "in" / "r").read_text() == LINE


# --- the way of a file ---


def test_it_is_made_new_under_a_name_that_nobody_knows(
    mashwright: Call, folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    made: list[tuple[str, int]] = []
    real, synced, sync = os.open, [], os.fsync

    def watched(path: str, flags: int, mode: int = 0o777) -> int:
        if str(path).endswith(".part"):
            made.append((path, flags))
        return real(path, flags, mode)

    monkeypatch.setattr(output.os, "open", watched)
    monkeypatch.setattr(output.os, "fsync", lambda number: (synced.append(number), sync(number)))
    for _ in range(2):
        assert mashwright("review", "--output", "r", "a.yaml")[0] == 1
    paths, flags = zip(*made, strict=True)
    assert len(set(paths)) == len(paths) == len(synced) == 2
    assert all(len(os.path.basename(path)) > 32 for path in paths)
    assert all(one & os.O_EXCL and one & os.O_NOFOLLOW for one in flags)
    assert ((folder / "r").read_text(), names(folder)) == (LINE, ["r"])


@pytest.mark.parametrize("mode", [0o600, 0o664, 0o444, 0o755])
@pytest.mark.parametrize("arguments", [("--output", "r"), ("--baseline", "r", "--write-baseline")])
def test_a_file_that_is_there_keeps_its_mode(
    arguments: tuple[str, ...], mode: int, mashwright: Call, folder: Path
) -> None:
    (folder / "r").write_text("")
    (folder / "r").chmod(mode)
    mashwright("review", *arguments, "a.yaml")
    assert "quantity" in (folder / "r").read_text()
    assert stat.S_IMODE((folder / "r").stat().st_mode) == mode


@pytest.mark.parametrize(("mask", "mode"), [(0o022, 0o644), (0o077, 0o600), (0o002, 0o664)])
def test_a_new_file_gets_the_mode_of_any_new_file(mask: int, mode: int, mashwright: Call, folder: Path) -> None:
    before = os.umask(mask)
    try:
        mashwright("review", "--output", "r", "a.yaml")
    finally:
        os.umask(before)
    assert stat.S_IMODE((folder / "r").stat().st_mode) == mode


def test_another_name_of_the_file_keeps_the_old(mashwright: Call, folder: Path) -> None:
    (folder / "r").write_text("old")
    os.link(folder / "r", folder / "other")
    mashwright("review", "--output", "r", "a.yaml")
    assert ((folder / "r").read_text(), (folder / "other").read_text()) == (LINE, "old")


def test_the_longest_name(mashwright: Call, folder: Path) -> None:
    assert mashwright("review", "--output", "r" * 255, "a.yaml")[0] == 1
    assert names(folder) == ["r" * 255]


@pytest.mark.parametrize("place", ["", "in/", "in", "in/.", ".."])
def test_a_place_that_is_a_folder_is_told_before_any_work(place: str, mashwright: Call, folder: Path) -> None:
    (folder / "in").mkdir()
    told = f"mashwright: {place} cannot be written: Is a directory\n"
    assert mashwright("review", "--output", place, "a.yaml") == (2, "", told)


# --- devices and pipes ---


def test_a_pipe_takes_a_report(mashwright: Call, folder: Path) -> None:
    os.mkfifo(folder / "pipe")
    got: list[str] = []
    reader = threading.Thread(target=lambda: got.append((folder / "pipe").read_text()))
    reader.start()
    assert mashwright("review", "--output", "pipe", "a.yaml")[0] == 1
    reader.join(30)
    assert got == [LINE]
    assert stat.S_ISFIFO((folder / "pipe").stat().st_mode)


@pytest.mark.parametrize(
    ("line", "out", "err"),
    [
        ("--output /dev/stdout", LINE, ""),
        ("--output /dev/stdout | cat", LINE, ""),
        ("--output /dev/fd/1 | cat", LINE, ""),
        ("--output /dev/stderr 2>&1 >/dev/null | cat", LINE, ""),
        ("--output /dev/null", "", ""),
        ("--output >(cat) | cat", LINE, ""),
        ("--output /dev/fd/3 3>&1 | cat", LINE, ""),
        ("--output /dev/stdout > r; cat r", LINE, ""),
        ("--output /proc/self/fd/9", "", "mashwright: /proc/self/fd/9 cannot be written: Bad file descriptor\n"),
        (
            "--format text --format json --output /dev/stdout",
            "",
            "mashwright: two reports cannot go to one file; give each --format an --output of its own\n",
        ),
    ],
)
def test_a_stream_takes_a_report(line: str, out: str, err: str, folder: Path) -> None:
    command = f'"{sys.executable}" -m mashwright review --quiet a.yaml {line}'
    done = subprocess.run(["bash", "-c", command], capture_output=True, text=True, timeout=60, check=False)
    assert (done.stdout, done.stderr) == (out, err)


def test_a_closed_pipe_of_standard_output_is_no_fault_of_the_file_beside_it(folder: Path) -> None:
    for index in range(300):
        (folder / f"r{index}.yaml").write_text(FAULTY)
    forms = "--format text --format json --output report"
    command = f'"{sys.executable}" -m mashwright review {forms} | head -1 >/dev/null; echo "${{PIPESTATUS[0]}}"'
    done = subprocess.run(["bash", "-c", command], capture_output=True, text=True, timeout=60, check=True)
    assert (done.stdout, done.stderr) == ("141\n", "")
    assert [name for name in names(folder) if not name.endswith(".yaml")] == []


# --- what is read ---

UNDER_REVIEW = "{0} is under review, and a {1} would take its place; give the {1} another name"


@pytest.mark.parametrize(
    ("place", "told"),
    [
        ("plain.txt", UNDER_REVIEW),
        ("./x/../plain.txt", UNDER_REVIEW),
        ("PLAIN.txt", UNDER_REVIEW),
        ("door/plain.txt", UNDER_REVIEW),
        ("twin", UNDER_REVIEW),
        ("house-twin", "{0} is a brewhouse, and a {1} would take its place; give the {1} another name"),
        ("known", "{0} is the baseline, and a {1} would take its place; give the {1} another name"),
        ("KNOWN", "{0} is the baseline, and a {1} would take its place; give the {1} another name"),
        ("b.YAML", "{0} could be a recipe, and a {1} would take its place; give it another ending"),
    ],
)
@pytest.mark.parametrize("form", ["text", "json"])
def test_nothing_that_is_read_is_written_over(form: str, place: str, told: str, mashwright: Call, folder: Path) -> None:
    (folder / "plain.txt").write_text(FAULTY)
    (folder / "brewhouse.yaml").write_text("brewhouse: Shed\n")
    (folder / "known").write_text("")
    os.link(folder / "a.yaml", folder / "twin")
    os.link(folder / "brewhouse.yaml", folder / "house-twin")
    (folder / "door").symlink_to(".")
    call = ("review", "--format", form, "--output", place, "--baseline", "known", "plain.txt", "a.yaml")
    assert mashwright(*call) == (2, "", f"mashwright: {told.format(place, 'report')}\n")
    assert [(folder / name).read_text() for name in ("plain.txt", "a.yaml", "known")] == [FAULTY, FAULTY, ""]
    if told == UNDER_REVIEW and place != "twin":
        sheet = f"mashwright: {place} is the recipe, and a sheet would take its place; give the sheet another name\n"
        assert mashwright("figures", "--output", place, "plain.txt") == (2, "", sheet)


@pytest.mark.parametrize("place", ["plain.txt", "Plain.TXT"])
@pytest.mark.parametrize("more", ["--write-baseline", "--prune"])
def test_a_baseline_takes_no_recipes_place(place: str, more: str, mashwright: Call, folder: Path) -> None:
    (folder / "plain.txt").write_text("# a recipe to be\n")
    (folder / place).write_text("# a recipe to be\n")
    call = ("review", "--baseline", place, more, "plain.txt")
    assert mashwright(*call) == (2, "", f"mashwright: {UNDER_REVIEW.format(place, 'baseline')}\n")
    assert (folder / "plain.txt").read_text() == "# a recipe to be\n"


def test_what_comes_from_standard_input_has_its_file_too(mashwright: Call, folder: Path) -> None:
    (folder / "plain.txt").write_text(FAULTY)
    call = ("review", "-", "--name", "plain.txt", "--output", "plain.txt")
    assert mashwright(*call, stdin=b"") == (2, "", f"mashwright: {UNDER_REVIEW.format('plain.txt', 'report')}\n")


def test_a_trusted_copy_is_not_written_over(mashwright: Call, folder: Path) -> None:
    theirs = folder.parent / "trusted"
    theirs.mkdir()
    (folder / "plain.txt").write_text(FAULTY)
    for name in ("plain.txt", "brewhouse.yaml", "known"):
        (theirs / name).write_text("")
    os.link(theirs / "brewhouse.yaml", theirs / "house")
    for place, are in (("plain.txt", "in the trusted copy"), ("house", "a brewhouse"), ("known", "the baseline")):
        call = ("review", "plain.txt", "--trusted", "../trusted", "--baseline", "known")
        told = f"../trusted/{place} is {are}, and a report would take its place; give the report another name"
        assert mashwright(*call, "--output", f"../trusted/{place}") == (2, "", f"mashwright: {told}\n")


@pytest.mark.parametrize("second", ["r", "./r", "R", "door/r", "twin"])
def test_two_reports_to_one_file_in_any_spelling(second: str, mashwright: Call, folder: Path) -> None:
    (folder / "r").write_text("")
    os.link(folder / "r", folder / "twin")
    (folder / "door").symlink_to(".")
    told = "mashwright: two reports cannot go to one file; give each --format an --output of its own\n"
    call = ("review", "--format", "json", "--output", "r", "--format", "text", "--output", second, "a.yaml")
    assert mashwright(*call) == (2, "", told)


# --- baselines that are none ---

PLAIN = "this is no ordinary file; a baseline is one"
OUT = "this link leads out of its repository, so it is not followed; use the file itself"


@pytest.mark.parametrize("more", [(), ("--write-baseline",), ("--trusted", "../trusted")])
@pytest.mark.parametrize(
    ("kind", "told"), [("pipe", PLAIN), ("folder", PLAIN), ("device", PLAIN), ("link", OUT), ("large", None)]
)
def test_a_baseline_that_is_no_small_ordinary_file(
    kind: str, told: str | None, more: tuple[str, ...], process: Call, folder: Path
) -> None:
    """As a process, so that one that would wait for a pipe is ended."""
    path = "/dev/zero" if kind == "device" else "known"
    (folder.parent / "trusted").mkdir()
    if kind == "pipe":
        os.mkfifo(folder / "known")
    elif kind == "folder":
        (folder / "known").mkdir()
    elif kind == "link":
        (folder / "known").symlink_to("/dev/zero")
    elif kind == "large":
        with (folder / "known").open("w") as file:
            file.truncate((16 << 20) + 1)
    told = told or "this baseline is larger than 16 MiB; keep a baseline for each folder instead"
    shown = "known" if "--trusted" not in more or path != "known" else str(folder / "known")
    status, out, err = process("review", "--baseline", path, *more, "a.yaml")
    assert (status, out) == (2, "")
    assert err == f"mashwright: {path if path != 'known' else shown}: {told}\n"


def test_a_baseline_that_could_not_be_read_again_is_not_written(
    mashwright: Call, folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    from mashwright.cli import known

    monkeypatch.setattr(known, "BASELINE_BYTES", 100)
    status, _, err = mashwright("review", "--baseline", "k", "--write-baseline", "a.yaml")
    assert status == 2
    assert err.startswith("mashwright: k: this baseline would be larger than ")
    assert names(folder) == []


@pytest.mark.parametrize("trusted", [False, True])
@pytest.mark.parametrize("kind", ["pipe", "link"])
def test_a_brewhouse_that_is_no_ordinary_file(kind: str, trusted: bool, process: Call, folder: Path) -> None:
    theirs = folder.parent / "trusted"
    theirs.mkdir()
    house = (theirs if trusted else folder) / "brewhouse.yaml"
    if kind == "pipe":
        os.mkfifo(house)
    else:
        house.symlink_to("/dev/zero")
    status, out, _ = process("review", "a.yaml", *(("--trusted", "../trusted") if trusted else ()))
    assert status == 2
    assert "brewhouse.yaml:1:1: error: unreadable: this " in out
