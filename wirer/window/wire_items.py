"""What is shown of wires: each wire, and the texts along them."""

from __future__ import annotations

from PySide6.QtGui import QPainter

from wirer.circuit.model import Wire
from wirer.drawing.notes import paint_done_mark, paint_lug_names, paint_tags
from wirer.drawing.palette import Role
from wirer.drawing.wires import paint_wire
from wirer.drawing.wiring import course_of, mark_place
from wirer.window.sketch import Sketch
from wirer.window.standing import NOTE_Z, WIRE_Z, Scenery, Standing

OVER: dict[Role | None, float] = {"open": 0.0, None: 0.1, "ground": 0.1, "signal": 0.2}
"""Which wires lie over which: those with signal on top."""

LEAST_SCALE = 4.5
"""Pixels to a millimetre from which the names of lugs can be read."""


class WireItem:
    """The item of one wire."""

    def __init__(self, scenery: Scenery, wire: Wire) -> None:
        self._wire = wire
        self._course = course_of(wire, scenery.layout, scenery.notes)
        self.sketch = Sketch(WIRE_Z)

    def show(self, standing: Standing) -> None:
        """Show the wire as its net is lit."""
        role, theme = standing.wire_role(self._wire), standing.theme
        self.sketch.setZValue(WIRE_Z + OVER[role])
        self.sketch.draw((theme.name, role), lambda p: paint_wire(p, self._course, theme, role))


class NoteItems:
    """The colour codes along the wires, the ticks of those that are soldered, the lugs' names."""

    def __init__(self, scenery: Scenery) -> None:
        self._scenery = scenery
        self.tags = Sketch(NOTE_Z)
        self.lug_names = Sketch(NOTE_Z, least_scale=LEAST_SCALE)

    def show(self, standing: Standing) -> None:
        """Show the texts."""
        theme, notes = standing.theme, self._scenery.notes
        circuit, layout = self._scenery.circuit, self._scenery.layout
        self.lug_names.draw(
            theme.name, lambda p: paint_lug_names(p, notes.lug_names, theme, as_paths=True)
        )

        def paint_notes(painter: QPainter) -> None:
            paint_tags(painter, notes.tags, theme, as_paths=True)
            for wire in circuit.wires:
                if wire.done and wire.id in layout.routes:
                    paint_done_mark(painter, mark_place(wire, layout, notes), theme)

        self.tags.draw(theme.name, paint_notes)
