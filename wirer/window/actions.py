"""Every action of the window as data: menus, shortcuts, the help page and the tests read it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import TYPE_CHECKING

from wirer.window.preferences import ThemeChoice

if TYPE_CHECKING:
    from wirer.window.window import Window

MENUS = ("File", "Edit", "View", "Setting", "Help")


@dataclass(frozen=True)
class Action:
    """One thing that a person can have done.

    `shortcut` is in Qt's portable spelling. `group` parts a menu by lines; a `submenu` stands in
    its menu under that name. `checked` tells whether it is ticked (None: it never is), `enabled`
    whether it can be done now. `tip` says what it does where the title does not.
    """

    id: str
    title: str
    menu: str
    run: Callable[[Window], object]
    shortcut: str = ""
    group: int = 0
    submenu: str = ""
    tip: str = ""
    checked: Callable[[Window], bool] | None = None
    enabled: Callable[[Window], bool] = lambda _window: True


def _is_open(window: Window) -> bool:
    return window.session.is_open


def _has_table(window: Window) -> bool:
    return window.studies.is_current("table")


def _theme(choice: ThemeChoice, title: str) -> Action:
    return Action(
        f"view.theme.{choice}",
        title,
        "View",
        lambda w: w.choose_theme(choice),
        group=3,
        submenu="T&heme",
        checked=lambda w: w.preferences.theme == choice,
    )


def _panel(name: str, title: str, shortcut: str) -> Action:
    return Action(
        f"view.panel.{name}",
        title,
        "View",
        lambda w: w.toggle_panel(name),
        shortcut,
        group=2,
        submenu="&Panels",
        checked=lambda w: w.is_panel_shown(name),
        enabled=_is_open,
        tip="Shows the panel and brings it to the front, or hides it",
    )


ACTIONS: tuple[Action, ...] = (
    Action("file.new-window", "New &window", "File", lambda w: w.open_window(), "Ctrl+Shift+N"),
    Action(
        "file.open", "&Open…", "File", lambda w: w.ask_and_open(), "Ctrl+O",
        tip="Opens one circuit in this window, further ones in windows of their own",
    ),
    Action(
        "file.save", "&Save", "File", lambda w: w.save(), "Ctrl+S", 1, enabled=_is_open,
        tip="Writes the circuit, with its switches and knobs as they stand, to its file",
    ),
    Action(
        "file.save-as", "Save &as…", "File", lambda w: w.save_as(), "Ctrl+Shift+S", 1,
        enabled=_is_open,
    ),
    Action(
        "file.export-picture", "Export &picture…", "File", lambda w: w.export_picture(),
        "Ctrl+E", 2, enabled=_is_open,
        tip="Writes the wiring view at true size as SVG, PDF or PNG",
    ),
    Action(
        "file.export-table", "Export &table…", "File", lambda w: w.export_table(),
        "Ctrl+Shift+E", 2, enabled=_has_table,
        tip="Writes the combination table, as it is filtered, as CSV or Markdown",
    ),
    Action("file.close", "&Close window", "File", lambda w: w.close(), "Ctrl+W", 3),
    Action("file.quit", "&Quit", "File", lambda w: w.quit(), "Ctrl+Q", 3),
    Action(
        "edit.undo", "&Undo", "Edit", lambda w: w.session.undo(), "Ctrl+Z",
        enabled=lambda w: bool(w.session.undo_name),
    ),
    Action(
        "edit.redo", "&Redo", "Edit", lambda w: w.session.redo(), "Ctrl+Shift+Z",
        enabled=lambda w: bool(w.session.redo_name),
    ),
    Action(
        "edit.copy-rows", "&Copy rows as text", "Edit", lambda w: w.table_panel.copy(),
        "Ctrl+Shift+C", 1, enabled=_has_table,
        tip="Puts the selected rows of the combination table on the clipboard",
    ),
    Action("view.zoom-in", "Zoom &in", "View", lambda w: w.zoom(1), "Ctrl++", enabled=_is_open),
    Action("view.zoom-out", "Zoom &out", "View", lambda w: w.zoom(-1), "Ctrl+-", enabled=_is_open),
    Action("view.fit", "&Fit", "View", lambda w: w.view.fit(), "Ctrl+0", enabled=_is_open,
           tip="Shows the whole circuit"),
    Action("view.true-size", "&True size", "View", lambda w: w.view.show_true_size(), "Ctrl+1",
           enabled=_is_open, tip="Shows a millimetre as a millimetre on this screen"),
    Action(
        "view.lit", "&Light the nets", "View", lambda w: w.toggle_lit(), "Ctrl+L", 1,
        checked=lambda w: w.is_lit, enabled=_is_open,
        tip="Shows what is on signal and on ground in the present setting, and sets back what is"
        " not connected",
    ),
    _panel("setting", "&This setting", "Ctrl+2"),
    _panel("table", "&Combinations", "Ctrl+3"),
    _panel("findings", "&Findings", "Ctrl+4"),
    _panel("controls", "&Switches and knobs", "Ctrl+5"),
    Action("view.reset-panels", "&Put all back", "View", lambda w: w.reset_panels(), "", 2,
           "&Panels", enabled=_is_open, tip="Puts every panel where it was at the first start"),
    _theme("system", "As the &system"),
    _theme("light", "&Light"),
    _theme("dark", "&Dark"),
    Action("setting.next", "&Next", "Setting", lambda w: w.step_setting(1), "Alt+Down",
           enabled=_has_table, tip="Goes to the next row of the combination table"),
    Action("setting.previous", "&Previous", "Setting", lambda w: w.step_setting(-1), "Alt+Up",
           enabled=_has_table, tip="Goes to the previous row of the combination table"),
    Action("setting.usual", "&First positions, knobs full", "Setting",
           lambda w: w.session.take_usual_stance(), "Ctrl+R", enabled=_is_open,
           tip="Brings every switch to its first position and every knob to its full one"),
    Action("setting.distinct", "&Distinct sounds only", "Setting",
           lambda w: w.table_panel.distinct.toggle(), "Ctrl+D", 1,
           checked=lambda w: w.table_panel.distinct.isChecked(), enabled=_is_open,
           tip="Hides silent rows and rows that are the same as an earlier one"),
    Action("help.keys", "&Mouse and keys", "Help", lambda w: w.show_keys(), "F1"),
    Action("help.about", "&About wirer, and cautions", "Help", lambda w: w.show_about(), "", 1),
)  # fmt: skip
