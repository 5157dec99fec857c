"""A text about which something is asked. Loads next to nothing, so that a server answers at once when it is started."""

import os
from collections.abc import Mapping
from typing import NamedTuple

_HOUSES = ("brewhouse.yaml", "brewhouse.yml")  # as in reviewing.files, whose import takes long; a test compares the two


class Asked(NamedTuple):
    """A text about which something is asked.

    Attributes:
        path: absolute; it need not lie on the disk.
        text: without a byte-order mark.
        houses: the texts of the open brewhouses by their paths.
    """

    path: str
    text: str
    houses: Mapping[str, str]

    @property
    def is_house(self) -> bool:
        """Whether it is a brewhouse."""
        return is_house(self.path)


def is_house(path: str) -> bool:
    """Whether a file of that name is a brewhouse."""
    return os.path.basename(path) in _HOUSES
