"""``mashwright figures`` and ``mashwright explain``: what they print, and how they end."""

import json
import re
from collections.abc import Callable
from itertools import pairwise
from pathlib import Path

import pytest

Call = Callable[..., tuple[int, str, str]]


def test_the_figures_of_a_recipe(mashwright: Call, folder: Path, sound: str) -> None:
    (folder / "a.yaml").write_text(sound)
    status, out, err = mashwright("figures", "a.yaml")
    assert (status, err) == (0, "")
    assert "Lane Bitter" in out.splitlines()[0]
    assert max(len(line) for line in out.splitlines()) <= 80
    status, out, err = mashwright("figures", "--format", "json", "a.yaml")
    document = json.loads(out)
    assert (status, err, document["path"], document["name"]) == (0, "", "a.yaml", "Lane Bitter")
    assert document["figures"][0]["id"] == "grist-weight"
    assert document["figures"][0]["typical"] == 4


def test_figures_of_standard_input_and_into_a_file(mashwright: Call, folder: Path, sound: str) -> None:
    status, out, _ = mashwright("figures", "-", "--name", "b.yaml", "--format", "json", stdin=sound.encode())
    assert (status, json.loads(out)["path"]) == (0, "b.yaml")
    (folder / "a.yaml").write_text(sound)
    assert mashwright("figures", "a.yaml", "--output", "sheet.txt") == (0, "", "")
    assert (folder / "sheet.txt").read_text() == mashwright("figures", "a.yaml")[1]


def test_a_recipe_that_cannot_be_read_in_full_is_1(mashwright: Call, folder: Path, sound: str) -> None:
    (folder / "a.yaml").write_text(sound.replace("20 l", "20"))
    status, out, err = mashwright("figures", "a.yaml")
    assert status == 1
    assert err == ""
    assert 'line 2, column 8: error: the batch "20" has no unit; write 20 l or 20 gal\n' in out
    (folder / "a.yaml").write_text("[")
    status, out, err = mashwright("figures", "a.yaml")
    assert status == 1
    assert err == ""
    assert "line 1, column 1: error: the [ that starts here is not closed" in out


def test_a_recipe_that_is_not_there_is_2(mashwright: Call) -> None:
    assert mashwright("figures", "gone.yaml") == (2, "", "mashwright: gone.yaml: there is no such file\n")
    status, out, err = mashwright("figures")
    assert (status, out) == (2, "")
    assert "missing argument 'RECIPE'" in err


def test_the_list_of_rules_names_each_with_its_question(mashwright: Call) -> None:
    status, out, err = mashwright("explain")
    assert (status, err) == (0, "")
    for rule in ("enzyme-sufficiency", "cereal-mash", "unreadable", "quantity"):
        assert re.search(rf"^ *{rule}\b.*", out, re.MULTILINE), rule


@pytest.mark.parametrize("rule", ["enzyme-sufficiency", "unreadable"])
def test_the_page_of_a_rule(rule: str, mashwright: Call) -> None:
    status, out, err = mashwright("explain", rule)
    assert (status, err) == (0, "")
    assert rule in out.splitlines()[0]
    assert "recipe: " in out


def test_a_narrow_page_breaks_neither_a_number_from_its_unit_nor_a_key() -> None:
    from mashwright.reporting.pages import page
    from mashwright.reviewing.plugins import installed

    for rule in installed().rules.values():
        lines = page(rule.info, rule, width=44).splitlines()
        broken = [after for line, after in pairwise(lines) if line[-1:].isdigit() and re.match(r" *°", after)]
        assert broken == [], rule.id
        assert [line for line in lines if re.search(r"\[[a-z0-9-]+-$", line)] == [], rule.id


def test_a_rule_that_nobody_knows_is_2(mashwright: Call) -> None:
    told = "mashwright: nothing is called enzyme-suficiency; did you mean enzyme-sufficiency?\n"
    assert mashwright("explain", "enzyme-suficiency") == (2, "", told)


def test_the_bibliography(mashwright: Call) -> None:
    status, out, err = mashwright("explain", "--sources")
    assert (status, err) == (0, "")
    assert "yaml-1-2-2" in out
