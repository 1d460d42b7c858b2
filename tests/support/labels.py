"""Giving a circuit's parts the names that a builder gives them."""

from collections.abc import Mapping

from msgspec.structs import replace

from wirer.circuit.model import Circuit


def labelled(
    circuit: Circuit,
    labels: Mapping[str, str],
    positions: Mapping[str, Mapping[str, str]] | None = None,
) -> Circuit:
    """Return the circuit with labels of some parts, and of the positions of some switches."""
    positions = positions or {}
    parts = tuple(
        replace(
            part,
            label=labels.get(part.id, part.label),
            position_labels=positions.get(part.id, part.position_labels),
        )
        for part in circuit.parts
    )
    return replace(circuit, parts=parts)
