"""The one door through which text goes to a person or into a file: what may pass as it is, and what as its escape.

A recipe, a brewhouse and a file's name come from strangers. Nothing of them may steer a terminal, turn or hide what is
read, break a line, or give an order to the machine that runs a review and reads its log. Escapes are those of Python,
or of the form that is written.

What passes: letters, marks, numbers, punctuation, symbols and the plain space, by Unicode's categories. Not controls,
formats (zero-width, bidirectional, tags), half letters, private or unassigned characters, line separators, other
spaces; nor the few of the first group that show nothing (``_UNSEEN``). A variation selector passes behind a symbol,
where it makes an emoji, and at most ``MARKS`` marks pass on one letter.
"""

import re
import sys
from collections.abc import Callable
from typing import TextIO

from mashwright.patterns import pattern

MARKS = 6
"""Accents and the like on one letter; three are usual in the tongues that have most (judgement)."""

Escape = Callable[[str], str]
"""Makes of one character its escape, in printable ASCII."""

_DOUBTFUL = pattern("[^ -~\u00a1-\u00ac\u00ae-\u02ff\u2010-\u2027\u2030-\u205e]+")
"""All that has to be looked at one by one; what is left out is Latin letters, numbers, punctuation and symbols."""
_UNSEEN = frozenset(
    "\u034f\u115f\u1160\u17b4\u17b5\u180b\u180c\u180d\u180f\u3164\uffa0"  # joiners, fillers, selectors
    "\u2800\U00013441\U00013442\U00016fe4\U0001d159"  # an empty Braille cell, fillers, a note without its head
    + "".join(map(chr, (*range(0xFE00, 0xFE10), *range(0xE0100, 0xE01F0))))  # variation selectors
)
_EMOJI = "\ufe0e\ufe0f"
"""Variation selectors that say whether a symbol is drawn as text or as a picture."""
_ORDER = pattern(r"^\s*:(?=:)|#(?=#[\w.-]*\[)")
"""What makes an order of a line of a log: two colons at its start, two hashes before a bracket anywhere."""
_INK = pattern("(\x1b\\[(?:0|31|33|34)m)")
"""The colours of ``reporting.text``."""


def escaped(one: str) -> str:
    """A character as Python writes it in a text."""
    code = ord(one)
    if one in "\n\r\t":
        return {"\n": "\\n", "\r": "\\r", "\t": "\\t"}[one]
    return f"\\x{code:02x}" if code < 0x100 else f"\\u{code:04x}" if code < 0x10000 else f"\\U{code:08x}"


def harmless(text: str, escape: Escape = escaped) -> str:
    """A text on one line, in which all can be seen; what may not pass is written as its escape."""
    if text.isascii() and text.isprintable():
        return text
    return _DOUBTFUL().sub(lambda run: _judged(run, escape), text)


def _judged(run: re.Match[str], escape: Escape) -> str:
    from unicodedata import category

    before = run.string[run.start() - 1 : run.start()]
    base, marks, shown = category(before) if before else "none", 0, []
    for one in run.group():
        kind = category(one)
        if one in _EMOJI or (kind in ("Mn", "Me") and one not in _UNSEEN):
            passes = base in ("So", "Sm") and not marks if one in _EMOJI else base[0] in "LMNS" and marks < MARKS
            base, marks = base if passes else "none", marks + 1
        else:
            passes = one.isprintable() and one not in _UNSEEN
            base, marks = kind if passes else "none", 0
        shown.append(one if passes else escape(one))
    return "".join(shown)


def printed(line: str, escape: Escape = escaped) -> str:
    """A line as it is printed: harmless, and no order to a machine that reads it in a log."""
    line = harmless(line, escape)
    if "::" in line or "##" in line:
        line = _ORDER().sub(lambda found: found[0][:-1] + escape(found[0][-1]), line)
    return line


def say(line: str, out: TextIO, *, inked: bool = False) -> None:
    """Print one line.

    Args:
        line: without its end; one inside is written as its escape.
        inked: let the colours of ``reporting.text`` pass.
    """
    if inked:
        line = "".join(part if at % 2 else printed(part) for at, part in enumerate(_INK().split(line)))
    else:
        line = printed(line)
    out.write(f"{line}\n")


def complain(sentence: str) -> None:
    """Say on standard error what the program has to say for itself."""
    say(f"mashwright: {sentence}", sys.stderr)


def publish(document: str, out: TextIO, *, tabs: bool = False) -> None:
    """Write a document of several lines, each as ``say`` would.

    Args:
        tabs: let tabs pass, which part the columns of a table.
    """
    part = "\t" if tabs else "\n"  # no line has one inside
    lines = document.removesuffix("\n").split("\n")
    out.write("".join(f"{part.join(map(printed, line.split(part)))}\n" for line in lines))
