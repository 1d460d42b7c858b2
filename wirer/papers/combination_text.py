"""The combination table as JSON: what `wirer combinations --json` prints."""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from typing import Any

from wirer.analysis.analyst import Combination
from wirer.analysis.combinations import CombinationTable, Row
from wirer.circuit.model import Circuit
from wirer.papers.figures import data_figure, hum_figure

SILENT = "silent"
SILENCES = {
    "shorted": "silent, the output is shorted",
    "open": "silent, the line to the jack is open",
    "faint": "silent, next to nothing reaches the jack",
}


def part_labels(circuit: Circuit) -> dict[str, str]:
    """Return what people call each part, by its id."""
    return {part.id: part.name for part in circuit.parts}


def chosen_indices(table: CombinationTable, *, distinct: bool) -> Iterable[int]:
    """Return the rows to show: all, or of those that sound the first of each combination."""
    if not distinct:
        return range(len(table))
    return [i for i in table.firsts if table.combinations[table.which[i]].silent is None]


@dataclass
class CombinationRecords:
    """The rows of a table as records; what rows have in common is worked out once."""

    table: CombinationTable
    circuit: Circuit
    _common: dict[int, dict[str, Any]] = field(default_factory=dict)
    _texts: dict[int, tuple[str, str]] = field(default_factory=dict)

    def record(self, row: Row) -> dict[str, Any]:
        """Return one row as the JSON has it. Rows may share what is nested in them."""
        return {
            "setting": row.setting,
            **self._result(row),
            "same_as": row.same_as,
            "remarks": list(row.combination.remarks),
        }

    def text(self, row: Row) -> str:
        """Return the JSON of `record`, of which only the setting and the first row are new."""
        number = int(self.table.which[row.index])
        if number not in self._texts:
            remarks = {"remarks": list(row.combination.remarks)}
            self._texts[number] = _json(self._result(row))[1:-1], _json(remarks)[1:]
        result, remarks_on = self._texts[number]
        head = f'{{"setting": {_json(row.setting)}, {result}'
        return f'{head}, "same_as": {row.same_as}, {remarks_on}'

    def rows(self, *, distinct: bool) -> Iterator[Row]:
        """Yield the rows to show, one at a time."""
        return (self.table[index] for index in chosen_indices(self.table, distinct=distinct))

    def records(self, *, distinct: bool) -> Iterator[dict[str, Any]]:
        """Yield the rows to show as records, one at a time."""
        return map(self.record, self.rows(distinct=distinct))

    def _result(self, row: Row) -> dict[str, Any]:
        number = int(self.table.which[row.index])
        if number not in self._common:
            self._common[number] = self._of(row.combination)
        return self._common[number]

    def _of(self, combination: Combination) -> dict[str, Any]:
        sound, resonance = combination.sound, combination.resonance
        words = SILENCES.get(combination.silent or "", SILENT)
        return {
            "sound": sound.formula if sound else SILENT,
            "words": sound.words(part_labels(self.circuit)) if sound else words,
            "network": sound.json if sound else None,
            "weights": {
                coil: data_figure(weight)
                for coil, weight in zip(self.table.coils, combination.weights, strict=True)
            },
            "hum": hum_figure(combination.hum),
            "silent": combination.silent,
            "resistance": data_figure(combination.resistance),
            "resonance": data_figure(resonance.hertz) if resonance else None,
            "peak_db": data_figure(resonance.peak_db) if resonance else None,
            "level_db": data_figure(combination.level_db),
        }


def _counts(table: CombinationTable) -> dict[str, Any]:
    return {
        "title": table.title,
        "settings": len(table),
        "distinct": table.distinct,
        "silent": table.silent,
    }


def combinations_json(
    table: CombinationTable, circuit: Circuit, *, distinct: bool
) -> dict[str, Any]:
    """Return the table as one JSON object, numbers in SI units and dB.

    With `distinct` its rows are the first of each combination that sounds; `same_as` and the
    counts are still those of the whole table.
    """
    records = CombinationRecords(table, circuit).records(distinct=distinct)
    return {**_counts(table), "combinations": list(records)}


def combinations_json_text(
    table: CombinationTable, circuit: Circuit, *, distinct: bool
) -> Iterator[str]:
    """Yield the text of that object a row at a time, one row a line."""
    yield f'{_json(_counts(table))[:-1]},\n "combinations": ['
    separator = "\n  "
    records = CombinationRecords(table, circuit)
    for row in records.rows(distinct=distinct):
        yield separator + records.text(row)
        separator = ",\n  "
    yield "]}\n"


def _json(value: Any) -> str:
    return json.dumps(value, ensure_ascii=False, allow_nan=False)
