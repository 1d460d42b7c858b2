"""What a meter reads between tip and sleeve: direct current, no load, batteries taken out.

The losses of a coil are left out: they stand for eddy currents, which a meter does not see.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable

import numpy as np

from wirer.analysis.harness import Harness
from wirer.analysis.liveness import GROUND, HOT
from wirer.analysis.network import Network
from wirer.analysis.reduction import Ends, whole_tree
from wirer.analysis.system import solved
from wirer.analysis.twopole import TwoPoles, Values, direct_values

_STILL = np.zeros((1, 1))


def resistances_of(harness: Harness, networks: Iterable[Network]) -> dict[Network, float | None]:
    """Return the ohms between hot and ground of networks of the meter's view; None if open."""
    found: dict[Network, float | None] = {}
    shapes: dict[Ends, list[Network]] = defaultdict(list)
    for network in networks:
        shapes[network.ends].append(network)
    values = direct_values(harness.branches)
    for ends, alike in shapes.items():
        if whole_tree(ends):
            found.update(zip(alike, _reduced(values, alike), strict=True))
        else:
            found.update((n, _by_nodes(harness, n) if n.branches else None) for n in alike)
    return found


def _reduced(values: Values, networks: list[Network]) -> list[float]:
    """Return the ohms of series-parallel networks of one shape."""
    tree = whole_tree(networks[0].ends)
    assert tree is not None
    rows = np.array([network.branches for network in networks], np.intp)
    phasors = values.at(np.arange(len(values.ohm)), _STILL)
    ohms = TwoPoles(tree, phasors, rows, np.zeros(rows.shape)).impedance().real
    return [float(ohm) for ohm in ohms[:, 0]]


def _by_nodes(harness: Harness, network: Network) -> float:
    size = network.net_count - 1
    matrix = np.zeros((size + 1, size + 1))
    for index, (a, b) in zip(network.branches, network.ends, strict=True):
        siemens = 1 / harness.branches[index].ohm
        matrix[a, a] += siemens
        matrix[b, b] += siemens
        matrix[a, b] -= siemens
        matrix[b, a] -= siemens
    inner = matrix[GROUND + 1 :, GROUND + 1 :].astype(np.complex128)
    ampere = np.zeros(size, np.complex128)
    ampere[HOT - 1] = 1.0
    return float(solved(inner, ampere)[HOT - 1].real)
