"""What a plain review may load: a cold start is most of its time, and each of these would cost more than the sums."""

import subprocess
import sys
from pathlib import Path

import pytest

HEAVY = {
    "asyncio",
    "concurrent",
    "dataclasses",
    "difflib",
    "fractions",
    "importlib.metadata",
    "json",
    "jsonschema",
    "lsprotocol",
    "multiprocessing",
    "pathlib",
    "pygls",
    "statistics",
    "subprocess",
    "unittest",
    "xml",
}
"""Not loaded for one recipe that is named, whether it is sound or not."""

UNASKED = {
    "mashwright.editor",
    "mashwright.ingredients.bibliography",
    "mashwright.ingredients.styles",
    "mashwright.measures.kitchen",
    "mashwright.reading.wording",
    "mashwright.reporting.figures",
    "mashwright.reporting.machine",
    "mashwright.reporting.pages",
    "mashwright.reporting.sarif",
    "mashwright.reviewing.figuring",
    "mashwright.reviewing.sheet",
}
"""Rooms that a sound recipe has no need of."""

RUN = """
import sys
from mashwright.cli.command import run
status = run(sys.argv[1:])
print(status, *sys.modules)
"""

SOUND = "recipe: Lane Bitter\nbatch: 20 l\ngrist:\n  - {grain: pale ale malt, weight: 4 kg}\n"


def loaded(path: Path, text: str, *arguments: str) -> tuple[int, set[str]]:
    """The exit status of a review, and the modules that it loaded."""
    path.write_text(text)
    call = [sys.executable, "-c", RUN, "review", *arguments, str(path)]
    done = subprocess.run(call, capture_output=True, text=True, check=True, timeout=60)
    status, *modules = done.stdout.splitlines()[-1].split()
    return int(status), set(modules)


def test_a_sound_recipe_loads_nothing_heavy(tmp_path: Path) -> None:
    status, modules = loaded(tmp_path / "a.yaml", SOUND)
    assert status == 0
    assert modules & UNASKED == set()
    assert {name.split(".")[0] for name in modules} & HEAVY == set()
    assert "mashwright_rules.grist.enzyme_sufficiency" in modules


def test_a_finding_of_a_rule_loads_nothing_heavy_either(tmp_path: Path) -> None:
    text = SOUND.replace("pale ale malt", "caramel malt 60") + "mash: {rests: [{at: 66 °C, for: 60 min}]}\n"
    status, modules = loaded(tmp_path / "a.yaml", text)
    assert status == 1
    assert (modules | {name.split(".")[0] for name in modules}) & HEAVY == set()


def test_the_thorough_checker_is_loaded_where_it_has_something_to_say(tmp_path: Path) -> None:
    status, modules = loaded(tmp_path / "a.yaml", SOUND.replace("weight", "wieght"))
    assert status == 1
    assert {"jsonschema", "mashwright.reading.wording"} <= modules


@pytest.mark.parametrize("module", ["mashwright", "mashwright.finding"])
def test_the_package_itself_loads_nothing(module: str) -> None:
    call = [sys.executable, "-c", f"import sys, {module}; print(*sys.modules)"]
    done = subprocess.run(call, capture_output=True, text=True, check=True, timeout=60)
    ours = {name for name in done.stdout.split() if name.startswith("mashwright")}
    assert ours == {"mashwright", module}


RUBBISH = """
import gc, sys
from mashwright.__main__ import main
before = gc.get_stats()[0]["collections"]
try:
    main()
except SystemExit as stop:
    after = gc.get_stats()[0]["collections"]
    print(stop.code, after - before, gc.get_freeze_count() > 0, file=sys.stderr)
"""


def test_neither_the_start_nor_the_end_of_a_run_is_searched_for_rubbish(tmp_path: Path) -> None:
    (tmp_path / "a.yaml").write_text(SOUND)
    call = [sys.executable, "-c", RUBBISH, "review", "--quiet", str(tmp_path)]
    done = subprocess.run(call, capture_output=True, text=True, check=True, timeout=60)
    assert done.stderr == "0 0 True\n"


PATTERNS = """
import re, sys
from mashwright.cli.command import run
run(sys.argv[1:])
for name, module in sorted(sys.modules.items()):
    if name.startswith("mashwright") and any(isinstance(one, re.Pattern) for one in vars(module).values()):
        print(name)
"""


def test_patterns_are_compiled_when_they_are_needed(tmp_path: Path) -> None:
    (tmp_path / "a.yaml").write_text(SOUND)
    call = [sys.executable, "-c", PATTERNS, "review", "--quiet", str(tmp_path)]
    done = subprocess.run(call, capture_output=True, text=True, check=True, timeout=60)
    assert done.stdout.split() == []
