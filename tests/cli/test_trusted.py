"""``--trusted FOLDER``: what a pull request changes in settings is told and has no effect."""

import json
import os
import shutil
from collections.abc import Callable
from pathlib import Path
from typing import NamedTuple

import pytest

Call = Callable[..., tuple[int, str, str]]

FAULTY = "recipe: Toffee\nbatch: 20 l\ngrist:\n  - {grain: caramel malt 60, weight: 5 kg}\n"
SWITCH_OFF = "rules: {no-base-malt: off}\n"
HOUSE = "brewhouse: Shed\nrules: {usual-share: off, enzyme-sufficiency: {floor: 35 °Lintner}}\n"


class Both(NamedTuple):
    """A repository under review, and a trusted copy of it beside it."""

    ours: Path
    theirs: Path


@pytest.fixture
def both(folder: Path, tmp_path: Path) -> Both:
    theirs = tmp_path / "trusted"
    for top in (folder, theirs):
        (top / "house").mkdir(parents=True)
        (top / "brewhouse.yaml").write_text(HOUSE)
    (folder / "house/toffee.yaml").write_text(FAULTY)
    return Both(folder, theirs)


def told(err: str) -> list[str]:
    """What is said on standard error, without the program's name and the counts."""
    lines = [line.removeprefix("mashwright: ") for line in err.splitlines()]
    return [line for line in lines if " reviewed" not in line]


def places(out: str) -> list[str]:
    return [": ".join(line.split(": ")[:3]) for line in out.splitlines() if not line.startswith(" ")]


FOUND = ["house/toffee.yaml:4:6: error: no-base-malt"]


def test_what_is_alike_needs_no_word(mashwright: Call, both: Both) -> None:
    plain = mashwright("review", ".")
    assert (plain[0], places(plain[1]), told(plain[2])) == (1, FOUND, [])
    assert mashwright("review", ".", "--trusted", "../trusted") == plain
    (both.ours / "brewhouse.yaml").write_text(f"# a word\n{HOUSE}")
    assert mashwright("review", ".", "--trusted", "../trusted") == plain


def test_a_rule_that_is_switched_off_here_still_runs(mashwright: Call, both: Both) -> None:
    (both.ours / "brewhouse.yaml").write_text(SWITCH_OFF)
    assert places(mashwright("review", ".")[1]) == []
    status, out, err = mashwright("review", ".", "--trusted", "../trusted")
    assert (status, places(out)) == (1, FOUND)
    assert told(err) == [
        "brewhouse.yaml: brewhouse is gone here (Shed); it still counts",
        "brewhouse.yaml: rules/usual-share is gone here (off); it still counts",
        "brewhouse.yaml: rules/enzyme-sufficiency is gone here ({floor: 35 °Lintner}); it still counts",
        "brewhouse.yaml: rules/no-base-malt is new here (off); it does not count",
    ]


def test_a_name_of_the_trusted_brewhouse_counts_and_one_of_ours_does_not(mashwright: Call, both: Both) -> None:
    recipe = FAULTY.replace("caramel malt 60", "our toffee")
    (both.ours / "house/toffee.yaml").write_text(recipe)
    (both.ours / "brewhouse.yaml").write_text(HOUSE + "ingredients: {our toffee: {kind: two-row pale malt}}\n")
    assert places(mashwright("review", ".")[1]) == []
    trusted = HOUSE + "ingredients: {our toffee: {kind: caramel malt 60}}\n"
    (both.theirs / "brewhouse.yaml").write_text(trusted)
    status, out, err = mashwright("review", ".", "--trusted", "../trusted")
    assert (status, places(out)) == (1, FOUND)
    assert told(err) == [
        "brewhouse.yaml: ingredients/our toffee/kind is two-row pale malt here; the trusted caramel malt 60 counts"
    ]


def test_settings_acceptances_and_lots_that_differ_are_told(mashwright: Call, both: Both) -> None:
    (both.ours / "brewhouse.yaml").write_text(
        HOUSE.replace("35", "10")
        + "lots: {PM-1: {of: two-row pale malt, diastatic-power: 500 °Lintner}}\nstop-at: error\n"
        + "accepted:\n  - {rule: no-base-malt, reason: trust me}\n"
    )
    status, out, err = mashwright("review", "house/toffee.yaml", "--trusted", "../trusted")
    assert (status, places(out)) == (1, FOUND)
    assert told(err) == [
        "brewhouse.yaml: rules/enzyme-sufficiency/floor is 10 °Lintner here; the trusted 35 °Lintner counts",
        "brewhouse.yaml: lots/PM-1 is new here ({of: two-row pale malt, diastatic-pow...); it does not count",
        "brewhouse.yaml: stop-at is new here (error); it does not count",
        "brewhouse.yaml: accepted is new here ({rule: no-base-malt, reason: trust me}); it does not count",
    ]
    for top in both:
        (top / "brewhouse.yaml").write_text("accepted:\n  - {rule: run-off, reason: a}\n")
    with (both.ours / "brewhouse.yaml").open("a") as file:
        file.write("  - {rule: no-base-malt, reason: b}\n")
    status, out, err = mashwright("review", ".", "--trusted", "../trusted")
    assert places(out)[0] == FOUND[0]
    assert told(err) == ["brewhouse.yaml: accepted is new here ({rule: no-base-malt, reason: b}); it does not count"]


def test_a_nearer_brewhouse_that_is_new_does_not_count(mashwright: Call, both: Both) -> None:
    (both.ours / "house/brewhouse.yaml").write_text(SWITCH_OFF)
    status, out, err = mashwright("review", ".", "--trusted", "../trusted")
    assert (status, places(out)) == (1, FOUND)
    assert told(err) == ["house/brewhouse.yaml is not in the trusted folder; it does not count"]


def test_a_brewhouse_that_is_gone_still_counts(mashwright: Call, both: Both) -> None:
    (both.theirs / "brewhouse.yaml").write_text("stop-at: warning\n")
    (both.ours / "brewhouse.yaml").unlink()
    (both.ours / "house/toffee.yaml").write_text(FAULTY + "mash: {rests: [{at: 66 °C, for: 60 min}]}\n")
    _, _, err = mashwright("review", ".", "--trusted", "../trusted")
    assert told(err) == ["brewhouse.yaml is gone here; the trusted one still counts"]


def test_a_brewhouse_that_is_a_link_out_of_the_repository_quotes_nothing(
    mashwright: Call, both: Both, tmp_path: Path
) -> None:
    (tmp_path / "secret.yaml").write_text("token: 12345\n")
    (both.ours / "brewhouse.yaml").unlink()
    (both.ours / "brewhouse.yaml").symlink_to(tmp_path / "secret.yaml")
    status, out, err = mashwright("review", "house/toffee.yaml", "--trusted", "../trusted")
    assert (status, places(out)) == (1, FOUND)
    assert told(err) == ["brewhouse.yaml cannot be read here; the trusted one counts"]


def test_a_brewhouse_that_cannot_be_read_here_is_told_twice(mashwright: Call, both: Both) -> None:
    """Its own finding fails the review, since after a merge it would count."""
    (both.ours / "brewhouse.yaml").write_text("brewhouse: [\n")
    status, out, err = mashwright("review", ".", "--trusted", "../trusted")
    assert (status, places(out)) == (2, ["brewhouse.yaml:1:12: error: unreadable", *FOUND])
    assert told(err) == ["brewhouse.yaml cannot be read here; the trusted one counts"]


def test_globs_of_the_trusted_brewhouse_count_from_the_folder_under_review(mashwright: Call, both: Both) -> None:
    accepted = "accepted:\n  - {rule: no-base-malt, in: 'house/*.yaml', reason: known}\n"
    (both.theirs / "brewhouse.yaml").write_text(accepted + "recipes: ['plain/**']\n")
    (both.ours / "plain").mkdir()
    (both.ours / "plain/x.yaml").write_text("batch: 20 l\n")
    status, out, _ = mashwright("review", ".", "--trusted", "../trusted")
    assert (status, places(out)) == (1, ["plain/x.yaml:1:1: error: field"] * 2)


def test_an_acceptance_that_a_recipe_gains_counts_and_is_told(mashwright: Call, both: Both) -> None:
    accepted = "accepted:\n  - {rule: no-base-malt, reason: a test}\n"
    (both.ours / "house/toffee.yaml").write_text(FAULTY + accepted)
    status, out, err = mashwright("review", ".", "--trusted", "../trusted")
    assert (status, places(out)) == (0, [])
    item = "{rule: no-base-malt, reason: a test}"
    sentence = f"house/toffee.yaml: {item} is newly accepted by the recipe itself; is the reason good?"
    assert told(err) == [sentence]
    (both.theirs / "house/toffee.yaml").write_text(FAULTY)
    assert told(mashwright("review", ".", "--trusted", "../trusted")[2]) == [sentence]
    (both.theirs / "house/toffee.yaml").write_text(accepted + FAULTY)
    assert told(mashwright("review", ".", "--trusted", "../trusted")[2]) == []


def test_the_trusted_baseline_counts_for_the_files_under_review(mashwright: Call, both: Both) -> None:
    call = ("review", ".", "--baseline", "known.txt")
    assert mashwright(*call, "--write-baseline")[0] == 0
    trusted = (*call, "--trusted", "../trusted")
    status, out, err = mashwright(*trusted)
    assert (status, places(out)) == (1, FOUND)
    assert told(err) == ["known.txt is not in the trusted folder; nothing counts as known"]
    shutil.copy("known.txt", both.theirs / "known.txt")
    assert (mashwright(*trusted)[0], told(mashwright(*trusted)[2])) == (0, [])
    assert mashwright("review", ".", "--baseline", "../trusted/known.txt", "--trusted", "../trusted")[0] == 0
    (both.ours / "house/worse.yaml").write_text(FAULTY.replace("Toffee", "Sticky"))
    known = (both.ours / "known.txt").read_text()
    (both.ours / "known.txt").write_text(known + known.splitlines()[1].replace("toffee", "worse") + "\n")
    assert mashwright(*call)[0] == 0
    status, out, err = mashwright(*trusted)
    assert (status, places(out)) == (1, ["house/worse.yaml:4:6: error: no-base-malt"])
    assert told(err) == ["known.txt: 1 known only here; they do not count as known"]
    (both.ours / "known.txt").unlink()
    assert told(mashwright(*trusted)[2]) == ["known.txt: 1 known only in the trusted folder; they still count as known"]


def test_what_is_known_of_a_brewhouse_is_known_of_the_trusted_one(mashwright: Call, both: Both) -> None:
    lots = "lots: {PM-1: {of: two-row pale malt, diastatic-power: 100 °Lintner}}\nstop-at: note\n"
    for top in both:
        (top / "brewhouse.yaml").write_text(lots)
    (both.ours / "house/toffee.yaml").write_text(FAULTY.replace("caramel malt 60", "pale ale malt"))
    call = ("review", ".", "--baseline", "known.txt")
    mashwright(*call, "--write-baseline")
    assert "brewhouse.yaml\tcertificate" in (both.ours / "known.txt").read_text()
    shutil.copy("known.txt", both.theirs / "known.txt")
    (both.ours / "brewhouse.yaml").write_text(lots.replace("100", "110"))
    status, out, err = mashwright(*call, "--trusted", "../trusted")
    assert (status, out) == (0, "")
    assert told(err) == [
        "brewhouse.yaml: lots/PM-1/diastatic-power is 110 °Lintner here; the trusted 100 °Lintner counts"
    ]


def test_the_reports_tell_it_too_however_many_processes_review(mashwright: Call, both: Both) -> None:
    (both.ours / "brewhouse.yaml").write_text(HOUSE.replace("35", "10"))
    sentence = "brewhouse.yaml: rules/enzyme-sufficiency/floor is 10 °Lintner here; the trusted 35 °Lintner counts"
    for index in range(90):
        (both.ours / f"house/r{index}.yaml").write_text(FAULTY.replace("Toffee", f"Toffee {index}"))
    for jobs in ("1", "2"):
        _, out, _ = mashwright("review", ".", "--trusted", "../trusted", "--jobs", jobs, "--format", "json")
        assert json.loads(out)["remarks"] == [sentence]


def test_a_flood_of_changes_is_counted(mashwright: Call, both: Both) -> None:
    lines = [f"  L{index}: {{of: two-row pale malt}}\n" for index in range(300)]
    (both.ours / "brewhouse.yaml").write_text("".join(["lots:\n", *lines]))
    (both.theirs / "brewhouse.yaml").write_text("lots: {A: {of: two-row pale malt}}\n")
    err = told(mashwright("review", ".", "--trusted", "../trusted")[2])
    assert (len(err), err[-1]) == (201, "and 101 more changes like these")


def test_a_recipe_from_standard_input_has_a_place_too(mashwright: Call, both: Both) -> None:
    (both.ours / "brewhouse.yaml").write_text(SWITCH_OFF)
    call = ("review", "-", "--name", "house/toffee.yaml", "--trusted", "../trusted")
    status, out, _ = mashwright(*call, stdin=FAULTY.encode())
    assert (status, places(out)) == (1, FOUND)


def test_folders_that_cannot_be_trusted(mashwright: Call, both: Both, tmp_path: Path) -> None:
    def refused(folder: str, *paths: str) -> str:
        status, out, err = mashwright("review", *paths, "--trusted", folder)
        assert (status, out) == (2, "")
        return err.removeprefix("mashwright: ")

    elsewhere = "so one could change the other; put the trusted copy elsewhere\n"
    assert refused("nowhere") == "--trusted nowhere: there is no such folder\n"
    assert refused("house") == f"--trusted house and what is reviewed (.) lie in each other, {elsewhere}"
    assert refused("..") == f"--trusted .. and what is reviewed (.) lie in each other, {elsewhere}"
    (tmp_path / "link").symlink_to(both.ours / "house")
    assert refused("../link", "house") == f"--trusted ../link and what is reviewed (.) lie in each other, {elsewhere}"
    (tmp_path / "other/.git").mkdir(parents=True)
    not_one = "the paths are not of one repository, so --trusted could be a copy of either; review them one by one\n"
    assert refused("../trusted", ".", "../other") == not_one
    os.rmdir(both.ours / ".git")
    assert refused("../trusted", "house", "brewhouse.yaml") == not_one
    assert mashwright("review", ".", "--trusted", "../trusted")[0] == 1
    leave = "mashwright: --trusted changes nothing; leave out --trusted, or what changes the baseline\n"
    for option in ("--write-baseline", "--prune"):
        assert mashwright("review", "--baseline", "k.txt", option, "--trusted", "../trusted") == (2, "", leave)


def test_a_subfolder_of_the_repository_has_its_twin(
    mashwright: Call, both: Both, monkeypatch: pytest.MonkeyPatch
) -> None:
    (both.ours / "brewhouse.yaml").write_text(SWITCH_OFF)
    monkeypatch.chdir(both.ours / "house")
    status, out, err = mashwright("review", "--trusted", "../../trusted")
    assert (status, places(out)) == (1, ["toffee.yaml:4:6: error: no-base-malt"])
    assert told(err)[-1] == "../brewhouse.yaml: rules/no-base-malt is new here (off); it does not count"
