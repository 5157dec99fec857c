"""The sample collection: its whole review against a golden file, and what it promises to be.

The golden files are renewed by running these tests with RENEW_GOLDEN=1. That run still fails where anything
changed, and shows the change: read it as a brewer would, then run the tests again.
"""

import difflib
import glob
import json
import os
from collections.abc import Callable
from typing import Any, NamedTuple

import pytest

import mashwright
from mashwright.cli.command import run
from mashwright.finding import Level
from mashwright.reviewing.results import Result

HERE = os.path.dirname(__file__)
TOP = os.path.dirname(HERE)
GOLDEN = os.path.join(HERE, "golden")
TODAY = "2026-06-01"
FOLDER = "sample-recipes"

PATHS = sorted(
    os.path.relpath(path, TOP).replace(os.sep, "/")
    for path in glob.glob(os.path.join(TOP, FOLDER, "**", "*.yaml"), recursive=True)
    if os.path.basename(path) != "brewhouse.yaml"
)

FAULTY: dict[str, list[tuple[str, str]]] = {
    "guests/dry-dock-pale.yaml": [("error", "final-gravity")],
    "guests/drowned-church.yaml": [("warning", "unknown-ingredient"), ("warning", "accepted")],
    "guests/maize-fair.yaml": [("error", "cereal-mash")],
    "guests/paddy-steamer.yaml": [("warning", "enzyme-sufficiency")],
    "guests/second-mooring.yaml": [("warning", "efficiency")],
    "guests/spring-tide.yaml": [("error", "yeast-tolerance")],
    "guests/thick-fog.yaml": [("warning", "run-off")],
    "guests/winter-lighthouse.yaml": [("error", "original-gravity")],
    "lessons/barrowload.yaml": [("error", "unit-slip")],
    "lessons/borrowed-from-abroad.yaml": [("error", "quantity")],
    "lessons/hot-tun.yaml": [("warning", "saccharification-rest")],
    "lessons/oats-in-the-pot.yaml": [("warning", "starch-in-steep")],
    "lessons/out-of-breath.yaml": [("warning", "aeration")],
    "lessons/poured-twice.yaml": [("error", "wort-balance")],
    "lessons/short-lunch.yaml": [("warning", "conversion-time")],
    "lessons/sour-too-late.yaml": [("warning", "souring")],
    "lessons/sums-on-a-beermat.yaml": [("error", "alcohol")],
    "lessons/tin-from-the-cupboard.yaml": [("error", "bitterness")],
    "lessons/toffee-apple.yaml": [("error", "no-base-malt")],
    "lessons/two-ways-home.yaml": [("warning", "carbonation")],
    "lessons/typed-on-the-ferry.yaml": [("error", "quantity"), ("error", "field")],
    "notebook/evening-class-1986.yaml": [
        ("warning", "additions"),
        ("warning", "allergen-claim"),
        ("error", "unfinished-beer"),
        ("warning", "original-gravity"),
    ],
    "notebook/harvest-table-beer.yaml": [("error", "quantity")],
    "notebook/keeping-porter-1853.yaml": [("warning", "enzyme-sufficiency"), ("warning", "additions")],
}
"""What is found above a note, in the order of the text; all other samples are sound."""

READING_RULES = ("unreadable", "field", "quantity")

DUE = (
    "grist-weight",
    "mash-weight",
    "grist-diastatic-power",
    "starch-released",
    "conversion",
    "conversion-time",
    "adjunct-share",
    "huskless-share",
    "caramel-share",
    "roast-share",
    "acidulated-share",
    "sugar-share",
    "potential-extract",
    "highest-og",
    "og",
    "wort-limit",
    "efficiency-needed",
    "apparent-attenuation",
    "real-attenuation",
    "fg",
    "abv",
)
"""Figures of enzymes, gravity and strength, by their public names."""

OF_A_MASH = {"mash-weight", "grist-diastatic-power", "starch-released", "conversion", "conversion-time"}
OF_THE_GRAVITY = {"highest-og", "og", "efficiency-needed", "apparent-attenuation", "real-attenuation", "fg", "abv"}
OF_THE_RESTS = {
    "starch-released",
    "conversion",
    "conversion-time",
    "apparent-attenuation",
    "real-attenuation",
    "fg",
    "abv",
}

WITHOUT: dict[str, set[str]] = {
    "guests/galley-amber.yaml": OF_A_MASH | {"efficiency-needed"},
    "lessons/barrowload.yaml": set(DUE),
    "lessons/borrowed-from-abroad.yaml": OF_THE_RESTS,
    "lessons/oats-in-the-pot.yaml": OF_A_MASH | {"efficiency-needed"},
    "lessons/tin-from-the-cupboard.yaml": OF_A_MASH | {"efficiency-needed"},
    "lessons/toffee-apple.yaml": {
        "starch-released",
        "conversion",
        "conversion-time",
        "wort-limit",
        "efficiency-needed",
    },
    "lessons/typed-on-the-ferry.yaml": set(DUE),
    "notebook/harvest-table-beer.yaml": OF_THE_GRAVITY,
}
"""Figures that cannot be had: nothing converts, no OG stated, a line unreadable or past belief, a malt unknown."""

WITH_MASH_WATER = {
    *(f"guests/{name}.yaml" for name in ("bell-tower-tripel", "boardwalk-lager", "cousins-rye", "dry-dock-pale")),
    *(f"guests/{name}.yaml" for name in ("glasswort-rice-lager", "hayrick-saison", "maize-fair", "old-groyne")),
    *(f"guests/{name}.yaml" for name in ("orange-buoy-wit", "paddy-steamer", "second-mooring", "small-kitchen-brown")),
    *("guests/spring-tide.yaml", "guests/thick-fog.yaml", "notebook/lager-in-reaumur.yaml"),
    *("notebook/club-lager-1934.yaml", "notebook/evening-class-1986.yaml"),
    *(f"house/{name}.yaml" for name in ("anchor-and-buoy", "ferry-bitter", "harbour-wheat", "lantern-porter")),
    *("house/lock-keepers-mild.yaml", "house/double-lamp.yaml", "notebook/three-mashes-1797.yaml"),
    *(f"house/{name}.yaml" for name in ("mudflat-dunkel", "rookery-oatmeal-stout", "samphire-pale", "slack-water")),
    "house/sea-wall-bitter.yaml",
    *("house/weir-weizen.yaml", "lessons/hot-tun.yaml", "lessons/poured-twice.yaml", "lessons/toffee-apple.yaml"),
}
"""Samples that say how much water the mash takes, without which there is no wort-limit."""


class Said(NamedTuple):
    status: int
    out: str
    err: str


@pytest.fixture
def command(capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch) -> Callable[..., Said]:
    """Runs the command in this process from the top of the repository."""
    monkeypatch.chdir(TOP)

    def call(*arguments: str) -> Said:
        status = run(list(arguments))
        out, err = capsys.readouterr()
        return Said(status, out, err)

    return call


@pytest.fixture
def results(monkeypatch: pytest.MonkeyPatch) -> dict[str, tuple[Result, ...]]:
    """What is found in each sample, by its path below the folder."""
    monkeypatch.chdir(TOP)
    reviewed = mashwright.review([FOLDER], today=TODAY)
    assert reviewed.faults == ()
    return {recipe.path.removeprefix(f"{FOLDER}/"): recipe.results for recipe in reviewed.recipes}


@pytest.mark.parametrize(
    ("golden", "arguments"),
    [("sample-review.txt", (FOLDER,)), ("notebook-audit.txt", ("--audit", f"{FOLDER}/notebook"))],
)
def test_whole_review_is_as_printed(golden: str, arguments: tuple[str, ...], command: Callable[..., Said]) -> None:
    said = command("review", *arguments, "--today", TODAY)
    printed = f"{said.out}{said.err}exit status {said.status}\n"
    assert said.status == 1
    path = os.path.join(GOLDEN, golden)
    old = ""
    if os.path.exists(path):
        with open(path, encoding="utf-8") as file:
            old = file.read()
    if printed == old:
        return
    changes = "".join(difflib.unified_diff(old.splitlines(True), printed.splitlines(True), "golden", "printed"))
    if os.environ.get("RENEW_GOLDEN"):
        with open(path, "w", encoding="utf-8", newline="\n") as file:
            file.write(printed)
        pytest.fail(f"the golden file is renewed; read what changed, then run again:\n{changes}")
    pytest.fail(f"the review has changed (RENEW_GOLDEN=1 renews the golden file):\n{changes}")


def test_closing_line_counts_what_was_found(
    command: Callable[..., Said], results: dict[str, tuple[Result, ...]]
) -> None:
    standing = [result for found in results.values() for result in found if result.accepted is None]
    errors, warnings, notes = (sum(one.level is level for one in standing) for level in sorted(Level, reverse=True))
    assert command("review", FOLDER, "--today", TODAY).err == (
        f"{len(PATHS)} recipes reviewed: {errors} errors, {warnings} warnings;"
        f" {notes} notes (--notes shows them); 27 rules could not judge 4 recipes (--notes shows why); 1 accepted\n"
    )


def test_collection_is_large_and_mostly_sound(results: dict[str, tuple[Result, ...]]) -> None:
    assert [f"{FOLDER}/{path}" for path in sorted(results)] == PATHS
    assert len(results) >= 16
    sound = [path for path, found in results.items() if not _above_a_note(found)]
    assert len(sound) >= len(results) / 2
    assert {path.split("/")[0] for path in results} == {"house", "guests", "notebook", "lessons"}


def test_each_fault_is_found_and_no_other(results: dict[str, tuple[Result, ...]]) -> None:
    found = {path: _above_a_note(found) for path, found in results.items()}
    assert {path: faults for path, faults in found.items() if faults} == FAULTY


def test_house_beers_are_sound(results: dict[str, tuple[Result, ...]]) -> None:
    house = {path: _above_a_note(found) for path, found in results.items() if path.startswith("house/")}
    assert len(house) >= 8
    assert all(not found for found in house.values()), house


def test_only_meant_slips_are_unreadable(results: dict[str, tuple[Result, ...]]) -> None:
    slips = {
        path: [(one.rule, one.place.line, one.place.column) for one in found if one.rule in READING_RULES]
        for path, found in results.items()
    }
    assert {path: found for path, found in slips.items() if found} == {
        "lessons/borrowed-from-abroad.yaml": [("quantity", 10, 12)],
        "lessons/typed-on-the-ferry.yaml": [("quantity", 7, 13), ("field", 9, 5)],
        "notebook/evening-class-1986.yaml": [("quantity", 27, 76)],
        "notebook/harvest-table-beer.yaml": [("quantity", 3, 8)],
    }


def test_one_finding_is_accepted_with_its_reason(results: dict[str, tuple[Result, ...]]) -> None:
    accepted = [(path, one.rule, one.accepted) for path, found in results.items() for one in found if one.accepted]
    assert [(path, rule) for path, rule, _ in accepted] == [("guests/cousins-rye.yaml", "run-off")]
    assert accepted[0][2] is not None
    assert accepted[0][2].until == "2027-01-31"


def test_acceptance_ends(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(TOP)
    path = f"{FOLDER}/guests/cousins-rye.yaml"
    (recipe,) = mashwright.review([path], today="2027-02-01").recipes
    rules = [result.rule for result in recipe.results if result.accepted is None]
    assert "run-off" in rules
    assert "accepted" in rules


@pytest.mark.parametrize("path", PATHS)
def test_every_figure_that_has_its_data(path: str, command: Callable[..., Said]) -> None:
    inside = path.removeprefix(f"{FOLDER}/")
    said = command("figures", path, "--format", "json")
    unreadable = any(rule in READING_RULES for _, rule in FAULTY.get(inside, []))
    assert said.status == (1 if unreadable else 0)
    document = json.loads(said.out)
    parts = (document, *document.get("worts", ()))  # the mash, and each wort where it gives several
    figures: dict[str, dict[str, Any]] = {row["id"]: row for part in parts for row in part["figures"]}
    missing = {figure_id for figure_id in DUE if figures[figure_id]["missing"]}
    expected = WITHOUT.get(inside, set()) | (set() if inside in WITH_MASH_WATER else {"wort-limit"})
    assert missing == expected
    for figure_id in set(DUE) - missing:
        row = figures[figure_id]
        assert row["low"] <= row["typical"] <= row["high"]
        assert row["working"]
        assert row["unit"]


@pytest.mark.parametrize(
    ("path", "figure_id", "typical"),
    [
        # malt of lot PM-0388: 112 °Lintner on 4.9 of 5.5 kg, Vienna malt by the table, 75 °Lintner on 0.35 kg
        ("house/samphire-pale.yaml", "grist-diastatic-power", (4.9 * 112 + 0.35 * 75) / 5.5),
        # the malt in the cooker is boiled, so only the mash tun's 2.9 of 4.2 kg counts
        ("guests/glasswort-rice-lager.yaml", "grist-diastatic-power", 2.9 * 112 / 4.2),
        # seven quarters of 336 lb, three bushels of 42 lb and two hundredweights of 112 lb
        ("notebook/october-1884.yaml", "grist-weight", (7 * 336 + 3 * 42 + 2 * 112) * 0.45359237),
        # of six quarters of brown malt, two of pale malt and a bushel and a half of black malt only the pale converts
        ("notebook/keeping-porter-1853.yaml", "grist-diastatic-power", 100 * 2 * 336 / (8 * 336 + 1.5 * 42)),
        ("notebook/club-lager-1934.yaml", "adjunct-share", 100 * 40 / (1.5 * 112 + 40)),
        ("notebook/evening-class-1986.yaml", "grist-weight", (7 + 12 / 16 + 8 / 16) * 0.45359237),
        # from 1.044 to 1.010, and from 1.045 to 1.011
        ("house/ferry-bitter.yaml", "measured-attenuation", 100 * (34 / 44 + 34 / 45) / 2),
        # the rye that only the brewhouse describes
        ("guests/cousins-rye.yaml", "adjunct-share", 100 * 1.9 / 4.65),
        # extract alone enters no mash, and the dry extract's 2.5 kg, the steeped 0.4 kg are all
        ("guests/galley-amber.yaml", "grist-weight", 2.9),
    ],
)
def test_figures_reckoned_by_hand(path: str, figure_id: str, typical: float, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(TOP)
    with open(f"{FOLDER}/{path}", encoding="utf-8") as file:
        sheet = mashwright.figures_of(file.read(), f"{FOLDER}/{path}")
    assert {row.id: row.typical for row in sheet.rows}[figure_id] == pytest.approx(typical, rel=1e-3)


class Audit(NamedTuple):
    """What the figures tell of an old recipe.

    Attributes:
        readings: how its old measures were taken, by line.
        figures: some values that they reckon, each with how far it may be out.
        unsaid: figures that cannot be had, since the notebook does not say what they need.
    """

    readings: dict[int, str]
    figures: dict[str, tuple[float, float]]
    unsaid: set[str]


AUDITS = {
    "keeping-porter-1853": Audit(
        {
            6: '"24 barrels" is read as British barrels, 36 imperial gallons each: 3927.8 l',
            8: '"6 quarters" is read as British quarters of malt, 336 lb each (brown malt by measure was lighter, some 250 lb): 914.44 kg',  # noqa: E501
            9: '"2 quarters" is read as British quarters of malt, 336 lb each (brown malt by measure was lighter, some 250 lb): 304.81 kg',  # noqa: E501
            10: '"1.5 bushels" is read as British bushels of malt, 42 lb each (brown malt by measure was lighter, some 31 lb): 28.58 kg',  # noqa: E501
            19: '"25 lb/barrel" is read as brewer\'s pounds, above the 360 lb of a 36 gallon barrel of water: 1.069',
        },
        # 25 lb on 360 lb of water; no brewhouse of today gets it from the brown malt of today
        {"og": (1.064, 0.003), "efficiency-needed": (78, 3), "grist-diastatic-power": (24.4, 0.1)},
        {"wort-limit", "measured-efficiency", "measured-attenuation"},
    ),
    "club-lager-1934": Audit(
        {
            8: '"1.5 cwt" is read as British hundredweights, 112 lb each: 76.2 kg',
            13: '"30 °R" is read as degrees Réaumur, 80 from melting ice to the boil: 37.5 °C',
        },
        {"adjunct-share": (19.2, 0.1), "og": (1.044, 0.004), "fg": (1.011, 0.004)},
        {"measured-efficiency"},
    ),
    "evening-class-1986": Audit(
        {},
        # not the 1.045 of the handout, unless nothing at all is lost
        {"og": (1.037, 0.003), "highest-og": (1.050, 0.003), "abv": (4.0, 0.4)},
        {"measured-attenuation"},
    ),
}


@pytest.mark.parametrize("name", AUDITS)
def test_audit_of_an_old_recipe(name: str, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(TOP)
    path = f"{FOLDER}/notebook/{name}.yaml"
    audit = AUDITS[name]
    with open(path, encoding="utf-8") as file:
        sheet = mashwright.figures_of(file.read(), path)
    readings = dict(sheet.readings)
    assert {line: readings.get(line) for line in audit.readings} == audit.readings
    rows = {row.id: row for row in sheet.rows}
    for figure_id, (typical, slack) in audit.figures.items():
        assert rows[figure_id].typical == pytest.approx(typical, abs=slack), figure_id
        assert rows[figure_id].working
    assert {figure_id for figure_id in audit.unsaid if not rows[figure_id].missing} == set()


def _above_a_note(results: tuple[Result, ...]) -> list[tuple[str, str]]:
    """Level and rule of what nobody accepted, in the order of the text."""
    return [(one.level.word, one.rule) for one in results if one.accepted is None and one.level > Level.NOTE]
