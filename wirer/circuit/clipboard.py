"""Copying and pasting parts with the wires among them, as the text of a small document."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping
from typing import Any

from msgspec import Struct
from msgspec.structs import replace

from wirer.circuit.document import read_document, write_document
from wirer.circuit.edits import add_parts, add_wires, change_circuit
from wirer.circuit.errors import DocumentError, EditError, KindError, shown
from wirer.circuit.kind import Kind, Point
from wirer.circuit.model import Circuit, Part, Wire, split_lug
from wirer.circuit.numbering import Ids, Labels
from wirer.circuit.stance import Stance, default_stance

PASTE_STEP_MM = 5.0
DUPLICATE_OFFSET_MM: Point = (5.0, 5.0)


class Pasted(Struct, frozen=True):
    """A circuit with something pasted into it.

    `parts` and `wires` are the ids of what is new, `stance` where its switches and shafts stand.
    """

    circuit: Circuit
    parts: tuple[str, ...]
    wires: tuple[str, ...]
    stance: Stance


def excerpt(circuit: Circuit, part_ids: Iterable[str]) -> Circuit:
    """Return some parts as a circuit of their own: the wires among them, the kinds they need.

    A screen that ends at a part left behind ends nowhere.

    Raises
    ------
    EditError
        There is no such part, or none is named.
    """
    wanted = frozenset(part_ids)
    if not wanted:
        raise EditError("nothing is chosen to copy; choose a part")
    for part_id in sorted(wanted - circuit.part_by_id.keys()):
        raise EditError(f'there is no part "{shown(part_id)}"')
    parts = tuple(p for p in circuit.parts if p.id in wanted)
    needed = {part.kind for part in parts}
    return Circuit(
        parts=parts,
        wires=tuple(_within(w, wanted) for w in circuit.wires if _among(w.ends, wanted)),
        kinds=tuple(kind for kind in circuit.kinds if kind.id in needed),
    )


def _among(lugs: Iterable[str], part_ids: Collection[str]) -> bool:
    return all(split_lug(lug)[0] in part_ids for lug in lugs)


def _within(wire: Wire, part_ids: Collection[str]) -> Wire:
    cut = {
        name: None
        for name in ("screen_from", "screen_to")
        if (lug := getattr(wire, name)) and not _among([lug], part_ids)
    }
    return replace(wire, **cut) if cut else wire


def copied_text(circuit: Circuit, part_ids: Iterable[str], stance: Stance | None = None) -> str:
    """Return some parts, with the wires among them, as the text of a document.

    Raises
    ------
    EditError
        There is no such part, or none is named.
    """
    chosen = excerpt(circuit, part_ids)
    return write_document(chosen, stance or default_stance(chosen)).decode()


def paste(circuit: Circuit, text: str, at: Point | None = None) -> Pasted:
    """Paste the text of a document: its parts with their common middle at a place in mm.

    Without a place they come to lie where they were copied from, or aside by some steps where a
    part lies there already. Ids and labels that are taken are numbered on; bends move along. A
    part that got another id is another specimen: its measured values are not copied, nor are the
    marks of its wires as soldered.

    Raises
    ------
    EditError
        The text is no document, has no part in it, or would make the circuit too large.
    """
    try:
        source, stance = read_document(text.encode(errors="replace"))
    except DocumentError as error:
        line = f"what was copied is no circuit: {error.problems[0]}"
        raise EditError(line) from error
    if not source.parts:
        raise EditError("what was copied has no part in it; copy parts, with their wires")
    return _pasted(circuit, source, stance, _shift(circuit, source, at))


def duplicate(
    circuit: Circuit,
    part_ids: Iterable[str],
    stance: Stance | None = None,
    offset: Point = DUPLICATE_OFFSET_MM,
) -> Pasted:
    """Paste a copy of some parts beside them, by an offset in mm.

    Raises
    ------
    EditError
        There is no such part, or none is named, or the circuit would become too large.
    """
    chosen = excerpt(circuit, part_ids)
    return _pasted(circuit, chosen, stance or default_stance(chosen), offset)


def middle_of(parts: Iterable[Part]) -> Point:
    """Return the middle of the box round the places of parts."""
    xs, ys = zip(*(part.at for part in parts), strict=True)
    return (min(xs) + max(xs)) / 2, (min(ys) + max(ys)) / 2


def _shift(circuit: Circuit, source: Circuit, at: Point | None) -> Point:
    if at is not None:
        x, y = middle_of(source.parts)
        return at[0] - x, at[1] - y
    taken = {_cell(part.at) for part in circuit.parts}
    steps = 0
    while any(_cell(_moved(p.at, (steps * PASTE_STEP_MM,) * 2)) in taken for p in source.parts):
        steps += 1
    return steps * PASTE_STEP_MM, steps * PASTE_STEP_MM


def _cell(at: Point) -> Point:
    return round(at[0], 1), round(at[1], 1)


def _moved(point: Point, by: Point) -> Point:
    return round(point[0] + by[0], 4), round(point[1] + by[1], 4)


def _pasted(circuit: Circuit, source: Circuit, stance: Stance, shift: Point) -> Pasted:
    ids, labels = Ids(circuit), Labels(circuit)
    target, kinds = _with_kinds(circuit, source)
    names = {part.id: ids.kept_or_next(part.id) for part in source.parts}
    parts = [
        _copy(part, names[part.id], kinds[part.kind], labels.kept_or_next(part.label), shift)
        for part in source.parts
    ]
    wires = [_wire_copy(w, ids.kept_or_next(w.id), names, shift) for w in source.wires]
    made = add_wires(add_parts(target, parts), wires)
    return Pasted(
        made, tuple(p.id for p in parts), tuple(w.id for w in wires), _renamed(stance, names)
    )


def _copy(part: Part, part_id: str, kind: str, label: str, shift: Point) -> Part:
    another: dict[str, Any] = {} if part_id == part.id else {"measured": {}}
    at = _moved(part.at, shift)
    return replace(part, id=part_id, kind=kind, label=label, at=at, **another)


def _wire_copy(wire: Wire, wire_id: str, names: Mapping[str, str], shift: Point) -> Wire:
    def lug(reference: str) -> str:
        part, name = split_lug(reference)
        return f"{names[part]}.{name}"

    ends = {"from_lug": lug(wire.from_lug), "to_lug": lug(wire.to_lug)}
    return replace(
        wire,
        id=wire_id,
        **ends,
        screen_from=wire.screen_from and lug(wire.screen_from),
        screen_to=wire.screen_to and lug(wire.screen_to),
        bends=tuple(_moved(bend, shift) for bend in wire.bends),
        done=wire.done and tuple(ends.values()) == wire.ends,
    )


def _renamed(stance: Stance, names: Mapping[str, str]) -> Stance:
    """Return what a stance says of parts, under other ids."""
    rotations = {}
    for shaft, rotation in stance.rotations.items():
        part, name = split_lug(shaft)
        if part in names:
            rotations[f"{names[part]}.{name}"] = rotation
    positions = {names[part]: p for part, p in stance.positions.items() if part in names}
    return Stance(positions, rotations)


def _with_kinds(circuit: Circuit, source: Circuit) -> tuple[Circuit, dict[str, str]]:
    """Bring along the kinds that a circuit lacks; return what each kind is called in it.

    Two documents may call different kinds by one name: what comes in second is then numbered.
    """
    names: dict[str, str] = {}
    added: list[Kind] = []
    for kind_id in dict.fromkeys(part.kind for part in source.parts):
        kind = source.kind(kind_id)
        name, number = kind_id, 1
        while (known := _known(circuit, name)) not in (None, replace(kind, id=name)):
            number += 1
            name = f"{kind_id[:56].rstrip('-')}-{number}"
        if known is None:
            added.append(replace(kind, id=name))
        names[kind_id] = name
    if added:
        circuit = change_circuit(circuit, kinds=(*circuit.kinds, *added))
    return circuit, names


def _known(circuit: Circuit, kind_id: str) -> Kind | None:
    try:
        return circuit.kind(kind_id)
    except KindError:
        return None
