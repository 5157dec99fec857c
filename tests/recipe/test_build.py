"""A parsed recipe becomes typed values; what cannot be read is listed, and nothing is lost in silence."""

# ruff: noqa: E501 -- a finding is asserted whole, on its line

from collections.abc import Callable

import pytest

from mashwright.finding import Edit
from mashwright.reading.document import Document, read_document
from mashwright.reading.editing import edited
from mashwright.recipe.build import build_recipe, rebuild

Held = Callable[[object], dict[str, str]]

WHOLE = """\
name: Harbour Wheat
by: Saltmarsh Lane Mash Circle
style: wheat ale
batch.fermenter: 20 volume
efficiency: 70 share
grist.0.group: grain
grist.0.name: two-row pale malt
grist.0.weight: 2.9 mass
grist.1.group: grain
grist.1.name: raw wheat
grist.1.weight: 1.35 mass
grist.2.group: grain
grist.2.name: caramel malt 40
grist.2.weight: 0.3 mass
grist.2.lot: CM-0419
grist.2.colour: 41 malt colour
grist.3.group: sugar
grist.3.name: table sugar
grist.3.weight: 0.2 mass
grist.3.add: kettle
mash.water: 14 volume
mash.strike: 73 temperature
mash.grain_temperature: 18 temperature
mash.ph: 5.4 pH
mash.salts.0.name: gypsum
mash.salts.0.quantity: 0.004 mass
mash.salts.1.name: calcium chloride
mash.salts.1.quantity: 0.002 mass
mash.rests.0.at: 66 temperature
mash.rests.0.time: 60 time
mash.rests.1.at: 76 temperature
mash.rests.1.time: 10 time
mash.rests.1.by: infusion
mash.rests.1.water: 7.3 volume
mash.rests.1.of: 98 temperature
sparge.by: batch
sparge.water: 8.5 volume
sparge.at: 75 temperature
water.calcium: 60 concentration
water.magnesium: 8 concentration
water.sodium: 20 concentration
water.chloride: 40 concentration
water.sulfate: 55 concentration
water.alkalinity: 110 alkalinity
boil.volume: 25 volume
boil.time: 60 time
hops.0.name: East Kent Golding
hops.0.weight: 0.03 mass
hops.0.alpha: 5.2 share
hops.0.form: pellet
hops.0.boil: 60 time
hops.1.name: Fuggle
hops.1.weight: 0.02 mass
hops.1.alpha: 4.5 share
hops.1.whirlpool: 20 time
hops.1.at: 80 temperature
hops.2.name: Fuggle
hops.2.weight: 0.025 mass
hops.2.alpha: 4.5 share
hops.2.dry: 5760 time
yeast.0.kind: English ale
yeast.0.attenuation: 75 share
yeast.0.tolerance: 9 share
yeast.0.pitch: 0.011 mass
ferment.0.at: 19 temperature
ferment.0.time: 14400 time
package.vessel: bottles
package.carbonation: 2.3 carbonation
package.priming.name: table sugar
package.priming.group: sugar
package.priming.weight: 0.11 mass
package.bottle_rating: 3.5 carbonation
targets.og: 1.05 gravity
targets.fg: 1.012 gravity
targets.abv: 5 share
targets.bitterness: 20 bitterness
targets.colour: 6 beer colour
accepted.0.rule: adjunct-share
accepted.0.reason: brewed twice with this share, it ran off well
accepted.0.until: 2027-12-31
"""


def built(text: str, held_by: Held) -> dict[str, str]:
    recipe, problems = build_recipe(read_document(text))
    assert problems == ()
    assert recipe.unread == frozenset()
    return held_by(recipe)


def problems_of(text: str) -> list[str]:
    document = read_document(text)
    _, problems = build_recipe(document)
    places = [document.place(problem.span) for problem in problems]
    return [
        f"{place.line}:{place.column}: {problem.level.word}: {problem.message}"
        for place, problem in zip(places, problems, strict=True)
    ]


def test_the_example_of_the_format_whole(harbour_wheat: str, held_by: Held) -> None:
    lines = [f"{name}: {value}" for name, value in built(harbour_wheat, held_by).items()]
    assert lines == WHOLE.splitlines()


def test_the_fields_that_the_example_lacks(held_by: Held) -> None:
    text = """\
grain-bill:
  - {extract: light dry malt extract, share: 30 %, add: fermenter}
  - {fruit: cherries, weight: 2 kg, extract: 12 %, fermentable: 90 %}
  - {grain: house corn, weight: 1 kg, kind: raw grain, cereal: maize, prepare: cereal mash, moisture: 10 %,
     diastatic-power: 3 °WK, gelatinizes: 70-74 °C, color: 2 °Lovibond}
batch: {fermenter: 20 l, kettle: 24 l, package: 19 l}
mash-efficiency: 80 %
steep: {water: 5 l, at: 68 °C, for: 30 min}
cereal-mash: {water: 4 l, rests: [{at: 70 °C, for: 20 min}], boil: 30 min}
mash:
  thickness: 3 l/kg
  crush: fine
  acid: {lactic acid 88 %: 3 ml}
  enzymes: {glucoamylase: 2 g}
  bag: true
  rests:
    - {at: 52 °C, to: 50 °C, by: decoction, pull: 30 %, boil: 15 min}
    - {at: 64 °C, by: decoction, pull: 4 l}
sparge: {by: fly, ph: 5.8, salts: {gypsum: 2 g}}
water: {sulphate: 90 mg/l, bicarbonate: 120 mg/l, ph: 7.4, dilution: 25 %}
top-up: {kettle: 3 l, fermenter: 2 l}
boil: {salts: {salt: 1 g}}
hops:
  - {hop: Saaz, alpha-units: 6 AAU, first-wort: true, form: pellets, age: 6 months}
  - {hop: Saaz, bitterness: 12 IBU, lot: SZ-25, mash: true, harvest: 2025}
additions: [{what: coriander, weight: 12 g, when: boil}, {what: lactic acid, volume: 5 ml}, {what: vanilla, count: 2}]
yeast: [{kind: saison, diastatic: true, flocculation: low, viability: 90 %, starter: 1 l, at: 20 °C}, {kind: ale}]
ferment: [{at: 20 °C, to: 24 °C, for: 5 d, enzymes: {glucoamylase: 1 g}}]
package: {in: bottle, priming: {extract: dry malt extract, each: 3 g, bottle: 500 ml, rate: 6 g/l}, pressure: 1 bar,
  at: 4 °C, gravity: 1.010}
targets: {pre-boil-gravity: 1.040, first-wort-gravity: 1.060, attenuation: 78 %}
measured: [{date: 2026-05-02, og: 1.049, batch: 19.5 l, temperatures: {mash: 152 °F}}, {date: 2026-06-01, batch: {kettle: 23 l}}]
notes: {bin: 7}
"""
    lines = [f"{name}: {value}" for name, value in built(text, held_by).items()]
    assert (
        lines
        == """\
notes: bin: 7
batch.fermenter: 20 volume
batch.kettle: 24 volume
batch.package: 19 volume
mash_efficiency: 80 share
grist.0.group: extract
grist.0.name: light dry malt extract
grist.0.share: 30 share
grist.0.add: fermenter
grist.1.group: fruit
grist.1.name: cherries
grist.1.weight: 2 mass
grist.1.extract: 12 extract
grist.1.fermentable: 90 share
grist.2.group: grain
grist.2.name: house corn
grist.2.weight: 1 mass
grist.2.cereal_mash: True
grist.2.kind: raw grain
grist.2.cereal: maize
grist.2.colour: 2 malt colour
grist.2.moisture: 10 share
grist.2.diastatic_power: 5.42857 diastatic power
grist.2.gelatinises: 70-74 temperature
steep.water: 5 volume
steep.at: 68 temperature
steep.time: 30 time
mash.thickness: 3 thickness
mash.crush: fine
mash.acid.0.name: lactic acid 88 %
mash.acid.0.quantity: 0.003 volume
mash.enzymes.0.name: glucoamylase
mash.enzymes.0.quantity: 0.002 mass
mash.bag: True
mash.rests.0.at: 52 temperature
mash.rests.0.to: 50 temperature
mash.rests.0.by: decoction
mash.rests.0.pull: 30 share
mash.rests.0.boil: 15 time
mash.rests.1.at: 64 temperature
mash.rests.1.by: decoction
mash.rests.1.pull: 4 volume
cereal_mash.water: 4 volume
cereal_mash.rests.0.at: 70 temperature
cereal_mash.rests.0.time: 20 time
cereal_mash.boil: 30 time
sparge.by: fly
sparge.ph: 5.8 pH
sparge.salts.0.name: gypsum
sparge.salts.0.quantity: 0.002 mass
water.sulfate: 90 concentration
water.bicarbonate: 120 concentration
water.ph: 7.4 pH
water.dilution: 25 share
top_up.kettle: 3 volume
top_up.fermenter: 2 volume
boil.salts.0.name: salt
boil.salts.0.quantity: 0.001 mass
hops.0.name: Saaz
hops.0.alpha_units: 6 alpha units
hops.0.form: pellet
hops.0.age: 262980 time
hops.0.first_wort: True
hops.1.name: Saaz
hops.1.bitterness: 12 bitterness
hops.1.lot: SZ-25
hops.1.harvest: 2025
hops.1.mash: True
additions.0.what: coriander
additions.0.weight: 0.012 mass
additions.0.when: boil
additions.1.what: lactic acid
additions.1.volume: 0.005 volume
additions.2.what: vanilla
additions.2.count: 2 count
yeast.0.kind: saison
yeast.0.flocculation: low
yeast.0.diastatic: True
yeast.0.viability: 90 share
yeast.0.starter: 1 volume
yeast.0.at: 20 temperature
yeast.1.kind: ale
ferment.0.at: 20 temperature
ferment.0.to: 24 temperature
ferment.0.time: 7200 time
ferment.0.enzymes.0.name: glucoamylase
ferment.0.enzymes.0.quantity: 0.001 mass
package.vessel: bottles
package.priming.name: dry malt extract
package.priming.group: extract
package.priming.rate: 6 dose
package.priming.each: 0.003 mass
package.priming.bottle: 0.5 volume
package.pressure: 1 pressure
package.at: 4 temperature
package.gravity: 1.01 gravity
targets.pre_boil_gravity: 1.04 gravity
targets.first_wort_gravity: 1.06 gravity
targets.attenuation: 78 share
measured.0.date: 2026-05-02
measured.0.measured.og: 1.049 gravity
measured.0.batch.fermenter: 19.5 volume
measured.0.temperatures.0.name: mash
measured.0.temperatures.0.quantity: 66.6667 temperature
measured.1.date: 2026-06-01
measured.1.batch.kettle: 23 volume
""".splitlines()
    )


def test_both_spellings_are_one_field_and_findings_keep_the_one_that_was_written() -> None:
    assert problems_of("grain-bill:\n  - {grain: x, color: 5}\nwater: {sulphate: many}\n") == [
        '2:23: error: the color "5" has no unit; write 5 °Lovibond, 5 SRM or 5 EBC',
        '3:19: error: the sulphate "many" is not a number and a unit; write for instance 60 mg/l',
    ]
    recipe, _ = build_recipe(read_document("grain-bill:\n  - {grain: x, color: 5}\n"))
    assert recipe.unread == {("grain-bill", 0, "color")}


def test_what_cannot_be_read_is_unreadable_and_not_missing(held_by: Held) -> None:
    recipe, _ = build_recipe(
        read_document(
            "batch: [20 l]\ngrist: 4 kg\nmash: 66 °C\nhops: [Fuggle]\nboil:\nyeast: {at: warm}\nsparge: {by: }\n"
        )
    )
    assert recipe.unread == {
        ("batch",),
        ("grist",),
        ("mash",),
        ("hops", 0),
        ("boil",),
        ("yeast", "at"),
        ("sparge", "by"),
    }
    assert held_by(recipe) == {}


def test_what_reading_has_told_is_not_told_again() -> None:
    assert problems_of("batch: .nan\nboil: {for: .inf, volume: x}\n") == [
        '2:27: error: the volume "x" is not a number and a unit; write for instance 20 l'
    ]


@pytest.mark.parametrize("text", ["", "5\n", "- 5\n", "[", "{a: }"])
def test_a_document_that_is_no_recipe_gives_an_empty_one(text: str, held_by: Held) -> None:
    assert held_by(build_recipe(read_document(text))[0]) == {}


def test_beside_a_british_measure_a_bare_gallon_is_asked_about() -> None:
    assert problems_of("batch: 5 gal\ngrist: [{grain: mild malt, weight: 10 lb}]\n") == []
    told = problems_of("batch: 5 gal\ngrist: [{grain: mild malt, weight: 1 quarter}]\n")
    assert told == [
        '1:8: error: the batch "5 gal" stands beside British measures; gal could be British or US; write 5 imp gal or 5 US gal'
    ]


def test_a_quarter_weighs_what_it_holds() -> None:
    recipe, _ = build_recipe(
        read_document("grist: [{grain: mild malt, weight: 1 quarter}, {sugar: invert sugar, weight: 1 quarter}]\n")
    )
    weights = [line.weight.range.typical for line in recipe.grist if line.weight.known]
    assert weights == pytest.approx([336 * 0.45359237, 224 * 0.45359237])
    assert [path for path, _ in recipe.readings] == [("grist", 0, "weight"), ("grist", 1, "weight")]


def test_spoons_of_what_is_known_are_taken_with_a_note() -> None:
    told = problems_of("mash: {salts: {gypsum: 1 tsp}}\n")
    assert told == ['1:24: note: "1 tsp" of salt weighs anything from 4.5 to 7.5 g; weigh it and write g']


@pytest.mark.parametrize(
    "edit",
    [
        Edit(("grist", 0, "weight"), "3 kg"),
        Edit(("grist", "-"), "{grain: raw oats, weight: 1 kg}"),
        Edit(("mash", "rests", 0, "at"), "hot"),
        Edit(("batch",), "25 l"),
        Edit(("steep",), "{water: 5 l}"),
    ],
)
def test_a_change_is_rebuilt_as_if_all_were_built_anew(edit: Edit, harbour_wheat: str) -> None:
    document = read_document(harbour_wheat)
    assert document.root is not None
    changed = Document(document.text, edited(document.root, [edit]))
    before = build_recipe(document)[0]
    assert rebuild(before, changed, frozenset({str(edit.path[0])})) == build_recipe(changed)[0]


@pytest.mark.parametrize(
    ("batch", "readings"),
    [
        ("5 gal", ((("batch",), '"5 gal" is read as US gallons: 18.9 l'),)),
        ("{fermenter: 5 gal}", ((("batch", "fermenter"), '"5 gal" is read as US gallons: 18.9 l'),)),
        ("5 US gal", ()),
        ("19 l", ()),
    ],
)
def test_how_bare_gallons_were_taken_is_told(batch: str, readings: tuple[object, ...]) -> None:
    assert build_recipe(read_document(f"recipe: A\nbatch: {batch}\ngrist: []\n"))[0].readings == readings
