"""However long a recipe's lists are and whatever is wrong in them, a file is judged within a second, and in step.

CPU seconds of this process, so that what else runs on the machine has little say; growth is a ratio in one run.
"""

import gc
import random
import time
from collections.abc import Callable

import pytest

from mashwright.budgets import FINDINGS
from mashwright.ingredients import tables
from mashwright.reviewing.collection import Collection
from mashwright.reviewing.files import Loaded
from mashwright.reviewing.pipe import review_loaded
from mashwright.reviewing.plugins import installed
from mashwright.reviewing.read_house import read_house
from mashwright.reviewing.results import Review
from mashwright.reviewing.settings import Run

LONGEST_S = 1.0
SIZES = (100, 200, 400, 500)
TOP = "recipe: Trial\nbatch: 20 l\n"
GRIST = """\
grist:
  - {grain: pale malt, weight: 1 kg}
  - {grain: raw wheat, weight: 4 kg}
  - {grain: caramel malt 60, weight: 1 kg, diastatic-power: 60 °Lintner}
"""
MASH = "mash: {water: 9 l, strike: 152 °C, rests: [{at: 61 °C, for: 5 min}]}\n"
HOPS = "hops:\n  - {hop: Saaz, weight: 20 g, alpha: 40 %, boil: 60 min}\n"
YEAST = "yeast: {kind: English ale, attenuation: 99 %, tolerance: 3 %}\n"
REST = """\
boil: {for: 5 min}
package: {in: bottles, carbonation: 6 volumes}
targets: {og: 1.080, fg: 1.001, abv: 3 %, bitterness: 150 IBU}
"""
"""Wrong in a dozen ways that have remedies, so that they are looked for whatever else is there."""

GRAINS = ("pale malt", "raw wheat", "caramel malt 60", "Munich malt", "flaked oats")
CEREALS = ("maize grits", "rice", "sorghum", "potato", "millet")
BESIDE = ("coriander", "Irish moss", "Campden tablets", "lactose", "amylase enzyme", "thing")


def slipped(table: str, number: int) -> str:
    """A name of a table with three letters wrong, another for each number."""
    chance = random.Random(f"{table}{number}")
    letters = list(chance.choice(sorted(tables.blocks(table))))
    for _ in range(3):
        letters[chance.randrange(len(letters))] = chance.choice("aeiourstln")
    return "".join(letters).replace('"', "").strip() or "x"


def grist(line: Callable[[int], str], size: int) -> str:
    return TOP + listed("grist", line, size) + MASH + HOPS + YEAST + REST


def listed(key: str, line: Callable[[int], str], size: int, indent: str = "  ") -> str:
    return f"{key}:\n" + "".join(f"{indent}- {line(number)}\n" for number in range(size))


def mapped(key: str, line: Callable[[int], str], size: int) -> str:
    return f"  {key}:\n" + "".join(f"    {line(number)}\n" for number in range(size))


def hops(line: Callable[[int], str], size: int) -> str:
    return TOP + GRIST + MASH + YEAST + REST + listed("hops", line, size)


def rests(line: Callable[[int], str], size: int) -> str:
    return TOP + GRIST + HOPS + YEAST + REST + "mash:\n  water: 15 l\n" + listed("  rests", line, size, "    ")


def beside(key: str, line: Callable[[int], str], size: int) -> str:
    return TOP + GRIST + MASH + HOPS + YEAST + REST + listed(key, line, size)


LISTS: dict[str, Callable[[int], str]] = {
    "grist of one grain": lambda size: grist(lambda _: "{grain: raw wheat, weight: 1 kg}", size),
    "grist of a few grams": lambda size: grist(lambda n: f"{{grain: {GRAINS[n % 5]}, weight: {n + 5} g}}", size),
    "grist of misspelt names": lambda size: grist(
        lambda n: f'{{grain: "{slipped("fermentables", n)}", weight: 10 g}}', size
    ),
    "grist of shares": lambda size: grist(lambda n: f"{{grain: {GRAINS[n % 5]}, share: {100 / size:.4f} %}}", size),
    "grist of many colours": lambda size: grist(
        lambda n: f"{{grain: raw wheat, weight: {n + 5} g, colour: {n + 3} EBC, diastatic-power: 999 °Lintner}}", size
    ),
    "grist of lots": lambda size: grist(lambda n: f"{{grain: pale malt, weight: 20 g, lot: L{n}}}", size),
    "grist of the cooker": lambda size: (
        grist(lambda n: f"{{grain: {CEREALS[n % 5]}, weight: 20 g, prepare: cereal mash}}", size)
        + "cereal-mash: {water: 5 l, rests: [{at: 70 °C, for: 5 min}]}\n"
    ),
    "grist of fruit and sugar": lambda size: grist(
        lambda n: ("{fruit: cherries, weight: 12 g}", "{sugar: honey, weight: 12 g}")[n % 2], size
    ),
    "hops that soak up the beer": lambda size: hops(
        lambda _: "{hop: Saaz, weight: 90 g, alpha: 25 %, boil: 90 min}", size
    ),
    "hops of all times": lambda size: hops(
        lambda n: f"{{hop: Citra, weight: 2 g, {('boil: 20 h', 'whirlpool: 9 min, at: 150 °C', 'dry: 3 min')[n % 3]}}}",
        size,
    ),
    "hops of misspelt names": lambda size: hops(
        lambda n: f'{{hop: "{slipped("hops", n)}", weight: 2 g, boil: 9 min}}', size
    ),
    "hops of one lot": lambda size: hops(
        lambda n: f"{{hop: Fuggle, weight: 2 g, alpha: {n % 90} %, lot: A, boil: 61 min}}", size
    ),
    "additions": lambda size: beside("additions", lambda n: f"{{what: {BESIDE[n % 6]}, weight: {n + 1} g}}", size),
    "additions of no-chill": lambda size: beside(
        "additions", lambda n: f"{{what: no chill cube {n}, count: 2, when: packaging}}", size
    ),
    "yeasts of misspelt names": lambda size: (
        TOP
        + GRIST
        + MASH
        + HOPS
        + REST
        + listed("yeast", lambda n: f'{{kind: "{slipped("yeasts", n)}", pitch: 1 g, at: 60 °C}}', size)
    ),
    "rests": lambda size: rests(lambda n: f"{{at: {45 + n / 30:.1f} °C, for: 9 min}}", size),
    "rests that rise for a day": lambda size: rests(
        lambda n: f"{{at: {45 + n / 30:.2f} °C, for: 1 d, to: 70 °C}}", size
    ),
    "rests of ranges": lambda size: rests(lambda _: "{at: 55-66 °C, for: 3-9 min, to: 50-68 °C}", size),
    "rests by decoction": lambda size: rests(
        lambda n: f"{{at: {45 + n / 30:.1f} °C, for: 9 min, by: decoction, pull: 5 l, boil: 10 min}}", size
    ),
    "rests by water": lambda size: rests(
        lambda n: f"{{at: {45 + n / 30:.1f} °C, for: 9 min, by: infusion, water: 1 l, of: 150 °C}}", size
    ),
    "rests of the cooker": lambda size: (
        TOP
        + GRIST
        + "  - {grain: maize grits, weight: 1 kg, prepare: cereal mash}\n"
        + MASH
        + HOPS
        + YEAST
        + REST
        + "cereal-mash:\n  water: 15 l\n"
        + listed("  rests", lambda n: f"{{at: {45 + n / 30:.1f} °C, for: 9 min}}", size, "    ")
    ),
    "salts": lambda size: (
        TOP
        + GRIST
        + HOPS
        + YEAST
        + REST
        + "mash:\n  water: 15 l\n"
        + mapped("salts", lambda n: f"gypsam {n}: 5 g", size)
    ),
    "acids": lambda size: (
        TOP
        + GRIST
        + HOPS
        + YEAST
        + REST
        + "mash:\n  water: 15 l\n"
        + mapped("acid", lambda n: f"lactik acid {n} %: 5 ml", size)
    ),
    "ferment": lambda size: beside("ferment", lambda _: "{at: 70 °C, for: 1 min, to: 90 °C}", size),
    "measured": lambda size: beside(
        "measured",
        lambda n: f"{{date: 2020-01-{n % 28 + 1:02}, og: 1.0{10 + n % 80}, fg: 1.004, abv: 15 %, batch: 30 l}}",
        size,
    ),
    "accepted": lambda size: beside(
        "accepted", lambda n: f"{{rule: {('run-off', 'unit-slip', 'no-rule')[n % 3]}, reason: x}}", size
    ),
}


def reviewed(text: str) -> tuple[Review, float]:
    """The review, and the CPU seconds that it took.

    What ten thousand other tests have left behind is not searched for rubbish meanwhile: that takes a tenth of a
    second and more, and no review by itself has it to search.
    """
    collection = Collection(Run("2026-01-01", collection=True))
    gc.freeze()
    began = time.process_time()
    try:
        review = collection.finished(list(collection.text(text, "/nowhere/recipe.yaml")))
        return review, time.process_time() - began
    finally:
        gc.unfreeze()


@pytest.mark.parametrize("name", LISTS)
def test_a_long_list_is_judged_in_time(name: str) -> None:
    reviewed(LISTS[name](1))  # what is loaded once is loaded
    taken_s = []
    for size in SIZES:
        review, seconds = reviewed(LISTS[name](size))
        assert review.faults == ()
        assert review.recipes[0].results
        taken_s.append(seconds)
    assert max(taken_s) < LONGEST_S, taken_s
    # five times as many lines take at most eight times as long; a tenth of a second is allowed for what is measured
    assert taken_s[-1] < 8 * (taken_s[0] + 0.02), taken_s


def test_remedies_are_looked_for_in_these() -> None:
    review, _ = reviewed(LISTS["hops of all times"](100))
    assert any(result.remedies for result in review.recipes[0].results)
    assert review.counts.unsearched > 0
    _, whole = reviewed(TOP + GRIST + MASH + HOPS + YEAST + REST)
    assert whole < LONGEST_S / 2


def test_a_recipe_of_sixty_lines_has_the_remedies_of_a_short_one() -> None:
    short = TOP + GRIST + MASH + HOPS + YEAST + REST
    long = short + listed("additions", lambda _: "{what: coriander, weight: 1 g, when: boil}", 60)
    reviews = [reviewed(text)[0] for text in (short, long)]
    mended = [[one.remedies for one in review.recipes[0].results if one.remedies] for review in reviews]
    assert [len(remedies) for remedies in mended] == [10, 10]
    assert reviews[0].counts.unsearched == reviews[1].counts.unsearched


@pytest.mark.parametrize("known", [500, 1000])
def test_many_lots_and_ingredients_of_a_brewhouse_are_looked_up_in_time(known: int) -> None:
    began = time.process_time()
    lots = "".join(f'  "L{n:03}xyz": {{of: "{slipped("fermentables", n)}"}}\n' for n in range(known))
    ingredients = "".join(f'  "{slipped("fermentables", 9000 + n)} {n}": {{kind: base malt}}\n' for n in range(known))
    text = f"brewhouse: x\nlots:\n{lots}ingredients:\n{ingredients}"
    house = read_house(text, "brewhouse.yaml", installed()).house
    assert time.process_time() - began < LONGEST_S
    assert len(house.brewhouse.ingredients) == known
    text = TOP + "grist:\n"
    text += "".join(f'  - {{grain: "{slipped("fermentables", n)}", weight: 1 g, lot: "L{n}xy"}}\n' for n in range(250))
    text += "".join(f'  - {{grain: smoked malt, weight: 1 g, lot: "L{n:03}xyz"}}\n' for n in range(250))
    loaded = Loaded(text, None)
    review_loaded(loaded, "recipe.yaml", house, Run("2026-01-01"))  # caches of names are full
    began = time.process_time()
    told, *_ = review_loaded(loaded, "recipe.yaml", house, Run("2026-01-01"))
    assert time.process_time() - began < LONGEST_S
    assert len(told.results) == FINDINGS + 1, "the worst, and a line that counts the others"
    assert sum(one.rule == "lot" for one in told.results) > 50
