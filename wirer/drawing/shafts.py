"""The rotation of a pot's shafts, shown on its rim as seen from behind."""

from __future__ import annotations

from collections.abc import Mapping

from PySide6.QtCore import QPointF, Qt
from PySide6.QtGui import QColor, QPainter, QPolygonF

from wirer.circuit.kind import Kind, Shaft, TrackElement
from wirer.drawing.palette import Theme, ink_on
from wirer.drawing.shapes import arc_points, at_angle, edge_pen, faint

_RIM_SHARE = 0.86
_NEXT_SHARE = 0.44
_POINTER_DEG = 6.0
_GAP = 0.07


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
    metal = theme.materials["metal"]
    edge = metal.edge
    ink = ink_on(theme, metal.shade)
    if faded:
        edge, ink = (faint(theme, c) for c in (edge, ink))
    cut = {e.shaft for e in kind.elements if isinstance(e, TrackElement) and e.cut}
    for index, shaft in enumerate(kind.shafts):
        radius = rim * (_RIM_SHARE - _NEXT_SHARE * index)
        rotation = rotations.get(shaft.name, shaft.default)
        painter.save()
        painter.translate(QPointF(*shaft.at))
        _paint_travel(painter, shaft, radius, edge, shaft.name in cut)
        _paint_pointer(painter, radius, pointer_angle(shaft, rotation), ink)
        painter.restore()


def _paint_travel(painter: QPainter, shaft: Shaft, radius: float, colour: str, cut: bool) -> None:
    """Paint the travel; a track that ends early leaves a gap, a detent has a notch."""
    painter.setBrush(Qt.BrushStyle.NoBrush)
    painter.setPen(edge_pen(colour, 0.15))
    last = 1.0 - _GAP if cut else 1.0
    painter.drawPolyline(arc_points(radius, pointer_angle(shaft, 0.0), pointer_angle(shaft, last)))
    notches = [0.0, last] if shaft.detent is None else [0.0, shaft.detent, last]
    for notch in (pointer_angle(shaft, rotation) for rotation in notches):
        painter.drawLine(at_angle(radius * 0.94, notch), at_angle(radius * 1.06, notch))


def _paint_pointer(painter: QPainter, radius: float, angle: float, colour: str) -> None:
    tip = at_angle(radius * 1.11, angle)
    foot = [at_angle(radius * 0.84, angle + side * _POINTER_DEG) for side in (-1.0, 1.0)]
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(QColor(colour))
    painter.drawPolygon(QPolygonF([tip, *foot]))
