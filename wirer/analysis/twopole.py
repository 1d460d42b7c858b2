"""Series-parallel networks as two-poles: many networks of one shape and many frequencies at once.

A branch is an EMF behind an impedance, or a current beside an admittance; in series EMFs and
impedances add, in parallel currents and admittances do (Thévenin, Norton). So one pass up the tree
of a network gives its response, and one pass down it the share of every coil.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from wirer.analysis.harness import LEAST_OHM, Branch
from wirer.analysis.reduction import Group, Leaf, Tree

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

    @property
    def finite(self) -> NDArray[np.bool_]:
        """Which rows have finite values only, shape (rows,)."""
        each = (self.current, self.admittance, self.impedance, self.share)
        finite = [np.isfinite(values).all(axis=1) for values in each]
        return np.asarray(np.all(finite, axis=0), np.bool_)

    def only(self, rows: NDArray[np.bool_]) -> Phasors:
        """Return the phasors with all other rows at nothing, so that they can't spread."""
        kept = rows[:, np.newaxis]
        each = (self.current, self.admittance, self.impedance, self.share)
        return Phasors(*(np.where(kept, values, 0) for values in each))


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

    def _thevenin(self, tree: Tree) -> tuple[Complex, Complex]:
        """Return EMF and impedance of a tree."""
        if isinstance(tree, Leaf):
            return self._leaves([tree], self.phasors.share, self.phasors.impedance)
        if tree.join == "series":
            return self._added(tree, self._thevenin, self.phasors.share, self.phasors.impedance)
        current, admittance = self._norton(tree)
        impedance = 1 / admittance
        return current * impedance, impedance

    def _norton(self, tree: Tree) -> tuple[Complex, Complex]:
        """Return short-circuit current and admittance of a tree."""
        if isinstance(tree, Leaf):
            return self._leaves([tree], self.phasors.current, self.phasors.admittance)
        if tree.join == "parallel":
            return self._added(tree, self._norton, self.phasors.current, self.phasors.admittance)
        emf, impedance = self._thevenin(tree)
        admittance = 1 / impedance
        return emf * admittance, admittance

    def _added(
        self,
        group: Group,
        each: Callable[[Tree], tuple[Complex, Complex]],
        source: Complex,
        passive: Complex,
    ) -> tuple[Complex, Complex]:
        """Add the members of a group, all its single branches at once."""
        single = [member for member in group.members if isinstance(member, Leaf)]
        pairs = [each(member) for member in group.members if not isinstance(member, Leaf)]
        if single:
            pairs.append(self._leaves(single, source, passive))
        sources, passives = zip(*pairs, strict=True)
        return sum(sources[1:], sources[0]), sum(passives[1:], passives[0])

    def _leaves(
        self, several: Sequence[Leaf], source: Complex, passive: Complex
    ) -> tuple[Complex, Complex]:
        """Return the sums over single branches, of their sources and of what they are."""
        places = [leaf.place for leaf in several]
        volts = self.drive[:, places] * [1 if leaf.forward else -1 for leaf in several]
        return self._mixed(places, volts, source), self._mixed(
            places, np.ones(volts.shape), passive
        )

    def _mixed(self, places: list[int], weights: Real, table: Complex) -> Complex:
        """Return sums of rows of a table, each by its weight: (networks, frequencies)."""
        rows = self.rows[:, places]
        if len(table) > rows.size:
            return np.asarray((weights[:, np.newaxis, :] @ table[rows])[:, 0], np.complex128)
        mixing = np.zeros((len(rows), len(table)))
        np.put_along_axis(mixing, rows, weights, axis=1)
        return (mixing @ table.view(np.float64)).view(np.complex128)


def _is_series(tree: Tree) -> bool:
    return not isinstance(tree, Leaf) and tree.join == "series"
