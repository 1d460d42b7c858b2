"""The fixed nets: lugs that wires, screens and bonds join in every setting."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

from wirer.circuit.elements import Bond, circuit_elements
from wirer.circuit.frozen import FrozenMap
from wirer.circuit.model import Circuit

Net = frozenset[str]


def joined_groups(points: Iterable[str], joints: Iterable[tuple[str, str]]) -> tuple[Net, ...]:
    """Return points in groups that joints connect, in the order of each group's first point."""
    above = {point: point for point in points}

    def root(point: str) -> str:
        while above[point] != point:
            above[point] = point = above[above[point]]
        return point

    for a, b in joints:
        above[root(b)] = root(a)
    groups: dict[str, list[str]] = {}
    for point in above:
        groups.setdefault(root(point), []).append(point)
    return tuple(map(frozenset, groups.values()))


def bond_joints(circuit: Circuit, *, plugged: bool = True) -> Iterator[tuple[str, str]]:
    """Yield pairs of lugs that are one piece of metal, those that the plug makes so if wanted."""
    for element in circuit_elements(circuit):
        if isinstance(element, Bond) and (plugged or not element.plug):
            yield from ((element.lugs[0], lug) for lug in element.lugs[1:])


def wire_joints(circuit: Circuit) -> Iterator[tuple[str, str]]:
    """Yield pairs of lugs that a wire or a screen joins."""
    for wire in circuit.wires:
        yield wire.ends
        if wire.screen_from and wire.screen_to:
            yield wire.screen_from, wire.screen_to


def joined_lugs_of(circuit: Circuit, joints: Iterable[tuple[str, str]]) -> tuple[Net, ...]:
    """Return the lugs of a circuit in groups that joints connect, in part order.

    Joints may lead over points inside a part that no wire reaches.
    """
    inner = [f"{p.id}.{name}" for p in circuit.parts for name in circuit.kind_of(p).inner]
    hidden = frozenset(inner)
    groups = joined_groups([*circuit.lugs, *inner], joints)
    return tuple(group - hidden for group in groups if group - hidden)


def fixed_nets(circuit: Circuit, *, plugged: bool = True) -> tuple[Net, ...]:
    """Return every fixed net, single lugs too, in part order, with or without a plug in."""
    joints = (*wire_joints(circuit), *bond_joints(circuit, plugged=plugged))
    return joined_lugs_of(circuit, joints)


def net_by_lug(circuit: Circuit, *, plugged: bool = True) -> Mapping[str, Net]:
    """Return the fixed net that each lug belongs to, with or without a plug in the jack."""
    nets = fixed_nets(circuit, plugged=plugged)
    return FrozenMap({lug: net for net in nets for lug in net})
