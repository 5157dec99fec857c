"""The section of a page that a line is in."""

from msgspec import Struct


class Section(Struct):
    """What the lines are about since the last heading.

    Attributes:
        name: a field of the format, ``notes``, ``any``, or "" before the first heading.
        dry: whether the hops go into the beer.
    """

    name: str = ""
    dry: bool = False

    def enter(self, heading: str) -> None:
        """Begin a section."""
        self.dry = heading == "dry"
        self.name = "hops" if self.dry else "" if heading == "any" else heading
