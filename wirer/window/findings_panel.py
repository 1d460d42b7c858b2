"""The panel of findings: what the rules say of the circuit, the gravest first."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from html import escape

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import (
    QAbstractItemView,
    QHBoxLayout,
    QInputDialog,
    QLabel,
    QPushButton,
    QScrollArea,
    QSplitter,
    QTreeWidget,
    QTreeWidgetItem,
    QVBoxLayout,
    QWidget,
)

from wirer.analysis.combinations import setting_count
from wirer.circuit.errors import EditError
from wirer.circuit.model import Circuit
from wirer.rules.finding import SEVERITIES, Finding
from wirer.rules.registry import all_rules
from wirer.rules.settings import in_words
from wirer.rules.waivers import with_waiver, without_waiver
from wirer.window.session import Session
from wirer.window.state_strip import StateStrip
from wirer.window.studies import Studies

Edit = Callable[[Circuit], Circuit]

TITLES = {"error": "Errors", "warning": "Warnings", "note": "Notes", "waived": "Waived"}
SIGNS = {"error": "✖", "warning": "▲", "note": "●", "waived": "○"}
NONE_FOUND = "Nothing found: no rule has anything to say of this circuit."


class FindingsPanel(QWidget):
    """The findings in groups; the chosen one is explained below them."""

    chosen = Signal(object)
    """A finding was chosen (None: no longer one)."""
    counted = Signal(int)
    """How many findings there are that are not waived."""
    refused = Signal(str)
    """A fix could not be made; carries the reason."""

    def __init__(self, session: Session, studies: Studies, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._session = session
        self._studies = studies
        self.tree = QTreeWidget()
        self.tree.setHeaderHidden(True)
        self.tree.setRootIsDecorated(False)
        self.tree.setAccessibleName("Findings")
        self.tree.setSelectionMode(QAbstractItemView.SelectionMode.SingleSelection)
        self.tree.setWordWrap(True)
        self.tree.setIndentation(12)
        self.text = _paragraphs()
        self.fix = QPushButton("Mend it")
        self.waive = QPushButton()
        self.strip = StateStrip("findings")
        self.setFocusProxy(self.tree)
        self._lay_out()
        self.tree.itemSelectionChanged.connect(self._choose)
        self.fix.clicked.connect(self._apply_fix)
        self.waive.clicked.connect(self._turn_waiver)
        self.strip.cancelled.connect(lambda: studies.cancel("findings"))
        self.strip.asked.connect(lambda: studies.ask("findings"))
        studies.changed.connect(self._take)
        studies.advanced.connect(self._show_state)
        session.opened.connect(self._clear)
        self._explain(None)

    def _lay_out(self) -> None:
        below = QWidget()
        column = QVBoxLayout(below)
        column.setContentsMargins(0, 0, 0, 0)
        area = QScrollArea(widgetResizable=True)
        area.setWidget(self.text)
        area.setAccessibleName("Explanation")
        row = QHBoxLayout()
        row.addWidget(self.fix)
        row.addWidget(self.waive)
        row.addStretch(1)
        column.addWidget(area, 1)
        column.addLayout(row)
        split = QSplitter(Qt.Orientation.Vertical)
        split.setChildrenCollapsible(False)
        split.addWidget(self.tree)
        split.addWidget(below)
        split.setStretchFactor(0, 2)
        split.setStretchFactor(1, 3)
        whole = QVBoxLayout(self)
        whole.setContentsMargins(6, 6, 6, 6)
        whole.setSpacing(4)
        whole.addWidget(split, 1)
        whole.addWidget(self.strip)

    @property
    def finding(self) -> Finding | None:
        """The chosen finding."""
        items = self.tree.selectedItems()
        found = items[0].data(0, Qt.ItemDataRole.UserRole) if items else None
        return found if isinstance(found, Finding) else None

    def _clear(self) -> None:
        self.tree.clear()
        self._explain(None)
        self.counted.emit(0)

    def _take(self, study: str) -> None:
        if study != "findings":
            return
        if self._studies.is_current("findings"):
            self._show(self._studies.findings)
        self._show_state(study)

    def _show_state(self, study: str) -> None:
        if study == "findings":
            state = self._studies.state("findings")
            self.strip.show_state(state, setting_count(self._session.circuit))

    def _show(self, findings: tuple[Finding, ...]) -> None:
        before = self.finding
        self.tree.clear()
        for name in (*SEVERITIES, "waived"):
            group = [f for f in findings if ("waived" if f.waived else f.severity) == name]
            if group:
                self._add_group(name, group, before)
        if not findings:
            item = QTreeWidgetItem([NONE_FOUND])
            item.setFlags(Qt.ItemFlag.ItemIsEnabled)
            self.tree.addTopLevelItem(item)
        self.counted.emit(sum(finding.waived is None for finding in findings))
        if self.finding is None:
            self._explain(None)

    def _add_group(self, name: str, findings: list[Finding], before: Finding | None) -> None:
        head = QTreeWidgetItem([f"{SIGNS[name]}  {TITLES[name]} ({len(findings)})"])
        head.setFlags(Qt.ItemFlag.ItemIsEnabled)
        font = head.font(0)
        font.setBold(True)
        head.setFont(0, font)
        self.tree.addTopLevelItem(head)
        for finding in findings:
            item = QTreeWidgetItem([finding.message])
            item.setData(0, Qt.ItemDataRole.UserRole, finding)
            item.setToolTip(0, in_words(self._session.circuit, finding.settings))
            head.addChild(item)
            if finding == before:
                item.setSelected(True)
        head.setExpanded(True)

    def _choose(self) -> None:
        finding = self.finding
        self._explain(finding)
        self.chosen.emit(finding)

    def _explain(self, finding: Finding | None) -> None:
        fix = finding.fix if finding else None
        self.text.setText(explanation(self._session.circuit, finding) if finding else "")
        self.fix.setVisible(fix is not None)
        self.fix.setToolTip(fix.text if fix else "")
        waived = finding is not None and finding.waived is not None
        self.waive.setVisible(finding is not None)
        self.waive.setText("Take the waiver away" if waived else "Waive it …")

    def _apply_fix(self) -> None:
        finding = self.finding
        if finding and finding.fix:
            self._apply(finding.fix.text, finding.fix.edit)

    def _turn_waiver(self) -> None:
        finding = self.finding
        if finding is None:
            return
        if finding.waived is not None:
            self._apply("take a waiver away", partial(without_waiver, finding=finding))
            return
        reason = self.ask_reason()
        if reason:
            self._apply("waive a finding", partial(with_waiver, finding=finding, reason=reason))

    def ask_reason(self) -> str:
        """Ask for the reason of a waiver; empty if there is none after all."""
        title = "Waive this finding"
        text, agreed = QInputDialog.getText(self, title, "Why it is accepted as it is:")
        return text.strip() if agreed else ""

    def _apply(self, name: str, edit: Edit) -> None:
        try:
            self._session.apply(name, edit)
        except EditError as error:
            self.refused.emit(str(error))


def explanation(circuit: Circuit, finding: Finding) -> str:
    """Return what a finding means, as rich text."""
    rule = all_rules()[finding.rule]
    mend = finding.fix.text if finding.fix else rule.mend
    when = in_words(circuit, finding.settings)
    rows = [
        ("When", f"{when[:1].upper()}{when[1:]}."),
        ("Wrong", rule.wrong),
        ("Heard", rule.heard),
        ("Meter", rule.meter),
        ("Mend", mend),
        ("Places", ", ".join(finding.places)),
        ("Waived", finding.waived or ""),
    ]
    lines = "".join(f"<p><b>{name}:</b> {escape(text)}</p>" for name, text in rows if text)
    return f"<p><b>{escape(finding.message)}</b></p>{lines}"


def _paragraphs() -> QLabel:
    label = QLabel()
    label.setTextFormat(Qt.TextFormat.RichText)
    label.setWordWrap(True)
    label.setAlignment(Qt.AlignmentFlag.AlignTop | Qt.AlignmentFlag.AlignLeft)
    label.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
    label.setContentsMargins(8, 4, 8, 4)
    return label
