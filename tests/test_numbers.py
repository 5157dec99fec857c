"""Any number, however large, small or odd, in any field of a whole recipe and a whole brewhouse: one plain review.

No rule fails on it, no figure either, nothing that is printed in any form is infinite or not a number. Each value is
drawn by hypothesis, the same each time; ``FUZZ_TIMES=20`` makes it twenty times as long.
"""

import os
import re
from contextlib import redirect_stderr, redirect_stdout
from io import StringIO
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from mashwright.cli.command import run as command
from mashwright.cli.reports import FORMATS
from mashwright.measures.unit_table import ROWS

TIMES = int(os.environ.get("FUZZ_TIMES", "1"))
RECIPE = """\
recipe: Everything at Once
by: Saltmarsh Lane Mash Circle
style: wheat ale
batch: 20 l
efficiency: 72 %
grist:
  - {grain: two-row pale malt, weight: 4 kg, colour: 2 °Lovibond, moisture: 4 %, diastatic-power: 110 °Lintner}
  - {grain: Vienna malt, weight: 500 g, lot: V-1}
  - {grain: raw wheat, weight: 1 kg, prepare: cereal mash, gelatinises: 62 °C}
  - {grain: heritage rye, weight: 200 g}
  - {sugar: table sugar, weight: 200 g, fermentable: 100 %, add: kettle}
  - {fruit: raspberry, weight: 1 kg, add: fermenter}
  - {grain: caramel malt 60, weight: 300 g, add: steep}
steep: {water: 4 l, at: 68 °C, for: 30 min}
mash:
  water: 14 l
  strike: 73 °C
  grain-temperature: 18 °C
  ph: 5.4
  salts: {gypsum: 3 g, calcium chloride: 2 g}
  acid: {lactic acid 80 %: 2 ml}
  enzymes: {alpha-amylase: 2 g}
  rests:
    - {at: 52 °C, for: 15 min}
    - {at: 63 °C, for: 30 min, by: infusion, water: 4 l, of: 95 °C}
    - {at: 70 °C, for: 30 min, by: decoction, pull: 30 %, boil: 10 min}
    - {at: 76 °C, to: 74 °C, for: 10 min, by: heat}
cereal-mash: {water: 4 l, rests: [{at: 70 °C, for: 10 min}], boil: 20 min}
sparge: {by: fly, water: 10 l, at: 76 °C, ph: 5.6, salts: {gypsum: 1 g}, acid: {lactic acid 80 %: 1 ml}}
water: {calcium: 60 mg/l, sodium: 20 mg/l, chloride: 40 mg/l, sulfate: 50 mg/l, alkalinity: 110 mg/l, ph: 7.2}
top-up: {kettle: 1 l, fermenter: 1 l}
boil: {for: 60 min, volume: 26 l, salts: {table salt: 1 g}}
hops:
  - {hop: Fuggle, weight: 30 g, alpha: 4.5 %, boil: 60 min, age: 6 months}
  - {hop: Golding, alpha-units: 4 AAU, boil: 30 min}
  - {hop: Saaz, bitterness: 5 IBU, alpha: 3 %, boil: 20 min}
  - {hop: Cascade, weight: 20 g, alpha: 6 %, whirlpool: 20 min, at: 80 °C}
  - {hop: Cascade, weight: 40 g, dry: 4 d, at: 14 °C}
additions:
  - {what: coriander, weight: 10 g, when: boil}
  - {what: potassium metabisulfite, weight: 1 g, when: package}
  - {what: lactic acid 80 %, volume: 3 ml, when: boil}
  - {what: vanilla bean, count: 2, when: ferment}
yeast: {kind: English ale, attenuation: 75 %, tolerance: 11 %, pitch: 11 g, viability: 90 %, starter: 1 l, at: 18 °C}
ferment:
  - {at: 18 °C, to: 20 °C, for: 10 d, enzymes: {glucoamylase: 1 ml}}
  - {at: -1 °C, for: 5 d}
package:
  in: bottles
  carbonation: 2.4 volumes
  gravity: 1.010
  at: 18 °C
  bottle-rating: 4 volumes
  pressure: 1 bar
  priming: {sugar: table sugar, weight: 120 g}
targets:
  og: 1.050
  fg: 1.010
  abv: 5.2 %
  bitterness: 30 IBU
  colour: 8 SRM
  pre-boil-gravity: 1.040
  first-wort-gravity: 1.070
  attenuation: 78 %
measured:
  - {og: 1.049, fg: 1.011, abv: 5 %, bitterness: 28 IBU, colour: 9 SRM, batch: 20 l, temperatures: {mash: 66 °C}}
"""
HOUSE = """\
brewhouse: Saltmarsh Lane
efficiency: 72 %
mash-tun: {volume: 30 l, dead-space: 1 l, loss: 1 l, heat: 0.6 l}
kettle: {volume: 35 l, loss: 1 l, boil-off: 4 l/h}
fermenter: {volume: 30 l, loss: 1 l}
vessels: {bottles: {rating: 4 volumes}, keg: {rating: 4 bar}}
absorption: 1.0 l/kg
altitude: 4 m
water: {calcium: 62 mg/l, magnesium: 6 mg/l, bicarbonate: 100 mg/l, ph: 7, dilution: 10 %}
lots:
  V-1: {of: Vienna malt, diastatic-power: 50 °Lintner, extract-fine-dry: 80 %, moisture: 4 %, colour: 3.5 °Lovibond}
  H-1: {of: Fuggle, alpha: 5 %}
ingredients:
  heritage rye: {kind: raw grain, cereal: rye, extract: 68 %, moisture: 12 %, colour: 2 °Lovibond, gelatinises: 60 °C}
rules:
  enzyme-sufficiency: {floor: 30 °Lintner}
  unit-slip: {boil: 100.5 °C}
"""
FIELD = re.compile(r"(?<=: )-?\d+(?:\.\d+)?(?: ([^\d\s,}]+))?(?=[,}\n])")
NUMBERS = (
    "0", "-0", "-1", "1e-320", "5e-324", "1e-310", "1e-300", "1e-200", "1e-30", "1e-9", "1e-400", "0.000001", "1e6",
    "999999999", "1e9", "1e10", "1e300", "1e308", "1e400", "-1e308", "-273.15", "-273.14", "-40", "99.99", "1000",
    "0x" + "f" * 4000, "0xff", "0o17", "1:30:00", "190:20:30", "1_000", "1,000", ".nan", ".inf", "-.inf", "nan", "inf",
    "NaN", "Infinity", "٣", "１", "½", "1/3", "1/999999999999999999999", "1/0", "1e-320-1e9", "0-1e9", "5e-324-5e-324",
    "9" * 79, "9" * 5000, "1e-9999999999", "1e+999", "0e0", "--1", "+1", "",
)  # fmt: skip
UNITS = sorted({row[0][0] for rows in ROWS.values() for row in rows})
TODAY = ("--today", "2026-03-01")
ENDLESS = re.compile(r"(?<![\w\\-])-?(?:inf|nan|NaN|Infinity)(?![\w-])")
ENDLESS_HERE = "the number that is written here"
FIELDS = [(text, match) for text in (RECIPE, HOUSE) for match in FIELD.finditer(text)]


def test_the_recipe_and_the_brewhouse_are_readable(tmp_path: Path) -> None:
    """So that a number is alone in being odd; nearly every field has one."""
    told = run(tmp_path, RECIPE, HOUSE, ["review", *TODAY])
    assert not re.search(r" (field|quantity|unreadable): ", told)
    assert len(FIELDS) > 140


def run(folder: Path, recipe: str, house: str, arguments: list[str]) -> str:
    """What the command prints; it never fails."""
    (folder / "recipe.yaml").write_text(recipe, encoding="utf-8")
    (folder / "brewhouse.yaml").write_text(house, encoding="utf-8")
    out = StringIO()
    with redirect_stdout(out), redirect_stderr(out):
        status = command([*arguments, str(folder / "recipe.yaml")])
    told = out.getvalue()
    assert status in (0, 1, 2), told
    assert "fault of mashwright" not in told
    assert " failed: " not in told
    assert "Traceback" not in told
    return told


@settings(
    max_examples=120 * TIMES,
    derandomize=TIMES == 1,
    deadline=None,
    suppress_health_check=[HealthCheck.too_slow, HealthCheck.function_scoped_fixture],
)
@given(
    index=st.integers(0, len(FIELDS) - 1),
    number=st.sampled_from(NUMBERS) | st.floats(allow_nan=True, allow_infinity=True).map(str),
    unit=st.none() | st.sampled_from(UNITS),
    form=st.sampled_from(FORMATS),
    audit=st.booleans(),
)
def test_any_number_in_any_field(
    index: int, number: str, unit: str | None, form: str, audit: bool, tmp_path: Path
) -> None:
    text, match = FIELDS[index]
    written = f"{number} {match[1] or '' if unit is None else unit}".strip()
    changed = text[: match.start()] + written + text[match.end() :]
    recipe, house = (changed, HOUSE) if text is RECIPE else (RECIPE, changed)
    told = run(tmp_path, recipe, house, ["review", *TODAY, "--notes", "--format", form, *["--audit"] * audit])
    told += run(tmp_path, recipe, house, ["figures", "--format", "json" if form == "json" else "text"])
    assert_finite(told, number)


def assert_finite(told: str, number: str) -> None:
    """Nothing is infinite but where the recipe is quoted, and no number is of more digits than a float of 1e22 has."""
    quoted = told.replace(number, ENDLESS_HERE) if ENDLESS.search(number) else told
    assert [quoted[max(0, one.start() - 80) : one.end()] for one in ENDLESS.finditer(quoted)] == []
    for digits in re.findall(r"\d{24,}", told):
        assert digits[:30] in number, digits


@pytest.mark.parametrize("number", ["1e-320", "1e300", "1e-9", "1e9", "0", "-273.15"])
def test_every_field_has_one_number(number: str, tmp_path: Path) -> None:
    """All of them at once, and all of the same sort at once: a whole recipe that vanishes, or has no end."""
    swap = FIELD.sub(lambda match: f"{number} {match[1] or ''}".strip(), RECIPE)
    masses = re.sub(r"(?<=: )\d+(?:\.\d+)? (?=k?g\b|m?l\b)", f"{number} ", RECIPE)
    houses = FIELD.sub(lambda match: f"{number} {match[1] or ''}".strip(), HOUSE)
    for recipe, house in ((swap, HOUSE), (masses, HOUSE), (swap, houses), (masses, houses), (RECIPE, houses)):
        for form in FORMATS:
            assert_finite(run(tmp_path, recipe, house, ["review", *TODAY, "--audit", "--format", form]), number)
        assert_finite(run(tmp_path, recipe, house, ["figures"]), number)
