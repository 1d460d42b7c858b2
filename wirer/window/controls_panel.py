"""The panel of switches and knobs: every one a plain widget, for keyboard and screen reader."""

from __future__ import annotations

from functools import partial

from PySide6.QtWidgets import QFormLayout, QFrame, QScrollArea, QWidget

from wirer.circuit.model import Part
from wirer.circuit.stance import positions_in_use
from wirer.window.controls import Choice, Dial
from wirer.window.session import Session


class ControlsPanel(QScrollArea):
    """A row for each switch and each shaft of the session's circuit."""

    def __init__(self, session: Session, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setWidgetResizable(True)
        self.setAccessibleName("Switches and knobs")
        self._session = session
        self.choices: dict[str, Choice] = {}
        self.dials: dict[str, Dial] = {}
        session.circuit_changed.connect(self._build)
        session.stance_changed.connect(self._follow)

    def _build(self) -> None:
        self.choices, self.dials = {}, {}
        body = QWidget()
        form = QFormLayout(body)
        form.setRowWrapPolicy(QFormLayout.RowWrapPolicy.WrapLongRows)
        for part in self._session.circuit.switches:
            self._add_switch(form, part)
        for part in self._session.circuit.parts:
            self._add_shafts(form, part)
        self.setWidget(body)
        self._follow()

    def _add_switch(self, form: QFormLayout, part: Part) -> None:
        positions = positions_in_use(self._session.circuit.kind_of(part), part)
        choice = Choice(part.name, {p: part.position_name(p) for p in positions})
        choice.chosen.connect(partial(self._session.throw, part.id))
        form.addRow(part.name, choice)
        self.choices[part.id] = choice

    def _add_shafts(self, form: QFormLayout, part: Part) -> None:
        shafts = self._session.circuit.kind_of(part).shafts
        for shaft in shafts:
            name = part.name if len(shafts) == 1 else f"{part.name}, {shaft.name}"
            key = f"{part.id}.{shaft.name}"
            dial = Dial(name)
            dial.turned.connect(partial(self._session.turn, key))
            form.addRow(name, dial)
            self.dials[key] = dial

    def _follow(self) -> None:
        stance = self._session.stance
        for part_id, choice in self.choices.items():
            choice.show_position(stance.positions[part_id])
        for shaft, dial in self.dials.items():
            dial.show_rotation(stance.rotations[shaft])
