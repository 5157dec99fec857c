"""The kinds of yeast of a brew, as they are probably meant."""

from mashwright.brew.brew import Brew
from mashwright.brew.once import once
from mashwright.brew.own import yeast_of
from mashwright.ingredients.lookup import most_guessed
from mashwright.ingredients.probable import probable_yeast
from mashwright.ingredients.yeasts import Yeast


@once
def kinds(brew: Brew) -> tuple[Yeast | None, ...]:
    """The kind of each yeast of the recipe, by its name or by what it is a slip of; None where it says nothing."""
    found, unknown = [], 0
    for one in brew.recipe.yeast:
        known = yeast_of(brew.brewhouse, one.kind) if one.kind else None
        if known is None and one.kind:
            unknown += 1
            known = probable_yeast(one.kind) if unknown <= most_guessed() else None
        found.append(known)
    return tuple(found)
