"""What a meter reads between tip and sleeve: direct current, no load, batteries taken out."""

from __future__ import annotations

import numpy as np

from wirer.analysis.harness import Harness
from wirer.analysis.liveness import GROUND, HOT
from wirer.analysis.network import Network
from wirer.analysis.system import solved


def resistance_of(harness: Harness, network: Network) -> float | None:
    """Return the ohms between hot and ground of a network of the meter's view; None if open.

    The losses of a coil are left out: they stand for eddy currents, which a meter does not see.
    """
    if not network.branches:
        return None
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
