"""Text in millimetres: as outlines, which look alike everywhere, or as text that can be found."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

from PySide6.QtCore import QPointF, Qt
from PySide6.QtGui import QColor, QFont, QFontMetricsF, QPainter, QPainterPath, QTransform

from wirer.circuit.kind import Point

_FONT_PIXELS = 100


@lru_cache(maxsize=4096)
def outlined(text: str, height_mm: float) -> QPainterPath:
    """Return the outline of a text, `height_mm` the height of its capitals.

    Its middle in x, and the middle of its capitals in y, are at the origin, so that texts in a
    column or a row stand evenly whatever letters they have.
    """
    font = _font()
    path = QPainterPath()
    path.addText(0, 0, font, text)
    capital = QFontMetricsF(font).capHeight() or float(_FONT_PIXELS)
    scale = height_mm / capital
    middle = QTransform.fromTranslate(-path.boundingRect().center().x(), capital / 2)
    return (middle * QTransform.fromScale(scale, scale)).map(path)


def _font() -> QFont:
    font = QFont("sans-serif")
    font.setPixelSize(_FONT_PIXELS)
    font.setFeature(QFont.Tag("liga"), 0)  # joined letters can't be found in a PDF
    return font


@dataclass(frozen=True, slots=True)
class Lettering:
    """How texts are painted: their colour, and as outlines or as text.

    As outlines they look alike wherever they are shown; as text they can be searched for and
    copied, with their font embedded by the device.
    """

    colour: str
    as_paths: bool = True


def paint_text(
    painter: QPainter,
    text: str,
    at: Point,
    height_mm: float,
    lettering: Lettering,
    room_mm: float = 0.0,
    turn_deg: float = 0.0,
) -> None:
    """Paint a text about its middle, narrowed to its room where it is wider (0: no bound)."""
    painter.save()
    painter.translate(QPointF(*at))
    painter.rotate(turn_deg)
    path = outlined(text, height_mm)
    width = path.boundingRect().width()
    painter.scale(room_mm / width if 0 < room_mm < width else 1.0, 1.0)
    if lettering.as_paths:
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(QColor(lettering.colour))
        painter.drawPath(path)
    else:
        _paint_letters(painter, text, height_mm, lettering.colour)
    painter.restore()


def text_width_mm(text: str, height_mm: float) -> float:
    """Return how wide a text is, in mm."""
    return outlined(text, height_mm).boundingRect().width()


def _paint_letters(painter: QPainter, text: str, height_mm: float, colour: str) -> None:
    font = _font()
    metrics = QFontMetricsF(font)
    scale = height_mm / (metrics.capHeight() or _FONT_PIXELS)
    painter.setTransform(QTransform.fromScale(scale, scale), True)
    painter.setFont(font)
    painter.setPen(QColor(colour))
    width = metrics.horizontalAdvance(text)
    painter.drawText(QPointF(-width / 2, metrics.capHeight() / 2), text)
