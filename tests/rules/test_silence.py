"""Silence that is meant is no mistake, and silence that is not is one (common practice)."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from tests.rules.loom import Loom, coil, controls, one_coil, two_coils
from tests.rules.test_customary import lever_three, momentary_kill
from wirer.rules.inspection import Inspection
from wirer.rules.settings import in_words, summed_up
from wirer.rules.silence import deliberate_silence


def switched_off(kind: str = "toggle-1p2t", coils: int = 2) -> Loom:
    """Coils in parallel, the hot lead of each broken by a switch of its own."""
    loom = Loom()
    for n in range(coils):
        coil(loom, f"N{n}", f"Coil {n}")
    controls(loom)
    for n in range(coils):
        loom.part(f"S{n}", kind, label=f"On {n}").wire(f"N{n}.start", f"G.{7 + n % 2}")
        loom.wire(f"N{n}.finish", f"S{n}.A2").wire(f"S{n}.A0", "V.3")
    return loom


def off_in_the_middle() -> Loom:
    loom = switched_off("toggle-1p-on-off-on")
    return loom.wire("S0.A1", "S0.A2").wire("S1.A1", "S1.A2")


def standby(**labels: str) -> Loom:
    """A latching switch with the tip on its common, which grounds it when thrown down."""
    loom = one_coil().cut("V.2", "J.tip").part("K", "toggle-1p2t", label="Standby")
    return loom.wire("K.A0", "J.tip").wire("K.A2", "V.2").wire("K.A1", "G.8")


def opened(label: str) -> Loom:
    """A switch in series with the output; `label` is what its open position is called."""
    loom = two_coils().cut("V.2", "J.tip")
    loom.part("K", "toggle-1p2t", label="Line", position_labels={"down": label})
    return loom.wire("K.A0", "J.tip").wire("K.A2", "V.2")


def meant(loom: Loom) -> str:
    """In which settings silence is meant, as people read it; empty if in none."""
    inspection = Inspection(loom.circuit())
    rows = deliberate_silence(inspection)
    if not rows.any():
        return ""
    return in_words(inspection.circuit, summed_up(rows, inspection.table.positions))


MEANT = [
    (switched_off, "whenever On 0 is down and On 1 is down"),
    (off_in_the_middle, "whenever On 0 is middle and On 1 is middle"),
    (momentary_kill, "whenever Kill is pressed"),
    (standby, "whenever Standby is down"),
    (lambda: opened("mute"), "whenever Line is mute"),
    (lambda: opened("open").wanted("silent", K="down"), "whenever Line is open"),
    (lambda: opened("open").wanted("Silence", K="down"), "whenever Line is open"),
    (lambda: opened("open"), ""),
    (lambda: lever_three().cut("S.A1", "S.A2"), ""),
    (lambda: one_coil().cut("V.2", "J.tip"), ""),
]


@pytest.mark.parametrize(("build", "words"), MEANT)
def test_it_is_meant_where_an_actuator_says_so(build: Callable[[], Loom], words: str) -> None:
    assert meant(build()) == words


@pytest.mark.parametrize("build", [build for build, words in MEANT if words])
def test_meant_silence_is_a_note_at_most(build: Callable[[], Loom]) -> None:
    silent = {"output-shorted", "silent-setting", "hanging-coil"}
    assert [rule for rule in build().grave() if rule in silent] == []
    assert silent & {f.rule for f in _all(build())}


def _all(loom: Loom) -> list:
    return [f for rule in ("output-shorted", "silent-setting") for f in loom.findings(rule)]


def test_a_switch_that_does_something_else_too_is_no_kill_switch() -> None:
    loom = two_coils().part("K", "toggle-2p2t", label="Both").wire("K.A0", "J.tip")
    loom.wire("K.A1", "G.8").wire("K.B0", "T.2").wire("K.B2", "T.3")
    assert meant(loom) == ""
    assert "output-shorted" in loom.grave()


def test_an_open_line_is_told_to_hiss() -> None:
    [finding] = opened("mute").findings("silent-setting")
    assert finding.severity == "note"
    assert "hiss" in finding.message
