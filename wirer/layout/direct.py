"""Wires that need no search: bolted metals, loops, jumpers between neighbouring lugs."""

from __future__ import annotations

import math

from wirer.circuit.kind import Point
from wirer.circuit.model import Wire, split_lug
from wirer.layout.geometry import point_segment_distance
from wirer.layout.placement import LUG_RADIUS_MM, Placement
from wirer.layout.route import Route

LOOP_MM = 3.0
NEIGHBOUR_FACTOR = 1.5
FARTHEST_MM = 9.0
CLEAR_OF_LUG_MM = LUG_RADIUS_MM + 0.4


def direct_route(wire: Wire, start: Point, end: Point, owner: Placement) -> Route | None:
    """Return the route of a wire that is drawn without a search, or None if it is none.

    `owner` is the part of the first lug. Neighbouring lugs of one part (no farther apart than
    half as much again as the nearest two, nothing between) are joined by a straight line.
    """
    if wire.bends:
        return None
    if wire.from_lug == wire.to_lug:
        return _loop(start)
    if wire.style == "mount":
        return Route((start, end), "link")
    if start == end:
        return Route((start, end), "direct")
    if split_lug(wire.from_lug)[0] != split_lug(wire.to_lug)[0]:
        return None
    return Route((start, end), "direct") if _neighbours(start, end, owner) else None


def _loop(at: Point) -> Route:
    x, y = at
    corner = LOOP_MM
    return Route((at, (x + corner, y), (x + corner, y + corner), (x, y + corner), at), "loop")


def _neighbours(start: Point, end: Point, owner: Placement) -> bool:
    length = math.dist(start, end)
    others = [at for at in owner.lugs.values() if at not in (start, end)]
    if any(point_segment_distance(at, (start, end)) < CLEAR_OF_LUG_MM for at in others):
        return False
    if length > FARTHEST_MM:
        return False
    nearest = min(math.dist(start, at) for at in [*others, end])
    return length <= NEIGHBOUR_FACTOR * nearest
