"""The shortest tree of wires over groups of lugs, no lug taking more wires than it has room for.

Lugs of one group are joined already; a tree of k groups has k − 1 wires. One exists if and only if
every group has room for a wire and all together have room for 2(k − 1) wire ends: where one group
has room for two, a wire from it to any other leaves both conditions true of what remains. So the
greedy tree, which takes the shortest wire that leaves them true, always comes to an end.

Without bounds the shortest tree is Kruskal's (Proc. AMS 7, 1956). Where that crowds a lug, branch
and bound over its wires there finds the shortest that does not; where that takes too long, the
greedy tree with wires exchanged until no exchange is shorter is returned.
"""

from __future__ import annotations

import heapq
from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property
from itertools import combinations, count

from wirer.circuit.kind import Point

Pair = tuple[str, str]
MOST_EFFORT = 400_000
"""Edges looked at before the search for the very shortest is given up."""


@dataclass(frozen=True)
class Lugs:
    """What is to be joined: groups of lugs, the room at each for wires, their places in mm."""

    groups: tuple[tuple[str, ...], ...]
    room: Mapping[str, int]
    places: Mapping[str, Point]

    def distance(self, pair: Pair) -> float:
        """Return the length of a wire that runs level and upright only."""
        (ax, ay), (bx, by) = self.places[pair[0]], self.places[pair[1]]
        return abs(ax - bx) + abs(ay - by)

    @cached_property
    def group_of(self) -> Mapping[str, int]:
        """The index of each lug's group."""
        return {lug: index for index, group in enumerate(self.groups) for lug in group}

    @cached_property
    def pairs(self) -> tuple[Pair, ...]:
        """Every wire that could be, the shortest first."""
        free = [lug for group in self.groups for lug in group if self.room[lug] > 0]
        apart = (p for p in combinations(free, 2) if self.group_of[p[0]] != self.group_of[p[1]])
        return tuple(sorted(apart, key=lambda pair: (round(self.distance(pair), 6), pair)))

    @property
    def have_a_tree(self) -> bool:
        """Whether any tree leaves every lug no more wires than it has room for."""
        if len(self.groups) < 2:
            return True
        rooms = [sum(self.room[lug] for lug in group) for group in self.groups]
        return min(rooms) > 0 and sum(rooms) >= 2 * (len(rooms) - 1)


@dataclass(frozen=True, slots=True)
class Tree:
    """Wires that join all groups; `shortest` if it is proved that none is shorter."""

    wires: tuple[Pair, ...]
    length_mm: float
    shortest: bool


class _Union:
    """Groups being joined."""

    def __init__(self, size: int) -> None:
        self._above = list(range(size))

    def root(self, index: int) -> int:
        above = self._above
        while above[index] != index:
            above[index] = index = above[above[index]]
        return index

    def join(self, a: int, b: int) -> bool:
        """Join two; return whether they were apart."""
        a, b = self.root(a), self.root(b)
        self._above[b] = a
        return a != b


def bounded_tree(lugs: Lugs) -> Tree:
    """Return the shortest tree that keeps to the room at every lug.

    Raises
    ------
    ValueError
        There is no tree (`have_a_tree` says so beforehand).
    """
    if not lugs.have_a_tree:
        raise ValueError("no tree keeps to the room at every lug")
    first = _least(lugs, frozenset(), frozenset())
    if first is not None and _crowded(lugs, first) is None:
        return _tree(lugs, first, shortest=True)
    usable = _exchanged(lugs, _greedy(lugs))
    better, proved = _search(lugs, usable)
    return _tree(lugs, better, shortest=proved)


def _tree(lugs: Lugs, wires: Iterable[Pair], *, shortest: bool) -> Tree:
    chosen = tuple(sorted(wires))
    return Tree(chosen, _length(lugs, chosen), shortest)


def _length(lugs: Lugs, wires: Iterable[Pair]) -> float:
    return sum(map(lugs.distance, wires))


def _least(lugs: Lugs, taken: frozenset[Pair], barred: frozenset[Pair]) -> list[Pair] | None:
    """Return the shortest tree with some wires and without others, whatever the room."""
    union = _Union(len(lugs.groups))
    wires: list[Pair] = []
    for pair in (*taken, *lugs.pairs):
        if len(wires) == len(lugs.groups) - 1:
            break
        if pair not in barred and union.join(*(lugs.group_of[lug] for lug in pair)):
            wires.append(pair)
    return wires if len(wires) == len(lugs.groups) - 1 else None


def _crowded(lugs: Lugs, wires: Iterable[Pair]) -> str | None:
    """Return the lug with the most wires beyond its room, or None."""
    counts = Counter(lug for pair in wires for lug in pair)
    over = {lug: n - lugs.room[lug] for lug, n in counts.items() if n > lugs.room[lug]}
    return max(sorted(over), key=over.__getitem__) if over else None


def _greedy(lugs: Lugs) -> list[Pair]:
    """Return a tree that keeps to the room, the shortest wire that leaves a way on first."""
    union = _Union(len(lugs.groups))
    room = dict(lugs.room)
    left = {n: sum(room[lug] for lug in group) for n, group in enumerate(lugs.groups)}
    wires: list[Pair] = []
    while len(left) > 1:
        wires.append(next(_joinable(lugs, union, room, left)))
        a, b = wires[-1]
        roots = [union.root(lugs.group_of[lug]) for lug in (a, b)]
        rest = left.pop(roots[0]) + left.pop(roots[1]) - 2
        union.join(*roots)
        left[union.root(roots[0])] = rest
        room[a] -= 1
        room[b] -= 1
    return wires


def _joinable(
    lugs: Lugs, union: _Union, room: Mapping[str, int], left: Mapping[int, int]
) -> Iterator[Pair]:
    for a, b in lugs.pairs:
        first, second = union.root(lugs.group_of[a]), union.root(lugs.group_of[b])
        if first == second or not (room[a] and room[b]):
            continue
        if len(left) == 2 or left[first] + left[second] > 2:
            yield a, b


def _exchanged(lugs: Lugs, wires: list[Pair]) -> list[Pair]:
    """Return a tree that no exchange of one wire makes shorter."""
    while True:
        for wire in sorted(wires, key=lugs.distance, reverse=True):
            others = [other for other in wires if other != wire]
            better = _best_joining(lugs, others)
            if lugs.distance(better) < lugs.distance(wire) - 1e-9:
                wires = [*others, better]
                break
        else:
            return wires


def _best_joining(lugs: Lugs, wires: Sequence[Pair]) -> Pair:
    """Return the shortest wire that joins the two halves of a tree with room at both ends."""
    union = _Union(len(lugs.groups))
    counts = Counter(lug for pair in wires for lug in pair)
    for pair in wires:
        union.join(*(lugs.group_of[lug] for lug in pair))
    return next(
        pair
        for pair in lugs.pairs
        if all(counts[lug] < lugs.room[lug] for lug in pair)
        and union.root(lugs.group_of[pair[0]]) != union.root(lugs.group_of[pair[1]])
    )


def _search(lugs: Lugs, best: list[Pair]) -> tuple[list[Pair], bool]:
    """Return the shortest tree and True, or the one given and False if that takes too long."""
    none: frozenset[Pair] = frozenset()
    limit = _length(lugs, best) - 1e-9
    order = count()
    waiting = [(0.0, next(order), none, none)]
    effort = MOST_EFFORT
    while waiting:
        _, _, taken, barred = heapq.heappop(waiting)
        tree = _least(lugs, taken, barred)
        effort -= len(lugs.pairs)
        if tree is None or (length := _length(lugs, tree)) >= limit:
            continue
        lug = _crowded(lugs, tree)
        if lug is None:
            best, limit = tree, length - 1e-9
            continue
        if effort < 0:
            return best, False
        for more, without in _branches(lug, tree, taken, lugs.room[lug]):
            heapq.heappush(waiting, (length, next(order), taken | more, barred | without))
    return best, True


def _branches(
    lug: str, tree: Sequence[Pair], taken: frozenset[Pair], room: int
) -> Iterator[tuple[frozenset[Pair], frozenset[Pair]]]:
    """Yield what to take and what to bar: each tree that does not crowd the lug falls in one."""
    here = [pair for pair in tree if lug in pair]
    held = sum(pair in taken for pair in here)
    free = [pair for pair in here if pair not in taken]
    for index, pair in enumerate(free):
        if held + index <= room:
            yield frozenset(free[:index]), frozenset({pair})
