"""Operating parts by pointing at them: which position or rotation a point of the part means.

Points are in the part's own frame, in mm, x to the right and y down as seen from the solder side.
"""

from __future__ import annotations

import math
from collections.abc import Iterable

from wirer.circuit.kind import Actuator, Kind, Point, Shaft

GRIP_MARGIN_MM = 1.0
STEP = 0.05
"""By how much of its travel one click of the wheel or one press of a key turns a shaft."""

_INNER_SHARE = 0.64
"""The part of a pot's radius inside which the second of two shafts is meant."""


def grips(kind: Kind, point: Point) -> bool:
    """Tell whether a point is where a hand takes the actuator of a part."""
    if kind.actuator is None:
        return False
    x, y, width, height = kind.actuator.grip
    near_x = abs(point[0] - x) <= width / 2 + GRIP_MARGIN_MM
    near_y = abs(point[1] - y) <= height / 2 + GRIP_MARGIN_MM
    return near_x and near_y


def position_at(actuator: Actuator, positions: Iterable[str], point: Point) -> str | None:
    """Return the position on whose side of the grip a point lies; None if none moves sideways."""
    ways = {p: actuator.moving.places.get(p, (0.0, 0.0, 0.0))[:2] for p in positions}
    if len(set(ways.values())) < len(ways):
        return None
    off = point[0] - actuator.grip[0], point[1] - actuator.grip[1]
    return min(ways, key=lambda p: math.dist(ways[p], off))


def shaft_at(kind: Kind, point: Point) -> Shaft | None:
    """Return the shaft that a point on a part's body means: of two, the inner or the outer one."""
    if not kind.shafts:
        return None
    body = kind.body
    radius = body.radius if body.form == "circle" else min(body.size) / 2
    distance = math.dist(point, kind.shafts[0].at)
    if distance > radius:
        return None
    is_inner = len(kind.shafts) > 1 and distance < radius * _INNER_SHARE
    return kind.shafts[1] if is_inner else kind.shafts[0]


def turned_by(shaft: Shaft, start: Point, end: Point) -> float:
    """Return by how much a drag from one point round the shaft to another turns it.

    Seen from behind, clockwise turning of the knob runs anticlockwise.
    """
    swept = _angle(shaft, end) - _angle(shaft, start)
    swept = (swept + 180.0) % 360.0 - 180.0
    return -swept / shaft.travel_deg


def _angle(shaft: Shaft, point: Point) -> float:
    """Return the direction of a point from the shaft, in degrees clockwise from the top."""
    return math.degrees(math.atan2(point[0] - shaft.at[0], shaft.at[1] - point[1]))


def caught_by_detent(shaft: Shaft, rotation: float) -> float:
    """Return a rotation, or that of the shaft's detent where it is within a finger's feel."""
    if shaft.detent is not None and abs(rotation - shaft.detent) < STEP / 4:
        return shaft.detent
    return rotation


def towards(actuator: Actuator, positions: tuple[str, ...], present: str, way: Point) -> str:
    """Return the next position in a direction, the present one if it is the last.

    Where no position lies that way, right and down go on in the kind's order.
    """
    places = {p: actuator.moving.places.get(p, (0.0, 0.0, 0.0)) for p in positions}
    along = {p: round(x * way[0] + y * way[1], 6) for p, (x, y, _) in places.items()}
    if len(set(along.values())) < len(positions):
        step = 1 if way[0] + way[1] > 0 else -1
        place = positions.index(present) + step
        return positions[min(max(place, 0), len(positions) - 1)]
    farther = [p for p in positions if along[p] > along[present]]
    return min(farther, key=lambda p: along[p], default=present)
