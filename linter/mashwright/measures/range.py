"""A value that varies: low, typical and high, and sums with such values."""

from collections.abc import Callable, Iterable
from itertools import product
from math import sqrt

from msgspec import Struct


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
        typical = compute(*[one.typical for one in inputs])
        varying = sum([one.low != one.high for one in inputs])
        if not varying:
            return cls(typical, typical, typical)
        if varying == 1:
            low, high = compute(*[one.low for one in inputs]), compute(*[one.high for one in inputs])
            return cls(min(low, high, typical), typical, max(low, high, typical))
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
        return _quadrature(parts, mean=True)

    @classmethod
    def weighted_sum(cls, parts: Iterable[tuple["Range", float]]) -> "Range":
        """The sum of independent values times exact weights; ends as in weighted_mean."""
        return _quadrature(parts, mean=False)

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


def _quadrature(parts: Iterable[tuple[Range, float]], *, mean: bool) -> Range:
    whole = typical = down = up = 0.0
    for value, weight in parts:
        middle = value.typical
        whole += weight
        typical += middle * weight
        down += ((middle - value.low) * weight) ** 2
        up += ((value.high - middle) * weight) ** 2
    total = whole if mean else 1.0
    if total <= 0:
        raise ValueError("nothing to average")
    typical /= total
    return Range(typical - sqrt(down) / total, typical, typical + sqrt(up) / total)
