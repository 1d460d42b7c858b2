"""Parallel wires are brought to an even distance, where there is room.

Runs between two bends are moved sideways, level and upright ones in turn. None passes another, a
lug or a body, and what runs clear of something stays clear of it; so a layout is not made worse.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from wirer.circuit.kind import Point
from wirer.circuit.model import Wire
from wirer.layout.lanes import Lane, bound_by_lanes, bound_by_scene, lanes_of
from wirer.layout.route import Route, tidied
from wirer.layout.router import Router
from wirer.layout.tracks import SPACING_MM

TURNS = (0, 1, 0, 1)
SWEEPS = 30
STAY = 4.0
"""How strongly a run wants to stay where it is, in mm of running beside another."""
DRAWN_MM = 2.9
"""Wires farther apart are not drawn together."""
MOST_WIRES = 800


def even_out(router: Router, wires: Iterable[Wire]) -> None:
    """Space the routes of wires evenly among themselves and all others of a router."""
    bends = {wire.id: wire.bends for wire in wires if router.routes[wire.id].manner == "routed"}
    if not bends or len(router.routes) > MOST_WIRES:
        return
    for axis in TURNS:
        lanes = lanes_of(router.routes, bends, axis)
        bound_by_lanes(lanes)
        moving = [lane for lane in lanes if not lane.fixed and (lane.before or lane.after)]
        for lane in moving:
            bound_by_scene(lane, router.scene, axis)
        _settle(moving)
        for wire, route in _moved(router.routes, moving, axis).items():
            router.keep(wire, route)


def _settle(lanes: list[Lane]) -> None:
    """Move each lane to where it is drawn to, as far as it may, over and over."""
    homes = [lane.at for lane in lanes]
    for _ in range(SWEEPS):
        farthest = 0.0
        for lane, home in zip(lanes, homes, strict=True):
            at = min(max(_wish(lane, home), lane.least), lane.most)
            at = max([at, *(other.at + least for other, least, _ in lane.before)])
            at = min([at, *(other.at - least for other, least, _ in lane.after)])
            farthest = max(farthest, abs(at - lane.at))
            lane.at = at
        if farthest < 0.005:
            break


def _wish(lane: Lane, home: float) -> float:
    """Return the mean of its home and of the places at an even distance from its neighbours."""
    total, weight = STAY * home, STAY
    for neighbours, side in ((lane.before, SPACING_MM), (lane.after, -SPACING_MM)):
        for other, _, pull in neighbours:
            if abs(lane.at - other.at) < DRAWN_MM:
                total += pull * (other.at + side)
                weight += pull
    return total / weight


def _moved(routes: Mapping[str, Route], lanes: Iterable[Lane], axis: int) -> dict[str, Route]:
    """Return the routes that lanes were moved of."""
    points: dict[str, list[Point]] = {}
    for lane in lanes:
        course = points.setdefault(lane.wire, list(routes[lane.wire].points))
        for index in (lane.index, lane.index + 1):
            x, y = course[index]
            course[index] = (lane.at, y) if axis == 0 else (x, lane.at)
    moved = {wire: Route(tidied(course)) for wire, course in points.items()}
    return {wire: route for wire, route in moved.items() if route != routes[wire]}
