"""Routes for the wires of a circuit: each the cheapest past all others, in several rounds."""

from __future__ import annotations

import math
from collections.abc import Mapping
from itertools import pairwise

from wirer.circuit.kind import Point
from wirer.circuit.model import Wire, split_lug
from wirer.layout.box import Box
from wirer.layout.direct import direct_route
from wirer.layout.field import Ends, Field
from wirer.layout.placement import Placement
from wirer.layout.route import Route, tidied
from wirer.layout.scene import Scene
from wirer.layout.search import BEND_MM, Gate, Search

WINDOW_MM = 20.0
WIDER_MM = 80.0
EXCESS_MM = 60.0
MOST_NODES = 250_000
ROUNDS = 2


class Router:
    """Routes wires over a scene; what it has routed is drawn into the scene."""

    def __init__(self, placements: Mapping[str, Placement], lugs: Mapping[str, Point]) -> None:
        self.placements, self.lugs = placements, lugs
        self.scene = Scene(placements)
        self.routes: dict[str, Route] = {}
        self._excess: dict[str, float] = {}

    def keep(self, wire: str, route: Route) -> None:
        """Take over a route that stays as it is."""
        self.routes[wire] = route
        self.scene.draw(wire, route)

    def route_all(self, wires: list[Wire]) -> None:
        """Route wires, the shortest first, then again those that others are in the way of."""
        searched = []
        for wire in wires:
            start, end = (self.lugs[lug] for lug in wire.ends)
            owner = self.placements[split_lug(wire.from_lug)[0]]
            route = direct_route(wire, start, end, owner)
            if route:
                self.keep(wire.id, route)
            else:
                searched.append(wire)
        searched.sort(key=self._span)
        for wire in searched:
            self._route(wire)
        for _ in range(ROUNDS):
            crowded = [w for w in searched if self._excess[w.id] > BEND_MM]
            crowded.sort(key=lambda w: -self._excess[w.id])
            changed = False
            for wire in crowded:
                before = self.routes[wire.id]
                self.scene.wipe(wire.id)
                self._route(wire)
                changed = changed or self.routes[wire.id] != before
            if not changed:
                break

    def _span(self, wire: Wire) -> float:
        start, end = (self.lugs[lug] for lug in wire.ends)
        return abs(start[0] - end[0]) + abs(start[1] - end[1])

    def _route(self, wire: Wire) -> None:
        stops = [self.lugs[wire.from_lug], *wire.bends, self.lugs[wire.to_lug]]
        ends = Ends(
            places=tuple(stops),
            lugs=frozenset(wire.ends),
            parts=tuple(split_lug(lug)[0] for lug in wire.ends),
        )
        points, cost = self._through(stops, ends)
        self._excess[wire.id] = cost - _least_cost(stops)
        self.keep(wire.id, Route(tidied(points)))

    def _through(self, stops: list[Point], ends: Ends) -> tuple[list[Point], float]:
        points, cost = [stops[0]], 0.0
        for start, end in pairwise(stops):
            piece, piece_cost = self.search(start, end, ends)
            points += piece[1:]
            cost += piece_cost
        return points, cost

    def preview(self, ends: Ends) -> Route:
        """Return the route of a wire that is being drawn between two places, near them only."""
        start, end = ends.places
        found = self._search_within(start, end, ends, WINDOW_MM)
        if found is None:
            return Route((start, end), "fallback")
        return Route(tidied(found[0]))

    def search(self, start: Point, end: Point, ends: Ends) -> tuple[list[Point], float]:
        """Return the cheapest polyline between two places and its cost.

        First near them; if that way is far longer than it should be, in a wider window.
        """
        best: tuple[list[Point], float] | None = None
        for margin in (WINDOW_MM, WIDER_MM):
            found = self._search_within(start, end, ends, margin)
            if found and (best is None or found[1] < best[1]):
                best = found
            if best and best[1] - _least_cost([start, end]) < EXCESS_MM:
                break
        return best or ([start, end], math.inf)

    def _search_within(
        self, start: Point, end: Point, ends: Ends, margin: float
    ) -> tuple[list[Point], float] | None:
        window = Box.around((start, end))
        for part in ends.parts:
            window = window.united(self.placements[part].extent)
        field = Field(self.scene, window.grown(margin), ends)
        if len(field.xs) * len(field.ys) > MOST_NODES:
            return None
        path = Search(field.rows, field.columns).path(
            [Gate(field.node(start))], [Gate(field.node(end))]
        )
        return None if path is None else (field.points(path.nodes), path.cost)


def _least_cost(stops: list[Point]) -> float:
    """Return what a wire costs that nothing stands in the way of."""
    length = sum(abs(ax - bx) + abs(ay - by) for (ax, ay), (bx, by) in pairwise(stops))
    bends = sum(1 for (ax, ay), (bx, by) in pairwise(stops) if ax != bx and ay != by)
    return length + BEND_MM * bends
