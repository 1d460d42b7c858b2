"""The panel of the combination table: every setting, the present one selected."""

from __future__ import annotations

from PySide6.QtCore import QItemSelectionModel, QModelIndex, QPoint, Qt, Signal
from PySide6.QtGui import QColor, QGuiApplication, QResizeEvent
from PySide6.QtWidgets import (
    QAbstractItemView,
    QCheckBox,
    QHBoxLayout,
    QLabel,
    QMenu,
    QTableView,
    QToolButton,
    QVBoxLayout,
    QWidget,
)

from wirer.analysis.combinations import setting_count
from wirer.papers.combination_cells import CombinationCells
from wirer.window.session import Session
from wirer.window.state_strip import StateStrip
from wirer.window.studies import Studies
from wirer.window.table_fit import ColumnFit
from wirer.window.table_header import WordedHeader
from wirer.window.table_model import TableModel


class TablePanel(QWidget):
    """The table with its summary, a filter for distinct sounds, and its state."""

    columns_chosen = Signal()
    """The person has chosen which columns are shown."""

    def __init__(self, session: Session, studies: Studies, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._session = session
        self._studies = studies
        self._following = False
        self.model = TableModel()
        self.view = QTableView()
        self.view.setModel(self.model)
        self.fit = ColumnFit(self.view, self.model)
        self.summary = QLabel()
        self.summary.setWordWrap(True)
        self.distinct = QCheckBox("Distinct sounds only")
        self.columns = QToolButton()
        self.columns.setText("Columns")
        self.columns.setPopupMode(QToolButton.ToolButtonPopupMode.InstantPopup)
        self.columns.setMenu(QMenu(self.columns))
        self.strip = StateStrip("combination table")
        self.setFocusProxy(self.view)
        self._set_up_view()
        self._lay_out()
        self._connect()

    def _set_up_view(self) -> None:
        view = self.view
        view.setAccessibleName("Combinations")
        view.setHorizontalHeader(WordedHeader(view))
        view.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectRows)
        view.setSelectionMode(QAbstractItemView.SelectionMode.ExtendedSelection)
        view.setEditTriggers(QAbstractItemView.EditTrigger.NoEditTriggers)
        view.setHorizontalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
        view.setAlternatingRowColors(True)
        view.setShowGrid(False)
        view.setWordWrap(False)
        view.setTabKeyNavigation(False)
        view.setCornerButtonEnabled(False)
        rows = view.verticalHeader()
        rows.hide()
        rows.setMinimumSectionSize(1)
        rows.setDefaultSectionSize(round(view.fontMetrics().height() * 1.35))
        header = view.horizontalHeader()
        header.setSectionsClickable(True)
        header.setSortIndicatorShown(True)
        header.setSortIndicatorClearable(True)
        header.setSortIndicator(-1, Qt.SortOrder.AscendingOrder)
        header.setHighlightSections(False)
        header.setContextMenuPolicy(Qt.ContextMenuPolicy.CustomContextMenu)

    def _lay_out(self) -> None:
        top = QHBoxLayout()
        top.addWidget(self.distinct)
        top.addStretch(1)
        top.addWidget(self.columns)
        column = QVBoxLayout(self)
        column.setContentsMargins(6, 6, 6, 6)
        column.setSpacing(4)
        column.addWidget(self.summary)
        column.addLayout(top)
        column.addWidget(self.view, 1)
        column.addWidget(self.strip)

    def _connect(self) -> None:
        header = self.view.horizontalHeader()
        header.sortIndicatorChanged.connect(self.model.sort)
        header.customContextMenuRequested.connect(self._show_column_menu)
        self.columns.menu().aboutToShow.connect(self._fill_column_menu)
        self.distinct.toggled.connect(self.model.show_distinct)
        self.model.modelReset.connect(self._follow)
        self.view.selectionModel().currentRowChanged.connect(self._throw)
        self._session.stance_changed.connect(self._follow)
        self._session.opened.connect(self._clear)
        self._studies.changed.connect(self._take)
        self._studies.advanced.connect(self._show_state)
        self.strip.cancelled.connect(lambda: self._studies.cancel("table"))
        self.strip.asked.connect(lambda: self._studies.ask("table"))

    def show_quiet(self, colour: QColor) -> None:
        """Write rows that tell nothing new in a colour."""
        self.model.quiet = colour
        self.view.viewport().update()

    def copy(self) -> None:
        """Put the selected rows on the clipboard as text."""
        rows = sorted(index.row() for index in self.view.selectionModel().selectedRows())
        if rows:
            QGuiApplication.clipboard().setText(self.model.text_of(rows, self.fit.shown))

    def step(self, by: int) -> None:
        """Throw the switches as the next rows have them."""
        row = self.view.currentIndex().row() + by
        if 0 <= row < self.model.rowCount():
            self.view.setCurrentIndex(self.model.index(row, self._visible_column()))

    def _clear(self) -> None:
        self.model.show(None, self._session.circuit)
        self.summary.setText("")

    def _take(self, study: str) -> None:
        if study != "table":
            return
        table = self._studies.table
        if self._studies.is_current("table") and table:
            same_columns = self.model.table is not None and (
                self.model.table.positions == table.positions
            )
            self.model.show(table, self._session.circuit)
            self.summary.setText(CombinationCells(table, self._session.circuit).closing())
            if not same_columns:
                self.view.horizontalHeader().setSortIndicator(-1, Qt.SortOrder.AscendingOrder)
                self.fit.measure()
        self._show_state(study)

    def _show_state(self, study: str) -> None:
        if study == "table":
            self.strip.show_state(
                self._studies.state("table"), setting_count(self._session.circuit)
            )

    def _follow(self) -> None:
        """Select the row of the present setting."""
        table = self.model.table
        positions = self._session.stance.positions
        if table is None or set(table.positions) != set(positions):
            return
        row = self.model.row_showing(table.index_of(positions))
        selection = self.view.selectionModel()
        if row == selection.currentIndex().row() and selection.hasSelection():
            return
        self._following = True
        if row < 0:
            selection.clear()
        else:
            flags = QItemSelectionModel.SelectionFlag
            self.view.selectionModel().setCurrentIndex(
                self.model.index(row, self._visible_column()),
                flags.ClearAndSelect | flags.Rows,
            )
            self.view.scrollTo(self.model.index(row, self._visible_column()))
        self._following = False

    def _visible_column(self) -> int:
        shown = self.fit.shown
        return shown[0] if shown else 0

    def _throw(self, current: QModelIndex, _previous: QModelIndex) -> None:
        """Throw the switches as the chosen row has them."""
        table = self.model.table
        if self._following or table is None or not current.isValid():
            return
        setting = table.setting(self.model.index_in_table(current.row()))
        if set(setting) == set(self._session.stance.positions):
            self._session.take_setting(setting)

    # Columns

    def _fill_column_menu(self) -> None:
        menu = self.columns.menu()
        menu.clear()
        fitting = menu.addAction("As many as fit")
        fitting.setCheckable(True)
        fitting.setChecked(self.fit.chosen is None)
        fitting.triggered.connect(lambda: self._choose(None))
        menu.addSeparator()
        for place, column in enumerate(self.model.columns):
            action = menu.addAction(column.title.replace("&", "&&"))
            action.setCheckable(True)
            action.setChecked(not self.view.isColumnHidden(place))
            action.toggled.connect(lambda on, name=column.id: self._choose(self._with(name, on)))

    def _with(self, name: str, on: bool) -> tuple[str, ...]:
        shown = {self.model.columns[place].id for place in self.fit.shown}
        wished = shown | {name} if on else shown - {name}
        return tuple(column.id for column in self.model.columns if column.id in wished)

    def _choose(self, columns: tuple[str, ...] | None) -> None:
        self.fit.choose(columns)
        self.columns_chosen.emit()

    def _show_column_menu(self, place: QPoint) -> None:
        self._fill_column_menu()
        self.columns.menu().popup(self.view.horizontalHeader().mapToGlobal(place))

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Show as many columns as there is room for."""
        super().resizeEvent(event)
        self.fit.arrange()
        if self.view.currentIndex().isValid():
            self.view.scrollTo(self.view.currentIndex())
