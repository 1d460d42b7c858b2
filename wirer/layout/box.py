"""Upright rectangles in millimetres, x to the right and y down."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from wirer.circuit.kind import Point


@dataclass(frozen=True, slots=True)
class Box:
    """An upright rectangle by its sides."""

    left: float
    top: float
    right: float
    bottom: float

    @classmethod
    def around(cls, points: Iterable[Point]) -> Box:
        """Return the smallest box round points.

        Raises
        ------
        ValueError
            There are no points.
        """
        xs, ys = zip(*points, strict=True)
        return cls(min(xs), min(ys), max(xs), max(ys))

    @classmethod
    def centred(cls, at: Point, width: float, height: float) -> Box:
        """Return the box of a width and height whose middle is `at`."""
        x, y = at
        return cls(x - width / 2, y - height / 2, x + width / 2, y + height / 2)

    @property
    def width(self) -> float:
        """Its extent in x."""
        return self.right - self.left

    @property
    def height(self) -> float:
        """Its extent in y."""
        return self.bottom - self.top

    @property
    def centre(self) -> Point:
        """Its middle."""
        return (self.left + self.right) / 2, (self.top + self.bottom) / 2

    @property
    def corners(self) -> tuple[Point, Point, Point, Point]:
        """Its corners, clockwise as seen from the upper left."""
        return (
            (self.left, self.top),
            (self.right, self.top),
            (self.right, self.bottom),
            (self.left, self.bottom),
        )

    def grown(self, margin: float) -> Box:
        """Return the box with a margin on every side."""
        return Box(self.left - margin, self.top - margin, self.right + margin, self.bottom + margin)

    def moved(self, by: Point) -> Box:
        """Return the box moved by a vector."""
        x, y = by
        return Box(self.left + x, self.top + y, self.right + x, self.bottom + y)

    def transposed(self) -> Box:
        """Return the box with x and y exchanged."""
        return Box(self.top, self.left, self.bottom, self.right)

    def united(self, other: Box) -> Box:
        """Return the smallest box round both."""
        return Box(
            min(self.left, other.left),
            min(self.top, other.top),
            max(self.right, other.right),
            max(self.bottom, other.bottom),
        )

    def meets(self, other: Box) -> bool:
        """Tell whether they have more than an edge in common; a box may be as thin as a line."""
        return (
            self.left < other.right
            and other.left < self.right
            and self.top < other.bottom
            and other.top < self.bottom
        )

    def shared_area(self, other: Box) -> float:
        """Return the area that lies in both, in mm²."""
        width = min(self.right, other.right) - max(self.left, other.left)
        height = min(self.bottom, other.bottom) - max(self.top, other.top)
        return width * height if width > 0 and height > 0 else 0.0

    def outside(self, other: Box) -> tuple[Box, ...]:
        """Return the up to four boxes that what lies outside another box is made of."""
        if not self.meets(other):
            return (self,)
        top, bottom = max(self.top, other.top), min(self.bottom, other.bottom)
        pieces = (
            Box(self.left, self.top, self.right, other.top),
            Box(self.left, other.bottom, self.right, self.bottom),
            Box(self.left, top, other.left, bottom),
            Box(other.right, top, self.right, bottom),
        )
        return tuple(p for p in pieces if p.width > 0 and p.height > 0)

    def holds(self, point: Point) -> bool:
        """Tell whether a point lies in the box or on its edge."""
        return self.left <= point[0] <= self.right and self.top <= point[1] <= self.bottom


def boxes_union(boxes: Iterable[Box]) -> Box:
    """Return the smallest box round all, an empty one at the origin when there are none."""
    found = list(boxes)
    if not found:
        return Box(0.0, 0.0, 0.0, 0.0)
    return Box(
        min(b.left for b in found),
        min(b.top for b in found),
        max(b.right for b in found),
        max(b.bottom for b in found),
    )
