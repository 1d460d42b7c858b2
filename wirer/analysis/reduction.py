"""Series and parallel reduction of a network to a tree, with everything but coils left out.

A load in series with a coil is passed through, a load across a coil is passed by, so that the tree
says how the coils are joined, as a builder would say it.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Literal

from wirer.analysis.liveness import GROUND, HOT, live_branches

Join = Literal["series", "parallel"]


@dataclass(frozen=True, slots=True)
class Leaf:
    """A coil by its branch; `forward` if it runs from the ground side to the hot side."""

    branch: int
    forward: bool = True


@dataclass(frozen=True, slots=True)
class Group:
    """Members in series or in parallel, each a coil or a group of the other sort."""

    join: Join
    members: tuple[Tree, ...]


@dataclass(frozen=True, slots=True)
class Span:
    """Coils of a network that is not series-parallel: (branch, from net, to net) each."""

    coils: tuple[tuple[int, int, int], ...]


Tree = Leaf | Group


@dataclass(frozen=True, slots=True)
class Edge:
    """A coil, a tree of coils, or (tree None) a load between two nets."""

    a: int
    b: int
    tree: Tree | None


def structure_of(coils: dict[int, tuple[int, int]], loads: Iterable[Edge]) -> Tree | Span | None:
    """Return how coils (branch → nets) are joined between ground and hot.

    `loads` come with the greatest impedance first; where they keep the network from being
    series-parallel each is taken out if every coil still carries signal without it, else bridged.
    None: there are no coils.
    """
    if not coils:
        return None
    edges = [Edge(a, b, Leaf(branch)) for branch, (a, b) in coils.items()]
    loads = list(loads)
    left = _reduced([*edges, *loads])
    if len(left) > 1:
        left = _reduced(_without_loads(edges, loads))
    if len(left) == 1:
        return _from_ground(left[0])
    return _span(_without_loads(edges, loads))


def _from_ground(edge: Edge) -> Tree | None:
    return _turned(edge.tree) if edge.a == HOT else edge.tree


def _reduced(edges: list[Edge]) -> list[Edge]:
    while True:
        fewer = _series(_parallel(edges))
        if len(fewer) == len(edges):
            return fewer
        edges = fewer


def _parallel(edges: Iterable[Edge]) -> list[Edge]:
    between: dict[tuple[int, int], Edge] = {}
    for edge in edges:
        if edge.a == edge.b:
            continue
        straight = edge if edge.a < edge.b else Edge(edge.b, edge.a, _turned(edge.tree))
        pair = (straight.a, straight.b)
        other = between.get(pair)
        tree = _joined("parallel", other.tree, straight.tree) if other else straight.tree
        between[pair] = Edge(*pair, tree)
    return list(between.values())


def _series(edges: list[Edge]) -> list[Edge]:
    at: dict[int, list[int]] = defaultdict(list)
    for index, edge in enumerate(edges):
        at[edge.a].append(index)
        at[edge.b].append(index)
    used: set[int] = set()
    merged = []
    for net, touching in at.items():
        if net in (GROUND, HOT) or len(touching) > 2 or not used.isdisjoint(touching):
            continue
        used.update(touching)
        if len(touching) == 2:
            merged.append(_merged(net, *(edges[i] for i in touching)))
    return [*(edge for i, edge in enumerate(edges) if i not in used), *merged]


def _merged(net: int, first: Edge, second: Edge) -> Edge:
    into = first if first.b == net else Edge(first.b, first.a, _turned(first.tree))
    onward = second if second.a == net else Edge(second.b, second.a, _turned(second.tree))
    return Edge(into.a, onward.b, _joined("series", into.tree, onward.tree))


def _joined(join: Join, first: Tree | None, second: Tree | None) -> Tree | None:
    if first is None or second is None:
        return first or second
    return Group(join, (*_members(join, first), *_members(join, second)))


def _members(join: Join, tree: Tree) -> tuple[Tree, ...]:
    return tree.members if isinstance(tree, Group) and tree.join == join else (tree,)


def _turned(tree: Tree | None) -> Tree | None:
    match tree:
        case Leaf():
            return Leaf(tree.branch, not tree.forward)
        case Group():
            return Group(tree.join, tuple(t for m in tree.members if (t := _turned(m))))
    return None


def _without_loads(coils: Sequence[Edge], loads: Sequence[Edge]) -> list[Edge]:
    """Take out each load that no coil needs, and bridge the others."""
    coils, waiting = list(coils), list(loads)
    while waiting:
        load, *waiting = waiting
        ends = [(edge.a, edge.b) for edge in (*coils, *waiting)]
        needed = len(set(live_branches(ends)) & set(range(len(coils)))) < len(coils)
        if needed:
            coils = [_bridged(edge, load) for edge in coils]
            waiting = [_bridged(edge, load) for edge in waiting]
    return coils


def _bridged(edge: Edge, load: Edge) -> Edge:
    gone, kept = max(load.a, load.b), min(load.a, load.b)
    a, b = (kept if net == gone else net for net in (edge.a, edge.b))
    return Edge(a, b, edge.tree)


def _span(edges: Iterable[Edge]) -> Span:
    numbers = {GROUND: GROUND, HOT: HOT}
    coils = []
    for edge in edges:
        a, b = (numbers.setdefault(net, len(numbers)) for net in (edge.a, edge.b))
        if isinstance(edge.tree, Leaf):
            coils.append((edge.tree.branch, a, b))
    return Span(tuple(coils))
