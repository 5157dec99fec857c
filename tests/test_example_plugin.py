"""The example of a club's own rule: what DEVELOPERS.md tells, and that it comes in by the same door as ours."""

import sys
from pathlib import Path
from types import ModuleType

import pytest

import mashwright
from mashwright.reviewing import plugins
from mashwright.reviewing.entries import Entry

PLUGIN = Path(__file__).parent / "example-plugin"


@pytest.fixture
def stated_yeast(monkeypatch: pytest.MonkeyPatch) -> ModuleType:
    monkeypatch.syspath_prepend(str(PLUGIN))
    from club_rules import stated_yeast

    return stated_yeast


def test_its_examples_are_what_they_say(stated_yeast: ModuleType) -> None:
    faulty = stated_yeast.FAULTY
    assert mashwright.try_rule(stated_yeast, stated_yeast.SOUND) == []
    assert mashwright.try_rule(stated_yeast, faulty.recipe) == [
        f"{faulty.line}:{faulty.column}: {faulty.level}: {faulty.message}"
    ]


def test_its_setting_is_the_clubs(stated_yeast: ModuleType) -> None:
    assert mashwright.try_rule(
        stated_yeast, stated_yeast.SOUND, brewhouse="rules: {stated-yeast: {least: 1 g/l}}\n"
    ) == ["5:35: note: 11 g of English ale is less than the circle pitches, 20 g for this batch"]


def test_a_setting_that_it_does_not_have_is_refused(stated_yeast: ModuleType) -> None:
    with pytest.raises(ValueError, match=r"stated-yeast has no setting lest; did you mean least\?"):
        mashwright.try_rule(stated_yeast, stated_yeast.SOUND, brewhouse="rules: {stated-yeast: {lest: 1 g/l}}\n")


def test_it_runs_beside_the_built_in_rules(stated_yeast: ModuleType, monkeypatch: pytest.MonkeyPatch) -> None:
    real = plugins.entries

    def with_the_clubs(group: str) -> list[Entry]:
        return [*real(group), Entry("club", "club_rules", "club_rules")]

    monkeypatch.setattr(plugins, "entries", with_the_clubs)
    plugins.installed.cache_clear()
    try:
        found = mashwright.review_text(stated_yeast.FAULTY.recipe).recipes[0].results
        assert [(one.rule, one.message) for one in found if one.rule == "stated-yeast"] == [
            ("stated-yeast", stated_yeast.FAULTY.message)
        ]
    finally:
        plugins.installed.cache_clear()
        sys.modules.pop("club_rules", None)
