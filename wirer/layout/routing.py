"""All wires of a circuit: the shortest first, then bettered by making way for one another."""

from __future__ import annotations

from collections.abc import Iterable

from wirer.circuit.model import Wire
from wirer.layout.box import Box
from wirer.layout.geometry import segments_of
from wirer.layout.pairs import Piece, meeting
from wirer.layout.route import Route
from wirer.layout.router import MOST_EFFORT, Router
from wirer.layout.search import BEND_MM

QUICK_BETTERING = 200_000
LEAST_BETTERING = 1_600_000
MOST_BETTERING = 8_000_000
EFFORT_FACTOR = 1.5
MOST_BLOCKERS = 4
NEAR_MM = 1.4
GAIN_MM = 0.5


def route_wires(router: Router, wires: Iterable[Wire], thorough: bool = True) -> None:
    """Route wires over what a router has drawn already.

    The order is by length. Then, dearest first, each wire that others keep from its best course
    is routed before them and they after it, where all together cost less by it. That work is
    bounded by the nodes searched, so that a layout is the same on every machine; it is small
    unless `thorough`.
    """
    searched = []
    for wire in wires:
        route = router.direct(wire)
        if route:
            router.keep(wire.id, route)
        else:
            searched.append(wire)
    for wire in sorted(searched, key=router.least_cost):
        router.keep(wire.id, router.route(wire))
    least = LEAST_BETTERING if thorough else QUICK_BETTERING
    allowed = max(least, min(MOST_BETTERING, int(EFFORT_FACTOR * router.effort)))
    _Bettering(router, searched, min(MOST_EFFORT, router.effort + allowed)).run()


class _Bettering:
    def __init__(self, router: Router, wires: list[Wire], most_effort: int) -> None:
        self.router, self.most_effort = router, most_effort
        self.wires = {wire.id: wire for wire in wires}
        self._ideal: dict[str, Route] = {}

    def run(self) -> None:
        """Go over the wires until nothing is gained or the effort is spent."""
        changed = True
        while changed:
            changed = False
            for wire in sorted(self.wires.values(), key=self._excess, reverse=True):
                if self.router.effort > self.most_effort:
                    return
                if self._excess(wire) > BEND_MM / 2:
                    changed |= self._bettered(wire)

    def _excess(self, wire: Wire) -> float:
        self.router.wipe(wire.id)
        cost = self.router.cost(wire)
        self.router.keep(wire.id, self.router.routes[wire.id])
        return cost - self.router.least_cost(wire)

    def _bettered(self, wire: Wire) -> bool:
        if wire.id not in self._ideal:
            self._ideal[wire.id] = self.router.route(wire, alone=True)
        blockers = [w for w in self._blockers(wire.id) if w in self.wires][:MOST_BLOCKERS]
        return self._rerouted([wire, *(self.wires[b] for b in blockers)])

    def _blockers(self, wire: str) -> list[str]:
        """Return the wires that cross or crowd a wire's best course."""
        course = self._ideal[wire]
        return [
            name
            for name in self.router.scene.wires_near(course.box)
            if name != wire and _conflict(wire, course, name, self.router.routes[name])
        ]

    def _rerouted(self, group: list[Wire]) -> bool:
        """Route a group anew in its order; put everything back unless that costs less."""
        before = {wire.id: self.router.routes[wire.id] for wire in group}
        for wire in group:
            self.router.wipe(wire.id)
        old = self._summed(group, before)
        for wire in group:
            self.router.wipe(wire.id)
        after = {}
        for wire in group:
            after[wire.id] = self.router.route(wire)
            self.router.keep(wire.id, after[wire.id])
        for wire in group:
            self.router.wipe(wire.id)
        better = self._summed(group, after) < old - GAIN_MM
        if not better:
            for wire_id, route in before.items():
                self.router.keep(wire_id, route)
        return better

    def _summed(self, group: list[Wire], routes: dict[str, Route]) -> float:
        """Return the cost of a wiped group drawn one by one, so that each pair counts once."""
        total = 0.0
        for wire in group:
            self.router.routes[wire.id] = routes[wire.id]
            total += self.router.cost(wire)
            self.router.keep(wire.id, routes[wire.id])
        return total


def _conflict(one: str, course: Route, other: str, drawn: Route) -> bool:
    """Tell whether two courses cross, overlap or run too near to each other."""
    ends = (course.points[0], course.points[-1])
    drawn_ends = (drawn.points[0], drawn.points[-1])
    against = [(Box.around(segment), segment) for segment in segments_of(drawn.points)]
    for segment in segments_of(course.points):
        box = Box.around(segment).grown(NEAR_MM)
        for other_box, other_segment in against:
            if box.meets(other_box):
                found = meeting(Piece(one, segment, ends), Piece(other, other_segment, drawn_ends))
                if found.crosses or found.overlaps or found.spacing_mm < NEAR_MM:
                    return True
    return False
