"""All frequencies of a network from one eigendecomposition.

With s₀ real and M = (G + s₀C)⁻¹C = V·Λ·V⁻¹, the inverse of G + sC is
V·(1 + (s − s₀)Λ)⁻¹·V⁻¹·(G + s₀C)⁻¹, so each frequency costs a sum over the modes.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from wirer.analysis.liveness import HOT
from wirer.analysis.system import (
    UNIT_HERTZ,
    Complex,
    Real,
    System,
    transfers_at,
    transfers_over,
)

_SHIFT = 1.0
_CHECKED_AT = (100.0, 1000.0, 9000.0)
_CLOSE = 1e-7


@dataclass(frozen=True)
class Modes:
    """The transfers of a network as a sum over modes.

    `residues` has shape (modes, coils), `rates` (modes,); `system` answers where the network has
    no trustworthy modes (then they are empty).
    """

    system: System
    rates: Complex
    residues: Complex

    def transfers(self, hertz: Sequence[float] | Real) -> Complex:
        """Return V(hot) per volt of EMF of each coil: shape (frequencies, coils)."""
        if not self.rates.size:
            return transfers_over(self.system, hertz)
        return self._inverse(hertz) @ self.residues

    def pole_hertz(self) -> Real:
        """Return the frequencies of the complex modes, in Hz."""
        rates = self.rates[np.abs(self.rates) > 1e-12]
        poles = np.abs((_SHIFT - 1 / rates).imag) * UNIT_HERTZ
        return np.unique(poles[poles > 0])

    def _inverse(self, hertz: Sequence[float] | Real) -> Complex:
        s = 1j * np.asarray(hertz, np.float64)[:, np.newaxis] / UNIT_HERTZ
        return np.asarray(1 / (1 + (s - _SHIFT) * self.rates), np.complex128)


def modes_of(system: System) -> Modes:
    """Return the modes of a system, checked against direct solves at three frequencies."""
    empty = np.empty(0, np.complex128)
    plain = Modes(system, empty, empty)
    if not system.coils:
        return plain
    try:
        modes = _decomposed(system)
    except np.linalg.LinAlgError:
        return plain
    direct = np.array([transfers_at(system, f) for f in _CHECKED_AT])
    error = np.abs(modes.transfers(_CHECKED_AT) - direct)
    scale = np.maximum(np.abs(direct), 1e-3)
    return modes if np.all(error <= _CLOSE * scale) else plain


def _decomposed(system: System) -> Modes:
    size = len(system.conductance)
    right = np.zeros((size, size + len(system.coils)))
    right[:, :size] = system.capacitance
    right[system.emf_rows, size + np.arange(len(system.coils))] = -1
    solution = np.linalg.solve(system.conductance + _SHIFT * system.capacitance, right)
    rates, vectors = np.linalg.eig(solution[:, :size])
    driven = np.linalg.solve(vectors, solution[:, size:].astype(np.complex128))
    residues = vectors[HOT - 1, :, np.newaxis] * driven
    return Modes(system, rates.astype(np.complex128), residues)
