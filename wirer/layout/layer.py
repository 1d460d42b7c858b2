"""What it costs to run along the tracks of one direction.

A layer has tracks at the places `across`, each cut into edges by the places `along`. The layer of
horizontal runs has the ys across and the xs along; that of vertical runs the reverse.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right

import numpy as np
from numpy.typing import NDArray

from wirer.layout.footprint import Chain

Floats = NDArray[np.float64]

SPACING_MM = 1.5
NEAR_MM = 1.4
"""Parallel wires nearer than this are pushed apart."""
OVERLAP_MM = 0.5
OVERLAP_RATE = 64.0
NEAR_RATE = 16.0


class Layer:
    """Rates (extra mm a mm) and crossings of every edge of one direction."""

    def __init__(self, across: list[float], along: list[float]) -> None:
        self.across, self.along = across, along
        shape = (len(across), max(len(along) - 1, 0))
        self.rate = np.zeros(shape)
        self.crossed = np.zeros(shape)

    def block(self, across: tuple[float, float], along: tuple[float, float], rate: float) -> None:
        """Add a rate to every edge that enters an open rectangle."""
        first = bisect_right(self.across, across[0])
        last = bisect_left(self.across, across[1])
        if first < last:
            self.rate[first:last, self._edges(*along)] += rate

    def block_spans(self, chain: Chain, clearance: float, rate: float) -> None:
        """Add a rate to every edge that enters an outline grown by a clearance."""
        first = bisect_right(self.across, float(chain.at[0]) - clearance)
        last = bisect_left(self.across, float(chain.at[-1]) + clearance)
        if first >= last:
            return
        low, high = chain.spans(np.array(self.across[first:last]), clearance)
        edges = self._edges(float(low.min()), float(high.max()))
        starts = np.array(self.along[edges.start : edges.stop])
        stops = np.array(self.along[edges.start + 1 : edges.stop + 1])
        if len(stops) < len(starts):
            starts = starts[: len(stops)]
        inside = (stops[None, :] > low[:, None]) & (starts[None, :] < high[:, None])
        self.rate[first:last, edges.start : edges.start + len(starts)] += rate * inside

    def beside(self, at: float, low: float, high: float) -> None:
        """Keep off a wire that runs along this direction at `at` from `low` to `high`."""
        first = bisect_right(self.across, at - NEAR_MM)
        last = bisect_left(self.across, at + NEAR_MM)
        if first >= last:
            return
        edges = self._edges(low, high)
        for index in range(first, last):
            self.rate[index, edges] += _nearness_rate(abs(self.across[index] - at))

    def across_wire(self, at: float, low: float, high: float) -> None:
        """Count the crossing of a wire at the place `at` along, running from `low` to `high`.

        Where a node lies on the wire each of its two edges gets half of the crossing.
        """
        if low == high or not self.along[0] < at < self.along[-1]:
            return
        first, last = bisect_left(self.across, low - 1e-6), bisect_right(self.across, high + 1e-6)
        before, after = bisect_left(self.along, at - 1e-6), bisect_right(self.along, at + 1e-6)
        if after > before:
            self.crossed[first:last, before - 1 : before + 1] += 0.5
        else:
            self.crossed[first:last, before - 1] += 1.0

    def sums(self, crossing_mm: float) -> Floats:
        """Return for each node the cost of the run from the first node of its track."""
        lengths = np.diff(np.array(self.along))
        total = np.zeros((len(self.across), len(self.along)))
        np.cumsum(
            (1.0 + self.rate) * lengths + crossing_mm * self.crossed, axis=1, out=total[:, 1:]
        )
        return total

    def _edges(self, low: float, high: float) -> slice:
        first = max(bisect_right(self.along, low) - 1, 0)
        return slice(first, max(bisect_left(self.along, high), first))


def _nearness_rate(distance: float) -> float:
    if distance < OVERLAP_MM:
        return OVERLAP_RATE
    return NEAR_RATE * (1.0 - distance / NEAR_MM)
