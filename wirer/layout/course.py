"""Pieces of a polyline by the way along it."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from itertools import pairwise

from wirer.circuit.kind import Point
from wirer.layout.geometry import polyline_length


def between(points: Sequence[Point], start: float, end: float) -> tuple[Point, ...]:
    """Return the piece of a polyline from `start` to `end` mm along it (empty if there is none)."""
    if end <= start:
        return ()
    kept: list[Point] = []
    way = 0.0
    for a, b in pairwise(points):
        length = math.dist(a, b)
        if length > 0 and way + length > start and way < end:
            first = max(start - way, 0.0) / length
            last = min(end - way, length) / length
            if not kept:
                kept.append(_on(a, b, first))
            kept.append(_on(a, b, last))
        way += length
    return tuple(kept)


def with_gaps(
    points: Sequence[Point], gaps: Iterable[float], half_mm: float
) -> Iterator[tuple[Point, ...]]:
    """Yield what is left of a polyline when gaps about places along it are cut out."""
    start = 0.0
    length = polyline_length(points)
    for gap in sorted(gaps):
        piece = between(points, start, gap - half_mm)
        if piece:
            yield piece
        start = max(start, gap + half_mm)
    piece = between(points, start, length)
    if piece:
        yield piece


def _on(a: Point, b: Point, share: float) -> Point:
    return a[0] + (b[0] - a[0]) * share, a[1] + (b[1] - a[1]) * share
