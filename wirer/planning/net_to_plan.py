"""What of one net can be planned, and what stays as it is.

What the plug in the jack joins is no joint to plan with: without the plug it is open.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from wirer.circuit.errors import EditError, shown
from wirer.circuit.joints import bond_joints, joined_lugs_of, net_by_lug
from wirer.circuit.model import Circuit, Wire
from wirer.layout.placement import lug_points, place_parts
from wirer.planning.bounded_tree import Lugs

STAYING = frozenset({"mount", "screened"})
"""Styles of wires that are not planned: what is bolted, and what has a screen with it."""


@dataclass(frozen=True)
class NetToPlan:
    """The lugs of a net with the room that is left at them, and its wires that can be led anew.

    `bonded` are the lugs that are one piece of metal with the lug that was asked for.
    """

    lugs: Lugs
    wires: tuple[Wire, ...]
    bonded: tuple[str, ...]


def net_to_plan(circuit: Circuit, lug: str) -> NetToPlan:
    """Return the fixed net of a lug for planning.

    Raises
    ------
    EditError
        There is no such lug.
    """
    net = net_by_lug(circuit, plugged=False).get(lug)
    if net is None:
        raise EditError(f'there is no lug "{shown(lug)}"')
    bonds = tuple(bond_joints(circuit, plugged=False))
    order = {each: index for index, each in enumerate(circuit.lugs)}

    def groups(joints: tuple[tuple[str, str], ...]) -> tuple[tuple[str, ...], ...]:
        found = (group for group in joined_lugs_of(circuit, joints) if group <= net)
        return tuple(tuple(sorted(group, key=order.__getitem__)) for group in found)

    lugs = Lugs(
        groups=groups((*bonds, *_staying_joints(circuit))),
        room=_room(circuit, net),
        places=lug_points(place_parts(circuit)),
    )
    wires = (w for w in circuit.wires if w.style not in STAYING and w.from_lug in net)
    return NetToPlan(lugs, tuple(wires), next(g for g in groups(bonds) if lug in g))


def _staying_joints(circuit: Circuit) -> Iterator[tuple[str, str]]:
    for wire in circuit.wires:
        if wire.style in STAYING:
            yield wire.ends
            if wire.screen_from and wire.screen_to:
                yield wire.screen_from, wire.screen_to


def _room(circuit: Circuit, lugs: Iterable[str]) -> dict[str, int]:
    """Return how many wires each lug holds besides those that stay; what is bolted takes none."""
    taken = Counter(
        lug
        for wire in circuit.wires
        if wire.style == "screened"
        for lug in (*wire.ends, wire.screen_from, wire.screen_to)
        if lug
    )
    holds = {
        f"{part.id}.{lug.name}": lug.holds
        for part in circuit.parts
        for lug in circuit.kind_of(part).lugs
    }
    return {lug: max(0, holds[lug] - taken[lug]) for lug in lugs}
