"""The steps of a review: each takes what the one before gave, and each file is parsed once in a run."""

from collections import Counter
from collections.abc import Callable
from pathlib import Path

import pytest

import mashwright
from mashwright.cli.command import run
from mashwright.finding import Level
from mashwright.reading import document as reading
from mashwright.recipe import build as building
from mashwright.reviewing import read as reading_step
from mashwright.reviewing.collection import Collection
from mashwright.reviewing.houses import unsaved
from mashwright.reviewing.judge import judge
from mashwright.reviewing.mend import mend
from mashwright.reviewing.place import place
from mashwright.reviewing.read import read
from mashwright.reviewing.results import Result

Install = Callable[..., None]
Make = Callable[..., Collection]

TOP = "recipe: Light\nbatch: 20 l\n"
GRIST = "grist:\n  - {grain: pale ale malt, weight: 2 kg}\n"
MISREAD = GRIST + "boil: {for: 3}\n"


@pytest.fixture
def light(install: Install, light_grist: str) -> None:
    install(ours={"light_grist": light_grist})


def results(text: str, *, mended: bool) -> tuple[Result, ...]:
    judged = judge(read(text, "a.yaml"), unsaved("{}").house)
    return place(mend(judged) if mended else judged).results


@pytest.mark.usefixtures("light")
def test_the_steps_by_themselves_say_what_the_review_says() -> None:
    judged = judge(read(TOP + GRIST, "a.yaml"), unsaved("{}").house)
    mended = mend(judged)
    placed = place(mended)
    assert placed.results == mashwright.review_text(TOP + GRIST, "a.yaml", brewhouse="{}").recipes[0].results
    assert [one.finding.remedies for one in judged.found] == [()], "what was judged before stays as it was"
    assert [len(one.finding.remedies) for one in mended.found] == [1]
    with pytest.raises(AttributeError):
        judged.unsearched = 3  # type: ignore[misc]


@pytest.mark.usefixtures("light")
def test_a_judgement_can_be_placed_without_a_mend() -> None:
    (plain,), (mended,) = (results(TOP + GRIST, mended=wanted) for wanted in (False, True))
    assert (plain.rule, plain.place, plain.message) == (mended.rule, mended.place, mended.message)
    assert plain.remedies == ()
    assert mended.remedies != ()


@pytest.mark.usefixtures("light")
def test_what_reading_says_is_placed_first() -> None:
    assert [(one.rule, one.place.line) for one in results(TOP + MISREAD, mended=True)] == [
        ("quantity", 5),
        ("light-grist", 4),
    ]


def test_a_text_in_which_nothing_can_be_judged() -> None:
    broken, other = read("recipe: [\n", "a.yaml"), read("pets: [cat]\n", "a.yaml")
    assert (broken.recipe, broken.judgeable, other.judgeable) == (None, None, None)
    assert [(one.rule, one.level) for one in broken.misread] == [("unreadable", Level.ERROR)]
    assert {one.rule for one in other.misread} == {"field"}


@pytest.fixture
def parsed(monkeypatch: pytest.MonkeyPatch) -> Counter[str]:
    """How often each text was parsed, and each recipe built; by its first line."""
    counts = Counter[str]()
    parse, make = reading.build, building.build_recipe

    def counted(text: str, *rest: object) -> object:
        counts[f"parsed {text.splitlines()[0]}"] += 1
        return parse(text, *rest)  # type: ignore[arg-type]

    def built(document: reading.Document) -> object:
        counts[f"built {document.text.splitlines()[0]}"] += 1
        return make(document)

    monkeypatch.setattr(reading, "build", counted)
    monkeypatch.setattr(reading_step, "build_recipe", built)
    return counts


HOUSE = "brewhouse: Shed\naccepted:\n  - {rule: light-grist, reason: it is meant so, until: 2025-01-01}\n"
ONCE = {"parsed recipe: Light": 1, "built recipe: Light": 1, "parsed brewhouse: Shed": 1}


@pytest.mark.parametrize(
    "arguments",
    [
        ("review", "--jobs", "1"),
        ("review", "--audit", "--jobs", "1"),
        ("review", "--format", "json", "--jobs", "1"),
        ("figures", "club/a.yaml"),
    ],
)
def test_each_file_is_parsed_and_built_once(
    arguments: tuple[str, ...], parsed: Counter[str], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / "club").mkdir()
    (tmp_path / "club" / "a.yaml").write_text(TOP + GRIST)
    (tmp_path / "club" / "brewhouse.yaml").write_text(HOUSE)
    monkeypatch.chdir(tmp_path)
    run(list(arguments))
    assert parsed == ONCE


def test_so_it_is_beside_a_trusted_copy(parsed: Counter[str], tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    own = "accepted:\n  - {rule: light-grist, reason: it is meant so}\n"
    for copy, recipe, house in (("here", TOP + GRIST + own, HOUSE.replace("Shed", "Barn")), ("there", "", HOUSE)):
        (tmp_path / copy).mkdir()
        (tmp_path / copy / "a.yaml").write_text(recipe)
        (tmp_path / copy / "brewhouse.yaml").write_text(house)
    (tmp_path / "there" / "a.yaml").write_text("recipe: Trusted\n" + GRIST)
    monkeypatch.chdir(tmp_path / "here")
    run(["review", "--trusted", "../there", "--jobs", "1"])
    assert parsed == {**ONCE, "parsed brewhouse: Barn": 1, "parsed recipe: Trusted": 1}


PAIR = '''
"""Is the name new?"""
from mashwright.rule import Finding, Level

def gather(brew):
    return brew.recipe.name

def check_collection(gathered, limits):
    for path, name in gathered[1:]:
        yield path, Finding(("recipe",), Level.ERROR, "again")
'''


def test_for_the_places_of_what_is_found_in_the_collection_a_recipe_is_parsed_once_more_and_not_built(
    install: Install, collection: Make, parsed: Counter[str]
) -> None:
    install(ours={"pair": PAIR, "other": PAIR})
    made = collection({"a.yaml": TOP + GRIST, "b.yaml": "recipe: Heavy\nbatch: 20 l\n" + GRIST})
    found = [(one.path, [result.rule for result in one.results]) for one in made.paths((".",))]
    assert found == [("a.yaml", []), ("b.yaml", []), ("b.yaml", ["other", "pair"])]
    assert parsed == {
        "parsed recipe: Light": 1,
        "built recipe: Light": 1,
        "parsed recipe: Heavy": 2,
        "built recipe: Heavy": 1,
    }
