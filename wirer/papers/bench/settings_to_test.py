"""Which settings the papers list, and where each switch then stands."""

from __future__ import annotations

from collections.abc import Sequence

from wirer.analysis.combinations import CombinationTable

FEW = 64
"""Up to so many settings are all listed; of more, the first of each that is different."""

MOST_LISTED = 400
"""More rows than this help nobody at a bench."""


def listed_settings(table: CombinationTable) -> tuple[int, ...]:
    """Return the rows of a table that the papers list."""
    if len(table) <= FEW:
        return tuple(range(len(table)))
    return table.firsts[:MOST_LISTED]


def switch_states(table: CombinationTable, rows: Sequence[int]) -> list[list[int]]:
    """Return for each row the place of every switch among its positions."""
    sizes = [len(choices) for choices in table.positions.values()]
    return [_digits(row, sizes) for row in rows]


def _digits(index: int, sizes: list[int]) -> list[int]:
    digits = []
    for size in reversed(sizes):
        index, digit = divmod(index, size)
        digits.append(digit)
    return digits[::-1]
