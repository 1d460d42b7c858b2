"""Where there is room for a label: places to try, and what each of them would lie on."""

from __future__ import annotations

import math
from collections.abc import Callable, Collection, Iterable, Iterator, Mapping

from wirer.circuit.kind import Point
from wirer.circuit.model import split_lug
from wirer.layout.box import Box
from wirer.layout.geometry import edges_of, segments_of
from wirer.layout.index import BoxIndex
from wirer.layout.placement import LUG_RADIUS_MM, Placement
from wirer.layout.route import Route

Places = Callable[[Box, float, float], Iterator[Box]]
"""From the box of a part and a label's width and height to boxes to try, the best first."""

GAP_MM = 1.6
BESIDE_MM = 0.8
FARTHER_MM = (0.0, 2.5, 5.5, 9.0)
ON_BODY = 60.0
ON_LABEL = 60.0
ON_WIRE = 15.0
ON_LUG = 30.0
ON_EDGE = 12.0
IN_THE_WAY = 8.0
RANK = 0.5
CELL_MM = 12.0
MOST_ASKED = 4_000_000
WAY_OUT_MM = 8.0
TURN_BACK_MM = 3.0
HALF_WIRE_MM = 0.5


class Ground:
    """What labels keep clear of, and the search for the best place.

    `unrouted` are the ends of wires to be routed yet: their ways out are kept free.
    """

    def __init__(
        self,
        placements: Mapping[str, Placement],
        routes: Mapping[str, Route],
        unrouted: Collection[tuple[str, str]],
    ) -> None:
        self.placements = placements
        self._priced: list[tuple[float, BoxIndex[Box]]] = []
        self._labels = self._index(ON_LABEL, ())
        self._index(ON_BODY, _solid_boxes(placements))
        self._index(ON_EDGE, _edge_boxes(placements))
        self._index(ON_LUG, _lug_boxes(placements))
        self._index(ON_WIRE, _wire_boxes(routes))
        self._index(IN_THE_WAY, _ways_out(placements, unrouted))

    def _index(self, price: float, boxes: Iterable[Box]) -> BoxIndex[Box]:
        index: BoxIndex[Box] = BoxIndex(CELL_MM)
        for box in boxes:
            index.add(box, box)
        self._priced.append((price, index))
        return index

    def take(self, box: Box) -> bool:
        """Take a place if it is without fault, and tell whether it is."""
        if self._fault(box, math.ulp(0.0)) > 0.0:
            return False
        self._labels.add(box, box)
        return True

    def free(self, around: Box, width: float, height: float, places: Places) -> Box | None:
        """Take the first place without fault and return it, None if there is none."""
        if self._tired:
            return None
        return next((box for box in places(around, width, height) if self.take(box)), None)

    def best(self, around: Box, width: float, height: float, places: Places) -> Box:
        """Take the first place without fault, or that of the least, and return it."""
        best, least = around, math.inf
        for rank, box in enumerate(places(around, width, height)):
            fault = self._fault(box, least - RANK * rank) + RANK * rank
            if fault < least:
                best, least = box, fault
            if least <= RANK * rank or self._tired:
                break
        self._labels.add(best, best)
        return best

    @property
    def _tired(self) -> bool:
        """Whether so much was looked at that the first place must do."""
        return sum(index.asked for _, index in self._priced) > MOST_ASKED

    def _fault(self, box: Box, enough: float) -> float:
        """Sum what a box lies on, as far as there is any point in it."""
        fault = 0.0
        for price, index in self._priced:
            for other in index.near(box):
                if box.meets(other):
                    fault += price + box.shared_area(other)
                    if fault >= enough:
                        return fault
        return fault


def _solid_boxes(placements: Mapping[str, Placement]) -> Iterator[Box]:
    for placement in placements.values():
        yield from placement.features
        if not placement.underlay:
            yield placement.body_box


def _edge_boxes(placements: Mapping[str, Placement]) -> Iterator[Box]:
    """Yield the edges of what lies under the others, where a text would be struck through."""
    for placement in placements.values():
        if placement.underlay:
            for edge in edges_of(placement.body):
                yield Box.around(edge).grown(0.2)


def _lug_boxes(placements: Mapping[str, Placement]) -> Iterator[Box]:
    for placement in placements.values():
        for at in placement.lugs.values():
            yield Box.centred(at, 2 * LUG_RADIUS_MM, 2 * LUG_RADIUS_MM)


def _wire_boxes(routes: Mapping[str, Route]) -> Iterator[Box]:
    for route in routes.values():
        for segment in segments_of(route.points):
            yield Box.around(segment).grown(HALF_WIRE_MM)


def _ways_out(
    placements: Mapping[str, Placement], unrouted: Collection[tuple[str, str]]
) -> Iterator[Box]:
    """Yield the strips that wires to be routed will most likely take away from their lugs."""
    for ends in unrouted:
        lugs = [split_lug(lug) for lug in ends]
        places = [placements[part].lugs[lug] for part, lug in lugs]
        for (part, _), at, other in zip(lugs, places, reversed(places), strict=True):
            yield _way_out(placements[part].body_box, at, other).grown(HALF_WIRE_MM + 0.6)


def _way_out(body: Box, lug: Point, towards: Point) -> Box:
    """Return the line from a lug over the nearest edge of its body, rather towards a place."""
    x, y = lug
    left, right = min(x, body.left) - WAY_OUT_MM, max(x, body.right) + WAY_OUT_MM
    top, bottom = min(y, body.top) - WAY_OUT_MM, max(y, body.bottom) + WAY_OUT_MM
    far = math.dist(lug, towards) or 1.0
    east, south = (towards[0] - x) / far, (towards[1] - y) / far
    ways = (
        (y - body.top + TURN_BACK_MM * south, Box(x, top, x, y)),
        (body.bottom - y - TURN_BACK_MM * south, Box(x, y, x, bottom)),
        (x - body.left + TURN_BACK_MM * east, Box(left, y, x, y)),
        (body.right - x - TURN_BACK_MM * east, Box(x, y, right, y)),
    )
    return min(ways, key=lambda way: way[0])[1]


def near_by(around: Box, width: float, height: float) -> Iterator[Box]:
    """Yield places next to a part: below, above, beside, then by its corners."""
    yield from _rings(around, width, height, FARTHER_MM[:2])


def round_about(around: Box, width: float, height: float) -> Iterator[Box]:
    """Yield places round a part, next to it and then farther out."""
    yield from _rings(around, width, height, FARTHER_MM)


def _rings(around: Box, width: float, height: float, distances: tuple[float, ...]) -> Iterator[Box]:
    x, y = around.centre
    for farther in distances:
        below = around.bottom + GAP_MM + farther + height / 2
        above = around.top - GAP_MM - farther - height / 2
        right = around.right + GAP_MM + farther + width / 2
        left = around.left - GAP_MM - farther - width / 2
        inner_left, inner_right = around.left + width / 2, around.right - width / 2
        inner_top, inner_bottom = around.top + height / 2, around.bottom - height / 2
        middles = [(x, below), (x, above), (right, y), (left, y)]
        corners = [(a, b) for b in (below, above) for a in (inner_left, inner_right)]
        sides = [(a, b) for a in (right, left) for b in (inner_top, inner_bottom)]
        for at in (*middles, *corners, *sides):
            yield Box.centred(at, width, height)


def sides_first(around: Box, width: float, height: float) -> Iterator[Box]:
    """Yield places beside a strip, sliding along it, then above and below."""
    x, y = around.centre
    slide = (0.0, -height, height, -2 * height, 2 * height)
    for farther in FARTHER_MM:
        right = around.right + BESIDE_MM + farther + width / 2
        left = around.left - BESIDE_MM - farther - width / 2
        for shift in slide:
            for side in (right, left):
                yield Box.centred((side, y + shift), width, height)
        for level in (
            around.top - BESIDE_MM - farther - height / 2,
            around.bottom + BESIDE_MM + farther + height / 2,
        ):
            yield Box.centred((x, level), width, height)


def over_first(around: Box, width: float, height: float) -> Iterator[Box]:
    """Yield places above and below a strip, sliding along it, then beside it."""
    for box in sides_first(around.transposed(), height, width):
        yield box.transposed()
