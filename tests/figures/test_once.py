"""What is computed once a brew: kept by name, Unknown without what was under way when it was raised."""

import gc

import pytest

from mashwright.brew.brew import Brew
from mashwright.brew.once import once
from mashwright.figures import ALL
from mashwright.figures.kettle.hops import hop_additions
from mashwright.figures.water.brewing_water import liquor, tap_water
from mashwright.recipe.stated import Unknown

TEXT = "recipe: Tried\nbatch: 20 l\ngrist: [{grain: pale ale malt, weight: 4.5 kg}]\n"


def brew(text: str = TEXT) -> Brew:
    return Brew.of(text)


def test_computed_once_a_brew() -> None:
    asked = []

    @once
    def name_of(brew: Brew) -> str:
        """A name."""
        asked.append(brew)
        return brew.recipe.name

    first, second = brew(), brew()
    assert [name_of(first), name_of(first), name_of(second)] == ["Tried"] * 3
    assert [one is first for one in asked] == [True, False]
    assert name_of.__doc__ == "A name."


def test_unknown_is_kept_without_its_frames() -> None:
    asked = []

    @once
    def never(brew: Brew) -> str:
        asked.append(brew)
        raise Unknown("the moon", ("hops",))

    tried = brew()
    for _ in range(2):
        with pytest.raises(Unknown) as raised:
            never(tried)
        assert (raised.value.missing, raised.value.path) == ("the moon", ("hops",))
    assert len(asked) == 1
    kept = [one for one in tried.computed.values() if isinstance(one, Unknown)]
    assert [one.__traceback__ for one in kept] == [None]


@pytest.mark.parametrize("function", [hop_additions, tap_water])
def test_what_cannot_be_had_holds_on_to_nothing(function: object) -> None:
    tried = brew()
    assert callable(function)
    with pytest.raises(Unknown):
        function(tried)
    assert [one.__traceback__ for one in tried.computed.values() if isinstance(one, Unknown)] != []
    assert all(one.__traceback__ is None for one in tried.computed.values() if isinstance(one, Unknown))


def test_a_brew_is_freed_without_the_collector() -> None:
    """All figures asked for, then what was computed let go: nothing is left that only the collector could free."""
    bad = TEXT + "mash: {water: 14 l, salts: {gypsum: a lot}}\n"
    for text in (TEXT, bad):
        tried = brew(text)
        gc.collect()
        gc.disable()
        try:
            for one in (*ALL, liquor):
                try:
                    one(tried)
                except Unknown:
                    continue
            tried.computed.clear()
            del tried, one
            assert gc.collect() == 0
        finally:
            gc.enable()
