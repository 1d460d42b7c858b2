"""Painting what schemdraw has drawn: its segments, already placed, by a QPainter in mm.

schemdraw draws symbols; the placing is the program's. One painter then serves screen, SVG, PDF and
PNG, and text looks alike everywhere. A drawing's unit is `UNIT_MM`, its y axis points up.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from typing import Literal

import schemdraw
from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QPainter, QPainterPath, QPen, QPolygonF
from schemdraw.segments import Segment, SegmentArc, SegmentCircle, SegmentPoly, SegmentText
from schemdraw.transform import Transform

from wirer.circuit.errors import WirerError
from wirer.circuit.kind import Point
from wirer.drawing.palette import Theme
from wirer.drawing.text import Lettering, paint_text, text_width_mm
from wirer.layout.box import Box, boxes_union

UNIT_MM = 5.0
LINE_MM = 0.35
FONT_TO_MM = 2.4 / 14
"""Height of capitals in mm for a point of schemdraw's font size."""


USUAL_WIDTH = 2.0
"""schemdraw's figure for the width of a usual line."""


class FittedText(SegmentText):
    """A line of text that is narrowed to its room, in schemdraw's units, where it is wider."""

    def __init__(
        self,
        at: Point,
        text: str,
        across: Literal["left", "center", "right"],
        size: float,
        room: float,
    ) -> None:
        super().__init__(at, text, align=(across, "center"), fontsize=size, rotation_global=False)
        self.across = across
        self.room = room

    def xform(self, transform: Transform, **_style: object) -> FittedText:
        """Return the text, placed."""
        place = transform.transform(self.xy)
        return FittedText(place, self.text, self.across, self.fontsize or 0.0, self.room)


class UnknownStrokeError(WirerError):
    """A symbol of schemdraw with a stroke that this painter does not know."""


def new_drawing() -> schemdraw.Drawing:
    """Return an empty drawing that neither shows itself nor depends on what is installed."""
    return schemdraw.Drawing(canvas="svg", show=False, unit=3)


def paint_drawing(
    painter: QPainter, drawing: schemdraw.Drawing, theme: Theme, as_paths: bool = True
) -> None:
    """Paint a drawing with its origin at the painter's, in mm."""
    for segment in drawing.get_segments():
        _paint(painter, segment, theme, as_paths)


def drawing_box(drawing: schemdraw.Drawing) -> Box:
    """Return the box round a drawing in mm, y down, texts included."""
    return boxes_union([_box(segment) for segment in drawing.get_segments()])


def _paint(painter: QPainter, segment: object, theme: Theme, as_paths: bool) -> None:
    share = (getattr(segment, "lw", None) or USUAL_WIDTH) / USUAL_WIDTH
    pen = QPen(QColor(theme.ink), LINE_MM * share)
    pen.setJoinStyle(Qt.PenJoinStyle.RoundJoin)
    pen.setCapStyle(Qt.PenCapStyle.RoundCap)
    if getattr(segment, "ls", None) == "--":
        pen.setDashPattern([4, 3])
    painter.setPen(pen)
    painter.setBrush(Qt.BrushStyle.NoBrush)
    match segment:
        case SegmentText():
            _paint_text(painter, segment, Lettering(theme.ink, as_paths))
        case SegmentCircle():
            if segment.fill:
                painter.setBrush(QColor(theme.paper if segment.fill == "bg" else theme.ink))
            painter.drawEllipse(_point(segment.center), *[segment.radius * UNIT_MM] * 2)
        case SegmentArc():
            _paint_arc(painter, segment)
        case SegmentPoly():
            if segment.fill:
                painter.setBrush(QColor(theme.ink))
            painter.drawPolygon(QPolygonF([_point(p) for p in segment.verts]))
        case Segment():
            _paint_line(painter, segment, theme)
        case _:
            raise UnknownStrokeError(f"no way to paint {type(segment).__name__}")


def _point(place: Iterable[float]) -> QPointF:
    x, y = place
    return QPointF(x * UNIT_MM, -y * UNIT_MM)


def _paint_line(painter: QPainter, segment: Segment, theme: Theme) -> None:
    path = QPainterPath()
    pen_down = False
    for place in segment.path:
        if math.isnan(place[0]):
            pen_down = False
            continue
        point = _point(place)
        if pen_down:
            path.lineTo(point)
        else:
            path.moveTo(point)
        pen_down = True
    painter.drawPath(path)
    if segment.arrow and "->" in segment.arrow:
        _paint_head(painter, _point(segment.path[-2]), _point(segment.path[-1]), theme)


def _paint_head(painter: QPainter, tail: QPointF, tip: QPointF, theme: Theme) -> None:
    along = tip - tail
    length = math.hypot(along.x(), along.y())
    if not length:
        return
    step = along * (1.2 / length)
    side = QPointF(-step.y(), step.x()) * 0.35
    painter.setBrush(QColor(theme.ink))
    painter.drawPolygon(QPolygonF([tip, tip - step + side, tip - step - side]))


def _paint_arc(painter: QPainter, segment: SegmentArc) -> None:
    width, height = segment.width * UNIT_MM, segment.height * UNIT_MM
    middle = _point(segment.center)
    painter.save()
    painter.translate(middle)
    painter.rotate(-segment.angle)
    span = (segment.theta2 - segment.theta1) % 360 or 360
    rect = QRectF(-width / 2, -height / 2, width, height)
    painter.drawArc(rect, round(segment.theta1 * 16), round(span * 16))
    painter.restore()


def _paint_text(painter: QPainter, segment: SegmentText, lettering: Lettering) -> None:
    box = _text_box(segment)
    middle = ((box.left + box.right) / 2, (box.top + box.bottom) / 2)
    room = getattr(segment, "room", 0.0) * UNIT_MM
    paint_text(painter, segment.text, middle, _height_mm(segment), lettering, room)


def _height_mm(segment: SegmentText) -> float:
    return float(segment.fontsize or 14) * FONT_TO_MM


def _text_box(segment: SegmentText) -> Box:
    height = _height_mm(segment)
    width = text_width_mm(segment.text, height)
    room = getattr(segment, "room", 0.0) * UNIT_MM
    width = min(width, room) if room else width
    place = _point(segment.xy)
    across, upright = segment.align or ("left", "bottom")
    left = place.x() - {"left": 0.0, "center": width / 2, "right": width}[across]
    top = place.y() - {"top": 0.0, "center": height / 2, "bottom": height}[upright]
    return Box(left, top, left + width, top + height)


def _box(segment: object) -> Box:
    match segment:
        case SegmentText():
            return _text_box(segment)
        case SegmentCircle():
            middle, radius = _point(segment.center), segment.radius * UNIT_MM
            return Box.centred((middle.x(), middle.y()), 2 * radius, 2 * radius)
        case SegmentArc():
            middle = _point(segment.center)
            size = max(segment.width, segment.height) * UNIT_MM
            return Box.centred((middle.x(), middle.y()), size, size)
        case SegmentPoly():
            return Box.around([(p.x(), p.y()) for p in map(_point, segment.verts)])
        case Segment():
            points = [_point(p) for p in segment.path if not math.isnan(p[0])]
            return Box.around([(p.x(), p.y()) for p in points])
        case _:
            raise UnknownStrokeError(f"no way to measure {type(segment).__name__}")
