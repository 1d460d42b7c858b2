"""Routes for the wires of a circuit: each the cheapest past all that is drawn already."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import replace
from itertools import pairwise

from wirer.circuit.kind import Point
from wirer.circuit.model import Wire, split_lug
from wirer.layout.appraisal import appraise
from wirer.layout.box import Box
from wirer.layout.direct import direct_route
from wirer.layout.field import AREA_EFFORT, Ends, Field
from wirer.layout.marks import joined, own_marks
from wirer.layout.placement import Placement, hosts_of
from wirer.layout.route import Route, tidied
from wirer.layout.scene import Scene
from wirer.layout.search import BEND_MM, Search

WINDOW_MM = 20.0
WIDER_MM = 80.0
EXCESS_MM = 150.0
MOST_EFFORT = 30_000_000
"""Beyond this much searching wires are drawn with an elbow and called a fallback."""
APPRAISAL_EFFORT = 1000
LARGEST_MM = 500_000.0


class Router:
    """Routes wires over a scene; what it has routed is drawn into the scene.

    `effort` counts the nodes of the grids searched so far and the areas on them: a measure of work
    that is the same on every machine.
    """

    def __init__(self, placements: Mapping[str, Placement], lugs: Mapping[str, Point]) -> None:
        self.placements, self.lugs = placements, lugs
        self.scene = Scene(placements)
        self.routes: dict[str, Route] = {}
        self.effort = 0
        self._wires_at: Counter[str] = Counter()
        self._known_hosts: dict[str, list[str]] = {}

    def expect(self, wires: tuple[Wire, ...]) -> None:
        """Learn how many wires each lug is to take."""
        self._wires_at = Counter(lug for wire in wires for lug in wire.ends)

    def keep(self, wire: str, route: Route) -> None:
        """Take over a route as it is."""
        self.routes[wire] = route
        self.scene.draw(wire, route)

    def wipe(self, wire: str) -> None:
        """Take a wire out of the others' way."""
        self.scene.wipe(wire)

    def direct(self, wire: Wire) -> Route | None:
        """Return the route of a wire that needs no search, or None."""
        start, end = (self.lugs[lug] for lug in wire.ends)
        return direct_route(wire, start, end, self.placements[split_lug(wire.from_lug)[0]])

    def ends_of(self, wire: Wire) -> Ends:
        """Return what a wire joins."""
        return Ends(
            places=tuple(self.stops_of(wire)),
            lugs=frozenset(wire.ends),
            parts=self._parts_of(wire.ends),
            shared=tuple(self.lugs[lug] for lug in wire.ends if self._wires_at[lug] > 1),
        )

    def _parts_of(self, lugs: tuple[str, ...]) -> tuple[str, ...]:
        """Return the parts of lugs, and those on whose bodies the lugs lie."""
        hosts = [host for lug in lugs for host in self._hosts(lug)]
        return tuple(dict.fromkeys((*(split_lug(lug)[0] for lug in lugs), *hosts)))

    def _hosts(self, lug: str) -> list[str]:
        if lug not in self._known_hosts:
            at = self.lugs[lug]
            near = self.scene.parts_near(Box(*at, *at))
            self._known_hosts[lug] = hosts_of((self.placements[name] for name in near), at)
        return self._known_hosts[lug]

    def stops_of(self, wire: Wire) -> list[Point]:
        """Return the places that a wire passes: its lugs with its bends between."""
        return [self.lugs[wire.from_lug], *wire.bends, self.lugs[wire.to_lug]]

    def route(self, wire: Wire, alone: bool = False) -> Route:
        """Return the cheapest route of a wire, `alone` as if no other wire were there."""
        ends, stops = self.ends_of(wire), self.stops_of(wire)
        points, found = [stops[0]], True
        for start, end in pairwise(stops):
            piece = self._piece(replace(ends, places=(start, end)), alone)
            found = found and piece is not None
            points += piece[1:] if piece else [(end[0], start[1]), end]
        return Route(tidied(points), "routed" if found else "fallback")

    def cost(self, wire: Wire) -> float:
        """Return what a wire's present route costs among the others; it must be wiped."""
        route, ends = self.routes[wire.id], self.ends_of(wire)
        marks = self.scene.marks_near(route.box, ends.parts)
        for part in dict.fromkeys(ends.parts):
            each = self.scene.footprint(part)
            marks.append(own_marks(each, ends.lugs_of(part), ends.jumper))
        everything = joined(marks)
        self.effort += APPRAISAL_EFFORT + AREA_EFFORT * len(everything.areas)
        return appraise(route.points, everything)

    def least_cost(self, wire: Wire) -> float:
        """Return what a wire costs that nothing stands in the way of."""
        return _least_cost(self.stops_of(wire))

    def preview(self, ends: Ends) -> Route:
        """Return the route of a wire that is being drawn between two places, near them only."""
        found = self._search(ends, WINDOW_MM)
        if found is None:
            return Route(ends.places, "fallback")
        return Route(tidied(found[0]))

    def _piece(self, ends: Ends, alone: bool) -> list[Point] | None:
        """Return the cheapest polyline between two places, None where there is none to be had.

        First near them; if that way costs far more than it should, in a wider window.
        """
        best: tuple[list[Point], float] | None = None
        for margin in (WINDOW_MM, WIDER_MM):
            found = self._search(ends, margin, alone)
            if found and (best is None or found[1] < best[1]):
                best = found
            if best is None or best[1] - _least_cost(ends.places) < EXCESS_MM:
                break
        return best[0] if best else None

    def _search(
        self, ends: Ends, margin: float, alone: bool = False
    ) -> tuple[list[Point], float] | None:
        window = Box.around(ends.places)
        for part in ends.parts:
            window = window.united(self.placements[part].extent)
        if self.effort > MOST_EFFORT or max(window.width, window.height) > LARGEST_MM:
            return None
        field = Field(self.scene, window.grown(margin), ends, alone)
        self.effort += field.effort
        start, end = ends.places
        search = Search(field.xs, field.ys, field.level, field.upright)
        path = search.path(field.gates(start), field.gates(end))
        if path is None:
            return None
        return [start, *field.points(path.nodes), end], path.cost


def _least_cost(stops: Sequence[Point]) -> float:
    length = sum(abs(ax - bx) + abs(ay - by) for (ax, ay), (bx, by) in pairwise(stops))
    bends = sum(1 for (ax, ay), (bx, by) in pairwise(stops) if ax != bx and ay != by)
    return math.fsum((length, BEND_MM * bends))
