"""What is poured, as rows of evidence, and what of it a brewer can change."""

from mashwright.brew import Brew, Pour, litres_in
from mashwright.knobs import Knob, one_change
from mashwright.measures import Kind, from_canonical, said
from mashwright.rule import Edit, Evidence, Path
from mashwright_rules.water.volume_balance._ends import End


def rows(brew: Brew, pours: tuple[Pour, ...], needed: float = 0.0) -> tuple[Evidence, ...]:
    """What is needed and what is poured, in the unit of the batch."""
    batch, top_up = brew.recipe.batch, brew.recipe.top_up
    unit = batch.stated.unit if batch.stated.known else "l"

    def row(label: str, litres: float, path: Path) -> Evidence:
        return Evidence(label, from_canonical(litres, unit, Kind.VOLUME), unit, path)

    told = [row("needed before the boil", needed, brew.recipe.batch.path)] if needed > 0 else []
    told += [row(pour.name, pour.litres.typical, pour.path) for pour in pours if pour.litres.high > 0]
    if pours and top_up.kettle.known:
        told.append(row("top-up in the kettle", top_up.kettle.range.typical, top_up.kettle.path))
    return tuple(told)


def paths(pours: tuple[Pour, ...]) -> tuple[Path, ...]:
    return tuple(pour.path for pour in pours if pour.stated)


def sparge_text(brew: Brew, more_l: float) -> tuple[Path, str, str] | None:
    """Where the sparge water stands, what it is with so much more, and what is stated; None if none would be left."""
    sparge = brew.recipe.sparge
    if not sparge.water.known or sparge.water.range.typical + more_l <= 0:
        return None
    text = said(sparge.water.range.typical + more_l, sparge.water.unit, Kind.VOLUME)
    return sparge.water.path, text, sparge.water.text


def other_sparge(brew: Brew, more_l: float) -> tuple[Knob, ...]:
    """So much more or less sparge water, where some is stated and some is left."""
    if (sparge := sparge_text(brew, more_l)) is None:
        return ()
    path, text, instead = sparge
    return (one_change((Edit(path, text),), f"sparge with {text} instead of {instead}"),)


def topped_up(brew: Brew, end: End) -> tuple[Knob, ...]:
    """What malt extract boiled full still wants, poured into the fermenter."""
    batch = brew.recipe.batch
    if end.to_top_up <= 0 or not batch.known or (batch.kettle.known and not batch.fermenter.known):
        return ()
    text = litres_in(brew, end.to_top_up)
    top_up = brew.recipe.top_up
    edit = (
        Edit(top_up.fermenter.path, text) if top_up.known else Edit(brew.recipe.top_up.path, f"{{fermenter: {text}}}")
    )
    return (one_change((edit,), f"top up the fermenter with {text}"),)
