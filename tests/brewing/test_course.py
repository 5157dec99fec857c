"""The mash minute by minute: it ends where the figures say, and goes on as a mash does."""

from itertools import pairwise
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from mashwright.brew import Brew
from mashwright.brewing.mash import GELATINISATION_C, Rest, Starch, course, mash
from mashwright.figures.mash import follow, mash_course
from mashwright.recipe.stated import Unknown

SAMPLES = Path(__file__).parents[2] / "sample-recipes"
HOUSE = (SAMPLES / "brewhouse.yaml").read_text(encoding="utf-8")
TWELVE = {"rel": 1e-12, "abs": 1e-12}

starch_lists = st.lists(
    st.builds(Starch, st.sampled_from(sorted(GELATINISATION_C)), st.floats(0.01, 10), st.booleans(), st.integers(0, 2)),
    min_size=1,
    max_size=3,
)
rest_lists = st.lists(
    st.builds(Rest, st.floats(35, 82), st.floats(0, 120), st.one_of(st.none(), st.floats(35, 82))),
    min_size=1,
    max_size=4,
)


@pytest.mark.parametrize("path", sorted(SAMPLES.glob("*/*.yaml")), ids=lambda path: path.stem)
def test_the_course_of_a_sample_ends_where_its_figures_say(path: Path) -> None:
    brew = Brew.of(path.read_text(encoding="utf-8"), HOUSE)
    try:
        figures = follow(brew).typical
    except Unknown:
        with pytest.raises(Unknown):
            mash_course(brew)
        return
    last = mash_course(brew)[-1]
    assert last.released == pytest.approx(figures.released, **TWELVE)
    assert last.converted == pytest.approx(figures.converted, **TWELVE)
    assert last.enzyme_left == pytest.approx(100 * figures.rests[-1].enzyme_left, **TWELVE)


@given(starch_lists, rest_lists, st.floats(0, 150))
def test_any_course_ends_where_the_mash_ends_and_never_runs_backwards(
    starches: list[Starch], rests: list[Rest], power: float
) -> None:
    told, whole = course(starches, rests, power), mash(starches, rests, power)
    assert told[-1].released == pytest.approx(whole.released, rel=1e-9, abs=1e-9)
    assert told[-1].converted == pytest.approx(whole.converted, rel=1e-9, abs=1e-9)
    for before, after in pairwise(told):
        assert after.minute >= before.minute
        assert after.released >= before.released - 1e-9
        assert after.converted >= before.converted - 1e-9
        assert after.enzyme_left <= before.enzyme_left + 1e-9
        assert after.converted <= after.released + 1e-9


def test_each_minute_is_told_and_each_rest_begins_and_ends() -> None:
    told = course([Starch("barley", 1)], [Rest(52, 10), Rest(66, 60.5), Rest(66, 10, 76)], 80)
    minutes = [one.minute for one in told]
    assert minutes[0] == 0
    assert minutes[-1] == pytest.approx(80.5)
    assert max(after - before for before, after in pairwise(minutes)) <= 1.2
    assert [one.at_c for one in told if one.minute == 10] == [52, 66]
    assert told[-1].at_c == 76
