from collections.abc import Callable

Found = Callable[..., list[str]]


def recipe(*grist: str, rests: str = "", more: str = "") -> str:
    """A short recipe whose grist begins on line 4; its rests begin two lines after the grist."""
    lines = ["recipe: Tried", "batch: 20 l", "grist:", *(f"  - {{{line}}}" for line in grist)]
    if rests:
        lines += ["mash:", "  rests:", *(f"    - {{{rest}}}" for rest in rests.split("; "))]
    return "\n".join([*lines, more, ""])


HOUR = "at: 67 °C, for: 60 min"
OPENING = "nothing in this mash can convert starch"


def test_base_malt_converts(found: Found) -> None:
    text = recipe("grain: pale malt, weight: 4 kg", "grain: caramel malt 60, weight: 400 g", rests=HOUR)
    assert found("no_base_malt", text) == []


def test_caramel_malt_alone(found: Found) -> None:
    assert found("no_base_malt", recipe("grain: caramel malt 60, weight: 5 kg", rests=HOUR)) == [
        f"4:6: error: {OPENING}: caramel malt 60 has no enzymes and gives only about 50 % of its extract, as in a steep"
    ]


def test_roast_and_caramel_together_point_at_the_grist(found: Found) -> None:
    text = recipe("grain: black malt, weight: 3 kg", "grain: caramel malt 60, weight: 1 kg", rests=HOUR)
    assert found("no_base_malt", text) == [
        f"3:1: error: {OPENING}: black malt has no enzymes and gives only about 70 % of its extract, as in a steep"
    ]


def test_flakes_alone(found: Found) -> None:
    text = recipe("grain: flaked oats, weight: 3 kg", "grain: caramel malt 60, weight: 1 kg", rests=HOUR)
    assert found("no_base_malt", text) == [
        f"3:1: error: {OPENING}: 75 % of it is flaked oats, with no enzymes to convert its starch"
    ]


def test_kilned_malt_without_power(found: Found) -> None:
    assert found("no_base_malt", recipe("grain: biscuit malt, weight: 4 kg", rests=HOUR)) == [
        f"4:6: error: {OPENING}: all of it is biscuit malt, with no enzymes to convert its starch"
    ]


def test_base_malt_that_is_all_boiled(found: Found) -> None:
    text = recipe(
        "grain: pale malt, weight: 4 kg, prepare: cereal mash", rests=HOUR, more="cereal-mash: {boil: 20 min}"
    )
    assert found("no_base_malt", text) == [
        f"4:6: error: {OPENING}: the enzymes of pale malt are lost, as all of it is boiled in the cereal mash"
    ]


def test_added_enzymes_make_it_no_fault(found: Found) -> None:
    text = recipe("grain: raw barley, weight: 4 kg", more="mash: {enzymes: {alpha-amylase: 5 g}}")
    assert found("no_base_malt", text) == []


def test_caramel_malt_mashed_beside_extract_is_only_steeped(found: Found) -> None:
    text = recipe("extract: light dry malt extract, weight: 3 kg", "grain: caramel malt 60, weight: 400 g", rests=HOUR)
    assert found("no_base_malt", text) == []


def test_flakes_mashed_beside_extract_are_a_warning(found: Found) -> None:
    text = recipe("extract: light dry malt extract, weight: 3 kg", "grain: flaked oats, weight: 400 g", rests=HOUR)
    assert found("no_base_malt", text) == [
        f"5:6: warning: {OPENING}: all of it is flaked oats, with no enzymes to convert its starch"
    ]


def test_an_override_gives_it_power(found: Found) -> None:
    text = recipe("grain: biscuit malt, weight: 4 kg, diastatic-power: 35 °Lintner", rests=HOUR)
    assert found("no_base_malt", text) == []


def test_silent_where_nothing_is_mashed(found: Found) -> None:
    assert found("no_base_malt", recipe("extract: light dry malt extract, weight: 3 kg")) == [
        "not stated: grain that is mashed"
    ]


def test_silent_where_an_ingredient_is_unknown(found: Found) -> None:
    assert found("no_base_malt", recipe("grain: moonlight grain, weight: 3 kg", rests=HOUR)) == [
        "4:13: open: what moonlight grain is"
    ]
