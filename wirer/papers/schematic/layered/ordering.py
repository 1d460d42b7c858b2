"""The order within the layers, chosen against crossings.

Sweeps by barycentre (Sugiyama, Tagawa and Toda, 1981), then sifting of single vertices
(Matuszewski, Schönfeld and Molitor, 1999), from several first orders; the best are kept.
"""

from __future__ import annotations

import random
from bisect import bisect_left, bisect_right
from collections.abc import Sequence
from dataclasses import dataclass, field
from itertools import combinations

from wirer.papers.schematic.layered.graph import LEFT, RIGHT
from wirer.papers.schematic.layered.rows import Rows

SIDES = (LEFT, RIGHT)
SWEEPS = 6
SIFTINGS = 6
STARTS = 6
MOST_SIFTED = 60
"""A longer row is only bettered by exchanging neighbours."""

MOST_WORK = 4000
"""A graph of so many vertices times starts gets fewer starts."""


@dataclass(frozen=True)
class Choice:
    """Ways in which some nodes may stand, the usual one first.

    Each way has for every node of the choice and each side its ports from top to bottom, by their
    places in the usual way.
    """

    ways: tuple[dict[int, dict[int, list[int]]], ...]


@dataclass(slots=True)
class Ordering:
    """Rows being ordered; `ways` has the number of the way in which each node stands."""

    rows: Rows
    choices: Sequence[Choice] = ()
    ways: dict[int, int] = field(default_factory=dict)
    order: list[list[int]] = field(default_factory=list)
    _at: dict[int, int] = field(default_factory=dict)
    _base: dict[tuple[int, int], int] = field(default_factory=dict)
    _places: dict[tuple[int, int], list[int]] = field(default_factory=dict)

    def start(self, order: Sequence[Sequence[int]]) -> None:
        """Begin with an order."""
        self.order = [list(row) for row in order]
        for row in range(len(self.order)):
            self._place(row)

    def _place(self, row: int) -> None:
        """Note where the vertices of a row are, and how many ports lie above each."""
        above = {LEFT: 0, RIGHT: 0}
        for index, vertex in enumerate(self.order[row]):
            self._at[vertex] = index
            if row % 2:
                for side in SIDES:
                    self._base[vertex, side] = above[side]
                    above[side] += len(self.rows.ports[vertex, side])

    def beside(self, vertex: int, side: int) -> list[int]:
        """Return the positions of what a vertex is joined to on a side, in order of its ports."""
        if self.rows.row[vertex] % 2:
            found = [self._at[hub] for hub in self.rows.ports[vertex, side]]
            places = self._places.get((vertex, side))
            return [found[place] for place in places] if places else found
        found = []
        for other, place in self.rows.joined[vertex, side]:
            places = self._places.get((other, -side))
            own = places.index(place) if places else place
            found.append(self._base[other, -side] + own)
        return found

    def sweep(self, *, forward: bool) -> None:
        """Sort each row by the middle of what it is joined to in the row before."""
        side = LEFT if forward else RIGHT
        rows = range(len(self.order))
        for row in rows if forward else reversed(rows):
            keys = {}
            for vertex in self.order[row]:
                near = self.beside(vertex, side)
                if near:
                    keys[vertex] = sum(near) / len(near)
            self._sort(row, keys)

    def _sort(self, row: int, keys: dict[int, float]) -> None:
        """Sort the vertices that have a key; the others keep their places."""
        free = iter(sorted(keys, key=keys.__getitem__))
        self.order[row] = [next(free) if v in keys else v for v in self.order[row]]
        self._place(row)

    def sift(self, row: int) -> int:
        """Bring each vertex of a row where it crosses least; return the crossings saved."""
        near = {(v, side): sorted(self.beside(v, side)) for v in self.order[row] for side in SIDES}
        saved = 0
        long = len(self.order[row]) > MOST_SIFTED
        for vertex in list(self.order[row]):
            saved += self._sift_one(row, vertex, near, 1 if long else len(self.order[row]))
        self._place(row)
        return saved

    def _sift_one(
        self, row: int, vertex: int, near: dict[tuple[int, int], list[int]], reach: int
    ) -> int:
        order = self.order[row]
        index = order.index(vertex)
        best, best_index, change = 0, index, 0
        for other_index in range(index - 1, max(-1, index - 1 - reach), -1):
            change += _exchange(near, order[other_index], vertex)
            if change < best:
                best, best_index = change, other_index
        change = 0
        for other_index in range(index + 1, min(len(order), index + 1 + reach)):
            change += _exchange(near, vertex, order[other_index])
            if change < best:
                best, best_index = change, other_index
        if best_index != index:
            order.insert(best_index, order.pop(index))
        return -best

    def try_below(self, row: int, vertex: int, above: int) -> bool:
        """Bring a vertex directly below another of its row, unless that costs a crossing."""
        order = self.order[row]
        before, crossings = list(order), self.crossings()
        order.remove(vertex)
        order.insert(order.index(above) + 1, vertex)
        self._place(row)
        if self.crossings() <= crossings:
            return True
        self.order[row] = before
        self._place(row)
        return False

    def turn(self) -> int:
        """Let each choice stand in the way in which its own wires cross least."""
        saved = 0
        for choice in self.choices:
            now = self.ways.get(next(iter(choice.ways[0])), 0)
            counts = [self._own_crossings(way) for way in choice.ways]
            best = min(range(len(counts)), key=lambda way: (counts[way], way != now))
            if best != now:
                saved += counts[now] - counts[best]
                self.stand(choice, best)
        return saved

    def stand(self, choice: Choice, way: int) -> None:
        """Let the nodes of a choice stand in a way."""
        for vertex, sides in choice.ways[way].items():
            self.ways[vertex] = way
            for side, places in sides.items():
                self._places[vertex, side] = places

    def _own_crossings(self, way: dict[int, dict[int, list[int]]]) -> int:
        """Count how often wires of one node cross each other when it stands in a way."""
        total = 0
        for vertex, sides in way.items():
            for side, places in sides.items():
                hubs = self.rows.ports[vertex, side]
                near = [self._at[hubs[place]] for place in places]
                total += sum(a > b for a, b in combinations(near, 2))
        return total

    def crossings(self) -> int:
        """Count the crossings between all neighbouring rows."""
        total = 0
        for row in range(1, len(self.order), 2):
            for side in SIDES:
                passed: list[int] = []
                for vertex in self.order[row]:
                    for position in self.beside(vertex, side):
                        place = bisect_right(passed, position)
                        total += len(passed) - place
                        passed.insert(place, position)
        return total

    def better(self) -> None:
        """Sift and turn until nothing is saved any more."""
        for _ in range(SIFTINGS):
            saved = sum(self.sift(row) for row in range(len(self.order)))
            saved += sum(self.sift(row) for row in reversed(range(len(self.order))))
            saved += self.turn()
            if not saved:
                break


def _exchange(near: dict[tuple[int, int], list[int]], upper: int, lower: int) -> int:
    """Return how many crossings more there are when two neighbours change places."""
    change = 0
    for side in SIDES:
        above, below = near[upper, side], near[lower, side]
        for a in above:
            change += len(below) - bisect_right(below, a) - bisect_left(below, a)
    return change


def ordered(rows: Rows, choices: Sequence[Choice] = (), most: int = 1) -> list[Ordering]:
    """Return the best orders found, at most so many, the best first."""
    starts = max(1, min(STARTS, MOST_WORK // max(1, len(rows.row))))
    chance = random.Random(len(rows.row))  # the same circuit is always drawn alike
    found: dict[tuple[tuple[int, ...], ...], tuple[int, Ordering]] = {}
    for attempt in range(starts):
        ordering = Ordering(rows, choices)
        order = [list(row) for row in rows.rows]
        if attempt >= 2:
            for row in order:
                chance.shuffle(row)
        ordering.start(order)
        for sweep in range(SWEEPS):
            ordering.sweep(forward=(sweep + attempt) % 2 == 0)
            ordering.turn()
        ordering.better()
        count = ordering.crossings()
        found.setdefault(tuple(map(tuple, ordering.order[1::2])), (count, ordering))
        if not count:
            break
    best = sorted(found.values(), key=lambda each: each[0])
    return [ordering for _, ordering in best[:most]]
