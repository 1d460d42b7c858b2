"""What lies under a point of the wiring view. Free of Qt; places are in mm."""

from __future__ import annotations

import math
from dataclasses import dataclass

from wirer.circuit.kind import Kind, Point, Shaft
from wirer.circuit.model import Circuit, Part
from wirer.layout.box import Box
from wirer.layout.geometry import point_segment_distance, segments_of
from wirer.layout.index import BoxIndex
from wirer.layout.layout import Layout
from wirer.window.operate import GRIP_MARGIN_MM, grips, shaft_at

LUG_REACH_MM = 1.4
WIRE_REACH_MM = 0.7


@dataclass(frozen=True)
class Spot:
    """A part under a point, with the point in the part's own frame."""

    part: Part
    kind: Kind
    point: Point


class Targets:
    """Finds lugs, wires, grips, shafts and bodies; `reach` widens what is small on the screen."""

    def __init__(self, circuit: Circuit, layout: Layout) -> None:
        self._circuit = circuit
        self._layout = layout
        self._parts: BoxIndex[str] = BoxIndex()
        self._wires: BoxIndex[str] = BoxIndex()
        self._lugs: BoxIndex[str] = BoxIndex()
        for part_id, placement in layout.placements.items():
            kind = circuit.kind_of(circuit.part_by_id[part_id])
            self._parts.add(placement.extent.grown(_overhang(kind)), part_id)
        for wire_id, route in layout.routes.items():
            self._wires.add(route.box, wire_id)
        for lug, at in layout.lugs.items():
            self._lugs.add(Box(*at, *at), lug)

    def lug(self, point: Point, reach: float = 0.0) -> str | None:
        """Return the nearest lug."""
        reach = max(reach, LUG_REACH_MM)
        lugs = self._layout.lugs
        near = [(math.dist(lugs[lug], point), lug) for lug in self._lugs.near(_box(point, reach))]
        distance, lug = min(near, default=(math.inf, None))
        return lug if distance <= reach else None

    def wire(self, point: Point, reach: float = 0.0) -> str | None:
        """Return the nearest wire."""
        reach = max(reach, WIRE_REACH_MM)
        near = [(self._distance(w, point), w) for w in self._wires.near(_box(point, reach))]
        distance, wire = min(near, default=(math.inf, None))
        return wire if distance <= reach else None

    def grip(self, point: Point) -> Spot | None:
        """Return the switch whose actuator is taken there."""
        spots = (spot for spot in self._spots(point) if grips(spot.kind, spot.point))
        return next(spots, None)

    def choice(self, point: Point) -> tuple[str, str] | None:
        """Return the part and the position whose written name stands there."""
        for part_id, choices in self._layout.labels.choices.items():
            for choice in choices:
                if choice.label.box.holds(point):
                    return part_id, choice.position
        return None

    def shaft(self, point: Point) -> tuple[Spot, Shaft] | None:
        """Return the shaft that a hand would turn there."""
        for spot in self._spots(point):
            shaft = shaft_at(spot.kind, spot.point)
            if shaft:
                return spot, shaft
        return None

    def part(self, point: Point) -> str | None:
        """Return the part whose body or lugs lie there, what lies flat under others last."""
        found = [
            part_id
            for part_id in self._parts.near(_box(point, 0.0))
            if self._layout.placements[part_id].extent.holds(point)
        ]
        return min(found, key=lambda p: self._layout.placements[p].underlay, default=None)

    def _spots(self, point: Point) -> list[Spot]:
        parts = [self._circuit.part_by_id[p] for p in self._parts.near(_box(point, 0.0))]
        return [
            Spot(
                part,
                self._circuit.kind_of(part),
                self._layout.placements[part.id].transform.back(point),
            )
            for part in parts
        ]

    def _distance(self, wire: str, point: Point) -> float:
        points = self._layout.routes[wire].points
        return min(point_segment_distance(point, segment) for segment in segments_of(points))


def _overhang(kind: Kind) -> float:
    """Return by how much a part's grip may stand out of its extent."""
    if kind.actuator is None:
        return 0.0
    x, y, width, height = kind.actuator.grip
    return math.hypot(abs(x) + width / 2, abs(y) + height / 2) + GRIP_MARGIN_MM


def _box(point: Point, reach: float) -> Box:
    return Box(point[0] - reach, point[1] - reach, point[0] + reach, point[1] + reach)
