"""What is laid over or under the picture for a while: a net, the focus, a grip, marked places."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QPainter, QPen

from wirer.circuit.kind import Kind
from wirer.drawing.notes import rect
from wirer.drawing.palette import Theme
from wirer.drawing.parts import part_transform
from wirer.drawing.wires import rounded
from wirer.rules.finding import Severity
from wirer.window.sketch import Sketch
from wirer.window.standing import GLOW_Z, MARK_Z, Scenery

NET_MM = 2.6
NET_RING_MM = 2.3
RING_MM = 3.2
FOCUS_MM = 1.6


@dataclass(frozen=True)
class Glow:
    """What is lit for a while: a net by its lugs, places of a finding, a part's focus, a grip."""

    net: frozenset[str] = frozenset()
    places: tuple[str, ...] = ()
    severity: Severity = "note"
    focus: str | None = None
    grip: str | None = None


class GlowItems:
    """The items of what is lit for a while."""

    def __init__(self, scenery: Scenery) -> None:
        self._scenery = scenery
        self._net, self._places = Sketch(GLOW_Z), Sketch(MARK_Z)
        self._focus, self._grip = Sketch(MARK_Z), Sketch(MARK_Z)

    @property
    def sketches(self) -> Iterator[Sketch]:
        """The items."""
        yield from (self._net, self._places, self._focus, self._grip)

    def show(self, glow: Glow, theme: Theme) -> None:
        """Show what is lit, in a theme's colours."""
        name = theme.name
        self._net.draw((name, glow.net), lambda p: self._paint_net(p, glow, theme))
        marked = (name, glow.places, glow.severity)
        self._places.draw(marked, lambda p: self._paint_places(p, glow, theme))
        self._focus.draw((name, glow.focus), lambda p: self._paint_focus(p, glow, theme))
        self._grip.draw((name, glow.grip), lambda p: self._paint_grip(p, glow, theme))

    def _paint_net(self, painter: QPainter, glow: Glow, theme: Theme) -> None:
        layout = self._scenery.layout
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.setPen(_pen(_clear(theme.accent, 0.45), NET_MM))
        for wire in self._scenery.circuit.wires:
            if wire.from_lug in glow.net and wire.id in layout.routes:
                painter.drawPath(rounded(layout.routes[wire.id].points))
        painter.setPen(_pen(QColor(theme.accent), 0.6))
        for lug in sorted(glow.net & layout.lugs.keys()):
            painter.drawEllipse(QPointF(*layout.lugs[lug]), NET_RING_MM, NET_RING_MM)

    def _paint_places(self, painter: QPainter, glow: Glow, theme: Theme) -> None:
        layout = self._scenery.layout
        colour = {"error": theme.error, "warning": theme.warning, "note": theme.note}[glow.severity]
        painter.setBrush(Qt.BrushStyle.NoBrush)
        for place in glow.places:
            painter.setPen(_pen(QColor(colour), 0.8))
            if place in layout.lugs:
                painter.drawEllipse(QPointF(*layout.lugs[place]), RING_MM, RING_MM)
            elif place in layout.placements:
                box = rect(layout.placements[place].extent.grown(FOCUS_MM))
                painter.drawRoundedRect(box, 2.0, 2.0)
            elif place in layout.routes:
                painter.setPen(_pen(_clear(colour, 0.4), NET_MM))
                painter.drawPath(rounded(layout.routes[place].points))

    def _paint_focus(self, painter: QPainter, glow: Glow, theme: Theme) -> None:
        placement = self._scenery.layout.placements.get(glow.focus or "")
        if placement:
            pen = _pen(QColor(theme.accent), 0.7)
            pen.setStyle(Qt.PenStyle.DashLine)
            painter.setPen(pen)
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.drawRoundedRect(rect(placement.extent.grown(FOCUS_MM)), 2.0, 2.0)

    def _paint_grip(self, painter: QPainter, glow: Glow, theme: Theme) -> None:
        part = self._scenery.circuit.part_by_id.get(glow.grip or "")
        if part:
            painter.setPen(_pen(QColor(theme.accent), 0.5))
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.setTransform(part_transform(part), True)
            _outline_grip(painter, self._scenery.circuit.kind_of(part))


def _outline_grip(painter: QPainter, kind: Kind) -> None:
    """Outline what a hand takes: the actuator, else the knob."""
    if kind.actuator:
        x, y, width, height = kind.actuator.grip
        width, height = width + 1.2, height + 1.2
        painter.drawRoundedRect(QRectF(x - width / 2, y - height / 2, width, height), 1.0, 1.0)
    else:
        radius = 0.6 + (kind.body.radius if kind.body.form == "circle" else min(kind.body.size) / 2)
        painter.drawEllipse(QPointF(0, 0), radius, radius)


def _clear(colour: str, share: float) -> QColor:
    clear = QColor(colour)
    clear.setAlphaF(share)
    return clear


def _pen(colour: QColor, width: float) -> QPen:
    pen = QPen(colour, width)
    pen.setCapStyle(Qt.PenCapStyle.RoundCap)
    pen.setJoinStyle(Qt.PenJoinStyle.RoundJoin)
    return pen
