"""All that a page of the recipe book tells of one recipe, as plain frozen values.

Nothing is computed here that a figure does not give, but the share of each line in the grist.
"""

from collections.abc import Iterator

from msgspec import Struct

from mashwright.brew.brew import Brew
from mashwright.brew.parts import Part
from mashwright.brewing.mash import Minute
from mashwright.figures import ALL, of_a_wort, of_the_mash
from mashwright.figures.kettle.hops import hop_additions
from mashwright.figures.mash import mash_course
from mashwright.figures.package.gas import all_gas
from mashwright.figures.package.pressure import stress
from mashwright.figures.water.dissolved import ions_in_kettle, ions_in_mash
from mashwright.finding import Level
from mashwright.ingredients.lookup import style as known_style
from mashwright.ingredients.styles import Bounds, Style
from mashwright.measures.range import Range
from mashwright.recipe.model import Hop, Targets
from mashwright.recipe.stated import NOWHERE, Said, Stated, Unknown
from mashwright.reviewing.brew_day import BrewDay, brew_day
from mashwright.reviewing.files import Loaded, load
from mashwright.reviewing.houses import Houses
from mashwright.reviewing.read import Read, read
from mashwright.reviewing.results import Result, Reviewed
from mashwright.reviewing.settings import House
from mashwright.reviewing.sheet import FigureRow, Sheet, sheet_of


class BeerRow(Struct, frozen=True):
    """One figure of the beer beside what the recipe says of it.

    Attributes:
        word: such as OG.
        row: the figure, known or not.
        stated: the recipe's own text; "" for none.
        stated_at: the same in the unit of the figure; None where it cannot be read.
        low, high: of the style, in that unit; ``high`` None where it is open; both None where no style says it.
    """

    word: str
    row: FigureRow
    stated: str = ""
    stated_at: float | None = None
    low: float | None = None
    high: float | None = None


class GristRow(Struct, frozen=True):
    """One line of the grist.

    Attributes:
        weight: the recipe's own text.
        share: of all lines by weight, %; None where it is not known.
        power: its own enzymes, °Lintner; None where it is not mashed, or nothing is known of them.
        adds: °Lintner that it brings to the whole mash; None likewise.
        of_mash: its share of what is mashed, %; None where it is not mashed.
        colour: °Lovibond, None where it is not known.
    """

    name: str
    weight: str
    line: int
    lot: str = ""
    place: str = ""
    share: float | None = None
    power: Range | None = None
    adds: Range | None = None
    of_mash: float | None = None
    colour: Range | None = None


class HopRow(Struct, frozen=True):
    """One hop addition.

    Attributes:
        place: ``mash``, ``first wort``, ``boil``, ``stand`` or ``cold``; "" where the recipe says only its bitterness.
        minutes: before the end of the boil; None where it is not one of the boil.
        ibu: None where it cannot be counted.
    """

    name: str
    weight: str
    alpha: str
    when: str
    place: str
    line: int
    minutes: float | None = None
    ibu: Range | None = None


class IonRow(Struct, frozen=True):
    """One ion, mg/l; ``least`` and ``most`` are the brewhouse's settings of the rule water-ions, None for none."""

    name: str
    mash: Range | None
    kettle: Range | None
    least: float | None = None
    most: float | None = None


class GasRow(Struct, frozen=True):
    """All gas of a beer, in volumes or in bar, beside what its vessel bears in the same unit.

    Attributes:
        limits: word and value, the lowest first.
        called: the vessel with what it bears, as a message says it.
    """

    value: Range
    limits: tuple[tuple[str, float], ...]
    unit: str
    called: str


class Beer(Struct, frozen=True):
    """One beer of a recipe: what it is, and its hops. ``name`` is "" where the recipe gives but the one."""

    name: str
    rows: tuple[BeerRow, ...]
    hops: tuple[HopRow, ...] = ()
    figures: tuple[FigureRow, ...] = ()


class Account(Struct, frozen=True):
    """One recipe.

    Attributes:
        is_recipe: False where so little could be read that only the findings and the text are known.
        floors: of the rule enzyme-sufficiency on this brewhouse, °Lintner: word and value, the lowest first.
        missing: for want of what the mash cannot be followed; "" where it can.
        figures: the figures by the stage of the brew day that they belong to.
        day: the brew day in the order of work; None where nothing could be read.
    """

    path: str
    name: str
    text: str
    results: tuple[Result, ...] = ()
    is_recipe: bool = False
    by: str = ""
    style: str = ""
    known_style: str = ""
    source: str = ""
    notes: str = ""
    batch: str = ""
    house: str = ""
    beers: tuple[Beer, ...] = ()
    grist: tuple[GristRow, ...] = ()
    floors: tuple[tuple[str, float], ...] = ()
    course: tuple[Minute, ...] = ()
    missing: str = ""
    converted_at: float | None = None
    ions: tuple[IonRow, ...] = ()
    readings: tuple[tuple[int, str], ...] = ()
    figures: tuple[tuple[str, tuple[FigureRow, ...]], ...] = ()
    day: BrewDay | None = None
    gas: GasRow | None = None

    @property
    def worst(self) -> Level | None:
        """The worst of what is found and not accepted; None where nothing is."""
        return max((one.level for one in self.results if one.accepted is None), default=None)


def account_of(reviewed: Reviewed, houses: Houses, loaded: Loaded | None = None) -> Account:
    """What there is to tell of a recipe that was reviewed.

    Args:
        reviewed: its review.
        houses: finds its brewhouse.
        loaded: its text; None to read the file.
    """
    loaded = load(reviewed.path) if loaded is None else loaded
    document = read(loaded, reviewed.path)
    recipe = document.judgeable
    if recipe is None:
        return Account(reviewed.path, reviewed.name, loaded.text, reviewed.results)
    file = houses.nearest(reviewed.path)
    house = file.house if file is not None else houses.plain()
    brew = Brew(recipe, house.brewhouse, document.document, bounds=house.bounds)
    sheet = sheet_of(brew, reviewed.path)
    grist = tuple(_grist(brew, document))
    course, missing = _course(brew)
    style = known_style(recipe.style) if recipe.style else None
    time = next((row for row in sheet.rows if row.id == "conversion-time"), None)
    return Account(
        reviewed.path,
        recipe.name,
        loaded.text,
        reviewed.results,
        is_recipe=True,
        by=recipe.by,
        style=recipe.style,
        known_style=f"{style.name}, {style.edition}" if style else "",
        source=recipe.source,
        notes=recipe.notes,
        batch=recipe.batch.said.text if recipe.batch.said else "",
        house=str(house.brewhouse.name) or (file.path if file is not None else ""),
        beers=tuple(_beers(brew, sheet, style or None)),
        grist=grist,
        floors=tuple(_floors(house)),
        course=course,
        missing=missing,
        converted_at=time.typical if time is not None and course and (time.typical or 0) <= course[-1].minute else None,
        ions=tuple(_ions(brew, house)),
        readings=sheet.readings,
        figures=tuple(_staged(sheet.rows)),
        day=brew_day(brew, sheet, reviewed.results, corrections=True),
        gas=_gas(brew),
    )


_BEER = (
    ("og", "OG", "og", "og"),
    ("fg", "FG", "fg", "fg"),
    ("abv", "ABV", "abv", "abv"),
    ("bitterness", "IBU", "bitterness", "ibu"),
    ("colour", "colour", "colour", "srm"),
    ("carbonation", "carbonation", "", ""),
)
"""Figure, word, field of the targets, and bounds of a style."""


def _beers(brew: Brew, sheet: Sheet, style: Style | None) -> Iterator[Beer]:
    if not sheet.worts:
        yield Beer("", tuple(_beer(brew.recipe.targets, brew, sheet, style)), tuple(_hops(brew)))
        return
    from mashwright.figures.kettle.worts import worts_of

    for own, figures in zip(worts_of(brew), sheet.worts, strict=False):
        name = own.recipe.name or figures.name or "a wort without a name"
        rows = tuple(_beer(own.recipe.targets, own, figures, style))
        yield Beer(name, rows, tuple(_hops(own)), figures.rows)


def _beer(targets: Targets, brew: Brew, sheet: Sheet, style: Style | None) -> Iterator[BeerRow]:
    rows = {row.id: row for row in reversed(sheet.rows)}
    for figure, word, field, bounds in _BEER:
        row = rows.get(figure)
        if row is None:
            continue
        stated: Stated = getattr(targets, field, NOWHERE) if field else brew.recipe.package.carbonation
        usual: Bounds | None = getattr(style, bounds) if style is not None and bounds else None
        yield BeerRow(
            word,
            row,
            stated.text if isinstance(stated, Said) else "",
            stated.range.typical if isinstance(stated, Said) else None,
            usual.low if usual else None,
            usual.high if usual else None,
        )


def _grist(brew: Brew, document: Read) -> Iterator[GristRow]:
    try:
        parts = {part.path: part for part in brew.grist()}
    except Unknown:
        parts = {}
    try:
        mashed = {part.path for part in brew.mashed()}
    except Unknown:
        mashed = set()
    total = sum(part.amount for part in parts.values())
    in_mash = sum(part.amount for part in parts.values() if part.path in mashed)
    for line in brew.recipe.grist:
        weight = line.weight if isinstance(line.weight, Said) else line.share
        told = weight.text if isinstance(weight, Said) else "not stated"
        place = document.document.place(document.document.span_of(line.path)).line
        part = parts.get(line.path)
        if part is None:
            yield GristRow(line.name, told, place, line.lot, line.add)
            continue
        of_mash = 100 * part.amount / in_mash if part.path in mashed and in_mash > 0 else None
        power = _power(brew, part) if of_mash is not None else None
        yield GristRow(
            part.name,
            told,
            place,
            line.lot,
            part.place,
            100 * part.amount / total if total > 0 else None,
            power,
            power * (of_mash / 100) if power is not None and of_mash is not None else None,
            of_mash,
            part.colour_lovibond,
        )


def _power(brew: Brew, part: Part) -> Range | None:
    try:
        return brew.power_of(part)
    except Unknown:
        return None


def _floors(house: House) -> Iterator[tuple[str, float]]:
    """Below which a mash has too little enzyme, as the rule has it here."""
    found = next((one.limits for one in house.rules if one.rule.info.id == "enzyme-sufficiency"), None)
    words = {
        "too_little_lintner": "too little for any lot",
        "floor_lintner": "the floor",
        "comfortable_lintner": "comfortable from here",
    }
    for attribute, word in words.items():
        value = getattr(found, attribute, None)
        if isinstance(value, int | float):
            yield word, float(value)


def _course(brew: Brew) -> tuple[tuple[Minute, ...], str]:
    try:
        return mash_course(brew), ""
    except Unknown as unknown:
        return (), unknown.missing


def _ions(brew: Brew, house: House) -> Iterator[IonRow]:
    try:
        kettle, mash = ions_in_kettle(brew), ions_in_mash(brew)
    except Unknown:
        return
    found = next((one.limits for one in house.rules if one.rule.info.id == "water-ions"), None)
    for ion in dict.fromkeys((*kettle, *mash)):
        least = getattr(found, f"least_{ion}_mg_per_l", None)
        most = getattr(found, f"most_{ion}_mg_per_l", getattr(found, f"usual_{ion}_mg_per_l", None))
        yield IonRow(ion, mash.get(ion), kettle.get(ion), least, most)


def _gas(brew: Brew) -> GasRow | None:
    """Of the first package; None where there is none, or nothing is known of its gas or of what it bears."""
    try:
        held = stress(brew, all_gas(brew).range)
    except Unknown:
        return None
    if held is None:
        return None
    limit = held.bearing.limit
    words = (("usually up to", limit.low), ("doubtful from", limit.typical), ("made for", limit.high))
    limits = (("the rating", limit.low),) if held.bearing.rating else words
    return GasRow(held.value, limits, "bar" if held.bearing.in_bar else "volumes", held.bearing.called)


def _hops(brew: Brew) -> Iterator[HopRow]:
    try:
        added = {one.path: one for one in hop_additions(brew)}
    except Unknown:
        added = {}
    for hop in brew.recipe.hops:
        one = added.get(hop.path)
        amount = next((each for each in (hop.weight, hop.alpha_units) if isinstance(each, Said)), None)
        place, minutes = _when(hop)
        yield HopRow(
            hop.name,
            amount.text if amount is not None else "not stated",
            hop.alpha.text if isinstance(hop.alpha, Said) else "",
            one.when if one is not None else _said_when(hop),
            place,
            brew.document.place(brew.document.span_of(hop.path)).line,
            minutes,
            one.ibu if one is not None else None,
        )


def _when(hop: Hop) -> tuple[str, float | None]:
    if hop.mash:
        return "mash", None
    if hop.first_wort:
        return "first wort", None
    if isinstance(hop.dry, Said):
        return "cold", None
    if isinstance(hop.whirlpool, Said):
        return "stand", None
    if isinstance(hop.boil, Said):
        return "boil", hop.boil.range.typical
    return "", None


def _said_when(hop: Hop) -> str:
    found = next((one for one in (hop.boil, hop.whirlpool, hop.dry) if isinstance(one, Said)), None)
    return found.text if found is not None else "not stated"


_STAGES = {one.id: one.compute.__module__.split(".")[2] for some in (ALL, of_the_mash(), of_a_wort()) for one in some}


def _staged(rows: tuple[FigureRow, ...]) -> Iterator[tuple[str, tuple[FigureRow, ...]]]:
    for stage in dict.fromkeys(_STAGES.values()):
        yield stage, tuple(row for row in rows if _STAGES.get(row.id) == stage)


def place_of(result: Result) -> str:
    """The section of a recipe in which a finding lies."""
    return result.pointer.split("/")[1] if result.pointer.startswith("/") else ""


__all__ = ["Account", "Beer", "BeerRow", "GristRow", "HopRow", "IonRow", "account_of", "place_of"]
