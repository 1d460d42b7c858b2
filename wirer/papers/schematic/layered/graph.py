"""What a layered layout is made of: nodes with ports at stations, and the nets of the ports.

Lengths are whole steps of a grid, x to the right and y down. A node lies about an upright axis; its
stations are heights on it, from top to bottom, at which ports lead out to the left or the right.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

LEFT, RIGHT = -1, 1


@dataclass(frozen=True, slots=True)
class Port:
    """Where a net leaves a node: at a station, to the `LEFT` or the `RIGHT`."""

    net: int
    station: int
    side: int


@dataclass(frozen=True, slots=True)
class Gap:
    """The distance between a station and the one above it: at least, and at most where bounded."""

    least: int
    most: int | None = None

    @property
    def rigid(self) -> bool:
        """Whether it can't be stretched."""
        return self.most == self.least


@dataclass(frozen=True, slots=True)
class Node:
    """What takes up room in a layer.

    `gaps` lie between its stations. It reaches `above` the first and `below` the last, and `left`
    and `right` of its axis.
    """

    ports: tuple[Port, ...]
    gaps: tuple[Gap, ...] = ()
    above: int = 0
    below: int = 0
    left: int = 0
    right: int = 0

    @property
    def stations(self) -> int:
        """How many stations it has."""
        return len(self.gaps) + 1

    @property
    def height(self) -> int:
        """Its least height."""
        return self.above + sum(gap.least for gap in self.gaps) + self.below


@dataclass(frozen=True)
class LayeredGraph:
    """Nodes by number with the layer of each, and how many layers there are.

    `strands` are nets that go through one layer by themselves and there join another net.
    """

    nodes: tuple[Node, ...]
    layer: tuple[int, ...]
    layers: int
    strands: Mapping[int, int] = field(default_factory=dict)


Line = tuple[int, int, int, int, int]
"""A net and an upright or level line of it: (net, x1, y1, x2, y2)."""


@dataclass(frozen=True)
class Placement:
    """Where things lie: the axis of each layer, each node's stations, and the lines of nets."""

    axes: list[int]
    stations: list[tuple[int, ...]]
    lines: list[Line]
