"""Volumes, tones, blends and their mistakes: what the meter reads (common practice).

The figures are the trade's: everything on 10 but what is said, no cable.
"""

import pytest

from tests.support import trade
from tests.support.wiring import Wiring, resistance_at, row_of
from wirer.circuit.model import Circuit


def kilo(ohm: float | None) -> float:
    assert ohm is not None
    return ohm / 1000


@pytest.mark.parametrize(
    ("neck", "bridge", "dependent", "independent"),
    [(1, 1, 3.68, 3.68), (1, 0, 0, 6.81), (0, 1, 0, 7.75), (0, 0, 0, 250)],
)
def test_two_volumes_with_both_selected(
    neck: float, bridge: float, dependent: float, independent: float
) -> None:
    turned = {"VN": neck, "VB": bridge}
    for form, expected in (("dependent", dependent), ("independent", independent)):
        both = row_of(trade.two_volumes(form), {"S": "middle"}, turned).combination
        assert kilo(both.resistance) == pytest.approx(expected, abs=0.005)
        dead = neck == bridge == 0 or (form == "dependent" and 0 in (neck, bridge))
        silence = "shorted" if form == "dependent" else "open"
        assert both.silent == (silence if dead else None)


@pytest.mark.parametrize(
    ("form", "turn", "expected"),
    [
        ("dependent", 0, 0),
        ("independent", 0, 500),
        ("dependent", 0.5, 126.7),
        ("independent", 0.5, 256.8),
    ],
)
def test_one_volume_of_two_selected(form: str, turn: float, expected: float) -> None:
    ohm = resistance_at(trade.two_volumes(form), {"VN": turn}, S="up")
    if form == "dependent" and turn == 0.5:
        # Half of 500 kΩ across the other half and 7 kΩ: 126.7 kΩ.
        assert kilo(ohm) == pytest.approx(expected, abs=0.05)
    else:
        assert kilo(ohm) == pytest.approx(expected, abs=0.1)


@pytest.mark.parametrize(
    ("form", "readings"), [("right", (7.75, 3.94, 7.75)), ("wrong", (0, 3.94, 0))]
)
def test_blend(form: str, readings: tuple[float, ...]) -> None:
    circuit = trade.blend(form)
    found = [kilo(resistance_at(circuit, {"X": turn})) for turn in (0.0, 0.5, 1.0)]
    assert found == pytest.approx(readings, abs=0.005)


def test_a_blend_fades_to_one_source_and_a_quarter_turn_leaves_three_percent() -> None:
    circuit = trade.blend()
    ends = [row_of(circuit, None, {"X": turn}).combination for turn in (0.0, 1.0)]
    assert [row.sound.formula for row in ends if row.sound] == ["N", "B"]
    near, far = row_of(circuit, None, {"X": 0.25}).combination.weights
    assert far / near == pytest.approx(0.03, abs=0.01)


@pytest.mark.parametrize(
    ("top", "lower", "expected"), [(1, 1, 14.8), (0, 1, 7.87), (1, 0, 6.90), (0, 0, 0)]
)
def test_volumes_in_series(top: float, lower: float, expected: float) -> None:
    ohm = resistance_at(trade.volumes_in_series(), {"VT": top, "VL": lower})
    assert kilo(ohm) == pytest.approx(expected, abs=0.05)


def test_a_grounded_top_volume_mutes_a_series_pair() -> None:
    muted = row_of(trade.volumes_in_series("ground"), None, {"VT": 0}).combination
    assert (muted.resistance, muted.silent) == (0, "shorted")


def one_pickup(volume_ohm: str, **wrong: bool) -> Circuit:
    """An 8 kΩ pickup with a volume, its 0 end grounded or not."""
    bench = trade.wiring().part("N", "coil-2wire", resistance="8k").join("N.start", trade.GND)
    bench.part("V", "pot", resistance=volume_ohm).join("N.finish V.3").join("V.2", trade.HOT)
    if not wrong.get("open_end"):
        bench.join("V.1", trade.GND)
    return bench.circuit()


@pytest.mark.parametrize(("load", "reading"), [("500k", 7.87), ("250k", 7.75), ("125k", 7.52)])
def test_a_pickup_read_through_its_loads(load: str, reading: float) -> None:
    assert kilo(resistance_at(one_pickup(load))) == pytest.approx(reading, abs=0.005)


def test_a_volume_turned_down_reads_high_and_tells_its_own_value() -> None:
    circuit = one_pickup("500k")
    readings = {turn: kilo(resistance_at(circuit, {"V": turn})) for turn in (0.9, 0.5, 0.0)}
    assert readings == {0.9: pytest.approx(51, abs=0.5), 0.5: pytest.approx(127, abs=0.5), 0.0: 0}
    # Rv = 4·R_max − Rp, so the most is where both sides of the wiper are equal.
    at_most = 0.5 + 8 / 500 / 2
    assert 4 * kilo(resistance_at(circuit, {"V": at_most})) - 8 == pytest.approx(500)


def test_a_volume_without_ground_never_gets_quiet() -> None:
    loose = row_of(one_pickup("500k", open_end=True), None, {"V": 0}).combination
    assert kilo(loose.resistance) == pytest.approx(508)
    assert loose.silent is None


def test_a_tone_without_its_capacitor_is_a_second_volume() -> None:
    bench = trade.wiring().part("N", "coil-2wire", resistance="8k").join("N.start", trade.GND)
    bench.part("T", "pot", resistance="250k").join("N.finish T.2", trade.HOT)
    circuit = bench.join("T.1", trade.GND).circuit()
    assert row_of(circuit, None, {"T": 0}).combination.silent == "shorted"
    assert kilo(resistance_at(circuit, {"T": 1})) == pytest.approx(7.75, abs=0.005)


def test_a_tone_does_not_change_the_reading() -> None:
    bench = trade.wiring().part("N", "coil-2wire", resistance="8k").join("N.start", trade.GND)
    circuit = trade.one_volume_one_tone(bench, "N.finish").circuit()
    readings = [resistance_at(circuit, {"T": turn}) for turn in (0.0, 0.3, 1.0)]
    assert readings == pytest.approx([readings[0]] * 3)


def test_a_no_load_pot_as_volume_is_silent_on_ten() -> None:
    """Its lug 3 is joined to nothing but the wiper, and to that only at 10."""
    bench = trade.wiring().part("N", "coil-2wire").part("V", "pot-open-end", resistance="250k")
    bench.join("N.start", trade.GND, "V.1").join("N.finish V.3").join("V.2", trade.HOT)
    circuit = bench.circuit()
    below = row_of(circuit, None, {"V": 0.9}).combination
    assert below.silent == "open"
    assert kilo(below.resistance) == pytest.approx(225)


@pytest.mark.parametrize(
    ("resistor", "share", "input_ohm"),
    [
        (None, 0.5, 1.0),
        ("500k", 0.40, 0.50),
        ("250k", 0.33, 0.33),
        ("125k", 0.25, 0.20),
        ("100k", 0.22, 0.17),
        ("50k", 0.14, 0.09),
    ],
)
def test_a_linear_pot_shaped_by_a_resistor(
    resistor: str | None, share: float, input_ohm: float
) -> None:
    """A resistor from the wiper to the 0 end: share at half a turn, load at full, of 500 kΩ."""
    bench = trade.wiring().part("V", "pot", resistance="500k")
    bench.part("N", "coil-2wire", resistance="0", inductance="0", capacitance="0")
    bench.join("N.finish V.3").join("N.start V.1", trade.GND).join("V.2", trade.HOT)
    if resistor:
        bench.part("R", "resistor", resistance=resistor).join("V.2 R.1").join("R.2 V.1")
    half = row_of(bench.circuit(), None, {"V": 0.5}).combination
    assert half.weights[0] == pytest.approx(share, abs=0.005)
    loaded = trade.wiring().part("V", "pot", resistance="500k").join("V.3", trade.HOT)
    loaded.join("V.1", trade.GND)
    if resistor:
        loaded.part("R", "resistor", resistance=resistor).join("V.2 R.1").join("R.2 V.1")
    assert kilo(resistance_at(loaded.circuit())) / 500 == pytest.approx(input_ohm, abs=0.005)


@pytest.mark.parametrize(
    ("turn", "at_12k", "at_15k"),
    [
        (0.10, 0.057143, 0.062500),
        (0.25, 0.097561, 0.111111),
        (0.50, 0.162162, 0.187500),
        (0.75, 0.292683, 0.333333),
        (0.90, 0.514286, 0.562500),
    ],
)
def test_a_loaded_linear_pot(turn: float, at_12k: float, at_15k: float) -> None:
    """V/V0 = c·r/(r + c − c²), r the load's share of the track; derived from the divider law."""
    for load, expected in (("12k", at_12k), ("15k", at_15k)):
        bench = trade.wiring().part("V", "pot", resistance="100k")
        bench.part("N", "coil-2wire", resistance="0", inductance="0", capacitance="0")
        bench.part("R", "resistor", resistance=load).join("V.2 R.1", trade.HOT)
        bench.join("R.2 V.1", trade.GND, "N.start").join("N.finish V.3")
        found = row_of(bench.circuit(), None, {"V": turn}).combination.weights[0]
        assert found == pytest.approx(expected, abs=5e-7)


def test_a_split_to_true_ground_loses_the_pickup_below() -> None:
    """Mistake 26: in a series stack the link must go to the pickup's own cold lead."""
    bench = trade.humbucker(trade.wiring()).part("L", "coil-2wire", resistance="7k")
    bench.join("H.As", trade.HOT).join("H.Af H.Bf").join("H.Bs L.finish").join("L.start", trade.GND)
    assert kilo(resistance_at(bench.circuit())) == pytest.approx(15)
    split = row_of(bench.join("H.Af", trade.GND).circuit()).combination
    assert kilo(split.resistance) == pytest.approx(4)
    assert split.sound is not None
    assert split.sound.formula == "H.A"


def test_a_split_attempted_on_a_braid_only_pickup_mutes_it() -> None:
    bench = trade.wiring().part("H", "humbucker-screened")
    bench.join("H.core", trade.HOT).join("H.braid", trade.GND).join("H.core", trade.GND)
    assert row_of(bench.circuit()).combination.silent == "shorted"


def test_one_coil_of_a_humbucker_reversed_hums_and_keeps_its_reading() -> None:
    """Mistake 30: thin, weak, and hums; the meter sees nothing."""
    bench = trade.humbucker(trade.wiring()).join("H.As", trade.HOT).join("H.Af H.Bs")
    wrong = row_of(bench.join("H.Bf", trade.GND).circuit()).combination
    assert kilo(wrong.resistance) == pytest.approx(8)
    assert wrong.hum == pytest.approx(1, abs=1e-6)
    assert set(wrong.remarks) == {"out-of-phase", "cancelling"}
    assert wrong.silent is None


def test_a_humbucker_without_connection_between_its_coils_is_open() -> None:
    bench = trade.humbucker(trade.wiring()).join("H.As", trade.HOT).join("H.Bs", trade.GND)
    assert row_of(bench.circuit()).combination.silent == "open"


def test_a_dummy_coil_cancels_hum_and_sounds_nothing() -> None:
    """A dummy coil hears no string: alone it is faint, with a pickup it cancels hum."""
    bench = trade.wiring().part("N", "coil-2wire").part("D", "dummy-coil", winding="ccw")
    bench.join("N.finish", trade.HOT).join("N.start D.finish").join("D.start", trade.GND)
    both = row_of(bench.circuit()).combination
    assert both.weights[1] == 0
    assert both.hum is not None
    assert both.hum < 0.1
    assert "hum-cancelling" in both.remarks
    assert "out-of-phase" not in both.remarks
    alone = Wiring().part("J", "jack-ts").part("D", "dummy-coil")
    alone.join("D.finish", trade.HOT).join("D.start", trade.GND)
    assert row_of(alone.circuit()).combination.silent == "faint"


def test_a_kill_button_to_ground_shorts_and_one_in_line_opens() -> None:
    """Normally open across the line is quiet; normally closed in the line leaves it open."""
    bench = trade.wiring().part("N", "coil-2wire").part("S", "momentary")
    bench.join("N.finish S.A0", trade.HOT).join("N.start S.A1", trade.GND)
    states = [row_of(bench.circuit(), {"S": name}).combination for name in ("rest", "pressed")]
    assert [state.silent for state in states] == [None, "shorted"]
    bench = trade.wiring().part("N", "coil-2wire").part("S", "momentary", normally="closed")
    bench.join("N.finish S.A0").join("S.A1", trade.HOT).join("N.start", trade.GND)
    states = [row_of(bench.circuit(), {"S": name}).combination for name in ("rest", "pressed")]
    assert [state.silent for state in states] == [None, "open"]


def test_three_volumes_in_parallel_load_by_a_third() -> None:
    """Two independent volumes before a master: all three tracks of 500 kΩ load, 167 kΩ."""
    bench = trade.wiring()
    for name in ("VN", "VB", "V"):
        bench.part(name, "pot", resistance="500k").join(f"{name}.1", trade.GND)
    circuit = bench.join("VN.3 VB.3 V.3").join("V.2", trade.HOT).circuit()
    assert kilo(resistance_at(circuit)) == pytest.approx(166.7, abs=0.05)


def test_two_pickups_on_a_three_way_lever() -> None:
    """Commons as inputs: bridge, both, neck."""
    bench = trade.wiring().part("S", "lever-2p3t")
    bench.part("B", "coil-2wire", resistance="8k").part("N", "coil-2wire", resistance="7k")
    bench.join("B.finish S.A0").join("N.finish S.B0").join("B.start N.start", trade.GND)
    circuit = bench.join("S.A1 S.A2 S.B2 S.B3", trade.HOT).circuit()
    rows = [row_of(circuit, {"S": position}).combination for position in "123"]
    assert [row.sound.formula for row in rows if row.sound] == ["B", "B ∥ N", "N"]
    assert [kilo(row.resistance) for row in rows] == pytest.approx([8, 56 / 15, 7])


def test_a_leaf_toggle_whose_outputs_are_not_joined_loses_one_pickup() -> None:
    """Mistake 40: one side and the middle miss the pickup whose leaf leads nowhere."""
    bench = trade.wiring().part("S", "selector-3")
    bench.part("B", "coil-2wire").part("N", "coil-2wire").join("B.start N.start", trade.GND)
    bench.join("N.finish S.A0").join("B.finish S.B0").join("S.A1", trade.HOT)
    rows = [row_of(bench.circuit(), {"S": name}).combination for name in ("up", "middle", "down")]
    assert [row.silent for row in rows] == [None, None, "open"]
    assert [row.sound.formula for row in rows if row.sound] == ["N", "N"]
