"""A table as plain text: columns of known width, long words wrapped, figures never cut."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property, lru_cache
from itertools import zip_longest
from unicodedata import combining, east_asian_width


@dataclass(frozen=True)
class Column:
    """A column: its head in lines, its width, and the gap before it."""

    head: tuple[str, ...]
    width: int
    right: bool = False
    gap: int = 2

    @cached_property
    def margin(self) -> str:
        """The blanks of the gap."""
        return " " * self.gap


@lru_cache(maxsize=2**14)
def text_width(text: str) -> int:
    """Return how many places of a terminal a text takes."""
    if text.isascii():
        return len(text)
    return sum(0 if combining(c) else 2 if east_asian_width(c) in "WF" else 1 for c in text)


def widest(texts: Iterable[str]) -> int:
    """Return the width of the widest text, 0 if there is none."""
    return max(map(text_width, texts), default=0)


def table_width(columns: Sequence[Column]) -> int:
    """Return how wide a line is; no gap stands before the first column."""
    return sum(c.width + c.gap for c in columns) - columns[0].gap


def head_lines(columns: Sequence[Column]) -> list[str]:
    """Return the lines of the head, each column's last line at the bottom."""
    heads = [[line for part in c.head for line in wrapped(part, c.width)] for c in columns]
    depth = max(map(len, heads))
    stacked = [[""] * (depth - len(head)) + head for head in heads]
    return [_line(columns, cells) for cells in zip(*stacked, strict=True)]


def row_lines(columns: Sequence[Column], cells: Iterable[str]) -> list[str]:
    """Return the lines of a row."""
    cells = list(cells)
    pairs = zip(cells, columns, strict=True)
    if not any("\n" in cell or text_width(cell) > column.width for cell, column in pairs):
        return [_line(columns, cells)]
    folded = [wrapped(cell, c.width) for cell, c in zip(cells, columns, strict=True)]
    return [_line(columns, line) for line in zip_longest(*folded, fillvalue="")]


def _line(columns: Sequence[Column], cells: Sequence[str]) -> str:
    pieces: list[str] = []
    for column, cell in zip(columns, cells, strict=True):
        blank = " " * (column.width - text_width(cell))
        pieces += (column.margin, blank, cell) if column.right else (column.margin, cell, blank)
    return "".join(pieces)[columns[0].gap :].rstrip()


def wrapped(text: str, width: int) -> list[str]:
    """Return a text in lines no wider than that, broken at spaces where there are any.

    What is parted by line breaks stands on lines of its own.
    """
    if "\n" in text:
        return [line for part in text.split("\n") for line in wrapped(part, width)]
    if text_width(text) <= width:
        return [text]
    lines = [""]
    for word in text.split():
        for piece in _pieces(word, width):
            joined = f"{lines[-1]} {piece}" if lines[-1] else piece
            if text_width(joined) <= width:
                lines[-1] = joined
            else:
                lines.append(piece)
    return lines


def _pieces(word: str, width: int) -> Iterator[str]:
    piece = ""
    for character in word:
        if piece and text_width(piece + character) > width:
            yield piece
            piece = ""
        piece += character
    yield piece
