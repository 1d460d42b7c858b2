"""Resistors that stand in for the coils, so that a harness can be metered before they go in."""

from __future__ import annotations

from collections.abc import Hashable, Iterator, Sequence
from dataclasses import dataclass
from itertools import combinations, islice

import numpy as np

from wirer.analysis.combination import Combination
from wirer.analysis.sound import BridgeSound, CoilSound, SoundTree
from wirer.circuit.model import Circuit
from wirer.papers.bench.bands import Band, bands
from wirer.papers.bench.meter_model import MeterModel, Ohms
from wirer.papers.bench.spread import Spread, spread_of

CUSTOMARY_OHM = (1e3, 2.2e3, 4.7e3, 10e3, 22e3, 47e3)
OTHERS_OHM = (1e3, 1.5e3, 2.2e3, 3.3e3, 4.7e3, 6.8e3, 10e3, 15e3, 22e3, 33e3, 47e3, 68e3)
"""Values of the series E6 (IEC 60063): every second one is tried first."""

PRECISION = Spread(0.99, 1.01)
MOST_TRIES = 60


@dataclass(frozen=True, slots=True)
class StandIn:
    """A resistor clipped in place of coils that can't be told apart from outside.

    `coils` are their names, `lugs` the lugs it is clipped between.
    """

    coils: tuple[str, ...]
    lugs: tuple[str, ...]
    ohm: float


@dataclass(frozen=True, slots=True)
class Trial:
    """Stand-ins with the band of each network of the model.

    `confused` are pairs of networks that join the coils in different ways and could read alike; a
    network paired with itself does so of itself, as where a capacitor keeps the meter out.
    """

    stand_ins: tuple[StandIn, ...]
    bands: tuple[Band, ...]
    confused: tuple[tuple[int, int], ...]


def stand_in_trial(
    circuit: Circuit, model: MeterModel, joined: Sequence[frozenset[Hashable]]
) -> Trial:
    """Choose stand-ins by which every way of joining the coils is told from every other.

    `joined` has for each network of the model the ways in which its settings join the coils. Where
    no tried set tells all apart, the one that confuses the fewest is taken.
    """
    chains = tuple(_chains(circuit, model))
    spreads = [PRECISION if b.coil else spread_of(circuit, b) for b in model.branches]
    best: Trial | None = None
    for values in islice(_choices(len(chains)), MOST_TRIES):
        stand_ins = tuple(
            StandIn(coils, lugs, ohm) for (coils, lugs), ohm in zip(chains, values, strict=True)
        )
        found = bands(model, _with(model, stand_ins), spreads)
        trial = Trial(stand_ins, found, tuple(_confused(found, joined)))
        if best is None or len(trial.confused) < len(best.confused):
            best = trial
        if not best.confused:
            break
    assert best is not None
    return best


def way_of_joining(combination: Combination) -> Hashable:
    """Return how coils are joined, whatever way round: all that a meter can tell of a sound."""
    if combination.sound is None:
        return combination.silent
    network = combination.sound.network
    if isinstance(network, BridgeSound):
        return frozenset((name, frozenset((a, b))) for name, a, b in network.coils)
    return _unsigned(network)


def _unsigned(tree: SoundTree) -> Hashable:
    if isinstance(tree, CoilSound):
        return tree.name
    return tree.join, frozenset(map(_unsigned, tree.members))


def _chains(
    circuit: Circuit, model: MeterModel
) -> Iterator[tuple[tuple[str, ...], tuple[str, ...]]]:
    """Yield the coils that can only be reached together, with the lugs at their ends."""
    for part in circuit.parts:
        kind = circuit.kind_of(part)
        inner = {f"{part.id}.{name}" for name in kind.inner}
        coils = [b.coil for b in model.branches if b.coil and b.part == part.id]
        closed = [coil for coil in coils if inner & set(coil.ends)]
        if closed:
            ends = dict.fromkeys(end for coil in closed for end in coil.ends if end not in inner)
            yield tuple(coil.name for coil in closed), tuple(ends)
        for coil in coils:
            if coil not in closed:
                yield (coil.name,), coil.ends


def _choices(count: int) -> Iterator[tuple[float, ...]]:
    """Yield sets of different values, small ones first: they stand out before a pot's track."""
    if count <= len(CUSTOMARY_OHM):
        yield CUSTOMARY_OHM[:count]
    if count <= len(OTHERS_OHM):
        yield from combinations(OTHERS_OHM, count)
    else:
        yield tuple(1e3 * 1.5**place for place in range(count))


def _with(model: MeterModel, stand_ins: Sequence[StandIn]) -> Ohms:
    """Return the model's ohms with each coil's share of its stand-in."""
    share = {name: s.ohm / len(s.coils) for s in stand_ins for name in s.coils}
    ohms = [share[b.coil.name] if b.coil else b.ohm for b in model.branches]
    return np.array(ohms, np.float64)


def _confused(
    found: Sequence[Band], joined: Sequence[frozenset[Hashable]]
) -> Iterator[tuple[int, int]]:
    yield from ((i, i) for i, ways in enumerate(joined) if len(ways) > 1)
    for (i, one), (j, other) in combinations(enumerate(found), 2):
        if one.meets(other) and not joined[i] & joined[j]:
            yield i, j
