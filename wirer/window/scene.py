"""The wiring view's scene: every part, wire and text an item of its own, shown from values.

It is told what lies in it and where things stand, and repaints what has changed. Millimetres are
its units. It decides nothing, so that editing has only to show other values.
"""

from __future__ import annotations

from PySide6.QtCore import QObject, QRect, QRectF, Qt
from PySide6.QtGui import QColor, QPainter, QPen
from PySide6.QtWidgets import QGraphicsScene

from wirer.circuit.model import Circuit
from wirer.circuit.stance import Stance
from wirer.layout.box import Box
from wirer.layout.layout import Layout
from wirer.window.glow_items import RING_MM, Glow, GlowItems
from wirer.window.part_items import PartItems
from wirer.window.sketch import Sketch
from wirer.window.standing import Scenery, Standing
from wirer.window.targets import Targets
from wirer.window.wire_items import NoteItems, WireItem

GRID_MM = 10
ROOM_MM = 8.0


class WiringScene(QGraphicsScene):
    """A circuit as it lies before the person who solders it."""

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self.setItemIndexMethod(QGraphicsScene.ItemIndexMethod.BspTreeIndex)
        self.standing = Standing(Stance())
        self.glow = Glow()
        self._shown: list[PartItems | WireItem | NoteItems] = []
        self.lay(Scenery(Circuit(), Layout({}, {})))

    def lay(self, scenery: Scenery) -> None:
        """Show another circuit, or the same in another layout."""
        self.clear()
        self.scenery = scenery
        self.targets = Targets(scenery.circuit, scenery.layout)
        self._glow_items = GlowItems(scenery)
        self._shown = []
        self._add_parts()
        self._add_wires()
        for sketch in self._glow_items.sketches:
            self.addItem(sketch)
        box = scenery.layout.box.grown(ROOM_MM)
        self.setSceneRect(QRectF(box.left, box.top, box.width, box.height))
        self.show_standing(self.standing)

    def show_standing(self, standing: Standing) -> None:
        """Show where everything stands and how its nets are lit."""
        repaints_ground = standing.theme is not self.standing.theme
        self.standing = standing
        for shown in self._shown:
            shown.show(standing)
        self._glow_items.show(self.glow, standing.theme)
        if repaints_ground:
            self.invalidate(self.sceneRect(), QGraphicsScene.SceneLayer.BackgroundLayer)

    def show_glow(self, glow: Glow) -> None:
        """Show what is lit for a while."""
        self.glow = glow
        self._glow_items.show(glow, self.standing.theme)

    def box_of(self, place: str) -> Box | None:
        """Return where a part, lug or wire lies; None where there is no such thing."""
        layout = self.scenery.layout
        if place in layout.lugs:
            return Box.centred(layout.lugs[place], 2 * RING_MM, 2 * RING_MM)
        if place in layout.placements:
            return layout.placements[place].extent
        route = layout.routes.get(place)
        return route.box if route else None

    def _add_parts(self) -> None:
        circuit = self.scenery.circuit
        soldered = {
            lug: None for wire in circuit.wires if wire.style != "mount" for lug in wire.ends
        }
        if not self.scenery.layout.routes:
            soldered = {}
        for part in circuit.parts:
            lugs = [f"{part.id}.{lug.name}" for lug in circuit.kind_of(part).lugs]
            items = PartItems(self.scenery, part, tuple(lug for lug in lugs if lug in soldered))
            self._show(items, *items.sketches)

    def _add_wires(self) -> None:
        for wire in self.scenery.circuit.wires:
            if wire.id in self.scenery.layout.routes:
                item = WireItem(self.scenery, wire)
                self._show(item, item.sketch)
        notes = NoteItems(self.scenery)
        self._show(notes, notes.tags, notes.lug_names)

    def _show(self, shown: PartItems | WireItem | NoteItems, *sketches: Sketch) -> None:
        self._shown.append(shown)
        for sketch in sketches:
            self.addItem(sketch)

    def drawBackground(self, painter: QPainter, rect: QRectF | QRect) -> None:
        """Paint paper with a grid of 10 mm."""
        theme = self.standing.theme
        painter.fillRect(rect, QColor(theme.paper))
        pen = QPen(QColor(theme.grid), 0, Qt.PenStyle.SolidLine)
        painter.setPen(pen)
        left, top = int(rect.left() // GRID_MM) * GRID_MM, int(rect.top() // GRID_MM) * GRID_MM
        for x in range(left, int(rect.right()) + GRID_MM, GRID_MM):
            painter.drawLine(x, int(rect.top()) - 1, x, int(rect.bottom()) + 1)
        for y in range(top, int(rect.bottom()) + GRID_MM, GRID_MM):
            painter.drawLine(int(rect.left()) - 1, y, int(rect.right()) + 1, y)
