"""The strip that says whether what a panel shows is current, being worked out, or not to be had."""

from __future__ import annotations

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QPalette
from PySide6.QtWidgets import QHBoxLayout, QLabel, QProgressBar, QPushButton, QSizePolicy, QWidget

from wirer.window.studies import State

LONG = 2000
"""From so many settings up, progress is shown and can be cancelled."""

TEXTS = {
    "none": "",
    "working": "Being worked out…",
    "current": "Up to date",
    "cancelled": "Stopped; what is shown is not up to date",
}


class StateStrip(QWidget):
    """One line: where a study stands, and buttons to stop it or to start it again."""

    cancelled = Signal()
    """The person wants it stopped."""
    asked = Signal()
    """The person wants it worked out again."""

    def __init__(self, what: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.text = QLabel()
        self.text.setTextFormat(Qt.TextFormat.PlainText)
        self.text.setForegroundRole(QPalette.ColorRole.PlaceholderText)
        self.text.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Preferred)
        self.bar = QProgressBar(textVisible=True)
        self.bar.setAccessibleName(f"Progress of the {what}")
        self.stop = QPushButton("Stop")
        self.stop.setAccessibleName(f"Stop working out the {what}")
        self.again = QPushButton("Work out again")
        self.again.setAccessibleName(f"Work out the {what} again")
        self.stop.clicked.connect(self.cancelled)
        self.again.clicked.connect(self.asked)
        layout = QHBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        for widget, stretch in ((self.text, 1), (self.bar, 2), (self.stop, 0), (self.again, 0)):
            layout.addWidget(widget, stretch)
        self.show_state(State(), 0)

    def show_state(self, state: State, settings: int) -> None:
        """Show where a study of so many settings stands."""
        is_long = state.status == "working" and settings >= LONG
        text = TEXTS.get(state.status, state.text)
        self.text.setText(text)
        self.text.setToolTip(text)
        self.bar.setVisible(is_long)
        self.stop.setVisible(is_long)
        self.again.setVisible(state.status in {"cancelled", "failed"})
        if is_long:
            self.bar.setRange(0, state.total)
            self.bar.setValue(state.done)
