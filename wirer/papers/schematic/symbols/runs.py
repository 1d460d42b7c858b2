"""In which orders the joined runs of a column may stand."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import permutations, product

MOST_RUNS = 3

Way = tuple[tuple[int, bool], ...]
"""Items from top to bottom by their numbers, each upside down or not."""


def runs_of(joints: Sequence[bool]) -> list[list[int]]:
    """Return the items in runs of such as are joined to each other."""
    runs = [[0]]
    for index, joined in enumerate(joints, 1):
        if joined:
            runs[-1].append(index)
        else:
            runs.append([index])
    return runs


def ways_of_runs(joints: Sequence[bool]) -> Iterator[Way]:
    """Yield the ways in which runs may change places and stand upside down, as they are first."""
    runs = runs_of(joints)
    if len(runs) > MOST_RUNS:
        return
    for order in permutations(runs):
        for turns in product((False, True), repeat=len(runs)):
            yield tuple(
                (index, turn)
                for run, turn in zip(order, turns, strict=True)
                for index in (run[::-1] if turn else run)
            )
