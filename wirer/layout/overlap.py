"""Which bodies collide."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from wirer.layout.geometry import polygons_meet
from wirer.layout.placement import Placement


def overlapping_parts(placements: Mapping[str, Placement]) -> tuple[tuple[str, str], ...]:
    """Return the pairs of part ids whose bodies lie on one another, each pair in part order.

    What lies under the others by its kind (foil, plate) collides with nothing. Bodies that only
    touch do not collide. A sweep over x: O(n log n) plus the pairs that lie over each other in x.
    """
    order = {part: index for index, part in enumerate(placements)}
    pairs = (
        (first.part, second.part)
        for first, second in _near_pairs(placements)
        if polygons_meet(first.body, second.body)
    )
    return tuple(
        sorted(
            ((a, b) if order[a] < order[b] else (b, a) for a, b in pairs),
            key=lambda pair: (order[pair[0]], order[pair[1]]),
        )
    )


def _near_pairs(placements: Mapping[str, Placement]) -> Iterator[tuple[Placement, Placement]]:
    """Yield the pairs whose boxes meet."""
    solid = [p for p in placements.values() if not p.underlay]
    solid.sort(key=lambda p: p.body_box.left)
    active: list[Placement] = []
    for placement in solid:
        active = [p for p in active if p.body_box.right > placement.body_box.left]
        for other in active:
            if other.body_box.meets(placement.body_box):
                yield other, placement
        active.append(placement)
