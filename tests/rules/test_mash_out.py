from collections.abc import Callable

import pytest

Found = Callable[..., list[str]]


def recipe(*rests: str, more: str = "") -> str:
    """A short recipe whose rests stand on line 4."""
    grist = "grist: [{grain: pale ale malt, weight: 4.5 kg}]"
    listed = ", ".join(f"{{at: {rest}, for: 20 min}}" for rest in rests)
    return f"recipe: Tried\nbatch: 20 l\n{grist}\nmash: {{rests: [{listed}]}}\n{more}"


@pytest.mark.parametrize("rest", ["75 °C", "76 °C", "78 °C", "168 °F", "72 °C"])
def test_not_too_hot(found: Found, rest: str) -> None:
    assert found("mash_out", recipe("66 °C", rest)) == []


@pytest.mark.parametrize(
    ("rest", "finding"),
    [
        ("78.5 °C", "note: a mash-out at 78.5 °C is above 78 °C"),
        ("78.6 °C", "note: a mash-out at 78.6 °C is above 78 °C"),
        ("79 °C", "warning: a mash-out at 79 °C is above 78 °C"),
        ("79.5 °C", "warning: a mash-out at 79.5 °C is above 79 °C"),
        ("80 °C", "warning: a mash-out at 80 °C is above 79 °C"),
        ("85 °C", "warning: a mash-out at 85 °C is above 79 °C"),
    ],
)
def test_too_hot(found: Found, rest: str, finding: str) -> None:
    words = "and draws out tannin and starch; 76 °C is enough"
    assert found("mash_out", recipe("66 °C", rest)) == [f"4:47: {finding} {words}"]


def test_in_fahrenheit(found: Found) -> None:
    assert found("mash_out", recipe("152 °F", "176 °F")) == [
        ("4:48: warning: a mash-out at 176 °F is above 174 °F and draws out tannin and starch; 169 °F is enough")
    ]


def test_a_mash_without_conversion_is_another_question(found: Found) -> None:
    assert found("mash_out", recipe("83 °C")) == []
    assert found("mash_out", recipe("82 °C", "85 °C")) == []


def test_what_ends_hotter_by_custom_is_a_note(found: Found) -> None:
    assert found("mash_out", recipe("66 °C", "82 °C", more="style: Sahti\n")) == [
        "4:47: note: a mash-out at 82 °C is above 79 °C and draws out tannin and starch; 76 °C is enough"
    ]


def test_a_last_rest_that_rises_too_far(found: Found) -> None:
    """Whether it follows another rest or not."""
    for rests in ("{at: 54 °C, to: 86 °C, for: 60 min}", "{at: 66 °C}, {at: 70 °C, to: 86 °C, for: 20 min}"):
        text = recipe("66 °C").replace("{at: 66 °C, for: 20 min}", rests)
        (told,) = found("mash_out", text)
        assert "warning: a mash-out at 86 °C is above 79 °C and draws out tannin" in told
    assert found("mash_out", recipe("66 °C").replace("{at: 66 °C,", "{at: 66 °C, to: 76 °C,")) == []
    assert found("mash_out", recipe("66 °C").replace("{at: 66 °C,", "{at: 86 °C, to: 60 °C,")) == []
