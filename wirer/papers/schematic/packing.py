"""Several drawings on one: the greatest first, the others in shelves below it."""

from __future__ import annotations

import math
from collections.abc import Sequence

from wirer.papers.schematic.drawn import Drawn, shifted

BETWEEN = 5.0
BELOW = 5.0
ASPECT = 1.5
"""The width of a sheet by its height."""


def packed(main: Sequence[Drawn], shelf: Sequence[Drawn]) -> Drawn:
    """Return drawings as one; those of the `shelf` stand in rows at the foot, evenly spaced."""
    result = Drawn()
    room = _sheet_width([*main, *shelf])
    y = _shelve(result, main, room, 0.0, even=False)
    _shelve(result, shelf, room, y, even=True)
    return result


def _sheet_width(pieces: Sequence[Drawn]) -> float:
    """Return a width in which the pieces make about the aspect of a sheet."""
    boxes = [piece.box for piece in pieces]
    area = sum((box.width + BETWEEN) * (box.height + BELOW) for box in boxes)
    return max(math.sqrt(area * ASPECT), max((box.width for box in boxes), default=0.0))


def _shelve(result: Drawn, pieces: Sequence[Drawn], room: float, y: float, *, even: bool) -> float:
    """Put pieces in rows from a height down and return where the next row may begin."""
    boxes = [piece.box for piece in pieces]
    pitch = max((box.width for box in boxes), default=0.0) if even else 0.0
    row: list[tuple[Drawn, float]] = []
    x = 0.0
    for piece, box in zip(pieces, boxes, strict=True):
        wide = max(box.width, pitch)
        if row and x + wide > room:
            y = _set_row(result, row, y, even=even)
            row, x = [], 0.0
        row.append((piece, x + wide / 2))
        x += wide + BETWEEN
    return _set_row(result, row, y, even=even)


def _set_row(result: Drawn, row: Sequence[tuple[Drawn, float]], y: float, *, even: bool) -> float:
    """Set a row of pieces about their middles: all on one line if `even`, else below a line."""
    if not row:
        return y
    boxes = [piece.box for piece, _ in row]
    rise = max(-box.top for box in boxes)
    foot = y
    for (piece, middle), box in zip(row, boxes, strict=True):
        dy = y + rise if even else y - box.top
        result.add(shifted(piece, middle - box.centre[0], dy))
        foot = max(foot, dy + box.bottom)
    return foot + BELOW
