"""The command line in a folder of its own, inside this process and as a process."""

import io
import os
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path
from typing import NamedTuple

import pytest

from mashwright.cli.command import run


class Ended(NamedTuple):
    """How a call ended: its status, and what it wrote."""

    status: int
    out: str
    err: str


SOUND = """\
recipe: Lane Bitter
batch: 20 l
grist:
  - {grain: pale ale malt, weight: 4 kg}
"""


@pytest.fixture
def sound() -> str:
    return SOUND


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """An empty folder below none that has a brewhouse; it is the current one."""
    folder = tmp_path / "club"
    (folder / ".git").mkdir(parents=True)
    monkeypatch.chdir(folder)
    return folder


@pytest.fixture
def mashwright(
    folder: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> Callable[..., Ended]:
    """Runs a command line in this process: ``mashwright("review", "a.yaml")``."""

    def call(*arguments: str, stdin: bytes = b"") -> Ended:
        monkeypatch.setattr(sys, "stdin", io.TextIOWrapper(io.BytesIO(stdin)))
        status = run(arguments)
        out, err = capsys.readouterr()
        return Ended(status, out, err)

    return call


@pytest.fixture
def process(folder: Path) -> Callable[..., Ended]:
    """Runs a command line as a process of its own, in its own environment."""

    def call(*arguments: str, stdin: bytes = b"", **environment: str) -> Ended:
        done = subprocess.run(
            [sys.executable, "-m", "mashwright", *arguments],
            input=stdin,
            capture_output=True,
            env={**os.environ, **environment},
            timeout=60,
            check=False,
        )
        return Ended(done.returncode, done.stdout.decode(), done.stderr.decode())

    return call


@pytest.fixture
def plugin(tmp_path: Path) -> Callable[[str], str]:
    """Installs a distribution with one rule, odd-rule; what PYTHONPATH must be for it."""

    def install(source: str) -> str:
        site = tmp_path / "site"
        (site / "odd_rules").mkdir(parents=True)
        (site / "odd_rules" / "__init__.py").touch()
        (site / "odd_rules" / "odd_rule.py").write_text(source)
        about = site / "odd-1.0.dist-info"
        about.mkdir()
        (about / "METADATA").write_text("Metadata-Version: 2.1\nName: odd\nVersion: 1.0\n")
        (about / "entry_points.txt").write_text("[mashwright.rules]\nodd = odd_rules\n")
        return str(site)

    return install
