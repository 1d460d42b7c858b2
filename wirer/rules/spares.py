"""Rules of what a circuit could do without, and of what depends on more than it should."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from wirer.circuit.elements import Cell, circuit_elements
from wirer.rules.actuators import slices
from wirer.rules.finding import Remark
from wirer.rules.inspection import Inspection
from wirer.rules.names import listed, part_name
from wirer.rules.registry import rule


@rule(
    "spare-actuator",
    "note",
    wrong="An actuator adds no sound of its own: the others give all that there are.",
    heard="More settings that sound the same; one thing more to hit by accident.",
    meter="Every reading is found with the actuator left in one position.",
    mend="Leave it out if a simpler panel is wanted: one phase switch fewer than pickups will do.",
)
def spare_actuator(inspection: Inspection) -> Iterator[Remark]:
    """Find actuators of which one position has every sound."""
    table = inspection.table
    batteries = any(isinstance(e, Cell) for e in circuit_elements(inspection.circuit))
    if inspection.silent.all() or batteries:
        return
    spare = tuple(part for part in table.positions if _spare(inspection, part))
    if spare:
        names = listed(part_name(inspection.circuit, part) for part in spare)
        one = names if len(spare) == 1 else f"Any one of {names}"
        yield Remark(f"{one} could be left out: the other switches give every sound.", spare)


def _spare(inspection: Inspection, part: str) -> bool:
    """Return whether one position has all sounds and no other adds silence; idle ones are not."""
    same_as, silent = inspection.table.same_as, inspection.silent
    sounds = set(same_as[~silent].tolist())
    rows = dict(slices(inspection, part))
    if all(np.array_equal(same_as[own], same_as[rows[next(iter(rows))]]) for own in rows.values()):
        return False
    for own in rows.values():
        adds_silence = any((silent[other] & ~silent[own]).any() for other in rows.values())
        if not adds_silence and sounds <= set(same_as[own].tolist()):
            return True
    return False


@rule(
    "split-wanders",
    "note",
    wrong="Which coil of a split pickup stays depends on another switch.",
    heard="The split sounds different, and may hum in pairs that should cancel it.",
    meter="The reading may be equal; a tap test tells which coil is on.",
    mend="Split before the phase switch: short the coil at the pickup's own leads.",
)
def split_wanders(inspection: Inspection) -> Iterator[Remark]:
    """Find positions that split a pickup to one coil or to the other."""
    coils = inspection.harness.coils
    parts = dict.fromkeys(coil.part for coil in coils)
    for pickup in parts:
        own = [i for i, coil in enumerate(coils) if coil.part == pickup]
        if len(own) != 2:
            continue
        heard = inspection.sounding[:, own]
        for part in inspection.table.positions:
            for position, rows in slices(inspection, part):
                if _only_split(heard[rows]):
                    named = inspection.part(part)
                    text = (
                        f"Which coil of {part_name(inspection.circuit, pickup)} stays when "
                        f"{named.name} is at {named.position_name(position)} depends on another "
                        "switch."
                    )
                    yield Remark(text, (pickup, part))


def _only_split(heard: np.ndarray) -> bool:
    """Return whether a pickup is split wherever it sounds, now to one coil and now to the other."""
    count = heard.sum(axis=1)
    return bool(
        not (count == 2).any()
        and (heard[:, 0] & ~heard[:, 1]).any()
        and (heard[:, 1] & ~heard[:, 0]).any()
    )
