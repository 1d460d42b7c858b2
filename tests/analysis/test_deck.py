"""The SPICE deck as a person reads it, and as ngspice takes it."""

import re
import subprocess

import numpy as np
import pytest

from tests.support import trade
from tests.support.wiring import Wiring, row_of, stance_of
from wirer.analysis.deck import spice_deck
from wirer.circuit.model import Circuit
from wirer.circuit.stance import default_stance


def deck_of(circuit: Circuit, **positions: str) -> list[str]:
    return spice_deck(circuit, stance_of(circuit, positions)).splitlines()


def cards(lines: list[str]) -> dict[str, list[str]]:
    """The cards by name: nets and value."""
    rows = [line.partition(" ;")[0].split() for line in lines[1:] if line[0] not in "*."]
    assert len({name.lower() for name, *_ in rows}) == len(rows)
    return {name: rest for name, *rest in rows}


def test_a_pickup_and_its_volume() -> None:
    bench = Wiring().part("J", "jack-ts").part("V", "pot", resistance="250k")
    bench.part("N", "coil-2wire", resistance="6k8", inductance="2.6", capacitance="110p")
    bench.join("N.finish V.3").join("V.2 J.tip").join("N.start V.1 J.sleeve")
    circuit = bench.circuit(title="Job 14")
    lines = spice_deck(circuit, stance_of(circuit, None, {"V": 0.4})).splitlines()
    assert lines[0] == "wirer netlist: Job 14"
    assert lines[-1] == ".end"
    assert "* shaft V.shaft: 0.4" in lines
    assert "* net hot: J.tip V.2" in lines
    assert cards(lines) == {
        "V_N": ["N_emf", "0", "DC", "0", "AC", "1"],
        "R_N": ["N_emf", "N_r", "6800"],
        "L_N": ["N_r", "V_3", "2.6"],
        "C_N": ["0", "V_3", "1.1e-10"],
        "R_V_1_2": ["0", "hot", "100000"],
        "R_V_2_3": ["hot", "V_3", "150000"],
        "R_input": ["hot", "0", "1e+15"],
    }


def test_a_reversed_coil_is_driven_in_the_polarity_that_adds() -> None:
    up, down = (cards(deck_of(trade.phase_switch(), S=name)) for name in ("up", "down"))
    assert up["V_N"] == ["N_emf", "hot", "DC", "0", "AC", "1", "180"]
    assert down["V_N"] == ["N_emf", "0", "DC", "0", "AC", "1"]


def test_where_nothing_is_heard_every_coil_has_its_level() -> None:
    lines = deck_of(trade.phase_switch("toggle-2p-on-off-on"), S="middle")
    assert cards(lines)["V_N"][4:] == ["AC", "1"]
    assert any(line.startswith("R_tie1 N_") and line.endswith(" 0 1e+12") for line in lines)


def test_a_dummy_coil_has_no_signal() -> None:
    bench = Wiring().part("J", "jack-ts").part("N", "coil-2wire").part("D", "dummy-coil")
    bench.join("N.finish J.tip").join("N.start D.finish").join("D.start J.sleeve")
    (line,) = (line for line in deck_of(bench.circuit()) if line.startswith("V_D "))
    assert line.endswith("AC 0 ; hears hum only")


def test_a_battery_is_a_comment() -> None:
    bench = Wiring().part("J", "jack-ts").part("B", "battery").part("N", "coil-2wire")
    bench.join("N.finish J.tip").join("N.start B.plus").join("B.minus J.sleeve")
    lines = deck_of(bench.circuit())
    assert "* a battery is a short for signals: its two lugs are one net" in lines
    assert cards(lines)["V_N"][1] == "0"


def test_a_shorted_output_still_has_a_hot() -> None:
    bench = Wiring().part("J", "jack-ts").part("short", "coil-2wire").join("J.tip J.sleeve")
    assert sorted(cards(deck_of(bench.circuit()))) == [
        "C_short", "L_short", "R_input", "R_short", "R_tie1", "V_short", "V_short__2",
    ]  # fmt: skip


def test_names_differ_even_where_case_does_not_count() -> None:
    bench = Wiring().part("J", "jack-ts")
    for name in ("N", "n", "N_emf", "N_r", "R_N", "hot", "gnd"):
        bench.part(name, "coil-2wire").join(f"{name}.finish J.tip").join(f"{name}.start J.sleeve")
    for name in ("N_1_2", "n_1"):
        bench.part(name, "resistor", resistance="1M").join(f"{name}.1 J.tip")
    lines = deck_of(bench.circuit())
    rows = cards(lines)
    assert len(rows) == 7 * 4 + 2 + 1
    inner = [nets[0].lower() for name, nets in rows.items() if name.startswith("V_")]
    assert len(set(inner)) == 7


def test_text_that_is_no_name_cannot_break_out_of_a_comment() -> None:
    bench = Wiring().part("J", "jack-ts")
    circuit = bench.circuit(title="one\n.control\nquit\n* two\r\n")
    lines = deck_of(circuit)
    assert lines[0] == "wirer netlist: one .control quit * two"
    assert [line for line in lines if line.startswith(".")] == [
        ".ac dec 100 20 20k", ".print ac vm(hot) vp(hot)", ".end",
    ]  # fmt: skip


@pytest.mark.parametrize(
    "circuit",
    [trade.five_way(), trade.series_chain(), Wiring().part("N", "coil-tapped").circuit()],
    ids=["lever", "slides", "no jack"],
)
def test_a_deck_runs_as_it_is_and_gives_the_response(circuit: Circuit, ngspice: str) -> None:
    stance = default_stance(circuit)
    ran = subprocess.run(
        [ngspice, "-b"],
        input=spice_deck(circuit, stance),
        capture_output=True,
        text=True,
        check=True,
    )
    assert "rror" not in ran.stdout + ran.stderr
    printed = re.findall(r"^\d+\t(\S+)\t(\S+)\t\S+\t?$", ran.stdout, re.MULTILINE)
    assert len(printed) == 301
    hertz, heights = np.array(printed, np.float64).T
    found = row_of(circuit, stance.positions).combination if circuit.jacks else None
    if found is None or found.voice is None:
        assert np.all(heights == 0)
    else:
        np.testing.assert_allclose(heights, found.voice.response(hertz), rtol=1e-4)
