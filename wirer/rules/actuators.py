"""What a single actuator decides."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations

import numpy as np

from wirer.analysis.facts import Mask
from wirer.analysis.switches import position_groups
from wirer.rules.inspection import Inspection


def as_cube(inspection: Inspection, rows: Mask) -> Mask:
    """Return a mask over settings (settings, …) with an axis for each actuator."""
    sizes = [len(choices) for choices in inspection.table.positions.values()]
    return rows.reshape([*sizes, *rows.shape[1:]])


def decides(inspection: Inspection, rows: Mask) -> str | None:
    """Return the actuator that alone decides whether something holds, or None."""
    cube = as_cube(inspection, rows)
    for axis, part in enumerate(inspection.table.positions):
        others = tuple(a for a in range(cube.ndim) if a != axis)
        always, ever = cube.all(axis=others), cube.any(axis=others)
        if np.array_equal(always, ever) and ever.any() and not ever.all():
            return part
    return None


def slices(inspection: Inspection, part: str) -> Iterator[tuple[str, np.ndarray]]:
    """Yield each position of an actuator with the rows of the table in it, in like order."""
    positions = inspection.table.positions
    axis = list(positions).index(part)
    rows = np.arange(len(inspection.table)).reshape([len(c) for c in positions.values()])
    for place, choice in enumerate(positions[part]):
        yield choice, np.take(rows, place, axis).reshape(-1)


def like_positions(inspection: Inspection, part: str) -> Iterator[tuple[str, str]]:
    """Yield the pairs of an actuator's positions that give the same whatever the others do."""
    same_as = inspection.table.same_as
    for (first, rows), (second, others) in combinations(slices(inspection, part), 2):
        if np.array_equal(same_as[rows], same_as[others]):
            yield first, second


def deciding(inspection: Inspection, rows: Mask) -> tuple[str, ...]:
    """Return the actuators that have a say in whether something holds."""
    cube = as_cube(inspection, rows)
    said = []
    for axis, part in enumerate(inspection.table.positions):
        first = np.take(cube, [0], axis)
        if not np.array_equal(np.broadcast_to(first, cube.shape), cube):
            said.append(part)
    return tuple(said)


def contacts(inspection: Inspection, part: str, first: str, second: str) -> tuple[str, ...]:
    """Return the wired lugs that are joined in one of two positions and not in the other."""
    groups = position_groups(inspection.circuit, inspection.part(part))
    pairs = [{frozenset((a, b)) for g in groups[p] for a in g for b in g} for p in (first, second)]
    lugs = sorted({lug for pair in pairs[0] ^ pairs[1] for lug in pair})
    return tuple(lug for lug in lugs if inspection.wires_at[lug])
