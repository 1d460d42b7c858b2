"""What a network does, whatever way round its coils lie: worked out once for each network."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from wirer.analysis.harness import Harness
from wirer.analysis.modes import Modes, modes_of
from wirer.analysis.network import Network
from wirer.analysis.reduction import Edge, Span, Tree, structure_of
from wirer.analysis.resonance import (
    LEVEL_HERTZ,
    REFERENCE_HERTZ,
    Resonance,
    decibel,
    find_resonance,
)
from wirer.analysis.system import Load, Real, system_of, transfers_at

AUDIBLE = 1e-3
"""The least |T| with which a coil sounds."""


@dataclass(frozen=True)
class Voice:
    """A network solved.

    `transfers` has T at 100 Hz of each coil of the network by branch, as the network has it
    (negative for a coil that lies the other way round), times its share of the turns. `drive`
    (coils,) is the EMF in volt of each coil, in the polarity that adds at the output.
    """

    modes: Modes
    transfers: Mapping[int, complex]
    structure: Tree | Span | None
    drive: Real
    resonance: Resonance | None
    level_db: float | None
    loads: tuple[tuple[str, str, float], ...]

    def response(self, hertz: Real) -> Real:
        """Return |V(tip)| in volt, shape (frequencies,)."""
        return self.modes.response(hertz, self.drive)


def voice_of(harness: Harness, network: Network, load: Load) -> Voice:
    """Solve a network for its transfers, structure, response and loads."""
    system = system_of(harness, network, load)
    coils = [coil for i in system.coils if (coil := harness.branches[i].coil)]
    plain = transfers_at(system, REFERENCE_HERTZ)
    turns = np.array([coil.turns for coil in coils])
    transfers = dict(zip(system.coils, (complex(t) for t in plain * turns), strict=True))
    sounding = {i for i, t in transfers.items() if abs(t) >= AUDIBLE}
    heard = np.array(
        [
            abs(transfers[i].real) >= AUDIBLE and coil.pole != 0
            for i, coil in zip(system.coils, coils, strict=True)
        ]
    )
    levels = np.array([coil.level_volt for coil in coils]) * turns
    drive = np.where(heard, levels * np.where(plain.real < 0, -1.0, 1.0), 0.0) if coils else turns
    modes = modes_of(system)
    resonance, level_db = _shape(modes, drive)
    return Voice(
        modes=modes,
        transfers=transfers,
        structure=_structure(harness, network, sounding),
        drive=drive,
        resonance=resonance,
        level_db=level_db,
        loads=_loads(harness, network, sounding),
    )


def _shape(modes: Modes, drive: Real) -> tuple[Resonance | None, float | None]:
    if not np.any(drive):
        return None, None
    level = float(modes.response([LEVEL_HERTZ], drive)[0])
    resonance = find_resonance(lambda hertz: modes.response(hertz, drive), modes.pole_hertz())
    return resonance, decibel(level)


def _structure(harness: Harness, network: Network, sounding: set[int]) -> Tree | Span | None:
    pairs = list(zip(network.branches, network.ends, strict=True))
    coils = {i: ends for i, ends in pairs if i in sounding}
    loads = sorted(
        ((i, ends) for i, ends in pairs if i not in sounding),
        key=lambda pair: -abs(harness.branches[pair[0]].impedance(REFERENCE_HERTZ)),
    )
    return structure_of(coils, [Edge(a, b, None) for _, (a, b) in loads])


def _loads(
    harness: Harness, network: Network, sounding: set[int]
) -> tuple[tuple[str, str, float], ...]:
    """Return what else carries signal, by kind and value; a coil that does not sound is one."""
    loads = []
    for index in network.branches:
        branch = harness.branches[index]
        if branch.coil is None:
            loads.append((*branch.load[:2], float(f"{branch.load[2]:.9g}")))
        elif index not in sounding:
            loads.append(("coil", branch.coil.name, 0.0))
    return tuple(sorted(loads))
