"""What a link in a stranger's repository may lead to; of anything else not a letter is told."""

import os
from collections.abc import Callable
from pathlib import Path
from typing import NamedTuple

import pytest

from mashwright.reviewing.collection import Collection
from mashwright.reviewing.files import load
from mashwright.reviewing.links import refusal
from mashwright.reviewing.read_house import NO_BREWHOUSE
from mashwright.reviewing.settings import Run

Make = Callable[..., Collection]
Tell = Callable[..., list[str]]

RECIPE = "recipe: Light\nbatch: 20 l\ngrist:\n  - {grain: pale ale malt, weight: 5 kg}\n"
SECRET = "root: {password: wholly-secret}\nkettel: wholly-secret\nbrewhouse: wholly-secret\n"
OUT = "this link leads out of its {}, so it is not followed; use the file itself"
HIDDEN = "this link leads to a hidden file, so it is not followed; use the file itself"


class Places(NamedTuple):
    """A repository, and what lies beside it on the machine."""

    repository: Path
    elsewhere: Path


@pytest.fixture
def places(tmp_path: Path) -> Places:
    made = Places(tmp_path / "lane", tmp_path / "elsewhere")
    (made.repository / ".git").mkdir(parents=True)
    (made.repository / "house").mkdir()
    made.elsewhere.mkdir()
    for name in ("secret.yaml", "brewhouse.yaml", "passwd"):
        (made.elsewhere / name).write_text(SECRET)
    (made.repository / ".git" / "config").write_text(SECRET)
    (made.repository / ".env.yaml").write_text(SECRET)
    (made.repository / "credentials.json").write_text(SECRET)
    return made


@pytest.mark.parametrize(
    ("target", "message"),
    [
        ("../../elsewhere/secret.yaml", OUT.format("repository")),
        ("../../elsewhere/nothing.yaml", OUT.format("repository")),  # nor is told what is there
        ("../../lanes/x.yaml", OUT.format("repository")),
        ("/etc/passwd", OUT.format("repository")),
        ("/dev/zero", OUT.format("repository")),
        ("/proc/self/environ", OUT.format("repository")),
        ("../.git/config", HIDDEN),
        ("../.env.yaml", HIDDEN),
        ("../credentials.json", "this link leads to no .yaml file, so it is not followed; use the file itself"),
        ("link.yaml", "this link leads back to itself; use the file itself"),
        ("nowhere.yaml", "this link points to 'nowhere.yaml', which is not there; mend or delete the link"),
        ("..", "this link leads to no .yaml file, so it is not followed; use the file itself"),
    ],
)
def test_a_link_that_is_not_followed(target: str, message: str, places: Places) -> None:
    link = places.repository / "house" / "link.yaml"
    link.symlink_to(target)
    loaded = load(str(link))
    assert loaded.text == ""
    assert loaded.problem is not None
    assert loaded.problem.message == message


def test_a_link_over_a_link_or_a_linked_folder(places: Places) -> None:
    (places.repository / "door").symlink_to(places.elsewhere)
    (places.repository / "one.yaml").symlink_to("two.yaml")
    (places.repository / "two.yaml").symlink_to("door/secret.yaml")
    assert refusal(str(places.repository / "one.yaml")) == OUT.format("repository")


def test_a_link_inside_the_repository_is_followed(places: Places, monkeypatch: pytest.MonkeyPatch) -> None:
    (places.repository / "house" / "a.yaml").write_text(RECIPE)
    (places.repository / "b.yaml").symlink_to("house/a.yaml")
    (places.repository / "house" / "c.YML").symlink_to(places.repository / "b.yaml")
    for name in ("b.yaml", "house/c.YML"):
        assert load(str(places.repository / name)) == (RECIPE, None)
    monkeypatch.chdir(places.repository / "house")
    assert load("../b.yaml") == load("c.YML") == (RECIPE, None)
    # the repository itself may be reached over a link
    (places.elsewhere / "way").symlink_to(places.repository)
    assert load(str(places.elsewhere / "way" / "b.yaml")) == (RECIPE, None)


def test_without_a_repository_a_link_stays_in_its_folder(tmp_path: Path) -> None:
    (tmp_path / "in").mkdir()
    (tmp_path / "in" / "a.yaml").write_text(RECIPE)
    (tmp_path / "b.yaml").symlink_to("in/a.yaml")
    (tmp_path / "in" / "c.yaml").symlink_to("../d.yaml")
    (tmp_path / "d.yaml").write_text(RECIPE)
    assert load(str(tmp_path / "b.yaml")) == (RECIPE, None)
    assert refusal(str(tmp_path / "in" / "c.yaml")) == OUT.format("folder")
    assert refusal(str(tmp_path / "d.yaml")) == refusal(str(tmp_path / "nothing.yaml")) == ""


@pytest.mark.parametrize("target", ["../elsewhere/brewhouse.yaml", "/etc/passwd", ".git/config", "/dev/zero"])
def test_a_brewhouse_that_is_a_link_tells_nothing(
    target: str, places: Places, monkeypatch: pytest.MonkeyPatch, lines: Tell
) -> None:
    monkeypatch.chdir(places.repository)
    (places.repository / "brewhouse.yaml").symlink_to(target)
    (places.repository / "a.yaml").write_text(RECIPE)
    made = Collection(Run("2026-01-01"))
    told = lines(made.paths(("a.yaml", "brewhouse.yaml")))
    why = HIDDEN if target.startswith(".git") else OUT.format("repository")
    assert [one for one in told if one.startswith("brewhouse")] == [f"brewhouse.yaml:1:1: error: unreadable: {why}"]
    assert made.sum.reviewed == 1
    assert made.wrong_houses


def test_a_link_taking_the_place_of_a_file_that_was_looked_at_is_not_followed(
    places: Places, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = places.repository / "a.yaml"
    path.write_text(RECIPE)
    look = os.lstat

    def look_and_turn(asked: str) -> os.stat_result:
        status = look(asked)
        path.unlink()
        path.symlink_to(places.elsewhere / "secret.yaml")
        return status

    with monkeypatch.context() as patch:
        patch.setattr(os, "lstat", look_and_turn)
        loaded = load(str(path))
    assert loaded.text == ""
    assert loaded.problem is not None


@pytest.mark.parametrize(
    "text",
    [
        "root:x:0:0:root:/root:/bin/bash\ndaemon:x:1:1:wholly-secret:/:/bin/sh\n",
        "-----BEGIN KEY-----\nwholly-secret=\n-----END KEY-----\n",
        "PASSWORD=wholly-secret\n",
        "[http]\n\theader = wholly-secret\n",
        "users:\n- {name: wholly-secret}\nwholly-secret: 1\nwholly-secret: 2\n",
        '{"type": "account", "wholly-secret": "wholly-secret"}\n',
        "a: b: wholly-secret\n",
        "x: *wholly-secret\n",
        "!wholly-secret x\n",
    ],
)
def test_of_a_file_that_is_no_brewhouse_nothing_is_told(text: str, collection: Make, lines: Tell) -> None:
    made = collection({"brewhouse.yaml": text})
    assert lines(made.paths(("brewhouse.yaml",))) == [f"brewhouse.yaml:1:1: error: field: {NO_BREWHOUSE}"]


ON_THE_WAY = "the folder door is a link that leads {}, so it is not followed; use the folder itself"


@pytest.mark.parametrize(
    ("target", "where"),
    [
        ("../elsewhere", "out of its repository"),
        ("/etc", "out of its repository"),
        ("/nowhere/at/all", "out of its repository"),
        (".git", "to a hidden folder"),
        (".cellar", "to a hidden folder"),
        ("over", "out of its repository"),
    ],
)
@pytest.mark.parametrize(
    "path", ["door/secret.yaml", "door/config", "door/brewhouse.yaml", "door/../door/a.yaml", "door/"]
)
def test_a_folder_on_the_way_that_is_a_link(
    target: str, where: str, path: str, places: Places, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Whoever names a path in a CI file does not say what a pull request makes of the folders in it."""
    monkeypatch.chdir(places.repository)
    (places.repository / ".cellar").mkdir()
    (places.repository / "over").symlink_to(places.elsewhere)
    (places.repository / "door").symlink_to(target)
    for named in (path, f"./{path}", f"{places.repository}/{path}"):
        loaded = load(named)
        assert loaded.text == ""
        assert loaded.problem is not None
        assert loaded.problem.message == ON_THE_WAY.format(where)


@pytest.mark.parametrize("named", ["door", "door/", "door/deep", "./door", "door/secret.yaml"])
def test_a_review_by_way_of_a_linked_folder_tells_nothing(
    named: str, places: Places, monkeypatch: pytest.MonkeyPatch, lines: Tell
) -> None:
    monkeypatch.chdir(places.repository)
    (places.elsewhere / "deep").mkdir()
    (places.elsewhere / "deep" / "wholly-secret.yaml").write_text(RECIPE)
    (places.repository / "door").symlink_to(places.elsewhere)
    made = Collection(Run("2026-01-01"))
    told = lines(made.paths((named,)))
    assert told
    assert all(one.endswith(f": error: unreadable: {ON_THE_WAY.format('out of its repository')}") for one in told)
    assert "wholly-secret" not in str(told)
    assert made.sum.failing


def test_a_linked_folder_inside_the_repository_or_outside_of_any_is_followed(places: Places, tmp_path: Path) -> None:
    (places.repository / "house" / "a.yaml").write_text(RECIPE)
    (places.repository / "door").symlink_to("house")
    assert load(str(places.repository / "door" / "a.yaml")) == (RECIPE, None)
    # a person's own folder, such as a home on another disk
    (tmp_path / "far").mkdir()
    (tmp_path / "near").mkdir()
    (tmp_path / "far" / "b.yaml").write_text(RECIPE)
    (tmp_path / "near" / "brewing").symlink_to("../far")
    assert load(str(tmp_path / "near" / "brewing" / "b.yaml")) == (RECIPE, None)
