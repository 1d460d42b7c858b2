"""What is said below a schematic: its marks, and what is not drawn."""

from __future__ import annotations

from collections.abc import Iterator

from wirer.circuit.model import Circuit
from wirer.circuit.stance import Stance
from wirer.papers.schematic.gather import Gathered
from wirer.papers.schematic.legends import MEASURED
from wirer.papers.schematic.lettering import clean
from wirer.papers.schematic.planning import Screens
from wirer.papers.schematic.symbols.column import Column

MOST_NAMED = 12


def notes_of(
    circuit: Circuit, stance: Stance, found: Gathered, screens: Screens
) -> tuple[str, ...]:
    """Return the notes, a line each."""
    return (*_marks(circuit, found), *_words(circuit, stance, found, screens))


def _marks(circuit: Circuit, found: Gathered) -> Iterator[str]:
    columns = [symbol for symbol in found.symbols if isinstance(symbol, Column)]
    coils = [item for column in columns for item in column.items if item.form == "coil"]
    marks = []
    if any(part.measured for part in circuit.parts):
        marks.append(f"{MEASURED} measured")
    if len(coils) > 1:
        marks.append("dots at coils: the ends that go positive together")
    if any(item.letters != ("", "") for item in coils):
        marks.append("s, f: start and finish of a coil")
    if marks:
        yield "; ".join(marks)


def _words(circuit: Circuit, stance: Stance, found: Gathered, screens: Screens) -> Iterator[str]:
    standing = [
        f"{part.id} {clean(part.position_name(stance.positions[part.id]), 20)}"
        for part in circuit.switches
        if part.id in stance.positions
    ]
    if standing:
        yield f"Drawn with {_listed(standing)}"
    for part, text in found.untold.items():
        yield f"{part} joins {text}"
    if found.unused:
        yield f"Not wired and not drawn: {_listed(found.unused)}"
    if screens.hidden:
        yield f"Screened wires not marked: {_listed(screens.hidden)}"


def _listed(names: list[str] | tuple[str, ...]) -> str:
    if len(names) <= MOST_NAMED:
        return ", ".join(names)
    return ", ".join(names[:MOST_NAMED]) + f" and {len(names) - MOST_NAMED} more"
