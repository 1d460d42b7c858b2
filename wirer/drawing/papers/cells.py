"""The cells of a table: text in pieces, a box to tick, a piece of wire, room to write in."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property

from wirer.drawing.papers.marks import Field, Mark, Swatch, TickBox, Words
from wirer.drawing.papers.typeface import (
    CELL,
    Style,
    ascent_mm,
    longest_word_mm,
    plain,
    width_mm,
    wrapped,
)
from wirer.layout.box import Box

TICK_MM = 3.0
SWATCH_MM = (6.0, 1.5)
GAP_MM = 1.4
WRITING_MM = 5.0
FRAME = "#9aa0a6"


@dataclass(frozen=True)
class Cell:
    """What a cell has: pieces of text that each begin a line, and what stands before them.

    `tick` is a box to tick (True: ticked), `swatch` a wire's colour, `blank` room to write in.
    """

    pieces: tuple[tuple[str, Style], ...] = ()
    tick: bool | None = None
    swatch: str = ""
    blank: bool = False

    @cached_property
    def lead(self) -> float:
        """How much room is taken before the text."""
        taken = TICK_MM if self.tick is not None else SWATCH_MM[0] if self.swatch else 0.0
        return taken + (GAP_MM if taken and any(text for text, _ in self.pieces) else 0.0)

    @cached_property
    def natural(self) -> float:
        """How wide it is if nothing is broken."""
        widths = (width_mm(plain(text), style) for text, style in self.pieces)
        return self.lead + max(widths, default=0.0)

    @cached_property
    def narrowest(self) -> float:
        """How wide it is if lines are broken between words."""
        widths = (longest_word_mm(text, style) for text, style in self.pieces)
        return self.lead + max(widths, default=0.0)

    def lines(self, room: float) -> list[tuple[str, Style]]:
        """Return its lines in a room."""
        left = room - self.lead
        return [(line, style) for text, style in self.pieces for line in wrapped(text, style, left)]

    def height(self, room: float) -> float:
        """Return how high it is in a room."""
        text = sum(style.line_mm for _, style in self.lines(room))
        least = TICK_MM if self.tick is not None else CELL.line_mm if self.swatch else 0.0
        return max(text, least, WRITING_MM if self.blank else 0.0)

    def marks(self, box: Box, right: bool, *, level: bool) -> Iterator[Mark]:
        """Yield its marks in a box, the first line at its top or all `level` with its middle."""
        if self.blank:
            yield Field(box.grown(0.15), edge=FRAME)
        lines = self.lines(box.width)
        height = sum(style.line_mm for _, style in lines) or CELL.line_mm
        down = box.centre[1] - height / 2 if level else box.top
        middle = down + (lines[0][1] if lines else CELL).line_mm / 2
        if self.tick is not None:
            at = Box.centred((box.left + TICK_MM / 2, middle), TICK_MM, TICK_MM)
            yield TickBox(at, self.tick)
        elif self.swatch:
            width, height = SWATCH_MM
            yield Swatch(Box.centred((box.left + width / 2, middle), width, height), self.swatch)
        for line, style in lines:
            x = box.right - width_mm(line, style) if right else box.left + self.lead
            yield Words(line, style, x, down + ascent_mm(style))
            down += style.line_mm


EMPTY = Cell()
BLANK = Cell(blank=True)


def cell(text: str, style: Style = CELL, *more: tuple[str, Style]) -> Cell:
    """Return a cell of text, with more pieces below it."""
    return Cell(((text, style), *more))


def ticked(done: bool) -> Cell:
    """Return a box to tick."""
    return Cell(tick=done)
