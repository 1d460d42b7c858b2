"""Series and parallel reduction of a network to a tree.

The tree of a whole network serves to compute it; the tree of its coils alone says how they are
joined, as a builder would say it: a load in series with a coil is passed through, a load across a
coil is passed by.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Collection, Iterable, Iterator, Sequence
from dataclasses import dataclass
from functools import lru_cache
from typing import Literal

from wirer.analysis.liveness import GROUND, HOT, live_branches

Join = Literal["series", "parallel"]
Ends = tuple[tuple[int, int], ...]


@dataclass(frozen=True, slots=True)
class Leaf:
    """A branch by its place in the network; `forward` if it runs from ground's side to hot's."""

    place: int
    forward: bool = True


@dataclass(frozen=True, slots=True)
class Group:
    """Members in series or in parallel, each a branch or a group of the other sort.

    Members in series stand from the ground side to the hot side.
    """

    join: Join
    members: tuple[Tree, ...]


Tree = Leaf | Group


@dataclass(frozen=True, slots=True)
class Edge:
    """A tree of branches from net `a` to net `b`; None is a load whose branches do not matter."""

    a: int
    b: int
    tree: Tree | None


@dataclass(frozen=True, slots=True)
class Span:
    """What is left of coils that are not joined in series and parallel: three arms or more."""

    arms: tuple[tuple[Tree, int, int], ...]


def leaves(tree: Tree) -> Iterator[Leaf]:
    """Yield the branches of a tree."""
    if isinstance(tree, Leaf):
        yield tree
    else:
        for member in tree.members:
            yield from leaves(member)


@lru_cache(maxsize=4096)
def whole_tree(ends: Ends) -> Tree | None:
    """Return all branches of a network as a tree from ground to hot.

    None: it is not series-parallel, or has branches that carry nothing from ground to hot.
    """
    left = _reduced([Edge(a, b, Leaf(place)) for place, (a, b) in enumerate(ends)])
    tree = _from_ground(left[0]) if len(left) == 1 else None
    whole = tree is not None and sum(1 for _ in leaves(tree)) == len(ends)
    return tree if whole else None


@lru_cache(maxsize=4096)
def coil_tree(ends: Ends, coils: tuple[int, ...]) -> Tree | None:
    """Return how some branches are joined, all others left out; None as in `whole_tree`."""
    tree = whole_tree(ends)
    return _pruned(tree, frozenset(coils)) if tree else None


def coil_structure(ends: Ends, coils: Sequence[int], loads: Iterable[int]) -> Tree | Span | None:
    """Return how coils are joined between ground and hot in any network.

    `loads` are the places of what else there is, the greatest impedance first; where they keep the
    network from being series-parallel each is taken out if every coil still carries signal
    without it, else bridged. A coil that is not on a path from ground to hot is left out.
    """
    live = set(live_branches(ends))
    edges = [Edge(*ends[place], Leaf(place)) for place in coils if place in live]
    waiting = [Edge(*ends[place], None) for place in loads if place in live]
    if not edges:
        return None
    left = _reduced([*edges, *waiting])
    if len(left) > 1:
        left = _reduced(_without_loads(edges, waiting))
    if len(left) == 1:
        tree = _from_ground(left[0])
        return _pruned(tree, frozenset(coils)) if tree else None
    return _span(left)


def _from_ground(edge: Edge) -> Tree | None:
    return turned(edge.tree) if edge.tree and edge.a == HOT else edge.tree


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
        straight = edge if edge.a < edge.b else _reversed(edge)
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
    into = first if first.b == net else _reversed(first)
    onward = second if second.a == net else _reversed(second)
    return Edge(into.a, onward.b, _joined("series", into.tree, onward.tree))


def _reversed(edge: Edge) -> Edge:
    return Edge(edge.b, edge.a, turned(edge.tree) if edge.tree else None)


def _joined(join: Join, first: Tree | None, second: Tree | None) -> Tree | None:
    if first is None or second is None:
        return first or second
    return Group(join, (*_members(join, first), *_members(join, second)))


def _members(join: Join, tree: Tree) -> tuple[Tree, ...]:
    return tree.members if isinstance(tree, Group) and tree.join == join else (tree,)


def turned(tree: Tree) -> Tree:
    """Return a tree with every branch lying the other way round."""
    if isinstance(tree, Leaf):
        return Leaf(tree.place, not tree.forward)
    members = tuple(map(turned, tree.members))
    return Group(tree.join, members[::-1] if tree.join == "series" else members)


def _pruned(tree: Tree, kept: Collection[int]) -> Tree | None:
    """Return a tree with only some of its branches, members by their first branch."""
    if isinstance(tree, Leaf):
        return tree if tree.place in kept else None
    members = [
        inner
        for member in tree.members
        if (left := _pruned(member, kept))
        for inner in _members(tree.join, left)
    ]
    if len(members) < 2:
        return members[0] if members else None
    return Group(tree.join, tuple(sorted(members, key=first_place)))


def first_place(tree: Tree) -> int:
    """Return the first place of a tree's branches."""
    return min(leaf.place for leaf in leaves(tree))


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
    trees = ((edge, {leaf.place for leaf in leaves(edge.tree)}) for edge in edges if edge.tree)
    pruned = ((_pruned(edge.tree, own), edge) for edge, own in trees if edge.tree)
    return Span(tuple((tree, edge.a, edge.b) for tree, edge in pruned if tree))
