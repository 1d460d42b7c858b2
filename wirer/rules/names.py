"""How findings call parts, lugs and wires."""

from __future__ import annotations

from collections.abc import Iterable

from wirer.circuit.model import Circuit, split_lug


def part_name(circuit: Circuit, part_id: str) -> str:
    """Return a part as people call it: its label, with its id where another has that label too."""
    part = circuit.part_by_id[part_id]
    shared = sum(other.name == part.name for other in circuit.parts) > 1
    return f"{part.label} ({part.id})" if shared and part.label else part.name


def lug_name(circuit: Circuit, reference: str) -> str:
    """Return a lug as people call it: `Volume lug 3 (10 end)`."""
    part_id, name = split_lug(reference)
    part = circuit.part_by_id[part_id]
    lug = circuit.kind_of(part).lug(name)
    own = part.lug_labels.get(name)
    function = own or (lug.label if lug else "")
    what = f"lug {name} ({function})" if function and function != name else f"lug {name}"
    return f"{part_name(circuit, part_id)} {what}"


def coil_name(circuit: Circuit, coil: str) -> str:
    """Return a coil as people call it: the part's label, and which of its coils."""
    part_id, _, own = coil.partition(".")
    name = part_name(circuit, part_id)
    return f"{name} coil {own}" if own else name


def listed(names: Iterable[str]) -> str:
    """Return names as a list in a sentence: `a, b and c`."""
    *first, last = list(names)
    return f"{', '.join(first)} and {last}" if first else last


def shaft_name(circuit: Circuit, shaft: str) -> str:
    """Return a shaft as people call it: the part's label, and which shaft where it has several."""
    part_id, _, name = shaft.partition(".")
    part = circuit.part_by_id[part_id]
    several = len(circuit.kind_of(part).shafts) > 1
    label = part_name(circuit, part_id)
    return f"{label} ({name} shaft)" if several else label
