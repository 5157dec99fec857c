"""The book in a real browser: opened from a file, read at a desk, on a phone and in the dark, by keyboard, on paper.

Needs Chromium (the environment variable ``CHROMIUM``, or on the path), the group ``browser`` of pyproject.toml, and for
the accessibility checks axe-core's script (``AXE`` names the file); what is not there is passed over with its reason.
"""

import os
import shutil
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

playwright = pytest.importorskip(
    "playwright.sync_api", reason="no driver: the group `browser` of pyproject.toml is not installed"
)
CHROMIUM = os.environ.get("CHROMIUM") or shutil.which("chromium") or shutil.which("chromium-browser")
if CHROMIUM is None:
    pytest.skip("no browser: Chromium is not on the path", allow_module_level=True)

SAMPLES = Path(__file__).parents[3] / "sample-recipes"
SETTINGS = {"desk": (1280, "light"), "phone": (390, "light"), "dark": (1280, "dark")}
THREE_PAGES = ("keeping-porter-1853", "three-mashes-1797")
"""Brew days that are longer: three mashes, and much that the review has to say."""
LONG = "w" * 600
HOSTILE = f"""\
recipe: "<script>alert(1)</script><img src=x onerror=alert(2)>"
by: "\\"><svg onload=alert(3)>"
style: "javascript:alert(4)"
notes: "{LONG}"
batch: 20 l
grist:
  - {{grain: "{LONG[:150]}", kind: raw grain, weight: 1 kg}}
  - {{grain: pale ale malt, weight: 4 kg}}
hops:
  - {{hop: "'onmouseover='alert(5)", weight: 30 g, alpha: 5 %, boil: 60 min}}
"""


@pytest.fixture(scope="module")
def book(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The book of the samples and of one hostile recipe, in a folder with a difficult name."""
    folder = tmp_path_factory.mktemp("club")
    shutil.copytree(SAMPLES, folder / "recipes")
    (folder / "recipes" / "a b#c%20&'x").mkdir()
    (folder / "recipes" / "a b#c%20&'x" / "é;<b>.yaml").write_text(HOSTILE, encoding="utf-8")
    out = folder / "the book #1"
    call = [sys.executable, "-m", "mashwright", "book", "recipes", "--output", str(out), "--today", "2026-11-25"]
    subprocess.run(call, cwd=folder, check=True, capture_output=True)
    return out


@pytest.fixture(scope="module")
def browser() -> Iterator[Any]:
    with playwright.sync_playwright() as driver:
        started = driver.chromium.launch(executable_path=CHROMIUM, args=["--no-sandbox"])
        yield started
        started.close()


class Watched:
    """A page that keeps what it says and asks for."""

    def __init__(self, browser: Any, width: int = 1280, scheme: str = "light", *, scripts: bool = True) -> None:
        self.context = browser.new_context(
            viewport={"width": width, "height": 900}, color_scheme=scheme, java_script_enabled=scripts
        )
        self.page = self.context.new_page()
        self.said: list[str] = []
        self.page.on("console", lambda one: self.said.append(one.text))
        self.page.on("pageerror", lambda one: self.said.append(str(one)))
        self.page.on("dialog", lambda one: (self.said.append(one.message), one.dismiss()))
        self.page.on("request", lambda one: None if one.is_navigation_request() else self.said.append(one.url))

    def open(self, path: Path) -> Any:
        self.page.goto(path.as_uri())
        return self.page


def opened(page: Any) -> None:
    """Fold out all that is folded."""
    page.evaluate("() => document.querySelectorAll('details').forEach((one) => { one.open = true; })")


def test_every_page_opens_from_a_file_without_a_word_or_a_request_and_fits_a_phone(book: Path, browser: Any) -> None:
    for width in (1280, 320):
        watched = Watched(browser, width)
        for path in sorted(book.rglob("*.html")):
            page = watched.open(path)
            opened(page)
            wide = page.evaluate("() => document.documentElement.scrollWidth - document.documentElement.clientWidth")
            assert wide <= 0, (path.name, width, wide)
        assert watched.said == []
        watched.context.close()


def test_every_link_leads_somewhere(book: Path, browser: Any) -> None:
    watched = Watched(browser)
    for path in sorted(book.rglob("*.html")):
        page = watched.open(path)
        links = page.evaluate("() => [...document.querySelectorAll('a')].map((one) => [one.href, one.hash])")
        for link, anchor in links:
            target = Path(page.evaluate("(link) => decodeURIComponent(new URL(link).pathname)", link))
            assert target.is_file(), (path.name, link)
            if anchor and target == path:
                assert page.evaluate("(hash) => document.getElementById(hash.slice(1)) !== null", anchor), link
    watched.context.close()


def names(page: Any) -> list[str]:
    found: list[str] = page.locator("table.index tbody tr:visible th a").all_inner_texts()
    return found


def keys(page: Any) -> list[str]:
    """What the column of the ABV is sorted by."""
    cells = page.locator("table.index tbody td[data-word=ABV]")
    found: list[str] = cells.evaluate_all("(all) => all.map((one) => one.dataset.sort)")
    return found


def test_the_index_sorts_by_mouse_and_keyboard(book: Path, browser: Any) -> None:
    watched = Watched(browser)
    page = watched.open(book / "index.html")
    at_first = names(page)
    page.get_by_role("button", name="ABV").click()
    cells = page.locator("table.index tbody td[data-word=ABV]").evaluate_all(
        "(all) => all.map((one) => one.dataset.sort)"
    )
    known = [float(one) for one in cells if one]
    assert known == sorted(known)
    assert cells[len(known) :] == [""] * (len(cells) - len(known))  # what is not known stands last
    assert cells.count("") > 0
    assert page.locator("th[aria-sort=ascending]").inner_text() == "ABV"
    page.get_by_role("button", name="ABV").press("Enter")
    cells = page.locator("table.index tbody td[data-word=ABV]").evaluate_all(
        "(all) => all.map((one) => one.dataset.sort)"
    )
    assert [float(one) for one in cells if one] == known[::-1]
    assert cells[-1] == ""
    page.get_by_role("button", name="Recipe").focus()
    page.keyboard.press("Space")
    assert sorted(names(page)) == sorted(at_first)
    assert watched.said == []
    watched.context.close()


def test_the_index_filters_by_words_and_state(book: Path, browser: Any) -> None:
    watched = Watched(browser)
    page = watched.open(book / "index.html")
    every = len(names(page))
    page.get_by_label("Show what has").fill("lager pale")
    assert 0 < len(names(page)) < every
    assert page.locator("#told").inner_text() == f"{len(names(page))} of {every} shown"
    page.get_by_label("Show what has").fill("")
    page.get_by_label("state").select_option(label="an error")
    assert 0 < len(names(page)) < every
    page.get_by_label("state").select_option(label="any")
    assert len(names(page)) == every
    watched.context.close()


def test_without_scripts_the_index_is_whole_and_has_no_dead_buttons(book: Path, browser: Any) -> None:
    watched = Watched(browser, scripts=False)
    page = watched.open(book / "index.html")
    assert len(names(page)) == len(list(book.glob("recipes/**/*.html")))
    assert page.locator("button:visible, input:visible, select:visible").count() == 0
    watched.context.close()


@pytest.mark.parametrize("setting", SETTINGS)
def test_axe_finds_nothing(book: Path, browser: Any, setting: str) -> None:
    """WCAG 2.2 AA and good practice, on every sample's page with all folded out."""
    if not os.environ.get("AXE"):
        pytest.skip("no axe-core: AXE names its script")
    source = Path(os.environ["AXE"]).read_text(encoding="utf-8")
    watched = Watched(browser, *SETTINGS[setting])
    pages = [*book.glob("*.html"), *book.glob("rules/e*.html"), *sorted(book.glob("recipes/**/*.html"))[::8]]
    pages += sorted(book.glob("brew-days/**/*.html"))[::16]
    for path in pages:
        page = watched.open(path)
        opened(page)
        page.evaluate(source)
        tags = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]
        found = page.evaluate("(tags) => axe.run({runOnly: tags})", tags)
        told = [(one["id"], one["nodes"][0]["html"][:200]) for one in found["violations"]]
        assert told == [], (path.name, told)
    watched.context.close()


def contrast(first: str, second: str) -> float:
    """By WCAG 2.2, of two colours as ``#rrggbb`` or ``#rgb``."""

    def light(colour: str) -> float:
        digits = colour[1:] if len(colour) == 7 else "".join(one * 2 for one in colour[1:])
        parts = [int(digits[at : at + 2], 16) / 255 for at in (0, 2, 4)]
        r, g, b = (one / 12.92 if one <= 0.04045 else ((one + 0.055) / 1.055) ** 2.4 for one in parts)
        return 0.2126 * r + 0.7152 * g + 0.0722 * b

    high, low = sorted((light(first), light(second)), reverse=True)
    return (high + 0.05) / (low + 0.05)


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_words_in_pictures_have_contrast_in_both_schemes(book: Path, browser: Any, scheme: str) -> None:
    """axe cannot judge the words of a picture, so the palette is worked out."""
    watched = Watched(browser, 1280, scheme)
    page = watched.open(book / "index.html")
    value = "(name) => getComputedStyle(document.documentElement).getPropertyValue(name).trim()"
    names_ = ("ink", "soft", "paper", "ground", "band", "accent")
    colour = {name: page.evaluate(value, f"--{name}") for name in names_}
    on_paper = [(word, "paper") for word in ("ink", "soft", "accent")]
    for word, ground in (*on_paper, ("soft", "ground"), ("paper", "ink"), ("ink", "band")):
        assert contrast(colour[word], colour[ground]) >= 4.5, (word, ground)
    watched.context.close()


def test_a_recipe_prints_on_a_few_pages(book: Path, browser: Any) -> None:
    watched = Watched(browser)
    page = watched.open(next(book.glob("recipes/**/harbour-wheat.html")))
    for paper in ("A4", "Letter"):
        printed = page.pdf(format=paper)
        assert 1 <= printed.count(b"/Type /Page\n") <= 5, paper  # four with most fonts
    watched.context.close()


def test_each_brew_day_prints_on_two_pages(book: Path, browser: Any) -> None:
    watched = Watched(browser)
    for path in sorted(book.glob("brew-days/recipes/*/*.html")):
        page = watched.open(path)
        for paper in ("A4", "Letter"):
            number = page.pdf(format=paper).count(b"/Type /Page\n")
            assert 1 <= number <= (3 if path.stem in THREE_PAGES else 2), (path.name, paper, number)
    watched.context.close()
