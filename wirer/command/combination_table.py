"""The combination table for people: the legend, the rows, the line that closes it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

import click

from wirer.analysis.combinations import CombinationTable, Row
from wirer.circuit.errors import one_line
from wirer.circuit.model import Circuit
from wirer.circuit.stance import Stance, default_rotations
from wirer.command.combination_layout import Layout, layout_for
from wirer.command.grid import Column, head_lines, row_lines, table_width, widest, wrapped
from wirer.command.output import fitted
from wirer.papers.combination_cells import CombinationCells
from wirer.papers.combination_text import chosen_indices

SIGNS = "+ in series, ∥ in parallel, − reversed"
MOST_LEGEND = 100
LONGEST_NAME = 24
LEAST_POSITIONS = 16


def table_lines(
    table: CombinationTable,
    circuit: Circuit,
    stance: Stance,
    *,
    distinct: bool,
    width: int | None,
    colour: bool,
) -> Iterator[str]:
    """Yield the lines of the table, to fit a width (None: as wide as it comes)."""
    cells = CombinationCells(table, circuit)
    layout, columns = layout_for(cells, width, _clean)
    text_width = min(width or MOST_LEGEND, MOST_LEGEND)
    if table.title:
        yield from _styled(wrapped(_clean(table.title), text_width), colour=colour, bold=True)
        yield ""
    yield from _legend(layout, circuit, stance.rotations, text_width)
    yield from _styled(head_lines(columns), colour=colour, bold=True)
    yield _clean("─") * table_width(columns)
    for index in chosen_indices(table, distinct=distinct):
        yield from _row(layout, columns, table[index], colour=colour)
    yield ""
    yield from wrapped(_clean(_closing(cells, table, distinct=distinct)), text_width)


def _clean(text: str) -> str:
    """Return text on one line, in signs that the output has."""
    return fitted(one_line(text))


def _styled(lines: list[str], *, colour: bool, bold: bool = False, dim: bool = False) -> list[str]:
    if not colour:
        return lines
    return [click.style(line, bold=bold or None, dim=dim or None) for line in lines]


def _row(layout: Layout, columns: tuple[Column, ...], row: Row, *, colour: bool) -> list[str]:
    lines = row_lines(columns, layout.row(row))
    return _styled(lines, colour=colour, dim=row.same_as != row.index)


def _legend(
    layout: Layout, circuit: Circuit, rotations: Mapping[str, float], width: int
) -> Iterator[str]:
    """Yield what the short names in the table stand for."""
    cells = layout.cells
    rows = [
        (part, _clean(name), _clean(layout.legend(names))) for part, name, names in cells.legend()
    ]
    if rows:
        columns = _legend_columns(rows, width)
        for row in rows:
            yield from row_lines(columns, row)
        yield ""
    yield from wrapped(_clean(_coils(cells, circuit)), width)
    turned = default_rotations(circuit)
    differing = {shaft: x for shaft, x in rotations.items() if turned.get(shaft) != x}
    if differing:
        yield from wrapped(_clean(_turned(cells, differing)), width)
    yield ""


def _legend_columns(rows: list[tuple[str, str, str]], width: int) -> list[Column]:
    ids, names, positions = (widest(column) for column in zip(*rows, strict=True))
    ids, names = min(ids, LONGEST_NAME), min(names, LONGEST_NAME)
    left = max(LEAST_POSITIONS, width - ids - names - 4)
    return [Column((), ids), Column((), names), Column((), min(positions, left))]


def _coils(cells: CombinationCells, circuit: Circuit) -> str:
    parts = dict.fromkeys(coil.partition(".")[0] for coil in cells.table.coils)
    named = [p for p in parts if circuit.part_by_id[p].name != p]
    names = [f"{part} {cells.labels[part]}" for part in named]
    return "; ".join([", ".join(names), SIGNS] if names else [SIGNS])


def _turned(cells: CombinationCells, rotations: Mapping[str, float]) -> str:
    said = []
    for shaft, rotation in rotations.items():
        part, _, name = shaft.partition(".")
        which = "" if name == "shaft" else f" ({name})"
        said.append(f"{cells.labels[part]}{which} at {rotation:.2f}")
    return f"Worked out as the document leaves its knobs: {', '.join(said)} of 1."


def _closing(cells: CombinationCells, table: CombinationTable, *, distinct: bool) -> str:
    if distinct or len(table.firsts) == len(table):
        return cells.closing()
    return f"{cells.closing()} “= n” marks a row that does the same as row n."
