"""What becomes of a wire's bends when parts move.

A wire whose two lugs move alike takes its bends along. Where only one end moves (or both, each its
own way), the run that leads to that end keeps its direction: the bends that lay straight above,
below or beside the lug stay so, the others stay where they are. Then a bend is dropped

* that the body of a moved part has come to cover,
* that lies within `LEAST_LEG_MM` of the point before it, or
* at which the wire would turn back on itself (by more than `SHARPEST_TURN_DEG`).
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from wirer.circuit.kind import Point
from wirer.layout.geometry import Polygon, point_in_polygon

LEAST_LEG_MM = 0.5
SHARPEST_TURN_DEG = 135.0
LEVEL_MM = 1e-3


@dataclass(frozen=True, slots=True)
class End:
    """A lug before and after a move."""

    before: Point
    after: Point

    @property
    def has_moved(self) -> bool:
        """Whether it lies elsewhere."""
        return math.dist(self.before, self.after) > LEVEL_MM


def followed_bends(
    bends: Sequence[Point], ends: tuple[End, End], bodies: Iterable[Polygon] = ()
) -> tuple[Point, ...]:
    """Return the bends of a wire of which an end has moved; `bodies` are those of moved parts."""
    first, second = ends
    points = list(bends)
    if first.has_moved:
        points = _pulled(points, first)
    if second.has_moved:
        points = _pulled(points[::-1], second)[::-1]
    covers = tuple(bodies)
    points = [p for p in points if not any(point_in_polygon(p, body) for body in covers)]
    return _sensible([first.after, *points, second.after])


def _pulled(bends: list[Point], end: End) -> list[Point]:
    """Move the straight run of bends next to a lug along with it, across its direction."""
    points = list(bends)
    for axis in (0, 1):
        across = end.before[axis]
        for index, bend in enumerate(bends):
            if abs(bend[axis] - across) > LEVEL_MM:
                break
            x, y = points[index]
            points[index] = (end.after[0], y) if axis == 0 else (x, end.after[1])
    return points


def _sensible(course: list[Point]) -> tuple[Point, ...]:
    """Return the bends of a course (its lugs at both ends) without those that make no sense."""
    index = 1
    while index < len(course) - 1:
        before, bend, after = course[index - 1 : index + 2]
        near = math.dist(before, bend) < LEAST_LEG_MM or math.dist(bend, after) < LEAST_LEG_MM
        if near or _turn_deg(before, bend, after) > SHARPEST_TURN_DEG:
            del course[index]
            index = max(1, index - 1)
        else:
            index += 1
    return tuple(course[1:-1])


def _turn_deg(before: Point, bend: Point, after: Point) -> float:
    """Return by how much a course turns at a bend: 0 straight on, 180 back on itself."""
    ux, uy = bend[0] - before[0], bend[1] - before[1]
    vx, vy = after[0] - bend[0], after[1] - bend[1]
    return math.degrees(abs(math.atan2(ux * vy - uy * vx, ux * vx + uy * vy)))
