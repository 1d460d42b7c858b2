"""Which routes of an earlier layout still hold."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from wirer.circuit.model import Wire, split_lug
from wirer.layout.box import Box
from wirer.layout.geometry import segments_of
from wirer.layout.layout import Layout
from wirer.layout.placement import Placement
from wirer.layout.route import Route

NEAR_MM = 3.0


def kept_routes(
    previous: Layout, placements: Mapping[str, Placement], wires: tuple[Wire, ...]
) -> dict[str, Route]:
    """Return the routes of wires whose course, parts and surroundings are what they were.

    A part that was moved, changed, added or taken away frees the wires that end on it or pass
    near where it lies or lay.
    """
    changed = {
        name
        for name in {*placements, *previous.placements}
        if placements.get(name) != previous.placements.get(name)
    }
    boxes = list(_boxes(changed, previous.placements, placements))
    kept = {}
    for wire in wires:
        route = previous.routes.get(wire.id)
        if route is None or not _alike(wire, previous.wires[wire.id]):
            continue
        if any(split_lug(lug)[0] in changed for lug in wire.ends):
            continue
        if not any(_passes(route, box) for box in boxes):
            kept[wire.id] = route
    return kept


def _boxes(changed: set[str], *placed: Mapping[str, Placement]) -> Iterator[Box]:
    for placements in placed:
        for name in changed & set(placements):
            yield placements[name].extent.grown(NEAR_MM)


def _alike(wire: Wire, earlier: Wire) -> bool:
    return (
        wire.ends == earlier.ends
        and wire.bends == earlier.bends
        and (wire.style == "mount") == (earlier.style == "mount")
    )


def _passes(route: Route, box: Box) -> bool:
    return any(Box.around(segment).meets(box) for segment in segments_of(route.points))
