"""The combination table: counting order, blocks, sameness, progress, refusal."""

import tracemalloc

import numpy as np
import pytest
from hypothesis import given

from tests.support import trade
from tests.support.surveys import Case, guitars_in_a_stance
from tests.support.wiring import Wiring, stance_of
from wirer.analysis import combinations
from wirer.analysis.combinations import (
    CombinationTable,
    TooManySettingsError,
    combination_table,
    setting_count,
)
from wirer.circuit.model import Circuit
from wirer.circuit.stance import default_stance


def table_of(circuit: Circuit) -> CombinationTable:
    return combination_table(circuit, default_stance(circuit))


def loose_switches(*kinds: str) -> Circuit:
    """Switches that lie about beside a pickup on the jack."""
    bench = Wiring().part("J", "jack-ts").part("N", "coil-2wire")
    bench.join("N.finish J.tip").join("N.start J.sleeve")
    for number, kind in enumerate(kinds):
        bench.part(f"S{number}", kind)
    return bench.circuit()


def test_rows_are_in_counting_order_the_first_actuator_slowest() -> None:
    table = table_of(loose_switches("slide-2p2t", "toggle-1p-on-off-on", "lever-2p5"))
    assert len(table) == 2 * 3 * 5
    assert [tuple(row.setting.values()) for row in table][:7] == [
        ("up", "up", "1"),
        ("up", "up", "2"),
        ("up", "up", "3"),
        ("up", "up", "4"),
        ("up", "up", "5"),
        ("up", "middle", "1"),
        ("up", "middle", "2"),
    ]
    assert tuple(table[29].setting.values()) == ("down", "down", "5")
    assert tuple(table[0].setting) == ("S0", "S1", "S2")


def test_a_setting_and_its_row_name_each_other() -> None:
    table = table_of(loose_switches("lever-4p5t", "slide-2p2t", "rotary-4p3t"))
    assert [table.index_of(table.setting(i)) for i in range(len(table))] == list(range(len(table)))
    with pytest.raises(ValueError, match="not in tuple"):
        table.index_of({**table.setting(0), "S1": "sideways"})


def test_a_stop_leaves_the_positions_beyond_it_out() -> None:
    bench = Wiring().part("J", "jack-ts").part("S", "rotary-1p12t", stop="5")
    assert [row.setting["S"] for row in table_of(bench.circuit())] == ["1", "2", "3", "4", "5"]


def test_without_switches_there_is_one_row() -> None:
    table = table_of(loose_switches())
    assert len(table) == 1
    assert (table[0].setting, table[0].same_as, table.distinct) == ({}, 0, 1)


def test_the_first_row_that_is_the_same_is_named() -> None:
    table = table_of(trade.five_way(bridge_a1_a2=True))
    # The loads differ: the middle tone is on the line from position 2 on.
    assert [row.same_as for row in table] == [0, 1, 1, 3, 4]
    assert table.firsts == (0, 1, 3, 4)
    assert table.distinct == 4


def test_silent_rows_are_the_same_by_their_kind_of_silence() -> None:
    bench = Wiring().part("J", "jack-ts").part("N", "coil-2wire").part("S", "slide-2p3t")
    bench.join("S.A0 J.tip").join("S.A1 J.sleeve N.start").join("S.A3 N.finish")
    bench.part("T", "slide-2p2t")
    table = table_of(bench.circuit())
    assert [row.combination.silent for row in table] == ["shorted"] * 2 + ["open"] * 2 + [None] * 2
    assert [row.same_as for row in table] == [0, 0, 2, 2, 4, 4]
    assert (table.silent, table.distinct) == (4, 1)


def test_the_same_sound_with_another_load_is_another_combination() -> None:
    """A tone capacitor switched onto one pickup."""
    bench = Wiring().part("J", "jack-ts").part("N", "coil-2wire").part("S", "slide-1p2t")
    bench.part("C", "capacitor", capacitance="22n").join("C.2 N.start J.sleeve")
    bench.join("N.finish J.tip S.A0").join("S.A1 C.1")
    table = table_of(bench.circuit())
    sounds = [row.combination.sound for row in table]
    assert sounds[0] == sounds[1]
    assert table.distinct == 2


@given(guitars_in_a_stance())
def test_the_same_combination_means_the_same_sound_and_loads(drawn: Case) -> None:
    circuit, stance = drawn
    if setting_count(circuit) > 3000:
        return
    table = combination_table(circuit, stance)
    identities = [combination.identity for combination in table.combinations]
    for row, (which, same_as) in enumerate(zip(table.which, table.same_as, strict=True)):
        assert same_as <= row
        assert identities[which] == identities[table.which[same_as]]
    firsts = [identities[table.which[i]] for i in table.firsts]
    assert len(set(firsts)) == len(firsts)
    silent = sum(row.combination.silent is not None for row in table)
    assert table.silent == silent
    loud = {identity for identity in identities if not isinstance(identity, str)}
    assert table.distinct == len(loud)


@pytest.mark.parametrize("block", [1, 3, 16, 64])
def test_blocks_do_not_show(monkeypatch: pytest.MonkeyPatch, block: int) -> None:
    whole = table_of(trade.series_chain())
    monkeypatch.setattr(combinations, "BLOCK", block)
    parts = table_of(trade.series_chain())
    assert np.array_equal(whole.same_as, parts.same_as)
    for one, other in zip(whole, parts, strict=True):
        assert one.setting == other.setting
        assert one.combination.identity == other.combination.identity
        assert one.combination.weights == pytest.approx(other.combination.weights, rel=1e-12)


def test_progress_is_told_block_by_block(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(combinations, "BLOCK", 16)
    told: list[tuple[int, int]] = []
    circuit = trade.series_chain()
    combination_table(circuit, default_stance(circuit), lambda *step: told.append(step))
    assert told == [(16, 64), (32, 64), (48, 64), (64, 64)]


def test_a_large_table_tells_its_progress_early() -> None:
    """From 2,000 settings up a person must see that something moves, and be able to stop it."""
    told: list[tuple[int, int]] = []
    circuit = loose_switches(*["slide-2p2t"] * 11)
    combination_table(circuit, default_stance(circuit), lambda *step: told.append(step))
    assert told[-1] == (2048, 2048)
    assert told[0][0] <= 1024


class _CancelledError(Exception):
    pass


def test_work_can_be_cancelled_from_progress(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(combinations, "BLOCK", 16)
    calls = []

    def stop(done: int, total: int) -> None:
        calls.append(done)
        raise _CancelledError

    circuit = trade.series_chain()
    with pytest.raises(_CancelledError):
        combination_table(circuit, default_stance(circuit), stop)
    assert calls == [16]


def test_too_many_settings_are_refused_at_once() -> None:
    circuit = loose_switches(*["slide-2p2t"] * 21)
    assert setting_count(circuit) == 2**21
    with pytest.raises(TooManySettingsError, match=r"2,097,152 settings; .* at most 1,048,576"):
        table_of(circuit)


def test_memory_grows_no_faster_than_the_rows() -> None:
    """Twice the loose switches, sixteen times the rows: no more than that much more memory."""
    peaks = []
    for switches in (10, 14):
        circuit = loose_switches(*["slide-2p2t"] * switches)
        tracemalloc.start()
        table = table_of(circuit)
        peaks.append(tracemalloc.get_traced_memory()[1])
        tracemalloc.stop()
        assert len(table.combinations) == 1
    assert peaks[1] <= 16 * peaks[0]


def test_rotations_of_the_stance_count() -> None:
    circuit = trade.blend()
    stance = stance_of(circuit, None, {"X": 0.0})
    (row,) = combination_table(circuit, stance)
    assert row.combination.sound is not None
    assert row.combination.sound.formula == "N"
