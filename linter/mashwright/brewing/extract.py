"""What extract a grist can give, in the units in which malt is described, and how much of it usually arrives."""

from mashwright.finding import Range

SUCROSE_PPG = 46.2  # points of a US gallon that holds a pound of sucrose [nbs-c440]; handbooks print 46 [palmer-12]
LITRE_DEGREES_PER_PPG = 3.785411784 / 0.45359237  # litres in a US gallon, kilograms in a pound: exact


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


def points_per_pound_gallon(extract: float) -> float:
    """Points of gravity that a pound gives in a US gallon, for kg of extract in a kg as is.

    Source: in proportion to sucrose, [palmer-12].
    """
    return SUCROSE_PPG * extract


def extract_of_ppg(ppg: float) -> float:
    """Kg of extract in a kg, from points of a pound in a US gallon; the inverse of points_per_pound_gallon."""
    return ppg / SUCROSE_PPG


def litre_degrees_per_kg(extract: float) -> float:
    """Litre-degrees per kg: points of gravity that a kg gives in a litre, for kg of extract in a kg as is.

    Source: as points_per_pound_gallon, in other units.
    """
    return points_per_pound_gallon(extract) * LITRE_DEGREES_PER_PPG


def extract_of_litre_degrees(litre_degrees: float) -> float:
    """Kg of extract in a kg, from litre-degrees per kg; the inverse of litre_degrees_per_kg."""
    return extract_of_ppg(litre_degrees / LITRE_DEGREES_PER_PPG)


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
