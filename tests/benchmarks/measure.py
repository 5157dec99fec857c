"""Times a review against a general-purpose JSON-Schema validator on the same files, pair by pair.

``python tests/benchmarks/measure.py [NUMBER]`` prints the rows of the table in DEVELOPERS.md. The validator checks
keys and kinds only: no brewing, no lines.
"""

import os
import resource
import subprocess
import sys
import tempfile
import time
from pathlib import Path
from statistics import median
from typing import NamedTuple

from recipes import recipe, write

import mashwright_schema

SCHEMA = str(Path(mashwright_schema.__file__).parent / "recipe.schema.json")
REVIEW = [sys.executable, "-m", "mashwright", "review", "--quiet"]
VALIDATE = [sys.executable, "-m", "check_jsonschema", "--schemafile", SCHEMA]


class Took(NamedTuple):
    """What a command took: wall time and processor time of it and all its processes, s."""

    wall: float
    cpu: float


def took(command: list[str]) -> Took:
    before = resource.getrusage(resource.RUSAGE_CHILDREN)
    started = time.perf_counter()
    subprocess.run(command, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, check=False)
    wall = time.perf_counter() - started
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    return Took(wall, after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime)


def pairs(ours: list[str], other: list[str], rounds: int) -> list[tuple[Took, Took]]:
    """Two commands in turn, so that both meet the same hour of a machine that others use too."""
    return [(took(ours), took(other)) for _ in range(rounds)]


def peak_mib(command: list[str]) -> float:
    """The largest memory of a command, MiB; each in a child of its own, since the maximum of children never falls."""
    code = (
        "import resource, subprocess, sys;"
        "subprocess.run(sys.argv[1:], stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL);"
        "print(resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss)"
    )
    done = subprocess.run([sys.executable, "-c", code, *command], capture_output=True, text=True, check=True)
    return int(done.stdout) / (1024 * 1024 if sys.platform == "darwin" else 1024)


def row(what: str, measured: list[tuple[Took, Took]]) -> None:
    """A row of the table: medians of the processor times, and of the ratios pair by pair."""
    ours, other = (median(pair[side].cpu for pair in measured) for side in (0, 1))
    wall, cpu = (median(one[at] / two[at] for one, two in measured) for at in (0, 1))
    print(f"| {what} | {ours:.3f} s | {other:.3f} s | {cpu:.2f} | {wall:.2f} |", flush=True)


def main() -> None:
    number = int(sys.argv[1]) if len(sys.argv) > 1 else 1000
    os.environ.pop("PYTHONDONTWRITEBYTECODE", None)
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        one = folder / "one.yaml"
        one.write_text(recipe(3), encoding="utf-8")
        few, many = folder / "few", folder / "many"
        write(few, number)
        write(many, number * 10)
        took([*REVIEW, str(one)])
        took([*VALIDATE, str(one)])
        print("| work | processor time | of the other | ratio | of wall time |\n|---|---|---|---|---|")
        row("one recipe, cold start, to the validator", pairs([*REVIEW, str(one)], [*VALIDATE, str(one)], 25))
        files = sorted(str(path) for path in few.rglob("*.yaml"))
        alone = [*REVIEW, "--jobs", "1"]
        row(f"{number} recipes, one process, to the validator", pairs([*alone, str(few)], [*VALIDATE, *files], 5))
        row(f"{number * 10} recipes to {number}, one process", pairs([*alone, str(many)], [*alone, str(few)], 3))
        two = [*REVIEW, "--jobs", "2", str(many)]
        row(f"{number * 10} recipes, two processes to one", pairs(two, [*alone, str(many)], 3))
        small, big = peak_mib([*alone, str(few)]), peak_mib([*alone, str(many)])
        print(f"peak memory, {number} and {number * 10} recipes: {small:.0f} and {big:.0f} MiB")


if __name__ == "__main__":
    main()
