"""The program: its windows and what they share."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from PySide6.QtCore import QObject
from PySide6.QtWidgets import QApplication

from wirer.drawing.palette import Theme
from wirer.window.preferences import Preferences, ThemeChoice
from wirer.window.studies import Works
from wirer.window.theme import choose_theme
from wirer.window.window import Window


class House(QObject):
    """Opens windows and gives them their colours; each has a worker of its own."""

    def __init__(
        self,
        application: QApplication,
        preferences: Preferences,
        new_worker: Callable[[], Works],
    ) -> None:
        super().__init__()
        self._application = application
        self._new_worker = new_worker
        self.preferences = preferences
        self.windows: list[Window] = []
        self.theme: Theme = choose_theme(application, preferences.theme)
        application.styleHints().colorSchemeChanged.connect(self._follow_system)

    def open_window(self, path: Path | None = None) -> Window:
        """Open another window, with the circuit in a file or without one."""
        window = Window(self, self._new_worker())
        self.windows.append(window)
        window.destroyed.connect(lambda: self._forget(window))
        window.show_theme(self.theme)
        if path:
            window.open_files([path])
        window.show()
        return window

    def choose_theme(self, choice: ThemeChoice) -> None:
        """Give every window the colours of a choice."""
        self.preferences.theme = choice
        self._show_theme()

    def quit(self) -> None:
        """Close every window; one may refuse."""
        for window in list(self.windows):
            if not window.close():
                return

    def _follow_system(self) -> None:
        if self.preferences.theme == "system":
            self._show_theme()

    def _show_theme(self) -> None:
        self.theme = choose_theme(self._application, self.preferences.theme)
        for window in self.windows:
            window.show_theme(self.theme)

    def _forget(self, window: Window) -> None:
        self.windows = [each for each in self.windows if each is not window]
