"""Which packages bring rules is read as Python itself reads it, however installers have written it down."""

import sys
import zipfile
from collections.abc import Callable
from pathlib import Path

import pytest

from mashwright.reviewing import entries as room
from mashwright.reviewing.entries import Entry, entries, entries_by_python

GROUP = "mashwright.rules"
CLUB = "[mashwright.rules]\nclub = club_rules\n"
Site = Callable[..., Path]


@pytest.fixture
def site(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Site:
    """Makes folders of what is installed, each of file names and texts, that alone are on the path."""

    def make(*folders: dict[str, str]) -> Path:
        for number, files in enumerate(folders):
            for name, text in files.items():
                file = tmp_path / str(number) / name
                file.parent.mkdir(parents=True, exist_ok=True)
                file.write_text(text, encoding="utf-8")
        monkeypatch.setattr(sys, "path", [str(tmp_path / str(number)) for number in range(len(folders))])
        monkeypatch.setattr(sys, "meta_path", [one for one in sys.meta_path if "_pytest" not in type(one).__module__])
        return tmp_path

    return make


def about(name: str, points: str = CLUB, version: str = "1.0") -> dict[str, str]:
    folder = f"{name}-{version}.dist-info"
    metadata = f"Metadata-Version: 2.4\nName: {name}\nVersion: {version}\n\nA long story.\nName: other\n"
    return {f"{folder}/METADATA": metadata, f"{folder}/entry_points.txt": points}


PLAIN: dict[str, tuple[dict[str, str], ...]] = {
    "one": (about("club-rules"),),
    "none": ({"club-1.0.dist-info/METADATA": "Name: club\n"},),
    "two of one": (about("club", CLUB + "second = club_rules.more\n"),),
    "other groups, comments and blanks": (
        about("club", f"# a club\n[console_scripts]\nclub=club:main [extra]\n\n{CLUB}# end\n  odd  =  odd.rules  \n"),
    ),
    "twice the group": (about("club", f"{CLUB}[other]\nx = y\n[mashwright.rules]\nagain = club_rules\n"),),
    "another group that is called alike": (about("club", "[mashwright.rules.more]\nclub = club_rules\n"),),
    "an old copy behind it": (about("club"), about("club", "[mashwright.rules]\nold = old_rules\n", "0.9")),
    "a copy without rules before it": (about("club", ""), about("club")),
    "another spelling of its name": (
        about("Club.Rules"),
        about("club__rules", "[mashwright.rules]\nold = old_rules\n"),
    ),
    "several, of several folders": ({**about("b_rules"), **about("a.rules")}, about("c-rules")),
    "a folder that is a file": (about("club"), {"club.dist-info": "no folder", "x/y": ""}),
    "a name that is not ASCII behind it": (about("club", CLUB + "[ö]\nä = ü\n"),),
}
NOBODY = ("none", "another group that is called alike", "a copy without rules before it")
ODD: dict[str, tuple[dict[str, str], ...]] = {
    "an egg's": ({"club.egg-info/PKG-INFO": "Name: club\n", "club.egg-info/entry_points.txt": CLUB},),
    "with an object": (about("club", "[mashwright.rules]\nclub = club_rules:rules\n"),),
    "with extras": (about("club", "[mashwright.rules]\nclub = club_rules [extra]\n"),),
    "a name over two lines": (
        {"club-1.0.dist-info/METADATA": "Name: club\n rules\n", "club-1.0.dist-info/entry_points.txt": CLUB},
    ),
    "a name in another case of letters": (
        {"club-1.0.dist-info/METADATA": "name:club\n", "club-1.0.dist-info/entry_points.txt": CLUB},
    ),
}


@pytest.mark.parametrize("case", PLAIN)
def test_what_is_written_plainly_is_read_here(case: str, site: Site, monkeypatch: pytest.MonkeyPatch) -> None:
    site(*PLAIN[case])
    expected = entries_by_python(GROUP)
    monkeypatch.setattr(room, "entries_by_python", lambda _: pytest.fail("it was left to Python"))
    assert sorted(entries(GROUP)) == sorted(expected)
    assert bool(expected) == (
        case not in ("none", "another group that is called alike", "a copy without rules before it")
    )


@pytest.mark.parametrize("case", ODD)
def test_what_is_not_is_left_to_python(case: str, site: Site, monkeypatch: pytest.MonkeyPatch) -> None:
    site(*ODD[case])
    found = entries(GROUP)
    assert len(found) == 1
    assert found == entries_by_python(GROUP)
    monkeypatch.setattr(room, "entries_by_python", lambda _: [])
    assert entries(GROUP) == []


@pytest.mark.parametrize(
    ("name", "content"),
    [
        ("entry_points.txt", b"[mashwright.rules]\nclub\n"),
        ("entry_points.txt", CLUB.encode() + b"# \xff\n"),
        ("METADATA", b"Name: \xff\n"),
        ("METADATA", b"Version: 1.0\n\nName: club\n"),
    ],
)
def test_what_is_broken_ends_as_it_does_in_python(name: str, content: bytes, site: Site) -> None:
    folder = site(about("club"))
    (folder / "0/club-1.0.dist-info" / name).write_bytes(content)
    assert outcome(entries) == outcome(entries_by_python)


def outcome(read: Callable[[str], list[Entry]]) -> object:
    try:
        return read(GROUP)
    except Exception as error:  # noqa: BLE001  (which one it is, differs between Pythons)
        return type(error), str(error)


def test_an_archive_on_the_path_is_left_to_python(site: Site, monkeypatch: pytest.MonkeyPatch) -> None:
    folder = site()
    with zipfile.ZipFile(folder / "club.zip", "w") as archive:
        for name, text in about("club").items():
            archive.writestr(name, text)
    monkeypatch.setattr(sys, "path", [str(folder / "club.zip"), str(folder / "nowhere")])
    assert entries(GROUP) == [Entry("club", "club_rules", "club")]


def test_a_finder_of_distributions_of_its_own_is_asked(site: Site, monkeypatch: pytest.MonkeyPatch) -> None:
    site(about("club"))

    class Finder:
        find_distributions = find_spec = staticmethod(lambda *_, **__: ())

    monkeypatch.setattr(sys, "meta_path", [*sys.meta_path, Finder()])
    monkeypatch.setattr(room, "entries_by_python", lambda _: [Entry("asked", "asked", "asked")])
    assert entries(GROUP) == [Entry("asked", "asked", "asked")]
