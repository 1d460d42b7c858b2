"""Which columns of the combination table are shown: those chosen, or what there is room for."""

from __future__ import annotations

import math

from PySide6.QtWidgets import QTableView

from wirer.window.table_model import TableModel

SAMPLE = 64
"""How many rows are looked at to see how wide a column must be."""
MOST_LETTERS_WIDE = 34
PAD = 12


class ColumnFit:
    """Measures the columns and hides what there is no room for.

    `chosen` are the ids of the columns to show, None for as many as fit. Positions and results
    that a person has not chosen go first where they say least.
    """

    def __init__(self, view: QTableView, model: TableModel) -> None:
        self._view = view
        self._model = model
        self._widths: list[int] = []
        self._least: list[int] = []
        self.chosen: tuple[str, ...] | None = None

    @property
    def shown(self) -> list[int]:
        """The places of the columns that are shown."""
        count = len(self._model.columns)
        return [place for place in range(count) if not self._view.isColumnHidden(place)]

    def choose(self, columns: tuple[str, ...] | None) -> None:
        """Show these columns, or as many as fit."""
        self.chosen = columns
        self.arrange()

    def measure(self) -> None:
        """Find out how wide each column's texts and title are."""
        metrics = self._view.fontMetrics()
        header = self._view.horizontalHeader()
        most = metrics.horizontalAdvance("n" * MOST_LETTERS_WIDE)
        count = self._model.rowCount()
        step = max(1, count // SAMPLE)
        self._widths, self._least = [], []
        for place in range(len(self._model.columns)):
            texts = {self._model.index(row, place).data() for row in range(0, count, step)}
            widest = max(map(metrics.horizontalAdvance, texts), default=0)
            title = header.sectionSizeFromContents(place).width()
            self._least.append(title)
            self._widths.append(max(min(widest, most) + PAD, title))
        self.arrange()

    def arrange(self) -> None:
        """Hide and show columns by choice or by room, and share the room out."""
        columns = self._model.columns
        if not columns or len(self._widths) != len(columns):
            return
        kept = self._fitting() if self.chosen is None else self._chosen()
        for place, width in enumerate(self._shared_out(kept)):
            self._view.setColumnHidden(place, place not in kept)
            self._view.setColumnWidth(place, width)
        last = max(kept)
        self._view.horizontalHeader().setStretchLastSection(not columns[last].figures)

    def _shared_out(self, kept: set[int]) -> list[int]:
        """Return the columns' widths, positions narrowed as far as their titles allow."""
        widths = list(self._widths)
        lack = sum(widths[place] for place in kept) - self._view.viewport().width()
        narrow = [p for p in kept if self._model.columns[p].actuator]
        give = sum(widths[p] - self._least[p] for p in narrow)
        if lack > 0 and give > 0:
            share = min(1.0, lack / give)
            for place in narrow:
                widths[place] -= math.ceil(share * (widths[place] - self._least[place]))
        return widths

    def _chosen(self) -> set[int]:
        wished = set(self.chosen or ())
        kept = {i for i, column in enumerate(self._model.columns) if column.id in wished}
        return kept or {0}

    def _fitting(self) -> set[int]:
        columns = self._model.columns
        room = self._view.viewport().width()
        kept: set[int] = set()
        for place in sorted(range(len(columns)), key=lambda i: columns[i].keep):
            if columns[place].keep and self._widths[place] > room:
                break
            room -= self._widths[place]
            kept.add(place)
        return kept
