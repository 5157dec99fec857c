"""A review as a Markdown summary for a pull-request comment or a job page: the counts, then what is new, worst first.

A forge makes links of much that a recipe may hold by chance or by malice, so nothing of a message or a name reaches it
as markup: marks are escaped, and an invisible word joiner parts what would call a person, an issue, a picture or an
address.
"""

from urllib.parse import quote

from mashwright.finding import Level
from mashwright.patterns import pattern
from mashwright.printable import harmless
from mashwright.reporting.text import closing, faults
from mashwright.reporting.words import in_lines
from mashwright.reviewing.results import READING_RULES, Result, Review, Reviewed
from mashwright.words.plurals import counted

LONGEST = 60_000
"""Characters of a summary; forges refuse a comment past 65,536 (common practice)."""
_TAIL = 300
"""Characters that are kept for saying what was left out."""
_LONGEST_SAYING = 500
"""Characters of one message, remedy or name; what is longer was copied out of a recipe."""

_JOINER = "\u2060"
_ESCAPES = str.maketrans(
    {mark: f"\\{mark}" for mark in "\\`*_[]#|~"}
    | {"<": "&lt;", ">": "&gt;", "&": "&amp;", "$": "&#36;", _JOINER: f"&#{ord(_JOINER)};"}
)
_CALLS = pattern(
    r"""@|[#!&$%~^\[](?=[\w"'])|:(?=//|[\w+-]{1,99}:)|(?i:www(?=\.)|\bGH-(?=\d)|[0-9a-f]{6}(?=[0-9a-f]))"""
)
"""Where people, issues, merge requests, milestones, labels, pictures, sums, addresses and commits begin on a forge."""

_Groups = list[tuple[str, list[str]]]
"""Headings, each with its entries; "" is no heading."""


def markdown(review: Review, *, longest: int = LONGEST) -> str:
    """A review as a page of bounded length: new findings, those that got better, faults, and what is gone.

    Files with errors come first. Findings that are known and no better, and accepted ones, are only counted; notes too,
    unless they fail the review.

    Args:
        review: what to sum up.
        longest: characters, 1,000 or more; what does not fit is counted at the end.
    """
    lowest = min([Level.WARNING, *(recipe.stop_at for recipe in review.recipes)])
    new, better, gone = (_findings(review, states, lowest) for states in ({"", "new"}, {"updated"}, {"absent"}))
    told = [("", [f"- {_plain(line)}\n" for line in faults(review)])]
    remarks = [("", [f"- {_plain(remark)}\n" for remark in review.remarks])]
    since = [(better, "better than before"), (gone, "gone since")]
    top = "; ".join(
        [closing(review, notes=True, shown=_plain), *(f"{_size(some)} {what}" for some, what in since if some)]
    )
    page = _Page(f"**Mashwright**: {top}\n", longest - _TAIL)
    left_out = [
        counted(page.fill("How the review went", remarks), "remark"),
        counted(page.fill("New findings" if _is_compared(review) else "Findings", new), "finding"),
        counted(page.fill("Better than before, not yet mended", better), "better one"),
        counted(page.fill("Faults of the program", told), "fault"),
        f"{page.fill('Gone since', gone)} gone since",
    ]
    if missing := [saying for saying in left_out if not saying.startswith("0 ")]:
        page.add(f"\nLeft out to keep this short: {', '.join(missing)}; `--format json` has them all\n")
    return page.text


class _Page:
    """A text that grows entry by entry up to a length."""

    def __init__(self, top: str, longest: int) -> None:
        self._blocks = [top]
        self._room = longest - len(top)

    def fill(self, title: str, groups: _Groups) -> int:
        """Add a chapter, as far as there is room; how many entries were left out."""
        left_out = 0
        chapter = f"\n### {title}\n"
        for heading, entries in groups:
            lead = f"\n#### {heading}\n\n" if heading else "\n"
            for entry in entries:
                block = chapter + lead + entry
                if len(block) > self._room:
                    left_out += 1
                    continue
                self.add(block)
                chapter = lead = ""
        return left_out

    def add(self, block: str) -> None:
        self._blocks.append(block)
        self._room -= len(block)

    @property
    def text(self) -> str:
        return "".join(self._blocks)


def _is_compared(review: Review) -> bool:
    return any(result.state for recipe in review.recipes for result in recipe.results)


def _size(groups: _Groups) -> int:
    return sum(len(entries) for _, entries in groups)


def _open(result: Result, lowest: Level) -> bool:
    return result.accepted is None and result.level >= lowest


def _findings(review: Review, states: set[str], lowest: Level) -> _Groups:
    """The open findings in some states, file by file, files with errors first."""
    wanted = (
        (recipe, [one for one in recipe.results if one.state in states and _open(one, lowest)])
        for recipe in review.recipes
    )
    files = [(max(one.level for one in results), recipe, results) for recipe, results in wanted if results]
    files.sort(key=lambda file: -file[0])
    return [
        (_linked(recipe.path, recipe.path), [_entry(recipe, one) for one in results]) for _, recipe, results in files
    ]


def _entry(recipe: Reviewed, result: Result) -> str:
    """Place, level, message and rule on a line, and a way to mend it below."""
    level = f"**{result.level.word}**"
    if result.state == "absent":
        return f"- {level}: {_plain(result.rule)} at {_plain(result.pointer) or 'the top'}\n"
    line = result.place.line
    place = _linked(f"line {line}", recipe.path, f"#L{line}")
    entry = f"- {place}: {level}: {_plain(result.message)} ({_plain(result.rule)})\n"
    for remedy in result.remedies[:1] if result.rule not in READING_RULES else ():  # a slip's message says it already
        where = f" in {in_lines(edit.place.line for edit in remedy.edits)}" if remedy.edits else ""
        entry += f"  - Mend it{where}: {_plain(remedy.text)}\n"
    return entry


def _linked(words: str, path: str, anchor: str = "") -> str:
    """Words that lead to a file beside the page; a path from the root would lead out of the repository."""
    try:
        name = path.encode("utf-8", "surrogateescape")
    except UnicodeEncodeError:  # no bytes of any file name
        name = b"/"
    if name.startswith(b"/"):
        return _plain(words)
    return f"[{_plain(words)}]({quote(name, safe='/~')}{anchor})"


def _plain(text: str) -> str:
    """A text on one line, cut where it is too long, that means nothing to Markdown, HTML or a forge."""
    shown = harmless(text.strip())
    if len(shown) > _LONGEST_SAYING:
        shown = shown[: _LONGEST_SAYING - 1] + "…"
    return _CALLS().sub(rf"\g<0>{_JOINER}", shown).translate(_ESCAPES)
