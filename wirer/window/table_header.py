"""A header whose titles may take two lines, so that columns stay narrow."""

from __future__ import annotations

from PySide6.QtCore import QRect, QSize, Qt
from PySide6.QtGui import QPainter
from PySide6.QtWidgets import QHeaderView, QStyle, QStyleOptionHeader, QWidget

PAD = 5


class WordedHeader(QHeaderView):
    """Titles broken between words into at most two lines, as even as they can be."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(Qt.Orientation.Horizontal, parent)
        self.setDefaultAlignment(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter)

    def sectionSizeFromContents(self, section: int) -> QSize:
        """Return how much room a title needs."""
        metrics = self.fontMetrics()
        lines = in_two_lines(self._title(section))
        width = max(map(metrics.horizontalAdvance, lines), default=0)
        return QSize(width + 2 * PAD, 2 * metrics.lineSpacing() + 2 * PAD)

    def paintSection(self, painter: QPainter, rect: QRect, section: int) -> None:
        """Paint a section with its title in one or two lines."""
        option = QStyleOptionHeader()
        self.initStyleOption(option)
        self.initStyleOptionForIndex(option, section)
        option.rect = rect
        option.text = ""
        self.style().drawControl(QStyle.ControlElement.CE_Header, option, painter, self)
        alignment = Qt.AlignmentFlag(
            self.model().headerData(section, self.orientation(), Qt.ItemDataRole.TextAlignmentRole)
        )
        text = "\n".join(in_two_lines(self._title(section)))
        box = rect.adjusted(PAD, PAD, -PAD, 0)
        self.style().drawItemText(
            painter, box, int(alignment), self.palette(), self.isEnabled(), text,
            self.foregroundRole(),
        )  # fmt: skip

    def _title(self, section: int) -> str:
        return str(self.model().headerData(section, self.orientation()) or "")


def in_two_lines(title: str) -> tuple[str, ...]:
    """Break a title between words where its two lines become most alike in length."""
    words = title.split()
    breaks = [(" ".join(words[:n]), " ".join(words[n:])) for n in range(1, len(words))]
    if not breaks:
        return (title,)
    return min(breaks, key=lambda lines: max(map(len, lines)))
