import subprocess
import sys
from io import StringIO
from itertools import pairwise

import pytest
from hypothesis import example, given
from hypothesis import strategies as st
from markdown_it import MarkdownIt
from markdown_it.token import Token
from msgspec.structs import replace

from mashwright.finding import Level
from mashwright.printable import harmless
from mashwright.reading.document import Place
from mashwright.reporting import write, written
from mashwright.reporting.markdown import markdown
from mashwright.reviewing.results import Acceptance, Counts, Fault, RemedyRow, Result, Review, Reviewed

PAGE = """\
**Mashwright**: 4 recipes reviewed: 1 error, 1 warning; 1 note; 1 accepted; 2 known; 1 file without a recipe skipped; \
1 fault of the program, so this is not the whole review; 1 better than before; 1 gone since

### New findings

#### [old/pale \\#&#8288;2.yaml](old/pale%20%232.yaml)

- [line 4](old/pale%20%232.yaml#L4): **error**: the recipe has no base malt (no-base-malt)

#### [house/harbour wheat.yaml](house/harbour%20wheat.yaml)

- [line 7](house/harbour%20wheat.yaml#L7): **warning**: the mash averages 24 °Lintner; below 30 its starch does not \
convert (enzyme-sufficiency)
  - Mend it in line 9: 1.62 kg of two-row pale malt instead of 1.2 kg; OG 1.048 to 1.052

### Better than before, not yet mended

#### [house/mild.yaml](house/mild.yaml)

- [line 12](house/mild.yaml#L12): **warning**: 30 min at 66 °C converts 80 % of the starch (conversion-time)
  - Mend it: rest longer

### Faults of the program

- mashwright: house/mild.yaml: the rule run-off failed: division by zero

### Gone since

#### [old/größe.yaml](old/gr%C3%B6%C3%9Fe.yaml)

- **warning**: run-off at /grist
"""


@pytest.fixture
def compared(review: Review) -> Review:
    """The review, with findings in every state that a baseline gives them."""
    wheat, mild, old = review.recipes
    better = Result(
        "conversion-time", Level.WARNING, "/mash", Place(12, 3, 12, 9), "30 min at 66 °C converts 80 % of the starch",
        remedies=(RemedyRow("rest longer", ()),), state="updated",
    )  # fmt: skip
    known = replace(better, state="unchanged")
    gone = Result("run-off", Level.WARNING, "/grist", Place(1, 1, 1, 1), "found before", state="absent")
    none = Result("no-base-malt", Level.ERROR, "/grist", Place(4, 1, 4, 6), "the recipe has no base malt", state="new")
    return replace(
        review,
        recipes=(
            wheat,
            replace(mild, results=(better, known)),
            replace(old, results=(*old.results, gone)),
            Reviewed("old/pale #2.yaml", "", (none,)),
        ),
        counts=Counts(4, 1, 1, 1, 1, 1, 2),
    )


def test_the_whole_page(compared: Review) -> None:
    assert written("markdown", compared) == PAGE
    out = StringIO()
    write("markdown", compared, out)
    assert out.getvalue() == PAGE


def test_nothing_to_find_is_one_line() -> None:
    review = Review((Reviewed("a.yaml", "", ()),), counts=Counts(16))
    assert markdown(review) == "**Mashwright**: 16 recipes reviewed: no errors, no warnings\n"


def test_without_a_baseline_no_finding_is_called_new(enzymes: Result) -> None:
    page = markdown(Review((Reviewed("a.yaml", "", (enzymes,)),), counts=Counts(1, warnings=1)))
    assert page.splitlines()[:3] == ["**Mashwright**: 1 recipe reviewed: 1 warning", "", "### Findings"]


def test_notes_are_told_where_they_fail(doubt: Result) -> None:
    review = Review((Reviewed("a.yaml", "", (replace(doubt, state=""),)),), counts=Counts(1, notes=1))
    top = "**Mashwright**: 1 recipe reviewed: no errors, no warnings; 1 note\n"
    assert markdown(review) == top
    assert markdown(
        replace(review, recipes=tuple(replace(one, stop_at=Level.NOTE) for one in review.recipes))
    ) == top + (
        "\n### Findings\n\n#### [a.yaml](a.yaml)\n\n"
        "- [line 10](a.yaml#L10): **note**: raw wheat is 42 % of the grist; above 40 % the run-off is slow"
        " (adjunct-share)\n"
    )


@pytest.mark.parametrize("longest", [1_000, 5_000, 60_000])
def test_the_length_is_bounded_and_what_is_left_out_is_counted(enzymes: Result, longest: int) -> None:
    states = ("new", "updated", "absent")
    results = tuple(replace(enzymes, place=Place(line, 1, line, 2), state=states[line % 3]) for line in range(3, 903))
    recipes = tuple(Reviewed(f"house/{number}.yaml", "", results[number::10]) for number in range(10))
    faults = tuple(Fault("run-off", f"house/{number}.yaml", "division by zero") for number in range(700))
    page = markdown(Review(recipes, faults, Counts(10, warnings=300, known=300)), longest=longest)
    assert longest - 700 < len(page) <= longest
    chapters = {chapter.partition("\n")[0]: chapter.count("\n- ") for chapter in page.split("\n### ")[1:]}
    totals = [
        ("New findings", 300, "findings"),
        ("Better than before, not yet mended", 300, "better ones"),
        ("Faults of the program", 700, "faults"),
        ("Gone since", 300, "gone since"),
    ]
    left = [f"{total - chapters.get(title, 0)} {words}" for title, total, words in totals]
    said = ", ".join(saying for saying in left if not saying.startswith("0 "))
    assert page.endswith(f"\n\nLeft out to keep this short: {said}; `--format json` has them all\n")
    assert chapters["New findings"] > 0


def test_one_endless_message_is_cut_and_an_endless_name_left_out(doubt: Result) -> None:
    endless = replace(doubt, level=Level.ERROR, message="x" * 100_000)
    page = markdown(Review((Reviewed("a" * 100_000, "", (endless,)), Reviewed("b.yaml", "", (endless,)))))
    assert f"**error**: {'x' * 499}… (adjunct-share)\n" in page
    assert page.endswith("\nLeft out to keep this short: 1 finding; `--format json` has them all\n")


parser = MarkdownIt("commonmark").enable(["table", "strikethrough"])
JOINER = "\u2060"


def tokens(page: str) -> list[Token]:
    return [one for block in parser.parse(page) for one in (block.children or [block])]


def items(page: str) -> list[str]:
    """The words of each entry as they are read, joiners left out."""
    blocks = parser.parse(page)
    return [
        "".join(one.content for one in block.children or []).replace(JOINER, "")
        for before, block in pairwise(blocks)
        if block.type == "inline" and before.type == "paragraph_open" and block.level > 1
    ]


HOSTILE = [
    "<script>alert(1)</script>", "<!-- ", "[a](http://x.example)", "![a](http://x.example/a.png)", "<http://x.example>",
    "`code` ``", "**b** __b__ *i* _i_ ~~s~~", "| a | b |", "&lt;b&gt; &#64;", "\\", "\\<b>", "[ref]: http://x.example",
    "# head", "- item", "1. one", "> quote", "```", "---", "$x$", "[^1]", "a  ", "\n\n# head", "\r\n- item", "<",
]  # fmt: skip


def hostile_page(text: str) -> tuple[str, list[str]]:
    """A page in which a text stands everywhere, and its entries as they have to be read."""
    result = Result(text, Level.ERROR, text, Place(3, 1, 3, 4), text, remedies=(RemedyRow(text, ()),))
    recipe = Reviewed(text, text, (result, replace(result, state="absent")))
    shown, sentence = harmless(text.strip()), harmless(text).strip()
    read = [f"line 3: error: {sentence} ({shown})", f"Mend it: {sentence}"]
    read += [f"mashwright: {harmless(text)}: the rule {harmless(text)} failed: {harmless(text)}".strip()]
    read += [f"error: {shown} at {shown or 'the top'}"]
    return markdown(Review((recipe,), (Fault(text or "x", text or "x", text),))), read


@given(
    st.text(st.characters(exclude_categories=()), min_size=1, max_size=60)
    | st.lists(st.sampled_from(HOSTILE)).map(" ".join)
)
@example("/etc/a\ud800")
def test_nothing_in_a_text_is_markup(text: str) -> None:
    text = text[:120] or "x"
    page, read = hostile_page(text)
    assert "<" not in page
    found = tokens(page)
    assert {one.type for one in found} <= {
        "paragraph_open", "paragraph_close", "heading_open", "heading_close", "bullet_list_open", "bullet_list_close",
        "list_item_open", "list_item_close", "text", "text_special", "softbreak", "strong_open", "strong_close",
        "link_open", "link_close",
    }  # fmt: skip
    for one in found:
        if one.type == "link_open":
            target = str(one.attrs["href"])
            assert not target.startswith("/")
            assert ":" not in target
    assert [" ".join(item.split()) for item in items(page)] == [" ".join(item.split()) for item in read]


@pytest.mark.parametrize(
    ("text", "shown"),
    [
        ("ask @brewer", "ask @_brewer"),
        ("ask @lane/brewers", "ask @_lane/brewers"),
        ("brewer@lane.example", "brewer@_lane.example"),
        ("p@.a", "p@_.a"),
        ("batch #12", "batch \\#_12"),
        ("lane/recipes#12", "lane/recipes\\#_12"),
        ("GH-12 and gh-12", "GH-_12 and gh-_12"),
        ("!12 and &12 and %12 and ~12 and $12", "!_12 and &amp;_12 and %_12 and \\~_12 and &#36;_12"),
        ("[issue:12]", "\\[_issue:12\\]"),
        ("https://lane.example", "https:_//lane.example"),
        ("www.lane.example", "www_.lane.example"),
        (":beer:", ":_beer:"),
        ("as of 0123456789abcdef", "as of 012345_6789ab_cdef"),
        ("42 % of the grist; 2 x 3: 6 at 10:30", "42 % of the grist; 2 x 3: 6 at 10:30"),
    ],
)
def test_nobody_is_called_and_nothing_linked(text: str, shown: str, doubt: Result) -> None:
    page = markdown(Review((Reviewed("a.yaml", "", (replace(doubt, level=Level.ERROR, message=text),)),)))
    assert f"**error**: {shown.replace('_', f'&#{ord(JOINER)};')} (adjunct-share)\n" in page


@pytest.mark.parametrize(
    ("path", "link"),
    [
        ("javascript:alert(1)", "[javascript:alert(1)](javascript%3Aalert%281%29)"),
        ("a](b).yaml", "[a\\](b).yaml](a%5D%28b%29.yaml)"),
        ("../guest~/50% x.yaml", "[../guest\\~/50% x.yaml](../guest~/50%25%20x.yaml)"),
        ("a\udcff.yaml", "[a\\\\udcff.yaml](a%FF.yaml)"),
        ("//elsewhere.example/a", "//elsewhere.example/a"),
        ("a\ud800", "a\\\\ud800"),
    ],
)
def test_links_lead_to_files_beside_the_page(path: str, link: str, doubt: Result) -> None:
    page = markdown(Review((Reviewed(path, "", (replace(doubt, level=Level.ERROR),)),)))
    assert page.splitlines()[4] == f"#### {link}"


def test_accepted_findings_are_only_counted(accepted: Result) -> None:
    results = tuple(replace(accepted, state=state) for state in ("", "new", "unchanged", "updated", "absent"))
    review = Review((Reviewed("a.yaml", "", results),), counts=Counts(1, accepted=5))
    assert accepted.accepted == Acceptance("the old book counts its gravities so", "2027-12-31")
    assert markdown(review) == "**Mashwright**: 1 recipe reviewed: no errors, no warnings; 5 accepted\n"


def test_no_form_is_loaded_before_it_is_asked_for() -> None:
    program = (
        "import sys, mashwright.reporting.text\n"
        "print([name for name in sys.modules if name.endswith(('junit', 'markdown', 'etree', 'ElementTree'))])"
    )
    done = subprocess.run([sys.executable, "-c", program], capture_output=True, text=True, check=True)
    assert done.stdout == "[]\n"
