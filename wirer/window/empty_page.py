"""The page of a window without a circuit: what to do, and the examples one click away."""

from __future__ import annotations

from collections.abc import Sequence
from functools import partial
from pathlib import Path

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QFont
from PySide6.QtWidgets import (
    QFrame,
    QHBoxLayout,
    QLabel,
    QPushButton,
    QScrollArea,
    QVBoxLayout,
    QWidget,
)

from wirer.window.examples import Example

WHAT_TO_DO = (
    "Open a circuit to see its wiring as it lies before you when you solder it, throw its switches "
    "and turn its knobs, and read what every setting does to the pickups."
)
WIDEST = 760
HOW = "Open a file, drop one here, or begin with an example."


class EmptyPage(QScrollArea):
    """Says what to do, offers to open a file, a recent one or an example."""

    open_wanted = Signal()
    """A file is to be chosen and opened."""
    file_wanted = Signal(object)
    """A recent file is to be opened; carries its path."""
    example_wanted = Signal(object)
    """An example is to be opened; carries it."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setWidgetResizable(True)
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.examples: list[QPushButton] = []
        self.recent: list[QPushButton] = []
        self.open = QPushButton("Open a circuit…")
        self.open.clicked.connect(self.open_wanted)

    def fill(self, examples: Sequence[Example], recent: Sequence[Path]) -> None:
        """Offer these examples and recent files."""
        self.open.setParent(None)
        body = QWidget()
        body.setMaximumWidth(WIDEST)
        column = QVBoxLayout(body)
        column.setContentsMargins(48, 40, 48, 40)
        column.setSpacing(10)
        column.addWidget(_text("No circuit is open", 1.7, bold=True))
        column.addWidget(_text(WHAT_TO_DO))
        column.addWidget(_text(HOW))
        row = QHBoxLayout()
        row.addWidget(self.open)
        row.addStretch(1)
        column.addLayout(row)
        self.recent = [self._recent_button(path) for path in recent]
        self.examples = [self._example_button(example) for example in examples]
        for title, buttons in (("Recent", self.recent), ("Examples", self.examples)):
            if buttons:
                column.addSpacing(8)
                column.addWidget(_text(title, 1.15, bold=True))
                for button in buttons:
                    column.addWidget(button)
        column.addStretch(1)
        self.setWidget(body)

    def _example_button(self, example: Example) -> QPushButton:
        button = _row_button(example.title)
        button.clicked.connect(partial(self.example_wanted.emit, example))
        return button

    def _recent_button(self, path: Path) -> QPushButton:
        button = _row_button(path.name)
        button.setToolTip(str(path))
        button.clicked.connect(partial(self.file_wanted.emit, path))
        return button


def _row_button(text: str) -> QPushButton:
    button = QPushButton(text.replace("&", "&&"))
    button.setFlat(True)
    button.setStyleSheet("QPushButton { text-align: left; padding: 6px 10px; }")
    button.setCursor(Qt.CursorShape.PointingHandCursor)
    return button


def _text(text: str, size: float = 1.0, *, bold: bool = False) -> QLabel:
    label = QLabel(text)
    label.setWordWrap(True)
    font = QFont(label.font())
    font.setPointSizeF(font.pointSizeF() * size)
    font.setBold(bold)
    label.setFont(font)
    return label
