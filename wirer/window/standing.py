"""How everything in the wiring view stands and is lit: what its items are shown from."""

from __future__ import annotations

from dataclasses import dataclass

from wirer.circuit.model import Circuit, Wire
from wirer.circuit.stance import Stance
from wirer.drawing.palette import LIGHT, Role, Theme
from wirer.drawing.wiring import WiringNotes
from wirer.layout.layout import Layout
from wirer.window.present import NOTHING, Present

NO_NOTES = WiringNotes({}, {}, {})

UNDERLAY_Z, BODY_Z, RING_Z, GLOW_Z, WIRE_Z, JOINT_Z, NOTE_Z, MARK_Z = range(8)
"""What lies over what, the lowest first."""


@dataclass(frozen=True, eq=False)
class Scenery:
    """What lies in the view: a circuit, its layout, and the notes written on it."""

    circuit: Circuit
    layout: Layout
    notes: WiringNotes = NO_NOTES


@dataclass(frozen=True, eq=False)
class Standing:
    """Where switches and shafts stand, what the nets are, and the colours to show it in.

    Nets are lit by their roles, and dead parts set back, only if `lit`.
    """

    stance: Stance
    present: Present = NOTHING
    theme: Theme = LIGHT
    lit: bool = True

    def lug_role(self, lug: str) -> Role | None:
        """Return the role that a lug is lit by."""
        return self.present.roles.get(lug) if self.lit else None

    def wire_role(self, wire: Wire) -> Role | None:
        """Return the role that a wire is lit by."""
        return self.lug_role(wire.from_lug)

    def is_faded(self, part_id: str) -> bool:
        """Tell whether a part is set back."""
        return self.lit and part_id in self.present.dead
