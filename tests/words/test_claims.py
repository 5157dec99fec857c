"""What a recipe claims of its beer to those who drink it."""

import pytest

from mashwright.words.claims import COELIAC, FREE, LOW, VERY_LOW, speech


@pytest.mark.parametrize(
    ("notes", "claim"),
    [
        ("gluten-free", FREE),
        ("brewed without gluten", FREE),
        ("glutenfrei gebraut", FREE),
        ("GF", FREE),
        ("no nuts and gluten-free", FREE),
        ("safe for coeliac drinkers", COELIAC),
        ("very low gluten", VERY_LOW),
        ("gluten-reduced", LOW),
        ("not gluten-free", None),
        ("non-gluten-free", None),
        ("it is no longer gluten-free", None),
        ("gluten-free?", None),
        ("not for coeliacs", None),
        ("coeliacs beware, this is for others", None),
        ("no gluten-reducing enzyme was used", None),
        ("is it gf", None),
        ("contains barley", None),
    ],
)
def test_claims_of_gluten(notes: str, claim: str | None) -> None:
    found = speech("", "", notes).gluten()
    assert (found[0] if found is not None else None) == claim


def test_the_text_that_claims_is_told() -> None:
    assert speech("Gluten-free Bitter", "", "").gluten() == (FREE, "name")
    assert speech("Bitter", "vegan bitter", "").claims("vegan") == "style"
    assert speech("", "", "0.0% vol").claims("alcohol-free") == "notes"
    assert speech("Bitter", "", "never vegan").claims("vegan") == ""


def test_free_of_a_thing_by_name() -> None:
    assert speech("", "", "nut-free").claims_free_of(["nut"]) == "notes"
    assert speech("", "", "free of any milk").claims_free_of(["nut", "milk"]) == "notes"
    assert speech("", "", "contains nuts").claims_free_of(["nut"]) == ""


def test_a_thing_is_spoken_of_even_where_it_is_taken_back() -> None:
    assert speech("", "", "no metabisulfites in it").mentions("speaks-of-sulfite")
    assert not speech("", "", "a sulfate water").mentions("speaks-of-sulfite")
