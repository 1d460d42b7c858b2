"""How long a wire is cut: as it is routed, with what its ends and its slack take."""

from __future__ import annotations

import math
from dataclasses import dataclass

from wirer.circuit.model import Circuit, Wire, split_lug


@dataclass(frozen=True, slots=True)
class Allowance:
    """What a wire is cut longer than it is routed, in mm.

    `end` at each end, to be bared and hooked (3-5 mm is common practice); `loop` at each end on a
    pickup or a jack, the slack by which plate or pickup can be lifted (50-80 mm is common
    practice). The sum is rounded up to whole `step`.
    """

    end: float = 5.0
    loop: float = 60.0
    step: float = 5.0


CUSTOMARY = Allowance()


def cut_length_mm(circuit: Circuit, wire: Wire, routed_mm: float, allowance: Allowance) -> float:
    """Return the length to cut of a wire that is routed so long."""
    loops = sum(_is_lifted(circuit, lug) for lug in wire.ends)
    whole = routed_mm + 2 * allowance.end + loops * allowance.loop
    if allowance.step <= 0:
        return whole
    return math.ceil(round(whole / allowance.step, 6)) * allowance.step


def _is_lifted(circuit: Circuit, lug: str) -> bool:
    """Tell whether an end is on what is lifted out with its lead: a pickup or a jack."""
    kind = circuit.kind_of(circuit.part_by_id[split_lug(lug)[0]])
    return bool(kind.coils) or kind.output is not None
