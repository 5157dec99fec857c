"""Reads pages back as a browser would: their elements, links, ids and text."""

from collections.abc import Callable
from html.parser import HTMLParser

import pytest

ELEMENTS = {
    "html", "head", "meta", "title", "style", "script", "body", "nav", "main", "footer", "section", "div", "span", "p",
    "a", "b", "br", "bdi", "ul", "ol", "li", "dl", "dt", "dd", "h1", "h2", "h3", "pre", "details", "summary", "figure",
    "figcaption", "table", "caption", "thead", "tbody", "tr", "th", "td", "label", "input", "select", "option",
    "svg", "desc", "g", "line", "rect", "path", "text", "circle",
}  # fmt: skip
"""All that a page is made of."""
EMPTY = {"meta", "input", "br"}


class Page(HTMLParser):
    """A page read back.

    Attributes:
        elements: name and attributes of each.
        words: the text that a reader sees or hears.
        scripts, styles: what stands in these elements.
    """

    def __init__(self, content: bytes) -> None:
        super().__init__(convert_charrefs=True)
        self.elements: list[tuple[str, dict[str, str | None]]] = []
        self.scripts: list[str] = []
        self.styles: list[str] = []
        self.words = ""
        self._open: list[str] = []
        self.feed(content.decode("utf-8"))
        self.close()
        assert not self._open, self._open

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.elements.append((tag, dict(attrs)))
        if tag not in EMPTY:
            self._open.append(tag)

    def handle_endtag(self, tag: str) -> None:
        assert self._open.pop() == tag

    def handle_data(self, data: str) -> None:
        last = self._open[-1] if self._open else ""
        if last == "script":
            self.scripts.append(data)
        elif last == "style":
            self.styles.append(data)
        else:
            self.words += data

    @property
    def links(self) -> list[str]:
        return [attributes["href"] or "" for _, attributes in self.elements if "href" in attributes]

    @property
    def ids(self) -> list[str]:
        return [attributes["id"] or "" for _, attributes in self.elements if "id" in attributes]


def assert_inert(page: Page) -> None:
    """Nothing on a page runs, fetches or leads away."""
    for name, attributes in page.elements:
        assert name in ELEMENTS, name
        for attribute in attributes:
            assert not attribute.startswith("on"), (name, attribute)
            assert attribute not in ("style", "src", "srcset", "action", "formaction", "ping", "xlink:href"), name
    for link in page.links:
        assert link.startswith("#") or (":" not in link and link.partition("#")[0].endswith(".html")), link
    assert len(set(page.ids)) == len(page.ids)


@pytest.fixture(scope="session")
def read_page() -> type[Page]:
    """Reads a page back."""
    return Page


@pytest.fixture(scope="session")
def inert() -> Callable[[Page], None]:
    """Sees that nothing on a page runs, fetches or leads away."""
    return assert_inert
