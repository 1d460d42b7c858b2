"""Which layer each node lies in, so that nets span few of them."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from wirer.papers.schematic.layered.graph import RIGHT
from wirer.papers.schematic.layered.tension import Tension

NET_WEIGHT = 4
KIN_WEIGHT = 1
BUDGET = 400_000


@dataclass(frozen=True)
class LayerDemands:
    """What is known of nodes before they have layers.

    `ends` gives each node's (net, side) pairs. Of each pair of `before` the first must lie in an
    earlier layer. `first` lie in the first layer, and nothing else where there are any; none lies
    beyond any of `last`; each group of `kin` is wished to be in one layer.
    """

    ends: Sequence[Sequence[tuple[int, int]]]
    before: Iterable[tuple[int, int]] = ()
    first: Iterable[int] = ()
    last: Iterable[int] = ()
    kin: Iterable[Sequence[int]] = ()


def layers_of(demands: LayerDemands) -> list[int]:
    """Return the layer of each node, from 0 without gaps, in which nets span least."""
    tension = Tension()
    source = tension.add()
    nodes = [tension.add() for _ in demands.ends]
    first = set(demands.first)
    for number, node in enumerate(nodes):
        tension.keep(source, node, int(bool(first) and number not in first))
    for early, late in sorted(set(demands.before)):
        tension.keep(nodes[early], nodes[late], 1)
    for number in first:
        tension.keep(nodes[number], source, 0)
    for number in demands.last:
        for node in nodes:
            if node != nodes[number]:
                tension.keep(node, nodes[number], 0)
    for points in _channels(demands.ends, nodes).values():
        tension.span(NET_WEIGHT, points)
    for group in demands.kin:
        tension.span(KIN_WEIGHT, [(nodes[number], 0) for number in group])
    found = tension.solve(BUDGET)
    used = sorted({found[node] for node in nodes})
    return [used.index(found[node]) for node in nodes]


def _channels(
    ends: Sequence[Sequence[tuple[int, int]]], nodes: Sequence[int]
) -> dict[int, list[tuple[int, int]]]:
    """Return for each net its ends as (node, offset to its channel)."""
    points: dict[int, list[tuple[int, int]]] = defaultdict(list)
    for number, own in enumerate(ends):
        for net, side in own:
            points[net].append((nodes[number], int(side == RIGHT)))
    return points
