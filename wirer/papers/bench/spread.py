"""How far the resistance of a part may be from what the papers say of it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from wirer.analysis.harness import Branch
from wirer.circuit.kind import Kind, TrackElement, Value
from wirer.circuit.model import Circuit, Part
from wirer.circuit.quantity import parse_tolerance
from wirer.papers.bench.copper import warmth_factor

UNTRIMMED = 0.10
MEASURED = 0.03
TRACK = 0.20
"""Shares taken where the document gives no tolerance (common practice): of a value that nobody
measured, of a measured one, and of a pot's track that nobody measured."""

ROOM_CELSIUS = (10.0, 30.0)
"""Between these copper may have any temperature when it is metered."""

RESISTANCE = "resistance"
TOLERANCE = "tolerance"


@dataclass(frozen=True, slots=True)
class Spread:
    """The least and the greatest that a resistance may be, as factors of what is said."""

    least: float
    greatest: float


def spread_of(circuit: Circuit, branch: Branch) -> Spread:
    """Return the spread of a branch: its part's tolerance, for copper its temperature too."""
    part = circuit.part_by_id[branch.part]
    element = branch.coil.name.partition(".")[2] if branch.coil else ""
    below, above = resistance_tolerance(part, circuit.kind_of(part), element)
    cold, warm = (warmth_factor(t) for t in ROOM_CELSIUS) if _is_copper(branch) else (1.0, 1.0)
    return Spread((1 - below) * cold, (1 + above) * warm)


def resistance_tolerance(part: Part, kind: Kind, element: str = "") -> tuple[float, float]:
    """Return the tolerance of a part's resistance as shares (below, above)."""
    measured = _is_said(part.measured, RESISTANCE, element)
    written = _tolerance(part.measured if measured else part.values, element)
    if written is not None:
        return parse_tolerance(written)
    if measured:
        return MEASURED, MEASURED
    is_track = any(isinstance(each, TrackElement) for each in kind.elements)
    return (TRACK, TRACK) if is_track else (UNTRIMMED, UNTRIMMED)


def _is_copper(branch: Branch) -> bool:
    return branch.coil is not None or branch.load[0] == "inductance"


def _tolerance(source: Mapping[str, Value], element: str) -> str | None:
    found = next((source[key] for key in _keys(TOLERANCE, element) if key in source), None)
    return None if found is None else str(found)


def _is_said(source: Mapping[str, Value], name: str, element: str) -> bool:
    return any(key in source for key in _keys(name, element))


def _keys(name: str, element: str) -> tuple[str, ...]:
    """Return the keys of a value, that of the named element before that of the whole part."""
    return (f"{element}.{name}", name) if element else (name,)
