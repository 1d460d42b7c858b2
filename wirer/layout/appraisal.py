"""What a course costs as it lies, by the same prices as the search's."""

from __future__ import annotations

from itertools import pairwise

import numpy as np

from wirer.circuit.kind import Point
from wirer.layout.layer import CROSSING_MM
from wirer.layout.marks import Floats, Marks
from wirer.layout.search import BEND_MM


def appraise(points: tuple[Point, ...], marks: Marks) -> float:
    """Return the cost in mm of a polyline among what is in the way.

    Counted are its length, the rates of areas, crossings and bends; a slanting stub costs its
    length alone.
    """
    level = np.concatenate((marks.areas, marks.level_areas))
    upright = np.concatenate((marks.areas, marks.upright_areas))[:, [1, 0, 3, 2, 4]]
    total = BEND_MM * (len(points) - 2)
    for (ax, ay), (bx, by) in pairwise(points):
        if ay == by:
            total += _run_cost(ay, ax, bx, level, marks.level_cuts)
        elif ax == bx:
            total += _run_cost(ax, ay, by, upright, marks.upright_cuts)
        else:
            total += float(np.hypot(ax - bx, ay - by))
    return float(total)


def _run_cost(across: float, start: float, end: float, areas: Floats, cuts: Floats) -> float:
    low, high = min(start, end), max(start, end)
    hit = areas[(areas[:, 1] < across) & (across < areas[:, 3])]
    shared = np.minimum(hit[:, 2], high) - np.maximum(hit[:, 0], low)
    rates = float((np.maximum(shared, 0.0) * hit[:, 4]).sum())
    met = cuts[(cuts[:, 1] - 1e-6 <= across) & (across <= cuts[:, 2] + 1e-6), 0]
    crossed = np.count_nonzero((low + 1e-6 < met) & (met < high - 1e-6))
    touched = np.count_nonzero((np.abs(met - low) <= 1e-6) | (np.abs(met - high) <= 1e-6))
    return high - low + rates + CROSSING_MM * (crossed + touched / 2)
