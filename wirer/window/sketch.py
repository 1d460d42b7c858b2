"""Items of the wiring view that are painted once and then shown from what was recorded."""

from __future__ import annotations

from collections.abc import Callable, Hashable

from PySide6.QtCore import QPointF, QRectF
from PySide6.QtGui import QPainter, QPicture
from PySide6.QtWidgets import QGraphicsItem, QStyleOptionGraphicsItem, QWidget

MARGIN_MM = 1.0
MOST_KEPT = 24

Paint = Callable[[QPainter], None]


class Sketch(QGraphicsItem):
    """A picture in mm. What it looked like before is kept, so that a switch is quickly thrown back.

    It is not shown where a millimetre has fewer than `least_scale` pixels.
    """

    def __init__(self, z: float, *, cached: bool = False, least_scale: float = 0.0) -> None:
        super().__init__()
        self.setZValue(z)
        if cached:
            self.setCacheMode(QGraphicsItem.CacheMode.DeviceCoordinateCache)
        self._least_scale = least_scale
        self._picture = QPicture()
        self._box = QRectF()
        self._look: Hashable = None
        self._kept: dict[Hashable, QPicture] = {}

    def draw(self, look: Hashable, paint: Paint) -> None:
        """Show what `paint` paints, which `look` stands for: it is asked once for each look."""
        if look == self._look:
            return
        self._look = look
        picture = self._kept.get(look)
        if picture is None:
            if len(self._kept) >= MOST_KEPT:
                self._kept.clear()
            picture = self._kept[look] = recorded(paint)
        box = QRectF(picture.boundingRect())
        box.adjust(-MARGIN_MM, -MARGIN_MM, MARGIN_MM, MARGIN_MM)
        if box != self._box:
            self.prepareGeometryChange()
            self._box = box
        self._picture = picture
        self.update()

    def wipe(self) -> None:
        """Show nothing."""
        self.draw(None, lambda _painter: None)

    def forget(self) -> None:
        """Forget what was painted before: the same look would now be painted otherwise."""
        self._kept.clear()
        self._look = None

    def boundingRect(self) -> QRectF:
        """Return the box round the picture."""
        return self._box

    def paint(
        self, painter: QPainter, option: QStyleOptionGraphicsItem, _widget: QWidget | None = None
    ) -> None:
        """Show the picture."""
        if self._least_scale:
            scale = option.levelOfDetailFromTransform(painter.worldTransform())
            if scale < self._least_scale:
                return
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
