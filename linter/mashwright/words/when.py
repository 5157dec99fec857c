"""When an addition goes in, by a brewer's own words: "last 10 min", "at bottling", "three days before kegging"."""

from functools import lru_cache

from msgspec import Struct

from mashwright.words.tokens import in_order
from mashwright.words.vocabulary import mentions, speaks_of


class When(Struct, frozen=True, gc=False):
    """What the words say of the place, each as far as they say it; some of it may be so at once.

    Attributes:
        in_water: into the brewing water, mash and sparge included, or before the boil.
        in_mash: into the mash.
        in_kettle: into the kettle while it boils, or before.
        boiled: boiled there; minutes alone are those of the boil, as with hops.
        in_fermenter: into the fermenter, or what the beer matures in.
        packaged: as the beer is packaged; what goes in three days before that goes into the fermenter.
        closed: into a vessel that is closed.
        before: before something.
    """

    in_water: bool
    in_mash: bool
    in_kettle: bool
    boiled: bool
    in_fermenter: bool
    packaged: bool
    closed: bool
    before: bool


@lru_cache(maxsize=1024)
def when(text: str) -> When:
    """What the words for when an addition goes in say.

    Args:
        text: as it was written, "" where nothing was.
    """

    def is_said(tag: str) -> bool:
        return mentions(tag, "when", text)

    before, boil, packaging = is_said("before"), speaks_of("in-boil", "when", text), is_said("at-packaging")
    later = is_said("after") or is_said("in-fermenter") or packaging
    in_mash = is_said("in-mash")
    off_boil = is_said("after") or is_said("off-boil")
    return When(
        in_water=(before and boil) or ((in_mash or is_said("in-water")) and not later),
        in_mash=in_mash and not later,
        in_kettle=boil and not (later or off_boil or in_mash),
        boiled=_is_minutes(text) or (boil and not off_boil),
        in_fermenter=is_said("in-fermenter"),
        packaged=packaging and not (before and is_said("earlier")),
        closed=is_said("closed") and not before,
        before=before,
    )


def _is_minutes(text: str) -> bool:
    """Whether nothing but minutes is said: "10 min", "last 5 minutes"."""
    words = [bare for word in in_order(text) if (bare := word.lstrip("0123456789.,"))]
    return any(mentions("minutes", "when", word) for word in words) and all(
        mentions("by-minutes", "when", word) for word in words
    )
