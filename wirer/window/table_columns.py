"""The columns of the combination table as it is shown: what each says and sorts by."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from math import inf

from wirer.analysis.analyst import Combination
from wirer.analysis.combinations import Row
from wirer.papers.combination_cells import CombinationCells

Cell = Callable[[CombinationCells, Row], str]
Key = Callable[[Combination], float | str]


@dataclass(frozen=True)
class Column:
    """One column. `key` is what it sorts by (None: the rows' own order).

    `keep` says how long it stays where there is little room, 0 the longest. `actuator` is the
    part whose positions it shows.
    """

    id: str
    title: str
    about: str
    cell: Cell
    keep: int = 0
    key: Key | None = None
    figures: bool = False
    actuator: str = ""


def _known(value: float | None) -> float:
    return inf if value is None else value


RESULTS: tuple[Column, ...] = (
    Column(
        "sound",
        "Sound",
        "How the coils are joined: + in series, ∥ in parallel, − reversed",
        lambda cells, row: cells.sound(row.combination),
        key=lambda c: c.sound.formula if c.sound else "\uffff",
    ),
    Column(
        "hum",
        "Hum %",
        "How much mains hum is left: 0 it cancels, 100 it does not at all",
        lambda cells, row: cells.hum(row.combination),
        keep=2,
        key=lambda c: _known(c.hum),
        figures=True,
    ),
    Column(
        "reading",
        "Meter Ω",
        "What a meter reads between tip and sleeve of a plug in the jack",
        lambda cells, row: cells.reading(row.combination),
        keep=3,
        key=lambda c: _known(c.resistance),
        figures=True,
    ),
    Column(
        "resonance",
        "Peak Hz",
        "Where the response is highest, with cable and amplifier",
        lambda cells, row: cells.resonance(row.combination),
        keep=6,
        key=lambda c: c.resonance.hertz if c.resonance else inf,
        figures=True,
    ),
    Column(
        "level",
        "Level dB",
        "How loud at 1 kHz, in dB re 1 V with every coil giving its own level",
        lambda cells, row: cells.level(row.combination),
        keep=5,
        key=lambda c: _known(c.level_db),
        figures=True,
    ),
    Column(
        "remarks",
        "Remarks",
        "What is worth knowing; “= 3” is the same as row 3",
        lambda cells, row: ", ".join(cells.remarks(row, short=True)),
        keep=4,
        key=lambda c: " ".join(c.remarks) or "\uffff",
    ),
    Column(
        "words",
        "In words",
        "The sound said in words",
        lambda cells, row: cells.words(row.combination),
        keep=7,
        key=lambda c: c.sound.formula if c.sound else "\uffff",
    ),
)


def columns_of(cells: CombinationCells) -> tuple[Column, ...]:
    """Return the columns of a circuit's table: number, positions, results."""
    number = Column("row", "#", "Number of the setting", lambda _, row: str(row.index + 1), keep=1)
    sound, *others = RESULTS
    return (number, sound, *_actuators(cells), *others)


def _actuators(cells: CombinationCells) -> Iterator[Column]:
    for part_id, name, positions in cells.legend():
        names = dict(zip(cells.table.positions[part_id], positions, strict=True))
        yield Column(
            f"position.{part_id}",
            name,
            f"Where {name} stands",
            lambda _, row, part_id=part_id, names=names: names[row.setting[part_id]],  # type: ignore[misc]
            actuator=part_id,
        )
