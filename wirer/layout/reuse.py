"""Which routes of an earlier layout still hold."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from wirer.circuit.model import Wire, split_lug
from wirer.layout.box import Box
from wirer.layout.geometry import segments_of
from wirer.layout.layout import Layout
from wirer.layout.placement import Placement
from wirer.layout.route import Route, Screen

NEAR_MM = 3.0


def kept_routes(
    previous: Layout, placements: Mapping[str, Placement], wires: tuple[Wire, ...]
) -> dict[str, Route]:
    """Return the routes of wires whose course, parts and surroundings are what they were.

    A part that was moved, changed, added or taken away frees the wires that end on it or pass
    near where it lies or lay.
    """
    changed = changed_parts(previous, placements)
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


def changed_parts(previous: Layout, placements: Mapping[str, Placement]) -> set[str]:
    """Return the parts that were moved, changed, added or taken away."""
    return {
        name
        for name in {*placements, *previous.placements}
        if placements.get(name) != previous.placements.get(name)
    }


def kept_screens(
    previous: Layout,
    placements: Mapping[str, Placement],
    wires: tuple[Wire, ...],
    kept: Mapping[str, Route],
) -> dict[str, Screen]:
    """Return the screens of wires whose routes are kept and whose screens end where they did."""
    changed = changed_parts(previous, placements)
    screens = {}
    for wire in wires:
        earlier = previous.wires.get(wire.id)
        screen = previous.screens.get(wire.id)
        if screen is None or earlier is None or wire.id not in kept or wire.style != "screened":
            continue
        ends = (wire.screen_from, wire.screen_to)
        if ends == (earlier.screen_from, earlier.screen_to) and not any(
            split_lug(lug)[0] in changed for lug in ends if lug
        ):
            screens[wire.id] = screen
    return screens


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
