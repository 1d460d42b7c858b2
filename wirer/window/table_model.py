"""The combination table as a model for Qt's views; rows are read only when they are shown."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from functools import lru_cache
from typing import Any

import numpy as np
from numpy.typing import NDArray
from PySide6.QtCore import QAbstractTableModel, QModelIndex, QPersistentModelIndex, Qt
from PySide6.QtGui import QColor

from wirer.analysis.combinations import CombinationTable, Row
from wirer.circuit.model import Circuit
from wirer.papers.combination_cells import CombinationCells
from wirer.papers.combination_text import chosen_indices
from wirer.window.table_columns import Column, columns_of

Index = QModelIndex | QPersistentModelIndex
DisplayRole = Qt.ItemDataRole.DisplayRole
_ROOT = QModelIndex()
_TO_THE_RIGHT = int(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter)
_TO_THE_LEFT = int(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter)


class TableModel(QAbstractTableModel):
    """The rows of a table, all of them or the distinct ones, in counting order or sorted."""

    def __init__(self) -> None:
        super().__init__()
        self.table: CombinationTable | None = None
        self.columns: tuple[Column, ...] = ()
        self.quiet = QColor("grey")
        self._cells: CombinationCells | None = None
        self._rows: NDArray[np.intp] = np.empty(0, np.intp)
        self._tells_news: NDArray[np.bool_] = np.empty(0, np.bool_)
        self._distinct = False
        self._sorting: tuple[int, bool] | None = None
        self._kept_texts = lru_cache(maxsize=16384)(self._say)
        self._roles: dict[int, Callable[[int, int], Any]] = {
            DisplayRole: self._text,
            Qt.ItemDataRole.ToolTipRole: self._text,
            Qt.ItemDataRole.TextAlignmentRole: self._alignment,
            Qt.ItemDataRole.ForegroundRole: self._foreground,
        }

    # What Qt's views ask

    def rowCount(self, parent: Index = _ROOT) -> int:
        """Return how many rows are shown."""
        return 0 if parent.isValid() else len(self._rows)

    def columnCount(self, parent: Index = _ROOT) -> int:
        """Return how many columns there are."""
        return 0 if parent.isValid() else len(self.columns)

    def data(self, index: Index, role: int = DisplayRole) -> Any:
        """Return what a cell says or looks like."""
        answer = self._roles.get(role)
        if answer is None or not index.isValid():
            return None
        return answer(int(self._rows[index.row()]), index.column())

    def headerData(self, section: int, orientation: Qt.Orientation, role: int = DisplayRole) -> Any:
        """Return a column's title, or what it is about."""
        if orientation != Qt.Orientation.Horizontal or section >= len(self.columns):
            return None
        column = self.columns[section]
        if role == Qt.ItemDataRole.TextAlignmentRole:
            return _TO_THE_RIGHT if column.figures else _TO_THE_LEFT
        texts: dict[int, str] = {
            DisplayRole: column.title,
            Qt.ItemDataRole.ToolTipRole: column.about,
        }
        return texts.get(role)

    def sort(self, column: int, order: Qt.SortOrder = Qt.SortOrder.AscendingOrder) -> None:
        """Sort by a column; a negative one brings the counting order back."""
        descending = order == Qt.SortOrder.DescendingOrder
        self._sorting = (column, descending) if column >= 0 else None
        self._choose_rows()

    # What the panel does with it

    def show(self, table: CombinationTable | None, circuit: Circuit) -> None:
        """Show another table."""
        self.beginResetModel()
        if self.table is None or table is None or self.table.positions != table.positions:
            self._sorting = None
        self.table = table
        self._cells = CombinationCells(table, circuit) if table else None
        self.columns = columns_of(self._cells) if self._cells else ()
        self._kept_texts = lru_cache(maxsize=16384)(self._say)
        self._rows = self._chosen_rows()
        self._tells_news = np.zeros(len(table) if table else 0, np.bool_)
        if table:
            self._tells_news[list(chosen_indices(table, distinct=True))] = True
        self.endResetModel()

    def show_distinct(self, only: bool) -> None:
        """Show the distinct sounds only, or every setting."""
        self._distinct = only
        self._choose_rows()

    def index_in_table(self, row: int) -> int:
        """Return which of the table's rows a shown row is."""
        return int(self._rows[row])

    def row_showing(self, index: int) -> int:
        """Return the shown row of one of the table's rows, or of the one it is the same as.

        −1 where neither is shown.
        """
        if self.table is None:
            return -1
        for wanted in (index, int(self.table.same_as[index])):
            found = np.flatnonzero(self._rows == wanted)
            if found.size:
                return int(found[0])
        return -1

    def text_of(self, rows: Iterable[int], columns: Iterable[int]) -> str:
        """Return shown rows as lines of cells parted by tabs, a head line first."""
        columns = list(columns)
        lines = ["\t".join(self.columns[c].title for c in columns)]
        lines += ["\t".join(self._text(int(self._rows[r]), c) for c in columns) for r in rows]
        return "\n".join(lines) + "\n"

    def _row(self, index: int) -> Row:
        if self.table is None:
            raise IndexError(index)
        return self.table[index]

    def _text(self, index: int, column: int) -> str:
        return self._kept_texts(index, column)

    def _say(self, index: int, column: int) -> str:
        if self._cells is None:
            return ""
        return self.columns[column].cell(self._cells, self._row(index))

    def _alignment(self, _row: int, column: int) -> int:
        return _TO_THE_RIGHT if self.columns[column].figures else _TO_THE_LEFT

    def _foreground(self, index: int, _column: int) -> QColor | None:
        return None if self._tells_news[index] else self.quiet

    def _choose_rows(self) -> None:
        self.beginResetModel()
        self._rows = self._chosen_rows()
        self.endResetModel()

    def _chosen_rows(self) -> NDArray[np.intp]:
        if self.table is None:
            return np.empty(0, np.intp)
        rows = np.array(chosen_indices(self.table, distinct=self._distinct), np.intp)
        if self._sorting is None:
            return rows
        column, descending = self._sorting
        keys = self._keys(self.columns[column])[rows]
        if descending:
            return np.asarray(rows[::-1][np.argsort(keys[::-1], kind="stable")[::-1]])
        return np.asarray(rows[np.argsort(keys, kind="stable")])

    def _keys(self, column: Column) -> NDArray[Any]:
        """Return what a column sorts every row of the table by."""
        table = self.table
        if table is None or (column.key is None and not column.actuator):
            return np.arange(len(self._rows) if table is None else len(table))
        if column.key is None:
            names = list(table.positions)
            sizes = [len(choices) for choices in table.positions.values()]
            axis = names.index(column.actuator)
            return np.asarray(np.indices(sizes)[axis].reshape(-1))
        keys = np.array([column.key(c) for c in table.combinations])
        return np.asarray(keys[table.which])
