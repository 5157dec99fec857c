"""Changes the science and the rules at random, one place at a time, and tells whether a test notices.

``python tests/mutation/run.py [--seed 1] [--number 200] [--of code] [--jobs 2] [--seconds 240] [--only 3,17]``

Each change is made in a copy of the checkout, never in the checkout itself. Of code it is a number that is another, a
comparison that is turned or loses its equality, a condition that is negated, or a word of a unit that is another unit;
of the tables a row that is missing. The tests that are named after the changed file come first, then those that import
it, then the rest of those that judge brewing, as far as ``--seconds`` go. A line tells each change and what came of it;
in one checkout the same seed makes the same changes, and ``--only`` makes some of them again, by their numbers.
"""

import argparse
import ast
import os
import random
import shutil
import subprocess
import sys
import tempfile
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path
from queue import Queue
from time import monotonic
from typing import NamedTuple

TOP = Path(__file__).resolve().parent.parent.parent
CODE = ("linter/mashwright/brew", "linter/mashwright/brewing", "linter/mashwright/figures", "rules/mashwright_rules")
TABLES = ("linter/mashwright/ingredients", "linter/mashwright/words")
NOT_OURS_TO_LOSE = frozenset(("sources.csv",))  # what is cited; a test counts it as a whole
ROOTS = ("linter", "rules", "schema")
REST = ("rules", "figures", "published", "brewing", "brew", "words", "measures", "ingredients")
"""Rooms of tests that judge brewing."""
EXAMPLES = ("tests/brewing/test_unmoved.py", "tests/rules/test_limits_hold.py", "tests/rules/test_rule_pages.py")
"""Tests of everything by examples, which notice the most in the least time."""
JOBS = 2
SHOWN = 110

Turns = dict[type[ast.cmpop], str]
WRITTEN: Turns = {ast.Lt: "<", ast.LtE: "<=", ast.Gt: ">", ast.GtE: ">=", ast.Eq: "==", ast.NotEq: "!="}
TURNED: Turns = {ast.Lt: ">=", ast.LtE: ">", ast.Gt: "<=", ast.GtE: "<", ast.Eq: "!=", ast.NotEq: "=="}
NUDGED: Turns = {ast.Lt: "<=", ast.LtE: "<", ast.Gt: ">=", ast.GtE: ">"}
UNITS = {
    "kg": "g", "g": "kg", "l": "ml", "min": "h", "h": "min", "d": "h", "°C": "°F", "°F": "°C", "%": "g/l",
    "g/l": "mg/l", "mg/l": "g/l", "SG": "°P", "°P": "SG", "°Lintner": "°WK", "°Lovibond": "EBC", "SRM": "EBC",
    "bar": "psi", "points": "SG",
}  # fmt: skip
"""A unit's word, and one that it is mistaken for."""
WHOLE = frozenset(("SOUND", "FAULTY"))
"""Names of texts that are tested whole, as the examples of a rule are."""


class Mutant(NamedTuple):
    """One change of one file."""

    path: str
    line: int
    start: int
    end: int
    text: str
    said: str

    def applied(self, source: bytes) -> bytes:
        """The file with the change."""
        return source[: self.start] + self.text.encode() + source[self.end :]


def mutants_of_code() -> Iterator[Mutant]:
    """Every change of every file of code that can be drawn."""
    for folder in CODE:
        for path in sorted((TOP / folder).rglob("*.py")):
            yield from _of_file(str(path.relative_to(TOP)), path.read_bytes())


def _of_file(path: str, source: bytes) -> Iterator[Mutant]:
    begins = [0]
    for each in source.splitlines(keepends=True):
        begins.append(begins[-1] + len(each))

    def span(node: ast.expr) -> tuple[int, int, int]:
        assert node.end_lineno is not None
        assert node.end_col_offset is not None
        start = begins[node.lineno - 1] + node.col_offset
        return node.lineno, start, begins[node.end_lineno - 1] + node.end_col_offset

    def changed(node: ast.expr, text: str, said: str) -> Mutant:
        line, start, end = span(node)
        return Mutant(path, line, start, end, text, said)

    for node in _live(ast.parse(source)):
        if (
            isinstance(node, ast.Constant)
            and isinstance(node.value, int | float)
            and node.value is not True
            and node.value is not False
        ):
            other = _other_number(node.value)
            yield changed(node, other, f"{node.value!r} becomes {other}")
        elif isinstance(node, ast.Constant) and isinstance(node.value, str) and node.value in UNITS:
            other = repr(UNITS[node.value])
            yield changed(node, other, f"{node.value!r} becomes {other}")
        elif isinstance(node, ast.Compare) and len(node.ops) == 1:
            kind = type(node.ops[0])
            _, _, begin = span(node.left)
            line, stop, _ = span(node.comparators[0])
            between = source[begin:stop]
            for table in (TURNED, NUDGED):
                if kind in table and between.count(WRITTEN[kind].encode()) == 1:
                    text = between.decode().replace(WRITTEN[kind], table[kind])
                    yield Mutant(path, line, begin, stop, text, f"{WRITTEN[kind]} becomes {table[kind]}")
        elif isinstance(node, ast.If | ast.IfExp):
            line, start, end = span(node.test)
            yield Mutant(path, line, start, end, f"(not ({source[start:end].decode()}))", "the condition is negated")


def _other_number(value: float) -> str:
    if value in (0, 1):
        return repr(type(value)(1 - value))
    return repr(value * 1.25) if isinstance(value, float) else repr(value + max(1, abs(value) // 4))


def _live(tree: ast.AST) -> Iterator[ast.AST]:
    """What runs or is read: no types, docstrings, imports for types, or examples."""
    for child in ast.iter_child_nodes(tree):
        if isinstance(child, ast.Expr) and isinstance(child.value, ast.Constant):
            continue
        names = child.targets if isinstance(child, ast.Assign) else []
        if any(isinstance(one, ast.Name) and one.id in WHOLE for one in names):
            continue
        if isinstance(child, ast.If) and ast.unparse(child.test) == "TYPE_CHECKING":
            continue
        if isinstance(child, ast.JoinedStr):  # places within move from one Python to the next
            continue
        yield child
        for name, value in ast.iter_fields(child):
            if name in ("annotation", "returns", "decorator_list"):
                continue
            for part in value if isinstance(value, list) else [value]:
                if isinstance(part, ast.AST):
                    yield from _within(part)


def _within(part: ast.AST) -> Iterator[ast.AST]:
    yield from _live(ast.Module([part], []))  # type: ignore[list-item]


def mutants_of_words() -> Iterator[Mutant]:
    """Every row of every table, as the change that leaves it out."""
    for path in sorted(one for folder in TABLES for one in (TOP / folder).glob("*.csv")):
        if path.name in NOT_OURS_TO_LOSE:
            continue
        start = 0
        for number, line in enumerate(path.read_bytes().splitlines(keepends=True), 1):
            if number > 1:
                said = f"without {line.decode().strip()[:SHOWN]}"
                yield Mutant(str(path.relative_to(TOP)), number, start, start + len(line), "", said)
            start += len(line)


def drawn(seed: int, number: int, of: str) -> list[Mutant]:
    """The changes of a seed: of code alone, of words alone, or three to one."""
    chosen: list[Mutant] = []
    for name, every in (("code", mutants_of_code), ("words", mutants_of_words)):
        share = {"both": 0.75 if name == "code" else 0.25, name: 1.0}.get(of, 0.0)
        if share:
            found = list(every())
            chosen += random.Random(f"{name} {seed}").sample(found, min(len(found), round(number * share)))
    return chosen


def stages(path: str, top: Path) -> list[list[str]]:
    """Test files of a checkout: named after a file; importing it; the rest of those that judge brewing."""
    files = {str(one.relative_to(top)): one.read_text("utf-8") for one in sorted((top / "tests").rglob("test_*.py"))}
    file = Path(path)
    stem = file.parent.name if file.stem.startswith("_") else file.stem  # a rule may be a folder
    module = ".".join(file.with_suffix("").parts[1:]).removesuffix(".__init__")
    named = [one for one in files if Path(one).stem == f"test_{stem}"]
    if path.endswith(".csv"):
        named = [one for one in files if one.startswith(("tests/ingredients/", "tests/words/"))]
    importing = [one for one, text in files.items() if f"from {module} import" in text or f"import {module}" in text]
    package, _, last = module.rpartition(".")
    importing += [one for one, text in files.items() if f"from {package} import" in text and last in text]
    rest = [one for one in files if one.split("/")[1] in REST]
    first = list(dict.fromkeys(named))
    second = [one for one in dict.fromkeys(importing) if one not in first and not one.startswith("tests/cli")]
    if not path.endswith(".csv"):
        second = [one for one in dict.fromkeys([*EXAMPLES, *second]) if one in files and one not in first]
    third = [one for one in rest if one not in first and one not in second]
    return [stage for stage in (first, second, third) if stage]


class Copy:
    """A copy of the checkout in which one change after the other is made and taken back."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        names = subprocess.run(
            ["git", "ls-files", "-co", "--exclude-standard", "-z"], cwd=TOP, capture_output=True, check=True, text=True
        ).stdout
        for name in filter(None, names.split("\0")):
            if (TOP / name).is_file():
                (folder / name).parent.mkdir(parents=True, exist_ok=True)
                shutil.copyfile(TOP / name, folder / name)
        self.environment = {
            **os.environ,
            "PYTHONPATH": os.pathsep.join(str(folder / root) for root in ROOTS),
            "PYTHONDONTWRITEBYTECODE": "1",
        }

    def outcome(self, mutant: Mutant, seconds: float) -> str:
        """``killed`` by which test, ``survived``, or ``survived so far`` where the time was over."""
        changed = self.folder / mutant.path
        source = changed.read_bytes()
        changed.write_bytes(mutant.applied(source))
        try:
            return self.tried(stages(mutant.path, self.folder), seconds)
        finally:
            changed.write_bytes(source)

    def tried(self, tests: list[list[str]], seconds: float) -> str:
        """What comes of running tests, stage by stage."""
        ends = monotonic() + seconds
        for number, stage in enumerate(tests):
            command = [sys.executable, "-m", "pytest", "-q", "-x", "--no-header", "--tb=no", "-p", "no:cacheprovider"]
            command += [f"--basetemp={self.folder / 'basetemp'}", *stage]
            try:
                done = subprocess.run(
                    command, cwd=self.folder, env=self.environment, capture_output=True, text=True, check=False,
                    timeout=max(1.0, ends - monotonic()),
                )  # fmt: skip
            except subprocess.TimeoutExpired:
                # the first tests take seconds: where they do not end, the change made a loop without one
                return "killed by a test that does not end" if number == 0 else "survived so far"
            if done.returncode not in (0, 1, 2, 5):
                raise RuntimeError(f"pytest ended with {done.returncode}: {done.stdout}{done.stderr}")
            if done.returncode in (1, 2):
                by = next((one for one in done.stdout.splitlines() if one.startswith(("FAILED", "ERROR"))), "")
                return f"killed by {by.partition(' ')[2].partition(' - ')[0] or 'an import'}"
        return "survived"


def main() -> int:
    """Run the changes of a seed; 1 where the tests fail without any change."""
    parser = argparse.ArgumentParser(description=__doc__.partition("\n")[0])
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--number", type=int, default=200)
    parser.add_argument("--of", choices=("code", "words", "both"), default="both")
    parser.add_argument("--jobs", type=int, choices=range(1, JOBS + 1), default=JOBS)
    parser.add_argument("--seconds", type=float, default=240)
    parser.add_argument("--only", default="", metavar="NUMBERS")
    options = parser.parse_args()
    only = {int(one) for one in options.only.split(",") if one}
    numbered = list(enumerate(drawn(options.seed, options.number, options.of), 1))
    numbered = [one for one in numbered if not only or one[0] in only]
    with tempfile.TemporaryDirectory(prefix="mutation-") as folder:
        copies: Queue[Copy] = Queue()
        for number in range(options.jobs):
            copies.put(Copy(Path(folder) / str(number)))
        sound = copies.queue[0].tried(
            [[f"tests/{one}" for one in REST if (TOP / "tests" / one).exists()]], 10 * options.seconds
        )
        if sound != "survived":
            print(f"the tests fail without any change: {sound}", file=sys.stderr)
            return 1

        def run(numbered_one: tuple[int, Mutant]) -> bool:
            number, mutant = numbered_one
            copy = copies.get()
            try:
                outcome = copy.outcome(mutant, options.seconds)
            finally:
                copies.put(copy)
            print(f"{number}. {mutant.path}:{mutant.line}: {mutant.said}: {outcome}", flush=True)
            return outcome.startswith("killed")

        with ThreadPoolExecutor(options.jobs) as pool:
            killed = sum(pool.map(run, numbered))
    print(f"{killed} of {len(numbered)} changes are noticed, {100 * killed / max(1, len(numbered)):.0f} %")
    return 0


if __name__ == "__main__":
    sys.exit(main())
