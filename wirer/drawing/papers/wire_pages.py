"""The wire list on paper."""

from __future__ import annotations

from collections.abc import Iterator

from wirer.drawing.papers.cells import Cell, cell, ticked
from wirer.drawing.papers.columns import Column
from wirer.drawing.papers.flow import Flow
from wirer.drawing.papers.page import Page
from wirer.drawing.papers.paper import Form, Paper
from wirer.drawing.papers.table import Band, Entry, put_table
from wirer.drawing.papers.typeface import CELL, CELL_BOLD, SMALL, Style
from wirer.papers.bench.job_papers import JobPapers
from wirer.papers.bench.stages import HEADINGS
from wirer.papers.bench.wire_list import WireEnd, WireRow

SHEET = "Wire list"
SOLDER = "●"
COLUMNS = (
    Column(""),
    Column("No.", right=True),
    Column("From", grows=True),
    Column("To", grows=True),
    Column("Wire"),
    Column("Cut mm", right=True),
    Column("Id"),
)


def wire_pages(papers: JobPapers, paper: Paper) -> list[Page]:
    """Return the pages of the wire list."""
    flow = Flow(Form(paper), SHEET, "Wire list, in the order of soldering")
    flow.paragraph(_how_to_read(papers))
    flow.gap(1.0)
    if papers.wires.rows:
        put_table(flow, COLUMNS, list(_entries(papers)))
    else:
        flow.paragraph("Nothing is wired yet.")
    return flow.pages


def _how_to_read(papers: JobPapers) -> str:
    allowance = papers.wires.allowance
    return (
        f"The numbers are those of the drawing. {SOLDER} means: with this wire the lug has all its "
        "wires, solder it; before that only hook the wires in. Lengths are as routed in the "
        f"drawing, with {allowance.end:g} mm for each end and {allowance.loop:g} mm more at each "
        f"pickup or jack, rounded up to {allowance.step:g} mm. A wire that is longer than the way "
        "can be dressed; one that is shorter can not."
    )


def _entries(papers: JobPapers) -> Iterator[Entry]:
    stage = None
    for row in papers.wires.rows:
        if row.stage is not stage:
            stage = row.stage
            yield Band(HEADINGS[stage])
        yield _row(row)


def _row(row: WireRow) -> list[Cell]:
    wire = row.wire
    words: list[tuple[str, Style]] = [(row.colour_both or wire.style, CELL)]
    below = " ".join(text for text in (wire.style if row.colour else "", wire.gauge) if text)
    if below:
        words.append((below, SMALL))
    return [
        ticked(wire.done),
        cell(str(row.number), CELL_BOLD),
        _end(row.start, row.screens[0]),
        _end(row.end, row.screens[1]),
        Cell(tuple(words), swatch=wire.colour) if row.length_mm is not None else cell("bolted"),
        cell("–" if row.length_mm is None else f"{row.length_mm:.0f}"),
        cell(wire.id, SMALL),
    ]


def _end(end: WireEnd, screen: WireEnd | None) -> Cell:
    pieces = [(_marked(end), CELL_BOLD)]
    if end.place.words:
        pieces.append((end.place.words, SMALL))
    if screen:
        pieces.append((f"screen to {_marked(screen)}", SMALL))
    return Cell(tuple(pieces))


def _marked(end: WireEnd) -> str:
    return f"{end.place.lug} {SOLDER}" if end.complete else end.place.lug
