"""The whole schematic on paper."""

from __future__ import annotations

from PySide6.QtGui import QPainter

from wirer.circuit.stance import default_stance
from wirer.drawing.palette import PRINT
from wirer.drawing.papers.marks import Picture
from wirer.drawing.papers.page import Page, put_words
from wirer.drawing.papers.paper import Paper
from wirer.drawing.papers.scaling import best_fit
from wirer.drawing.papers.typeface import Style, ascent_mm, wrapped
from wirer.drawing.schematic.strokes import paint_drawing
from wirer.drawing.schematic.whole import whole_drawing
from wirer.layout.box import Box
from wirer.papers.bench.job_papers import JobPapers
from wirer.papers.schematic.lettering import STEP_MM
from wirer.papers.schematic.schematic import Schematic, schematic_of

SHEET = "Schematic"
MOST_SCALE = 1.2
NOTE = Style(7.2)
GAP_MM = 2.0


def schematic_pages(papers: JobPapers, paper: Paper) -> list[Page]:
    """Return the page of the schematic, its notes below the drawing."""
    circuit = papers.circuit
    schematic = schematic_of(circuit, default_stance(circuit))
    content = _content(schematic)
    below = len(schematic.notes) * NOTE.line_mm + GAP_MM
    fit = best_fit(paper, content, MOST_SCALE, below)
    room = fit.form.body
    lines = [line for note in schematic.notes for line in wrapped(note, NOTE, room.width)]
    top = room.bottom - len(lines) * NOTE.line_mm
    drawing = whole_drawing(schematic.drawn).drawing
    free = Box(room.left, room.top, room.right, top - GAP_MM)
    scale = min(
        MOST_SCALE, free.width / max(content.width, 1.0), free.height / max(content.height, 1.0)
    )
    box = Box.centred(free.centre, content.width * scale, content.height * scale)

    def draw(painter: QPainter) -> None:
        painter.scale(scale, scale)
        painter.translate(-content.left, -content.top)
        paint_drawing(painter, drawing, PRINT, as_paths=False)

    page = Page(fit.form, SHEET)
    page.marks.append(Picture(box, draw, "schematic"))
    for number, line in enumerate(lines):
        put_words(page, line, NOTE, room.left, top + number * NOTE.line_mm + ascent_mm(NOTE))
    return [page]


def _content(schematic: Schematic) -> Box:
    """Return the box of the drawing in mm."""
    own = schematic.drawn.box
    sides = (own.left, own.top, own.right, own.bottom)
    return Box(*(side * STEP_MM for side in sides)).grown(1.0)
