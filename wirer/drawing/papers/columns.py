"""How wide the columns of a table are: by their contents, narrowed fairly where room is short."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from wirer.drawing.papers.cells import Cell
from wirer.drawing.papers.typeface import HEAD, longest_word_mm

PAD_MM = 1.3
LONGEST_WORD_MM = 34.0
ROOM_EPSILON = 0.01


@dataclass(frozen=True, slots=True)
class Column:
    """A column: its head, the least width (to write in), whether figures stand to the right.

    A column that `grows` takes the room that is left over; one that is `whole` is not broken
    between words as long as there is room for it.
    """

    head: str
    least: float = 0.0
    right: bool = False
    grows: bool = False
    whole: bool = False


def natural_widths(columns: Sequence[Column], rows: Sequence[Sequence[Cell]]) -> list[float]:
    """Return the widths with which nothing would have to be broken but heads."""
    return [
        max(column.least, longest_word_mm(column.head, HEAD), *(row[i].natural for row in rows))
        + 2 * PAD_MM
        for i, column in enumerate(columns)
    ]


def column_widths(
    columns: Sequence[Column], rows: Sequence[Sequence[Cell]], room: float
) -> list[float]:
    """Return the width of each column so that they fill the room.

    Where all is too wide the widest columns give way first, none below its longest word unless
    that is too wide as well.
    """
    natural = natural_widths(columns, rows)
    if sum(natural) <= room:
        return _spread(columns, natural, room)
    least = [
        min(
            wide,
            max(
                column.least,
                min(LONGEST_WORD_MM, longest_word_mm(column.head, HEAD)),
                *(min(LONGEST_WORD_MM, _narrowest(column, row[i])) for row in rows),
            )
            + 2 * PAD_MM,
        )
        for i, (column, wide) in enumerate(zip(columns, natural, strict=True))
    ]
    if sum(least) >= room:
        return [width * room / sum(least) for width in least]
    return _levelled(natural, least, room)


def _spread(columns: Sequence[Column], natural: list[float], room: float) -> list[float]:
    """Give what is left over to the columns that grow, else to none."""
    growing = [i for i, column in enumerate(columns) if column.grows]
    spare = (room - sum(natural)) / len(growing) if growing else 0.0
    return [width + (spare if i in growing else 0.0) for i, width in enumerate(natural)]


def _levelled(natural: list[float], least: list[float], room: float) -> list[float]:
    """Return the widths cut at the height at which together they fill the room."""
    low, high = 0.0, max(natural)
    while high - low > ROOM_EPSILON:
        cap = (low + high) / 2
        total = sum(max(a, min(b, cap)) for a, b in zip(least, natural, strict=True))
        low, high = (cap, high) if total <= room else (low, cap)
    return [max(a, min(b, low)) for a, b in zip(least, natural, strict=True)]


def _narrowest(column: Column, cell: Cell) -> float:
    return cell.natural if column.whole else cell.narrowest
