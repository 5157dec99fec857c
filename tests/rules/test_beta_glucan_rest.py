from collections.abc import Callable

Found = Callable[..., list[str]]


def recipe(*grist: str, rests: str = "", more: str = "") -> str:
    """A short recipe whose grist begins on line 4; its rests begin two lines after the grist."""
    lines = ["recipe: Tried", "batch: 20 l", "grist:", *(f"  - {{{line}}}" for line in grist)]
    if rests:
        lines += ["mash:", "  rests:", *(f"    - {{{rest}}}" for rest in rests.split("; "))]
    return "\n".join([*lines, more, ""])


HOUR = "at: 66 °C, for: 60 min"
ADVICE = "a first rest of 15 to 30 min at 37-48 °C thins the wort"


def test_a_quarter_is_fine(found: Found) -> None:
    text = recipe("grain: pale malt, weight: 3 kg", "grain: flaked barley, weight: 1 kg", rests=HOUR)
    assert found("beta_glucan_rest", text) == []


def test_more_together_is_a_note(found: Found) -> None:
    text = recipe(
        "grain: pale malt, weight: 2.8 kg",
        "grain: raw rye, weight: 600 g",
        "grain: flaked oats, weight: 600 g",
        rests=HOUR,
    )
    assert found("beta_glucan_rest", text) == [f"3:1: note: 30 % of the mash is unmalted barley, oats or rye; {ADVICE}"]


def test_never_more_than_a_note(found: Found) -> None:
    text = recipe("grain: high-enzyme malt, weight: 1 kg", "grain: raw barley, weight: 4 kg", rests=HOUR)
    assert found("beta_glucan_rest", text) == [f"3:1: note: 80 % of the mash is unmalted barley, oats or rye; {ADVICE}"]


def test_a_rest_that_touches_the_band_settles_it(found: Found) -> None:
    lines = ("grain: pale malt, weight: 3 kg", "grain: flaked oats, weight: 2 kg")
    for rests in (
        "at: 37 °C, for: 20 min; at: 66 °C",
        "at: 48 °C, for: 20 min; at: 66 °C",
        "at: 30 °C, for: 40 min, to: 66 °C",
    ):
        assert found("beta_glucan_rest", recipe(*lines, rests=rests)) == []


def test_in_fahrenheit(found: Found) -> None:
    text = recipe("grain: pale malt, weight: 6 lb", "grain: flaked oats, weight: 4 lb", rests="at: 152 °F, for: 60 min")
    assert found("beta_glucan_rest", text) == [
        (
            "3:1: note: 40 % of the mash is unmalted barley, oats or rye; a first rest of 15 to 30 min at 99-118"
            " °F thins the wort"
        )
    ]


def test_malted_wheat_and_maize_do_not_count(found: Found) -> None:
    text = recipe(
        "grain: pale malt, weight: 2 kg",
        "grain: rye malt, weight: 1 kg",
        "grain: flaked wheat, weight: 1 kg",
        "grain: flaked maize, weight: 1 kg",
        rests=HOUR,
    )
    assert found("beta_glucan_rest", text) == []


def test_silent_where_enzymes_are_added_or_nothing_converts(found: Found) -> None:
    added = recipe(
        "grain: pale malt, weight: 2 kg",
        "grain: raw barley, weight: 2 kg",
        more="mash: {enzymes: {beta-glucanase: 3 g}}",
    )
    assert found("beta_glucan_rest", added) == []
    assert found("beta_glucan_rest", recipe("grain: flaked oats, weight: 2 kg", rests=HOUR)) == []


def test_silent_where_a_rest_cannot_be_read(found: Found) -> None:
    text = recipe("grain: pale malt, weight: 2 kg", "grain: raw barley, weight: 2 kg", rests="at: 45, for: 20 min")
    assert found("beta_glucan_rest", text) == ["8:12: open: a readable mash"]
