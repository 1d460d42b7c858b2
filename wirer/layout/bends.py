"""What becomes of a wire's bends when parts move.

A wire whose two lugs move alike takes its bends along. Where only one end moves (or both, each its
own way), the run that leads to that end keeps its direction: the bends that lay straight above,
below or beside the lug stay so, the others stay where they are. Then a bend is dropped

* that the body of a moved part has come to cover,
* that lies within `LEAST_LEG_MM` of the point before or after it, or
* at which the wire turns back on itself (by more than `SHARPEST_TURN_DEG`) and did not before.
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
    bends: Sequence[Point],
    ends: tuple[End, End],
    bodies: Iterable[tuple[Polygon, Polygon]] = (),
) -> tuple[Point, ...]:
    """Return the bends of a wire of which an end has moved.

    `bodies` are those of moved parts, each before and after.
    """
    first, second = ends
    points = list(bends)
    if first.has_moved:
        points = _pulled(points, first)
    if second.has_moved:
        points = _pulled(points[::-1], second)[::-1]
    covers = tuple(bodies)
    sharp = _sharp_bends([first.before, *bends, second.before])
    kept = [
        _Bend(after, before in sharp)
        for before, after in zip(bends, points, strict=True)
        if not any(_newly_covered(before, after, cover) for cover in covers)
    ]
    return _sensible([_Bend(first.after), *kept, _Bend(second.after)])


@dataclass(frozen=True, slots=True)
class _Bend:
    """A point of a course, and whether the wire was drawn as turning back on itself there."""

    at: Point
    was_sharp: bool = False


def _newly_covered(before: Point, after: Point, cover: tuple[Polygon, Polygon]) -> bool:
    return point_in_polygon(after, cover[1]) and not point_in_polygon(before, cover[0])


def _sharp_bends(course: Sequence[Point]) -> frozenset[Point]:
    triples = zip(course, course[1:], course[2:], strict=False)
    return frozenset(b for a, b, c in triples if _turn_deg(a, b, c) > SHARPEST_TURN_DEG)


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


def _sensible(course: list[_Bend]) -> tuple[Point, ...]:
    """Return the bends of a course (its lugs at both ends) without those that make no sense."""
    index = 1
    while index < len(course) - 1:
        if _makes_sense(*course[index - 1 : index + 2]):
            index += 1
        else:
            del course[index]
            index = max(1, index - 1)
    return tuple(bend.at for bend in course[1:-1])


def _makes_sense(before: _Bend, bend: _Bend, after: _Bend) -> bool:
    if min(math.dist(before.at, bend.at), math.dist(bend.at, after.at)) < LEAST_LEG_MM:
        return False
    return bend.was_sharp or _turn_deg(before.at, bend.at, after.at) <= SHARPEST_TURN_DEG


def _turn_deg(before: Point, bend: Point, after: Point) -> float:
    """Return by how much a course turns at a bend: 0 straight on, 180 back on itself."""
    ux, uy = bend[0] - before[0], bend[1] - before[1]
    vx, vy = after[0] - bend[0], after[1] - bend[1]
    return math.degrees(abs(math.atan2(ux * vy - uy * vx, ux * vx + uy * vy)))
