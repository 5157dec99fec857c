"""Rules of anybody: what cannot be loaded is a fault in words, and never takes the others along."""

import importlib
import pkgutil
from collections.abc import Callable
from pathlib import Path

import pytest

import mashwright.figures
from mashwright.figures.function import FigureFunction
from mashwright.reviewing import plugins
from mashwright.reviewing.collection import rule_infos
from mashwright.reviewing.contract import NO_CHECK, NO_LIMITS
from mashwright.reviewing.entries import Entry
from mashwright.reviewing.plugins import ConfigurationError, installed
from mashwright.reviewing.results import Fault

Install = Callable[..., None]

QUIET = '"""Is it quiet?\n\nMore of it.\n"""\ndef check(brew, limits):\n    return ()\n'


def test_each_public_module_of_a_package_is_a_rule(install: Install) -> None:
    install(ours={"b_rule": QUIET, "a_rule": QUIET, "_helper": "raise ValueError\n"}, theirs={"c_rule": QUIET})
    found = installed()
    assert [(rule.id, rule.origin, rule.question) for rule in found.rules.values()] == [
        ("a-rule", "ours", "Is it quiet?"),
        ("b-rule", "ours", "Is it quiet?"),
        ("c-rule", "theirs", "Is it quiet?"),
    ]
    assert found.faults == ()


def test_old_names_are_aliases(install: Install) -> None:
    install(ours={"new_name": QUIET + 'ALIASES = ("old-name",)\n'})
    assert installed().aliases == {"old-name": "new-name"}


@pytest.mark.parametrize("name", ["field", "unreadable"])
def test_two_rules_of_one_name_are_told_with_who_brought_them(name: str, install: Install) -> None:
    install(ours={"same": QUIET}, theirs={"same": QUIET})
    with pytest.raises(ConfigurationError) as told:
        installed()
    assert str(told.value) == "two rules are called same, one of ours and one of theirs; uninstall one of the two"
    install(more={name: QUIET})
    plugins.installed.cache_clear()
    with pytest.raises(ConfigurationError, match="two rules are called"):
        installed()


def test_two_rules_of_one_name_in_one_distribution(install: Install, tmp_path: Path) -> None:
    install(ours={"same": QUIET})
    inner = tmp_path / "site" / "ours" / "water"
    inner.mkdir()
    (inner / "__init__.py").touch()
    (inner / "same.py").write_text(QUIET)
    with pytest.raises(ConfigurationError) as told:
        installed()
    assert str(told.value) == "two rules of ours are called same; one of the two must be renamed"


FIGURE = """
from mashwright.figures.figure import Figure
from mashwright.figures.function import figure
from mashwright.figures.grist import grist_weight

@figure("ID", unit="kg")
def weighed(brew):
    '''Weight as the club tells it.'''
    return grist_weight(brew)
"""


def of(figure_id: str) -> str:
    return QUIET + FIGURE.replace("ID", figure_id)


def test_a_figure_of_the_id_of_a_built_in_one_is_refused(install: Install) -> None:
    install(ours={"quiet": of("grist-weight")})
    with pytest.raises(ConfigurationError) as told:
        installed()
    assert str(told.value) == (
        "two figures are called grist-weight, one of mashwright and one of ours; uninstall one of the two"
    )


def test_two_figures_of_one_id_are_refused(install: Install) -> None:
    install(ours={"quiet": of("club-weight")}, theirs={"other": of("club-weight")})
    with pytest.raises(ConfigurationError) as told:
        installed()
    assert str(told.value) == (
        "two figures are called club-weight, one of ours and one of theirs; uninstall one of the two"
    )


def test_two_figures_of_one_distribution_are_refused_wherever_they_stand(install: Install) -> None:
    install(ours={"quiet": of("club-weight") + "import ours._mine\n", "_mine": of("club-weight")})
    with pytest.raises(ConfigurationError) as told:
        installed()
    assert str(told.value) == "two figures of ours are called club-weight; one of the two must be renamed"


def test_figures_that_several_rules_share_are_no_clash(install: Install) -> None:
    shared = 'from ours._mine import weighed\nfrom mashwright.figures.mash import og\n"""Is it?"""\n'
    rule = '"""Is it?"""\n' + shared + "def check(brew, limits):\n    return ()\n"
    install(ours={"one": rule, "other": rule, "_mine": of("club-weight")})
    assert list(installed().rules) == ["one", "other"]


def test_no_two_built_in_figures_have_one_id_and_all_are_listed() -> None:
    every = {
        value.id: value
        for info in pkgutil.walk_packages(mashwright.figures.__path__, "mashwright.figures.")
        for value in vars(importlib.import_module(info.name)).values()
        if isinstance(value, FigureFunction)
    }
    shown = {*mashwright.figures.ALL, *mashwright.figures.of_the_mash(), *mashwright.figures.of_a_wort()}
    assert [one.id for one in shown if every[one.id] is not one] == []
    assert sorted({*every} - {one.id for one in shown}) == [], "missing in figures.ALL"
    listed = [one.id for one in mashwright.figures.ALL]
    assert len(listed) == len({*listed}), "twice in figures.ALL"


def test_a_name_of_the_four_rules_of_reading_is_taken(install: Install) -> None:
    install(ours={"field": QUIET})
    with pytest.raises(ConfigurationError) as told:
        installed()
    assert str(told.value) == "two rules are called field, one of mashwright and one of ours; uninstall one of the two"


@pytest.mark.parametrize(
    ("source", "fault"),
    [
        ("1 / 0\n", "ours.broken of ours cannot be loaded: ZeroDivisionError: division by zero"),
        (
            "import not_there\n",
            "ours.broken of ours cannot be loaded: ModuleNotFoundError: No module named 'not_there'",
        ),
        ('"""Is it?"""\n', f"ours has {NO_CHECK}"),
        ('"""Is it?"""\ncheck = 5\n', f"ours has {NO_CHECK}"),
        (QUIET + "class Limits: pass\n", f"ours has {NO_LIMITS}"),
    ],
)
def test_a_rule_that_cannot_be_loaded(source: str, fault: str, install: Install) -> None:
    install(ours={"broken": source, "quiet": QUIET})
    found = installed()
    assert list(found.rules) == ["quiet"]
    assert found.faults == (Fault("broken", "", fault),)


def test_a_rule_that_would_end_the_program_on_loading(install: Install) -> None:
    install(ours={"broken": "raise SystemExit(0)\n", "quiet": QUIET})
    found = installed()
    assert list(found.rules) == ["quiet"]
    assert found.faults == (Fault("broken", "", "ours.broken of ours cannot be loaded: SystemExit: 0"),)


def test_a_package_that_cannot_be_loaded_or_is_none(install: Install, monkeypatch: pytest.MonkeyPatch) -> None:
    install(ours={"quiet": QUIET}, theirs={"__init__": "raise RuntimeError('no')\n"})
    packages = [Entry(name, name, name) for name in ("ours", "theirs", "ours.quiet", "no_such_package")]
    monkeypatch.setattr(plugins, "entries", lambda _: packages)
    found = installed()
    assert list(found.rules) == ["quiet"]
    assert [fault.message for fault in found.faults] == [
        "no_such_package of no_such_package cannot be loaded: ModuleNotFoundError: No module named 'no_such_package'",
        "ours.quiet names ours.quiet for rules, which is no package: make it a folder of rules",
        "theirs of theirs cannot be loaded: RuntimeError: no",
    ]


def test_what_a_rule_prints_on_loading_stays_off_standard_output(
    install: Install, capsys: pytest.CaptureFixture[str]
) -> None:
    install(ours={"loud": QUIET + "print('hello')\n"})
    assert list(installed().rules) == ["loud"]
    assert capsys.readouterr().out == ""


def test_every_rule_has_a_page_the_four_of_reading_among_them(install: Install) -> None:
    install(ours={"quiet": QUIET})
    infos = rule_infos()
    assert [info.id for info in infos] == ["accepted", "field", "quantity", "quiet", "unreadable"]
    assert all(info.question.endswith("?") and info.page.startswith(info.question) for info in infos)
    assert infos[3].page == "Is it quiet?\n\nMore of it."
