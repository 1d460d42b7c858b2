"""Acceptance cases of the trade: what standard switching circuits read and sound (common practice).

The figures are the trade's: readings at the jack, everything on 10, no cable.
"""

from collections import Counter

import pytest

from tests.support import trade
from tests.support.wiring import resistance_at, row_of
from wirer.analysis.combinations import combination_table
from wirer.analysis.unused import CoilState
from wirer.circuit.catalogue import catalogue_kind
from wirer.circuit.stance import default_stance

FREE, SHORTED, FROM_SIGNAL = CoilState.FREE, CoilState.SHORTED, CoilState.HUNG_FROM_SIGNAL
LIVE = CoilState.LIVE


def kilo(ohm: float | None) -> float:
    assert ohm is not None
    return round(ohm / 1000, 2)


def groups(kind: str) -> dict[str, set[frozenset[str]]]:
    """The lugs joined in each position, numbered as the trade does."""
    numbers = {lug: number for number, lug in trade.NUMBERED.items()}
    actuator = catalogue_kind(kind).actuator
    assert actuator is not None
    return {
        position: {frozenset(numbers[lug] for lug in group) for group in joined}
        for position, joined in actuator.contacts.items()
    }


def mapped(
    table: dict[str, set[frozenset[str]]], lugs: str, positions: dict[str, str]
) -> dict[str, set[frozenset[str]]]:
    """The table with lug 1 renamed to the first of `lugs`, and so on."""
    return {
        positions[position]: {frozenset(lugs[int(lug) - 1] for lug in group) for group in joined}
        for position, joined in table.items()
    }


@pytest.mark.parametrize("kind", ["toggle-2p-on-on-on", "toggle-2p-on-on-on-mirrored"])
def test_half_a_turn_maps_an_on_on_on_switch_onto_itself(kind: str) -> None:
    about = {"up": "down", "middle": "middle", "down": "up"}
    assert mapped(groups(kind), "654321", about) == groups(kind)


def test_swapped_columns_map_one_on_on_on_switch_onto_the_other() -> None:
    same = {name: name for name in ("up", "middle", "down")}
    swapped = mapped(groups("toggle-2p-on-on-on"), "456123", same)
    assert swapped == groups("toggle-2p-on-on-on-mirrored")
    assert swapped != groups("toggle-2p-on-on-on")


def test_series_or_parallel() -> None:
    series = row_of(trade.series_parallel(), {"S": "up"}).combination
    assert kilo(series.resistance) == 8.0
    assert series.weights == pytest.approx((1, 1), abs=1e-3)
    assert series.sound is not None
    assert series.sound.formula == "H"
    parallel = row_of(trade.series_parallel(), {"S": "down"}).combination
    assert kilo(parallel.resistance) == 2.0
    assert parallel.weights == pytest.approx((0.5, 0.5), abs=1e-3)
    assert parallel.sound is not None
    assert parallel.sound.formula == "H.A ∥ H.B"
    assert "hum-cancelling" in series.remarks
    assert "hum-cancelling" in parallel.remarks


def test_series_or_parallel_with_a_middle_off() -> None:
    middle = row_of(trade.series_parallel("toggle-2p-on-off-on"), {"S": "middle"}).combination
    assert middle.silent == "open"
    assert middle.resistance is None
    assert middle.states == (FROM_SIGNAL, CoilState.HUNG_FROM_GROUND)
    assert middle.remarks == ("hung-from-signal",)


@pytest.mark.parametrize(
    ("kind", "sounds", "ohms", "state"),
    [
        ("toggle-2p-on-on-on", ["H", "H.A", "H.A ∥ H.B"], [8, 4, 2], (LIVE, SHORTED)),
        ("toggle-2p-on-on-on-mirrored", ["H", "H.B", "H.A ∥ H.B"], [8, 4, 2], (FROM_SIGNAL, LIVE)),
    ],
)
def test_series_split_parallel(
    kind: str, sounds: list[str], ohms: list[int], state: tuple[CoilState, ...]
) -> None:
    circuit = trade.three_ways_on_on_on(kind)
    rows = [row_of(circuit, {"S": name}).combination for name in ("up", "middle", "down")]
    assert [kilo(row.resistance) for row in rows] == ohms
    assert [row.sound.formula for row in rows if row.sound] == sounds
    assert rows[1].states == state
    assert ("hung-from-signal" in rows[1].remarks) is (FROM_SIGNAL in state)


def test_coil_split_to_ground_or_to_hot() -> None:
    circuit = trade.split_on_one_pole()
    rows = [row_of(circuit, {"S": name}).combination for name in ("down", "middle", "up")]
    assert [kilo(row.resistance) for row in rows] == [4, 8, 4]
    assert [row.sound.formula for row in rows if row.sound] == ["H.A", "H", "H.B"]
    assert [row.states for row in rows] == [(LIVE, SHORTED), (LIVE, LIVE), (SHORTED, LIVE)]
    assert [row.hum for row in rows] == pytest.approx([1, 0, 1], abs=1e-6)


def test_phase_switch() -> None:
    circuit = trade.phase_switch()
    normal, reverse = (row_of(circuit, {"S": name}) for name in ("down", "up"))
    assert normal.combination.weights == pytest.approx((1,), abs=1e-3)
    assert reverse.combination.weights == pytest.approx((-1,), abs=1e-3)
    assert {kilo(row.combination.resistance) for row in (normal, reverse)} == {8.0}
    # Of one pickup alone the polarity can't be heard.
    table = combination_table(circuit, default_stance(circuit))
    assert table.distinct == 1


def test_phase_switch_with_a_middle_off() -> None:
    middle = row_of(trade.phase_switch("toggle-2p-on-off-on"), {"S": "middle"}).combination
    assert (middle.silent, middle.resistance) == ("open", None)
    assert middle.states == (FREE,)
    assert middle.remarks == ()


def test_a_reversed_pickup_whose_braid_touches_the_shield_is_shorted() -> None:
    free = trade.phase_switch(pickup="coil-screened")
    assert kilo(resistance_at(free, S="up")) == 8.0
    bench = trade.Wiring().part("J", "jack-ts").part("N", "coil-screened", resistance="8k")
    bench.part("S", "toggle-2p2t")
    trade.trade_join(bench, "N.core S.2", "N.braid S.5", "S.1 S.6 HOT", "S.3 S.4 GND")
    touching = bench.join("N.braid", trade.GND).circuit()
    assert kilo(resistance_at(touching, S="down")) == 8.0
    dead = row_of(touching, {"S": "up"}).combination
    assert (dead.resistance, dead.silent) == (0, "shorted")


@pytest.mark.parametrize(
    ("volume", "ohms"),
    [("250k", [6.34, 3.13, 6.05, 3.01, 5.86]), (None, [6.50, 3.17, 6.20, 3.05, 6.00])],
)
def test_five_way_lever(volume: str | None, ohms: list[float]) -> None:
    circuit = trade.five_way(volume)
    rows = [row_of(circuit, {"S": name}).combination for name in "12345"]
    assert [kilo(row.resistance) for row in rows] == ohms
    sounds = [row.sound.formula for row in rows if row.sound]
    assert sounds == ["B", "B ∥ M", "M", "M ∥ N", "N"]


def test_a_solder_bridge_between_throws_makes_three_positions_alike() -> None:
    circuit = trade.five_way(bridge_a1_a2=True)
    table = combination_table(circuit, default_stance(circuit))
    rows = [table[table.index_of({"S": name})].combination for name in "12345"]
    sounds = [row.sound.formula for row in rows if row.sound]
    assert sounds == ["B ∥ M", "B ∥ M", "B ∥ M", "B ∥ M ∥ N", "N"]


def test_a_common_taken_for_a_throw() -> None:
    circuit = trade.common_taken_for_a_throw()
    rows = [row_of(circuit, {"S": name}).combination for name in "12345"]
    assert [row.silent for row in rows] == ["open", "open", "open", None, None]
    assert [row.sound.formula for row in rows if row.sound] == ["B ∥ N", "B"]


def test_four_way_lever_with_series() -> None:
    circuit = trade.four_way()
    rows = [row_of(circuit, {"S": name}).combination for name in "1234"]
    assert [kilo(row.resistance) for row in rows] == [7.5, 3.62, 7.0, 14.5]
    sounds = [row.sound.formula for row in rows if row.sound]
    assert sounds == ["B", "B ∥ N", "N", "B + N"]
    assert rows[0].states == (LIVE, FROM_SIGNAL)
    assert [("hung-from-signal" in row.remarks) for row in rows] == [True, False, False, False]


def test_three_pickups_in_series_with_on_off_and_phase() -> None:
    circuit = trade.series_chain()
    table = combination_table(circuit, default_stance(circuit))
    assert (len(table), table.silent, table.distinct) == (64, 8, 13)
    silent = [row for row in table if row.combination.silent]
    assert {row.combination.silent for row in silent} == {"shorted"}
    assert {row.combination.resistance for row in silent} == {0}
    sizes = Counter(row.same_as for row in table if not row.combination.silent)
    of_size: dict[int, list[int]] = {1: [], 2: [], 3: []}
    for first, size in sizes.items():
        sound = table[first].combination.sound
        assert sound is not None
        of_size[len(sound.coils)].append(size)
    assert of_size == {1: [8, 8, 8], 2: [4] * 6, 3: [2] * 4}


@pytest.mark.parametrize("count", range(1, 7))
def test_distinct_sounds_of_coils_off_normal_or_reversed(count: int) -> None:
    """(3ⁿ − 1)/2: each coil off, normal or reversed, less silence, the whole's polarity unheard.

    Combinatorics; the trade gives 1, 4, 13, 40 for one to four coils (common practice).
    """
    circuit = trade.series_chain([f"K{n}" for n in range(count)], volume=None)
    table = combination_table(circuit, default_stance(circuit))
    assert table.distinct == (3**count - 1) // 2
    assert table.silent == 2**count


def test_three_pickups_in_parallel_with_on_off_and_phase() -> None:
    circuit = trade.parallel_bus()
    table = combination_table(circuit, default_stance(circuit))
    assert table.distinct == 13
    off, on = "down", "up"
    for live, expected in ((0, 250), (1, 5.86), (2, 2.96), (3, 1.98)):
        setting = {f"S{c}": on if i < live else off for i, c in enumerate("NMB")}
        assert kilo(resistance_at(circuit, **setting)) == expected
    dark = row_of(circuit, {f"S{c}": off for c in "NMB"}).combination
    assert dark.silent == "open"


def test_a_grounded_braid_on_top_shorts_the_pickup_below() -> None:
    assert kilo(resistance_at(trade.braids_in_series(top_braid_grounded=False))) == 15.0
    grounded = row_of(trade.braids_in_series(top_braid_grounded=True)).combination
    assert kilo(grounded.resistance) == 7.0
    assert grounded.states == (LIVE, SHORTED)


@pytest.mark.parametrize(
    ("kind", "throws"),
    [("toggle-2p-on-on-on", "641"), ("toggle-2p-on-on-on-mirrored", "611")],
)
def test_an_on_on_on_switch_as_a_three_way(kind: str, throws: str) -> None:
    """Common 2, jumper 3–5: the three positions reach lugs 6, 4, 1; on a mirrored part 6, 1, 1."""
    bench = trade.wiring().part("S", kind)
    for lug in "146":
        bench.part(f"R{lug}", "resistor", resistance=f"{lug}k")
        trade.trade_join(bench, f"S.{lug} R{lug}.1", f"R{lug}.2 GND")
    circuit = trade.trade_join(bench, "S.2 HOT", "S.3 S.5").circuit()
    reached = [resistance_at(circuit, S=name) for name in ("up", "middle", "down")]
    assert [f"{kilo(ohm):.0f}" for ohm in reached] == list(throws)


@pytest.mark.parametrize(
    ("pole", "winding", "crossed", "in_phase", "cancels"),
    [
        ("north", "cw", False, True, False),
        ("north", "cw", True, False, True),
        ("south", "ccw", False, True, True),
        ("south", "ccw", True, False, False),
        ("south", "cw", False, False, False),
        ("south", "cw", True, True, True),
        ("north", "ccw", False, False, True),
        ("north", "ccw", True, True, False),
    ],
)
@pytest.mark.parametrize("join", ["series", "parallel"])
def test_phase_and_hum_of_a_pair(
    pole: str, winding: str, crossed: bool, in_phase: bool, cancels: bool, join: str
) -> None:
    """The second coil's magnet, winding and connection against a reference (common practice)."""
    bench = (
        trade.wiring().part("N", "coil-2wire").part("M", "coil-2wire", pole=pole, winding=winding)
    )
    hot, cold = ("M.start", "M.finish") if crossed else ("M.finish", "M.start")
    bench.join("N.finish", trade.HOT).join(cold, trade.GND)
    if join == "series":
        bench.join("N.start", hot)
    else:
        bench.join("N.start", trade.GND).join(hot, trade.HOT)
    pair = row_of(bench.circuit()).combination
    assert ("out-of-phase" in pair.remarks) is not in_phase
    assert ("cancelling" in pair.remarks) is not in_phase
    assert ("hum-cancelling" in pair.remarks) is cancels
    assert pair.hum == pytest.approx(0 if cancels else 1, abs=1e-6)
    sign, other = (" + ", "N + −M") if join == "series" else (" ∥ ", "N ∥ −M")
    assert pair.sound is not None
    assert pair.sound.formula == (f"N{sign}M" if in_phase else other)
