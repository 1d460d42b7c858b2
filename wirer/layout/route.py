"""The course of one wire."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from wirer.circuit.kind import Point
from wirer.layout.box import Box
from wirer.layout.geometry import polyline_length

Manner = Literal["routed", "direct", "link", "loop", "fallback"]
"""`direct`: straight from lug to lug; `link`: two metals bolted together; `loop`: a wire from a
lug to itself; `fallback`: a straight line because the search was given up."""


@dataclass(frozen=True, slots=True)
class Route:
    """A polyline in mm from the first lug of a wire to its second."""

    points: tuple[Point, ...]
    manner: Manner = "routed"

    @property
    def length_mm(self) -> float:
        """Its length as drawn."""
        return polyline_length(self.points)

    @property
    def box(self) -> Box:
        """The box round it."""
        return Box.around(self.points)


@dataclass(frozen=True, slots=True)
class Screen:
    """The screen of a wire: what it covers, and its tails to the lugs that it is soldered to.

    It begins `begins_mm` from the wire's first lug.
    """

    begins_mm: float
    cover: tuple[Point, ...]
    tails: tuple[Route, ...]


def tidied(points: list[Point]) -> tuple[Point, ...]:
    """Return a polyline without repeated points and without points on a straight run."""
    kept: list[Point] = []
    for point in points:
        if kept and _same(kept[-1], point):
            continue
        if len(kept) >= 2 and _straight(kept[-2], kept[-1], point):
            kept[-1] = point
        else:
            kept.append(point)
    if len(kept) == 1:
        kept.append(points[-1])
    kept[0], kept[-1] = points[0], points[-1]
    return tuple(kept)


def _same(a: Point, b: Point) -> bool:
    return abs(a[0] - b[0]) < 1e-9 and abs(a[1] - b[1]) < 1e-9


def _straight(a: Point, b: Point, c: Point) -> bool:
    level = abs(a[1] - b[1]) < 1e-9 and abs(b[1] - c[1]) < 1e-9
    upright = abs(a[0] - b[0]) < 1e-9 and abs(b[0] - c[0]) < 1e-9
    onward = (b[0] - a[0]) * (c[0] - b[0]) + (b[1] - a[1]) * (c[1] - b[1]) >= 0
    return onward and (level or upright)
