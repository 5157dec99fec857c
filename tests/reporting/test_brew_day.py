"""The brew day on paper: nothing that the recipe states is missing, and each line fits the page."""

import subprocess
import sys
from pathlib import Path

import pytest

from mashwright import figures_of, review_text
from mashwright.brew import Brew
from mashwright.measures.quantity import Kind
from mashwright.reporting.brew_day import day_markdown, day_text
from mashwright.reviewing.altering import stated
from mashwright.reviewing.brew_day import BrewDay, brew_day

SAMPLES = Path(__file__).parents[2] / "sample-recipes"
RECIPES = [path for path in sorted(SAMPLES.glob("**/*.yaml")) if path.name != "brewhouse.yaml"]
GOLDEN = Path(__file__).parents[1] / "golden" / "brew-day.txt"
HOUSE = (SAMPLES / "brewhouse.yaml").read_text(encoding="utf-8")


def day_of(text: str, house: str = HOUSE) -> BrewDay:
    (recipe,) = [one for one in review_text(text, brewhouse=house).recipes if one.path == "recipe.yaml"]
    return brew_day(Brew.of(text, house), figures_of(text, brewhouse=house), recipe.results)


def shown(text: str, start: float | None = None) -> str:
    return "".join(f"{line}\n" for line in day_text(day_of(text), start=start))


def test_the_sheet_of_a_step_mash_with_a_decoction() -> None:
    """Compared with the kept one, which a brewer has read."""
    printed = shown((SAMPLES / "house/mudflat-dunkel.yaml").read_text(encoding="utf-8"), start=510)
    import os

    if os.environ.get("RENEW_GOLDEN"):
        GOLDEN.write_text(printed, encoding="utf-8")
    assert printed == GOLDEN.read_text(encoding="utf-8")


ON_THE_DAY = (
    "grist", "mash", "sparge", "cereal-mash", "boil", "hops", "additions", "yeast", "ferment",
)  # fmt: skip
NOT_PLANNED = {"grain-temperature", "attenuation", "tolerance", "viability", "thickness", "age", "colour", "moisture",
               "extract", "diastatic-power", "gelatinises", "fermentable", "ph", "bitterness", "salts", "enzymes",
               "volume"}  # fmt: skip


@pytest.mark.parametrize("path", RECIPES, ids=lambda path: path.stem)
def test_no_number_of_the_day_is_missed_and_each_line_fits(path: Path) -> None:
    text = path.read_text(encoding="utf-8")
    printed = shown(text)
    joined = " ".join(printed.split())
    recipe = Brew.of(text, HOUSE).recipe
    for one in stated(recipe):
        if one.path == ("sparge",):  # several waters together, each of which is told
            continue
        if one.path[0] not in ON_THE_DAY or NOT_PLANNED & {str(step) for step in one.path}:
            continue
        if one.kind in (Kind.MASS, Kind.VOLUME, Kind.TEMPERATURE, Kind.TIME, Kind.SHARE) and recipe.mash.there:
            assert one.text in joined or " ".join(one.text.split()) in joined, one.path
    assert max(map(len, printed.splitlines())) <= 80
    assert "|" not in printed


def test_the_clock_goes_on_from_rest_to_rest() -> None:
    printed = shown((SAMPLES / "house/mudflat-dunkel.yaml").read_text(encoding="utf-8"), start=8 * 60 + 30)
    assert "clock 08:30" in printed
    assert "clock 09:45" in printed


def test_what_the_review_objects_to_stands_at_its_step() -> None:
    day = day_of((SAMPLES / "lessons/toffee-apple.yaml").read_text(encoding="utf-8"))
    (step,) = [one for part in day.parts for one in part.steps if one.objections]
    assert step.do.startswith("caramel malt 60")
    assert step.objections[0].startswith("error: nothing in this mash can convert starch")


def test_each_caution_is_said_once() -> None:
    day = day_of((SAMPLES / "house/ferry-bitter.yaml").read_text(encoding="utf-8"))
    cautions = [step.caution for part in day.parts for step in part.steps if step.caution]
    assert len(cautions) == len(set(cautions)) >= 4


def test_markup_in_a_recipe_stays_text() -> None:
    text = (
        "recipe: '<script>|x|'\nbatch: 20 l\ngrist:\n  - {grain: '[a](http://b)|*c*', weight: 4 kg, kind: base malt}\n"
    )
    page = "\n".join(day_markdown(day_of(text)))
    assert "<script>" not in page
    assert "\\[a\\]\\(http://b\\)\\|\\*c\\*" in page


def run(*arguments: str) -> "subprocess.CompletedProcess[bytes]":
    return subprocess.run(
        [sys.executable, "-m", "mashwright", "sheet", *arguments], cwd=SAMPLES, capture_output=True, check=False
    )


def test_the_command(tmp_path: Path) -> None:
    done = run("house/ferry-bitter.yaml", "--start", "08:30")
    assert (done.returncode, done.stderr) == (0, b"")
    assert b"clock 08:30" in done.stdout
    markdown = run("house/ferry-bitter.yaml", "--format", "markdown", "--output", str(tmp_path / "day.md"))
    assert markdown.returncode == 0
    assert (tmp_path / "day.md").read_text(encoding="utf-8").startswith("# Ferry Bitter: brew day\n")
    assert run("lessons/typed-on-the-ferry.yaml").returncode == 1
    assert run("nowhere.yaml").returncode == 2
    wrong = run("house/ferry-bitter.yaml", "--start", "25:00")
    assert (wrong.returncode, b"write it as 08:30" in wrong.stderr) == (2, True)


SEVERAL = """\
recipe: Several
batch: 20 l
grist: [{grain: Pilsner malt, weight: 4 kg}]
mash: {rests: [{at: 66 °C, for: 60 min}]}
chill: {by: no-chill, for: 12 h}
souring: {with: L. plantarum, in: kettle, at: 37 °C, for: 36 h, start-ph: 4.4, ph: 3.4}
aeration: {by: oxygen, oxygen: 10 mg/l}
package:
  - {in: bottles, count: 24, size: 330 ml, carbonation: 2.4 volumes}
  - {in: keg, share: 40 %, gas: 30 % CO2, pressure: 2 bar, at: 4 °C}
  - {in: steel keg, spund: {gravity: 1.014, pressure: 1.2 bar}}
"""


def test_souring_air_and_packages_are_on_the_sheet() -> None:
    joined = " ".join(shown(SEVERAL).replace("_", " ").split())
    for told in (
        "sour it in the kettle with L. plantarum: at 37 °C, for 36 h, from pH 4.4, to pH 3.4",
        "no-chill: 12 h",
        "give it pure oxygen: 10 mg/l",
        "into bottles with 2.4 volumes: 24 × 330 ml",
        "into keg: 40 %",
        "pressure: 2 bar of 30 % CO2 at 4 °C",
        "close it before its end: at 1.014, valve at 1.2 bar",
        "Pure oxygen feeds fire",
        "thrown away untasted",
    ):
        assert told in joined, told
    assert joined.index("sour it in the kettle") < joined.index("boil, lid off")


def test_beer_sours_in_the_fermenter_after_the_yeast() -> None:
    joined = " ".join(shown(SEVERAL.replace("in: kettle", "in: fermenter")).split())
    assert joined.index("sour it in the fermenter") > joined.index("boil, lid off")


def test_corrections_are_computed_for_this_recipe() -> None:
    text = (SAMPLES / "house/weir-weizen.yaml").read_text(encoding="utf-8")
    results = review_text(text, brewhouse=HOUSE).recipes[-1].results
    day = brew_day(Brew.of(text, HOUSE), figures_of(text, brewhouse=HOUSE), results, corrections=True)
    assert len(day.corrections) == 10
    weak, strong = day.corrections[0][1], day.corrections[5][1]
    assert "of dry malt extract" in weak
    assert "of boiled water" in strong
    page = list(day_text(day))
    assert "If the wort before the boil is not as planned" in page
    assert max(map(len, page)) <= 80
    assert day_of(text).corrections == ()


def test_hops_at_flameout_alone_say_nothing_of_the_boil() -> None:
    text = (
        "recipe: A\nbatch: 20 l\ngrist: [4 kg pale ale malt]\nmash: 66 °C for 60 min\nhops: [20 g Fuggle at flameout]\n"
    )
    printed = " ".join(shown(text).split())
    assert "a boil of 60 min, since its length is not stated" in printed
    assert "a boil of 0 min" not in printed
