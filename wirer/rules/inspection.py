"""An inspection: one circuit with all that rules look into, each worked out once, when asked."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from functools import cached_property

import networkx as nx
import numpy as np
from numpy.typing import NDArray

from wirer.analysis.analyst import Analyst
from wirer.analysis.combinations import CombinationTable, Progress, setting_count, table_of
from wirer.analysis.facts import Facts, Mask, facts_of, resting_states
from wirer.analysis.harness import Harness, View, harness_of
from wirer.analysis.switches import position_groups
from wirer.analysis.unused import CoilState
from wirer.circuit.errors import WirerError
from wirer.circuit.frozen import FrozenMap
from wirer.circuit.kind import Kind, Lug
from wirer.circuit.model import Circuit, Part, split_lug
from wirer.circuit.stance import default_rotations
from wirer.layout.placement import Placement, place_parts
from wirer.rules.tracing import Tracing
from wirer.rules.turning import Turning

MOST_SETTINGS = 2**16


class TooManyToCheckError(WirerError):
    """A circuit with more settings than rules look through."""


@dataclass
class Inspection:
    """A circuit before the rules, every shaft at its full position (a blend in its middle)."""

    circuit: Circuit
    progress: Progress | None = None

    def __post_init__(self) -> None:
        count = setting_count(self.circuit)
        if count > MOST_SETTINGS:
            raise TooManyToCheckError(
                f"the switches have {count:,} settings; the rules look through "
                f"at most {MOST_SETTINGS:,}"
            )

    @cached_property
    def backward_shafts(self) -> tuple[str, ...]:
        """The shafts (`PART.shaft`) that let more coils sound turned down than turned up."""
        usual = default_rotations(self.circuit)
        return tuple(
            shaft
            for shaft in _suspects(self.circuit, usual)
            if _heard(self.circuit, usual.having(shaft, 0.0)) > _heard(self.circuit, usual)
            and _reads(self.circuit, usual.having(shaft, 0.0)) > _reads(self.circuit, usual)
        )

    @cached_property
    def rotations(self) -> FrozenMap[str, float]:
        """Every shaft at its full position; one that works backwards at the other end."""
        usual = default_rotations(self.circuit)
        return FrozenMap({**usual, **dict.fromkeys(self.backward_shafts, 0.0)})

    @cached_property
    def analyst(self) -> Analyst:
        """The circuit's analyst."""
        return Analyst(self.circuit, self.rotations)

    @cached_property
    def turning(self) -> Turning:
        """The circuit's levels over the rotation of its shafts."""
        return Turning(self.circuit, self.rotations, self.analyst.load, self.table)

    @cached_property
    def tracing(self) -> Tracing:
        """The wiring to follow lug by lug."""
        return Tracing(self.circuit, self.rotations)

    @cached_property
    def output_lugs(self) -> tuple[str, ...]:
        """The tip and the sleeve of the jack that is analysed, if there is one."""
        for jack in self.circuit.jacks[:1]:
            output = self.circuit.kind_of(jack).output
            if output:
                return f"{jack.id}.{output.tip}", f"{jack.id}.{output.sleeve}"
        return ()

    @cached_property
    def unwired_lugs(self) -> tuple[str, ...]:
        """The lugs that their parts can't do without and that have no wire, though others have."""
        found = []
        for part in self.circuit.parts:
            lugs = {f"{part.id}.{lug.name}": lug for lug in self.kind(part.id).lugs}
            if any(self.wires_at[lug] for lug in lugs):
                found += [r for r, lug in lugs.items() if lug.needed and not self.wires_at[r]]
        return tuple(found)

    @cached_property
    def lost_coils(self) -> tuple[int, ...]:
        """The coils, by index, that sound in no setting while others do."""
        if self.silent.all():
            return ()
        live = np.any(self.coil_states == CoilState.LIVE, axis=0)
        heard = np.any(self.sounding, axis=0)
        return tuple(
            index
            for index, coil in enumerate(self.harness.coils)
            if not heard[index] and not (coil.pole == 0 and live[index])
        )

    @cached_property
    def part_turned(self) -> Facts:
        """The nets of every setting with every shaft away from its stops and its detent."""
        harness = harness_of(self.circuit, dict.fromkeys(self.rotations, 0.4))
        return facts_of(harness, resting_states(harness))

    @cached_property
    def metered(self) -> Facts:
        """The nets of every setting with batteries taken out."""
        harness = self.analyst.metered
        return facts_of(harness, resting_states(harness))

    @property
    def harness(self) -> Harness:
        """The circuit as signals see it."""
        return self.analyst.signal

    @cached_property
    def table(self) -> CombinationTable:
        """The combination table."""
        return table_of(self.analyst, self.progress)

    @cached_property
    def facts(self) -> Facts:
        """The nets of every setting, in the table's order."""
        return facts_of(self.harness, resting_states(self.harness))

    @cached_property
    def silent(self) -> Mask:
        """In which settings nothing sounds, shape (settings,)."""
        return self.over_rows(lambda combination: combination.silent is not None)

    @cached_property
    def coil_states(self) -> NDArray[np.int8]:
        """The state of each coil in each setting: shape (settings, coils), of `CoilState`."""
        return self.facts.coils

    @cached_property
    def sounding(self) -> Mask:
        """In which settings each coil sounds: shape (settings, coils)."""
        weights = np.array([c.weights for c in self.table.combinations]).reshape(
            len(self.table.combinations), len(self.table.coils)
        )
        sounding: Mask = np.abs(weights) >= 1e-3
        return sounding[self.table.which]

    def over_rows(self, holds: Callable[..., bool]) -> Mask:
        """Return in which settings something holds of the combination, shape (settings,)."""
        each = np.array([holds(c) for c in self.table.combinations], np.bool_)
        return np.asarray(each[self.table.which], np.bool_)

    @cached_property
    def placements(self) -> Mapping[str, Placement]:
        """Where each part lies in the wiring view."""
        return place_parts(self.circuit)

    @cached_property
    def wires_at(self) -> Mapping[str, tuple[str, ...]]:
        """The wires soldered to each lug, their screens counted too."""
        at: dict[str, list[str]] = {lug: [] for lug in self.circuit.lugs}
        for wire in self.circuit.wires:
            for lug in (*wire.ends, wire.screen_from, wire.screen_to):
                if lug is not None:
                    at[lug].append(wire.id)
        return {lug: tuple(wires) for lug, wires in at.items()}

    def net(self, lug: str) -> int:
        """Return the fixed net of a lug."""
        return self.harness.net_of[lug]

    def lug(self, reference: str) -> Lug:
        """Return the lug of a kind that `PART.lug` is an instance of."""
        part, name = split_lug(reference)
        found = self.kind(part).lug(name)
        if found is None:
            raise KeyError(reference)
        return found

    def part(self, part_id: str) -> Part:
        """Return a part."""
        return self.circuit.part_by_id[part_id]

    def kind(self, part_id: str) -> Kind:
        """Return the kind of a part."""
        return self.circuit.kind_of(self.part(part_id))

    def soldered_to(self, lug: str) -> tuple[str, ...]:
        """Return the lugs that wires and bonds join to a lug, itself first."""
        net = self.harness.net_of[lug]
        others = (other for other in self.wires_at if self.harness.net_of[other] == net)
        return tuple(dict.fromkeys((lug, *others)))

    def poles(self, part_id: str) -> tuple[tuple[str, ...], ...]:
        """Return the poles of a switch: lugs that its contacts can join, apart from the others."""
        graph = nx.Graph()
        for groups in position_groups(self.circuit, self.part(part_id)).values():
            for group in groups:
                nx.add_path(graph, sorted(group))
        return tuple(tuple(sorted(pole)) for pole in nx.connected_components(graph))

    @cached_property
    def metals(self) -> tuple[str, ...]:
        """Every lug of exposed or screening metal, the output jack's sleeve left out."""
        sleeves = {
            f"{jack.id}.{output.sleeve}"
            for jack in self.circuit.jacks
            if (output := self.circuit.kind_of(jack).output)
        }
        return tuple(
            f"{part.id}.{lug.name}"
            for part in self.circuit.parts
            for lug in self.circuit.kind_of(part).lugs
            if lug.metal and f"{part.id}.{lug.name}" not in sleeves
        )


def _suspects(circuit: Circuit, rotations: Mapping[str, float]) -> Iterator[str]:
    """Yield every shaft if some coil carries signal in no setting, else none."""
    live = _live(circuit, rotations)
    if not live.any(axis=0).all():
        yield from rotations


def _heard(circuit: Circuit, rotations: Mapping[str, float]) -> int:
    return int(np.count_nonzero(_live(circuit, rotations)))


def _reads(circuit: Circuit, rotations: Mapping[str, float]) -> int:
    """Return in how many settings a meter at the jack reads some coil, past any capacitor."""
    return int(np.count_nonzero(_live(circuit, rotations, "meter").any(axis=1)))


def _live(circuit: Circuit, rotations: Mapping[str, float], view: View = "signal") -> Mask:
    harness = harness_of(circuit, rotations, view)
    facts = facts_of(harness, resting_states(harness))
    return np.asarray(facts.coils == CoilState.LIVE, np.bool_)
