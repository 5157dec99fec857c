from collections.abc import Callable

Found = Callable[..., list[str]]


def recipe(*grist: str, rests: str = "", more: str = "") -> str:
    """A short recipe whose grist begins on line 4; its rests begin two lines after the grist."""
    lines = ["recipe: Tried", "batch: 20 l", "grist:", *(f"  - {{{line}}}" for line in grist)]
    if rests:
        lines += ["mash:", "  rests:", *(f"    - {{{rest}}}" for rest in rests.split("; "))]
    return "\n".join([*lines, more, ""])


BASE = "grain: Pilsner malt, weight: 4.4 kg"
NAMED = "of the grist is acidulated malt, which lowers mash pH by"


def test_a_few_per_cent_are_usual(found: Found) -> None:
    assert (
        found("acidulated_malt", recipe("grain: Pilsner malt, weight: 1.9 kg", "grain: acidulated malt, weight: 100 g"))
        == []
    )


def test_more_is_a_note(found: Found) -> None:
    assert found("acidulated_malt", recipe(BASE, "grain: acidulated malt, weight: 400 g")) == [
        f"5:6: note: 8.3 % {NAMED} about 0.83; 5 % is usual at most"
    ]


def test_a_tenth_itself_is_a_note(found: Found) -> None:
    text = recipe("grain: Pilsner malt, weight: 1.8 kg", "grain: acidulated malt, weight: 200 g")
    assert found("acidulated_malt", text) == [f"5:6: note: 10 % {NAMED} about 1; 5 % is usual at most"]


def test_above_a_tenth_asks(found: Found) -> None:
    assert found("acidulated_malt", recipe(BASE, "grain: acidulated malt, weight: 600 g")) == [
        f"5:6: warning: 12 % {NAMED} more than 1; is a sour beer meant?"
    ]


def test_a_style_that_is_sour_is_not_asked(found: Found) -> None:
    for style in ("gose", "Berliner Weisse", "kettle sour", "wild ale", "Flanders red ale"):
        text = recipe(BASE, "grain: acidulated malt, weight: 600 g", more=f"style: {style}")
        assert found("acidulated_malt", text) == [f"5:6: note: 12 % {NAMED} more than 1; 5 % is usual at most"]


def test_a_name_says_nothing(found: Found) -> None:
    text = recipe(BASE, "grain: acidulated malt, weight: 600 g").replace(
        "recipe: Tried", "recipe: Acid Rain, Wild Wood"
    )
    assert found("acidulated_malt", text) == [f"5:6: warning: 12 % {NAMED} more than 1; is a sour beer meant?"]


def test_words_that_only_look_sour(found: Found) -> None:
    for style in ("placid lager", "resourceful lager", "goslar lager", "not sour", "sour cherry ale"):
        text = recipe(BASE, "grain: acidulated malt, weight: 600 g", more=f"style: {style}")
        assert found("acidulated_malt", text) == [f"5:6: warning: 12 % {NAMED} more than 1; is a sour beer meant?"]


def test_added_when_the_mash_is_done_it_is_a_note(found: Found) -> None:
    assert found("acidulated_malt", recipe(BASE, "grain: acidulated malt, weight: 600 g, add: late mash")) == [
        f"5:6: note: 12 % {NAMED} more than 1; 5 % is usual at most"
    ]


def test_silent_without_it(found: Found) -> None:
    assert found("acidulated_malt", recipe(BASE)) == []
    assert found("acidulated_malt", recipe("extract: light dry malt extract, weight: 3 kg")) == []


def test_the_share_is_a_setting(found: Found) -> None:
    text = recipe(BASE, "grain: acidulated malt, weight: 400 g")
    assert found("acidulated_malt", text, most_percent=6) == [
        f"5:6: warning: 8.3 % {NAMED} about 0.83; is a sour beer meant?"
    ]
