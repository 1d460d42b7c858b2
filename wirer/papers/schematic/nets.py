"""The nets that a schematic shows: what wires, screens and bonds join, whatever switches do."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from wirer.circuit.kind import BondElement
from wirer.circuit.model import Circuit


@dataclass(frozen=True)
class DrawnNets:
    """The net of each lug, and of each joint inside a part; `ground` is that of the jack's sleeve.

    What only the plug joins is not joined here: the drawing shows the jack as it is. `wired` are
    the lugs that a wire or a screen reaches, `pieces` the lugs that are one piece of metal.
    """

    of: Mapping[str, int]
    ground: int | None
    hot: int | None
    wired: frozenset[str]
    pieces: Mapping[str, tuple[str, ...]]


class _Joined:
    """Sets of names, united pair by pair."""

    def __init__(self) -> None:
        self._parent: dict[str, str] = {}

    def root(self, name: str) -> str:
        parent = self._parent.setdefault(name, name)
        while parent != self._parent[parent]:
            self._parent[parent] = self._parent[self._parent[parent]]
            parent = self._parent[parent]
        return parent

    def join(self, a: str, b: str) -> None:
        self._parent[self.root(b)] = self.root(a)


def drawn_nets(circuit: Circuit) -> DrawnNets:
    """Return the nets that are drawn of a circuit."""
    pieces = _Joined()
    names: list[str] = []
    for part in circuit.parts:
        kind = circuit.kind_of(part)
        names += [f"{part.id}.{name}" for name in (*(lug.name for lug in kind.lugs), *kind.inner)]
        for element in kind.elements:
            if isinstance(element, BondElement) and not element.plug:
                first, *others = (f"{part.id}.{name}" for name in element.lugs)
                for other in others:
                    pieces.join(first, other)
    groups: dict[str, list[str]] = {}
    for name in names:
        groups.setdefault(pieces.root(name), []).append(name)
    wired = _join_wires(circuit, pieces)
    numbers: dict[str, int] = {}
    net_of = {name: numbers.setdefault(pieces.root(name), len(numbers)) for name in names}
    tip, sleeve = _output(circuit)
    return DrawnNets(
        of=net_of,
        ground=net_of.get(sleeve),
        hot=net_of.get(tip),
        wired=frozenset(wired),
        pieces={name: tuple(group) for group in groups.values() for name in group},
    )


def _join_wires(circuit: Circuit, joined: _Joined) -> set[str]:
    """Join what wires and their screens join; return the lugs that they reach."""
    wired: set[str] = set()
    for wire in circuit.wires:
        joined.join(*wire.ends)
        wired.update(wire.ends)
        screens = [lug for lug in (wire.screen_from, wire.screen_to) if lug]
        wired.update(screens)
        if len(screens) == 2:
            joined.join(*screens)
    return wired


def _output(circuit: Circuit) -> tuple[str, str]:
    jack = circuit.jacks[0] if circuit.jacks else None
    output = circuit.kind_of(jack).output if jack else None
    if jack is None or output is None:
        return "", ""
    return f"{jack.id}.{output.tip}", f"{jack.id}.{output.sleeve}"
