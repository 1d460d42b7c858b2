"""The status bar: what is pointed at, what the rings mean, what is being worked out, the zoom."""

from __future__ import annotations

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QLabel, QSizePolicy, QStatusBar, QToolButton, QWidget

from wirer.drawing.palette import Theme
from wirer.window.legend import Legend


class StatusBar(QStatusBar):
    """What a person glances at."""

    zoom_wanted = Signal(int)
    """The picture is wanted larger (1) or smaller (−1)."""
    fit_wanted = Signal()
    """The whole circuit is wanted."""
    true_size_wanted = Signal()
    """True size is wanted."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setSizeGripEnabled(False)
        self.pointed = QLabel()
        self.pointed.setTextFormat(Qt.TextFormat.PlainText)
        self.pointed.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Preferred)
        self.working = QLabel()
        self.legend = Legend()
        self.smaller = _button("−", "Zoom out")
        self.scale = _button("100 %", "Show at true size")
        self.larger = _button("+", "Zoom in")
        self.whole = _button("Fit", "Show the whole circuit")
        self.addWidget(self.pointed, 1)
        for widget in (
            self.working, self.legend, self.smaller, self.scale, self.larger, self.whole,
        ):  # fmt: skip
            self.addPermanentWidget(widget)
        self.smaller.clicked.connect(lambda: self.zoom_wanted.emit(-1))
        self.larger.clicked.connect(lambda: self.zoom_wanted.emit(1))
        self.scale.clicked.connect(self.true_size_wanted)
        self.whole.clicked.connect(self.fit_wanted)

    def show_pointed(self, lines: tuple[str, ...]) -> None:
        """Show what is pointed at."""
        self.pointed.setText(" · ".join(lines))

    def show_scale(self, share: float) -> None:
        """Show the size of the picture as a share of true size."""
        self.scale.setText(f"{round(100 * share)} %")

    def show_working(self, text: str) -> None:
        """Show what of the picture is not current."""
        self.working.setText(text)

    def show_theme(self, theme: Theme) -> None:
        """Take on a theme's colours."""
        self.legend.show_theme(theme)

    def show_circuit_tools(self, shown: bool) -> None:
        """Show what has to do with a circuit, or hide it."""
        for widget in (self.legend, self.smaller, self.scale, self.larger, self.whole):
            widget.setVisible(shown)


def _button(text: str, name: str) -> QToolButton:
    button = QToolButton()
    button.setText(text)
    button.setAutoRaise(True)
    button.setAccessibleName(name)
    button.setToolTip(name)
    return button
