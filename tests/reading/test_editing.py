"""A changed recipe: what the nodes say and what the text says are the same, and the rest stays to the byte."""

import string

import pytest
from hypothesis import given
from hypothesis import strategies as st

from mashwright.finding import Edit, Path
from mashwright.reading.document import read_document
from mashwright.reading.editing import can_edit, edited, replacements
from mashwright.reading.nodes import Mapping, Node, Scalar, Sequence, data, walk


def root_of(text: str) -> Node:
    document = read_document(text)
    assert document.root is not None, document.problems
    assert document.problems == ()
    return document.root


def rewritten(text: str, root: Node, edits: list[Edit]) -> str:
    """The text after its pieces were put in, the last first."""
    for piece in reversed(replacements(text, root, edits)):
        text = text[: piece.span.start] + piece.text + text[piece.span.end :]
    return text


def change(text: str, *edits: tuple[Path, str]) -> str:
    """The text after edits that are allowed; what it says is what the edited nodes say."""
    root, changes = root_of(text), [Edit(*edit) for edit in edits]
    assert all(can_edit(root, edit.path) for edit in changes)
    new = rewritten(text, root, changes)
    assert data(root_of(new)) == data(edited(root, changes))
    return new


RECIPE = """\
# ours since 2019
recipe:   'Lane Bitter'   # the old one
grist:
  - grain: pale ale malt
    weight: 4 kg     # weighed dry

  # the dark part
  - {grain: caramel malt 40, weight: 300 g}   # last lot
mash:
  rests: [{at: 66 °C, for: 60 min}]
notes: |
  rack it
   slowly

# end"""


def test_a_value_is_replaced_where_it_stands() -> None:
    new = change(RECIPE, (("grist", 0, "weight"), "4.2 kg"), (("recipe",), "Quay Bitter"))
    assert new == RECIPE.replace("4 kg", "4.2 kg").replace("'Lane Bitter'", "Quay Bitter")


def test_a_field_is_added_behind_the_last_one() -> None:
    new = change(RECIPE, (("grist", 0, "lot"), "P-1"), (("grist", 1, "lot"), "C-2"), (("mash", "ph"), "5.4"))
    assert new == RECIPE.replace("# weighed dry\n", "# weighed dry\n    lot: P-1\n").replace(
        "300 g}", "300 g, lot: C-2}"
    ).replace("60 min}]\n", "60 min}]\n  ph: 5.4\n")


def test_an_item_is_added_behind_the_last_one() -> None:
    new = change(RECIPE, (("grist", "-"), "{grain: raw wheat, weight: 1 kg}"), (("mash", "rests", "-"), "{at: 76 °C}"))
    assert new == RECIPE.replace("# last lot\n", "# last lot\n  - {grain: raw wheat, weight: 1 kg}\n").replace(
        "60 min}]", "60 min}, {at: 76 °C}]"
    )


def test_a_text_of_several_lines_keeps_its_place() -> None:
    assert change(RECIPE, (("notes",), "rack it")) == RECIPE.replace("|\n  rack it\n   slowly", "rack it")
    assert change(RECIPE, (("by",), "us")) == RECIPE.replace("slowly\n", "slowly\nby: us\n")
    assert (
        change("a:\n  b: >\n    x\n\n    y\n\nc: 1\n", (("a", "d"), "2"))
        == "a:\n  b: >\n    x\n\n    y\n  d: 2\n\nc: 1\n"
    )
    assert change("a: x\n  y\nb: 1\n", (("a",), "z")) == "a: z\nb: 1\n"


@pytest.mark.parametrize(
    ("text", "path", "new"),
    [
        ("a:\n  b:\n  c: 1\n", ("a", "b"), "a:\n  b: NEW\n  c: 1\n"),
        ("a:\n  b: # none\n", ("a", "b"), "a:\n  b: NEW # none\n"),
        ("a: {b: , c: 1}\n", ("a", "b"), "a: {b: NEW, c: 1}\n"),
        ("a:\n  -\n  - x\n", ("a", 0), "a:\n  - NEW\n  - x\n"),
        ("a:\n  b:", ("a", "c"), "a:\n  b:\n  c: NEW"),
        ("a: {}\n", ("a", "b"), "a: {b: NEW}\n"),
        ("a: []\n", ("a", "-"), "a: [NEW]\n"),
        ("a: [1, 2, ]\n", ("a", "-"), "a: [1, 2, NEW, ]\n"),
        ("a: [1, # one\n  2 # two\n  ]\n", ("a", "-"), "a: [1, # one\n  2, NEW # two\n  ]\n"),
        ("a:\n- - 1\n  - 2\n", ("a", 0, "-"), "a:\n- - 1\n  - 2\n  - NEW\n"),
        ("a:\n  - # the dark-roast line\n    b: 1\n", ("a", "-"), "a:\n  - # the dark-roast line\n    b: 1\n  - NEW\n"),
        ("a:\n  -\n  # one - two -\n\n    b: 1\n", ("a", "-"), "a:\n  -\n  # one - two -\n\n    b: 1\n  - NEW\n"),
        ("---\na: b\n...\n", ("c",), "---\na: b\nc: NEW\n...\n"),
        ("{a: b}\n", ("c",), "{a: b, c: NEW}\n"),
        ("a: b\r\n\r\n# x\r\n", ("c",), "a: b\r\nc: NEW\r\n\r\n# x\r\n"),
        ("a: b\rc: d", ("e",), "a: b\rc: d\re: NEW"),
    ],
)
def test_places_that_are_easily_missed(text: str, path: Path, new: str) -> None:
    assert change(text, (path, "NEW")) == new


def test_several_additions_at_one_place_keep_their_order_and_depth() -> None:
    assert change("a:\n  b:\n    c: 1\n", (("a", "e"), "2"), (("a", "b", "d"), "3")) == (
        "a:\n  b:\n    c: 1\n    d: 3\n  e: 2\n"
    )
    assert change("a:\n  - 1\n", (("a", "-"), "3"), (("a", "-"), "2")) == "a:\n  - 1\n  - 3\n  - 2\n"


@pytest.mark.parametrize(
    ("text", "path"),
    [
        ("a: &x 1\nb: *x\n", ("a",)),
        ("a: &x 1\nb: *x\n", ("b",)),
        ("a: &x {c: 1}\nb: *x\n", ("a", "c")),
        ("a: &x {c: 1}\nb: *x\n", ("b", "d")),
        ("a: &x 1\nb: [*x]\n", ("b", "-")),
        ("a: &x [1]\nb: *x\n", ("a", "-")),
        ("? a\n: b\n", ("c",)),
        ("a: {b: 1}\n", ("a",)),
        ("a: 1\n", ("a", "b")),
        ("a: [1]\n", ("a", 1)),
        ("a: [1]\n", ("a", "b")),
        ("a: 1\n", ("b", "c")),
        ("a: 1\n", ("-",)),
    ],
)
def test_what_cannot_be_edited(text: str, path: Path) -> None:
    assert not can_edit(root_of(text), path)


def test_an_edit_without_a_place_is_refused() -> None:
    root = root_of("a: [1]\n")
    for path in (("a", 3), ("b", "c"), ("a", 0, "b"), ("a", "b")):
        with pytest.raises(KeyError):
            edited(root, [Edit(path, "1")])
        with pytest.raises(KeyError):
            rewritten("a: [1]\n", root, [Edit(path, "1")])


WORDS = st.text(string.ascii_lowercase, min_size=1, max_size=6).filter(
    lambda word: word not in ("null", "true", "false")
)
VALUES = WORDS | st.integers(0, 99).map(str) | st.just("'it''s'") | st.just('"a: \\u00e4"') | st.just("5 °C")
SPACE = st.sampled_from(["", "", " ", "  # said so", "   "])


@st.composite
def flow(draw: st.DrawFn, depth: int) -> str:
    """A value on one line."""
    kind = draw(st.sampled_from(["scalar", "list", "braces"] if depth else ["scalar"]))
    if kind == "scalar":
        return draw(VALUES)
    inside = draw(st.lists(flow(depth - 1), max_size=3))
    if kind == "list":
        return f"[{', '.join(inside)}]"
    return "{" + ",  ".join(f"k{index}: {value}" for index, value in enumerate(inside)) + "}"


@st.composite
def block(draw: st.DrawFn, indent: int, depth: int) -> list[str]:
    """Lines of a mapping, with comments and empty lines between them."""
    lines = []
    for index in range(draw(st.integers(1, 3))):
        lines += draw(st.sampled_from([[], [], [""], [" " * indent + "# said"]]))
        front = f"{' ' * indent}f{index}:"
        kind = draw(st.sampled_from(["flow", "text", "nothing", "mapping", "list"] if depth else ["flow"]))
        if kind == "flow":
            lines.append(f"{front} {draw(flow(2))}{draw(SPACE)}")
        elif kind == "text":
            lines += [f"{front} |-", f"{' ' * indent}  said", f"{' ' * indent}   more"]
        elif kind == "nothing":
            lines.append(f"{front}{draw(SPACE)}")
        elif kind == "mapping":
            lines += [front, *draw(block(indent + 2, depth - 1))]
        else:
            lines.append(front)
            for _ in range(draw(st.integers(1, 2))):
                lines.append(f"{' ' * indent}  - {draw(flow(2))}{draw(SPACE)}")
    return lines


@st.composite
def text_and_edits(draw: st.DrawFn) -> tuple[str, list[Edit]]:
    newline = draw(st.sampled_from(["\n", "\r\n", "\r"]))
    text = newline.join(draw(block(0, 2))) + draw(st.sampled_from(["", newline, newline * 3]))
    places: list[Path] = []
    for path, node in walk(root_of(text)):
        if isinstance(node, Scalar):
            places.append(path)
        elif isinstance(node, Mapping):
            places.append((*path, "new"))
        elif isinstance(node, Sequence):
            places.append((*path, "-"))
    chosen = draw(st.lists(st.sampled_from(places), min_size=1, max_size=3, unique=True))
    return text, [Edit(path, draw(flow(1))) for path in chosen]


@given(text_and_edits())
def test_text_and_nodes_agree_after_any_edit(case: tuple[str, list[Edit]]) -> None:
    text, edits = case
    root = root_of(text)
    assert all(can_edit(root, edit.path) for edit in edits)
    new = rewritten(text, root, edits)
    assert data(root_of(new)) == data(edited(root, edits))
    assert text.count("#") == new.count("#")
    assert [line for line in text.splitlines() if line.strip().startswith("#")] == [
        line for line in new.splitlines() if line.strip().startswith("#")
    ]


@given(text_and_edits())
def test_what_lies_outside_an_edit_survives(case: tuple[str, list[Edit]]) -> None:
    text, edits = case
    new = rewritten(text, root_of(text), edits[:1])
    start = next((index for index, pair in enumerate(zip(text, new, strict=False)) if pair[0] != pair[1]), len(text))
    end = next(
        (index for index, pair in enumerate(zip(text[::-1], new[::-1], strict=False)) if pair[0] != pair[1]), len(text)
    )
    assert len(text) - start - end <= _length_of_target(text, edits[0])


def _length_of_target(text: str, edit: Edit) -> int:
    """How much of the old text an edit may take away at most: the value that it replaces."""
    for path, node in walk(root_of(text)):
        if path == edit.path:
            return node.end - node.start
    return 0
