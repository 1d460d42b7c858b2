"""The resonance of a response: its highest local maximum between 20 Hz and 20 kHz."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Real = NDArray[np.float64]

LOW_HERTZ, HIGH_HERTZ = 20.0, 20_000.0
REFERENCE_HERTZ = 100.0
LEVEL_HERTZ = 1000.0
_GRID = np.geomspace(LOW_HERTZ, HIGH_HERTZ, 241)
_RISE = 1 + 1e-9


@dataclass(frozen=True, slots=True)
class Resonance:
    """Where a response peaks, and how far above its value at 100 Hz."""

    hertz: float
    peak_db: float


def decibel(ratio: float) -> float:
    """Return 20·log₁₀ of a voltage ratio."""
    return 20 * math.log10(ratio) if ratio > 0 else -math.inf


def find_resonance(response: Callable[[Real], Real], poles: Real) -> Resonance | None:
    """Return the highest local maximum of a response, or None if it has none.

    `response` gives |V| at an array of frequencies; `poles` are frequencies near which to look
    more closely.
    """
    inside = poles[(poles > LOW_HERTZ) & (poles < HIGH_HERTZ)]
    grid = np.union1d(_GRID, inside) if inside.size else _GRID
    values = response(grid)
    inner = values[1:-1]
    rises = (inner > values[:-2] * _RISE) & (inner > values[2:] * _RISE)
    tops = np.flatnonzero(rises) + 1
    if not tops.size:
        return None
    top = int(tops[np.argmax(values[tops])])
    low, high = float(grid[top - 1]), float(grid[top + 1])
    for _ in range(4):
        fine = np.geomspace(low, high, 23)
        heights = response(fine)
        best = min(max(int(np.argmax(heights)), 1), 21)
        low, high = float(fine[best - 1]), float(fine[best + 1])
    reference = float(response(np.array([REFERENCE_HERTZ]))[0])
    return Resonance(float(fine[best]), decibel(float(heights[best]) / reference))
