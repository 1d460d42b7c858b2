"""The shortest tree with bounds, against trying everything and against networkx."""

from __future__ import annotations

from collections import Counter
from itertools import combinations

import networkx as nx
import pytest
from hypothesis import given
from hypothesis import strategies as st

from wirer.planning.bounded_tree import Lugs, Pair, bounded_tree

PLACES = st.tuples(st.integers(0, 20), st.integers(0, 20))


@st.composite
def nets(draw: st.DrawFn, most_groups: int, most_lugs: int) -> Lugs:
    """Groups of lugs at random places with room for a few wires each."""
    sizes = draw(st.lists(st.integers(1, most_lugs), min_size=1, max_size=most_groups))
    names = [[f"P{n}.{m}" for m in range(size)] for n, size in enumerate(sizes)]
    lugs = [lug for group in names for lug in group]
    room = {lug: draw(st.integers(0, 3)) for lug in lugs}
    places = {lug: draw(PLACES) for lug in lugs}
    return Lugs(tuple(map(tuple, names)), room, places)


def keeps_to_the_room(lugs: Lugs, wires: tuple[Pair, ...]) -> bool:
    counts = Counter(lug for pair in wires for lug in pair)
    return all(counts[lug] <= lugs.room[lug] for lug in counts)


def is_a_tree(lugs: Lugs, wires: tuple[Pair, ...]) -> bool:
    graph = nx.MultiGraph()
    graph.add_nodes_from(range(len(lugs.groups)))
    graph.add_edges_from((lugs.group_of[a], lugs.group_of[b]) for a, b in wires)
    return nx.is_tree(graph)


def tried(lugs: Lugs) -> float | None:
    """The length of the shortest tree, found by trying all."""
    count = len(lugs.groups) - 1
    trees = (
        wires
        for wires in combinations(lugs.pairs, count)
        if is_a_tree(lugs, wires) and keeps_to_the_room(lugs, wires)
    )
    lengths = (sum(map(lugs.distance, wires)) for wires in trees)
    return min(lengths, default=None)


@given(nets(most_groups=4, most_lugs=2) | nets(most_groups=5, most_lugs=1))
def test_of_small_nets_the_very_shortest_tree_is_found_or_there_is_none(lugs: Lugs) -> None:
    best = tried(lugs)
    assert lugs.have_a_tree == (best is not None)
    if best is None:
        with pytest.raises(ValueError, match="no tree"):
            bounded_tree(lugs)
        return
    tree = bounded_tree(lugs)
    assert tree.shortest
    assert tree.length_mm == pytest.approx(best)
    assert is_a_tree(lugs, tree.wires)
    assert keeps_to_the_room(lugs, tree.wires)


@given(nets(most_groups=25, most_lugs=3))
def test_of_any_net_the_tree_is_one_and_keeps_to_the_room(lugs: Lugs) -> None:
    if lugs.have_a_tree:
        tree = bounded_tree(lugs)
        assert is_a_tree(lugs, tree.wires)
        assert keeps_to_the_room(lugs, tree.wires)


@given(st.lists(PLACES, min_size=1, max_size=30, unique=True))
def test_with_room_enough_it_is_as_short_as_networkx_has_it(places: list[Pair]) -> None:
    names = [f"P{n}.1" for n in range(len(places))]
    by_name = dict(zip(names, places, strict=True))
    lugs = Lugs(tuple((n,) for n in names), dict.fromkeys(names, len(names)), by_name)
    graph = nx.Graph()
    graph.add_nodes_from(names)
    graph.add_weighted_edges_from((a, b, lugs.distance((a, b))) for a, b in lugs.pairs)
    least = nx.minimum_spanning_tree(graph).size(weight="weight")
    tree = bounded_tree(lugs)
    assert tree.length_mm == pytest.approx(least)
    assert tree.shortest


def test_posts_round_one_that_holds_two_wires_are_led_past_it() -> None:
    """Worked by hand: two of the six arms of 10 mm go to the middle, the rest run round."""
    places = {"M.1": (0, 0), "A.1": (10, 0), "B.1": (0, 10), "C.1": (-10, 0), "D.1": (0, -10)}
    lugs = Lugs(tuple((n,) for n in places), dict.fromkeys(places, 2), places)
    tree = bounded_tree(lugs)
    assert tree.length_mm == 10 + 10 + 20 + 20
    assert tree.shortest
