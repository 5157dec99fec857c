from collections.abc import Callable

import mashwright

Found = Callable[..., list[str]]


def recipe(colour: str, *more: str, targets: str = "", key: str = "colour") -> str:
    """Four kilograms of pale ale malt and more, which by itself gives about 4.1 SRM; the colour is on the last line."""
    grist = "".join(f"  - {{{line}}}\n" for line in ("grain: pale ale malt, weight: 4 kg", *more))
    return f"recipe: Tried\nbatch: 20 l\ngrist:\n{grist}targets: {{{targets}{key}: {colour}}}\n"


BLACK = "grain: black malt, weight: 500 g"


def test_what_the_grist_gives(found: Found) -> None:
    for colour in ("4 SRM", "5 SRM", "8 EBC", "3 SRM", "4-6 SRM"):
        assert found("colour", recipe(colour)) == []


def test_no_colour_stated(found: Found) -> None:
    assert found("colour", recipe("4 SRM").replace("colour: 4 SRM", "og: 1.044")) == []


def test_close_to_the_eye_is_close_enough(found: Found) -> None:
    """Within 1.5 SRM nothing is said, whatever the share."""
    assert found("colour", recipe("2.7 SRM")) == []


def test_too_pale(found: Found) -> None:
    assert found("colour", recipe("7 SRM")) == [
        "5:19: note: the grist gives about 4.1 SRM (3-5 SRM), not 7 SRM; did you mean 7 EBC?"
    ]
    assert found("colour", recipe("9 SRM")) == [
        "5:19: warning: the grist gives about 4.1 SRM (3-5 SRM), not 9 SRM; did you mean 9 EBC?"
    ]
    assert found("colour", recipe("25 SRM")) == ["5:19: error: the grist gives about 4.1 SRM (3-5 SRM), not 25 SRM"]


def test_too_dark(found: Found) -> None:
    assert found("colour", recipe("7 SRM", BLACK)) == [
        "6:19: error: the grist gives about 38.4 SRM (29.9-47 SRM), not 7 SRM"
    ]
    assert found("colour", recipe("20 SRM", BLACK)) == [
        "6:19: warning: the grist gives about 38.4 SRM (29.9-47 SRM), not 20 SRM"
    ]


def test_black_is_black(found: Found) -> None:
    assert found("colour", recipe("80 SRM", BLACK)) == []


def test_in_ebc(found: Found) -> None:
    assert found("colour", recipe("50 EBC")) == ["5:19: error: the grist gives about 8 EBC (6-9.8 EBC), not 50 EBC"]


def test_the_american_spelling_has_its_place(found: Found) -> None:
    assert found("colour", recipe("25 SRM", key="color")) == [
        "5:18: error: the grist gives about 4.1 SRM (3-5 SRM), not 25 SRM"
    ]


def test_late_dark_grain_and_sugar_count(found: Found) -> None:
    late = "grain: black malt, weight: 100 g, add: late mash"
    syrup = "sugar: candi syrup, colour: 180 °Lovibond, weight: 500 g"
    assert found("colour", recipe("14 SRM", late)) == []
    assert found("colour", recipe("18 SRM", syrup)) == []


def test_a_lot_pins_it(found: Found) -> None:
    dark = "grain: caramel malt 60, weight: 400 g"
    assert found("colour", recipe("9 SRM", dark)) == []
    house = "brewhouse: Here\nlots:\n  L1: {of: caramel malt 60, colour: 160 °Lovibond}\n"
    assert found("colour", recipe("9 SRM", f"{dark}, lot: L1"), house) == [
        "6:19: warning: the grist gives about 15.7 SRM (12.6-18.9 SRM), not 9 SRM"
    ]


def test_a_long_boil_darkens(found: Found) -> None:
    plain = recipe("20 SRM", "grain: caramel malt 60, weight: 400 g")
    assert found("colour", plain) == [
        "6:19: warning: the grist gives about 9.3 SRM (7.3-11.2 SRM), not 20 SRM; did you mean 20 EBC?"
    ]
    assert found("colour", plain + "boil: {for: 6 h}\n") == [
        "6:19: warning: the grist gives about 9.3 SRM (7.3-15.3 SRM), not 20 SRM; did you mean 20 EBC?"
    ]


def test_another_wort_is_another_question(found: Found) -> None:
    assert found("colour", recipe("25 SRM", targets="og: 1.044, ")) != []
    assert found("colour", recipe("25 SRM", targets="og: 1.120, ")) == []


def test_an_unknown_colour_leaves_it_open(found: Found) -> None:
    assert found("colour", recipe("25 SRM", "grain: ruby lagoon, weight: 2 kg")) == ["5:13: open: what ruby lagoon is"]


def remedies(text: str) -> list[str]:
    results = mashwright.review_text(text).recipes[0].results
    return [remedy.text for one in results if one.rule == "colour" for remedy in one.remedies]


def test_the_claim_is_put_right() -> None:
    assert remedies(recipe("9 SRM")) == [
        "change the stated colour from 9 SRM to 9 EBC",
        "change the stated colour from 9 SRM to 4.1 SRM",
    ]
    assert remedies(recipe("25 SRM", key="color")) == ["change the stated colour from 25 SRM to 4.1 SRM"]


def test_black_begins_at_its_limit(found: Found) -> None:
    ink = "grain: black malt, weight: 1.6 kg"
    assert found("colour", recipe("34 SRM", ink)) != []
    assert found("colour", recipe("35 SRM", ink)) == []
