"""The parts list on paper."""

from __future__ import annotations

from collections.abc import Iterator

from wirer.circuit.colour import colour_words
from wirer.drawing.papers.cells import BLANK, EMPTY, Cell, cell
from wirer.drawing.papers.columns import Column
from wirer.drawing.papers.flow import Flow
from wirer.drawing.papers.page import Page
from wirer.drawing.papers.paper import Form, Paper
from wirer.drawing.papers.table import Kept, put_table, table_height
from wirer.drawing.papers.typeface import BODY, CELL, CELL_BOLD, SMALL
from wirer.papers.bench.job_papers import JobPapers
from wirer.papers.bench.parts_list import PartRow, ValueRow
from wirer.papers.bench.wire_list import Cut

SHEET = "Parts list"
COLUMNS = (
    Column("Id"),
    Column("Part", grows=True),
    Column("Value"),
    Column("Nominal"),
    Column("Tolerance"),
    Column("Measured", least=24.0),
    Column("Window"),
)
CUT_COLUMNS = (
    Column("Wire"),
    Column("Pieces", right=True),
    Column("Together mm", right=True),
    Column("By colour", grows=True),
    Column("mm²", right=True),
    Column("Ω/m at 20 °C", right=True),
)
EXPLAINED = (
    "The window says how far a value may differ before this is another design. For a resistance "
    "that a meter sees at the jack: with all other parts as listed, every setting with a coil in "
    "it still reads within its band on the test sheet, and the value is customary for the part. "
    "For any other value: what is customary for the part; there the ear decides. Values in "
    "brackets are assumed, since the document does not say them. Measured values take the place "
    "of nominal ones wherever anything is worked out."
)


def parts_pages(papers: JobPapers, paper: Paper) -> list[Page]:
    """Return the pages of the parts list."""
    flow = Flow(Form(paper), SHEET, SHEET)
    flow.paragraph(EXPLAINED, BODY)
    flow.gap(1.0)
    rows = [Kept(list(_part(part))) for part in papers.parts]
    if rows:
        put_table(flow, COLUMNS, rows)
    else:
        flow.paragraph("There are no parts yet.")
    if papers.wires.cuts:
        cuts = [_cut(each) for each in papers.wires.cuts]
        flow.heading("Wire to have at hand", kept=table_height(flow, CUT_COLUMNS, cuts))
        put_table(flow, CUT_COLUMNS, cuts)
    return flow.pages


def _part(part: PartRow) -> Iterator[list[Cell]]:
    """Yield the rows of a part: its label stands in the first, what it is in the second."""
    values = part.values or (None,)
    for number, value in enumerate(values):
        who = [EMPTY, EMPTY]
        if number == 0:
            more = ((part.kind, SMALL),) if len(values) == 1 and part.label else ()
            who = [cell(part.part, CELL_BOLD), cell(part.label or part.kind, CELL_BOLD, *more)]
        elif number == 1 and part.label:
            who = [EMPTY, cell(part.kind, SMALL)]
        yield [*who, *(_value(value) if value else [EMPTY] * 5)]


def _value(value: ValueRow) -> list[Cell]:
    nominal = f"({value.nominal})" if value.assumed and value.nominal else value.nominal
    measured = cell(value.measured) if value.measured else BLANK if value.to_measure else EMPTY
    return [
        cell(value.name, SMALL),
        cell(nominal, CELL),
        cell(value.tolerance),
        measured,
        cell(value.window),
    ]


def _cut(cut: Cut) -> list[Cell]:
    colours = ", ".join(
        f"{colour_words(code)} {code} {length:.0f}" if code else f"no colour said {length:.0f}"
        for code, length in cut.colours
    )
    return [
        cell(f"{cut.style}, {cut.gauge or 'no gauge said'}", CELL_BOLD),
        cell(str(cut.pieces)),
        cell(f"{cut.length_mm:.0f}"),
        cell(colours) if any(code for code, _ in cut.colours) else EMPTY,
        cell("" if cut.area_mm2 is None else f"{cut.area_mm2:#.3g}"),
        cell("" if cut.ohm_per_metre is None else f"{cut.ohm_per_metre:#.3g}"),
    ]
