from collections.abc import Callable

import pytest

Found = Callable[..., list[str]]


def recipe(*grist: str, rests: str = "", more: str = "") -> str:
    """A short recipe whose grist begins on line 4; its rests begin two lines after the grist."""
    lines = ["recipe: Tried", "batch: 20 l", "grist:", *(f"  - {{{line}}}" for line in grist)]
    if rests:
        lines += ["mash:", "  rests:", *(f"    - {{{rest}}}" for rest in rests.split("; "))]
    return "\n".join([*lines, more, ""])


HOUR = "at: 66 °C, for: 60 min"


def test_half_without_husk_runs_off(found: Found) -> None:
    text = recipe("grain: wheat malt, weight: 2.5 kg", "grain: Pilsner malt, weight: 2.5 kg", rests=HOUR)
    assert found("run_off", text) == []


def test_a_wit_runs_off(found: Found) -> None:
    text = recipe("grain: two-row pale malt, weight: 2.7 kg", "grain: flaked wheat, weight: 1.8 kg", rests=HOUR)
    assert found("run_off", text) == []


def test_an_everyday_wheat_beer_runs_off(found: Found) -> None:
    text = recipe("grain: wheat malt, weight: 3.25 kg", "grain: Pilsner malt, weight: 1.75 kg", rests=HOUR)
    assert found("run_off", text) == []


def test_malted_wheat_above_two_thirds_is_a_note(found: Found) -> None:
    text = recipe("grain: wheat malt, weight: 3.5 kg", "grain: Pilsner malt, weight: 1.5 kg", rests=HOUR)
    assert found("run_off", text) == [
        "3:1: note: 70 % of the mash has no husk; 0.18-0.35 kg of hulls could keep the run-off open"
    ]


def test_raw_wheat_above_half_is_a_note(found: Found) -> None:
    text = recipe("grain: raw wheat, weight: 3 kg", "grain: Pilsner malt, weight: 2 kg", rests=HOUR)
    assert found("run_off", text) == [
        "3:1: note: 60 % of the mash has no husk; 0.15-0.3 kg of hulls could keep the run-off open"
    ]


def test_shares_without_weights(found: Found) -> None:
    text = recipe("grain: raw wheat, share: 60 %", "grain: Pilsner malt, share: 40 %", rests=HOUR)
    assert found("run_off", text) == [
        "3:1: note: 60 % of the mash has no husk; 3-6 % of hulls could keep the run-off open"
    ]


def test_hulls_settle_it(found: Found) -> None:
    enough = recipe(
        "grain: raw wheat, weight: 3 kg",
        "grain: Pilsner malt, weight: 2 kg",
        "grain: rice hulls, weight: 150 g",
        rests=HOUR,
    )
    assert found("run_off", enough) == []
    little = enough.replace("150 g", "100 g")
    assert found("run_off", little) == [
        "3:1: note: 60 % of the mash has no husk; 0.15-0.3 kg of hulls could keep the run-off open"
    ]


def test_all_wheat_is_a_warning(found: Found) -> None:
    assert found("run_off", recipe("grain: wheat malt, weight: 5 kg", rests=HOUR)) == [
        "3:1: warning: 100 % of the mash has no husk; without 0.25-0.5 kg of hulls the run-off may stick"
    ]


def test_rye_and_oats_speak_earlier(found: Found) -> None:
    fine = recipe("grain: pale malt, weight: 3.8 kg", "grain: rye malt, weight: 1.2 kg", rests=HOUR)
    assert found("run_off", fine) == []
    some = recipe("grain: pale malt, weight: 3 kg", "grain: rye malt, weight: 1 kg", "grain: flaked oats, weight: 1 kg")
    assert found("run_off", some) == [
        "3:1: note: 40 % of the mash is rye or oats; 0.1-0.2 kg of hulls could keep the run-off open"
    ]
    much = recipe("grain: pale malt, weight: 1.5 kg", "grain: rye malt, weight: 3.5 kg", rests=HOUR)
    assert found("run_off", much) == [
        "3:1: warning: 70 % of the mash has no husk; without 0.18-0.35 kg of hulls the run-off may stick"
    ]


def test_in_pounds(found: Found) -> None:
    assert found("run_off", recipe("grain: wheat malt, weight: 10 lb", rests="at: 150 °F, for: 60 min")) == [
        "3:1: warning: 100 % of the mash has no husk; without 0.5-1 lb of hulls the run-off may stick"
    ]


def test_a_bag_needs_none(found: Found) -> None:
    assert found("run_off", recipe("grain: wheat malt, weight: 5 kg", more="mash: {bag: true}")) == []


def test_a_small_mash_beside_extract_hangs_in_a_bag(found: Found) -> None:
    text = recipe(
        "extract: light dry malt extract, weight: 2 kg",
        "grain: wheat malt, weight: 500 g, add: steep",
        more="steep: {at: 67 °C, for: 45 min}",
    )
    assert found("run_off", text) == []


def test_silent_where_nothing_converts_anyhow(found: Found) -> None:
    assert found("run_off", recipe("grain: flaked oats, weight: 3 kg", rests=HOUR)) == []


def test_much_rye_that_is_not_malted_sets_the_bed(found: Found) -> None:
    rye = ("grain: flaked rye, weight: 3 kg", "grain: two-row pale malt, weight: 2 kg")
    sets = "60 % of the mash has no husk; without 0.15-0.3 kg of hulls the run-off may stick"
    assert found("run_off", recipe(*rye, rests=HOUR)) == [f"3:1: warning: {sets}"]
    keeps = "3:1: note: 60 % of the mash has no husk; 0.15-0.3 kg of hulls could keep the run-off open"
    assert found("run_off", recipe(*rye, rests=f"at: 45 °C, for: 20 min; {HOUR}")) == [keeps]
    assert found("run_off", recipe(*rye)) == [keeps]
    assert found("run_off", recipe(rye[0].replace("flaked rye", "rye malt"), rye[1], rests=HOUR)) == [keeps]
    assert found("run_off", recipe(*rye, more="mash: {bag: true, rests: [{at: 66 °C, for: 60 min}]}")) == []
    assert found("run_off", recipe(*rye, "grain: rice hulls, weight: 200 g", rests=HOUR)) == []


@pytest.mark.parametrize(("rye", "level"), [("2 kg", ["note"]), ("2.2 kg", ["warning"])])
def test_raw_rye_sets_the_bed_above_two_fifths(found: Found, rye: str, level: list[str]) -> None:
    grist = (f"grain: flaked rye, weight: {rye}", "grain: two-row pale malt, weight: 3 kg")
    assert [line.split(": ")[1] for line in found("run_off", recipe(*grist, rests=HOUR))] == level


def test_much_raw_wheat_sets_it_later(found: Found) -> None:
    wheat = ("grain: raw wheat, weight: 3.5 kg", "grain: two-row pale malt, weight: 1.5 kg")
    assert found("run_off", recipe(*wheat, rests=HOUR)) == [
        "3:1: warning: 70 % of the mash has no husk; without 0.18-0.35 kg of hulls the run-off may stick"
    ]


def test_a_third_without_husk_in_a_stiff_mash(found: Found) -> None:
    """Reported stuck: oats and wheat, a third of the mash, doughed in at a quart to the pound."""
    text = """\
recipe: T
batch: 5 gal
grist:
  - {grain: pale ale malt, weight: 7 lb}
  - {grain: flaked oats, weight: 2 lb}
  - {grain: wheat malt, weight: 2 lb}
mash: {thickness: 1 qt/lb, rests: [{at: 152 °F, for: 60 min}]}
"""
    assert found("run_off", text) == [
        "3:1: note: 36 % of the mash has no husk, and 1 qt/lb is a stiff mash; the run-off could stick"
    ]
    assert found("run_off", text.replace("1 qt/lb", "1.4 qt/lb")) == []
    assert found("run_off", text.replace("thickness: 1 qt/lb, ", "")) == []
