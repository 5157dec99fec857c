"""What brings extract: malt, grain, sugar, extract, fruit; and hulls, which go into the mash with them."""

from collections.abc import Iterable
from functools import cache

from msgspec import Struct
from msgspec.structs import replace

from mashwright.ingredients.names import normalised
from mashwright.ingredients.tables import Row, Sources, blocks, only, rows, sources
from mashwright.measures.range import Range

_YES = {"yes": True, "no": False}


class Fermentable(Struct, frozen=True, gc=False):
    """One entry of the table, or a stand-in for a thing that it does not know.

    Attributes:
        name: as the trade calls it.
        kind: ``base malt``, ``raw grain``, ``sugar`` and so on; see ``kinds``.
        cereal: ``barley``, ``maize`` and so on; ``none`` for sugar and fruit; ``unknown`` in a stand-in of several.
        malted: it was malted.
        pregelatinised: its starch is gelatinised already, or it has none.
        husk: it brings husk to the mash; None where a stand-in cannot say.
        needs_mash: ``yes``, ``no``, or ``steep``: steeping is enough.
        extract_dry: laboratory extract, fine grind, % of dry matter.
        moisture: % as sold.
        power_lintner: diastatic power, °Lintner.
        colour_lovibond: °Lovibond.
        gelatinises_c: where its starch gelatinises, °C; None without starch.
        max_share: its usual upper share of the grist, %; None where none is usual.
        protein: %.
        fermentable: share of the dissolved solids that ordinary yeast ferments, %; sugars, extracts and fruit only.
        sources: the keys behind each property of the table.
    """

    name: str
    kind: str
    cereal: str
    malted: bool
    pregelatinised: bool
    husk: bool | None
    needs_mash: str
    extract_dry: Range | None
    moisture: Range | None
    power_lintner: Range | None
    colour_lovibond: Range | None
    gelatinises_c: Range | None
    max_share: float | None
    protein: float | None
    fermentable: Range | None
    sources: Sources

    @property
    def dampness(self) -> Range:
        """Its moisture; none where the table gives none, since such an extract is of the thing as it is sold, %."""
        return self.moisture or Range.exact(0.0)

    def ferments(self, otherwise: float) -> float:
        """Share of its dissolved solids that ordinary yeast ferments, 0-1; ``otherwise`` where the table has none."""
        return self.fermentable.typical / 100 if self.fermentable else otherwise

    def from_memory(self, property: str) -> bool:  # noqa: A002 (the table's own word)
        """Whether a value (``extract``, ``diastatic-power``, ...; the table's properties) rests on memory alone."""
        return dict(self.sources).get(property) == ("from-memory",)


@cache
def entry(name: str) -> Fermentable:
    """The entry of exactly that name.

    Raises:
        KeyError: there is none.
    """
    found = rows("fermentables", name)
    row = only(name, found)
    return Fermentable(
        name=name,
        kind=row["kind"].typical,
        cereal=row["cereal"].typical,
        malted=_YES[row["malted"].typical],
        pregelatinised=_YES[row["pregelatinised"].typical],
        husk=_YES[row["husk"].typical],
        needs_mash=row["needs-mash"].typical,
        extract_dry=_range(row, "extract"),
        moisture=_range(row, "moisture"),
        power_lintner=_range(row, "diastatic-power"),
        colour_lovibond=_range(row, "colour"),
        gelatinises_c=_range(row, "gelatinises"),
        max_share=_number(row, "max-share"),
        protein=_number(row, "protein"),
        fermentable=_range(row, "fermentable"),
        sources=sources(found),
    )


def everything() -> Iterable[Fermentable]:
    """All entries, in the order of the table."""
    return map(entry, blocks("fermentables"))


@cache
def kinds() -> tuple[str, ...]:
    """The kinds that the table knows, in its order."""
    return tuple(dict.fromkeys(one.kind for one in everything()))


@cache
def cereals() -> tuple[str, ...]:
    """The cereals that the table knows, in its order."""
    return tuple(dict.fromkeys(one.cereal for one in everything() if one.cereal != "none"))


@cache
def unknown(kind: str, cereal: str | None = None) -> Fermentable:
    """A stand-in for a thing described by its kind: each range spans all entries of that kind.

    Args:
        kind: one of ``kinds()``; hyphens and plurals forgiven.
        cereal: one of ``cereals()``, or its American name; entries of that cereal alone are taken if there are any.

    Raises:
        ValueError: no such kind or cereal.

    Source: [judgement], over the table's own values; the middle one is typical.
    """
    asked = _one_of(kind, kinds(), "kind")
    grown = None if cereal is None or cereal == "none" else _one_of(cereal, cereals(), "cereal")
    alike = [one for one in everything() if one.kind == asked]
    alike = [one for one in alike if one.cereal == grown] or alike
    same = {one.cereal for one in alike}
    husks = {one.husk for one in alike}
    needs = [one.needs_mash for one in alike]
    return Fermentable(
        name=f"{asked} ({grown})" if grown else asked,
        kind=asked,
        cereal=grown or (same.pop() if len(same) == 1 else "unknown"),
        malted=all(one.malted for one in alike),
        pregelatinised=all(one.pregelatinised for one in alike),
        husk=husks.pop() if len(husks) == 1 else None,
        needs_mash=max(sorted(set(needs)), key=needs.count),
        extract_dry=_spanning(one.extract_dry for one in alike),
        moisture=_spanning(one.moisture for one in alike),
        power_lintner=_spanning(one.power_lintner for one in alike),
        colour_lovibond=_spanning(one.colour_lovibond for one in alike),
        gelatinises_c=_spanning(one.gelatinises_c for one in alike),
        max_share=None,
        protein=None,
        fermentable=_spanning(one.fermentable for one in alike),
        sources=tuple((row, ("judgement",)) for row, _ in alike[0].sources if row not in {"max-share", "protein"}),
    )


@cache
def any_grain() -> Fermentable:
    """A stand-in for a grain of which nothing is known: each range spans all grain, its middle is that of base malt.

    Source: [judgement], over the table's own values.
    """
    likely = unknown("base malt")
    others = [unknown(kind) for kind in kinds() if kind not in _NO_GRAIN]

    def widened(field: str) -> Range | None:
        values = [value for one in (likely, *others) if (value := getattr(one, field)) is not None]
        middle = getattr(likely, field)
        typical = middle.typical if middle is not None else values[0].typical
        return Range(min(value.low for value in values), typical, max(value.high for value in values))

    return replace(
        likely,
        name="grain",
        cereal="unknown",
        husk=None,
        extract_dry=widened("extract_dry"),
        moisture=widened("moisture"),
        power_lintner=Range(0.0, likely.power_lintner.typical, likely.power_lintner.high)
        if likely.power_lintner is not None
        else None,
        colour_lovibond=widened("colour_lovibond"),
    )


_NO_GRAIN = ("sugar", "syrup", "dry extract", "liquid extract", "fruit or other", "hulls")


@cache
def caramel_malts() -> dict[float, str]:
    """The caramel malts of barley that are sold by their colour: nominal °Lovibond and name."""
    named = (name.partition("caramel malt ") for name in blocks("fermentables"))
    return {float(colour): f"{said}{colour}" for before, said, colour in named if not before and colour.isdecimal()}


@cache
def caramel_malt(colour_lovibond: float) -> Fermentable | None:
    """A caramel malt of any colour between the table's lightest and darkest, on the line between its neighbours."""
    listed = caramel_malts()
    if colour_lovibond in listed:
        return entry(listed[colour_lovibond])
    if not min(listed) < colour_lovibond < max(listed):
        return None
    pale = max(colour for colour in listed if colour < colour_lovibond)
    dark = min(colour for colour in listed if colour > colour_lovibond)
    share = (colour_lovibond - pale) / (dark - pale)
    return _between(entry(listed[pale]), entry(listed[dark]), share, f"caramel malt {colour_lovibond:g}")


def _between(pale: Fermentable, dark: Fermentable, share: float, name: str) -> Fermentable:
    def line(one: Range | None, other: Range | None) -> Range | None:
        if one is None or other is None:
            return None
        low, typical, high = (
            a + share * (b - a) for a, b in ((one.low, other.low), (one.typical, other.typical), (one.high, other.high))
        )
        return Range(low, typical, high)

    behind = dict(dark.sources)
    return replace(
        pale,
        name=name,
        extract_dry=line(pale.extract_dry, dark.extract_dry),
        moisture=line(pale.moisture, dark.moisture),
        power_lintner=line(pale.power_lintner, dark.power_lintner),
        colour_lovibond=line(pale.colour_lovibond, dark.colour_lovibond),
        max_share=pale.max_share if pale.max_share == dark.max_share else None,
        protein=pale.protein if pale.protein == dark.protein else None,
        sources=tuple((row, tuple(dict.fromkeys((*keys, *behind.get(row, ()))))) for row, keys in pale.sources),
    )


def _spanning(values: Iterable[Range | None]) -> Range | None:
    known = [value for value in values if value is not None]
    if not known:
        return None
    typical = sorted(value.typical for value in known)[len(known) // 2]
    return Range(min(value.low for value in known), typical, max(value.high for value in known))


def _one_of(said: str, allowed: tuple[str, ...], what: str) -> str:
    by_key = {normalised(one): one for one in allowed}
    if (found := by_key.get(normalised(said))) is None:
        raise ValueError(f"{said!r} is no {what}; known are {', '.join(allowed)}")
    return found


def _range(row: dict[str, Row], name: str) -> Range | None:
    return row[name].range if name in row else None


def _number(row: dict[str, Row], name: str) -> float | None:
    return float(row[name].typical) if name in row else None
