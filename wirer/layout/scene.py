"""Everything that a wire has to mind, kept so that it is quick to ask for what lies near."""

from __future__ import annotations

from collections.abc import Mapping

from wirer.circuit.kind import Point
from wirer.layout.box import Box, boxes_union
from wirer.layout.footprint import Footprint, footprint
from wirer.layout.index import BoxIndex
from wirer.layout.marks import Marks, foreign_marks, label_marks, wire_marks
from wirer.layout.placement import Placement
from wirer.layout.route import Route
from wirer.layout.tracks import common_tracks

REACH_MM = 4.0


class Scene:
    """Parts, labels and the wires drawn so far."""

    def __init__(self, placements: Mapping[str, Placement]) -> None:
        self.footprints = {name: footprint(p) for name, p in placements.items()}
        self.xs = common_tracks(self.footprints.values(), 0)
        self.ys = common_tracks(self.footprints.values(), 1)
        self._parts: BoxIndex[tuple[str, Marks]] = BoxIndex()
        self._labels: BoxIndex[tuple[Box, Marks]] = BoxIndex()
        self._wires: BoxIndex[tuple[str, Marks]] = BoxIndex()
        self._tickets: dict[str, int] = {}
        self._corners: dict[str, set[Point]] = {}
        for name, each in self.footprints.items():
            around = boxes_union([placements[name].extent, *each.features])
            self._parts.add(around.grown(REACH_MM), (name, foreign_marks(each)))

    def footprint(self, part: str) -> Footprint:
        """Return what a part covers."""
        return self.footprints[part]

    def label(self, box: Box) -> None:
        """Keep wires off a label."""
        self._labels.add(box, (box, label_marks(box)))

    def draw(self, wire: str, route: Route) -> None:
        """Add a wire's course (in place of its earlier one)."""
        self.wipe(wire)
        marks = wire_marks(route.points)
        self._tickets[wire] = self._wires.add(route.box.grown(REACH_MM), (wire, marks))
        self._corners[wire] = {route.points[1], route.points[-2]}

    def wipe(self, wire: str) -> None:
        """Take a wire's course out, if it is there."""
        self._corners.pop(wire, None)
        ticket = self._tickets.pop(wire, None)
        if ticket is not None:
            self._wires.remove(ticket)

    def marks_near(self, box: Box, spared: tuple[str, ...], with_wires: bool = True) -> list[Marks]:
        """Return what lies near a box, but for the spared parts."""
        parts = [marks for name, marks in self._parts.near(box) if name not in spared]
        wires = [marks for _, marks in self._wires.near(box)] if with_wires else []
        labels = [marks for _, marks in self._labels.near(box)]
        return [*parts, *labels, *wires]

    def parts_near(self, box: Box) -> list[str]:
        """Return the parts that lie near a box."""
        return [name for name, _ in self._parts.near(box)]

    def labels_near(self, box: Box) -> list[Box]:
        """Return the labels that lie near a box."""
        return [label for label, _ in self._labels.near(box)]

    def bends_first_at(self, point: Point, near: Box) -> bool:
        """Tell whether a wire near a box has its first or last bend at a place."""
        return any(point in self._corners[wire] for wire in self.wires_near(near))

    def wires_near(self, box: Box) -> list[str]:
        """Return the wires that come near a box."""
        return [name for name, _ in self._wires.near(box)]
