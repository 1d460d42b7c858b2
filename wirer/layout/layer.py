"""What it costs to run along the tracks of one direction.

A layer has tracks at the places `across`, each cut into edges by the places `along`. The layer of
level runs has the ys across and the xs along; that of upright runs the reverse.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from wirer.layout.marks import Floats

Costs = NDArray[np.int64]
"""Costs in µm: whole numbers, whose running minimum is several times faster than of floats."""

RATE_UNIT = 256.0
CROSSING_MM = 11.0


def running_costs(across: Floats, along: Floats, areas: Floats, cuts: Floats) -> Costs:
    """Return for each node the cost in µm of the run from the first node of its track.

    Parameters
    ----------
    across, along
        The rising places of the tracks and of the nodes on them, in mm.
    areas
        Rows (across from, along from, across to, along to, rate).
    cuts
        Rows (place along, across from, across to) of the wires to be crossed.

    Returns
    -------
    Costs
        An array of a row a track and a column a node.
    """
    lengths = 1000.0 * np.diff(along)
    rates = _rates(across, along, areas)
    edges = (lengths * (1.0 + rates / RATE_UNIT)).astype(np.int64)
    edges += _crossings(across, along, cuts)
    total = np.zeros((len(across), len(along)), dtype=np.int64)
    np.cumsum(edges, axis=1, out=total[:, 1:])
    return total


def _rates(across: Floats, along: Floats, areas: Floats) -> Costs:
    """Sum the rates of the areas that each edge enters."""
    first = np.searchsorted(across, areas[:, 0], "right")
    last = np.searchsorted(across, areas[:, 2], "left")
    start = np.maximum(np.searchsorted(along, areas[:, 1], "right") - 1, 0)
    stop = np.minimum(np.searchsorted(along, areas[:, 3], "left"), len(along) - 1)
    shape = (len(across), len(along) - 1)
    return _sum_of_boxes(shape, first, last, start, stop, areas[:, 4] * RATE_UNIT)


def _crossings(across: Floats, along: Floats, cuts: Floats) -> Costs:
    """Sum the costs of crossings: a wire at a node costs half on each of its two edges."""
    first = np.searchsorted(across, cuts[:, 1] - 1e-6, "left")
    last = np.searchsorted(across, cuts[:, 2] + 1e-6, "right")
    before = np.searchsorted(along, cuts[:, 0] - 1e-6, "left")
    after = np.searchsorted(along, cuts[:, 0] + 1e-6, "right")
    inside = (before > 0) & (after < len(along))
    last = np.where(inside, last, first)
    cost = CROSSING_MM * 1000.0 / (after - before + 1)
    shape = (len(across), len(along) - 1)
    return _sum_of_boxes(shape, first, last, before - 1, after, cost)


def _sum_of_boxes(
    shape: tuple[int, int], first: Costs, last: Costs, start: Costs, stop: Costs, value: Floats
) -> Costs:
    """Add values over boxes of a table: at their corners, then two running sums."""
    real = (first < last) & (start < stop)
    first, last, start, stop = first[real], last[real], start[real], stop[real]
    value = value[real]
    width = shape[1] + 1
    corners = np.concatenate(
        (first * width + start, last * width + stop, first * width + stop, last * width + start)
    )
    signed = np.concatenate((value, value, -value, -value))
    size = (shape[0] + 1) * width
    steps = np.bincount(corners, signed, size).astype(np.int64).reshape(-1, width)
    np.cumsum(steps, axis=1, out=steps)
    np.cumsum(steps, axis=0, out=steps)
    return steps[:-1, :-1]
