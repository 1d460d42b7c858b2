"""Where wires pass under one another."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass

from wirer.circuit.kind import Point
from wirer.layout.box import Box
from wirer.layout.geometry import Segment, segments_of
from wirer.layout.index import BoxIndex
from wirer.layout.route import Route

END_MM = 0.6
GAP_ROOM_MM = 2.2
"""A gap and the rounding of a corner."""


@dataclass(frozen=True, slots=True)
class _Run:
    """A straight piece of a wire, and how far along the wire it begins."""

    wire: str
    segment: Segment
    start: float


def under_passes(routes: Mapping[str, Route]) -> dict[str, tuple[float, ...]]:
    """Return how far along each wire it passes under another, in mm, rising.

    Of two that cross, the steeper run passes under, unless it bends too near for a gap and the
    other does not. What meets at the end of a wire does not cross.
    """
    index: BoxIndex[_Run] = BoxIndex()
    under: dict[str, list[float]] = {}
    for wire, route in routes.items():
        start = 0.0
        for segment in segments_of(route.points):
            run = _Run(wire, segment, start)
            box = Box.around(segment)
            for other in index.near(box):
                at = _crossing(segment, other.segment) if other.wire != wire else None
                if at is not None and not _at_an_end(at, route, routes[other.wire]):
                    below = _below(run, other, at)
                    under.setdefault(below.wire, []).append(
                        below.start + math.dist(below.segment[0], at)
                    )
            index.add(box, run)
            start += math.dist(*segment)
    return {wire: tuple(sorted(places)) for wire, places in under.items()}


def _below(one: _Run, other: _Run, at: Point) -> _Run:
    """Return the run that passes under."""
    steep, flat = sorted((one, other), key=_steepness, reverse=True)
    room, flat_room = _room(steep, at), _room(flat, at)
    return flat if room < GAP_ROOM_MM and flat_room > room else steep


def _steepness(run: _Run) -> float:
    (ax, ay), (bx, by) = run.segment
    return abs(ay - by) - abs(ax - bx)


def _room(run: _Run, at: Point) -> float:
    """Return how far a place on a run is from its nearer end."""
    return min(math.dist(at, end) for end in run.segment)


def _at_an_end(at: Point, *routes: Route) -> bool:
    ends = (end for route in routes for end in (route.points[0], route.points[-1]))
    return any(math.dist(at, end) < END_MM for end in ends)


def _crossing(one: Segment, other: Segment) -> Point | None:
    """Return the point that two segments have in common, None if none or if they are parallel."""
    (ax, ay), (bx, by) = one
    (cx, cy), (dx, dy) = other
    ux, uy, vx, vy = bx - ax, by - ay, dx - cx, dy - cy
    turn = ux * vy - uy * vx
    if abs(turn) < 1e-9:
        return None
    s = ((cx - ax) * vy - (cy - ay) * vx) / turn
    t = ((cx - ax) * uy - (cy - ay) * ux) / turn
    if not (-1e-9 <= s <= 1 + 1e-9 and -1e-9 <= t <= 1 + 1e-9):
        return None
    return ax + s * ux, ay + s * uy
