"""Rows of vertices whose order decides the crossings: layers of nodes, and channels of hubs.

Row 2l + 1 has the nodes of layer l and the passages of nets that go through it; row 2c has a hub
for each net of channel c, which lies left of layer c. A hub is where a net branches. Then every
connection is between neighbouring rows, nets of many ends and of one side included.
"""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass, field, replace

from wirer.papers.schematic.layered.graph import LEFT, RIGHT, LayeredGraph, Node

STRANDS = 10**6
"""Strands are numbered from here, beyond all nets."""


@dataclass(slots=True)
class Rows:
    """The vertices of a graph in rows, with what each is joined to on both sides.

    Vertices are numbers: first the nodes of the graph, then passages, then hubs. By vertex and
    side, `ports` has the hubs at the ports of a node or passage from top to bottom, and `joined`
    the (vertex, place among its ports) that a hub joins. `passages` gives the nets left and right
    of each passage, `hubs` the vertex of each (net, channel).
    """

    graph: LayeredGraph
    rows: list[list[int]]
    row: list[int] = field(default_factory=list)
    passages: dict[int, tuple[int, int]] = field(default_factory=dict)
    hubs: dict[tuple[int, int], int] = field(default_factory=dict)
    ports: dict[tuple[int, int], list[int]] = field(default_factory=dict)
    joined: dict[tuple[int, int], list[tuple[int, int]]] = field(
        default_factory=lambda: defaultdict(list)
    )

    def add(self, row: int) -> int:
        """Add a vertex at the end of a row and return its number."""
        self.rows[row].append(len(self.row))
        self.row.append(row)
        return len(self.row) - 1

    def nets(self, vertex: int, side: int) -> list[int]:
        """Return the nets at the ports of a node or passage on one side, from top to bottom."""
        if vertex in self.passages:
            return [self.passages[vertex][side == RIGHT]]
        return side_nets(self.graph.nodes[vertex], side)


def rows_of(graph: LayeredGraph) -> Rows:
    """Return the rows of a graph, each in the order of its nodes' numbers."""
    rows = Rows(graph, [[] for _ in range(2 * graph.layers + 1)])
    for layer in graph.layer:
        rows.add(2 * layer + 1)
    channels = net_channels(graph)
    for net, own in sorted(channels.items()):
        for layer in range(min(own), max(own)):
            rows.passages[rows.add(2 * layer + 1)] = (net, net)
    for strand, net in graph.strands.items():
        (layer,) = channels[strand]
        rows.passages[rows.add(2 * layer + 1)] = (strand, net)
    for vertex in range(len(rows.row)):
        layer = rows.row[vertex] // 2
        _join(rows, vertex, LEFT, layer)
        _join(rows, vertex, RIGHT, layer + 1)
    return rows


def _join(rows: Rows, vertex: int, side: int, channel: int) -> None:
    hubs = []
    for place, net in enumerate(rows.nets(vertex, side)):
        if (net, channel) not in rows.hubs:
            rows.hubs[net, channel] = rows.add(2 * channel)
        hub = rows.hubs[net, channel]
        hubs.append(hub)
        rows.joined[hub, -side].append((vertex, place))
    rows.ports[vertex, side] = hubs


def side_nets(node: Node, side: int) -> list[int]:
    """Return the nets at the ports of a node on one side, from top to bottom."""
    return [p.net for p in sorted(node.ports, key=lambda p: p.station) if p.side == side]


def net_channels(graph: LayeredGraph) -> dict[int, set[int]]:
    """Return the channels in which each net has ports; channel c lies left of layer c."""
    channels: dict[int, set[int]] = defaultdict(set)
    for node, layer in zip(graph.nodes, graph.layer, strict=True):
        for port in node.ports:
            channels[port.net].add(layer + (port.side == RIGHT))
    for strand, net in graph.strands.items():
        channels[net].update(channel + 1 for channel in channels[strand])
    return channels


def parted(graph: LayeredGraph, net: int) -> LayeredGraph | None:
    """Return the graph with a net whose ends on a left bank go on singly and join a layer later.

    None where it has not several ends in its first channel, all on the left bank, and others later.
    """
    first = min(net_channels(graph)[net])
    ends = [
        (number, port)
        for number, node in enumerate(graph.nodes)
        for port in node.ports
        if port.net == net and graph.layer[number] + (port.side == RIGHT) == first
    ]
    last = max(net_channels(graph)[net])
    if len(ends) < 2 or last == first or any(port.side == LEFT for _, port in ends):
        return None
    strands = dict(graph.strands)
    nodes = list(graph.nodes)
    for number, port in ends:
        strand = STRANDS + len(strands)
        strands[strand] = net
        ports = [replace(p, net=strand) if p == port else p for p in nodes[number].ports]
        nodes[number] = replace(nodes[number], ports=tuple(ports))
    return LayeredGraph(tuple(nodes), graph.layer, graph.layers, strands)
