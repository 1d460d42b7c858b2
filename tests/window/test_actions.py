"""The list of actions, and that everything made of it is complete."""

from collections import Counter

import pytest
from PySide6.QtGui import QKeySequence
from PySide6.QtWidgets import QMenu

from wirer.window.actions import ACTIONS, MENUS
from wirer.window.help_pages import CAUTIONS, Page, about_html, keys_html
from wirer.window.house import House
from wirer.window.window import Window


def menu_texts(menu: QMenu) -> list[str]:
    found = []
    for action in menu.actions():
        found += menu_texts(action.menu()) if action.menu() else [action.objectName()]
    return found


def test_ids_and_shortcuts_are_used_once() -> None:
    ids = Counter(action.id for action in ACTIONS)
    keys = Counter(action.shortcut for action in ACTIONS if action.shortcut)
    assert ids.most_common(1)[0][1] == 1
    assert keys.most_common(1)[0][1] == 1


def test_every_action_is_in_its_menu(small: Window) -> None:
    for title in MENUS:
        found = menu_texts(small.menus.menus[title])
        assert {a.id for a in ACTIONS if a.menu == title} <= set(found)


def test_no_two_entries_of_a_menu_have_one_letter(small: Window) -> None:
    for menu in (*small.menus.menus.values(), small.menuBar()):
        texts = [action.text() for action in menu.actions() if "&" in action.text()]
        letters = Counter(text[text.index("&") + 1].lower() for text in texts)
        assert {letter for letter, count in letters.items() if count > 1} == set(), texts


def test_shortcuts_are_alive_without_opening_a_menu(small: Window) -> None:
    portable = QKeySequence.SequenceFormat.PortableText
    for action in ACTIONS:
        made = small.menus.actions[action.id]
        assert made.shortcut().toString(portable) == action.shortcut
        assert made.isEnabled() == action.enabled(small)


def test_on_the_empty_page_only_what_makes_sense_is_enabled(house: House) -> None:
    window = house.open_window()
    enabled = {name for name, made in window.menus.actions.items() if made.isEnabled()}
    assert {"file.open", "file.quit", "help.about", "view.theme.dark"} <= enabled
    assert not {"file.save", "view.fit", "setting.next", "file.export-table"} & enabled


@pytest.mark.qt_log_ignore("propagateSizeHints")  # the platform without a screen has none
@pytest.mark.parametrize(
    "name",
    [a.id for a in ACTIONS if not a.id.startswith(("file.", "view.theme"))],
)
def test_every_action_runs(small: Window, name: str) -> None:
    small.menus.actions[name].trigger()
    assert small.stack.currentWidget() is small.view
    for page in small.findChildren(Page):
        page.close()


def test_ticks_tell_what_is_on(small: Window) -> None:
    lit = small.menus.actions["view.lit"]
    assert lit.isChecked()
    lit.trigger()
    assert not lit.isChecked()
    assert small.view.wiring.standing.lit is False
    lit.trigger()
    assert small.view.wiring.standing.lit is True


def test_zooming_by_action(small: Window) -> None:
    before = small.view.pixels_per_mm
    small.menus.actions["view.zoom-in"].trigger()
    assert small.view.pixels_per_mm > before
    small.menus.actions["view.zoom-out"].trigger()
    assert small.view.pixels_per_mm == pytest.approx(before)


def test_the_usual_stance_by_action(small: Window) -> None:
    small.session.throw("S", "down")
    small.session.turn("V.shaft", 0.2)
    small.menus.actions["setting.usual"].trigger()
    assert small.session.stance.positions["S"] == "up"
    assert small.session.stance.rotations["V.shaft"] == 1.0


def test_the_help_page_lists_every_shortcut() -> None:
    html = keys_html()
    native = QKeySequence.SequenceFormat.NativeText
    for action in ACTIONS:
        if action.shortcut:
            assert QKeySequence(action.shortcut).toString(native).replace("&", "&amp;") in html


def test_the_page_about_the_program_shows_the_cautions() -> None:
    html = about_html()
    for word in ("lead", "residual current device", "licensed people", "PCBs", "battery"):
        assert word in html
    assert html.count("<li>") == len(CAUTIONS)


@pytest.mark.qt_log_ignore("propagateSizeHints")
def test_pages_are_shown_beside_the_work(small: Window) -> None:
    small.menus.actions["help.about"].trigger()
    (page,) = small.findChildren(Page)
    assert page.isVisible()
    assert not page.isModal()
    page.close()
