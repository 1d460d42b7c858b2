"""The window's panels in their docks, and where they are by default."""

from __future__ import annotations

from PySide6.QtCore import QByteArray, Qt
from PySide6.QtWidgets import QDockWidget, QMainWindow, QWidget

from wirer.window.preferences import Preferences

STATE = "window/state"
STATE_VERSION = 1
SIDE_SHARE = 0.41
SETTING_MOST = 0.5


class Panels:
    """Docks by name. The first stands over the others, which share one place."""

    def __init__(self, window: QMainWindow, widgets: dict[str, tuple[str, QWidget]]) -> None:
        self._window = window
        self.docks: dict[str, QDockWidget] = {}
        for name, (title, widget) in widgets.items():
            dock = QDockWidget(title, window)
            dock.setObjectName(f"panel.{name}")
            dock.setWidget(widget)
            self.docks[name] = dock
        self.reset()

    def reset(self) -> None:
        """Put every panel where it was at the first start."""
        first, *others = self.docks.values()
        area = Qt.DockWidgetArea.RightDockWidgetArea
        for dock in self.docks.values():
            self._window.removeDockWidget(dock)
            dock.setFloating(False)
            self._window.addDockWidget(area, dock)
            dock.show()
        self._window.splitDockWidget(first, others[0], Qt.Orientation.Vertical)
        for dock in others[1:]:
            self._window.tabifyDockWidget(others[0], dock)
        others[0].raise_()
        self.share_out()

    def share_out(self) -> None:
        """Give the panels their usual share of the window."""
        first, second, *_ = self.docks.values()
        width = round(self._window.width() * SIDE_SHARE)
        height = self._window.height()
        wanted = min(first.widget().sizeHint().height(), round(height * SETTING_MOST))
        heights = [wanted, height - wanted]
        self._window.resizeDocks([first], [width], Qt.Orientation.Horizontal)
        self._window.resizeDocks([first, second], heights, Qt.Orientation.Vertical)

    def show_all(self, shown: bool) -> None:
        """Show every panel, or hide them."""
        for dock in self.docks.values():
            dock.setVisible(shown)

    def toggle(self, name: str) -> None:
        """Bring a panel to the front with the keyboard in it; hide it if it is there already."""
        dock = self.docks[name]
        if self.is_shown(name):
            dock.hide()
            return
        dock.show()
        dock.raise_()
        dock.widget().setFocus(Qt.FocusReason.ShortcutFocusReason)

    def is_shown(self, name: str) -> bool:
        """Tell whether a panel is shown and not behind another."""
        dock = self.docks[name]
        return dock.isVisible() and not dock.visibleRegion().isEmpty()

    def restore(self, preferences: Preferences) -> None:
        """Put the panels where they were the last time."""
        state = preferences.bytes(STATE)
        if state is None or not self._window.restoreState(state, STATE_VERSION):
            self.reset()

    def keep(self, preferences: Preferences) -> None:
        """Remember where the panels are."""
        state: QByteArray = self._window.saveState(STATE_VERSION)
        preferences.keep(STATE, state)
