"""The resonance of a response: its highest local maximum between 20 Hz and 20 kHz."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Real = NDArray[np.float64]
Rows = NDArray[np.intp]
Response = Callable[[Rows, Real], Real]
"""Gives |V| of networks `rows` (rows,), each at its own frequencies (rows, frequencies)."""

LOW_HERTZ, HIGH_HERTZ = 20.0, 20_000.0
REFERENCE_HERTZ = 100.0
LEVEL_HERTZ = 1000.0
_STEPS = 240
_STEP = (HIGH_HERTZ / LOW_HERTZ) ** (1 / _STEPS)
GRID = np.geomspace(LOW_HERTZ / _STEP, HIGH_HERTZ * _STEP, _STEPS + 3)
"""Where a response is first looked at: one step beyond either end, so that a top is seen there."""

_RISE = 1 + 1e-9
_CLOSER = np.linspace(-1, 1, 9)
_ROUNDS = 3


@dataclass(frozen=True, slots=True)
class Resonance:
    """Where a response peaks, and how far above its value at 100 Hz."""

    hertz: float
    peak_db: float


def decibel(ratio: float) -> float:
    """Return 20·log₁₀ of a voltage ratio."""
    return 20 * math.log10(ratio) if ratio > 0 else -math.inf


def find_resonances(
    grid: Real, heights: Real, reference: Real, response: Response
) -> list[Resonance | None]:
    """Return the highest local maximum of each response, or None where there is none.

    `heights` (networks, frequencies) are |V| at the frequencies of `grid`, `reference` (networks,)
    is |V| at 100 Hz; `response` looks closer.
    """
    inner = heights[:, 1:-1]
    rises = (inner > heights[:, :-2] * _RISE) & (inner > heights[:, 2:] * _RISE)
    rows, tops = np.nonzero(rises)
    found: list[Resonance | None] = [None] * len(heights)
    if not rows.size:
        return found
    hertz, height = _refined(rows, grid[tops], grid[tops + 2], response)
    inside = (hertz >= LOW_HERTZ) & (hertz <= HIGH_HERTZ) & np.isfinite(height)
    for i in np.flatnonzero(inside)[np.argsort(height[inside], kind="stable")]:
        row = int(rows[i])
        found[row] = Resonance(float(hertz[i]), decibel(float(height[i] / reference[row])))
    return found


def _refined(rows: Rows, low: Real, high: Real, response: Response) -> tuple[Real, Real]:
    """Return where between `low` and `high` each top is, and how high."""
    middle, reach = np.sqrt(low * high), np.sqrt(high / low)
    each = np.arange(len(rows))
    for _ in range(_ROUNDS):
        hertz = middle[:, np.newaxis] * reach[:, np.newaxis] ** _CLOSER
        heights = response(rows, hertz)
        best = np.clip(np.argmax(heights, axis=1), 1, len(_CLOSER) - 2)
        middle, reach = hertz[each, best], reach ** (_CLOSER[1] - _CLOSER[0])
    # Near a resonance 1/|V|² is a parabola over frequency, however sharp it is.
    before, top, after = (heights[each, best + step] ** -2.0 for step in (-1, 0, 1))
    bend = before - 2 * top + after
    shift = np.divide(before - after, 2 * bend, out=np.zeros_like(bend), where=bend > 0)
    hertz = middle * reach ** np.clip(shift, -1, 1)
    return hertz, np.maximum(response(rows, hertz[:, np.newaxis])[:, 0], heights[each, best])
