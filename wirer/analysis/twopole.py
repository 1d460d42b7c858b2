"""Series-parallel networks as two-poles: many networks of one shape and many frequencies at once.

A branch is an EMF behind an impedance, or a current beside an admittance; in series EMFs and
impedances add, in parallel currents and admittances do (Thévenin, Norton). So one pass up the tree
of a network gives its response, and one pass down it the share of every coil.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from wirer.analysis.harness import LEAST_OHM, Branch
from wirer.analysis.reduction import Leaf, Tree

Real = NDArray[np.float64]
Complex = NDArray[np.complex128]
Places = NDArray[np.intp]


@dataclass(frozen=True)
class Values:
    """The values of branches as arrays, shape (branches,): `through` and across each.

    `conducts` is false for a bare capacitor, whose `ohm` counts for nothing.
    """

    ohm: Real
    henry: Real
    farad: Real
    siemens: Real
    conducts: NDArray[np.bool_]

    def at(self, which: Places, hertz: Real) -> Phasors:
        """Return the phasors of branches `which` (rows,) at frequencies (rows or 1, frequencies).

        A branch of no impedance at all makes them infinite.
        """
        s = 2j * math.pi * hertz
        series = self.ohm[which, np.newaxis] + s * self.henry[which, np.newaxis]
        conducts = self.conducts[which, np.newaxis]
        current = np.where(conducts, 1 / np.where(conducts, series, 1), 0)
        across = s * self.farad[which, np.newaxis] + self.siemens[which, np.newaxis]
        admittance = current + across
        impedance = 1 / admittance
        return Phasors(current, admittance, impedance, current * impedance)


def values_of(branches: Sequence[Branch]) -> Values:
    """Return the values of branches as arrays."""
    return Values(
        ohm=np.array([b.ohm if b.conducts else 0.0 for b in branches]),
        henry=np.array([b.henry for b in branches]),
        farad=np.array([b.farad for b in branches]),
        siemens=np.array([1 / b.shunt_ohm if b.shunt_ohm else 0.0 for b in branches]),
        conducts=np.array([b.conducts for b in branches], np.bool_),
    )


def direct_values(branches: Sequence[Branch]) -> Values:
    """Return the values of branches as direct current sees them, losses of coils left out.

    A branch of no resistance is a joint, which no network has; it is given one only to be a number.
    """
    nothing = np.zeros(len(branches))
    return Values(
        ohm=np.array([max(b.ohm, LEAST_OHM) for b in branches]),
        henry=nothing,
        farad=nothing,
        siemens=nothing,
        conducts=np.ones(len(branches), np.bool_),
    )


@dataclass(frozen=True)
class Phasors:
    """What branches are at some frequencies, shape (rows, frequencies) each.

    `current` is the short-circuit current in ampere for an EMF of 1 V in the branch, `share` its
    open-circuit voltage.
    """

    current: Complex
    admittance: Complex
    impedance: Complex
    share: Complex


@dataclass(frozen=True)
class TwoPoles:
    """Networks of one shape at some frequencies.

    `rows` (networks, places) says which row of the phasors each branch is; `drive` (networks,
    places) is the EMF of each in volt, from its first net to its second.
    """

    tree: Tree
    phasors: Phasors
    rows: Places
    drive: Real

    def output(self, load: Complex) -> Complex:
        """Return the voltage at hot with an admittance across it: (networks, frequencies)."""
        if _is_series(self.tree):
            emf, impedance = self._thevenin(self.tree)
            return np.asarray(emf / (1 + impedance * load), np.complex128)
        current, admittance = self._norton(self.tree)
        return np.asarray(current / (admittance + load), np.complex128)

    def impedance(self) -> Complex:
        """Return the impedance between hot and ground: (networks, frequencies)."""
        return self._thevenin(self.tree)[1]

    def transfers(self, load: Complex) -> Complex:
        """Return the voltage at hot per volt of EMF: (networks, places, frequencies)."""
        networks, places = self.rows.shape
        found = np.zeros((networks, places, self.phasors.impedance.shape[1]), np.complex128)
        self._hand_down(self.tree, 1 / (1 + self.impedance() * load), found)
        return found

    def _hand_down(self, tree: Tree, gain: Complex, found: Complex) -> None:
        if isinstance(tree, Leaf):
            share = self.phasors.share[self.rows[:, tree.place]]
            found[:, tree.place] = share * (gain if tree.forward else -gain)
        elif tree.join == "series":
            for member in tree.members:
                self._hand_down(member, gain, found)
        else:
            each = [self._norton(member)[1] for member in tree.members]
            total = sum(each[1:], each[0])
            for member, admittance in zip(tree.members, each, strict=True):
                self._hand_down(member, gain * admittance / total, found)

    def _thevenin(self, tree: Tree) -> tuple[Complex | float, Complex]:
        if isinstance(tree, Leaf):
            rows = self.rows[:, tree.place]
            volt = self._volt(tree)
            emf = 0.0 if volt is None else volt * self.phasors.share[rows]
            return emf, self.phasors.impedance[rows]
        if tree.join == "series":
            return _summed([self._thevenin(member) for member in tree.members])
        current, admittance = self._norton(tree)
        impedance = 1 / admittance
        return current * impedance, impedance

    def _norton(self, tree: Tree) -> tuple[Complex | float, Complex]:
        if isinstance(tree, Leaf):
            rows = self.rows[:, tree.place]
            volt = self._volt(tree)
            current = 0.0 if volt is None else volt * self.phasors.current[rows]
            return current, self.phasors.admittance[rows]
        if tree.join == "parallel":
            return _summed([self._norton(member) for member in tree.members])
        emf, impedance = self._thevenin(tree)
        admittance = 1 / impedance
        return emf * admittance, admittance

    def _volt(self, leaf: Leaf) -> Real | None:
        volt = self.drive[:, leaf.place, np.newaxis]
        if not volt.any():
            return None
        return volt if leaf.forward else -volt


def _is_series(tree: Tree) -> bool:
    return not isinstance(tree, Leaf) and tree.join == "series"


def _summed(
    pairs: list[tuple[Complex | float, Complex]],
) -> tuple[Complex | float, Complex]:
    (source, passive), *others = pairs
    for other_source, other in others:
        source = source + other_source
        passive = passive + other
    return source, passive
