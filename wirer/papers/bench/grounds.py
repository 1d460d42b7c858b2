"""The ground round: every piece of metal metered to the jack's sleeve."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from wirer.analysis.harness import Harness
from wirer.circuit.kind import Kind
from wirer.circuit.model import Circuit
from wirer.papers.bench.places import Place, place_of

METAL_OHM = 1.0
PAINT_OHM = 100.0
"""A good ground reads less, through screening paint up to about so much (common practice)."""


@dataclass(frozen=True, slots=True)
class GroundCheck:
    """One piece of metal: what it should read to the sleeve, in words."""

    place: Place
    expected: str
    grounded: bool


def ground_checks(circuit: Circuit, harness: Harness) -> tuple[GroundCheck, ...]:
    """Return a check for each piece of metal but the sleeve itself, in part order."""
    return tuple(_checks(circuit, harness))


def _checks(circuit: Circuit, harness: Harness) -> Iterator[GroundCheck]:
    jack = circuit.jacks[0] if circuit.jacks else None
    output = circuit.kind_of(jack).output if jack else None
    sleeve = f"{jack.id}.{output.sleeve}" if jack and output else ""
    for part in circuit.parts:
        kind = circuit.kind_of(part)
        for lug in kind.lugs:
            reference = f"{part.id}.{lug.name}"
            if lug.metal and reference != sleeve:
                grounded = harness.net_of[reference] == harness.ground
                words = _limit(kind) if grounded else "not on ground as drawn: see the findings"
                yield GroundCheck(place_of(circuit, reference), words, grounded)


def _limit(kind: Kind) -> str:
    """Return the most that metal reads; a lining may be foil or paint."""
    if kind.body.material == "foil":
        return f"under {METAL_OHM:g} Ω; paint about {PAINT_OHM:g} Ω"
    return f"under {METAL_OHM:g} Ω"
