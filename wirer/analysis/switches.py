"""What each state of each switch joins: its positions, and half-way between two of them."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import lru_cache
from itertools import pairwise
from typing import Literal

from wirer.circuit.kind import Kind
from wirer.circuit.model import Circuit, Part
from wirer.circuit.stance import joined_lugs, positions_in_use
from wirer.circuit.values import timing_of

Joints = tuple[tuple[int, int], ...]
Groups = Iterable[frozenset[str]]


@dataclass(frozen=True, slots=True)
class HalfWay:
    """A switch between two neighbouring positions, judged as `break` or `make`."""

    first: str
    second: str
    timing: Literal["break", "make"]


@dataclass(frozen=True, slots=True)
class Switch:
    """A switch of a harness.

    `joints` has the pairs of fixed nets joined in each state: first the positions, in order, then
    the half-way states of `between`.
    """

    part: str
    positions: tuple[str, ...]
    between: tuple[HalfWay, ...]
    joints: tuple[Joints, ...]

    @property
    def resting(self) -> tuple[int, ...]:
        """The states in which it rests."""
        return tuple(range(len(self.positions)))

    @property
    def moving(self) -> tuple[int, ...]:
        """The states half-way between positions."""
        return tuple(range(len(self.positions), len(self.joints)))


def switches_of(circuit: Circuit, net_of: Mapping[str, int]) -> tuple[Switch, ...]:
    """Return the switches of a circuit, in part order, with joints between its fixed nets."""
    return tuple(_switch(circuit, part, net_of) for part in circuit.switches)


def position_groups(circuit: Circuit, part: Part) -> dict[str, tuple[frozenset[str], ...]]:
    """Return the groups of lugs joined in each position in use."""
    return dict(_groups(circuit.kind_of(part), part))


@lru_cache(maxsize=4096)
def _groups(kind: Kind, part: Part) -> tuple[tuple[str, tuple[frozenset[str], ...]], ...]:
    if kind.actuator is None:
        return ()
    return tuple(
        (position, tuple(map(frozenset, joined_lugs(kind.actuator, kind, part, position))))
        for position in positions_in_use(kind, part)
    )


def _switch(circuit: Circuit, part: Part, net_of: Mapping[str, int]) -> Switch:
    groups = position_groups(circuit, part)
    timing = timing_of(part, circuit.kind_of(part))
    timings: tuple[Literal["break", "make"], ...] = (
        ("break", "make") if timing == "unknown" else ("make",) if timing == "make" else ("break",)
    )
    between = tuple(HalfWay(a, b, t) for a, b in pairwise(groups) for t in timings)
    states = [*groups.values(), *(_half_way(groups[h.first], groups[h.second], h) for h in between)]
    return Switch(part.id, tuple(groups), between, tuple(_joints(s, net_of) for s in states))


def _half_way(first: Groups, second: Groups, state: HalfWay) -> tuple[frozenset[str], ...]:
    if state.timing == "make":
        return (*first, *second)
    return tuple(a & b for a in first for b in second)


def _joints(groups: Groups, net_of: Mapping[str, int]) -> Joints:
    pairs: dict[tuple[int, int], None] = {}
    for group in groups:
        nets = sorted({net_of[lug] for lug in group})
        pairs.update(dict.fromkeys((nets[0], net) for net in nets[1:]))
    return tuple(pairs)
