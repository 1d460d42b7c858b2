"""Somebody who edits at random, with every edit that the window offers."""

from __future__ import annotations

from collections.abc import Callable
from random import Random
from typing import Any

from wirer.circuit import edits
from wirer.circuit.catalogue import catalogue
from wirer.circuit.clipboard import copied_text, duplicate, paste
from wirer.circuit.errors import EditError
from wirer.circuit.model import Circuit
from wirer.circuit.numbering import new_part
from wirer.circuit.roles import new_wire
from wirer.circuit.tracing import change_underlay, lay_file, remove_underlay, scale_underlay
from wirer.layout.align import align_parts, distribute_parts
from wirer.layout.arrange import flip_parts, move_by, turn_parts
from wirer.planning.replan import plan_star, plan_tree

Edit = Callable[[Circuit, Random], Circuit]
MOST_PARTS = 40
MOST_WIRES = 80


def _some(circuit: Circuit, chance: Random, most: int = 4) -> list[str]:
    ids = list(circuit.part_by_id)
    return chance.sample(ids, min(len(ids), chance.randint(1, most)))


def _part(circuit: Circuit, chance: Random) -> str:
    return chance.choice([*circuit.part_by_id, "Nobody"])


def _wire(circuit: Circuit, chance: Random) -> str:
    return chance.choice([*circuit.wire_by_id, "nothing"])


def _point(chance: Random) -> tuple[float, float]:
    return round(chance.uniform(-50, 350), 2), round(chance.uniform(-50, 250), 2)


def add_part(circuit: Circuit, chance: Random) -> Circuit:
    part = new_part(circuit, chance.choice(catalogue()), _point(chance))
    return edits.add_parts(circuit, [part])


def add_wire(circuit: Circuit, chance: Random) -> Circuit:
    if not circuit.lugs:
        return circuit
    wire = new_wire(circuit, chance.choice(circuit.lugs), chance.choice(circuit.lugs))
    return edits.add_wires(circuit, [wire])


def bend(circuit: Circuit, chance: Random) -> Circuit:
    bends = tuple(_point(chance) for _ in range(chance.randrange(4)))
    return edits.change_wire(circuit, _wire(circuit, chance), bends=bends)


def restyle(circuit: Circuit, chance: Random) -> Circuit:
    looks: list[dict[str, Any]] = [
        {"colour": "GNYE"},
        {"style": "bare"},
        {"style": "mount"},
        {"gauge": "24 AWG"},
        {"done": True},
        {"colour": "XX"},
    ]
    return edits.change_wire(circuit, _wire(circuit, chance), **chance.choice(looks))


def take_end(circuit: Circuit, chance: Random) -> Circuit:
    lug = chance.choice([*circuit.lugs, "Nobody.1"])
    return edits.change_wire(circuit, _wire(circuit, chance), to_lug=lug)


def cut(circuit: Circuit, chance: Random) -> Circuit:
    return edits.remove_wires(circuit, {_wire(circuit, chance) for _ in range(3)})


def remove(circuit: Circuit, chance: Random) -> Circuit:
    return edits.remove_parts(circuit, _some(circuit, chance))


def set_value(circuit: Circuit, chance: Random) -> Circuit:
    name = chance.choice(["resistance", "resistance", "taper", "winding", "timing"])
    value = chance.choice(["4k7", "22n", "audio", "ccw", "make", "2", "4kk7", None])
    edit = chance.choice([edits.set_value, edits.set_measured])
    return edit(circuit, _part(circuit, chance), name, value)


def label(circuit: Circuit, chance: Random) -> Circuit:
    text = chance.choice(["Volume", "Tone", "", "Größe", "Volume 2"])
    return edits.change_part(circuit, _part(circuit, chance), label=text)


def rename(circuit: Circuit, chance: Random) -> Circuit:
    new = chance.choice(["N", "V2", "4", "S_1", _part(circuit, chance)])
    return edits.rename_part(circuit, _part(circuit, chance), new)


def swap(circuit: Circuit, chance: Random) -> Circuit:
    lugs = [*circuit.lugs, "Nobody.1"]
    return edits.swap_lugs(circuit, chance.choice(lugs), chance.choice(lugs))


def move(circuit: Circuit, chance: Random) -> Circuit:
    return move_by(circuit, _some(circuit, chance), _point(chance))


def turn(circuit: Circuit, chance: Random) -> Circuit:
    return turn_parts(circuit, _some(circuit, chance), chance.choice([-1, 1, 2]))


def flip(circuit: Circuit, chance: Random) -> Circuit:
    return flip_parts(circuit, _some(circuit, chance))


def align(circuit: Circuit, chance: Random) -> Circuit:
    side = chance.choice(["left", "middle", "right", "top", "centre", "bottom"])
    return align_parts(circuit, _some(circuit, chance), side)  # type: ignore[arg-type]


def distribute(circuit: Circuit, chance: Random) -> Circuit:
    way = chance.choice(["across", "down"])
    return distribute_parts(circuit, _some(circuit, chance, 6), way)  # type: ignore[arg-type]


def double(circuit: Circuit, chance: Random) -> Circuit:
    return duplicate(circuit, _some(circuit, chance)).circuit


def copy_and_paste(circuit: Circuit, chance: Random) -> Circuit:
    text = copied_text(circuit, _some(circuit, chance))
    return paste(circuit, text, chance.choice([None, _point(chance)])).circuit


def plan(circuit: Circuit, chance: Random) -> Circuit:
    lug = chance.choice([*(wire.from_lug for wire in circuit.wires), "Nobody.1"])
    return chance.choice([plan_tree, plan_star])(circuit, lug).circuit


def trace(circuit: Circuit, chance: Random) -> Circuit:
    match chance.randrange(4):
        case 0:
            return lay_file(circuit, chance.choice(["photos/back.jpg", "../back.jpg"]))
        case 1:
            return scale_underlay(circuit, _point(chance), _point(chance), chance.uniform(0, 100))
        case 2:
            return change_underlay(circuit, dim=chance.uniform(0, 1.2), locked=True)
        case _:
            return remove_underlay(circuit)


EDITS: tuple[Edit, ...] = (
    add_part, add_wire, bend, restyle, take_end, cut, remove, set_value, label, rename, swap, move,
    turn, flip, align, distribute, double, copy_and_paste, plan, trace,
)  # fmt: skip


def edited(circuit: Circuit, edit: Edit, chance: Random) -> Circuit:
    """The edited circuit, or the one before where the edit is refused; one too large is cut."""
    if len(circuit.parts) > MOST_PARTS:
        edit = remove
    elif len(circuit.wires) > MOST_WIRES:
        edit = cut
    try:
        return edit(circuit, chance)
    except EditError as refusal:
        line = str(refusal)
        assert line
        assert line.isprintable()
        return circuit
