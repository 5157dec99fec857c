"""What colour a beer has to the eye in a glass, for a swatch on a screen.

Light of daylight (D65) through 5 cm of beer: T = 10^(-SRM/12.7 · 5 · (0.02465 e^(-(λ-430)/17.591) +
0.97535 e^(-(λ-430)/82.122))), the mean spectrum of 99 beers, summed with the CIE 1931 observer and turned into sRGB.
Fruit beers were among the 99, so it is a little red; no screen shows it as an eye sees it in a glass, and the word and
the number always stand beside it.

Source: [delange-colour]; the table was made by that relation with colour-science, which a test does again.
"""

PATH_CM = 5.0
"""What the light goes through: a small glass."""

STEP_SRM = 0.5
_TABLE = (
    "fffffffcf3d8fae8b6f7dc99f4d180f1c769eebd55ebb342e7aa31e4a21ee09a03dc9200d98a00d58300d17d00cd7600"
    "c97000c66b00c26500be6000ba5b00b75600b35200b04d00ac4900a94500a54100a23e009f3a009c3700993400963100"
    "932e00902b008d28008a2500872300852000821e00801b007d19007b1700781400761200731000710e006f0c006d0a00"
    "6b08006906006604006403006301006100005f00005d00005b00005900005800005600005400005300005100004f0000"
    "4e00004c00004b00004a00004800004700004500004400004300004200004000003f00003e00003d00003c00003a0000"
    "3900003800003700003600003500003400003300003200003100003000002f00002e00002e00002d00002c00002b0000"
    "2a0000290000290000280000270000"
)
"""Six digits a row, 0 to 50 SRM."""

_WORDS = (
    (3, "straw"), (5, "yellow"), (7, "gold"), (10, "amber"), (14, "copper"),
    (18, "light brown"), (24, "brown"), (35, "dark brown"),
)  # fmt: skip
"""Up to which SRM a beer is called what; common practice, where names differ by a step or two."""


def srgb_of_srm(srm: float) -> str:
    """The colour of a beer in a glass of 5 cm as ``#rrggbb``, sRGB.

    Args:
        srm: 0 or more; above 50 it is shown as 50, almost black.

    Raises:
        ValueError: below 0, or not a number.

    Source: [delange-colour].
    """
    if not srm >= 0:
        raise ValueError(f"srm must be 0 or more, not {srm}")
    row = min(round(min(srm, 1000.0) / STEP_SRM), len(_TABLE) // 6 - 1)
    return f"#{_TABLE[6 * row : 6 * row + 6]}"


def colour_word(srm: float) -> str:
    """What brewers call a colour of so much SRM. Source: common practice."""
    return next((word for most, word in _WORDS if srm <= most), "black")
