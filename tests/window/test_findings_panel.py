"""The findings in the window."""

from collections.abc import Callable
from dataclasses import replace
from functools import partial
from pathlib import Path

import pytest
from PySide6.QtCore import QPointF
from pytestqt.qtbot import QtBot

from tests.window.conftest import EXAMPLES
from wirer.circuit.edits import change_part
from wirer.circuit.frozen import FrozenMap
from wirer.rules.finding import Finding, Fix
from wirer.rules.registry import all_rules
from wirer.window.findings_panel import NONE_FOUND, FindingsPanel
from wirer.window.messages import Answer
from wirer.window.window import Window


@pytest.fixture
def mistakes(opened: Callable[[Path], Window]) -> Window:
    return opened(next(EXAMPLES.glob("09*.wirer")))


def items(panel: FindingsPanel) -> dict[str, list[str]]:
    """The messages under the head of each group."""
    tops = [panel.tree.topLevelItem(n) for n in range(panel.tree.topLevelItemCount())]
    return {top.text(0): [top.child(n).text(0) for n in range(top.childCount())] for top in tops}


def choose(panel: FindingsPanel, finding: Finding) -> None:
    for n in range(panel.tree.topLevelItemCount()):
        group = panel.tree.topLevelItem(n)
        for m in range(group.childCount()):
            if group.child(m).data(0, 0x0100) == finding:
                panel.tree.setCurrentItem(group.child(m))
                return
    raise AssertionError(finding)


def find(window: Window, **changes: object) -> Finding:
    """Have the rules say one thing of the small circuit."""
    finding = Finding("silent-setting", "warning", "It is silent.", ("S",))
    finding = replace(finding, **changes)  # type: ignore[arg-type]
    window.studies.ask("findings")
    worker = window._worker
    token = window.studies.state("findings").token
    worker.answered.emit(Answer(token, "done", (finding,)))
    return finding


def test_they_are_grouped_by_severity_and_counted(mistakes: Window) -> None:
    findings = mistakes.studies.findings
    errors = [f.message for f in findings if f.severity == "error" and not f.waived]
    groups = items(mistakes.findings_panel)
    assert groups[f"✖  Errors ({len(errors)})"] == errors
    assert next(iter(groups)).startswith("✖")
    counted = sum(f.waived is None for f in findings)
    assert mistakes.panels.docks["findings"].windowTitle() == f"Findings ({counted})"


def test_each_is_explained_by_its_rule(mistakes: Window) -> None:
    finding = next(f for f in mistakes.studies.findings if f.severity == "error")
    choose(mistakes.findings_panel, finding)
    text = mistakes.findings_panel.text.text()
    rule = all_rules()[finding.rule]
    for said in (rule.wrong, rule.heard, rule.meter):
        assert said.replace("&", "&amp;").split("<")[0][:30] in text


def test_choosing_one_rings_its_places_and_brings_them_into_view(
    small: Window, qtbot: QtBot
) -> None:
    small.view.zoom_by(8.0)
    small.view.centerOn(QPointF(0, 0))
    finding = find(small, places=("J.tip", "w5"))
    qtbot.waitUntil(lambda: not small.studies.is_working)
    find(small, places=("J.tip", "w5"))
    choose(small.findings_panel, finding)
    glow = small.view.wiring.glow
    assert (glow.places, glow.severity) == (("J.tip", "w5"), "warning")
    assert small.session.selection == ("J.tip", "w5")
    seen = small.view.mapToScene(small.view.viewport().rect()).boundingRect()
    assert seen.contains(QPointF(*small.view.wiring.scenery.layout.lugs["J.tip"]))


def test_choosing_one_throws_the_switches_to_where_it_holds(small: Window) -> None:
    finding = find(small, settings=(FrozenMap({"S": "down"}),))
    choose(small.findings_panel, finding)
    assert small.session.stance.positions["S"] == "down"
    assert "Whenever Kill is off." in small.findings_panel.text.text()


def test_where_it_holds_already_nothing_is_thrown(small: Window, qtbot: QtBot) -> None:
    finding = find(small, settings=(FrozenMap({"S": "down"}), FrozenMap({"S": "up"})))
    with qtbot.assertNotEmitted(small.session.stance_changed):
        choose(small.findings_panel, finding)


def test_a_fix_is_made_as_one_edit_that_can_be_undone(small: Window) -> None:
    fix = Fix("Call it front", partial(change_part, part_id="N", label="Front"))
    choose(small.findings_panel, find(small, fix=fix))
    assert small.findings_panel.fix.isVisibleTo(small.findings_panel)
    small.findings_panel.fix.click()
    assert small.session.circuit.part_by_id["N"].label == "Front"
    assert small.session.undo_name == "Call it front"
    small.session.undo()
    assert small.session.circuit.part_by_id["N"].label == "Neck"


def test_a_fix_that_is_refused_says_why(small: Window) -> None:
    fix = Fix("Call it front", partial(change_part, part_id="nobody", label="Front"))
    choose(small.findings_panel, find(small, fix=fix))
    small.findings_panel.fix.click()
    assert "nobody" in small.bar.line.text()
    assert small.session.is_clean


def test_waived_ones_stand_apart_with_their_reason(small: Window) -> None:
    choose(small.findings_panel, find(small, waived="meant as a standby"))
    assert "○  Waived (1)" in items(small.findings_panel)
    assert "meant as a standby" in small.findings_panel.text.text()
    assert small.panels.docks["findings"].windowTitle() == "Findings"


def test_nothing_found_is_said(small: Window) -> None:
    small.studies.ask("findings")
    token = small.studies.state("findings").token
    small._worker.answered.emit(Answer(token, "done", ()))
    assert list(items(small.findings_panel)) == [NONE_FOUND]


def test_old_findings_are_marked_while_new_ones_are_worked_out(small: Window) -> None:
    small.session.apply("Rename", lambda circuit: change_part(circuit, "N", label="Front"))
    assert small.findings_panel.strip.text.text() == "Being worked out…"


def test_a_finding_is_waived_with_a_reason(small: Window, monkeypatch: pytest.MonkeyPatch) -> None:
    panel = small.findings_panel
    choose(panel, find(small))
    monkeypatch.setattr(panel, "ask_reason", lambda: "the player wants it so")
    panel.waive.click()
    [waiver] = small.session.circuit.waived
    assert (waiver.rule, waiver.places) == ("silent-setting", ("S",))
    assert waiver.reason == "the player wants it so"
    small.session.undo()
    assert small.session.circuit.waived == ()


def test_without_a_reason_nothing_is_waived(small: Window, monkeypatch: pytest.MonkeyPatch) -> None:
    panel = small.findings_panel
    choose(panel, find(small))
    monkeypatch.setattr(panel, "ask_reason", lambda: "")
    panel.waive.click()
    assert small.session.circuit.waived == ()
