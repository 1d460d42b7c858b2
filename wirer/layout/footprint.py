"""What keeps wires away: bodies, lugs and the tags between them, in the wiring view."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from wirer.circuit.kind import Point, Shape
from wirer.layout.box import Box
from wirer.layout.geometry import Polygon, edges_of
from wirer.layout.outline import shape_polygon
from wirer.layout.placement import Placement
from wirer.layout.transform import Transform

Floats = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class Chain:
    """The two sides of an outline over one coordinate: rising `at`, with the `low` and `high`."""

    at: Floats
    low: Floats
    high: Floats

    def moved(self, along: float, across: float) -> Chain:
        """Return the chain moved by a vector."""
        return Chain(self.at + along, self.low + across, self.high + across)

    def spans(self, at: Floats, clearance: float) -> tuple[Floats, Floats]:
        """Return the low and high ends of the outline, grown by a clearance, at each `at`."""
        tries = [at - clearance, at, at + clearance]
        low = np.minimum.reduce([np.interp(t, self.at, self.low) for t in tries])
        high = np.maximum.reduce([np.interp(t, self.at, self.high) for t in tries])
        return low - clearance, high + clearance


@dataclass(frozen=True, slots=True)
class Footprint:
    """What one part covers.

    `rows` and `columns` are None where the body is an upright rectangle, which `box` describes.
    `stems` are the boxes of the tags that join lugs outside the body to it.
    """

    part: str
    box: Box
    rows: Chain | None
    columns: Chain | None
    lugs: dict[str, Point]
    stems: dict[str, Box]
    underlay: bool


def footprint(placement: Placement) -> Footprint:
    """Return what a placed part covers."""
    transform = placement.transform
    rows, columns = _chains(placement.shape, transform.turn, transform.flip) or (None, None)
    x, y = transform.at
    return Footprint(
        part=placement.part,
        box=placement.body_box,
        rows=rows and rows.moved(y, x),
        columns=columns and columns.moved(x, y),
        lugs=dict(placement.lugs),
        stems=dict(_stems(placement)),
        underlay=placement.underlay,
    )


@lru_cache(maxsize=1024)
def _chains(shape: Shape, turn: int, flip: bool) -> tuple[Chain, Chain] | None:
    """Return the chains over y and over x of a body at the origin, None for an upright box."""
    transform = Transform((0.0, 0.0), turn, flip)
    body = tuple(map(transform.point, shape_polygon(shape)))
    if _fills(body, Box.around(body)):
        return None
    return _chain(tuple((y, x) for x, y in body)), _chain(body)


def _fills(body: Polygon, box: Box) -> bool:
    """Tell whether an outline covers nearly all of its box (rounded corners apart)."""
    twice = abs(sum(ax * by - bx * ay for (ax, ay), (bx, by) in edges_of(body)))
    return twice / 2 >= 0.97 * box.width * box.height


def _chain(points: Polygon) -> Chain:
    """Return for each rising first coordinate the least and greatest second one."""
    at = sorted({round(p[0], 6) for p in points})
    low, high = [], []
    for value in at:
        ends = [_second(a, b, value) for a, b in edges_of(points) if _spans(a, b, value)]
        flat = [y for pair in ends for y in pair]
        low.append(min(flat))
        high.append(max(flat))
    return Chain(np.array(at), np.array(low), np.array(high))


def _spans(a: Point, b: Point, value: float) -> bool:
    return min(a[0], b[0]) - 1e-5 <= value <= max(a[0], b[0]) + 1e-5


def _second(a: Point, b: Point, value: float) -> tuple[float, float]:
    if abs(a[0] - b[0]) < 1e-5:
        return a[1], b[1]
    share = min(1.0, max(0.0, (value - a[0]) / (b[0] - a[0])))
    y = a[1] + share * (b[1] - a[1])
    return y, y


def _stems(placement: Placement) -> Iterator[tuple[str, Box]]:
    for name, lug in placement.lugs.items():
        root = _nearest_on_box(lug, placement.body_box)
        if math.dist(root, lug) > 0.5:
            yield name, Box.around((lug, root))


def _nearest_on_box(point: Point, box: Box) -> Point:
    return (
        min(box.right, max(box.left, point[0])),
        min(box.bottom, max(box.top, point[1])),
    )
