"""The grid of tracks round two lugs, with what every run on it costs."""

from __future__ import annotations

import math
from bisect import bisect_left
from collections.abc import Iterable
from dataclasses import dataclass
from itertools import product

import numpy as np

from wirer.circuit.kind import Point
from wirer.circuit.model import split_lug
from wirer.layout.box import Box
from wirer.layout.footprint import Footprint
from wirer.layout.geometry import point_segment_distance
from wirer.layout.layer import running_costs
from wirer.layout.marks import joined, own_marks
from wirer.layout.scene import Scene
from wirer.layout.search import Gate, Node
from wirer.layout.tracks import LUG_CLEAR_MM, own_tracks, united, within

FAN_MM = 1.4
"""How far beside a shared lug a wire may leave it, by a slanting stub."""
MOST_NODES = 120_000
"""A larger grid is thinned to about so many nodes."""
AREA_EFFORT = 4
SLANT_COST_MM = 6.0
_SWAPPED_AREA = [1, 0, 3, 2, 4]


@dataclass(frozen=True, slots=True)
class Ends:
    """What a wire joins: the places it must reach, and the lugs and parts that are its own.

    A part is its own too when its lug lies on that part's body.
    `shared` are the places of lugs that take other wires too; it may leave them aslant.
    """

    places: tuple[Point, ...]
    lugs: frozenset[str]
    parts: tuple[str, ...]
    shared: tuple[Point, ...] = ()

    @property
    def jumper(self) -> bool:
        """Whether both ends are on one part."""
        return len(self.lugs) == 2 and len({split_lug(lug)[0] for lug in self.lugs}) == 1

    def lugs_of(self, part: str) -> frozenset[str]:
        """Return the names of its own lugs on a part."""
        return frozenset(name for p, name in map(split_lug, self.lugs) if p == part)


class Field:
    """The tracks in a window of the scene and what runs on them cost."""

    def __init__(self, scene: Scene, window: Box, ends: Ends, alone: bool = False) -> None:
        self.ends = ends
        self._scene = scene
        own = [scene.footprint(name) for name in dict.fromkeys(ends.parts)]
        sides_x, sides_y = (window.left, window.right), (window.top, window.bottom)
        self.xs = _tracks(scene.xs, sides_x, own, ends, 0)
        self.ys = _tracks(scene.ys, sides_y, own, ends, 1)
        nodes = len(self.xs) * len(self.ys)
        if nodes > MOST_NODES:
            every = math.ceil(math.sqrt(nodes / MOST_NODES))
            self.xs = _tracks(scene.xs, sides_x, own, ends, 0, every)
            self.ys = _tracks(scene.ys, sides_y, own, ends, 1, every)
        self._lugs = [
            at
            for each in own
            for name, at in each.lugs.items()
            if f"{each.part}.{name}" not in ends.lugs
        ]
        marks = joined(
            [
                *scene.marks_near(window, ends.parts, not alone),
                *(own_marks(each, ends.lugs_of(each.part), ends.jumper) for each in own),
            ]
        )
        self.effort = len(self.xs) * len(self.ys) + AREA_EFFORT * len(marks.areas)
        xs, ys = np.array(self.xs), np.array(self.ys)
        level = np.concatenate((marks.areas, marks.level_areas))[:, _SWAPPED_AREA]
        upright = np.concatenate((marks.areas, marks.upright_areas))
        self.level = running_costs(ys, xs, level, marks.level_cuts)
        self.upright = running_costs(xs, ys, upright, marks.upright_cuts)

    def node(self, point: Point) -> Node:
        """Return the node at a place that tracks were laid through."""
        return bisect_left(self.xs, point[0]), bisect_left(self.ys, point[1])

    def gates(self, point: Point) -> list[Gate]:
        """Return where a wire may leave a place: in line with it, or aslant from a shared lug."""
        gates = [Gate(self.node(point))]
        if point in self.ends.shared:
            for dx, dy in product((-FAN_MM, FAN_MM), repeat=2):
                corner = (point[0] + dx, point[1] + dy)
                if self._is_free(point, corner):
                    gates.append(Gate(self.node(corner), SLANT_COST_MM))
        return gates

    def _is_free(self, point: Point, corner: Point) -> bool:
        """Tell whether a slanting stub is clear of other lugs, and its end of other wires."""
        stub = (point, corner)
        if any(point_segment_distance(lug, stub) <= LUG_CLEAR_MM for lug in self._lugs):
            return False
        return not self._scene.bends_first_at(corner, Box(*point, *point))

    def points(self, nodes: Iterable[Node]) -> list[Point]:
        """Return where nodes lie."""
        return [(self.xs[column], self.ys[row]) for column, row in nodes]


def _tracks(
    common: list[float],
    sides: tuple[float, float],
    own: list[Footprint],
    ends: Ends,
    axis: int,
    every: int = 1,
) -> list[float]:
    exact = [place[axis] for place in ends.places]
    exact += [place[axis] + off for place in ends.shared for off in (-FAN_MM, FAN_MM)]
    for each in own:
        exact += within(own_tracks(each, axis), *sides)
    return united([sides[0], *within(common, *sides)[::every], sides[1]], exact)
