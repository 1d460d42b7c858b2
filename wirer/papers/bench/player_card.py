"""The player's card: what each position does, and how to get each sound."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from wirer.analysis.combination import Combination
from wirer.analysis.combinations import CombinationTable
from wirer.analysis.facts import Mask
from wirer.circuit.frozen import FrozenMap
from wirer.circuit.model import Circuit, Part
from wirer.papers.bench.player_words import character, hum_words, who_sounds
from wirer.papers.combination_cells import CombinationCells
from wirer.rules.settings import summed_up

FEW_SETTINGS = 16
"""Up to so many settings are listed one by one; else the distinct sounds with ways to get them."""

MOST_WAYS = 4
MOST_SOUNDS = 200
JUMP_DB = 3.0
"""A difference of level that players notice between positions (common practice)."""


@dataclass(frozen=True, slots=True)
class Way:
    """One way to get a sound: (switch, position) in the builder's names; others do not matter."""

    switches: tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True)
class CardRow:
    """One sound: who sounds, what it is like, whether it hums, and how to get it.

    `more` counts ways that are not listed.
    """

    who: str
    like: str
    hum: str
    ways: tuple[Way, ...]
    more: int = 0


@dataclass(frozen=True)
class PlayerCard:
    """The card: its rows, the knobs' names, and what is worth knowing besides.

    `by_sound` tells whether a row is a sound rather than a setting.
    """

    rows: tuple[CardRow, ...]
    switches: tuple[str, ...]
    knobs: tuple[str, ...]
    remarks: tuple[str, ...]
    by_sound: bool


def player_card(circuit: Circuit, table: CombinationTable) -> PlayerCard:
    """Return the card of a circuit from its table with the knobs up.

    A button that springs back is told of apart: nobody sets a sound with it.
    """
    cells = CombinationCells(table, circuit)
    buttons = [part.id for part in circuit.switches if _springs_back(circuit, part)]
    free = _at_rest(table, buttons)
    by_sound = int(np.count_nonzero(free)) > FEW_SETTINGS
    rows = _by_sound(cells, free, buttons) if by_sound else _by_setting(cells, free, buttons)
    names = {part: cells.labels[part] for part in table.positions}
    return PlayerCard(
        rows=tuple(rows),
        switches=tuple(name for part, name in names.items() if part not in buttons),
        knobs=tuple(_knobs(circuit)),
        remarks=(*_remarks(cells, free), *(_button(cells, b) for b in buttons)),
        by_sound=by_sound,
    )


def _springs_back(circuit: Circuit, part: Part) -> bool:
    actuator = circuit.kind_of(part).actuator
    return bool(actuator and actuator.momentary)


def _at_rest(table: CombinationTable, buttons: Collection[str]) -> Mask:
    """Return the settings in which no button is pressed, shape (settings,)."""
    cube = np.ones([len(choices) for choices in table.positions.values()], np.bool_)
    for axis, part in enumerate(table.positions):
        if part in buttons:
            pressed = [slice(None)] * axis + [slice(1, None)]
            cube[tuple(pressed)] = False
    return cube.reshape(-1)


def _by_setting(cells: CombinationCells, free: Mask, buttons: Collection[str]) -> Iterator[CardRow]:
    for index in np.flatnonzero(free).tolist():
        row = cells.table[index]
        yield _row(cells, row.combination, (_way(cells, row.setting, buttons),))


def _by_sound(cells: CombinationCells, free: Mask, buttons: Collection[str]) -> Iterator[CardRow]:
    table = cells.table
    same_as = np.where(free, table.same_as, -1)
    for index in np.unique(same_as[free])[:MOST_SOUNDS].tolist():
        partial = summed_up(same_as == index, table.positions) or (FrozenMap(),)
        ways = tuple(_way(cells, setting, buttons) for setting in partial)
        yield _row(cells, table[index].combination, ways)


def _way(cells: CombinationCells, setting: Mapping[str, str], buttons: Collection[str]) -> Way:
    return Way(
        tuple(
            (cells.labels[part], cells.position_name(part, setting[part]))
            for part in cells.table.positions
            if part in setting and part not in buttons
        )
    )


def _row(cells: CombinationCells, found: Combination, ways: tuple[Way, ...]) -> CardRow:
    coils = cells.table.coils
    return CardRow(
        who=who_sounds(found, coils, cells.labels),
        like=character(found, coils),
        hum=hum_words(found),
        ways=ways[:MOST_WAYS],
        more=max(0, len(ways) - MOST_WAYS),
    )


def _knobs(circuit: Circuit) -> Iterator[str]:
    for part in circuit.parts:
        shafts = circuit.kind_of(part).shafts
        for shaft in shafts:
            yield part.name if len(shafts) == 1 else f"{part.name} ({shaft.name})"


def _button(cells: CombinationCells, button: str) -> str:
    """Return what a button does while it is pressed."""
    table = cells.table
    axis = list(table.positions).index(button)
    shape = [len(choices) for choices in table.positions.values()]
    pressed = np.take(table.which.reshape(shape), 1, axis).reshape(-1)
    silent = all(table.combinations[n].silent for n in np.unique(pressed).tolist())
    does = "silence" if silent else "another sound"
    return f"{cells.labels[button]}: {does} for as long as it is pressed."


def _remarks(cells: CombinationCells, free: Mask) -> Iterator[str]:
    """Yield what is lost or odd: duplicates, silence, jumps of level."""
    table = cells.table
    found = [table.combinations[n] for n in table.which[free].tolist()]
    silent = sum(one.silent is not None for one in found)
    sounds = len({one.identity for one in found if one.silent is None})
    same = len(found) - silent - sounds
    if same:
        ways = "way" if same == 1 else "ways"
        yield f"{sounds} different sounds; {same} more {ways} to set the switches repeat them."
    if silent:
        yield "One setting is silent." if silent == 1 else f"{silent} settings are silent."
    yield from _remarks_on_level([one for one in found if one.silent is None])


def _remarks_on_level(found: Sequence[Combination]) -> Iterator[str]:
    hollow = ["out-of-phase" in one.remarks for one in found]
    levels = [
        one.level_db
        for one, apart in zip(found, hollow, strict=True)
        if one.level_db is not None and not apart
    ]
    if levels and max(levels) - min(levels) >= JUMP_DB:
        jump = max(levels) - min(levels)
        yield f"Expect a jump in loudness between sounds, up to about {jump:.0f} dB."
    if any(hollow):
        yield "The thin, hollow sounds are quieter by their nature: nothing is broken."
