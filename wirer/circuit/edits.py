"""Edits of parts and wires: each a function circuit → circuit that keeps it one.

Every function raises `EditError` with one clear line where the result would be no circuit.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Any

from msgspec.structs import replace

from wirer.circuit.check import circuit_problems, part_problems, wire_problems
from wirer.circuit.errors import EditError, Problem
from wirer.circuit.frozen import FrozenMap
from wirer.circuit.kind import Point, Value
from wirer.circuit.model import Circuit, Part, Wire, split_lug


def add_parts(circuit: Circuit, parts: Iterable[Part]) -> Circuit:
    """Return the circuit with parts added at the end."""
    new = tuple(parts)
    taken = {*circuit.part_by_id, *circuit.wire_by_id}
    for part in new:
        if part.id in taken:
            raise EditError(f'"{part.id}" is the id of another part or wire')
        taken.add(part.id)
        _accept(part_problems(circuit, part))
    return replace(circuit, parts=(*circuit.parts, *new))


def change_part(circuit: Circuit, part_id: str, **changes: Any) -> Circuit:
    """Return the circuit with some fields of a part changed (not its id or kind)."""
    part = _part(circuit, part_id)
    changed = replace(part, **changes)
    if (changed.id, changed.kind) != (part.id, part.kind):
        raise EditError("a part's id is changed by rename_part, its kind by replace_kind")
    _accept(part_problems(circuit, changed))
    return replace(circuit, parts=tuple(changed if p is part else p for p in circuit.parts))


def move_parts(circuit: Circuit, places: Mapping[str, Point]) -> Circuit:
    """Return the circuit with parts moved: the middle of each body in mm, by part id."""
    for part_id in places:
        _part(circuit, part_id)
    parts = tuple(replace(p, at=places[p.id]) if p.id in places else p for p in circuit.parts)
    for part in parts:
        if part.id in places:
            _accept(part_problems(circuit, part))
    return replace(circuit, parts=parts)


def set_value(circuit: Circuit, part_id: str, name: str, value: Value | None) -> Circuit:
    """Return the circuit with a nominal value set, or left to its kind by None."""
    return _with_entry(circuit, part_id, "values", name, value)


def set_measured(circuit: Circuit, part_id: str, name: str, value: Value | None) -> Circuit:
    """Return the circuit with a measured value set, or taken away by None."""
    return _with_entry(circuit, part_id, "measured", name, value)


def set_position_label(circuit: Circuit, part_id: str, position: str, text: str) -> Circuit:
    """Return the circuit with the builder's own name for a position; empty takes it away."""
    return _with_entry(circuit, part_id, "position_labels", position, text or None)


def set_lug_label(circuit: Circuit, part_id: str, lug: str, text: str) -> Circuit:
    """Return the circuit with the builder's own name for a lug; empty takes it away."""
    return _with_entry(circuit, part_id, "lug_labels", lug, text or None)


def _with_entry(circuit: Circuit, part_id: str, field: str, key: str, value: Any) -> Circuit:
    entries: FrozenMap[str, Any] = getattr(_part(circuit, part_id), field)
    changed = entries.without(key) if value is None else entries.having(key, value)
    return change_part(circuit, part_id, **{field: changed})


def remove_parts(circuit: Circuit, part_ids: Iterable[str]) -> Circuit:
    """Return the circuit without parts, their wires and the wanted sounds that name them."""
    gone = frozenset(part_ids)
    for part_id in gone:
        _part(circuit, part_id)
    wires = (_without_parts(wire, gone) for wire in circuit.wires)
    return replace(
        circuit,
        parts=tuple(p for p in circuit.parts if p.id not in gone),
        wires=tuple(w for w in wires if w is not None),
        wanted=tuple(w for w in circuit.wanted if gone.isdisjoint(w.setting)),
    )


def _without_parts(wire: Wire, gone: frozenset[str]) -> Wire | None:
    if any(split_lug(lug)[0] in gone for lug in wire.ends):
        return None
    screens = {
        name: None
        for name in ("screen_from", "screen_to")
        if (lug := getattr(wire, name)) and split_lug(lug)[0] in gone
    }
    return replace(wire, **screens) if screens else wire


def rename_part(circuit: Circuit, part_id: str, new_id: str) -> Circuit:
    """Return the circuit with a part's id changed everywhere it is named."""
    part = _part(circuit, part_id)
    if new_id == part_id:
        return circuit

    def lug(name: str | None) -> str | None:
        return f"{new_id}.{split_lug(name)[1]}" if name and split_lug(name)[0] == part_id else name

    def wire(old: Wire) -> Wire:
        return replace(
            old,
            from_lug=lug(old.from_lug),
            to_lug=lug(old.to_lug),
            screen_from=lug(old.screen_from),
            screen_to=lug(old.screen_to),
        )

    renamed = replace(
        circuit,
        parts=tuple(replace(p, id=new_id) if p is part else p for p in circuit.parts),
        wires=tuple(map(wire, circuit.wires)),
        wanted=tuple(
            replace(w, setting={new_id if k == part_id else k: v for k, v in w.setting.items()})
            for w in circuit.wanted
        ),
        waived=tuple(
            replace(w, places=tuple(new_id if p == part_id else lug(p) or p for p in w.places))
            for w in circuit.waived
        ),
    )
    _accept(iter(circuit_problems(renamed)))
    return renamed


def add_wires(circuit: Circuit, wires: Iterable[Wire]) -> Circuit:
    """Return the circuit with wires added at the end."""
    new = tuple(wires)
    taken = {*circuit.part_by_id, *circuit.wire_by_id}
    lugs = frozenset(circuit.lugs)
    for wire in new:
        if wire.id in taken:
            raise EditError(f'"{wire.id}" is the id of another part or wire')
        taken.add(wire.id)
        _accept(wire_problems(lugs, wire))
    return replace(circuit, wires=(*circuit.wires, *new))


def change_wire(circuit: Circuit, wire_id: str, **changes: Any) -> Circuit:
    """Return the circuit with some fields of a wire changed: ends, colour, bends and so on."""
    wire = _wire(circuit, wire_id)
    changed = replace(wire, **changes)
    if changed.id != wire.id and changed.id in {*circuit.wire_by_id, *circuit.part_by_id}:
        raise EditError(f'"{changed.id}" is the id of another part or wire')
    _accept(wire_problems(frozenset(circuit.lugs), changed))
    return replace(circuit, wires=tuple(changed if w is wire else w for w in circuit.wires))


def remove_wires(circuit: Circuit, wire_ids: Iterable[str]) -> Circuit:
    """Return the circuit without some wires."""
    gone = frozenset(wire_ids)
    for wire_id in gone:
        _wire(circuit, wire_id)
    return replace(circuit, wires=tuple(w for w in circuit.wires if w.id not in gone))


def change_circuit(circuit: Circuit, **changes: Any) -> Circuit:
    """Return the circuit with its title, notes, load, wanted, waived or kinds changed."""
    changed = replace(circuit, **changes)
    _accept(iter(circuit_problems(changed)))
    return changed


def free_id(circuit: Circuit, prefix: str) -> str:
    """Return the first id `prefix1`, `prefix2` … that neither a part nor a wire has."""
    taken = {*circuit.part_by_id, *circuit.wire_by_id}
    number = 1
    while f"{prefix}{number}" in taken:
        number += 1
    return f"{prefix}{number}"


def _part(circuit: Circuit, part_id: str) -> Part:
    part = circuit.part_by_id.get(part_id)
    if part is None:
        raise EditError(f'there is no part "{part_id}"')
    return part


def _wire(circuit: Circuit, wire_id: str) -> Wire:
    wire = circuit.wire_by_id.get(wire_id)
    if wire is None:
        raise EditError(f'there is no wire "{wire_id}"')
    return wire


def _accept(problems: Iterable[Problem]) -> None:
    for problem in problems:
        raise EditError(str(problem).removeprefix("."))
