"""What is written beside parts, lugs and wires."""

from __future__ import annotations

from collections.abc import Mapping

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QPainter, QPainterPath, QPen

from wirer.circuit.kind import Kind, Point
from wirer.circuit.model import Part
from wirer.drawing.palette import Theme
from wirer.drawing.shapes import arc_points, at_angle, edge_pen
from wirer.drawing.text import Lettering, paint_text, text_width_mm
from wirer.layout.arrows import cw_arrows
from wirer.layout.box import Box
from wirer.layout.label import Choice, Label
from wirer.layout.tags import Tag
from wirer.layout.transform import Transform

_ARROW_DEG = 52.0
_HEAD_MM = 0.75
_CW_MM = 1.2


def rect(box: Box) -> QRectF:
    """Return a box as Qt's."""
    return QRectF(box.left, box.top, box.width, box.height)


def paint_label(painter: QPainter, label: Label, theme: Theme, as_paths: bool) -> None:
    """Paint the name of a part."""
    lettering = Lettering(theme.ink, as_paths)
    for line, at in label.lines:
        paint_text(painter, line, at, label.height_mm, lettering, label.box.width)


def paint_choices(
    painter: QPainter,
    choices: tuple[Choice, ...],
    present: str | None,
    theme: Theme,
    as_paths: bool,
) -> None:
    """Paint the names of a switch's positions, the present one on a bar of ink."""
    for choice in choices:
        label = choice.label
        chosen = choice.position == present
        room = label.box.width - 0.8
        if chosen:
            width = min(text_width_mm(label.text, label.height_mm) + 1.4, label.box.width)
            bar = Box.centred(label.box.centre, width, label.box.height - 0.2)
            painter.setPen(Qt.PenStyle.NoPen)
            painter.setBrush(QColor(theme.ink))
            painter.drawRoundedRect(rect(bar), 0.8, 0.8)
        lettering = Lettering(theme.paper if chosen else theme.quiet, as_paths)
        paint_text(painter, label.text, label.box.centre, label.height_mm, lettering, room)


def paint_tags(painter: QPainter, tags: Mapping[str, Tag], theme: Theme, as_paths: bool) -> None:
    """Paint the text of each wire on a plate of paper along it."""
    lettering = Lettering(theme.ink, as_paths)
    for tag in tags.values():
        painter.setPen(QPen(QColor(theme.quiet), 0.1))
        painter.setBrush(QColor(theme.paper))
        painter.drawRoundedRect(rect(tag.box), 0.4, 0.4)
        turn = -90.0 if tag.upright else 0.0
        room = max(tag.box.width, tag.box.height) - 0.5
        paint_text(painter, tag.text, tag.at, tag.height_mm, lettering, room, turn)


def paint_lug_names(
    painter: QPainter, names: Mapping[str, Tag], theme: Theme, as_paths: bool
) -> None:
    """Paint the name of each lug beside it, on a breath of paper."""
    paper = QColor(theme.paper)
    paper.setAlphaF(0.75)
    lettering = Lettering(theme.ink, as_paths)
    for name in names.values():
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(paper)
        painter.drawRoundedRect(rect(name.box), 0.3, 0.3)
        paint_text(painter, name.text, name.at, name.height_mm, lettering, name.box.width)


def paint_cw_arrows(
    painter: QPainter, kind: Kind, part: Part, theme: Theme, as_paths: bool
) -> None:
    """Paint how each shaft turns clockwise, which from behind runs the other way round."""
    place = Transform.of(part)
    for arrow in cw_arrows(kind):
        painter.save()
        painter.translate(QPointF(*place.at))
        painter.rotate(place.turn)
        painter.scale(-1.0 if place.flip else 1.0, 1.0)
        painter.translate(QPointF(*arrow.at))
        _paint_arrow(painter, arrow.radius, theme.ink)
        painter.restore()
        lettering = Lettering(theme.ink, as_paths)
        paint_text(painter, "cw", place.point(arrow.words), _CW_MM, lettering)


def _paint_arrow(painter: QPainter, radius: float, colour: str) -> None:
    """Paint an arc below the origin that runs anticlockwise as seen."""
    painter.setBrush(Qt.BrushStyle.NoBrush)
    painter.setPen(edge_pen(colour, 0.25))
    painter.drawPolyline(arc_points(radius, 180.0 - _ARROW_DEG, 180.0 + _ARROW_DEG))
    tip = 180.0 - _ARROW_DEG - 9.0
    base = 180.0 - _ARROW_DEG
    head = QPainterPath(at_angle(radius, tip))
    head.lineTo(at_angle(radius + _HEAD_MM, base))
    head.lineTo(at_angle(radius - _HEAD_MM, base))
    head.closeSubpath()
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(QColor(colour))
    painter.drawPath(head)


def paint_done_mark(painter: QPainter, at: Point, theme: Theme) -> None:
    """Paint the tick of a wire that is soldered, in a disc of paper."""
    centre = QPointF(*at)
    painter.setPen(QPen(QColor(theme.ink), 0.15))
    painter.setBrush(QColor(theme.paper))
    painter.drawEllipse(centre, 1.0, 1.0)
    tick = QPainterPath(centre + QPointF(-0.5, 0.05))
    tick.lineTo(centre + QPointF(-0.12, 0.45))
    tick.lineTo(centre + QPointF(0.55, -0.45))
    painter.setBrush(Qt.BrushStyle.NoBrush)
    painter.setPen(edge_pen(theme.ink, 0.28))
    painter.drawPath(tick)
