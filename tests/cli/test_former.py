"""A rule that was made for another Mashwright is told of in one sentence, with what its makers have to write."""

import importlib
from collections.abc import Callable
from pathlib import Path

import pytest

import mashwright.rule
from mashwright.former import _RENAMED, NotThereError, not_there

RULE = '"""Is it old?"""\nIMPORT\n\n\ndef check(brew, limits):\n    return ()\n'
RECIPE = "recipe: Lane Bitter\nbatch: 20 l\ngrist:\n  - {grain: pale ale malt, weight: 4 kg}\n"


@pytest.mark.parametrize(
    ("name", "line"),
    [
        ("og", "from mashwright.figures.mash import og"),
        ("Brew", "from mashwright.brew import Brew"),
        ("told", "from mashwright.brew import told"),
        ("all_gas", "from mashwright.figures.package import all_gas"),
        ("figure", "from mashwright.figures.function import figure"),
        ("more_of", "from mashwright.knobs import more_of"),
        ("words_of", "from mashwright.words.tokens import words_of"),
        ("known_yeast", "from mashwright.ingredients.lookup import yeast as known_yeast"),
        ("cells_needed", "from mashwright.figures.beer import needed as cells_needed"),
    ],
)
def test_the_line_that_is_told_is_the_one_to_write(name: str, line: str) -> None:
    with pytest.raises(NotThereError) as raised:
        getattr(mashwright.rule, name)
    assert str(raised.value) == f"{name} is no longer in mashwright.rule; write {line}"
    exec(line, written := {})
    assert name in written


@pytest.mark.parametrize("name", sorted(_RENAMED))
def test_what_was_renamed_is_where_it_is_said_to_be(name: str) -> None:
    room, now = _RENAMED[name]
    assert hasattr(importlib.import_module(room), now)
    assert name not in vars(mashwright.rule)


def test_what_is_nowhere() -> None:
    told = "mashwright.rule has no hop_wizard, nor has any of the modules that rules import from"
    assert str(not_there("hop_wizard")) == told


@pytest.mark.parametrize(
    ("line", "why"),
    [
        (
            "from mashwright.rule import Finding, grist_weight",
            "grist_weight is no longer in mashwright.rule; write from mashwright.figures.grist import grist_weight",
        ),
        (
            "import mashwright.rule\nFLOOR = mashwright.rule.told(3, 4)",
            "told is no longer in mashwright.rule; write from mashwright.brew import told",
        ),
        ("from mashwright.figures.gravity import og", "No module named 'mashwright.figures.gravity'"),
    ],
)
def test_what_is_told_on_the_terminal(
    line: str, why: str, process: Callable[..., tuple[int, str, str]], folder: Path, plugin: Callable[[str], str]
) -> None:
    (folder / "a.yaml").write_text(RECIPE)
    status, out, err = process("review", PYTHONPATH=plugin(RULE.replace("IMPORT", line)))
    assert (status, out) == (2, "")
    first, *_ = err.splitlines()
    assert first == (
        "mashwright: the rule odd-rule failed: odd_rules.odd_rule of odd was made for another Mashwright; get a"
        f" version of odd that fits this one, or write to its makers: {why}"
    )
    assert "Traceback" not in err
