"""Rules of a stranger's package in place of the built-in ones, and reviews as lines of text."""

import sys
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

from mashwright.reviewing import plugins
from mashwright.reviewing.collection import Collection
from mashwright.reviewing.entries import Entry
from mashwright.reviewing.results import Reviewed
from mashwright.reviewing.settings import Run

LIGHT_GRIST = '''
"""Is there enough grain?"""
from mashwright.figures.grist.shares import grist_weight
from mashwright.knobs import more_of
from mashwright.rule import Evidence, Finding, Limit, Settings, below, gap, Level

class Limits(Settings):
    floor_kg = Limit(3, "kg", low=1, high=10, source="judgement")

def check(brew, limits):
    weight = grist_weight(brew)
    if (level := below(weight, limits.floor_kg)) is not None:
        message = f"the grist weighs {weight.typical:g} kg; below {limits.floor_kg:g} kg it is no grist"
        yield Finding(("grist", 0), level, message, gap(weight, limits.floor_kg), knobs=(more_of(brew.grist()[0]),))
'''
"""A rule with one setting, whose finding more grain mends."""

Install = Callable[..., None]


@pytest.fixture
def install(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[Install]:
    """Puts packages of rules in place of all that are installed: ``install(ours={"a_rule": "source", ...})``."""
    root = tmp_path / "site"
    names: list[str] = []

    def make(**packages: dict[str, str]) -> None:
        for package, modules in packages.items():
            folder = root / package
            folder.mkdir(parents=True)
            (folder / "__init__.py").write_text(modules.pop("__init__", ""))
            for name, source in modules.items():
                (folder / f"{name}.py").write_text(source)
            names.append(package)
        entries = [Entry(name, name, name) for name in names]
        monkeypatch.setattr(plugins, "entries", lambda group: entries if group == plugins.GROUP else [])
        plugins.installed.cache_clear()

    monkeypatch.syspath_prepend(str(root))
    yield make
    plugins.installed.cache_clear()
    for name in [name for name in sys.modules if name.split(".")[0] in names]:
        del sys.modules[name]


@pytest.fixture
def collection(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> Callable[..., Collection]:
    """A collection under review in a folder of its own, from files: ``collection({"a.yaml": "..."})``."""
    folder = tmp_path / "club"
    folder.mkdir()
    monkeypatch.chdir(folder)

    def make(files: dict[str, str] | None = None, today: str = "2026-01-01", **run: object) -> Collection:
        for name, text in (files or {}).items():
            path = folder / name
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_bytes(text.encode("utf-8"))
        return Collection(Run(today, **run))  # type: ignore[arg-type]

    return make


@pytest.fixture
def lines() -> Callable[[Iterator[Reviewed]], list[str]]:
    """What came out of a review: a line for each finding, and one for a file without any."""

    def tell(reviewed: Iterator[Reviewed]) -> list[str]:
        told = []
        for one in reviewed:
            told += [
                f"{one.path}:{result.place.line}:{result.place.column}: {result.level.word}: "
                f"{result.rule}: {result.message}" + (" (accepted)" if result.accepted else "")
                for result in one.results
            ] or [f"{one.path}: nothing"]
        return told

    return tell


@pytest.fixture
def light_grist() -> str:
    return LIGHT_GRIST
