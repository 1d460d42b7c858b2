"""Which lugs are near one another, and where the lugs of a part come to lie when it is turned."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from itertools import combinations
from math import dist

import numpy as np
from scipy.optimize import linear_sum_assignment

from wirer.circuit.kind import Point

REACH_MM = 15.0
"""How far from its lug a wire end may come to be soldered by mistake."""
BRIDGE_MM = 8.0
"""How far apart neighbouring lugs may be for a blob of solder to join them."""


def within_reach(points: Mapping[str, Point], lug: str) -> Iterator[str]:
    """Yield the other lugs of the same part, and all lugs within reach."""
    part, at = lug.partition(".")[0], points[lug]
    for other, place in points.items():
        near = other.partition(".")[0] == part or dist(at, place) <= REACH_MM
        if near and other != lug:
            yield other


def neighbouring_pairs(points: Mapping[str, Point]) -> Iterator[tuple[str, str]]:
    """Yield each pair of lugs near enough to be bridged, with no third lug between them.

    None is between them when none lies in the circle that has the pair as its diameter.
    """
    for a, b in combinations(points, 2):
        length = dist(points[a], points[b])
        if length > BRIDGE_MM:
            continue
        middle = tuple((x + y) / 2 for x, y in zip(points[a], points[b], strict=True))
        others = (place for lug, place in points.items() if lug not in (a, b))
        if all(dist(middle, place) >= length / 2 - 1e-9 for place in others):
            yield a, b


def about(points: Mapping[str, Point]) -> dict[str, str]:
    """Return which lug comes to lie where each was when all are turned by 180° as one."""
    names, places = list(points), np.array(list(points.values()))
    mirrored = places.min(axis=0) + places.max(axis=0) - places
    apart = np.linalg.norm(mirrored[:, None, :] - places[None, :, :], axis=2)
    return {names[i]: names[j] for i, j in zip(*linear_sum_assignment(apart), strict=True)}
