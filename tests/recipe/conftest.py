"""The two examples of the file formats, and a typed value as a flat list of what it holds."""

# ruff: noqa: E501 -- a finding is asserted whole, on its line

from collections.abc import Callable, Mapping

import pytest
from msgspec import Struct

from mashwright.measures.quantity import Quantity
from mashwright.measures.range import Range
from mashwright.recipe.stated import Unreadable, Unsaid

HARBOUR_WHEAT = """\
recipe: Harbour Wheat
by: Saltmarsh Lane Mash Circle
style: wheat ale
batch: 20 l
efficiency: 70 %

grist:
  - grain: two-row pale malt
    weight: 2.9 kg
  - grain: raw wheat
    weight: 1.35 kg
  - grain: caramel malt 40
    weight: 300 g
    colour: 41 °Lovibond
    lot: CM-0419
  - sugar: table sugar
    weight: 200 g
    add: kettle

mash:
  water: 14 l
  strike: 73 °C
  grain-temperature: 18 °C
  ph: 5.4
  salts: {gypsum: 4 g, calcium chloride: 2 g}
  rests:
    - {at: 66 °C, for: 60 min}
    - {at: 76 °C, for: 10 min, by: infusion, water: 7.3 l, of: 98 °C}
sparge: {by: batch, water: 8.5 l, at: 75 °C}
water: {calcium: 60 mg/l, magnesium: 8 mg/l, sodium: 20 mg/l, chloride: 40 mg/l, sulfate: 55 mg/l, alkalinity: 110 mg/l}

boil: {volume: 25 l, for: 60 min}
hops:
  - {hop: East Kent Golding, weight: 30 g, alpha: 5.2 %, boil: 60 min, form: pellet}
  - {hop: Fuggle, weight: 20 g, alpha: 4.5 %, whirlpool: 20 min, at: 80 °C}
  - {hop: Fuggle, weight: 25 g, alpha: 4.5 %, dry: 4 d}

yeast: {kind: English ale, attenuation: 75 %, tolerance: 9 %, pitch: 11 g}
ferment:
  - {at: 19 °C, for: 10 d}
package: {in: bottles, carbonation: 2.3 volumes, priming: {sugar: table sugar, weight: 110 g}, bottle-rating: 3.5 volumes}

targets:
  og: 1.050
  fg: 1.012
  abv: 5.0 %
  bitterness: 20 IBU
  colour: 6 SRM

accepted:
  - {rule: adjunct-share, reason: "brewed twice with this share, it ran off well", until: 2027-12-31}
"""

SALTMARSH_LANE = """\
brewhouse: Saltmarsh Lane, 30-litre kit
efficiency: 72 %
mash-tun: {volume: 30 l, dead-space: 1 l, heat: 2 l}
kettle: {volume: 35 l, loss: 1 l, boil-off: 4 l/h}
fermenter: {volume: 30 l, loss: 1 l}
absorption: 1.0 l/kg
altitude: 120 m
water: {calcium: 60 mg/l, alkalinity: 110 mg/l}
lots:
  CM-0419: {of: caramel malt 40, colour: 41 °Lovibond, moisture: 4.6 %, analysed: 2026-09-02}
  PM-0388: {of: two-row pale malt, diastatic-power: 112 °Lintner, extract-fine-dry: 80.9 %, moisture: 4.1 %}
ingredients:
  heritage rye: {kind: raw grain, cereal: rye, extract: 68 %, colour: 2 °Lovibond}
rules:
  enzyme-sufficiency: {floor: 35 °Lintner}
  usual-share: off
  style-range: {level: note}
stop-at: error
recipes: ["house/**/*.yaml", "guests/**/*.yaml"]
accepted:
  - {rule: hop-rate, in: "guests/**", reason: guests hop as they like}
"""


def held(value: object, name: str = "") -> dict[str, str]:
    """Every field that holds something: a quantity as its canonical value with its kind, the rest as text."""
    if isinstance(value, Quantity):
        return {name: f"{_spread(value.range)} {value.kind.value}"}
    if isinstance(value, Unsaid | Unreadable):
        return {}
    if isinstance(value, Struct):
        inner = {one: getattr(value, one) for one in value.__struct_fields__ if one not in _ABOUT}
        return _all(inner, name)
    if isinstance(value, Mapping):
        return _all(value, name)
    if isinstance(value, tuple):
        return _all(dict(enumerate(value)), name)
    return {} if value in (None, "", False, frozenset()) else {name: str(value)}


_ABOUT = ("path", "there", "unread", "asked")
"""What a part of a recipe says of itself, and not of the beer."""


def _all(inner: Mapping[str, object] | Mapping[int, object], name: str) -> dict[str, str]:
    found: dict[str, str] = {}
    for key, value in inner.items():
        found |= held(value, f"{name}.{key}".lstrip("."))
    return found


def _spread(value: Range) -> str:
    return f"{value.typical:.6g}" if value.known else f"{value.low:.6g}-{value.high:.6g}"


@pytest.fixture
def harbour_wheat() -> str:
    return HARBOUR_WHEAT


@pytest.fixture
def saltmarsh_lane() -> str:
    return SALTMARSH_LANE


@pytest.fixture
def held_by() -> Callable[[object], dict[str, str]]:
    return held
