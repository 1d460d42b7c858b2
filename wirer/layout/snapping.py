"""Snapping what is dragged: in line with other parts' lugs and middles, else to a grid.

`Snapper` is made once when a drag begins; `snapped` is asked for every frame of it.
"""

from __future__ import annotations

from bisect import bisect_left
from collections import defaultdict
from collections.abc import Collection, Iterable, Iterator, Mapping
from dataclasses import dataclass
from typing import Literal

from wirer.circuit.kind import Point
from wirer.layout.placement import Placement

Axis = Literal[0, 1]
Unit = Literal["mm", "inch"]

MM_PER = {"mm": 1.0, "inch": 25.4}
SAME_MM = 1e-4


def grid_mm(step: float, unit: Unit) -> float:
    """Return the step of a grid in mm."""
    return step * MM_PER[unit]


@dataclass(frozen=True, slots=True)
class Guide:
    """A line to show: what is dragged and something else lie on it.

    `start` and `end` in mm; `points` are the lugs and middles on it, those dragged included.
    """

    start: Point
    end: Point
    points: tuple[Point, ...]


@dataclass(frozen=True, slots=True)
class Snapped:
    """How far to move from where the drag began, in mm, and the lines to show."""

    by: Point
    guides: tuple[Guide, ...] = ()


class _Levels:
    """Points by their place on one axis, to be found by nearness."""

    def __init__(self, points: Iterable[Point], axis: Axis) -> None:
        by_level: dict[float, list[Point]] = defaultdict(list)
        for point in dict.fromkeys(points):
            by_level[round(point[axis], 4)].append(point)
        self.values = sorted(by_level)
        self.points = by_level

    def nearest(self, value: float) -> float | None:
        """Return the level nearest to a value."""
        place = bisect_left(self.values, value)
        near = self.values[max(0, place - 1) : place + 1]
        return min(near, key=lambda level: abs(level - value), default=None)


class Snapper:
    """What some dragged parts can be brought in line with."""

    def __init__(self, dragged: Iterable[Placement], others: Iterable[Placement]) -> None:
        self._dragged = tuple(dragged)
        self._points = tuple(dict.fromkeys(_points(self._dragged)))
        still = tuple(_points(p for p in others if not p.underlay))
        self._levels = (_Levels(still, 0), _Levels(still, 1))
        self._own = tuple(sorted({round(p[axis], 4) for p in self._points}) for axis in (0, 1))

    @classmethod
    def of(cls, placements: Mapping[str, Placement], part_ids: Collection[str]) -> Snapper:
        """Return what parts of a circuit can be brought in line with: all the others."""
        dragged = [placements[name] for name in part_ids]
        return cls(dragged, (p for name, p in placements.items() if name not in part_ids))

    def snapped(
        self, by: Point, *, grid_mm: float = 0.0, reach_mm: float = 1.5, align: bool = True
    ) -> Snapped:
        """Return where a drag by so many mm ends.

        On each axis it ends in line with something within `reach_mm` (unless not `align`), else
        with the middle of the first dragged part on the grid (0: none), else where it is.
        """
        if not self._dragged:
            return Snapped(by)
        x, y = (self._axis(axis, by[axis], grid_mm, reach_mm if align else 0.0) for axis in (0, 1))
        end = (round(x, 4), round(y, 4))
        return Snapped(end, tuple(self._guides(end)) if align else ())

    def _axis(self, axis: int, by: float, grid_mm: float, reach_mm: float) -> float:
        best, least = None, reach_mm
        levels = self._levels[axis]
        for own in self._own[axis]:
            level = levels.nearest(own + by)
            if level is not None and abs(level - own - by) < least:
                best, least = level - own, abs(level - own - by)
        if best is not None:
            return best
        if grid_mm <= 0:
            return by
        begun = self._dragged[0].transform.at[axis]
        return round((begun + by) / grid_mm) * grid_mm - begun

    def _guides(self, by: Point) -> Iterator[Guide]:
        moved = [(x + by[0], y + by[1]) for x, y in self._points]
        for axis in (0, 1):
            levels = self._levels[axis]
            for own in self._own[axis]:
                level = levels.nearest(own + by[axis])
                if level is not None and abs(level - own - by[axis]) < SAME_MM:
                    yield _guide(axis, level, moved, levels.points[level])


def _guide(axis: int, level: float, moved: list[Point], still: list[Point]) -> Guide:
    along = 1 - axis
    moved = [p for p in moved if abs(p[axis] - level) < 2 * SAME_MM]
    points = sorted({*still, *moved}, key=lambda point: point[along])
    low, high = points[0][along], points[-1][along]
    ends = ((level, low), (level, high)) if axis == 0 else ((low, level), (high, level))
    return Guide(*ends, tuple(points))


def _points(placements: Iterable[Placement]) -> Iterator[Point]:
    """Yield the middle and the lugs of each placement."""
    for placement in placements:
        yield placement.transform.at
        yield from placement.lugs.values()
