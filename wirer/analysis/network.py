"""The networks that settings come down to: the branches that carry signal, and how they meet."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache

import networkx as nx
import numpy as np
from numpy.typing import NDArray

from wirer.analysis.liveness import GROUND, HOT, Terminals, live_branches
from wirer.analysis.reduction import Ends

Pairs = tuple[tuple[int, int], ...]
Placed = Mapping[int, tuple[int, int]]
"""The nets at the ends of branches, by place or by name."""

_NONE: frozenset[int] = frozenset()


@dataclass(frozen=True, slots=True)
class Network:
    """Branches (indices of the harness) between numbered nets: 0 is ground, 1 is hot.

    Two settings have the same network whatever way round their branches lie: each branch runs
    from its lower net to its higher one here (but for coupled coils, whose direction matters),
    and a coil's real direction is kept apart. `induced` are those branches that lie in a loop
    beside the signal's path and reach it by the flux of a coil alone.
    """

    branches: tuple[int, ...]
    ends: Ends
    induced: tuple[int, ...] = ()

    @property
    def net_count(self) -> int:
        """How many nets there are, ground and hot among them."""
        return max((HOT, *(net for pair in self.ends for net in pair))) + 1

    @property
    def path(self) -> tuple[int, ...]:
        """The branches on a path from ground to hot."""
        if not self.induced:
            return self.branches
        return tuple(branch for branch in self.branches if branch not in self.induced)


@dataclass(frozen=True, slots=True)
class Oriented:
    """A network with the branches that lie the other way round than it has them."""

    network: Network
    reversed: frozenset[int]


def encoded(ends: Terminals, alive: NDArray[np.bool_]) -> NDArray[np.int16]:
    """Return the nets numbered by first appearance: shape (settings, 2·branches + 2).

    Columns are ground (0), hot (1, or 0 where they are one), then both ends of each branch, −1 for
    a branch that is not alive; two settings have equal rows exactly when their living branches
    meet in the same way.
    """
    settings, branches = alive.shape
    sequence = np.full((settings, 2 * branches + 2), -1, np.int32)
    sequence[:, 0], sequence[:, 1] = ends.ground, ends.hot
    sequence[:, 2::2][alive] = ends.a[alive]
    sequence[:, 3::2][alive] = ends.b[alive]
    columns = np.arange(sequence.shape[1])
    first = np.full((settings, int(sequence.max(initial=0)) + 2), -1, np.int16)
    rows = np.arange(settings)
    for column in columns[::-1]:
        first[rows, sequence[:, column]] = column
    place = first[rows[:, np.newaxis], sequence]
    number = np.cumsum((place == columns) & (sequence >= 0), axis=1, dtype=np.int16) - 1
    code = number[rows[:, np.newaxis], place]
    code[sequence < 0] = -1
    return np.asarray(code, np.int16)


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
    names = [name for name, net in enumerate(row[2::2]) if net >= 0]
    pairs: Pairs = ()
    if coupled:
        place = {name: i for i, name in enumerate(names)}
        pairs = tuple((place[a], place[b]) for a, b in coupled if a in place and b in place)
    shape = _shape(tuple([net for net in row[2:] if net >= 0]), pairs)
    whole = len(shape.kept) == len(names)
    branches = tuple(names) if whole else tuple([names[i] for i in shape.kept])
    induced = tuple([names[i] for i in shape.induced]) if shape.induced else ()
    turned = frozenset([names[i] for i in shape.turned]) if shape.turned else _NONE
    return Oriented(Network(branches, shape.ends, induced), turned)


@dataclass(frozen=True, slots=True)
class _Shape:
    """What a network is apart from which branches it has: places in the row it was read from."""

    kept: tuple[int, ...]
    ends: Ends
    turned: tuple[int, ...]
    induced: tuple[int, ...]


@lru_cache(maxsize=4096)
def _shape(nets: tuple[int, ...], coupled: Pairs) -> _Shape:
    """Return the shape of a network, given the nets of its branches' ends one after the other."""
    ends = tuple(zip(nets[::2], nets[1::2], strict=True))
    branches = dict(enumerate(ends))
    path = frozenset(live_branches(ends))
    live = _with_loops(path, branches, coupled)
    kept = {place: pair for place, pair in branches.items() if place in live}
    final = _renumbered(_grounded(kept) if len(live) > len(path) else kept)
    fixed = {place for pair in coupled for place in pair}
    turned = frozenset(n for n, (a, b) in final.items() if a > b and n not in fixed)
    return _Shape(
        kept=tuple(final),
        ends=tuple((b, a) if n in turned else (a, b) for n, (a, b) in final.items()),
        turned=tuple(sorted(turned)),
        induced=tuple(sorted(live - path)),
    )


def _renumbered(branches: Placed) -> dict[int, tuple[int, int]]:
    """Return the branches with nets numbered by the branches they join, whatever way round."""
    touching: dict[int, list[int]] = defaultdict(list)
    for name, (a, b) in branches.items():
        touching[a].append(name)
        touching[b].append(name)
    inner = sorted((names, net) for net, names in touching.items() if net not in (GROUND, HOT))
    number = {GROUND: GROUND, HOT: HOT, **{net: i for i, (_, net) in enumerate(inner, HOT + 1)}}
    return {name: (number[a], number[b]) for name, (a, b) in branches.items()}


def _with_loops(path: frozenset[int], branches: Placed, coupled: Pairs) -> frozenset[int]:
    """Return the branches of a path with those that it reaches by flux, through any loops."""
    live, seen = path, frozenset[int]()
    while live != seen:
        seen = live
        partners = {b for pair in coupled for a, b in (pair, pair[::-1]) if a in live} - live
        live = live.union(*(_loop_of(partner, branches) for partner in partners))
    return live


def _loop_of(branch: int, branches: Placed) -> Iterable[int]:
    """Return the branches in a closed loop with one, itself among them; none if it hangs free."""
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
    return {branch, *loop} if loop else ()


def _grounded(branches: Placed) -> dict[int, tuple[int, int]]:
    """Tie a loop that is only magnetically joined to the rest to ground, which changes nothing."""
    graph = nx.Graph([(GROUND, HOT), *branches.values()])
    tied = {
        min(net_group): GROUND
        for net_group in nx.connected_components(graph)
        if GROUND not in net_group
    }
    return {n: (tied.get(a, a), tied.get(b, b)) for n, (a, b) in branches.items()}
