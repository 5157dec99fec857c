"""Writes down all that is printed of many recipes, so that a change which must change no word can be held to that.

``python tests/unchanged/outputs.py FOLDER [NUMBER]`` fills a new folder: reviews in every format, with notes, as an
audit, and the figures of each recipe, for the samples, the examples of the rules, every recipe that stands in a test,
and NUMBER generated ones (2000). Run it in the checkout before a change and in the one after it, then
``python tests/unchanged/outputs.py FOLDER OTHER --compare`` names what differs and ends with 1.
"""

import ast
import contextlib
import filecmp
import importlib.util
import io
import os
import shutil
import sys
from collections.abc import Iterator
from pathlib import Path
from types import ModuleType

from mashwright.cli.command import run

TESTS = Path(__file__).resolve().parent.parent
TOP = TESTS.parent
TODAY = ("--today", "2026-11-25")
REVIEWS = {
    "text": ("--notes",),
    "json": ("--format", "json"),
    "sarif": ("--format", "sarif"),
    "junit": ("--format", "junit"),
    "markdown": ("--format", "markdown"),
    "audit": ("--audit",),
}


def main(arguments: list[str]) -> int:
    """Fill a folder, or compare two."""
    if "--compare" in arguments:
        first, second = (Path(one) for one in arguments if one != "--compare")
        different = sorted(_different(filecmp.dircmp(first, second)))
        print("\n".join(different) or "every file is the same")
        return 1 if different else 0
    folder = Path(arguments[0]).resolve()
    number = int(arguments[1]) if len(arguments) > 1 else 2000
    folder.mkdir()
    for name, recipes in _collections(folder / "recipes", number):
        print(f"{name}: {sum(1 for _ in recipes.rglob('*.yaml'))} files", file=sys.stderr)
        _write(folder / "printed" / name, recipes)
    return 0


def _different(compared: "filecmp.dircmp[str]", below: str = "") -> Iterator[str]:
    for name in (*compared.left_only, *compared.right_only):
        yield f"{below}{name}: only in one"
    _, differ, unread = filecmp.cmpfiles(compared.left, compared.right, compared.common_files, shallow=False)
    yield from (f"{below}{name}" for name in (*differ, *unread))
    for name, deeper in compared.subdirs.items():
        yield from _different(deeper, f"{below}{name}/")


def _collections(folder: Path, number: int) -> Iterator[tuple[str, Path]]:
    """Folders of recipes, each reviewed by itself."""
    shutil.copytree(TOP / "sample-recipes", folder / "samples")
    yield "samples", folder / "samples"
    texts = (text for path in sorted((TOP / "rules").rglob("*.py"), key=_by_name) for text in _recipes_in(path))
    yield "examples", _laid_out(folder / "examples", texts)
    texts = (text for path in sorted(TESTS.rglob("test_*.py")) for text in _recipes_in(path))
    yield "tests", _laid_out(folder / "tests", texts)
    generated = folder / "generated"
    generated.mkdir()
    _benchmark_recipes().write(generated, number)
    yield "generated", generated


def _by_name(path: Path) -> str:
    """Of a rule whose file moves to another folder, or becomes one, the example keeps its number."""
    return f"{path.parent.name}.py" if path.name == "__init__.py" else path.name


def _recipes_in(path: Path) -> Iterator[str]:
    """The texts in a module that are a whole recipe."""
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Constant) and isinstance(node.value, str):
            text = node.value
            if text.startswith("recipe:") and "\ngrist:" in text:
                yield text


def _laid_out(folder: Path, texts: Iterator[str]) -> Path:
    folder.mkdir()
    for number, text in enumerate(dict.fromkeys(texts)):
        (folder / f"{number:05}.yaml").write_text(text, encoding="utf-8", errors="surrogatepass", newline="")
    return folder


def _benchmark_recipes() -> ModuleType:
    spec = importlib.util.spec_from_file_location("recipes", TESTS / "benchmarks" / "recipes.py")
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


def _write(printed: Path, recipes: Path) -> None:
    printed.mkdir(parents=True)
    with contextlib.chdir(recipes):  # so that no path tells where the folder lies
        for name, options in REVIEWS.items():
            (printed / name).write_text(_said("review", ".", "--jobs", "1", *TODAY, *options), encoding="utf-8")
        for path in sorted(str(one.relative_to(recipes)) for one in recipes.rglob("*.yaml")):
            if os.path.basename(path) != "brewhouse.yaml":
                told = "".join(_said("figures", path, "--format", form) for form in ("text", "json"))
                (printed / f"figures {path.replace(os.sep, ' ')}").write_text(told, encoding="utf-8")


def _said(*arguments: str) -> str:
    """What a call prints, on both streams, and its status."""
    out, err = io.StringIO(), io.StringIO()
    with contextlib.redirect_stdout(out), contextlib.redirect_stderr(err):
        status = run(list(arguments))
    return f"{out.getvalue()}--- standard error\n{err.getvalue()}--- status {status}\n"


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
