"""Themes, accessible names, and the nets lit by their roles."""

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtGui import QPalette
from PySide6.QtWidgets import (
    QAbstractButton,
    QAbstractItemView,
    QAbstractSlider,
    QApplication,
    QComboBox,
    QWidget,
)
from pytestqt.qtbot import QtBot

from wirer.drawing.palette import DARK, LIGHT, THEMES, contrast
from wirer.window.house import House
from wirer.window.sketch import MOST_KEPT, Picture
from wirer.window.theme import FACE_SHARES, palette_of
from wirer.window.window import Window

Roles = QPalette.ColorRole


@pytest.mark.parametrize("theme", [theme for theme in THEMES if theme.name in FACE_SHARES])
def test_text_stands_out_from_its_ground(theme) -> None:
    """At least 4.5:1, WCAG 2 success criterion 1.4.3."""
    palette = palette_of(theme)
    pairs = [
        (Roles.WindowText, Roles.Window),
        (Roles.Text, Roles.Base),
        (Roles.Text, Roles.AlternateBase),
        (Roles.ButtonText, Roles.Button),
        (Roles.PlaceholderText, Roles.Window),
        (Roles.PlaceholderText, Roles.AlternateBase),
        (Roles.HighlightedText, Roles.Highlight),
        (Roles.ToolTipText, Roles.ToolTipBase),
        (Roles.Link, Roles.Window),
    ]
    for text, ground in pairs:
        ratio = contrast(palette.color(text).name(), palette.color(ground).name())
        assert ratio >= 4.5, (text, ground)


def test_the_theme_changes_every_window_and_is_remembered(house: House, small: Window) -> None:
    small.menus.actions["view.theme.dark"].trigger()
    assert small.view.wiring.standing.theme is DARK
    assert house.preferences.theme == "dark"
    assert house.open_window().shown._theme is DARK
    small.menus.actions["view.theme.light"].trigger()
    assert small.view.wiring.standing.theme is LIGHT
    assert small.menus.actions["view.theme.light"].isChecked()
    assert not small.menus.actions["view.theme.dark"].isChecked()
    small.menus.actions["view.theme.system"].trigger()


def test_the_paper_takes_the_themes_colour(small: Window) -> None:
    for name, theme in (("dark", DARK), ("light", LIGHT)):
        small.menus.actions[f"view.theme.{name}"].trigger()
        image = small.view.viewport().grab().toImage()
        corner = image.pixelColor(QPoint(3, 3)).name()
        assert corner in {theme.paper, theme.grid}


def test_whatever_takes_the_focus_has_a_name(small: Window) -> None:
    kinds = (QAbstractButton, QAbstractItemView, QAbstractSlider, QComboBox)
    nameless = []
    for widget in small.findChildren(QWidget):
        takes_focus = widget.focusPolicy() & Qt.FocusPolicy.TabFocus
        own = not widget.objectName().startswith("qt_") and not isinstance(
            widget.parentWidget(), kinds
        )
        text = widget.text() if isinstance(widget, QAbstractButton) else ""
        if takes_focus and own and isinstance(widget, kinds):
            nameless += [] if widget.accessibleName() or text else [widget]
    assert nameless == []
    for named in (small.view, small.setting_panel, small.controls_panel, small.table_panel.view):
        assert named.accessibleName()


def test_nets_are_lit_by_what_they_are_now(small: Window) -> None:
    standing = small.view.wiring.standing
    assert standing.lug_role("N.finish") == "signal"
    assert standing.lug_role("V.can") == "ground"
    assert standing.lug_role("S.B0") == "open"
    assert not standing.is_faded("N")
    small.session.throw("S", "down")
    standing = small.view.wiring.standing
    assert standing.lug_role("N.finish") == "ground"
    assert standing.is_faded("N")
    wire = small.session.circuit.wire_by_id["w1"]
    assert standing.wire_role(wire) == "ground"


def test_throwing_a_switch_changes_the_picture_there_and_back(small: Window) -> None:
    def picture() -> bytes:
        QApplication.processEvents()
        image = small.view.viewport().grab().toImage()
        return bytes(image.constBits())

    up = picture()
    small.session.throw("S", "down")
    assert picture() != up
    small.session.throw("S", "up")
    assert picture() == up


def test_without_light_nothing_fades(small: Window) -> None:
    small.session.throw("S", "down")
    small.toggle_lit()
    standing = small.view.wiring.standing
    assert not standing.is_faded("N")
    assert standing.lug_role("N.finish") is None


def test_small_windows_hold_everything(series: Window, qtbot: QtBot) -> None:
    series.resize(1024, 700)
    QApplication.processEvents()
    assert (series.width(), series.height()) == (1024, 700)
    assert series.view.width() >= 480
    assert series.table_panel.view.height() >= 120


def test_looks_kept_for_later_stay_few_and_out_of_sight(small: Window) -> None:
    for step in range(30):
        small.session.turn("V.shaft", step / 30)
    pictures = [item for item in small.view.wiring.items() if isinstance(item, Picture)]
    for sketch in {picture.parentItem() for picture in pictures}:
        own = [picture for picture in pictures if picture.parentItem() is sketch]
        assert len(own) <= MOST_KEPT
        assert sum(picture.opacity() > 0 for picture in own) == 1
