"""The legend in the status bar: what the rings round lugs mean."""

from __future__ import annotations

from PySide6.QtCore import QPointF, QSize, Qt
from PySide6.QtGui import QPainter, QPaintEvent
from PySide6.QtWidgets import QHBoxLayout, QLabel, QSizePolicy, QWidget

from wirer.drawing.lugs import paint_role_ring
from wirer.drawing.palette import LIGHT, Role, Theme
from wirer.window.words import ROLE_WORDS

HALF_MM = 2.6


class Legend(QWidget):
    """Each role's ring with its name."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setAccessibleName("Legend")
        self._rings: list[_Ring] = []
        row = QHBoxLayout(self)
        row.setContentsMargins(0, 0, 8, 0)
        row.setSpacing(4)
        for role, words in ROLE_WORDS.items():
            ring = _Ring(role)
            self._rings.append(ring)
            row.addWidget(ring)
            row.addWidget(QLabel(words.removeprefix("on ")))
            row.addSpacing(6)

    def show_theme(self, theme: Theme) -> None:
        """Show the rings in a theme's colours."""
        for ring in self._rings:
            ring.theme = theme
            ring.update()


class _Ring(QWidget):
    """One ring."""

    def __init__(self, role: Role) -> None:
        super().__init__()
        self._role = role
        self.theme = LIGHT
        self.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Fixed)

    def sizeHint(self) -> QSize:
        """Return the size of a letter."""
        side = self.fontMetrics().height()
        return QSize(side, side)

    def paintEvent(self, _event: QPaintEvent) -> None:
        """Paint the ring as it is painted round a lug."""
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        scale = min(self.width(), self.height()) / (2 * HALF_MM)
        painter.scale(scale, scale)
        painter.setPen(Qt.PenStyle.NoPen)
        paper = self.palette().window().color().name()
        at = QPointF(HALF_MM, HALF_MM)
        paint_role_ring(painter, at, self.theme.roles[self._role], self._role, paper)
