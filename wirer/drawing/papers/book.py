"""The papers as one book: which sheets, in which order, every page with its foot."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass

from wirer.drawing.papers.card_pages import card_pages
from wirer.drawing.papers.combination_pages import combination_pages
from wirer.drawing.papers.findings_pages import findings_pages
from wirer.drawing.papers.page import Heading, Page, foot_marks
from wirer.drawing.papers.paper import PAPERS, Paper
from wirer.drawing.papers.parts_pages import parts_pages
from wirer.drawing.papers.reading_pages import reading_pages
from wirer.drawing.papers.schematic_pages import schematic_pages
from wirer.drawing.papers.wire_pages import wire_pages
from wirer.drawing.papers.wiring_pages import wiring_pages
from wirer.papers.bench.job_papers import JobPapers

UNTITLED = "Untitled"
SHEETS: Mapping[str, Callable[[JobPapers, Paper], list[Page]]] = {
    "wiring": wiring_pages,
    "schematic": schematic_pages,
    "combinations": combination_pages,
    "wires": wire_pages,
    "parts": parts_pages,
    "test": reading_pages,
    "card": card_pages,
    "findings": findings_pages,
}
"""The sheets by the names that they are chosen by, in the order of the book."""


@dataclass(frozen=True)
class Book:
    """The pages of a circuit's papers, ready to be painted."""

    heading: Heading
    pages: tuple[Page, ...]


def book_of(
    papers: JobPapers,
    paper: Paper = PAPERS["A4"],
    sheets: Sequence[str] = tuple(SHEETS),
    *,
    true_scale: bool = False,
) -> Book:
    """Set the chosen sheets of a circuit's papers; `true_scale` never shrinks the wiring drawing.

    Raises
    ------
    TooManySettingsError
        There are more than 2²⁰ settings.
    KeyError
        There is no sheet of such a name.
    """
    pages: list[Page] = []
    for name, make in SHEETS.items():
        if name not in sheets:
            continue
        if name == "wiring":
            pages += wiring_pages(papers, paper, true_scale=true_scale)
        else:
            pages += make(papers, paper)
    heading = _heading(papers)
    for number, page in enumerate(pages, 1):
        page.marks.extend(foot_marks(page, heading, number, len(pages)))
    return Book(heading, tuple(pages))


def _heading(papers: JobPapers) -> Heading:
    job = next((line for line in papers.circuit.job.splitlines() if line.strip()), "")
    return Heading(papers.circuit.title or UNTITLED, job, papers.date, papers.revision)
