"""What is shown of one part: its body, the rings of its lugs, drops of solder, its names."""

from __future__ import annotations

from collections.abc import Iterator

from PySide6.QtCore import QPointF
from PySide6.QtGui import QPainter

from wirer.circuit.frozen import FrozenMap
from wirer.circuit.model import Part
from wirer.drawing.lugs import paint_role_ring
from wirer.drawing.notes import paint_choices, paint_cw_arrows, paint_label
from wirer.drawing.parts import Look, paint_part
from wirer.drawing.shapes import faint
from wirer.drawing.wires import paint_solder
from wirer.window.sketch import Sketch
from wirer.window.standing import BODY_Z, JOINT_Z, NOTE_Z, RING_Z, UNDERLAY_Z, Scenery, Standing

FADED = 0.3
"""How much is left of a part that is set back; quicker than painting it anew in faint colours."""


class PartItems:
    """The items of one part. `soldered` are its lugs with a wire."""

    def __init__(self, scenery: Scenery, part: Part, soldered: tuple[str, ...]) -> None:
        self._scenery = scenery
        self._part = part
        self._kind = scenery.circuit.kind_of(part)
        self._lugs = tuple(f"{part.id}.{lug.name}" for lug in self._kind.lugs)
        self._soldered = soldered
        underlay = scenery.layout.placements[part.id].underlay
        self._body = Sketch(UNDERLAY_Z if underlay else BODY_Z)
        self._rings = Sketch(RING_Z)
        self._joints = Sketch(JOINT_Z)
        self._name = Sketch(NOTE_Z)
        self._choices = Sketch(NOTE_Z)

    @property
    def sketches(self) -> Iterator[Sketch]:
        """Its items."""
        yield from (self._body, self._rings, self._joints, self._name, self._choices)

    def show(self, standing: Standing) -> None:
        """Show how the part stands."""
        theme = standing.theme.name
        position = standing.stance.positions.get(self._part.id)
        faded = standing.is_faded(self._part.id)
        look = self._look(standing, position)
        self._body.setOpacity(FADED if faded else 1.0)
        self._body.draw((theme, position, look.rotations), lambda p: self._paint_body(p, look))
        roles = tuple(standing.lug_role(lug) for lug in self._lugs)
        self._rings.draw((theme, roles, faded), lambda p: self._paint_rings(p, standing, faded))
        ends = tuple(standing.lug_role(lug) == "open" for lug in self._soldered)
        self._joints.draw((theme, ends), lambda p: self._paint_joints(p, standing))
        self._name.draw(theme, lambda p: self._paint_name(p, standing))
        self._choices.draw((theme, position), lambda p: self._paint_choices(p, standing, position))

    def _look(self, standing: Standing, position: str | None) -> Look:
        rotations = {
            shaft.name: standing.stance.rotations.get(f"{self._part.id}.{shaft.name}", 1.0)
            for shaft in self._kind.shafts
        }
        return Look(standing.theme, position, FrozenMap(rotations))

    def _paint_body(self, painter: QPainter, look: Look) -> None:
        paint_part(painter, self._scenery.circuit, self._part, look)
        paint_cw_arrows(painter, self._kind, self._part, look.theme, as_paths=True)

    def _paint_rings(self, painter: QPainter, standing: Standing, faded: bool) -> None:
        theme = standing.theme
        for lug in self._lugs:
            role = standing.lug_role(lug)
            if role:
                colour = theme.roles[role]
                colour = faint(theme, colour) if faded else colour
                at = QPointF(*self._scenery.layout.lugs[lug])
                paint_role_ring(painter, at, colour, role, theme.paper)

    def _paint_joints(self, painter: QPainter, standing: Standing) -> None:
        for lug in self._soldered:
            is_open = standing.lug_role(lug) == "open"
            paint_solder(painter, self._scenery.layout.lugs[lug], standing.theme, is_open)

    def _paint_name(self, painter: QPainter, standing: Standing) -> None:
        label = self._scenery.layout.labels.names.get(self._part.id)
        if label:
            paint_label(painter, label, standing.theme, as_paths=True)

    def _paint_choices(self, painter: QPainter, standing: Standing, position: str | None) -> None:
        choices = self._scenery.layout.labels.choices.get(self._part.id, ())
        paint_choices(painter, choices, position, standing.theme, as_paths=True)
