"""Laws given as tables of points, read by straight lines between them."""

from __future__ import annotations

import math
from bisect import bisect_right
from itertools import pairwise

from wirer.circuit.kind import Table


def table_problem(table: Table) -> str | None:
    """Say what keeps a table from being a law (0 to 1 in both, not falling), or None."""
    if len(table) < 2 or len(table) > 1000:
        return "must have between 2 and 1000 points"
    if not all(math.isfinite(v) and 0 <= v <= 1 for point in table for v in point):
        return "must have values between 0 and 1"
    rotations = [x for x, _ in table]
    shares = [y for _, y in table]
    if rotations[0] != 0 or rotations[-1] != 1:
        return "must run from rotation 0 to rotation 1"
    if any(b <= a for a, b in pairwise(rotations)):
        return "must have rising rotations"
    steps = [b - a for a, b in pairwise(shares)]
    if any(s < 0 for s in steps) and any(s > 0 for s in steps):
        return "must be monotone"
    return None


def table_value(table: Table, x: float) -> float:
    """Read a table at `x`, which lies in its range; exactly at its points."""
    if x >= table[-1][0]:
        return table[-1][1]
    index = bisect_right(table, (x, math.inf))
    (x0, y0), (x1, y1) = table[index - 1], table[index]
    return y0 + (y1 - y0) * (x - x0) / (x1 - x0)
