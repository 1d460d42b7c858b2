"""From a circuit to its layout."""

from __future__ import annotations

from functools import lru_cache

from wirer.circuit.frozen import FrozenMap
from wirer.circuit.kind import Point
from wirer.circuit.model import Circuit, split_lug
from wirer.layout.arrows import arrow_words
from wirer.layout.field import Ends
from wirer.layout.labels import place_labels
from wirer.layout.layout import Layout
from wirer.layout.pigtails import screen_of
from wirer.layout.placement import lug_points, parts_at, place_parts
from wirer.layout.reuse import kept_routes
from wirer.layout.route import Route
from wirer.layout.router import Router
from wirer.layout.routing import route_wires
from wirer.layout.spacing import even_out


def lay_out(circuit: Circuit, previous: Layout | None = None) -> Layout:
    """Place the parts of a circuit and route its wires.

    With a `previous` layout, the routes of wires that nothing near has changed for are kept.
    """
    placements = place_parts(circuit)
    lugs = lug_points(placements)
    router = Router(placements, lugs)
    for box in place_labels(circuit, placements, {}).boxes:
        router.scene.label(box)
    kept = kept_routes(previous, placements, circuit.wires) if previous else {}
    for wire_id, route in kept.items():
        router.keep(wire_id, route)
    router.expect(circuit.wires)
    new = [wire for wire in circuit.wires if wire.id not in kept]
    route_wires(router, new)
    even_out(router, new)
    routes = FrozenMap({wire.id: router.routes[wire.id] for wire in circuit.wires})
    screens = {wire.id: screen_of(wire, router) for wire in circuit.wires}
    return Layout(
        placements=placements,
        lugs=lugs,
        routes=routes,
        wires=circuit.wire_by_id,
        screens=FrozenMap({name: screen for name, screen in screens.items() if screen}),
        labels=place_labels(circuit, placements, routes),
        reserved=tuple(arrow_words(circuit)),
    )


def route_one(layout: Layout, start: str | Point, end: str | Point) -> Route:
    """Route a wire that is being drawn, past the wires of a layout.

    Each end is a lug `PART.lug` or a place in mm. A place on a body may be reached over it.
    """
    router = _router_of(layout)
    places = [layout.lugs[e] if isinstance(e, str) else e for e in (start, end)]
    parts: list[str] = []
    for given, place in zip((start, end), places, strict=True):
        if isinstance(given, str):
            parts.append(split_lug(given)[0])
        else:
            parts += parts_at(layout.placements, place)
    lugs = frozenset(e for e in (start, end) if isinstance(e, str))
    ends = Ends(places=tuple(places), lugs=lugs, parts=tuple(parts))
    return router.preview(ends)


@lru_cache(maxsize=2)
def _router_of(layout: Layout) -> Router:
    router = Router(layout.placements, layout.lugs)
    for wire_id, route in layout.routes.items():
        router.keep(wire_id, route)
    return router
