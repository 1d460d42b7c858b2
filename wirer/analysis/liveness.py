"""Which branches carry signal: those on a path from ground to hot that visits no net twice."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import networkx as nx
import numpy as np
from numpy.typing import NDArray

from wirer.analysis.harness import Harness
from wirer.analysis.nets import Labels

GROUND, HOT = 0, 1


@dataclass(frozen=True)
class Terminals:
    """Where the branches end in many settings: shape (settings, branches) each.

    `a` and `b` are net labels, `ground` and `hot` (settings,) the labels of the jack's nets.
    """

    a: Labels
    b: Labels
    ground: NDArray[np.int32]
    hot: NDArray[np.int32]


def terminals(harness: Harness, labels: Labels) -> Terminals:
    """Return the nets at the branches' ends in each setting.

    Raises
    ------
    ValueError
        The harness has no jack.
    """
    if harness.ground is None or harness.hot is None:
        raise ValueError("a harness without a jack has no terminals")
    first = np.fromiter((b.a for b in harness.branches), np.intp)
    second = np.fromiter((b.b for b in harness.branches), np.intp)
    return Terminals(
        labels[:, first], labels[:, second], labels[:, harness.ground], labels[:, harness.hot]
    )


def without_dead_ends(
    ends: Terminals, net_count: int, coupled: Sequence[tuple[int, int]] = ()
) -> NDArray[np.bool_]:
    """Return which branches (settings, branches) are left when dead ends are cut off.

    A branch with both ends on one net is dead, and so is one that is alone at a net other than
    hot or ground, again and again. What is left may still hold loops apart from the signal, and
    holds `coupled` branches that are shorted, whose flux matters to the one they are coupled to.
    """
    settings, branches = ends.a.shape
    looped = np.zeros(branches, np.bool_)
    looped[[name for pair in coupled for name in pair]] = True
    alive: NDArray[np.bool_] = (ends.a != ends.b) | looped
    alive &= (ends.ground != ends.hot)[:, np.newaxis]
    offset = (np.arange(settings) * net_count)[:, np.newaxis]
    at_a, at_b = ends.a + offset, ends.b + offset
    roots = np.concatenate((ends.ground + offset[:, 0], ends.hot + offset[:, 0]))
    while branches:
        used = np.concatenate((at_a[alive], at_b[alive], roots))
        degree = np.bincount(used, minlength=settings * net_count)
        left = alive & (degree[at_a] > 1) & (degree[at_b] > 1)
        if np.array_equal(left, alive):
            break
        alive = left
    return alive


def live_branches(ends: Sequence[tuple[int, int]]) -> list[int]:
    """Return the indices of the branches on a simple path from ground (0) to hot (1).

    They are those in the biconnected component that holds an edge from ground to hot.
    """
    graph = nx.Graph([(GROUND, HOT), *(pair for pair in ends if pair[0] != pair[1])])
    for component in nx.biconnected_component_edges(graph):
        pairs = {frozenset(edge) for edge in component}
        if frozenset((GROUND, HOT)) in pairs:
            return [i for i, pair in enumerate(ends) if frozenset(pair) in pairs]
    return []
