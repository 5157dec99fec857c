"""Whatever goes wrong in the program itself is one sentence and status 2; what could be reviewed still is."""

import os
import subprocess
import sys
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

import mashwright as package
from mashwright.budgets import JOBS

Call = Callable[..., tuple[int, str, str]]

SOUND = "recipe: {0}\nbatch: 20 l\ngrist:\n  - {{grain: pale ale malt, weight: 4 kg}}\n"
FAULTY = SOUND.format("Faulty").replace("4 kg", "4").replace("batch: 20 l\n", "batch: 20 l\nnobody: 5\n")
FAULT = f"a fault of mashwright {package.__version__} "


def run_after(prelude: str, *arguments: str, status: int = 2, **environment: str) -> tuple[str, str]:
    """Run a command in a process in which something was broken before: standard output and error."""
    code = f"import sys\n{prelude}\nsys.argv[1:] = {list(arguments)!r}\nfrom mashwright.__main__ import main\nmain()\n"
    done = subprocess.run(
        [sys.executable, "-c", code],
        capture_output=True,
        text=True,
        timeout=60,
        check=False,
        env={**os.environ, **environment},
    )
    assert done.returncode == status, done.stderr
    assert "Traceback" not in done.stderr
    return done.stdout, done.stderr


@pytest.mark.parametrize(
    ("module", "distribution", "command"),
    [
        ("_ruamel_yaml", "ruamel.yaml.clib", "review"),
        ("_ruamel_yaml", "ruamel.yaml.clib", "figures"),
        ("jsonschema_rs", "jsonschema-rs", "review"),
        ("jsonschema_rs", "jsonschema-rs", "figures"),
        ("jsonschema", "jsonschema", "review"),
        ("click", "click", "review"),
        ("click", "click", "explain"),
        ("msgspec", "msgspec", "review"),
    ],
)
def test_a_part_that_is_not_installed(module: str, distribution: str, command: str, folder: Path) -> None:
    (folder / "a.yaml").write_text(FAULTY)
    (folder / "b.yaml").write_text(FAULTY)
    out, err = run_after(f"sys.modules[{module!r}] = None", command, *(["a.yaml"] if command != "explain" else []))
    why = f"import of {module} halted; None in sys.modules"
    if module == "msgspec":  # of which a part is imported first
        why = "No module named 'msgspec.structs'; 'msgspec' is not a package"
    told = f"{distribution}, which mashwright needs, cannot be loaded (ModuleNotFoundError: {why}); install it again:"
    assert (out, err) == ("", f"mashwright: {told} python -m pip install --force-reinstall {distribution}\n")


def test_a_part_that_is_another_of_its_name(folder: Path) -> None:
    (folder / "a.yaml").write_text(FAULTY)
    prelude = "from types import ModuleType\nsys.modules['ruamel.yaml'] = ModuleType('ruamel.yaml')"
    out, err = run_after(prelude, "review", "a.yaml")
    assert out == ""
    assert err.startswith("mashwright: ruamel.yaml, which mashwright needs, cannot be loaded (")
    assert err.endswith("; install it again: python -m pip install --force-reinstall ruamel.yaml\n")


def test_it_is_told_once_however_many_processes_miss_it(folder: Path, tmp_path: Path) -> None:
    for index in range(90):
        (folder / f"r{index}.yaml").write_text(FAULTY)
    (tmp_path / "broken").mkdir()
    (tmp_path / "broken" / "jsonschema_rs.py").write_text("raise ImportError('no C here', name='jsonschema_rs')\n")
    _, err = run_after("", "review", ".", "--jobs", "2", PYTHONPATH=str(tmp_path / "broken"))
    assert err == (
        "mashwright: jsonschema-rs, which mashwright needs, cannot be loaded (ImportError: no C here);"
        " install it again: python -m pip install --force-reinstall jsonschema-rs\n"
    )


ERRORS = {
    "RuntimeError('a\\nb')": "RuntimeError: a b",
    "MemoryError()": "MemoryError",
    "RecursionError('maximum recursion depth exceeded')": "RecursionError: maximum recursion depth exceeded",
    "SystemExit(0)": "SystemExit: 0",
    "GeneratorExit()": "GeneratorExit",
    "OSError(5, 'no disk', 'x')": "OSError: [Errno 5] no disk: 'x'",
    "ImportError('no', name='elsewhere')": "ImportError: no",
}
COMPLETING = {"_MASHWRIGHT_COMPLETE": "bash_complete", "COMP_WORDS": "mashwright explain e", "COMP_CWORD": "2"}
PLACES = {
    "review": ("mashwright.reviewing.collection", "Collection.find", ["review", "a.yaml"]),
    "figures": ("mashwright.reviewing.figuring", "sheet_of_loaded", ["figures", "a.yaml"]),
    "explain": ("mashwright.reporting.pages", "list_of", ["explain"]),
    "a report": ("mashwright.reporting.text", "recipe_findings", ["review", "a.yaml"]),
    "a document": ("mashwright.reporting", "write", ["review", "--format", "json", "a.yaml"]),
    "the closing": ("mashwright.reporting.text", "closing", ["review", "a.yaml"]),
    "completion": ("mashwright.reviewing.collection", "rule_infos", []),
}


def broken(module: str, name: str, error: str) -> str:
    return (
        f"import {module}\ndef fail(*_, **__):\n    raise {error}\n"
        f"sys.modules[{module!r}].{name} = fail\nsys.modules['__main__'].__name__ = 'mashwright'\n"
    )


@pytest.mark.parametrize("place", PLACES)
def test_a_fault_of_the_program_anywhere(place: str, folder: Path) -> None:
    (folder / "a.yaml").write_text(SOUND.format("A"))
    module, name, arguments = PLACES[place]
    environment = COMPLETING if place == "completion" else {}
    _, err = run_after(broken(module, name, "RuntimeError('a\\nb')"), *arguments, **environment)
    assert err.startswith(f"mashwright: {FAULT}(RuntimeError: a b at mashwright")
    assert err.endswith(") ended this run; report this line, the command and the recipe to those who make it\n")
    assert len(err.splitlines()) == 1


@pytest.mark.parametrize("error", ERRORS)
def test_a_fault_of_any_kind(error: str, folder: Path) -> None:
    (folder / "a.yaml").write_text(SOUND.format("A"))
    _, err = run_after(broken(*PLACES["review"][:2], error), "review", "a.yaml")
    assert err.startswith(f"mashwright: {FAULT}({ERRORS[error]} at mashwright")
    assert len(err.splitlines()) == 1


STAGES = {
    "reading": ("mashwright.reviewing.read", "read_document"),
    "schema": ("mashwright.reviewing.read", "understood"),
    "building": ("mashwright.reviewing.read", "build_recipe"),
    "brew": ("mashwright.reviewing.judge", "Brew"),
    "rules": ("mashwright.reviewing.pipe", "judging"),
    "mends": ("mashwright.reviewing.mend", "worst"),
    "gather": ("mashwright.reviewing.pipe", "gather"),
    "accept": ("mashwright.reviewing.pipe", "accept"),
    "place": ("mashwright.reviewing.pipe", "place"),
    "load": ("mashwright.reviewing.outcomes", "load"),
    "the look at a file": ("mashwright.reviewing.outcomes", "looks_like_recipe"),
}


@pytest.mark.parametrize("error", ["MemoryError", "RecursionError"])
@pytest.mark.parametrize("stage", STAGES)
@pytest.mark.parametrize("jobs", ["1", "2"])
def test_a_fault_in_one_recipe_hides_no_other(stage: str, error: str, jobs: str, folder: Path) -> None:
    for name in ("a", "b", "c"):
        (folder / f"{name}.yaml").write_text(SOUND.format(name).replace("4 kg", "4"))
    module, name = STAGES[stage]
    prelude = f"""
import {module} as room
real, met = room.{name}, []
def fail(*arguments, **named):
    met.append(1)
    if len(met) == 2:
        raise {error}
    return real(*arguments, **named)
room.{name} = fail
"""
    out, err = run_after(prelude, "review", ".", "--jobs", jobs)
    assert [line.split(":")[0] for line in out.splitlines()] == ["a.yaml", "c.yaml"]
    fault, closing = err.splitlines()
    assert fault.startswith(f"mashwright: b.yaml: {FAULT}({error} at mashwright.reviewing.")
    what = "file" if stage in ("load", "the look at a file") else "recipe"
    assert fault.endswith(
        f" kept this {what} from being reviewed; report this line and the {what} to those who make it"
    )
    assert closing.startswith("2 recipes reviewed: 2 errors")
    assert closing.endswith("1 fault of the program, so this is not the whole review")


def test_a_fault_in_a_story_leaves_the_findings(folder: Path) -> None:
    (folder / "a.yaml").write_text(SOUND.format("A").replace("4 kg", "4"))
    prelude = broken("mashwright.reviewing.story", "story_of", "RecursionError")
    out, err = run_after(prelude, "review", "--audit", "a.yaml")
    assert 'a.yaml:4:36: error: quantity: the weight "4" has no unit' in out
    assert err.startswith(f"mashwright: a.yaml: {FAULT}(RecursionError at mashwright")
    assert " kept this recipe from being told in full; " in err


@pytest.mark.parametrize("jobs", ["1", "2"])
def test_a_fault_in_a_brewhouse_is_told_once_and_its_recipes_are_reviewed(jobs: str, folder: Path) -> None:
    (folder / "brewhouse.yaml").write_text("brewhouse: Shed\n")
    for name in ("a", "b"):
        (folder / f"{name}.yaml").write_text(SOUND.format(name).replace("4 kg", "4"))
    prelude = broken("mashwright.reviewing.read_house", "build_brewhouse", "RecursionError")
    out, err = run_after(prelude, "review", ".", "--jobs", jobs)
    assert [line.split(":")[0] for line in out.splitlines()] == ["a.yaml", "b.yaml"]
    fault, _ = err.splitlines()
    assert fault.startswith(f"mashwright: brewhouse.yaml: {FAULT}(RecursionError at mashwright")
    _, err = run_after(prelude, "figures", "a.yaml")
    assert err.startswith(f"mashwright: brewhouse.yaml: {FAULT}(RecursionError at mashwright")


def nested(depth: int, leaf: str) -> str:
    return "[" * depth + leaf + "]" * depth


@pytest.mark.parametrize("name", ["brewhouse.yaml", "b.yaml"])
@pytest.mark.parametrize("anchors", [2, 10, 17, 22, 60])
def test_lists_deep_around_each_other_by_anchors(anchors: int, name: str, process: Call, folder: Path) -> None:
    text, inner = "brewhouse: Shed\n" if name.startswith("brew") else SOUND.format("B"), "x"
    for index in range(anchors):
        text += f"x{index}: &a{index} {nested(60, inner)}\n"
        inner = f"*a{index}"
    (folder / name).write_text(text)
    (folder / "a.yaml").write_text(SOUND.format("A").replace("4 kg", "4"))
    status, out, err = process("review")
    assert status in (1, 2)
    assert "a.yaml:4:36: error: quantity" in out
    assert name in out + err
    assert "Traceback" not in err


@pytest.fixture
def deep(folder: Path) -> Iterator[Callable[[str, int], None]]:
    """Makes a recipe so deep in folders of one name; taken away by a loop, since Python's own way calls itself."""

    def make(name: str, depth: int) -> None:
        try:
            for _ in range(depth):
                os.mkdir(name)
                os.chdir(name)
            Path("deep.yaml").write_text(SOUND.format("Deep").replace("4 kg", "4"))
        finally:
            os.chdir(folder)

    yield make
    subprocess.run(["rm", "-rf", *os.listdir(folder)], cwd=folder, check=True)


def test_folders_deeper_than_functions_can_call_each_other(process: Call, deep: Callable[[str, int], None]) -> None:
    deep("d", 1500)
    for named in (".", "d/" * 1500 + "deep.yaml"):
        status, out, err = process("review", named)
        assert (status, out.count("deep.yaml:4:36: error: quantity")) == (1, 1)
        assert err.startswith("1 recipe reviewed: 1 error")


def test_paths_longer_than_the_system_takes(process: Call, folder: Path, deep: Callable[[str, int], None]) -> None:
    (folder / "a.yaml").write_text(SOUND.format("A"))
    deep("x" * 200, 30)
    status, out, err = process("review")
    assert status == 1
    told = "this path is longer than the system takes; move what lies here to a folder further up"
    assert out.count(": error: unreadable: ") == out.count(told) == 1
    assert "Traceback" not in err
    for command in ("review", "figures"):
        status, out, err = process(command, "x" * 5000)
        assert (status, out) == (2, "")
        assert "Traceback" not in err


@pytest.mark.parametrize("jobs", ["61", "99999999999", "9" * 4000])
def test_more_processes_than_any_machine_has(jobs: str, process: Call, folder: Path) -> None:
    (folder / "a.yaml").write_text(SOUND.format("A"))
    told = f"mashwright: --jobs {jobs} is more than mashwright starts; give at most {JOBS}\n"
    assert process("review", "--jobs", jobs) == (2, "", told)


def test_processes_that_cannot_be_started(folder: Path) -> None:
    (folder / "a.yaml").write_text(SOUND.format("A"))
    prelude = (
        "import concurrent.futures.process as room\ndef fail(*_, **__):\n    raise OSError(11, 'no more of them')\n"
    )
    for part in ("ProcessPoolExecutor.__init__", "ProcessPoolExecutor.submit"):
        out, err = run_after(f"{prelude}room.{part} = fail\n", "review", ".", "--jobs", "2")
        assert (out, err) == ("", "mashwright: processes cannot be started (no more of them); give --jobs 1\n")


@pytest.mark.parametrize("command", ["review", "figures"])
def test_a_standard_input_that_cannot_be_read(command: str, folder: Path) -> None:
    line = f'"{sys.executable}" -m mashwright {command} - 0>written'
    done = subprocess.run(["bash", "-c", line], capture_output=True, text=True, timeout=60, check=False)
    assert (done.returncode, done.stdout) == (2, "")
    assert done.stderr == "mashwright: standard input cannot be read: Bad file descriptor\n"


@pytest.mark.parametrize("command", ["review", "review .", "figures a.yaml"])
def test_a_current_folder_that_is_gone(command: str, folder: Path) -> None:
    line = f'mkdir gone; cd gone; rmdir ../gone; "{sys.executable}" -m mashwright {command}'
    done = subprocess.run(["bash", "-c", line], capture_output=True, text=True, timeout=60, check=False)
    assert (done.returncode, done.stdout) == (2, "")
    assert done.stderr.startswith("mashwright: ")
    assert len(done.stderr.splitlines()) == 1


def test_rules_that_contradict_each_other_end_no_completion_in_a_traceback(folder: Path) -> None:
    prelude = (
        "import mashwright.reviewing.plugins as room\ndef fail():\n    raise room.ConfigurationError('two rules')\n"
        "room.installed = fail\n"
    )
    assert run_after(prelude, status=0, **COMPLETING) == ("\n", "")
