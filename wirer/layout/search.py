"""The cheapest orthogonal path over a grid of tracks, whatever lies in the way.

Straight runs are relaxed a whole direction at a time: along a track with the running cost P the
least cost at node k is min over j of (start[j] + |P[k] - P[j]|), which is a running minimum of
start - P in one sense and of start + P in the other. One pass more allows one bend more, so that
the work is bounded by the number of bends and not by what stands in the way.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from wirer.layout.layer import Costs

Node = tuple[int, int]
"""Column and row of a grid."""

UM = 1000
FAR_UM = 1 << 60
MOST_BENDS = 24
BEND_MM = 6.0
BEND_UM = int(BEND_MM * UM)


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
    """One search over a grid.

    `level` has a row for each y and `upright` for each x: the running costs of their tracks.
    """

    def __init__(self, xs: list[float], ys: list[float], level: Costs, upright: Costs) -> None:
        self.sums = (level, upright)
        self.xs = (np.array(xs) * UM).astype(np.int64)
        self.ys = (np.array(ys) * UM).astype(np.int64)

    def path(self, starts: list[Gate], goals: list[Gate]) -> Path | None:
        """Return the cheapest path from a start to a goal, or None if there are none."""
        if not starts or not goals:
            return None
        seeds = np.full((len(self.ys), len(self.xs)), FAR_UM)
        for gate in starts:
            column, row = gate.node
            seeds[row, column] = min(int(seeds[row, column]), _um(gate.cost))
        reached = self._relaxed(seeds, goals)
        cost, goal, direction = min(
            (int(reached[d][_index(gate.node, d)]) + _um(gate.cost), gate.node, d)
            for gate in goals
            for d in (0, 1)
        )
        return Path(self._traced(reached, seeds, goal, direction), cost / UM)

    def _relaxed(self, seeds: Costs, goals: list[Gate]) -> tuple[Costs, Costs]:
        """Return the least cost of being at each node, having come along each direction."""
        remaining = self._remaining(goals)
        across = _run(seeds, self.sums[0])
        down = _run(np.ascontiguousarray(seeds.T), self.sums[1])
        for _ in range(MOST_BENDS):
            best = _best(across, down, goals)
            new_across = _run(down.T + BEND_UM, self.sums[0])
            new_down = _run(across.T + BEND_UM, self.sums[1])
            useful = ((new_across < across) & (new_across + remaining < best)).any() or (
                (new_down < down) & (new_down + remaining.T < best)
            ).any()
            if not useful:
                break
            np.minimum(across, new_across, out=across)
            np.minimum(down, new_down, out=down)
        return across, down

    def _remaining(self, goals: list[Gate]) -> Costs:
        """Return a lower bound of what is still to go from each node."""
        best: Costs | None = None
        for gate in goals:
            column, row = gate.node
            ways = np.abs(self.xs - self.xs[column])[None, :] + _um(gate.cost)
            field = ways + np.abs(self.ys - self.ys[row])[:, None]
            best = field if best is None else np.minimum(best, field)
        assert best is not None
        return best

    def _traced(
        self, reached: tuple[Costs, Costs], seeds: Costs, goal: Node, direction: int
    ) -> tuple[Node, ...]:
        """Walk back from a goal, run by run, to where the path began."""
        nodes = [goal]
        for _ in range(2 * MOST_BENDS):
            column, row = nodes[-1]
            track, place = (row, column) if direction == 0 else (column, row)
            sums = self.sums[direction][track]
            begun = seeds[row, :] if direction == 0 else seeds[:, column]
            turned = reached[1 - direction][:, track] + BEND_UM
            costs = np.minimum(begun, turned) + np.abs(sums - sums[place])
            near = np.flatnonzero(costs == costs.min())
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


def _best(across: Costs, down: Costs, goals: list[Gate]) -> int:
    return min(
        min(int(across[_index(g.node, 0)]), int(down[_index(g.node, 1)])) + _um(g.cost)
        for g in goals
    )


def _um(mm: float) -> int:
    return int(mm * UM)


def _run(start: Costs, sums: Costs) -> Costs:
    """Return the least cost at each node of every track, having run along it from any start."""
    onward = np.fmin.accumulate(start - sums, axis=1)
    onward += sums
    backward = np.fmin.accumulate((start + sums)[:, ::-1], axis=1)[:, ::-1]
    return np.minimum(onward, backward - sums)
