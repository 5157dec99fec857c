"""A recipe with ten slips and faults, mended in the terminal, by a client and in an editor: the same to the byte."""

import os
import re
import shutil
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest
from language_client import Client, applied
from lsprotocol import types

from mashwright.cli.command import run

SAMPLES = Path(__file__).parents[2] / "sample-recipes"
SLIPS = """\
recipe: Ten slips of Süßholz 🍺   # typed on the ferry
batch: 20 l
grist:
  - {grain: two-row pale malt, wieght: 3,8 kg}
  - {grain: caramell malt 40, weight: 300 g}
mash:
  water: 14 l
  rests:
    - {at: 80 °C, for: 60 min}   # 🍺 too hot
boil: {fro: 60 min}
hops:
  - {hop: East Kent Golding, weight: 30 g, alpha: 5,2 %, boil: 60 min}
  - {hop: Fuggle, wight: 20 g, alpha: 4.5 %, boil: 15 min}
yeast: {kind: Englsh ale, atenuation: 75 %}
ferment:
  - {at: 19 °C, for: 10 d}
package: {in: bottles, carbonation: 2,3 volumes}
"""


def by_the_terminal(folder: Path, text: str) -> str:
    """What ``amend --write`` makes of a recipe."""
    path = folder / "amended.yaml"
    path.write_bytes(text.encode())
    run(["amend", "--write", str(path)])
    return path.read_bytes().decode()


def by_quick_fixes(client: Client, text: str) -> tuple[str, int]:
    """What the preferred quick fixes make of it, one after the other; and how many findings there were."""
    at_first = len(client.open("recipe.yaml", text, 1))
    for version in range(2, 62):
        offered = [one for one in client.mends("recipe.yaml") if one.is_preferred]
        if not offered:
            break
        edit = offered[0].edit
        assert edit is not None
        assert edit.document_changes is not None
        change = edit.document_changes[0]
        assert isinstance(change, types.TextDocumentEdit)
        text = applied(text, list(change.edits))  # type: ignore[arg-type]
        client.change("recipe.yaml", text, version)
    return text, at_first


def test_ten_slips_are_mended_to_green(started: Callable[..., Client], tmp_path: Path) -> None:
    client = started()
    mended, at_first = by_quick_fixes(client, SLIPS)
    assert at_first >= 7, "one finding each, but for those that can be seen only when others are mended"
    client.change("recipe.yaml", mended, 99)
    assert client.told("recipe.yaml", 99) == []
    assert mended == by_the_terminal(tmp_path, SLIPS)
    assert len([1 for old, new in zip(SLIPS.split(), mended.split(), strict=True) if old != new]) == 10


@pytest.mark.parametrize("path", sorted(SAMPLES.glob("*/*.yaml"))[::3], ids=lambda path: path.stem)
def test_each_sample_is_mended_alike(started: Callable[..., Client], tmp_path: Path, path: Path) -> None:
    (tmp_path / "brewhouse.yaml").write_bytes((SAMPLES / "brewhouse.yaml").read_bytes())
    text = path.read_bytes().decode()
    assert by_quick_fixes(started(), text)[0] == by_the_terminal(tmp_path, text)


@pytest.mark.skipif(shutil.which("nvim") is None, reason="Neovim is not installed")
def test_an_editor_mends_it_alike(tmp_path: Path) -> None:
    (tmp_path / "recipe.yaml").write_bytes(SLIPS.encode())
    script = Path(__file__).parent / "mend.lua"
    places = os.pathsep.join([str(Path(sys.executable).parent), os.environ.get("PATH", "")])
    home = {name: str(tmp_path / "home") for name in ("HOME", "XDG_STATE_HOME", "XDG_CACHE_HOME", "XDG_DATA_HOME")}
    done = subprocess.run(
        ["nvim", "--headless", "-u", "NONE", "-n", "-c", f"luafile {script}"],
        cwd=tmp_path,
        env={**os.environ, **home, "PATH": places},
        capture_output=True,
        text=True,
        timeout=120,
        check=True,
    )
    assert len(re.findall(r"found [\w-]+", done.stderr)) >= 7
    assert "left 0" in done.stderr
    assert (tmp_path / "recipe.yaml").read_bytes().decode() == by_the_terminal(tmp_path, SLIPS)
