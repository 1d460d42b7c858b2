"""The analyst: works settings of one circuit out, each different network only once."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from wirer.analysis.combination import Combination, silence_of
from wirer.analysis.harness import Harness, harness_of
from wirer.analysis.liveness import Terminals, terminals, without_dead_ends
from wirer.analysis.meter import resistances_of
from wirer.analysis.nets import net_labels
from wirer.analysis.network import Network, Oriented, distinct_rows, encoded, oriented_network
from wirer.analysis.solver import Solver
from wirer.analysis.sound import Sound, sound_of
from wirer.analysis.system import Load
from wirer.analysis.unused import CoilState, coil_states
from wirer.analysis.voice import AUDIBLE, Voice
from wirer.circuit.model import Circuit
from wirer.circuit.quantity import parse_quantity
from wirer.circuit.stance import positions_in_use

__all__ = ["Analyst", "Combination"]

_STATES = tuple(CoilState)
_NOTHING = Oriented(Network((), ()), frozenset())


@dataclass(frozen=True, slots=True)
class _Case:
    """What a combination depends on: its networks and what becomes of its coils."""

    signal: Oriented
    meter: Network
    shorted: bool
    states: tuple[CoilState, ...]


@dataclass
class Analyst:
    """A circuit in one rotation of its shafts, with what has been worked out of it so far."""

    circuit: Circuit
    rotations: Mapping[str, float]
    combinations: list[Combination] = field(default_factory=list)
    _index: dict[_Case, int] = field(default_factory=dict)
    _voices: dict[Network, Voice] = field(default_factory=dict)
    _ohms: dict[Network, float | None] = field(default_factory=dict)

    @staticmethod
    def positions_of(circuit: Circuit) -> dict[str, tuple[str, ...]]:
        """Return the positions in use of every actuator, in part order."""
        return {p.id: positions_in_use(circuit.kind_of(p), p) for p in circuit.switches}

    @cached_property
    def signal(self) -> Harness:
        """The harness as signals see it."""
        return harness_of(self.circuit, self.rotations, "signal")

    @cached_property
    def metered(self) -> Harness:
        """The harness as the meter sees it."""
        return harness_of(self.circuit, self.rotations, "meter")

    @cached_property
    def load(self) -> Load:
        """What the jack is plugged into."""
        load = self.circuit.output_load
        return Load(
            parse_quantity(load.cable, "capacitance"), parse_quantity(load.input, "resistance")
        )

    @cached_property
    def solver(self) -> Solver:
        """What solves the networks."""
        return Solver(self.signal, self.load)

    @cached_property
    def whole(self) -> dict[str, tuple[str, ...]]:
        """The coils of each part that has several."""
        names: dict[str, list[str]] = {}
        for coil in self.signal.coils:
            names.setdefault(coil.part, []).append(coil.name)
        return {part: tuple(coils) for part, coils in names.items() if len(coils) > 1}

    @cached_property
    def _column(self) -> dict[int, int]:
        """The place of each coil among the coils, by branch."""
        coils = (i for i, branch in enumerate(self.signal.branches) if branch.coil)
        return {branch: column for column, branch in enumerate(coils)}

    def survey(self, states: Sequence[Sequence[int]]) -> NDArray[np.int32]:
        """Work out every combination of switch states, the first switch slowest.

        Returns the index into `combinations` of each, shape (settings,).
        """
        if self.signal.hot is None:
            count = int(np.prod([len(chosen) for chosen in states], dtype=np.int64))
            free = (CoilState.FREE,) * len(self.signal.coils)
            case = _Case(_NOTHING, _NOTHING.network, shorted=False, states=free)
            return np.full(count, self._entries([case])[0], np.int32)
        cases, which = self._cases(states)
        return np.array(self._entries(cases), np.int32)[which]

    def _cases(self, states: Sequence[Sequence[int]]) -> tuple[list[_Case], NDArray[np.intp]]:
        """Return the different cases, and for each setting which it is."""
        labels = net_labels(self.signal, states)
        ends = terminals(self.signal, labels)
        networks, which = _networks(self.signal, ends, self.signal.couplings)
        live = np.zeros((len(networks), len(self.signal.branches)), np.bool_)
        for number, oriented in enumerate(networks):
            live[number, list(oriented.network.path)] = True
        coils = coil_states(self.signal, ends, live[which], self.signal.net_count)
        kinds_of_coils, which_coils = _distinct(coils)
        meter_ends = terminals(self.metered, net_labels(self.metered, states))
        metered, which_meter = _networks(self.metered, meter_ends)
        shorted = meter_ends.hot == meter_ends.ground
        key = (which * len(metered) + which_meter) * len(kinds_of_coils) + which_coils
        _, first, inverse = np.unique(key * 2 + shorted, return_index=True, return_inverse=True)
        named = [tuple([_STATES[state] for state in row]) for row in kinds_of_coils.tolist()]
        cases = [
            _Case(networks[a], metered[b].network, short, named[c])
            for a, b, c, short in zip(
                which[first].tolist(),
                which_meter[first].tolist(),
                which_coils[first].tolist(),
                shorted[first].tolist(),
                strict=True,
            )
        ]
        return cases, inverse

    def _entries(self, cases: Iterable[_Case]) -> list[int]:
        """Return the index into `combinations` of each case, the new ones worked out together."""
        indices: list[int] = []
        new: list[_Case] = []
        for case in cases:
            index = self._index.setdefault(case, len(self._index))
            if index == len(self.combinations) + len(new):
                new.append(case)
            indices.append(index)
        self._solve(case.signal.network for case in new)
        unread = dict.fromkeys(case.meter for case in new if case.meter not in self._ohms)
        self._ohms.update(resistances_of(self.metered, unread))
        self.combinations += map(self._combination, new)
        return indices

    def _solve(self, networks: Iterable[Network]) -> None:
        new = dict.fromkeys(n for n in networks if n.branches and n not in self._voices)
        self._voices.update(self.solver.voices(new))

    def voice(self, network: Network) -> Voice:
        """Return a network solved, which is done once."""
        self._solve([network])
        return self._voices[network]

    def _combination(self, case: _Case) -> Combination:
        network, turned = case.signal.network, case.signal.reversed
        voice = self._voices[network] if network.branches else None
        transfers = dict(voice.transfers) if voice else {}
        for branch in turned & transfers.keys():
            transfers[branch] = -transfers[branch]
        resistance = 0.0 if case.shorted else self._ohms[case.meter]
        weights = self._weights(transfers)
        silent = silence_of(weights, resistance, reaching=bool(transfers))
        return Combination(
            sound=None if silent or voice is None else self._sound(voice, case.signal),
            weights=weights,
            hum=None if silent else self._hum(transfers),
            silent=silent,
            resistance=resistance,
            states=case.states,
            voice=voice,
            network=network if voice else None,
            reversed=turned,
        )

    def _weights(self, transfers: Mapping[int, complex]) -> tuple[float, ...]:
        weights = [0.0] * len(self._column)
        for branch, transfer in transfers.items():
            if coil := self.signal.branches[branch].coil:
                weights[self._column[branch]] = transfer.real * coil.winding * coil.pole
        return tuple(weights)

    def _hum(self, transfers: Mapping[int, complex]) -> float:
        heard = [
            transfer * coil.winding
            for branch, transfer in transfers.items()
            if abs(transfer) >= AUDIBLE and (coil := self.signal.branches[branch].coil)
        ]
        gross = sum(map(abs, heard))
        return abs(sum(heard)) / gross if gross else 0.0

    def _sound(self, voice: Voice, oriented: Oriented) -> Sound | None:
        if voice.structure is None:
            return None
        coils: dict[int, tuple[int, str]] = {}
        signs: dict[int, int] = {}
        for place, branch in enumerate(oriented.network.branches):
            if coil := self.signal.branches[branch].coil:
                coils[place] = branch, coil.name
                signs[place] = -coil.sign if branch in oriented.reversed else coil.sign
        return sound_of(voice.structure, coils, signs, self.whole)


def _networks(
    harness: Harness, ends: Terminals, coupled: tuple[tuple[int, int], ...] = ()
) -> tuple[list[Oriented], NDArray[np.intp]]:
    """Return the different networks of settings, and for each setting which it is."""
    alive = without_dead_ends(ends, harness.net_count, coupled)
    rows, which = distinct_rows(encoded(ends, alive))
    return [oriented_network(row, coupled) for row in rows.tolist()], which


def _distinct(states: NDArray[np.int8]) -> tuple[NDArray[np.int8], NDArray[np.intp]]:
    if not states.shape[1]:
        return states[:1], np.zeros(len(states), np.intp)
    whole = np.ascontiguousarray(states).view(np.dtype((np.void, states.shape[1])))[:, 0]
    _, index, inverse = np.unique(whole, return_index=True, return_inverse=True)
    return states[index], inverse
