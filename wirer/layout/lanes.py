"""Straight runs as lanes that can be moved sideways, and how far each may go."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from itertools import pairwise

from wirer.circuit.kind import Point
from wirer.layout.box import Box
from wirer.layout.marks import BODY_CLEAR_MM
from wirer.layout.route import Route
from wirer.layout.scene import Scene
from wirer.layout.tracks import CLEARANCE_MM, LUG_CLEAR_MM, SPACING_MM

REACH_MM = 4.5
GUARD_MM = 1.4
FARTHEST_MM = 3.0
LABEL_CLEAR_MM = 0.7


@dataclass(slots=True, eq=False)
class Lane:
    """A straight run: `at` is the coordinate across it, `low` and `high` its ends along it.

    It may be moved between `least` and `most` unless it is fixed. `before` and `after` are the
    lanes on either side that it has to stay clear of, with the least distance, and how strongly
    the two want to run side by side.
    """

    wire: str
    index: int
    at: float
    low: float
    high: float
    fixed: bool
    least: float = -math.inf
    most: float = math.inf
    before: list[tuple[Lane, float, float]] = field(default_factory=list)
    after: list[tuple[Lane, float, float]] = field(default_factory=list)


def lanes_of(
    routes: Mapping[str, Route], movable: Mapping[str, tuple[Point, ...]], axis: int
) -> list[Lane]:
    """Return the runs along an axis (0: upright ones, moved in x; 1: level ones, moved in y).

    `movable` names the wires that may be moved and the places that they must keep to. What starts
    or ends at a lug, at such a place or at a slanting stub is fixed.
    """
    lanes = []
    for wire, route in routes.items():
        held = {route.points[0], route.points[-1], *movable.get(wire, ())}
        segments = list(pairwise(route.points))
        straight = [a[0] == b[0] or a[1] == b[1] for a, b in segments]
        for index, (a, b) in enumerate(segments):
            if a[axis] != b[axis] or a == b:
                continue
            beside = straight[max(index - 1, 0) : index + 2]
            fixed = wire not in movable or a in held or b in held or not all(beside)
            low, high = sorted((a[1 - axis], b[1 - axis]))
            lanes.append(Lane(wire, index, a[axis], low, high, fixed))
    return lanes


def bound_by_scene(lane: Lane, scene: Scene, axis: int) -> None:
    """Bound a lane by the parts and labels beside it, none nearer than it is or should be."""
    lane.least, lane.most = lane.at - FARTHEST_MM, lane.at + FARTHEST_MM
    reach = _box(lane.at - REACH_MM, lane.at + REACH_MM, lane.low, lane.high, axis)
    for box, clear in _obstacles(scene, reach, axis):
        near, far = (box.left, box.right) if axis == 0 else (box.top, box.bottom)
        low, high = (box.top, box.bottom) if axis == 0 else (box.left, box.right)
        if high + clear <= lane.low or low - clear >= lane.high:
            continue
        if lane.at <= near:
            lane.most = min(lane.most, max(near - clear, lane.at))
        elif lane.at >= far:
            lane.least = max(lane.least, min(far + clear, lane.at))
        else:
            lane.least = max(lane.least, near)
            lane.most = min(lane.most, far)


def _obstacles(scene: Scene, reach: Box, axis: int) -> Iterator[tuple[Box, float]]:
    for name in scene.parts_near(reach):
        part = scene.footprint(name)
        if not part.underlay:
            yield from ((box, CLEARANCE_MM) for box in (part.columns if axis else part.rows))
        yield from ((box, BODY_CLEAR_MM) for box in (*part.features, *part.stems.values()))
        yield from ((Box(*at, *at), LUG_CLEAR_MM) for at in part.lugs.values())
    yield from ((box, LABEL_CLEAR_MM) for box in scene.labels_near(reach))


def _box(near: float, far: float, low: float, high: float, axis: int) -> Box:
    return Box(near, low, far, high) if axis == 0 else Box(low, near, high, far)


def bound_by_lanes(lanes: Iterable[Lane]) -> None:
    """Bind each lane to those beside it, in their present order.

    Lanes count as beside each other when their ends come within a guard's length, so that the
    runs that join them to others can't be laid on one another. Lanes in line with each other stay
    where they are.
    """
    active: list[Lane] = []
    for lane in sorted(lanes, key=lambda each: each.at):
        active = [each for each in active if lane.at - each.at < REACH_MM]
        for other in active:
            shared = min(lane.high, other.high) - max(lane.low, other.low)
            if shared <= -GUARD_MM:
                continue
            gap = lane.at - other.at
            if gap < 1e-6:
                lane.fixed = other.fixed = True
                continue
            least, pull = min(gap, SPACING_MM), max(shared, 0.0)
            lane.before.append((other, least, pull))
            other.after.append((lane, least, pull))
        active.append(lane)
