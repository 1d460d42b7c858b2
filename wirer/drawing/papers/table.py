"""Tables over pages: a head that is repeated, bands that stay with their rows, rows kept whole."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import zip_longest

from wirer.drawing.papers.cells import Cell
from wirer.drawing.papers.columns import PAD_MM, Column, column_widths
from wirer.drawing.papers.flow import Flow
from wirer.drawing.papers.marks import BAND, Field, Rule, Words
from wirer.drawing.papers.page import INK
from wirer.drawing.papers.typeface import (
    CELL_BOLD,
    HEAD,
    ascent_mm,
    width_mm,
    wrapped,
)
from wirer.layout.box import Box

ROW_PAD_MM = 0.75
BAND_PAD_MM = 0.9


@dataclass(frozen=True, slots=True)
class Band:
    """A line of its own over the rows that follow, repeated where they go on overleaf."""

    text: str
    continued: str = ""


Row = Sequence[Cell]


@dataclass(frozen=True, slots=True)
class Kept:
    """Rows that belong together and are not parted where one page holds them."""

    rows: Sequence[Row]


Entry = Row | Band | Kept


@dataclass
class _Setter:
    """A table being set: where its columns stand, and the band that holds."""

    flow: Flow
    columns: Sequence[Column]
    widths: Sequence[float]
    band: Band | None = None

    @property
    def total(self) -> float:
        return sum(self.widths)

    def lefts(self) -> Iterator[float]:
        x = self.flow.body.left
        for width in self.widths:
            yield x
            x += width

    def head_lines(self) -> list[tuple[str, ...]]:
        return [
            wrapped(column.head, HEAD, width - 2 * PAD_MM)
            for column, width in zip(self.columns, self.widths, strict=True)
        ]

    def head_height(self) -> float:
        most = max(map(len, self.head_lines()), default=0)
        return most * HEAD.line_mm + 2 * ROW_PAD_MM if most else 0.0

    def head(self) -> None:
        """Set the head, its lines standing on the rule below it."""
        height = self.head_height()
        flow, bottom = self.flow, self.flow.down + height
        places = zip(self.columns, self.widths, self.head_lines(), self.lefts(), strict=True)
        for column, width, lines, left in places:
            baseline = bottom - ROW_PAD_MM - HEAD.line_mm * len(lines) + ascent_mm(HEAD)
            for line in lines:
                shift = width - 2 * PAD_MM - width_mm(line, HEAD) if column.right else 0.0
                flow.put(Words(line, HEAD, left + PAD_MM + shift, baseline))
                baseline += HEAD.line_mm
        left = flow.body.left
        flow.put(Rule((left, bottom), (left + self.total, bottom), 0.3, INK))
        flow.down = bottom

    def row_height(self, row: Row) -> float:
        heights = (
            cell.height(width - 2 * PAD_MM) for cell, width in zip(row, self.widths, strict=True)
        )
        return max(heights, default=0.0) + 2 * ROW_PAD_MM

    def row(self, row: Row, *, ruled: bool = True) -> None:
        """Set a row, on the next page if it is not left here, in pieces if no page holds it."""
        height = self.row_height(row)
        if height > self.flow.left:
            self.turn()
        if height > self.flow.left:
            first, rest = self.parted(row)
            self.row(first, ruled=False)
            self.row(rest, ruled=ruled)
            return
        self.put_row(row, height)
        if ruled:
            left, bottom = self.flow.body.left, self.flow.down
            self.flow.put(Rule((left, bottom), (left + self.total, bottom)))

    def kept(self, rows: Sequence[Row]) -> None:
        """Set rows that belong together, on the next page if they are not left here."""
        height = sum(map(self.row_height, rows))
        if self.flow.left < height <= self.flow.body.height / 2:
            self.turn()
        for number, row in enumerate(rows, 1):
            self.row(row, ruled=number == len(rows))

    def put_row(self, row: Row, height: float) -> None:
        flow = self.flow
        top, bottom = flow.down + ROW_PAD_MM, flow.down + height
        level = any(each.blank for each in row)
        cells = zip(self.columns, self.widths, row, self.lefts(), strict=True)
        for column, width, each, left in cells:
            box = Box(left + PAD_MM, top, left + width - PAD_MM, bottom - ROW_PAD_MM)
            flow.put(*each.marks(box, column.right, level=level))
        flow.down = bottom

    def parted(self, row: Row) -> tuple[Row, Row]:
        """Part a row that is higher than a page at the lines that a page holds."""
        count = max(1, int((self.flow.left - 2 * ROW_PAD_MM) / CELL_BOLD.line_mm))
        first, rest = [], []
        for each, width in zip(row, self.widths, strict=True):
            lines = each.lines(width - 2 * PAD_MM)
            first.append(Cell(tuple(lines[:count]), each.tick, each.swatch, each.blank))
            rest.append(Cell(tuple(lines[count:])))
        return first, rest

    def put_band(self, band: Band, text: str) -> None:
        flow = self.flow
        lines = wrapped(text, CELL_BOLD, self.total - 2 * PAD_MM)
        height = len(lines) * CELL_BOLD.line_mm + 2 * BAND_PAD_MM
        left, top = flow.body.left, flow.down
        flow.put(Field(Box(left, top, left + self.total, top + height), BAND))
        baseline = top + BAND_PAD_MM + ascent_mm(CELL_BOLD)
        for line in lines:
            flow.put(Words(line, CELL_BOLD, left + PAD_MM, baseline))
            baseline += CELL_BOLD.line_mm
        flow.down = top + height
        self.band = band

    def begin_band(self, band: Band, following: float) -> None:
        """Set a band where the row that follows it has room too."""
        lines = wrapped(band.text, CELL_BOLD, self.total - 2 * PAD_MM)
        height = len(lines) * CELL_BOLD.line_mm + 2 * BAND_PAD_MM
        if height + following > self.flow.left:
            self.band = None
            self.turn()
        self.put_band(band, band.text)

    def turn(self) -> None:
        """Go on overleaf with the head and the band that holds."""
        self.flow.next_page()
        self.head()
        if self.band:
            self.put_band(self.band, self.band.continued or f"{self.band.text}, continued")


def put_table(flow: Flow, columns: Sequence[Column], entries: Sequence[Entry]) -> None:
    """Set a table down the page and on to as many as it takes."""
    rows = list(rows_of(entries))
    setter = _Setter(flow, columns, column_widths(columns, rows, flow.body.width))
    first = setter.row_height(rows[0]) if rows else 0.0
    flow.need(setter.head_height() + first + CELL_BOLD.line_mm + 2 * BAND_PAD_MM)
    setter.head()
    for entry, following in zip_longest(entries, entries[1:]):
        match entry:
            case Band():
                after = rows_of([following] if following else [])
                setter.begin_band(entry, max(map(setter.row_height, after), default=0.0))
            case Kept(together):
                setter.kept(together)
            case _:
                setter.row(entry)
    flow.gap()


def table_height(flow: Flow, columns: Sequence[Column], rows: Sequence[Row]) -> float:
    """Return how high a table is that is not parted, at most a third of a page."""
    setter = _Setter(flow, columns, column_widths(columns, rows, flow.body.width))
    height = setter.head_height() + sum(map(setter.row_height, rows))
    return min(height, flow.body.height / 3)


def rows_of(entries: Iterable[Entry]) -> Iterator[Row]:
    """Yield the rows of a table's entries."""
    for entry in entries:
        match entry:
            case Band():
                continue
            case Kept(together):
                yield from together
            case _:
                yield entry
