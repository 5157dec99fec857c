"""What runs off a mash, water after water: how much wort, and how much of the extract is in it."""

from typing import NamedTuple

from mashwright.brewing.volumes import EXTRACT_VOLUME_L_PER_KG

# A fly sparge rinses as one water after the other in small parts: what stays behind falls by e each time that as much
# wort has run off as the grain keeps. Mixed and drained, it falls at one stroke.
_STEPS = 60  # of a fly sparge; past that the sum changes by less than a thousandth


class RunOff(NamedTuple):
    """What one water gives.

    Attributes:
        litres: of wort.
        share: of the extract that the mash dissolved, 0-1.
        before: the share that the grain keeps before it, 0-1.
        held_l: wort that it keeps.
        steps: small waters that it counts as; 1 where it is mixed with the grain and drained.
    """

    litres: float
    share: float
    before: float
    held_l: float
    steps: int

    def until(self, litres: float) -> float:
        """Extract in the first so many litres of it, as a share of all that the mash dissolved."""
        if self.litres <= 0 or litres <= 0:
            return 0.0
        if litres >= self.litres:
            return self.share
        if self.steps == 1:
            return self.share * litres / self.litres
        return self.before * (1 - (self.held_l / (self.held_l + litres / self.steps)) ** self.steps)


def run_offs(
    mash_water_l: float,
    kept_l: float,
    extract_kg: float,
    sparges: tuple[tuple[float, bool], ...] = (),
    moisture_kg: float = 0.0,
    mashes: int = 1,
) -> tuple[RunOff, ...]:
    """The wort of a mash that is drained, and of each water that is poured on the drained grain after it.

    In the mash all extract is in all of the wort. Drained, the grain keeps its part; the next water thins that.

    Args:
        mash_water_l: all water of the mash, above 0.
        kept_l: less wort runs off than there was water: in the grain and below the false bottom, 0 or more.
        extract_kg: that is dissolved, 0 or more.
        sparges: the waters after it in their order: l, and whether it is poured on while wort runs off (a fly
            sparge), and not mixed with the grain and drained.
        moisture_kg: of the grain.
        mashes: in so many the grain is mashed, an equal part in each, the wort of each the water of the next.

    Returns:
        One for the mash, the last of several, and one for each water. The shares add up to less than 1 by what stays
        in the grain; of several mashes, in the grain of each.

    Raises:
        ValueError: there is no wort in the mash.

    Source: mass balance; absorption counted as water that does not come back, a dissolved kilogram of extract as
    0.62 l [brix-tables].
    """
    if mash_water_l <= 0 or mash_water_l + moisture_kg + extract_kg <= 0:
        raise ValueError("a mash needs water")
    part, liquid_l, carried, left, held_l, first_l = 1 / mashes, mash_water_l, 0.0, 1.0, 0.0, 0.0
    for _ in range(mashes):
        wort_l = liquid_l + (moisture_kg + EXTRACT_VOLUME_L_PER_KG * extract_kg) * part
        first_l = max(0.0, liquid_l - kept_l * part)
        there = carried + part
        carried = there * first_l / wort_l
        left, held_l, liquid_l = there - carried, wort_l - first_l, first_l
    found = [RunOff(first_l, carried, left + carried, held_l, 1)]
    for litres, fly in sparges:
        steps = _STEPS if fly else 1
        stays = left * (held_l / (held_l + litres / steps)) ** steps
        found.append(RunOff(litres, left - stays, left, held_l, steps))
        left = stays
    return tuple(found)
