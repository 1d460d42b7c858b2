"""The player's card on paper: a line a sound, the switches as columns."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from wirer.drawing.papers.cells import EMPTY, Cell, cell
from wirer.drawing.papers.columns import Column
from wirer.drawing.papers.flow import Flow
from wirer.drawing.papers.page import Page
from wirer.drawing.papers.paper import Form, Paper
from wirer.drawing.papers.table import Kept, put_table
from wirer.drawing.papers.typeface import HEAD, Style, width_mm
from wirer.papers.bench.job_papers import JobPapers
from wirer.papers.bench.player_card import CardRow, PlayerCard, Way

SHEET = "Player's card"
ANY = "either"
POINTS, SMALL_POINTS = 10.5, 8.8
FEW_LINES = 16


@dataclass(frozen=True, slots=True)
class _Type:
    """The type of a card: the larger, the less there is to say."""

    plain: Style
    strong: Style
    quiet: Style

    @classmethod
    def of(cls, points: float) -> _Type:
        return cls(Style(points), Style(points, bold=True), Style(points, ink="quiet"))


def card_pages(papers: JobPapers, paper: Paper) -> list[Page]:
    """Return the player's card, across the paper where there are many switches."""
    card = papers.card
    lines = sum(len(row.ways) for row in card.rows)
    letters = _Type.of(SMALL_POINTS if lines > FEW_LINES or len(card.switches) > 3 else POINTS)
    flow = Flow(Form(paper, across=len(card.switches) > 6), SHEET, SHEET)
    flow.paragraph(_introduction(card), letters.plain)
    flow.gap(1.5)
    columns = [
        *(Column(name, least=_least(name), grows=not card.by_sound) for name in card.switches),
        Column("You hear", grows=True),
        Column("It sounds", grows=not card.by_sound),
        Column("Hum"),
    ]
    rows = [Kept(list(_rows(row, card.switches, letters))) for row in card.rows]
    put_table(flow, columns, rows)
    if card.remarks:
        flow.heading("Good to know")
        for remark in card.remarks:
            flow.paragraph(f"· {remark}", letters.plain)
    return flow.pages


def _introduction(card: PlayerCard) -> str:
    knobs = ", ".join(card.knobs)
    up = f" with every knob fully up ({knobs})" if knobs else ""
    if card.by_sound:
        return f"Every different sound, and how to set the switches for it,{up}."
    return f"What {'each position' if card.switches else 'the guitar'} does{up}."


def _least(name: str) -> float:
    return min(22.0, width_mm(name, HEAD) / 2)


def _rows(row: CardRow, switches: Sequence[str], letters: _Type) -> Iterator[list[Cell]]:
    """Yield a line for each way to get a sound; the sound stands in the first."""
    for number, way in enumerate(row.ways):
        positions = _positions(way, switches, letters, first=number == 0)
        if number:
            yield [*positions, cell("the same", letters.quiet), EMPTY, EMPTY]
        else:
            yield [
                *positions,
                cell(row.who or "Nothing", letters.strong),
                cell(row.like, letters.plain),
                cell(row.hum, letters.plain),
            ]
    if row.more:
        more = cell(f"and {row.more} more ways", letters.quiet)
        yield [*[EMPTY] * len(switches), more, EMPTY, EMPTY]


def _positions(way: Way, switches: Sequence[str], letters: _Type, *, first: bool) -> list[Cell]:
    """Return where each switch stands; equal names are told apart by their order."""
    left = list(way.switches)
    cells = []
    for name in switches:
        if left and left[0][0] == name:
            cells.append(cell(left.pop(0)[1], letters.strong if first else letters.plain))
        else:
            cells.append(cell(ANY, letters.quiet))
    return cells
