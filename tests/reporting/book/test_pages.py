"""The pages of the book: true to the figures, the same each time, inert whatever a recipe holds, and not too heavy."""

import base64
import hashlib
import os
import re
import subprocess
import sys
from collections.abc import Callable, Iterable
from pathlib import Path
from typing import Any

import pytest
from msgspec.structs import replace

from mashwright.brew import Brew
from mashwright.printable import harmless
from mashwright.reporting.book.day_page import day_page
from mashwright.reporting.book.index import ON_A_SHELF, IndexRow, index_pages, index_places, row_of
from mashwright.reporting.book.making import reference_made
from mashwright.reporting.book.places import link, page_of, pages_of
from mashwright.reporting.book.recipe_page import recipe_page
from mashwright.reporting.glossary import TERMS
from mashwright.reviewing.account import Account, account_of
from mashwright.reviewing.collection import Collection, rule_infos
from mashwright.reviewing.files import Loaded
from mashwright.reviewing.houses import Houses, unsaved
from mashwright.reviewing.plugins import installed
from mashwright.reviewing.settings import Run
from mashwright.reviewing.sheet import sheet_of

SAMPLES = Path(__file__).parents[3] / "sample-recipes"
RECIPES = [path for path in sorted(SAMPLES.glob("**/*.yaml")) if path.name != "brewhouse.yaml"]
HOUSE = (SAMPLES / "brewhouse.yaml").read_text(encoding="utf-8")
GIVEN = unsaved(HOUSE)
TODAY = "2026-11-25"
MOST_BYTES = 150_000


def index_page(rows: Iterable[IndexRow], title: str) -> bytes:
    ((place, content),) = index_pages(rows, title)
    assert place == "index.html"
    return content


NASTY = (
    "<script>alert(1)</script>",
    '"><img src=x onerror=alert(1)>',
    "' onmouseover='alert(1)",
    "</title></style></svg><svg onload=alert(1)>",
    "<!-- --><![CDATA[ x ]]>",
    "{{ 7*7 }}{% raw %}${7*7}",
    "javascript:alert(1)",
    "&lt;b&gt;&#x202e;",
    "\u202egnirts\u2066 \u200b\ufeff",
    "https://example.org/?a=1&b=2",
    "w" * 150,
    "שיכר עם לתת",
)


def account(text: str, name: str = "house/recipe.yaml") -> Account:
    loaded = Loaded(text, None)
    (reviewed,) = [one for one in Collection(Run(TODAY), given=GIVEN).text(loaded, name) if one.path == name]
    return account_of(reviewed, Houses(installed(), given=GIVEN), loaded)


def page(text: str, name: str = "house/recipe.yaml") -> bytes:
    return recipe_page(account(text, name), page_of(name), "Recipe book")


@pytest.mark.parametrize("path", RECIPES, ids=lambda path: path.stem)
def test_each_sample_has_a_page_that_is_inert_light_and_whole(
    path: Path, read_page: Callable[[bytes], Any], inert: Callable[[Any], None]
) -> None:
    text = path.read_text(encoding="utf-8")
    told = account(text)
    content = recipe_page(told, "recipes/house/recipe.html", "Recipe book")
    assert len(content) < MOST_BYTES
    assert content == page(text)
    read = read_page(content)
    inert(read)
    for one in told.results:
        assert one.message in read.words
        for remedy in one.remedies:
            assert remedy.text in read.words
    inside = {link[1:] for link in read.links if link.startswith("#")}
    assert inside <= set(read.ids)
    for line in text.splitlines():
        assert harmless(line) in read.words


@pytest.mark.parametrize("path", RECIPES, ids=lambda path: path.stem)
def test_each_figure_of_a_sample_stands_on_its_page_as_figures_shows_it(
    path: Path, read_page: Callable[[bytes], Any]
) -> None:
    text = path.read_text(encoding="utf-8")
    told = account(text)
    if not told.is_recipe:
        assert not told.figures
        return
    words = read_page(page(text)).words
    sheet = sheet_of(Brew.of(text, HOUSE), "house/recipe.yaml")
    for row in sheet.rows:
        assert (row.missing or row.shown) in words, row.id


@pytest.mark.parametrize("path", RECIPES, ids=lambda path: path.stem)
def test_the_brew_day_misses_no_step_and_no_caution(
    path: Path, read_page: Callable[[bytes], Any], inert: Callable[[Any], None]
) -> None:
    told = account(path.read_text(encoding="utf-8"))
    if told.day is None:
        assert not told.is_recipe
        return
    content = day_page(told, "recipes/house/recipe.html", "Recipe book")
    assert len(content) < MOST_BYTES
    read = read_page(content)
    inert(read)
    assert "../../recipes/house/recipe.html" in read.links
    for part in told.day.parts:
        for step in part.steps:
            for said in (step.do, step.planned, step.caution, *step.assumed, *step.objections, *step.measure):
                assert said in read.words
        for objection in part.objections:
            assert objection in read.words
    assert "../../brew-days/house/recipe.html" in read_page(page(path.read_text(encoding="utf-8"))).links


def test_a_picture_has_a_title_a_description_and_a_table_of_its_numbers(read_page: Callable[[bytes], Any]) -> None:
    read = read_page(page((SAMPLES / "house/harbour-wheat.yaml").read_text(encoding="utf-8")))
    pictures = [attributes for name, attributes in read.elements if name == "svg" and "aria-hidden" not in attributes]
    assert len(pictures) >= 10  # a bar for each figure of the beer, glass, mash, enzymes, hops and ions
    for attributes in pictures:
        assert attributes["role"] == "img"
        assert set((attributes["aria-labelledby"] or "").split()) <= set(read.ids)
    for said in ("79.7 °Lintner (63.7 to 102)", "The mash in numbers", "The ions in numbers", "Hops"):
        assert said in read.words


def test_the_gas_stands_beside_what_the_bottle_bears(read_page: Callable[[bytes], Any]) -> None:
    text = (SAMPLES / "house/harbour-wheat.yaml").read_text(encoding="utf-8")
    gas = account(text).gas
    assert gas is not None
    row = next(row for row in sheet_of(Brew.of(text, HOUSE), "x").rows if row.id == "gas")
    assert (gas.value.low, gas.value.typical, gas.value.high) == (row.low, row.typical, row.high)
    assert gas.limits == (("the rating", 3.5),)
    read = read_page(page(text))
    assert row.shown in read.words
    assert "bottles rated 3.5 volumes: the rating" in read.words
    plain = account("recipe: A\nbatch: 20 l\ngrist:\n  - 4 kg pale ale malt\npackage: {in: bottles}\n").gas
    assert plain is None or [word for word, _ in plain.limits] == ["usually up to", "doubtful from", "made for"]


def test_who_brings_enzymes_and_who_only_starch(read_page: Callable[[bytes], Any]) -> None:
    text = (SAMPLES / "house/harbour-wheat.yaml").read_text(encoding="utf-8")
    grist = account(text).grist
    assert [(row.name, row.adds is not None and row.adds.typical > 0) for row in grist] == [
        ("two-row pale malt", True),
        ("raw wheat", False),
        ("caramel malt 40", False),
        ("table sugar", False),
    ]
    power = next(row for row in sheet_of(Brew.of(text, HOUSE), "x").rows if row.id == "grist-diastatic-power")
    assert sum(row.adds.typical for row in grist if row.adds is not None) == pytest.approx(power.typical, rel=1e-12)
    assert account(text).floors == (
        ("too little for any lot", 25.0),
        ("the floor", 30.0),
        ("comfortable from here", 40.0),
    )


HOSTILE = """\
recipe: %(x)s
by: %(x)s
style: %(x)s
source: %(x)s
notes: %(x)s
batch: 20 l
grist:
  - {grain: pale ale malt, weight: 4 kg, lot: %(x)s}
  - {grain: %(x)s, kind: raw grain, weight: 1 kg}
mash: {water: 14 l, rests: [{at: 66 °C, for: 60 min}]}
hops:
  - {hop: %(x)s, weight: 30 g, alpha: 5 %%, boil: 60 min}
additions:
  - {add: %(x)s, weight: 10 g, when: %(x)s}
yeast: {kind: %(x)s, attenuation: 75 %%}
package: {in: bottles, carbonation: 2.4 volumes}
targets: {og: 1.050, bitterness: %(x)s}
accepted:
  - {rule: %(x)s, reason: %(x)s}
%(x)s: %(x)s
"""


def quoted(text: str) -> str:
    import json

    return json.dumps(text, ensure_ascii=True)


@pytest.mark.parametrize("nasty", NASTY, ids=lambda text: ascii(text)[1:24])
def test_no_text_of_a_recipe_becomes_markup(
    nasty: str, read_page: Callable[[bytes], Any], inert: Callable[[Any], None]
) -> None:
    told = account(HOSTILE % {"x": quoted(nasty)})
    assert told.name  # it was read as a recipe, so that each field of it is on the page
    content = recipe_page(told, "recipes/house/recipe.html", nasty)
    read = read_page(content)
    inert(read)
    assert read.words.count(harmless(nasty)) >= 6  # name, by, style, source, notes, hop: each as it was written
    tame = read_page(
        recipe_page(account(HOSTILE % {"x": quoted("oats and ends")}), "recipes/house/recipe.html", "Book")
    )
    shape = [name for name, _ in read.elements if name in ("script", "style", "svg", "table", "section", "a", "meta")]
    assert set(shape) <= {name for name, _ in tame.elements} | {"a"}
    assert not any("\u202e" in words or "\u2066" in words for words in (read.words, content.decode()))
    inert(read_page(day_page(told, "recipes/house/recipe.html", nasty)))
    path = f"{nasty}/{nasty}.yaml"
    hostile = [replace(row_of(told, page_of(path)), path=f"{path}{number}") for number in range(130)]
    for some in (hostile[:2], hostile):
        for _, made in index_pages(some, nasty):
            inert(read_page(made))
            assert len(made) < MOST_BYTES


def test_the_policy_lets_only_the_pages_own_style_and_script_be(read_page: Callable[[bytes], Any]) -> None:
    recipe = read_page(page("recipe: Lane Bitter\nbatch: 20 l\ngrist:\n  - 4 kg pale ale malt\n"))
    index = read_page(
        index_page([row_of(account("recipe: A\nbatch: 20 l\ngrist:\n  - 4 kg pale ale malt\n"), "a.html")], "B")
    )
    for read, scripted in ((recipe, False), (index, True)):
        (policy,) = [a["content"] or "" for name, a in read.elements if name == "meta" and "http-equiv" in a]
        assert policy.startswith("default-src 'none'; ")
        assert "unsafe" not in policy
        (style,) = read.styles
        assert f"style-src {hashed(style)}" in policy
        if scripted:
            (script,) = read.scripts
            assert f"script-src {hashed(script)}" in policy
        else:
            assert not read.scripts
            assert "script-src 'none'" in policy


def hashed(text: str) -> str:
    return f"'sha256-{base64.b64encode(hashlib.sha256(text.encode()).digest()).decode()}'"


def test_what_cannot_be_read_has_a_page_with_what_was_found(read_page: Callable[[bytes], Any]) -> None:
    read = read_page(page("recipe: [unclosed\n"))
    assert "It could not be read." in read.words
    assert "recipe: [unclosed" in read.words


def test_a_huge_recipe_has_a_page_that_says_what_it_leaves_out(read_page: Callable[[bytes], Any]) -> None:
    grist = "".join(f"  - {{grain: pale ale malt, weight: {n + 1} g}}\n" for n in range(300))
    hops = "".join("  - {hop: Fuggle, weight: 1 g, alpha: 4 %, boil: 60 min}\n" for _ in range(120))
    rests = ", ".join("{at: 66 °C, for: 5 min}" for _ in range(60))
    text = f"recipe: Heap\nbatch: 20 l\ngrist:\n{grist}mash: {{rests: [{rests}]}}\nhops:\n{hops}#{'x' * 900_000}\n"
    content = page(text)
    assert len(content) < MOST_BYTES
    words = read_page(content).words
    assert "and 240 lines more" in words
    assert "and 60 more" in words


def test_pages_of_files_that_a_file_system_takes_for_one_are_two() -> None:
    paths = [
        "a/Bitter.yaml",
        "a/bitter.yaml",
        "a/bitter.yml",
        "../a/x.yaml",
        "a/x.yaml",
        "a b#c?d%20&'x/é.yaml",
        "a/.yaml",
    ]
    pages = pages_of(paths)
    assert len({one.casefold() for one in pages.values()}) == len(paths)
    assert pages["a/bitter.yml"] == "recipes/a/bitter.yml.html"
    assert pages["../a/x.yaml"] == "recipes/above/a/x.html"
    assert link("index.html", pages["a b#c?d%20&'x/é.yaml"]) == "recipes/a%20b%23c_d%2520%26%27x/%C3%A9.html"
    assert link("recipes/a/x.html", "index.html") == "../../index.html"
    assert all(len(step.encode()) < 200 for step in page_of(f"{'é' * 120}/{'w' * 250}.yaml").split("/"))


def test_the_same_recipes_make_the_same_bytes_anywhere(tmp_path: Path) -> None:
    """Another hash seed, time zone, locale and number of processes change nothing."""
    books = []
    for number, (seed, zone, jobs) in enumerate((("1", "UTC", "1"), ("77", "Pacific/Auckland", "2"))):
        call = [
            sys.executable,
            "-m",
            "mashwright",
            "book",
            "house",
            "notebook",
            "--output",
            str(tmp_path / str(number)),
        ]
        environment = {**os.environ, "PYTHONHASHSEED": seed, "TZ": zone, "LC_ALL": "C" if number else "C.UTF-8"}
        done = subprocess.run(
            [*call, "--jobs", jobs, "--today", TODAY], cwd=SAMPLES, env=environment, capture_output=True, check=False
        )
        assert done.returncode == 0, done.stderr
        root = tmp_path / str(number)
        books.append({str(one.relative_to(root)): one.read_bytes() for one in root.rglob("*") if one.is_file()})
    assert books[0] == books[1]
    assert len(books[0]) > 15
    assert not any(re.search(rb"/tmp/|/home/|/work/", content) for content in books[0].values())


def test_the_index_says_all_in_words_and_sorts_without_a_script(read_page: Callable[[bytes], Any]) -> None:
    rows = [row_of(account(path.read_text(encoding="utf-8"), path.name), page_of(path.name)) for path in RECIPES[:12]]
    read = read_page(index_page(reversed(rows), "Saltmarsh Lane"))
    names = [row.name for row in rows]
    places = [read.words.index(name) for name in sorted(names, key=str.casefold)]
    assert places == sorted(places)
    assert index_page(rows, "Saltmarsh Lane") == index_page(reversed(rows), "Saltmarsh Lane")
    buttons = [name for name, _ in read.elements if name == "button"]
    assert not buttons  # the script makes them, so that nobody without it meets a dead one
    assert "12 recipes" in read.words


def test_a_large_collection_stands_on_shelves(read_page: Callable[[bytes], Any], inert: Callable[[Any], None]) -> None:
    row = row_of(account((SAMPLES / "house/harbour-wheat.yaml").read_text(encoding="utf-8")), "x")
    paths = [f"{'abc'[number % 3]}/beer-{number}.yaml" for number in range(1000)]
    rows = [replace(row, path=path, page=page_of(path), name=path) for path in paths]
    made = dict(index_pages(rows, "Lane"))
    assert sorted(made) == sorted(index_places({path: path for path in paths}))
    assert len(made) == 1 + 3 * 5
    linked: list[str] = []
    for place, content in made.items():
        assert len(content) < MOST_BYTES
        read = read_page(content)
        inert(read)
        linked += [one for one in read.links if "recipes/" in one]
        assert sum(one.startswith("shelves/") for one in read.links) == (15 if place == "index.html" else 0)
        assert len([name for name, _ in read.elements if name == "tr"]) <= ON_A_SHELF + 1
    assert len(set(linked)) == 1000


def test_each_rule_has_its_page_and_findings_lead_to_it(
    read_page: Callable[[bytes], Any], inert: Callable[[Any], None]
) -> None:
    pages = reference_made("Lane")
    for place, content in pages.items():
        assert len(content) < MOST_BYTES, place
        read = read_page(content)
        inert(read)
        for one in read.links:
            target = (
                os.path.normpath(os.path.join(os.path.dirname(place), one.partition("#")[0]))
                if one[0] != "#"
                else place
            )
            assert target in pages or target == "index.html", one
    for info in rule_infos():
        words = read_page(pages[f"rules/{info.id}.html"]).words
        assert info.question in words
    enzymes = read_page(pages["rules/enzyme-sufficiency.html"]).words
    assert "30 °Lintner (may be 10 to 100 °Lintner)" in enzymes
    assert "A recipe in which it finds something" in enzymes
    faulty = (SAMPLES / "lessons/short-lunch.yaml").read_text(encoding="utf-8")
    read = read_page(recipe_page(account(faulty), "recipes/lessons/a.html", "Lane", ["conversion-time"]))
    assert "../../rules/conversion-time.html" in read.links
    words = read_page(pages["words.html"]).words
    assert all(term in words for term in TERMS)
    assert "°Lintner" in words
