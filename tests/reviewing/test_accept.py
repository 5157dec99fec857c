"""Accepted findings: with a reason, until a day, and told of where they accept nothing."""

# ruff: noqa: E501 -- a finding is asserted whole, on its line

from collections.abc import Callable

import pytest

from mashwright.reviewing.collection import Collection
from mashwright.reviewing.results import Acceptance

Make = Callable[..., Collection]
Tell = Callable[..., list[str]]

RECIPE = "recipe: Light\nbatch: 20 l\ngrist:\n  - {grain: pale ale malt, weight: 2 kg}\naccepted:\n"
TOLD = "a.yaml:4:6: error: light-grist: the grist weighs 2 kg; below 3 kg it is no grist"
UNUSED = "{0} finds nothing here now; delete this entry"


@pytest.fixture(autouse=True)
def rules(install: Callable[..., None], light_grist: str) -> None:
    quiet = '"""Is it quiet?"""\ndef check(brew, limits):\n    return ()\n'
    install(ours={"light_grist": light_grist + '\nALIASES = ("thin-grist",)\n', "quiet": quiet})


def test_an_accepted_finding_is_kept_with_its_reason_and_does_not_fail(collection: Make) -> None:
    made = collection({"a.yaml": RECIPE + "  - {rule: light-grist, reason: small beer, until: 2026-05-01}\n"})
    (reviewed,) = made.paths(("a.yaml",))
    (result,) = reviewed.results
    assert (result.rule, result.accepted) == ("light-grist", Acceptance("small beer", "2026-05-01"))
    assert not made.sum.failing
    assert made.sum.counts().errors == 0


@pytest.mark.parametrize(
    ("today", "told"),
    [
        ("2026-05-01", [f"{TOLD} (accepted)"]),
        (
            "2026-05-02",
            [
                TOLD,
                (
                    "a.yaml:6:52: warning: accepted: this entry for light-grist ended on 2026-05-01;"
                    " look again, then set a new date or delete the entry"
                ),
            ],
        ),
    ],
)
def test_an_acceptance_holds_up_to_its_day(today: str, told: list[str], collection: Make, lines: Tell) -> None:
    text = RECIPE + "  - {rule: light-grist, reason: small beer, until: 2026-05-01}\n"
    assert lines(collection({"a.yaml": text}, today=today).paths(("a.yaml",))) == told


@pytest.mark.parametrize(
    ("accepted", "told"),
    [
        ("{rule: thin-grist, reason: small beer}", [f"{TOLD} (accepted)"]),
        ("{rule: quiet, reason: x}", [TOLD, f"a.yaml:6:12: warning: accepted: {UNUSED.format('quiet')}"]),
        (
            "{rule: light-grits, reason: x}",
            [TOLD, "a.yaml:6:12: warning: accepted: no rule is called light-grits; did you mean light-grist?"],
        ),
        (
            "{rule: quantity, reason: x}",
            [
                TOLD,
                "a.yaml:6:12: warning: accepted: quantity says what cannot be read, and can be neither set nor accepted",
            ],
        ),
        (
            "{rule: light-grist}",
            [
                TOLD,
                (
                    "a.yaml:6:6: error: field: say why this finding is accepted,"
                    " such as reason: brewed twice with this share, it ran off well"
                ),
            ],
        ),
    ],
)
def test_what_can_be_accepted(accepted: str, told: list[str], collection: Make, lines: Tell) -> None:
    assert lines(collection({"a.yaml": f"{RECIPE}  - {accepted}\n"}).paths(("a.yaml",))) == told


def test_what_cannot_be_read_cannot_be_accepted_and_makes_no_acceptance_needless(collection: Make, lines: Tell) -> None:
    text = RECIPE.replace("2 kg", "2") + "  - {rule: light-grist, reason: x}\n  - {rule: field, reason: y}\n"
    assert lines(collection({"a.yaml": text}).paths(("a.yaml",))) == [
        'a.yaml:4:36: error: quantity: the weight "2" has no unit; write 2 kg or 2 lb',
        "a.yaml:7:12: warning: accepted: field says what cannot be read, and can be neither set nor accepted",
    ]


def test_a_brewhouse_accepts_for_the_recipes_of_a_glob(collection: Make, lines: Tell) -> None:
    house = 'brewhouse: Shed\naccepted:\n  - {rule: light-grist, in: "guests/**", reason: theirs, until: 2026-03-01}\n'
    files = {"club/brewhouse.yaml": house, "club/guests/a.yaml": RECIPE[:-10], "club/a.yaml": RECIPE[:-10]}
    assert lines(collection(files).paths((".",))) == [f"club/{TOLD}", f"club/guests/{TOLD} (accepted)"]
    ended = "this entry for light-grist ended on 2026-03-01; look again, then set a new date or delete the entry"
    assert lines(collection(files, today="2026-03-02").paths((".",))) == [
        f"club/{TOLD}",
        f"club/guests/{TOLD}",
        f"club/brewhouse.yaml:3:65: warning: accepted: {ended}",
    ]


def test_a_brewhouse_that_accepts_what_no_rule_finds(collection: Make, lines: Tell) -> None:
    house = "brewhouse: Shed\naccepted:\n  - {rule: light-grits, reason: x}\n  - {rule: unreadable, reason: x}\n"
    made = collection({"brewhouse.yaml": house})
    assert lines(made.paths(("brewhouse.yaml",))) == [
        "brewhouse.yaml:3:12: error: field: no rule is called light-grits; did you mean light-grist?",
        "brewhouse.yaml:4:12: error: field: unreadable says what cannot be read, and can be neither set nor accepted",
    ]
    assert made.wrong_houses


def test_what_a_brewhouse_accepts_in_vain_is_told_once_all_its_recipes_are_through(
    collection: Make, lines: Tell
) -> None:
    house = """\
brewhouse: Shed
accepted:
  - {rule: light-grist, in: "guests/**", reason: theirs}
  - {rule: thin-grist, in: "old/*.yaml", reason: small beers}
  - {rule: quiet, reason: we like it quiet}
"""
    files = {"brewhouse.yaml": house, "guests/a.yaml": RECIPE[:-10], "old/b.yaml": RECIPE[:-10].replace("2 kg", "4 kg")}
    guests = f"guests/{TOLD} (accepted)"
    unused = [
        f"brewhouse.yaml:4:12: warning: accepted: {UNUSED.format('light-grist').replace('here', 'in old/*.yaml')}",
        f"brewhouse.yaml:5:12: warning: accepted: {UNUSED.format('quiet')}",
    ]
    assert lines(collection(files).paths((".",))) == [guests, "old/b.yaml: nothing", *unused]
    assert lines(collection(files).paths(("guests",))) == [guests]
    assert lines(collection(files).paths(("guests/a.yaml", "old/b.yaml"))) == [guests, "old/b.yaml: nothing"]
    assert lines(collection(files, audit=True).paths((".",))) == [f"guests/{TOLD}", "old/b.yaml: nothing"]


def test_a_brewhouse_may_accept_for_a_recipe_that_cannot_be_read(collection: Make, lines: Tell) -> None:
    house = 'brewhouse: Shed\naccepted:\n  - {rule: light-grist, in: "guests/**", reason: theirs}\n'
    told = "the [ that starts here is not closed, or lacks a comma; add ] at its end"
    assert lines(collection({"brewhouse.yaml": house, "guests/a.yaml": "recipe: [\n"}).paths((".",))) == [
        f"guests/a.yaml:1:9: error: unreadable: {told}"
    ]


def test_a_brewhouse_must_say_why(collection: Make, lines: Tell) -> None:
    house = "brewhouse: Shed\naccepted:\n  - {rule: light-grist}\n"
    made = collection({"brewhouse.yaml": house, "a.yaml": RECIPE[:-10]})
    assert lines(made.paths((".",))) == [
        (
            "brewhouse.yaml:3:6: error: field: say why this finding is accepted,"
            " such as reason: brewed twice with this share, it ran off well"
        ),
        TOLD,
    ]
    assert made.wrong_houses


def test_an_acceptance_of_a_rule_that_crashed_is_not_called_needless(
    install: Callable[..., None], collection: Make, lines: Tell
) -> None:
    install(broken={"broken": '"""Is it broken?"""\ndef check(brew, limits):\n    raise RuntimeError("oh")\n'})
    house = "brewhouse: Shed\naccepted: [{rule: broken, reason: y}]\n"
    made = collection({"brewhouse.yaml": house, "a.yaml": RECIPE + "  - {rule: broken, reason: x}\n"})
    assert lines(made.paths((".",))) == [TOLD]
    assert [(one.rule, one.path) for one in made.faults] == [("broken", "a.yaml")]
