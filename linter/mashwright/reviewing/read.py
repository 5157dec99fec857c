"""The first step of a review: a text becomes a document and a recipe, with what reading has to say of it."""

from typing import NamedTuple

from msgspec import Struct

from mashwright.finding import Level, Path
from mashwright.reading.document import Document, read_document
from mashwright.reading.nodes import Span
from mashwright.reading.schema import in_full, understood
from mashwright.recipe.build import build_recipe
from mashwright.recipe.model import Recipe
from mashwright.reviewing.files import Loaded


class Misread(NamedTuple):
    """What reading found, before it has its place in lines and columns.

    Attributes:
        rule: of reading, such as ``field``.
        instead: texts of which one is to stand at ``span``, the likeliest first.
    """

    rule: str
    level: Level
    path: Path
    span: Span
    message: str
    instead: tuple[str, ...] = ()


class Read(Struct, frozen=True):
    """One file as it was read; all that comes later asks this, and nobody reads the file again.

    Attributes:
        path: as reports show it.
        recipe: as far as it could be read; None where the text is no YAML that we read.
        misread: what reading has to say.
        is_recipe: False where nothing of a recipe is in it, so that no rule has anything to look at.
    """

    path: str
    document: Document
    recipe: Recipe | None
    misread: tuple[Misread, ...]
    is_recipe: bool

    @property
    def judgeable(self) -> Recipe | None:
        """The recipe for rules to look at, if there is one."""
        return self.recipe if self.is_recipe else None


def read(text: str | Loaded, path: str) -> Read:
    """Read a text. Never raises: what is wrong with it is in ``misread``.

    Args:
        text: of a recipe, or what loading a file gave.
        path: as reports are to show it.
    """
    loaded = text if isinstance(text, Loaded) else Loaded(text, None)
    if loaded.problem is not None:
        problem = loaded.problem
        misread = Misread("unreadable", Level.ERROR, (), problem.span, problem.message)
        return Read(path, Document(loaded.text, None), None, (misread,), is_recipe=False)
    document = read_document(loaded.text)
    found = [Misread("unreadable", Level.ERROR, (), one.span, one.message) for one in document.problems]
    if document.root is None:
        return Read(path, document, None, tuple(found), is_recipe=False)
    typed = document
    document, fields = understood(document, "recipe")
    found += [
        Misread("field", one.level, one.path, one.span, one.message, (one.instead,) if one.instead else ())
        for one in fields
    ]
    recipe, quantities = build_recipe(document)
    if quantities and document is typed and not fields:
        # valid, but perhaps with an amount that its field does not take: "at: 60 min" of a hop
        wide = in_full(document, "recipe")
        if wide is not document and not understood(wide, "recipe")[1]:
            document = wide
            recipe, quantities = build_recipe(document)
    is_recipe = all(one.path for one in fields)
    if is_recipe:
        told = {one.path for one in fields}
        found += [
            Misread("quantity", one.level, one.path, one.span, one.message, one.instead)
            for one in quantities
            if one.path not in told
        ]
    return Read(path, document, recipe, tuple(found), is_recipe)
