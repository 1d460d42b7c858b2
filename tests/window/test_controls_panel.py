"""Switches and knobs as plain widgets, both ways."""

from collections.abc import Callable
from pathlib import Path

from PySide6.QtCore import Qt
from pytestqt.qtbot import QtBot

from tests.window.conftest import EXAMPLES
from wirer.window.window import Window


def test_buttons_throw_and_show(small: Window, qtbot: QtBot) -> None:
    choice = small.controls_panel.choices["S"]
    assert [button.text() for button in choice.buttons] == ["on", "off"]
    choice.buttons[1].click()
    assert small.session.stance.positions["S"] == "down"
    small.session.throw("S", "up")
    assert choice.buttons[0].isChecked()


def test_arrow_keys_go_along_the_buttons(small: Window, qtbot: QtBot) -> None:
    first = small.controls_panel.choices["S"].buttons[0]
    first.setFocus()
    qtbot.keyClick(first, Qt.Key.Key_Right)
    assert small.session.stance.positions["S"] == "down"


def test_a_slider_turns_and_shows(small: Window) -> None:
    dial = small.controls_panel.dials["V.shaft"]
    assert dial.number.text() == "10.0"
    dial.slider.setValue(25)
    assert small.session.stance.rotations["V.shaft"] == 0.25
    small.session.turn("V.shaft", 0.775)
    assert dial.number.text() == "7.8"


def test_turning_by_the_wheel_is_not_rounded_to_the_sliders_steps(small: Window) -> None:
    small.session.turn("V.shaft", 0.123)
    assert small.session.stance.rotations["V.shaft"] == 0.123


def test_many_positions_make_a_list(opened: Callable[[Path], Window]) -> None:
    window = opened(next(EXAMPLES.glob("05*.wirer")))
    (part,) = window.session.circuit.switches
    choice = window.controls_panel.choices[part.id]
    assert choice.list is not None
    choice.list.setCurrentIndex(2)
    assert window.setting_panel.headline.text() == "Neck in parallel with Bridge"
