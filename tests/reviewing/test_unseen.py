"""Recipes that a walk passes over by their name or as links: none of them goes untold."""

import subprocess
from collections.abc import Callable
from pathlib import Path

import pytest

from mashwright.reviewing.collection import Collection
from mashwright.reviewing.settings import Run

Tell = Callable[..., list[str]]

RECIPE = "recipe: Light\nbatch: 20 l\ngrist:\n  - {grain: pale ale malt, weight: 5 kg}\n"
OTHER = "steps: [brew]\n"


@pytest.fixture
def club(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A repository with one recipe."""
    folder = tmp_path / "club"
    folder.mkdir()
    monkeypatch.chdir(folder)
    git("init", "-q")
    fill(folder, "a.yaml")
    return folder


def git(*arguments: str, folder: Path | str = ".") -> None:
    call = ["git", "-C", str(folder), "-c", "user.name=brewer", "-c", "user.email=brewer@example.org", *arguments]
    subprocess.run(call, check=True, capture_output=True, timeout=60)


def fill(folder: Path, *names: str, text: str = RECIPE) -> None:
    for name in names:
        (folder / name).parent.mkdir(parents=True, exist_ok=True)
        (folder / name).write_text(text)


def remarks(*paths: str) -> list[str]:
    """What a review has to tell of how it went."""
    made = Collection(Run("2026-01-01"))
    made.find(paths or (".",))
    return list(made.remarks.told())


ONE = "{} is hidden, so it is not reviewed, though it looks like a recipe; name it to review it"
MORE = "hidden files are not reviewed, though they look like recipes: {}; name them to review them"
LINK = "{} is a link, so it is not reviewed; name what it leads to, or put that in its place"
LINKS = "links are not reviewed: {}; name what they lead to, or put that in their place"


@pytest.mark.parametrize("name", [".a.yaml", ".old/b.yml", "house/.old/deep/c.YAML", ".yaml", ".old/.b.yaml"])
def test_a_hidden_recipe_that_is_tracked_is_told(name: str, club: Path) -> None:
    fill(club, name)
    assert remarks() == []
    git("add", ".")
    assert remarks() == [ONE.format(name)]
    assert remarks(str(club)) == [ONE.format(name)]
    assert remarks(".", name) == []


def test_what_is_told_of_hidden_files(club: Path) -> None:
    fill(club, ".config.yaml", ".forge/flow.yaml", ".old/notes.txt", text=OTHER)
    git("add", ".")
    assert remarks() == []
    fill(club, *(f".old/{name}.yaml" for name in "abcde"))
    (club / ".old/f.yaml").write_bytes(b"\xff")
    git("add", ".")
    assert remarks() == [MORE.format(".old/a.yaml, .old/b.yaml, .old/c.yaml and 3 more")]
    fill(club, "house/.b.yaml", "house/c.yaml")
    git("add", ".")
    assert remarks("house") == [ONE.format("house/.b.yaml")]
    assert remarks("house", "house/.b.yaml") == []


def test_a_hidden_submodule_is_looked_into(club: Path, tmp_path: Path) -> None:
    guests = tmp_path / "guests"
    git("init", "-q", str(guests))
    fill(guests, "g.yaml")
    git("add", ".", folder=guests)
    git("commit", "-q", "-m", "brew", folder=guests)
    git("-c", "protocol.file.allow=always", "submodule", "add", "-q", str(guests), ".guests")
    assert remarks() == [ONE.format(".guests/g.yaml")]


def test_within_a_submodule_its_own_hidden_files_count(club: Path, tmp_path: Path) -> None:
    guests = tmp_path / "guests"
    git("init", "-q", str(guests))
    fill(guests, ".old/g.yaml")
    git("add", ".", folder=guests)
    git("commit", "-q", "-m", "brew", folder=guests)
    git("-c", "protocol.file.allow=always", "submodule", "add", "-q", str(guests), "guests")
    assert remarks() == [ONE.format("guests/.old/g.yaml")]


def test_without_a_repository_hidden_folders_are_not_looked_into(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    fill(tmp_path, "a.yaml", ".cache/b.yaml", "house/.c.yaml")
    monkeypatch.chdir(tmp_path)
    assert remarks() == [ONE.format("house/.c.yaml")]


@pytest.mark.parametrize(
    ("target", "told"),
    [
        ("a.yaml", False),
        ("house", False),
        (".", False),
        ("other.yaml", False),  # no recipe, and skipped as such
        ("../elsewhere/b.yaml", True),
        ("../elsewhere", True),
        (".old/c.yaml", True),
        (".old", True),
        ("recipe.txt", True),
        ("nowhere", True),
        ("link.yaml", True),
        ("build/d.yaml", True),
    ],
)
def test_a_link_is_told_unless_what_it_leads_to_is_reviewed(target: str, told: bool, club: Path) -> None:
    fill(club, "../elsewhere/b.yaml", "house/b.yaml", ".old/c.yaml", "recipe.txt", "build/d.yaml")
    fill(club, "other.yaml", text=OTHER)
    fill(club, ".gitignore", text="build/\n")
    (club / "link.yaml").symlink_to(target)
    assert remarks() == ([LINK.format("link.yaml")] if told else [])


def test_many_links(club: Path) -> None:
    fill(club, "../elsewhere/b.yaml")
    for name in "pqrst":
        (club / f"{name}.yaml").symlink_to("../elsewhere/b.yaml")
    (club / "notes.txt").symlink_to("../elsewhere/b.yaml")
    (club / "itself").symlink_to("itself")
    assert remarks() == [LINKS.format("p.yaml, q.yaml, r.yaml and 2 more")]


def test_a_link_to_another_part_of_the_repository_that_is_no_recipe(club: Path) -> None:
    fill(club, "common/flow.yaml", text=OTHER)
    fill(club, "common/b.yaml")
    fill(club, "house/c.yaml")
    (club / "house/flow.yaml").symlink_to("../common/flow.yaml")
    assert remarks("house") == []
    (club / "house/b.yaml").symlink_to("../common/b.yaml")
    assert remarks("house") == [LINK.format("house/b.yaml")]


def test_what_is_not_reviewed_is_told_by_the_whole_review(club: Path, lines: Tell) -> None:
    fill(club, ".b.yaml")
    git("add", ".")
    made = Collection(Run("2026-01-01"))
    review = made.finished(list(made.paths((".",))))
    assert review.remarks == (ONE.format(".b.yaml"),)
    assert lines(iter(review.recipes)) == ["a.yaml: nothing"]
