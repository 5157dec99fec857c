"""``mashwright amend``: what it shows, what it writes, and that at no moment a recipe is lost."""

import os
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest

from mashwright import review_text
from mashwright.cli import amend as command
from mashwright.reviewing.amending import applied
from mashwright.reviewing.results import READING_RULES

SLIPS = """\
# the club's bitter, as typed on the train
recipe: Ten Slips   # a name
batch: 20 l
efficiency: 72 %
grist:
  - {grain: pale ale malt, wieght: "1,5 kg"}   # base
  - {grain: flaked maize, weight: 3.2 kg}
  - {grain: crystal malt, weight: 0,2 kg}
mash: {water: 14 l, rests: [{at: 66 °C, for: 60 min}]}
boil: {fro: 60 min}
hops:
  - {hop: East Kent Golding, weight: 30 g, alpha: 52 %, boil: 60}
  - {hop: Fuggle, weight: 20 g, alpha: 4.5 %, form: pelet, boil: 10 min}
yeast: {kind: English ale, attenuation: 75 %, pitch: 11 g}
ferment: [{at: 35 °C, for: 10 d}]
package: {in: bottles, carbonation: 5 volumes}
targets: {og: 1.060}
accepted:
  - {rule: mash-out, reason: "always"}
"""


def run(folder: Path, *arguments: str, **options: object) -> "subprocess.CompletedProcess[bytes]":
    return subprocess.run(  # type: ignore[call-overload,no-any-return]
        [sys.executable, "-m", "mashwright", "amend", *arguments],
        cwd=folder,
        capture_output=True,
        check=False,
        **options,
    )


def test_ten_slips_and_faults_are_mended_to_green(tmp_path: Path) -> None:
    file = tmp_path / "ten.yaml"
    file.write_text(SLIPS, encoding="utf-8")
    shown = run(tmp_path, "ten.yaml")
    assert shown.returncode == 1
    assert file.read_text(encoding="utf-8") == SLIPS
    done = run(tmp_path, "--write", "ten.yaml")
    assert done.returncode == 0, done.stderr.decode()
    assert done.stdout == shown.stdout
    after = file.read_text(encoding="utf-8")
    (recipe,) = review_text(after).recipes
    assert [(one.rule, one.message) for one in recipe.results if one.level > 1] == []
    assert after.startswith("# the club's bitter, as typed on the train\nrecipe: Ten Slips   # a name\n")
    assert "   # base\n" in after
    again = run(tmp_path, "ten.yaml")
    assert (again.returncode, again.stdout) == (0, b"")


def test_the_diff_is_one_that_git_applies(tmp_path: Path) -> None:
    (tmp_path / "ten.yaml").write_text(SLIPS, encoding="utf-8")
    diff = run(tmp_path, "ten.yaml").stdout
    (tmp_path / "other").mkdir()
    (tmp_path / "other/ten.yaml").write_text(SLIPS, encoding="utf-8")
    subprocess.run(["git", "init", "-q", "."], cwd=tmp_path / "other", check=True)
    subprocess.run(["git", "apply", "-p0", "-"], cwd=tmp_path / "other", input=diff, check=True)
    run(tmp_path, "--write", "ten.yaml")
    assert (tmp_path / "other/ten.yaml").read_bytes() == (tmp_path / "ten.yaml").read_bytes()


@pytest.mark.parametrize("end", ["\r\n", "\n"])
@pytest.mark.parametrize("mark", [b"", b"\xef\xbb\xbf"])
def test_line_ends_and_a_mark_stay(tmp_path: Path, end: str, mark: bytes) -> None:
    file = tmp_path / "Bräu haus.yaml"
    file.write_bytes(mark + SLIPS.replace("\n", end).encode())
    run(tmp_path, "--write", "--only-slips", "Bräu haus.yaml")
    after = file.read_bytes()
    assert after.startswith(mark + b"#")
    assert after.count(b"\r") == (after.count(b"\n") if end == "\r\n" else 0)
    assert b"1.5 kg" in after


def test_only_slips_changes_nothing_of_the_beer(tmp_path: Path) -> None:
    (tmp_path / "ten.yaml").write_text(SLIPS, encoding="utf-8")
    done = run(tmp_path, "--only-slips", "--write", "ten.yaml")
    after = (tmp_path / "ten.yaml").read_text(encoding="utf-8")
    assert (done.returncode, done.stderr) == (0, b"")
    assert "weight: 3.2 kg" in after
    assert "alpha: 52 %" in after
    assert "form: pellet" in after


def test_one_rule_alone(tmp_path: Path) -> None:
    (tmp_path / "ten.yaml").write_text(SLIPS, encoding="utf-8")
    run(tmp_path, "--rule", "hop-alpha", "--write", "ten.yaml")
    assert (tmp_path / "ten.yaml").read_text(encoding="utf-8") == SLIPS.replace("52 %", "5.2 %")
    unknown = run(tmp_path, "--rule", "hop-alfa", "ten.yaml")
    assert (unknown.returncode, b"hop-alpha" in unknown.stderr) == (2, True)


def test_what_may_mean_two_things_is_left(tmp_path: Path) -> None:
    text = "recipe: A\nbatch: 20 l\ngrist:\n  - {grain: pale ale malt, weight: 4}\n"
    (tmp_path / "a.yaml").write_text(text)
    done = run(tmp_path, "--write", "a.yaml")
    assert done.returncode == 1
    assert (tmp_path / "a.yaml").read_text() == text
    assert b"write 4 kg or 4 lb" in done.stderr


def test_a_folder_and_nothing_to_mend(tmp_path: Path) -> None:
    (tmp_path / "a.yaml").write_text("recipe: A\nbatch: 20 l\ngrist: [4 kg pale ale malt]\n")
    done = run(tmp_path)
    assert (done.returncode, done.stdout, done.stderr) == (0, b"", b"")
    assert run(tmp_path, "nowhere.yaml").returncode == 2


def test_a_link_stays_and_its_target_is_written(tmp_path: Path) -> None:
    (tmp_path / "ten.yaml").write_text(SLIPS, encoding="utf-8")
    (tmp_path / "link.yaml").symlink_to("ten.yaml")
    os.chmod(tmp_path / "ten.yaml", 0o640)
    assert run(tmp_path, "--write", "link.yaml").returncode == 0
    assert (tmp_path / "link.yaml").is_symlink()
    assert "1.5 kg" in (tmp_path / "ten.yaml").read_text(encoding="utf-8")
    assert (tmp_path / "ten.yaml").stat().st_mode & 0o777 == 0o640


def test_a_file_that_changed_meanwhile_is_left_alone(tmp_path: Path) -> None:
    file = tmp_path / "a.yaml"
    file.write_text("recipe: B\n")
    assert command.written(str(file), "recipe: A\n", "recipe: C\n") == "it was changed meanwhile"
    assert file.read_text() == "recipe: B\n"
    assert os.listdir(tmp_path) == ["a.yaml"]


def test_ask_needs_a_terminal(tmp_path: Path) -> None:
    done = run(tmp_path, "--ask", stdin=subprocess.DEVNULL)
    assert done.returncode == 2
    assert b"--ask asks at a terminal" in done.stderr


def test_whenever_it_is_killed_the_file_is_whole(tmp_path: Path) -> None:
    """Killed at forty moments of its run: the file holds the old text or the new one, to the byte."""
    (tmp_path / "ten.yaml").write_text(SLIPS, encoding="utf-8")
    begun = time.monotonic()
    run(tmp_path, "--write", "ten.yaml")
    whole = time.monotonic() - begun
    after = (tmp_path / "ten.yaml").read_bytes()
    seen = set()
    for moment in range(40):
        file = tmp_path / "one.yaml"
        file.write_text(SLIPS, encoding="utf-8")
        process = subprocess.Popen(
            [sys.executable, "-m", "mashwright", "amend", "--write", "one.yaml"],
            cwd=tmp_path,
            stdout=subprocess.DEVNULL,
            stderr=subprocess.DEVNULL,
        )
        time.sleep(whole * (0.5 + moment / 60))
        process.send_signal(signal.SIGKILL)
        process.wait()
        seen.add(file.read_bytes())
    assert seen <= {SLIPS.encode(), after}


def test_every_mend_of_a_slip_removes_its_finding_and_parses() -> None:
    (recipe,) = review_text(SLIPS).recipes
    slips = [one for one in recipe.results if one.rule in READING_RULES]
    assert len(slips) >= 5
    for slip in slips:
        for remedy in slip.remedies:
            better = applied(SLIPS, [edit.replacement for edit in remedy.edits])
            (then,) = review_text(better).recipes
            assert (slip.rule, slip.message) not in [(one.rule, one.message) for one in then.results]
            assert len(better.splitlines()) >= len(SLIPS.splitlines()) - 2


def test_ask_offers_each_mend_and_takes_none_for_an_answer(tmp_path: Path) -> None:
    import pty

    text = "recipe: A\nbatch: 20 l\ngrist:\n  - {grain: pale ale malt, weight: 4}\n"
    (tmp_path / "a.yaml").write_text(text)
    for answer, weight in (("2\n", "weight: 4 lb}"), ("0\n", "weight: 4}")):
        (tmp_path / "a.yaml").write_text(text)
        ours, theirs = pty.openpty()
        process = subprocess.Popen(
            [sys.executable, "-m", "mashwright", "amend", "--ask", "--write", "a.yaml"],
            cwd=tmp_path,
            stdin=theirs,
            stdout=subprocess.DEVNULL,
            stderr=subprocess.PIPE,
        )
        os.write(ours, answer.encode() + b"0\n" * 5)
        _, told = process.communicate(timeout=60)
        os.close(ours)
        os.close(theirs)
        assert b"  1  write 4 kg instead of 4\n  2  write 4 lb instead of 4\n" in told
        assert weight in (tmp_path / "a.yaml").read_text()


def test_a_file_that_cannot_be_read_is_2_and_stays(tmp_path: Path) -> None:
    for text in (SLIPS.encode() + b"\0", b"recipe: [\n", b"\xff\xfe"):
        (tmp_path / "a.yaml").write_bytes(text)
        done = run(tmp_path, "--write", "a.yaml")
        assert (done.returncode, done.stdout) == (2, b"")
        assert b"a.yaml" in done.stderr
        assert (tmp_path / "a.yaml").read_bytes() == text
