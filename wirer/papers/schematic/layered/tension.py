"""Places on a line that are pulled together while they keep their distances.

Minimises Σ weight · (place[high] − place[low]) over whole numbers under place[b] − place[a] ≥
least. That is the dual of a flow of least cost (Ahuja, Magnanti and Orlin, Network Flows, 1993,
sections 9.4 and 9.7: successive shortest paths with node potentials), the potentials being the
places; so each pull is carried out exactly, and stopping early leaves places that are allowed.
"""

from __future__ import annotations

from collections import deque
from heapq import heappop, heappush

_FAR = 10**9


class Tension:
    """A set of places with least distances between them."""

    def __init__(self) -> None:
        self.places: list[int] = []
        self._arcs: list[list[tuple[int, int, int]]] = []
        self._into: list[list[tuple[int, int]]] = []
        self._flow: list[int] = []
        self._least: list[int] = []
        self._waiting: list[tuple[int, int, int]] = []
        self._spans: list[tuple[int, list[tuple[int, int]]]] = []

    def add(self, place: int = 0) -> int:
        """Add a place with a first guess and return its number."""
        self.places.append(place)
        self._arcs.append([])
        self._into.append([])
        return len(self.places) - 1

    def keep(self, low: int, high: int, least: int) -> None:
        """Demand that `high` is at least so far beyond `low` (negative: at most so far before)."""
        number = len(self._flow)
        self._flow.append(0)
        self._least.append(least)
        self._arcs[low].append((high, least, number))
        self._into[high].append((low, number))

    def fix(self, low: int, high: int, distance: int) -> None:
        """Demand that `high` lies exactly so far beyond `low`."""
        self.keep(low, high, distance)
        self.keep(high, low, -distance)

    def pull(self, low: int, high: int, weight: int) -> None:
        """Wish `high`, which never lies before `low`, to be near it."""
        self._waiting.append((low, high, weight))

    def span(self, weight: int, points: list[tuple[int, int]]) -> None:
        """Wish places, each with an offset, to be within a short span."""
        if len(points) < 2:
            return
        low, high = self.add(-_FAR), self.add(-_FAR)
        for place, offset in points:
            self.keep(low, place, -offset)
            self.keep(place, high, offset)
        self._spans.append((low, points))
        self.pull(low, high, weight)

    def solve(self, budget: int) -> list[int]:
        """Return the places, pulled together one pull after another until the budget is spent.

        `budget` bounds the number of places looked at. The demands must not contradict each other.
        More pulls may be added and solved again, but no demands between the places so far.
        """
        self._settle()
        for low, high, weight in sorted(self._waiting, key=lambda pull: -pull[2]):
            left = weight
            while left and budget > 0:
                moved, spent = self._carry(low, high, left)
                left -= moved
                budget -= spent
        self._waiting.clear()
        return self.places

    def _settle(self) -> None:
        """Raise places until every distance is kept, then the low end of each span to its span."""
        places = self.places
        waiting = deque(range(len(places)))
        queued = [True] * len(places)
        while waiting:
            low = waiting.popleft()
            queued[low] = False
            for high, least, _ in self._arcs[low]:
                if places[high] < places[low] + least:
                    places[high] = places[low] + least
                    if not queued[high]:
                        queued[high] = True
                        waiting.append(high)
        for low, points in self._spans:
            places[low] = min(places[place] + offset for place, offset in points)
        self._spans.clear()

    def _carry(self, source: int, target: int, most: int) -> tuple[int, int]:
        """Send flow along the path of least slack and take that slack out of it."""
        places, flow = self.places, self._flow
        distance = {source: 0}
        reached: dict[int, tuple[int, int, bool]] = {}
        done: dict[int, int] = {}
        heap = [(0, source)]
        while heap:
            far, here = heappop(heap)
            if here in done:
                continue
            done[here] = far
            if here == target:
                break
            base = far - places[here]
            for there, least, arc in self._arcs[here]:
                if there not in done:
                    length = base + places[there] - least
                    if length < distance.get(there, length + 1):
                        distance[there] = length
                        reached[there] = (here, arc, True)
                        heappush(heap, (length, there))
            for there, arc in self._into[here]:
                # An arc that carries flow has no slack, so going back along it is free.
                if flow[arc] and there not in done and far < distance.get(there, far + 1):
                    distance[there] = far
                    reached[there] = (here, arc, False)
                    heappush(heap, (far, there))
        total = done[target]
        for place, far in done.items():
            places[place] += total - far
        return self._send(source, target, most, reached), len(done)

    def _send(
        self, source: int, target: int, most: int, reached: dict[int, tuple[int, int, bool]]
    ) -> int:
        path = []
        here = target
        while here != source:
            before, arc, forward = reached[here]
            path.append((arc, forward))
            here = before
        moved = min([most, *(self._flow[arc] for arc, forward in path if not forward)])
        for arc, forward in path:
            self._flow[arc] += moved if forward else -moved
        return moved
