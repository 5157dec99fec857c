"""The science gives the numbers that it gave.

Whether they are right the tests in ``tests/published`` say; these tell of each that moved. ``golden/science.txt`` holds
each function of plain numbers at a few points that brewers meet, and what a mash makes of each cereal;
``golden/figures.txt`` the figures of the sample recipes. Both are renewed by RENEW_GOLDEN=1, which still fails where
anything changed: read the change as a brewer would.
"""

import importlib
import inspect
import itertools
import os
import pkgutil
from collections.abc import Iterator
from pathlib import Path

import mashwright
import mashwright.brewing
from mashwright.brewing.mash import Rest, Starch, mash
from mashwright.brewing.mash_rates import GELATINISATION_C, gelatinised_share, slow_release_rate_per_min

TESTS = Path(__file__).parent.parent
SAMPLES = TESTS.parent / "sample-recipes"

POINTS = {
    "_c": (20.0, 63.0, 72.0),
    "_l": (5.0, 23.0),
    "_kg": (0.5, 4.5),
    "_g": (0.03, 80.0),
    "_min": (5.0, 60.0),
    "_points": (30.0, 55.0),
    "_percent": (4.0, 75.0),
    "_lintner": (20.0, 45.0, 110.0),
    "_bar": (0.8, 2.5),
    "_volumes": (1.2, 2.6),
    "_plato": (8.0, 14.0),
    "_m": (0.0, 1600.0),
    "_kpa": (80.0, 101.3),
    "gravity": (1.012, 1.052),
    "sg": (1.012, 1.052),
    "og": (1.044, 1.071),
    "fg": (1.008, 1.014),
    "share": (0.2, 0.75),
    "grist": (2.5, 4.0),
    "heat": (0.38, 0.42),
    "hours": (1.0, 1.5),
    "months": (3.0, 14.0),
    "days": (2.0, 9.0),
}
"""Values of an argument, by the end of its name; others are ``ELSE``."""
ELSE = (0.4, 1.5, 40.0)


def held(name: str, now: list[str]) -> None:
    path = TESTS / "golden" / name
    before = path.read_text(encoding="utf-8").splitlines() if path.exists() else []
    if os.environ.get("RENEW_GOLDEN"):
        path.write_text("".join(f"{line}\n" for line in now), encoding="utf-8")
    assert now == before, f"if this is meant, RENEW_GOLDEN=1 writes golden/{name} anew; then read the diff"


def values(name: str) -> tuple[float, ...]:
    return next((points for end, points in POINTS.items() if f"_{name}".endswith(end)), ELSE)


def told(value: object) -> str:
    if value is None:
        return "nothing"
    if isinstance(value, tuple) and hasattr(value, "_fields"):
        return " ".join(f"{one:.5g}" for one in value)
    if isinstance(value, float | int):
        return f"{value:.5g}"
    if type(value) is tuple:
        return ", ".join(told(one) for one in value)
    ends = [getattr(value, end, None) for end in ("low", "typical", "high")]
    return " ".join("-" if end is None else f"{end:.5g}" for end in ends)


def of_plain_numbers() -> Iterator[str]:
    for info in pkgutil.iter_modules(mashwright.brewing.__path__):
        module = importlib.import_module(f"mashwright.brewing.{info.name}")
        for name, function in sorted(vars(module).items()):
            if name.startswith("_") or not inspect.isfunction(function) or function.__module__ != module.__name__:
                continue
            parameters = inspect.signature(function).parameters
            if all(one.annotation is float for one in parameters.values()):
                for given in itertools.product(*(values(one) for one in parameters)):
                    yield f"{info.name}.{name}({', '.join(f'{one:g}' for one in given)}) = {_called(function, given)}"


def _called(function: object, given: tuple[float, ...]) -> str:
    assert callable(function)
    try:
        return told(function(*given))
    except ValueError as error:
        return f"refused: {error}"


def of_mashes() -> Iterator[str]:
    for cereal in GELATINISATION_C:
        for at_c in (50, 58, 62, 66, 72):
            gelatinised, slowly = gelatinised_share(cereal, at_c, 0.0), slow_release_rate_per_min(cereal, at_c, 0.0)
            yield f"{cereal} at {at_c} °C: gelatinised {gelatinised:.4g}, slowly {slowly:.4g}"
            for minutes, power in ((20, 25), (60, 90)):
                made = mash([Starch("barley", 3), Starch(cereal, 1)], [Rest(at_c, minutes)], power)
                shares = ", ".join(f"{one:.4g}" for one in made.by_starch)
                of_rest = made.rests[0]
                convert = f"{made.convert_c:.4g}" if made.convert_c is not None else "-"
                name = f"{cereal}, {minutes} min at {at_c} °C with {power} °Lintner"
                left = f"enzyme left {of_rest.enzyme_left:.4g}, at {convert} °C"
                yield f"{name}: {shares} %, released {made.released:.4g}, converted {of_rest.converted:.4g}, {left}"


def test_the_science_gives_what_it_gave() -> None:
    held("science.txt", [*of_plain_numbers(), *of_mashes()])


def test_the_figures_of_the_samples_are_what_they_were() -> None:
    lines = []
    for path in sorted(SAMPLES.rglob("*.yaml")):
        if path.name == "brewhouse.yaml":
            continue
        lines.append(f"{path.relative_to(SAMPLES).as_posix()}:")
        sheet = mashwright.figures_of(path.read_text(encoding="utf-8"), str(path))
        for part in (sheet, *sheet.worts):
            lines += [f"  of {part.name}:"] if part is not sheet else []
            for row in part.rows:
                if row.typical is not None:
                    lines.append(f"  {row.id}: {told(row)} {row.unit}".rstrip())
                    lines.extend(f"    {name}: {told(value)}" for name, value in row.parts)
    held("figures.txt", lines)
