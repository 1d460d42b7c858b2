"""What a network does, whatever way round its coils lie: worked out once for each network."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Protocol

import numpy as np

from wirer.analysis.reduction import Span, Tree
from wirer.analysis.resonance import Resonance
from wirer.analysis.system import Complex, Load, Real
from wirer.analysis.twopole import TwoPoles, Values

AUDIBLE = 1e-3
"""The least |T| with which a coil sounds."""


class Curve(Protocol):
    """A network over frequency."""

    def transfers(self, hertz: Sequence[float] | Real) -> Complex:
        """Return V(hot) per volt of EMF of each coil: shape (frequencies, coils)."""


@dataclass(frozen=True)
class Ladder:
    """A series-parallel network over frequency: its tree, branches and those that are coils."""

    values: Values
    load: Load
    tree: Tree
    branches: tuple[int, ...]
    coils: tuple[int, ...]

    def transfers(self, hertz: Sequence[float] | Real) -> Complex:
        """Return V(hot) per volt of EMF of each coil: shape (frequencies, coils)."""
        row = np.asarray(hertz, np.float64)[np.newaxis, :]
        count = len(self.branches)
        phasors = self.values.at(np.array(self.branches), row)
        rows = np.arange(count)[np.newaxis, :]
        network = TwoPoles(self.tree, phasors, rows, np.zeros((1, count)))
        places = [self.branches.index(coil) for coil in self.coils]
        return network.transfers(self.load.admittance(row))[0, places].T


@dataclass(frozen=True)
class Voice:
    """A network solved.

    `coils` are its coils by branch, in the order of `drive` and of the curve. `transfers` has T at
    100 Hz of each, as the network has it (negative for a coil that lies the other way round),
    times its share of the turns. `drive` (coils,) is the EMF in volt of each coil, in the polarity
    that adds at the output. `structure` is by place in the network.
    """

    curve: Curve
    coils: tuple[int, ...]
    transfers: Mapping[int, complex]
    structure: Tree | Span | None
    drive: Real
    resonance: Resonance | None
    level_db: float | None
    loads: tuple[tuple[str, str, float], ...]

    def response(self, hertz: Sequence[float] | Real) -> Real:
        """Return |V(tip)| in volt, shape (frequencies,)."""
        return np.abs(self.curve.transfers(hertz) @ self.drive)
