"""From a circuit to its layout."""

from __future__ import annotations

from collections.abc import Mapping
from functools import lru_cache

from wirer.circuit.frozen import FrozenMap
from wirer.circuit.kind import Point
from wirer.circuit.model import Circuit, split_lug
from wirer.layout.arrows import arrow_words
from wirer.layout.field import Ends
from wirer.layout.labels import place_labels
from wirer.layout.layout import Layout
from wirer.layout.pigtails import screen_of
from wirer.layout.placement import Placement, lug_points, parts_at, place_parts
from wirer.layout.reuse import kept_routes, kept_screens
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
    kept = kept_routes(previous, placements, circuit.wires) if previous else {}
    screens = kept_screens(previous, placements, circuit.wires, kept) if previous else {}
    new = [wire for wire in circuit.wires if wire.id not in kept]
    routes: Mapping[str, Route] = kept
    bare = [w for w in circuit.wires if w.style == "screened" and w.id not in screens]
    if new or bare:
        router = _router(circuit, placements, kept, previous)
        route_wires(router, new, thorough=previous is None)
        even_out(router, new)
        routes = router.routes
        screens |= {wire.id: screen_of(wire, router) for wire in bare}
    return Layout(
        placements=placements,
        lugs=lugs,
        routes=FrozenMap({wire.id: routes[wire.id] for wire in circuit.wires}),
        wires=circuit.wire_by_id,
        screens=FrozenMap(screens),
        labels=place_labels(circuit, placements, routes, previous),
        reserved=tuple(arrow_words(circuit)),
    )


def _router(
    circuit: Circuit,
    placements: Mapping[str, Placement],
    kept: Mapping[str, Route],
    previous: Layout | None,
) -> Router:
    """Return a router that knows the parts, the room of their names, and the wires that stay."""
    router = Router(placements, lug_points(placements))
    for box in place_labels(circuit, placements, kept, previous).boxes:
        router.scene.label(box)
    for wire, route in kept.items():
        router.keep(wire, route)
    router.expect(circuit.wires)
    return router


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
