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
LEVEL, UPRIGHT = 0, 1
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
        self.sums = (level, np.ascontiguousarray(upright.T))
        self.xs = (np.array(xs) * UM).astype(np.int64)
        self.ys = (np.array(ys) * UM).astype(np.int64)
        self._work = (np.empty_like(level), np.empty_like(level))

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
            (int(reached[direction][gate.node[::-1]]) + _um(gate.cost), gate.node, direction)
            for gate in goals
            for direction in (LEVEL, UPRIGHT)
        )
        return Path(self._traced(reached, seeds, goal, direction), cost / UM)

    def _relaxed(self, seeds: Costs, goals: list[Gate]) -> tuple[Costs, Costs]:
        """Return the least cost of being at each node, having come along each direction."""
        remaining = self._remaining(goals)
        level, upright = self._run(seeds, LEVEL), self._run(seeds, UPRIGHT)
        for _ in range(MOST_BENDS):
            best = min(_best(level, goals), _best(upright, goals)) - remaining
            turned_level = self._run(upright + BEND_UM, LEVEL)
            turned_upright = self._run(level + BEND_UM, UPRIGHT)
            if not (_better(turned_level, level, best) or _better(turned_upright, upright, best)):
                break
            np.minimum(level, turned_level, out=level)
            np.minimum(upright, turned_upright, out=upright)
        return level, upright

    def _run(self, start: Costs, direction: int) -> Costs:
        """Return the least cost at each node, having run along its track from any start."""
        axis, sums = 1 - direction, self.sums[direction]
        first, second = self._work
        np.subtract(start, sums, out=first)
        onward = np.fmin.accumulate(first, axis=axis)
        onward += sums
        np.add(start, sums, out=first)
        np.fmin.accumulate(_turned(first, axis), axis=axis, out=_turned(second, axis))
        second -= sums
        return np.minimum(onward, second, out=onward)

    def _remaining(self, goals: list[Gate]) -> Costs:
        """Return a lower bound of what is still to go from each node."""
        least = np.full((len(self.ys), len(self.xs)), FAR_UM)
        for gate in goals:
            column, row = gate.node
            ways = np.abs(self.xs - self.xs[column])[None, :] + _um(gate.cost)
            np.minimum(least, ways + np.abs(self.ys - self.ys[row])[:, None], out=least)
        return least

    def _traced(
        self, reached: tuple[Costs, Costs], seeds: Costs, goal: Node, direction: int
    ) -> tuple[Node, ...]:
        """Walk back from a goal, run by run, to where the path began."""
        nodes = [goal]
        for _ in range(2 * MOST_BENDS):
            column, row = nodes[-1]
            line = (row, slice(None)) if direction == LEVEL else (slice(None), column)
            place = column if direction == LEVEL else row
            sums, begun = self.sums[direction][line], seeds[line]
            turned = reached[1 - direction][line] + BEND_UM
            costs = np.minimum(begun, turned) + np.abs(sums - sums[place])
            near = np.flatnonzero(costs == costs.min())
            chosen = int(near[np.argmin(np.abs(near - place))])
            if chosen != place:
                nodes.append((chosen, row) if direction == LEVEL else (column, chosen))
            if begun[chosen] <= turned[chosen]:
                break
            direction = 1 - direction
        return tuple(reversed(nodes))


def _turned(costs: Costs, axis: int) -> Costs:
    return costs[:, ::-1] if axis == 1 else costs[::-1]


def _better(new: Costs, old: Costs, bound: Costs) -> bool:
    """Tell whether any node got cheaper that may still lead to a better path."""
    return bool(((new < old) & (new < bound)).any())


def _best(reached: Costs, goals: list[Gate]) -> int:
    return min(int(reached[gate.node[::-1]]) + _um(gate.cost) for gate in goals)


def _um(mm: float) -> int:
    return int(mm * UM)
