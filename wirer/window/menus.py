"""The menu bar made of the list of actions."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtGui import QAction, QKeySequence
from PySide6.QtWidgets import QMenu

from wirer.window.actions import ACTIONS, MENUS, Action
from wirer.window.examples import examples

if TYPE_CHECKING:
    from wirer.window.window import Window


class Menus:
    """The window's menus and the Qt actions in them, by id."""

    def __init__(self, window: Window) -> None:
        self._window = window
        self.actions: dict[str, QAction] = {}
        self.menus: dict[str, QMenu] = {}
        self.recent = QMenu("&Recent", window)
        self.examples = QMenu("&Examples", window)
        for title in MENUS:
            self.menus[title] = menu = window.menuBar().addMenu(f"&{title}")
            self._fill(menu, [action for action in ACTIONS if action.menu == title])
            menu.aboutToShow.connect(self.refresh)
        self._add_files()

    def refresh(self, *_change: object) -> None:
        """Show which actions can be done now and which are ticked."""
        for action in ACTIONS:
            made = self.actions[action.id]
            made.setEnabled(action.enabled(self._window))
            if action.checked:
                made.setChecked(action.checked(self._window))
        session = self._window.session
        for name, undone in (("undo", session.undo_name), ("redo", session.redo_name)):
            text = f"&{name.capitalize()} {undone.lower()}".rstrip()
            self.actions[f"edit.{name}"].setText(text)

    def _fill(self, menu: QMenu, actions: list[Action]) -> None:
        group, submenus = 0, dict[str, QMenu]()
        for action in actions:
            if action.group != group and menu.actions():
                menu.addSeparator()
            group = action.group
            target = menu
            made = self._made(action)
            if action.submenu:
                if action.submenu not in submenus:
                    submenus[action.submenu] = menu.addMenu(action.submenu)
                target = submenus[action.submenu]
            target.addAction(made)

    def _made(self, action: Action) -> QAction:
        made = QAction(action.title, self._window)
        made.setObjectName(action.id)
        made.setCheckable(action.checked is not None)
        if action.shortcut:
            portable = QKeySequence.SequenceFormat.PortableText
            made.setShortcut(QKeySequence(action.shortcut, portable))
        if action.tip:
            made.setStatusTip(action.tip)
            made.setToolTip(action.tip)
        made.triggered.connect(partial(self._run, action))
        self.actions[action.id] = made
        return made

    def _run(self, action: Action, *_checked: bool) -> None:
        action.run(self._window)
        if not self._window.is_closed:
            self.refresh()

    def _add_files(self) -> None:
        before = self.actions["file.save"]
        menu = self.menus["File"]
        menu.insertMenu(before, self.recent)
        menu.insertMenu(before, self.examples)
        menu.insertSeparator(before)
        self.recent.aboutToShow.connect(self.fill_recent)
        self.examples.aboutToShow.connect(self.fill_examples)

    def fill_recent(self) -> None:
        """List the recent files."""
        self.recent.clear()
        for path in self._window.preferences.recent:
            action = self.recent.addAction(str(path).replace("&", "&&"))
            action.triggered.connect(partial(self._open_recent, path))
        if self.recent.isEmpty():
            self.recent.addAction("None yet").setEnabled(False)
        else:
            self.recent.addSeparator()
            self.recent.addAction("Forget them").triggered.connect(
                self._window.preferences.clear_recent
            )

    def fill_examples(self) -> None:
        """List the examples."""
        if self.examples.isEmpty():
            for example in examples():
                action = self.examples.addAction(example.title.replace("&", "&&"))
                action.triggered.connect(partial(self._open_example, example))

    def _open_recent(self, path: object, *_checked: bool) -> None:
        self._window.open_files([path])  # type: ignore[list-item] # partial loses the type

    def _open_example(self, example: object, *_checked: bool) -> None:
        self._window.open_example(example)  # type: ignore[arg-type] # partial loses the type
