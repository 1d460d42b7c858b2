"""From an order to places: heights, tracks, the axes of layers, the lines of nets."""

from __future__ import annotations

from wirer.papers.schematic.layered.channels import Clash, Tracks, tracks_of
from wirer.papers.schematic.layered.graph import LayeredGraph, Line, Placement
from wirer.papers.schematic.layered.levels import (
    Ends,
    channel_ends,
    levels_of,
    lowered,
    node_of,
)
from wirer.papers.schematic.layered.ordering import Ordering

PITCH = 2
"""How far tracks keep from each other and from the layers."""

MOST_NUDGES = 12


def placed(graph: LayeredGraph, ordering: Ordering) -> Placement:
    """Return where the nodes of a graph lie in a given order, and the lines of its nets."""
    levels = levels_of(graph, ordering)
    tracks = [_routed(graph, ordering, levels, channel) for channel in range(graph.layers + 1)]
    axes, banks = _across(graph, tracks)
    lines: list[Line] = []
    for channel, nets in enumerate(channel_ends(graph, ordering, levels)):
        for net, ends in nets.items():
            left = [(axes[channel - 1] + node_of(graph, v).right, y) for v, y in ends.left]
            right = [(axes[channel] - node_of(graph, v).left, y) for v, y in ends.right]
            track = tracks[channel].of.get(net)
            trunk = None if track is None else banks[channel] + PITCH * (track + 1)
            whole = graph.strands.get(net, net)
            lines += [(whole, *line) for line in _lines(left, right, trunk)]
    return Placement(axes, [tuple(levels[v]) for v in range(len(graph.nodes))], lines)


def _routed(
    graph: LayeredGraph, ordering: Ordering, levels: dict[int, list[int]], channel: int
) -> Tracks:
    """Return the tracks of a channel; where nets clash, what lies right of it is lowered a step.

    Lowering a layer past all ends of the one before it leaves nothing to clash, so this ends.
    """
    nudges = 0
    while True:
        ends: dict[int, Ends] = channel_ends(graph, ordering, levels)[channel]
        tracks = tracks_of({net: own.heights for net, own in ends.items()})
        if not isinstance(tracks, Clash):
            return tracks
        nudges += 1
        if nudges <= MOST_NUDGES:
            lowered(ordering, levels, channel, tracks.height)
        else:
            for row in ordering.order[2 * channel + 1 :: 2]:
                for vertex in row:
                    levels[vertex] = [y + 1 for y in levels[vertex]]


def _across(graph: LayeredGraph, tracks: list[Tracks]) -> tuple[list[int], list[int]]:
    """Return the axis of each layer, and the left bank of each channel."""
    axes: list[int] = []
    banks: list[int] = []
    x = 0
    for layer in range(graph.layers):
        nodes = [node for node, own in zip(graph.nodes, graph.layer, strict=True) if own == layer]
        banks.append(x)
        x += PITCH * (tracks[layer].count + 1) if layer or tracks[layer].count else 0
        x += max((node.left for node in nodes), default=0)
        axes.append(x)
        x += max((node.right for node in nodes), default=0)
    banks.append(x)
    return axes, banks


def _lines(
    left: list[tuple[int, int]], right: list[tuple[int, int]], trunk: int | None
) -> list[tuple[int, int, int, int]]:
    """Return the lines (x1, y1, x2, y2) of a net in a channel."""
    if trunk is None:
        (x1, y), (x2, _) = left[0], right[0]
        return [(x1, y, x2, y)]
    lines = [(x, y, trunk, y) for x, y in left] + [(trunk, y, x, y) for x, y in right]
    heights = [y for _, y in left + right]
    return [*lines, (trunk, min(heights), trunk, max(heights))]


def merit(placement: Placement) -> tuple[int, int, int]:
    """Return how many wires cross, how many uprights they have, and how long they are."""
    level = [line for line in placement.lines if line[2] == line[4]]
    upright = [line for line in placement.lines if line[2] != line[4]]
    crossings = {
        (x, y)
        for net, x, y1, _, y2 in upright
        for other, x1, y, x2, _ in level
        if net != other and min(x1, x2) < x < max(x1, x2) and y1 < y < y2
    }
    length = sum(abs(x1 - x2) + abs(y1 - y2) for _, x1, y1, x2, y2 in placement.lines)
    return len(crossings), len(upright), length
