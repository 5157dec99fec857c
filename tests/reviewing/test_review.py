"""One recipe under review: rules that fail or talk, places, and what stays the same when lines move."""

from collections.abc import Callable

import pytest

from mashwright.budgets import FINDINGS
from mashwright.finding import Level
from mashwright.reading.document import Place
from mashwright.reading.editing import Replacement
from mashwright.reading.nodes import Span
from mashwright.reporting.text import closing
from mashwright.reviewing.collection import Collection
from mashwright.reviewing.results import EditRow, EvidenceRow, Fault, RemedyRow, Result, pointer

Make = Callable[..., Collection]
Tell = Callable[..., list[str]]
Install = Callable[..., None]

RECIPE = "recipe: Light\nbatch: 20 l\ngrist:\n  - {grain: pale ale malt, weight: 2 kg}\n"
TOLD = "a.yaml:4:6: error: light-grist: the grist weighs 2 kg; below 3 kg it is no grist"

RAISING = '''
"""Does it work?"""
from mashwright.rule import Finding, Level

def check(brew, limits):
    yield Finding(("batch",), Level.WARNING, "half done")
    raise KeyError("batch")
'''
UNKNOWING = RAISING.replace("KeyError", "Unknown").replace("import Finding", "import Unknown, Finding")
LOUD = '''
"""Is it loud?"""
from mashwright.rule import Finding, Level

def check(brew, limits):
    print("hello")
    yield Finding(("batch",), Level.NOTE, "hello")
'''
EVERYTHING = '''
"""Does it say all?"""
from mashwright.knobs import one_change
from mashwright.rule import Edit, Evidence, Finding, Level

def check(brew, limits):
    weight = brew.recipe.grist[0].weight
    if weight.range.typical < 3:
        rows = (Evidence("pale", 2.0, "kg", ("grist", 0, "weight")), Evidence("sum", "none"))
        knob = one_change((Edit(("grist", 0, "weight"), "3 kg"), Edit(("style",), "ale")), "more")
        yield Finding(("grist",), Level.ERROR, "all", 0.5, rows, (("recipe",), ("mash", "water")), (knob,))
'''


EACH_LINE = '''
"""Is each line heavy?"""
from mashwright.knobs import one_change
from mashwright.rule import Edit, Finding, Level

def check(brew, limits):
    for line in brew.recipe.grist:
        if line.weight.range.typical < 3:
            path = (*line.path, "weight")
            yield Finding(path, Level.ERROR, "light", knobs=(one_change((Edit(path, "3 kg"),), "more"),))
'''


MANY = """
def many(path):
    from mashwright.knobs import Knob
    return Knob(5000, lambda step: (Edit(path, f"{step} g"),), lambda step: f"{step} g")
"""


def test_a_rule_that_raises_is_a_fault_and_the_others_go_on(
    install: Install, light_grist: str, collection: Make, lines: Tell
) -> None:
    install(ours={"raising": RAISING, "light_grist": light_grist})
    made = collection({"a.yaml": RECIPE, "b.yaml": RECIPE})
    assert lines(made.paths((".",))) == [TOLD, TOLD.replace("a.yaml", "b.yaml")]
    message = "KeyError: 'batch'; the other rules went on; please report it to those who make ours"
    assert made.faults == [Fault("raising", "a.yaml", message), Fault("raising", "b.yaml", message)]


def test_a_rule_that_raises_on_a_changed_recipe_only(
    install: Install, light_grist: str, collection: Make, lines: Tell
) -> None:
    source = RAISING.replace(
        "    yield", "    if brew.recipe.grist[0].weight.range.typical > 2.5: raise KeyError('batch')\n    yield"
    )
    source = source.replace('\n    raise KeyError("batch")', "")
    install(ours={"raising": source, "light_grist": light_grist})
    made = collection({"a.yaml": RECIPE})
    told = lines(made.paths((".",)))
    message = "KeyError: 'batch'; the other rules went on; please report it to those who make ours"
    assert [(fault.rule, fault.message) for fault in made.faults] == [("raising", message)]
    assert told == ["a.yaml:2:8: warning: raising: half done", TOLD]


def test_a_rule_that_raises_while_its_remedy_is_sought_keeps_its_finding(
    install: Install, light_grist: str, collection: Make, lines: Tell
) -> None:
    source = light_grist.replace(
        "    weight =", "    if brew.recipe.grist[0].weight.range.typical > 2.5: raise SystemExit(0)\n    weight ="
    )
    install(ours={"light_grist": source})
    made = collection({"a.yaml": RECIPE})
    assert lines(made.paths((".",))) == [TOLD]
    assert [(fault.rule, fault.message[:13]) for fault in made.faults] == [("light-grist", "SystemExit: 0")]


def test_remedies_are_looked_for_where_a_brewer_can_use_them(install: Install, collection: Make) -> None:
    """A file with hundreds of faulty lines must not cost minutes; what was not looked at is counted."""
    install(ours={"each_line": EACH_LINE})

    def mended(lines: int) -> tuple[list[int], str]:
        text = RECIPE + "  - {grain: pale ale malt, weight: 2 kg}\n" * (lines - 1)
        made = collection()
        review = made.finished(list(made.text(text, "a.yaml")))
        return [len(result.remedies) for result in review.recipes[0].results], closing(review)

    assert mended(12) == ([1] * 12, "1 recipe reviewed: 12 errors")
    few = "1 recipe reviewed: 20 errors; no remedy was looked for in 8 findings (mend the others first)"
    assert mended(20) == ([1] * 12 + [0] * 8, few)
    some, told = mended(500)
    assert some == [1] * sum(some) + [0] * (FINDINGS + 1 - sum(some)), "and a line that counts the others"
    assert 0 < sum(some) < 12
    assert told.endswith(f"; no remedy was looked for in {500 - sum(some)} findings (mend the others first)")


def test_a_smallest_step_is_never_told_of_a_search_that_was_not_through(install: Install, collection: Make) -> None:
    install(ours={"each_line": EACH_LINE.replace('one_change((Edit(path, "3 kg"),), "more")', "many(path)") + MANY})
    text = RECIPE + "  - {grain: pale ale malt, weight: 2 kg}\n" * 499
    (reviewed,) = collection().text(text, "a.yaml")
    told = [remedy.text for result in reviewed.results for remedy in result.remedies]
    assert [text.partition(";")[0] for text in told] == ["3000 g"]
    assert reviewed.unsearched == 499


def test_a_figure_that_cannot_be_had_ends_what_a_rule_says(install: Install, collection: Make, lines: Tell) -> None:
    install(ours={"unknowing": UNKNOWING})
    made = collection({"a.yaml": RECIPE})
    assert lines(made.paths((".",))) == ["a.yaml:2:8: warning: unknowing: half done"]
    assert made.faults == []


def test_what_a_rule_prints_stays_off_standard_output(
    install: Install, collection: Make, lines: Tell, capsys: pytest.CaptureFixture[str]
) -> None:
    install(ours={"loud": LOUD})
    assert lines(collection({"a.yaml": RECIPE}).paths((".",))) == ["a.yaml:2:8: note: loud: hello"]
    assert capsys.readouterr().out == ""


def test_a_finding_with_all_that_it_can_have(install: Install, collection: Make) -> None:
    install(ours={"everything": EVERYTHING})
    (reviewed,) = collection({"a.yaml": RECIPE}).paths(("a.yaml",))
    (result,) = reviewed.results
    (remedy,) = result.remedies
    assert remedy.text.startswith("more; OG ")
    assert result == Result(
        rule="everything",
        level=Level.ERROR,
        pointer="/grist",
        place=Place(3, 1, 3, 6),
        message="all",
        gap=0.5,
        evidence=(
            EvidenceRow("pale", 2.0, "kg", "/grist/0/weight", 4),
            EvidenceRow("sum", "none", "", None, None),
        ),
        remedies=(
            RemedyRow(
                remedy.text,
                (
                    EditRow("/grist/0/weight", "3 kg", Replacement(Span(68, 72), "3 kg"), Place(4, 36, 4, 40)),
                    EditRow("/style", "ale", Replacement(Span(73, 73), "\nstyle: ale"), Place(4, 41, 4, 41)),
                ),
            ),
        ),
        related=(("/recipe", 1), ("/mash/water", 1)),
        identity="everything /grist",
    )


def identities(text: str, install: Install, collection: Make) -> list[str]:
    (reviewed,) = collection().text(text, "a.yaml")
    return [result.identity for result in reviewed.results]


def test_the_identity_stays_when_lines_move(install: Install, light_grist: str, collection: Make) -> None:
    install(ours={"light_grist": light_grist})
    hops = "hops:\n  - {hop: Fuggle, weight: 5, boil: 60}\n"
    told = ["light-grist /grist/pale ale malt", "quantity /hops/Fuggle/weight", "quantity /hops/Fuggle/boil"]
    assert identities(RECIPE + hops, install, collection) == told
    moved = (
        "# a line\n" + RECIPE.replace("  - {", "\n  - {") + hops.replace("hops:", "hops:\n  - {hop: Saaz, weight: 1 g}")
    )
    assert identities(moved, install, collection) == told


@pytest.mark.parametrize(
    ("path", "text"),
    [((), ""), (("a", 0, "b c"), "/a/0/b c"), (("a/b", "c~d", "~1"), "/a~1b/c~0d/~01"), (("",), "/")],
)
def test_a_path_as_json_pointer(path: tuple[str | int, ...], text: str) -> None:
    """RFC 6901, sections 3 to 5: "~" is written ~0, "/" is written ~1."""
    assert pointer(path) == text


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("wieght: 5 kg", "4:28: error: field: `wieght` is not known here; did you mean `weight`?"),
        ("weight: 5", '4:36: error: quantity: the weight "5" has no unit; write 5 kg or 5 lb'),
        ("weight: 5,5 kg", '4:36: error: quantity: the weight "5,5 kg" has a decimal comma; write 5.5 kg'),
        (
            "weight: .nan",
            ("4:36: error: unreadable: .nan is not a usable number; write the number or leave the line out"),
        ),
        ("weight: {a: 1}", "4:28: error: field: `weight` takes one value, such as 2.9 kg, not fields"),
    ],
)
def test_one_cause_is_one_finding(text: str, told: str, install: Install, collection: Make, lines: Tell) -> None:
    install(ours={"quiet": '"""Is it?"""\ndef check(brew, limits):\n    return ()\n'})
    recipe = RECIPE.replace("weight: 2 kg", text)
    assert lines(collection().text(recipe, "a.yaml")) == [f"a.yaml:{told}"]
