"""Names that come near a misspelt one."""

from mashwright.words.nearest import close, nearest


def test_the_nearest_comes_first() -> None:
    assert [one for _, one in close("saison", ["season", "saisonal", "lager"], 0.5)] == ["saisonal", "season"]
    assert nearest("saison", ["season", "lager"], 0.5) == "season"


def test_nothing_is_near_to_a_very_long_name() -> None:
    assert close("a" * 61, ["a" * 60], 0.1) == []
    assert nearest("pale malt", ["a" * 61], 0.0) is None
