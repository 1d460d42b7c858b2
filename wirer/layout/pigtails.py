"""Screened wires: how far the screen reaches, and how its ends are led to their lugs."""

from __future__ import annotations

from wirer.circuit.kind import Point
from wirer.circuit.model import Wire, split_lug
from wirer.layout.course import between
from wirer.layout.field import Ends
from wirer.layout.geometry import point_on_polyline
from wirer.layout.route import Screen
from wirer.layout.router import Router

BARE_MM = 5.0
BARE_SHARE = 0.2


def screen_of(wire: Wire, router: Router) -> Screen:
    """Return the screen of a routed wire.

    The screen ends some 5 mm before each lug (a fifth of a short wire); a screen end with a lug
    is led there from where the screen ends.
    """
    points = router.routes[wire.id].points
    length = router.routes[wire.id].length_mm
    bare = min(BARE_MM, BARE_SHARE * length)
    tails = []
    for lug, own, way in (
        (wire.screen_from, wire.from_lug, bare),
        (wire.screen_to, wire.to_lug, length - bare),
    ):
        if lug is not None:
            ends = _ends(router, point_on_polyline(points, way), lug, own)
            tails.append(router.preview(ends))
            router.scene.draw(f"{wire.id} {lug}", tails[-1])
    return Screen(bare, between(points, bare, length - bare), tuple(tails))


def _ends(router: Router, start: Point, lug: str, own: str) -> Ends:
    at = router.lugs[lug]
    parts = tuple(dict.fromkeys((split_lug(lug)[0], split_lug(own)[0])))
    return Ends(places=(start, at), lugs=frozenset((lug, own)), parts=parts, shared=(at,))
