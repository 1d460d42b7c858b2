"""Lugs: tinned eyelets, or a spot of solder where one solders to bare metal."""

from __future__ import annotations

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QPainter, QPen

from wirer.circuit.kind import Lug
from wirer.drawing.palette import Role, Theme
from wirer.drawing.shapes import EDGE_MM, edge_pen, faint, finish

LUG_RADIUS_MM = 1.15
_EYE_MM = 0.5
_RING_MM = 1.48
_RING_WIDTH_MM = 0.42
_OUTER_RING_MM = 1.98
_BAND_MM = 1.68
_BAND_WIDTH_MM = 1.0


def paint_lug(
    painter: QPainter, lug: Lug, theme: Theme, role: Role | None = None, faded: bool = False
) -> None:
    """Paint a lug at its place on the part, ringed in the colour of its net's role if it has one.

    The rings differ in form too: signal is a full ring, ground a double one, open a dashed one.
    """
    at = QPointF(*lug.at)
    tin = finish(theme, "tin", faded)
    painter.setPen(edge_pen(tin.edge))
    painter.setBrush(QColor(tin.light))
    painter.drawEllipse(at, LUG_RADIUS_MM, LUG_RADIUS_MM)
    if lug.metal:
        _paint_shine(painter, at, tin.shade)
    else:
        hole = finish(theme, "hole", faded)
        painter.setBrush(QColor(hole.shade))
        painter.drawEllipse(at, _EYE_MM, _EYE_MM)
    if role:
        colour = theme.roles[role]
        paint_role_ring(painter, at, faint(theme, colour) if faded else colour, role, theme.paper)


def _paint_shine(painter: QPainter, at: QPointF, colour: str) -> None:
    r = LUG_RADIUS_MM * 0.62
    painter.setBrush(Qt.BrushStyle.NoBrush)
    painter.setPen(edge_pen(colour, 2 * EDGE_MM))
    painter.drawArc(QRectF(at.x() - r, at.y() - r, 2 * r, 2 * r), 200 * 16, 130 * 16)


def paint_role_ring(painter: QPainter, at: QPointF, colour: str, role: Role, paper: str) -> None:
    """Paint the ring that tells a net's role round a lug, on a band of paper so that it is seen."""
    painter.setBrush(Qt.BrushStyle.NoBrush)
    painter.setPen(QPen(QColor(paper), _BAND_WIDTH_MM))
    painter.drawEllipse(at, _BAND_MM, _BAND_MM)
    pen = QPen(QColor(colour), _RING_WIDTH_MM)
    if role == "open":
        pen.setDashPattern([1.6, 1.4])
        pen.setCapStyle(Qt.PenCapStyle.FlatCap)
    painter.setPen(pen)
    painter.drawEllipse(at, _RING_MM, _RING_MM)
    if role == "ground":
        painter.setPen(QPen(QColor(colour), _RING_WIDTH_MM / 2))
        painter.drawEllipse(at, _OUTER_RING_MM, _OUTER_RING_MM)
