"""How loud chosen settings are with the shafts turned: a few frequencies, a direct solve each."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

import numpy as np
from numpy.typing import NDArray

from wirer.analysis.harness import Harness, harness_of
from wirer.analysis.liveness import terminals, without_dead_ends
from wirer.analysis.nets import chosen_labels
from wirer.analysis.network import Network, encoded, oriented_network
from wirer.analysis.resonance import REFERENCE_HERTZ
from wirer.analysis.system import Load, Real, system_of, transfers_at
from wirer.circuit.model import Circuit


def levels_at(
    circuit: Circuit,
    rotations: Mapping[str, float],
    load: Load,
    states: NDArray[np.int32],
    hertz: Sequence[float],
) -> Real:
    """Return |V(tip)| in volt of chosen settings: shape (settings, frequencies).

    `states` (settings, switches) has the state of each switch. Every coil is driven at its level,
    in the polarity that adds at the output.
    """
    harness = harness_of(circuit, rotations)
    if harness.hot is None:
        return np.zeros((len(states), len(hertz)))
    ends = terminals(harness, chosen_labels(harness, states))
    alive = without_dead_ends(ends, harness.net_count, harness.couplings)
    networks = [
        oriented_network(row.tolist(), harness.couplings).network for row in encoded(ends, alive)
    ]
    known = {n: _levels(harness, n, load, hertz) for n in dict.fromkeys(networks)}
    return np.array([known[n] for n in networks]).reshape(len(states), len(hertz))


def travel_of(
    harness: Harness, turned: Sequence[Harness], load: Load, states: NDArray[np.int32], hertz: float
) -> Real:
    """Return |V(tip)| of one setting at one frequency in harnesses that only values tell apart.

    The network is read from `harness` once; `turned` has the same branches with other values.
    Shape (harnesses,).
    """
    ends = terminals(harness, chosen_labels(harness, states))
    alive = without_dead_ends(ends, harness.net_count, harness.couplings)
    network = oriented_network(encoded(ends, alive)[0].tolist(), harness.couplings).network
    return np.array([_levels(other, network, load, (hertz,))[0] for other in turned])


def _levels(harness: Harness, network: Network, load: Load, hertz: Sequence[float]) -> list[float]:
    system = system_of(harness, network, load)
    coils = [coil for i in system.coils if (coil := harness.branches[i].coil)]
    if not coils:
        return [0.0] * len(hertz)
    reference = transfers_at(system, REFERENCE_HERTZ)
    volts = np.array([coil.level_volt * coil.turns * abs(coil.pole) for coil in coils])
    drive = np.where(reference.real < 0, -volts, volts)
    return [float(abs(transfers_at(system, f) @ drive)) for f in hertz]
