"""What people write as fields that the format does not have, and where that belongs; each way out is one that is read.

Asked only where a recipe has such a field. From memory of how brewers write recipes down.
"""

import re

from mashwright.finding import Path
from mashwright.reading.nodes import Node, Scalar

_SUGARS = frozenset(("honey", "sugar", "sugars", "lactose", "molasses", "treacle", "syrup", "dextrose", "candi-sugar"))
_SALTS = frozenset(("gypsum", "calcium-chloride", "epsom-salt", "table-salt", "chalk", "baking-soda"))
_LATER = {
    "lagering": "2 °C for 28 d",
    "lager": "2 °C for 28 d",
    "conditioning": "12 °C for 14 d",
    "condition": "12 °C for 14 d",
    "maturation": "12 °C for 14 d",
    "primary": "19 °C for 7 d",
    "secondary": "19 °C for 14 d",
    "cold-crash": "2 °C for 2 d",
    "diacetyl-rest": "18 °C for 2 d",
    "fermentation-temperature": "19 °C for 10 d",
    "fermentation-temp": "19 °C for 10 d",
}
"""Steps of the fermentation, each with an example of it."""
_ADDED = {
    "nutrients": "5 g yeast nutrient, last 10 min of the boil",
    "nutrient": "5 g yeast nutrient, last 10 min of the boil",
    "yeast-nutrient": "5 g yeast nutrient, last 10 min of the boil",
    "finings": "1 tablet Irish moss, last 15 min of the boil",
    "fining": "1 tablet Irish moss, last 15 min of the boil",
    "irish-moss": "1 tablet Irish moss, last 15 min of the boil",
    "spices": "15 g coriander seed, last 10 min of the boil",
    "spice": "15 g coriander seed, last 10 min of the boil",
    "herbs": "15 g coriander seed, last 10 min of the boil",
}
_IN_THE_BREWHOUSE = {
    "evaporation": "kettle: {boil-off: 4 l/h}",
    "boil-off": "kettle: {boil-off: 4 l/h}",
    "mash-tun": "mash-tun: {volume: 30 l}",
    "kettle": "kettle: {volume: 35 l}",
    "copper": "kettle: {volume: 35 l}",
    "fermenter": "fermenter: {volume: 30 l}",
    "dead-space": "mash-tun: {dead-space: 1 l}",
    "losses": "kettle: {loss: 1 l}",
    "trub": "kettle: {loss: 1 l}",
    "absorption": "absorption: 1.0 l/kg",
    "altitude": "altitude: 120 m",
    "equipment": "mash-tun: {volume: 30 l}",
    "rules": "rules: {usual-share: off}",
    "lots": "lots: {PM-0388: {of: two-row pale malt}}",
    "vessels": "vessels: {keg: {rating: 4 bar}}",
}
_TWO_WATERS = "sparge: [{water: 10 l, at: 80 °C}, {water: 8 l, at: 76 °C}]"
_TWO_WORTS = "worts: [{wort: Old Ale, runnings: first, batch: 10 l}, {wort: Small Beer, runnings: second, batch: 12 l}]"
_ELSEWHERE = {
    "mash-temperature": "mash: 66 °C, 60 min",
    "mash-temp": "mash: 66 °C, 60 min",
    "mash-time": "mash: 66 °C, 60 min",
    "infusion": "mash: 66 °C, 60 min",
    "double-mash": "mash: {mashes: 2, water: 30 l}",
    "reiterated-mash": "mash: {mashes: 2, reiterated: true, water: 16 l}",
    "second-mash": _TWO_WATERS,
    "third-mash": _TWO_WATERS,
    "second-sparge": _TWO_WATERS,
    "parti-gyle": _TWO_WORTS,
    "second-runnings": _TWO_WORTS,
    "gyles": _TWO_WORTS,
    "beers": _TWO_WORTS,
    "rests": "mash: {rests: [{at: 66 °C, for: 60 min}]}",
    "steps": "mash: {rests: [{at: 66 °C, for: 60 min}]}",
    "mash-water": "mash: {water: 14 l, rests: [{at: 66 °C, for: 60 min}]}",
    "mash-ph": "mash: {ph: 5.4}",
    "ph": "mash: {ph: 5.4}",
    "salts": "mash: {salts: {gypsum: 4 g}}",
    "acid": "mash: {acid: {lactic acid 80 %: 3 ml}}",
    "enzymes": "mash: {enzymes: {amyloglucosidase: 5 g}}",
    "bag": "mash: {bag: true}",
    "biab": "mash: {bag: true}",
    "strike": "mash: {strike: 73 °C}",
    "liquor": "mash: {water: 14 l}",
    "total-water": "mash: {water: 14 l}",
    "pre-boil-volume": "boil: {volume: 25 l}",
    "pre-boil": "boil: {volume: 25 l}",
    "post-boil-volume": "batch: {kettle: 22 l}",
    "dry-hop": "hops: [50 g Cascade dry 4 d]",
    "dry-hops": "hops: [50 g Cascade dry 4 d]",
    "pitch": "yeast: {kind: English ale, pitch: 11 g}",
    "starter": "yeast: {kind: English ale, starter: 2 l}",
    "pitch-temperature": "yeast: {kind: English ale, at: 18 °C}",
    "pitching-temperature": "yeast: {kind: English ale, at: 18 °C}",
    "attenuation": "yeast: {kind: English ale, attenuation: 75 %}",
    "date": "measured: [{date: 2026-03-14, og: 1.049}]",
    "brewed": "measured: [{date: 2026-03-14, og: 1.049}]",
    "brew-date": "measured: [{date: 2026-03-14, og: 1.049}]",
    "brewday": "measured: [{date: 2026-03-14, og: 1.049}]",
    "bottled": "package: bottles",
    "bottling": "package: bottles, 2.3 volumes",
    **dict.fromkeys(("bottle", "bottles"), "package: bottles, 2.3 volumes"),
    **dict.fromkeys(("keg", "kegs", "kegged", "kegging"), "package: keg, 2.4 volumes"),
    **dict.fromkeys(("cask", "casks", "casked", "casking"), "package: cask"),
    **dict.fromkeys(("can", "cans", "canned", "canning"), "package: cans, 2.4 volumes"),
    "pressure": "package: {in: keg, pressure: 0.8 bar}",
    "gravity": "targets: {og: 1.050}",
    "yield": "batch: 20 l",
    "volume": "batch: 20 l",
    "lactobacillus": "souring: {with: lactobacillus, in: kettle, at: 37 °C, for: 36 h}",
    **dict.fromkeys(("fruit", "fruits"), "grist: [4 kg pale ale malt, 2 kg raspberries in the fermenter]"),
    "ingredients": "grist: [4 kg pale ale malt]",
}
"""Fields of a recipe that belong into a section, each with the way to write it."""
IN_A_LINE = {
    ("hops", "flameout"): "boil: 0 min",
    ("hops", "knockout"): "boil: 0 min",
    ("hops", "minutes"): "boil: 60 min",
    ("hops", "days"): "dry: 4 d",
    ("hops", "temperature"): "at: 80 °C",
    ("additions", "at"): "when: last 10 min of the boil",
    ("additions", "boil"): "when: last 10 min of the boil",
    ("additions", "for"): "when: last 10 min of the boil",
    ("package", "bottles"): "in: bottles",
    ("package", "keg"): "in: keg",
    ("package", "sugar"): "priming: {sugar: table sugar, weight: 110 g}",
    ("package", "volumes"): "carbonation: 2.3 volumes",
    ("rests", "volume"): "pull: 6 l or water: 6 l",
    ("rests", "decoction"): "by: decoction",
    ("rests", "type"): "by: infusion",
    ("ferment", "days"): "for: 10 d",
    ("yeast", "packets"): "pitch: 1 pack",
    ("yeast", "temperature-range"): "at: 18 °C",
    ("targets", "gravity"): "og: 1.050",
    ("targets", "srm"): "colour: 6 SRM",
}
"""Fields of a section or of a line of a list, each with the way to write it."""
AT_THE_TOP = frozenset((*_SUGARS, *_SALTS, *_LATER, *_ADDED, *_IN_THE_BREWHOUSE, *_ELSEWHERE))
"""The fields at the top of a recipe of which it is known where they belong."""


_WAYS = (
    ("biab", "write mash: {bag: true}"),
    ("bag", "write mash: {bag: true}"),
    ("no sparge", "write sparge: {by: none}"),
    ("no-sparge", "write sparge: {by: none}"),
    ("decoction", "write mash: {rests: [{at: 66 °C, for: 45 min}, {at: 72 °C, for: 20 min, by: decoction}]}"),
    ("no-chill", "write chill: no-chill"),
    ("no chill", "write chill: no-chill"),
    ("cube", "write chill: no-chill"),
)
"""Ways of brewing by a word for them, each with the way to write it."""


def way_out(path: Path, key: str, value: Node | None) -> str | None:
    """What to write instead of a field that the format does not have; None where nothing is known of it.

    Args:
        path: of the mapping that it stands in.
        key: the field in small letters, with hyphens for blanks.
        value: what stands under it.
    """
    if path:
        owner = next((str(step) for step in reversed(path) if isinstance(step, str)), "")
        found = IN_A_LINE.get((owner, key))
        return f"write {found}" if found is not None else None
    if key in _SALTS:
        weight = value.text if isinstance(value, Scalar) and value.text[:1].isdigit() else "4 g"
        return f"write mash: {{salts: {{{key.replace('-', ' ')}: {weight}}}}}"
    if key in _SUGARS:
        weight = value.text if isinstance(value, Scalar) and value.text[:1].isdigit() else "500 g"
        name = "table sugar" if key in ("sugar", "sugars") else key.replace("-", " ")
        return f"write it in a line of `grist`: - {weight} {name}"
    if key in _LATER:
        return f"write it as a step of `ferment`: - {_as_theirs(_LATER[key], value)}"
    if key in _ADDED:
        return f"write it in a line of `additions`: - {_ADDED[key]}"
    if key in _IN_THE_BREWHOUSE:
        return (
            f"it is a matter of the brewhouse; write it in brewhouse.yaml: {_as_theirs(_IN_THE_BREWHOUSE[key], value)}"
        )
    if key in ("method", "process", "type", "technique"):
        said = value.text.casefold() if isinstance(value, Scalar) else ""
        ways = (way for word, way in _WAYS if word in said)
        return next(ways, "what is mashed stands in the grist; put other words under `notes`")
    if key in ("tasting", "units", "cost", "rating", "link", "url", "version", "tags", "category"):
        return "no sum needs it; put it under `notes`"
    if key in _ELSEWHERE:
        way = _ELSEWHERE[key]
        return f"take out `batch` and write {way}" if way == _TWO_WORTS else f"write {_as_theirs(way, value)}"
    return None


_ONE_UNIT = (("d", "days", "day", "weeks", "week", "months"), ("min", "h"))
"""Units that may take each other's place in an example."""


def _as_theirs(way: str, value: Node | None) -> str:
    """A way out with the brewer's own amount, where the example has one of the same unit."""
    own = re.fullmatch(r"([\d.]+) ?([^\W\d]+(?:/[a-z]+)?)", value.text) if isinstance(value, Scalar) else None
    if own is None:
        return way
    alike = next((units for units in _ONE_UNIT if own[2] in units), (own[2],))
    return re.sub(rf"(?<![\d.])[\d.]+ (?:{'|'.join(alike)})(?![\w/])", own[0], way, count=1)
