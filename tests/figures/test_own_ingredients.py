"""What a brewhouse says once of its own malts, hops, yeasts and enzymes counts in each of its recipes."""

import re
from pathlib import Path

import pytest

import mashwright
import mashwright_rules
from mashwright.brew import enzyme_of, has_alpha, hop_of, own_names, yeast_of
from mashwright.brew.brew import Brew
from mashwright.brew.own import own
from mashwright.figures.beer import apparent_attenuation
from mashwright.figures.grist import grist_diastatic_power
from mashwright.figures.kettle.hops import bitterness
from mashwright.figures.package import gas_of_sugars
from mashwright.ingredients.kinds import Sort
from mashwright.ingredients.lookup import hop, yeast
from mashwright.measures.range import Range
from mashwright.recipe.stated import Unknown

HOUSE = """\
brewhouse: Saltmarsh Lane
ingredients:
  Net Store pale: {kind: pale ale malt, diastatic-power: 62 °Lintner, also: [the pale, "No. 1"]}
  heritage rye: {kind: raw grain, cereal: rye, extract: 68 %}
  pale ale malt: {kind: caramel malt, colour: 20 °Lovibond}
  chapel candy: {kind: syrup, extract: 70 %, also: candy}
  night yeast: saison
  milky: lactose
  Bank hop: {kind: hop, alpha: 4-6 %}
  Pond Fuggle: {kind: Fuggle, also: [pond]}
  Church Fuggle: {kind: Fuggle, alpha: 5 %}
  Lane yeast: {kind: English ale, attenuation: 80 %, temperature: 16-18 °C, tolerance: 6 %, also: [no. 3]}
  Wild packet: {kind: American ale, diastatic: true}
  Dry-out: {kind: glucoamylase, temperature: 20-40 °C, also: [drier]}
  Plain amylase: {kind: fungal amylase}
  Crystal hop: {kind: Crystal, alpha: 4 %}
  Crystal malt: {kind: Crystal, extract: 75 %}
"""
GRIST = "grist: [{grain: the pale, weight: 4 kg}]"


def brew(*fields: str, grist: str = GRIST, house: str = HOUSE) -> Brew:
    return Brew.of("\n".join(["recipe: Tried", "batch: 20 l", grist, *fields, ""]), house)


@pytest.mark.parametrize("name", ["Net Store pale", "net-store PALE", "The pale", "no. 1", "pale, net store"])
def test_a_malt_of_the_house_is_found_by_each_of_its_names(name: str) -> None:
    tried = brew(grist=f'grist: [{{grain: "{name}", weight: 4 kg}}]')
    assert grist_diastatic_power(tried).range == Range.exact(62)
    part = tried.grist()[0]
    assert (part.name, part.kind, part.cereal, part.known, part.table_name) == (
        name, "base malt", "barley", True, "pale ale malt",
    )  # fmt: skip


def test_what_the_recipe_states_wins_and_then_the_lot() -> None:
    line = "grist: [{grain: the pale, weight: 4 kg, diastatic-power: 50 °Lintner}]"
    assert grist_diastatic_power(brew(grist=line)).typical == 50
    house = HOUSE + "lots: {PA-1: {of: Net Store pale, diastatic-power: 55 °Lintner}}\n"
    of_lot = "grist: [{grain: the pale, weight: 4 kg, lot: PA-1}]"
    assert grist_diastatic_power(brew(grist=of_lot, house=house)).typical == 55
    assert grist_diastatic_power(brew(grist="grist: [{grain: PA-1, weight: 4 kg}]", house=house)).typical == 55


def test_a_lot_of_a_thing_of_the_house_is_what_the_house_says() -> None:
    house = HOUSE + "lots: {PA-1: {of: the pale, moisture: 4 %}}\n"
    tried = brew(grist="grist: [{grain: PA-1, weight: 4 kg}]", house=house)
    assert grist_diastatic_power(tried).typical == 62
    assert tried.grist()[0].moisture == Range.exact(4)


def test_the_house_is_asked_before_the_tables() -> None:
    part = brew(grist="grist: [{grain: pale ale malt, weight: 4 kg}]").grist()[0]
    assert part.kind == "caramel malt"
    assert part.power_lintner == Range.exact(0)
    assert part.colour_lovibond == Range.exact(20)


def test_a_sugar_of_the_house() -> None:
    part = brew(grist="grist: [{sugar: Candy, weight: 1 kg}]").grist()[0]
    assert (part.kind, part.place) == ("syrup", "kettle")
    assert part.extract is not None
    assert part.extract.typical == pytest.approx(0.7)


def test_a_hop_of_the_house_has_the_alpha_acid_that_the_house_says() -> None:
    tried = brew("hops: [{hop: bank hops, weight: 30 g, boil: 60 min}]")
    assert bitterness(tried).assumed == ("4-6 % alpha acid for bank hops, by the brewhouse",)
    assert tried.unknown == ()
    stated = brew("hops: [{hop: bank hops, weight: 30 g, alpha: 7 %, boil: 60 min}]")
    assert bitterness(stated).typical == pytest.approx(7 / 5 * bitterness(tried).typical)


def test_a_hop_that_is_one_of_the_tables() -> None:
    house, fuggle = brew().brewhouse, hop("Fuggle")
    pond, church = hop_of(house, "Pond"), hop_of(house, "church Fuggles")
    assert fuggle is not None
    assert pond is not None
    assert church is not None
    assert (pond.name, pond.alpha, pond.storage_loss) == ("Pond Fuggle", fuggle.alpha, fuggle.storage_loss)
    assert dict(pond.sources)["alpha"] == dict(fuggle.sources)["alpha"]
    assert (church.alpha, church.storage_loss) == (Range.exact(5), fuggle.storage_loss)
    assert "alpha" not in dict(church.sources)
    assert has_alpha(house, "pond")
    assert not has_alpha(house, "marsh")
    assert hop_of(house, "Saaz") == hop("Saaz")


def test_a_yeast_of_the_house() -> None:
    house, english = brew().brewhouse, yeast("English ale")
    lane, wild = yeast_of(house, "NO. 3"), yeast_of(house, "wild packet")
    assert english is not None
    assert lane is not None
    assert wild is not None
    assert (lane.name, lane.sort, lane.flocculation) == ("Lane yeast", english.sort, english.flocculation)
    assert (lane.attenuation, lane.temperature_c, lane.tolerance) == (
        Range.exact(80),
        Range(16, 17, 18),
        Range.exact(6),
    )
    assert not {"attenuation", "temperature", "tolerance"} & set(dict(lane.sources))
    assert (lane.surely_splits, wild.surely_splits) == (False, True)
    mild, dry = brew("yeast: {kind: English ale, attenuation: 65 %}"), brew("yeast: {kind: no. 3}")
    assert apparent_attenuation(dry).typical > apparent_attenuation(mild).typical
    named = brew("yeast: {kind: no. 3, attenuation: 65 %}")
    assert apparent_attenuation(named).typical == apparent_attenuation(mild).typical


def test_a_kind_in_short() -> None:
    night, saison = yeast_of(brew().brewhouse, "night yeast"), yeast("saison")
    assert night is not None
    assert saison is not None
    assert (night.name, night.attenuation, night.sources) == ("night yeast", saison.attenuation, saison.sources)


def test_an_enzyme_of_the_house() -> None:
    house = brew().brewhouse
    drier, plain = enzyme_of(house, "drier"), enzyme_of(house, "plain amylase")
    assert drier is not None
    assert plain is not None
    assert (drier.works_on, drier.low_c, drier.high_c) == ({"starch", "dextrins"}, 20, 40)
    assert (plain.low_c, plain.high_c) == (30, 70)
    wet, dry = brew(), brew("mash: {enzymes: {drier: 1 g}}")
    assert (wet.adds("dextrins"), dry.adds("dextrins")) == (False, True)
    assert apparent_attenuation(brew("ferment: [{at: 20 °C, for: 9 d, enzymes: {dry-out: 1 g}}]")).typical == 92


def test_of_two_things_of_one_kinds_name_the_fields_tell() -> None:
    house = brew().brewhouse
    assert own(house, Sort.HOP, "crystal hop") is not None
    assert own(house, Sort.GRIST, "crystal malt") is not None
    assert own(house, Sort.GRIST, "crystal hop") is None


def test_all_names_of_a_sort() -> None:
    house = brew().brewhouse
    assert own_names(house, Sort.YEAST) == ("night yeast", "Lane yeast", "no. 3", "Wild packet")
    assert own_names(house, Sort.ENZYME) == ("Dry-out", "drier", "Plain amylase")
    assert own_names(brew(house="").brewhouse, Sort.YEAST) == ()


def test_a_culture_of_the_house_sours_by_its_kind() -> None:
    house = "ingredients: {Jar: {kind: lactic acid bacteria}}\n"
    assert brew("yeast: {kind: jar}", grist="grist: [{grain: pale malt, weight: 4 kg}]", house=house).intent.sour
    assert not brew("yeast: {kind: jar}", grist="grist: [{grain: pale malt, weight: 4 kg}]", house="").intent.sour


def test_without_ingredients_nothing_is_made_ready() -> None:
    house = brew(house="").brewhouse
    assert own(house, Sort.GRIST, "pale malt") is None
    assert house.by_name == {}


BOTTLED = "package: {in: bottles, priming: {sugar: NAME, weight: 100 g}}"


def primed(name: str) -> Brew:
    return brew(BOTTLED.replace("NAME", name), "targets: {og: 1.048, fg: 1.010}")


def volumes(tried: Brew) -> float:
    return gas_of_sugars(tried)[0].typical


def test_a_sugar_of_the_house_in_the_bottle() -> None:
    plain, candy = gas_of_sugars(primed("table sugar")), gas_of_sugars(primed("Candy"))
    assert [one.assumed for one in candy[1]] == [""]
    assert candy[1][0].co2_per_g.typical < 0.8 * plain[1][0].co2_per_g.typical  # 70 % extract, and not all ferments
    with pytest.raises(Unknown, match="a priming sugar that yeast ferments"):
        gas_of_sugars(primed("milky"))


def test_what_is_added_at_bottling_is_a_sugar_where_the_house_says_so() -> None:
    added = "additions: [{what: chapel candy, weight: 60 g, when: bottling}]"
    bottled, targets = BOTTLED.replace("NAME", "table sugar"), "targets: {og: 1.048, fg: 1.010}"
    assert volumes(brew(added, bottled, targets)) > 1.1 * volumes(brew(bottled, targets))


TABLES_THEMSELVES = {
    "brew/own.py", "brew/parts.py", "brew/intent.py",  # which ask the brewhouse first
    "grist/lot/_names.py", "grist/lot/_analysis.py", "grist/lot/_lines.py", "grist/certificate.py",  # of deliveries
    "beer/yeast_tolerance.py",  # names a kind of its own
}  # fmt: skip
LOOKS_UP = re.compile(
    r"ingredients\.(?:lookup|enzymes) import .*\b(?:fermentable|hop|yeast|enzyme)\b(?!_)|ingredients import lookup"
)


def test_figures_and_rules_ask_the_brewhouse_and_not_the_tables() -> None:
    """What looks a name up in a table alone does not know what the brewhouse calls its own."""
    roots = [Path(mashwright.__file__).parent / room for room in ("brew", "figures")]
    roots.append(Path(mashwright_rules.__file__).parent)
    found = {
        "/".join(file.relative_to(root.parent if root.name == "brew" else root).parts)
        for root in roots
        for file in root.rglob("*.py")
        if any(LOOKS_UP.search(line) for line in file.read_text(encoding="utf-8").splitlines())
    }
    assert found == TABLES_THEMSELVES
