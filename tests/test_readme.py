"""What the README shows is what the program does."""

import re
import subprocess
import sys
from pathlib import Path

import pytest

import mashwright
from mashwright.finding import Level
from mashwright.paper.page import read_page

ROOT = Path(__file__).parent.parent
README = (ROOT / "README.md").read_text(encoding="utf-8")


def blocks(language: str) -> list[str]:
    every = re.findall(r"^```(\w*)\n(.*?)^```$", README, re.MULTILINE | re.DOTALL)
    return [block for of, block in every if of == language]


def test_the_review_shown_is_part_of_the_samples_review() -> None:
    shown = next(block for block in blocks("") if block.startswith("sample-recipes/"))
    golden = (ROOT / "tests/golden/sample-review.txt").read_text(encoding="utf-8")
    findings = re.split(r"^(?=sample-recipes/)", shown, flags=re.MULTILINE)[1:]
    assert len(findings) == 4
    for finding in findings:
        assert finding in golden


def test_the_audit_shown_is_what_is_printed() -> None:
    command = next(block for block in blocks("") if " --audit " in block).split()
    shown = next(block for block in blocks("") if block.startswith("Lager for the Sailors' Club, 1934"))
    program = Path(sys.executable).parent / command[0]
    done = subprocess.run([program, *command[1:]], cwd=ROOT, capture_output=True, text=True, check=False)
    assert f"{done.stdout}{done.stderr}" == shown


def test_the_page_shown_becomes_the_recipe_shown() -> None:
    page = next(block for block in blocks("") if block.startswith("Ferry Mild"))
    shown = next(block for block in blocks("yaml") if block.startswith("recipe: Ferry Mild"))
    assert read_page(page).recipe == shown


def test_the_recipe_shown_is_sound() -> None:
    recipe = next(block for block in blocks("yaml") if block.startswith("recipe:"))
    results = mashwright.review_text(recipe).recipes[0].results
    assert [result.message for result in results if result.level > Level.NOTE] == []


def test_the_brewhouse_shown_is_sound() -> None:
    brewhouse = next(block for block in blocks("yaml") if block.startswith("brewhouse:"))
    review = mashwright.review_text(brewhouse, "brewhouse.yaml")
    assert review.recipes == ()
    faulty = mashwright.review_text(brewhouse.replace("floor", "flor"), "brewhouse.yaml")
    assert [result.message for result in faulty.recipes[0].results] == [
        "enzyme-sufficiency has no setting flor; did you mean floor?"
    ]


def test_the_acceptance_shown_can_be_read() -> None:
    accepted = next(block for block in blocks("yaml") if block.startswith("accepted:"))
    recipe = "recipe: Lane Wheat\nbatch: 20 l\ngrist:\n  - {grain: wheat malt, weight: 5 kg}\n" + accepted
    results = mashwright.review_text(recipe, today="2026-11-25").recipes[0].results
    assert [(result.rule, result.accepted is not None) for result in results if result.level > Level.NOTE] == [
        ("run-off", True)
    ]


def test_the_packages_shown_are_sound() -> None:
    packages = next(block for block in blocks("yaml") if block.startswith("package:"))
    recipe = "recipe: Two Ways\nbatch: 20 l\ngrist:\n  - {grain: pale ale malt, weight: 4.4 kg}\n" + packages
    results = mashwright.review_text(recipe).recipes[0].results
    assert [result.message for result in results if result.level > Level.NOTE] == []


@pytest.mark.parametrize(("first", "schema"), [("name: recipes", "github-workflows"), ("recipes:", "gitlab-ci")])
def test_the_ci_files_follow_the_published_schemas_of_their_forges(first: str, schema: str, tmp_path: Path) -> None:
    block = next(block for block in blocks("yaml") if block.partition("\n")[2].startswith(first))
    (tmp_path / "ci.yml").write_text(block, encoding="utf-8")
    command = [
        sys.executable,
        "-m",
        "check_jsonschema",
        "--builtin-schema",
        f"vendor.{schema}",
        str(tmp_path / "ci.yml"),
    ]
    done = subprocess.run(command, capture_output=True, text=True, check=False)
    assert (done.returncode, done.stdout.strip()) == (0, "ok -- validation done")


def test_the_shell_file_shown_is_the_one_that_is_run() -> None:
    shown = next(block for block in blocks("") if block.startswith("#!/bin/sh"))
    assert shown == (ROOT / "tests/ci/review.sh").read_text(encoding="utf-8")


def test_the_shell_file_knows_old_findings_and_fails_on_new_ones(tmp_path: Path) -> None:
    club = tmp_path / "club"
    club.mkdir()
    recipe = "recipe: Toffee\nbatch: 20 l\ngrist:\n  - {grain: caramel malt 60, weight: 5 kg}\n"
    (club / "toffee.yaml").write_text(recipe, encoding="utf-8")
    program = Path(sys.executable).parent / "mashwright"

    def run() -> subprocess.CompletedProcess[str]:
        command = ["sh", str(ROOT / "tests/ci/review.sh"), str(program), "reports", "club"]
        return subprocess.run(command, cwd=tmp_path, capture_output=True, text=True, check=False)

    assert run().returncode == 1  # nothing is known yet
    write = [program, "review", "club", "--baseline", "club/known-findings.txt", "--write-baseline"]
    assert subprocess.run(write, cwd=tmp_path, capture_output=True, check=False).returncode == 0
    first = run()
    assert (first.returncode, first.stdout) == (0, "")
    (club / "worse.yaml").write_text(recipe.replace("Toffee", "Toffee Again"), encoding="utf-8")
    second = run()
    assert second.returncode == 1
    assert [line.split(": ")[:3] for line in second.stdout.splitlines() if line.startswith("club")] == [
        ["club/worse.yaml:4:6", "error", "no-base-malt"]
    ]
    assert {path.name for path in (tmp_path / "reports").iterdir()} == {
        "review.md",
        "review.sarif",
        "review.xml",
    }


def test_contributors_are_given_the_same_test_command() -> None:
    command = next(block for block in blocks("") if block.rstrip().endswith("pytest"))
    assert command in (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
