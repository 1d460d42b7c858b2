"""Edits of parts and wires: each a function circuit → circuit that keeps it one.

Every function raises `EditError` with one clear line where the result would be no circuit.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Set
from typing import Any

from msgspec.structs import replace

from wirer.circuit.check import (
    circuit_problems,
    crowd_problems,
    part_problems,
    wanted_problems,
    wire_problems,
)
from wirer.circuit.errors import EditError, Problem, shown
from wirer.circuit.frozen import FrozenMap
from wirer.circuit.kind import Point, Value
from wirer.circuit.model import Circuit, Part, Waiver, Wire, split_lug
from wirer.circuit.naming import (
    names_part,
    waived_renamed,
    wanted_renamed,
    wire_renamed,
)


def add_parts(circuit: Circuit, parts: Iterable[Part]) -> Circuit:
    """Return the circuit with parts added at the end."""
    new = tuple(parts)
    taken = {*circuit.part_by_id, *circuit.wire_by_id}
    _accept(crowd_problems({"parts": len(circuit.parts) + len(new)}))
    for part in new:
        _accept_id(part.id, taken)
        taken.add(part.id)
        _accept(part_problems(circuit, part, shown(part.id)))
    return replace(circuit, parts=(*circuit.parts, *new))


def change_part(circuit: Circuit, part_id: str, **changes: Any) -> Circuit:
    """Return the circuit with some fields of a part changed (not its id or kind)."""
    part = _part(circuit, part_id)
    changed = replace(part, **changes)
    if (changed.id, changed.kind) != (part.id, part.kind):
        raise EditError(f"the id and the kind of {part_id} can't be changed like its other fields")
    _accept(part_problems(circuit, changed, part_id))
    after = replace(circuit, parts=tuple(changed if p is part else p for p in circuit.parts))
    _accept_wanted(after, part_id)
    return after


def move_parts(circuit: Circuit, places: Mapping[str, Point]) -> Circuit:
    """Return the circuit with parts moved: the middle of each body in mm, by part id."""
    for part_id in places:
        _part(circuit, part_id)
    parts = tuple(replace(p, at=places[p.id]) if p.id in places else p for p in circuit.parts)
    for part in parts:
        if part.id in places:
            _accept(part_problems(circuit, part, part.id))
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
    """Return the circuit without parts, their wires and what is wanted or waived of them.

    A screen that ended at a part then ends nowhere.
    """
    gone = frozenset(part_ids)
    for part_id in gone:
        _part(circuit, part_id)
    remaining = (_without_parts(wire, gone) for wire in circuit.wires)
    wires = tuple(w for w in remaining if w is not None)
    return replace(
        circuit,
        parts=tuple(p for p in circuit.parts if p.id not in gone),
        wires=wires,
        wanted=tuple(
            wanted
            for wanted in circuit.wanted
            if not any(name in wanted.setting or names_part(wanted.sound, name) for name in gone)
        ),
        waived=_waived_without(circuit, gone | circuit.wire_by_id.keys() - {w.id for w in wires}),
    )


def _waived_without(circuit: Circuit, gone: Set[str]) -> tuple[Waiver, ...]:
    """Return what is still waived: a later part of the same id must not find itself excused."""
    return tuple(
        waiver
        for waiver in circuit.waived
        if gone.isdisjoint(name for place in waiver.places for name in (place, split_lug(place)[0]))
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
    renamed = replace(
        circuit,
        parts=tuple(replace(p, id=new_id) if p is part else p for p in circuit.parts),
        wires=tuple(wire_renamed(wire, part_id, new_id) for wire in circuit.wires),
        wanted=tuple(wanted_renamed(wanted, part_id, new_id) for wanted in circuit.wanted),
        waived=tuple(waived_renamed(waiver, part_id, new_id) for waiver in circuit.waived),
    )
    _accept_id(new_id, {*circuit.part_by_id, *circuit.wire_by_id})
    _accept(part_problems(renamed, renamed.part_by_id[new_id], part_id))
    return renamed


def add_wires(circuit: Circuit, wires: Iterable[Wire]) -> Circuit:
    """Return the circuit with wires added at the end."""
    new = tuple(wires)
    taken = {*circuit.part_by_id, *circuit.wire_by_id}
    lugs = frozenset(circuit.lugs)
    _accept(crowd_problems({"wires": len(circuit.wires) + len(new)}))
    for wire in new:
        _accept_id(wire.id, taken)
        taken.add(wire.id)
        _accept(wire_problems(lugs, wire, shown(wire.id)))
    return replace(circuit, wires=(*circuit.wires, *new))


def change_wire(circuit: Circuit, wire_id: str, **changes: Any) -> Circuit:
    """Return the circuit with some fields of a wire changed: ends, colour, bends and so on."""
    wire = _wire(circuit, wire_id)
    changed = replace(wire, **changes)
    _accept(wire_problems(frozenset(circuit.lugs), changed, wire_id))
    after = replace(circuit, wires=tuple(changed if w is wire else w for w in circuit.wires))
    if changed.id == wire_id:
        return after
    _accept_id(changed.id, {*circuit.wire_by_id, *circuit.part_by_id})
    waived = (waived_renamed(waiver, wire_id, changed.id) for waiver in circuit.waived)
    return replace(after, waived=tuple(waived))


def remove_wires(circuit: Circuit, wire_ids: Iterable[str]) -> Circuit:
    """Return the circuit without some wires and what is waived of them."""
    gone = frozenset(wire_ids)
    for wire_id in gone:
        _wire(circuit, wire_id)
    return replace(
        circuit,
        wires=tuple(w for w in circuit.wires if w.id not in gone),
        waived=_waived_without(circuit, gone),
    )


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
        raise EditError(f'there is no part "{shown(part_id)}"')
    return part


def _wire(circuit: Circuit, wire_id: str) -> Wire:
    wire = circuit.wire_by_id.get(wire_id)
    if wire is None:
        raise EditError(f'there is no wire "{shown(wire_id)}"')
    return wire


def _accept_id(new: str, taken: Set[str]) -> None:
    if new in taken:
        raise EditError(f'"{shown(new)}" is the id of another part or wire')


def _accept(problems: Iterable[Problem]) -> None:
    for problem in problems:
        raise EditError(str(problem))


def _accept_wanted(circuit: Circuit, part_id: str) -> None:
    """Refuse what leaves a wanted sound without its position, as a stop set lower can."""
    for wanted in circuit.wanted:
        if part_id in wanted.setting:
            for problem in wanted_problems(circuit, wanted):
                raise EditError(f'"{shown(wanted.sound)}" is wanted there: {problem.text}')


def swap_lugs(circuit: Circuit, first: str, second: str) -> Circuit:
    """Return the circuit with the wires of two lugs exchanged."""
    about = {first: second, second: first}

    def swapped(wire: Wire) -> Wire:
        lugs = {
            field: about[lug]
            for field in ("from_lug", "to_lug", "screen_from", "screen_to")
            if (lug := getattr(wire, field)) in about
        }
        return replace(wire, **lugs) if lugs else wire

    return change_circuit(circuit, wires=tuple(map(swapped, circuit.wires)))
