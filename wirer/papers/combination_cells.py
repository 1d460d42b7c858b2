"""The combination table in a builder's words: what each cell says, and the line that closes it."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property

from wirer.analysis.analyst import Combination
from wirer.analysis.combinations import CombinationTable, Row
from wirer.circuit.model import Circuit
from wirer.papers.combination_text import SILENCES, SILENT, part_labels
from wirer.papers.figures import decibel_text, percent_text, short_figure

NONE = "–"
REMARKS = {
    "hum-cancelling": "hum-cancelling",
    "out-of-phase": "out of phase",
    "cancelling": "signals nearly cancel",
    "hung-from-signal": "a coil hangs from hot",
    "bridge": "bridge",
}
SHORT_REMARKS = {
    "out-of-phase": "out of phase",
    "cancelling": "cancelling",
    "hung-from-signal": "hung coil",
}
"""Where there is little room, what the hum and the sound say already is left out."""

SILENT_REMARKS = {"shorted": "output shorted", "open": "line open", "faint": "next to nothing"}
SHORT_SILENT_REMARKS = {"shorted": "shorted", "open": "open", "faint": "faint"}


@dataclass(frozen=True)
class CombinationCells:
    """What the cells of a table say. Rows are numbered from 1."""

    table: CombinationTable
    circuit: Circuit

    @cached_property
    def labels(self) -> dict[str, str]:
        """What people call each part, by its id."""
        return part_labels(self.circuit)

    def position_names(self, part_id: str) -> tuple[str, ...]:
        """Return the builder's names of an actuator's positions, told apart where two are alike."""
        part = self.circuit.part_by_id[part_id]
        positions = self.table.positions[part_id]
        names = [" ".join(part.position_name(p).split()) or p for p in positions]
        count = Counter(names)
        return tuple(
            name if count[name] == 1 else f"{name} ({position})"
            for name, position in zip(names, positions, strict=True)
        )

    def setting_names(self, row: Row) -> tuple[str, ...]:
        """Return the builder's name of each actuator's position in a row."""
        return tuple(self.position_name(*pair) for pair in row.setting.items())

    def position_name(self, part_id: str, position: str) -> str:
        """Return the builder's name of a position of an actuator."""
        return self._names_of[part_id][position]

    @cached_property
    def _names_of(self) -> dict[str, dict[str, str]]:
        return {
            part_id: dict(zip(positions, self.position_names(part_id), strict=True))
            for part_id, positions in self.table.positions.items()
        }

    def sound(self, combination: Combination) -> str:
        """Return the sound, or that there is none."""
        return combination.sound.formula if combination.sound else SILENT

    def words(self, combination: Combination) -> str:
        """Return the sound in words, or the kind of silence."""
        if combination.sound:
            return combination.sound.words(self.labels)
        return SILENCES.get(combination.silent or "", SILENT)

    def hum(self, combination: Combination) -> str:
        """Return how much of the hum is left, in per cent."""
        return NONE if combination.hum is None else percent_text(combination.hum)

    def reading(self, combination: Combination) -> str:
        """Return what a meter reads at the jack, in ohm."""
        ohm = combination.resistance
        return "open" if ohm is None else short_figure(ohm)

    def resonance(self, combination: Combination) -> str:
        """Return where the response peaks, in hertz."""
        return short_figure(combination.resonance.hertz) if combination.resonance else NONE

    def peak(self, combination: Combination) -> str:
        """Return how high it peaks, in dB."""
        return decibel_text(combination.resonance.peak_db) if combination.resonance else NONE

    def level(self, combination: Combination) -> str:
        """Return the response at 1 kHz, in dB."""
        return NONE if combination.level_db is None else decibel_text(combination.level_db)

    def remarks(self, row: Row, *, short: bool) -> list[str]:
        """Return what is remarked of a row, the earlier row that is the same first."""
        said = list(self._remarks(row.combination, short=short))
        if row.same_as != row.index:
            first = self.table.combinations[self.table.which[row.same_as]]
            known = set(self._remarks(first, short=short))
            said = [f"= {row.same_as + 1}", *(remark for remark in said if remark not in known)]
        return said

    def _remarks(self, combination: Combination, *, short: bool) -> Iterator[str]:
        if combination.silent:
            silences = SHORT_SILENT_REMARKS if short else SILENT_REMARKS
            yield silences[combination.silent]
        words = SHORT_REMARKS if short else REMARKS
        yield from (words[name] for name in combination.remarks if name in words)

    def legend(self) -> Iterator[tuple[str, str, tuple[str, ...]]]:
        """Yield each actuator's id, its name, and the names of its positions."""
        for part_id in self.table.positions:
            yield part_id, self.labels[part_id], self.position_names(part_id)

    def closing(self) -> str:
        """Return the line that counts settings, sounds and silence."""
        table = self.table
        settings = _counted(len(table), "setting", "settings")
        sounds = _counted(table.distinct, "distinct sound", "distinct sounds")
        return f"{settings}: {sounds}, {self._silences()}."

    def _silences(self) -> str:
        which = self.table.which.tolist()
        silences = [combination.silent for combination in self.table.combinations]
        kinds = Counter(kind for number in which if (kind := silences[number]))
        if not kinds:
            return "none silent"
        if len(kinds) == 1:
            return f"{self.table.silent} silent ({next(iter(kinds))})"
        parts = ", ".join(f"{count} {kind}" for kind, count in kinds.items())
        return f"{self.table.silent} silent ({parts})"


def _counted(number: int, one: str, more: str) -> str:
    return f"{number:,} {one if number == 1 else more}"
