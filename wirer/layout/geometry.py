"""Distances and crossings of points, segments and polygons in the plane, in millimetres."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from itertools import pairwise

from wirer.circuit.kind import Point

Polygon = tuple[Point, ...]
Segment = tuple[Point, Point]


def segments_of(points: Sequence[Point]) -> Iterator[Segment]:
    """Yield the segments of a polyline."""
    return pairwise(points)


def edges_of(polygon: Polygon) -> Iterator[Segment]:
    """Yield the edges of a closed polygon."""
    yield from pairwise(polygon)
    yield polygon[-1], polygon[0]


def polyline_length(points: Sequence[Point]) -> float:
    """Return the length of a polyline."""
    return sum(math.dist(a, b) for a, b in pairwise(points))


def point_on_polyline(points: Sequence[Point], distance: float) -> Point:
    """Return the point at a distance along a polyline, its ends beyond them."""
    for a, b in pairwise(points):
        length = math.dist(a, b)
        if distance <= length and length > 0:
            share = max(distance, 0.0) / length
            return a[0] + (b[0] - a[0]) * share, a[1] + (b[1] - a[1]) * share
        distance -= length
    return points[-1]


def point_segment_distance(point: Point, segment: Segment) -> float:
    """Return the distance of a point from the nearest point of a segment."""
    (ax, ay), (bx, by) = segment
    dx, dy = bx - ax, by - ay
    squared = dx * dx + dy * dy
    if squared == 0.0:
        return math.dist(point, segment[0])
    share = ((point[0] - ax) * dx + (point[1] - ay) * dy) / squared
    share = min(1.0, max(0.0, share))
    return math.hypot(point[0] - ax - share * dx, point[1] - ay - share * dy)


def segments_cross(first: Segment, second: Segment) -> bool:
    """Tell whether two segments have a point in common, touching included."""
    a, b = first
    c, d = second
    turns = (_side(a, b, c), _side(a, b, d), _side(c, d, a), _side(c, d, b))
    if turns[0] * turns[1] < 0 and turns[2] * turns[3] < 0:
        return True
    return (
        (turns[0] == 0 and _between(a, b, c))
        or (turns[1] == 0 and _between(a, b, d))
        or (turns[2] == 0 and _between(c, d, a))
        or (turns[3] == 0 and _between(c, d, b))
    )


def segment_distance(first: Segment, second: Segment) -> float:
    """Return the least distance of two segments, 0 where they cross or touch."""
    if segments_cross(first, second):
        return 0.0
    return min(
        point_segment_distance(first[0], second),
        point_segment_distance(first[1], second),
        point_segment_distance(second[0], first),
        point_segment_distance(second[1], first),
    )


def point_in_polygon(point: Point, polygon: Polygon) -> bool:
    """Tell whether a point lies inside a polygon (its edge may count either way)."""
    x, y = point
    inside = False
    for (ax, ay), (bx, by) in edges_of(polygon):
        if (ay > y) != (by > y) and x < ax + (y - ay) * (bx - ax) / (by - ay):
            inside = not inside
    return inside


def segment_meets_polygon(segment: Segment, polygon: Polygon) -> bool:
    """Tell whether any point of a segment lies inside a polygon or on its edge."""
    if point_in_polygon(segment[0], polygon):
        return True
    return any(segments_cross(segment, edge) for edge in edges_of(polygon))


def polygons_meet(first: Polygon, second: Polygon) -> bool:
    """Tell whether two polygons have a point in common."""
    if point_in_polygon(first[0], second) or point_in_polygon(second[0], first):
        return True
    return any(segment_meets_polygon(edge, second) for edge in edges_of(first))


def _side(a: Point, b: Point, c: Point) -> float:
    return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])


def _between(a: Point, b: Point, c: Point) -> bool:
    return min(a[0], b[0]) <= c[0] <= max(a[0], b[0]) and min(a[1], b[1]) <= c[1] <= max(a[1], b[1])
