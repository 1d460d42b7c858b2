"""What is put on a page: words, lines, boxes and pictures, each with its box in mm."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from PySide6.QtCore import QLineF, QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QPainter, QPen

from wirer.drawing.notes import rect
from wirer.drawing.palette import Theme, wire_colours
from wirer.drawing.papers.typeface import (
    PIXELS,
    Style,
    ascent_mm,
    descent_mm,
    font,
    width_mm,
)
from wirer.drawing.shapes import edge_pen
from wirer.layout.box import Box

RULE = "#b9bcc0"
BAND = "#eef0f2"


@dataclass(frozen=True, slots=True)
class Words:
    """A line of text from `x` on, standing on `baseline`."""

    text: str
    style: Style
    x: float
    baseline: float

    @property
    def box(self) -> Box:
        """The room of the line."""
        return Box(
            self.x,
            self.baseline - ascent_mm(self.style),
            self.x + width_mm(self.text, self.style),
            self.baseline + descent_mm(self.style),
        )

    def paint(self, painter: QPainter, theme: Theme) -> None:
        """Paint the text as text, so that it can be found and copied."""
        scale = self.style.size_mm / PIXELS
        painter.save()
        painter.translate(self.x, self.baseline)
        painter.scale(scale, scale)
        painter.setFont(font(self.style.bold))
        painter.setPen(QColor(getattr(theme, self.style.ink)))
        painter.drawText(QPointF(0, 0), self.text)
        painter.restore()


@dataclass(frozen=True, slots=True)
class Rule:
    """A straight line."""

    start: tuple[float, float]
    end: tuple[float, float]
    width: float = 0.12
    colour: str = RULE

    @property
    def box(self) -> Box:
        """The box round it."""
        return Box.around((self.start, self.end))

    def paint(self, painter: QPainter, theme: Theme) -> None:  # noqa: ARG002 - as all marks
        """Paint the line."""
        painter.setPen(_pen(self.colour, self.width))
        painter.drawLine(QLineF(QPointF(*self.start), QPointF(*self.end)))


@dataclass(frozen=True, slots=True)
class Field:
    """A box: a band of colour, or a frame to write in."""

    box: Box
    fill: str = ""
    edge: str = ""

    def paint(self, painter: QPainter, theme: Theme) -> None:  # noqa: ARG002 - as all marks
        """Paint the box."""
        painter.setPen(_pen(self.edge, 0.15) if self.edge else QPen(Qt.PenStyle.NoPen))
        painter.setBrush(QColor(self.fill) if self.fill else Qt.BrushStyle.NoBrush)
        painter.drawRect(rect(self.box))


@dataclass(frozen=True, slots=True)
class TickBox:
    """A box to tick."""

    box: Box
    ticked: bool = False

    def paint(self, painter: QPainter, theme: Theme) -> None:
        """Paint the box, and the tick of what is done."""
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.setPen(_pen(theme.ink, 0.2))
        painter.drawRect(rect(self.box))
        if self.ticked:
            box, size = self.box, self.box.width
            painter.setPen(edge_pen(theme.ink, 0.45))
            x, y = box.left, box.top
            points = [(0.15, 0.55), (0.42, 0.82), (0.95, 0.05)]
            painter.drawPolyline([QPointF(x + a * size, y + b * size) for a, b in points])


@dataclass(frozen=True, slots=True)
class Swatch:
    """A short piece of wire in its colour."""

    box: Box
    colour: str

    def paint(self, painter: QPainter, theme: Theme) -> None:
        """Paint the wire, striped if it has two colours, cased if the paper would hide it."""
        colours = wire_colours(theme, self.colour)
        painter.setPen(_pen(colours.casing or colours.core, 0.15))
        painter.setBrush(QColor(colours.core))
        painter.drawRect(rect(self.box))
        if colours.stripe:
            box = self.box
            step = box.width / 5
            painter.setPen(Qt.PenStyle.NoPen)
            painter.setBrush(QColor(colours.stripe))
            for place in (1, 3):
                painter.drawRect(QRectF(box.left + place * step, box.top, step, box.height))


@dataclass(frozen=True, slots=True)
class Picture:
    """A drawing in a box; `draw` paints it in mm from the box's upper left corner."""

    box: Box
    draw: Callable[[QPainter], None]
    name: str = ""

    def paint(self, painter: QPainter, theme: Theme) -> None:  # noqa: ARG002 - as all marks
        """Paint the drawing, and nothing of it beyond its box."""
        painter.save()
        painter.setClipRect(rect(self.box))
        painter.translate(self.box.left, self.box.top)
        self.draw(painter)
        painter.restore()


Mark = Words | Rule | Field | TickBox | Swatch | Picture


def _pen(colour: str, width: float) -> QPen:
    return QPen(QColor(colour), width, Qt.PenStyle.SolidLine, Qt.PenCapStyle.FlatCap)
