"""Modified nodal analysis of a network: (G + s·C)·x = b, with frequency in units of 1 kHz.

Unknowns are the net voltages (ground left out, hot first) and the current of every branch with an
inductance or an EMF, in units of 10 µA, so that the entries are near one. The rows are Kirchhoff's
current law at each net, then v(a) − v(b) − (R + sL)·i = −e for each such branch from a to b.
(C.-W. Ho, A. Ruehli, P. Brennan, "The modified nodal approach to network analysis", IEEE Trans.
Circuits and Systems 22(6), 1975; cited from memory.)
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from wirer.analysis.harness import Branch, Harness
from wirer.analysis.liveness import GROUND, HOT
from wirer.analysis.network import Network

Real = NDArray[np.float64]
Complex = NDArray[np.complex128]

UNIT_HERTZ = 1000.0
OMEGA = 2 * math.pi * UNIT_HERTZ
UNIT_OHM = 1e5


@dataclass(frozen=True)
class Load:
    """What the jack is plugged into: farads of cable across ohms of input."""

    farad: float
    ohm: float

    def admittance(self, hertz: Real) -> Complex:
        """Return its admittance in siemens, in the shape of `hertz`."""
        siemens = 1 / self.ohm if self.ohm else 0.0
        return np.asarray(siemens + 2j * math.pi * hertz * self.farad, np.complex128)


@dataclass(frozen=True)
class System:
    """The matrices of a network, shape (unknowns, unknowns), and the row of each coil's EMF."""

    conductance: Real
    capacitance: Real
    coils: tuple[int, ...]
    emf_rows: NDArray[np.intp]

    def at(self, hertz: float) -> Complex:
        """Return the matrix at one frequency."""
        return self.conductance + 1j * hertz / UNIT_HERTZ * self.capacitance


class _Stamps:
    def __init__(self, size: int) -> None:
        self.g = np.zeros((size, size))
        self.c = np.zeros((size, size))

    def admittance(self, pair: tuple[int, int], siemens: float, farad: float) -> None:
        g, c = siemens * UNIT_OHM, farad * OMEGA * UNIT_OHM
        for net, other in (pair, pair[::-1]):
            if net != GROUND:
                self.g[net - 1, net - 1] += g
                self.c[net - 1, net - 1] += c
                if other != GROUND:
                    self.g[net - 1, other - 1] -= g
                    self.c[net - 1, other - 1] -= c

    def current(self, pair: tuple[int, int], row: int, ohm: float, henry: float) -> None:
        for net, sign in zip(pair, (1.0, -1.0), strict=True):
            if net != GROUND:
                self.g[net - 1, row] += sign
                self.g[row, net - 1] += sign
        self.g[row, row] -= ohm / UNIT_OHM
        self.c[row, row] -= henry * OMEGA / UNIT_OHM


def system_of(harness: Harness, network: Network, load: Load) -> System:
    """Return the matrices of a network with its load across hot and ground."""
    branches = [harness.branches[i] for i in network.branches]
    nets = network.net_count - 1
    carrying = [i for i, branch in enumerate(branches) if _has_current(branch)]
    row_of = {name: nets + k for k, name in enumerate(carrying)}
    stamps = _Stamps(nets + len(carrying))
    stamps.admittance((GROUND, HOT), 1 / load.ohm if load.ohm else 0.0, load.farad)
    for index, (branch, pair) in enumerate(zip(branches, network.ends, strict=True)):
        siemens = 1 / branch.shunt_ohm if branch.shunt_ohm else 0.0
        if index in row_of:
            stamps.current(pair, row_of[index], branch.ohm, branch.henry)
        elif branch.conducts:
            siemens += 1 / branch.ohm
        stamps.admittance(pair, siemens, branch.farad)
    _couple(stamps, harness, network, row_of)
    coils = tuple(i for i in carrying if branches[i].coil)
    rows = np.fromiter((row_of[i] for i in coils), np.intp, len(coils))
    return System(stamps.g, stamps.c, tuple(network.branches[i] for i in coils), rows)


def _has_current(branch: Branch) -> bool:
    return branch.coil is not None or branch.henry > 0


def _couple(stamps: _Stamps, harness: Harness, network: Network, row_of: dict[int, int]) -> None:
    place = {name: i for i, name in enumerate(network.branches)}
    for first, second in harness.couplings:
        if first in place and second in place:
            henry = math.sqrt(harness.branches[first].henry * harness.branches[second].henry)
            i, j = row_of[place[first]], row_of[place[second]]
            stamps.c[i, j] -= henry * OMEGA / UNIT_OHM
            stamps.c[j, i] -= henry * OMEGA / UNIT_OHM


def solved(matrix: Complex, right: Complex) -> Complex:
    """Solve a system, in the sense of least squares where it is singular."""
    try:
        return np.asarray(np.linalg.solve(matrix, right), np.complex128)
    except np.linalg.LinAlgError:
        return np.asarray(np.linalg.lstsq(matrix, right, rcond=None)[0], np.complex128)


def transfers_at(system: System, hertz: float) -> Complex:
    """Return V(hot) per volt of EMF of each coil, shape (coils,), by one adjoint solve."""
    to_hot = np.zeros(len(system.conductance), np.complex128)
    to_hot[HOT - 1] = 1
    return -solved(system.at(hertz).T, to_hot)[system.emf_rows]


def transfers_over(system: System, hertz: Sequence[float] | Real) -> Complex:
    """Return the transfers at many frequencies, a solve each: shape (frequencies, coils)."""
    each = [transfers_at(system, f) for f in hertz]
    return np.array(each, np.complex128).reshape(len(each), len(system.coils))
