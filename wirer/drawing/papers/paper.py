"""Paper: its sizes, its margins, and the foot that every page has."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from wirer.layout.box import Box

MARGIN_MM = 12.0
NARROW_MM = 7.0
FOOT_MM = 9.5
TOP_MM = 11.0


@dataclass(frozen=True, slots=True)
class Paper:
    """A size of paper, upright, in mm."""

    name: str
    width: float
    height: float


PAPERS: Mapping[str, Paper] = {
    "A4": Paper("A4", 210.0, 297.0),
    "Letter": Paper("Letter", 215.9, 279.4),
}
"""A4 by ISO 216, Letter by ANSI/ASME Y14.1."""


@dataclass(frozen=True, slots=True)
class Form:
    """How a page lies: its paper, upright or `across`, and its margin left and right."""

    paper: Paper
    across: bool = False
    margin: float = MARGIN_MM

    @property
    def width(self) -> float:
        """The width of the page."""
        return self.paper.height if self.across else self.paper.width

    @property
    def height(self) -> float:
        """The height of the page."""
        return self.paper.width if self.across else self.paper.height

    @property
    def body(self) -> Box:
        """The room above the foot."""
        narrow = self.margin == NARROW_MM
        top, gap = (NARROW_MM, 0.6) if narrow else (TOP_MM, 2.4)
        return Box(self.margin, top, self.width - self.margin, self.foot.top - gap)

    @property
    def foot(self) -> Box:
        """The room of the foot."""
        bottom = self.height - NARROW_MM
        return Box(self.margin, bottom - FOOT_MM, self.width - self.margin, bottom)
