"""The arrows that tell how shafts turn clockwise: their places on the part, free of its lugs."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache

from wirer.circuit.kind import Kind, Point
from wirer.circuit.model import Circuit
from wirer.layout.box import Box
from wirer.layout.transform import Transform

RADII_MM = (4.4, 6.2, 8.0)
LUG_ROOM_MM = 2.0
WORDS_BELOW_MM = 1.7
WORDS_MM = (2.6, 1.8)


@dataclass(frozen=True, slots=True)
class CwArrow:
    """The arrow below one shaft, in the part's frame; `words` is the place of its text."""

    at: Point
    radius: float

    @property
    def words(self) -> Point:
        """The middle of its text, below the arc."""
        return self.at[0], self.at[1] + self.radius + WORDS_BELOW_MM


@lru_cache(maxsize=256)
def cw_arrows(kind: Kind) -> tuple[CwArrow, ...]:
    """Return the arrows of a kind, each as near its shaft as leaves the lugs free."""
    arrows = []
    for at in dict.fromkeys(shaft.at for shaft in kind.shafts):
        tries = [CwArrow(at, radius) for radius in RADII_MM]
        free = (each for each in tries if all(_clear(each, lug.at) for lug in kind.lugs))
        arrows.append(next(free, tries[0]))
    return tuple(arrows)


def arrow_words(circuit: Circuit) -> Iterator[Box]:
    """Yield the room of the text at each arrow of a circuit, in the wiring view."""
    for part in circuit.parts:
        for arrow in cw_arrows(circuit.kind_of(part)):
            yield Box.centred(Transform.of(part).point(arrow.words), *WORDS_MM)


def _clear(arrow: CwArrow, lug: Point) -> bool:
    x, y = lug[0] - arrow.at[0], lug[1] - arrow.at[1]
    on_arc = y > 0 and abs(math.hypot(x, y) - arrow.radius) < LUG_ROOM_MM
    return not on_arc and math.dist(lug, arrow.words) > LUG_ROOM_MM
