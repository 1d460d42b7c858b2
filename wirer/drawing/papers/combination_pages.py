"""The combination table on paper, and the small drawings of what the amplifier sees."""

from __future__ import annotations

from wirer.analysis.combinations import Row
from wirer.drawing.papers.cells import EMPTY, Cell, cell
from wirer.drawing.papers.columns import Column, natural_widths
from wirer.drawing.papers.flow import Flow
from wirer.drawing.papers.page import Page
from wirer.drawing.papers.paper import Form, Paper
from wirer.drawing.papers.small_drawings import put_small_drawings
from wirer.drawing.papers.table import put_table
from wirer.drawing.papers.typeface import CELL, CELL_BOLD, HEAD, SMALL, Style, width_mm
from wirer.papers.bench.job_papers import JobPapers
from wirer.papers.combination_cells import CombinationCells

SHEET = "Combinations"
GIVEN, MISSED = "✓", "✗"
SQUEEZED = 1.15
"""So much wider than the paper a table may be and still stand upright, its remarks broken."""

QUIET = Style(CELL.points, ink="quiet")


def combination_pages(papers: JobPapers, paper: Paper) -> list[Page]:
    """Return the pages of the table and of the small drawings."""
    cells = CombinationCells(papers.table, papers.circuit)
    room = Form(paper).body.width
    columns, rows = _table(papers, cells, in_words=True)
    if sum(natural_widths(columns, rows)) > room:
        columns, rows = _table(papers, cells, in_words=False)
    wide = sum(natural_widths(columns, rows)) > SQUEEZED * room
    flow = Flow(Form(paper, across=wide), SHEET, "Combination table")
    flow.paragraph(_introduction(papers, cells))
    flow.gap(1.0)
    put_table(flow, columns, rows)
    return put_small_drawings(papers, flow) if papers.table.distinct else flow.pages


def _table(
    papers: JobPapers, cells: CombinationCells, *, in_words: bool
) -> tuple[list[Column], list[list[Cell]]]:
    rows = [_row(papers, cells, cells.table[i], in_words=in_words) for i in papers.listed]
    return _columns(papers, in_words=in_words), rows


def _introduction(papers: JobPapers, cells: CombinationCells) -> str:
    listed = len(papers.listed)
    whole = listed == len(papers.table)
    part = "" if whole else f" Listed are the first {listed:,} that differ."
    wanted = f" {GIVEN} as wanted, {MISSED} what was wanted instead." if papers.wanted else ""
    return (
        f"{cells.closing()}{part} + is in series, ∥ in parallel, − reversed; = repeats an earlier "
        "line. Every knob fully clockwise, a blend in its middle. Hum is what is left of it in "
        "per cent, level that at 1 kHz re 1 V from every coil."
        f"{wanted}"
    )


def _columns(papers: JobPapers, *, in_words: bool) -> list[Column]:
    parts = papers.circuit.part_by_id
    switches = [parts[part].name for part in papers.table.positions]
    return [
        Column("", right=True),
        *(Column(name, least=min(20.0, width_mm(name, HEAD) / 2)) for name in switches),
        Column("Sound", whole=True),
        *([Column("In words", grows=True)] if in_words else []),
        *([Column("Wanted")] if papers.wanted else []),
        Column("Hum %", right=True),
        Column("Meter Ω", right=True),
        Column("Peak at Hz", right=True),
        Column("Peak dB", right=True),
        Column("Level dB", right=True),
        Column("Remarks", grows=not in_words),
    ]


def _row(papers: JobPapers, cells: CombinationCells, row: Row, *, in_words: bool) -> list[Cell]:
    found = row.combination
    repeats = row.same_as != row.index
    return [
        cell(str(row.index + 1), SMALL),
        *(cell(name) for name in cells.setting_names(row)),
        cell(cells.sound(found), QUIET if repeats else CELL_BOLD),
        *([cell(cells.words(found))] if in_words else []),
        *([_wanted(papers, row.index)] if papers.wanted else []),
        cell(cells.hum(found)),
        cell(cells.reading(found)),
        cell(cells.resonance(found)),
        cell(cells.peak(found)),
        cell(cells.level(found)),
        cell(", ".join(cells.remarks(row, short=True)), SMALL),
    ]


def _wanted(papers: JobPapers, index: int) -> Cell:
    wanted = papers.wanted.get(index)
    if wanted is None:
        return EMPTY
    if wanted.given:
        return cell(GIVEN, SMALL)
    return cell(f"{MISSED} {wanted.text}", Style(CELL.points, bold=True, ink="error"))
