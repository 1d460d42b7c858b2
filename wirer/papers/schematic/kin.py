"""The poles of a switch: below one another where they can be, and named but once."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from dataclasses import replace
from itertools import pairwise

from wirer.papers.schematic.drawn import Link
from wirer.papers.schematic.layered.graph import Placement
from wirer.papers.schematic.layered.ordering import Ordering
from wirer.papers.schematic.planning import Cast
from wirer.papers.schematic.symbols.pole import Pole
from wirer.papers.schematic.symbols.symbol import Heading


def gather_kin(cast: Cast, ordering: Ordering) -> None:
    """Bring the poles of a switch below one another where that costs no crossing."""
    for row in range(1, len(ordering.order), 2):
        groups: dict[str, list[int]] = defaultdict(list)
        for vertex in ordering.order[row]:
            if vertex < len(cast.symbols) and cast.symbols[vertex].kin:
                groups[cast.symbols[vertex].kin].append(vertex)
        for group in groups.values():
            for before, vertex in pairwise(group):
                ordering.try_below(row, vertex, before)


def hang(cast: Cast, ordering: Ordering) -> None:
    """Write a switch's name but once above poles that stand below one another."""
    poles: dict[str, int] = defaultdict(int)
    for symbol in cast.symbols:
        if symbol.kin:
            poles[symbol.kin] += 1
    for run in _runs(cast, ordering):
        whole = len(run) == poles[cast.symbols[run[0]].kin]
        for place, number in enumerate(run):
            heading: Heading = "none" if place else "group" if whole else "own"
            if whole or not place:
                cast.plans[number] = replace(cast.plans[number], heading=heading)


def _runs(cast: Cast, ordering: Ordering) -> list[list[int]]:
    """Return the poles of one switch that lie directly below one another."""
    runs: list[list[int]] = []
    for row in ordering.order[1::2]:
        before = -1
        for vertex in row:
            symbol = cast.symbols[vertex] if vertex < len(cast.symbols) else None
            if not isinstance(symbol, Pole):
                before = -1
                continue
            if before >= 0 and cast.symbols[before].kin == symbol.kin:
                runs[-1].append(vertex)
            else:
                runs.append([vertex])
            before = vertex
    return runs


def kin_links(cast: Cast, ordering: Ordering, placement: Placement) -> Iterator[Link]:
    """Yield the dashed lines from pole to pole of those that are named together."""
    for run in _runs(cast, ordering):
        for upper, lower in pairwise(run):
            if cast.plans[lower].heading == "none":
                x = float(placement.axes[cast.layers[upper]])
                ends = [(x, _blade(cast, placement, number)) for number in (upper, lower)]
                yield Link(ends[0], ends[1])


def _blade(cast: Cast, placement: Placement, number: int) -> float:
    pole = cast.symbols[number]
    assert isinstance(pole, Pole)
    return pole.blade_middle(placement.stations[number])
