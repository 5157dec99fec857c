"""Do two recipes of the collection have one name?

Whoever looks for the Harbour Wheat should find one Harbour Wheat. Two files of
one name are two versions, and nobody knows the right one. Or one is a copy that
was to become another beer.

What is checked: the names, without regard to capitals, accents, spaces, hyphens
and other marks. A number keeps its sign, its decimal point (or comma) and the
stroke of its fraction. So -1.5 and +1.5 are two names; 1.5 and 15, 1/2 and 12
too. A hyphen that joins a number to a word is not a sign.

- warning: the same name again, in the later file by path
- skipped: a name without a letter or a digit; a review of one file, not of a
  folder

On the day: ask whose sheet lies on the table before you weigh the grain.

Sources: none needed; [common-practice].
"""

from collections.abc import Iterator

from mashwright.brew import Brew
from mashwright.rule import ExampleOfTwo, Finding, Level, Settings, say


class Limits(Settings):
    """It has no settings of its own."""


SAYS = {
    "same": "{name} is the name of {other} too; rename one of the two, or delete it",
}


_KEPT = {".": ".", ",": ".", "+": "+", "/": "/", "\u2044": "/"}
"""What parts the digits of a number; the last is the stroke of a fraction that was one sign."""


def gather(brew: Brew) -> tuple[str, str] | None:
    name = str(brew.recipe.name)
    plain = name.casefold()
    if not plain.isascii():
        from unicodedata import normalize

        plain = normalize("NFKD", plain)  # an accent becomes a mark of its own, which is no letter
    if plain.isalnum():
        return plain, name
    key = "".join(sign if sign.isalnum() else _of_a_number(plain, place) for place, sign in enumerate(plain))
    return (key, name) if any(sign.isalnum() for sign in key) else None


def _of_a_number(text: str, place: int) -> str:
    """A mark as it counts in a name: the sign or the point of a number, or nothing."""
    sign, before, after = text[place], text[place - 1 : place], text[place + 1 : place + 2]
    if not after.isdigit():
        return ""
    if before.isdigit():
        return _KEPT.get(sign, "")
    if sign == "+":
        return "+"
    return "-" if sign in "-\u2212" and not before.isalnum() else ""


def check_collection(gathered: list[tuple[str, tuple[str, str]]], limits: Limits) -> Iterator[tuple[str, Finding]]:
    del limits
    first: dict[str, str] = {}
    for path, (key, name) in sorted(gathered):
        if key in first:
            yield path, Finding(("recipe",), Level.WARNING, say("same", name=name, other=first[key]), gap=1.0)
        else:
            first[key] = path


SOUND = """\
recipe: Harbour Wheat
by: Saltmarsh Lane Mash Circle
batch: 20 l
grist:
  - {grain: two-row pale malt, weight: 2.5 kg}
  - {grain: wheat malt, weight: 2 kg}
"""

FAULTY = ExampleOfTwo(
    SOUND,
    """\
recipe: harbour-wheat
by: Saltmarsh Lane Mash Circle
batch: 10 l
grist:
  - {grain: pilsner malt, weight: 1.2 kg}
  - {grain: wheat malt, weight: 1 kg}
""",
    "warning",
    1,
    9,
    "harbour-wheat is the name of first.yaml too; rename one of the two, or delete it",
)
