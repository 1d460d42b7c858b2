"""The combination table as CSV (RFC 4180, lines ended by LF): the JSON's names, ids and units."""

from __future__ import annotations

import csv
from collections.abc import Iterator
from typing import Any

from wirer.analysis.combinations import CombinationTable
from wirer.circuit.model import Circuit
from wirer.papers.combination_text import CombinationRecords

AFTER_SETTING = ("sound", "words")
AFTER_WEIGHTS = (
    "hum", "silent", "resistance", "resonance", "peak_db", "level_db", "same_as",
)  # fmt: skip


class _Lines:
    """A file that keeps only the line last written."""

    line = ""

    def write(self, line: str) -> int:
        self.line = line
        return len(line)


def combinations_csv(table: CombinationTable, circuit: Circuit, *, distinct: bool) -> Iterator[str]:
    """Yield the table's lines, a head line first.

    Its columns: `row` (from 0), `setting.PART` for each actuator, what the JSON calls by the same
    names with `weight.COIL` for each coil, and `remarks` parted by spaces. Null is empty.
    """
    out = _Lines()
    writer = csv.writer(out, lineterminator="\n")
    settings = [f"setting.{part}" for part in table.positions]
    weights = [f"weight.{coil}" for coil in table.coils]
    writer.writerow(["row", *settings, *AFTER_SETTING, *weights, *AFTER_WEIGHTS, "remarks"])
    yield out.line
    records = CombinationRecords(table, circuit)
    for row in records.rows(distinct=distinct):
        writer.writerow([row.index, *_cells(records.record(row))])
        yield out.line


def _cells(record: dict[str, Any]) -> Iterator[Any]:
    yield from record["setting"].values()
    yield from (record[name] for name in AFTER_SETTING)
    yield from record["weights"].values()
    yield from (record[name] for name in AFTER_WEIGHTS)
    yield " ".join(record["remarks"])
