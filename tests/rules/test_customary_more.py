"""More customary circuits that must be quiet: the trade's own forms (common practice)."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from tests.rules.loom import Loom, coil, controls, humbucker, one_coil, two_coils
from tests.rules.test_customary import dependent_volumes, independent_volumes, lever_three
from tests.rules.test_silence import off_in_the_middle, opened, standby, switched_off

POT = {"resistance": "500k", "taper": "audio"}
HALVES = {"resistance": "4k", "inductance": "2.2", "capacitance": "110p"}


def two_tones() -> Loom:
    """Two volumes, two tones and a leaf toggle, the cans in a row."""
    loom = dependent_volumes()
    loom.part("T2", "pot", label="Bridge tone", values=POT)
    loom.part("C2", "capacitor", label="Bridge capacitor", values={"capacitance": "22n"})
    loom.wire("V2.3", "T2.2").wire("T2.1", "C2.1").wire("C2.2", "V2.can", colour="BK")
    return loom.wire("T2.can", "V2.can", colour="BK")


def master_volume() -> Loom:
    """Two independent volumes, then a master volume."""
    loom = independent_volumes().cut("S.B1", "J.tip")
    loom.part("M", "pot", label="Master", values=POT)
    loom.wire("S.B1", "M.3").wire("M.2", "J.tip")
    return loom.wire("M.1", "M.can", colour="BK").wire("M.can", "V.can", colour="BK")


def split_to_hot() -> Loom:
    return humbucker().cut("S.A1", "G.7").wire("S.A1", "V.3")


def split_three_ways() -> Loom:
    """Coil A, both, coil B: the link to ground, free, to hot."""
    return humbucker().of_kind("S", "toggle-1p-on-off-on").wire("S.A2", "V.3")


def partial_split() -> Loom:
    loom = humbucker().cut("S.A1", "G.7")
    loom.part("R", "resistor", label="Split resistor", values={"resistance": "2k2"})
    return loom.wire("S.A1", "R.1").wire("R.2", "G.7", colour="BK")


def on_on_on() -> Loom:
    """Series, one coil with the other shorted, parallel (form a)."""
    loom = humbucker().cut("H.Af", "H.Bf").cut("H.Bf", "S.A0").cut("S.A1", "G.7")
    del loom.parts["S"]
    loom.part("Q", "toggle-2p-on-on-on", label="Coils", values={"timing": "break"})
    loom.wire("Q.A0", "H.Bf").wire("Q.A2", "Q.B1").wire("Q.B1", "H.Af")
    return loom.wire("Q.A1", "V.3").wire("Q.B0", "G.6", colour="BK")


def series_or_parallel() -> Loom:
    """Two pickups in series or in parallel on one switch."""
    loom = two_coils()
    for ends in (("N.finish", "S.A0"), ("B.finish", "S.B0"), ("S.A1", "S.B1"), ("S.B1", "V.3")):
        loom.cut(*ends)
    loom.cut("S.frame", "V.can").cut("N.start", "G.7")
    del loom.parts["S"]
    loom.part("Q", "toggle-2p2t", label="Series", values={"timing": "break"}).moved("Q", 0, 300)
    loom.wire("N.finish", "V.3").wire("Q.A0", "N.start").wire("Q.B0", "B.finish")
    return loom.wire("Q.A2", "Q.B2").wire("Q.A1", "G.7", colour="BK").wire("Q.B1", "V.3")


def five_positions() -> Loom:
    """Three coils, the middle one reversed in wind and magnet, two tones of one volume."""
    loom = coil(coil(Loom(), "N", "Neck"), "M", "Middle", winding="ccw", pole="south")
    controls(coil(loom, "B", "Bridge")).part("S", "lever-2p5", label="Pickups")
    loom.part("T2", "pot", label="Neck tone", values={"resistance": "250k", "taper": "audio"})
    loom.part("C2", "capacitor", label="Neck capacitor", values={"capacitance": "47n"})
    loom.cut("V.3", "T.2").wire("B.finish", "S.A1").wire("M.finish", "S.A2")
    loom.wire("N.finish", "S.A3").wire("S.A0", "S.B0").wire("S.A0", "V.3")
    loom.wire("S.B2", "T.2").wire("S.B3", "T2.2").wire("T2.1", "C2.1")
    loom.wire("C2.2", "T2.can", colour="BK").wire("T2.can", "T.can", colour="BK")
    loom.wire("N.start", "G.7").wire("M.start", "G.8")
    return loom.wire("B.start", "V.can")


def four_positions() -> Loom:
    """Bridge, parallel, neck, series; alone the bridge has the neck pickup hung from hot.

    It can't be shorted there: the lever makes before it breaks, and ground is at the next throw.
    """
    loom = coil(coil(Loom(), "N", "Neck"), "B", "Bridge", winding="ccw", pole="south")
    controls(loom).part("S", "lever-2p4t", label="Pickups")
    loom.wire("N.start", "S.A0").wire("S.A2", "S.A3").wire("S.A3", "G.7", colour="BK")
    loom.wire("S.A4", "B.finish").wire("S.A4", "S.B0").wire("S.B1", "S.B2").wire("S.B2", "V.3")
    return loom.wire("N.finish", "V.3").wire("B.start", "G.8", colour="BK")


def rotary_of_capacitors() -> Loom:
    """The first position free, then two capacitors with bleed resistors."""
    loom = one_coil().part("S", "rotary-1p12t", label="Tone", values={"stop": "3"})
    loom.wire("S.A0", "V.2")
    for throw, value in (("2", "4n7"), ("3", "10n")):
        loom.part(f"C{throw}", "capacitor", label=f"Tone {value}", values={"capacitance": value})
        loom.part(f"R{throw}", "resistor", label=f"Bleed {throw}", values={"resistance": "10M"})
        loom.wire(f"S.A{throw}", f"C{throw}.1").wire(f"C{throw}.1", f"R{throw}.1")
        loom.wire(f"R{throw}.2", f"C{throw}.2").wire(f"C{throw}.2", "V.can", colour="BK")
    return loom


def volumes_in_series() -> Loom:
    """The top pickup's 0 end is at the junction and not on ground."""
    loom = coil(coil(Loom(), "N", "Neck"), "B", "Bridge", winding="ccw", pole="south")
    controls(loom).part("V2", "pot", label="Neck volume", values=POT)
    loom.cut("V.2", "J.tip").cut("V.3", "T.2")
    loom.wire("N.finish", "V2.3").wire("V2.2", "J.tip").wire("V2.1", "N.start")
    loom.wire("N.start", "V.2").wire("B.finish", "V.3").wire("B.start", "G.7", colour="BK")
    return loom.wire("T.2", "J.tip").wire("V2.can", "V.can", colour="BK")


def half_out_of_phase() -> Loom:
    loom = two_coils().cut("B.finish", "S.B0").cut("B.start", "G.8")
    loom.part("D", "capacitor", label="Series capacitor", values={"capacitance": "22n"})
    loom.part("P", "toggle-2p2t", label="Bridge phase", values={"timing": "break"})
    loom.wire("B.finish", "P.A0").wire("B.start", "P.B0").wire("P.A2", "P.B1")
    loom.wire("P.A1", "D.1").wire("D.2", "P.A2").wire("P.A2", "S.B0")
    loom.cut("P.A2", "P.B1").wire("P.B1", "D.1")
    return loom.cut("P.A1", "D.1").wire("P.A1", "P.B2").wire("P.B2", "G.8", colour="BK")


def screened_by_foil() -> Loom:
    loom = one_coil().part("F", "foil", label="Foil")
    return loom.wire("F.1", "G.8", colour="BK").wire("V.can", "T.can", colour="BK")


def dummy_in_series() -> Loom:
    loom = one_coil().cut("N.start", "G.7")
    loom.part("D", "dummy-coil", label="Hum coil", values={**HALVES, "winding": "ccw"})
    return loom.wire("N.start", "D.finish").wire("D.start", "G.7", colour="BK")


def linear_with_law_resistor() -> Loom:
    loom = one_coil().values("V", resistance="1M", taper="linear")
    loom.part("R", "resistor", label="Law", values={"resistance": "330k"})
    return loom.wire("V.2", "R.1").wire("R.2", "G.8", colour="BK")


CUSTOMARY = [
    two_tones, master_volume, split_to_hot, split_three_ways, partial_split, on_on_on,
    series_or_parallel, five_positions, four_positions, rotary_of_capacitors, volumes_in_series,
    half_out_of_phase, screened_by_foil, dummy_in_series, linear_with_law_resistor, standby,
    switched_off, off_in_the_middle, lambda: opened("mute"), lever_three,
]  # fmt: skip


@pytest.mark.parametrize("build", CUSTOMARY, ids=lambda build: build.__name__)
def test_a_customary_form_is_quiet(build: Callable[[], Loom]) -> None:
    assert build().grave() == []
