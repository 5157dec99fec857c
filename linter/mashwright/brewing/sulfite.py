"""Sulfite: what the salts that bring it give, counted as sulfur dioxide."""

_SO2 = 64.064  # g/mol, by standard atomic masses, as the two below
SHARE_OF_POTASSIUM = 2 * _SO2 / 222.32
"""SO2 in potassium metabisulfite, K2S2O5, 0-1."""
SHARE_OF_SODIUM = 2 * _SO2 / 190.10
"""SO2 in sodium metabisulfite, Na2S2O5, 0-1."""
TABLET_G = 0.44
"""Metabisulfite in one Campden tablet, g; common practice."""
USED_UP_IN_WATER_G_PER_L = 0.02
"""Metabisulfite that brewing water uses up against chloramine, and mash and boil after it; judgement."""


def sulfur_dioxide_mg(weight_kg: float, *, sodium: bool) -> float:
    """All SO2 that a weight of metabisulfite can give, mg; what is bound or driven off is not taken from it.

    Args:
        weight_kg: of the dry salt, not negative.
        sodium: of sodium; else of potassium.

    Raises:
        ValueError: weight_kg is negative.

    Source: molar masses.
    """
    if weight_kg < 0:
        raise ValueError(f"weight_kg must not be negative, not {weight_kg}")
    return weight_kg * 1e6 * (SHARE_OF_SODIUM if sodium else SHARE_OF_POTASSIUM)
