"""Recipes as brewers type them, reviewed whole: nobody is hurt, and nobody is misled."""

import pytest

import mashwright

HEAD = "recipe: Test Brew\nbatch: 20 l\ngrist: [{grain: pale ale malt, weight: 4.5 kg}]\n"


def told(text: str) -> list[str]:
    """Errors and warnings of one recipe, each as ``rule: level: message``."""
    results = mashwright.review_text(text, "typed.yaml").recipes[0].results
    return [f"{one.rule}: {one.level.word}: {one.message}" for one in results if one.level.word != "note"]


def test_a_slip_in_one_word_of_a_kind_hides_no_bottle_that_bursts() -> None:
    first, second = told(
        HEAD + "yeast: {kind: Saisson ale, attenuation: 75 %}\n"
        "ferment: [{at: 24 °C, for: 21 d}]\n"
        "package: {in: bottles, carbonation: 2.6 volumes, gravity: 1.012}\n"
        "targets: {og: 1.050, fg: 1.012}\n"
    )
    assert first == "unknown-ingredient: warning: nothing is known of Saisson ale yeast; did you mean saison?"
    assert second.startswith("diastatic-yeast: error: diastatic Saisson ale yeast can take 1.012")


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
    assert line.startswith("diastatic-yeast: error: glucoamylase in the fermenter can take 1.010, 80 % attenuation")


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
    (line,) = told(text)
    assert line.startswith("field: error: `enzymes` takes fields")
    reviewed = mashwright.review_text(text, "typed.yaml").recipes[0]
    assert "final-gravity" in {one.rule for one in reviewed.unjudged}


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
    assert line.startswith("allergen-claim: warning: claimed to be low in gluten, but it holds pale ale malt (barley)")
