"""The whole schematic on a sheet: SVG, PDF and PNG."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from pathlib import Path

import schemdraw
from PySide6.QtCore import QLineF, QRectF
from PySide6.QtGui import QColor, QPainter, QPen

from wirer.circuit.model import Circuit
from wirer.circuit.stance import Stance, fitted_stance
from wirer.drawing.palette import PRINT, Theme
from wirer.drawing.render import Sheet, ensure_gui, write_sheet
from wirer.drawing.schematic.strokes import paint_drawing
from wirer.drawing.schematic.whole import whole_drawing
from wirer.drawing.text import Lettering, paint_text, text_width_mm
from wirer.layout.box import Box
from wirer.layout.lettering import shortened
from wirer.papers.schematic.lettering import STEP_MM
from wirer.papers.schematic.schematic import schematic_of

SHEETS_MM = ((297.0, 210.0), (420.0, 297.0), (594.0, 420.0), (841.0, 594.0), (1189.0, 841.0))
"""A4 to A0 by ISO 216, landscape."""

LEAST_SCALE = 0.62
"""Smaller than this, the names of lugs can't be read any more: take a larger sheet."""

MOST_SCALE = 1.25
MARGIN_MM = 10.0
BLOCK_MM = 14.0
NOTE_MM = 1.8
NOTE_LINE_MM = 4.0
TITLE_MM = 3.2
SMALL_MM = 2.0


def render_schematic(
    circuit: Circuit, stance: Stance, out_path: str | Path, day: date | None = None
) -> None:
    """Write the schematic of a circuit with its switches as they stand.

    Parameters
    ----------
    circuit
        What is drawn.
    stance
        Where its switches stand.
    out_path
        A file name ending in .svg, .pdf or .png.
    day
        The date in the title block, by default today's.

    Raises
    ------
    DrawingError
        The suffix is another, or Qt can't make the drawing.
    FileError
        The file can't be written.
    """
    write_sheet(schematic_sheet(circuit, stance, day), Path(out_path))


@dataclass(frozen=True)
class Picture:
    """A schematic to be painted anywhere: the box round it in mm, and what is said below it."""

    drawing: schemdraw.Drawing
    box: Box
    notes: tuple[str, ...]

    def paint(self, painter: QPainter, theme: Theme, as_paths: bool) -> None:
        """Paint it in mm, where its box says."""
        paint_drawing(painter, self.drawing, theme, as_paths)


def schematic_picture(circuit: Circuit, stance: Stance) -> Picture:
    """Return the picture of a schematic with its switches as they stand."""
    schematic = schematic_of(circuit, fitted_stance(circuit, stance))
    own = schematic.drawn.box
    box = Box(*(side * STEP_MM for side in (own.left, own.top, own.right, own.bottom)))
    return Picture(whole_drawing(schematic.drawn).drawing, box, schematic.notes)


def schematic_sheet(circuit: Circuit, stance: Stance, day: date | None = None) -> Sheet:
    """Return the sheet of a schematic, for `write_sheet`."""
    ensure_gui()
    picture = schematic_picture(circuit, stance)
    today = (day or date.today()).isoformat()  # the day where the user is
    theme = PRINT
    fit, notes = _fitted(picture.box, picture.notes)

    def paint(painter: QPainter, as_paths: bool) -> None:
        painter.fillRect(QRectF(0, 0, fit.width, fit.height), QColor(theme.paper))
        _paint_block(painter, fit, circuit, today, theme, as_paths)
        _paint_notes(painter, fit, notes, theme, as_paths)
        painter.save()
        painter.translate(*fit.room.centre)
        painter.scale(fit.scale, fit.scale)
        x, y = picture.box.centre
        painter.translate(-x, -y)
        picture.paint(painter, theme, as_paths)
        painter.restore()

    names = ", ".join(part.name for part in circuit.parts)
    return Sheet(fit.width, fit.height, paint, circuit.title, names)


@dataclass(frozen=True)
class _Fit:
    """A sheet with the room of the drawing on it, its scale, and where its notes begin."""

    width: float
    height: float
    room: Box
    scale: float
    notes_top: float


def _fitted(content: Box, notes: Sequence[str]) -> tuple[_Fit, list[str]]:
    """Return the smallest sheet on which the drawing can be read, with the notes in lines."""
    for width, height in SHEETS_MM:
        lines = _lines(notes, width - 2 * MARGIN_MM)
        block_top = height - MARGIN_MM / 2 - BLOCK_MM
        notes_top = block_top - 2.0 - NOTE_LINE_MM * len(lines)
        room = Box(MARGIN_MM, MARGIN_MM, width - MARGIN_MM, notes_top - 2.0)
        scale = min(
            MOST_SCALE,
            room.width / max(content.width, 1.0),
            room.height / max(content.height, 1.0),
        )
        if scale >= LEAST_SCALE:
            break
    return _Fit(width, height, room, scale, notes_top), lines


def _lines(notes: Sequence[str], room: float) -> list[str]:
    """Break notes between words into lines."""
    lines: list[str] = []
    for note in notes:
        line = ""
        for word in note.split():
            longer = f"{line} {word}".strip()
            if line and text_width_mm(longer, NOTE_MM) > room:
                lines.append(line)
                longer = word
            line = longer
        lines.append(line)
    return lines


def _paint_notes(
    painter: QPainter, fit: _Fit, lines: Sequence[str], theme: Theme, as_paths: bool
) -> None:
    room = fit.width - 2 * MARGIN_MM
    for index, line in enumerate(lines):
        width = min(text_width_mm(line, NOTE_MM), room)
        middle = (MARGIN_MM + width / 2, fit.notes_top + NOTE_LINE_MM * (index + 0.5))
        paint_text(painter, line, middle, NOTE_MM, Lettering(theme.quiet, as_paths), room)


def _paint_block(
    painter: QPainter, fit: _Fit, circuit: Circuit, today: str, theme: Theme, as_paths: bool
) -> None:
    """Paint the title block along the foot of the sheet."""
    top = fit.height - MARGIN_MM / 2 - BLOCK_MM
    left, right = MARGIN_MM / 2, fit.width - MARGIN_MM / 2
    painter.setPen(QPen(QColor(theme.ink), 0.25))
    painter.drawLine(QLineF(left, top, right, top))
    job = next(iter(circuit.job.strip().splitlines()), "")
    below = " · ".join(words for words in (shortened(job, 60), today, "Schematic") if words)
    title = shortened(circuit.title or "Untitled", 90)
    room = right - left
    for text, height, down, colour in (
        (title, TITLE_MM, 4.5, theme.ink),
        (below, SMALL_MM, 10.0, theme.quiet),
    ):
        width = min(text_width_mm(text, height), room)
        middle = (left + width / 2, top + down)
        paint_text(painter, text, middle, height, Lettering(colour, as_paths), room)
