import re
import subprocess
import sys
from io import StringIO

import pytest
from msgspec.structs import replace

from mashwright.finding import Level
from mashwright.printable import say
from mashwright.reading.document import Place
from mashwright.reporting.text import closing, faults, recipe_findings
from mashwright.reviewing.results import Acceptance, Counts, EvidenceRow, Fault, RemedyRow, Result, Review, Reviewed

HARBOUR = """\
house/harbour wheat.yaml:7:1: warning: enzyme-sufficiency: \
the mash averages 24 °Lintner; below 30 its starch does not convert
    two-row pale malt, 1.2 kg   110 °Lintner   line 8
    raw wheat, 3.5 kg           0 °Lintner     line 10
    what enters the mash        4.7 kg
    see also line 17
    mend it: 1.62 kg of two-row pale malt instead of 1.2 kg (line 9); OG
        1.048 to 1.052
    or: rest 90 min instead of 60 and weigh 1.62 kg of two-row pale malt (lines
        9 and 17)
"""
NOTE = """\
house/harbour wheat.yaml:10:5: note: adjunct-share: raw wheat is 42 % of the grist; above 40 % the run-off is slow
"""
ACCEPTED = """\
old/größe.yaml:30:7: error: original-gravity: this grist gives 1.048 at most; 1.090 is stated
    accepted: the old book counts its gravities so (until 2027-12-31)
"""


def printed(review: Review, *, notes: bool, colour: bool, accepted: bool) -> list[str]:
    return [
        line
        for recipe in review.recipes
        for line in recipe_findings(recipe, notes=notes, colour=colour, accepted=accepted)
    ]


@pytest.mark.parametrize(
    ("notes", "with_accepted", "expected"),
    [
        (False, False, HARBOUR),
        (True, False, HARBOUR + NOTE),
        (False, True, HARBOUR + ACCEPTED),
        (True, True, HARBOUR + NOTE + ACCEPTED),
    ],
)
def test_what_is_printed(review: Review, notes: bool, with_accepted: bool, expected: str) -> None:
    lines = printed(review, notes=notes, colour=False, accepted=with_accepted)
    assert "".join(f"{line}\n" for line in lines) == expected


def test_colour_marks_the_level_and_nothing_else(review: Review) -> None:
    coloured = "\n".join(printed(review, notes=True, colour=True, accepted=True))
    assert re.findall(r".{2}\x1b\[.*?m.*?\x1b\[.*?m.{2}", coloured) == [
        ": \x1b[33mwarning\x1b[0m: ",
        ": \x1b[34mnote\x1b[0m: ",
        ": \x1b[31merror\x1b[0m: ",
    ]
    plain = "\n".join(printed(review, notes=True, colour=False, accepted=True))
    assert re.sub(r"\x1b\[[0-9]+m", "", coloured) == plain


def test_what_would_steer_a_terminal_is_shown_as_its_escape() -> None:
    remedy = RemedyRow("call it \x07pale malt", ())
    result = Result(
        "unknown-ingredient",
        Level.ERROR,
        "/grist/0/grain",
        Place(3, 12, 3, 20),
        "no table knows \x1b[31mred\x1b[0m\nmalt",
        evidence=(EvidenceRow("near\u202eest", "pale\tmalt", "", None, None),),
        remedies=(remedy,),
    )
    recipe = Reviewed("a\nb/\x1b[2J\udcff Größe 麦.yaml", "", (result,))
    place = "a\\nb/\\x1b[2J\\udcff Größe 麦.yaml:3:12"
    assert list(recipe_findings(recipe, notes=False, colour=False)) == [
        f"{place}: error: unknown-ingredient: no table knows \\x1b[31mred\\x1b[0m\\nmalt",
        "    near\\u202eest   pale\\tmalt",
        "    mend it: call it \\x07pale malt",
    ]


def test_long_labels_go_on_below_themselves() -> None:
    malt = "the malt that the club bought from the farm by the sea wall, floor-malted"
    rows = (
        EvidenceRow(f"{malt}, 1.2 kg", 110.0, "°Lintner", None, 8),
        EvidenceRow("raw wheat", 1.0481, "SG", None, 10),
    )
    result = Result("enzyme-sufficiency", Level.WARNING, "/grist", Place(7, 1, 7, 6), "too little", evidence=rows)
    lines = list(recipe_findings(Reviewed("a.yaml", "", (result,)), notes=False, colour=False))
    assert lines == [
        "a.yaml:7:1: warning: enzyme-sufficiency: too little",
        "    the malt that the club bought from the farm by the   110 °Lintner   line 8",
        "      sea wall, floor-malted, 1.2 kg",
        "    raw wheat                                            1.048          line 10",
    ]


def test_values_too_long_for_columns_are_sentences() -> None:
    value = "two-row pale malt, six-row pale malt, wheat malt and rye malt, each of the last year"
    result = Result(
        "unknown-ingredient",
        Level.ERROR,
        "/grist/0",
        Place(2, 5, 2, 10),
        "nothing is called pail malt",
        evidence=(EvidenceRow("the nearest", value, "", None, 4),),
    )
    lines = list(recipe_findings(Reviewed("a.yaml", "", (result,)), notes=False, colour=False))
    assert lines[1:] == [
        "    the nearest: two-row pale malt, six-row pale malt, wheat malt and rye malt,",
        "        each of the last year (line 4)",
    ]


def test_what_is_gone_since_the_baseline_is_not_printed(enzymes: Result) -> None:
    gone = Reviewed("a.yaml", "", (replace(enzymes, state="absent"),))
    assert list(recipe_findings(gone, notes=True, colour=False)) == []


@pytest.mark.parametrize(
    ("counts", "expected"),
    [
        (Counts(16, 0, 4, 3, 9), "16 recipes reviewed: 4 errors, 3 warnings; 9 notes (--notes shows them)"),
        (Counts(1, 0, 1, 1, 1), "1 recipe reviewed: 1 error, 1 warning; 1 note (--notes shows it)"),
        (Counts(2, 1, 0, 1, 0), "2 recipes reviewed: 1 warning; 1 file without a recipe skipped"),
        (Counts(16), "16 recipes reviewed: no errors, no warnings"),
        (Counts(16, notes=2), "16 recipes reviewed: no errors, no warnings; 2 notes (--notes shows them)"),
        (Counts(0, 3), "no recipe found; 3 files without a recipe skipped"),
        (Counts(0, 0, 1), "0 recipes reviewed: 1 error"),
    ],
)
def test_closing(counts: Counts, expected: str) -> None:
    assert closing(Review((), counts=counts)) == expected


def test_closing_tells_of_faults_and_of_what_was_accepted(review: Review) -> None:
    assert list(faults(review)) == ["mashwright: house/mild.yaml: the rule run-off failed: division by zero"]
    assert closing(review, notes=True) == (
        "3 recipes reviewed: 1 warning; 1 note; 1 accepted; 1 file without a recipe skipped;"
        " 1 fault of the program, so this is not the whole review"
    )


def test_a_fault_without_rule_or_file() -> None:
    gone = Fault("", "a\n.yaml", "it vanished while it was read")
    whole = Fault("", "", "a plugin could not be loaded")
    review = Review((), faults=(gone, whole), counts=Counts(1))
    assert list(faults(review)) == [
        "mashwright: a\\n.yaml: it vanished while it was read",
        "mashwright: a plugin could not be loaded",
    ]
    assert closing(review) == (
        "1 recipe reviewed: no errors, no warnings; 2 faults of the program, so this is not the whole review"
    )


def test_text_loads_nothing_that_a_review_has_not_loaded() -> None:
    program = (
        "import sys, mashwright.figures, mashwright.reviewing.results; before = set(sys.modules)\n"
        "import mashwright.reporting.text; print(sorted(set(sys.modules) - before))"
    )
    done = subprocess.run([sys.executable, "-c", program], capture_output=True, text=True, check=True)
    assert done.stdout == "['mashwright.reporting', 'mashwright.reporting.text', 'mashwright.reporting.words']\n"


HOSTILE = "a\n::b \x1b[31m\x1b[0m\u202e##[x"


def test_in_colour_nothing_but_the_level_is_inked(enzymes: Result) -> None:
    """Not by what a recipe, a file's name or a plugin brings."""
    result = replace(
        enzymes, message=HOSTILE, rule=HOSTILE, remedies=(RemedyRow(HOSTILE, ()),),
        evidence=(EvidenceRow(HOSTILE, HOSTILE, HOSTILE, None, 1),), accepted=Acceptance(HOSTILE, HOSTILE),
    )  # fmt: skip
    out = StringIO()
    for line in recipe_findings(Reviewed(HOSTILE, "", (result,)), notes=True, colour=True, accepted=True):
        say(line, out, inked=True)
    printed = out.getvalue()
    assert printed.count("\x1b") == 2
    assert ": \x1b[33mwarning\x1b[0m: " in printed
    assert all(one.isprintable() or one in "\n\x1b" for one in printed)
    assert "##[" not in printed
    assert not any(line.strip().startswith("::") for line in printed.splitlines())
