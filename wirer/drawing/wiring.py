"""The wiring view of a whole circuit, painted in millimetres as seen from the solder side."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import lru_cache

from PySide6.QtGui import QPainter

from wirer.circuit.frozen import FrozenMap
from wirer.circuit.kind import Point
from wirer.circuit.model import Circuit, Part, Wire, split_lug
from wirer.circuit.stance import Stance
from wirer.drawing.notes import (
    paint_choices,
    paint_cw_arrows,
    paint_done_mark,
    paint_label,
    paint_lug_names,
    paint_tags,
)
from wirer.drawing.palette import LIGHT, Role, Theme
from wirer.drawing.parts import Look, paint_part
from wirer.drawing.wires import Course, paint_solder, paint_wire
from wirer.layout.crossings import under_passes
from wirer.layout.geometry import point_on_polyline
from wirer.layout.layout import Layout
from wirer.layout.tags import Tag, place_lug_names, place_tags

_MARK_MM = 1.4


@dataclass(frozen=True)
class WiringLook:
    """How a wiring view is to look.

    `stance` is where switches and shafts stand (None: as the kinds have it). `lug_roles` by
    `PART.lug` and `wire_roles` by wire id light the nets up; `faded_parts` are set back.
    `wire_texts` by wire id stand beside the wires (None: their colours' letter codes).
    `as_paths` draws text as outlines, which look alike everywhere; else it can be searched for.
    """

    theme: Theme = LIGHT
    stance: Stance | None = None
    lug_roles: Mapping[str, Role] = field(default_factory=FrozenMap)
    wire_roles: Mapping[str, Role] = field(default_factory=FrozenMap)
    faded_parts: frozenset[str] = frozenset()
    wire_texts: Mapping[str, str] | None = None
    labels: bool = True
    lug_names: bool = False
    as_paths: bool = True


@dataclass(frozen=True)
class WiringNotes:
    """What is worked out of a layout for painting: texts with their places, and gaps of wires."""

    tags: Mapping[str, Tag]
    lug_names: Mapping[str, Tag]
    under: Mapping[str, tuple[float, ...]]


def wiring_notes(circuit: Circuit, layout: Layout, look: WiringLook) -> WiringNotes:
    """Work out where small texts stand and which wires pass under others.

    It is the same for every stance and role, and kept for the last few layouts.
    """
    texts = look.wire_texts
    if texts is None:
        texts = {wire.id: wire.colour for wire in circuit.wires}
    return _notes(layout, FrozenMap(texts), FrozenMap(_lug_texts(circuit, look)))


def _lug_texts(circuit: Circuit, look: WiringLook) -> dict[str, str]:
    if not look.lug_names:
        return {}
    labels = {part.id: part.lug_labels for part in circuit.parts}
    texts = {}
    for reference in circuit.lugs:
        part, lug = split_lug(reference)
        own = labels[part].get(lug)
        texts[reference] = f"{lug} ({own})" if own else lug
    return texts


@lru_cache(maxsize=8)
def _notes(layout: Layout, texts: FrozenMap[str, str], lugs: FrozenMap[str, str]) -> WiringNotes:
    tags = place_tags(layout, texts)
    names = place_lug_names(layout, lugs, tags.values())
    return WiringNotes(FrozenMap(tags), FrozenMap(names), FrozenMap(under_passes(layout.routes)))


def paint_wiring(
    painter: QPainter, circuit: Circuit, layout: Layout, look: WiringLook | None = None
) -> None:
    """Paint a circuit as it lies: parts, then wires, then what is written beside them."""
    look = look or WiringLook()
    notes = wiring_notes(circuit, layout, look)
    for part in sorted(circuit.parts, key=lambda p: not layout.placements[p.id].underlay):
        paint_part(painter, circuit, part, part_look(part, circuit, look))
    _paint_arrows(painter, circuit, look)
    for wire in _back_to_front(circuit, look):
        paint_wire(painter, course_of(wire, layout, notes), look.theme, _role(wire, look))
    for wire in circuit.wires:
        if wire.style != "mount":
            for lug in wire.ends:
                paint_solder(painter, layout.lugs[lug], look.theme, _role(wire, look) == "open")
    _paint_notes(painter, circuit, layout, look, notes)


def part_look(part: Part, circuit: Circuit, look: WiringLook) -> Look:
    """Return how one part of the view is to look."""
    stance = look.stance
    rotations = stance.rotations if stance else {}
    return Look(
        theme=look.theme,
        position=stance.positions.get(part.id) if stance else None,
        rotations=FrozenMap(
            {
                shaft.name: rotations[name]
                for shaft in circuit.kind_of(part).shafts
                if (name := f"{part.id}.{shaft.name}") in rotations
            }
        ),
        roles=FrozenMap(
            {
                lug.name: look.lug_roles[name]
                for lug in circuit.kind_of(part).lugs
                if (name := f"{part.id}.{lug.name}") in look.lug_roles
            }
        ),
        faded=part.id in look.faded_parts,
    )


def course_of(wire: Wire, layout: Layout, notes: WiringNotes) -> Course:
    """Return what is needed to paint one wire."""
    return Course(
        wire, layout.routes[wire.id], notes.under.get(wire.id, ()), layout.screens.get(wire.id)
    )


def _role(wire: Wire, look: WiringLook) -> Role | None:
    return look.wire_roles.get(wire.id)


def _back_to_front(circuit: Circuit, look: WiringLook) -> list[Wire]:
    """Return the wires with those that are not connected first and those with signal last."""
    order = {"open": 0, None: 1, "ground": 1, "signal": 2}
    return sorted(circuit.wires, key=lambda wire: order[_role(wire, look)])


def _paint_arrows(painter: QPainter, circuit: Circuit, look: WiringLook) -> None:
    for part in circuit.parts:
        paint_cw_arrows(painter, circuit.kind_of(part), part, look.theme, look.as_paths)


def _paint_notes(
    painter: QPainter, circuit: Circuit, layout: Layout, look: WiringLook, notes: WiringNotes
) -> None:
    theme, as_paths = look.theme, look.as_paths
    paint_tags(painter, notes.tags, theme, as_paths)
    paint_lug_names(painter, notes.lug_names, theme, as_paths)
    if look.labels:
        for label in layout.labels.names.values():
            paint_label(painter, label, theme, as_paths)
        for part, choices in layout.labels.choices.items():
            present = _present(circuit, part, look)
            paint_choices(painter, choices, present, theme, as_paths)
    for wire in circuit.wires:
        if wire.done:
            paint_done_mark(painter, mark_place(wire, layout, notes), theme)


def _present(circuit: Circuit, part_id: str, look: WiringLook) -> str | None:
    """Return where a switch stands, as its picture shows it too."""
    actuator = circuit.kind_of(circuit.part_by_id[part_id]).actuator
    standing = look.stance.positions.get(part_id) if look.stance else None
    return standing or (actuator.positions[0] if actuator else None)


def mark_place(wire: Wire, layout: Layout, notes: WiringNotes) -> Point:
    """Return where a wire's tick goes: after its text, else at its middle."""
    tag = notes.tags.get(wire.id)
    if tag is None:
        route = layout.routes[wire.id]
        return point_on_polyline(route.points, route.length_mm / 2)
    if tag.upright:
        return tag.at[0], tag.box.bottom + _MARK_MM
    return tag.box.right + _MARK_MM, tag.at[1]
