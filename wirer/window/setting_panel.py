"""The panel that says in large letters what the present setting does."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from PySide6.QtCore import QSize, Qt
from PySide6.QtGui import QFont, QPalette
from PySide6.QtWidgets import (
    QFrame,
    QGridLayout,
    QLabel,
    QScrollArea,
    QVBoxLayout,
    QWidget,
)

from wirer.analysis.analyst import Combination
from wirer.window import phrases
from wirer.window.phrases import Phrase

USUAL_LINES = 20
"""How many lines a usual combination takes."""
HEADLINE_SIZES = ((60, 1.45), (110, 1.2), (10**6, 1.0))
USUAL_MARGIN = 36
"""Room for the title of the panel's dock."""


class SettingPanel(QScrollArea):
    """What sounds, how, how much it hums, what a meter reads, and what is worth knowing."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setWidgetResizable(True)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setAccessibleName("This setting")
        body = QWidget()
        self.headline = _label(bold=True)
        self.formula = _label(1.15)
        self.character = _label()
        self.figures = QGridLayout()
        self.figures.setSpacing(6)
        self.coils = QGridLayout()
        self.coils.setHorizontalSpacing(12)
        self.coils.setVerticalSpacing(2)
        self.coils.setColumnStretch(1, 1)
        self.warnings = _label()
        self.buzz = _label(0.92)
        self.buzz.setText(phrases.BUZZ)
        self.buzz.setForegroundRole(QPalette.ColorRole.PlaceholderText)
        column = QVBoxLayout(body)
        column.setContentsMargins(10, 8, 10, 8)
        column.setSpacing(6)
        column.addWidget(self.headline)
        column.addWidget(self.formula)
        column.addWidget(self.character)
        column.addLayout(self.figures)
        column.addWidget(self.warnings)
        column.addLayout(self.coils)
        column.addWidget(self.buzz)
        column.addStretch(1)
        self._body = body
        self.setWidget(body)
        self._tiles: list[_Tile] = []
        self._rows: list[tuple[QLabel, QLabel]] = []

    def sizeHint(self) -> QSize:
        """Return the room in which everything can be read without scrolling."""
        width = max(self.viewport().width(), 240)
        usual = USUAL_LINES * self.fontMetrics().height()
        return QSize(width, max(self._body.heightForWidth(width), usual) + USUAL_MARGIN)

    def show_combination(
        self, combination: Combination, coil_names: Sequence[str], labels: Mapping[str, str]
    ) -> None:
        """Show what a setting does."""
        self._show_headline(phrases.headline(combination, labels))
        signs = phrases.formula(combination)
        self.formula.setText(signs)
        self.formula.setVisible(bool(signs) and signs != self.headline.text())
        self.character.setText(phrases.character(combination))
        self.character.setVisible(True)
        warnings = "\n".join(phrases.warnings(coil_names, combination, labels))
        self.warnings.setText(warnings)
        self.warnings.setVisible(bool(warnings))
        self._show_figures(phrases.figures(combination))
        self._show_coils(tuple(phrases.coils(coil_names, combination, labels)))
        self.buzz.setVisible(combination.hum is not None)

    def show_nothing(self, text: str) -> None:
        """Show a text in place of a combination."""
        self._show_headline(text)
        for label in (self.formula, self.character, self.warnings, self.buzz):
            label.setVisible(False)
        self._show_figures(())
        self._show_coils(())

    def _show_headline(self, text: str) -> None:
        """Show the headline, in smaller letters the longer it is."""
        size = next(size for most, size in HEADLINE_SIZES if len(text) <= most)
        font = QFont(self.font())
        font.setBold(True)
        font.setPointSizeF(font.pointSizeF() * size)
        self.headline.setFont(font)
        self.headline.setText(text)

    def _show_figures(self, figures: Sequence[Phrase]) -> None:
        while len(self._tiles) < len(figures):
            tile = _Tile()
            place = len(self._tiles)
            self.figures.addWidget(tile, place // 2, place % 2)
            self._tiles.append(tile)
        for place, tile in enumerate(self._tiles):
            tile.setVisible(place < len(figures))
            if place < len(figures):
                tile.show_phrase(figures[place])

    def _show_coils(self, coils: Sequence[Phrase]) -> None:
        while len(self._rows) < len(coils):
            row = _label(), _label()
            row[0].setWordWrap(False)
            for column, label in enumerate(row):
                self.coils.addWidget(label, len(self._rows), column)
            self._rows.append(row)
        for place, (name, value) in enumerate(self._rows):
            shown = place < len(coils)
            name.setVisible(shown)
            value.setVisible(shown)
            if shown:
                phrase = coils[place]
                name.setText(phrase.name)
                value.setText(", ".join(filter(None, (phrase.value, phrase.meaning))))


class _Tile(QFrame):
    """A figure in large letters with its name and what it means."""

    def __init__(self) -> None:
        super().__init__()
        self.setAutoFillBackground(True)
        self.setBackgroundRole(QPalette.ColorRole.AlternateBase)
        self.name, self.value, self.meaning = _label(0.92), _label(1.3, bold=True), _label(0.92)
        for quiet in (self.name, self.meaning):
            quiet.setForegroundRole(QPalette.ColorRole.PlaceholderText)
        column = QVBoxLayout(self)
        column.setContentsMargins(8, 5, 8, 5)
        column.setSpacing(0)
        for label in (self.name, self.value, self.meaning):
            column.addWidget(label)

    def show_phrase(self, phrase: Phrase) -> None:
        """Show a figure."""
        self.name.setText(phrase.name)
        self.value.setText(phrase.value)
        self.meaning.setText(phrase.meaning)
        self.setAccessibleName(f"{phrase.name}: {phrase.value} {phrase.meaning}".strip())


def _label(size: float = 1.0, *, bold: bool = False) -> QLabel:
    label = QLabel()
    label.setTextFormat(Qt.TextFormat.PlainText)
    label.setWordWrap(True)
    label.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
    font = QFont(label.font())
    font.setPointSizeF(font.pointSizeF() * size)
    font.setBold(bold)
    label.setFont(font)
    return label
