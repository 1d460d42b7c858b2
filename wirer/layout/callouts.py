"""Callouts: the number of a wire that has no room for it, set aside and led to it by a hairline."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

from wirer.circuit.kind import Point
from wirer.layout.box import Box
from wirer.layout.geometry import point_on_polyline, segments_of
from wirer.layout.layout import Layout
from wirer.layout.lettering import text_width
from wirer.layout.route import Route
from wirer.layout.tags import TAG_HEIGHT_MM, TAG_MM, Taken

STEP_MM = 1.0
NEAREST_MM = 2.6
FARTHEST_MM = 16.0
RAYS = 24


@dataclass(frozen=True, slots=True)
class Callout:
    """A text in its box, and the place on the wire that it is led to."""

    text: str
    box: Box
    foot: Point
    height_mm: float = TAG_MM


def place_callouts(
    layout: Layout, texts: Mapping[str, str], boxes: Iterable[Box] = ()
) -> dict[str, Callout]:
    """Find a place near each wire for its text, by wire id; none where all is full for 16 mm.

    It lies on no wire, lug or label, nor on any of the given boxes or another callout.
    """
    taken = Taken(layout)
    for box in boxes:
        taken.add(box)
    placed = {}
    for wire, text in texts.items():
        route = layout.routes.get(wire)
        callout = _callout(layout, route, text, taken) if route else None
        if callout:
            placed[wire] = callout
            taken.add(callout.box)
    return placed


def _callout(layout: Layout, route: Route, text: str, taken: Taken) -> Callout | None:
    foot = _foot(route)
    size = text_width(text, TAG_MM) + 0.8, TAG_HEIGHT_MM
    bodies = [p.body_box for p in layout.placements.values() if not p.underlay]
    for on_bodies in (False, True):
        for at in _round_about(foot):
            box = Box.centred(at, *size)
            on_one = any(box.meets(body) for body in bodies)
            if on_one == on_bodies and taken.free(box, ""):
                return Callout(text, box, foot)
    return None


def _foot(route: Route) -> Point:
    """Return the middle of the longest run of a wire."""
    runs = segments_of(route.points)
    longest = max(runs, key=lambda run: math.dist(*run), default=None)
    if longest is None:
        return point_on_polyline(route.points, route.length_mm / 2)
    (ax, ay), (bx, by) = longest
    return (ax + bx) / 2, (ay + by) / 2


def _round_about(foot: Point) -> Iterator[Point]:
    """Yield places round a point, the near ones first."""
    rings = int((FARTHEST_MM - NEAREST_MM) / STEP_MM) + 1
    for ring in range(rings):
        radius = NEAREST_MM + ring * STEP_MM
        for ray in range(RAYS):
            angle = 2 * math.pi * ray / RAYS
            yield foot[0] + radius * math.cos(angle), foot[1] + radius * math.sin(angle)
