"""``mashwright review``: what is printed where, and how it ends."""

# ruff: noqa: E501 -- a finding is asserted whole, on its line

import json
import os
from collections.abc import Callable
from pathlib import Path

import pytest

Call = Callable[..., tuple[int, str, str]]

TOLD = 'error: quantity: the weight "4" has no unit; write 4 kg or 4 lb\n'
CLEAN = "1 recipe reviewed: no errors, no warnings\n"
ONE = "1 recipe reviewed: 1 error; 15 rules could not judge 1 recipe (--notes shows why)\n"


@pytest.fixture
def faulty(sound: str) -> str:
    return sound.replace("4 kg", "4")


def test_nothing_found_is_0(mashwright: Call, folder: Path, sound: str) -> None:
    (folder / "a.yaml").write_text(sound)
    assert mashwright("review", "a.yaml") == (0, "", CLEAN)
    assert mashwright("review") == (0, "", CLEAN)
    assert mashwright("review", ".", "--quiet") == (0, "", "")


def test_something_found_is_1(mashwright: Call, folder: Path, faulty: str) -> None:
    (folder / "a.yaml").write_text(faulty)
    assert mashwright("review", "a.yaml") == (1, f"a.yaml:4:36: {TOLD}", ONE)


def test_unreadable_content_is_1(mashwright: Call, folder: Path) -> None:
    (folder / "a.yaml").write_text("recipe: [\n")
    told = "a.yaml:1:9: error: unreadable: the [ that starts here is not closed, or lacks a comma; add ] at its end\n"
    assert mashwright("review", "a.yaml") == (1, told, "1 recipe reviewed: 1 error\n")


def test_a_path_that_is_not_there_is_2_and_the_others_are_reviewed(mashwright: Call, folder: Path, faulty: str) -> None:
    (folder / "a.yaml").write_text(faulty)
    missing = "mashwright: b.yaml: there is no such file or folder\n"
    assert mashwright("review", "b.yaml") == (2, "", missing)
    assert mashwright("review", "a.yaml", "b.yaml") == (2, f"a.yaml:4:36: {TOLD}", missing + ONE)


LOOKS = "a recipe is a .yaml file with a line that starts recipe: or grist:"
WAY = "if none need be there, add --allow-empty"


def test_a_folder_without_a_recipe_is_2_unless_it_may_be_so(mashwright: Call, folder: Path) -> None:
    assert mashwright("review") == (2, "", f"mashwright: no recipe in club; {LOOKS}; {WAY}\n")
    assert mashwright("review", "--allow-empty") == (0, "", f"mashwright: no recipe in club; {LOOKS}\n")
    (folder / "in").mkdir()
    (folder / "in" / "x.yaml").write_text("name: x\n")
    others = "mashwright: no recipe in in (other YAML files: 1)"
    assert mashwright("review", "in") == (2, "", f"{others}; {LOOKS}; {WAY}\n")
    assert mashwright("review", "in", "--quiet") == (2, "", f"{others}; {LOOKS}; {WAY}\n")
    assert mashwright("review", "in", "--allow-empty") == (0, "", f"{others}; {LOOKS}\n")
    assert mashwright("review", "in", "--allow-empty", "--quiet") == (0, "", "")


def test_each_folder_that_is_named_needs_a_recipe(mashwright: Call, folder: Path, sound: str) -> None:
    for name in ("house", "wrong", "house/old"):
        (folder / name).mkdir()
    (folder / "house/old/a.yaml").write_text(sound)
    told = f"mashwright: no recipe in wrong; {LOOKS}; {WAY}\n1 recipe reviewed: no errors, no warnings\n"
    assert mashwright("review", "house", "wrong", "house/old") == (2, "", told)
    assert mashwright("review", "house/old", "house")[0] == 0
    assert mashwright("review", "house", "house/old", ".")[0] == 0


def test_a_folder_with_nothing_but_a_brewhouse_has_no_recipe(mashwright: Call, folder: Path) -> None:
    (folder / "brewhouse.yaml").write_text("brewhouse: Shed\nkettle: {volume: 30 l}\n")
    status, out, err = mashwright("review")
    assert (status, out, err.splitlines()[0]) == (2, "", f"mashwright: no recipe in club; {LOOKS}; {WAY}")


def test_a_hook_names_files_and_may_have_none_that_is_a_recipe(mashwright: Call, folder: Path) -> None:
    (folder / "x.yaml").write_text("name: x\n")
    for named in ("x.yaml", "."):
        told = "no recipe found; 1 file without a recipe skipped (x.yaml)\n"
        assert mashwright("review", "--skip-others", named) == (0, "", told)


def test_a_report_tells_of_a_folder_without_a_recipe(mashwright: Call, folder: Path) -> None:
    fault = {"rule": "", "path": ".", "message": "no recipe is in this folder"}
    assert json.loads(mashwright("review", "--format", "json").out)["faults"] == [fault]
    assert json.loads(mashwright("review", "--format", "json", "--allow-empty").out)["faults"] == []


def test_a_faulty_brewhouse_is_2(mashwright: Call, folder: Path, faulty: str) -> None:
    (folder / "brewhouse.yaml").write_text("brewhouse: Shed\nkettel: {volume: 30 l}\n")
    (folder / "a.yaml").write_text(faulty)
    told = "brewhouse.yaml:2:1: error: field: `kettel` is not known here; did you mean `kettle`?\n"
    status, out, err = mashwright("review", "a.yaml")
    assert (status, out, err) == (2, f"{told}a.yaml:4:36: {TOLD}", ONE.replace("1 error", "2 errors"))
    status, out, _ = mashwright("review", "brewhouse.yaml")
    assert (status, out) == (2, told)


def test_a_sound_brewhouse_on_the_command_line_is_0(mashwright: Call, folder: Path) -> None:
    (folder / "brewhouse.yaml").write_text("brewhouse: Shed\nkettle: {volume: 30 l}\n")
    status, out, _ = mashwright("review", "brewhouse.yaml")
    assert (status, out) == (0, "")


@pytest.mark.parametrize(
    ("arguments", "told"),
    [
        (("reviw",), "no such command 'reviw'"),
        (("review", "--formt", "json"), "--formt"),
        (("review", "--format", "xml"), "invalid value for '--format': 'xml' is not one of 'text', 'json', 'sarif'"),
        (("review", "--stop-at", "never"), "invalid value for '--stop-at': 'never' is not one of"),
        (("review", "--today", "31.12.2027"), "--today 31.12.2027 is no date; write it as 2027-12-31"),
        (("review", "--today", "2027-02-30"), "--today 2027-02-30 is no date; write it as 2027-12-31"),
        (("review", "-", "a.yaml"), "- reads one recipe from standard input; name no other paths beside it"),
        (("review", "--name", "a.yaml"), "--name goes with - (a recipe from standard input)"),
    ],
)
def test_a_misspelt_command_line_is_2(arguments: tuple[str, ...], told: str, mashwright: Call) -> None:
    status, out, err = mashwright(*arguments)
    assert (status, out) == (2, "")
    assert told in err


def test_a_recipe_from_standard_input(mashwright: Call, folder: Path, faulty: str) -> None:
    assert mashwright("review", "-", stdin=faulty.encode()) == (1, f"standard-input.yaml:4:36: {TOLD}", ONE)
    (folder / "in").mkdir()
    (folder / "in" / "brewhouse.yaml").write_text("brewhous: Shed\n")
    told = "in/brewhouse.yaml:1:1: error: field: `brewhous` is not known here; did you mean `brewhouse`?\n"
    status, out, _ = mashwright("review", "-", "--name", "in/new.yaml", stdin=faulty.encode())
    assert (status, out) == (2, f"{told}in/new.yaml:4:36: {TOLD}")
    status, out, _ = mashwright("review", "-", stdin=b"\xff")
    assert (status, out) == (
        1,
        "standard-input.yaml:1:1: error: unreadable: the byte 0xFF is not UTF-8, perhaps ÿ of an older encoding; save the file as UTF-8\n",
    )


def test_paths_are_shown_relative_with_blanks_and_umlauts(mashwright: Call, folder: Path, faulty: str) -> None:
    path = folder / "Haus bräu" / "Weißbier № 1.yaml"
    path.parent.mkdir()
    path.write_text(faulty)
    told = f"Haus bräu/Weißbier № 1.yaml:4:36: {TOLD}"
    assert mashwright("review")[1] == told
    assert mashwright("review", str(path))[1] == told
    assert mashwright("review", "./Haus bräu/../Haus bräu")[1] == told


def test_others_are_skipped_for_a_hook_and_counted(mashwright: Call, folder: Path, sound: str) -> None:
    (folder / "a.yaml").write_text(sound)
    (folder / "x.yaml").write_text("name: x\n")
    assert mashwright("review", "--skip-others", "a.yaml", "x.yaml") == (
        0,
        "",
        CLEAN.replace("\n", "; 1 file without a recipe skipped (x.yaml)\n"),
    )
    status, out, err = mashwright("review", "--skip-others", "x.yaml")
    assert (status, out, err) == (0, "", "no recipe found; 1 file without a recipe skipped (x.yaml)\n")


def test_the_report_goes_to_a_file_that_is_whole_or_not_there(
    mashwright: Call, folder: Path, faulty: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    (folder / "a.yaml").write_text(faulty)
    assert mashwright("review", "--output", "report.txt", "a.yaml") == (1, "", ONE)
    assert (folder / "report.txt").read_text() == f"a.yaml:4:36: {TOLD}"
    told = "mashwright: no/report.txt cannot be written: No such file or directory\n"
    assert mashwright("review", "--output", "no/report.txt", "a.yaml") == (2, "", told)

    def fail(*_: object) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "replace", fail)
    status, _, err = mashwright("review", "--format", "json", "--output", "report.txt", "a.yaml")
    assert (status, err) == (2, "mashwright: report.txt cannot be written: No space left on device\n")
    assert sorted(os.listdir(folder)) == [".git", "a.yaml", "report.txt"]
    assert (folder / "report.txt").read_text() == f"a.yaml:4:36: {TOLD}"


def test_a_report_never_takes_the_place_of_a_recipe(mashwright: Call, folder: Path, faulty: str) -> None:
    (folder / "a.yaml").write_text(faulty)
    told = "mashwright: a.yaml is under review, and a report would take its place; give the report another name\n"
    assert mashwright("review", "--output", "a.yaml") == (2, "", told)
    told = "mashwright: b.yaml could be a recipe, and a report would take its place; give it another ending\n"
    assert mashwright("review", "--output", "b.yaml") == (2, "", told)
    assert sorted(os.listdir(folder)) == [".git", "a.yaml"]
    assert (folder / "a.yaml").read_text() == faulty


def test_machine_forms_are_one_document_on_standard_output(mashwright: Call, folder: Path, faulty: str) -> None:
    (folder / "a.yaml").write_text(faulty)
    status, out, err = mashwright("review", "--format", "json", "a.yaml")
    document = json.loads(out)
    assert (status, err, document["recipes"][0]["findings"][0]["pointer"]) == (1, ONE, "/grist/0/weight")
    status, out, _ = mashwright("review", "--format", "sarif", "a.yaml")
    assert (status, json.loads(out)["version"]) == (1, "2.1.0")


def test_from_which_level_it_fails(mashwright: Call, folder: Path, sound: str) -> None:
    (folder / "a.yaml").write_text(sound + "accepted: [{rule: run-off, reason: x}]\n")
    told = "a.yaml:5:19: warning: accepted: run-off finds nothing here now; delete this entry\n"
    counts = "1 recipe reviewed: 1 warning\n"
    assert mashwright("review", "a.yaml") == (0, told, counts)
    assert mashwright("review", "--stop-at", "warning", "a.yaml") == (1, told, counts)


def test_today_is_an_input(mashwright: Call, folder: Path, sound: str) -> None:
    (folder / "a.yaml").write_text(sound + "accepted: [{rule: run-off, reason: x, until: 2027-12-31}]\n")
    assert "now; delete this entry" in mashwright("review", "--today", "2027-12-31")[1]
    assert mashwright("review", "--today", "2028-01-01")[1] == (
        "a.yaml:5:46: warning: accepted: this entry for run-off ended on 2027-12-31;"
        " look again, then set a new date or delete the entry\n"
    )


def test_of_many_files_that_are_no_recipes_a_few_are_named(mashwright: Call, folder: Path, sound: str) -> None:
    (folder / "a.yaml").write_text(sound)
    for number in range(5):
        (folder / f"x{number}.yaml").write_text("name: x\n")
    told = "; 5 files without a recipe skipped (x0.yaml, x1.yaml, x2.yaml, …)\n"
    assert mashwright("review") == (0, "", CLEAN.replace("\n", told))


def test_documents_tell_of_what_is_not_there(mashwright: Call, folder: Path, sound: str) -> None:
    (folder / "a.yaml").write_text(sound)
    ended = mashwright("review", "--format", "json", "a.yaml", "b.yaml")
    assert ended.status == 2
    assert json.loads(ended.out)["faults"] == [
        {"rule": "", "path": "b.yaml", "message": "there is no such file or folder"}
    ]
