"""The order in which wires are soldered."""

from __future__ import annotations

from collections.abc import Iterable
from itertools import groupby

from wirer.circuit.model import Circuit, Wire, split_lug
from wirer.papers.bench.stages import stage_of


def soldering_order(circuit: Circuit) -> tuple[Wire, ...]:
    """Return the wires in an order in which they can be soldered.

    Stage after stage; within one, from the deepest lug on (nearest to the panel, farthest from
    the person who solders), every lug's wires together, going on at a lug just reached.
    """
    staged = sorted(circuit.wires, key=lambda wire: stage_of(circuit, wire))
    ordered: list[Wire] = []
    for _, group in groupby(staged, key=lambda wire: stage_of(circuit, wire)):
        ordered += _lug_by_lug(circuit, list(group))
    return tuple(ordered)


def _lug_by_lug(circuit: Circuit, wires: list[Wire]) -> list[Wire]:
    """Order the wires of a stage so that each lug's wires come together."""
    at: dict[str, list[Wire]] = {}
    for wire in wires:
        for lug in dict.fromkeys(wire.ends):
            at.setdefault(lug, []).append(wire)
    rank = {lug: _rank(circuit, lug) for lug in at}
    order: dict[str, Wire] = {}
    for start in sorted(at, key=lambda lug: (rank[lug][:2], -len(at[lug]), rank[lug])):
        waiting = [start]
        while waiting:
            lug = waiting.pop()
            fresh = [wire for wire in at[lug] if wire.id not in order]
            fresh.sort(key=lambda wire: rank[_other(wire, lug)])
            order.update({wire.id: wire for wire in fresh})
            waiting += reversed([_other(wire, lug) for wire in fresh])
    return list(order.values())


def _rank(circuit: Circuit, reference: str) -> tuple[bool, float, int, str]:
    """Rank a lug: what heat spoils last, else by its depth, then as the document has its part."""
    part_id, _ = split_lug(reference)
    part = circuit.part_by_id[part_id]
    kind = circuit.kind_of(part)
    return kind.heat_sensitive, kind.depth, circuit.parts.index(part), reference


def _other(wire: Wire, lug: str) -> str:
    return wire.to_lug if wire.from_lug == lug else wire.from_lug


def last_at_lugs(circuit: Circuit, wires: Iterable[Wire]) -> dict[str, frozenset[str]]:
    """Return by wire id the ends whose lug is complete with it: there one solders.

    The harness is complete, and is metered, before the pickups go in; a pickup's lead is soldered
    to a lug that has been soldered once.
    """
    last: dict[tuple[str, bool], str] = {}
    for wire in wires:
        pickup = any(_carries_coil(circuit, lug) for lug in wire.ends)
        for lug in (*wire.ends, wire.screen_from, wire.screen_to):
            if lug is not None and wire.style != "mount":
                last[lug, pickup] = wire.id
    found: dict[str, set[str]] = {}
    for (lug, _), wire_id in last.items():
        found.setdefault(wire_id, set()).add(lug)
    return {wire_id: frozenset(lugs) for wire_id, lugs in found.items()}


def _carries_coil(circuit: Circuit, reference: str) -> bool:
    part = circuit.part_by_id[split_lug(reference)[0]]
    return bool(circuit.kind_of(part).coils)
