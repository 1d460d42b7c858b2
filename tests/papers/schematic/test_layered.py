"""Layered layouts of graphs: few crossings, nothing on anything, tracks in channels."""

from __future__ import annotations

from itertools import combinations

from hypothesis import given
from hypothesis import strategies as st

from wirer.papers.schematic.layered.channels import Clash, tracks_of
from wirer.papers.schematic.layered.graph import LEFT, RIGHT, Gap, LayeredGraph, Node, Port
from wirer.papers.schematic.layered.layering import LayerDemands, layers_of
from wirer.papers.schematic.layered.ordering import ordered
from wirer.papers.schematic.layered.placing import merit, placed
from wirer.papers.schematic.layered.rows import parted, rows_of


def node(*ports: tuple[int, int], pitch: int = 4) -> Node:
    """A node with a port (net, side) at each station."""
    own = tuple(Port(net, station, side) for station, (net, side) in enumerate(ports))
    return Node(own, (Gap(pitch, pitch),) * (len(ports) - 1), 1, 1, 5, 5)


def crossings(graph: LayeredGraph) -> int:
    return merit(placed(graph, ordered(rows_of(graph))[0]))[0]


def bipartite(left: int, right: int) -> LayeredGraph:
    """Every node on the left joined to every one on the right by a net of its own."""
    nets = {pair: n for n, pair in enumerate((a, b) for a in range(left) for b in range(right))}
    first = [node(*((nets[a, b], RIGHT) for b in range(right))) for a in range(left)]
    last = [node(*((nets[a, b], LEFT) for a in range(left))) for b in range(right)]
    return LayeredGraph((*first, *last), (0,) * left + (1,) * right, 2)


def test_wires_that_need_not_cross_do_not() -> None:
    """A ladder whose rungs are listed in the wrong order."""
    first = [node((n, RIGHT)) for n in (3, 0, 2, 1)]
    last = [node((n, LEFT)) for n in (1, 2, 3, 0)]
    assert crossings(LayeredGraph((*first, *last), (0,) * 4 + (1,) * 4, 2)) == 0


def test_a_complete_bipartite_graph_crosses_as_often_as_it_must() -> None:
    """In two layers K(m, n) crosses m(m−1)n(n−1)/4 times, in any order (Garey and Johnson 1983)."""
    assert crossings(bipartite(2, 2)) == 1
    assert crossings(bipartite(3, 3)) == 9
    assert crossings(bipartite(2, 4)) == 6


def test_a_net_of_many_ends_has_one_trunk() -> None:
    nodes = (*[node((0, RIGHT))] * 3, *[node((0, LEFT))] * 3)
    graph = LayeredGraph(nodes, (0, 0, 0, 1, 1, 1), 2)
    lines = placed(graph, ordered(rows_of(graph))[0]).lines
    assert len({x for _, x, y1, x2, y2 in lines if x == x2 and y1 != y2}) == 1


def test_a_net_led_singly_does_not_cross_what_lies_between_its_ends() -> None:
    """Two ends of a net on the left with another's between, all met a layer later."""
    outer, inner, ahead = node((0, RIGHT)), node((1, RIGHT)), node((1, LEFT), (2, RIGHT))
    graph = LayeredGraph((outer, inner, outer, ahead, node((0, LEFT))), (0, 0, 0, 1, 2), 3)
    nodes = (*graph.nodes, node((2, LEFT)))
    graph = LayeredGraph(nodes, (*graph.layer, 2), 3)
    singly = parted(graph, 0)
    assert singly is not None
    assert crossings(singly) <= crossings(graph)
    nets = {line[0] for line in placed(singly, ordered(rows_of(singly))[0]).lines}
    assert nets == {0, 1, 2}
    assert parted(graph, 1) is None


def test_layers_follow_the_signal_and_span_little() -> None:
    """A chain, a branch that ends blind, and a jack that nothing lies beyond."""
    chain = [[(0, RIGHT)], [(0, LEFT), (1, RIGHT)], [(1, LEFT), (2, RIGHT)], [(2, LEFT)]]
    blind = [[(0, LEFT)]]
    before = [(0, 1), (1, 2), (2, 3), (0, 4)]
    layers = layers_of(LayerDemands([*chain, *blind], before, first=[0], last=[3]))
    assert layers == [0, 1, 2, 3, 1]


def test_poles_of_one_switch_keep_to_one_layer_where_that_is_free() -> None:
    ends = [[(0, RIGHT)], [(0, LEFT), (1, RIGHT)], [(1, LEFT)], [(2, LEFT)]]
    layers = layers_of(LayerDemands(ends, [(0, 1), (1, 2)], kin=[(2, 3)]))
    assert layers[2] == layers[3]


HEIGHTS = st.lists(st.integers(0, 14), unique=True, max_size=4)


@given(st.lists(st.tuples(HEIGHTS, HEIGHTS), max_size=5))
def test_nets_in_a_channel_never_lie_on_each_other(
    banks: list[tuple[list[int], list[int]]],
) -> None:
    taken: tuple[set[int], set[int]] = (set(), set())
    ends = {}
    for net, bank in enumerate(banks):
        own = tuple([y for y in ys if y not in used] for ys, used in zip(bank, taken, strict=True))
        for ys, used in zip(own, taken, strict=True):
            used.update(ys)
        if sum(map(len, own)) > 1:
            ends[net] = (own[0], own[1])
    tracks = tracks_of(ends)
    if isinstance(tracks, Clash):
        assert tracks.height in taken[0] & taken[1]
        return
    for a, b in combinations(tracks.of, 2):
        low, high = (a, b) if tracks.of[a] < tracks.of[b] else (b, a)
        if tracks.of[a] == tracks.of[b]:
            one, other = ([*ends[net][0], *ends[net][1]] for net in (a, b))
            assert max(one) < min(other) or max(other) < min(one)
        # The net with the left track leaves the right bank, the other the left: never level.
        assert not set(ends[low][1]) & set(ends[high][0])
