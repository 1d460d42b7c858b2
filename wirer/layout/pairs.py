"""How two straight pieces of different wires lie to each other."""

from __future__ import annotations

import math
from dataclasses import dataclass

from wirer.circuit.kind import Point
from wirer.layout.geometry import (
    Segment,
    point_segment_distance,
    segment_distance,
    segments_cross,
)

TOUCHING_MM = 0.3
SIDE_BY_SIDE_MM = 2.0


@dataclass(frozen=True, slots=True)
class Piece:
    """A straight piece of a wire, with the places of the wire's two lugs."""

    wire: str
    segment: Segment
    ends: tuple[Point, Point]


@dataclass(frozen=True, slots=True)
class Meeting:
    """Whether two pieces cross, lie on one another, and how far apart they run side by side."""

    crosses: bool = False
    overlaps: bool = False
    spacing_mm: float = math.inf


APART = Meeting()


def meeting(one: Piece, other: Piece) -> Meeting:
    """Judge two pieces of different wires; what meets at a lug of both is as it should be."""
    if _direction(one.segment) == _direction(other.segment) != "slanting":
        return _parallel(one, other)
    if not segments_cross(one.segment, other.segment):
        return APART
    if any(_holds(one, lug) and _holds(other, lug) for lug in _shared_lugs(one, other)):
        return APART
    return Meeting(crosses=True)


def _parallel(one: Piece, other: Piece) -> Meeting:
    shared = _shared_length(one.segment, other.segment)
    distance = segment_distance(one.segment, other.segment)
    if shared <= TOUCHING_MM or any(
        _holds(one, lug) and _holds(other, lug) for lug in _shared_lugs(one, other)
    ):
        return APART
    if distance < TOUCHING_MM:
        return Meeting(overlaps=True, spacing_mm=distance)
    return Meeting(spacing_mm=distance if shared >= SIDE_BY_SIDE_MM else math.inf)


def _direction(segment: Segment) -> str:
    (ax, ay), (bx, by) = segment
    if abs(ay - by) < 1e-6:
        return "level"
    return "upright" if abs(ax - bx) < 1e-6 else "slanting"


def _shared_length(one: Segment, other: Segment) -> float:
    axis = 0 if _direction(one) == "level" else 1
    low = max(min(p[axis] for p in one), min(p[axis] for p in other))
    high = min(max(p[axis] for p in one), max(p[axis] for p in other))
    return high - low


def _shared_lugs(one: Piece, other: Piece) -> set[Point]:
    return set(one.ends) & set(other.ends)


def _holds(piece: Piece, lug: Point) -> bool:
    return point_segment_distance(lug, piece.segment) < 1e-6
