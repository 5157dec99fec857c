"""Pictures: whatever stands in them is text, and nothing else."""

from collections.abc import Callable
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from mashwright.reporting.book.svg import Scale, el, picture, text


@given(words=st.text(), title=st.text())
def test_no_text_adds_an_element_and_none_is_lost(read_page: Callable[[bytes], Any], words: str, title: str) -> None:
    page = read_page(str(picture("x", title, words, 10, text(0, 0, words))).encode("utf-8", "backslashreplace"))
    assert [name for name, _ in page.elements] == ["svg", "title", "desc", "text"]


@given(value=st.text())
def test_no_text_ends_an_attribute(read_page: Callable[[bytes], Any], value: str) -> None:
    ((name, attributes),) = read_page(str(el("rect", class_=value)).encode("utf-8", "backslashreplace")).elements
    assert name == "rect"
    assert list(attributes) == ["class"]


@pytest.mark.parametrize("name", ["script", "foreignObject", "image", "use", "style", "a b", "svg onload", ""])
def test_what_runs_or_fetches_is_no_element(name: str) -> None:
    with pytest.raises(ValueError, match="no element"):
        el(name)


@pytest.mark.parametrize("name", ["onload", "style", "href", "src", "a b"])
def test_what_runs_or_fetches_is_no_attribute(name: str) -> None:
    with pytest.raises(ValueError, match="no attribute"):
        el("rect", **{name: "x"})


def test_a_scale_keeps_to_its_ends_and_has_round_ticks() -> None:
    scale = Scale(0, 90, 40, 400)
    assert [scale(one) for one in (-5, 0, 45, 90, 100)] == [40, 40, 220, 400, 400]
    assert scale.ticks(4) == [0, 25, 50, 75]
    assert Scale(0, 7.3, 0, 1).ticks(5) == [0, 2, 4, 6]
    same = Scale(5, 5, 0, 100)
    assert same(5) == pytest.approx(50)
