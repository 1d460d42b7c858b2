"""What becomes of coils that carry no signal: free, shorted, hung from ground or signal."""

import pytest

from tests.support import trade
from tests.support.wiring import Wiring, row_of
from wirer.analysis.combination import Combination
from wirer.analysis.facts import facts_of, resting_states
from wirer.analysis.harness import harness_of
from wirer.analysis.unused import CoilState
from wirer.circuit.stance import default_rotations

LIVE, FREE, SHORTED = CoilState.LIVE, CoilState.FREE, CoilState.SHORTED
FROM_GROUND, FROM_SIGNAL = CoilState.HUNG_FROM_GROUND, CoilState.HUNG_FROM_SIGNAL


def pair(*joins: str) -> Combination:
    """A pickup on the jack and another, M, joined in some way, with posts X and Y."""
    bench = Wiring().part("J", "jack-ts").part("N", "coil-2wire").part("M", "coil-2wire")
    bench.part("X", "terminal").part("Y", "terminal").part("R", "resistor", resistance="1M")
    bench.join("N.finish J.tip").join("N.start J.sleeve")
    for lugs in joins:
        bench.join(lugs)
    return row_of(bench.circuit()).combination


@pytest.mark.parametrize(
    ("joins", "state"),
    [
        ((), FREE),
        (("M.start M.finish",), SHORTED),
        (("M.start M.finish J.tip",), SHORTED),
        (("M.start J.sleeve",), FROM_GROUND),
        (("M.finish J.tip",), FROM_SIGNAL),
        (("M.finish X.1", "X.1 J.tip"), FROM_SIGNAL),
        (("M.finish J.tip", "M.start J.sleeve"), LIVE),
        (("M.finish R.1", "R.2 J.tip"), FROM_SIGNAL),
        (("M.finish R.1", "R.2 J.sleeve"), FROM_GROUND),
        (("M.finish R.1", "R.2 M.start"), FREE),
        (("M.finish R.1", "R.2 M.start", "M.start J.tip"), FROM_SIGNAL),
        (("M.start J.sleeve", "M.finish R.1", "R.2 J.tip"), LIVE),
    ],
)
def test_a_second_coil(joins: tuple[str, ...], state: CoilState) -> None:
    found = pair(*joins)
    assert found.states == (LIVE, state)
    assert ("hung-from-signal" in found.remarks) is (state == FROM_SIGNAL)


def test_a_coil_hung_through_another_hangs_too() -> None:
    bench = Wiring().part("J", "jack-ts")
    for name in "NMB":
        bench.part(name, "coil-2wire")
    bench.join("N.finish J.tip M.finish").join("N.start J.sleeve").join("M.start B.finish")
    assert row_of(bench.circuit()).combination.states == (LIVE, FROM_SIGNAL, FROM_SIGNAL)


def test_in_an_open_setting_hot_counts_as_signal() -> None:
    bench = Wiring().part("J", "jack-ts").part("N", "coil-2wire").join("N.finish J.tip")
    assert row_of(bench.circuit()).combination.states == (FROM_SIGNAL,)


def test_hung_from_a_shorted_output_is_hung_from_ground() -> None:
    bench = Wiring().part("J", "jack-ts").part("N", "coil-2wire")
    bench.join("N.finish J.tip J.sleeve")
    found = row_of(bench.circuit()).combination
    assert (found.silent, found.states) == ("shorted", (FROM_GROUND,))


def test_a_shorted_part_of_a_tapped_coil_is_shorted_and_still_felt() -> None:
    """Its turns are coupled to the others: inductance is lost, but it is in no path."""
    bench = Wiring().part("J", "jack-ts").part("N", "coil-tapped", tap="0.6")
    bench.join("N.start J.sleeve").join("N.tap J.tip")
    open_end = row_of(bench.circuit()).combination
    shorted = row_of(bench.join("N.tap N.finish").circuit()).combination
    assert shorted.states == (LIVE, SHORTED)
    assert shorted.sound is not None
    assert shorted.sound.formula == "N.lower"
    assert shorted.resistance == pytest.approx(0.6 * 7500)
    assert shorted.remarks == ()
    assert open_end.resonance is not None
    heights = [
        abs(found.voice.curve.transfers([open_end.resonance.hertz])[0, 0])
        for found in (open_end, shorted)
        if found.voice
    ]
    assert heights[0] > 5
    assert heights[1] < 1.1


@pytest.mark.parametrize(("top", "whole"), [("N.finish", True), ("N.tap", False)])
def test_a_tapped_coil_in_full_and_at_its_tap(top: str, whole: bool) -> None:
    """Coupled in full, L·(t + (1 − t))² is L: the whole is a plain coil of the same values."""
    bench = Wiring().part("J", "jack-ts").part("N", "coil-tapped").join("N.start J.sleeve")
    tapped = row_of(bench.join(top, "J.tip").circuit()).combination
    share = 1.0 if whole else 0.6
    assert sum(tapped.weights) == pytest.approx(share, rel=1e-3)
    assert tapped.resistance == pytest.approx(share * 7500)
    assert tapped.sound is not None
    assert tapped.sound.formula == ("N" if whole else "N.lower")
    if whole:
        plain = Wiring().part("J", "jack-ts")
        plain.part("N", "coil-2wire", resistance="7k5", inductance="3.2", capacitance="130p")
        plain.join("N.start J.sleeve").join("N.finish J.tip")
        one = row_of(plain.circuit()).combination
        assert one.resonance is not None
        assert tapped.resonance is not None
        assert tapped.resonance.hertz == pytest.approx(one.resonance.hertz, rel=1e-6)
        assert tapped.resonance.peak_db == pytest.approx(one.resonance.peak_db, abs=1e-6)
        assert tapped.level_db == pytest.approx(one.level_db, abs=1e-9)


@pytest.mark.parametrize("kind", ["coil-2wire", "coil-tapped"])
def test_losses_damp_the_peak_and_leave_the_meter_alone(kind: str) -> None:
    """A coil's losses stand for eddy currents in metal round it, which direct current has not."""
    rows = []
    for values in ({}, {"loss": "200k"}):
        bench = Wiring().part("J", "jack-ts").part("N", kind, values)
        bench.join("N.start J.sleeve").join("N.finish J.tip")
        rows.append(row_of(bench.circuit()).combination)
    plain, damped = rows
    assert damped.resistance == plain.resistance
    assert damped.resonance is not None
    assert plain.resonance is not None
    assert damped.resonance.peak_db < plain.resonance.peak_db - 3


def test_a_loop_beside_the_path_hangs_from_what_it_is_tied_to() -> None:
    """The upper turns feed a coil in a loop of their own, which reaches the tip by flux alone."""
    bench = Wiring().part("J", "jack-ts").part("N", "coil-tapped", capacitance="0")
    bench.part("M", "coil-2wire").part("B", "coil-2wire")
    bench.join("N.start J.sleeve").join("N.tap J.tip M.start")
    found = row_of(bench.join("N.finish M.finish B.finish").circuit()).combination
    assert found.states == (LIVE, FROM_SIGNAL, FROM_SIGNAL, FROM_SIGNAL)
    assert found.sound is not None
    assert found.sound.formula == "N.lower"
    # Its current is felt all the same.
    assert abs(found.weights[2]) > 0.001


def test_facts_and_table_agree_on_coils() -> None:
    for circuit in (trade.four_way(), trade.series_chain(), trade.three_ways_on_on_on()):
        harness = harness_of(circuit, default_rotations(circuit))
        facts = facts_of(harness, resting_states(harness))
        for index, states in enumerate(facts.coils.tolist()):
            positions = {}
            rest = index
            for switch in reversed(harness.switches):
                rest, place = divmod(rest, len(switch.positions))
                positions[switch.part] = switch.positions[place]
            assert row_of(circuit, positions).combination.states == tuple(map(CoilState, states))
            if index > 12:
                break
