"""Recipes in many hands: each text is read, and gives what stands below its double line."""

import re
from collections.abc import Iterator
from itertools import pairwise
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from mashwright.budgets import PAGE_CHARACTERS
from mashwright.paper.page import NotAPageError, Page, read_page
from mashwright.paper.plain import COUNTS
from mashwright.printable import harmless
from mashwright.reading.document import read_document
from mashwright.reading.nodes import Mapping, Node, Scalar, Sequence
from mashwright.reviewing.collection import Collection
from mashwright.reviewing.settings import Run

FOLDER = Path(__file__).parent / "hands"
HANDS = {path.stem: path.read_text("utf-8").split("=====\n") for path in sorted(FOLDER.glob("*.txt"))}
_TURNED = re.compile(r"\bT\d|nach|into the boil")
"""What says that a time is counted from the start of the boil."""
PLACES = ("boil", "first-wort", "mash", "whirlpool", "dry")
LINES = sorted({line for text, _ in HANDS.values() for line in text.splitlines()})


def test_there_are_enough_of_them() -> None:
    assert len(HANDS) >= 40


@pytest.mark.parametrize("hand", HANDS)
def test_what_stands_there_is_read(hand: str) -> None:
    text, expected = HANDS[hand]
    wanted = dict(line.split(": ", 1) for line in expected.splitlines())
    found = summed_up(loaded(read_page(text)))
    assert {name: found[name] for name in wanted} == wanted


@pytest.mark.parametrize("hand", HANDS)
def test_no_line_and_no_number_is_lost_and_none_is_invented(hand: str) -> None:
    text = HANDS[hand][0]
    page = read_page(text)
    nothing_lost(text, page)
    nothing_invented(text, page)


@pytest.mark.parametrize("hand", HANDS)
def test_what_comes_out_is_a_recipe(hand: str) -> None:
    """Names may be unknown; the format is kept, unless the text lacks what a recipe needs."""
    page = read_page(HANDS[hand][0])
    assert page.missing == ()
    assert [one for one in faults(page) if " field: " in one] == []


@given(
    st.lists(
        st.one_of(
            st.sampled_from(LINES),
            st.text(max_size=40),
            st.lists(st.sampled_from(" ".join(LINES).split()), max_size=12).map(" ".join),
        ),
        max_size=12,
    ).map("\n".join)
)
def test_any_text_is_read_or_refused_in_words(text: str) -> None:
    try:
        page = read_page(text)
    except NotAPageError:  # in words, by the next test
        return
    assert read_document(page.recipe).problems == ()
    assert [one for one in faults(page) if " field: " in one and not page.missing] == []
    nothing_lost(text, page)


def test_a_page_that_is_none_is_refused() -> None:
    for text, why in (
        ("4 kg pale malt\0", "NUL"),
        ("4 kg pale malt\n" * PAGE_CHARACTERS, "longer than"),
        ("4 kg pale malt, " * 500, "a line of it is longer than"),
        ("The ferry leaves on Monday.", "nothing in it reads as a recipe"),
        ("", "nothing in it reads as a recipe"),
    ):
        with pytest.raises(NotAPageError, match=why):
            read_page(text)


def test_times_from_the_start_of_the_boil_are_turned_round() -> None:
    page = read_page("20 l\n4 kg pils\nSaaz 30 g T0\nSaaz 20 g T45\nSaaz 10 g T60\nébullition 60 min\n")
    assert summed_up(loaded(page))["hops"] == "30 g boil 60 min; 20 g boil 15 min; 10 g boil flameout"


def test_a_hop_from_the_start_of_a_boil_that_is_not_told() -> None:
    page = read_page("20 l\n4 kg pale malt\n30 g Fuggle at the start of the boil\n10 g Saaz T15\n")
    assert summed_up(loaded(page))["hops"] == "30 g; 10 g"
    assert "# Fuggle: from the start of the boil; the text does not say how long it is\n" in page.recipe
    assert "# Saaz: 15 min after the start of the boil; the text does not say how long it is\n" in page.recipe


@pytest.mark.parametrize(
    ("line", "hops"),
    [
        ("1 oz each Cascade and Centennial @ 60", "1 oz boil 60 min; 1 oz boil 60 min"),
        ("1 oz Fuggle each @ 60, 30 and 10", "1 oz boil 60 min; 1 oz boil 30 min; 1 oz boil 10 min"),
        ("je 20 g Perle und Saaz bei 15 min", "20 g boil 15 min; 20 g boil 15 min"),
        ("1 oz Fuggle at 60, 30 and 10 min", "1 oz"),
    ],
)
def test_each_is_one_addition_for_each(line: str, hops: str) -> None:
    page = read_page(f"20 l\n4 kg pale malt\n{line}\n")
    assert summed_up(loaded(page))["hops"] == hops
    assert ("# read in part: " in page.recipe) == (hops == "1 oz")


def test_what_looks_like_another_thing_is_not_taken_for_it() -> None:
    """Hops to the litre are no gas, and the time of a ramp is no rest's."""
    page = read_page("20 l\n4 kg pale malt\nStopfhopfen 2 g/l Citra\nraise to 66 °C over 15 min, hold 60 min\n")
    assert "carbonation" not in page.recipe
    assert summed_up(loaded(page))["rests"] == "66 °C 60 min"


@pytest.mark.parametrize(
    ("line", "mash"),
    [
        ("Einmaischen bei 57 °C", {}),
        ("Einmaischen bei 57 °C, 10 min", {"rests": [{"at": "57 °C", "for": "10 min"}]}),
        ("mash in with 12 l at 73 °C", {"water": "12 l", "strike": "73 °C"}),
    ],
)
def test_the_heat_of_mashing_in_is_the_waters_only_beside_it(line: str, mash: dict[str, object]) -> None:
    page = read_page(f"20 l\n4 kg pale malt\n{line}\n")
    assert loaded(page).get("mash", {}) == mash
    assert (line in page.recipe) == (not mash)


def test_a_line_that_is_read_in_part_stands_beside_its_field() -> None:
    page = read_page("20 l\n4 kg pale malt from the Monday sack\n30 g Fuggle 60 min\nand mind the hose\n")
    assert "# read in part: 4 kg pale malt from the Monday sack\n" in page.recipe
    assert page.recipe.index("weight: 4 kg") < page.recipe.index("Monday sack") < page.recipe.index("hops:")
    assert "# not read: and mind the hose\n" in page.recipe
    assert (page.read, page.partly, page.unread) == (2, 1, 1)


def summed_up(recipe: dict[str, object]) -> dict[str, str]:
    """The fields of a recipe in one line each, as they stand in the texts."""
    return {
        "name": str(recipe.get("recipe", "")),
        "batch": str(recipe.get("batch", "")),
        "grist": "; ".join(one.get("weight", one.get("share", "")) for one in _list(recipe, "grist")),
        "hops": "; ".join(map(_hop, _list(recipe, "hops"))),
        "rests": "; ".join(
            f"{one.get('at', '')} {one.get('for', '')}".strip() for one in _list(recipe, "mash", "rests")
        ),
        "og": _text(recipe, "og"),
        "fg": _text(recipe, "fg"),
    }


def _list(recipe: dict[str, object], *path: str) -> list[dict[str, str]]:
    found: object = recipe
    for name in path:
        found = found.get(name, {}) if isinstance(found, dict) else {}
    return found if isinstance(found, list) else []


def _text(recipe: dict[str, object], name: str) -> str:
    targets = recipe.get("targets")
    return str(targets.get(name, "")) if isinstance(targets, dict) else ""


def _hop(one: dict[str, str]) -> str:
    amount = one.get("weight", one.get("alpha-units"))
    place = next((name for name in PLACES if name in one), "")
    return f"{amount} {place} {one.get(place, '')}".strip()


def loaded(page: Page) -> dict[str, object]:
    """A page's recipe with each value as it is written."""
    root = read_document(page.recipe).root
    found = _texts(root) if root is not None else {}
    assert isinstance(found, dict)
    return found


def _texts(node: Node) -> object:
    if isinstance(node, Scalar):
        return node.text
    if isinstance(node, Sequence):
        return [_texts(item) for item in node.items]
    assert isinstance(node, Mapping)
    return {key.text: _texts(value) for key, value in node.entries}


def faults(page: Page) -> list[str]:
    """What a review finds in the recipe that came out."""
    collection = Collection(Run("2027-01-01", remedies=False))
    return [f" {one.rule}: {one.message}" for each in collection.text(page.recipe, "a.yaml") for one in each.results]


def nothing_lost(text: str, page: Page) -> None:
    """Each line stands in a comment, or its numbers stand in the recipe."""
    lines = [line for line in text.splitlines() if any(one.isalnum() for one in line)]
    assert page.read + page.partly + page.unread <= len(lines)
    comments = "\n".join(line for line in page.recipe.splitlines() if line.startswith("# "))
    assert comments.count("# not read: ") >= page.unread
    assert comments.count("# read in part: ") >= page.partly
    fields = "\n".join(line for line in page.recipe.splitlines() if not line.startswith("# "))
    stated = {*_numbers(fields), *([0.0] if "flameout" in fields else [])}
    for line in lines:
        if f": {harmless(line.strip())}\n" in f"{comments}\n" or _TURNED.search(line):
            continue
        numbers = re.findall(r"(?<!\w)\d+(?:[.,]\d+)*", re.sub(r"^\W*\d{1,2}[.)] |Rast \d:", "", line))
        assert [one for one in numbers if not set(_numbers(one)) & stated] == [], line


def nothing_invented(text: str, page: Page) -> None:
    """Each number of a field stands in the text; one that is counted from the start of the boil may be turned round."""
    said = set(_numbers(text))
    turned = {one - other for one in said for other in said} if _TURNED.search(text) else set()
    fields = "\n".join(line for line in page.recipe.splitlines() if not line.startswith("#"))
    assert [one for one in _numbers(fields) if one not in said and one not in turned] == []


def _numbers(text: str) -> Iterator[float]:
    spelled = {**COUNTS, "½": "1/2", "¼": "1/4", "¾": "3/4"}
    for word, number in spelled.items():
        if re.search(rf"(?i)(?<!\w){re.escape(word)}(?!\w)", text):
            yield from map(float, re.findall(r"\d+", number))
    for part in re.findall(r"(?<![\w.,])\.\d+", text):
        yield from (float(part), 0.0)
    for one in re.findall(r"\d+(?:[.,]\d+)*", text.replace("½", " 1/2 ")):
        parts = re.split(r"[.,]", one)
        yield from map(float, parts)
        yield float("".join(parts))
        for whole, part in pairwise(parts):
            yield float(f"{whole}.{part}")
