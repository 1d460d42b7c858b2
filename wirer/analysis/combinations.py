"""The combination table: every setting of a circuit and what it does to the pickups."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property
from math import prod

import numpy as np
from numpy.typing import NDArray

from wirer.analysis.analyst import Analyst
from wirer.analysis.combination import Combination
from wirer.circuit.errors import WirerError
from wirer.circuit.model import Circuit
from wirer.circuit.stance import Stance

MOST_SETTINGS = 2**20
BLOCK = 1024
"""How many settings are worked out at a time: what is in work beside the rows stays small, and
progress is told often enough to cancel.
"""

Progress = Callable[[int, int], None]
"""Called with the settings done and all there are; it may raise to cancel."""


class TooManySettingsError(WirerError):
    """A circuit with more settings than a table can hold."""


@dataclass(frozen=True, slots=True)
class Row:
    """One setting: a position for every actuator, and what it does.

    `same_as` is the index of the first row that is the same.
    """

    index: int
    setting: Mapping[str, str]
    combination: Combination
    same_as: int


@dataclass(frozen=True)
class CombinationTable:
    """All settings in counting order, the first actuator slowest.

    `which` (settings,) indexes `combinations`; `same_as` (settings,) is the first row the same.
    """

    title: str
    positions: Mapping[str, tuple[str, ...]]
    coils: tuple[str, ...]
    combinations: tuple[Combination, ...]
    which: NDArray[np.int32]
    same_as: NDArray[np.int32]

    def __len__(self) -> int:
        return len(self.which)

    def __getitem__(self, index: int) -> Row:
        return Row(
            index,
            self.setting(index),
            self.combinations[self.which[index]],
            int(self.same_as[index]),
        )

    def __iter__(self) -> Iterator[Row]:
        return (self[index] for index in range(len(self)))

    def setting(self, index: int) -> dict[str, str]:
        """Return the position of every actuator in a row."""
        setting = {}
        for part, choices in reversed(tuple(self.positions.items())):
            index, place = divmod(index, len(choices))
            setting[part] = choices[place]
        return dict(reversed(tuple(setting.items())))

    def index_of(self, positions: Mapping[str, str]) -> int:
        """Return the row of a setting.

        Raises
        ------
        ValueError
            A position is none of its actuator's.
        """
        index = 0
        for part, choices in self.positions.items():
            index = index * len(choices) + choices.index(positions[part])
        return index

    @cached_property
    def firsts(self) -> tuple[int, ...]:
        """The rows that are not the same as an earlier one."""
        return tuple(np.flatnonzero(self.same_as == np.arange(len(self))).tolist())

    @cached_property
    def distinct(self) -> int:
        """The number of different combinations that are not silent."""
        return sum(self.combinations[self.which[i]].silent is None for i in self.firsts)

    @cached_property
    def silent(self) -> int:
        """The number of silent settings."""
        silent = np.array([c.silent is not None for c in self.combinations], np.bool_)
        return int(np.count_nonzero(silent[self.which]))


def setting_count(circuit: Circuit) -> int:
    """Return how many settings a circuit has."""
    analyst_positions = Analyst.positions_of(circuit)
    return prod(map(len, analyst_positions.values()))


def combination_table(
    circuit: Circuit, stance: Stance, progress: Progress | None = None
) -> CombinationTable:
    """Work out every setting of a circuit with its shafts as in the stance.

    Raises
    ------
    TooManySettingsError
        There are more than 2²⁰ settings.
    """
    return table_of(Analyst(circuit, stance.rotations), progress)


def table_of(analyst: Analyst, progress: Progress | None = None) -> CombinationTable:
    """Work out every setting of an analyst's circuit.

    Raises
    ------
    TooManySettingsError
        There are more than 2²⁰ settings.
    """
    positions = Analyst.positions_of(analyst.circuit)
    total = prod(map(len, positions.values()))
    if total > MOST_SETTINGS:
        raise TooManySettingsError(
            f"the switches have {total:,} settings; a table holds at most {MOST_SETTINGS:,}"
        )
    which = np.empty(total, np.int32)
    done = 0
    for states in _blocks([switch.resting for switch in analyst.signal.switches]):
        block = analyst.survey(states)
        which[done : done + len(block)] = block
        done += len(block)
        if progress:
            progress(done, total)
    return CombinationTable(
        title=analyst.circuit.title,
        positions=positions,
        coils=tuple(coil.name for coil in analyst.signal.coils),
        combinations=tuple(analyst.combinations),
        which=which,
        same_as=_same_as(analyst.combinations, which),
    )


def _blocks(states: Sequence[Sequence[int]]) -> Iterator[list[Sequence[int]]]:
    """Split a product of states into products of at most `BLOCK`, in counting order."""
    sizes = [len(chosen) for chosen in states]
    split = 0
    while prod(sizes[split:]) > BLOCK:
        split += 1
    for number in range(prod(sizes[:split])):
        fixed: list[Sequence[int]] = []
        for chosen in reversed(states[:split]):
            number, place = divmod(number, len(chosen))  # noqa: PLW2901
            fixed.append((chosen[place],))
        yield [*reversed(fixed), *states[split:]]


def _same_as(combinations: Sequence[Combination], which: NDArray[np.int32]) -> NDArray[np.int32]:
    classes: dict[object, int] = {}
    of_combination = np.array(
        [classes.setdefault(c.identity, len(classes)) for c in combinations], np.int32
    )
    of_row = of_combination[which]
    _, first, inverse = np.unique(of_row, return_index=True, return_inverse=True)
    return np.asarray(first[inverse], np.int32)
