"""Takes what a rule gives: each field is looked at once, so that nothing else has to doubt it.

What is not as the contract says is refused with the field's name. Texts that quote a recipe may carry its odd signs and
be of any length, so a long one is cut rather than refused, and ``Result`` makes it one line.
"""

from collections.abc import Mapping
from marshal import dumps
from math import isfinite
from sys import maxsize
from typing import TYPE_CHECKING, Any

from mashwright.budgets import DEPTH, FILE_BYTES, GATHERED_BYTES, ROWS, TEXT_CHARACTERS
from mashwright.crash import in_words
from mashwright.finding import Edit, Evidence, Finding, Level, Path, Say
from mashwright.knobs import Knob
from mashwright.recipe.stated import Text, Unknown
from mashwright.words.sentences import Measure, UntoldError, spoken

if TYPE_CHECKING:
    from collections.abc import Callable

LONGEST_PATH = 2 * DEPTH
_TEXTS = (str, Text, Measure)
"""A text, one as the recipe states it, and a number as it is told; a class of anybody else's may do anything."""


class UnfitError(ValueError):
    """What a rule gave is not as the contract says; the message names the field."""


def taken(finding: object, rule: str, ceiling: Level, says: Mapping[str, str]) -> Finding:
    """A finding as a rule yielded it, with the rule's name and its sentence, under its ceiling.

    Args:
        finding: what was yielded.
        rule: its id.
        ceiling: no finding of it is worse.
        says: the rule's sentences.

    Raises:
        UnfitError: something in it is not as the contract says.
    """
    if not isinstance(finding, Finding):
        raise UnfitError(f"it yields {_called(finding)}, which is not a Finding")
    level = finding.level
    if type(level) is not Level:
        raise _unfit("level", level, "one of Level.NOTE, Level.WARNING and Level.ERROR")
    message, parts = _said(finding.message, says)
    return Finding(
        _path(finding.path, "path"),
        min(level, ceiling),
        _message(message),
        _number(finding.gap, "gap"),
        _rows(finding.evidence),
        tuple([_path(path, "related") for path in _several(finding.related, "related")]),
        tuple([_knob(knob) for knob in _several(finding.knobs, "knobs")]),
        (),
        rule,
        parts,
    )


def taken_pair(pair: object, rule: str, ceiling: Level, says: Mapping[str, str]) -> tuple[str, Finding]:
    """A file and a finding there, as a rule about the collection yielded them; otherwise as ``taken``.

    Raises:
        UnfitError: something in it is not as the contract says.
    """
    if type(pair) is not tuple or len(pair) != 2 or type(pair[0]) is not str:
        raise UnfitError(f"check_collection yields {_called(pair)}, which is not a pair of a path (str) and a Finding")
    return pair[0], taken(pair[1], rule, ceiling, says)


def taken_open(why: Unknown) -> tuple[str, Path]:
    """What a rule lacks to judge, and where it should stand.

    Raises:
        UnfitError: something in it is not as the contract says.
    """
    if type(why.missing) is not str or not why.missing:
        raise UnfitError(f"what its Unknown says is missing is {_called(why.missing)}; it must be a text (str)")
    return _line(why.missing, "missing of an Unknown"), _path(why.path, "path of an Unknown")


def taken_edits(edits: object) -> tuple[Edit, ...]:
    """The changes that a step of a knob makes, their texts plain ones, as the parser wants them.

    Raises:
        UnfitError: something in them is not as the contract says.
    """
    taken = []
    for edit in _several(edits, "edits of a knob"):
        if not isinstance(edit, Edit):
            raise _unfit("edits of a knob", edit, "an Edit")
        if not _path(edit.path, "path of an edit"):
            raise UnfitError("the path of an edit is empty; name what it changes")
        if type(edit.text) not in _TEXTS:
            raise _unfit("text of an edit", edit.text, "a text (str)")
        taken.append(edit if type(edit.text) is str else Edit(edit.path, str(edit.text)))
    return tuple(taken)


def taken_words(text: object) -> str:
    """What a knob says that its step means.

    Raises:
        UnfitError: it is no text.
    """
    return _line(text, "text of a knob")


def small(value: object) -> object:
    """What a rule gathered of one recipe, if it can be sent between processes and is small.

    Raises:
        UnfitError: it is not.
    """
    try:
        size = len(dumps(value))  # type: ignore[arg-type]  # what it cannot take it says
    except ValueError:  # more than plain values; the thorough way takes ten times as long
        size = _sent(value)
    if size > GATHERED_BYTES:
        raise UnfitError(f"gather keeps {size} bytes of one recipe, more than {GATHERED_BYTES}; keep less")
    return value


def _sent(value: object) -> int:
    """The size of a value as it is sent; what is sent must arrive too."""
    import pickle

    try:
        data = pickle.dumps(value)
        pickle.loads(data)  # noqa: S301  (made one line before)
    except Exception as error:  # noqa: BLE001  (a class of anybody's may raise anything)
        why = f"gather gives {_called(value)}, which cannot be sent between processes ({in_words(error)})"
        raise UnfitError(f"{why}; give plain values") from None
    return len(data)


def _called(value: object) -> str:
    """What a value is, for an author: its class, and what it looks like where that is short and sure."""
    kind = type(value)
    plain = kind in (str, int, float, bool, type(None))
    shown = f"{repr(value)[:40]} " if plain and not (kind is int and abs(value) > FILE_BYTES) else ""  # type: ignore[arg-type]
    return f"{shown}({kind.__name__[:40]})"


def _unfit(field: str, value: object, wanted: str) -> UnfitError:
    return UnfitError(f"the {field} of its finding is {_called(value)}; it must be {wanted}")


def _several(values: object, field: str) -> tuple[Any, ...]:
    if not isinstance(values, tuple):
        raise _unfit(field, values, "a tuple")
    return values if len(values) <= ROWS else values[:ROWS]


def _path(path: object, field: str) -> Path:
    if type(path) is not tuple or len(path) > LONGEST_PATH:
        raise _unfit(field, path, f"a tuple of at most {LONGEST_PATH} keys and indexes")
    for step in path:
        if not (type(step) is str and len(step) <= FILE_BYTES) and not (type(step) is int and 0 <= step <= FILE_BYTES):
            raise _unfit(f"{field} has a step, which", step, "a key (str) or an index from 0 (int)")
    if sum(len(step) for step in path if type(step) is str) > FILE_BYTES:
        raise UnfitError(f"the {field} has keys that are together longer than any recipe")
    return path


def _line(text: object, field: str) -> str:
    if type(text) not in _TEXTS:
        raise _unfit(field, text, "a text (str)")
    text = str(text)
    return text if len(text) <= TEXT_CHARACTERS else f"{text[: TEXT_CHARACTERS - 3]}..."


def _said(message: object, says: Mapping[str, str]) -> tuple[object, tuple[Say, ...]]:
    """The text of a message, and its sentences with their values."""
    if not isinstance(message, Say):
        return message, ()
    parts = tuple(message)
    for part in parts:
        if type(part.id) is not str or part.id not in says:
            raise UnfitError(f"its finding says {_called(part.id)}, which is not in its SAYS")
    try:
        return spoken(says, message), parts
    except (KeyError, ValueError, AttributeError, TypeError, IndexError):
        raise UnfitError(_unfilled(parts, says)) from None


def _unfilled(parts: tuple[Say, ...], says: Mapping[str, str]) -> str:
    """Which of some sentences cannot be filled with their values, and why."""
    for part in parts:
        try:
            spoken(says, Say(part.id, part.values))
        except KeyError as missing:
            return f"its sentence {part.id} lacks a value for {{{missing.args[0]}}}"
        except UntoldError as unfit:
            return f"its sentence {part.id} is given {unfit}"
        except (ValueError, AttributeError, TypeError, IndexError):
            form = "{name}, {name:a} or, of a whole number, {name:noun}; write {{ for a brace"
            return f"its sentence {part.id} has a place that is not {form}"
    return f"its sentence {parts[0].id} cannot be filled"


def _message(text: object) -> str:
    line = _line(text, "message")
    if not line or line.isspace():
        raise UnfitError("the message of its finding is empty; say what will not work")
    return line


def _number(value: object, field: str) -> float:
    if type(value) is not float:
        if not isinstance(value, (int, float)) or type(value) is bool:
            raise _unfit(field, value, "a number (float)")
        try:
            value = float(value)
        except OverflowError:
            raise _unfit(field, value, "a finite number") from None
    if not isfinite(value):
        raise _unfit(field, value, "a finite number")
    return value


def _rows(rows: object) -> tuple[Evidence, ...]:
    told = tuple([_row(row) for row in _several(rows, "evidence")])
    left = len(rows) - len(told)  # type: ignore[arg-type]  # a tuple, as was just seen
    return (*told, Evidence("further rows, not shown", float(left))) if left else told


def _row(row: object) -> Evidence:
    if not isinstance(row, Evidence):
        raise _unfit("evidence", row, "rows of Evidence, such as row(figure) gives")
    value = row.value
    if type(row.path) is tuple:
        _path(row.path, "path in the evidence")
    elif row.path is not None:
        raise _unfit("path in the evidence", row.path, "a tuple of keys and indexes, or None")
    plain = type(value) is float and isfinite(value) and type(row.label) is str and type(row.unit) is str
    if plain and len(row.label) + len(row.unit) <= TEXT_CHARACTERS:
        return row  # as nearly all are
    return Evidence(
        _line(row.label, "label in the evidence"),
        _line(value, "value in the evidence") if type(value) in _TEXTS else _number(value, "value in the evidence"),
        _line(row.unit, "unit in the evidence") if row.unit != "" else "",
        row.path,
    )


def _knob(knob: object) -> Knob:
    if not isinstance(knob, Knob):
        raise _unfit("knobs", knob, "made by more_of, less_of, one_change and their like")
    if type(knob.count) is not int or not 0 <= knob.count <= maxsize:
        raise _unfit("count in a knob", knob.count, "a whole number from 0")
    edits: Callable[..., object] = knob.edits
    if not callable(edits) or not callable(knob.say):
        raise _unfit("edits and say in a knob", edits, "functions")
    return knob
