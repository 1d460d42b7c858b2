"""The wiring drawing on paper: at true scale where it fits, else smaller or in tiles."""

from __future__ import annotations

from collections.abc import Callable
from string import ascii_uppercase

from PySide6.QtCore import QLineF
from PySide6.QtGui import QColor, QPainter, QPen

from wirer.circuit.stance import default_stance
from wirer.drawing.palette import PRINT
from wirer.drawing.papers.marks import Picture
from wirer.drawing.papers.numbers import callouts_of, fitting_texts, paint_callouts
from wirer.drawing.papers.page import Page
from wirer.drawing.papers.paper import Form, Paper
from wirer.drawing.papers.scaling import OVERLAP_MM, best_fit, scale_words, tiled_form, tiles
from wirer.drawing.wiring import WiringLook, paint_wiring, wiring_notes
from wirer.layout.box import Box, boxes_union
from wirer.papers.bench.job_papers import JobPapers

SHEET = "Wiring"
SEEN = "solder side"
SPARE_MM = 0.6
CROSS_MM = 4.0

Paint = Callable[[QPainter], None]


def wiring_pages(papers: JobPapers, paper: Paper, *, true_scale: bool = False) -> list[Page]:
    """Return the wiring drawing's pages.

    It stands on one page, at 1:1 where it fits and smaller where not; with `true_scale` it is
    tiled over as many pages as it takes at 1:1.
    """
    paint, content = _drawing(papers)
    fit = best_fit(paper, content)
    if true_scale and fit.scale < 1:
        return _tiled(paint, content, tiled_form(paper, content))
    page = Page(fit.form, SHEET, f"{scale_words(fit.scale)}, {SEEN}")
    page.marks.append(_picture(fit.form.body, content, fit.scale, paint, "wiring"))
    return [page]


def _drawing(papers: JobPapers) -> tuple[Paint, Box]:
    """Return what paints the wiring in its own mm, and the box round it."""
    circuit, layout = papers.circuit, papers.layout
    texts = papers.wires.drawing_texts
    look = WiringLook(
        theme=PRINT,
        stance=default_stance(circuit),
        wire_texts=fitting_texts(layout, texts),
        lug_names=True,
        as_paths=False,
    )
    callouts = callouts_of(layout, texts, wiring_notes(circuit, layout, look))

    def paint(painter: QPainter) -> None:
        paint_wiring(painter, circuit, layout, look)
        paint_callouts(painter, callouts, look.theme)

    drawn = (box for placement in layout.placements.values() for box in placement.features)
    boxes = [layout.box, *drawn, *(callout.box for callout in callouts.values())]
    return paint, boxes_union(boxes).grown(SPARE_MM)


def _picture(room: Box, content: Box, scale: float, paint: Paint, name: str) -> Picture:
    """Return the drawing in the middle of its room."""
    box = Box.centred(room.centre, content.width * scale, content.height * scale)

    def draw(painter: QPainter) -> None:
        painter.scale(scale, scale)
        painter.translate(-content.left, -content.top)
        paint(painter)

    return Picture(box, draw, name)


def _tiled(paint: Paint, content: Box, form: Form) -> list[Page]:
    rows = tiles(form, content)
    several = len(rows) > 1 or len(rows[0]) > 1
    pages = []
    for row, line in enumerate(rows):
        for column, tile in enumerate(line):
            name = f", tile {_name(row, column)}" if several else ""
            page = Page(form, f"{SHEET}{name}", f"{scale_words(1.0)}, {SEEN}")
            page.marks.append(_tile(form, tile, paint))
            pages.append(page)
    return pages


def _name(row: int, column: int) -> str:
    """Name a tile as a map does: rows by letters from the top, columns by numbers."""
    letter = ascii_uppercase[row % 26] * (row // 26 + 1)
    return f"{letter}{column + 1}"


def _tile(form: Form, tile: Box, paint: Paint) -> Picture:
    """Return a tile, with crosses where neighbours lie on one another."""

    def draw(painter: QPainter) -> None:
        painter.translate(-tile.left, -tile.top)
        paint(painter)
        painter.setPen(QPen(QColor(PRINT.ink), 0.15))
        inset = OVERLAP_MM / 2
        for x in (tile.left + inset, tile.right - inset):
            for y in (tile.top + inset, tile.bottom - inset):
                half = CROSS_MM / 2
                painter.drawLine(QLineF(x - half, y, x + half, y))
                painter.drawLine(QLineF(x, y - half, x, y + half))

    return Picture(form.body, draw, "wiring tile")
