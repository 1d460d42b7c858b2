"""Customary circuits are quiet: no error and no warning (common practice throughout)."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from tests.examples.sheets import CORRECT, circuit
from tests.rules.loom import Loom, coil, controls, humbucker, one_coil, two_coils
from wirer.rules.check import findings_of


@pytest.mark.parametrize("name", CORRECT)
def test_a_right_job_sheet_is_quiet(name: str) -> None:
    assert [f.rule for f in findings_of(circuit(name)) if f.severity != "note"] == []


def dependent_volumes() -> Loom:
    loom = two_coils().cut("N.finish", "S.A0").cut("S.B1", "V.3").cut("V.2", "J.tip")
    loom.part("V2", "pot", label="Bridge volume", values={"resistance": "500k", "taper": "audio"})
    loom.cut("B.finish", "S.B0").wire("N.finish", "V.3").wire("V.2", "S.A0")
    loom.wire("B.finish", "V2.3").wire("V2.2", "S.B0").wire("S.B1", "J.tip")
    return loom.wire("V2.1", "V2.can", colour="BK").wire("V2.can", "V.can", colour="BK")


def independent_volumes() -> Loom:
    loom = dependent_volumes()
    for old, new in ((("N.finish", "V.3"), "V.2"), (("B.finish", "V2.3"), "V2.2")):
        loom.cut(*old).wire(old[0], new)
    loom.cut("V.2", "S.A0").wire("V.3", "S.A0")
    return loom.cut("V2.2", "S.B0").wire("V2.3", "S.B0")


def tone_at_the_output() -> Loom:
    return one_coil().cut("V.3", "T.2").wire("V.2", "T.2")


def momentary_kill() -> Loom:
    loom = one_coil().part("K", "momentary", label="Kill")
    return loom.wire("K.A0", "J.tip").wire("K.A1", "G.8", colour="BK")


def phase_switch() -> Loom:
    loom = two_coils().part("P", "toggle-2p2t", label="Phase")
    loom.cut("N.finish", "S.A0").cut("N.start", "G.7")
    loom.wire("N.finish", "P.A0").wire("N.start", "P.B0").wire("P.A1", "P.B2")
    loom.wire("P.A2", "P.B1").wire("P.B2", "S.A0")
    return loom.wire("P.B1", "G.7", colour="BK")


def series_parallel_humbucker() -> Loom:
    loom = humbucker().part("Q", "toggle-2p2t", label="Series/parallel")
    loom.cut("H.Af", "H.Bf").cut("H.Bf", "S.A0").cut("S.A1", "G.7")
    del loom.parts["S"]
    loom.wire("Q.A0", "H.Af").wire("Q.B0", "H.Bf").wire("Q.A2", "Q.B2")
    return loom.wire("Q.A1", "H.Bs").wire("Q.B1", "H.As")


def bleed_and_bass_cut() -> Loom:
    loom = one_coil().cut("N.finish", "V.3")
    loom.part("R", "resistor", label="Bleed resistor", values={"resistance": "150k"})
    loom.part("D", "capacitor", label="Bleed capacitor", values={"capacitance": "1n"})
    loom.part("K", "capacitor", label="Bass capacitor", values={"capacitance": "2n2"})
    loom.part("W", "pot", label="Bass", values={"resistance": "1M", "taper": "reverse-audio"})
    loom.wire("V.3", "R.1").wire("R.2", "V.2").wire("R.1", "D.1").wire("R.2", "D.2")
    loom.wire("N.finish", "K.1").wire("K.2", "V.3").wire("W.3", "K.1").wire("W.2", "K.2")
    return loom.wire("W.can", "G.8", colour="BK")


def no_load_tone() -> Loom:
    return one_coil().of_kind("T", "pot-open-end")


def tapped() -> Loom:
    values = {"resistance": "7k", "inductance": "3", "capacitance": "120p", "tap": "0.6"}
    loom = controls(Loom().part("N", "coil-tapped", label="Neck", values=values))
    loom.part("S", "toggle-1p2t", label="Tap")
    loom.wire("N.finish", "S.A1").wire("N.tap", "S.A2").wire("S.A0", "V.3")
    return loom.wire("N.start", "G.7", colour="BK")


def string_network() -> Loom:
    loom = one_coil().cut("E.1", "G.6")
    loom.part("R", "resistor", label="String resistor", values={"resistance": "220k"})
    loom.part("D", "capacitor", label="String capacitor", values={"capacitance": "1n"})
    loom.wire("E.1", "R.1").wire("E.1", "D.1").wire("R.2", "G.6", colour="BK")
    return loom.wire("D.2", "R.2", colour="BK")


def battery_on_the_ring() -> Loom:
    loom = one_coil().of_kind("J", "jack-trs").part("X", "battery", label="Battery")
    loom.part("Y", "resistor", label="Preamplifier", values={"resistance": "10k"})
    loom.wire("X.minus", "J.ring", colour="BK").wire("X.plus", "Y.1")
    return loom.wire("Y.2", "G.8", colour="BK")


def pots_on_a_plate() -> Loom:
    loom = one_coil().part("P", "plate", label="Plate")
    loom.wire("V.can", "P.1", style="mount").wire("T.can", "P.1", style="mount")
    return loom.cut("T.can", "G.4")


def lever_three() -> Loom:
    loom = coil(coil(Loom(), "N", "Neck"), "B", "Bridge", winding="ccw", pole="south")
    controls(loom.part("S", "lever-2p3t", label="Pickups"))
    loom.wire("B.finish", "S.A0").wire("N.finish", "S.B0").chain("S.A1", "S.A2", "S.B2")
    loom.wire("S.B2", "S.B3").wire("S.A2", "V.3")
    return loom.wire("N.start", "G.7", colour="BK").wire("B.start", "G.8", colour="BK")


def blend() -> Loom:
    loom = coil(coil(Loom(), "N", "Neck"), "B", "Bridge", winding="ccw", pole="south")
    controls(loom.part("X", "pot-blend", label="Blend", values={"resistance": "500k"}))
    loom.wire("N.finish", "X.2a").wire("B.finish", "X.2b").wire("X.1a", "X.1b")
    loom.wire("X.3a", "X.3b").wire("X.3b", "V.3").wire("X.1b", "G.8", colour="BK")
    loom.wire("X.can", "V.can", colour="BK").wire("N.start", "G.7", colour="BK")
    return loom.wire("B.start", "G.7", colour="BK")


CUSTOMARY = [
    one_coil, two_coils, humbucker, dependent_volumes, independent_volumes, tone_at_the_output,
    momentary_kill, phase_switch, series_parallel_humbucker, bleed_and_bass_cut, no_load_tone,
    tapped, string_network, battery_on_the_ring, pots_on_a_plate, lever_three, blend,
]  # fmt: skip


@pytest.mark.parametrize("build", CUSTOMARY, ids=lambda build: build.__name__)
def test_a_customary_circuit_is_quiet(build: Callable[[], Loom]) -> None:
    assert build().grave() == []
