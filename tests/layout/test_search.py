"""The search against Dijkstra's algorithm of networkx, which knows nothing of runs and sweeps."""

from itertools import pairwise

import networkx as nx
import numpy as np
from hypothesis import given
from hypothesis import strategies as st

from wirer.layout.layer import Costs
from wirer.layout.search import BEND_MM, Gate, Node, Search

UM = 1000


def running(edges: Costs) -> Costs:
    sums = np.zeros((edges.shape[0], edges.shape[1] + 1), dtype=np.int64)
    np.cumsum(edges, axis=1, out=sums[:, 1:])
    return sums


def dijkstra_cost(level: Costs, upright: Costs, start: Node, goal: Node) -> float:
    """Shortest path over (node, direction); turning costs a bend."""
    graph = nx.Graph()
    for row, costs in enumerate(level):
        for column, cost in enumerate(costs):
            graph.add_edge((column, row, 0), (column + 1, row, 0), weight=int(cost))
    for column, costs in enumerate(upright):
        for row, cost in enumerate(costs):
            graph.add_edge((column, row, 1), (column, row + 1, 1), weight=int(cost))
    for column, row in {(c, r) for c, r, _ in graph}:
        graph.add_edge((column, row, 0), (column, row, 1), weight=int(BEND_MM * UM))
    for direction in (0, 1):
        graph.add_edge("start", (*start, direction), weight=0)
        graph.add_edge("goal", (*goal, direction), weight=0)
    return nx.shortest_path_length(graph, "start", "goal", weight="weight") / UM


def path_cost(nodes: tuple[Node, ...], level: Costs, upright: Costs) -> float:
    """What a path costs, added up along it."""
    rows, columns = running(level), running(upright)
    cost = int(BEND_MM * UM) * (len(nodes) - 2)
    for (ax, ay), (bx, by) in pairwise(nodes):
        assert (ax == bx) != (ay == by), "each run is straight and has a length"
        cost += abs(int(rows[ay, ax] - rows[by, bx])) if ay == by else 0
        cost += abs(int(columns[ax, ay] - columns[bx, by])) if ax == bx else 0
    return cost / UM


@st.composite
def grids(draw: st.DrawFn) -> tuple[Costs, Costs, Node, Node]:
    width, height = draw(st.integers(2, 9)), draw(st.integers(2, 9))
    dice = np.random.default_rng(draw(st.integers(0, 10_000)))
    steep = draw(st.sampled_from([5, 100_000]))
    level = dice.integers(1, steep, (height, width - 1)) * UM // 2
    upright = dice.integers(1, steep, (width, height - 1)) * UM // 2
    nodes = st.tuples(st.integers(0, width - 1), st.integers(0, height - 1))
    start = draw(nodes)
    goal = draw(nodes.filter(lambda node: node != start))
    return level, upright, start, goal


@given(grids())
def test_no_path_is_cheaper_than_the_one_found(grid: tuple[Costs, Costs, Node, Node]) -> None:
    level, upright, start, goal = grid
    xs, ys = [float(x) / 2 for x in range(len(upright))], [float(y) / 2 for y in range(len(level))]
    found = Search(xs, ys, running(level), running(upright)).path([Gate(start)], [Gate(goal)])
    assert found is not None
    assert found.nodes[0] == start
    assert found.nodes[-1] == goal
    assert found.cost == dijkstra_cost(level, upright, start, goal)
    assert found.cost == path_cost(found.nodes, level, upright)


def open_grid(size: int) -> Search:
    edges = np.full((size, size - 1), UM, dtype=np.int64)
    places = [float(i) for i in range(size)]
    return Search(places, places, running(edges), running(edges))


def test_the_cheaper_of_two_gates_is_taken() -> None:
    search = open_grid(10)
    dear, cheap = Gate((0, 5), 30.0), Gate((0, 0), 1.0)
    found = search.path([dear, cheap], [Gate((9, 5))])
    assert found is not None
    assert found.nodes[0] == (0, 0)
    assert found.cost == 1.0 + 9 + 5 + BEND_MM


def test_a_place_is_reached_from_itself_for_nothing() -> None:
    found = open_grid(4).path([Gate((1, 1))], [Gate((1, 1))])
    assert found is not None
    assert found.cost == 0
    assert set(found.nodes) == {(1, 1)}


def test_without_a_gate_there_is_no_path() -> None:
    assert open_grid(4).path([], [Gate((1, 1))]) is None
