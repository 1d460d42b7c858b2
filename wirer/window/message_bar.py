"""The bar over the picture that says what could not be done. It waits for nobody."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import Qt
from PySide6.QtWidgets import (
    QFrame,
    QHBoxLayout,
    QLabel,
    QStyle,
    QToolButton,
    QVBoxLayout,
    QWidget,
)

MOST_DETAILS = 12


class MessageBar(QFrame):
    """One clear line, with the particulars behind a button where there are several."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setFrameShape(QFrame.Shape.StyledPanel)
        self.setAutoFillBackground(True)
        self.setAccessibleName("Message")
        self.sign = QLabel()
        self.line = _label()
        self.details = _label()
        self.more = QToolButton()
        self.more.setText("All of it")
        self.more.setCheckable(True)
        self.shut = QToolButton()
        self.shut.setText("Close")
        self.shut.setAutoRaise(True)
        self.more.toggled.connect(self.details.setVisible)
        self.shut.clicked.connect(self.hide)
        row = QHBoxLayout()
        row.addWidget(self.sign)
        row.addWidget(self.line, 1)
        row.addWidget(self.more)
        row.addWidget(self.shut)
        column = QVBoxLayout(self)
        column.setContentsMargins(8, 4, 8, 4)
        column.addLayout(row)
        column.addWidget(self.details)
        self.hide()

    def say(self, line: str, details: Sequence[str] = (), *, is_error: bool = True) -> None:
        """Say a line; with several details they can be unfolded."""
        pixmaps = QStyle.StandardPixmap
        icon = pixmaps.SP_MessageBoxWarning if is_error else pixmaps.SP_MessageBoxInformation
        size = self.style().pixelMetric(QStyle.PixelMetric.PM_SmallIconSize)
        self.sign.setPixmap(self.style().standardIcon(icon).pixmap(size, size))
        self.line.setText(line)
        self.setAccessibleDescription(line)
        shown = list(details[:MOST_DETAILS])
        if len(details) > MOST_DETAILS:
            shown.append(f"and {len(details) - MOST_DETAILS} more")
        self.details.setText("\n".join(shown))
        self.more.setVisible(len(details) > 1)
        self.more.setChecked(False)
        self.details.hide()
        self.show()


def _label() -> QLabel:
    label = QLabel()
    label.setTextFormat(Qt.TextFormat.PlainText)
    label.setWordWrap(True)
    label.setTextInteractionFlags(
        Qt.TextInteractionFlag.TextSelectableByMouse
        | Qt.TextInteractionFlag.TextSelectableByKeyboard
    )
    return label
