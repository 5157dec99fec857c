"""The remedy engine: the smallest step that mends, proved on the changed recipe, and nothing made worse."""

import re
from collections.abc import Callable, Iterable, Iterator

import pytest

from mashwright.figures.brew import Brew
from mashwright.finding import Edit, Finding, Level, Path, Remedy
from mashwright.reading.document import read_document
from mashwright.recipe.brewhouse import Brewhouse
from mashwright.recipe.build import build_recipe
from mashwright.reviewing.remedies import remedies, worst
from mashwright.rule import Knob, Unknown, added_grain, less_of, more_of

Check = Callable[[Brew], Iterator[Finding]]

RECIPE = """\
recipe: Light
batch: 20 l
grist:
  - {grain: pale ale malt, weight: 2 kg}
  - grain: caramel malt 40
    weight: 1 lb
"""


def brew(text: str = RECIPE) -> Brew:
    document = read_document(text)
    return Brew(build_recipe(document)[0], Brewhouse(), document)


def weight_kg(changed: Brew, line: int = 0) -> float:
    weight = changed.recipe.grist[line].weight
    if weight is None:
        raise Unknown("a weight")
    return weight.range.typical


def below(limit_kg: float, path: Path = ("grist", 0), level: Level = Level.ERROR, rule: str = "light") -> Check:
    def check(changed: Brew) -> Iterator[Finding]:
        if weight_kg(changed) < limit_kg - 1e-9:
            yield Finding(path, level, "too light", rule=rule)

    return check


def found(knobs: Iterable[Knob], check: Check, *others: Check, text: str = RECIPE) -> tuple[Remedy, ...]:
    started = brew(text)

    def check_all(changed: Brew) -> Iterator[Finding]:
        for one in (check, *others):
            yield from one(changed)

    finding = Finding(("grist", 0), Level.ERROR, "too light", knobs=tuple(knobs), rule="light")
    return remedies(finding, started, check, check_all, worst(check_all(started)))


def steps(*texts: str, path: Path = ("grist", 0, "weight")) -> Knob:
    return Knob(len(texts), lambda step: (Edit(path, texts[step]),), lambda step: f"{texts[step]} of it")


def test_the_smallest_step_that_mends() -> None:
    (remedy,) = found([steps(*(f"{grams} g" for grams in range(2000, 9000, 10)))], below(3.333))
    assert remedy.edits == (Edit(("grist", 0, "weight"), "3340 g"),)
    assert re.fullmatch(r"3340 g of it; OG 1\.0\d\d to 1\.0\d\d, ABV \d\.\d to \d\.\d %", remedy.text)


def test_a_knob_that_never_mends_or_has_no_steps_is_not_offered() -> None:
    assert found([steps("2.5 kg", "2.9 kg"), Knob(0, lambda _: (), lambda _: "")], below(3)) == ()


def test_a_note_that_stays_is_no_hindrance_but_a_warning_is() -> None:
    def check(level: Level) -> Check:
        def inner(changed: Brew) -> Iterator[Finding]:
            heavy = weight_kg(changed) >= 3
            yield Finding(("grist", 0), level if heavy else Level.ERROR, "light or dear", rule="light")

        return inner

    assert [one.edits[0].text for one in found([steps("3 kg")], check(Level.NOTE))] == ["3 kg"]
    assert found([steps("3 kg")], check(Level.WARNING)) == ()


def test_what_gains_elsewhere_is_not_offered() -> None:
    def dear(changed: Brew) -> Iterator[Finding]:
        if weight_kg(changed) > 2.5:
            yield Finding(("grist", 0), Level.NOTE, "dear", rule="dear")

    def always(_: Brew) -> Iterator[Finding]:
        yield Finding(("grist", 0), Level.ERROR, "dear", rule="dear")

    assert found([steps("3 kg")], below(3), dear) == ()
    assert len(found([steps("3 kg")], below(3), always)) == 1
    assert found([steps("3 kg")], below(3), _raised) == ()


def _raised(changed: Brew) -> Iterator[Finding]:
    yield Finding(("grist", 0), Level.WARNING if weight_kg(changed) < 3 else Level.ERROR, "dear", rule="dear")


def test_a_step_that_makes_the_rule_speechless_or_the_recipe_unreadable_mends_nothing() -> None:
    assert found([steps("heavy"), steps("3")], below(3)) == ()


def test_at_most_three_are_offered_in_the_order_of_the_knobs() -> None:
    knobs = [steps(f"{kg} kg") for kg in (2, 6, 5, 4, 3)]
    assert [one.edits[0].text for one in found(knobs, below(3))] == ["6 kg", "5 kg", "4 kg"]


def test_what_an_alias_repeats_is_left_alone() -> None:
    text = RECIPE.replace("weight: 2 kg", "weight: &two 2 kg").replace("1 lb", "*two")
    assert found([steps("3 kg"), steps("3 kg", path=("grist", 1, "weight"))], below(3), text=text) == ()


def test_more_of_a_grain_in_weights_that_can_be_weighed() -> None:
    start = brew()
    malt, caramel = start.grist()
    assert [one.edits for one in found([more_of(malt)], below(3.333))] == [(Edit(("grist", 0, "weight"), "3.34 kg"),)]
    assert found([more_of(malt)], below(7)) == ()
    knob = less_of(caramel)
    assert (knob.edits(0)[0].text, knob.edits(knob.count - 1)[0].text) == ("0.94 lb", "0.062 lb")


def test_a_grain_that_is_added_goes_to_the_end_of_the_list() -> None:
    def check(changed: Brew) -> Iterator[Finding]:
        if sum(weight_kg(changed, line) for line in range(len(changed.recipe.grist))) < 4:
            yield Finding(("grist", 0), Level.ERROR, "too light", rule="light")

    (remedy,) = found([added_grain("two-row pale malt", "kg", 0.5, 3)], check)
    assert remedy.edits == (Edit(("grist", "-"), "{grain: two-row pale malt, weight: 1.55 kg}"),)
    assert remedy.text.startswith("add 1.55 kg of two-row pale malt; OG ")


@pytest.mark.parametrize(
    ("text", "effects"),
    [
        (RECIPE.replace("2 kg", "4 kg"), r"; OG 1\.04\d to 1\.05\d, ABV \d\.\d to \d\.\d %"),
        (RECIPE.replace("2 kg", "4999 g"), ""),
        ("recipe: x\ngrist:\n  - {grain: pale ale malt, weight: 4 kg}\n", ""),
    ],
)
def test_what_else_a_change_does_to_the_beer(text: str, effects: str) -> None:
    (remedy,) = found([steps("5 kg")], below(5), text=text)
    assert re.fullmatch(f"5 kg of it{effects}", remedy.text)


def test_the_worst_level_of_each_rule_at_each_place() -> None:
    a, b = ("grist", 0), ("grist", 1)
    findings = [
        Finding(a, Level.NOTE, "", rule="x"),
        Finding(a, Level.ERROR, "", rule="x"),
        Finding(a, Level.WARNING, "", rule="y"),
        Finding(b, Level.NOTE, "", rule="x"),
    ]
    assert worst(findings) == {("x", a): Level.ERROR, ("y", a): Level.WARNING, ("x", b): Level.NOTE}
