"""A circuit as a meter at the jack sees it, ready to be read with other values of its parts."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from wirer.analysis.harness import Branch, Harness, harness_of
from wirer.analysis.liveness import terminals, without_dead_ends
from wirer.analysis.meter import resistances_of
from wirer.analysis.nets import chosen_labels
from wirer.analysis.network import Network, distinct_rows, encoded, oriented_network
from wirer.circuit.model import Circuit

Ohms = NDArray[np.float64]
"""A resistance for each branch of the harness, in Ω: shape (branches,)."""


@dataclass(frozen=True)
class MeterModel:
    """The networks that a meter sees in chosen settings.

    `which` (settings,) indexes `networks`, of which None is a short from tip to sleeve.
    """

    harness: Harness
    networks: tuple[Network | None, ...]
    which: tuple[int, ...]

    @cached_property
    def ohms(self) -> Ohms:
        """The resistances as the document has them."""
        return np.array([branch.ohm for branch in self.harness.branches], np.float64)

    @property
    def branches(self) -> tuple[Branch, ...]:
        """What direct current passes through."""
        return self.harness.branches

    def reads(self, ohms: Ohms) -> tuple[float | None, ...]:
        """Return what a meter reads of each network with these resistances; None if open."""
        branches = tuple(
            replace(branch, ohm=float(ohm)) for branch, ohm in zip(self.branches, ohms, strict=True)
        )
        networks = [network for network in self.networks if network is not None]
        found = resistances_of(replace(self.harness, branches=branches), networks)
        return tuple(0.0 if network is None else found[network] for network in self.networks)


def meter_model(
    circuit: Circuit, rotations: Mapping[str, float], states: Sequence[Sequence[int]]
) -> MeterModel:
    """Return the meter's model of chosen settings, each a place in every switch's positions."""
    harness = harness_of(circuit, rotations, "meter")
    if harness.hot is None or not states:
        return MeterModel(harness, (Network((), ()),), (0,) * len(states))
    chosen = np.array(states, np.int32).reshape(len(states), len(harness.switches))
    ends = terminals(harness, chosen_labels(harness, chosen))
    alive = without_dead_ends(ends, harness.net_count)
    rows, inverse = distinct_rows(encoded(ends, alive))
    known: dict[Network | None, int] = {}
    places = []
    for row in rows.tolist():
        short = row[0] == row[1]
        network = None if short else oriented_network(row).network
        places.append(known.setdefault(network, len(known)))
    return MeterModel(harness, tuple(known), tuple(places[i] for i in inverse.tolist()))
