"""A baseline by the command line: what is said, what fails, and what is written."""

import sys
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

from mashwright.reviewing import plugins
from mashwright.reviewing.entries import Entry

Call = Callable[..., tuple[int, str, str]]

RULE = '''
"""Is there enough grain?"""
from mashwright.figures.grist.shares import grist_weight
from mashwright.rule import Finding, Limit, Settings, below, gap

class Limits(Settings):
    floor_kg = Limit(3, "kg", low=1, high=10, source="judgement")

def check(brew, limits):
    weight = grist_weight(brew)
    if (level := below(weight, limits.floor_kg)) is not None:
        message = f"the grist weighs {weight.typical:g} kg; below {limits.floor_kg:g} kg it is no grist"
        yield Finding(("grist", 0), level, message, gap(weight, limits.floor_kg))
'''
LIGHT = "recipe: {0}\nbatch: 20 l\ngrist:\n  - {{grain: pale ale malt, weight: {1}}}\n"
TOLD = "4:6: error: light-grist: the grist weighs {0}; below 3 kg it is no grist\n"
HEADER = "# findings that are known; written by mashwright review --write-baseline\n"
KNOWN = "{0}.yaml\tlight-grist\t/grist/pale ale malt\terror\t{1}\n"


@pytest.fixture(autouse=True)
def one_rule(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[None]:
    """One rule in place of all, whose words and numbers stay."""
    package = tmp_path / "site" / "scale_rules"
    package.mkdir(parents=True)
    (package / "__init__.py").touch()
    (package / "light_grist.py").write_text(RULE)
    monkeypatch.syspath_prepend(str(package.parent))
    monkeypatch.setattr(plugins, "entries", lambda _: [Entry("one", "scale_rules", "scale_rules")])
    plugins.installed.cache_clear()
    yield
    plugins.installed.cache_clear()
    for name in [name for name in sys.modules if name.split(".")[0] == "scale_rules"]:
        del sys.modules[name]


@pytest.fixture
def brew(folder: Path) -> Callable[..., None]:
    """Writes recipes: ``brew(a="2 kg")``."""

    def write(**weights: str) -> None:
        for name, weight in weights.items():
            (folder / f"{name}.yaml").write_text(LIGHT.format(name.title(), weight))

    return write


WRITE = ("review", "--baseline", "known.txt", "--write-baseline")
CHECK = ("review", "--baseline", "known.txt")


def test_from_the_first_day_on_only_new_trouble_fails(
    mashwright: Call, folder: Path, brew: Callable[..., None]
) -> None:
    brew(a="2 kg", b="1.5 kg", c="4 kg")
    status, out, err = mashwright(*WRITE)
    assert (status, err) == (0, "mashwright: known.txt: 2 findings written down\n3 recipes reviewed: 2 errors\n")
    assert out == f"a.yaml:{TOLD.format('2 kg')}b.yaml:{TOLD.format('1.5 kg')}"
    assert (folder / "known.txt").read_text() == HEADER + KNOWN.format("a", "0.3333") + KNOWN.format("b", "0.5")
    assert mashwright(*CHECK) == (0, "", "3 recipes reviewed: no errors, no warnings; 2 known\n")

    brew(a="1 kg")
    assert mashwright(*CHECK) == (1, f"a.yaml:{TOLD.format('1 kg')}", "3 recipes reviewed: 1 error; 1 known\n")
    brew(a="2.5 kg")
    assert mashwright(*CHECK) == (0, "", "3 recipes reviewed: no errors, no warnings; 2 known\n")
    brew(a="4 kg")
    gone = "mashwright: gone since the baseline: a.yaml: light-grist at /grist/pale ale malt\n"
    closing = "3 recipes reviewed: no errors, no warnings; 1 known\n"
    prune = "mashwright: --prune takes what is gone out of the baseline\n"
    assert mashwright(*CHECK) == (0, "", gone + prune + closing)
    assert mashwright(*CHECK, "--prune") == (0, "", gone + "mashwright: known.txt: 1 finding written down\n" + closing)
    assert (folder / "known.txt").read_text() == HEADER + KNOWN.format("b", "0.5")
    assert mashwright(*CHECK) == (0, "", closing)


def test_pruning_keeps_what_is_new_out_of_the_baseline(
    mashwright: Call, folder: Path, brew: Callable[..., None]
) -> None:
    brew(a="2 kg")
    mashwright(*WRITE)
    brew(a="1 kg", b="2 kg")
    status, _, err = mashwright(*CHECK, "--prune")
    assert (status, err) == (1, "mashwright: known.txt: 1 finding written down\n2 recipes reviewed: 2 errors\n")
    assert (folder / "known.txt").read_text() == HEADER + KNOWN.format("a", "0.3333")


def test_a_refresh_of_a_part_keeps_the_rest(mashwright: Call, folder: Path, brew: Callable[..., None]) -> None:
    brew(a="2 kg", b="1.5 kg")
    mashwright(*WRITE)
    brew(a="2.5 kg", b="4 kg")
    assert mashwright(*WRITE, "a.yaml")[0] == 0
    assert (folder / "known.txt").read_text() == HEADER + KNOWN.format("a", "0.1667") + KNOWN.format("b", "0.5")


def test_a_renamed_file_is_said(mashwright: Call, folder: Path, brew: Callable[..., None]) -> None:
    brew(a="2 kg")
    mashwright(*WRITE)
    (folder / "a.yaml").rename(folder / "z.yaml")
    again, counts = (
        "mashwright: a.yaml is known again as z.yaml\n",
        "1 recipe reviewed: no errors, no warnings; 1 known\n",
    )
    assert mashwright(*CHECK) == (0, "", again + counts)
    written = "mashwright: known.txt: 1 finding written down\n"
    assert mashwright(*CHECK, "--prune") == (0, "", again + written + counts)
    assert (folder / "known.txt").read_text() == HEADER + KNOWN.format("z", "0.3333")


def test_it_may_be_used_from_another_folder(
    mashwright: Call, folder: Path, brew: Callable[..., None], monkeypatch: pytest.MonkeyPatch
) -> None:
    brew(a="2 kg")
    (folder / "in").mkdir()
    (folder / "in" / "b.yaml").write_text(LIGHT.format("B", "2 kg"))
    mashwright(*WRITE)
    before = (folder / "known.txt").read_text()
    assert before == HEADER + KNOWN.format("a", "0.3333") + KNOWN.format("in/b", "0.3333")
    monkeypatch.chdir(folder / "in")
    told = "1 recipe reviewed: no errors, no warnings; 1 known\n"
    assert mashwright("review", "--baseline", "../known.txt") == (0, "", told)
    known = str(folder / "known.txt")
    written = f"mashwright: {known}: 2 findings written down\n"
    assert mashwright("review", "--baseline", known, "--write-baseline") == (0, "", written + told)
    assert (folder / "known.txt").read_text() == before


def test_an_audit_shows_what_is_known_and_accepted(mashwright: Call, folder: Path, brew: Callable[..., None]) -> None:
    brew(a="2 kg")
    mashwright(*WRITE)
    (folder / "b.yaml").write_text(LIGHT.format("B", "1 kg") + "accepted: [{rule: light-grist, reason: so be it}]\n")
    assert mashwright(*CHECK) == (0, "", "2 recipes reviewed: no errors, no warnings; 1 accepted; 1 known\n")
    ended = mashwright(*CHECK, "--audit")
    found = [f"a.yaml:{TOLD.format('2 kg')}".strip(), f"b.yaml:{TOLD.format('1 kg')}".strip()]
    assert [line for line in ended.out.splitlines() if ": error: " in line] == found
    assert [line for line in ended.out.splitlines() if line.endswith(".yaml")] == ["A, a.yaml", "B, b.yaml"]
    assert (ended.status, ended.err) == (1, "2 recipes reviewed: 2 errors\n")


def test_much_that_is_gone_is_counted(mashwright: Call, folder: Path, brew: Callable[..., None]) -> None:
    (folder / "known.txt").write_text("".join(KNOWN.format(f"x{number:02}", 1) for number in range(13)))
    brew(a="4 kg")
    err = mashwright(*CHECK)[2].splitlines()
    assert len(err) == 13
    assert err[9:] == [
        "mashwright: gone since the baseline: x09.yaml: light-grist at /grist/pale ale malt",
        "mashwright: and 3 more gone",
        "mashwright: --prune takes what is gone out of the baseline",
        "1 recipe reviewed: no errors, no warnings",
    ]


@pytest.mark.parametrize(
    ("arguments", "told"),
    [
        (
            ("--baseline", "none.txt"),
            "mashwright: none.txt: baseline not found; make it with --write-baseline\n",
        ),
        (
            ("--baseline", "damaged.txt"),
            "mashwright: damaged.txt:2: this is no line of a baseline; write the file anew with --write-baseline\n",
        ),
        (("--baseline", "."), "mashwright: .: this is no ordinary file; a baseline is one\n"),
        (
            ("--baseline", "no/k.txt", "--write-baseline"),
            "mashwright: no/k.txt cannot be written: No such file or directory\n",
        ),
    ],
)
def test_a_baseline_that_cannot_be_used(
    arguments: tuple[str, ...], told: str, mashwright: Call, folder: Path, brew: Callable[..., None]
) -> None:
    (folder / "damaged.txt").write_text(HEADER + "a.yaml\tlight-grist\n")
    brew(a="4 kg")
    status, _, err = mashwright("review", *arguments)
    assert (status, err) == (2, told)


@pytest.mark.parametrize(
    ("arguments", "told"),
    [
        (("--write-baseline",), "say with --baseline FILE which baseline is meant"),
        (("--prune",), "say with --baseline FILE which baseline is meant"),
        (
            ("--baseline", "k.txt", "--audit", "--prune"),
            "--audit looks at no baseline; leave out --audit, or what changes the baseline",
        ),
    ],
)
def test_options_that_do_not_go_together(arguments: tuple[str, ...], told: str, mashwright: Call) -> None:
    status, out, err = mashwright("review", *arguments)
    assert (status, out, err.splitlines()[-1]) == (2, "", f"mashwright: {told}")


def test_a_name_that_is_no_utf_8_is_known_again(mashwright: Call, folder: Path) -> None:
    name = b"br\xe4u.yaml"
    with open(bytes(folder) + b"/" + name, "w") as file:
        file.write(LIGHT.format("A", "2 kg"))
    assert mashwright(*WRITE)[0] == 0
    assert (folder / "known.txt").read_text() == HEADER + KNOWN.format("br\\udce4u", "0.3333")
    assert mashwright(*CHECK) == (0, "", "1 recipe reviewed: no errors, no warnings; 1 known\n")
