"""What an audit tells of one recipe around its findings: what beer it would have been, and what it does not say."""

from collections.abc import Iterator

from mashwright.brew.brew import Brew
from mashwright.recipe.model import Targets
from mashwright.recipe.stated import NOWHERE, Stated, Unknown
from mashwright.reviewing.results import Story
from mashwright.reviewing.sheet import FigureRow, sheet_of

THE_BEER = {
    "conversion": "starch converted",
    "og": "OG",
    "fg": "FG",
    "abv": "ABV",
    "bitterness": "bitterness",
    "colour": "colour",
    "carbonation": "carbonation",
}
"""Figures that say what beer it would be, from mash tun to glass, each with its word."""

ASKED_FOR = (
    "grist-weight",
    "conversion",
    "og",
    "fg",
    "abv",
    "bitterness",
    "strike-temperature",
    "liquor-to-grist",
    "total-liquor",
    "mash-ph",
    "cells-needed",
    "cells-pitched",
    "carbonation",
)
"""Figures whose assumptions and wants are told: what a brewer who had to brew it tomorrow would ask."""


OF_A_MASH = ("conversion", "strike-temperature", "liquor-to-grist", "mash-ph")
"""Those of which nothing is missing where nothing is mashed."""


def story_of(brew: Brew, path: str) -> Story:
    """The story of a brew; the path is its recipe's."""
    sheet = sheet_of(brew, path)
    sheets = [{row.id: row for row in one.rows} for one in (sheet, *sheet.worts)]
    wanted = [figure_id for figure_id in ASKED_FOR if figure_id not in OF_A_MASH or _is_mashed(brew)]
    asked = [rows[figure_id] for figure_id in wanted for rows in sheets if figure_id in rows]
    beer = list(_beer(brew.recipe.targets, sheets[0]))
    for wort, rows in zip(brew.recipe.worts, sheets[1:], strict=False):
        beer += [(f"{wort.name or 'a wort'}, {word}", shown, says) for word, shown, says in _beer(wort.targets, rows)]
    return Story(
        brew.recipe.source,
        sheet.readings,
        tuple(beer),
        tuple(dict.fromkeys(one for row in asked for one in row.assumed)),
        tuple(dict.fromkeys(row.missing for row in asked if row.missing)),
    )


def _is_mashed(brew: Brew) -> bool:
    try:
        return bool(brew.placed("mash"))
    except Unknown:
        return True


def _beer(targets: Targets, rows: dict[str, FigureRow]) -> Iterator[tuple[str, str, str]]:
    """What it would be beside what it says itself."""
    for figure_id, word in THE_BEER.items():
        stated: Stated = getattr(targets, figure_id, NOWHERE)
        if figure_id in rows and not rows[figure_id].missing:
            yield word, rows[figure_id].shown, stated.text if stated.known else ""
