"""Souring: hops, heat, time and pH, and what other rules make of it."""

from collections.abc import Callable

import pytest

from mashwright.brew.brew import Brew
from mashwright.figures.kettle import bitterness, souring_bitterness
from mashwright.recipe.stated import Unknown

Found = Callable[..., list[str]]

HEAD = """\
recipe: Tried
batch: 20 l
grist:
  - {grain: Pilsner malt, weight: 2 kg}
  - {grain: wheat malt, weight: 1.5 kg}
boil: {for: 60 min}
"""
HOPS = "hops: [{hop: Saaz, weight: %s, alpha: 3.5 %%, %s}]\n"

CASES = {
    "before the boil": (
        "souring: {with: L. plantarum, in: kettle, at: 37 °C, for: 36 h, start-ph: 4.4, ph: 3.4}\n"
        + HOPS % ("60 g", "boil: 60 min"),
        [],
    ),
    "in the fermenter, hopped": (
        "souring: {with: L. plantarum, in: fermenter}\n" + HOPS % ("60 g", "boil: 60 min"),
        ["7:35: warning: 27 IBU where it sours may stop L. plantarum; sour the wort before the hops go in"],
    ),
    "hardly hopped": (
        "souring: {with: L. plantarum, in: fermenter}\n" + HOPS % ("10 g", "boil: 60 min"),
        [],
    ),
    "a little hopped": (
        "souring: {with: L. plantarum, in: fermenter}\n" + HOPS % ("18 g", "boil: 60 min"),
        ["7:35: note: 8.1 IBU where it sours could slow L. plantarum; sour the wort before the hops go in"],
    ),
    "pediococci bear more": (
        "souring: {with: Pediococcus, in: fermenter}\n" + HOPS % ("60 g", "boil: 60 min"),
        ["7:34: note: 27 IBU where it sours could slow Pediococcus; sour the wort before the hops go in"],
    ),
    "first-wort hops": (
        "souring: {in: kettle}\n" + HOPS % ("200 g", "first-wort: true"),
        ["7:15: note: 11 IBU where it sours could slow the bacteria; sour the wort before the hops go in"],
    ),
    "mash hops do not count in a mash that is unhopped": (
        "souring: {in: mash}\n" + HOPS % ("60 g", "first-wort: true"),
        [],
    ),
    "too hot": (
        "souring: {in: kettle, at: 55 °C}\n",
        ["7:27: warning: 55 °C may be too hot for the bacteria; keep to at most 49 °C"],
    ),
    "too cool and too short": (
        "souring: {in: kettle, at: 20 °C, for: 6 h}\n",
        [
            "7:27: note: 20 °C could be too cool for the bacteria; souring works best from 30 to 45 °C",
            "7:39: note: 6 h could be too short to sour the wort; it usually takes 1 to 3 days",
        ],
    ),
    "cool in the fermenter": ("souring: {in: fermenter, at: 18 °C, for: 90 d, ph: 3.4}\n", []),
    "backwards": (
        "souring: {in: kettle, start-ph: 3.4, ph: 4.4}\n",
        ["7:42: warning: the souring may not go from pH 3.4 up to 4.4; are the two exchanged?"],
    ),
    "past belief": (
        "souring: {in: kettle, ph: 2.5}\n",
        ["7:27: warning: pH 2.5 is lower than these bacteria usually reach; did you mean a pH from 3.1 to 3.7?"],
    ),
    "hardly sour": (
        "souring: {in: kettle, ph: 4.2}\n",
        ["7:27: note: pH 4.2 could taste hardly sour; ordinary beer has 3.8 to 4.6"],
    ),
    "where is not said": ("souring: {with: yoghurt, ph: 3.4}\n" + HOPS % ("60 g", "boil: 60 min"), []),
}


@pytest.mark.parametrize("case", CASES)
def test_what_is_said(case: str, found: Found) -> None:
    text, told = CASES[case]
    assert found("souring", HEAD + text) == told


def test_wort_that_is_not_boiled_afterwards(found: Found) -> None:
    text = HEAD.replace("60 min", "0 min") + "souring: {in: kettle}\n"
    assert found("souring", text) == [
        "7:15: note: the bacteria live on, since the wort is not boiled after the souring; is this on purpose?"
    ]


def test_it_is_soured_before_the_hops(mended: Found) -> None:
    text = HEAD + "souring: {with: Lactobacillus, in: fermenter}\n" + HOPS % ("60 g", "boil: 60 min")
    assert mended("souring", text) == ["put the souring before the boil (in: kettle)"]


def test_the_bitterness_where_it_sours() -> None:
    def sours(when: str, hops: str) -> float:
        return souring_bitterness(Brew.of(f"{HEAD}souring: {{in: {when}}}\n{hops}")).typical

    boiled, early = HOPS % ("60 g", "boil: 60 min"), HOPS % ("60 g", "first-wort: true")
    assert sours("fermenter", boiled) == bitterness(Brew.of(HEAD + boiled)).typical
    assert sours("kettle", boiled) == sours("mash", early) == 0
    assert 0 < sours("kettle", early) < sours("fermenter", early) / 3
    assert sours("kettle", "") == 0
    with pytest.raises(Unknown, match="where it sours"):
        souring_bitterness(Brew.of(HEAD + "souring: {ph: 3.4}\n" + boiled))
    with pytest.raises(Unknown, match="a souring"):
        souring_bitterness(Brew.of(HEAD + boiled))


def test_a_recipe_that_says_how_it_is_soured_is_a_sour_beer() -> None:
    assert Brew.of(HEAD + "souring: {in: kettle}\n").intent.sour
    assert not Brew.of(HEAD).intent.sour


def test_what_sours_may_hold_what_some_must_avoid(found: Found) -> None:
    text = HEAD + "souring: {with: yoghurt, in: kettle}\nnotes: dairy-free\n"
    assert any("yoghurt" in told for told in found("allergen_claim", text))
