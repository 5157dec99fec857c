"""What people write as fields that the format does not have, and where that belongs; each way out is one that is read.

Asked only where a recipe has such a field. From memory of how brewers write recipes down.
"""

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
    "lactobacillus": "1 packet lactobacillus, before the boil",
    "fruits": "2 kg raspberries, in the fermenter",
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
    "liquor": "mash: {water: 14 l}, sparge: 12 l",
    "total-water": "mash: {water: 14 l}, sparge: 12 l",
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
    "kegging": "package: keg, 2.4 volumes",
    "bottles": "package: bottles, 2.3 volumes",
    "gravity": "targets: {og: 1.050}",
    "yield": "batch: 20 l",
    "volume": "batch: 20 l",
    "ingredients": "grist: [4 kg pale ale malt]",
}
"""Fields of a recipe that belong into a section, each with the way to write it."""
_IN_A_LINE = {
    ("hops", "flameout"): "boil: 0 min",
    ("hops", "knockout"): "boil: 0 min",
    ("hops", "minutes"): "boil: 60 min",
    ("hops", "days"): "dry: 4 d",
    ("hops", "temperature"): "at: 80 °C",
    ("hops", "to"): "at: 80 °C",
    ("additions", "at"): "when: last 10 min of the boil",
    ("additions", "boil"): "when: last 10 min of the boil",
    ("additions", "for"): "when: last 10 min of the boil",
    ("package", "bottles"): "in: bottles",
    ("package", "keg"): "in: keg",
    ("package", "sugar"): "priming: {sugar: table sugar, weight: 110 g}",
    ("package", "volumes"): "carbonation: 2.3 volumes",
    ("rests", "volume"): "pull: 6 l, of a decoction, or water: 6 l, of an infusion",
    ("rests", "decoction"): "by: decoction",
    ("rests", "name"): "a comment behind it: # protein rest",
    ("rests", "type"): "by: infusion",
    ("ferment", "name"): "a comment behind it: # primary",
    ("ferment", "days"): "for: 10 d",
    ("yeast", "packets"): "pitch: 1 pack",
    ("yeast", "temperature-range"): "at: 18 °C",
    ("targets", "gravity"): "og: 1.050",
    ("targets", "srm"): "colour: 6 SRM",
}
"""Fields of a section or of a line of a list, each with the way to write it."""


def way_out(path: Path, key: str, value: Node | None) -> str | None:
    """What to write instead of a field that the format does not have; None where nothing is known of it.

    Args:
        path: of the mapping that it stands in.
        key: the field in small letters, with hyphens for blanks.
        value: what stands under it.
    """
    if path:
        owner = next((str(step) for step in reversed(path) if isinstance(step, str)), "")
        found = _IN_A_LINE.get((owner, key))
        return f"write {found}" if found is not None else None
    if key in _SALTS:
        weight = value.text if isinstance(value, Scalar) and value.text[:1].isdigit() else "4 g"
        return f"write mash: {{salts: {{{key.replace('-', ' ')}: {weight}}}}}"
    if key in _SUGARS:
        weight = value.text if isinstance(value, Scalar) and value.text[:1].isdigit() else "500 g"
        name = "table sugar" if key in ("sugar", "sugars") else key.replace("-", " ")
        return f"write it in a line of `grist`: - {weight} {name}"
    if key in _LATER:
        return f"write it as a step of `ferment`: - {_LATER[key]}"
    if key in _ADDED:
        return f"write it in a line of `additions`: - {_ADDED[key]}"
    if key in _IN_THE_BREWHOUSE:
        return f"it is a matter of the brewhouse; write it in brewhouse.yaml: {_IN_THE_BREWHOUSE[key]}"
    if key in ("method", "process", "type", "technique"):
        said = value.text.casefold() if isinstance(value, Scalar) else ""
        bag = "bag" in said or "biab" in said
        return "write mash: {bag: true}" if bag else "what is mashed stands in the grist; put other words under `notes`"
    if key in ("tasting", "units", "cost", "rating", "link", "url", "version", "tags", "category"):
        return "no sum needs it; put it under `notes`"
    if key in _ELSEWHERE:
        return f"write {_ELSEWHERE[key]}"
    return None
