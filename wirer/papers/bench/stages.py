"""The stages of soldering: which wires come first, and which wait."""

from __future__ import annotations

from enum import IntEnum

from wirer.circuit.kind import CapacitorElement, InductorElement, Kind, ResistorElement
from wirer.circuit.model import Circuit, Wire, split_lug

JUNCTION = "junction"
STRINGS = "string-ground"


class Stage(IntEnum):
    """The stages of a harness in their order, as common practice has it.

    Metal is grounded while nothing is in the way, short links lie under everything, leads that
    move come late, what heat spoils later still; pickups come when the harness has been metered.
    """

    BOLT = 0
    GROUND = 1
    LINKS = 2
    COMPONENTS = 3
    PARTS = 4
    JACK = 5
    HEAT = 6
    PICKUPS = 7


HEADINGS = {
    Stage.BOLT: "Bolt together: metal on metal, no wire",
    Stage.GROUND: "Ground: cans, plates and bus",
    Stage.LINKS: "Links from lug to lug of one part",
    Stage.COMPONENTS: "Capacitors, resistors and coils",
    Stage.PARTS: "From part to part",
    Stage.JACK: "Jack and strings (lead through the body's hole before the second end)",
    Stage.HEAT: "Parts that heat spoils (2 s a lug; let the part cool between lugs)",
    Stage.PICKUPS: "Pickups, when the harness has been metered with its stand-ins",
}


def stage_of(circuit: Circuit, wire: Wire) -> Stage:
    """Return the stage in which a wire is soldered."""
    kinds = [_kind(circuit, lug) for lug in wire.ends]
    if wire.style == "mount":
        return Stage.BOLT
    if any(kind.coils for kind in kinds):
        return Stage.PICKUPS
    if any(kind.heat_sensitive for kind in kinds):
        return Stage.HEAT
    return _of_plain_parts(circuit, wire, kinds)


def _of_plain_parts(circuit: Circuit, wire: Wire, kinds: list[Kind]) -> Stage:
    if any(kind.output or STRINGS in kind.traits for kind in kinds):
        return Stage.JACK
    if all(_is_ground_piece(circuit, lug) for lug in wire.ends):
        return Stage.GROUND
    if split_lug(wire.from_lug)[0] == split_lug(wire.to_lug)[0]:
        return Stage.LINKS
    return Stage.COMPONENTS if any(map(_is_component, kinds)) else Stage.PARTS


def _kind(circuit: Circuit, reference: str) -> Kind:
    return circuit.kind_of(circuit.part_by_id[split_lug(reference)[0]])


def _is_ground_piece(circuit: Circuit, reference: str) -> bool:
    """Tell whether a lug is of metal to be grounded, or of what gathers wires."""
    kind = _kind(circuit, reference)
    lug = kind.lug(split_lug(reference)[1])
    return JUNCTION in kind.traits or bool(lug and lug.metal)


def _is_component(kind: Kind) -> bool:
    """Tell whether a part is a capacitor, resistor or inductor with its own leads."""
    passive = (ResistorElement, CapacitorElement, InductorElement)
    return bool(kind.elements) and all(isinstance(e, passive) for e in kind.elements)
