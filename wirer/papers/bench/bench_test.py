"""The test sheet: what a meter, a screwdriver and an ear should find in every setting."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Hashable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from wirer.analysis.combinations import CombinationTable
from wirer.analysis.voice import AUDIBLE
from wirer.circuit.model import Circuit
from wirer.papers.bench.bands import Band, bands
from wirer.papers.bench.grounds import GroundCheck, ground_checks
from wirer.papers.bench.meter_model import MeterModel, meter_model
from wirer.papers.bench.settings_to_test import listed_settings, switch_states
from wirer.papers.bench.spread import spread_of
from wirer.papers.bench.stand_ins import StandIn, stand_in_trial, way_of_joining
from wirer.papers.combination_cells import CombinationCells


@dataclass(frozen=True, slots=True)
class SettingTest:
    """One setting: its row in the table (from 0), the coils that sound, and their signs.

    `signs` has +1 or −1 for each sounding coil, the first always +1.
    """

    index: int
    positions: tuple[str, ...]
    sound: str
    coils: tuple[str, ...]
    signs: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class ReadingGroup:
    """Settings that read alike: of the harness with its stand-ins, and of the whole."""

    harness: Band
    finished: Band
    rows: tuple[SettingTest, ...]


@dataclass(frozen=True)
class BenchTest:
    """What is tested. `confused` are pairs of settings (rows from 0) that the harness can't tell.

    `listed` of `settings` are on the sheet. `shafts` is the rotation that it is metered at.
    """

    groups: tuple[ReadingGroup, ...]
    stand_ins: tuple[StandIn, ...]
    grounds: tuple[GroundCheck, ...]
    confused: tuple[tuple[int, int], ...]
    listed: int
    settings: int

    @property
    def is_whole(self) -> bool:
        """Tell whether every setting is on the sheet."""
        return self.listed == self.settings


def bench_test(
    circuit: Circuit, table: CombinationTable, rotations: Mapping[str, float]
) -> BenchTest:
    """Return the test sheet of a circuit, from its table with the same rotations.

    Every setting is listed where there are at most 64, else the first of each that differs.
    """
    rows = listed_settings(table)
    model = meter_model(circuit, rotations, switch_states(table, rows))
    finished = bands(model, model.ohms, [spread_of(circuit, b) for b in model.branches])
    cells = CombinationCells(table, circuit)
    joined = _ways(table, rows, model)
    trial = stand_in_trial(circuit, model, joined)
    first = {network: rows[i] for i, network in reversed(tuple(enumerate(model.which)))}
    return BenchTest(
        groups=tuple(_groups(cells, rows, model.which, (trial.bands, finished))),
        stand_ins=trial.stand_ins,
        grounds=ground_checks(circuit, model.harness),
        confused=tuple((first[a], first[b]) for a, b in trial.confused),
        listed=len(rows),
        settings=len(table),
    )


def _ways(
    table: CombinationTable, rows: Sequence[int], model: MeterModel
) -> list[frozenset[Hashable]]:
    ways: dict[int, set[Hashable]] = defaultdict(set)
    for row, network in zip(rows, model.which, strict=True):
        ways[network].add(way_of_joining(table[row].combination))
    return [frozenset(ways[network]) for network in range(len(model.networks))]


def _groups(
    cells: CombinationCells,
    rows: Sequence[int],
    which: Sequence[int],
    found: tuple[tuple[Band, ...], tuple[Band, ...]],
) -> Iterator[ReadingGroup]:
    """Yield the settings that read alike, the highest reading first and a short last."""
    groups: dict[tuple[str, str], list[int]] = defaultdict(list)
    for place, network in enumerate(which):
        groups[_rounded(found[0][network]), _rounded(found[1][network])].append(place)
    for places in sorted(groups.values(), key=lambda g: _height(found[1][which[g[0]]])):
        harness, finished = (side[which[places[0]]] for side in found)
        tested = tuple(_setting_test(cells, rows[place]) for place in places)
        yield ReadingGroup(harness, finished, tested)


def _rounded(band: Band) -> str:
    """Return a reading to a part in ten thousand, below which no meter of the trade goes."""
    return "open" if band.ohm is None else f"{band.ohm:.4g}"


def _height(band: Band) -> float:
    return float("-inf") if band.ohm is None else -band.ohm


def _setting_test(cells: CombinationCells, index: int) -> SettingTest:
    row = cells.table[index]
    weights = zip(cells.table.coils, row.combination.weights, strict=True)
    heard = [(coil, weight) for coil, weight in weights if abs(weight) >= AUDIBLE]
    first = heard[0][1] if heard else 1.0
    return SettingTest(
        index=index,
        positions=cells.setting_names(row),
        sound=cells.sound(row.combination),
        coils=tuple(coil for coil, _ in heard),
        signs=tuple(1 if weight * first > 0 else -1 for _, weight in heard),
    )
