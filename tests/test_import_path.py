"""Nothing of a reviewed folder is imported or run, however the program is started in it."""

import os
import subprocess
import sys
from pathlib import Path

import pytest

PROGRAM = Path(sys.executable).parent / "mashwright"
SOUND = "recipe: Lane Bitter\nbatch: 20 l\ngrist:\n  - {grain: pale ale malt, weight: 4 kg}\n"
FAULTY = "recipe: Toffee\nbatch: 20 l\ngrist:\n  - {grain: caramel malt 60, weight: 5 kg}\n"

EARLY = ("mashwright", "pkgutil", "sitecustomize", "usercustomize", "re", "functools")
"""What Python may look for before the first line of a program."""
LATER = (
    "click",
    "concurrent",
    "conftest",
    "csv",
    "datetime",
    "decoy_rules",
    "difflib",
    "importlib_metadata",
    "json",
    "jsonschema",
    "jsonschema_rs",
    "mashwright_rules",
    "mashwright_schema",
    "multiprocessing",
    "ruamel",
    "setup",
    "signal",
    "subprocess",
    "tempfile",
    "typing",
    "xml",
)
"""What the program imports itself, or never."""


@pytest.fixture
def hostile(tmp_path: Path) -> Path:
    """A folder of recipes and of code in every place where Python or a tool of it might look."""
    folder = tmp_path / "club"
    folder.mkdir()
    (folder / "a.yaml").write_text(SOUND)
    (folder / "b.yaml").write_text(FAULTY)
    code = f"open({str(tmp_path / 'marks')!r}, 'a').write(__name__ + chr(10))\n"
    for name in LATER:
        plant(folder, name, code)
    for info in ("decoy-1.0.dist-info", "decoy.egg-info", "mashwright-0.1.0.dist-info"):
        (folder / info).mkdir()
        metadata = "METADATA" if info.endswith("dist-info") else "PKG-INFO"
        (folder / info / metadata).write_text("Metadata-Version: 2.1\nName: decoy\nVersion: 1.0\n")
        (folder / info / "entry_points.txt").write_text("[mashwright.rules]\ndecoy = decoy_rules\n")
    (folder / "decoy.pth").write_text(f"import builtins; {code}")
    (folder / "pyproject.toml").write_text('[project.entry-points."mashwright.rules"]\ndecoy = "decoy_rules"\n')
    return folder


def plant(folder: Path, name: str, code: str) -> None:
    """A package and a module of one name, and a file of it that a package has."""
    (folder / name).mkdir()
    for module in (folder / name / "__init__.py", folder / name / "__main__.py", folder / f"{name}.py"):
        module.write_text(code)


def plant_early(folder: Path) -> None:
    for name in EARLY:
        plant(folder, name, f"open({str(folder.parent / 'marks')!r}, 'a').write(__name__ + chr(10))\n")


def marks(folder: Path) -> list[str]:
    path = folder.parent / "marks"
    return path.read_text().splitlines() if path.exists() else []


def ended(folder: Path, *call: str, **environment: str) -> tuple[int, str]:
    """Status and closing line of a review in the folder."""
    kept = {name: value for name, value in os.environ.items() if not name.startswith("PYTHON")}
    done = subprocess.run(
        call, cwd=folder, env=kept | environment, capture_output=True, text=True, check=False, timeout=120
    )
    return done.returncode, done.stderr.splitlines()[-1] if done.stderr else ""


WHOLE = (1, "2 recipes reviewed: 1 error")


@pytest.mark.parametrize("jobs", ["1", "2"])
def test_the_program_imports_nothing_from_the_folder(hostile: Path, jobs: str) -> None:
    plant_early(hostile)
    assert (
        ended(hostile, str(PROGRAM), "review", ".", "--jobs", jobs, "--format", "junit", "--output", "r.xml") == WHOLE
    )
    assert marks(hostile) == []


def test_nor_does_the_module_where_python_is_told_to_be_safe(hostile: Path) -> None:
    plant_early(hostile)
    assert ended(hostile, sys.executable, "-P", "-m", "mashwright", "review", ".") == WHOLE
    assert ended(hostile, sys.executable, "-I", "-m", "mashwright", "review", ".") == WHOLE
    assert marks(hostile) == []


@pytest.mark.parametrize("jobs", ["1", "2"])
def test_the_module_imports_nothing_of_its_own_from_the_folder(hostile: Path, jobs: str) -> None:
    assert ended(hostile, sys.executable, "-m", "mashwright", "review", ".", "--jobs", jobs) == WHOLE
    assert marks(hostile) == []


@pytest.mark.parametrize("path", [":", ".", ":/nowhere", "/nowhere:", "./", "../club", "{folder}:."])
@pytest.mark.parametrize("start", ["program", "module"])
def test_entries_of_the_path_that_count_from_the_folder_are_left_out(hostile: Path, path: str, start: str) -> None:
    call = (str(PROGRAM),) if start == "program" else (sys.executable, "-m", "mashwright")
    value = path.format(folder=hostile.parent).replace(":", os.pathsep)
    assert ended(hostile, *call, "review", ".", PYTHONPATH=value) == WHOLE
    assert marks(hostile) == []


def test_a_path_that_is_named_in_full_is_kept(hostile: Path, tmp_path: Path) -> None:
    """It is the wish of the person who starts the program; so a plugin can be tried."""
    plugin = Path(__file__).parent / "example-plugin"
    (tmp_path / "site").mkdir()
    info = tmp_path / "site/club_rules-1.0.dist-info"
    info.mkdir()
    (info / "METADATA").write_text("Metadata-Version: 2.1\nName: club-rules\nVersion: 1.0\n")
    (info / "entry_points.txt").write_text("[mashwright.rules]\nclub = club_rules\n")
    path = os.pathsep.join(["", str(tmp_path / "site"), str(plugin)])
    status, closing = ended(hostile, str(PROGRAM), "review", ".", PYTHONPATH=path)
    assert (status, closing) == (1, "2 recipes reviewed: 1 error, 2 warnings")
    assert marks(hostile) == []


def test_a_python_that_is_started_keeps_the_folder_out_too(hostile: Path) -> None:
    """Where processes are started afresh, each begins by importing the machinery for it."""
    code = (
        "from mashwright.import_path import keep_out_here; keep_out_here()\n"
        "from concurrent.futures import ProcessPoolExecutor\n"
        "from multiprocessing import get_context\n"
        "for kind in ('spawn', 'forkserver'):\n"
        "    with ProcessPoolExecutor(1, get_context(kind)) as executor:\n"
        "        print(executor.submit(len, 'ab').result())\n"
    )
    done = subprocess.run(
        [sys.executable, "-c", code],
        cwd=hostile,
        env={**os.environ, "PYTHONPATH": os.pathsep},
        capture_output=True,
        text=True,
        check=False,
        timeout=60,
    )
    assert (done.stdout, marks(hostile)) == ("2\n2\n", []), done.stderr


def test_a_folder_that_is_gone_is_no_trouble(tmp_path: Path) -> None:
    script = f'cd "{tmp_path}" && mkdir gone && cd gone && rmdir ../gone && "{PROGRAM}" --version'
    done = subprocess.run(["sh", "-c", script], capture_output=True, text=True, check=False, timeout=60)
    assert (done.returncode, done.stderr) == (0, "")
