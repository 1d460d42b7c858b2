"""Findings are waived with a reason, and the waiver is taken away again."""

from __future__ import annotations

from tests.rules.loom import two_coils
from wirer.rules.check import findings_of
from wirer.rules.waivers import with_waiver, without_waiver


def test_a_waived_finding_carries_its_reason_until_the_waiver_is_taken_away() -> None:
    circuit = two_coils().cut("T.can", "G.4").circuit()
    [finding] = [f for f in findings_of(circuit) if f.rule == "ungrounded-metal"]
    assert finding.waived is None
    waived = with_waiver(circuit, finding, "the pot is of plastic")
    [again] = [f for f in findings_of(waived) if f.rule == "ungrounded-metal"]
    assert again.waived == "the pot is of plastic"
    assert without_waiver(waived, again) == circuit


def test_a_waiver_of_one_place_does_not_cover_another() -> None:
    circuit = two_coils().cut("T.can", "G.4").waived("ungrounded-metal", "V.can").circuit()
    found = {f.rule: f.waived for f in findings_of(circuit) if f.severity == "warning"}
    assert found == {"ungrounded-metal": None}


def test_the_fix_for_metal_runs_to_a_ground_point_and_not_to_a_pots_lug() -> None:
    loom = two_coils().cut("E.1", "G.6").moved("V", 10.0, 90.0)
    [finding] = loom.findings("ungrounded-metal")
    assert finding.fix is not None
    [wire] = set(finding.fix.edit(loom.circuit()).wires) - set(loom.circuit().wires)
    assert wire.to_lug in {"V.can", "T.can", "J.sleeve", "S.frame"} | {
        f"G.{n}" for n in range(1, 9)
    }
