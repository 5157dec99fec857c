from collections.abc import Callable

import pytest

Found = Callable[..., list[str]]


def recipe(sparge: str, rest: str = "66 °C") -> str:
    """A short recipe whose sparge stands on line 5."""
    grist = "grist: [{grain: pale ale malt, weight: 4.5 kg}]"
    mash = f"mash: {{water: 14 l, rests: [{{at: {rest}, for: 60 min}}]}}"
    return f"recipe: Tried\nbatch: 20 l\n{grist}\n{mash}\nsparge: {{{sparge}}}\n"


@pytest.mark.parametrize(
    "sparge",
    [
        "by: batch, water: 16 l, at: 76 °C",
        "by: batch, water: 16 l, at: 82 °C",
        "by: fly, water: 18 l, at: 78 °C",
        "by: none, at: 95 °C",
        "by: batch, water: 16 l",
        "by: batch, water: 16 l, at: 170 °C",
        "by: batch, water: 16 l, ph: 5.8",
    ],
)
def test_a_bed_that_stays_below(found: Found, sparge: str) -> None:
    assert found("sparge", recipe(sparge)) == []


def test_batches_by_the_heat_of_the_bed(found: Found) -> None:
    assert found("sparge", recipe("by: batch, water: 16 l, at: 92 °C")) == [
        "5:38: warning: sparge water of 92 °C brings the grain bed to about 84.4 °C; above 78 °C it draws out tannin"
    ]


def test_fly_by_what_the_bed_comes_near_to(found: Found) -> None:
    assert found("sparge", recipe("by: fly, water: 18 l, at: 80 °C")) == [
        "5:36: note: sparge water of 80 °C may bring the grain bed to about 80 °C; above 78 °C it draws out tannin"
    ]
    assert found("sparge", recipe("by: fly, water: 18 l, at: 90 °C")) == [
        "5:36: warning: sparge water of 90 °C brings the grain bed to about 82.3 °C; above 78 °C it draws out tannin"
    ]


def test_a_mash_that_is_too_hot_itself_is_another_question(found: Found) -> None:
    assert found("sparge", recipe("by: batch, water: 16 l, at: 82 °C", "80 °C")) == []


def test_in_fahrenheit(found: Found) -> None:
    text = """\
recipe: Tried
batch: 5 gal
grist: [{grain: pale ale malt, weight: 10 lb}]
mash: {water: 4 gal, rests: [{at: 152 °F, for: 1 h}]}
sparge: {by: fly, water: 5 gal, at: 195 °F}
"""
    assert found("sparge", text) == [
        "5:37: warning: sparge water of 195 °F brings the grain bed to about 181 °F; above 172 °F it draws out tannin"
    ]


@pytest.mark.parametrize(("alkalinity", "level"), [("110", "note"), ("300", "warning")])
def test_alkaline_water(found: Found, alkalinity: str, level: str) -> None:
    text = recipe("by: batch, water: 16 l, ph: 7.5") + f"water: {{alkalinity: {alkalinity} mg/l}}\n"
    assert found("sparge", text) == [
        (
            f"5:38: {level}: sparge water of pH 7.5 with {alkalinity} mg/l of alkalinity draws tannin from the husks;"
            " bring it below pH 6 with acid"
        )
    ]


@pytest.mark.parametrize("water", ["", "water: {alkalinity: 8 mg/l}\n", "water: {calcium: 60 mg/l}\n"])
def test_ph_alone_says_nothing(found: Found, water: str) -> None:
    assert found("sparge", recipe("by: batch, water: 16 l, ph: 7") + water) == []


def test_a_turbid_mash_is_sparged_hot_by_custom(found: Found) -> None:
    hot = recipe("by: batch, water: 16 l, at: 92 °C")
    assert found("sparge", hot + "style: lambic\n") == []
    assert found("sparge", hot + "style: no lambic\n") != []


@pytest.mark.parametrize(
    ("at", "finding"),
    [
        ("82 °C", []),
        ("84 °C", ["note: sparge water of 84 °C brings the grain bed to about 78.8 °C"]),
        ("88 °C", ["warning: sparge water of 88 °C brings the grain bed to about 81.6 °C"]),
    ],
)
def test_a_little_too_hot_is_a_note(found: Found, at: str, finding: list[str]) -> None:
    assert found("sparge", recipe(f"by: batch, water: 16 l, at: {at}")) == [
        f"5:38: {one}; above 78 °C it draws out tannin" for one in finding
    ]


def test_next_to_the_limit_in_the_recipes_own_unit(found: Found) -> None:
    text = recipe("by: batch, water: 4 gal, at: 181.8 °F").replace("20 l", "5 gal").replace("14 l", "3.5 gal")
    assert found("sparge", text.replace("66 °C", "151 °F")) == [
        "5:39: note: sparge water of 181.8 °F brings the grain bed to about 172.5 °F; above 172 °F it draws out tannin"
    ]
