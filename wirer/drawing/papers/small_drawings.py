"""All distinct combinations as small drawings: one glance, the whole guitar."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import schemdraw
from PySide6.QtGui import QPainter

from wirer.circuit.quantity import format_quantity
from wirer.drawing.palette import PRINT
from wirer.drawing.papers.flow import Flow
from wirer.drawing.papers.marks import RULE, Field, Picture, Words
from wirer.drawing.papers.page import Page
from wirer.drawing.papers.paper import Form
from wirer.drawing.papers.typeface import HEADING, SMALL, ascent_mm, elided, wrapped
from wirer.drawing.schematic.reduced import reduced_drawing
from wirer.drawing.schematic.strokes import drawing_box, paint_drawing
from wirer.layout.box import Box
from wirer.papers.bench.job_papers import JobPapers
from wirer.papers.combination_cells import CombinationCells
from wirer.papers.reduced_circuit import reduced_circuit, without_load

SHEET = "Combinations"
TITLE = "What the amplifier sees, sound by sound"
MOST_DRAWN = 60
MOST_SCALE = 0.9
LEAST_SCALE = 0.66
MOST_COLUMNS = 5
HEAD_MM = 20.0
GAP_MM = 3.0
PAD_MM = 2.0
PEN_MM = 0.4
MOST_SETTING_LINES = 2


@dataclass(frozen=True)
class _Small:
    """A drawing with what is written over it."""

    title: str
    notes: str
    drawing: schemdraw.Drawing
    box: Box


@dataclass(frozen=True, slots=True)
class _Grid:
    """How the drawings are set: how many more pages it takes, scale, columns, height of a row."""

    pages: int
    scale: float
    columns: int
    height: float


def put_small_drawings(papers: JobPapers, flow: Flow) -> list[Page]:
    """Draw all distinct sounds to one scale and return the pages: the flow's and what it takes.

    They go on where the flow ends if there is room for all of them, or if fresh pages across the
    paper would be more.
    """
    smalls = _smalls(papers)
    text = _introduction(papers, len(smalls))
    across = Form(flow.form.paper, across=True)
    fresh = _grid(smalls, across, across.body.height - HEAD_MM)
    onward = _grid(smalls, flow.form, flow.left - HEAD_MM)
    if not onward.pages or onward.pages < fresh.pages:
        flow.heading(TITLE, kept=onward.height + HEAD_MM)
        flow.paragraph(text)
        _put_all(flow, smalls, onward)
        return flow.pages
    apart = Flow(across, SHEET, TITLE)
    apart.paragraph(text)
    _put_all(apart, smalls, fresh)
    return [*flow.pages, *apart.pages]


def _put_all(flow: Flow, smalls: Sequence[_Small], grid: _Grid) -> None:
    flow.gap(1.0)
    width = (flow.body.width - GAP_MM * (grid.columns - 1)) / grid.columns
    for start in range(0, len(smalls), grid.columns):
        row = smalls[start : start + grid.columns]
        height = max(_height(small, grid.scale, width) for small in row)
        flow.need(height)
        for place, small in enumerate(row):
            left = flow.body.left + place * (width + GAP_MM)
            cell = Box(left, flow.down, left + width, flow.down + height)
            _put(flow, small, cell, grid.scale)
        flow.down += height + GAP_MM


def _introduction(papers: JobPapers, drawn: int) -> str:
    some = "" if drawn >= papers.table.distinct else f"The first {drawn} of "
    sounds = "sound" if papers.table.distinct == 1 else "sounds"
    load = papers.analyst.load
    cable = format_quantity(load.farad, "capacitance")
    plug = format_quantity(load.ohm, "resistance")
    return (
        f"{some}{papers.table.distinct} distinct {sounds}: what carries signal in each; across it "
        f"lie the cable ({cable}) and the amplifier's input ({plug}). A dot marks the "
        "end of a coil where its signal is positive: dots at the same end are in phase."
    )


def _smalls(papers: JobPapers) -> list[_Small]:
    cells = CombinationCells(papers.table, papers.circuit)
    found = []
    for index in papers.table.firsts:
        row = papers.table[index]
        if row.combination.silent is None:
            circuit = without_load(reduced_circuit(papers.analyst, row.combination, by_id=True))
            drawing = reduced_drawing(circuit)
            names = ", ".join(cells.setting_names(row))
            title = f"{index + 1} · {cells.sound(row.combination)}"
            found.append(_Small(title, names, drawing, drawing_box(drawing)))
        if len(found) == MOST_DRAWN:
            break
    return found


def _grid(smalls: Sequence[_Small], form: Form, first: float) -> _Grid:
    """Return the grid that takes the fewest more pages, of these that of the largest scale.

    `first` is the height that is left on the page at hand.
    """
    widest = max(small.box.width for small in smalls)
    choices = []
    for columns in range(1, MOST_COLUMNS + 1):
        width = (form.body.width - GAP_MM * (columns - 1)) / columns
        scale = min(MOST_SCALE, (width - 2 * PAD_MM) / widest)
        if columns == 1 or scale >= LEAST_SCALE:
            height = max(_height(small, scale, width) for small in smalls) + GAP_MM
            left = -(-len(smalls) // columns) - max(0, int((first + GAP_MM) / height))
            a_page = max(1, int((form.body.height - HEAD_MM) / height))
            choices.append(_Grid(max(0, -(-left // a_page)), scale, columns, height))
    return min(choices, key=lambda grid: (grid.pages, -grid.scale))


def _height(small: _Small, scale: float, width: float) -> float:
    lines = len(_note_lines(small, width))
    text = HEADING.line_mm + SMALL.line_mm * lines
    return text + small.box.height * scale + 3 * PAD_MM


def _note_lines(small: _Small, width: float) -> tuple[str, ...]:
    lines = wrapped(small.notes, SMALL, width - 2 * PAD_MM)
    if len(lines) <= MOST_SETTING_LINES:
        return lines
    rest = " ".join(lines[MOST_SETTING_LINES - 1 :])
    return (*lines[: MOST_SETTING_LINES - 1], elided(rest, SMALL, width - 2 * PAD_MM))


def _put(flow: Flow, small: _Small, cell: Box, scale: float) -> None:
    flow.put(Field(cell, edge=RULE))
    left, down = cell.left + PAD_MM, cell.top + PAD_MM / 2
    title = elided(small.title, HEADING, cell.width - 2 * PAD_MM)
    flow.put(Words(title, HEADING, left, down + ascent_mm(HEADING)))
    down += HEADING.line_mm
    for line in _note_lines(small, cell.width):
        flow.put(Words(line, SMALL, left, down + ascent_mm(SMALL)))
        down += SMALL.line_mm
    free = Box(left, down + PAD_MM / 2, cell.right - PAD_MM, cell.bottom - PAD_MM)
    box = small.box.grown(PEN_MM)

    def draw(painter: QPainter) -> None:
        painter.scale(scale, scale)
        painter.translate(-box.left, -box.top)
        paint_drawing(painter, small.drawing, PRINT, as_paths=False)

    at = Box.centred(free.centre, box.width * scale, box.height * scale)
    flow.put(Picture(at, draw, small.title))
