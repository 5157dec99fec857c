"""Families of texts that are made to take a reader down, each at any size; every one is full of one thing.

A stranger writes what a recipe or a brewhouse holds, so what costs more than it should is found here first.
"""

# ruff: noqa: E501 -- one text stands on one line

from collections.abc import Callable
from itertools import count, pairwise
from string import ascii_lowercase

Family = Callable[[int], str]

HEAD = "recipe: Trial\nbatch: 20 l\n"
GRIST = "grist:\n  - {grain: pale malt, weight: 4 kg}\n"
PALE = HEAD + GRIST
BREWERY = "brewhouse: Trial\n"


def filled(before: str, unit: str, after: str = "") -> Family:
    """A text of one piece again and again."""
    return lambda size: before + unit * ((size - len((before + after).encode())) // len(unit.encode())) + after


def counted(before: str, unit: str, after: str = "") -> Family:
    """A text of one piece again and again, with its number in place of each ``@``."""

    def family(size: int) -> str:
        room, pieces = size - len(before) - len(after), []
        for number in count():
            piece = unit.replace("@", str(number))
            if (room := room - len(piece.encode())) < 0:
                return before + "".join(pieces) + after
            pieces.append(piece)
        raise AssertionError

    return family


def repeated(before: str, unit: str, after: str, times: Callable[[int], int], line: str) -> Family:
    """A long anchored text, and then as many aliases of it as there is room for."""

    def family(size: int) -> str:
        long = unit * (times(size) // len(unit))
        head = before.replace("@", long)
        return head + line * ((size - len(head) - len(after)) // len(line)) + after

    return family


def half(size: int) -> int:
    return size // 2


def _chain(size: int) -> str:
    """Anchors around each other, each sixty lists deep."""
    texts = ["recipe: Trial\nnotes:\n  a0: &a0 " + "[" * 60 + "]" * 60 + "\n"]
    room = size - len(texts[0])
    for number in range(1, 10_000):
        line = f"  a{number}: &a{number} " + "[" * 60 + f"*a{number - 1}" + "]" * 60 + "\n"
        if (room := room - len(line)) < 0:
            break
        texts.append(line)
    return "".join(texts)


def _powers(size: int) -> str:
    """Each anchor nine times the one before it."""
    lines = [f"{b}: &{b} [{','.join([f'*{a}'] * 9)}]\n" for a, b in pairwise(ascii_lowercase)]
    text = "recipe: x\na: &a [x,x,x,x,x,x,x,x,x]\n" + "".join(lines)
    return text + "#" * (size - len(text))


STRUCTURE: dict[str, Family] = {
    "lists in lists": filled(HEAD + "grist: ", "["),
    "braces in braces": filled(HEAD + "mash: ", "{rests: "),
    "dashes in dashes": filled(HEAD + "grist:\n  ", "- "),
    "keys in keys": filled("", "? "),
    "rising indents": lambda size: "".join(" " * n + "a:\n" for n in range(int((2 * size) ** 0.5) - 3)),
    "empty dashes": filled("recipe: x\ngrist:\n", "-\n"),
    "empty items in brackets": filled(HEAD + "grist: [", ",", "]\n"),
    "one value and commas": filled(HEAD + "grist: [", "a,", "]\n"),
    "colons": filled("", "recipe:"),
    "colons and blanks": filled("recipe: ", "a: "),
    "brackets closed": filled(PALE, "]"),
    "brackets that match": filled(HEAD + "notes: ", "[]"),
    "semicolons in braces": filled(HEAD + "grist: [{grain: a", "; b: c", "}]\n"),
    "words in braces": filled(HEAD + "grist: [{grain: a", " b", ": c}]\n"),
    "documents": filled(PALE, "---\nrecipe: x\n"),
    "ends of documents": filled(PALE, "...\n"),
    "a second document far down": filled(PALE + "...\n", "\n", "recipe: x\n"),
    "every value its own list": filled(HEAD + "notes:\n", "- [a]\n"),
    "fields without end": counted(HEAD, "a@: 1\n"),
    "fields of a line without end": counted(HEAD + "grist:\n  - grain: x\n", "    a@: 1\n"),
    "lines with fields that nobody knows": counted(HEAD + "grist:\n", "  - {a@: 1, b: 2, c: 3}\n"),
    "lines that are texts": filled(HEAD + "grist:\n", "  - pale malt 3 kg\n"),
    "lines that are lists": filled(HEAD + "grist:\n", "  - [1]\n"),
    "lines out of step": filled(HEAD + "grist:\n", "  - grain: x\n   weight: 1 kg\n"),
    "keys that are lists": filled(HEAD, "? [a]\n: b\n"),
    "sections of sections": filled(HEAD + "mash:\n", "  rests: {rests: {rests: 1}}\n"),
    "texts for sections": filled(HEAD, "mash: x\nsparge: y\nboil: z\n"),
    "one key many times": filled("recipe: x\n", "batch: 20 l\n"),
    "two keys many times in an item": filled(HEAD + "grist:\n  - grain: x\n    weight: 1 kg\n", "    grain: x\n    weight: 1 kg\n"),
    "keys twice in braces": filled(HEAD + "grist: [{", "grain: x, ", "}]\n"),
    "merges": filled("recipe: x\na: &a {b: 1}\n", "<<: *a\n"),
    "marks of a merge": filled(HEAD + "notes: |\n", " <<<<<<<x\n"),
    "marks of a merge and blanks": filled(HEAD + "notes: |\n <<<<<<<x\n", " "),
}  # fmt: skip

REFERENCES: dict[str, Family] = {
    "anchors": counted(HEAD + "notes:\n", "  - &a@ x\n"),
    "one anchor of all": lambda size: HEAD + "notes: &" + "x" * (size - len(HEAD) - 12) + " a\n",
    "aliases": filled("recipe: &a x\ngrist: [", "*a,", "]\n"),
    "aliases of nothing": filled("recipe: x\ngrist: [", "*b,", "]\n"),
    "aliases of a long text": repeated("recipe: x\nnotes:\n  - &a " + "@\n", "long ", "", half, "  - *a\n"),
    "aliases of a long name": repeated("recipe: &a @\ngrist:\n", "malt ", "", half, "  - {grain: *a, weight: 1 kg}\n"),
    "aliases of a long key": repeated("recipe: &a @\nnotes:\n", "malt ", "", lambda size: 900, "  - {*a : 1}\n"),
    "aliases of a short list": repeated("recipe: x\nnotes:\n  - &a [@]\n", "l,", "", lambda size: 200, "  - *a\n"),
    "aliases of lines": filled(HEAD + "grist:\n  - &a {grain: pale malt, weight: 1 g}\n", "  - *a\n"),
    "aliases of lists that are wrong": filled(HEAD + "hops: &a\n  - {a: 1, b: 2, c: [1, 2, 3]}\ngrist: &b [*a, *a, *a]\n", "mash: *b\n"),
    "anchors around anchors": _chain,
    "nine to the power of nine": _powers,
    "tags": filled("recipe: x\nnotes:\n", "  - !a b\n"),
    "tags and anchors": filled("recipe: x\nnotes:\n", "  - &b !a c\n"),
    "one tag of all": lambda size: "recipe: !" + "x" * (size - 14) + " a\n",
    "one tag with escapes": filled("recipe: !", "%41", " a\n"),
    "tags in front of nothing": filled("recipe: x\nnotes: [", "!a ,", "]\n"),
    "handles of tags": counted("", "%TAG !a@! tag:x\n", "---\n" + PALE),
    "one handle of all": lambda size: f"%TAG !a! tag:{'x' * (size // 2)}\n---\nrecipe: x\nnotes:\n" + "  - !a!x y\n" * (size // 25),
    "handles behind the end": counted(PALE + "...\n", "%TAG !a@! tag:x\n", "--- a\n"),
    "versions": filled("", "%YAML 1.2\n", "---\n" + PALE),
    "one version of all": lambda size: "%YAML 1." + "1" * (size - 80) + "\n---\n" + PALE,
    "signs that say nothing": filled("", "%%\n", PALE),
}  # fmt: skip

TEXTS: dict[str, Family] = {
    "quotes": filled("recipe: ", "'"),
    "double quotes": filled("recipe: ", '"'),
    "quotes never closed": filled("recipe: 'x\n", "batch: 20 l\n"),
    "quotes never closed far up": filled(HEAD + "by: 'x\n", "notes: y\n", "source: y'\n"),
    "quotes and words": filled(HEAD + "notes: ", "'a b"),
    "lines of quotes": filled(HEAD + "by: 'x\n", "'y'\n"),
    "a quote in each line": filled(HEAD + "by: 'x\n", "  it's\n", "b 'c"),
    "curly quotes": filled(HEAD + "by: '", "”", "\n"),
    "escapes": filled('recipe: "', "\\x41", '"\n'),
    "escapes that are none": filled(HEAD + 'by: "', "\\q", '"\n'),
    "comments": filled("recipe: x\n", "# text\n"),
    "comments before all": filled("", "# text\n", PALE),
    "comments before words": filled("", "# text\n", "words\n"),
    "one comment": filled("recipe: x\n#", "#"),
    "comments before a list": filled(HEAD + "grist:\n", "  # - text\n", "  - {grain: x, weight: 1 kg}\n"),
    "dashes before a list": filled(HEAD + "grist:\n  - # x\n", "    # -\n", "    {grain: x, weight: 1 kg}\n  - {share: 3 kg}\n"),
    "comments between a dash and its item": filled(HEAD + "grist:\n  - {grain: x, weight: 1 kg}\n  -", " -#", "\n    weight: 1 kg\n"),
    "items with comments between": filled(HEAD + "grist:\n", "  -\n    # -\n    lot: x\n  - grain: y\n"),
    "blanks before all": filled("", " ", PALE),
    "blanks before something else": filled("", " ", "jobs: x\n"),
    "blanks and a brace": filled("{", " ", "jobs: x}\n"),
    "blanks behind": filled(PALE, " "),
    "blanks behind a key": filled("recipe", " ", ": x\n" + GRIST),
    "blanks behind a colon": filled("recipe:", " ", "x\n" + GRIST),
    "blanks in a name": filled(HEAD + "grist:\n  - grain: a", " ", "b\n"),
    "blanks in quotes": filled(HEAD + "grist:\n  - '3 kg", " ", "b'\n"),
    "blanks in a weight": filled(HEAD + "grist:\n  - grain: a\n    weight: 3", " ", "kg\n"),
    "odd blanks": filled(HEAD, "\u00a0"),
    "odd blanks behind dashes": filled(HEAD + "grist:\n", "  -\u00a0grain: x\n"),
    "tabs": filled(HEAD, "\t"),
    "tabs and fields": filled(HEAD, "\tgrist: x\n"),
    "line ends": filled(HEAD, "\n", "grist: []\n"),
    "carriage returns": filled(HEAD, "\r"),
    "line ends of all kinds": filled(HEAD, "\r\n\n\r#\r\n", "batch: x\n"),
    "line ends that are none": filled(HEAD + "notes: a", "\u2028\u0085\u2029", "\n"),
    "next lines": filled(HEAD, "batch:\u00a0x\u0085\n"),
    "a literal": filled(PALE + "notes: |\n", "  text\n"),
    "a literal of one line": filled(PALE + "notes: |\n  ", "text "),
    "a folded text": filled(PALE + "notes: >\n", "  text\n\n   more\n"),
    "a literal of line ends": filled(PALE + "notes: |+\n", "\n"),
    "a literal of blanks": filled(PALE + "notes: |\n", "                   \n", "  x\n"),
    "literals": filled(PALE + "notes:\n", "- |\n x\n"),
    "a text over many lines": filled(PALE + "notes: a\n", "  b\n"),
    "glued colons": filled("", "a:b\n"),
    "words without a colon": filled("", "batch 20 l\n"),
    "one line without a colon": filled("", "batch "),
    "signs for dashes": filled(HEAD + "grist:\n", "  \u2013 x\n"),
    "dashes in a line": filled(HEAD + "grist:\n", "- ", "@x\n"),
    "at signs": filled(HEAD + "by: ", "@"),
}  # fmt: skip

NAMES: dict[str, Family] = {
    "a long name": filled("recipe: ", "x ", "\n" + GRIST),
    "a long name of one word": filled("recipe: ", "x", "\n" + GRIST),
    "a long name of commas": filled("recipe: ", ",x", "\n" + GRIST),
    "a long grain": filled(HEAD + "grist:\n  - grain: ", "malt ", "\n    weight: 1 kg\n"),
    "a long grain with a weight": filled(HEAD + "grist:\n  - grain: ", "malt 1 ", "kg x\n"),
    "a long grain of digits": filled(HEAD + "grist:\n  - grain: x", "1a", "\n    weight: 1 kg\n"),
    "a line of text": filled(HEAD + "grist:\n  - ", "malt, ", "3 kgs\n"),
    "a line of digits": filled(HEAD + "grist:\n  - ", "1 1/2 ", "kgs x\n"),
    "a long key": filled("? ", "x", "\n: 1\n" + PALE),
    "a long key of ligatures": filled("? ", "\ufdfa", "\n: 1\n" + PALE),
    "a long key of marks": filled("? a", "\u0323\u0301", "\n: 1\n" + PALE),
    "a long key of hyphens": filled("? a", "-_ ", "\n: 1\n" + PALE),
    "long keys": counted("", "x" * 1000 + "@: 1\n", PALE),
    "keys nearly known": counted(PALE, "grain-bil@: 1\nmash-x@: 2\n"),
    "grains that nobody knows": counted(HEAD + "grist:\n", "  - {grain: malt x@, weight: @ g}\n"),
    "grains of ligatures": counted(HEAD + "grist:\n", "  - {grain: \ufdfa\ufdfa\ufdfa\ufdfa@, weight: 1 g}\n"),
    "a grain of ligatures": filled(HEAD + "grist:\n  - grain: ", "\ufdfa", "\n    weight: 1 kg\n"),
    "a grain of marks": filled(HEAD + "grist:\n  - grain: a", "\u0323\u0301", "\n    weight: 1 kg\n"),
    "a grain of joined letters": filled(HEAD + "grist:\n  - grain: ", "\u1100\u1161\u11a8", "\n    weight: 1 kg\n"),
    "a grain outside the first plane": filled(HEAD + "grist:\n  - grain: ", "\U0001f37a", "\n    weight: 1 kg\n"),
    "a hop of hyphens": filled(PALE + "hops:\n  - hop: ", "-s", "\n    weight: 9 g\n"),
    "hops that nobody knows": counted(PALE + "hops:\n", "  - {hop: hop of x@, weight: @ g, boil: 9 min}\n"),
    "yeasts that nobody knows": counted(PALE + "yeast:\n", "  - {kind: yeast of x@, pitch: 9 g}\n"),
    "things that nobody knows": counted(PALE + "additions:\n", "  - {what: herb x@, weight: 9 g, when: boil}\n"),
    "a style of words": filled(PALE + "style: ", "pale ale ", "\n"),
    "a source of years": filled(PALE + "source: ", "1889 ", "\n"),
    "notes of allergens": filled(PALE + "notes: ", "free of gluten, no nuts; ", "\n"),
    "notes of one word": filled(PALE + "notes: ", "no", "\n"),
    "notes of doubts": filled(PALE + "notes: ", "without any ", "\n"),
    "notes of sour words": filled(PALE + "notes: ", "lacto no boil with ", "\n"),
    "notes of marks": filled(PALE + "notes: a", "\u0323\u0301", "\n"),
    "notes of apostrophes": filled(PALE + "notes: a", "'a", "\n"),
    "notes of sections": counted(PALE + "notes:\n", "  a@: {b: c}\n"),
    "salts without end": counted(PALE + "mash:\n  salts:\n", "    salt x@: 1 g\n"),
    "enzymes without end": counted(PALE + "mash:\n  enzymes:\n", "    glucoamylase @: 1 g\n"),
}  # fmt: skip

QUANTITIES: dict[str, Family] = {
    "a long number": filled("recipe: x\nbatch: ", "9", " l\n" + GRIST),
    "a long power": filled("recipe: x\nbatch: 1e", "9", " l\n" + GRIST),
    "a long octal": filled("recipe: x\nbatch: 0o", "7", "\n" + GRIST),
    "a long hex": filled("recipe: x\nbatch: 0x", "f", "\n" + GRIST),
    "hexes": filled("recipe: x\nnotes: [", "0x" + "f" * 4000 + ",", "]\n"),
    "digits of three thousand": filled("recipe: x\nnotes: [", "9" * 290 + ",", "]\n"),
    "a long decimal": filled("recipe: x\nbatch: 1.", "1", " l\n" + GRIST),
    "a long sum": filled("recipe: x\nbatch: ", "1 lb ", "\n" + GRIST),
    "a long fraction": filled("recipe: x\nbatch: ", "1/2 ", "l\n" + GRIST),
    "a long range": filled("recipe: x\nbatch: ", "1-", "2 l\n" + GRIST),
    "commas": filled("recipe: x\nbatch: ", "1,", "1 l\n" + GRIST),
    "points": filled("recipe: x\nbatch: ", "1.1", " l\n" + GRIST),
    "thousands": filled("recipe: x\nbatch: ", "100 ", "l\n" + GRIST),
    "underscores": filled("recipe: x\nbatch: 1", "_", "1 l\n" + GRIST),
    "brackets": filled("recipe: x\nbatch: 1 ", "(", " l\n" + GRIST),
    "quotes around a number": filled("recipe: x\nbatch: ", "”", "1 l”\n" + GRIST),
    "weights that are none": counted(HEAD + "grist:\n", "  - {grain: pale malt, weight: @ kgs x}\n"),
    "weights of commas": counted(HEAD + "grist:\n", "  - {grain: pale malt, weight: 1,@ kg}\n"),
    "weights in spoons": counted(PALE + "additions:\n", "  - {what: salt, weight: @ tsp, when: boil}\n"),
    "weights of seventy signs": counted(HEAD + "grist:\n", "  - {grain: pale malt, weight: @" + " 1" * 36 + " kg}\n"),
    "salts of seventy signs": counted(PALE + "mash:\n  salts:\n", "    s@: 1" + " " * 68 + "g\n"),
    "numbers of notes": counted(PALE + "notes:\n", "  - @.5e3\n"),
}  # fmt: skip

LISTS: dict[str, Family] = {
    "many lines of grist": filled(HEAD + "grist:\n", "  - {grain: raw wheat, weight: 1 g}\n"),
    "lines of grist in many colours": counted(HEAD + "grist:\n", "  - {grain: caramel malt 40, colour: @ EBC, weight: @ g}\n"),
    "five hundred lines of grist": lambda size: counted(HEAD + "grist:\n", "  - {grain: raw wheat, weight: 1 g}\n")(min(size, 17_000)),
    "five hundred grains that nobody knows": lambda size: counted(HEAD + "grist:\n", "  - {grain: malt x@, weight: @ g}\n")(min(size, 17_500)),
    "many hops": filled(PALE + "hops:\n", "  - {hop: Saaz, weight: 1 g, boil: 9 min}\n"),
    "many additions": filled(PALE + "additions:\n", "  - {what: gypsum, weight: 1 g, when: boil}\n"),
    "many rests": filled(PALE + "mash:\n  rests:\n", "    - {at: 66 °C, for: 9 min}\n"),
    "rests of a day": filled(PALE + "mash:\n  rests:\n", "    - {at: 60 °C, to: 70 °C, for: 24 h}\n"),
    "many steps of fermenting": filled(PALE + "ferment:\n", "  - {at: 20 °C, for: 9 d}\n"),
    "many brew days": filled(PALE + "measured:\n", "  - {date: 2026-01-01, og: 1.050}\n"),
    "temperatures of a brew day": counted(PALE + "measured:\n  - date: 2026-01-01\n    temperatures:\n", "      t@: 66 °C\n"),
    "accepted without end": filled(PALE + "accepted:\n", "  - {rule: run-off, reason: x}\n"),
    "accepted for a long reason": filled(PALE + "accepted:\n  - rule: run-off\n    reason: ", "long ", "\n"),
    "rules that nobody has": counted(PALE + "accepted:\n", "  - {rule: run-of@, reason: x}\n"),
    "yeasts": filled(PALE + "yeast:\n", "  - {kind: saison, pitch: 11 g}\n"),
}  # fmt: skip

BREWHOUSES: dict[str, Family] = {
    "lots": counted(BREWERY + "lots:\n", "  A@: {of: pale malt, colour: 3 EBC}\n"),
    "lots of nothing": counted(BREWERY + "lots:\n", "  A@: {of: malt x@, colour: @ foo}\n"),
    "lots that are texts": counted(BREWERY + "lots:\n", "  A@: x\n"),
    "ingredients": counted(BREWERY + "ingredients:\n", "  thing @: {kind: base malt}\n"),
    "ingredients of no kind": counted(BREWERY + "ingredients:\n", "  thing @: {kind: kind @}\n"),
    "ingredients of many names": counted(BREWERY + "ingredients:\n", "  thing @: {kind: saison, also: [a@, b@, c@, d@]}\n"),
    "one ingredient of many names": counted(BREWERY + "ingredients:\n  thing:\n    kind: hop\n    also:\n", "      - a@\n"),
    "ingredients of one name": filled(BREWERY + "ingredients:\n  a: {kind: hop, also: [", "b, ", "c]}\n"),
    "rules of no name": counted(BREWERY + "rules:\n", "  rule-@: {most: 1}\n"),
    "settings of no name": counted(BREWERY + "rules:\n  run-off:\n", "    most-@: 1\n"),
    "stars of a glob": filled(BREWERY + "recipes:\n  - ", "**/", "x\n"),
    "globs": counted(BREWERY + "recipes:\n", "  - a@/**/b*\n"),
    "a glob of stars": filled(BREWERY + "recipes:\n  - ", "*a", "x\n"),
    "acceptances of a brewhouse": filled(BREWERY + "accepted:\n", "  - {rule: run-off, reason: x, in: '**/*'}\n"),
    "a long name of a brewhouse": filled("brewhouse: ", "x ", "\n"),
    "fields of a brewhouse": counted(BREWERY, "a@: 1\n"),
    "a brewhouse of lists": filled(BREWERY + "lots: ", "["),
    "blanks of a brewhouse": filled("", " ", BREWERY),
    "a long lot": filled(BREWERY + "lots:\n  ? ", "x", "\n  : {of: pale malt}\n"),
}  # fmt: skip

RECIPES: dict[str, Family] = {**STRUCTURE, **REFERENCES, **TEXTS, **NAMES, **QUANTITIES, **LISTS}
