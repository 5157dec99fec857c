"""``mashwright begin``: a new recipe, or one read from a page of plain text."""

import os
from collections.abc import Callable
from pathlib import Path

import pytest

Call = Callable[..., tuple[int, str, str]]
PAGE = "Lane Bitter\n20 litres\n4 kg pale ale malt\n30 g Fuggle 4.5 % 60 min\nMash 66 C 60 min\nmind the hose\n"
READ = """\
recipe: Lane Bitter
batch: 20 l
grist:
  - {grain: pale ale malt, weight: 4 kg}
mash:
  rests:
    - {at: 66 °C, for: 60 min}
# not read: mind the hose
hops:
  - {hop: Fuggle, weight: 30 g, alpha: 4.5 %, boil: 60 min}
"""


def test_a_new_recipe_that_passes_a_review(mashwright: Call, folder: Path) -> None:
    status, out, err = mashwright("begin")
    assert (status, err) == (0, "")
    assert mashwright("begin", "--output", "new.yaml") == (0, "", "")
    assert (folder / "new.yaml").read_text("utf-8") == out
    assert mashwright("review", "new.yaml")[0] == 0


def test_a_page_becomes_a_recipe(mashwright: Call, folder: Path) -> None:
    (folder / "page.txt").write_text(PAGE)
    status, out, err = mashwright("begin", "page.txt")
    assert (status, out) == (0, READ)
    assert err.splitlines()[0] == "mashwright: 5 lines read, 1 not read; see the comments"
    assert err.splitlines()[-1].startswith("1 recipe reviewed: no errors")
    assert mashwright("begin", "-", stdin=PAGE.encode())[:2] == (0, READ)
    assert mashwright("begin", "-", "--output", "b.yaml", stdin=PAGE.encode())[:2] == (0, "")
    assert (folder / "b.yaml").read_text("utf-8") == READ


def test_what_is_missing_is_said(mashwright: Call) -> None:
    status, out, err = mashwright("begin", "-", stdin=b"Lane Bitter\n4 kg pale ale malt\n")
    assert status == 1
    assert "# the text states no batch; add how much beer it is, such as batch: 20 l\n" in out
    assert "mashwright: the text states no batch; add how much beer it is, such as batch: 20 l\n" in err


def test_nothing_is_written_over(mashwright: Call, folder: Path) -> None:
    (folder / "there.yaml").write_text("mine")
    (folder / "page.txt").write_text(PAGE)
    for arguments in (("begin",), ("begin", "page.txt")):
        status, out, err = mashwright(*arguments, "--output", "there.yaml")
        assert (status, out) == (2, "")
        assert err == "mashwright: there.yaml is there already; give the new recipe another name\n"
    assert (folder / "there.yaml").read_text() == "mine"


def test_no_link_is_written_through(mashwright: Call, folder: Path) -> None:
    os.symlink(folder / "elsewhere.yaml", folder / "link.yaml")
    assert mashwright("begin", "--output", "link.yaml")[0] == 2
    assert not (folder / "elsewhere.yaml").exists()


@pytest.mark.parametrize(
    ("output", "said"),
    [
        ("a.txt", "a.txt would not be found as a recipe; give it the ending .yaml"),
        ("brewhouse.yaml", "brewhouse.yaml is the name of a brewhouse; give the recipe another name"),
        ("no/a.yaml", "no/a.yaml cannot be written: No such file or directory"),
    ],
)
def test_what_is_no_place_for_a_recipe_is_refused(mashwright: Call, output: str, said: str) -> None:
    assert mashwright("begin", "--output", output) == (2, "", f"mashwright: {said}\n")


@pytest.mark.parametrize(
    ("page", "said"),
    [
        (b"4 kg\0", "there are NUL characters in it, so it is no plain text; save it as text"),
        (b"4 kg M\xfcnchner", "the byte 0xFC is not UTF-8, perhaps ü of an older encoding; save the file as UTF-8"),
        (PAGE.encode("utf-16"), "this file is UTF-16 text; save it as UTF-8"),
        (b"The ferry leaves on Monday.", "nothing in it reads as a recipe; nothing was written"),
        (
            b"4 kg pale malt\n" * 3000,
            "it is longer than 32768 characters or 1000 lines; give the part that is the recipe",
        ),
    ],
)
def test_what_is_no_page_is_told_in_one_sentence(mashwright: Call, page: bytes, said: str) -> None:
    assert mashwright("begin", "-", stdin=page) == (2, "", f"mashwright: standard input: {said}\n")


def test_a_page_that_is_not_there(mashwright: Call, folder: Path) -> None:
    assert mashwright("begin", "no.txt") == (2, "", "mashwright: no.txt: there is no such file\n")
    assert mashwright("begin", ".") == (2, "", "mashwright: . is a folder; name one text in it\n")
