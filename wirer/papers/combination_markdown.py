"""The combination table as Markdown, to put into a job's notes."""

from __future__ import annotations

from collections.abc import Iterator

from wirer.analysis.combinations import CombinationTable, Row
from wirer.circuit.model import Circuit
from wirer.papers.combination_cells import CombinationCells
from wirer.papers.combination_text import chosen_indices
from wirer.papers.markdown import literal, table_line

FIGURE_HEADS = ("hum %", "meter Ω", "resonance Hz", "peak dB", "level dB")


def combinations_markdown(
    table: CombinationTable, circuit: Circuit, *, distinct: bool
) -> Iterator[str]:
    """Yield the lines: the title, the table in the builder's own names, the counts."""
    cells = CombinationCells(table, circuit)
    if title := literal(table.title):
        yield f"# {title}\n\n"
    names = [literal(name) for _, name, _ in cells.legend()]
    yield table_line(["#", *names, "sound", "in words", *FIGURE_HEADS, "remarks"])
    yield table_line(["--:", *[":--"] * (len(names) + 2), *["--:"] * len(FIGURE_HEADS), ":--"])
    positions = {
        part_id: dict(zip(table.positions[part_id], map(literal, found), strict=True))
        for part_id, _, found in cells.legend()
    }
    for index in chosen_indices(table, distinct=distinct):
        yield _line(cells, table[index], positions)
    yield f"\n{literal(cells.closing())}\n"


def _line(cells: CombinationCells, row: Row, positions: dict[str, dict[str, str]]) -> str:
    found = row.combination
    return table_line(
        [
            str(row.index + 1),
            *(positions[part][position] for part, position in row.setting.items()),
            literal(cells.sound(found)),
            literal(cells.words(found)),
            cells.hum(found),
            cells.reading(found),
            cells.resonance(found),
            cells.peak(found),
            cells.level(found),
            literal(", ".join(cells.remarks(row, short=False))),
        ]
    )
