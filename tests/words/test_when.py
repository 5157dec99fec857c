"""When an addition goes in, by a brewer's own words."""

import pytest

from mashwright.words.when import When, when


def so(text: str) -> set[str]:
    return {field for field in When.__slots__ if field != "before" and getattr(when(text), field)}


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("", set()),
        ("10 min", {"boiled"}),
        ("last 10min", {"boiled"}),
        ("7.5 minutes before the end", {"boiled"}),
        ("min", {"boiled"}),
        ("boil, 10 min", {"in_kettle", "boiled"}),
        ("in the kettle, not boiled", {"in_kettle", "boiled"}),
        ("un-boiled", set()),
        ("after the boil", set()),
        ("off the boil", set()),
        ("flameout", set()),
        ("whirlpool, 20 min", set()),
        ("before the boil", {"in_water", "in_kettle", "boiled"}),
        ("strike water", {"in_water", "in_mash"}),
        ("with the sparge", {"in_water"}),
        ("mash in at 52 °C", {"in_water", "in_mash"}),
        ("when the mash is cooled to 60 °C", {"in_water", "in_mash"}),
        ("after the mash", set()),
        ("in water at bottling", {"packaged", "closed"}),
        ("secondary", {"in_fermenter"}),
        ("at bottling", {"packaged", "closed"}),
        ("before bottling", {"packaged"}),
        ("three days before bottling", {"packaged"} - {"packaged"}),
        ("not before bottling", {"packaged"}),
        ("no earlier than bottling", {"packaged", "closed"}),
        ("never boiled", set()),
        ("bottle conditioning", {"packaged", "closed"}),
        ("as soon as you can", set()),
        ("into a sealed jar", {"closed"}),
    ],
)
def test_what_the_words_say(text: str, said: set[str]) -> None:
    assert so(text) == said
