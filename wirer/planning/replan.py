"""Re-planning the wires of one net: the shortest tree, or a star; no net changes.

Only plain wires are planned anew. Bonds, metals that are bolted together and screened wires stay,
and so does every wire that the plan has as well. The others keep their ids, colours, styles and
gauges and go to other lugs; what is left over is taken away.
"""

from __future__ import annotations

from collections.abc import Sequence

import networkx as nx
from msgspec import Struct
from msgspec.structs import replace

from wirer.circuit.edits import change_circuit, remove_wires
from wirer.circuit.errors import EditError
from wirer.circuit.model import Circuit, Wire
from wirer.planning.bounded_tree import Lugs, Pair, bounded_tree
from wirer.planning.net_to_plan import NetToPlan, net_to_plan


class Plan(Struct, frozen=True):
    """A circuit with the wires of a net planned anew (the same object if nothing is better).

    Lengths are of the planned wires, run level and upright from lug to lug, in mm. `shortest` if
    it is proved that no other plan of its form is shorter.
    """

    circuit: Circuit
    length_before_mm: float
    length_after_mm: float
    shortest: bool


def plan_tree(circuit: Circuit, lug: str) -> Plan:
    """Join the net of a lug by the shortest tree with at most as many wires a lug as it holds.

    Raises
    ------
    EditError
        There is no such lug, or the lugs of its net hold too few wires for any tree.
    """
    net = net_to_plan(circuit, lug)
    if not net.lugs.have_a_tree:
        raise EditError(_too_few(net))
    tree = bounded_tree(net.lugs)
    return _plan(circuit, net, tree.wires, shortest=tree.shortest)


def plan_star(circuit: Circuit, centre: str) -> Plan:
    """Join every lug of a net by a wire of its own to one point: a lug with what it is bonded to.

    Raises
    ------
    EditError
        There is no such lug, or the point holds too few wires, or another lug holds none more.
    """
    net = net_to_plan(circuit, centre)
    room = sum(net.lugs.room[lug] for lug in net.bonded)
    needed = len(net.lugs.groups) - 1
    if needed > room:
        text = f"a star at {centre} needs {needed} wires and it holds {room}"
        raise EditError(f"{text}; choose a bus, or put a post there")
    if not net.lugs.have_a_tree:
        raise EditError(_too_few(net))
    return _plan(circuit, net, _star(net.lugs, net.bonded), shortest=True)


def _too_few(net: NetToPlan) -> str:
    for group in net.lugs.groups:
        if not any(net.lugs.room[lug] for lug in group):
            return f"{group[0]} holds no more wires; take one of its screens or leads elsewhere"
    needed = 2 * (len(net.lugs.groups) - 1)
    held = sum(net.lugs.room.values())
    return (
        f"the lugs of this net hold {held} wire ends and joining them takes {needed}; "
        "put a post or a bus into it"
    )


def _star(lugs: Lugs, centre: Sequence[str]) -> tuple[Pair, ...]:
    """Return the least wire from each other group to a lug of the centre that has room for it."""
    graph = nx.DiGraph()
    middle = lugs.group_of[centre[0]]
    nearest = {}
    for index, group in enumerate(lugs.groups):
        if index == middle:
            continue
        graph.add_edge("from", index, capacity=1, weight=0)
        for end in centre:
            free = (lug for lug in group if lugs.room[lug] > 0)
            pair = min(((lug, end) for lug in free), key=lambda p: (lugs.distance(p), p))
            nearest[index, end] = pair
            graph.add_edge(index, end, capacity=1, weight=round(1000 * lugs.distance(pair)))
    for end in centre:
        graph.add_edge(end, "to", capacity=lugs.room[end], weight=0)
    flow = nx.max_flow_min_cost(graph, "from", "to") if nearest else {}
    return tuple(pair for (index, end), pair in nearest.items() if flow[index][end])


def _plan(circuit: Circuit, net: NetToPlan, pairs: Sequence[Pair], *, shortest: bool) -> Plan:
    before = sum(net.lugs.distance(wire.ends) for wire in net.wires)
    after = sum(map(net.lugs.distance, pairs))
    return Plan(_rewired(circuit, net.wires, pairs), before, after, shortest)


def _rewired(circuit: Circuit, old: Sequence[Wire], pairs: Sequence[Pair]) -> Circuit:
    """Return the circuit with some wires led by other pairs of lugs."""
    wanted = {frozenset(pair): pair for pair in pairs}
    kept = {w.id for w in old if wanted.pop(frozenset(w.ends), None)}
    spare = [wire for wire in old if wire.id not in kept]
    if not spare:
        return circuit
    moved = {}
    for pair in wanted.values():
        wire = max(spare, key=lambda w: len({*w.ends} & {*pair}))
        spare.remove(wire)
        moved[wire.id] = _led(wire, pair)
    # What was waived of a wire was waived of where it ran.
    cleared = remove_wires(circuit, [w.id for w in old if w.id not in kept])
    gone = {wire.id for wire in spare}
    wires = tuple(moved.get(w.id, w) for w in circuit.wires if w.id not in gone)
    return change_circuit(cleared, wires=wires)


def _led(wire: Wire, pair: Pair) -> Wire:
    a, b = pair
    if wire.from_lug == b or wire.to_lug == a:
        a, b = b, a
    return replace(wire, from_lug=a, to_lug=b, bends=(), done=False)
