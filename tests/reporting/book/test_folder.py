"""The folder of a book: nothing strange is ever taken away, and what did not change is not written."""

from pathlib import Path

import pytest

from mashwright.reporting.book.folder import MARKER, Folder, FolderError


def write(path: Path, **pages: str) -> tuple[int, int]:
    folder = Folder(str(path))
    folder.begin(f"{name}.html" for name in pages)
    for name, content in pages.items():
        folder.put(f"{name}.html", content.encode())
    gone = folder.end()
    return folder.written, gone


def names(path: Path) -> list[str]:
    return sorted(str(one.relative_to(path)) for one in path.rglob("*") if one.is_file())


def test_a_second_book_writes_what_changed_and_takes_away_what_is_no_more(tmp_path: Path) -> None:
    book = tmp_path / "book"
    assert write(book, **{"index": "a", "recipes/x/one": "b", "recipes/y/two": "c"}) == (3, 0)
    (book / "notes.txt").write_text("mine")
    before = (book / "index.html").stat().st_mtime_ns
    assert write(book, **{"index": "a", "recipes/y/two": "d"}) == (1, 1)
    assert (book / "index.html").stat().st_mtime_ns == before
    assert names(book) == [MARKER, "index.html", "notes.txt", "recipes/y/two.html"]
    assert not (book / "recipes" / "x").exists()
    assert (book / "recipes/y/two.html").read_text() == "d"


def test_a_strange_file_keeps_its_place(tmp_path: Path) -> None:
    book = tmp_path / "book"
    write(book, index="a")
    (book / "mild.html").write_text("mine")
    with pytest.raises(FolderError, match=r"mild\.html is not of this book"):
        write(book, index="b", mild="c")
    assert (book / "mild.html").read_text() == "mine"
    assert (book / "index.html").read_text() == "a"


@pytest.mark.parametrize(
    "listed", ["../out.html", "/out.html", "a/../../out.html", "a//out.html", "notes.txt", "C:out.html"]
)
def test_a_list_that_somebody_wrote_leads_nowhere(tmp_path: Path, listed: str) -> None:
    book = tmp_path / "book"
    write(book, index="a")
    (tmp_path / "out.html").write_text("mine")
    (book / "notes.txt").write_text("mine")
    place = f"{tmp_path}{listed}" if listed.startswith("/") else listed
    (book / MARKER).write_text(f"mashwright book 1\nindex.html\n{place}\n")
    assert write(book, index="b") == (1, 0)
    assert (tmp_path / "out.html").read_text() == "mine"
    assert (book / "notes.txt").read_text() == "mine"


def test_no_link_is_written_through(tmp_path: Path) -> None:
    book, out = tmp_path / "book", tmp_path / "out"
    out.mkdir()
    (out / "one.html").write_text("mine")
    write(book, index="a", **{"recipes/one": "x"})
    (book / "recipes" / "one.html").unlink()
    (book / "recipes").rmdir()
    (book / "recipes").symlink_to(out)
    with pytest.raises(FolderError, match="is a link"):
        write(book, index="a", **{"recipes/one": "y"})
    assert (out / "one.html").read_text() == "mine"
    (tmp_path / "link").symlink_to(out)
    with pytest.raises(FolderError, match="is a link"):
        Folder(str(tmp_path / "link"))


@pytest.mark.parametrize("kind", ["file", "folder", "false marker"])
def test_what_is_no_book_is_not_written_into(tmp_path: Path, kind: str) -> None:
    book = tmp_path / "book"
    if kind == "file":
        book.write_text("x")
    else:
        book.mkdir()
        (book / ("x" if kind == "folder" else MARKER)).write_text("x")
    with pytest.raises(FolderError):
        Folder(str(book))


def test_a_run_that_stops_leaves_the_old_pages_whole_and_known(tmp_path: Path) -> None:
    book = tmp_path / "book"
    write(book, index="a", old="o")
    folder = Folder(str(book))
    folder.begin(["index.html", "new.html"])
    folder.put("new.html", b"n")
    del folder  # stopped
    assert {name: (book / name).read_text() for name in ("index.html", "old.html")} == {
        "index.html": "a",
        "old.html": "o",
    }
    assert write(book, index="b") == (1, 2)
    assert names(book) == [MARKER, "index.html"]
