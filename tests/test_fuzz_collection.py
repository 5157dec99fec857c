"""Whole collections that nobody would make: files, names, links, brewhouses and baselines, drawn and reviewed.

Each is reviewed by the command as CI calls it. Nothing is written, nothing outside is quoted, what is printed is text
that orders no runner about, and the status is one of three. ``FUZZ_TIMES=20`` makes it twenty times as long.
"""

import os
import shutil
import stat
import sys
import tempfile
import time
from collections.abc import Iterator
from contextlib import contextmanager
from io import StringIO
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from mashwright.cli.command import run

TIMES = int(os.environ.get("FUZZ_TIMES", "1"))
SECRET = "Corporal Nightjar's own secret"
LONGEST_S = 5.0

SOUND = "recipe: Lane Pale\nbatch: 20 l\ngrist:\n  - {grain: pale ale malt, weight: 4.5 kg}\n"
RECIPES = (
    SOUND,
    SOUND.replace("4.5 kg", "4"),
    SOUND.replace("20 l", "1e-320 l"),
    SOUND.replace("20 l", "0x" + "f" * 4000),
    SOUND.replace("4.5 kg", "1e308 kg"),
    SOUND.replace("Lane Pale", '"::error::\\u202e##vso[task]\\u001b[31m"'),
    SOUND + "mash: {rests: [{at: -273.15 °C, for: 9e9 d}, {at: 99 °C, for: 1e-9 min, by: decoction}]}\n",
    SOUND + "hops:\n" + "  - {hop: Fuggle, weight: 30 g, whirlpool: 1e6 min, at: -200 °C}\n" * 30,
    SOUND + "additions:\n" + "  - {what: coriander, weight: 10 g, when: boil}\n" * 60,
    SOUND + "accepted:\n  - {rule: '*', reason: all, until: 9999-99-99}\n",
    "a: &a [" + "[" * 70 + "]" * 70 + "]\nrecipe: *a\n",
    "x: &x {y: [1, 2, 3]}\nrecipe: [*x, *x, *x]\ngrist: *x\n",
    "%TAG ! tag:example.org,2000:\n---\nrecipe: !x y\n",
    "\ufeffrecipe: Mark\r\nbatch: 20 l\rgrist: []\n",
    "{recipe: Flow, batch: 20 l, grist: [{grain: pale ale malt, weight: 4 kg}]}",
    "name: another tool's file\non: push\n",
    "",
    " " * 3000,
    "recipe:\n" + "  - a\n" * 600,
)
HOUSES = (
    "brewhouse: Saltmarsh Lane\nefficiency: 72 %\n",
    "brewhouse: Saltmarsh Lane\nrules: {unit-slip: off, enzyme-sufficiency: {floor: -1e400 °Lintner}}\n",
    'brewhouse: Saltmarsh Lane\nrecipes: ["**/**/**/**/**/**/**/**/*a*a*a*a*a*b"]\n',
    "brewhouse: Saltmarsh Lane\nstop-at: note\naccepted: [{rule: quantity, in: '**', reason: x}]\n",
    "brewhouse: &b [*b]\n",
    "lots: {A: {of: A}, B: {of: B, alpha: 1e999 %}}\n",
    "- not\n- a brewhouse\n",
    "\x00\x01",
)
BASELINES = (
    "# findings\n",
    "a.yaml\tquantity\t/grist/0/weight\terror\t1\n",
    "a.yaml\tquantity\t/grist/0/weight\terror\tnan\n",
    "\x1b[31m::set-output\tx\ty\tz\t1\n",
    "../../../etc/passwd\tquantity\t/\terror\t1\n" * 50,
    "a.yaml\t" + "\t" * 200,
    "\ud800".encode("utf-8", "surrogatepass").decode("latin-1"),
)
NAMES = (
    "a.yaml", "b.yml", "brewhouse.yaml", "::error::x.yaml", "##[group]x.yaml", "-rf.yaml", "--baseline=a.yaml",
    "ä ö.yaml", "x\u202ey.yaml", "x\ny.yaml", "x\x1b[2Jy.yaml", "c" * 200 + ".yaml", "sitecustomize.py", "conftest.py",
)  # fmt: skip
FOLDERS = ("", "guests", "guests/deep", ".hidden", "objects", "refs")

files = st.lists(
    st.tuples(
        st.sampled_from(FOLDERS),
        st.sampled_from(NAMES),
        st.one_of(
            st.sampled_from(RECIPES).map(lambda text: ("text", text)),
            st.sampled_from(HOUSES).map(lambda text: ("text", text)),
            st.binary(max_size=60).map(lambda data: ("bytes", data)),
            st.sampled_from(["outside", ".", "..", "/dev/zero", "loop", "gone"]).map(lambda to: ("link", to)),
            st.just(("pipe", "")),
            st.just(("folder", "")),
        ),
    ),
    min_size=1,
    max_size=8,
)


@contextmanager
def collection(entries: list[tuple[str, str, tuple[str, str | bytes]]], baseline: str | None) -> Iterator[Path]:
    top = Path(tempfile.mkdtemp())
    club = top / "club"
    before = os.getcwd()
    try:
        (club / ".git").mkdir(parents=True)
        (top / "outside").write_text(f"{SECRET}: [\n{SECRET}\n")
        for folder, name, (sort, what) in entries:
            (club / folder).mkdir(parents=True, exist_ok=True)
            put(club / folder / name, sort, what, top)
        if baseline is not None:
            (club / "known.txt").write_text(baseline, encoding="utf-8", errors="surrogatepass")
        os.chdir(club)
        yield club
    finally:
        os.chdir(before)
        shutil.rmtree(top)


def put(path: Path, sort: str, what: str | bytes, top: Path) -> None:
    if os.path.lexists(path):
        return
    if sort == "text":
        path.write_text(str(what), encoding="utf-8", newline="")
    elif sort == "bytes":
        path.write_bytes(what if isinstance(what, bytes) else b"")
    elif sort == "pipe":
        os.mkfifo(path)
    elif sort == "folder":
        path.mkdir()
    else:
        target = {"outside": str(top / "outside"), "loop": path.name, "gone": "nowhere.yaml"}.get(str(what), str(what))
        path.symlink_to(target)


def entries_of(folder: Path) -> list[tuple[str, int, bytes]]:
    """Every entry below a folder, with its kind and, for a file, what is in it."""
    found = []
    for here, folders, names in os.walk(folder):
        for name in (*folders, *names):
            path = Path(here) / name
            mode = path.lstat().st_mode
            found.append((str(path), stat.S_IFMT(mode), path.read_bytes() if stat.S_ISREG(mode) else b""))
    return sorted(found)


@pytest.mark.skipif(os.name != "posix", reason="links and pipes are made as POSIX has them")
@settings(
    max_examples=40 * TIMES,
    derandomize=TIMES == 1,
    deadline=None,
    suppress_health_check=[HealthCheck.too_slow, HealthCheck.function_scoped_fixture],
)
@given(
    entries=files,
    baseline=st.none() | st.sampled_from(BASELINES),
    form=st.sampled_from(["text", "json", "sarif", "junit", "markdown"]),
    audit=st.booleans(),
)
def test_a_collection_of_a_stranger(
    entries: list[tuple[str, str, tuple[str, str | bytes]]],
    baseline: str | None,
    form: str,
    audit: bool,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    with collection(entries, baseline) as club:
        before = entries_of(club)
        out, err = StringIO(), StringIO()
        arguments = ["review", ".", "--notes", "--format", form, "--today", "2026-01-01", "--allow-empty"]
        arguments += ["--baseline", "known.txt"] if baseline is not None and not audit else ["--audit"] * audit
        monkeypatch.setattr(sys, "stdout", out)
        monkeypatch.setattr(sys, "stderr", err)
        began = time.process_time()
        status = run(arguments)
        took_s = time.process_time() - began
        monkeypatch.undo()
        told = out.getvalue() + err.getvalue()
        assert status in (0, 1, 2)
        assert "Traceback" not in told
        assert SECRET not in told
        assert took_s < LONGEST_S
        assert entries_of(club) == before, "a review changes nothing"
        assert all(line.isprintable() or line.startswith("\t") for line in told.split("\n"))
        assert not any(line.startswith("::") for line in told.split("\n"))
        assert "##[" not in told
        assert "##vso[" not in told
