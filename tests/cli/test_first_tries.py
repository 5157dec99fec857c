"""What somebody tries who has just installed it: each mistake is found, at its line, as what it is."""

from collections.abc import Callable
from pathlib import Path

import pytest

Call = Callable[..., tuple[int, str, str]]

HEAD = "recipe: Trial\nbatch: 20 l\ngrist:\n"
MASH = "mash: {rests: [{at: 66 °C, for: 60 min}]}\n"
PALE = HEAD + "  - {grain: pale malt, weight: 5 kg}\n"


def first_words(out: str) -> list[str]:
    """Place, level and rule of each finding."""
    return [":".join(line.split(":")[1:5]) for line in out.splitlines() if line.startswith("a.yaml:")]


@pytest.mark.parametrize(
    ("text", "status", "told"),
    [
        (HEAD + "  - {grain: caramel malt 60, weight: 5 kg}\n" + MASH, 1, "4:6: error: no-base-malt"),
        (
            HEAD + "  - {grain: maize grits, weight: 5 kg}\n  - {grain: pale malt, weight: 3 kg}\n" + MASH,
            1,
            "4:6: error: cereal-mash",
        ),
        (
            HEAD + "  - {grain: Munich malt, weight: 3 kg}\n  - {grain: flaked rice, weight: 3 kg}\n" + MASH,
            0,
            "3:1: warning: enzyme-sufficiency",
        ),
        (PALE + MASH.replace("66", "54"), 1, "5:21: error: saccharification-rest"),
        (PALE + MASH.replace("66", "80"), 0, "5:21: warning: saccharification-rest"),
        (PALE.replace("5 kg", "4 kg") + MASH + "targets: {og: 1.090}\n", 1, "6:15: error: original-gravity"),
        (
            HEAD
            + "  - {extract: light dry malt extract, weight: 3 kg}\n"
            + "  - {grain: flaked oats, weight: 500 g, add: steep}\nsteep: {at: 68 °C, for: 30 min}\n",
            0,
            "5:46: warning: starch-in-steep",
        ),
    ],
)
def test_a_brewing_mistake_is_found_at_its_line(text: str, status: int, told: str, mashwright: Call) -> None:
    ended, out, _ = mashwright("review", "-", "--name", "a.yaml", stdin=text.encode())
    assert ended == status
    assert told in first_words(out)


@pytest.mark.parametrize(
    ("text", "told"),
    [
        (
            PALE.replace("5 kg", "5") + MASH,
            '4:32: error: quantity: the weight "5" has no unit; write 5 kg or 5 lb',
        ),
        (
            PALE.replace("weight", "wieght") + MASH,
            "4:24: error: field: `wieght` is not known here; did you mean `weight`?",
        ),
        (
            PALE.replace("5 kg", "5,5 kg") + MASH,
            '4:32: error: quantity: the weight "5,5 kg" has a decimal comma; write 5.5 kg',
        ),
        (
            PALE + MASH.replace("60 min", "60,5 min"),
            '5:33: error: quantity: the time "60,5 min" has a decimal comma; write 60.5 min',
        ),
        (
            PALE + MASH.replace("66 °C", "152"),
            '5:21: error: quantity: the temperature "152" has no unit; write 152 °F',
        ),
    ],
)
def test_a_slip_of_the_pen_is_the_one_thing_that_is_told(text: str, told: str, mashwright: Call) -> None:
    status, out, err = mashwright("review", "-", "--name", "a.yaml", stdin=text.encode())
    assert (status, out) == (1, f"a.yaml:{told}\n")
    assert err.startswith("1 recipe reviewed: 1 error")


def test_a_brewhouse_in_capitals_is_told_of(mashwright: Call, folder: Path) -> None:
    (folder / "Brewhouse.yaml").write_text("brewhouse: Shed\nefficiency: 70 %\n")
    told = "this is not a recipe: it has no `recipe:`, `batch:` or `grist:`"
    where = "a brewhouse is read from a file named brewhouse.yaml"
    assert mashwright("review")[1] == f"Brewhouse.yaml:1:1: error: field: {told}; {where}\n"


def test_a_recipe_in_another_tongue_is_not_passed_over(mashwright: Call, folder: Path) -> None:
    (folder / "helles.yaml").write_text("Rezept: Helles\nMenge: 20 l\n")
    told = "helles.yaml:1:1: error: field: `Rezept` is not known here; did you mean `recipe`?"
    assert mashwright("review")[1].splitlines()[0] == told
