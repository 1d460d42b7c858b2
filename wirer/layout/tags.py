"""Where small notes stand: the colour code along each wire, the name beside each lug."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from itertools import product

from wirer.circuit.kind import Point
from wirer.layout.box import Box
from wirer.layout.geometry import segments_of
from wirer.layout.index import BoxIndex
from wirer.layout.layout import Layout
from wirer.layout.lettering import text_width
from wirer.layout.placement import LUG_RADIUS_MM
from wirer.layout.route import Route

TAG_MM = 1.15
TAG_HEIGHT_MM = 1.7
LUG_NAME_MM = 1.1
HALF_WIRE_MM = 0.45
END_MM = 1.8
STEP_MM = 2.0
MOST_PLACES = 60


@dataclass(frozen=True, slots=True)
class Tag:
    """A text about its middle `at`, read from below where `upright` (along an upright run)."""

    text: str
    at: Point
    box: Box
    upright: bool = False
    height_mm: float = TAG_MM


def place_tags(layout: Layout, texts: Mapping[str, str]) -> dict[str, Tag]:
    """Find a place on each wire for its text, by wire id.

    It lies along one of the wire's straight runs, the longest first, and on no other wire, lug or
    label. A wire without room for it gets none.
    """
    taken = Taken(layout)
    tags = {}
    for wire, text in texts.items():
        route = layout.routes.get(wire)
        tag = _tag_on(route, wire, text, taken) if route and text else None
        if tag:
            tags[wire] = tag
            taken.add(tag.box)
    return tags


def place_lug_names(
    layout: Layout, texts: Mapping[str, str], tags: Iterable[Tag] = ()
) -> dict[str, Tag]:
    """Find a place beside each lug for its name, by `PART.lug`; none where there is no room."""
    taken = Taken(layout)
    for tag in tags:
        taken.add(tag.box)
    names = {}
    for lug, text in texts.items():
        width = text_width(text, LUG_NAME_MM)
        for at in _beside_lug(layout.lugs[lug], width):
            box = Box.centred(at, width, LUG_NAME_MM * 1.3)
            if taken.free(box, ""):
                names[lug] = Tag(text, at, box, height_mm=LUG_NAME_MM)
                taken.add(box)
                break
    return names


class Taken:
    """What small notes may not lie on: wires (but their own), lugs, labels and one another."""

    def __init__(self, layout: Layout) -> None:
        self._wires: BoxIndex[tuple[str, Box]] = BoxIndex()
        self._boxes: BoxIndex[Box] = BoxIndex()
        for wire, route in layout.routes.items():
            for segment in segments_of(route.points):
                box = Box.around(segment).grown(HALF_WIRE_MM)
                self._wires.add(box, (wire, box))
        for at in layout.lugs.values():
            self.add(Box.centred(at, 2 * LUG_RADIUS_MM + 0.3, 2 * LUG_RADIUS_MM + 0.3))
        for box in (*layout.labels.boxes, *layout.reserved):
            self.add(box)

    def add(self, box: Box) -> None:
        """Take the room of a box."""
        self._boxes.add(box, box)

    def free(self, box: Box, own_wire: str) -> bool:
        """Tell whether a box lies on nothing but perhaps the wire that it belongs to."""
        if any(box.meets(other) for other in self._boxes.near(box)):
            return False
        near = self._wires.near(box)
        return not any(wire != own_wire and box.meets(other) for wire, other in near)


def _tag_on(route: Route, wire: str, text: str, taken: Taken) -> Tag | None:
    width = text_width(text, TAG_MM) + 0.8
    for at, upright in _places_on(route, width):
        size = (TAG_HEIGHT_MM, width) if upright else (width, TAG_HEIGHT_MM)
        box = Box.centred(at, *size)
        if taken.free(box, wire):
            return Tag(text, at, box, upright)
    return None


def _places_on(route: Route, width: float) -> Iterator[tuple[Point, bool]]:
    """Yield places on straight runs, the longest first, each from its middle outwards."""
    runs = [(a, b) for a, b in segments_of(route.points) if a[0] == b[0] or a[1] == b[1]]
    runs.sort(key=lambda run: -math.dist(*run))
    for (ax, ay), (bx, by) in runs:
        room = math.dist((ax, ay), (bx, by)) - width - 2 * END_MM
        if room < 0:
            return
        steps = min(int(room / 2 / STEP_MM), MOST_PLACES)
        middle = ((ax + bx) / 2, (ay + by) / 2)
        for shift in (s for step in range(steps + 1) for s in (step, -step)[: 1 + bool(step)]):
            off = shift * STEP_MM
            upright = ax == bx
            yield (
                ((middle[0], middle[1] + off) if upright else (middle[0] + off, middle[1])),
                upright,
            )


def _beside_lug(lug: Point, width: float) -> Iterator[Point]:
    """Yield places for a name at the lug's corners, then level with it and over it."""
    x, y = lug
    far_x, far_y = LUG_RADIUS_MM + 0.35 + width / 2, LUG_RADIUS_MM + 0.2 + LUG_NAME_MM / 2
    for sign_y, sign_x in product((-1, 1), (1, -1)):
        yield x + sign_x * (far_x - 0.5), y + sign_y * far_y
    for sign in (1, -1):
        yield x + sign * (far_x + 0.2), y
    for sign in (-1, 1):
        yield x, y + sign * (far_y + 0.3)
