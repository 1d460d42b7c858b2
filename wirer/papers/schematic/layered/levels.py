"""The heights of all stations, so that wires run straight and short and nothing overlaps."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from dataclasses import dataclass, field

from wirer.papers.schematic.layered.graph import LEFT, RIGHT, LayeredGraph, Node
from wirer.papers.schematic.layered.ordering import Ordering
from wirer.papers.schematic.layered.tension import Tension

CLEARANCE = 2
STRAIGHT_WEIGHT = 30
BRANCH_WEIGHT = 3
LEVEL_WEIGHT = 12
STRETCH_WEIGHT = 1
NEARLY = 3
"""Ends of a branching net that differ by no more steps had better be level."""

ROUNDS = 4

BUDGET = 400_000
"""How many places are looked at before the heights are taken as they are."""

_THROUGH = Node(())


def levels_of(graph: LayeredGraph, ordering: Ordering) -> dict[int, list[int]]:
    """Return the height of every station of every node and passage, by vertex."""
    tension = Tension()
    places: dict[int, list[int]] = {}
    for row in ordering.order[1::2]:
        _stack(tension, graph, row, places)
    wires = _wires(graph, ordering, places)
    for weight, left, right in wires:
        tension.span(weight, [(place, 0) for place in left + right])
    _flatten(tension, ordering, places)
    found = tension.solve(BUDGET)
    level: set[tuple[int, int]] = set()
    for _ in range(ROUNDS):
        pairs = {pair for _, left, right in wires for pair in _nearly_level(left, right, found)}
        for pair in sorted(pairs - level):
            tension.span(LEVEL_WEIGHT, [(place, 0) for place in pair])
        if pairs <= level:
            break
        level |= pairs
        found = tension.solve(BUDGET)
    return {vertex: [found[place] for place in own] for vertex, own in places.items()}


def node_of(graph: LayeredGraph, vertex: int) -> Node:
    """Return the node of a vertex; a passage has no size."""
    return graph.nodes[vertex] if vertex < len(graph.nodes) else _THROUGH


def _stack(
    tension: Tension,
    graph: LayeredGraph,
    row: list[int],
    places: dict[int, list[int]],
) -> None:
    """Put the vertices of a layer below one another, about the middle."""
    nodes = [node_of(graph, vertex) for vertex in row]
    y = -(sum(node.height for node in nodes) + CLEARANCE * (len(nodes) - 1)) // 2
    before: tuple[int, int] | None = None
    for vertex, node in zip(row, nodes, strict=True):
        y += node.above
        own = [tension.add(y)]
        for gap in node.gaps:
            y += gap.least
            own.append(tension.add(y))
            tension.keep(own[-2], own[-1], gap.least)
            if gap.most is not None:
                tension.keep(own[-1], own[-2], -gap.most)
            if not gap.rigid:
                tension.pull(own[-2], own[-1], STRETCH_WEIGHT)
        if before is not None:
            tension.keep(before[0], own[0], before[1] + CLEARANCE + node.above)
        before = own[-1], node.below
        places[vertex] = own
        y += node.below + CLEARANCE


def _wires(
    graph: LayeredGraph, ordering: Ordering, places: dict[int, list[int]]
) -> list[tuple[int, list[int], list[int]]]:
    """Return for each net of each channel how it is to be pulled, and its stations by bank."""
    left: dict[tuple[int, int], list[int]] = defaultdict(list)
    right: dict[tuple[int, int], list[int]] = defaultdict(list)
    through: dict[tuple[int, int], int] = defaultdict(int)
    for vertex, own in places.items():
        layer = ordering.rows.row[vertex] // 2
        if vertex in ordering.rows.passages:
            before, after = ordering.rows.passages[vertex]
            right[before, layer] += own
            left[after, layer + 1] += own
            through[before, layer] += 1
            through[after, layer + 1] += 1
            continue
        for port in graph.nodes[vertex].ports:
            bank, channel = (left, layer + 1) if port.side == RIGHT else (right, layer)
            bank[port.net, channel].append(own[port.station])
    return [
        (
            STRAIGHT_WEIGHT + through[key]
            if len(left[key]) == len(right[key]) == 1
            else BRANCH_WEIGHT,
            left[key],
            right[key],
        )
        for key in sorted({*left, *right})
    ]


def _nearly_level(left: list[int], right: list[int], found: list[int]) -> Iterator[tuple[int, int]]:
    """Yield pairs of a branching net's ends that are all but level.

    At its top and its foot that saves a bend, elsewhere it makes one dot of two that all but meet.
    """
    if len(left) + len(right) < 3 or not left or not right:
        return
    for extreme in (min, max):
        one = extreme(left, key=found.__getitem__)
        other = extreme(right, key=found.__getitem__)
        if abs(found[one] - found[other]) <= NEARLY:
            yield one, other
    for one in left:
        yield from ((one, other) for other in right if abs(found[one] - found[other]) <= 1)


def _flatten(tension: Tension, ordering: Ordering, places: dict[int, list[int]]) -> None:
    """Wish all layers to be no higher than they need be."""
    rows = [row for row in ordering.order[1::2] if row]
    outer = [places[row[0]][0] for row in rows] + [places[row[-1]][-1] for row in rows]
    tension.span(1, [(place, 0) for place in outer])


@dataclass(slots=True)
class Ends:
    """Where a net ends in a channel: (vertex, height) at its left and at its right bank."""

    left: list[tuple[int, int]] = field(default_factory=list)
    right: list[tuple[int, int]] = field(default_factory=list)

    @property
    def heights(self) -> tuple[list[int], list[int]]:
        """The heights at both banks."""
        return [y for _, y in self.left], [y for _, y in self.right]


def channel_ends(
    graph: LayeredGraph, ordering: Ordering, levels: dict[int, list[int]]
) -> list[dict[int, Ends]]:
    """Return for each channel the nets in it with their ends."""
    channels: list[dict[int, Ends]] = [defaultdict(Ends) for _ in range(graph.layers + 1)]
    for vertex, own in levels.items():
        layer = ordering.rows.row[vertex] // 2
        if vertex in ordering.rows.passages:
            before, after = ordering.rows.passages[vertex]
            channels[layer][before].right.append((vertex, own[0]))
            channels[layer + 1][after].left.append((vertex, own[0]))
            continue
        for port in graph.nodes[vertex].ports:
            end = (vertex, own[port.station])
            if port.side == LEFT:
                channels[layer][port.net].right.append(end)
            else:
                channels[layer + 1][port.net].left.append(end)
    return channels


def lowered(ordering: Ordering, levels: dict[int, list[int]], channel: int, height: int) -> None:
    """Lower by a step what is at a height on the right bank of a channel, and all below it."""
    row = ordering.order[2 * channel + 1]
    index = next(i for i, vertex in enumerate(row) if height in levels[vertex])
    for vertex in row[index:]:
        levels[vertex] = [y + 1 for y in levels[vertex]]
