"""What is still open or waived, and the cautions, on paper."""

from __future__ import annotations

from collections.abc import Sequence

from wirer.drawing.papers.cells import Cell, cell
from wirer.drawing.papers.columns import Column
from wirer.drawing.papers.flow import Flow
from wirer.drawing.papers.page import Page
from wirer.drawing.papers.paper import Form, Paper
from wirer.drawing.papers.table import Kept, put_table
from wirer.drawing.papers.typeface import BODY, BODY_BOLD, CELL, CELL_BOLD, SMALL, Ink, Style
from wirer.papers.bench.cautions import CAUTIONS
from wirer.papers.bench.job_papers import JobPapers
from wirer.papers.bench.open_findings import Remaining
from wirer.rules.finding import Severity

SHEET = "Findings and cautions"
INKS: dict[Severity, Ink] = {"error": "error", "warning": "warning", "note": "note"}


def findings_pages(papers: JobPapers, paper: Paper) -> list[Page]:
    """Return the pages of the findings and the cautions."""
    flow = Flow(Form(paper), SHEET, SHEET)
    flow.heading("Cautions", kept=30.0)
    for head, text in CAUTIONS:
        flow.need(BODY.line_mm * 2)
        flow.paragraph(head, BODY_BOLD)
        flow.paragraph(text, BODY, indent=4.0)
    found = papers.findings
    if found is None:
        flow.heading("Findings")
        flow.paragraph("There are too many settings for the rules to look through.")
        return flow.pages
    _put(flow, "Still open", [f for f in found if f.waived is None], "Nothing is open.")
    waived = [f for f in found if f.waived is not None]
    if waived:
        _put(flow, "Waived, with the reason", waived, "")
    return flow.pages


def _put(flow: Flow, title: str, found: Sequence[Remaining], none: str) -> None:
    flow.heading(title)
    if not found:
        flow.paragraph(none)
        return
    last = "Reason" if found[0].waived else "What to do"
    columns = [Column(""), Column("What, and when", grows=True), Column(last)]
    put_table(flow, columns, [Kept([_row(finding)]) for finding in found])


def _row(finding: Remaining) -> list[Cell]:
    grave = Style(CELL.points, bold=True, ink=INKS[finding.severity])
    when = ((finding.when[:1].upper() + finding.when[1:] + ".", SMALL),) if finding.when else ()
    return [
        Cell(((finding.severity, grave),)),
        cell(finding.message, CELL_BOLD, *when, (f"rule {finding.rule}", SMALL)),
        cell(finding.waived or finding.to_do),
    ]
