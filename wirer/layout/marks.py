"""What parts, labels and drawn wires put in the way of a wire, as rows of numbers.

An area is (left, top, right, bottom, rate): a run that enters it costs `rate` mm more a mm. A cut
is (at, low, high): a run that passes the place `at` between `low` and `high` crosses a wire.
Rates are multiples of 1/256, so that sums of them are exact.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable
from dataclasses import dataclass
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from wirer.circuit.kind import Point
from wirer.layout.box import Box
from wirer.layout.footprint import Footprint
from wirer.layout.tracks import LUG_CLEAR_MM, SPACING_MM

Floats = NDArray[np.float64]
Row = tuple[float, ...]

BODY_RATE = 64.0
BODY_CLEAR_MM = 0.45
BODY_NEAR_RATE = 4.0
BODY_NEAR_MM = 1.0
OWN_BODY_RATE = 3.0
JUMPER_BODY_RATE = 0.25
UNDERLAY_RATE = 0.0625
LUG_RATE = 256.0
LUG_NEAR_RATE = 1.0
LUG_NEAR_MM = 2.1
STEM_CLEAR_MM = 1.3
LABEL_RATE = 8.0
FEATURE_RATE = 6.0
BESIDE_RATES = ((1.4, 1.0), (1.2, 2.0), (1.0, 3.0), (0.8, 4.0), (0.5, 54.0))
"""Half width of a band along a wire, and what is added in it: the nearer, the dearer."""


@dataclass(frozen=True, slots=True, eq=False)
class Marks:
    """Areas for runs of both directions, and areas and cuts for level and upright runs alone."""

    areas: Floats
    level_areas: Floats
    upright_areas: Floats
    level_cuts: Floats
    upright_cuts: Floats


def _marks(
    areas: Iterable[Row] = (),
    level_areas: Iterable[Row] = (),
    upright_areas: Iterable[Row] = (),
    level_cuts: Iterable[Row] = (),
    upright_cuts: Iterable[Row] = (),
) -> Marks:
    return Marks(
        *(np.array(list(rows)).reshape(-1, 5) for rows in (areas, level_areas, upright_areas)),
        *(np.array(list(rows)).reshape(-1, 3) for rows in (level_cuts, upright_cuts)),
    )


def joined(marks: Collection[Marks]) -> Marks:
    """Return several marks as one."""
    if not marks:
        return _marks()
    return Marks(
        np.concatenate([m.areas for m in marks]),
        np.concatenate([m.level_areas for m in marks]),
        np.concatenate([m.upright_areas for m in marks]),
        np.concatenate([m.level_cuts for m in marks]),
        np.concatenate([m.upright_cuts for m in marks]),
    )


def foreign_marks(part: Footprint) -> Marks:
    """Return what a part puts in the way of wires that do not end on it."""
    body = ((BODY_CLEAR_MM, BODY_RATE), (BODY_NEAR_MM, BODY_NEAR_RATE))
    return _part_marks(part, ((0.0, UNDERLAY_RATE),) if part.underlay else body, ())


def own_marks(part: Footprint, lugs: Collection[str], jumper: bool) -> Marks:
    """Return what a part puts in the way of a wire that ends on its `lugs`."""
    rate = JUMPER_BODY_RATE if jumper else OWN_BODY_RATE
    return _part_marks(part, ((0.0, UNDERLAY_RATE if part.underlay else rate),), lugs)


def _part_marks(
    part: Footprint, body: Iterable[tuple[float, float]], spared: Collection[str]
) -> Marks:
    """Return the marks of a body with (clearance, rate)s, of its features and unspared lugs.

    Level runs mind the body's rows and upright ones its columns, so that none minds it twice.
    """
    features = [_area(box, BODY_CLEAR_MM, FEATURE_RATE) for box in part.features]
    return _marks(
        areas=[*features, *_lug_areas(part, spared)],
        level_areas=[_area(row, *each) for each in body for row in part.rows],
        upright_areas=[_area(column, *each) for each in body for column in part.columns],
    )


def label_marks(box: Box) -> Marks:
    """Return what a label puts in the way."""
    return _marks([_area(box, 0.5, LABEL_RATE)])


def wire_marks(points: tuple[Point, ...]) -> Marks:
    """Return what a drawn wire puts in the way of others.

    Others keep off its line beyond its ends too, except at its lugs. What slants counts both as
    level and as upright, and others may run close by it.
    """
    level: list[_Run] = []
    upright: list[_Run] = []
    last = len(points) - 2
    for index, (a, b) in enumerate(pairwise(points)):
        guards = (0.0 if index == 0 else SPACING_MM, 0.0 if index == last else SPACING_MM)
        bands = BESIDE_RATES if a[0] == b[0] or a[1] == b[1] else BESIDE_RATES[-1:]
        if abs(a[1] - b[1]) <= abs(a[0] - b[0]):
            level.append(_run((a[1] + b[1]) / 2, (a[0], b[0]), guards, bands))
        if abs(a[0] - b[0]) <= abs(a[1] - b[1]):
            upright.append(_run((a[0] + b[0]) / 2, (a[1], b[1]), guards, bands))
    return _marks(
        level_areas=[
            (run.first, run.at - half, run.last, run.at + half, rate)
            for run in level
            for half, rate in run.bands
        ],
        upright_areas=[
            (run.at - half, run.first, run.at + half, run.last, rate)
            for run in upright
            for half, rate in run.bands
        ],
        level_cuts=[run.cut for run in upright],
        upright_cuts=[run.cut for run in level],
    )


@dataclass(frozen=True, slots=True)
class _Run:
    """A straight piece of a wire: `first` to `last` along it others keep off, within bands."""

    at: float
    low: float
    high: float
    first: float
    last: float
    bands: tuple[tuple[float, float], ...]

    @property
    def cut(self) -> Row:
        """Where it is crossed: not at its lugs, where others may end too."""
        low = self.low + (0.02 if self.first == self.low else 0.0)
        return self.at, low, self.high - (0.02 if self.last == self.high else 0.0)


def _run(
    at: float,
    ends: tuple[float, float],
    guards: tuple[float, float],
    bands: tuple[tuple[float, float], ...],
) -> _Run:
    (low, low_guard), (high, high_guard) = sorted(zip(ends, guards, strict=True))
    return _Run(at, low, high, low - low_guard, high + high_guard, bands)


def _area(box: Box, clearance: float, rate: float) -> Row:
    grown = box.grown(clearance + 0.005)
    return grown.left, grown.top, grown.right, grown.bottom, rate


def _lug_areas(part: Footprint, spared: Collection[str]) -> Iterable[Row]:
    for name, at in part.lugs.items():
        if name in spared:
            continue
        yield _area(Box(*at, *at), LUG_CLEAR_MM - 0.01, LUG_RATE)
        yield _area(Box(*at, *at), LUG_NEAR_MM, LUG_NEAR_RATE)
        if name in part.stems:
            yield _area(part.stems[name], STEM_CLEAR_MM, BODY_RATE)
