"""Tables as they lie on disk: plain CSV, edited by hand, and refused where a spreadsheet has saved them anew."""

import os


def lines_of(path: str, *, free: bool = False, quoted: bool = False) -> list[str]:
    """The lines of a table without its heading.

    Args:
        path: of the file.
        free: one column may hold commas.
        quoted: one column stands in quotes.

    Raises:
        ValueError: the file is not in the form in which it is edited; says how.
    """
    with open(path, encoding="utf-8") as file:
        text = file.read()
    if wrong := resaved(text, free=free, quoted=quoted):
        raise ValueError(
            f"{os.path.basename(path)} {wrong}; spreadsheets save tables so: undo that, and edit it as plain text"
        )
    return text.splitlines()[1:]


def resaved(text: str, *, parting: str = ",", free: bool = False, quoted: bool = False) -> str:
    """What a spreadsheet has done to a table, where it would be misread; "" where it is as it is edited.

    Args:
        text: the whole file; line ends of any kind are read alike.
        parting: what parts its columns.
        free: one column may hold commas, so that they cannot be counted.
        quoted: one column stands in quotes.
    """
    heading, *rows = text.splitlines() or [""]
    if text.startswith("\ufeff"):
        return "begins with a byte order mark"
    columns = heading.split(parting)
    if len(columns) == 1:
        return f"has no columns parted by {parting!r} in its first line"
    if not all(columns):
        return "has columns without a name in its first line"
    if '""' in text or (not quoted and '"' in text):
        number = next(
            at for at, line in enumerate(text.splitlines(), 1) if '"' in line and ('""' in line or not quoted)
        )
        return f"has quotes in line {number}"
    if not free and text.count(parting) != (len(columns) - 1) * (1 + len(rows)):
        number = next(at for at, line in enumerate(rows, 2) if line.count(parting) != len(columns) - 1)
        return f"has not {len(columns)} columns in line {number}"
    return ""
