"""The grid of tracks round two lugs, with what every edge of it costs."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterable
from dataclasses import dataclass

from wirer.circuit.kind import Point
from wirer.layout.box import Box
from wirer.layout.footprint import Footprint
from wirer.layout.layer import Layer
from wirer.layout.scene import Scene
from wirer.layout.search import Node
from wirer.layout.tracks import LUG_CLEAR_MM, own_tracks, united, within

BODY_RATE = 64.0
BODY_CLEAR_MM = 0.45
BODY_NEAR_RATE = 4.0
BODY_NEAR_MM = 1.0
OWN_BODY_RATE = 2.0
JUMPER_BODY_RATE = 0.25
UNDERLAY_RATE = 0.0625
LUG_RATE = 256.0
LUG_NEAR_RATE = 1.0
LUG_NEAR_MM = 2.1
STEM_CLEAR_MM = 1.3
LABEL_RATE = 4.0


@dataclass(frozen=True, slots=True)
class Ends:
    """What a wire joins: the places it must reach, and the lugs and parts that are its own."""

    places: tuple[Point, ...]
    lugs: frozenset[str]
    parts: tuple[str, ...]

    @property
    def jumper(self) -> bool:
        """Whether both ends are on one part."""
        return len(self.lugs) == 2 and len(set(self.parts)) == 1


class Field:
    """The layers of a window of the scene."""

    def __init__(self, scene: Scene, window: Box, ends: Ends) -> None:
        own = [scene.footprints[name] for name in dict.fromkeys(ends.parts)]
        self.window = window
        self.xs = self._tracks(scene.xs, own, ends.places, 0)
        self.ys = self._tracks(scene.ys, own, ends.places, 1)
        self.rows, self.columns = Layer(self.ys, self.xs), Layer(self.xs, self.ys)
        for each in scene.parts.near(window):
            self._add_body(each, ends)
            self._add_lugs(each, ends)
        for box in scene.labels.near(window):
            self._block(box, LABEL_RATE)
        self._add_wires(scene)

    def node(self, point: Point) -> Node:
        """Return the node at a place that tracks were laid through."""
        return bisect_left(self.xs, point[0]), bisect_left(self.ys, point[1])

    def points(self, nodes: Iterable[Node]) -> list[Point]:
        """Return where nodes lie."""
        return [(self.xs[column], self.ys[row]) for column, row in nodes]

    def _tracks(
        self, common: list[float], own: list[Footprint], places: tuple[Point, ...], axis: int
    ) -> list[float]:
        box = self.window
        low, high = (box.left, box.right) if axis == 0 else (box.top, box.bottom)
        exact = [place[axis] for place in places]
        for each in own:
            exact += within(own_tracks(each, axis), low, high)
        return united([low, *within(common, low, high), high], exact)

    def _block(self, box: Box, rate: float) -> None:
        self.rows.block((box.top, box.bottom), (box.left, box.right), rate)
        self.columns.block((box.left, box.right), (box.top, box.bottom), rate)

    def _block_body(self, each: Footprint, clearance: float, rate: float) -> None:
        if each.rows is None or each.columns is None:
            self._block(each.box.grown(clearance), rate)
        else:
            self.rows.block_spans(each.rows, clearance, rate)
            self.columns.block_spans(each.columns, clearance, rate)

    def _add_body(self, each: Footprint, ends: Ends) -> None:
        if each.underlay:
            self._block_body(each, 0.0, UNDERLAY_RATE)
        elif each.part in ends.parts:
            self._block_body(each, 0.0, JUMPER_BODY_RATE if ends.jumper else OWN_BODY_RATE)
        else:
            self._block_body(each, BODY_CLEAR_MM, BODY_RATE)
            self._block_body(each, BODY_NEAR_MM, BODY_NEAR_RATE)

    def _add_lugs(self, each: Footprint, ends: Ends) -> None:
        for name, at in each.lugs.items():
            if f"{each.part}.{name}" in ends.lugs:
                continue
            self._block(Box.centred(at, 2 * LUG_CLEAR_MM, 2 * LUG_CLEAR_MM), LUG_RATE)
            self._block(Box.centred(at, 2 * LUG_NEAR_MM, 2 * LUG_NEAR_MM), LUG_NEAR_RATE)
            if name in each.stems:
                self._block(each.stems[name].grown(STEM_CLEAR_MM), BODY_RATE)

    def _add_wires(self, scene: Scene) -> None:
        for run in scene.runs_near(self.window):
            along, over = (self.rows, self.columns) if run.level else (self.columns, self.rows)
            along.beside(run.at, run.guard_low, run.guard_high)
            over.across_wire(run.at, run.low, run.high)
