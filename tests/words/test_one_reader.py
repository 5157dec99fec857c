"""What a brewer writes is read in one room: figures and rules ask it, and search no text themselves."""

import ast
from pathlib import Path

import pytest

import mashwright
import mashwright_rules
from mashwright.ingredients.kinds import Cereal, HopForm, IngredientKind, NeedsMash, Place, RestBy, SpargeBy
from mashwright.ingredients.vessels import VesselSort

PROGRAM, RULES = Path(mashwright.__file__).parent, Path(mashwright_rules.__file__).parent
SOURCES = [path for room in (PROGRAM / "brew", PROGRAM / "figures", RULES) for path in sorted(room.rglob("*.py"))]
SEARCHING = {"casefold", "lower", "search", "match", "fullmatch", "findall", "finditer"}
"""What is called to look for words in a text."""
COMPARING_NAMES = {"same_name.py", "_sheet.py", "_lines.py"}
"""They (of the rules same-name, same-recipe and lot) ask whether two names are one, and look for no word in either."""
WORDS = {*IngredientKind, *RestBy, *VesselSort} | (
    {*Place, *Cereal, *NeedsMash, *SpargeBy, *HopForm} - {"none", "no", "extract"}
)  # also fields


@pytest.mark.parametrize("path", SOURCES, ids=lambda path: path.stem)
def test_no_text_is_searched(path: Path) -> None:
    called = {
        node.func.attr
        for node in ast.walk(ast.parse(path.read_text("utf-8")))
        if isinstance(node, ast.Call) and isinstance(node.func, ast.Attribute)
    }
    assert called & SEARCHING <= ({"casefold"} if path.name in COMPARING_NAMES else set())


@pytest.mark.parametrize("path", SOURCES, ids=lambda path: path.stem)
def test_no_word_of_the_tables_is_compared_as_a_bare_text(path: Path) -> None:
    compared = {
        (node.lineno, word.value)
        for node in ast.walk(ast.parse(path.read_text("utf-8")))
        if isinstance(node, ast.Compare)
        for side in (node.left, *node.comparators)
        for word in (side, *(side.elts if isinstance(side, ast.Tuple | ast.Set | ast.List) else ()))
        if isinstance(word, ast.Constant) and word.value in WORDS
    }
    assert compared == set()
