"""Many recipes in step: the same as one after the other, each with its own time."""

import importlib.util
from collections.abc import Callable, Generator
from pathlib import Path

import pytest

from mashwright.reviewing import outcomes as room
from mashwright.reviewing import pipe
from mashwright.reviewing.collection import Collection
from mashwright.reviewing.files import Loaded
from mashwright.reviewing.in_step import finished, in_step
from mashwright.reviewing.judge import Judged
from mashwright.reviewing.place import Placed
from mashwright.reviewing.read import Read
from mashwright.reviewing.results import Reviewed
from mashwright.reviewing.watch import Watch

Make = Callable[..., Collection]

RECIPES = Path(__file__).parent.parent / "benchmarks" / "recipes.py"


def counting(name: str, stops: int, order: list[str]) -> Generator[None, None, str]:
    for stop in range(stops):
        order.append(f"{name}{stop}")
        yield
    return name


def test_each_goes_to_its_next_stop_in_turn_and_comes_out_in_its_order() -> None:
    order: list[str] = []
    works = [counting(name, stops, order) for name, stops in (("a", 1), ("b", 3), ("c", 0), ("d", 2))]
    assert in_step(works, Watch(strangers=False)) == ["a", "b", "c", "d"]
    assert order == ["a0", "b0", "d0", "b1", "d1", "b2"]


def test_one_alone_goes_to_its_end() -> None:
    order: list[str] = []
    assert finished(counting("a", 3, order)) == "a"
    assert order == ["a0", "a1", "a2"]


def test_each_has_its_own_time() -> None:
    watch = Watch(strangers=False, seconds=1)

    def slow(ticks: int) -> Generator[None, None, bool]:
        watch.begin()
        late = False
        for _ in range(ticks):
            watch.at = "rule"
            late = watch.late()
            watch.at = ""
            yield
        watch.rest()
        return late

    assert in_step([slow(ticks) for ticks in (10, 10, 11, 3)], watch) == [False, False, True, False]
    assert watch.at is None


def test_what_ends_the_run_ends_it() -> None:
    def ended() -> Generator[None, None, str]:
        yield
        raise KeyboardInterrupt

    with pytest.raises(KeyboardInterrupt):
        in_step([ended(), counting("a", 5, [])], Watch(strangers=False))


@pytest.fixture
def many(collection: Make) -> Collection:
    """Generated recipes, some with faults; one that is no recipe, one that is none to be read, a long one, and a
    brewhouse in the middle."""
    spec = importlib.util.spec_from_file_location("recipes", RECIPES)
    assert spec is not None
    assert spec.loader is not None
    made = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(made)
    files = {f"{number:02}.yaml": made.recipe(number) for number in range(45)}
    files["07.yaml"] = "recipe: [\n"
    files["08.yaml"] = "pets: [cat]\n"
    files["09.yaml"] += f"# {'long ' * 5000}\n"
    files["10a/brewhouse.yaml"] = "brewhouse: Shed\nefficiency: 65 %\nrules: {yeast-temperature: off}\n"
    files["10a/a.yaml"] = files["03.yaml"]
    return collection(files, collection=True)


def test_in_step_is_as_one_after_the_other(many: Collection, monkeypatch: pytest.MonkeyPatch) -> None:
    def reviewed() -> list[Reviewed]:
        return list(Collection(many.run).paths((".",)))

    in_twenties = reviewed()
    monkeypatch.setattr(room, "IN_STEP", 1)
    by_themselves = reviewed()
    assert in_twenties == by_themselves
    assert len(in_twenties) > 45
    assert sum(bool(one.remedies) for recipe in in_twenties for one in recipe.results) > 2


def test_a_fault_of_the_program_in_one_hides_none_of_the_others(
    many: Collection, monkeypatch: pytest.MonkeyPatch
) -> None:
    place = pipe.place

    def fail(judged: Judged, watch: Watch | None = None) -> Placed:
        if judged.read.path == "21.yaml":
            raise MemoryError
        return place(judged, watch)

    before = {one.path for one in many.paths((".",))}
    monkeypatch.setattr(pipe, "place", fail)
    made = Collection(many.run)
    assert before - {one.path for one in made.paths((".",))} == {"21.yaml"}
    assert [(one.rule, one.path) for one in made.faults] == [("", "21.yaml")]


def test_a_long_recipe_is_through_before_another_is_read(many: Collection, monkeypatch: pytest.MonkeyPatch) -> None:
    order: list[str] = []
    read, place = room.read, pipe.place

    def noted_read(text: str | Loaded, path: str) -> Read:
        order.append(f"read {path}")
        return read(text, path)

    def noted_place(judged: Judged, watch: Watch | None = None) -> Placed:
        order.append(f"place {judged.read.path}")
        return place(judged, watch)

    monkeypatch.setattr(room, "read", noted_read)
    monkeypatch.setattr(pipe, "place", noted_place)
    list(many.paths((".",)))
    assert order[order.index("read 09.yaml") + 1] == "place 09.yaml"
    assert order.index("place 00.yaml") > order.index("read 12.yaml")
