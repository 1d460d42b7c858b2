"""A body's shape as a polygon, in the part's frame."""

from __future__ import annotations

import math
from functools import lru_cache

from wirer.circuit.kind import Point, Shape
from wirer.layout.geometry import Polygon

ARC_STEPS = 12
"""Chords to a quarter circle: off by less than 0.03 mm on a can of 24 mm."""


@lru_cache(maxsize=4096)
def shape_polygon(shape: Shape) -> Polygon:
    """Return the outline of a shape, clockwise as seen, as a closed polygon.

    Round forms become chords, rounded corners included; a line is as wide as twice its radius;
    a text is the box that its size gives. A shape without extent becomes a box of 0.1 mm.
    """
    if shape.form == "circle":
        radius = circle_radius(shape)
        return tuple(_arc(shape.at, radius, 0.0, 4))
    if shape.form == "polygon" and len(shape.points) >= 3:
        return tuple((x + shape.at[0], y + shape.at[1]) for x, y in shape.points)
    if shape.form == "line" and len(shape.points) >= 2:
        return _box_of_line(shape)
    return _rounded_box(shape)


def circle_radius(shape: Shape) -> float:
    """Return the radius of a circle, which may be given by its size instead."""
    return shape.radius or max(shape.size) / 2 or 0.05


def _arc(centre: Point, radius: float, start_deg: float, quarters: int) -> list[Point]:
    steps = ARC_STEPS * quarters
    count = steps if quarters == 4 else steps + 1
    angles = (math.radians(start_deg + 90.0 * quarters * i / steps) for i in range(count))
    return [(centre[0] + radius * math.cos(a), centre[1] + radius * math.sin(a)) for a in angles]


def _rounded_box(shape: Shape) -> Polygon:
    half_x, half_y = max(shape.size[0] / 2, 0.05), max(shape.size[1] / 2, 0.05)
    x, y = shape.at
    radius = min(shape.radius, half_x, half_y)
    if radius <= 0:
        left, top, right, bottom = x - half_x, y - half_y, x + half_x, y + half_y
        return ((left, top), (right, top), (right, bottom), (left, bottom))
    inner_x, inner_y = half_x - radius, half_y - radius
    corners = ((-1, -1, 180.0), (1, -1, 270.0), (1, 1, 0.0), (-1, 1, 90.0))
    points: list[Point] = []
    for sign_x, sign_y, start in corners:
        points += _arc((x + sign_x * inner_x, y + sign_y * inner_y), radius, start, 1)
    return tuple(points)


def _box_of_line(shape: Shape) -> Polygon:
    half = max(shape.radius, 0.05)
    xs = [x + shape.at[0] for x, _ in shape.points]
    ys = [y + shape.at[1] for _, y in shape.points]
    left, right = min(xs) - half, max(xs) + half
    top, bottom = min(ys) - half, max(ys) + half
    return ((left, top), (right, top), (right, bottom), (left, bottom))
