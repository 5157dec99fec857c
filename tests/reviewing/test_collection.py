"""Which files are reviewed, on which brewhouse, and what is counted."""

# ruff: noqa: E501 -- a finding is asserted whole, on its line

import os
from collections.abc import Callable
from pathlib import Path

import pytest

from mashwright.finding import Level
from mashwright.reviewing import ordinary
from mashwright.reviewing.collection import Collection
from mashwright.reviewing.results import Counts

Make = Callable[..., Collection]
Tell = Callable[..., list[str]]

SOUND = "recipe: Sound\nbatch: 20 l\ngrist:\n  - {grain: pale ale malt, weight: 4 kg}\n"
LIGHT = SOUND.replace("4 kg", "2 kg")
TOLD = "4:6: error: light-grist: the grist weighs 2 kg; below 3 kg it is no grist"


@pytest.fixture(autouse=True)
def one_rule(install: Callable[..., None], light_grist: str) -> None:
    install(ours={"light_grist": light_grist})


def test_a_folder_gives_its_recipes_in_order(collection: Make, lines: Tell) -> None:
    made = collection(
        {
            "b.yaml": LIGHT,
            "a.yml": SOUND,
            "z/c.yaml": SOUND,
            "other.yaml": "name: x\n",
            ".hidden/d.yaml": LIGHT,
            "e.txt": LIGHT,
        }
    )
    assert lines(made.paths((".",))) == ["a.yml: nothing", f"b.yaml:{TOLD}", "z/c.yaml: nothing"]
    assert made.sum.counts() == Counts(reviewed=3, skipped=1, errors=1, warnings=0, notes=0)
    assert (made.sum.failing, made.search.missing, made.faults, made.wrong_houses) == (True, [], [], False)


def test_a_named_file_is_taken_for_a_recipe(collection: Make, lines: Tell) -> None:
    made = collection({"other.yaml": "name: x\n", "empty.yaml": "", "notes.txt": SOUND})
    assert lines(made.paths(("other.yaml", "empty.yaml", "notes.txt"))) == [
        "other.yaml:1:1: error: field: this is not a recipe: it has no `recipe:`, `batch:` or `grist:`",
        (
            "empty.yaml:1:1: error: unreadable: this file has only spaces and comments;"
            " a recipe starts with a line such as recipe: House Bitter"
        ),
        "notes.txt: nothing",
    ]


def test_a_hook_passes_over_what_is_no_recipe_and_counts_it(collection: Make, lines: Tell) -> None:
    made = collection(
        {"a.yaml": SOUND, "other.yaml": "name: x\n", "empty.yaml": "", "broken.yaml": "a: [\n"}, skip_others=True
    )
    Path("latin.yaml").write_bytes("name: Bräu\n".encode("latin-1"))
    Path("large.yaml").write_bytes(b"a: 1\n" * 300_000)
    Path("wide.yaml").write_bytes("recipe: Bräu\n".encode("utf-16"))
    named = ("a.yaml", "other.yaml", "empty.yaml", "broken.yaml", "latin.yaml", "large.yaml", "wide.yaml")
    assert lines(made.paths(named)) == [
        "a.yaml: nothing",
        "wide.yaml:1:1: error: unreadable: this file is UTF-16 text; save it as UTF-8",
    ]
    assert made.sum.counts() == Counts(reviewed=2, skipped=5, errors=1)


def test_a_walk_tells_of_a_file_that_it_cannot_open(
    collection: Make, lines: Tell, monkeypatch: pytest.MonkeyPatch
) -> None:
    made = collection({"a.yaml": "name: x\n"})

    def fail(*_: object, **__: object) -> None:
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(ordinary, "open", fail, raising=False)
    assert lines(made.paths((".",))) == [
        "a.yaml:1:1: error: unreadable: this file may not be read; give yourself permission to read it"
    ]


def test_a_file_that_vanishes_during_the_walk(collection: Make, lines: Tell) -> None:
    made = collection({"a.yaml": SOUND, "b.yaml": SOUND})
    reviewed = made.paths((".",))
    first = lines(iter([next(reviewed)]))
    os.unlink("b.yaml")
    assert first + lines(reviewed) == [
        "a.yaml: nothing",
        "b.yaml:1:1: error: unreadable: this file was there a moment ago and is gone; was it moved while it was read?",
    ]


def test_paths_that_are_not_there(collection: Make, lines: Tell) -> None:
    made = collection({"a.yaml": SOUND})
    Path("broken.yaml").symlink_to("nowhere.yaml")
    assert lines(made.paths(("gone.yaml", "a.yaml", "broken.yaml", "gone"))) == [
        "a.yaml: nothing",
        "broken.yaml:1:1: error: unreadable: this link points to 'nowhere.yaml', which is not there; mend or delete the link",
    ]
    assert made.search.missing == ["gone.yaml", "gone"]


def test_a_folder_with_the_name_of_a_file(collection: Make, lines: Tell) -> None:
    made = collection({"x.yaml/a.yaml": SOUND})
    assert lines(made.paths((".",))) == ["x.yaml/a.yaml: nothing"]


def test_the_nearest_brewhouse_up_to_the_root_of_the_repository(collection: Make, lines: Tell) -> None:
    rules = "rules: {light-grist: {floor: %s kg}}\n"
    made = collection(
        {
            "brewhouse.yaml": "brewhouse: Outer\n" + rules % 1,
            "a.yaml": LIGHT,
            "in/b.yaml": LIGHT,
            "deep/brewhouse.yml": "brewhouse: Inner\n" + rules % 6,
            "deep/er/c.yaml": SOUND,
            "repo/.git/config": "",
            "repo/d.yaml": LIGHT,
        }
    )
    assert lines(made.paths((".",))) == [
        "a.yaml: nothing",
        "deep/er/c.yaml:4:6: error: light-grist: the grist weighs 4 kg; below 6 kg it is no grist",
        "in/b.yaml: nothing",
        f"repo/d.yaml:{TOLD}",
    ]


def test_a_faulty_brewhouse_is_told_once_before_its_first_recipe(collection: Make, lines: Tell) -> None:
    house = "brewhous: Shed\nefficiency: 72\nkettle: {volume: 30 kg}\nrules: {light-grist: {flor: 2 kg}}\n"
    made = collection({"brewhouse.yaml": house, "a.yaml": SOUND, "b.yaml": SOUND})
    assert lines(made.paths((".",))) == [
        "brewhouse.yaml:1:1: error: field: `brewhous` is not known here; did you mean `brewhouse`?",
        'brewhouse.yaml:2:13: error: quantity: the efficiency "72" has no unit; write 72 %',
        'brewhouse.yaml:3:18: error: quantity: the volume "30 kg" is a weight in kg; write it in l, ml, gal, qt or pt',
        "brewhouse.yaml:4:29: error: field: light-grist has no setting flor; did you mean floor?",
        "a.yaml: nothing",
        "b.yaml: nothing",
    ]
    assert made.wrong_houses
    assert made.sum.counts() == Counts(reviewed=2, errors=4)


def test_a_brewhouse_that_is_named_is_checked_by_itself(collection: Make, lines: Tell) -> None:
    made = collection({"brewhouse.yaml": "brewhouse: [\n", "good/brewhouse.yaml": "brewhouse: Shed\n"})
    assert lines(made.paths(("brewhouse.yaml", "good/brewhouse.yaml"))) == [
        "brewhouse.yaml:1:12: error: unreadable: the [ that starts here is not closed, or lacks a comma; add ] at its end"
    ]
    assert (made.wrong_houses, made.sum.counts().reviewed) == (True, 0)


def test_a_brewhouse_says_which_files_are_recipes(collection: Make, lines: Tell) -> None:
    house = 'brewhouse: Shed\nrecipes: ["house/**/*.yaml"]\n'
    made = collection({"brewhouse.yaml": house, "house/x/a.yaml": "by: us\n", "else/b.yaml": "by: us\n"})
    told = lines(made.paths((".",)))
    assert told == ["house/x/a.yaml:1:1: error: field: this is not a recipe: it has no `recipe:`, `batch:` or `grist:`"]


@pytest.mark.parametrize(
    ("brewhouse", "stop_at", "failing"),
    [
        ("", None, False),
        ("stop-at: warning\n", None, True),
        ("stop-at: warning\n", Level.ERROR, False),
        ("stop-at: error\n", Level.WARNING, True),
        ("stop-at: note\n", None, True),
    ],
)
def test_from_which_level_a_review_fails(
    brewhouse: str, stop_at: Level | None, failing: bool, collection: Make, lines: Tell
) -> None:
    house = f"brewhouse: Shed\n{brewhouse}rules: {{light-grist: {{level: warning}}}}\n"
    made = collection({"brewhouse.yaml": house, "a.yaml": LIGHT}, stop_at=stop_at)
    assert lines(made.paths(("a.yaml",))) == [f"a.yaml:{TOLD.replace('error', 'warning')}"]
    assert made.sum.failing is failing


def test_a_text_under_a_name_finds_its_brewhouse(collection: Make, lines: Tell) -> None:
    made = collection({"in/brewhouse.yaml": "brewhouse: Shed\nrules: {light-grist: off}\n"})
    assert lines(made.text(LIGHT, "in/new.yaml")) == ["in/new.yaml: nothing"]
    assert lines(made.text(LIGHT, "new.yaml")) == [f"new.yaml:{TOLD}"]
    assert lines(made.text("brewhouse: 5 l\nkettl: {}\n", "brewhouse.yaml")) == [
        "brewhouse.yaml:2:1: error: field: `kettl` is not known here; did you mean `kettle`?"
    ]
