from collections.abc import Iterator
from xml.etree.ElementTree import Element, fromstring

from hypothesis import given
from hypothesis import strategies as st
from msgspec.structs import replace

from mashwright.finding import Level
from mashwright.printable import harmless
from mashwright.reading.document import Place
from mashwright.reporting import written
from mashwright.reviewing.results import Acceptance, EvidenceRow, Fault, RemedyRow, Result, Review, Reviewed

ENZYMES = """\
7:1: warning: enzyme-sufficiency: the mash averages 24 °Lintner; below 30 its starch does not convert
    two-row pale malt, 1.2 kg   110 °Lintner   line 8
    raw wheat, 3.5 kg           0 °Lintner     line 10
    what enters the mash        4.7 kg
    see also line 17
    mend it: 1.62 kg of two-row pale malt instead of 1.2 kg (line 9); OG
        1.048 to 1.052
    or: rest 90 min instead of 60 and weigh 1.62 kg of two-row pale malt (lines
        9 and 17)
10:5: note: adjunct-share: raw wheat is 42 % of the grist; above 40 % the run-off is slow"""
MESSAGE = "the mash averages 24 °Lintner; below 30 its starch does not convert (and 1 more finding)"
DOCUMENT = f"""\
<?xml version="1.0" encoding="UTF-8"?>
<testsuites name="mashwright" tests="4" failures="1" errors="1">
  <testsuite name="house" tests="3" failures="1" errors="1" skipped="0" time="0">
    <testcase classname="house" name="house/harbour wheat.yaml" time="0">
      <failure message="{MESSAGE}" type="warning">{ENZYMES}</failure>
    </testcase>
    <testcase classname="house" name="house/mild.yaml" time="0" />
    <testcase classname="house" name="house/mild.yaml: the rule run-off" time="0">
      <error message="division by zero" type="fault" />
    </testcase>
  </testsuite>
  <testsuite name="old" tests="1" failures="0" errors="0" skipped="0" time="0">
    <testcase classname="old" name="old/größe.yaml" time="0">
      <system-out>accepted:
30:7: error: original-gravity: this grist gives 1.048 at most; 1.090 is stated
    accepted: the old book counts its gravities so (until 2027-12-31)</system-out>
    </testcase>
  </testsuite>
</testsuites>
"""

COUNTS = {"tests", "failures", "errors"}
SHAPE = {
    "testsuites": ({"name"} | COUNTS, {"testsuite"}),
    "testsuite": ({"name", "skipped", "time"} | COUNTS, {"testcase"}),
    "testcase": ({"classname", "name", "time"}, {"failure", "error", "system-out"}),
    "failure": ({"message", "type"}, set()),
    "error": ({"message", "type"}, set()),
    "system-out": (set(), set()),
}
"""Attributes and children of each element, as the readers of the form agree on them; no standard gives them."""


def stopping(review: Review, level: Level) -> Review:
    """The review as it is where recipes fail from this level on."""
    return replace(review, recipes=tuple(replace(recipe, stop_at=level) for recipe in review.recipes))


def read(review: Review, stop_at: Level = Level.ERROR) -> Element:
    """The document as a reader of XML sees it; its shape and its counts are checked."""
    root = fromstring(written("junit", stopping(review, stop_at)).encode())
    assert root.tag == "testsuites"
    for element in root.iter():
        attributes, children = SHAPE[element.tag]
        assert set(element.attrib) == attributes
        assert {child.tag for child in element} <= children
    for holder in (root, *root.iter("testsuite")):
        cases = list(holder.iter("testcase"))
        outcomes = [[part.tag for part in case if part.tag != "system-out"] for case in cases]
        assert all(len(outcome) <= 1 for outcome in outcomes)
        counted = {"tests": len(cases), "failures": outcomes.count(["failure"]), "errors": outcomes.count(["error"])}
        assert {name: int(holder.attrib[name]) for name in COUNTS} == counted
    return root


def cases(root: Element) -> Iterator[tuple[str, str, str, str]]:
    """Class, name, outcome and text of each case."""
    for case in root.iter("testcase"):
        outcome = next((part for part in case if part.tag != "system-out"), None)
        text = "\n".join(part.text or "" for part in case)
        yield case.attrib["classname"], case.attrib["name"], "" if outcome is None else outcome.tag, text


def test_the_whole_document(review: Review) -> None:
    assert written("junit", stopping(review, Level.WARNING)) == DOCUMENT
    read(review, Level.WARNING)


def test_a_warning_passes_where_only_errors_fail_and_is_told(review: Review) -> None:
    root = read(review)
    assert (root.attrib["failures"], root.attrib["errors"]) == ("0", "1")
    assert next(cases(root)) == ("house", "house/harbour wheat.yaml", "", ENZYMES)


def test_a_note_fails_where_it_is_asked_to(doubt: Result) -> None:
    review = Review((Reviewed("a.yaml", "", (doubt,)),))
    assert [outcome for _, _, outcome, _ in cases(read(review, Level.NOTE))] == ["failure"]
    assert [outcome for _, _, outcome, _ in cases(read(review, Level.WARNING))] == [""]


def test_the_worst_finding_is_the_message(enzymes: Result, doubt: Result) -> None:
    error = replace(doubt, level=Level.ERROR, message="the recipe has no base malt")
    several = Review((Reviewed("a.yaml", "", (enzymes, error, doubt)),))
    failure = next(read(several, Level.WARNING).iter("failure"))
    assert failure.attrib == {"message": "the recipe has no base malt (and 2 more findings)", "type": "error"}
    alone = Review((Reviewed("a.yaml", "", (error,)),))
    assert next(read(alone).iter("failure")).attrib["message"] == "the recipe has no base malt"


def test_what_is_known_fails_nothing(doubt: Result) -> None:
    known = [replace(doubt, level=Level.ERROR, state=state) for state in ("unchanged", "updated", "absent")]
    text = """\
known before:
10:5: error: adjunct-share: raw wheat is 42 % of the grist; above 40 % the run-off is slow
10:5: error: adjunct-share: raw wheat is 42 % of the grist; above 40 % the run-off is slow
gone since: adjunct-share at /grist/1"""
    review = Review((Reviewed("a.yaml", "", tuple(known)),))
    assert list(cases(read(review))) == [(".", "a.yaml", "", text)]
    fresh = replace(doubt, level=Level.ERROR)
    worse = Review((Reviewed("a.yaml", "", (*known, fresh)),))
    (_, _, outcome, told), *_ = cases(read(worse))
    assert outcome == "failure"
    assert told.endswith(text)


def test_faults_are_cases_of_their_own(doubt: Result) -> None:
    faults = (
        Fault("run-off", "a.yaml", "division by zero"),
        Fault("", "old/gone.yaml", "it vanished while it was read"),
        Fault("heather", "", "it could not be loaded"),
        Fault("", "", "the disk is full"),
    )
    error = replace(doubt, level=Level.ERROR)
    root = read(Review((Reviewed("a.yaml", "", (error,)),), faults=faults))
    assert [(where, name, outcome) for where, name, outcome, _ in cases(root)] == [
        (".", "a.yaml", "failure"),
        (".", "a.yaml: the rule run-off", "error"),
        ("old", "old/gone.yaml: the program", "error"),
        ("mashwright", "the rule heather", "error"),
        ("mashwright", "the program", "error"),
    ]
    assert [error.attrib["message"] for error in root.iter("error")] == [fault.message for fault in faults]


def test_nothing_reviewed() -> None:
    assert written("junit", Review(())) == (
        '<?xml version="1.0" encoding="UTF-8"?>\n<testsuites name="mashwright" tests="0" failures="0" errors="0" />\n'
    )


def test_what_xml_cannot_hold_is_shown_as_its_escape() -> None:
    result = Result("x<y", Level.ERROR, "", Place(1, 1, 1, 2), '\x1b[31m"]]>&\x00\ufffe\r\n', gap=0.1)
    path = 'a\n<b>&"\x1b[2J\udcff/c\x7f麦.yaml'
    root = read(Review((Reviewed(path, "", (result,)),)))
    shown = '\\x1b[31m"]]>&\\x00\\ufffe\\r\\n'
    assert list(cases(root)) == [
        ('a\\n<b>&"\\x1b[2J\\udcff', 'a\\n<b>&"\\x1b[2J\\udcff/c\\x7f麦.yaml', "failure", f"1:1: error: x<y: {shown}")
    ]
    assert next(root.iter("failure")).attrib["message"] == shown


anything = st.text(st.characters(exclude_categories=()))
results = st.builds(
    Result,
    rule=anything,
    level=st.sampled_from(Level),
    pointer=anything,
    place=st.just(Place(3, 1, 3, 4)),
    message=anything,
    evidence=st.lists(st.builds(EvidenceRow, anything, anything, anything, st.none(), st.none()), max_size=2).map(
        tuple
    ),
    remedies=st.lists(st.builds(RemedyRow, anything, st.just(())), max_size=2).map(tuple),
    accepted=st.none() | st.builds(Acceptance, anything, anything),
    state=st.sampled_from(["", "new", "unchanged", "updated", "absent"]),
)
recipes = st.builds(Reviewed, anything, anything, st.lists(results, max_size=3).map(tuple))


@given(st.lists(recipes, max_size=3), st.lists(st.builds(Fault, anything, anything, anything), max_size=2))
def test_any_name_and_message_gives_sound_xml_with_the_right_verdicts(
    found: list[Reviewed], faults: list[Fault]
) -> None:
    root = read(Review(tuple(found), faults=tuple(faults)), Level.WARNING)
    failing = [
        harmless(recipe.path)
        for recipe in found
        for fails in [[one for one in recipe.results if one.level >= Level.WARNING and one.accepted is None]]
        if any(one.state in ("", "new") for one in fails)
    ]
    assert sorted(name for _, name, outcome, _ in cases(root) if outcome == "failure") == sorted(failing)
    assert sorted(error.attrib["message"] for error in root.iter("error")) == sorted(
        harmless(fault.message) for fault in faults
    )
