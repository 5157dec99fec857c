"""Signs that stand where YAML wants a dash or an ordinary blank, and what to say of them."""

import re

BULLETS = "–—−‐‑•·‣▪●◦*+"
"""Signs that mark the lines of a list elsewhere; the first five look like the dash that YAML wants."""
ODD_BLANKS = "\xa0\u1680\u2000\u2001\u2002\u2003\u2004\u2005\u2006\u2007\u2008\u2009\u200a\u200b\u202f\u205f\u3000"
"""Blanks that look like one and are none for YAML, as come along with text from a web page or a word processor."""


def marked_otherwise(text: str) -> str | None:
    """What to say of a line that starts with another sign than the dash of a list, or None."""
    if re.match(rf"[{re.escape(BULLETS)}][\s{ODD_BLANKS}]", text):
        return f"{text[0]} is not the dash of a list; write - and a space"
    return None


def odd_blank(text: str) -> tuple[int, str] | None:
    """Where the first blank stands that is none for YAML, and what to say of it."""
    if (match := re.search(f"[{ODD_BLANKS}]", text)) is None:
        return None
    return match.start(), f"use an ordinary space, not U+{ord(match.group()):04X}"
