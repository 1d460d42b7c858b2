"""The solver: finds the voices of networks, those of one shape together."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping, Sequence, Set
from dataclasses import dataclass
from functools import cached_property

import numpy as np

from wirer.analysis.harness import Harness
from wirer.analysis.modes import modes_of
from wirer.analysis.network import Network
from wirer.analysis.reduction import Ends, Span, Tree, coil_structure, coil_tree, whole_tree
from wirer.analysis.resonance import (
    GRID,
    LEVEL_HERTZ,
    REFERENCE_HERTZ,
    Resonance,
    Response,
    decibel,
    find_resonances,
)
from wirer.analysis.system import Complex, Load, Real, system_of, transfers_at
from wirer.analysis.twopole import Phasors, Places, TwoPoles, Values, values_of
from wirer.analysis.voice import AUDIBLE, Curve, Ladder, Voice

_TOGETHER = 96
"""How many networks are worked out at a time, so that what is in work stays in the cache."""

_REFERENCE = np.array([[REFERENCE_HERTZ]])
_LOOKED_AT = np.append(GRID, LEVEL_HERTZ)[np.newaxis, :]


@dataclass(frozen=True)
class Solved:
    """The numbers of a network: see `Voice`; `level` is the response at 1 kHz in volt."""

    curve: Curve
    transfers: Mapping[int, complex]
    drive: Real
    resonance: Resonance | None
    level: float


@dataclass(frozen=True)
class Solver:
    """Solves networks of a harness with a load at the jack."""

    harness: Harness
    load: Load

    @cached_property
    def values(self) -> Values:
        """The values of the harness's branches."""
        return values_of(self.harness.branches)

    @cached_property
    def _phasors(self) -> tuple[Phasors, Phasors, frozenset[int]]:
        """The branches at the reference and over the grid, and those with an infinite value."""
        every = np.arange(len(self.harness.branches))
        with np.errstate(all="ignore"):
            reference, grid = (self.values.at(every, f) for f in (_REFERENCE, _LOOKED_AT))
        finite = reference.finite & grid.finite
        odd = frozenset(np.flatnonzero(~finite).tolist())
        return reference.only(finite), grid.only(finite), odd

    @cached_property
    def _turns(self) -> Real:
        """The share of turns of each branch, 0 for what is no coil, shape (branches,)."""
        return np.array([b.coil.turns if b.coil else 0.0 for b in self.harness.branches])

    @cached_property
    def _volts(self) -> Real:
        """The EMF of each branch, 0 for what the strings don't move, shape (branches,)."""
        coils = [b.coil for b in self.harness.branches]
        return np.array([c.level_volt * c.turns if c and c.pole else 0.0 for c in coils])

    @cached_property
    def _is_coil(self) -> tuple[bool, ...]:
        return tuple(b.coil is not None for b in self.harness.branches)

    @cached_property
    def _ohms_at_reference(self) -> tuple[float, ...]:
        return tuple(abs(b.impedance(REFERENCE_HERTZ)) for b in self.harness.branches)

    @cached_property
    def _load_names(self) -> tuple[tuple[str, str, float], ...]:
        return tuple(
            ("coil", b.coil.name, 0.0) if b.coil else (*b.load[:2], float(f"{b.load[2]:.9g}"))
            for b in self.harness.branches
        )

    def voices(self, networks: Iterable[Network]) -> dict[Network, Voice]:
        """Solve networks, each with at least one branch."""
        found: dict[Network, Voice] = {}
        shapes: dict[Ends, list[Network]] = defaultdict(list)
        for network in networks:
            shapes[network.ends].append(network)
        for ends, alike in shapes.items():
            tree = whole_tree(ends)
            plain = [n for n in alike if tree and not self._by_nodes(n)]
            for first in range(0, len(plain), _TOGETHER):
                if tree:
                    found.update(self._together(tree, plain[first : first + _TOGETHER]))
            with np.errstate(all="ignore"):
                found.update([(n, self._alone(n)) for n in alike if n not in found])
        return found

    def _by_nodes(self, network: Network) -> bool:
        """Tell whether a network must be solved by nodes: coupled coils, or an infinite value."""
        branches, odd = frozenset(network.branches), self._phasors[2]
        return bool(odd & branches) or any(
            branches.issuperset(pair) for pair in self.harness.couplings
        )

    def _together(self, tree: Tree, networks: Sequence[Network]) -> Iterator[tuple[Network, Voice]]:
        """Solve series-parallel networks of one shape; one with a value beyond bounds is left."""
        rows = np.array([network.branches for network in networks], np.intp)
        with np.errstate(all="ignore"):
            still = TwoPoles(tree, self._phasors[0], rows, np.zeros(rows.shape))
            plain = still.transfers(self.load.admittance(_REFERENCE))[:, :, 0]
            drive = self._drive(plain, rows)
            driven = TwoPoles(tree, self._phasors[1], rows, drive)
            heights = np.abs(driven.output(self.load.admittance(_LOOKED_AT)))
            sound = np.isfinite(plain).all(axis=1) & np.isfinite(heights).all(axis=1)
            resonances = find_resonances(
                GRID, heights[:, :-1], np.abs((plain * drive).sum(axis=1)), self._closer(driven)
            )
        transfers = (plain * self._turns[rows]).tolist()
        levels = heights[:, -1].tolist()
        for number in np.flatnonzero(sound).tolist():
            network = networks[number]
            places = [p for p, b in enumerate(network.branches) if self._is_coil[b]]
            coils = tuple([network.branches[p] for p in places])
            solved = Solved(
                Ladder(self.values, self.load, tree, network.branches, coils),
                {network.branches[p]: transfers[number][p] for p in places},
                drive[number, places],
                resonances[number],
                levels[number],
            )
            yield network, self._voice(network, solved)

    def _drive(self, transfers: Complex, rows: Places) -> Real:
        """Return the EMF of each branch in the polarity that adds, 0 where it is not heard."""
        heard = np.abs(transfers.real * self._turns[rows]) >= AUDIBLE
        return np.where(heard, np.copysign(self._volts[rows], transfers.real), 0.0)

    def _closer(self, coarse: TwoPoles) -> Response:
        """Return the response of networks, each at its own frequencies."""

        def response(rows: Places, hertz: Real) -> Real:
            branches = coarse.rows[rows]
            count = branches.shape[1]
            phasors = self.values.at(branches.ravel(), np.repeat(hertz, count, axis=0))
            own = np.arange(branches.size).reshape(branches.shape)
            network = TwoPoles(coarse.tree, phasors, own, coarse.drive[rows])
            return np.abs(network.output(self.load.admittance(hertz)))

        return response

    def _alone(self, network: Network) -> Voice:
        """Solve one network of any sort by nodal analysis."""
        system = system_of(self.harness, network, self.load)
        modes = modes_of(system)
        coils = np.array(system.coils, np.intp)
        plain = transfers_at(system, REFERENCE_HERTZ)
        drive = self._drive(plain, coils)

        def response(_: Places, hertz: Real) -> Real:
            flat = np.abs(modes.transfers(hertz.ravel()) @ drive)
            return np.asarray(flat.reshape(hertz.shape), np.float64)

        grid = np.union1d(GRID, modes.pole_hertz())
        grid = grid[(grid >= GRID[0]) & (grid <= GRID[-1])]
        one = np.zeros(1, np.intp)
        heights = response(one, grid[np.newaxis, :])
        reference = np.abs(plain @ drive)[np.newaxis]
        transfers = dict(zip(system.coils, (plain * self._turns[coils]).tolist(), strict=True))
        (resonance,) = find_resonances(grid, heights, reference, response)
        level = float(response(one, np.array([[LEVEL_HERTZ]]))[0, 0])
        return self._voice(network, Solved(modes, transfers, drive, resonance, level))

    def _voice(self, network: Network, solved: Solved) -> Voice:
        sounding = {branch for branch, t in solved.transfers.items() if abs(t) >= AUDIBLE}
        heard = bool(solved.drive.any())
        return Voice(
            curve=solved.curve,
            coils=tuple(solved.transfers),
            transfers=solved.transfers,
            structure=self._structure(network, sounding),
            drive=solved.drive,
            resonance=solved.resonance if heard else None,
            level_db=decibel(solved.level) if heard else None,
            loads=tuple(
                sorted([self._load_names[b] for b in network.branches if b not in sounding])
            ),
        )

    def _structure(self, network: Network, sounding: Set[int]) -> Tree | Span | None:
        places = tuple([p for p, b in enumerate(network.branches) if b in sounding])
        if whole_tree(network.ends):
            return coil_tree(network.ends, places)
        rest = [p for p, b in enumerate(network.branches) if b not in sounding]
        rest.sort(key=lambda place: -self._ohms_at_reference[network.branches[place]])
        return coil_structure(network.ends, places, rest)
