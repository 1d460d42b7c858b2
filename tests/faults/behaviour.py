"""What a circuit does, as far as anyone could hear, feel or measure it: to tell slips apart."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property
from typing import Literal

import networkx as nx
import numpy as np

from wirer.analysis.analyst import Analyst
from wirer.analysis.combination import Combination
from wirer.analysis.combinations import CombinationTable, table_of
from wirer.analysis.facts import Facts, facts_of, resting_states
from wirer.analysis.harness import harness_of
from wirer.analysis.levels import levels_at
from wirer.circuit.elements import Bond, Cell, circuit_elements
from wirer.circuit.model import Circuit
from wirer.circuit.stance import default_rotations

Class = Literal["harmless", "other", "permutes", "sounds"]
"""What a slip changes: nothing; something, but no sound; which setting gives which; the sounds."""

HERTZ = (100.0, 1000.0, 4000.0)


@dataclass(frozen=True)
class Behaviour:
    """One circuit, every shaft at its full position unless turning is what is asked about."""

    circuit: Circuit

    @cached_property
    def analyst(self) -> Analyst:
        return Analyst(self.circuit, default_rotations(self.circuit))

    @cached_property
    def table(self) -> CombinationTable:
        return table_of(self.analyst)

    @cached_property
    def joints(self) -> frozenset[frozenset[str]]:
        """The lugs, and the screens, that are joined wherever switches and shafts stand."""
        graph = nx.Graph()
        graph.add_nodes_from(self.circuit.lugs)
        for wire in self.circuit.wires:
            graph.add_edge(*wire.ends)
            if wire.style == "screened":
                screen = f"screen of {wire.id}"
                graph.add_node(screen)
                ends = wire.screen_from, wire.screen_to
                graph.add_edges_from((screen, lug) for lug in ends if lug)
        for element in circuit_elements(self.circuit):
            if isinstance(element, Bond):
                nx.add_path(graph, element.lugs)
        return frozenset(map(frozenset, nx.connected_components(graph)))

    @cached_property
    def sounds(self) -> list[object]:
        """How the coils are joined in each setting; silence is one sound."""
        each = [c.sound if c.silent is None else "silent" for c in self.table.combinations]
        bridges = [c if c is not None else "none" for c in each]
        return [bridges[i] for i in self.table.which.tolist()]

    @cached_property
    def readings(self) -> list[tuple[object, ...]]:
        """What a meter, a response and an ear tell of each setting."""
        each = [_reading(c) for c in self.table.combinations]
        return [each[i] for i in self.table.which.tolist()]

    @cached_property
    def joined(self) -> tuple[object, ...]:
        """What metal, screens and batteries are joined to, and what becomes of unused coils."""
        harness = self.analyst.signal
        facts = facts_of(harness, resting_states(harness))
        found: list[object] = [facts.coils.tobytes()]
        for lug in self._watched():
            net = harness.net_of[lug]
            found.append((facts.grounded(net).tobytes(), facts.on_signal(net).tobytes()))
        return (*found, *self._batteries())

    def _watched(self) -> Iterator[str]:
        for part in self.circuit.parts:
            for lug in self.circuit.kind_of(part).lugs:
                if lug.metal:
                    yield f"{part.id}.{lug.name}"
        for wire in self.circuit.wires:
            yield from (lug for lug in (wire.screen_from, wire.screen_to) if lug)

    def _batteries(self) -> Iterator[object]:
        cells = [e for e in circuit_elements(self.circuit) if isinstance(e, Cell)]
        for view in ("meter", "unplugged") if cells else ():
            harness = harness_of(self.circuit, self.analyst.rotations, view)
            facts = facts_of(harness, resting_states(harness))
            for cell in cells:
                nets = [harness.net_of[lug] for lug in (cell.plus, cell.minus)]
                yield [facts.labels[:, net].tobytes() for net in nets]

    @cached_property
    def turned(self) -> np.ndarray:
        """The level of every setting in dB at three frequencies, with all shafts low, then high.

        No shaft is at a stop, and no two of six are turned alike.
        """
        return np.concatenate([self._turned(least) for least in (0.2, 0.55)])

    def _turned(self, least: float) -> np.ndarray:
        shafts = default_rotations(self.circuit)
        rotations = {shaft: least + 0.07 * (i % 6) for i, shaft in enumerate(shafts)}
        sizes = [len(choices) for choices in self.table.positions.values()]
        rows = np.arange(len(self.table))
        states = np.array(np.unravel_index(rows, sizes), np.int32).T if sizes else np.zeros((1, 0))
        volts = levels_at(
            self.circuit, rotations, self.analyst.load, states.astype(np.int32), HERTZ
        )
        return np.asarray(20 * np.log10(np.maximum(volts, 1e-9)))

    @cached_property
    def half_way(self) -> tuple[bytes, ...]:
        """What lives, is shorted or lies on ground with one switch between two positions."""
        harness = self.analyst.signal
        found = []
        for column, switch in enumerate(harness.switches):
            for state in switch.moving:
                states = resting_states(harness)
                states[column] = (state,)
                facts = facts_of(harness, states)
                found += [facts.coils.tobytes(), _shorted(facts)]
        return tuple(found)


def _shorted(facts: Facts) -> bytes:
    hot, ground = facts.harness.hot, facts.harness.ground
    return facts.same_net(hot, ground).tobytes() if hot is not None and ground is not None else b""


def _reading(combination: Combination) -> tuple[object, ...]:
    voice = combination.voice if combination.silent is None else None
    loads = sorted(voice.loads) if voice else ()
    level = round(combination.level_db, 4) if combination.level_db is not None else None
    peak = round(combination.resonance.hertz, 1) if combination.resonance else None
    ohm = combination.resistance
    return (
        combination.silent,
        tuple(loads),
        None if ohm is None else float(f"{ohm:.6g}"),
        None if combination.hum is None else round(combination.hum, 6),
        level,
        peak,
    )


def class_of(right: Behaviour, slipped: Behaviour) -> Class:
    """Return what a slip changes."""
    same_values = right.circuit.parts == slipped.circuit.parts
    if same_values and right.joints == slipped.joints:
        return "harmless"
    if right.sounds != slipped.sounds:
        return "permutes" if set(right.sounds) == set(slipped.sounds) else "sounds"
    return "harmless" if _alike(right, slipped) else "other"


def _alike(right: Behaviour, slipped: Behaviour) -> bool:
    return (
        right.readings == slipped.readings
        and right.joined == slipped.joined
        and np.allclose(right.turned, slipped.turned, atol=1e-3)
        and right.half_way == slipped.half_way
    )
