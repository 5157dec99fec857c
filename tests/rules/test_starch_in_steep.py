from collections.abc import Callable

import mashwright

Found = Callable[..., list[str]]


def recipe(*grist: str, rests: str = "", more: str = "") -> str:
    """A short recipe whose grist begins on line 4; its rests begin two lines after the grist."""
    lines = ["recipe: Tried", "batch: 20 l", "grist:", *(f"  - {{{line}}}" for line in grist)]
    if rests:
        lines += ["mash:", "  rests:", *(f"    - {{{rest}}}" for rest in rests.split("; "))]
    return "\n".join([*lines, more, ""])


EXTRACT = "extract: light dry malt extract, weight: 2.5 kg"
STEEP = "steep: {water: 5 l, at: 67 °C, for: 30 min}"


def test_caramel_and_roasted_malt_may_be_steeped(found: Found) -> None:
    text = recipe(EXTRACT, "grain: caramel malt 60, weight: 300 g", "grain: roasted barley, weight: 200 g", more=STEEP)
    assert found("starch_in_steep", text) == []


def test_flakes_need_a_mash(found: Found) -> None:
    assert found("starch_in_steep", recipe(EXTRACT, "grain: flaked oats, weight: 400 g", more=STEEP)) == [
        (
            "5:6: warning: steeped without malt, the starch of flaked oats is not converted; it gives haze, and about"
            " 12 % of"
            " its extract"
        )
    ]


def test_where_the_line_says_steep_it_points_there(found: Found) -> None:
    assert found("starch_in_steep", recipe(EXTRACT, "grain: raw wheat, weight: 400 g, add: steep")) == [
        (
            "5:44: warning: steeped without malt, the starch of raw wheat is not converted; it gives haze, and about"
            " 12 %"
            " of its extract"
        )
    ]


def test_biscuit_and_dextrin_malt_are_a_note(found: Found) -> None:
    text = recipe(EXTRACT, "grain: biscuit malt, weight: 300 g", "grain: dextrin malt, weight: 300 g", more=STEEP)
    assert found("starch_in_steep", text) == [
        (
            "5:6: note: steeped without base malt, the starch of biscuit malt is not converted; it gives haze, and"
            " about 25 %"
            " of its extract"
        ),
        (
            "6:6: note: steeped without base malt, the starch of dextrin malt is not converted; it gives haze, and"
            " about 12 %"
            " of its extract"
        ),
    ]


def test_base_malt_beside_them_makes_it_a_mash(found: Found) -> None:
    text = recipe(EXTRACT, "grain: flaked oats, weight: 400 g", "grain: pale malt, weight: 400 g", more=STEEP)
    assert found("starch_in_steep", text) == []


def test_flakes_in_the_kettle(found: Found) -> None:
    text = recipe("grain: pale malt, weight: 4 kg", "grain: flaked wheat, weight: 400 g, add: kettle")
    assert found("starch_in_steep", text) == [
        "5:47: warning: put into the kettle, the starch of flaked wheat is not converted; only a mash turns it to sugar"
    ]


def test_a_spoonful_of_flour_in_the_kettle_is_a_note(found: Found) -> None:
    text = recipe("grain: pale malt, weight: 4 kg", "grain: wheat flour, weight: 40 g, add: kettle")
    assert found("starch_in_steep", text) == [
        "5:45: note: put into the kettle, the starch of wheat flour is not converted; only a mash turns it to sugar"
    ]


def test_a_mash_is_no_steep(found: Found) -> None:
    text = recipe("grain: pale malt, weight: 4 kg", "grain: flaked oats, weight: 400 g", rests="at: 66 °C")
    assert found("starch_in_steep", text) == []


def test_fruit_and_sugar_are_no_question(found: Found) -> None:
    text = recipe(EXTRACT, "sugar: table sugar, weight: 300 g", "fruit: raspberries, weight: 1 kg")
    assert found("starch_in_steep", text) == []


def test_oats_beside_malt_extract_are_steeped_where_no_mash_is_written(found: Found) -> None:
    said = "the starch of flaked oats is not converted; it gives haze, and about 12 % of its extract"
    text = recipe(EXTRACT, "grain: flaked oats, weight: 400 g", "grain: caramel malt 60, weight: 200 g")
    assert found("starch_in_steep", text) == [f"5:6: warning: steeped without malt, {said}"]
    assert found("no_base_malt", text) == ["not stated: grain that is mashed"]


def test_base_malt_beside_what_is_steeped_goes_with_it(found: Found) -> None:
    text = recipe(EXTRACT, "grain: flaked oats, weight: 400 g, add: steep", "grain: pale malt, weight: 500 g")
    assert found("starch_in_steep", text) == []


MUNICH = "grain: Munich malt, weight: 1 kg, add: steep"
ITS_STARCH = "the starch of Munich malt is not converted"


def steeped(how: str, more: str = "") -> str:
    return recipe(EXTRACT, MUNICH, more=f"steep: {{{how}}}\n{more}")


def test_base_malt_in_a_steep_that_is_no_mash(found: Found) -> None:
    assert found("starch_in_steep", steeped("water: 5 l, at: 12 °C, for: 12 h")) == [
        f"6:25: warning: steeped at 12 °C, {ITS_STARCH}; base malt turns it to sugar only from about 60 °C"
    ]
    assert found("starch_in_steep", steeped("water: 5 l, at: 120 °F")) == [
        f"6:25: warning: steeped at 120 °F, {ITS_STARCH}; base malt turns it to sugar only from about 140 °F"
    ]
    assert found("starch_in_steep", steeped("water: 5 l, at: 95 °C, for: 30 min")) == [
        f"6:25: warning: steeped at 95 °C, {ITS_STARCH}; its enzymes last only minutes in that heat"
    ]
    assert found("starch_in_steep", steeped("water: 5 l, at: 66 °C, for: 5 min")) == [
        f"6:37: warning: steeped for 5 min, {ITS_STARCH}; base malt needs about 45 min to turn it to sugar"
    ]


def test_base_malt_in_a_steep_that_is_one(found: Found) -> None:
    for how in ("water: 5 l, at: 66 °C, for: 45 min", "at: 155 °F, for: 20 min", "at: 58-62 °C", "water: 5 l"):
        assert found("starch_in_steep", steeped(how)) == []
    trace = recipe(EXTRACT, MUNICH.replace("1 kg", "40 g"), more="steep: {at: 12 °C}")
    assert found("starch_in_steep", trace) == []
    dark = recipe(EXTRACT, "grain: black malt, weight: 200 g, add: steep", more="steep: {at: 12 °C, for: 12 h}")
    assert found("starch_in_steep", dark) == []


def test_a_cold_extract_for_little_alcohol_is_a_note(found: Found) -> None:
    (message,) = found("starch_in_steep", steeped("water: 5 l, at: 4 °C, for: 12 h", "targets: {abv: 0.5 %}"))
    assert message.startswith("6:25: note: steeped at 4 °C")


def test_the_kettle_is_asked_beside_steeped_base_malt_too(found: Found) -> None:
    flakes = "grain: flaked wheat, weight: 400 g, add: kettle"
    text = recipe(EXTRACT, MUNICH, flakes, more="steep: {at: 66 °C, for: 45 min}")
    assert found("starch_in_steep", text) == [
        "6:47: warning: put into the kettle, the starch of flaked wheat is not converted; only a mash turns it to sugar"
    ]


def test_a_small_mash_mends_it() -> None:
    for how, text in (
        ("water: 5 l, at: 12 °C, for: 12 h", "steep at 66 °C for 45 min"),
        ("water: 5 l, at: 12 °C", "steep at 66 °C for 45 min"),
        ("water: 5 l, at: 120 °F, for: 1 h", "steep at 151 °F"),
        ("water: 5 l, at: 66 °C, for: 5 min", "steep for 45 min"),
    ):
        findings = mashwright.review_text(steeped(how)).recipes[0].results
        assert [remedy.text for finding in findings for remedy in finding.remedies] == [text]


def test_base_malt_in_a_hot_or_far_too_thin_steep(found: Found) -> None:
    for malt in ("pale malt", "wheat malt", "rye malt"):
        line, stays = f"grain: {malt}, weight: 500 g, add: steep", f"the starch of {malt} is not converted"
        hot = recipe(EXTRACT, line, more="steep: {water: 2 l, at: 85 °C, for: 45 min}")
        (told,) = found("starch_in_steep", hot)
        assert told == f"6:25: warning: steeped at 85 °C, {stays}; its enzymes last only minutes in that heat"
        thin = recipe(EXTRACT, line, more="steep: {water: 20 l, at: 67 °C, for: 45 min}")
        (told,) = found("starch_in_steep", thin)
        assert told == f"6:16: warning: steeped in 20 l, {stays}; in more than 15 l/kg its enzymes are too thin"
        for water in ("2 l", "5 l", "7 l", "7.5 l"):  # the last is 15 l/kg
            good = recipe(EXTRACT, line, more=f"steep: {{water: {water}, at: 67 °C, for: 45 min}}")
            assert found("starch_in_steep", good) == []
