"""What a part covers: its body as upright boxes, its lugs, and the tags between them."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache
from itertools import pairwise

from wirer.circuit.kind import Point, Shape
from wirer.layout.box import Box
from wirer.layout.geometry import Polygon, edges_of
from wirer.layout.outline import shape_polygon
from wirer.layout.placement import Placement
from wirer.layout.transform import Transform

EVERY_VERTEX = 2


@dataclass(frozen=True, slots=True)
class Footprint:
    """What one part covers in the wiring view.

    `rows` are boxes from top to bottom that together cover its body, `columns` such boxes from
    left to right; one each where the body is nearly a box. `stems` are the boxes of the tags that
    join lugs outside the body to it, by lug name, `features` what is drawn beyond the body.
    """

    part: str
    box: Box
    rows: tuple[Box, ...]
    columns: tuple[Box, ...]
    lugs: dict[str, Point]
    stems: dict[str, Box]
    features: tuple[Box, ...]
    underlay: bool


def footprint(placement: Placement) -> Footprint:
    """Return what a placed part covers."""
    transform = placement.transform
    rows, columns = _slices(placement.shape, transform.turn, transform.flip)
    return Footprint(
        part=placement.part,
        box=placement.body_box,
        rows=tuple(row.moved(transform.at) for row in rows),
        columns=tuple(column.moved(transform.at) for column in columns),
        lugs=dict(placement.lugs),
        stems=dict(_stems(placement)),
        features=placement.features,
        underlay=placement.underlay,
    )


@lru_cache(maxsize=1024)
def _slices(shape: Shape, turn: int, flip: bool) -> tuple[tuple[Box, ...], tuple[Box, ...]]:
    """Cover a body at the origin by rows and by columns."""
    transform = Transform((0.0, 0.0), turn, flip)
    body = tuple(map(transform.point, shape_polygon(shape)))
    box = Box.around(body)
    if _fills(body, box):
        return (box,), (box,)
    columns = _rows(tuple((y, x) for x, y in body))
    return _rows(body), tuple(column.transposed() for column in columns)


def _rows(body: Polygon) -> tuple[Box, ...]:
    levels = sorted({round(y, 6) for _, y in body})
    chosen = [*levels[:-1:EVERY_VERTEX], levels[-1]]
    spans = {level: _span(body, level) for level in levels}
    boxes = []
    for top, bottom in pairwise(chosen):
        inside = [spans[level] for level in levels if top <= level <= bottom]
        left, right = min(low for low, _ in inside), max(high for _, high in inside)
        boxes.append(Box(left, top, right, bottom))
    return tuple(boxes)


def _fills(body: Polygon, box: Box) -> bool:
    """Tell whether an outline covers nearly all of its box (rounded corners apart)."""
    twice = abs(sum(ax * by - bx * ay for (ax, ay), (bx, by) in edges_of(body)))
    return twice / 2 >= 0.97 * box.width * box.height


def _span(body: Polygon, level: float) -> tuple[float, float]:
    """Return the least and greatest x of an outline at a y."""
    xs = [x for edge in edges_of(body) for x in _xs_at(edge[0], edge[1], level)]
    return min(xs), max(xs)


def _xs_at(a: Point, b: Point, level: float) -> tuple[float, ...]:
    if not min(a[1], b[1]) - 1e-5 <= level <= max(a[1], b[1]) + 1e-5:
        return ()
    if abs(a[1] - b[1]) < 1e-5:
        return a[0], b[0]
    share = min(1.0, max(0.0, (level - a[1]) / (b[1] - a[1])))
    return (a[0] + share * (b[0] - a[0]),)


def _stems(placement: Placement) -> Iterator[tuple[str, Box]]:
    box = placement.body_box
    for name, lug in placement.lugs.items():
        root = (
            min(box.right, max(box.left, lug[0])),
            min(box.bottom, max(box.top, lug[1])),
        )
        if math.dist(root, lug) > 0.5:
            yield name, Box.around((lug, root))
