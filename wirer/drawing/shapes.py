"""The strokes that pictures of parts are made of, painted in millimetres."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from functools import lru_cache

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import (
    QBrush,
    QColor,
    QFont,
    QLinearGradient,
    QPainter,
    QPainterPath,
    QPen,
    QPolygonF,
    QTransform,
)

from wirer.circuit.kind import Form, Shape
from wirer.drawing.palette import Finish, Theme, mixed

EDGE_MM = 0.18
_THIN_LINE_MM = 0.25
_FADED_SHARE = 0.3
_FONT_PIXELS = 100


@lru_cache(maxsize=1024)
def finish(theme: Theme, material: str, faded: bool = False) -> Finish:
    """Return how a material looks in a theme; faded, it is mostly paper.

    Raises
    ------
    KeyError
        The theme does not know the material.
    """
    known = theme.materials[material]  # type: ignore[index] # a document's own kinds are checked
    if not faded:
        return known
    return Finish(faint(theme, known.light), faint(theme, known.shade), faint(theme, known.edge))


def faint(theme: Theme, colour: str) -> str:
    """Return a colour set back towards the theme's paper."""
    return mixed(colour, theme.paper, _FADED_SHARE)


def paint_shape(painter: QPainter, shape: Shape, look: Finish, upright: QTransform) -> None:
    """Paint one shape; `upright` undoes the part's turning and mirroring, so that text reads."""
    _FORMS[shape.form](painter, shape, look, upright)


def edge_pen(colour: str, width_mm: float = EDGE_MM) -> QPen:
    """Return a pen with round ends and joints."""
    cap, join = Qt.PenCapStyle.RoundCap, Qt.PenJoinStyle.RoundJoin
    return QPen(QBrush(QColor(colour)), width_mm, Qt.PenStyle.SolidLine, cap, join)


def _fill(painter: QPainter, look: Finish, box: QRectF) -> None:
    painter.setPen(edge_pen(look.edge))
    if look.light == look.shade:
        painter.setBrush(QColor(look.light))
        return
    gradient = QLinearGradient(box.topLeft(), box.bottomRight())
    gradient.setColorAt(0.0, QColor(look.light))
    gradient.setColorAt(1.0, QColor(look.shade))
    painter.setBrush(QBrush(gradient))


def _rect(painter: QPainter, shape: Shape, look: Finish, _upright: QTransform) -> None:
    (x, y), (w, h) = shape.at, shape.size
    box = QRectF(x - w / 2, y - h / 2, w, h)
    _fill(painter, look, box)
    painter.drawRoundedRect(box, shape.radius, shape.radius)


def _circle(painter: QPainter, shape: Shape, look: Finish, _upright: QTransform) -> None:
    r = shape.radius
    _fill(painter, look, QRectF(shape.at[0] - r, shape.at[1] - r, 2 * r, 2 * r))
    painter.drawEllipse(QPointF(*shape.at), r, r)


def _points(shape: Shape) -> QPolygonF:
    return QPolygonF([QPointF(x, y) + QPointF(*shape.at) for x, y in shape.points])


def _polygon(painter: QPainter, shape: Shape, look: Finish, _upright: QTransform) -> None:
    outline = _points(shape)
    _fill(painter, look, outline.boundingRect())
    painter.drawPolygon(outline)


def _line(painter: QPainter, shape: Shape, look: Finish, _upright: QTransform) -> None:
    """Paint a thin line in the edge's colour, a thick one as a strip with edges of its own."""
    way = _points(shape)
    width = 2 * shape.radius
    painter.setBrush(Qt.BrushStyle.NoBrush)
    if width <= _THIN_LINE_MM * 2:
        painter.setPen(edge_pen(look.edge, width or _THIN_LINE_MM))
        painter.drawPolyline(way)
        return
    painter.setPen(edge_pen(look.edge, width))
    painter.drawPolyline(way)
    painter.setPen(edge_pen(look.light, width - 2 * EDGE_MM))
    painter.drawPolyline(way)


def _text(painter: QPainter, shape: Shape, look: Finish, upright: QTransform) -> None:
    path = text_path(shape.text, shape.size[1])
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(QColor(look.light))
    painter.drawPath((upright * QTransform.fromTranslate(*shape.at)).map(path))


def text_path(text: str, height_mm: float) -> QPainterPath:
    """Return the outline of a text about its middle, `height_mm` the height of its capitals."""
    font = QFont("sans-serif")
    font.setPixelSize(_FONT_PIXELS)
    path = QPainterPath()
    path.addText(0, 0, font, text)
    box = path.boundingRect()
    scale = height_mm / _cap_height()
    middle = QTransform.fromTranslate(-box.center().x(), -box.center().y())
    return (middle * QTransform.fromScale(scale, scale)).map(path)


@lru_cache(maxsize=1)
def _cap_height() -> float:
    font = QFont("sans-serif")
    font.setPixelSize(_FONT_PIXELS)
    path = QPainterPath()
    path.addText(0, 0, font, "E")
    return path.boundingRect().height() or float(_FONT_PIXELS)


def arc_points(radius: float, start_deg: float, end_deg: float) -> QPolygonF:
    """Return an arc about the origin; angles run clockwise from the top, as seen."""
    steps = max(2, math.ceil(abs(end_deg - start_deg) / 6))
    angles = (start_deg + (end_deg - start_deg) * i / steps for i in range(steps + 1))
    return QPolygonF([at_angle(radius, a) for a in angles])


def at_angle(radius: float, clockwise_deg: float) -> QPointF:
    """Return the point at a radius and an angle clockwise from the top, as seen."""
    angle = math.radians(clockwise_deg)
    return QPointF(radius * math.sin(angle), -radius * math.cos(angle))


_FORMS: Mapping[Form, Callable[[QPainter, Shape, Finish, QTransform], None]] = {
    "rect": _rect,
    "circle": _circle,
    "polygon": _polygon,
    "line": _line,
    "text": _text,
}
