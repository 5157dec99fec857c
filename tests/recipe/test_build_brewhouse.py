"""A parsed brewhouse becomes typed values."""

from collections.abc import Callable

import pytest

from mashwright.reading.document import read_document
from mashwright.recipe.brewhouse import Brewhouse
from mashwright.recipe.build_brewhouse import build_brewhouse
from mashwright.recipe.stated import Text, Unreadable

Held = Callable[[object], dict[str, str]]

WHOLE = """\
name: Saltmarsh Lane, 30-litre kit
efficiency: 72 share
mash_tun.volume: 30 volume
mash_tun.dead_space: 1 volume
mash_tun.heat: 2 volume
kettle.volume: 35 volume
kettle.loss: 1 volume
kettle.boil_off: 4 rate
fermenter.volume: 30 volume
fermenter.loss: 1 volume
absorption: 1 absorption
altitude: 120 altitude
water.calcium: 60 concentration
water.alkalinity: 110 alkalinity
lots.CM-0419.of: caramel malt 40
lots.CM-0419.colour: 41 malt colour
lots.CM-0419.moisture: 4.6 share
lots.CM-0419.analysed: 2026-09-02
lots.PM-0388.of: two-row pale malt
lots.PM-0388.moisture: 4.1 share
lots.PM-0388.extract_fine_dry: 80.9 extract
lots.PM-0388.diastatic_power: 112 diastatic power
ingredients.heritage rye.name: heritage rye
ingredients.heritage rye.kind: raw grain
ingredients.heritage rye.cereal: rye
ingredients.heritage rye.colour: 2 malt colour
ingredients.heritage rye.extract: 68 extract
rules.enzyme-sufficiency.floor: 35 °Lintner
rules.usual-share: off
rules.style-range.level: note
stop_at: error
recipes.0: house/**/*.yaml
recipes.1: guests/**/*.yaml
accepted.0.rule: hop-rate
accepted.0.reason: guests hop as they like
accepted.0.where: guests/**
"""


def test_the_example_of_the_format_whole(saltmarsh_lane: str, held_by: Held) -> None:
    brewhouse, problems = build_brewhouse(read_document(saltmarsh_lane))
    assert problems == ()
    assert [f"{name}: {value}" for name, value in held_by(brewhouse).items()] == WHOLE.splitlines()


def test_a_brewhouse_that_says_nothing() -> None:
    assert build_brewhouse(read_document("brewhouse: Shed\n"))[0] == Brewhouse(name=Text("Shed", ("brewhouse",)))
    assert build_brewhouse(read_document(""))[0] == Brewhouse()


def test_what_cannot_be_read_is_listed_at_its_place() -> None:
    text = "efficiency: 7,2 %\nkettle: {volume: 35 litre, boil-off: 4 l}\nlots:\n  A: {of: x, moisture: dry}\n  B: 5\n"
    document = read_document(text)
    brewhouse, problems = build_brewhouse(document)
    unreadable = (brewhouse.efficiency, brewhouse.kettle.boil_off, brewhouse.lots["A"].moisture)
    assert [one.path for one in unreadable if isinstance(one, Unreadable)] == [
        ("efficiency",),
        ("kettle", "boil-off"),
        ("lots", "A", "moisture"),
    ]
    assert "B" not in brewhouse.lots
    told = [(*document.place(problem.span)[:2], problem.message) for problem in problems]
    assert told == [
        (1, 13, 'the efficiency "7,2 %" has a decimal comma; write 7.2 %'),
        (2, 38, 'the boil off "4 l" is a volume in l; write it in l/h or gal/h'),
        (4, 24, 'the moisture "dry" is not a number and a unit; write for instance 70 %'),
    ]


@pytest.mark.parametrize(
    ("stated", "message"),
    [
        ("-900 m", "nobody brews at -900 m; give an altitude of -430 to 6000 m above the sea"),
        ("12000 m", "nobody brews at 12000 m; give an altitude of -430 to 6000 m above the sea"),
        ("20000 ft", "nobody brews at 20000 ft; give an altitude of -1411 to 19685 ft above the sea"),
    ],
)
def test_an_altitude_at_which_nobody_brews(stated: str, message: str) -> None:
    brewhouse, problems = build_brewhouse(read_document(f"altitude: {stated}\n"))
    assert isinstance(brewhouse.altitude, Unreadable)
    assert [problem.message for problem in problems] == [message]


@pytest.mark.parametrize("stated", ["-420 m", "0 m", "120 m", "16000 ft"])
def test_an_altitude_at_which_people_brew(stated: str) -> None:
    brewhouse, problems = build_brewhouse(read_document(f"altitude: {stated}\n"))
    assert brewhouse.altitude.known
    assert problems == ()
