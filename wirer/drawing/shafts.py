"""The rotation of a pot's shafts, shown on its rim as seen from behind."""

from __future__ import annotations

from collections.abc import Mapping

from PySide6.QtCore import QPointF, Qt
from PySide6.QtGui import QColor, QPainter, QPolygonF

from wirer.circuit.kind import Kind, Shaft
from wirer.drawing.palette import Theme
from wirer.drawing.shapes import arc_points, at_angle, edge_pen, faint

_RIM_SHARE = 0.84
_NEXT_SHARE = 0.34


def pointer_angle(shaft: Shaft, rotation: float) -> float:
    """Return where the knob points, in degrees clockwise from the top as seen from behind.

    From the knob the pointer runs clockwise from half its travel left of the top to half of it
    right; seen from behind that is mirrored, and clockwise turning runs anticlockwise.
    """
    return shaft.travel_deg * (0.5 - rotation)


def paint_shafts(
    painter: QPainter, kind: Kind, rotations: Mapping[str, float], theme: Theme, faded: bool
) -> None:
    """Paint for each shaft its travel as an arc inside the rim and a pointer at its rotation."""
    body = kind.body
    rim = body.radius if body.form == "circle" else min(body.size) / 2
    edge = theme.materials["metal"].edge
    ink = theme.materials["dark-plastic"].shade
    if faded:
        edge, ink = (faint(theme, c) for c in (edge, ink))
    for index, shaft in enumerate(kind.shafts):
        radius = rim * (_RIM_SHARE - _NEXT_SHARE * index)
        rotation = rotations.get(shaft.name, shaft.default)
        painter.save()
        painter.translate(QPointF(*shaft.at))
        _paint_travel(painter, shaft, radius, edge)
        _paint_pointer(painter, radius, pointer_angle(shaft, rotation), ink)
        painter.restore()


def _paint_travel(painter: QPainter, shaft: Shaft, radius: float, colour: str) -> None:
    painter.setBrush(Qt.BrushStyle.NoBrush)
    painter.setPen(edge_pen(colour, 0.15))
    half = shaft.travel_deg / 2
    painter.drawPolyline(arc_points(radius, -half, half))
    if shaft.detent is not None:
        notch = pointer_angle(shaft, shaft.detent)
        painter.drawLine(at_angle(radius - 0.7, notch), at_angle(radius + 0.7, notch))


def _paint_pointer(painter: QPainter, radius: float, angle: float, colour: str) -> None:
    size = 0.11 * radius
    tip = at_angle(radius + size, angle)
    foot = [at_angle(radius - size, angle + side * 9.0) for side in (-1.0, 1.0)]
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(QColor(colour))
    painter.drawPolygon(QPolygonF([tip, *foot]))
