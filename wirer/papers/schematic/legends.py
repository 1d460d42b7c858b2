"""What is written at the symbols: names, values, lugs, positions."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from wirer.circuit.elements import Coil, Track
from wirer.circuit.kind import Kind
from wirer.circuit.model import Part
from wirer.circuit.quantity import format_quantity
from wirer.circuit.stance import positions_in_use
from wirer.circuit.values import number_of
from wirer.papers.schematic.lettering import LONGEST_LINE, clean, wrapped

MEASURED = "*"
LONGEST_LUG = 14
LONGEST_POSITIONS = 20
MOST_LUGS = 6


def heading(part: Part, name: str, longest: int = LONGEST_LINE) -> tuple[str, ...]:
    """Return the lines that name a part: its id, or that of a piece of it, and its label."""
    label = clean(part.label)
    if not label or label == name:
        return (name,)
    if len(name) + 1 + len(label) <= longest:
        return (f"{name} {label}",)
    return (name, *wrapped(label, longest, 2))


def value(part: Part, kind: Kind, name: str, element: str = "") -> str:
    """Return a value with its unit, marked where it is measured; "" where there is none."""
    number = number_of(part, kind, name, element) if name in kind.parameters else None
    if number is None:
        return ""
    return format_quantity(number, kind.parameters[name].quantity) + mark(part, name, element)


def mark(part: Part, name: str, element: str = "") -> str:
    """Return the mark of a measured value, or nothing."""
    keys = {name, f"{element}.{name}"} if element else {name}
    return MEASURED if keys & part.measured.keys() else ""


def coil_value(part: Part, coil: Coil) -> str:
    """Return the resistance and the inductance of a coil."""
    element = coil.name.partition(".")[2]
    ohm = format_quantity(coil.resistance_ohm, "resistance") + mark(part, "resistance", element)
    henry = format_quantity(coil.inductance_henry, "inductance")
    return f"{ohm}, {henry}{mark(part, 'inductance', element)}"


def track_value(part: Part, track: Track, *, own_law: bool) -> str:
    """Return the resistance and the taper of a track; `own_law`: its kind says how it runs."""
    ohm = format_quantity(track.ohm, "resistance") + mark(part, "resistance", track.name)
    if own_law:
        return ohm
    law = track.taper if isinstance(track.taper, str) else "own taper"
    return f"{ohm} {law}"


def lug_text(part: Part, names: Iterable[str]) -> str:
    """Return the names of lugs that are one piece, each with the builder's own beside it."""
    own = [_lug_name(part, name) for name in names]
    if len(own) > MOST_LUGS:
        own = [*own[:MOST_LUGS], "…"]
    return " ".join(own)


def _lug_name(part: Part, name: str) -> str:
    label = clean(part.lug_labels.get(name, ""), LONGEST_LUG)
    short = clean(name, LONGEST_LUG)
    return f"{short} ({label})" if label else short


def position_texts(
    part: Part, kind: Kind, joining: Mapping[str, frozenset[int]], throws: int
) -> tuple[list[str], bool]:
    """Return which positions stand on each throw, and whether that tells all.

    `joining` gives for each position the throws that it joins to the common.
    """
    texts: list[str] = []
    complete = True
    for throw in range(throws):
        positions = [p for p in positions_in_use(kind, part) if throw in joining[p]]
        text = _listed(part, positions)
        if len(text) > LONGEST_POSITIONS:
            text = _listed(part, [p for p in positions if joining[p] == {throw}])
            complete = False
        texts.append(clean(text, LONGEST_POSITIONS))
    return texts, complete


def _listed(part: Part, positions: Iterable[str]) -> str:
    return ", ".join(
        clean(part.position_name(position), LONGEST_POSITIONS) for position in positions
    )
