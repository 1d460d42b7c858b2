"""Every rule speaks where it should, at the right place, and keeps silent on the right circuit.

The mistakes are facts of the trade ("common practice"); what each sounds like stands in the rule.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import pytest
from msgspec.structs import replace

from tests.rules.loom import Loom, coil, controls, humbucker, one_coil, two_coils
from tests.rules.test_customary import (
    battery_on_the_ring,
    bleed_and_bass_cut,
    blend,
    dependent_volumes,
    independent_volumes,
    lever_three,
    no_load_tone,
    phase_switch,
    pots_on_a_plate,
    series_parallel_humbucker,
    string_network,
    tone_at_the_output,
)
from wirer.rules.registry import all_rules
from wirer.rules.settings import in_words

Build = Callable[[], Loom]


@dataclass(frozen=True)
class Case:
    """A slip: what it is, the rule that must name it, how gravely, where, and when it holds."""

    rule: str
    build: Build
    severity: str
    place: str
    when: str = "in every setting"
    quiet: Build = two_coils


def tone(ends: tuple[str, str] = ("T.2", "T.1")) -> Loom:
    loom = one_coil().cut("V.3", "T.2").cut("T.1", "C.1")
    return loom.wire("V.3", ends[0]).wire(ends[1], "C.1")


def braided_behind_phase() -> Loom:
    loom = phase_switch()
    values = {"resistance": "6k5", "inductance": "2.5", "capacitance": "110p"}
    for wire in [n for n, w in loom.wires.items() if "N.start" in w.ends or "N.finish" in w.ends]:
        del loom.wires[wire]
    loom.parts.pop("N")
    loom.part("N", "coil-screened", label="Neck", values=values)
    return loom.wire("N.core", "P.A0").wire("N.braid", "P.B0")


def series_pair() -> Loom:
    loom = coil(coil(Loom(), "N", "Neck"), "B", "Bridge", winding="ccw", pole="south")
    controls(loom.part("S", "toggle-1p2t", label="Short"))
    loom.chain("V.3", "N.finish").wire("N.start", "B.finish")
    return loom.wire("B.start", "G.7", colour="BK")


def shorting_both() -> Loom:
    loom = series_pair().part("Q", "toggle-1p2t", label="Other")
    loom.wire("S.A0", "B.finish").wire("S.A1", "Q.A0")
    return loom.wire("Q.A1", "G.8", colour="BK")


def three_way(kind: str = "lever-2p3t") -> Loom:
    return lever_three().of_kind("S", kind)


def screened(**screens: str) -> Loom:
    loom = one_coil().cut("V.2", "J.tip")
    return loom.wire("V.2", "J.tip", "s1", style="screened", **screens)


def only_by_screen() -> Loom:
    loom = screened(screen_from="V.can", screen_to="J.sleeve")
    return loom.cut("J.sleeve", "G.5")


def rotary_tone() -> Loom:
    loom = one_coil().cut("V.3", "T.2").cut("T.1", "C.1")
    del loom.parts["T"]
    del loom.wires[next(n for n, w in loom.wires.items() if "T.can" in w.ends)]
    loom.part("S", "rotary-1p12t", label="Tone switch", values={"stop": "3"})
    return loom.wire("V.3", "S.A0").wire("S.A2", "C.1")


def overlapping() -> Loom:
    return series_parallel_humbucker().values("Q", timing="make")


def phase_for_both() -> Loom:
    loom = phase_switch().part("Q", "toggle-2p2t", label="Other phase")
    loom.cut("B.finish", "S.B0").cut("B.start", "G.8")
    loom.wire("B.finish", "Q.A0").wire("B.start", "Q.B0").wire("Q.A1", "Q.B2")
    return loom.wire("Q.A2", "Q.B1").wire("Q.B2", "S.B0").wire("Q.B1", "G.8")


def split_behind_phase() -> Loom:
    """Mistake 27: the link goes to true ground, which the phase switch has at either end."""
    loom = humbucker().part("P", "toggle-2p2t", label="Phase")
    loom.cut("H.As", "V.3").cut("H.Bs", "G.7")
    loom.wire("H.As", "P.A0").wire("H.Bs", "P.B0").wire("P.A2", "P.B1").wire("P.A1", "P.B2")
    return loom.wire("P.A2", "V.3").wire("P.A1", "G.7")


def measured(resistance: str) -> Loom:
    loom = one_coil()
    loom.parts["N"] = replace(loom.parts["N"], measured={"resistance": resistance})
    return loom.values("N", tolerance="5%")


def named_positions(*names: str) -> Loom:
    labels = dict(zip(("1", "2", "3"), names, strict=True))
    loom = lever_three()
    loom.parts["S"] = replace(loom.parts["S"], position_labels=labels)
    return loom


def blend_by_its_wipers() -> Loom:
    loom = blend().cut("N.finish", "X.2a").cut("B.finish", "X.2b").cut("X.3b", "V.3")
    loom.cut("X.3a", "X.3b").wire("N.finish", "X.3a").wire("B.finish", "X.3b")
    return loom.wire("X.2a", "X.2b").wire("X.2b", "V.3")


def both_ends_grounded() -> Loom:
    loom = one_coil().cut("V.3", "T.2").cut("T.1", "C.1").cut("C.2", "G.1")
    loom.wire("V.3", "C.1").wire("C.2", "T.2").wire("T.1", "G.1")
    return loom.wire("T.3", "G.8")


def labelled(**labels: str) -> Loom:
    return two_coils().positions("S", **labels)


def without_jack() -> Loom:
    loom = one_coil()
    del loom.parts["J"]
    for name in [n for n, w in loom.wires.items() if {"J.tip", "J.sleeve"} & set(w.ends)]:
        del loom.wires[name]
    return loom


def battery() -> Loom:
    return battery_on_the_ring()


CASES = [
    Case("no-signal", lambda: one_coil().cut("V.2", "J.tip"), "error", "J.tip"),
    Case("unwired-part", lambda: two_coils().part("R", "resistor"), "warning", "R"),
    Case(
        "unwired-lug",
        lambda: two_coils().part("R", "resistor", values={"resistance": "470k"}).wire("V.3", "R.1"),
        "warning", "R.2",
    ),
    Case("control-idle", lambda: one_coil().cut("C.2", "G.1"), "warning", "C.2"),
    Case(
        "stray-wire",
        lambda: humbucker().part("P", "toggle-2p2t", label="P").wire("H.As", "P.A1", "x"),
        "warning", "x",
    ),
    Case("doubled-wire", lambda: two_coils().wire("N.finish", "S.A0", "x"), "note", "x"),
    Case("output-shorted", lambda: two_coils().wire("J.tip", "G.1", "x"), "error", "x"),
    Case(
        "shorted-coil", shorting_both, "warning", "B.start",
        "whenever Short is down and Other is down",
        series_pair,
    ),
    Case("shorted-part", lambda: one_coil().wire("C.1", "C.2"), "error", "C"),
    Case("battery-shorted", lambda: battery().wire("X.plus", "X.minus"), "error", "X.plus",
         quiet=battery),
    Case("self-wired", lambda: two_coils().wire("V.3", "V.3", "x"), "error", "x"),
    Case("ungrounded-metal", lambda: two_coils().cut("T.can", "G.4"), "warning", "T.can"),
    Case("ungrounded-metal", lambda: two_coils().cut("E.1", "G.6"), "error", "E.1"),
    Case("ungrounded-metal", string_network, "note", "E.1"),
    Case(
        "switched-ground",
        lambda: humbucker().cut("T.can", "G.4").wire("T.can", "S.A0").cut("H.Bf", "S.A0"),
        "warning", "T.can", "whenever Split is up",
    ),
    Case(
        "ground-island",
        lambda: two_coils().cut("T.can", "G.4").cut("V.can", "G.3").wire("T.can", "V.can"),
        "error", "T.can",
    ),
    Case("ground-loop", lambda: two_coils().wire("V.can", "T.can", "x"), "note", "V.can"),
    Case(
        "hot-metal", braided_behind_phase, "error", "N.braid",
        "whenever Phase is up and Selector is up or middle",
        phase_switch,
    ),
    Case("screen-open", screened, "warning", "s1",
         quiet=lambda: screened(screen_from="V.can")),
    Case("screen-carries", only_by_screen, "note", "s1",
         quiet=lambda: screened(screen_from="V.can")),
    Case(
        "tip-sleeve-swapped",
        lambda: two_coils().cut("V.2", "J.tip").cut("J.sleeve", "G.5")
        .wire("V.2", "J.sleeve").wire("J.tip", "G.5"),
        "error", "J.tip",
    ),
    Case(
        "reversed-coil",
        lambda: two_coils().cut("B.finish", "S.B0").cut("B.start", "G.8")
        .wire("B.start", "S.B0").wire("B.finish", "G.8"),
        "warning", "B",
    ),
    Case("out-of-phase", phase_switch, "note", "N",
         "whenever Selector is middle and Phase is up"),
    Case("hum-missed", lambda: two_coils().values("B", winding="cw", pole="north"), "note", "B",
         "whenever Selector is middle"),
    Case(
        "hanging-coil",
        lambda: two_coils().cut("N.start", "G.7").part("K", "toggle-1p2t", label="Off")
        .wire("N.start", "K.A0").wire("K.A1", "G.7"),
        "warning", "N", "whenever Selector is middle and Off is up",
    ),
    Case("lost-coil", lambda: two_coils().cut("B.finish", "S.B0"), "error", "B.finish"),
    Case(
        "silent-setting",
        lambda: lever_three().cut("S.A1", "S.A2"),
        "warning", "S", "whenever Pickups is 1",
    ),
    Case("same-sound", lambda: lever_three().wire("S.B1", "S.B2"),
         "warning", "S"),
    Case("idle-actuator", lambda: humbucker().cut("S.A1", "G.7"), "warning", "S", quiet=humbucker),
    Case("idle-pole", lambda: lever_three().cut("N.finish", "S.B0").wire("N.finish", "S.A0"),
         "warning", "S.B0"),
    Case("volume-across", lambda: two_coils().cut("V.2", "J.tip").cut("S.B1", "V.3")
         .wire("S.B1", "V.2", "x").wire("V.2", "J.tip"), "warning", "x",
         quiet=independent_volumes),
    Case("idle-pole", lambda: humbucker().cut("S.A1", "G.7"), "note", "S.A0", quiet=humbucker),
    Case("gap", phase_switch, "note", "P"),
    Case("overlap-short", overlapping, "warning", "Q", quiet=series_parallel_humbucker),
    Case("pop", rotary_tone, "note", "C", "whenever Tone switch is 1 or 3"),
    Case("wanted-differs", lambda: two_coils().wanted("N + B", S="middle"), "error", "S",
         "whenever Selector is middle",
         lambda: two_coils().wanted("Neck || Bridge", S="middle")),
    Case(
        "wanted-unreachable",
        lambda: two_coils().wanted("N", S="up").wanted("B", S="up"), "note", "S",
        "whenever Selector is up",
        lambda: two_coils().wanted("N", S="up").wanted("B", S="down"),
    ),
    Case("control-idle", lambda: tone(("T.2", "T.2")).wire("T.2", "T.1"), "warning", "T"),
    Case(
        "volume-backwards",
        lambda: two_coils().cut("V.1", "G.2").cut("S.B1", "V.3").cut("V.3", "T.2")
        .wire("V.3", "G.2").wire("S.B1", "V.1").wire("V.1", "T.2"),
        "warning", "V.3",
    ),
    Case("volume-incomplete", lambda: two_coils().cut("V.1", "G.2"), "warning", "V.1"),
    Case("volumes-entangled", dependent_volumes, "note", "V"),
    Case("taper-unsuited",
         lambda: two_coils().values("V", taper="reverse-audio", share="0.1"), "note", "V"),
    Case(
        "tone-without-capacitor",
        lambda: one_coil().cut("T.1", "C.1").cut("C.2", "G.1").wire("T.1", "G.1"),
        "warning", "T",
    ),
    Case(
        "capacitor-across",
        lambda: one_coil().part("D", "capacitor", values={"capacitance": "10n"})
        .wire("D.1", "V.3").wire("D.2", "G.8"),
        "warning", "D",
    ),
    Case("blend-incomplete", lambda: blend().cut("X.1a", "X.1b"), "warning", "X", quiet=blend),
    Case("control-uneven", lambda: one_coil().wire("T.3", "T.1"), "warning", "T"),
    Case("open-end-in-the-way", lambda: one_coil().of_kind("V", "pot-open-end"), "warning", "V"),
    Case("label-misleads", lambda: labelled(up="bridge", down="neck"), "warning", "S",
         "whenever Selector is bridge or neck",
         quiet=lambda: labelled(up="neck", down="bridge")),
    Case("tone-backwards", lambda: tone(("T.2", "T.3")), "warning", "T.3"),
    Case("value-unusual", lambda: two_coils().values("C", capacitance="22u"), "note", "C"),
    Case("value-assumed", lambda: two_coils().part("R", "resistor"), "note", "R"),
    Case("jack-missing", without_jack, "error", ""),
    Case("jack-doubled", lambda: two_coils().part("J2", "jack-ts"), "warning", "J2"),
    Case("battery-always-on",
         lambda: battery().cut("X.minus", "J.ring").wire("X.minus", "J.sleeve"), "warning",
         "X.minus", quiet=battery),
    Case(
        "battery-reversed",
        lambda: battery().cut("X.minus", "J.ring").cut("X.plus", "Y.1")
        .wire("X.plus", "J.ring").wire("X.minus", "Y.1").cut("Y.2", "G.8"),
        "error", "X.plus", quiet=battery,
    ),
    Case(
        "crowded-lug",
        lambda: two_coils().wire("V.3", "S.A1").wire("V.3", "T.2").wire("V.3", "S.B1"),
        "warning", "V.3",
    ),
    Case("bodies-collide", lambda: two_coils().moved("T", 365.0, 5.0).moved("V", 360.0, 0.0),
         "warning", "T"),
    Case(
        "long-bare-run",
        lambda: two_coils().cut("V.3", "T.2").wire("V.3", "T.2", "x", style="bare")
        .moved("V", 0.0, 600.0).moved("T", 107.0, 600.0),
        "warning", "x",
    ),
    Case("colour-misleads", lambda: two_coils().cut("V.2", "J.tip")
         .wire("V.2", "J.tip", "x", colour="BK"), "note", "x"),
    Case("duplicate-label", lambda: two_coils().relabelled("B", "Neck"), "note", "B"),
    Case("label-misleads", lambda: named_positions("neck", "both", "bridge"), "warning", "S.A1",
         "whenever Pickups is neck or bridge",
         lambda: named_positions("bridge", "both", "neck")),
    Case("tone-without-capacitor",
         lambda: one_coil().cut("T.1", "C.1").cut("C.2", "G.1").wire("T.1", "G.8"),
         "warning", "T.1", quiet=tone_at_the_output),
    Case("capacitor-across",
         lambda: one_coil().cut("T.1", "C.1").cut("V.3", "T.2").wire("V.3", "C.1"),
         "warning", "C.1", quiet=bleed_and_bass_cut),
    Case("blend-incomplete", lambda: blend().cut("X.1a", "X.1b"), "warning", "X.1a", quiet=blend),
    Case("blend-incomplete", blend_by_its_wipers, "warning", "X.2a", quiet=blend),
    Case("open-end-in-the-way", lambda: one_coil().of_kind("V", "pot-open-end"), "warning", "V.3",
         quiet=no_load_tone),
    Case("control-uneven", both_ends_grounded, "warning", "T.3", quiet=no_load_tone),
    Case("ground-by-bolt", pots_on_a_plate, "note", "T.can"),
    Case("spare-actuator", phase_for_both, "note", "P", quiet=phase_switch),
    Case("split-wanders", split_behind_phase, "note", "H", quiet=humbucker),
    Case("measured-off", lambda: measured("5k8"), "note", "N", quiet=lambda: measured("6k3")),
    Case("idle-waiver", lambda: two_coils().waived("hot-metal", "N"), "note", "N"),
]  # fmt: skip


def _name(case: Case) -> str:
    return f"{case.rule}-{case.severity}"


@pytest.mark.parametrize("case", CASES, ids=_name)
def test_the_rule_speaks_of_the_slip(case: Case) -> None:
    loom = case.build()
    found = [f for f in loom.findings(case.rule) if not case.place or case.place in f.places]
    spoken = [f for f in found if f.severity == case.severity]
    assert [in_words(loom.circuit(), f.settings) for f in spoken] == [case.when]


@pytest.mark.parametrize("case", CASES, ids=_name)
def test_the_rule_keeps_silent_on_the_right_circuit(case: Case) -> None:
    assert case.quiet().findings(case.rule) == []


def test_every_rule_has_its_case() -> None:
    assert {case.rule for case in CASES} == set(all_rules())
