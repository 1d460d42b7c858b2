"""A switch and a knob as plain widgets."""

from __future__ import annotations

from collections.abc import Mapping

from PySide6.QtCore import QSignalBlocker, Qt, Signal
from PySide6.QtWidgets import (
    QButtonGroup,
    QComboBox,
    QHBoxLayout,
    QLabel,
    QRadioButton,
    QSlider,
    QWidget,
)

MOST_BUTTONS = 5
MOST_LETTERS = 26
STEPS = 100
"""In how many steps the travel of a knob is shown."""


class Choice(QWidget):
    """The positions of one switch: buttons beside each other, a list where they are many."""

    chosen = Signal(str)
    """A position was chosen by hand."""

    def __init__(self, name: str, positions: Mapping[str, str]) -> None:
        super().__init__()
        self._positions = tuple(positions)
        self.setAccessibleName(name)
        row = QHBoxLayout(self)
        row.setContentsMargins(0, 0, 0, 0)
        self.buttons: tuple[QRadioButton, ...] = ()
        self.list: QComboBox | None = None
        is_short = sum(map(len, positions.values())) <= MOST_LETTERS
        if len(positions) <= MOST_BUTTONS and is_short:
            self._make_buttons(name, tuple(positions.values()), row)
        else:
            self._make_list(name, tuple(positions.values()), row)
        row.addStretch(1)

    def show_position(self, position: str) -> None:
        """Show where the switch stands."""
        place = self._positions.index(position)
        if self.list:
            with QSignalBlocker(self.list):
                self.list.setCurrentIndex(place)
        else:
            self.buttons[place].setChecked(True)

    def _make_buttons(self, name: str, texts: tuple[str, ...], row: QHBoxLayout) -> None:
        group = QButtonGroup(self)
        self.buttons = tuple(QRadioButton(text) for text in texts)
        for place, button in enumerate(self.buttons):
            button.setAccessibleName(f"{name}: {button.text()}")
            group.addButton(button, place)
            row.addWidget(button)
        group.idClicked.connect(self._choose)

    def _make_list(self, name: str, texts: tuple[str, ...], row: QHBoxLayout) -> None:
        self.list = QComboBox()
        self.list.addItems(texts)
        self.list.setAccessibleName(name)
        self.list.currentIndexChanged.connect(self._choose)
        row.addWidget(self.list)

    def _choose(self, place: int) -> None:
        self.chosen.emit(self._positions[place])


class Dial(QWidget):
    """The rotation of one shaft, from 0 to 10 as knobs are marked."""

    turned = Signal(float)
    """It was turned by hand; carries the rotation from 0 to 1."""

    def __init__(self, name: str) -> None:
        super().__init__()
        self.slider = QSlider(Qt.Orientation.Horizontal)
        self.slider.setRange(0, STEPS)
        self.slider.setPageStep(STEPS // 10)
        self.slider.setAccessibleName(name)
        self.number = QLabel()
        self.number.setMinimumWidth(self.number.fontMetrics().horizontalAdvance("10.0"))
        self.number.setAlignment(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter)
        row = QHBoxLayout(self)
        row.setContentsMargins(0, 0, 0, 0)
        row.addWidget(self.slider, 1)
        row.addWidget(self.number)
        self.slider.valueChanged.connect(lambda value: self.turned.emit(value / STEPS))

    def show_rotation(self, rotation: float) -> None:
        """Show where the shaft stands."""
        with QSignalBlocker(self.slider):
            self.slider.setValue(round(rotation * STEPS))
        self.number.setText(dial_text(rotation))


def dial_text(rotation: float) -> str:
    """Write a rotation as a knob is marked: 0 to 10."""
    return f"{rotation * 10:.1f}"
