"""What keeps a text from being YAML at all, in a brewer's words."""

import re
from typing import Any, NamedTuple

from mashwright.reading.nodes import Problem, Span

_NOT_ALLOWED = "[^\t\n\r\x20-\x7e\x85\xa0-\ud7ff\ue000-\ufefe\uff00-\ufffd\U00010000-\U0010ffff]"


def short(text: str) -> str:
    """A person's text as a message can carry it: at most 40 characters, on one line, nothing invisible."""
    line = "".join(sign if sign.isprintable() else " " for sign in text[:60]).strip()
    return line if len(line) <= 40 and len(text) <= 60 else f"{line[:37]}..."


def first_forbidden(text: str) -> Problem | None:
    """The first character that no YAML text may hold ([yaml-1.2.2], production 1), in words."""
    if text.isprintable() or (match := re.search(_NOT_ALLOWED, text)) is None:
        return None
    code = f"U+{ord(match.group()):04X}"
    if match.group() == "\0":
        message = "this is not a text file (there are zero bytes in it); save the recipe as UTF-8 text"
    elif match.group() == "\ufeff":
        message = "a byte-order mark (U+FEFF) stands in the middle of the text; delete it"
    else:
        message = f"an invisible control character ({code}) stands here; delete it"
    return Problem(Span(match.start(), match.end()), message)


class _Trouble(NamedTuple):
    """Where the parser gave up: its own words, the place, the line around it, and what was open."""

    text: str
    at: int
    line_start: int
    line: str
    problem: str
    context: str
    opened: int

    @property
    def sign(self) -> str:
        return self.text[self.at : self.at + 1]

    @property
    def opening(self) -> str:
        return self.text[self.opened : self.opened + 1]

    def here(self, message: str) -> Problem:
        return Problem(Span(self.at, min(self.at + 1, len(self.text))), message)

    def there(self, where: int, message: str) -> Problem:
        return Problem(Span(where, min(where + 1, len(self.text))), message)


def in_words(text: str, error: Any) -> Problem:
    """A parser's error as one sentence with a way out.

    Args:
        text: the whole text.
        error: a MarkedYAMLError of ruamel.yaml.

    Returns:
        The problem at the place where a person would look.
    """
    mark = error.problem_mark or error.context_mark
    index = min(mark.index, len(text)) if mark is not None else 0
    line_start = max(text.rfind("\n", 0, index), text.rfind("\r", 0, index)) + 1
    line = re.split(r"[\r\n]", text[line_start:], maxsplit=1)[0]
    opened = error.context_mark.index if error.context_mark is not None else index
    trouble = _Trouble(text, index, line_start, line, (error.problem or "").lower(), error.context or "", opened)
    for told in (_quote, _tab, _sign, _colon, _list, _key, _bracket):
        if (found := told(trouble)) is not None:
            return found
    if trouble.line.startswith("%"):
        return trouble.here("a line that starts with % means nothing in a recipe; leave it out")
    if "document" in trouble.problem:
        return trouble.here(
            "this line stands outside the recipe; give it as many blanks in front as the fields above it"
        )
    return trouble.here("this cannot be read; look at the line above for a missing colon, quote or bracket")


def _quote(trouble: _Trouble) -> Problem | None:
    if "quoted scalar" not in trouble.context:
        return None
    if "escape" in trouble.problem or "hex" in trouble.problem:
        return trouble.here("a backslash in double quotes has a meaning of its own; use single quotes: '...'")
    quote = trouble.opening
    return trouble.there(
        trouble.opened, f"the quote {quote} that starts here is never closed; add {quote} at the end of the text"
    )


def _tab(trouble: _Trouble) -> Problem | None:
    indent = trouble.line[: len(trouble.line) - len(trouble.line.lstrip())]
    where = trouble.at if trouble.sign == "\t" else trouble.line_start + indent.find("\t") if "\t" in indent else -1
    if where < 0:
        return None
    return trouble.there(where, "a tab stands here; YAML indents with blanks only, so write two blanks in its place")


def _sign(trouble: _Trouble) -> Problem | None:
    if "cannot start any token" not in trouble.problem:
        return None
    value = re.split(r" #|[\r\n]", trouble.text[trouble.at :], maxsplit=1)[0].strip()
    return trouble.here(f'a value cannot start with {trouble.sign}; put it in quotes: "{short(value)}"')


def _colon(trouble: _Trouble) -> Problem | None:
    if "mapping values are not allowed" not in trouble.problem:
        return None
    if ":" in trouble.line[: trouble.at - trouble.line_start]:
        return trouble.here(
            "a second colon stands in this line; put quotes around the text, or give the second field a line of its own"
        )
    return trouble.here(
        "this field is indented too far, or the line above lacks the blank after its colon (weight: 5 kg)"
    )


def _list(trouble: _Trouble) -> Problem | None:
    if "block sequence entries are not allowed" not in trouble.problem:
        return None
    return trouble.here("a list cannot start behind a colon; put the - on a line of its own")


def _key(trouble: _Trouble) -> Problem | None:
    if not any(words in trouble.problem for words in ("find expected ':'", "expected key", "expected '-' indicator")):
        return None
    line = trouble.line
    if line.count("]") + line.count("}") > line.count("[") + line.count("{"):
        where = trouble.line_start + max(line.rfind("]"), line.rfind("}"))
        closing = trouble.text[where]
        return trouble.there(where, f"{closing} closes nothing; take it away, or add the bracket that opens it")
    if re.search(r":\s*(['\"]).*\1\s*[^\s#,]", line):
        return trouble.here("text follows a closing quote; leave the quotes out, or put them around all of it")
    if ":" not in line:
        return trouble.there(
            trouble.line_start + len(line) - len(line.lstrip()), "a colon is missing here; write field: value"
        )
    return trouble.here("this line is out of step; fields that belong together have the same number of blanks in front")


def _bracket(trouble: _Trouble) -> Problem | None:
    if "expected ',' or" in trouble.problem:
        closing = {"[": "]", "{": "}"}.get(trouble.opening, "]")
        return trouble.there(
            trouble.opened,
            f"the {trouble.opening} that starts here is not closed, or lacks a comma; add {closing} at its end",
        )
    if "node content" in trouble.problem or "unexpected end of stream" in trouble.problem:
        return trouble.here("a value is missing here, or a bracket or comma is out of place")
    return None
