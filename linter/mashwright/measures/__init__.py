"""What is measured: the bounds of what a number in brewing can mean."""

from mashwright.measures.quantity import Kind, Quantity, from_canonical, said, step_of, to_canonical
from mashwright.measures.range import Range

__all__ = [
    "Kind",
    "Quantity",
    "Range",
    "from_canonical",
    "said",
    "step_of",
    "to_canonical",
]
