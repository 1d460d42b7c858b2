"""Resonances, treble bleeds, bass cuts and notches: what the trade's tables give (common practice).

Ideal coils: a humbucker of 8 kΩ, 4.5 H, 150 pF, a single coil of 6 kΩ, 2.5 H, 120 pF, a split
humbucker of 4 kΩ, 2.25 H and the same capacitance; a 500 pF cable into 1 MΩ. Heights are in dB
re the EMF. Peaks were found on a grid, so frequencies are held to 0.3 %.
"""

import math
from collections.abc import Sequence

import numpy as np
import pytest

from tests.support import trade
from tests.support.netlist import Network
from tests.support.wiring import BARE_JACK, Wiring, row_of
from wirer.analysis.combination import Combination
from wirer.circuit.model import Circuit, OutputLoad

COILS = {
    "humbucker": {"resistance": "8k", "inductance": "4.5", "capacitance": "150p"},
    "single": {"resistance": "6k", "inductance": "2.5", "capacitance": "120p"},
    "split": {"resistance": "4k", "inductance": "2.25", "capacitance": "150p"},
}
CABLE_ONLY = OutputLoad(cable="500p", input="1000000G")


def source(coil: str, load: OutputLoad | None = None) -> Wiring:
    bench = Wiring(load or OutputLoad()).part("J", "jack-ts")
    return bench.part("N", "coil-2wire", COILS[coil]).join("N.start", trade.GND)


def alone(coil: str, load: OutputLoad) -> Combination:
    return row_of(source(coil, load).join("N.finish", trade.HOT).circuit()).combination


def loaded(coil: str, volume: str = "500k", tone: str | None = "500k", cap: str = "22n") -> Circuit:
    return trade.one_volume_one_tone(source(coil), "N.finish", volume, tone, cap).circuit()


def peak(circuit: Circuit, tone: float = 1.0) -> tuple[float, float]:
    """Where the response peaks in Hz, and how high in dB re the EMF."""
    turned = {"T": tone} if "T" in circuit.part_by_id else {}
    found = row_of(circuit, None, turned).combination
    assert found.resonance is not None
    hertz = found.resonance.hertz
    return hertz, heights(found, [hertz])[0]


def heights(combination: Combination, hertz: Sequence[float]) -> list[float]:
    assert combination.voice is not None
    return [20 * math.log10(height) for height in combination.voice.response(hertz)]


@pytest.mark.parametrize(
    ("coil", "load", "kilohertz"),
    [
        ("single", BARE_JACK, 9.2),
        ("single", CABLE_ONLY, 4.04),
        ("humbucker", BARE_JACK, 6.1),
        ("humbucker", CABLE_ONLY, 2.94),
        ("split", CABLE_ONLY, 4.2),
    ],
)
def test_resonance_of_a_coil(coil: str, load: OutputLoad, kilohertz: float) -> None:
    found = alone(coil, load).resonance
    assert found is not None
    digit = 0.05 if round(kilohertz, 1) == kilohertz else 0.01
    assert found.hertz / 1000 == pytest.approx(kilohertz, abs=digit)


@pytest.mark.parametrize(
    ("coil", "cap", "peaks"),
    [("humbucker", "22n", (9.3, 5.9, 2.0)), ("single", "47n", (10.9, 7.8, 3.8))],
)
def test_peak_over_the_pots(coil: str, cap: str, peaks: tuple[float, ...]) -> None:
    found = [peak(loaded(coil, pot, pot, cap))[1] for pot in ("1M", "500k", "250k")]
    assert found == pytest.approx(peaks, abs=0.06)


@pytest.mark.parametrize(("pot", "height"), [("400k", 4.7), ("500k", 5.9), ("600k", 6.9)])
def test_peak_over_the_tolerance_of_the_pots(pot: str, height: float) -> None:
    assert peak(loaded("humbucker", pot, pot))[1] == pytest.approx(height, abs=0.05)


@pytest.mark.parametrize(("cable", "hertz"), [("200p", 3670), ("500p", 2810), ("1n", 2150)])
def test_resonance_over_the_cable(cable: str, hertz: float) -> None:
    bench = source("humbucker", OutputLoad(cable=cable, input="1M"))
    circuit = trade.one_volume_one_tone(bench, "N.finish").circuit()
    assert peak(circuit)[0] == pytest.approx(hertz, rel=0.003)


@pytest.mark.parametrize(
    ("cap", "humbucker", "height", "single"),
    [
        ("10n", 698, 7.0, 938),
        ("22n", 457, 4.6, 612),
        ("47n", 279, 2.1, 374),
        ("100n", 126, 0.1, 167),
    ],
)
def test_tone_at_zero(cap: str, humbucker: float, height: float, single: float) -> None:
    low = peak(loaded("humbucker", cap=cap), tone=0.0)
    assert low == (pytest.approx(humbucker, rel=0.003), pytest.approx(height, abs=0.06))
    assert peak(loaded("single", cap=cap), tone=0.0)[0] == pytest.approx(single, rel=0.003)


@pytest.mark.parametrize(("pot", "rise"), [("500k", 3), ("250k", 4)])
def test_a_tone_pot_out_of_circuit(pot: str, rise: float) -> None:
    with_tone = peak(loaded("humbucker", pot, pot))[1]
    assert peak(loaded("humbucker", pot, None))[1] - with_tone == pytest.approx(rise, abs=0.5)


@pytest.mark.parametrize("turn", [0.3, 1.0])
def test_a_no_load_tone_leaves_the_circuit_at_ten(turn: float) -> None:
    bench = trade.one_volume_one_tone(source("humbucker"), "N.finish", tone=None)
    bench.part("T", "pot-open-end", resistance="500k").part("C", "capacitor", capacitance="22n")
    circuit = bench.join("V.3 T.2").join("T.1 C.1").join("C.2", trade.GND).circuit()
    same = peak(circuit, turn) == pytest.approx(peak(loaded("humbucker", tone=None)))
    assert same is (turn == 1.0)


def bleeding(form: str, tone: str, bleed: tuple[str, ...]) -> Circuit:
    """A humbucker, 500 kΩ volume and tone, with a treble bleed from the 10 end to the wiper."""
    before, after = ("V.3", "V.2") if form == "dependent" else ("V.2", "V.3")
    bench = source("humbucker").part("V", "pot", resistance="500k")
    bench.part("T", "pot", resistance="500k").part("C", "capacitor", capacitance="22n")
    bench.join("N.finish", before).join(after, trade.HOT).join("V.1", trade.GND)
    bench.join(before if tone == "modern" else after, "T.2").join("T.1 C.1").join("C.2", trade.GND)
    if bleed:
        join, *values = bleed
        bench.part("K", "capacitor", capacitance=values[-1]).join(before, "K.1")
        if join == "alone":
            return bench.join("K.2", after).circuit()
        bench.part("R", "resistor", resistance=values[0]).join("R.2", after)
        ends = ("K.2 R.1",) if join == "series" else ("K.1 R.1", "K.2 R.2")
        for pair in ends:
            bench.join(pair)
    return bench.circuit()


@pytest.mark.parametrize(
    ("form", "tone", "bleed", "half", "tenth"),
    [
        ("dependent", "modern", (), (-7.3, -9.0), (-20.6, -19.8)),
        ("dependent", "vintage", (), (-9.0, -9.1), (-21.2, -19.7)),
        ("independent", "modern", (), (-2.4, -9.3), (-4.9, -20.1)),
        ("dependent", "modern", ("alone", "1n"), (-7.1, 1.8), (-19.4, -4.0)),
        ("dependent", "modern", ("parallel", "150k", "1n"), (-3.7, 1.0), (-11.0, -5.6)),
        ("dependent", "modern", ("series", "130k", "1.2n"), (-6.7, -3.1), (-18.4, -10.7)),
    ],
)
def test_treble_bleeds(
    form: str,
    tone: str,
    bleed: tuple[str, ...],
    half: tuple[float, float],
    tenth: tuple[float, float],
) -> None:
    """Level at 200 Hz and 3 kHz, the volume at electrical half and a tenth."""
    circuit = bleeding(form, tone, bleed)
    for turn, expected in ((0.5, half), (0.1, tenth)):
        found = heights(row_of(circuit, None, {"V": turn}).combination, [200.0, 3000.0])
        assert found == pytest.approx(expected, abs=0.11)


def test_wide_open_the_treble_stands_six_decibels_above_the_bass() -> None:
    wide = row_of(bleeding("dependent", "modern", ())).combination
    low, high = heights(wide, [200.0, 3000.0])
    assert high - low == pytest.approx(5.9, abs=0.05)


@pytest.mark.parametrize(
    ("cap", "corner"), [("1n", 478), ("2.2n", 217), ("3.3n", 145), ("4.7n", 102), ("10n", 48)]
)
def test_corner_of_a_bass_cut(cap: str, corner: float) -> None:
    """Into 333 kΩ, a volume's 500 kΩ and 1 MΩ, the level falls by 3 dB at the printed frequency."""
    network = f"V1 T 0 1; C1 T a {cap}; R1 a 0 333k"
    below, above = (abs(Network(network, corner + off).answer("V a 0")) for off in (-0.5, 0.5))
    assert below <= math.sqrt(0.5) <= above


@pytest.mark.parametrize(
    ("cap", "notch", "digit"),
    [
        ("1n", 4100, 100),
        ("3.3n", 2260, 10),
        ("10n", 1300, 10),
        ("22n", 876, 1),
        ("30n", 750, 1),
        ("220n", 277, 1),
    ],
)
def test_notch_of_a_choke(cap: str, notch: float, digit: float) -> None:
    """A 1.5 H choke and a capacitor in a row to ground take out 1/(2π√LC)."""
    grid = np.arange(notch - 2 * digit, notch + 2 * digit, digit / 10)
    network = f"V1 T 0 1; R1 T a 10k; L1 a b 1.5; C1 b 0 {cap}"
    levels = [abs(Network(network, f).answer("V a 0")) for f in grid]
    assert grid[int(np.argmin(levels))] == pytest.approx(notch, abs=digit / 2 + 1e-9)


def two_coils(join: str) -> Combination:
    bench = source("single", BARE_JACK).part("M", "coil-2wire", COILS["single"])
    if join == "series":
        bench.wires.clear()
        bench.join("N.start M.finish").join("M.start", trade.GND)
    else:
        bench.join("M.finish N.finish").join("M.start", trade.GND)
    return row_of(bench.join("N.finish", trade.HOT).circuit()).combination


def test_two_equal_coils_against_one() -> None:
    """In series +6 dB and twice the ohms, in parallel 0 dB and half; the resonance stays."""
    one, series, parallel = alone("single", BARE_JACK), two_coils("series"), two_coils("parallel")
    low = [heights(each, [100.0])[0] for each in (one, series, parallel)]
    assert low[1] - low[0] == pytest.approx(6.02, abs=0.01)
    assert low[2] - low[0] == pytest.approx(0, abs=0.01)
    assert [each.resistance for each in (series, parallel)] == pytest.approx([12e3, 3e3])
    tops = [each.resonance.hertz for each in (one, series, parallel) if each.resonance]
    assert tops == pytest.approx([9188.8] * 3, rel=1e-3)


@pytest.mark.parametrize(
    ("coil", "load", "top", "height", "at_1k"),
    [
        (("7k", "3", "300p"), ("300p", "1M"), 3737, 15.41, None),
        (("6k", "3", "150p"), ("300p", "1M"), 4319, 16.19, 0.415),
        (("6k", "3", "150p"), ("300p", "25k"), None, None, -3.016),
    ],
)
def test_loaded_coil(
    coil: tuple[str, ...],
    load: tuple[str, str],
    top: float | None,
    height: float | None,
    at_1k: float | None,
) -> None:
    """Derived from H(s) = 1/[(C + Cl)·L·s² + (L/Rl + R(C + Cl))·s + 1 + R/Rl]."""
    bench = Wiring(OutputLoad(*load)).part("J", "jack-ts")
    values = dict(zip(("resistance", "inductance", "capacitance"), coil, strict=True))
    bench.part("N", "coil-2wire", values).join("N.start", trade.GND).join("N.finish", trade.HOT)
    found = row_of(bench.circuit()).combination
    if top is None or height is None:
        assert found.resonance is None
    else:
        assert found.resonance is not None
        assert found.resonance.hertz == pytest.approx(top, abs=0.5)
        assert heights(found, [found.resonance.hertz])[0] == pytest.approx(height, abs=0.005)
    if at_1k is not None:
        assert found.level_db == pytest.approx(at_1k, abs=5e-4)


@pytest.mark.parametrize(
    ("turn", "level"), [(0.75, -6.490), (0.5, -13.979), (0.25, -25.575), (0.1, -40.749)]
)
def test_two_ganged_pots_in_cascade(turn: float, level: float) -> None:
    """Two equal linear tracks, the first loaded by the second; derived from the divider law."""
    bench = trade.wiring().part("V", "pot-dual", resistance="100k")
    bench.part("N", "coil-2wire", resistance="0", inductance="0", capacitance="0")
    bench.join("N.finish V.3a").join("V.2a V.3b").join("V.2b", trade.HOT)
    bench.join("N.start V.1a V.1b", trade.GND)
    found = row_of(bench.circuit(), None, {"V": turn}).combination
    assert 20 * math.log10(found.weights[0]) == pytest.approx(level, abs=5e-4)


TONES = {
    "signal to wiper": ("V.3 T.2", "T.1 C.1", "C.2 J.sleeve"),
    "signal to the 0 end": ("V.3 T.1", "T.2 C.1", "C.2 J.sleeve"),
    "capacitor first": ("V.3 C.1", "C.2 T.2", "T.1 J.sleeve"),
    "wrong lugs": ("V.3 T.2", "T.3 C.1", "C.2 J.sleeve"),
    "spare lug grounded": ("V.3 T.2", "T.1 C.1", "C.2 J.sleeve", "T.3 J.sleeve"),
}


def with_tone(form: str) -> Circuit:
    bench = trade.one_volume_one_tone(source("humbucker"), "N.finish", tone=None)
    bench.part("T", "pot", resistance="500k").part("C", "capacitor", capacitance="22n")
    for lugs in TONES[form]:
        bench.join(lugs)
    return bench.circuit()


def treble(form: str, turn: float) -> float:
    """The level at 3 kHz in dB."""
    return heights(row_of(with_tone(form), None, {"T": turn}).combination, [3000.0])[0]


@pytest.mark.parametrize("turn", [0.0, 0.3, 1.0])
def test_forms_of_a_tone_control_are_equal(turn: float) -> None:
    """Which end the capacitor is at does not matter; lugs 1 and 2 do."""
    first, *others = [treble(form, turn) for form in list(TONES)[:3]]
    assert others == pytest.approx([first] * 2)


def test_a_tone_on_the_wrong_lugs_works_backwards() -> None:
    assert treble("wrong lugs", 1.0) == pytest.approx(treble("signal to wiper", 0.0))
    assert treble("wrong lugs", 0.0) == pytest.approx(treble("signal to wiper", 1.0), abs=0.01)


def test_a_tone_with_its_spare_lug_grounded_is_silent_on_ten() -> None:
    assert row_of(with_tone("spare lug grounded")).combination.silent == "shorted"


def test_a_capacitor_in_the_reversed_pickups_lead_keeps_the_lows() -> None:
    """Half out of phase: highs cancel as before, lows of the straight pickup stay."""
    levels = []
    for cap in (None, "22n"):
        bench = source("single").part("M", "coil-2wire", COILS["single"])
        bench.join("N.finish", trade.HOT).join("M.finish", trade.GND)
        if cap:
            bench.part("K", "capacitor", capacitance=cap).join("M.start K.1")
        found = row_of(bench.join("K.2" if cap else "M.start", trade.HOT).circuit()).combination
        assert "out-of-phase" in found.remarks or cap
        levels.append(abs(sum(found.weights)))
    assert levels[0] == pytest.approx(0, abs=1e-6)
    assert levels[1] > 0.9
