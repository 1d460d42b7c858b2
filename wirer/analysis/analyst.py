"""The analyst: works settings of one circuit out, each different network only once."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from functools import cached_property
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from wirer.analysis.harness import Harness, harness_of
from wirer.analysis.liveness import terminals, without_dead_ends
from wirer.analysis.meter import resistance_of
from wirer.analysis.nets import Labels, net_labels
from wirer.analysis.network import Network, Oriented, distinct_rows, encoded, oriented_network
from wirer.analysis.reduction import Span
from wirer.analysis.resonance import Resonance
from wirer.analysis.sound import Sound, sound_of
from wirer.analysis.system import Load
from wirer.analysis.unused import CoilState, coil_states
from wirer.analysis.voice import AUDIBLE, Voice, voice_of
from wirer.circuit.model import Circuit
from wirer.circuit.quantity import parse_quantity
from wirer.circuit.stance import positions_in_use

Silence = Literal["shorted", "faint", "open"]

SHORT_OHM = 1.0
NEARLY = 0.1
"""Below this share of what they would add up to, signals or hum count as cancelled."""


@dataclass(frozen=True)
class Combination:
    """What settings do to the pickups. Every value is in SI units or dB.

    `weights` and `states` are by coil, in part order; `sound`, `hum`, `resonance` and `level_db`
    are None in silence. `voice` is the solved network (None: nothing carries signal), `reversed`
    the branches that lie the other way round in it.
    """

    sound: Sound | None
    weights: tuple[float, ...]
    hum: float | None
    silent: Silence | None
    resistance: float | None
    states: tuple[CoilState, ...]
    voice: Voice | None
    network: Network | None
    reversed: frozenset[int]

    @property
    def resonance(self) -> Resonance | None:
        """Where the response peaks, if it does."""
        return self.voice.resonance if self.voice and not self.silent else None

    @property
    def level_db(self) -> float | None:
        """The response at 1 kHz in dB re 1 V."""
        return self.voice.level_db if self.voice and not self.silent else None

    @property
    def identity(self) -> object:
        """What makes two combinations the same: sound and loads, or the kind of silence."""
        if self.silent:
            return self.silent
        return self.sound, self.voice.loads if self.voice else ()

    @cached_property
    def remarks(self) -> tuple[str, ...]:
        """The remarks of the table's JSON, in its order."""
        weights = [w for w in self.weights if abs(w) >= AUDIBLE]
        gross = sum(map(abs, weights))
        hung = CoilState.HUNG_FROM_SIGNAL in self.states
        bridge = self.voice is not None and isinstance(self.voice.structure, Span)
        several = self.sound is not None and len(self.sound.coils) > 1
        found = {
            "hum-cancelling": several and self.hum is not None and self.hum < NEARLY,
            "out-of-phase": bool(weights) and min(weights) < 0 < max(weights),
            "cancelling": bool(weights) and abs(sum(weights)) < NEARLY * gross,
            "hung-from-signal": hung,
            "bridge": bridge,
        }
        loud = {"hung-from-signal"} if self.silent else set(found)
        return tuple(name for name, holds in found.items() if holds and name in loud)


@dataclass
class Analyst:
    """A circuit in one rotation of its shafts, with what has been worked out of it so far."""

    circuit: Circuit
    rotations: Mapping[str, float]
    combinations: list[Combination] = field(default_factory=list)
    _index: dict[tuple[object, ...], int] = field(default_factory=dict)
    _voices: dict[Network, Voice] = field(default_factory=dict)
    _ohms: dict[Network, float | None] = field(default_factory=dict)
    _oriented: dict[tuple[str, bytes], Oriented] = field(default_factory=dict)

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
    def whole(self) -> dict[str, tuple[str, ...]]:
        """The coils of each part that has several."""
        names: dict[str, list[str]] = {}
        for coil in self.signal.coils:
            names.setdefault(coil.part, []).append(coil.name)
        return {part: tuple(coils) for part, coils in names.items() if len(coils) > 1}

    def survey(self, states: Sequence[Sequence[int]]) -> NDArray[np.int32]:
        """Work out every combination of switch states, the first switch slowest.

        Returns the index into `combinations` of each, shape (settings,).
        """
        count = int(np.prod([len(chosen) for chosen in states], dtype=np.int64))
        if self.signal.hot is None:
            return np.full(count, self._entry(("no jack",), None, None, ()), np.int32)
        labels = net_labels(self.signal, states)
        code, which, dead = self._networks(self.signal, labels, "signal")
        meter_labels = net_labels(self.metered, states)
        meter_code, meter_which, _ = self._networks(self.metered, meter_labels, "meter")
        key = np.column_stack((which, meter_which, dead)).astype(np.int32)
        _, first, inverse = np.unique(
            key.view(np.dtype((np.void, key.shape[1] * key.itemsize)))[:, 0],
            return_index=True,
            return_inverse=True,
        )
        entries = np.empty(len(first), np.int32)
        for number, row in enumerate(first):
            oriented, ohms = code[which[row]], meter_code[meter_which[row]]
            states_of_coils = tuple(map(CoilState, dead[row].tolist()))
            name = (oriented, ohms.network, states_of_coils, self._is_short(meter_labels[row]))
            entries[number] = self._entry(name, oriented, ohms, states_of_coils)
        return entries[inverse]

    def _is_short(self, labels: NDArray[np.int32]) -> bool:
        return bool(labels[self.metered.hot] == labels[self.metered.ground])

    def _networks(
        self, harness: Harness, labels: Labels, view: str
    ) -> tuple[list[Oriented], NDArray[np.intp], NDArray[np.int8]]:
        """Return the different networks, which one each setting has, and its coils' states."""
        coupled = harness.couplings if view == "signal" else ()
        ends = terminals(harness, labels)
        alive = without_dead_ends(ends, harness.net_count, coupled)
        rows, which = distinct_rows(encoded(ends, alive))
        networks = [self._read(view, row, coupled) for row in rows]
        live = np.zeros((len(networks), len(harness.branches)), np.bool_)
        for number, oriented in enumerate(networks):
            live[number, list(oriented.network.branches)] = True
        if view == "meter":
            return networks, which, np.empty((len(labels), 0), np.int8)
        return networks, which, coil_states(harness, ends, live[which], harness.net_count)

    def _read(
        self, view: str, row: NDArray[np.int16], coupled: tuple[tuple[int, int], ...]
    ) -> Oriented:
        name = view, row.tobytes()
        if name not in self._oriented:
            self._oriented[name] = oriented_network(row.tolist(), coupled)
        return self._oriented[name]

    def _entry(
        self,
        name: tuple[object, ...],
        signal: Oriented | None,
        meter: Oriented | None,
        states: tuple[CoilState, ...],
    ) -> int:
        if name not in self._index:
            self._index[name] = len(self.combinations)
            shorted = bool(name[-1]) if signal else False
            self.combinations.append(self._combination(signal, meter, states, shorted=shorted))
        return self._index[name]

    def voice(self, network: Network) -> Voice:
        """Return a network solved, which is done once."""
        if network not in self._voices:
            self._voices[network] = voice_of(self.signal, network, self.load)
        return self._voices[network]

    def _resistance(self, network: Network) -> float | None:
        if network not in self._ohms:
            self._ohms[network] = resistance_of(self.metered, network)
        return self._ohms[network]

    def _combination(
        self,
        signal: Oriented | None,
        meter: Oriented | None,
        states: tuple[CoilState, ...],
        *,
        shorted: bool,
    ) -> Combination:
        network = signal.network if signal and signal.network.branches else None
        voice = self.voice(network) if network else None
        turned = signal.reversed if signal else frozenset()
        transfers = {
            branch: -t if branch in turned else t
            for branch, t in (voice.transfers.items() if voice else ())
        }
        resistance = 0.0 if shorted else self._resistance(meter.network) if meter else None
        weights = self._weights(transfers)
        silent = _silence(weights, resistance, live=bool(transfers))
        return Combination(
            sound=None if silent or voice is None else self._sound(voice, turned),
            weights=weights,
            hum=None if silent else self._hum(transfers),
            silent=silent,
            resistance=resistance,
            states=states or (CoilState.FREE,) * len(self.signal.coils),
            voice=voice,
            network=network,
            reversed=turned,
        )

    def _weights(self, transfers: Mapping[int, complex]) -> tuple[float, ...]:
        return tuple(
            transfers.get(index, 0j).real * branch.coil.winding * branch.coil.pole
            for index, branch in enumerate(self.signal.branches)
            if branch.coil
        )

    def _hum(self, transfers: Mapping[int, complex]) -> float:
        heard = [
            t * coil.winding
            for index, t in transfers.items()
            if abs(t) >= AUDIBLE and (coil := self.signal.branches[index].coil)
        ]
        gross = sum(map(abs, heard))
        return abs(sum(heard)) / gross if gross else 0.0

    def _sound(self, voice: Voice, turned: frozenset[int]) -> Sound | None:
        if voice.structure is None:
            return None
        coils = {i: b.coil for i, b in enumerate(self.signal.branches) if b.coil}
        signs = {i: coil.sign * (-1 if i in turned else 1) for i, coil in coils.items()}
        return sound_of(voice.structure, signs, coils, self.whole)


def _silence(weights: tuple[float, ...], resistance: float | None, *, live: bool) -> Silence | None:
    if any(abs(weight) >= AUDIBLE for weight in weights):
        return None
    if resistance is not None and resistance < SHORT_OHM:
        return "shorted"
    return "faint" if live else "open"
