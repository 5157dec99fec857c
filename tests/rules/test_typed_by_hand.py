"""Recipes as brewers type them, reviewed whole: nobody is hurt, and nobody is misled."""

import pytest

import mashwright

HEAD = "recipe: Test Brew\nbatch: 20 l\ngrist: [{grain: pale ale malt, weight: 4.5 kg}]\n"


def told(text: str) -> list[str]:
    """Errors and warnings of one recipe, each as ``rule: level: message``, and what could not be judged."""
    (reviewed,) = mashwright.review_text(text, "typed.yaml").recipes
    above_a_note = [one for one in reviewed.results if one.level.word != "note"]
    return [
        *(f"{one.rule}: {one.level.word}: {one.message}" for one in above_a_note),
        *(f"{one.rule}: open: {one.missing}" for one in reviewed.unjudged),
    ]


def test_a_slip_in_one_word_of_a_kind_hides_no_bottle_that_bursts() -> None:
    first, second = told(
        HEAD + "yeast: {kind: Saisson ale, attenuation: 75 %}\n"
        "ferment: [{at: 24 °C, for: 21 d}]\n"
        "package: {in: bottles, carbonation: 2.6 volumes, gravity: 1.012}\n"
        "targets: {og: 1.050, fg: 1.012}\n"
    )
    assert first == "unknown-ingredient: warning: nothing is known of Saisson ale yeast; did you mean saison?"
    assert second.startswith("diastatic-yeast: error: diastatic Saisson ale yeast can ferment from 1.012")


def test_a_slip_in_one_word_of_a_kind_hides_no_heat() -> None:
    first, second = told(
        HEAD + "yeast: {kind: our laager, attenuation: 75 %}\nferment: [{at: 24 °C, for: 21 d}]\ntargets: {og: 1.050}\n"
    )
    assert first == "unknown-ingredient: warning: nothing is known of our laager yeast; did you mean lager?"
    assert (
        second == "fermentation-temperature: warning: 24 °C is warm for our laager yeast, which ferments at 7 to 15 °C"
    )


ENZYME = (
    "recipe: Sparkling Pale\nbatch: 20 l\ngrist: [{{grain: Pilsner malt, weight: 4.6 kg}}]\n"
    "mash: {{rests: [{{at: 63 °C, for: 75 min}}]{mash}}}\nyeast: {{kind: American ale}}\n"
    "ferment: [{{at: 19 °C, for: 14 d{ferment}}}]\npackage: {{in: bottles, carbonation: 2.4 volumes{gravity}}}\n{more}"
)


@pytest.mark.parametrize(
    "when", ["fermenter", "with the yeast", "after the boil", "day 3 of fermentation", "secondary"]
)
def test_an_enzyme_among_the_additions_goes_on_as_one_of_the_fermentation(when: str) -> None:
    text = ENZYME.format(
        mash="",
        ferment="",
        gravity=", gravity: 1.010",
        more=f"additions: [{{what: glucoamylase, weight: 5 g, when: {when}}}]\ntargets: {{og: 1.050}}\n",
    )
    (line,) = told(text)
    assert line.startswith(
        "diastatic-yeast: error: glucoamylase in the fermenter can ferment from 1.010 (80 % attenuation)"
    )


@pytest.mark.parametrize("more", ["", "additions: [{what: glucoamylase, weight: 5 g, when: mash}]\n"])
def test_an_enzyme_that_was_boiled_does_not(more: str) -> None:
    text = ENZYME.format(mash="", ferment="", gravity=", gravity: 1.009", more=f"{more}targets: {{og: 1.050}}\n")
    assert told(text) == []


def test_a_dry_beer_may_have_its_enzyme_among_the_additions() -> None:
    text = ENZYME.format(
        mash="",
        ferment="",
        gravity="",
        more="additions: [{what: amyloglucosidase, weight: 5 g, when: mash}]\ntargets: {og: 1.050, fg: 0.998}\n",
    )
    assert told(text) == []


@pytest.mark.parametrize(("mash", "ferment"), [(", enzymes: glucoamylase", ""), ("", ", enzymes: [glucoamylase]")])
def test_nothing_is_judged_by_enzymes_that_cannot_be_read(mash: str, ferment: str) -> None:
    text = ENZYME.format(mash=mash, ferment=ferment, gravity="", more="targets: {og: 1.050, fg: 0.998, abv: 6.9 %}\n")
    line, *left_open = told(text)
    assert line.startswith("field: error: `enzymes` takes fields")
    assert all(": open: " in one for one in left_open)
    assert "final-gravity" in {one.partition(":")[0] for one in left_open}


def test_malt_without_enzymes_may_have_them_among_the_additions() -> None:
    text = (
        "recipe: Millet Pale\nbatch: 20 l\ngrist: [{grain: flaked rice, weight: 4 kg}]\n"
        "mash: {rests: [{at: 65 °C, for: 90 min}]}\n"
    )
    assert any("nothing in this mash can convert starch" in line for line in told(text))
    with_it = text + "additions: [{what: alpha amylase, weight: 10 g, when: mash}]\n"
    assert not any("nothing in this mash can convert starch" in line for line in told(with_it))


@pytest.mark.parametrize(
    "words", ["crafted to remove gluten", "processed to remove gluten", "treated to reduce gluten"]
)
def test_words_of_removing_gluten_are_a_claim(words: str) -> None:
    (line,) = told(HEAD + f"notes: {words}\n")
    assert line.startswith(
        "allergen-claim: warning: claimed to be low in gluten, but it contains pale ale malt (barley)"
    )


GYLE = (
    "recipe: Harbour Table Beer\n{said}\nbatch: 20 l\ngrist: [{{grain: pale ale malt, weight: 9 kg}}]\n{more}"
    "mash: {{water: 24 l, rests: [{{at: 66 °C, for: 60 min}}]}}\nsparge: {{by: batch, water: 25 l, at: 77 °C}}\n"
    "boil: {{volume: 25 l, for: 60 min}}\ntargets: {{og: 1.032, fg: 1.008}}\n"
)


@pytest.mark.parametrize("said", ["style: parti-gyle small beer", "notes: made of the second runnings of a strong ale"])
@pytest.mark.parametrize("more", ["", "efficiency: 22 %\n"])
def test_the_small_beer_of_a_parti_gyle_is_sound(said: str, more: str) -> None:
    assert told(GYLE.format(said=said, more=more)) == []
    assert told(GYLE.format(said="style: table beer", more=more)) != []


def test_a_parti_gyle_gives_no_more_than_its_grist() -> None:
    text = GYLE.format(said="style: parti-gyle strong ale", more="").replace("1.032, fg: 1.008", "1.140, fg: 1.035")
    assert any(line.startswith("original-gravity: ") for line in told(text))


@pytest.mark.parametrize("days", ["8 d", "8.2 d"])
def test_a_part_of_a_day_is_no_shortness(days: str) -> None:
    text = (
        "recipe: Weir Weizen\nbatch: 20 l\n"
        "grist: [{grain: wheat malt, weight: 2.8 kg}, {grain: Pilsner malt, weight: 1.9 kg}]\n"
        f"yeast: {{kind: German wheat}}\nferment: [{{at: 18 °C, for: {days}}}]\npackage: {{in: keg}}\n"
        "targets: {og: 1.051, fg: 1.012}\n"
    )
    for vessel in ("heavy bottles", "cans", "keg"):
        results = mashwright.review_text(text.replace("in: keg", f"in: {vessel}")).recipes[0].results
        assert [one for one in results if one.rule == "unfinished-beer"] == []


def test_cans_are_called_cans() -> None:
    (line,) = told(
        HEAD
        + "yeast: {kind: English ale}\nferment: [{at: 19 °C, for: 3 d}]\npackage: {in: cans}\ntargets: {og: 1.050}\n"
    )
    assert "needs at least 5 d before cans; wait" in line


def test_psi_are_asked_for_only_where_somebody_would_set_so_few() -> None:
    (line,) = told(HEAD + "package: {in: plastic keg, pressure: 2.5 bar, at: 20 °C}\n")
    assert line.endswith(
        "2.5 bar may be too much for a plastic keg, good for about 2 bar;"
        " keep to the lowest rating of keg, lines and taps"
    )
    (line,) = told(HEAD + "package: {in: keg, pressure: 12 bar, at: 4 °C}\n")
    assert line.endswith("; did you mean 12 psi?")
    (line,) = told(HEAD + "package: {in: bottles, pressure: 12 bar, at: 4 °C}\n")
    assert "keep to the rating of the bottles; did you mean 12 psi?" in line


def test_a_pinch_of_yeast_is_asked_about() -> None:
    (line,) = told(HEAD + "yeast: {kind: English ale, pitch: 11.5 mg}\ntargets: {og: 1.050}\n")
    assert line.endswith("; did you mean 11.5 g?")


def test_a_grain_that_nobody_knows_may_be_black() -> None:
    text = (
        "recipe: Smokehouse\nbatch: 20 l\ngrist: [{grain: beech smoked malt, weight: 3.5 kg},"
        " {grain: light Munich malt, weight: 1.2 kg}, {grain: Kuckuck, weight: 80 g}]\ntargets: {colour: %s}\n"
    )
    line, *left_open = told(text % "17 SRM")
    assert line.startswith("unknown-ingredient: ")
    assert all(": open: " in one for one in left_open)
    assert "colour" in {one.partition(":")[0] for one in left_open}
    assert any(line.startswith("colour: ") for line in told(text % "2 SRM"))


def test_kvass_of_bread_is_no_failed_mash() -> None:
    text = (
        "recipe: Bread Drink\nstyle: %s\nbatch: 10 l\n"
        "grist: [{grain: rye bread, weight: 1 kg}, {sugar: table sugar, weight: 300 g}]\n"
        "yeast: {kind: bread yeast, pitch: 5 g}\n"
    )
    assert told(text % "kvass") == []
    assert [line.partition(":")[0] for line in told(text % "table beer")] == ["no-base-malt", "sugar-share"]


def test_lambic_yeast_is_a_mixed_culture() -> None:
    results = (
        mashwright.review_text(
            "recipe: Old Cellar\nstyle: lambic\nbatch: 20 l\n"
            "grist: [{grain: Pilsner malt, weight: 3 kg}, {grain: raw wheat, weight: 1.6 kg}]\n"
            "mash: {rests: [{at: 58 °C, for: 20 min}, {at: 66 °C, for: 40 min}]}\nyeast: {kind: lambic}\n"
            "ferment: [{at: 18 °C, for: 52 weeks}]\n"
            "package: {in: champagne bottles, carbonation: 3.2 volumes, gravity: 1.002}\n"
            "targets: {og: 1.048, fg: 1.002}\n"
        )
        .recipes[0]
        .results
    )
    assert [one for one in results if one.rule in ("unknown-ingredient", "attenuation-limit", "final-gravity")] == []


@pytest.mark.parametrize("what", ["Irish moss", "cardamom", "dried rose hips", "yeast nutrient", "black pepper"])
def test_a_spoon_of_spice_is_read_and_asked_about(what: str) -> None:
    text = HEAD + f"additions: [{{what: {what}, weight: 1 tsp, when: last 15 min of the boil}}]\n"
    assert told(text) == []
    (asked,) = [one for one in mashwright.review_text(text).recipes[0].results if one.rule == "quantity"]
    assert "weighs anything from" in asked.message


def test_a_spoon_of_poison_is_still_told() -> None:
    text = HEAD + "additions: [{what: pennyroyal, weight: 2 tsp, when: fermenter}]\n"
    assert any(line.startswith("additions: error: 2 tsp of pennyroyal can poison") for line in told(text))


EDGES = [
    ("efficiency: 88.4 %\n", "efficiency: 91 %\n", "efficiency"),
    ("efficiency: 39 %\n", "efficiency: 33 %\n", "efficiency"),
    (
        "yeast: {kind: American ale, at: 35.6 °C}\n",
        "yeast: {kind: American ale, at: 39 °C}\n",
        "fermentation-temperature",
    ),
    (
        "yeast: {kind: the old jar's}\nferment: [{at: 35.6 °C}]\n",
        "yeast: {kind: the old jar's}\nferment: [{at: 39 °C}]\n",
        "fermentation-temperature",
    ),
]


@pytest.mark.parametrize(("within", "past", "rule"), EDGES)
def test_within_the_width_of_a_figure_it_is_a_note(within: str, past: str, rule: str) -> None:
    assert [line for line in told(HEAD + within) if line.startswith(rule)] == []
    assert any(one.rule == rule for one in mashwright.review_text(HEAD + within).recipes[0].results)
    assert [line for line in told(HEAD + past) if line.startswith(f"{rule}: warning")] != []


@pytest.mark.parametrize(("kg", "level"), [("2.5", "note"), ("2.6", "note"), ("2.7", "warning")])
def test_sugar_about_the_limit(kg: str, level: str) -> None:
    text = (
        "recipe: Farm Strong\nbatch: 20 l\ngrist: [{grain: Pilsner malt, weight: 6 kg},"
        f" {{sugar: table sugar, weight: {kg} kg}}]\n"
    )
    levels = [one.level.word for one in mashwright.review_text(text).recipes[0].results if one.rule == "sugar-share"]
    assert levels == [level]


def test_ginger_beer_is_of_sugar() -> None:
    text = "recipe: Root Cellar\nstyle: ginger beer\nbatch: 10 l\ngrist: [{sugar: table sugar, weight: 900 g}]\n"
    assert told(text) == []
    assert told(text.replace("ginger beer", "table beer")) != []


def test_a_note_of_bitterness_says_no_cannot() -> None:
    text = (
        "recipe: Square Lager\nbatch: 20 l\ngrist: [{grain: Pilsner malt, weight: 4.6 kg}]\nboil: {for: 90 min}\n"
        "hops: [{hop: Saaz, weight: 45 g, alpha: 3.5 %, boil: 80 min}, {hop: Saaz, weight: 30 g, alpha: 3.5 %,"
        " boil: 30 min}, {hop: Saaz, weight: 25 g, alpha: 3.5 %, boil: 5 min}]\n"
        "targets: {og: 1.049, bitterness: 38 IBU}\n"
    )
    (one,) = [one for one in mashwright.review_text(text).recipes[0].results if one.rule == "bitterness"]
    assert one.level.word == "note"
    assert one.message.startswith("38 IBU is more than these hops usually give: about ")


STATED = (
    "recipe: Sweet Promise\nbatch: 20 l\ngrist: [{grain: Pilsner malt, weight: 4.5 kg}]\n"
    "mash: {rests: [{at: 66 °C, for: 60 min}]}\nyeast: {kind: %s}\n"
    "package: {in: %s, carbonation: 2.5 volumes}\ntargets: {og: 1.050, attenuation: %s}\n"
)


def test_an_end_that_is_stated_as_attenuation_switches_no_alarm_off() -> None:
    lines = told(STATED % ("American ale", "bottles", "52 %"))
    assert any(line.startswith("unfinished-beer: error: a final gravity of 1.024 is above the ") for line in lines)
    lines = told(STATED % ("saison", "bottles", "70 %"))
    assert any(
        line.startswith("diastatic-yeast: error: diastatic saison yeast can ferment from 1.015 (70 %") for line in lines
    )
    assert told(STATED % ("American ale", "bottles", "78 %")) == []
    assert told(STATED % ("saison", "champagne bottles", "94 %")) == []


@pytest.mark.parametrize("when", ["in the can", "before canning", "in each can", "canning"])
def test_fruit_in_the_can_is_gas(when: str) -> None:
    (line,) = told(
        HEAD + "yeast: {kind: American ale}\n"
        f"additions: [{{what: raspberry puree, weight: 3 kg, when: {when}}}]\n"
        "package: {in: cans, carbonation: 2.6 volumes, priming: {sugar: table sugar, weight: 120 g}}\n"
        "targets: {og: 1.050, fg: 1.010}\n"
    )
    assert line.startswith("priming: error: 120 g of table sugar and 3 kg of raspberry puree give about 4.2 volumes")


def test_a_lager_that_is_spunded_is_sound() -> None:
    text = (
        "recipe: Cellar Lager\nbatch: 20 l\ngrist: [{grain: Pilsner malt, weight: 4.5 kg}]\n"
        "yeast: {kind: German lager}\nferment: [{at: 10 °C, for: 8 d}]\n%s"
        "package: {in: steel keg, carbonation: 2.5 volumes, gravity: %s}\ntargets: {og: 1.048, fg: 1.010}\n"
    )
    assert told(text % ("notes: spunded at 1 bar\n", "1.015")) == []
    assert [line.partition(":")[0] for line in told(text % ("", "1.015"))] == ["unfinished-beer"]
    assert [line.partition(":")[0] for line in told(text % ("notes: spunded at 1 bar\n", "1.025"))] == [
        "unfinished-beer"
    ]
    assert [line.partition(":")[0] for line in told(text % ("notes: not spunded\n", "1.015"))] == ["unfinished-beer"]


def test_what_was_not_done_is_no_claim() -> None:
    assert told(HEAD + "notes: Not for coeliacs. Contains gluten; no gluten-reducing enzyme was used.\n") == []


@pytest.mark.parametrize(("at", "level"), [("59.6 °C", "note"), ("59 °C", "warning"), ("60 °C", None)])
def test_half_a_degree_below_the_edge_is_a_note(at: str, level: str | None) -> None:
    text = HEAD + f"mash: {{rests: [{{at: {at}, for: 90 min}}]}}\n"
    results = mashwright.review_text(text).recipes[0].results
    levels = [one.level.word for one in results if one.rule == "saccharification-rest"]
    assert levels == ([level] if level else [])


def test_an_efficiency_of_nothing_is_told_and_ends_no_rule() -> None:
    text = HEAD + "efficiency: 0 %\nmash: {rests: [{at: 35 °C, for: 1 min}]}\n"
    review = mashwright.review_text(text, "typed.yaml")
    assert review.faults == ()
    assert "efficiency: error: with an efficiency of 0 % no extract reaches the wort" in told(text)
