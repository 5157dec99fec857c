"""Times a review against a general-purpose JSON-Schema validator on the same files, in one run.

``python tests/benchmarks/measure.py [NUMBER]`` prints the rows of the table in DEVELOPERS.md. The validator checks
keys and kinds
only: no brewing, no lines.
"""

import os
import subprocess
import sys
import tempfile
import time
from pathlib import Path

from recipes import recipe, write

import mashwright_schema

SCHEMA = str(Path(mashwright_schema.__file__).parent / "recipe.schema.json")
REVIEW = [sys.executable, "-m", "mashwright", "review", "--quiet"]
VALIDATE = [sys.executable, "-m", "check_jsonschema", "--schemafile", SCHEMA]


def seconds(command: list[str], repeats: int) -> float:
    """The shortest wall time of a command."""
    times = []
    for _ in range(repeats):
        started = time.perf_counter()
        subprocess.run(command, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, check=False)
        times.append(time.perf_counter() - started)
    return min(times)


def peak_mib(command: list[str]) -> float:
    """The largest memory of a command, MiB; each in a child of its own, since the maximum of children never falls."""
    code = (
        "import resource, subprocess, sys;"
        "subprocess.run(sys.argv[1:], stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL);"
        "print(resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss)"
    )
    done = subprocess.run([sys.executable, "-c", code, *command], capture_output=True, text=True, check=True)
    return int(done.stdout) / (1024 * 1024 if sys.platform == "darwin" else 1024)


def row(what: str, ours: float, other: float) -> None:
    print(f"| {what} | {ours:.2f} s | {other:.2f} s | {ours / other:.2f} |", flush=True)


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
        seconds([*REVIEW, str(one)], 1)
        seconds([*VALIDATE, str(one)], 1)
        print("| work | review | validator | ratio |\n|---|---|---|---|")
        row("one recipe, cold start", seconds([*REVIEW, str(one)], 9), seconds([*VALIDATE, str(one)], 9))
        files = sorted(str(path) for path in few.rglob("*.yaml"))
        alone = [*REVIEW, "--jobs", "1"]
        ours = seconds([*alone, str(few)], 3)
        row(f"{number} recipes, one process", ours, seconds([*VALIDATE, *files], 3))
        large = seconds([*alone, str(many)], 1)
        start = seconds([*REVIEW, str(one)], 3)
        growth = (large - start) / (10 * (ours - start))
        print(f"| {number * 10} recipes, one process | {large:.2f} s | | growth {growth:.2f} (1 is linear) |")
        two = seconds([*REVIEW, "--jobs", "2", str(many)], 1)
        print(f"| {number * 10} recipes, two processes | {two:.2f} s | | {two / large:.2f} of one process |")
        small, big = peak_mib([*alone, str(few)]), peak_mib([*alone, str(many)])
        print(f"| peak memory, {number} and {number * 10} recipes | {small:.0f} and {big:.0f} MiB | | |")


if __name__ == "__main__":
    main()
