"""Whole lines that were written another way: what a person meant by them, told once in place of each fault it makes."""

import re
from collections.abc import Iterator
from typing import NamedTuple

from mashwright.budgets import FINDINGS
from mashwright.finding import Path
from mashwright.patterns import pattern
from mashwright.reading.editing import dash_before
from mashwright.reading.fields import Schema, at_path, keys
from mashwright.reading.nodes import Mapping, Node, Scalar, Sequence, Span, span, start_of_line
from mashwright.reading.short_forms import unclear
from mashwright.reading.signs import marked_otherwise, odd_blank
from mashwright.reading.syntax import short
from mashwright.reading.wording import flow, meant, plain
from mashwright.words.vocabulary import mentions

LISTS = {
    "grist": ("grain", "sugar", "extract", "fruit"),
    "grain-bill": ("grain", "sugar", "extract", "fruit"),
    "hops": ("hop",),
    "additions": ("what",),
}
"""Lists of things that are weighed, and the fields of which one says what the thing is."""
_SAID = {"grist": "the grist", "grain-bill": "the grist", "hops": "the hops", "additions": "the additions"}
_UNIT = r"(?:kg|g|grams?|lbs?|pounds?|oz|ounces?)"
_AMOUNT = pattern(rf"(?<![\d.,/])(?:\d+ \d/\d|\d[\d.,/]*+|[½¼¾])\s*{_UNIT}(?!\w)")


class Slip(NamedTuple):
    """One thing that was written another way.

    Attributes:
        path, span, message: as of a finding.
        covers: the paths at and below which a fault of the schema says the same once more.
    """

    path: Path
    span: Span
    message: str
    covers: tuple[Path, ...]


def slips(root: Schema, text: str, document: Mapping) -> Iterator[Slip]:
    """Every such line of a recipe.

    Args:
        root: the schema.
        text: whole, for the dashes of its lists.
        document: the recipe.
    """
    for name, heads in LISTS.items():
        if isinstance(lines := document.get(name), Sequence):
            yield from _lines(root, text, (name,), lines, heads)
            yield from _at_the_margin(root, text, document, name, lines)
    yield from _empty_items(root, document, ())


def no_recipe(root: Schema, document: Mapping) -> str | None:
    """What to say of a file that has nothing of a recipe, or None."""
    needed = ("recipe", "batch", "grist", "grain-bill")
    present = {key.text: None for key, _ in document.entries}
    found = 0
    for key in present:
        if plain(key) in {plain(name) for name in needed}:
            return None
        if meant(root, (), key, {}) in needed:
            # a name or a size alone has many a file
            found += 1 if plain(key) in ("name", "title", "size", "volume") else 2
    if found > 1:
        return None
    message = "this is not a recipe: it has no `recipe:`, `batch:` or `grist:`"
    if "brewhouse" in present:
        return f"{message}; a brewhouse is read from a file named brewhouse.yaml"
    if any(key.casefold() in _OTHER_TONGUES or not key.isascii() for key in present):
        return f"{message}; the names of fields are in English"
    return message


_OTHER_TONGUES = frozenset(("rezept", "sud", "recette", "receta", "ricetta", "recept", "receptura", "brassin"))
"""What a recipe is called elsewhere."""


def named_and_weighed(text: str, heads: tuple[str, ...]) -> dict[str, str] | None:
    """A name and a weight that stand in one text, as the two fields that they should be."""
    text = text.strip()
    for amount in _AMOUNT().finditer(text):
        before, behind = text[: amount.start()], text[amount.end() :]
        if not behind and not before[:1].isdecimal() and before[-1:] in _BETWEEN:
            name = before.strip(" ,:")
        elif not before and behind[:1].isspace():
            name = behind.lstrip().removeprefix("of ").strip(" ,:")
        else:
            continue
        if any(not sign.isdecimal() for sign in name):
            return {_head(name, heads): short(name), "weight": amount.group()}
    return None


_BETWEEN = (" ", "\t", "\n", ",", ":")
"""What may stand between a name and its weight."""


def _head(name: str, heads: tuple[str, ...]) -> str:
    if "sugar" in heads and mentions("malt-extract", "ingredient", name):
        return "extract"
    return "sugar" if "sugar" in heads and mentions("sugar", "ingredient", name) else heads[0]


def _lines(root: Schema, text: str, path: Path, lines: Sequence, heads: tuple[str, ...]) -> Iterator[Slip]:
    known = keys(at_path(root, (*path, 0)))
    above: tuple[int, set[str]] | None = None
    guesses = FINDINGS  # at what an unknown field means; where more would be needed, no line is looked at any more
    for index, line in enumerate(lines.items):
        here = (*path, index)
        if not isinstance(line, Mapping) or not line.entries:
            above = None
            yield from _text_for_fields(here, line, heads)
            continue
        present = {key.text for key, _ in line.entries}
        if (guesses := guesses - len(present.difference(known))) < 0:
            return
        named = any(head in present for head in heads) or any(
            meant(root, here, key, {}) in heads for key in present if key not in known
        )
        if named:
            above = index, present
            yield from _weight_in_the_name(here, line, heads, present)
        elif above is not None and present <= set(known) and not present & above[1]:
            owner, before = above
            yield _dash_too_many(text, lines.items[index - 1].start, here, line, (*path, owner))
            above = owner, before | present
        else:
            above = None
            unknown = {key for key in present if key not in known and meant(root, here, key, {}) is None}
            yield from _name_as_field(here, line, heads, unknown)


def _text_for_fields(here: Path, line: Node, heads: tuple[str, ...]) -> Iterator[Slip]:
    """A text that is no line of its list; a line that could be read has been written out by now."""
    if not isinstance(line, Scalar) or marked_otherwise(line.text) is not None:
        return
    found = unclear(here, line.text)
    fields = named_and_weighed(line.text, heads)
    if found is None or not (fields or found.fields):
        return
    known = {one.name: one.text for one in found.fields if one.name}
    write = flow(fields if fields is not None and len(known) < 2 else known)
    where = Span(line.start, line.end)
    if not found.text:
        message = f"a line of {_SAID[str(here[0])]} says what it is; this one has only {short(line.text)}"
    elif found.bare:
        number = found.text.split()[0]
        units = _UNITS_OF[heads[0]][bool(known.keys() & {"weight", "share", "alpha-units"})]
        likely = (unit for unit in units if unit != "oz" or _plain_number(number) <= _MOST_OUNCES)
        write = " or ".join(f"{number} {unit}" for unit in likely)
        message = f'"{number}" has no unit in "{short(line.text)}"; write {write}'
    else:
        message = f'"{short(found.text)}" is not understood in "{short(line.text)}"; write - {write}'
    yield Slip(here, where, message, (here,))


_MOST_OUNCES = 6
"""A number of hops above this is hardly one of ounces; from memory."""


def _plain_number(number: str) -> float:
    """A plain number; 0 where it is a fraction or another."""
    return float(number) if re.fullmatch(r"\d+(?:\.\d+)?", number) else 0.0


_UNITS_OF: dict[str, tuple[tuple[str, ...], tuple[str, ...]]] = {
    "grain": (("kg", "lb"), ("EBC",)),
    "hop": (("g", "oz"), ("min",)),
    "what": (("g", "ml"), ("min",)),
}
"""The units that a bare number of a line may lack: where no weight is stated beside it, and where one is."""


def _weight_in_the_name(here: Path, line: Mapping, heads: tuple[str, ...], present: set[str]) -> Iterator[Slip]:
    for head in heads:
        name = line.get(head)
        if isinstance(name, Scalar) and not present & {"weight", "share", "volume", "count"}:
            fields = named_and_weighed(name.text, (head,))
            if fields is not None:
                said = f"write {head}: {fields[head]} and weight: {fields['weight']}"
                message = f"the weight is in the name; {said}"
                yield Slip((*here, head), Span(name.start, name.end), message, (here,))


def _name_as_field(here: Path, line: Mapping, heads: tuple[str, ...], unknown: set[str]) -> Iterator[Slip]:
    """``- pilsner malt: 3 kg``, or ``- 3 kg: pilsner malt``."""
    for key, value in line.entries:
        if key.text not in unknown or not isinstance(value, Scalar):
            continue
        name, amount = (value.text, key.text) if key.text[:1].isdigit() else (key.text, value.text)
        if not re.match(r"[\d.½¼¾]", amount) or not re.search(r"[^\W\d]", name):
            continue
        field = "share" if amount.rstrip().endswith("%") and "grain" in heads else "weight"
        amount = amount if re.search(r"\D\s*\Z", amount) else f"{amount} {'kg' if 'grain' in heads else 'g'}"
        fields = {_head(name, heads): short(name), field: short(amount)}
        if len(line.entries) == 1:
            write = f"- {flow(fields)}"
        else:
            write = " and ".join(f"{one}: {said}" for one, said in fields.items())
        message = f"`{short(key.text)}` is not a field; write {write}"
        yield Slip((*here, key.text), Span(key.start, key.end), message, (here,))
        return


def _dash_too_many(text: str, before: int, here: Path, line: Mapping, owner: Path) -> Slip:
    first = line.entries[0][0]
    names = " and ".join(f"`{key.text}`" for key, _ in line.entries[:3])
    belongs = "belongs" if len(line.entries) == 1 else "belong"
    if line.flow:
        message = f"{names} {belongs} to the line above; put both into the same braces"
        return Slip(here, Span(first.start, first.end), message, (here, owner))
    dash = dash_before(text, before, line.start)
    message = f"a dash too many: {names} {belongs} to the line above; write a space instead of the dash"
    return Slip(here, Span(dash, dash + 1), message, (here, owner))


def _at_the_margin(root: Schema, text: str, document: Mapping, name: str, lines: Sequence) -> Iterator[Slip]:
    """``weight:`` below a list, without the blanks that would make it part of the last line."""
    last = lines.items[-1] if lines.items else None
    if not isinstance(last, Mapping) or not last.entries or last.get("weight") or last.get("share"):
        return
    entries = iter(document.entries)
    next(found for found in entries if found[0].text == name)
    key, _ = next(entries, (None, None))
    if key is None or key.text not in ("weight", "share") or key.text not in keys(at_path(root, (name, 0))):
        return
    first = last.entries[0][0].start
    blanks = first - start_of_line(text, first)
    how = "put it into the braces there" if last.flow else f"put {blanks} spaces in front of it"
    message = f"`{key.text}` belongs in a line of {_SAID[name]}, the one above; {how}"
    yield Slip((key.text,), Span(key.start, key.end), message, ((key.text,), (name, len(lines.items) - 1)))


def _empty_items(root: Schema, node: Node, path: Path) -> Iterator[Slip]:
    if isinstance(node, Mapping):
        for key, value in node.entries:
            yield from _empty_items(root, value, (*path, key.text))
    elif isinstance(node, Sequence):
        examples = [example for layer in at_path(root, (*path, 0)) for example in layer.get("examples", ())]
        fields = bool(examples) and isinstance(examples[0], dict)
        for index, item in enumerate(node.items):
            here = (*path, index)
            if fields and ((isinstance(item, Mapping) and not item.entries) or _is_nothing(item)):
                message = f"this line is empty; write - {flow(examples[0])}, or take it out"
                yield Slip(here, span(node, (index,)), message, (here,))
            elif isinstance(item, Scalar) and fields and (mark := mark_of(item)) is not None:
                yield Slip(here, *mark, (here,))
            else:
                yield from _empty_items(root, item, here)


def _is_nothing(item: Node) -> bool:
    return isinstance(item, Scalar) and item.value is None and item.text.lower() in ("", "~", "null")


def mark_of(node: Scalar) -> tuple[Span, str] | None:
    """The sign at the start of a text that was meant as the dash of a list, or the blank after one."""
    if not node.plain:
        return None
    if (bullet := marked_otherwise(node.text)) is not None:
        return Span(node.start, node.start + 1), bullet
    if node.text[:1] == "-" and (odd := odd_blank(node.text[:2])) is not None:
        return Span(node.start + 1, node.start + 2), odd[1]
    return None
