"""``mashwright book`` as it is called."""

import subprocess
import sys
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

RECIPES = {"bitter.yaml": "Lane Bitter", "mild.yaml": "Lane Mild"}


@pytest.fixture
def club(folder: Path, sound: str) -> Path:
    for file, name in RECIPES.items():
        (folder / file).write_text(sound.replace("Lane Bitter", name))
    return folder


def test_a_book_has_an_index_and_a_page_for_each(club: Path, mashwright: Callable[..., Any]) -> None:
    ended = mashwright("book", "--output", "../out", "--title", "The Lane")
    assert ended.status == 0, ended.err
    made = sum(1 for _ in (club.parent / "out").rglob("*.html"))
    assert made > 60  # with a page for each rule
    assert ended.err == f"mashwright: ../out: {made} pages, {made} of them written anew\n"
    assert ended.out == ""
    index = (club.parent / "out" / "index.html").read_text(encoding="utf-8")
    for name in RECIPES.values():
        assert name in index
    assert mashwright("book", "--output", "../out", "--title", "The Lane").err.endswith(
        f"{made} pages, 0 of them written anew\n"
    )
    (club / "mild.yaml").unlink()
    assert mashwright("book", "--output", "../out", "--title", "The Lane").err.endswith(
        f"{made - 2} pages, 1 of them written anew, 2 removed\n"
    )


def test_findings_do_not_fail_a_book(folder: Path, mashwright: Callable[..., Any], sound: str) -> None:
    (folder / "toffee.yaml").write_text(sound.replace("pale ale malt", "caramel malt 60"))
    assert mashwright("book", "--output", "../out").status == 0
    page = (folder.parent / "out" / "recipes" / "toffee.html").read_text(encoding="utf-8")
    assert "Not to be brewed as it stands." in page


@pytest.mark.parametrize(
    ("what", "said"),
    [
        ("strange folder", "holds what is not a recipe book"),
        ("no recipe", "no recipe"),
        ("wrong house", "brewhouse that is wrong"),
    ],
)
def test_what_cannot_be_written_is_said_in_a_sentence(
    club: Path, mashwright: Callable[..., Any], what: str, said: str
) -> None:
    out = club.parent / "out"
    if what == "strange folder":
        out.mkdir()
        (out / "mine.txt").write_text("x")
    if what == "no recipe":
        for file in RECIPES:
            (club / file).unlink()
    if what == "wrong house":
        (club / "brewhouse.yaml").write_text("brewhouse: Shed\nkettle: {volume: many litres}\n")
    ended = mashwright("book", "--output", "../out")
    assert ended.status == 2
    assert said in ended.err
    assert not (out / "index.html").exists()


def test_without_the_extra_a_sentence_says_how_to_install_it(club: Path) -> None:
    run = (
        "import sys, importlib.util as u; real = u.find_spec\n"
        "u.find_spec = lambda name, *a: None if name == 'jinja2' else real(name, *a)\n"
        "from mashwright.cli.command import run\n"
        "sys.exit(run(['book', '--output', '../out']))\n"
    )
    done = subprocess.run([sys.executable, "-c", run], cwd=club, capture_output=True, text=True, check=False)
    assert done.returncode == 2
    assert done.stderr == (
        "mashwright: a book needs the package Jinja2; install it with: pip install 'mashwright[book]'\n"
    )
    assert not (club.parent / "out").exists()


def test_only_a_book_loads_what_makes_pages(club: Path) -> None:
    run = "import sys\nfrom mashwright.cli.command import run\nrun(['review', 'bitter.yaml'])\nprint(*sys.modules)\n"
    done = subprocess.run([sys.executable, "-c", run], cwd=club, capture_output=True, text=True, check=True)
    assert not {"jinja2", "markupsafe", "mashwright.reviewing.account"} & set(done.stdout.split())
