"""What extract a grist can give, in the units in which malt is described, and how much of it usually arrives."""

from mashwright.measures.range import Range


def as_is(extract_dry: float, moisture: float) -> float:
    """Extract of a malt as it is weighed, from the laboratory's extract of its dry matter.

    Args:
        extract_dry: fine grind, dry basis, 0-1.
        moisture: 0-1.

    Returns:
        kg of extract in a kg, 0-1.

    Source: mass balance. A printed variant subtracts the moisture from the extract and comes out a hundredth low.
    """
    return extract_dry * (1 - moisture)


def wort_limit_plato(extract_kg: float, water_kg: float) -> float:
    """Strongest wort that this much extract can make with this much water, °P.

    Args:
        extract_kg: all that the grist holds, 0 or more.
        water_kg: in the mash, the malt's own moisture counted; 0 or more.

    Raises:
        ValueError: neither extract nor water.

    Source: mass balance, after the definition of [troester-efficiency].
    """
    if extract_kg + water_kg <= 0:
        raise ValueError("a wort needs extract or water")
    return 100 * extract_kg / (water_kg + extract_kg)


def usual_efficiency(og_points: float) -> Range:
    """Brewhouse efficiency to reckon with where a recipe states none, % of the mashed lines' extract.

    Args:
        og_points: points of gravity of the wort; above 60 each takes off a quarter point, down to 40 at the most.

    Source: own reading of 66 published recipes that were brewed (10th percentile 60, 90th 81); the slope is judgement,
    in line with [troester-brewhouse-efficiency]: more of a strong wort stays behind in its bigger grain bed.
    """
    lost = min(0.25 * max(0.0, og_points - 60), 40.0)
    return Range(60 - lost, 72 - lost, 81 - lost)


_STEEPED = {
    # measured recoveries of a single author, typical and high [palmer-steeping]; the low end holds the trade's 10-15 %,
    # common practice
    "caramel": Range(0.10, 0.50, 0.65),
    "roasted": Range(0.10, 0.70, 0.84),
    "kilned": Range(0.10, 0.25, 0.40),
}
_STARCHY = Range(0.0, 0.12, 0.25)
_DEXTRIN_MALT_BELOW_LOVIBOND = 8  # paler caramel malt still holds starch: 12.5 % was measured; the bound is judgement


def steeped_share(kind: str, lovibond: float | None) -> Range:
    """Part of its extract that a malt gives when it is steeped in hot water without a mash, 0-1.

    Args:
        kind: `caramel`, `roasted` (malt or grain), `kilned` (amber, biscuit, brown), or any other,
            which is mostly starch.
        lovibond: its colour, °Lovibond, where known; a caramel malt paler than 8 is dextrin malt.

    Source: [palmer-steeping], 1 lb in a US gallon at 71 °C for 30 min: caramel 40, 65 and 48 % at 15, 40 and
    120 °Lovibond, chocolate malt 54 %, roasted barley 84 %, brown malt 25 %, dextrin malt 12.5 %; 10-15 % is said in
    the trade (common practice). Starchy grain by judgement, from the dextrin malt.
    """
    if kind == "caramel" and lovibond is not None and lovibond < _DEXTRIN_MALT_BELOW_LOVIBOND:
        return Range(0.10, 0.125, 0.25)
    return _STEEPED.get(kind, _STARCHY)
