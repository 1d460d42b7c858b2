"""What is joined to what in many settings: the arrays that rules and pictures look into."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from wirer.analysis.harness import Harness
from wirer.analysis.liveness import Terminals, terminals, without_dead_ends
from wirer.analysis.nets import Labels, net_labels
from wirer.analysis.network import distinct_rows, encoded, oriented_network
from wirer.analysis.unused import CoilState, coil_states, reached_nets

Mask = NDArray[np.bool_]
Role = Literal["signal", "ground", "dead"]


@dataclass(frozen=True)
class Facts:
    """The nets of many settings and what they carry.

    `labels` (settings, nets) names the net that each fixed net is part of; `live` (settings,
    branches) the branches that carry signal; `ends` the nets at the ends of the branches (None:
    there is no jack). What follows from these is worked out when it is asked for.
    """

    harness: Harness
    labels: Labels
    live: Mask
    ends: Terminals | None

    @cached_property
    def _reached(self) -> tuple[Mask, Mask]:
        if self.ends is None:
            none = np.zeros(self.labels.shape, np.bool_)
            return none, none
        return reached_nets(self.ends, self.live, self.harness.net_count)

    @property
    def signal(self) -> Mask:
        """The nets at signal, dead parts handing on what they hang from: (settings, nets)."""
        return self._reached[0]

    @property
    def ground(self) -> Mask:
        """The nets at ground, through dead parts too: (settings, nets), by label."""
        return self._reached[1]

    @cached_property
    def coils(self) -> NDArray[np.int8]:
        """The state of each coil: shape (settings, coils)."""
        if self.ends is None:
            states = np.full((len(self), len(self.harness.coils)), CoilState.FREE, np.int8)
            states[self.shorted_coils] = CoilState.SHORTED
            return states
        return coil_states(self.harness, self.ends, self.live, self.harness.net_count)

    @cached_property
    def live_coils(self) -> Mask:
        """Which coils carry signal: shape (settings, coils)."""
        return self.live[:, [bool(branch.coil) for branch in self.harness.branches]]

    @cached_property
    def shorted_coils(self) -> Mask:
        """Which coils have both ends on one net and carry no signal: (settings, coils)."""
        coils = [branch for branch in self.harness.branches if branch.coil]
        first = self.labels[:, np.fromiter((b.a for b in coils), np.intp)]
        second = self.labels[:, np.fromiter((b.b for b in coils), np.intp)]
        return np.asarray((first == second) & ~self.live_coils, np.bool_)

    def __len__(self) -> int:
        return len(self.labels)

    def same_net(self, a: int, b: int) -> Mask:
        """Return in which settings two fixed nets are one, shape (settings,)."""
        return np.asarray(self.labels[:, a] == self.labels[:, b], np.bool_)

    def grounded(self, net: int) -> Mask:
        """Return in which settings a fixed net is joined to the jack's sleeve."""
        if self.harness.ground is None:
            return np.zeros(len(self), np.bool_)
        return self.same_net(net, self.harness.ground)

    def on_signal(self, net: int) -> Mask:
        """Return in which settings a fixed net is at signal."""
        return self.signal[np.arange(len(self)), self.labels[:, net]]


def facts_of(harness: Harness, states: Sequence[Sequence[int]]) -> Facts:
    """Return the facts of every combination of switch states, the first switch slowest."""
    labels = net_labels(harness, states)
    if harness.hot is None:
        dead = np.zeros((len(labels), len(harness.branches)), np.bool_)
        return Facts(harness, labels, dead, None)
    ends = terminals(harness, labels)
    alive = without_dead_ends(ends, harness.net_count, harness.couplings)
    rows, which = distinct_rows(encoded(ends, alive))
    live = np.zeros((len(rows), len(harness.branches)), np.bool_)
    for number, row in enumerate(rows):
        network = oriented_network(row.tolist(), harness.couplings).network
        live[number, list(network.path)] = True
    return Facts(harness, labels, live[which], ends)


def resting_states(harness: Harness) -> list[tuple[int, ...]]:
    """Return the positions of every switch: the settings of the combination table."""
    return [switch.resting for switch in harness.switches]


def states_of(harness: Harness, positions: Mapping[str, str]) -> list[tuple[int, ...]]:
    """Return the one state of every switch that a stance has it in."""
    return [(s.positions.index(positions[s.part]),) for s in harness.switches]


def lug_roles(harness: Harness, positions: Mapping[str, str]) -> dict[str, Role]:
    """Return what every lug is in one setting: on signal, on ground, or neither."""
    facts = facts_of(harness, states_of(harness, positions))
    labels = facts.labels[0]
    ground = labels[harness.ground] if harness.ground is not None else -1

    def role(net: int) -> Role:
        if labels[net] == ground:
            return "ground"
        return "signal" if facts.signal[0, labels[net]] else "dead"

    roles = [role(net) for net in range(harness.net_count)]
    return {lug: roles[net] for lug, net in harness.net_of.items()}
