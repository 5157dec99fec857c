"""What keeps a text from being YAML at all, in a brewer's words."""

import re
from collections.abc import Iterator
from typing import Any, NamedTuple

from mashwright.patterns import pattern
from mashwright.reading.nodes import Problem, Span, start_of_line
from mashwright.reading.signs import ODD_BLANKS, marked_otherwise, odd_blank

_NOT_ALLOWED = pattern("[^\t\n\r\x20-\x7e\x85\xa0-\ud7ff\ue000-\ufefe\uff00-\ufffd\U00010000-\U0010ffff]")
_MOST_COMMENTS = 1000
"""Lines of comments above a trouble that are passed over to find what it belongs to."""
_MOST_LINES = 2000
"""Lines above a trouble that are looked at for what caused it."""
_KEPT_SIGNS = "*&>|?,@`%"
"""Signs that a plain value cannot start with, since YAML keeps them for itself ([yaml-1-2-2], 5.3)."""


def short(text: str) -> str:
    """A person's text as a message can carry it: at most 40 characters, on one line, nothing invisible."""
    line = "".join(sign if sign.isprintable() else " " for sign in text[:60]).strip()
    return line if len(line) <= 40 and len(text) <= 60 else f"{line[:37]}..."


def first_forbidden(text: str) -> Problem | None:
    """The first character that no YAML text may hold ([yaml-1-2-2], production 1), in words."""
    if _is_plain(text) or (match := _NOT_ALLOWED().search(text)) is None:
        return None
    code = f"U+{ord(match.group()):04X}"
    if match.group() == "\0":
        message = "this is not a text file (there are zero bytes in it); save it as UTF-8 text"
    elif match.group() == "\ufeff":
        message = "a byte-order mark (U+FEFF) stands in the middle of the text; delete it"
    else:
        message = f"there is an invisible control character ({code}) here; delete it"
    return Problem(Span(match.start(), match.end()), message)


def without_forbidden(text: str) -> str:
    """A text with blanks for what no YAML text may hold, for one who only looks what it is."""
    return text if _is_plain(text) else _NOT_ALLOWED().sub(" ", text)


def _is_plain(text: str) -> bool:
    """Whether a text has nothing but what can be seen, and the ends of its lines; True for all but a few."""
    return text.replace("\n", "").replace("\r", "").replace("\t", "").isprintable()


class _Trouble(NamedTuple):
    """Where the parser gave up: its own words, the place, and what was open.

    Attributes:
        at, opened: character indexes of the trouble, and of what the parser was reading then.
        problem, context: the parser's words.
        noun: what the file is: a recipe, or a brewhouse.
    """

    text: str
    at: int
    opened: int
    problem: str
    context: str
    noun: str

    @property
    def line_start(self) -> int:
        return start_of_line(self.text, self.at)

    @property
    def line(self) -> str:
        return _line_from(self.text, self.line_start)

    @property
    def sign(self) -> str:
        return self.text[self.at : self.at + 1]

    @property
    def opening(self) -> str:
        return self.text[self.opened : self.opened + 1]

    def here(self, message: str) -> Problem:
        return self.there(self.at, message)

    def there(self, where: int, message: str) -> Problem:
        return Problem(Span(where, min(where + 1, len(self.text))), message)


def without_field(text: str) -> Problem | None:
    """What keeps the first line of a text, which YAML takes for one long value, from being a field."""
    match = re.match(r"(?:\s|#[^\r\n]*)*+", text)
    start = match.end() if match is not None else 0
    return _no_field(_Trouble(text, start, start, "", "", ""), start)


def in_words(text: str, error: Any, noun: str = "recipe") -> Problem:
    """A parser's error as one sentence with a way out.

    Args:
        text: the whole text.
        error: a MarkedYAMLError of ruamel.yaml.
        noun: what the text is to be: recipe or brewhouse.

    Returns:
        The problem at the place where a person would look.
    """
    mark = error.problem_mark or error.context_mark
    index = min(mark.index, len(text)) if mark is not None else 0
    opened = error.context_mark.index if error.context_mark is not None else index
    trouble = _Trouble(text, index, opened, (error.problem or "").lower(), error.context or "", noun)
    for told in (
        _quote,
        _quote_above,
        _tab,
        _odd_blank,
        _bullet,
        _directive,
        _second,
        _flow,
        _colon,
        _simple_key,
        _list,
        _closing,
        _behind,
        _sign,
        _step,
    ):
        if (found := told(trouble)) is not None:
            return found
    if "node content" in trouble.problem or "end of stream" in trouble.problem:
        return trouble.here("a value is missing here, or a bracket or comma is out of place")
    return trouble.here("this cannot be read; look at the line above for a missing colon, quote or bracket")


_TAGS = pattern(r"(?:^|(?<=\r))%TAG(?=[ \t])", re.MULTILINE)


def first_directive(text: str, noun: str) -> Problem | None:
    """A line that gives tags a meaning, which the parser takes ever longer over where there are many."""
    if "%TAG" not in text or (match := _TAGS().search(text)) is None:
        return None
    return Problem(Span(match.start(), match.start() + 1), _without_meaning(noun))


def without_directives(text: str) -> str:
    """A text without such lines, for one who only looks what it is."""
    return _TAGS().sub("#", text) if "%TAG" in text else text


def _without_meaning(noun: str) -> str:
    return f"a line that starts with % means nothing in a {noun}; leave it out"


def _line_from(text: str, start: int) -> str:
    match = re.compile(r"[^\r\n]*").match(text, start)
    return match.group() if match is not None else ""


def _quote(trouble: _Trouble) -> Problem | None:
    if "quoted scalar" not in trouble.context:
        return None
    if "escape" in trouble.problem or "hex" in trouble.problem:
        return trouble.here("a backslash in double quotes has a meaning of its own; use single quotes: '...'")
    quote = trouble.opening
    curly = re.search("[“”„‟‘’]", _line_from(trouble.text, trouble.opened))
    if curly is not None:
        message = f"the quote {quote} that starts here is closed by a curly one; write {quote} at both ends"
        return trouble.there(trouble.opened, message)
    return _never_closed(trouble, trouble.opened)


def _never_closed(trouble: _Trouble, where: int) -> Problem:
    quote = trouble.text[where]
    or_else = ", or double quotes around it if this is an apostrophe" if quote == "'" else ""
    return trouble.there(
        where, f"the quote {quote} that starts here is never closed; add {quote} at the end of the text{or_else}"
    )


def _quote_above(trouble: _Trouble) -> Problem | None:
    """A quote that was forgotten further up, so that the next one, which should open a text, closed that one."""
    before = trouble.text[trouble.line_start : trouble.at].rstrip()
    if before[-1:] not in ("'", '"') or not before[:-1].strip() or not _may_open(before[:-1]):
        return None
    quote = before[-1]
    for start, line in _lines_above(trouble.text, trouble.line_start):
        if (where := line.rfind(quote)) >= 0:
            return _never_closed(trouble, start + where) if _may_open(line[:where]) else None
    return None


def _may_open(before: str) -> bool:
    """Whether a quote may open a text behind a piece of its line."""
    bare = before.rstrip()
    return not bare or bare[-1] in "{[," or (bare[-1] in ":-" and bare != before)


def _tab(trouble: _Trouble) -> Problem | None:
    indent = trouble.line[: len(trouble.line) - len(trouble.line.lstrip())]
    where = trouble.at if trouble.sign == "\t" else trouble.line_start + indent.find("\t") if "\t" in indent else -1
    if where < 0:
        return None
    return trouble.there(where, "there is a tab here; indent with spaces; put two here")


def _odd_blank(trouble: _Trouble) -> Problem | None:
    """A blank that is none for YAML where an ordinary one is needed: in front of a line, behind a dash or a colon."""
    for start in _suspects(trouble):
        line = _line_from(trouble.text, start)
        for needed in (rf"[ {ODD_BLANKS}]*(?:-[ {ODD_BLANKS}]*)*", rf"[^:#]*:[ {ODD_BLANKS}]+"):
            if (match := re.match(needed, line)) is not None and (found := odd_blank(match.group())) is not None:
                return trouble.there(start + found[0], found[1])
    return None


def _bullet(trouble: _Trouble) -> Problem | None:
    for start in _suspects(trouble):
        line = _line_from(trouble.text, start)
        indent = _indent(line)
        if (message := marked_otherwise(line[indent:])) is not None:
            return trouble.there(start + indent, message)
    return None


def _suspects(trouble: _Trouble) -> list[int]:
    """The lines in which the trouble may lie: its own, that of what was open, and one above that it belongs to."""
    starts = [trouble.line_start, start_of_line(trouble.text, trouble.opened)]
    above = _content_above(trouble.text, trouble.line_start)
    if above is not None and _indent(trouble.line) > _indent(_line_from(trouble.text, above)):
        starts.append(above)
    return list(dict.fromkeys(starts))


def _indent(line: str) -> int:
    return len(line) - len(line.lstrip())


def _directive(trouble: _Trouble) -> Problem | None:
    if not trouble.line.startswith("%"):
        return None
    return trouble.there(trouble.line_start, _without_meaning(trouble.noun))


def _second(trouble: _Trouble) -> Problem | None:
    if "document" not in trouble.problem:
        return None
    before = trouble.text[: trouble.at].rstrip()
    if before.endswith("...") and before[-4:-3] in ("", "\r", "\n"):
        return trouble.here(f"a second document starts here; keep one {trouble.noun} to a file and leave out the ...")
    message = "indent it like the fields above"
    return trouble.here(f"this line stands outside the {trouble.noun}; {message}")


def _flow(trouble: _Trouble) -> Problem | None:
    """Inside brackets: a comma, a blank or the closing bracket is missing."""
    if "node content" in trouble.problem and not trouble.text[trouble.at :].strip():
        return _unclosed(trouble, max(trouble.text.rfind(sign, 0, trouble.at) for sign in "[{"))
    unclosed = "expected ',' or" in trouble.problem
    if not unclosed and "unexpected ':'" not in trouble.problem:
        return None
    begin = max(trouble.text.rfind(sign, trouble.line_start, trouble.at) for sign in "{[,") + 1
    piece = trouble.text[begin : trouble.at]
    second = re.search(r":\s", piece) is not None
    if not unclosed:
        if second:
            return trouble.here("this value has a second colon; put quotes around the value")
        after = re.split(r"[,}\]\r\n]", trouble.text[trouble.at + 1 :], maxsplit=1)[0]
        return trouble.here(f"put a space after this colon; write {short(piece)}: {short(after)}".rstrip())
    if trouble.opened < trouble.line_start or trouble.at >= trouble.line_start + len(trouble.line):
        return _unclosed(trouble, trouble.opened)
    if trouble.sign in ("]", "}"):
        closing = {"[": "]", "{": "}"}.get(trouble.opening, "]")
        return trouble.here(f"{trouble.sign} cannot close the {trouble.opening} before it; write {closing} here first")
    if ";" in piece:
        return trouble.there(begin + piece.index(";"), "there is a semicolon here; put commas between fields in braces")
    word = piece.rsplit(maxsplit=1)[-1] if piece.strip() else ""
    if trouble.sign == ":" and second and word:
        where = begin + len(piece.rstrip()) - len(word)
        return trouble.there(
            where, f"a comma is missing in front of {short(word)}:, or there should be quotes around the text"
        )
    return trouble.here("a comma is missing in front of this")


def _unclosed(trouble: _Trouble, where: int) -> Problem | None:
    opening = trouble.text[where] if 0 <= where < len(trouble.text) else ""
    if (closing := {"[": "]", "{": "}"}.get(opening)) is None:
        return None
    return trouble.there(
        where, f"the {opening} that starts here is not closed, or lacks a comma; add {closing} at its end"
    )


def _colon(trouble: _Trouble) -> Problem | None:
    if "mapping values are not allowed" not in trouble.problem:
        return None
    first = re.search(r":\s+", trouble.line[: trouble.at - trouble.line_start])
    if first is not None:
        value = re.split(r"\s#", trouble.line[first.end() :], maxsplit=1)[0].strip()
        quoted = f' ("{value}")' if len(value) <= 40 and '"' not in value and "\\" not in value else ""
        return trouble.here(
            f"this line has a second colon; put quotes around the text{quoted},"
            " or give the second field a line of its own"
        )
    above = _content_above(trouble.text, trouble.line_start)
    for start in (trouble.line_start, above):
        if start is not None and (found := _no_field(trouble, start)) is not None:
            return found
    return trouble.here("this field is indented too far; indent it like the fields it belongs with")


_GLUED = r"(?:- +)?[^\s:]++(?: [^\s:]++)?:(?=\S)"


def _simple_key(trouble: _Trouble) -> Problem | None:
    if "find expected ':'" not in trouble.problem:
        return None
    start = start_of_line(trouble.text, trouble.opened)
    return _no_field(trouble, start) or trouble.there(
        trouble.opened, "put a colon and a space here; write field: value"
    )


def _content_above(text: str, start: int) -> int | None:
    """Where the nearest line above starts that holds more than blanks and a comment, if it is not very far."""
    for _ in range(_MOST_COMMENTS):
        if (end := _blanks_before(text, start)) == 0:
            return None
        start = start_of_line(text, end)
        if not text[start:end].lstrip().startswith("#"):
            return start
    return None


def _blanks_before(text: str, end: int) -> int:
    """Where blanks and line ends begin that reach up to a place."""
    size = 256
    while end > 0:
        begin = max(end - size, 0)
        bare = text[begin:end].rstrip()
        if bare:
            return begin + len(bare)
        end, size = begin, size * 4
    return 0


def _no_field(trouble: _Trouble, start: int) -> Problem | None:
    """What keeps a line from being a field: no blank after a dash or a colon, no dash, no colon."""
    line = _line_from(trouble.text, start)
    body = line.strip()
    where = start + len(line) - len(line.lstrip())
    if re.match(r"-[^\s-]", body):
        return trouble.there(where, f"put a space after this dash; write - {short(body[1:])}")
    if body[:1] in ("{", "["):
        return trouble.there(where, f"a dash is missing here; write - {short(body)}")
    if re.search(r":(\s|\Z)", body):
        return None
    if (glued := re.match(_GLUED, body)) is not None:
        if (first := _glued_above(trouble.text, start)) is not None:
            return first
        return _glued_at(where, body, glued.end())
    if body[:1] in _KEPT_SIGNS:
        return None
    field = re.match(r"([a-z]+(?:-[a-z]+)*) +(\d.*)", body)
    write = f"{field[1]}: {short(field[2])}" if field is not None else "field: value"
    return trouble.there(where, f"a colon is missing here; write {write}")


def _glued_at(where: int, body: str, end: int) -> Problem:
    whole = f"{body[:end]} {body[end:]}".removeprefix("- ")
    return Problem(Span(where + end - 1, where + end), f"put a space after this colon; write {short(whole)}")


def _glued_above(text: str, start: int) -> Problem | None:
    """The first of several lines that all lack the blank behind the colon: YAML takes them for one long text."""
    found = None
    for above, line in _lines_above(text, start):
        body = line.strip()
        if re.search(r":(\s|\Z)", body) or (glued := re.match(_GLUED, body)) is None:
            break
        found = _glued_at(above + len(line) - len(line.lstrip()), body, glued.end())
    return found


def _lines_above(text: str, start: int) -> Iterator[tuple[int, str]]:
    """The lines above that hold something, the nearest first, with where each starts."""
    for _ in range(_MOST_LINES):
        if (above := _content_above(text, start)) is None:
            return
        start = above
        yield start, _line_from(text, start)


def _list(trouble: _Trouble) -> Problem | None:
    if "block sequence entries are not allowed" not in trouble.problem:
        return None
    return trouble.here("a list cannot start behind a colon; put the - on a line of its own, or the text in quotes")


def _closing(trouble: _Trouble) -> Problem | None:
    line = trouble.line
    if line.count("]") + line.count("}") <= line.count("[") + line.count("{"):
        return None
    where = trouble.line_start + max(line.rfind("]"), line.rfind("}"))
    return trouble.there(where, f"{trouble.text[where]} closes nothing; take it away, or add the bracket that opens it")


def _behind(trouble: _Trouble) -> Problem | None:
    """Text behind a closing quote or bracket."""
    if "expected key" not in trouble.problem and "'-' indicator" not in trouble.problem:
        return None
    before = trouble.line[: trouble.at - trouble.line_start]
    opened = re.search(r"(?:\A\s*|:\s+|-\s+)(['\"\[{])", before)
    if opened is None:
        return None
    if opened[1] in "[{":
        return trouble.here("text follows a closing bracket; put quotes around all of it")
    value = trouble.line[opened.start(1) :]
    if opened[1] == "'" and re.search(r"\w'\Z", before) and re.match(r"\w", trouble.sign):
        inner = short(value.strip().strip("'"))
        return trouble.here(f'an apostrophe ends this quoted text too early; write "{inner}"')
    return trouble.here("text follows a closing quote; leave the quotes out, or put them around all of it")


def _sign(trouble: _Trouble) -> Problem | None:
    match = re.match(rf"\s*(?:- +)*+(?:[^\s:#][^:#]*:\s+)?(?=[{re.escape(_KEPT_SIGNS)}])", trouble.line)
    if match is None or trouble.line_start + match.end() > trouble.at:
        return None
    value = re.split(r"\s#", trouble.line[match.end() :], maxsplit=1)[0].strip()
    inner = short(value).replace('"', "'")
    return trouble.there(
        trouble.line_start + match.end(), f'a value cannot start with {value[0]}; put it in quotes: "{inner}"'
    )


def _step(trouble: _Trouble) -> Problem | None:
    """Lines that belong together and do not stand under each other."""
    if "expected key" not in trouble.problem and "'-' indicator" not in trouble.problem:
        return None
    if (found := _no_field(trouble, trouble.line_start)) is not None:
        return found
    column, dashes = trouble.at - trouble.line_start, trouble.opened - start_of_line(trouble.text, trouble.opened)
    if re.match(r"-\s", trouble.text[trouble.at : trouble.at + 2]):
        return trouble.here("this dash is not in line with its list; indent all dashes of a list alike")
    if "'-' indicator" in trouble.problem and column == dashes:
        return trouble.here(
            "this field is under the dash; put it under the first field of its line, two spaces further in"
        )
    return trouble.here("this line is not in line with the fields above; indent them alike")
