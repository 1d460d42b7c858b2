"""Writing what is shown to files: the picture and the combination table."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from pathlib import Path

from wirer.analysis.combinations import CombinationTable
from wirer.circuit.errors import WirerError
from wirer.circuit.files import write_bytes
from wirer.circuit.model import Circuit
from wirer.circuit.stance import Stance
from wirer.drawing.render import render_wiring
from wirer.layout.layout import Layout
from wirer.papers.combination_csv import combinations_csv
from wirer.papers.combination_markdown import combinations_markdown

PICTURES = "PDF (*.pdf);;SVG (*.svg);;PNG (*.png)"
TABLES = "CSV (*.csv);;Markdown (*.md)"

Lines = Callable[..., Iterator[str]]

WRITERS: dict[str, Lines] = {".csv": combinations_csv, ".md": combinations_markdown}


class ExportError(WirerError):
    """A file that can't be written as asked."""


def write_picture(path: Path, circuit: Circuit, layout: Layout | None, stance: Stance) -> None:
    """Write the wiring view at true size; the suffix says as what.

    Raises
    ------
    DrawingError
        The suffix is none of those known, or the file can't be written.
    """
    render_wiring(circuit, path, layout=layout, stance=stance)


def write_table(path: Path, table: CombinationTable, circuit: Circuit, *, distinct: bool) -> None:
    """Write the combination table; the suffix says as what.

    Raises
    ------
    ExportError
        The suffix is none of those known.
    FileError
        The file can't be written.
    """
    writer = WRITERS.get(path.suffix.lower())
    if writer is None:
        known = " or ".join(WRITERS)
        raise ExportError(f"{path.name}: a table is written as {known}, by the name's suffix")
    text = "".join(writer(table, circuit, distinct=distinct))
    write_bytes(path, text.encode())
