"""The networks that settings come down to: the branches that carry signal, and how they meet."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache

import networkx as nx
import numpy as np
from numpy.typing import NDArray

from wirer.analysis.liveness import GROUND, HOT, Terminals, live_branches

Ends = tuple[tuple[int, int], ...]
Pairs = tuple[tuple[int, int], ...]


@dataclass(frozen=True, slots=True)
class Network:
    """Branches (indices of the harness) between numbered nets: 0 is ground, 1 is hot.

    Two settings have the same network whatever way round their branches lie: each branch runs
    from its lower net to its higher one here (but for coupled coils, whose direction matters),
    and a coil's real direction is kept apart.
    """

    branches: tuple[int, ...]
    ends: Ends

    @property
    def net_count(self) -> int:
        """How many nets there are, ground and hot among them."""
        return max((HOT, *(net for pair in self.ends for net in pair))) + 1


@dataclass(frozen=True, slots=True)
class Oriented:
    """A network with the branches that lie the other way round than it has them."""

    network: Network
    reversed: frozenset[int]


def encoded(ends: Terminals, alive: NDArray[np.bool_]) -> NDArray[np.int16]:
    """Return the nets numbered by first appearance: shape (settings, 2·branches + 2).

    Columns are ground, hot, then both ends of each branch, −1 for a branch that is not alive; two
    settings have equal rows exactly when their living branches meet in the same way.
    """
    settings, branches = alive.shape
    sequence = np.full((settings, 2 * branches + 2), -1, np.int32)
    sequence[:, 0], sequence[:, 1] = ends.ground, ends.hot
    sequence[:, 2::2][alive] = ends.a[alive]
    sequence[:, 3::2][alive] = ends.b[alive]
    first = np.full((settings, int(sequence.max(initial=0)) + 2), -1, np.int16)
    rows = np.arange(settings)
    for column in range(sequence.shape[1] - 1, -1, -1):
        first[rows, sequence[:, column]] = column
    code = first[rows[:, np.newaxis], sequence]
    code[sequence < 0] = -1
    return code


def distinct_rows(code: NDArray[np.int16]) -> tuple[NDArray[np.int16], NDArray[np.intp]]:
    """Return the different rows of a code, and for each row which of them it is."""
    solid = np.ascontiguousarray(code)
    whole = solid.view(np.dtype((np.void, solid.shape[1] * solid.itemsize)))[:, 0]
    _, index, inverse = np.unique(whole, return_index=True, return_inverse=True)
    return code[index], inverse


def oriented_network(row: Sequence[int], coupled: Pairs = ()) -> Oriented:
    """Read one row of a code as a network and the direction of its branches.

    `coupled` are pairs of branches that share their flux: a coil that is shorted or in a loop of
    its own stays in the network of the coil that it is coupled to, and keeps its direction.
    """
    numbered = _renumbered(row[0], row[1], _row_branches(row))
    live = _live(tuple(numbered), tuple(_ordered(p) for p in numbered.values()), coupled)
    kept = {name: pair for name, pair in numbered.items() if name in live}
    final = _renumbered(GROUND, HOT, _grounded(kept) if coupled else kept)
    fixed = {name for pair in coupled for name in pair}
    turned = frozenset(n for n, (a, b) in final.items() if a > b and n not in fixed)
    ends = tuple(_ordered(p) if n in turned else p for n, p in final.items())
    return Oriented(Network(tuple(final), ends), turned)


def _ordered(pair: tuple[int, int]) -> tuple[int, int]:
    return pair if pair[0] <= pair[1] else (pair[1], pair[0])


def _row_branches(row: Sequence[int]) -> dict[int, tuple[int, int]]:
    pairs = zip(row[2::2], row[3::2], strict=True)
    return {index: (a, b) for index, (a, b) in enumerate(pairs) if a >= 0}


def _renumbered(
    ground: int, hot: int, branches: dict[int, tuple[int, int]]
) -> dict[int, tuple[int, int]]:
    """Return the branches with nets numbered by the branches they join, whatever way round."""
    touching: dict[int, list[int]] = defaultdict(list)
    for name, (a, b) in branches.items():
        touching[a].append(name)
        touching[b].append(name)
    inner = sorted((names, net) for net, names in touching.items() if net not in (ground, hot))
    number = {ground: GROUND, hot: HOT, **{net: i for i, (_, net) in enumerate(inner, HOT + 1)}}
    return {name: (number[a], number[b]) for name, (a, b) in branches.items()}


@lru_cache(maxsize=65536)
def _live(names: tuple[int, ...], ends: Ends, coupled: Pairs) -> frozenset[int]:
    live = {names[i] for i in live_branches(ends)}
    branches = dict(zip(names, ends, strict=True))
    partners = {b for pair in coupled for a, b in (pair, pair[::-1]) if a in live} - live
    return frozenset(live.union(*(_loop_of(partner, branches) for partner in partners)))


def _loop_of(branch: int, branches: dict[int, tuple[int, int]]) -> set[int]:
    """Return the branches in a closed loop with one, itself among them; none if it hangs free."""
    if branch not in branches:
        return set()
    a, b = branches[branch]
    if a == b:
        return {branch}
    names = [name for name in branches if name != branch]
    number = {a: GROUND, b: HOT}
    ends = [
        (number.setdefault(x, len(number)), number.setdefault(y, len(number)))
        for x, y in (branches[name] for name in names)
    ]
    loop = {names[i] for i in live_branches(ends)}
    return {branch, *loop} if loop else set()


def _grounded(branches: dict[int, tuple[int, int]]) -> dict[int, tuple[int, int]]:
    """Tie a loop that is only magnetically joined to the rest to ground, which changes nothing."""
    graph = nx.Graph([(GROUND, HOT), *branches.values()])
    tied = {
        min(net_group): GROUND
        for net_group in nx.connected_components(graph)
        if GROUND not in net_group
    }
    return {n: (tied.get(a, a), tied.get(b, b)) for n, (a, b) in branches.items()}
