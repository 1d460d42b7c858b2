"""Everything that a wire has to mind, kept so that it is quick to ask for what lies near."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from wirer.circuit.kind import Point
from wirer.layout.box import Box
from wirer.layout.footprint import Footprint, footprint
from wirer.layout.geometry import segments_of
from wirer.layout.index import BoxIndex
from wirer.layout.layer import SPACING_MM
from wirer.layout.placement import Placement
from wirer.layout.route import Route
from wirer.layout.tracks import common_tracks

REACH_MM = 4.0


@dataclass(frozen=True, slots=True)
class Run:
    """One straight piece of a drawn wire; level if its y is constant.

    `at` is the constant coordinate; `low` and `high` are its ends, and `guard_low`, `guard_high`
    how far others must keep off along the line (farther than the ends except at a lug).
    """

    level: bool
    at: float
    low: float
    high: float
    guard_low: float
    guard_high: float


class Scene:
    """Parts, labels and the wires drawn so far."""

    def __init__(self, placements: Mapping[str, Placement]) -> None:
        self.footprints = {name: footprint(p) for name, p in placements.items()}
        self.parts: BoxIndex[Footprint] = BoxIndex()
        self.labels: BoxIndex[Box] = BoxIndex()
        for name, each in self.footprints.items():
            self.parts.add(placements[name].extent.grown(REACH_MM), each)
        self.xs = common_tracks(self.footprints.values(), 0)
        self.ys = common_tracks(self.footprints.values(), 1)
        self._runs: BoxIndex[tuple[Run, ...]] = BoxIndex()
        self._tickets: dict[str, int] = {}

    def draw(self, wire: str, route: Route) -> None:
        """Add a wire's course (in place of its earlier one)."""
        self.wipe(wire)
        self._tickets[wire] = self._runs.add(
            route.box.grown(REACH_MM), tuple(runs_of(route.points))
        )

    def wipe(self, wire: str) -> None:
        """Take a wire's course out, if it is there."""
        ticket = self._tickets.pop(wire, None)
        if ticket is not None:
            self._runs.remove(ticket)

    def runs_near(self, box: Box) -> Iterable[Run]:
        """Yield the straight pieces of the wires that come near a box."""
        for runs in self._runs.near(box):
            yield from runs


def runs_of(points: tuple[Point, ...]) -> Iterable[Run]:
    """Yield the level and upright pieces of a polyline; slanting ones count as both."""
    last = len(points) - 2
    for index, ((ax, ay), (bx, by)) in enumerate(segments_of(points)):
        before = 0.0 if index == 0 else SPACING_MM
        after = 0.0 if index == last else SPACING_MM
        if abs(ay - by) <= abs(ax - bx):
            yield _run(True, (ay + by) / 2, (ax, before), (bx, after))
        if abs(ax - bx) <= abs(ay - by):
            yield _run(False, (ax + bx) / 2, (ay, before), (by, after))


def _run(level: bool, at: float, start: tuple[float, float], end: tuple[float, float]) -> Run:
    (low, low_guard), (high, high_guard) = sorted((start, end))
    return Run(level, at, low, high, low - low_guard, high + high_guard)
