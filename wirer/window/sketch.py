"""Items of the wiring view that are painted once and then shown from what was kept."""

from __future__ import annotations

from collections.abc import Callable, Hashable

from PySide6.QtCore import QPointF, QRectF
from PySide6.QtGui import QPainter, QPicture
from PySide6.QtWidgets import QGraphicsItem, QStyleOptionGraphicsItem, QWidget

MARGIN_MM = 1.0
MOST_KEPT = 6

Paint = Callable[[QPainter], None]


class Sketch(QGraphicsItem):
    """A picture in mm that changes with what it stands for.

    The last few looks are kept as items of their own with their pixels, all but one of them
    clear, so that a switch thrown back costs no painting. Nothing is shown where a millimetre has
    fewer than `least_scale` pixels.
    """

    def __init__(self, z: float, *, least_scale: float = 0.0) -> None:
        super().__init__()
        self.setZValue(z)
        self.setFlag(QGraphicsItem.GraphicsItemFlag.ItemHasNoContents)
        self._least_scale = least_scale
        self._looks: dict[Hashable, Picture] = {}
        self._shown: Hashable = None

    def draw(self, look: Hashable, paint: Paint) -> None:
        """Show what `paint` paints, which `look` stands for: it is asked once for each look."""
        if look == self._shown:
            return
        if self._shown in self._looks:
            self._looks[self._shown].setOpacity(0.0)
        self._shown = look
        if look in self._looks:
            self._looks[look].setOpacity(1.0)
            return
        if len(self._looks) >= MOST_KEPT:
            self._drop(next(iter(self._looks)))
        self._looks[look] = Picture(self, recorded(paint), self._least_scale)

    def _drop(self, look: Hashable) -> None:
        item = self._looks.pop(look)
        self.scene().removeItem(item)

    def boundingRect(self) -> QRectF:
        """Return nothing: the pictures have boxes of their own."""
        return QRectF()

    def paint(
        self, painter: QPainter, option: QStyleOptionGraphicsItem, widget: QWidget | None = None
    ) -> None:
        """Paint nothing: the pictures do."""


class Picture(QGraphicsItem):
    """One look of a sketch."""

    def __init__(self, sketch: Sketch, picture: QPicture, least_scale: float) -> None:
        super().__init__(sketch)
        self.setCacheMode(QGraphicsItem.CacheMode.DeviceCoordinateCache)
        self._picture = picture
        self._least_scale = least_scale
        self._box = QRectF(picture.boundingRect())
        self._box.adjust(-MARGIN_MM, -MARGIN_MM, MARGIN_MM, MARGIN_MM)

    def boundingRect(self) -> QRectF:
        """Return the box round the picture."""
        return self._box

    def paint(
        self, painter: QPainter, option: QStyleOptionGraphicsItem, _widget: QWidget | None = None
    ) -> None:
        """Show the picture."""
        scale = option.levelOfDetailFromTransform(painter.worldTransform())
        if scale >= self._least_scale:
            painter.drawPicture(QPointF(0, 0), self._picture)


def recorded(paint: Paint) -> QPicture:
    """Return what a function paints as a picture to be shown at any size."""
    picture = QPicture()
    painter = QPainter(picture)
    try:
        paint(painter)
    finally:
        painter.end()
    return picture
