"""Keeps the picture and the words on the present setting in step with the session."""

from __future__ import annotations

from PySide6.QtCore import QObject, Signal

from wirer.analysis.analyst import Combination
from wirer.drawing.palette import LIGHT, Theme
from wirer.papers.combination_text import part_labels
from wirer.window.present import NOTHING, Nets, Present
from wirer.window.scenery import bare_scenery, laid_scenery
from wirer.window.session import Session
from wirer.window.setting_panel import SettingPanel
from wirer.window.standing import Standing
from wirer.window.studies import Studies
from wirer.window.view import WiringView

WORKING = {"working": "Being worked out…", "cancelled": "Not worked out: the table was stopped"}
LAYING = {"working": "Laying the wires…", "current": "", "none": ""}
NOT_LAID = "The wires could not be laid"


class Shown(QObject):
    """Shows the circuit in the view and the present setting in its panel, at once."""

    changed = Signal()
    """The present setting is another."""
    laid = Signal(str)
    """What is to be said of the wires; an empty text when they are shown as they are laid now."""

    def __init__(
        self,
        session: Session,
        studies: Studies,
        view: WiringView,
        panel: SettingPanel,
        parent: QObject | None = None,
    ) -> None:
        super().__init__(parent)
        self._session = session
        self._studies = studies
        self._view = view
        self._panel = panel
        self._nets = Nets()
        self._theme = LIGHT
        self.is_lit = True
        self.present: Present = NOTHING
        session.circuit_changed.connect(self._show_circuit)
        session.stance_changed.connect(self._show_stance)
        studies.changed.connect(self._take)

    def show_theme(self, theme: Theme) -> None:
        """Show everything in a theme's colours."""
        self._theme = theme
        self._show_standing()

    def light(self, lit: bool) -> None:
        """Light the nets by their roles, or show plain wires."""
        self.is_lit = lit
        self._show_standing()

    def _show_circuit(self) -> None:
        circuit, stance = self._session.circuit, self._session.stance
        self.present = self._nets.present(circuit, stance)
        self._view.wiring.standing = self._standing()
        self._view.wiring.lay(bare_scenery(circuit, self._studies.layout))
        self._tell()

    def _show_stance(self) -> None:
        self.present = self._nets.present(self._session.circuit, self._session.stance)
        self._show_standing()
        self._tell()

    def _standing(self) -> Standing:
        return Standing(self._session.stance, self.present, self._theme, self.is_lit)

    def _show_standing(self) -> None:
        self._view.wiring.show_standing(self._standing())

    def _take(self, study: str) -> None:
        if study == "layout":
            laid = self._studies.laid
            if laid and self._studies.is_current("layout"):
                self._view.wiring.lay(laid_scenery(self._session.circuit, laid))
                self._view.follow_size()
            self.laid.emit(LAYING.get(self._studies.state("layout").status, NOT_LAID))
        elif study == "table" and self.present.combination is None:
            self._tell()

    def _tell(self) -> None:
        combination = self.present.combination or self._from_table()
        if combination:
            labels = part_labels(self._session.circuit)
            self._panel.show_combination(combination, self.present.coils, labels)
        else:
            state = self._studies.state("table")
            self._panel.show_nothing(state.text or WORKING.get(state.status, ""))
        self.changed.emit()

    def _from_table(self) -> Combination | None:
        table = self._studies.table
        if table is None or not self._studies.is_current("table"):
            return None
        return table[table.index_of(self._session.stance.positions)].combination
