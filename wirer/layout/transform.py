"""From a part's own frame to the wiring view: mirrored, turned clockwise, then moved."""

from __future__ import annotations

from dataclasses import dataclass

from wirer.circuit.kind import Point
from wirer.circuit.model import Part

_COS_SIN = {0: (1, 0), 90: (0, 1), 180: (-1, 0), 270: (0, -1)}


@dataclass(frozen=True, slots=True)
class Transform:
    """How a part lies: mirrored left to right if `flip`, turned clockwise by `turn`, moved to `at`.

    With y down, a clockwise quarter turn takes what points right to pointing down.
    """

    at: Point = (0.0, 0.0)
    turn: int = 0
    flip: bool = False

    @classmethod
    def of(cls, part: Part) -> Transform:
        """Return the transform of a part."""
        return cls(part.at, part.turn, part.flip)

    def direction(self, vector: Point) -> Point:
        """Turn a vector of the part's frame into the wiring view."""
        cos, sin = _COS_SIN[self.turn % 360]
        x, y = -vector[0] if self.flip else vector[0], vector[1]
        return cos * x - sin * y, sin * x + cos * y

    def point(self, point: Point) -> Point:
        """Bring a point of the part's frame into the wiring view."""
        x, y = self.direction(point)
        return x + self.at[0], y + self.at[1]

    def back(self, point: Point) -> Point:
        """Bring a point of the wiring view into the part's frame."""
        cos, sin = _COS_SIN[self.turn % 360]
        x, y = point[0] - self.at[0], point[1] - self.at[1]
        x, y = cos * x + sin * y, cos * y - sin * x
        return -x if self.flip else x, y
