"""What was known on the day of the baseline: known again after every harmless change, new where it got worse."""

# ruff: noqa: E501 -- a finding is asserted whole, on its line

import os
import re
import subprocess
from collections.abc import Callable
from pathlib import Path
from time import process_time

import pytest
from hypothesis import given
from hypothesis import strategies as st

from mashwright.budgets import KNOWN_OF_FILE
from mashwright.finding import Level
from mashwright.reading.document import Place
from mashwright.reviewing.baseline import HEADER, Baseline, Record, written
from mashwright.reviewing.collection import Collection
from mashwright.reviewing.compare import Comparison
from mashwright.reviewing.plugins import ConfigurationError
from mashwright.reviewing.results import ROOT, Result, Reviewed

Make = Callable[..., Collection]

LIGHT = "recipe: Light\nbatch: 20 l\ngrist:\n  - {grain: pale ale malt, weight: 2 kg}\n"
SOUND = LIGHT.replace("2 kg", "4 kg")
WATCH = '''
"""Are two recipes alike in name?"""
from mashwright.rule import Finding, Level

def gather(brew):
    return brew.recipe.name

def check_collection(gathered, limits):
    first = {}
    for path, name in sorted(gathered):
        if name in first:
            yield path, Finding(("recipe",), Level.WARNING, f"{name} is in {first[name]} too", gap=1.0)
        first.setdefault(name, path)
'''
KNOWN = "a.yaml\tlight-grist\t/grist/pale ale malt\terror\t0.3333"


@pytest.fixture(autouse=True)
def rules(install: Callable[..., None], light_grist: str) -> None:
    install(ours={"light_grist": light_grist, "watch": WATCH})


@pytest.fixture
def states(collection: Make) -> Callable[..., tuple[list[str], Comparison]]:
    """Reviews files of the current folder against a baseline: a line for each finding's state, and the baseline."""

    def review(known: str, *paths: str, name: str = "known.txt", **files: str) -> tuple[list[str], Comparison]:
        made = collection({f"{one}.yaml": text for one, text in files.items()})
        made.comparison = baseline = Comparison(Baseline.read(known, name))
        told = [
            f"{one.path}: {result.state}: {result.rule} {result.gap:.2f}"
            for one in made.paths(paths or (".",))
            for result in one.results
        ]
        return told, baseline

    return review


def baseline_of(*lines: str) -> str:
    return "\n".join((HEADER, *lines, ""))


def test_what_is_found_for_the_first_time_is_new_and_written_down(
    states: Callable[..., tuple[list[str], Comparison]],
) -> None:
    told, baseline = states("", a=LIGHT, b=SOUND.replace("Light", "Other"))
    assert told == ["a.yaml: new: light-grist 0.33"]
    assert written(baseline.refreshed()) == baseline_of(KNOWN)


@pytest.mark.parametrize(
    ("text", "told"),
    [
        (LIGHT, "a.yaml: unchanged: light-grist 0.33"),
        (LIGHT.replace("2 kg", "1.985 kg"), "a.yaml: unchanged: light-grist 0.34"),
        (LIGHT.replace("2 kg", "1.9 kg"), "a.yaml: new: light-grist 0.37"),
        (LIGHT.replace("2 kg", "2.5 kg"), "a.yaml: updated: light-grist 0.17"),
        ("# moved\n\n" + LIGHT.replace("batch", "by: us\nbatch"), "a.yaml: unchanged: light-grist 0.33"),
        (LIGHT.replace("\n", "\r\n"), "a.yaml: unchanged: light-grist 0.33"),
        (
            "recipe: Light\nbatch: 20 l\ngrist:\n- grain:   'pale ale malt'  # ours\n\n  weight: 2.0 kg\n",
            "a.yaml: unchanged: light-grist 0.33",
        ),
        (
            "{recipe: Light, batch: 20 l, grist: [{grain: pale ale malt, weight: 2000 g}]}\n",
            "a.yaml: unchanged: light-grist 0.33",
        ),
    ],
)  # fmt: skip
def test_the_state_of_a_finding(text: str, told: str, states: Callable[..., tuple[list[str], Comparison]]) -> None:
    found, baseline = states(baseline_of(KNOWN), a=text)
    assert (found, baseline.gone) == ([told], [])


def test_a_lines_index_has_no_say_but_its_name_has(states: Callable[..., tuple[list[str], Comparison]]) -> None:
    first = "grist:\n  - {grain: Vienna malt, weight: 100 g}\n"
    told, _ = states(
        baseline_of(KNOWN.replace("pale ale malt", "Vienna malt").replace("3333", "3")),
        a=LIGHT.replace("grist:\n", first),
    )
    assert told == ["a.yaml: unchanged: light-grist 0.30"]
    told, _ = states(baseline_of(KNOWN), a=LIGHT.replace("grist:\n", first))
    assert told == ["a.yaml: new: light-grist 0.30", "a.yaml: absent: light-grist 0.33"]


def test_a_higher_level_is_new_and_a_lower_one_better(states: Callable[..., tuple[list[str], Comparison]]) -> None:
    told, _ = states(baseline_of(KNOWN.replace("error", "warning").replace("0.3333", "9")), a=LIGHT)
    assert told == ["a.yaml: new: light-grist 0.33"]
    house = "brewhouse: Shed\nrules: {light-grist: {level: note}}\n"
    told, _ = states(baseline_of(KNOWN.replace("0.3333", "0.1")), a=LIGHT, brewhouse=house)
    assert told == ["a.yaml: updated: light-grist 0.33"]


def test_what_was_mended_is_absent_and_leaves_the_baseline(states: Callable[..., tuple[list[str], Comparison]]) -> None:
    told, baseline = states(baseline_of(KNOWN), a=SOUND)
    assert told == ["a.yaml: absent: light-grist 0.33"]
    assert baseline.gone == [Record("a.yaml", "light-grist", "/grist/pale ale malt", Level.ERROR, 0.3333)]
    assert (written(baseline.kept()), written(baseline.refreshed())) == (baseline_of(), baseline_of())


def test_what_is_known_of_a_file_that_is_gone_is_absent(states: Callable[..., tuple[list[str], Comparison]]) -> None:
    told, baseline = states(baseline_of(KNOWN, KNOWN.replace("a.yaml", "z.yaml")), a=LIGHT)
    assert told == ["a.yaml: unchanged: light-grist 0.33", "z.yaml: absent: light-grist 0.33"]
    assert written(baseline.kept()) == baseline_of(KNOWN)


def test_a_file_that_was_not_looked_at_keeps_what_is_known_of_it(
    states: Callable[..., tuple[list[str], Comparison]],
) -> None:
    other = KNOWN.replace("a.yaml", "b.yaml")
    told, baseline = states(baseline_of(KNOWN, other), "a.yaml", a=SOUND, b=LIGHT)
    assert told == ["a.yaml: absent: light-grist 0.33"]
    assert written(baseline.refreshed()) == written(baseline.kept()) == baseline_of(other)


def test_a_renamed_file_is_known_again(states: Callable[..., tuple[list[str], Comparison]]) -> None:
    told, baseline = states(baseline_of(KNOWN.replace("a.yaml", "old/b.yaml")), a=LIGHT)
    assert (told, baseline.renamed) == (["a.yaml: unchanged: light-grist 0.33"], {"old/b.yaml": "a.yaml"})
    assert written(baseline.refreshed()) == written(baseline.kept()) == baseline_of(KNOWN)


def test_a_renamed_file_that_got_worse_is_no_less_new(states: Callable[..., tuple[list[str], Comparison]]) -> None:
    told, _ = states(baseline_of(KNOWN.replace("a.yaml", "b.yaml")), a=LIGHT.replace("2 kg", "1 kg"))
    assert told == ["a.yaml: new: light-grist 0.67"]


def test_several_renamed_files_are_told_apart_by_their_numbers(
    states: Callable[..., tuple[list[str], Comparison]],
) -> None:
    light, lighter = KNOWN.replace("a.yaml", "y.yaml"), KNOWN.replace("a.yaml", "x.yaml").replace("3333", "6667")
    told, baseline = states(
        baseline_of(lighter, light), a=LIGHT, b=LIGHT.replace("2 kg", "1 kg").replace("Light", "Feather")
    )
    assert told == ["a.yaml: unchanged: light-grist 0.33", "b.yaml: unchanged: light-grist 0.67"]
    assert baseline.renamed == {"y.yaml": "a.yaml", "x.yaml": "b.yaml"}


def test_a_copy_is_no_renamed_file(states: Callable[..., tuple[list[str], Comparison]]) -> None:
    told, baseline = states(baseline_of(KNOWN), a=LIGHT, b=LIGHT.replace("Light", "Other"))
    assert told == ["a.yaml: unchanged: light-grist 0.33", "b.yaml: new: light-grist 0.33"]
    assert baseline.renamed == {}


def test_two_findings_that_are_alike_are_both_known(states: Callable[..., tuple[list[str], Comparison]]) -> None:
    twice = "recipe: Light\nbatch: 20 l\ngrist:\n  - {grain: pale ale malt, weight: 4}\n  - {grain: pale ale malt, weight: 4}\n"
    told, baseline = states("", a=twice)
    assert told == ["a.yaml: new: quantity 0.00"] * 2
    known = written(baseline.refreshed())
    assert known == baseline_of(*["a.yaml\tquantity\t/grist/pale ale malt/weight\terror\t0"] * 2)
    assert states(known, a=twice)[0] == ["a.yaml: unchanged: quantity 0.00"] * 2
    told, baseline = states(known, a=twice.replace("4}", "4 kg}", 1))
    assert told == ["a.yaml: unchanged: quantity 0.00", "a.yaml: absent: quantity 0.00"]
    assert len(baseline.kept()) == 1


WATCHED = "b.yaml\twatch\t/recipe\twarning\t1"


def test_what_is_found_in_the_whole_collection_is_known_again(
    states: Callable[..., tuple[list[str], Comparison]],
) -> None:
    told, baseline = states("", a=SOUND, b=SOUND)
    assert told == ["b.yaml: new: watch 1.00"]
    assert written(baseline.refreshed()) == baseline_of(WATCHED)
    assert states(baseline_of(WATCHED), a=SOUND, b=SOUND)[0] == ["b.yaml: unchanged: watch 1.00"]
    assert states(baseline_of(WATCHED), a=SOUND.replace("Light", "Full"), b=SOUND)[0] == ["b.yaml: absent: watch 1.00"]


def test_what_needs_the_whole_collection_is_not_gone_where_a_part_was_reviewed(
    states: Callable[..., tuple[list[str], Comparison]],
) -> None:
    light = KNOWN.replace("a.yaml", "b.yaml")
    told, baseline = states(baseline_of(light, WATCHED), "b.yaml", a=SOUND, b=LIGHT)
    assert (told, baseline.gone) == (["b.yaml: unchanged: light-grist 0.33"], [])
    assert written(baseline.refreshed()) == written(baseline.kept()) == baseline_of(light, WATCHED)


def test_a_renamed_file_brings_what_was_found_in_the_whole_collection(
    states: Callable[..., tuple[list[str], Comparison]],
) -> None:
    known = baseline_of(KNOWN.replace("a.yaml", "c.yaml"), WATCHED.replace("b.yaml", "c.yaml"))
    told, baseline = states(known, a=SOUND, b=LIGHT)
    assert told == ["b.yaml: unchanged: light-grist 0.33", "b.yaml: unchanged: watch 1.00"]
    assert baseline.renamed == {"c.yaml": "b.yaml"}


def test_what_a_rule_found_is_not_gone_because_it_crashed(
    install: Callable[..., None], states: Callable[..., tuple[list[str], Comparison]]
) -> None:
    install(broken={"broken": '"""Is it?"""\ndef check(brew, limits):\n    raise RuntimeError\n'})
    known = baseline_of("a.yaml\tbroken\t/grist\terror\t1")
    told, baseline = states(known, a=SOUND)
    assert (told, baseline.gone) == ([], [])
    assert written(baseline.refreshed()) == written(baseline.kept()) == known


def test_paths_count_from_the_folder_of_the_baseline(
    states: Callable[..., tuple[list[str], Comparison]], monkeypatch: pytest.MonkeyPatch
) -> None:
    Path("house").mkdir()
    Path("house/a.yaml").write_text(LIGHT)
    monkeypatch.chdir("house")
    known = baseline_of(KNOWN.replace("a.yaml", "house/a.yaml"), KNOWN.replace("a.yaml", "guests/b.yaml"))
    told, baseline = states(known, name="../known.txt")
    assert told == ["../guests/b.yaml: absent: light-grist 0.33", "a.yaml: unchanged: light-grist 0.33"][::-1]
    assert baseline.renamed == {}
    assert written(baseline.refreshed()) == baseline_of(KNOWN.replace("a.yaml", "house/a.yaml"))


# --- the file ---


@pytest.mark.parametrize(
    "line",
    [
        "a.yaml\tlight-grist\t/grist\terror",
        "a.yaml\tlight-grist\t/grist\tfatal\t1",
        "a.yaml\tlight-grist\t/grist\terror\tmuch",
        "a.yaml\tlight-grist\t/grist\terror\tnan",
        "a.yaml\tlight-grist\t/grist\terror\t-inf",
        "a.yaml\tlight-grist\t/grist\terror\t1e400",
        "a.yaml: light-grist",
        "<<<<<<< HEAD",
        "=======",
    ],
)
def test_a_damaged_line_is_named(line: str) -> None:
    message = "known.txt:3: this is no line of a baseline; write the file anew with --write-baseline"
    with pytest.raises(ConfigurationError, match=f"^{re.escape(message)}$"):
        Baseline.read(baseline_of(KNOWN, line), "known.txt")


signs = st.text("#ab \t\n\r\\tnruxU0/.d8\u2028\x85\x0bé🍺\udcff:[\u200b\U000e0041", max_size=8)


@given(
    st.lists(
        st.builds(Record, signs, signs, signs, st.sampled_from(Level), st.sampled_from((0.0, 0.25, 1e-7))), max_size=5
    )
)
def test_what_is_written_is_what_is_read(records: list[Record]) -> None:
    text = written(records)
    text.encode("utf-8")
    assert text.count("\n") == 1 + len(records)
    assert all(line.replace("\t", "").isprintable() for line in text.split("\n"))
    assert not re.search(r"(?m)^\s*::|##\[", text)
    read = Baseline.read(text, "known.txt").records
    assert sorted(one for some in read.values() for one in some) == sorted(records)
    assert text == written(reversed(records))


def test_it_is_sorted_and_holds_no_line_numbers(states: Callable[..., tuple[list[str], Comparison]]) -> None:
    files = {name: LIGHT.replace("Light", name) for name in "dbca"}
    first = written(states("", **files)[1].refreshed())
    assert first.splitlines()[1:] == [KNOWN.replace("a.yaml", f"{name}.yaml") for name in "abcd"]
    moved = {name: f"# one\n# two\n{text}" for name, text in files.items()}
    assert written(states(first, **moved)[1].refreshed()) == first


# --- two branches that both refresh it ---


def git(*arguments: str) -> str:
    told = {f"GIT_{who}_{what}": "brewer" for who in ("AUTHOR", "COMMITTER") for what in ("NAME", "EMAIL")}
    environment = {**os.environ, **told, "GIT_CONFIG_GLOBAL": os.devnull}
    done = subprocess.run(["git", *arguments], env=environment, capture_output=True, text=True, check=True, timeout=60)
    return done.stdout


def refresh(collection: Make, **files: str) -> None:
    made = collection({f"{name}.yaml": text for name, text in files.items()})
    known = Path("known.txt")
    made.comparison = Comparison(Baseline.read(known.read_text() if known.exists() else "", "known.txt"))
    for _ in made.paths((".",)):
        pass
    known.write_text(written(made.comparison.refreshed()))
    git("add", ".")
    git("commit", "-qm", "refreshed")


@pytest.mark.parametrize(
    ("here", "there", "attributes"),
    [("b", "n", ""), ("a", "z", ""), ("g", "h", "known.txt merge=union\n")],
    ids=["apart", "at both ends", "side by side, by union"],
)
def test_two_branches_that_refresh_it_merge(
    here: str, there: str, attributes: str, collection: Make, states: Callable[..., tuple[list[str], Comparison]]
) -> None:
    collection({".gitattributes": attributes})
    git("init", "-q", "-b", "main")
    refresh(collection, **{name: LIGHT.replace("Light", name) for name in "cdefkmpqr"})
    git("checkout", "-qb", "other")
    refresh(collection, **{there: LIGHT.replace("Light", there)})
    git("checkout", "-q", "main")
    refresh(collection, **{here: LIGHT.replace("Light", here)})
    git("merge", "-q", "other", "-m", "merged")
    told, baseline = states(Path("known.txt").read_text())
    assert {one.split(": ")[1] for one in told} == {"unchanged"}
    assert (len(told), baseline.gone) == (11, [])
    assert written(baseline.refreshed()) == Path("known.txt").read_text()


def test_many_files_that_are_gone_cost_each_new_one_no_more_than_a_budget() -> None:
    gone = (
        Record(f"gone{number}.yaml", "light-grist", "/grist/pale ale malt", Level.ERROR, 0.5)
        for number in range(50_000)
    )
    baseline = Comparison(Baseline.read(written(gone), "known.txt"))
    begun = process_time()
    for number in range(200):
        result = Result(
            "light-grist",
            Level.ERROR,
            ROOT,
            Place(1, 1, 1, 1),
            "light",
            0.5,
            identity="light-grist /grist/pale ale malt",
        )
        assert baseline.compared(Reviewed(f"new{number}.yaml", "", (result,))).results[0].state == "unchanged"
    assert len(baseline.renamed) == 200
    assert process_time() - begun < 5  # two hundred times fifty thousand comparisons take a minute


def test_more_lines_of_one_file_than_a_review_tells_are_refused() -> None:
    lines = [KNOWN] * (KNOWN_OF_FILE + 1)
    with pytest.raises(ConfigurationError, match=r"known.txt:402: no file has more than 400 findings"):
        Baseline.read(baseline_of(*lines), "known.txt")
    assert len(Baseline.read(baseline_of(*lines[1:]), "known.txt").records["a.yaml"]) == KNOWN_OF_FILE
