"""The sheet round a drawing: margin, title block, scale bar."""

from __future__ import annotations

from dataclasses import dataclass

from PySide6.QtCore import QLineF, QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QPainter, QPen

from wirer.drawing.palette import Theme
from wirer.drawing.text import Lettering, paint_text, text_width_mm
from wirer.layout.box import Box
from wirer.layout.lettering import shortened

MARGIN_MM = 10.0
BLOCK_MM = 14.0
BAR_MM = 50.0
LEAST_WIDTH_MM = 150.0
LARGEST_MM = 2000.0
MOST_JOB_LETTERS = 60
_TITLE_MM = 3.2
_SMALL_MM = 2.0


@dataclass(frozen=True, slots=True)
class TitleBlock:
    """What the foot of a drawing says. `scale` is drawn mm by true mm, 1 for true size."""

    title: str = ""
    job: str = ""
    date: str = ""
    scale: float = 1.0

    @property
    def scale_words(self) -> str:
        """The scale as a draughtsman writes it."""
        if abs(self.scale - 1.0) < 1e-9:
            return "1:1"
        if self.scale < 1.0:
            return f"1:{1 / self.scale:.3g}"
        return f"{self.scale:.3g}:1"


@dataclass(frozen=True, slots=True)
class Page:
    """A page that is fitted round a drawing of `content`, in mm; `scale` is paper by true mm."""

    content: Box
    scale: float = 1.0

    @classmethod
    def fitted(cls, content: Box) -> Page:
        """Return the page of a drawing, at true size unless that is larger than any paper."""
        largest = max(content.width, content.height)
        return cls(content, min(1.0, LARGEST_MM / largest) if largest > 0 else 1.0)

    @property
    def width(self) -> float:
        """The width of the page."""
        return max(self.content.width * self.scale + 2 * MARGIN_MM, LEAST_WIDTH_MM)

    @property
    def height(self) -> float:
        """The height of the page, title block included."""
        return self.content.height * self.scale + 2 * MARGIN_MM + BLOCK_MM

    def enter(self, painter: QPainter) -> None:
        """Bring a painter from the page's mm to the drawing's."""
        free = self.width - self.content.width * self.scale
        painter.translate(free / 2, MARGIN_MM)
        painter.scale(self.scale, self.scale)
        painter.translate(-self.content.left, -self.content.top)


def paint_sheet(
    painter: QPainter, page: Page, block: TitleBlock, theme: Theme, as_paths: bool
) -> None:
    """Paint paper, title block and scale bar of a page, in mm from its upper left corner."""
    painter.fillRect(QRectF(0, 0, page.width, page.height), QColor(theme.paper))
    top = page.height - MARGIN_MM / 2 - BLOCK_MM
    left, right = MARGIN_MM / 2, page.width - MARGIN_MM / 2
    painter.setPen(QPen(QColor(theme.ink), 0.25))
    painter.drawLine(QLineF(left, top, right, top))
    _paint_words(painter, block, Box(left, top, right, top + BLOCK_MM), theme, as_paths)
    paint_scale_bar(painter, QPointF(right - BAR_MM, top + 8.5), theme, as_paths)


def _paint_words(
    painter: QPainter, block: TitleBlock, box: Box, theme: Theme, as_paths: bool
) -> None:
    room = box.width - BAR_MM - 8.0
    below = " · ".join(
        words
        for words in (
            _first_line(block.job),
            block.date,
            f"Scale {block.scale_words}",
            "seen from the solder side",
        )
        if words
    )
    lines = (
        (shortened(block.title or "Untitled", 90), _TITLE_MM, 4.5, theme.ink),
        (shortened(below, 120), _SMALL_MM, 10.0, theme.quiet),
    )
    for text, height, down, colour in lines:
        width = min(text_width_mm(text, height), room)
        middle = (box.left + width / 2, box.top + down)
        paint_text(painter, text, middle, height, Lettering(colour, as_paths), room)


def _first_line(job: str) -> str:
    lines = job.strip().splitlines()
    return shortened(lines[0], MOST_JOB_LETTERS) if lines else ""


def paint_scale_bar(painter: QPainter, at: QPointF, theme: Theme, as_paths: bool) -> None:
    """Paint a bar of 50 mm in steps of 10, from `at` to the right, to check a print by."""
    painter.setPen(QPen(QColor(theme.ink), 0.3, Qt.PenStyle.SolidLine, Qt.PenCapStyle.FlatCap))
    painter.drawLine(QLineF(at.x(), at.y(), at.x() + BAR_MM, at.y()))
    painter.setPen(QPen(QColor(theme.ink), 0.2, Qt.PenStyle.SolidLine, Qt.PenCapStyle.FlatCap))
    for step in range(6):
        x = at.x() + 10.0 * step
        tick = 2.0 if step in (0, 5) else 1.2
        painter.drawLine(QLineF(x, at.y() - tick, x, at.y() + tick))
    words = (at.x() + BAR_MM / 2, at.y() - 3.6)
    paint_text(painter, "50 mm", words, _SMALL_MM, Lettering(theme.ink, as_paths))
