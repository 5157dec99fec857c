"""Beer colour from a grist.

The models take a malt's °Lovibond for its SRM, as their authors did. The two scales part in dark malt: SRM is 1.3546
°Lovibond less 0.76 [lovibond-note], by which units are converted when a recipe is read.
"""

"""Both are defined by the absorbance at 430 nm. Source: [srm-encyclopaedia]."""

SRM_LIMIT = 50.0
"""Morey's formula is not meant above. Source: [morey-1995]."""


def malt_colour_units(kg_lovibond: float, volume_l: float) -> float:
    """MCU: pounds times °Lovibond in a US gallon.

    Args:
        kg_lovibond: sum of kg times °Lovibond.
        volume_l: above 0.

    Raises:
        ValueError: no volume.

    Source: by definition of the units.
    """
    if volume_l <= 0:
        raise ValueError(f"volume_l must be above 0, not {volume_l}")
    return 8.345404 * kg_lovibond / volume_l


def morey_srm(mcu: float) -> float:
    """Colour of the beer, SRM. Source: [morey-1995]; meant below 50 SRM, ±20 %."""
    srm: float = 1.4922 * max(mcu, 0.0) ** 0.6859
    return srm


def mosher_srm(mcu: float) -> float | None:
    """Colour by Mosher's line, SRM; None below 7 MCU. Source: [from-memory]; meets Daniels' where Morey says."""
    return 0.3 * mcu + 4.7 if mcu >= 7 else None


def daniels_srm(mcu: float) -> float | None:
    """Colour by Daniels' line, SRM; None below 11 MCU. Source: [from-memory]; meets Mosher's where Morey says."""
    return 0.2 * mcu + 8.4 if mcu >= 11 else None
