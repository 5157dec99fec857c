"""The README's CI files are run, as a runner would, on a repository in which a pull request has left its own files."""

import os
import re
import shutil
import subprocess
import sys
from pathlib import Path
from typing import Any, NamedTuple

import pytest
from ruamel.yaml import YAML

ROOT = Path(__file__).parent.parent
README = (ROOT / "README.md").read_text(encoding="utf-8")
PROGRAMS = Path(sys.executable).parent
FAULTY = "recipe: Toffee\nbatch: 20 l\ngrist:\n  - {grain: caramel malt 60, weight: 5 kg}\n"
STALE = "brought along by a pull request\n"
TOLD = "mashwright: brewhouse.yaml: rules/no-base-malt is new here (off); it does not count"


def shown(first: str) -> dict[str, Any]:
    found = re.findall(r"^```yaml\n(.*?)^```$", README, re.MULTILINE | re.DOTALL)
    loaded: dict[str, Any] = YAML(typ="safe").load(
        next(one for one in found if one.partition("\n")[2].startswith(first))
    )
    return loaded


class Repository(NamedTuple):
    """A clone on a branch whose brewhouse switches off the rule that its recipe breaks, and the folder of a runner."""

    clone: Path
    runner: Path
    environment: dict[str, str]

    def run(self, script: str, **environment: str) -> "subprocess.CompletedProcess[str]":
        return subprocess.run(
            ["bash", "-e", "-c", script],
            cwd=self.clone,
            env=self.environment | environment,
            capture_output=True,
            text=True,
            check=False,
            timeout=120,
        )

    def without_the_program(self) -> dict[str, str]:
        """An environment in which Mashwright could not be installed."""
        return {"PATH": f"{self.runner / 'bin'}{os.pathsep}/usr/bin{os.pathsep}/bin"}


@pytest.fixture
def repository(tmp_path: Path) -> Repository:
    kept = {name: value for name, value in os.environ.items() if not name.startswith(("GIT_", "PYTHON"))}
    who = {f"GIT_{role}_{what}": "brewer@example.org" for role in ("AUTHOR", "COMMITTER") for what in ("NAME", "EMAIL")}
    environment = kept | who | {"GIT_CONFIG_GLOBAL": os.devnull, "GIT_CONFIG_NOSYSTEM": "1"}
    runner, clone, origin = tmp_path / "runner", tmp_path / "workspace/reviewed", tmp_path / "origin"
    (runner / "bin").mkdir(parents=True)
    clone.parent.mkdir()
    (runner / "bin/pip").write_text("#!/bin/sh\n")
    (runner / "bin/pip").chmod(0o755)
    environment["PATH"] = os.pathsep.join([str(runner / "bin"), str(PROGRAMS), environment["PATH"]])
    environment["TMPDIR"] = str(runner)

    def git(folder: Path, *arguments: str) -> None:
        subprocess.run(["git", "-C", folder, *arguments], env=environment, check=True, capture_output=True, timeout=60)

    git(tmp_path, "init", "-q", "-b", "main", str(origin))
    (origin / "brewhouse.yaml").write_text("brewhouse: Shed\n")
    (origin / "known-findings.txt").write_text("# findings that are known\n")
    (origin / "toffee.yaml").write_text(FAULTY.replace("caramel malt 60", "pale ale malt"))
    git(origin, "add", ".")
    git(origin, "commit", "-q", "-m", "sound")
    git(tmp_path, "clone", "-q", str(origin), str(clone))
    shutil.copytree(origin, clone.parent / "trusted")
    git(clone, "switch", "-q", "-c", "change")
    (clone / "brewhouse.yaml").write_text("brewhouse: Shed\nrules: {no-base-malt: off}\n")
    (clone / "toffee.yaml").write_text(FAULTY)
    for name in ("mashwright.xml", "review.sarif", "review.md", "review.xml"):
        (clone / name).write_text(STALE)
    git(clone, "add", "-f", ".")
    git(clone, "commit", "-q", "-m", "a change")
    return Repository(clone, runner, environment)


GITHUB = shown("name: recipes")
GITLAB = shown("recipes:")


def test_no_file_gives_more_rights_than_are_needed() -> None:
    assert GITHUB["permissions"] == {}
    assert GITHUB["jobs"]["review"]["permissions"] == {"contents": "read", "security-events": "write"}
    checkouts = [step["with"] for step in GITHUB["jobs"]["review"]["steps"] if "checkout" in step.get("uses", "")]
    assert [(one["path"], one["persist-credentials"]) for one in checkouts] == [("reviewed", False), ("trusted", False)]
    assert "pull_request_target" not in README


def test_the_program_is_named_by_its_commit() -> None:
    installs = re.findall(r"pip install .*git\+.*", README)
    assert len(installs) == 2
    assert all(line.endswith('"git+https://example.org/mashwright@COMMIT"') for line in installs)


def github_step() -> str:
    step = next(step for step in GITHUB["jobs"]["review"]["steps"] if step.get("id") == "review")
    assert step["working-directory"] == "reviewed"
    upload = GITHUB["jobs"]["review"]["steps"][-1]
    assert upload["if"] == "${{ !cancelled() && steps.review.outputs.sarif != '' }}"
    assert upload["with"]["sarif_file"] == "${{ steps.review.outputs.sarif }}"
    return str(step["run"])


def outputs(repository: Repository) -> dict[str, str]:
    """What GitHub's runner gives a step to write to."""
    names = {"GITHUB_OUTPUT": "output", "GITHUB_STEP_SUMMARY": "summary"}
    return {name: str(repository.runner / file) for name, file in names.items()} | {
        "RUNNER_TEMP": str(repository.runner)
    }


def test_the_workflow_hands_over_its_own_reports_and_tells_what_was_switched_off(repository: Repository) -> None:
    given = outputs(repository)
    (repository.runner / "mashwright").mkdir()
    (repository.runner / "mashwright/review.md").write_text(STALE)
    done = repository.run(github_step(), **given)
    assert done.returncode == 1
    assert "toffee.yaml:4:6: error: no-base-malt: " in done.stdout
    assert TOLD in done.stderr.splitlines()
    sarif = repository.runner / "mashwright/review.sarif"
    assert Path(given["GITHUB_OUTPUT"]).read_text() == f"sarif={sarif}\n"
    assert "no-base-malt" in sarif.read_text()
    summary = Path(given["GITHUB_STEP_SUMMARY"]).read_text()
    assert STALE not in summary
    assert "rules/no-base-malt is new here" in summary


def test_a_workflow_that_could_not_review_hands_over_nothing(repository: Repository) -> None:
    given = outputs(repository)
    (repository.runner / "mashwright").mkdir()
    for name in ("review.sarif", "review.md"):
        (repository.runner / "mashwright" / name).write_text(STALE)
    done = repository.run(github_step(), **given, **repository.without_the_program())
    assert done.returncode == 127
    assert not Path(given["GITHUB_OUTPUT"]).exists()
    assert not Path(given["GITHUB_STEP_SUMMARY"]).exists()


def gitlab_script() -> str:
    assert GITLAB["recipes"]["artifacts"] == {"when": "always", "reports": {"junit": "mashwright.xml"}}
    return "\n".join(GITLAB["recipes"]["script"])


def test_the_pipeline_hands_over_its_own_report_and_tells_what_was_switched_off(repository: Repository) -> None:
    done = repository.run(gitlab_script(), CI_MERGE_REQUEST_TARGET_BRANCH_NAME="main", CI_DEFAULT_BRANCH="main")
    assert done.returncode == 1, done.stderr
    assert "toffee.yaml:4:6: error: no-base-malt: " in done.stdout
    assert TOLD in done.stderr.splitlines()
    report = (repository.clone / "mashwright.xml").read_text()
    assert 'failures="1"' in report
    assert "rules/no-base-malt is new here" in report


@pytest.mark.parametrize("fails", ["program", "branch"])
def test_a_pipeline_that_could_not_review_hands_over_nothing(repository: Repository, fails: str) -> None:
    without = repository.without_the_program() if fails == "program" else {}
    done = repository.run(gitlab_script(), CI_DEFAULT_BRANCH="main" if fails == "program" else "gone", **without)
    assert done.returncode not in (0, 1)
    assert not (repository.clone / "mashwright.xml").exists()


def test_the_shell_file_removes_old_reports_and_takes_a_trusted_copy(repository: Repository) -> None:
    script = str(ROOT / "tests/ci/review.sh")
    reports = repository.runner / "reports"
    reports.mkdir()
    for name in ("review.sarif", "review.xml", "review.md"):
        (reports / name).write_text(STALE)
    done = repository.run(f'sh "{script}" nothing "{reports}" . ../trusted', **repository.without_the_program())
    assert (done.returncode, list(reports.iterdir())) == (127, [])
    done = repository.run(f'sh "{script}" mashwright "{reports}" . ../trusted')
    assert done.returncode == 1
    assert TOLD in done.stderr.splitlines()
    assert {path.name for path in reports.iterdir()} == {"review.sarif", "review.xml", "review.md"}
    done = repository.run(f'sh "{script}"')
    assert done.returncode == 0  # without a trusted copy the change judges itself
    place = re.search(r"^the reports go to (.*)$", done.stderr, re.MULTILINE)
    assert place is not None
    assert place[1].startswith(str(repository.runner))
    assert all((repository.clone / name).read_text() == STALE for name in ("review.sarif", "review.xml", "review.md"))
