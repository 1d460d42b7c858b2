"""The cheapest orthogonal path over a grid of tracks, whatever lies in the way.

Straight runs are relaxed a whole direction at a time: along a track with the running cost P the
least cost at node k is min over j of (start[j] + |P[k] - P[j]|), which is a running minimum of
start - P in one sense and of start + P in the other. One pass more allows one bend more, so that
the work is bounded by the number of bends and not by what stands in the way.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from wirer.layout.layer import Layer

Floats = NDArray[np.float64]
Node = tuple[int, int]
"""Column and row of a grid."""

MOST_BENDS = 24
BEND_MM = 6.0
CROSSING_MM = 8.0


@dataclass(frozen=True, slots=True)
class Gate:
    """A node where a path may begin or end, with what that costs."""

    node: Node
    cost: float = 0.0


@dataclass(frozen=True, slots=True)
class Path:
    """The nodes at which a path begins, bends and ends, and its whole cost in mm."""

    nodes: tuple[Node, ...]
    cost: float


class Search:
    """One search over a grid: horizontal runs have rows first, vertical runs columns first."""

    def __init__(self, rows: Layer, columns: Layer) -> None:
        self.sums = (rows.sums(CROSSING_MM), columns.sums(CROSSING_MM))
        self.xs, self.ys = np.array(rows.along), np.array(rows.across)

    def path(self, starts: list[Gate], goals: list[Gate]) -> Path | None:
        """Return the cheapest path from a start to a goal, or None if there are none."""
        if not starts or not goals:
            return None
        seeds = np.full((len(self.ys), len(self.xs)), np.inf)
        for gate in starts:
            column, row = gate.node
            seeds[row, column] = min(seeds[row, column], gate.cost)
        reached = self._relaxed(seeds, goals)
        cost, goal, direction = min(
            (float(reached[d][_index(gate.node, d)]) + gate.cost, gate.node, d)
            for gate in goals
            for d in (0, 1)
        )
        return Path(self._traced(reached, seeds, goal, direction), cost)

    def _relaxed(self, seeds: Floats, goals: list[Gate]) -> tuple[Floats, Floats]:
        """Return the least cost of being at each node, having come along each direction."""
        remaining = self._remaining(goals)
        across = _run(seeds, self.sums[0])
        down = _run(np.ascontiguousarray(seeds.T), self.sums[1])
        for _ in range(MOST_BENDS):
            best = _best(across, down, goals)
            new_across = _run(down.T + BEND_MM, self.sums[0])
            new_down = _run(across.T + BEND_MM, self.sums[1])
            useful = ((new_across < across) & (new_across + remaining < best)).any() or (
                (new_down < down) & (new_down + remaining.T < best)
            ).any()
            if not useful:
                break
            np.minimum(across, new_across, out=across)
            np.minimum(down, new_down, out=down)
        return across, down

    def _remaining(self, goals: list[Gate]) -> Floats:
        """Return a lower bound of what is still to go from each node."""
        best: Floats | None = None
        for gate in goals:
            column, row = gate.node
            ways = np.abs(self.xs - self.xs[column])[None, :] + gate.cost
            field = ways + np.abs(self.ys - self.ys[row])[:, None]
            best = field if best is None else np.minimum(best, field)
        assert best is not None
        return best

    def _traced(
        self, reached: tuple[Floats, Floats], seeds: Floats, goal: Node, direction: int
    ) -> tuple[Node, ...]:
        """Walk back from a goal, run by run, to where the path began."""
        nodes = [goal]
        for _ in range(2 * MOST_BENDS):
            column, row = nodes[-1]
            track, place = (row, column) if direction == 0 else (column, row)
            sums = self.sums[direction][track]
            begun = seeds[row, :] if direction == 0 else seeds[:, column]
            turned = reached[1 - direction][:, track] + BEND_MM
            costs = np.minimum(begun, turned) + np.abs(sums - sums[place])
            least = float(costs.min())
            near = np.flatnonzero(costs <= least + 1e-7)
            chosen = int(near[np.argmin(np.abs(near - place))])
            if chosen != place:
                nodes.append((chosen, row) if direction == 0 else (column, chosen))
            if begun[chosen] <= turned[chosen]:
                break
            direction = 1 - direction
        return tuple(reversed(nodes))


def _index(node: Node, direction: int) -> tuple[int, int]:
    column, row = node
    return (row, column) if direction == 0 else (column, row)


def _best(across: Floats, down: Floats, goals: list[Gate]) -> float:
    return min(
        min(float(across[_index(g.node, 0)]), float(down[_index(g.node, 1)])) + g.cost
        for g in goals
    )


def _run(start: Floats, sums: Floats) -> Floats:
    """Return the least cost at each node of every track, having run along it from any start."""
    onward = np.minimum.accumulate(start - sums, axis=1)
    onward += sums
    backward = np.minimum.accumulate((start + sums)[:, ::-1], axis=1)[:, ::-1]
    return np.minimum(onward, backward - sums)
