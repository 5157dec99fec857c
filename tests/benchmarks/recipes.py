"""Writes believable recipes, the same ones for the same seed: ``python tests/benchmarks/recipes.py FOLDER NUMBER``."""

import random
import sys
from pathlib import Path

BASES = ("two-row pale malt", "pale ale malt", "pilsner malt", "Vienna malt", "light Munich malt", "six-row pale malt")
GRAINS = (
    "raw wheat",
    "flaked oats",
    "flaked barley",
    "wheat malt",
    "caramel malt 20",
    "caramel malt 40",
    "caramel malt 60",
    "caramel malt 120",
    "biscuit malt",
    "chocolate malt",
    "roasted barley",
    "flaked maize",
)
YEASTS = ("English ale", "American ale", "lager", "German wheat", "saison")
HOPS = {  # with an alpha acid that they have in most years
    "East Kent Golding": 5.2,
    "Fuggle": 4.5,
    "Cascade": 5.8,
    "Saaz": 3.5,
    "Hallertauer mittelfrüh": 4.2,
}


def recipe(number: int, seed: int = 1) -> str:
    """One recipe; about one in six has a fault such as a club's recipes have."""
    chance = random.Random(f"{seed}-{number}")
    litres = chance.choice((10, 19, 20, 23, 40))
    base = chance.choice(BASES)
    points = chance.randint(38, 68)
    # 2.6 g of extract in a litre for a point; grain gives about 0.78 × 0.72 of its weight
    grist_kg = litres * points * 0.0026 / 0.56
    base_kg = grist_kg * 0.8
    lines = [f"  - grain: {base}\n    weight: {base_kg:.2f} kg"]
    others = chance.sample(GRAINS, chance.randint(2, 4))
    for grain in others:
        share = 0.2 / len(others) * chance.uniform(0.4, 1.4)
        lines.append(f"  - {{grain: {grain}, weight: {grist_kg * share * 1000:.0f} g}}")
    if chance.random() < 0.25:
        lines.append(f"  - {{sugar: table sugar, weight: {litres * 3} g, add: kettle}}")
    at = chance.choice((63, 65, 66, 67, 68)) if chance.random() > 0.05 else chance.choice((54, 82))
    hops = [
        f"  - {{hop: {hop}, weight: {litres + chance.randint(0, 20)} g,"
        f" alpha: {HOPS[hop] * chance.uniform(0.9, 1.1):.1f} %, boil: {minutes} min}}"
        for hop, minutes in zip(chance.sample(list(HOPS), 2), (60, 10), strict=True)
    ]
    stated = points + (chance.choice((25, 40)) if chance.random() < 0.08 else 0)
    return "\n".join(
        (
            f"# brewed by the Saltmarsh Lane Mash Circle, no. {number}",
            f"recipe: Lane Trial {number}",
            f"batch: {litres} l",
            f"efficiency: {chance.randint(68, 76)} %" if chance.random() < 0.4 else "by: Saltmarsh Lane Mash Circle",
            "grist:",
            *lines,
            "mash:",
            f"  water: {base_kg * 3:.1f} l",
            "  rests:",
            f"    - {{at: {at} °C, for: {chance.choice((45, 60, 75))} min}}",
            "    - {at: 76 °C, for: 10 min}",
            "hops:",
            *hops,
            f"yeast: {{kind: {chance.choice(YEASTS)}}}",
            "targets:",
            f"  og: 1.{stated:03d}",
            "",
        )
    )


def write(folder: Path, number: int) -> None:
    """Write so many recipes, a hundred to a folder, the way a club's years fill up."""
    for index in range(number):
        home = folder / f"{index // 100:04d}"
        home.mkdir(parents=True, exist_ok=True)
        (home / f"trial-{index:06d}.yaml").write_text(recipe(index), encoding="utf-8")


if __name__ == "__main__":
    write(Path(sys.argv[1]), int(sys.argv[2]))
