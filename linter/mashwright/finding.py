"""The lowest room: what every other room speaks in. Imports nothing of ours."""

from collections.abc import Callable, Iterable
from dataclasses import dataclass, field
from enum import IntEnum
from itertools import product
from math import sqrt

from msgspec import Struct

Path = tuple[str | int, ...]
"""A place in a recipe: keys and list indexes from the root, as in a JSON Pointer."""


class Level(IntEnum):
    """How bad a finding is; the three words are those of SARIF 2.1.0."""

    NOTE = 1
    WARNING = 2
    ERROR = 3

    @property
    def word(self) -> str:
        """``note``, ``warning`` or ``error``."""
        return self.name.lower()


class Range(Struct, frozen=True, gc=False):
    """A value that varies: low, typical and high in numeric order; which end is the good one only a rule knows."""

    low: float
    typical: float
    high: float

    @classmethod
    def exact(cls, value: float) -> "Range":
        """A value that is known."""
        return cls(value, value, value)

    @classmethod
    def span(cls, compute: Callable[..., float], *inputs: "Range") -> "Range":
        """The range of a function of up to four independent inputs that is monotone in each."""
        typical = compute(*(r.typical for r in inputs))
        if all(r.low == r.high for r in inputs):
            return cls.exact(typical)
        ends = [
            compute(*point) for point in product(*((r.low, r.high) if r.low != r.high else (r.low,) for r in inputs))
        ]
        return cls(min(*ends, typical), typical, max(*ends, typical))

    @classmethod
    def along(
        cls, compute: Callable[..., float], rising: "tuple[Range, ...]", falling: "tuple[Range, ...]" = ()
    ) -> "Range":
        """The range of a function that is known to rise with some inputs and fall with others, in three steps.

        Args:
            compute: takes the rising inputs and then the falling ones.
            rising, falling: independent inputs; otherwise as ``span``, which tries every pair of ends.
        """
        typical = compute(*[r.typical for r in rising], *[r.typical for r in falling])
        low = compute(*[r.low for r in rising], *[r.high for r in falling])
        high = compute(*[r.high for r in rising], *[r.low for r in falling])
        return cls(min(low, typical), typical, max(high, typical))

    @classmethod
    def weighted_mean(cls, parts: Iterable[tuple["Range", float]]) -> "Range":
        """The mean of independent values by weight.

        Args:
            parts: pairs of a value and its weight; the weights sum to more than 0.

        Returns:
            The typical mean, its ends combined in quadrature.

        Raises:
            ValueError: nothing to average.

        Source: [jcgm-100-2008], 5.1.2, uncorrelated inputs.
        """
        return _quadrature(list(parts), mean=True)

    @classmethod
    def weighted_sum(cls, parts: Iterable[tuple["Range", float]]) -> "Range":
        """The sum of independent values times exact weights; ends as in weighted_mean."""
        return _quadrature(list(parts), mean=False)

    @property
    def known(self) -> bool:
        """True where the three values are one."""
        return self.low == self.high

    def map(self, compute: Callable[[float], float]) -> "Range":
        """The range of a monotone function of this value."""
        return Range.span(compute, self)

    def __add__(self, other: "Range") -> "Range":
        """Two values together, their ends with their ends."""
        return Range(self.low + other.low, self.typical + other.typical, self.high + other.high)

    def __sub__(self, other: "Range") -> "Range":
        """What is left of this value without an independent other; below 0 where there is less of it than of that."""
        return Range(self.low - other.high, self.typical - other.typical, self.high - other.low)

    def __mul__(self, factor: float) -> "Range":
        """Scaled by a number that is not negative."""
        return Range(self.low * factor, self.typical * factor, self.high * factor)

    def times(self, other: "Range") -> "Range":
        """Two values that are not negative, multiplied, their ends with their ends."""
        return Range(self.low * other.low, self.typical * other.typical, self.high * other.high)

    @property
    def not_below_0(self) -> "Range":
        """The same, with 0 in place of whatever is below it."""
        if self.low >= 0:
            return self
        return Range(0.0, max(0.0, self.typical), max(0.0, self.high))


def _quadrature(parts: list[tuple[Range, float]], *, mean: bool) -> Range:
    total = sum(weight for _, weight in parts) if mean else 1.0
    if total <= 0:
        raise ValueError("nothing to average")
    typical = sum(value.typical * weight for value, weight in parts) / total
    down = sqrt(sum(((value.typical - value.low) * weight) ** 2 for value, weight in parts)) / total
    up = sqrt(sum(((value.high - value.typical) * weight) ** 2 for value, weight in parts)) / total
    return Range(typical - down, typical, typical + up)


class Edit(Struct, frozen=True, gc=False):
    """One change of a recipe's text.

    Attributes:
        path: the scalar to replace; or a key that its mapping lacks yet, to add; or a list and ``"-"``, to append an
            item (the last as in JSON Patch, RFC 6902).
        text: the new value as YAML flow text, on one line.
    """

    path: Path
    text: str


class Evidence(Struct, frozen=True, gc=False):
    """One row of the sum behind a finding."""

    label: str
    value: float | str
    unit: str = ""
    path: Path | None = None


class Remedy(Struct, frozen=True, gc=False):
    """A change that was tried and mends the finding."""

    text: str
    edits: tuple[Edit, ...]


@dataclass(frozen=True, slots=True)
class Finding:
    """What a rule has to say about one place.

    Attributes:
        path: where; the reader turns it into line and column.
        level: how bad.
        message: one sentence with its numbers, lower case, no full stop.
        gap: how far past the limit, as a share of the limit.
        evidence: the sum behind it.
        related: other places that have to do with it.
        knobs: what a brewer can turn to mend it; tried by the reviewing room, which fills ``remedies``.
        rule: filled by the runner.
    """

    path: Path
    level: Level
    message: str
    gap: float = 0.0
    evidence: tuple[Evidence, ...] = ()
    related: tuple[Path, ...] = ()
    knobs: tuple[object, ...] = ()
    remedies: tuple[Remedy, ...] = ()
    rule: str = field(default="")
