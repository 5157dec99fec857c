"""``mashwright compare``: files, folders and revisions; what changed in the recipe's words, and what that does."""

import json
import os
import subprocess
import sys
from pathlib import Path

import jsonschema
import pytest

from mashwright_schema import load

BITTER = """\
recipe: Ferry Bitter
batch: 20 l
efficiency: 72 %
grist:
  - 4 kg pale ale malt
  - {grain: crystal malt, weight: 250 g}
mash: 66 °C for 60 min
boil: 60 min
hops:
  - 40 g Fuggle (4.5 %) at 60 min
yeast: English ale
targets: {og: 1.046}
"""
CHANGED = BITTER.replace("4 kg pale", "4.6 kg pale").replace("crystal malt, weight: 250 g", "rye malt, weight: 250 g")


def run(folder: Path, *arguments: str) -> "subprocess.CompletedProcess[str]":
    return subprocess.run(
        [sys.executable, "-m", "mashwright", "compare", *arguments],
        cwd=folder,
        capture_output=True,
        check=False,
        encoding="utf-8",
    )


def git(folder: Path, *arguments: str) -> None:
    who = {f"GIT_{one}_{what}": "brewer@example.org" for one in ("AUTHOR", "COMMITTER") for what in ("NAME", "EMAIL")}
    subprocess.run(["git", *arguments], cwd=folder, env=os.environ | who, check=True, capture_output=True)


@pytest.fixture
def repository(tmp_path: Path) -> Path:
    git(tmp_path, "init", "-q", "-b", "main", ".")
    (tmp_path / "a.yaml").write_text(BITTER, encoding="utf-8")
    (tmp_path / "b.yaml").write_text(BITTER.replace("Ferry", "Quay"), encoding="utf-8")
    git(tmp_path, "add", ".")
    git(tmp_path, "commit", "-qm", "one")
    return tmp_path


def test_two_files(tmp_path: Path) -> None:
    (tmp_path / "a.yaml").write_text(BITTER, encoding="utf-8")
    (tmp_path / "b.yaml").write_text(CHANGED, encoding="utf-8")
    done = run(tmp_path, "a.yaml", "b.yaml")
    assert done.returncode == 1
    assert "    grist › pale ale malt › weight: 4 kg to 4.6 kg\n" in done.stdout
    assert "    grist › crystal malt: removed: 250 g\n" in done.stdout
    assert "    grist › rye malt: added: 250 g\n" in done.stdout
    assert "Original gravity from this grist: 1.046 SG" in done.stdout
    assert "new: " in done.stdout
    assert "original-gravity" in done.stdout
    assert max(map(len, done.stdout.splitlines())) <= 80


def test_a_comment_changes_nothing(tmp_path: Path) -> None:
    (tmp_path / "a.yaml").write_text(BITTER, encoding="utf-8")
    (tmp_path / "b.yaml").write_text(BITTER.replace("batch: 20 l", "batch:   20 l  # into the vat"), encoding="utf-8")
    done = run(tmp_path, "a.yaml", "b.yaml")
    assert (done.returncode, done.stdout, done.stderr) == (0, "", "")


def test_a_revision_against_the_files(repository: Path) -> None:
    assert run(repository, "main").returncode == 0
    (repository / "a.yaml").write_text(CHANGED, encoding="utf-8")
    git(repository, "mv", "b.yaml", "c.yaml")
    (repository / "new.yaml").write_text(BITTER.replace("Ferry", "New"), encoding="utf-8")
    git(repository, "add", "new.yaml")
    done = run(repository, "main")
    assert done.returncode == 1
    assert "Ferry Bitter, a.yaml\n" in done.stdout
    assert "Quay Bitter, c.yaml (before: b.yaml)\n" in done.stdout
    assert "New Bitter, new.yaml: a new recipe\n" in done.stdout
    only = run(repository, "main", "--only", "a.yaml").stdout
    assert "a.yaml" in only
    assert "new.yaml" not in only


def test_two_revisions_also_packed(repository: Path) -> None:
    (repository / "a.yaml").write_text(CHANGED, encoding="utf-8")
    git(repository, "rm", "-q", "b.yaml")
    git(repository, "commit", "-qam", "two")
    git(repository, "tag", "v2")
    git(repository, "branch", "old", "HEAD~1")
    git(repository, "pack-refs", "--all")
    done = run(repository, "old", "v2")
    assert done.returncode == 1
    assert "4 kg to 4.6 kg" in done.stdout
    assert "Quay Bitter, b.yaml: no longer here\n" in done.stdout


def test_what_cannot_be_had_is_said(repository: Path) -> None:
    for revision, why in (("nowhere", "no revision nowhere"), ("--x", ""), ("0" * 40, "shallow clone"), ("../x", "")):
        done = run(repository, "--", revision)
        assert done.returncode == 2
        assert why in done.stderr
        assert "Traceback" not in done.stderr


def test_nothing_of_the_repository_runs(repository: Path) -> None:
    ran = repository.parent / "ran"
    hook = f"[core]\n\tfsmonitor = touch {ran}\n[alias]\n\tls-tree = !touch {ran}\n"
    with (repository / ".git/config").open("a") as config:
        config.write(hook)
    (repository / "a.yaml").write_text(CHANGED, encoding="utf-8")
    assert run(repository, "main").returncode == 1
    assert not ran.exists()


def test_as_markdown_nothing_of_a_recipe_is_markup(tmp_path: Path) -> None:
    (tmp_path / "a.yaml").write_text(BITTER, encoding="utf-8")
    hostile = CHANGED.replace("recipe: Ferry Bitter", "recipe: '<b>|@brewer|[x](http://y)'")
    (tmp_path / "b.yaml").write_text(hostile, encoding="utf-8")
    page = run(tmp_path, "a.yaml", "b.yaml", "--format", "markdown").stdout
    assert "<b>" not in page
    assert "@brewer" not in page
    assert "[x](" not in page
    assert "| grist › pale ale malt › weight | 4 kg | 4.6 kg |" in page


def test_as_json_it_is_as_its_schema_says(repository: Path) -> None:
    (repository / "a.yaml").write_text(CHANGED, encoding="utf-8")
    document = json.loads(run(repository, "main", "--format", "json").stdout)
    jsonschema.Draft202012Validator(load("comparison")).validate(document)
    (recipe,) = document["recipes"]
    og = next(one for one in recipe["figures"] if one["id"] == "og")
    assert og["sure"] == "more"
    assert og["change"] > 0.004


def test_each_wort_of_a_mash_is_compared_by_its_name(tmp_path: Path) -> None:
    text = """\
recipe: Two of one
grist: [{grain: pale ale malt, weight: 6 kg}]
mash: {water: 17 l}
sparge: {by: batch, water: 15 l}
worts:
  - {wort: Strong, runnings: first, batch: 8 l}
  - {wort: Small, runnings: second, batch: 10 l}
"""
    (tmp_path / "a.yaml").write_text(text, encoding="utf-8")
    (tmp_path / "b.yaml").write_text(text.replace("runnings: second", "runnings: {second: 60 %}"), encoding="utf-8")
    told = run(tmp_path, "a.yaml", "b.yaml").stdout
    assert "worts › Small › runnings" in told
    assert "Small: Original gravity from this grist" in told
    assert "Strong: Original gravity" not in told  # at no stated efficiency each has what runs off


def test_what_cannot_be_read_is_said(repository: Path) -> None:
    (repository / "nul.yaml").write_text(BITTER + "\0", encoding="utf-8")
    (repository / "broken.yaml").write_text("recipe: [\n", encoding="utf-8")
    for other in ("nul.yaml", "broken.yaml"):
        for pair in ((other, "a.yaml"), ("a.yaml", other)):
            done = run(repository, *pair)
            assert (done.returncode, done.stdout) == (2, "")
            assert other in done.stderr
    (repository / "a.yaml").write_bytes(b"\xff\xfe")
    done = run(repository, "main")
    assert done.returncode == 2
    assert "a.yaml" in done.stderr


def test_the_file_that_is_not_there_is_the_one_that_is_named(tmp_path: Path) -> None:
    (tmp_path / "a.yaml").write_text(BITTER, encoding="utf-8")
    for pair in (("a.yaml", "b.yaml"), ("b.yaml", "a.yaml")):
        done = run(tmp_path, *pair)
        assert (done.returncode, done.stderr) == (2, "mashwright: b.yaml: there is no such file or folder\n")
