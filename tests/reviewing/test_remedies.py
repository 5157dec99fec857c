"""The remedy engine: the smallest step that mends, proved on the changed recipe, and nothing made worse."""

import re
from collections.abc import Callable, Iterable, Iterator

import pytest

import mashwright
from mashwright.brew.brew import Brew
from mashwright.finding import Edit, Finding, Level, Path, Remedy
from mashwright.knobs import Knob, added_grain, in_its_place, less_of, longer, more_of
from mashwright.recipe.stated import Unknown
from mashwright.reporting.text import recipe_findings
from mashwright.reviewing.remedies import Trials, _gained, remedies, worst

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
    return Brew.of(text)


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
    return remedies(finding, started, check, check_all, worst(check_all(started)), Trials())


def steps(*texts: str, path: Path = ("grist", 0, "weight")) -> Knob:
    return Knob(len(texts), lambda step: (Edit(path, texts[step]),), lambda step: f"{texts[step]} of it")


def test_the_smallest_step_that_mends() -> None:
    (remedy,) = found([steps(*(f"{grams} g" for grams in range(2000, 9000, 10)))], below(3.333))
    assert remedy.edits == (Edit(("grist", 0, "weight"), "3340 g"),)
    assert re.fullmatch(r"3340 g of it; OG goes from 1\.0\d\d to 1\.0\d\d, ABV from \d\.\d to \d\.\d %", remedy.text)


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


def test_what_makes_another_beer_is_not_offered_unless_it_is_the_one_that_is_stated() -> None:
    assert [one.edits[0].text for one in found([steps("3.4 kg"), steps("3.6 kg")], below(3))] == ["3.4 kg"]
    strong = RECIPE + "targets: {og: 1.060}\n"
    assert [one.edits[0].text for one in found([steps("5 kg")], below(3), text=strong)] == ["5 kg"]

    def heavy(changed: Brew) -> Iterator[Finding]:
        if weight_kg(changed) > 1.5:
            yield Finding(("grist", 0), Level.ERROR, "too heavy", rule="heavy")

    assert len(found([steps("1.5 kg")], heavy)) == 1
    assert found([steps("1 kg")], heavy) == ()


def test_at_most_two_are_offered_in_the_order_of_the_knobs() -> None:
    knobs = [steps(f"{kg} kg") for kg in (2, 3.4, 3.3, 3.2, 3.1)]
    assert [one.edits[0].text for one in found(knobs, below(3))] == ["3.4 kg", "3.3 kg"]


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
        if sum(weight_kg(changed, line) for line in range(len(changed.recipe.grist))) < 3.8:
            yield Finding(("grist", 0), Level.ERROR, "too light", rule="light")

    (remedy,) = found([added_grain("two-row pale malt", "kg", 0.5, 3)], check)
    assert remedy.edits == (Edit(("grist", "-"), "{grain: two-row pale malt, weight: 1.35 kg}"),)
    assert remedy.text.startswith("add 1.35 kg of two-row pale malt; OG ")


@pytest.mark.parametrize(
    ("text", "effects"),
    [
        (RECIPE.replace("2 kg", "4 kg"), r"; OG goes from 1\.04\d to 1\.05\d, ABV from \d\.\d to \d\.\d %"),
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


STARCHY = """\
recipe: Light
batch: 20 l
grist:
  - {grain: pale ale malt, weight: 2 kg}
mash: {rests: [{at: 54 °C, for: 20 min}]}
"""


def test_what_it_does_to_the_beer_is_not_told_where_the_mash_leaves_starch() -> None:
    assert [one.text for one in found([steps("3 kg")], below(3), text=STARCHY)] == ["3 kg of it"]
    converts = STARCHY.replace("54 °C, for: 20", "66 °C, for: 60")
    assert [one.text for one in found([steps("3 kg")], below(3), text=converts)] == [
        "3 kg of it; OG goes from 1.022 to 1.033, ABV from 2.3 to 3.5 %"
    ]


def texts(knob: Knob) -> list[str]:
    return [" and ".join(edit.text for edit in knob.edits(step)) for step in range(knob.count)]


def test_ounces_go_by_quarters_and_grams_by_tens() -> None:
    text = "batch: 20 l\ngrist: [{grain: caramel malt 60, weight: 4 oz}, {grain: pale malt, weight: 150 g}]"
    ounces, grams = brew(text).grist()
    assert texts(less_of(ounces, least=0.75)) == ["3.75 oz", "3.5 oz", "3.25 oz", "3 oz"]
    assert texts(less_of(grams, least=0.8)) == ["140 g", "130 g", "120 g"]


def test_a_knob_may_begin_at_the_usual_amount() -> None:
    (part,) = brew("batch: 20 l\ngrist: [{grain: chocolate malt, weight: 1 kg}]").grist()
    assert texts(less_of(part, least=0.17, first_kg=0.195)) == ["0.19 kg", "0.18 kg", "0.17 kg"]


def test_another_grain_in_place_of_some() -> None:
    weighed = brew("batch: 20 l\ngrist: [{grain: Munich malt, weight: 4 kg}]")
    knob = in_its_place(weighed, weighed.grist()[0], "two-row pale malt", least=0.22, most=0.25)
    assert texts(knob) == [
        "3.1 kg and {grain: two-row pale malt, weight: 0.9 kg}",
        "3.05 kg and {grain: two-row pale malt, weight: 0.95 kg}",
        "3 kg and {grain: two-row pale malt, weight: 1 kg}",
    ]
    assert knob.say(0) == "cut the Munich malt from 4 kg to 3.1 kg and add 0.9 kg of two-row pale malt"
    shared = brew("batch: 20 l\ngrist: [{grain: Munich malt, share: 80 %}, {grain: rice, share: 20 %}]")
    knob = in_its_place(shared, shared.grist()[0], "two-row pale malt", least=0.5, most=0.5)
    assert texts(knob) == ["40 % and {grain: two-row pale malt, share: 40 %}"]


def test_a_rest_is_drawn_out_to_the_time_that_is_needed() -> None:
    (rest,) = brew(STARCHY).plan.rests
    assert texts(longer(rest, most_min=45, least_min=32)) == ["35 min", "40 min", "45 min"]
    assert texts(longer(rest, most_min=30)) == ["25 min", "30 min"]


def test_a_note_that_only_moved_is_nothing_gained() -> None:
    before = {("run-off", ("grist", 0)): Level.NOTE}
    moved = [Finding(("grist", 1), Level.NOTE, "it could stick", rule="run-off")]
    assert not _gained(moved, before)
    assert _gained([*moved, *moved], before)
    assert _gained([Finding(("grist", 1), Level.WARNING, "it may stick", rule="run-off")], before)
    assert _gained([Finding(("hops",), Level.NOTE, "many hops", rule="hop-rate")], before)


def test_a_mend_aims_at_what_the_beer_needs() -> None:
    """Not at the edge of the warning: the cells that the wort wants, and the middle of the yeast's range."""
    text = (
        "recipe: Cold Store\nbatch: 20 l\ngrist: [{grain: Pilsner malt, weight: 4.4 kg}]\n"
        "yeast: {kind: Bavarian lager, pitch: 400 billion cells}\nferment: [{at: 24 °C, for: 14 d}]\n"
        "targets: {og: 1.050}\n"
    )

    def offered(of: str) -> dict[str, str]:
        return {one.rule: one.remedies[0].text for one in mashwright.review_text(of).recipes[0].results if one.remedies}

    assert offered(text) == {"fermentation-temperature": "use 11 °C instead of 24 °C"}
    thin = text.replace("24 °C", "11 °C").replace("400", "100")
    wanted = {row.id: row.typical for row in mashwright.figures_of(thin).rows}["cells-needed"]
    assert wanted is not None
    billions = float(offered(thin)["pitching-rate"].split(" ")[1])
    assert wanted <= billions <= 1.05 * wanted + 10


def test_notes_say_what_speaks_against_a_change() -> None:
    """A lager in the warm, cooled to what its yeast likes, has too little yeast."""
    review = mashwright.review_text(
        "recipe: Warm Lager\nbatch: 20 l\ngrist: [{grain: Pilsner malt, weight: 5 kg}]\n"
        "yeast: {kind: German lager, pitch: 100 billion}\nferment: [{at: 22 °C, for: 10 d}]\n"
    )
    (recipe,) = review.recipes
    lines = list(recipe_findings(recipe, notes=True, colour=False, width=400))
    (why,) = [line.strip() for line in lines if "tried, not offered" in line]
    assert why.startswith("tried, not offered: use 11 °C instead of 22 °C; it brings a new warning of pitching-rate: ")
    assert not any("tried" in line for line in recipe_findings(recipe, notes=False, colour=False))
