"""How loud a circuit is with one shaft turned: what the rules of controls look into."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from wirer.analysis.combinations import CombinationTable
from wirer.analysis.harness import harness_of, with_segments
from wirer.analysis.levels import levels_at, travel_of
from wirer.analysis.system import Load
from wirer.circuit.elements import Track, elements_of
from wirer.circuit.frozen import FrozenMap
from wirer.circuit.model import Circuit

HERTZ = (100.0, 1000.0, 4000.0)
"""Where levels are compared: below a tone control's reach, in the middle, and where it bites."""
FAINT_DB = -120.0
MOST_ROWS = 256

Decibels = NDArray[np.float64]


@dataclass
class Turning:
    """The levels of one setting of each network and pair of pickups, shafts turned one at a time.

    Levels have shape (settings, frequencies), in dB re 1 V, silence at −120 dB.
    """

    circuit: Circuit
    rotations: FrozenMap[str, float]
    load: Load
    table: CombinationTable
    _known: dict[tuple[str, float], Decibels] = field(default_factory=dict)

    @property
    def shafts(self) -> tuple[str, ...]:
        """Every shaft as `PART.shaft`, in part order."""
        return tuple(self.rotations)

    @cached_property
    def rows(self) -> NDArray[np.int64]:
        """One row of the combination table for each network that sounds, up to `MOST_ROWS`.

        Of more networks, those come first that have some coil in some position of some switch.
        """
        table = self.table
        firsts: dict[object, int] = {}
        _, first = np.unique(table.which, return_index=True)
        for row in first.tolist():
            combination = table.combinations[table.which[row]]
            if combination.silent is None:
                firsts.setdefault(combination.network, row)
        rows = np.fromiter(firsts.values(), np.int64)
        return rows if len(rows) <= MOST_ROWS else self._telling(rows)

    def _telling(self, rows: NDArray[np.int64]) -> NDArray[np.int64]:
        table = self.table
        heard = np.array([c.weights for c in table.combinations])[table.which[rows]] != 0
        sizes = [len(choices) for choices in table.positions.values()]
        chosen: dict[int, None] = {}
        for column in np.unravel_index(rows, sizes):
            for position in np.unique(column):
                own = np.flatnonzero(column == position)
                firsts = np.argmax(heard[own], axis=0)[heard[own].any(axis=0)]
                chosen.update(dict.fromkeys(own[firsts].tolist()))
        chosen.update(dict.fromkeys(range(len(rows))))
        return rows[sorted(list(chosen)[:MOST_ROWS])]

    @cached_property
    def states(self) -> NDArray[np.int32]:
        """The position of each switch in those rows: shape (settings, switches)."""
        sizes = [len(choices) for choices in self.table.positions.values()]
        if not sizes:
            return np.zeros((len(self.rows), 0), np.int32)
        return np.array(np.unravel_index(self.rows, sizes), np.int32).T.reshape(-1, len(sizes))

    @cached_property
    def full(self) -> Decibels:
        """The levels with every shaft at its full position."""
        return self._levels(self.rotations)

    def turned(self, shaft: str, rotation: float) -> Decibels:
        """Return the levels with one shaft turned to a rotation."""
        if rotation == self.rotations[shaft]:
            return self.full
        key = shaft, rotation
        if key not in self._known:
            rotations = self.rotations.having(shaft, rotation)
            self._known[key] = self._levels(rotations)
        return self._known[key]

    def down(self, shaft: str) -> Decibels:
        """Return the levels with one shaft at the other end of its turn."""
        return self.turned(shaft, 0.0 if self.rotations[shaft] > 0 else 1.0)

    def travel(self, shaft: str, row: int, rotations: Decibels) -> Decibels:
        """Return the level at 100 Hz of one of the settings over the rotations of a shaft."""
        part, _, name = shaft.partition(".")
        tracks = [
            e
            for e in elements_of(self.circuit, self.circuit.part_by_id[part])
            if isinstance(e, Track) and e.shaft == name
        ]
        base = harness_of(self.circuit, self.rotations.having(shaft, 0.4))
        harnesses = []
        for rotation in rotations.tolist():
            turned = base
            for track in tracks:
                turned = with_segments(turned, track, rotation)
            harnesses.append(turned)
        volts = travel_of(base, harnesses, self.load, self.states[[row]], HERTZ[0])
        return _decibels(volts)

    def _levels(self, rotations: Mapping[str, float]) -> Decibels:
        return self._at(rotations, self.states, HERTZ)

    def _at(
        self, rotations: Mapping[str, float], states: NDArray[np.int32], hertz: Sequence[float]
    ) -> Decibels:
        volts = levels_at(self.circuit, rotations, self.load, states, hertz)
        return _decibels(volts)


def _decibels(volts: Decibels) -> Decibels:
    return np.asarray(20 * np.log10(np.maximum(volts, 10 ** (FAINT_DB / 20))), np.float64)
