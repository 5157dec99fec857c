"""How much beer goes into a package, of all that is packaged."""

from typing import TYPE_CHECKING

from mashwright.brew.board import number
from mashwright.brew.brew import Brew
from mashwright.brew.own_units import litres_in
from mashwright.figures.figure import Figure
from mashwright.figures.function import figure
from mashwright.figures.package.packaged import (
    beer_volume,
    left_behind,
    packaged_volume,
    packaging,
    size_of,
    stated_volume,
)

if TYPE_CHECKING:
    from mashwright.finding import Path


@figure("packaged-beer", unit="l", sources=("common-practice",))
def packaged_beer(brew: Brew) -> Figure:
    """Beer in the package."""
    package, value = packaging(brew), packaged_volume(brew)
    whole = own = None
    paths: tuple[Path, ...] = (brew.recipe.batch.path,)
    if package.share.known:
        whole, paths = beer_volume(brew), (package.share.path, *paths)
    elif (own := stated_volume(package)) is None:
        whole = beer_volume(brew)
    else:
        paths = (package.volume.path if package.volume.known else package.count.path,)

    def working() -> str:
        if package.share.known and whole is not None:
            return f"{litres_in(brew, whole.typical)} × {package.share.text} = {litres_in(brew, value.typical)}"
        size = size_of(package)
        if own is not None and package.count.known and size is not None:
            each = litres_in(brew, size.typical)
            return f"{number(package.count.range.typical)} × {each} = {litres_in(brew, value.typical)}"
        if whole is None:
            return f"{litres_in(brew, value.typical)}, as stated"
        if not brew.recipe.beside:
            return f"{litres_in(brew, whole.typical)}, the batch less what stays with the yeast"
        return f"what the others leave of {litres_in(brew, whole.typical)} = {litres_in(brew, value.typical)}"

    return Figure(value, working, paths=paths, assumed=left_behind(brew))
