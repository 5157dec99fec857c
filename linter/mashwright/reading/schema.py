"""Keys and kinds of a document against its schema; every error in words, at its place, one for each cause."""

import re
from collections.abc import Iterable, Iterator
from functools import cache
from itertools import islice
from typing import TYPE_CHECKING, Any, NamedTuple, cast

from mashwright.budgets import FAULTS
from mashwright.finding import Level, Path
from mashwright.reading.document import Document
from mashwright.reading.fields import Schema, at_path, keys, kinds, layers
from mashwright.reading.nodes import Mapping, Node, Scalar, Span, Told, at, data, span
from mashwright_schema import load

if TYPE_CHECKING:
    from jsonschema import Draft202012Validator
    from jsonschema.exceptions import ValidationError

    from mashwright.reading.slips import Slip


class FieldProblem(NamedTuple):
    """A key or a kind of value that does not belong where it stands.

    Attributes:
        path: the value; a key that is missing is named in it.
        span: the key where the key is at fault, the value where the value is, the nearest thing around what is missing.
        message: one sentence with a way out.
        level: a warning where only this value is lost, and sums go on with the widest meaning.
        instead: the text to write in place of that at ``span``, where one word was meant; "" else.
    """

    path: Path
    span: Span
    message: str
    level: Level = Level.ERROR
    instead: str = ""


def understood(document: Document, schema: str) -> tuple[Document, list[FieldProblem]]:
    """A document with its short forms written out, and what its schema then objects to, in the order of the text.

    Short forms are looked for only where the document is not valid as it stands, as most are.

    Args:
        document: as read; without a root there is nothing to understand.
        schema: ``recipe`` or ``brewhouse``.

    Returns:
        The document, and the problems; none that lies where reading itself met one.
    """
    if document.root is None or _is_valid(document, schema):
        return document, []
    if (told_first := _as_a_whole(load(schema), document)) is not None:
        return document, [told_first]
    wide = in_full(document, schema)
    if wide is not document:
        document = wide
        if _is_valid(document, schema):
            return document, []
    return document, _objections(document, schema)


def in_full(document: Document, schema: str) -> Document:
    """A document with its short forms written out, also where it is valid as it stands; the same where there are none.

    Args:
        document: as read, with a root.
        schema: ``recipe`` or ``brewhouse``.
    """
    from mashwright.reading.short_forms import expanded

    if document.root is None or (wide := expanded(document.root, schema)) is document.root:
        return document
    return Document(document.text, wide, document.problems)


def check_fields(document: Document, schema: str) -> list[FieldProblem]:
    """What a schema objects to in a document as it is understood; see there."""
    return understood(document, schema)[1]


def _is_valid(document: Document, schema: str) -> bool:
    values = data(document.root) if document.root is not None else None
    return _is_plainly_valid(values, schema, len(document.text)) or _quick(schema).is_valid(values)


def _objections(document: Document, schema: str) -> list[FieldProblem]:
    if document.root is None:
        return []
    values = data(document.root)
    root = load(schema)
    written = _slips(root, document) if schema == "recipe" else []
    every = (fault for error in _thorough(schema).iter_errors(values) for fault in _faults(root, error))
    faults = list(islice(_uncovered(every, written), FAULTS))
    read = Told(problem.span for problem in document.problems)
    told = (_told(root, document.root, fault) for fault in _one_each(faults))
    found = [FieldProblem(slip.path, slip.span, slip.message) for slip in written]
    found += [problem for problem in told if problem is not None]
    found = [problem for problem in found if not read.meets(problem.span)]
    return sorted(found, key=lambda problem: (problem.span, problem.message))


def known_keys(schema: str, path: Path) -> tuple[str, ...]:
    """The keys that may stand in the mapping at a path, in the order in which a recipe has them.

    Args:
        schema: ``recipe`` or ``brewhouse``.
        path: from the root; for a list item its index.
    """
    return keys(at_path(load(schema), path))


def _as_a_whole(root: Schema, document: Document) -> FieldProblem | None:
    """What there is to say of a file that is no recipe at all, or one long text."""
    from mashwright.reading.slips import no_recipe
    from mashwright.reading.syntax import without_field

    node = document.root
    problem = without_field(document.text) if isinstance(node, Scalar) and node.plain else None
    if problem is not None and not problem.message.endswith("field: value"):
        return FieldProblem((), problem.span, problem.message)
    if isinstance(node, Mapping) and root["title"] == "Recipe" and (message := no_recipe(root, node)) is not None:
        return FieldProblem((), span(node, ()), message)
    return None


def _slips(root: Schema, document: Document) -> "list[Slip]":
    from mashwright.reading.slips import slips

    if not isinstance(document.root, Mapping):
        return []
    found: dict[Path, Slip] = {}
    for slip in slips(root, document.text, document.root):
        found.setdefault(slip.path, slip)
    return list(found.values())


def _uncovered(faults: "Iterable[_Fault]", written: "list[Slip]") -> "Iterator[_Fault]":
    covers = {cover for slip in written for cover in slip.covers}
    for fault in faults:
        if not any(fault.path[:length] in covers for length in range(len(fault.path) + 1)):
            yield fault


class _Fault(NamedTuple):
    """One error of the schema library.

    Attributes:
        path: as in FieldProblem.
        keyword: the schema's keyword that is broken, with its ``value`` and the ``subschema`` that it stands in.
        instead: keys of which any would mend it, where one is missing; the key that was meant, where one is unknown.
    """

    path: Path
    keyword: str
    value: Any
    subschema: Schema
    instance: Any
    instead: tuple[str, ...] = ()


MOST_UNKNOWN = 40
"""Unknown fields of one mapping that get a word each."""
MANY = "many"
"""Stands for a keyword of the schema, for all unknown fields past those."""

# an unknown or forbidden key says more than what is wrong with its value
_RANK = {"additionalProperties": 0, "not": 0, "type": 1}


_begun: set[str] = set()
"""The schemas by which a document was checked in this process."""
_SHORT = 20_000  # characters of a document that the slower checker takes; judgement


def _is_plainly_valid(values: object, schema: str, characters: int) -> bool:
    """Whether the first document is surely valid, so that the quick checker need not be loaded for it."""
    if schema in _begun or characters > _SHORT:
        return False
    _begun.add(schema)
    from mashwright.reading.at_first import UnsureError, is_valid

    try:
        return is_valid(values, load(schema), load(schema))
    except UnsureError:
        return False


@cache
def _quick(schema: str) -> Any:
    from jsonschema_rs import Draft202012Validator

    return Draft202012Validator(load(schema))


@cache
def _thorough(schema: str) -> "Draft202012Validator":
    from jsonschema import Draft202012Validator

    return Draft202012Validator(load(schema))


def _faults(root: Schema, error: "ValidationError") -> Iterator[_Fault]:
    from mashwright.reading.wording import meant

    path, subschema = tuple(error.absolute_path), cast("Schema", error.schema)
    keyword, value, instance = str(error.validator), error.validator_value, error.instance
    if keyword == "additionalProperties":
        unknown = [key for key in cast("dict[str, Any]", instance) if key not in subschema.get("properties", {})]
        if len(unknown) > MOST_UNKNOWN:  # such a file is no recipe, and a word for each would take minutes to read
            yield _Fault((*path, unknown[MOST_UNKNOWN]), MANY, len(unknown) - MOST_UNKNOWN, subschema, instance)
        for key in unknown[:MOST_UNKNOWN]:
            guess = meant(root, path, key, cast("dict[str, Any]", instance))
            yield _Fault((*path, key), keyword, value, subschema, instance, () if guess is None else (guess,))
    elif keyword == "required":
        instead = tuple(_alternatives(root, error))
        for key in [key for key in cast("list[str]", value) if key not in cast("dict[str, Any]", instance)]:
            yield _Fault((*path, key), keyword, value, subschema, instance, (*instead, key))
    else:
        yield _Fault(path, keyword, value, subschema, instance)


def _alternatives(root: Schema, error: "ValidationError") -> Iterator[str]:
    """The keys that would have made a missing one needless: those asked for by each ``if`` whose ``else`` was taken."""
    here: Any = root
    for step in error.absolute_schema_path:
        if isinstance(here, dict) and step not in here:  # the library's path passes over $ref
            here = next(layer for layer in layers(root, here) if step in layer)
        if step == "else":
            yield from here["if"].get("required", ())
        here = here[step]


def _one_each(faults: list[_Fault]) -> Iterator[_Fault]:
    """One fault a path, and no missing key where a misspelt one stands for it."""
    misspelt = {(*fault.path[:-1], key) for fault in faults if fault.keyword != "required" for key in fault.instead}
    seen: set[Path] = set()
    for fault in sorted(faults, key=lambda fault: _RANK.get(fault.keyword, 2)):
        meant_here = fault.keyword == "required" and any((*fault.path[:-1], key) in misspelt for key in fault.instead)
        if fault.path not in seen and not meant_here:
            seen.add(fault.path)
            yield fault


def _told(root: Schema, document: Node, fault: _Fault) -> FieldProblem | None:
    from mashwright.reading import wording
    from mashwright.reading.slips import mark_of

    path, subschema = fault.path, fault.subschema
    node = at(document, path)
    if fault.instance is None and isinstance(node, Scalar) and node.value is None and node.text.lower() not in _NOTHING:
        return None  # a number that is none: reading has said so
    if fault.keyword == MANY:
        message = f"{fault.value} fields from here on are not known either; mend or leave out the first of them"
    elif fault.keyword == "additionalProperties":
        guess = fault.instead[0] if fault.instead else None
        message = wording.unknown(root, path, fault.instance, guess, node)
    elif fault.keyword == "required":
        message = subschema.get("errorMessage") or wording.missing(root, path)
    elif isinstance(node, Scalar) and "array" in kinds(at_path(root, path)) and (mark := mark_of(node)) is not None:
        return FieldProblem(path, *mark)
    elif isinstance(node, Scalar) and (said := _unclear(root, document, path, node)) is not None:
        message = said
    elif "errorMessage" in subschema:
        message = subschema["errorMessage"]
    else:
        text = node.text if isinstance(node, Scalar) else ""
        message = wording.wrong_value(root, path, wording.Wrong(fault.keyword, fault.value, fault.instance, text))
    mild = fault.keyword == "enum" and path[-1:] in _MILD and isinstance(fault.instance, str)
    level = Level.WARNING if mild else Level.ERROR
    return FieldProblem(path, _where(document, fault), message, level, _instead(fault, node))


def _instead(fault: _Fault, node: Node | None) -> str:
    """The one word that was meant by a key or by a value, "" where that is not sure."""
    from mashwright.reading import wording

    if fault.keyword == "additionalProperties":
        return fault.instead[0] if fault.instead else ""
    if fault.keyword == "enum" and isinstance(node, Scalar):
        return wording.choice_meant(wording.Wrong(fault.keyword, fault.value, fault.instance, node.text)) or ""
    return ""


_MILD = frozenset((name,) for name in ("form", "kind", "by", "crush", "flocculation"))
"""Fields of which a word that is not known costs this one value only."""


def _unclear(root: Schema, document: Node, path: Path, node: Scalar) -> str | None:
    """What to say of a text that stands for fields and is not understood."""
    from mashwright.reading import wording
    from mashwright.reading.short_forms import own, unclear
    from mashwright.reading.syntax import short

    found = unclear(path, node.text) if "object" in kinds(at_path(root, path)) or path[-1:] == ("ferment",) else None
    if found is None or not found.text or found.text == node.text.strip():
        return None
    if own(path)[0] == "package" and (gases := wording.shares_of_gas(node.text, found.text)) is not None:
        return gases
    heated = found.bare and own(path)[0] in ("mash", "ferment", "cereal-mash")
    if heated and (degrees := _degrees(document, found.text)) is not None:
        return f'"{degrees[0]}" does not say which degrees in "{short(node.text)}"; {degrees[1]}'
    return f'"{short(found.text)}" is not understood in "{short(node.text)}"; write {wording.such_as(root, path)}'


def _degrees(document: Node, text: str) -> tuple[str, str] | None:
    """A bare number that stands where a temperature should, and what to write: by the scale of the other ones."""
    from mashwright.measures.quantity import Kind, QuantityError, read_quantity

    number = re.match(r"\d+(?:\.\d+)?°?(?= |\Z)", text)
    if number is None or float(number[0].rstrip("°")) < _COLDEST:
        return None
    scales = set(_scales(document))
    scale = scales.pop() if len(scales) == 1 else ""
    try:
        read_quantity(f"{number[0].rstrip('°')}°", Kind.TEMPERATURE, scale=f"°{scale}" if scale else "")
    except QuantityError as asked:
        return number[0], asked.advice
    return None


_COLDEST = 5
"""A bare number below this is hardly a temperature of a mash or a ferment; from memory."""


def _scales(node: Node) -> Iterator[str]:
    """The scale of each temperature of a document, C or F."""
    if isinstance(node, Scalar):
        yield from re.findall(r"\d ?°? ?([CF])(?!\w)", node.text[:200])
    else:
        for inner in (value for _, value in node.entries) if isinstance(node, Mapping) else node.items:
            yield from _scales(inner)


_NOTHING = ("", "~", "null")


def _where(document: Node, fault: _Fault) -> Span:
    if fault.keyword in ("additionalProperties", "not", MANY):
        parent, key = at(document, fault.path[:-1]), fault.path[-1]
        if isinstance(parent, Mapping) and isinstance(key, str) and (name := parent.key(key)) is not None:
            return Span(name.start, name.end)
    return span(document, fault.path)
