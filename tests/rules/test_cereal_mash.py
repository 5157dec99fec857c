from collections.abc import Callable

Found = Callable[..., list[str]]


def recipe(*grist: str, rests: str = "", more: str = "") -> str:
    """A short recipe whose grist begins on line 4; its rests begin two lines after the grist."""
    lines = ["recipe: Tried", "batch: 20 l", "grist:", *(f"  - {{{line}}}" for line in grist)]
    if rests:
        lines += ["mash:", "  rests:", *(f"    - {{{rest}}}" for rest in rests.split("; "))]
    return "\n".join([*lines, more, ""])


BASE = "grain: six-row pale malt, weight: 3 kg"
HOUR = "at: 67 °C, for: 60 min"


def test_cooked_flaked_and_torrefied_grain_is_fine(found: Found) -> None:
    for line in (
        "grain: maize grits, weight: 1 kg, prepare: cereal mash",
        "grain: flaked maize, weight: 1 kg",
        "grain: torrefied rice, weight: 1 kg",
        "grain: raw wheat, weight: 1 kg",
        "grain: raw barley, weight: 1 kg",
        "grain: raw rye, weight: 1 kg",
        "grain: raw oats, weight: 1 kg",
    ):
        assert found("cereal_mash", recipe(BASE, line, rests=HOUR)) == []


def test_uncooked_maize_is_an_error(found: Found) -> None:
    text = recipe("grain: maize grits, weight: 5 kg", "grain: pale malt, weight: 3 kg", rests=HOUR)
    assert found("cereal_mash", text) == [
        (
            "4:6: error: without cooking, about 48 % of the starch in maize grits is released at 67 °C; boil raw maize"
            " before the mash"
        )
    ]


def test_an_american_recipe_says_corn(found: Found) -> None:
    text = recipe(BASE, "grain: corn grits, weight: 2 lb", rests="at: 152 °F, for: 60 min")
    assert found("cereal_mash", text) == [
        (
            "5:6: error: without cooking, about 45 % of the starch in corn grits is released at 152 °F; boil raw"
            " corn before"
            " the mash"
        )
    ]


def test_uncooked_rice_is_an_error(found: Found) -> None:
    text = recipe(BASE, "grain: rice, weight: 1 kg", rests="at: 66 °C, for: 60 min")
    assert found("cereal_mash", text) == [
        (
            "5:6: error: without cooking, about 20 % of the starch in rice is released at 66 °C; boil raw rice before"
            " the mash"
        )
    ]


def test_uncooked_maize_in_a_cool_mash_is_an_error(found: Found) -> None:
    text = recipe(BASE, "grain: maize grits, weight: 1 kg", rests="at: 63 °C, for: 60 min")
    assert found("cereal_mash", text) == [
        (
            "5:6: error: without cooking, about 14 % of the starch in maize grits is released at 63 °C; boil raw maize"
            " before the mash"
        )
    ]


def test_grits_are_stones_at_any_heat_that_malt_stands(found: Found) -> None:
    hot = ("at: 69 °C, for: 60 min", "at: 63 °C, for: 45 min; at: 72 °C, for: 30 min", "at: 72 °C, for: 90 min")
    for line in ("maize grits", "raw maize", "cornmeal", "sorghum", "raw millet", "rice"):
        for rests in (*hot, f"{hot[1]}; at: 78 °C, for: 10 min"):
            (told,) = found("cereal_mash", recipe(BASE, f"grain: {line}, weight: 1 kg", rests=rests))
            assert told.startswith("5:6: error: without cooking, "), told


def test_what_is_said_of_grits_is_said_of_the_rests_that_were_counted(found: Found) -> None:
    text = recipe(BASE, "grain: rice, weight: 1 kg", rests="at: 62 °C, for: 45 min; at: 80 °C, for: 30 min")
    assert found("cereal_mash", text) == [
        (
            "5:6: error: without cooking, about 61 % of the starch in rice is released by rests up to 80 °C; boil"
            " raw rice"
            " before the mash"
        )
    ]
    text = recipe(BASE, "grain: maize grits, weight: 1 kg", rests="at: 72 °C, for: 120 min")
    assert found("cereal_mash", text) == [
        (
            "5:6: error: without cooking, as little as 78 % of the starch in maize grits is released at 72 °C;"
            " boil raw maize"
            " before the mash"
        )
    ]


def test_a_hot_rest_is_enough_for_flour(found: Found) -> None:
    rests = "at: 63 °C, for: 40 min; at: 72 °C, for: 40 min"
    assert found("cereal_mash", recipe(BASE, "grain: maize flour, weight: 1 kg", rests=rests)) == []
    assert found("cereal_mash", recipe(BASE, "grain: maize grits, weight: 1 kg", rests="at: 80 °C, for: 90 min")) == []


def test_raw_roots_need_a_warm_mash(found: Found) -> None:
    for line in ("potatoes", "raw potatoes", "potato starch"):
        (told,) = found("cereal_mash", recipe(BASE, f"grain: {line}, weight: 1 kg", rests="at: 60 °C, for: 60 min"))
        assert told == (
            f"5:6: error: without cooking, about 28 % of the starch in {line} is released at 60 °C; boil them first"
        )
        assert found("cereal_mash", recipe(BASE, f"grain: {line}, weight: 1 kg", rests=HOUR)) == []
    mashed = recipe(BASE, "grain: mashed potato, weight: 1 kg", rests="at: 60 °C, for: 60 min")
    assert found("cereal_mash", mashed) == []


def test_a_decoction_boils_some_of_it(found: Found) -> None:
    text = recipe(
        BASE, "grain: rice, weight: 1 kg", rests="at: 52 °C, for: 20 min; at: 66 °C, for: 60 min, by: decoction"
    )
    assert found("cereal_mash", text) == [
        (
            "5:6: warning: without cooking, about 20 % of the starch in rice is released by rests up to 66 °C;"
            " boil raw rice"
            " before the mash"
        )
    ]


def test_a_trace_is_a_note(found: Found) -> None:
    text = recipe(BASE, "grain: rice, weight: 100 g", rests="at: 66 °C, for: 60 min")
    assert found("cereal_mash", text) == [
        (
            "5:6: note: without cooking, about 20 % of the starch in rice is released at 66 °C; boil raw rice before"
            " the mash"
        )
    ]


def test_malt_of_these_cereals_wants_a_hotter_rest(found: Found) -> None:
    text = recipe("grain: millet malt, weight: 4 kg", rests="at: 66 °C, for: 60 min")
    assert found("cereal_mash", text) == [
        (
            "4:6: warning: about 56 % of the starch in millet malt is released at 66 °C; malted millet needs a hotter"
            " rest or cooking"
        )
    ]
    assert found("cereal_mash", recipe("grain: millet malt, weight: 4 kg", rests="at: 71 °C, for: 60 min")) == []


def test_what_the_line_says_of_its_gelatinising_decides(found: Found) -> None:
    low = recipe(BASE, "grain: maize grits, weight: 1 kg, gelatinises: 63 °C", rests=HOUR)
    assert found("cereal_mash", low) == []
    high = recipe(BASE, "grain: raw wheat, weight: 1 kg, gelatinises: 70-75 °C", rests=HOUR)
    assert found("cereal_mash", high) == [
        "5:6: error: raw wheat gelatinises at 70-75 °C, but the mash reaches 67 °C; cook it first"
    ]
    middle = recipe(BASE, "grain: raw wheat, weight: 1 kg, gelatinises: 64-74 °C", rests=HOUR)
    assert found("cereal_mash", middle) == [
        "5:6: warning: raw wheat gelatinises at 64-74 °C, but the mash reaches 67 °C; cook it first"
    ]


def test_a_cooker_that_no_line_goes_into_was_meant_for_it(found: Found) -> None:
    text = recipe(BASE, "grain: maize grits, weight: 1 kg", rests=HOUR, more="cereal-mash: {water: 5 l, boil: 30 min}")
    assert found("cereal_mash", text) == [
        "5:6: note: a cereal mash is there, but no grain uses it; write prepare: cereal mash at maize grits"
    ]


def test_one_grain_cooked_and_another_forgotten(found: Found) -> None:
    text = recipe(
        BASE,
        "grain: maize grits, weight: 1 kg, prepare: cereal mash",
        "grain: rice, weight: 1 kg",
        rests=HOUR,
        more="cereal-mash: {water: 5 l, boil: 30 min}",
    )
    assert found("cereal_mash", text) == [
        (
            "6:6: error: without cooking, about 23 % of the starch in rice is released at 67 °C; boil raw rice before"
            " the mash"
        )
    ]


def test_malt_in_the_cooker_and_flakes_beside_raw_maize(found: Found) -> None:
    """Cooked malt joins the mash with the porridge, flakes of its cereal at the start; neither is the raw maize."""
    grist = [
        BASE,
        "grain: flaked barley, weight: 500 g",
        "grain: pale malt, weight: 300 g, prepare: cereal mash",
        "grain: maize grits, weight: 1 kg",
    ]
    rests, cooker = (
        "at: 63 °C, for: 60 min; at: 64 °C, for: 10 min, by: cereal mash",
        "cereal-mash: {water: 5 l, boil: 30 min}",
    )
    assert found("cereal_mash", recipe(*grist, rests=rests, more=cooker)) == [
        "7:6: note: a cereal mash is there, but no grain uses it; write prepare: cereal mash at maize grits"
    ]
    grist.append("grain: rice, weight: 500 g, prepare: cereal mash")
    assert found("cereal_mash", recipe(*grist, rests=rests, more=cooker)) == [
        (
            "7:6: error: without cooking, about 17 % of the starch in maize grits is released by rests up to 64"
            " °C; boil raw"
            " maize before the mash"
        )
    ]
    alone = recipe(BASE, grist[3], rests="at: 63 °C, for: 60 min; at: 64 °C, for: 10 min")
    assert [one.partition("about ")[2] for one in found("cereal_mash", alone)] == [
        one.partition("about ")[2] for one in found("cereal_mash", recipe(*grist, rests=rests, more=cooker))
    ]
    grist[3] = "grain: maize grits, weight: 1 kg, prepare: cereal mash"
    assert found("cereal_mash", recipe(*grist, rests=rests, more=cooker)) == []


def test_a_cooker_that_never_gets_hot(found: Found) -> None:
    text = recipe(
        BASE,
        "grain: rice, weight: 1 kg, prepare: cereal mash",
        rests=HOUR,
        more="cereal-mash: {rests: [{at: 66 °C, for: 20 min}]}",
    )
    assert found("cereal_mash", text) == [
        "9:24: warning: the cereal mash gets no hotter than 66 °C; boil the rice in it"
    ]


def test_silent_where_a_rest_cannot_be_read(found: Found) -> None:
    text = recipe(BASE, "grain: maize grits, weight: 1 kg", rests="at: warm, for: 60 min")
    assert found("cereal_mash", text) == ["8:12: open: a readable mash"]


def test_no_rests_stated_is_an_ordinary_mash(found: Found) -> None:
    assert found("cereal_mash", recipe(BASE, "grain: maize grits, weight: 1 kg")) == [
        (
            "5:6: error: without cooking, about 43 % of the starch in maize grits is released at 66.5 °C; boil raw"
            " maize"
            " before the mash"
        )
    ]


def test_a_cold_rest_keeps_nothing_from_being_said(found: Found) -> None:
    rests = "at: 20 °C, for: 20 min; at: 66 °C, for: 60 min"
    (told,) = found("cereal_mash", recipe(BASE, "grain: maize grits, weight: 1 kg", rests=rests))
    assert told.startswith(
        "5:6: error: without cooking, about 38 % of the starch in maize grits is released by rests up to 66 °C"
    )
