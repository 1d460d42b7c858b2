"""What lies near a place: boxes kept by the cells of a coarse grid."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from typing import Generic, TypeVar

from wirer.layout.box import Box

T = TypeVar("T")

CELL_MM = 40.0
MOST_CELLS = 400


class BoxIndex(Generic[T]):
    """Things by the boxes they lie in, over cells of `cell_mm`.

    Asking costs as much as what lies near; `asked` counts what was looked at.
    """

    def __init__(self, cell_mm: float = CELL_MM) -> None:
        self.cell_mm = cell_mm
        self.asked = 0
        self._cells: dict[tuple[int, int], list[int]] = defaultdict(list)
        self._wide: list[int] = []
        self._entries: dict[int, tuple[Box, T]] = {}
        self._next = 0

    def add(self, box: Box, thing: T) -> int:
        """Keep a thing under its box; return the ticket that takes it out again."""
        ticket = self._next
        self._next += 1
        self._entries[ticket] = (box, thing)
        cells = self._cells_of(box)
        if cells is None:
            self._wide.append(ticket)
        else:
            for cell in cells:
                self._cells[cell].append(ticket)
        return ticket

    def remove(self, ticket: int) -> None:
        """Take out what was kept under a ticket."""
        box, _ = self._entries.pop(ticket)
        cells = self._cells_of(box)
        if cells is None:
            self._wide.remove(ticket)
        else:
            for cell in cells:
                self._cells[cell].remove(ticket)

    def near(self, box: Box) -> list[T]:
        """Return what has a point in common with a box, in the order of keeping."""
        cells = self._cells_of(box)
        tickets = set(self._wide)
        if cells is None:
            tickets.update(self._entries)
        else:
            for cell in cells:
                tickets.update(self._cells.get(cell, ()))
        self.asked += len(tickets)
        found = ((ticket, *self._entries[ticket]) for ticket in sorted(tickets))
        return [thing for _, other, thing in found if _touch(box, other)]

    def _cells_of(self, box: Box) -> list[tuple[int, int]] | None:
        left, right = int(box.left // self.cell_mm), int(box.right // self.cell_mm)
        top, bottom = int(box.top // self.cell_mm), int(box.bottom // self.cell_mm)
        if (right - left + 1) * (bottom - top + 1) > MOST_CELLS:
            return None
        return [(x, y) for x in range(left, right + 1) for y in range(top, bottom + 1)]

    def __iter__(self) -> Iterator[T]:
        return (thing for _, thing in self._entries.values())


def _touch(a: Box, b: Box) -> bool:
    return a.left <= b.right and b.left <= a.right and a.top <= b.bottom and b.top <= a.bottom
