"""The main window: a circuit's wiring view with its panels, and what its actions do."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from pathlib import Path
from typing import Protocol

from PySide6.QtCore import QSize, Qt
from PySide6.QtGui import QCloseEvent, QDragEnterEvent, QDropEvent, QShowEvent
from PySide6.QtWidgets import QMainWindow, QStackedWidget, QVBoxLayout, QWidget

from wirer.circuit.errors import DocumentError, WirerError
from wirer.drawing.palette import Theme
from wirer.window import help_pages
from wirer.window.controls_panel import ControlsPanel
from wirer.window.dialogs import Dialogs
from wirer.window.empty_page import EmptyPage
from wirer.window.examples import Example, examples
from wirer.window.findings_panel import FindingsPanel
from wirer.window.menus import Menus
from wirer.window.message_bar import MessageBar
from wirer.window.panels import Panels
from wirer.window.pointing import Pointing
from wirer.window.preferences import Preferences, ThemeChoice
from wirer.window.session import Session
from wirer.window.setting_panel import SettingPanel
from wirer.window.shown import Shown
from wirer.window.status_bar import StatusBar
from wirer.window.studies import Studies, Works
from wirer.window.table_panel import TablePanel
from wirer.window.view import KEY_ZOOM, WiringView

GEOMETRY = "window/geometry"
COLUMNS = "table/columns"
DISTINCT = "table/distinct"
USUAL_SIZE = (1280, 820)
LEAST_SIZE = (800, 560)
SUFFIX = ".wirer"


class House(Protocol):
    """What a window asks of the program that it belongs to."""

    preferences: Preferences

    def open_window(self, path: Path | None = None) -> Window:
        """Open another window."""

    def choose_theme(self, choice: ThemeChoice) -> None:
        """Give every window the colours of a choice."""

    def quit(self) -> None:
        """Close every window."""


class Window(QMainWindow):
    """One circuit in one window."""

    session: Session
    view: WiringView
    table_panel: TablePanel

    def __init__(self, house: House, worker: Works) -> None:
        super().__init__()
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.setAcceptDrops(True)
        self.setMinimumSize(*LEAST_SIZE)
        self.resize(QSize(*USUAL_SIZE).boundedTo(self.screen().availableSize()))
        self.house = house
        self.preferences = house.preferences
        self.dialogs = Dialogs()
        self.is_closed = False
        self._worker = worker
        self._was_shown = False
        self.session = Session(self)
        self.studies = Studies(self.session, worker, self)
        self._build()
        self.shown = Shown(self.session, self.studies, self.view, self.setting_panel, self)
        self.pointing = Pointing(self.session, self.shown, self.view, self.status, self)
        self.menus = Menus(self)
        self._connect()
        self._show_empty_page()

    def _build(self) -> None:
        self.view = WiringView(self.session)
        self.page = EmptyPage()
        self.bar = MessageBar()
        self.stack = QStackedWidget()
        self.stack.addWidget(self.page)
        self.stack.addWidget(self.view)
        centre = QWidget()
        column = QVBoxLayout(centre)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(0)
        column.addWidget(self.bar)
        column.addWidget(self.stack, 1)
        self.setCentralWidget(centre)
        self.setting_panel = SettingPanel()
        self.table_panel = TablePanel(self.session, self.studies)
        self.findings_panel = FindingsPanel(self.session, self.studies)
        self.controls_panel = ControlsPanel(self.session)
        self.panels = Panels(
            self,
            {
                "setting": ("This setting", self.setting_panel),
                "table": ("Combinations", self.table_panel),
                "findings": ("Findings", self.findings_panel),
                "controls": ("Switches and knobs", self.controls_panel),
            },
        )
        self.status = StatusBar()
        self.setStatusBar(self.status)

    def _connect(self) -> None:
        for changed in (
            self.session.circuit_changed,
            self.session.file_changed,
            self.session.clean_changed,
            self.studies.changed,
        ):
            changed.connect(self.menus.refresh)
        self.page.open_wanted.connect(self.ask_and_open)
        self.page.file_wanted.connect(lambda path: self.open_files([path]))
        self.page.example_wanted.connect(self.open_example)
        self.session.opened.connect(self._show_circuit)
        self.session.file_changed.connect(self._show_title)
        self.session.clean_changed.connect(self._show_title)
        self.findings_panel.chosen.connect(self.pointing.show_finding)
        self.findings_panel.counted.connect(self._count_findings)
        self.findings_panel.refused.connect(self.bar.say)
        self.table_panel.columns_chosen.connect(self._keep_columns)
        self.status.zoom_wanted.connect(self.zoom)
        self.status.fit_wanted.connect(self.view.fit)
        self.status.true_size_wanted.connect(self.view.show_true_size)
        self.view.zoomed.connect(self.status.show_scale)
        self.table_panel.fit.chosen = self.preferences.texts(COLUMNS)
        self.table_panel.distinct.setChecked(self.preferences.flag(DISTINCT, False))

    # Opening

    def ask_and_open(self) -> None:
        """Ask for files and open them."""
        folder = self.session.path.parent if self.session.path else Path.cwd()
        self.open_files(self.dialogs.files_to_open(self, str(folder)))

    def open_files(self, paths: Sequence[Path]) -> None:
        """Open files: the first here where nothing is lost by it, the others in windows of theirs.

        One that can't be opened is told of; what is open stays as it is.
        """
        waiting = list(paths)
        if waiting and self.session.is_clean:
            self._try(lambda: self._open(waiting.pop(0)))
        for path in waiting:
            self.house.open_window(path)

    def _open(self, path: Path) -> None:
        try:
            self.session.open(path)
        except WirerError:
            self.preferences.forget_recent(path.absolute())
            self._offer()
            raise
        self.preferences.note_recent(path.absolute())

    def open_example(self, example: Example) -> None:
        """Open an example as a circuit that is in no file yet."""
        if self.session.is_clean:
            self._try(lambda: self.session.show(*example.read()))
        else:
            self.house.open_window().open_example(example)

    def open_window(self) -> None:
        """Open another window."""
        self.house.open_window()

    def _try(self, deed: Callable[[], object]) -> bool:
        """Do what may fail by the input's fault, and say why if it does."""
        try:
            deed()
        except DocumentError as error:
            self.bar.say(str(error), [str(problem) for problem in error.problems])
            return False
        except WirerError as error:
            self.bar.say(str(error))
            return False
        self.bar.hide()
        return True

    def dragEnterEvent(self, event: QDragEnterEvent) -> None:
        """Welcome files."""
        if any(url.isLocalFile() for url in event.mimeData().urls()):
            event.acceptProposedAction()

    def dropEvent(self, event: QDropEvent) -> None:
        """Open the files that were dropped."""
        urls = event.mimeData().urls()
        event.acceptProposedAction()
        self.open_files([Path(url.toLocalFile()) for url in urls if url.isLocalFile()])

    # Saving and exporting

    def save(self) -> bool:
        """Write the circuit to its file, asking for one where it has none."""
        path = self.session.path
        return self._try(lambda: self.session.save(path)) if path else self.save_as()

    def save_as(self) -> bool:
        """Write the circuit to another file, which is its own from then on."""
        suggested = str(self.session.path or self._suggested(SUFFIX))
        path = self.dialogs.file_to_write(
            self, "Save as", suggested, f"Circuits (*{SUFFIX})", SUFFIX
        )
        if path is None or not self._try(lambda: self.session.save(path)):
            return False
        self.preferences.note_recent(path.absolute())
        return True

    def export_picture(self) -> None:
        """Write the wiring view to a file."""
        from wirer.window.export import PICTURES, write_picture  # noqa: PLC0415 # for a quick start

        path = self.dialogs.file_to_write(
            self, "Export picture", str(self._suggested(".pdf")), PICTURES, ".pdf"
        )
        if path:
            circuit, stance = self.session.circuit, self.session.stance
            layout = self.studies.layout if self.studies.is_current("layout") else None
            if self._try(lambda: write_picture(path, circuit, layout, stance)):
                self.bar.say(f"The picture was written to {path}.", is_error=False)

    def export_table(self) -> None:
        """Write the combination table to a file."""
        from wirer.window.export import TABLES, write_table  # noqa: PLC0415 # for a quick start

        table = self.studies.table
        path = table and self.dialogs.file_to_write(
            self, "Export table", str(self._suggested(".csv")), TABLES, ".csv"
        )
        if table and path:
            circuit, distinct = self.session.circuit, self.table_panel.distinct.isChecked()
            if self._try(lambda: write_table(path, table, circuit, distinct=distinct)):
                self.bar.say(f"The table was written to {path}.", is_error=False)

    def _suggested(self, suffix: str) -> Path:
        folder = self.session.path.parent if self.session.path else Path.cwd()
        stem = self.session.path.stem if self.session.path else self.session.name or "circuit"
        plain = "".join(c if c.isalnum() or c in " -_" else "-" for c in stem).strip()
        return folder / f"{plain or 'circuit'}{suffix}"

    # Looks

    def show_theme(self, theme: Theme) -> None:
        """Take on a theme's colours."""
        self.shown.show_theme(theme)
        self.status.show_theme(theme)
        self.table_panel.show_quiet(self.palette().placeholderText().color())

    def choose_theme(self, choice: ThemeChoice) -> None:
        """Give every window the colours of a choice."""
        self.house.choose_theme(choice)

    @property
    def is_lit(self) -> bool:
        """Whether the nets are lit by their roles."""
        return self.shown.is_lit

    def toggle_lit(self) -> None:
        """Light the nets by their roles, or stop doing so."""
        self.shown.light(not self.shown.is_lit)

    def zoom(self, way: int) -> None:
        """Show the picture larger (1) or smaller (−1)."""
        self.view.zoom_by(KEY_ZOOM**way)

    def toggle_panel(self, name: str) -> None:
        """Bring a panel to the front, or hide it."""
        self.panels.toggle(name)

    def is_panel_shown(self, name: str) -> bool:
        """Tell whether a panel can be seen."""
        return self.panels.is_shown(name)

    def reset_panels(self) -> None:
        """Put every panel where it was at the first start."""
        self.panels.reset()

    def step_setting(self, by: int) -> None:
        """Go on by so many rows of the combination table."""
        self.table_panel.step(by)

    def show_keys(self) -> None:
        """Show the page of mouse and keys."""
        help_pages.Page("Mouse and keys", help_pages.keys_html(), self).show()

    def show_about(self) -> None:
        """Show the page about the program."""
        help_pages.Page("About wirer", help_pages.about_html(), self).show()

    def _show_empty_page(self) -> None:
        self._offer()
        self.stack.setCurrentWidget(self.page)
        self.panels.show_all(False)
        self.status.show_circuit_tools(False)
        self._show_title()
        self.menus.refresh()

    def _offer(self) -> None:
        self.page.fill(examples(), self.preferences.recent)

    def _show_circuit(self) -> None:
        if self.stack.currentWidget() is not self.view:
            self.stack.setCurrentWidget(self.view)
            self.status.show_circuit_tools(True)
            self.panels.show_all(True)
            self.panels.restore(self.preferences)
        self.view.fit()
        self.view.setFocus(Qt.FocusReason.OtherFocusReason)

    def _show_title(self) -> None:
        name = self.session.name or ("Untitled" if self.session.is_open else "")
        self.setWindowTitle(f"{name}[*] – wirer" if name else "wirer")
        self.setWindowModified(not self.session.is_clean)
        self.setWindowFilePath(str(self.session.path or ""))

    def _count_findings(self, count: int) -> None:
        self.panels.docks["findings"].setWindowTitle(f"Findings ({count})" if count else "Findings")

    def _keep_columns(self) -> None:
        chosen = self.table_panel.fit.chosen
        self.preferences.keep(COLUMNS, None if chosen is None else list(chosen))

    # Coming and going

    def showEvent(self, event: QShowEvent) -> None:
        """Come back where the window was; show the whole circuit the first time."""
        if not self._was_shown:
            self._was_shown = True
            geometry = self.preferences.bytes(GEOMETRY)
            if geometry:
                self.restoreGeometry(geometry)
        super().showEvent(event)

    def closeEvent(self, event: QCloseEvent) -> None:
        """Ask about unsaved changes, then end the worker and remember where everything was."""
        if not self.session.is_clean:
            answer = self.dialogs.about_changes(self, self.session.name or "Untitled")
            if answer == "cancel" or (answer == "save" and not self.save()):
                event.ignore()
                return
        self.is_closed = True
        if self.session.is_open:
            self.panels.keep(self.preferences)
        self.preferences.keep(GEOMETRY, self.saveGeometry())
        self.preferences.keep(DISTINCT, self.table_panel.distinct.isChecked())
        self.preferences.write()
        self._worker.close()
        super().closeEvent(event)

    def quit(self) -> None:
        """Close every window."""
        self.house.quit()
