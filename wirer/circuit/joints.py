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


def bond_joints(circuit: Circuit) -> Iterator[tuple[str, str]]:
    """Yield pairs of lugs that are one piece of metal, the plug in the jack included."""
    for element in circuit_elements(circuit):
        if isinstance(element, Bond):
            yield from ((element.lugs[0], lug) for lug in element.lugs[1:])


def wire_joints(circuit: Circuit) -> Iterator[tuple[str, str]]:
    """Yield pairs of lugs that a wire or a screen joins."""
    for wire in circuit.wires:
        yield wire.ends
        if wire.screen_from and wire.screen_to:
            yield wire.screen_from, wire.screen_to


def fixed_nets(circuit: Circuit) -> tuple[Net, ...]:
    """Return every fixed net, single lugs too, in part order."""
    inner = [f"{p.id}.{name}" for p in circuit.parts for name in circuit.kind_of(p).inner]
    joints = [*wire_joints(circuit), *bond_joints(circuit)]
    nets = joined_groups([*circuit.lugs, *inner], joints)
    hidden = frozenset(inner)
    return tuple(net - hidden for net in nets if net - hidden)


def net_by_lug(circuit: Circuit) -> Mapping[str, Net]:
    """Return the fixed net that each lug belongs to."""
    return FrozenMap({lug: net for net in fixed_nets(circuit) for lug in net})
