"""The wiring view by mouse and keyboard."""

from collections.abc import Callable
from itertools import pairwise
from pathlib import Path

import pytest
from PySide6.QtCore import QEvent, QPoint, QPointF, Qt
from PySide6.QtGui import (
    QContextMenuEvent,
    QFocusEvent,
    QInputDevice,
    QMouseEvent,
    QNativeGestureEvent,
    QPointingDevice,
    QWheelEvent,
)
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from wirer.circuit.kind import Point
from wirer.layout.transform import Transform
from wirer.window.hand import Pointed
from wirer.window.view import WiringView
from wirer.window.window import Window

LEFT = Qt.MouseButton.LeftButton
Key = Qt.Key


def on_part(window: Window, part_id: str, point: Point) -> QPoint:
    """Where a point of a part's own frame lies in the viewport."""
    part = window.session.circuit.part_by_id[part_id]
    return window.view.mapFromScene(QPointF(*Transform.of(part).point(point)))


def on_lug(window: Window, lug: str) -> QPoint:
    return window.view.mapFromScene(QPointF(*window.view.wiring.scenery.layout.lugs[lug]))


def click(qtbot: QtBot, window: Window, place: QPoint) -> None:
    qtbot.mouseClick(window.view.viewport(), LEFT, pos=place)


def point_at(window: Window, place: QPoint) -> None:
    """Move the pointer to a place of the viewport, wherever it was before."""
    viewport = window.view.viewport()
    event = QMouseEvent(
        QEvent.Type.MouseMove,
        QPointF(place),
        QPointF(viewport.mapToGlobal(place)),
        Qt.MouseButton.NoButton,
        Qt.MouseButton.NoButton,
        Qt.KeyboardModifier.NoModifier,
    )
    QApplication.sendEvent(viewport, event)


def drag(qtbot: QtBot, window: Window, start: QPoint, *ends: QPoint) -> None:
    viewport = window.view.viewport()
    qtbot.mousePress(viewport, LEFT, pos=start)
    for end in ends:
        qtbot.mouseMove(viewport, end)
    qtbot.mouseRelease(viewport, LEFT, pos=ends[-1])


def roll(
    view: WiringView,
    place: QPoint,
    clicks: int,
    at_ms: int,
    modifiers: Qt.KeyboardModifier = Qt.KeyboardModifier.NoModifier,
    device: QPointingDevice | None = None,
) -> None:
    """Roll the wheel over a place of the viewport, so many ms into the session."""
    event = QWheelEvent(
        QPointF(place),
        QPointF(view.viewport().mapToGlobal(place)),
        QPoint(),
        QPoint(0, 120 * clicks),
        Qt.MouseButton.NoButton,
        modifiers,
        Qt.ScrollPhase.NoScrollPhase,
        False,
        Qt.MouseEventSource.MouseEventNotSynthesized,
        device or QPointingDevice.primaryPointingDevice(),
    )
    event.setTimestamp(at_ms)
    QApplication.sendEvent(view.viewport(), event)


# Switches by mouse


def test_a_click_on_the_other_side_throws_the_slide_there(small: Window, qtbot: QtBot) -> None:
    click(qtbot, small, on_part(small, "S", (0, 4)))
    assert small.session.stance.positions["S"] == "down"
    click(qtbot, small, on_part(small, "S", (0, 4)))
    assert small.session.stance.positions["S"] == "up"
    assert small.session.is_clean


def test_a_slide_follows_the_hand(small: Window, qtbot: QtBot) -> None:
    places = [on_part(small, "S", (0, y)) for y in (-3, 0, 3, 4)]
    drag(qtbot, small, *places)
    assert small.session.stance.positions["S"] == "down"


def test_a_click_on_a_positions_name_throws_there(small: Window, qtbot: QtBot) -> None:
    (choice,) = [
        c for c in small.view.wiring.scenery.layout.labels.choices["S"] if c.position == "down"
    ]
    click(qtbot, small, small.view.mapFromScene(QPointF(*choice.label.box.centre)))
    assert small.session.stance.positions["S"] == "down"


def test_a_click_anywhere_on_a_switchs_body_throws_it_on(small: Window, qtbot: QtBot) -> None:
    body = small.session.circuit.kind("slide-2p2t").body
    place = on_part(small, "S", (body.size[0] / 2 - 1, body.size[1] / 2 - 1))
    click(qtbot, small, place)
    assert small.session.stance.positions["S"] == "down"
    click(qtbot, small, place)
    assert small.session.stance.positions["S"] == "up"


def test_a_click_beside_everything_does_nothing(small: Window, qtbot: QtBot) -> None:
    before = small.session.stance
    click(qtbot, small, QPoint(2, 2))
    assert small.session.stance == before


def test_a_button_springs_back(
    opened: Callable[[Path], Window], tmp_path: Path, qtbot: QtBot
) -> None:
    path = tmp_path / "button.wirer"
    parts = '[{"id": "K", "kind": "momentary"}, {"id": "J", "kind": "jack-ts", "at": [50, 0]}]'
    path.write_text(f'{{"format": "wirer", "version": 1, "wires": [], "parts": {parts}}}')
    window = opened(path)
    grip = window.session.circuit.kind("momentary").actuator.grip
    place = on_part(window, "K", grip[:2])
    qtbot.mousePress(window.view.viewport(), LEFT, pos=place)
    assert window.session.stance.positions["K"] == "pressed"
    qtbot.mouseRelease(window.view.viewport(), LEFT, pos=place)
    assert window.session.stance.positions["K"] == "rest"


# Knobs by mouse


def test_the_wheel_over_a_knob_turns_it_and_elsewhere_zooms(small: Window) -> None:
    scale = small.view.pixels_per_mm
    roll(small.view, on_part(small, "V", (3, 3)), -2, at_ms=1000)
    assert small.session.stance.rotations["V.shaft"] == pytest.approx(0.9)
    assert small.view.pixels_per_mm == scale
    roll(small.view, QPoint(5, 5), 1, at_ms=2000)
    assert small.view.pixels_per_mm > scale
    assert small.session.stance.rotations["V.shaft"] == pytest.approx(0.9)


def test_zooming_that_runs_over_a_knob_goes_on_zooming(small: Window) -> None:
    roll(small.view, QPoint(5, 5), 1, at_ms=1000)
    scale = small.view.pixels_per_mm
    roll(small.view, on_part(small, "V", (3, 3)), -1, at_ms=1100)
    assert small.view.pixels_per_mm < scale
    assert small.session.stance.rotations["V.shaft"] == 1.0


def test_control_and_the_wheel_zoom_over_a_knob_too(small: Window) -> None:
    scale = small.view.pixels_per_mm
    control = Qt.KeyboardModifier.ControlModifier
    roll(small.view, on_part(small, "V", (3, 3)), 1, at_ms=5000, modifiers=control)
    assert small.view.pixels_per_mm > scale


def test_dragging_round_a_knob_from_behind_turns_it_down_clockwise(
    small: Window, qtbot: QtBot
) -> None:
    places = [on_part(small, "V", p) for p in ((8, -1), (7, 4), (1, 8))]
    drag(qtbot, small, *places)
    assert 0.5 < small.session.stance.rotations["V.shaft"] < 0.9


def test_a_touchpad_moves_the_picture_and_a_pinch_zooms(small: Window) -> None:
    view = small.view
    view.zoom_by(4.0)
    pad = QPointingDevice(
        "pad",
        7,
        QInputDevice.DeviceType.TouchPad,
        QPointingDevice.PointerType.Finger,
        QInputDevice.Capability.Scroll,
        2,
        0,
    )
    before = view.mapToScene(QPoint(100, 100))
    roll(view, QPoint(200, 200), -1, at_ms=9000, device=pad)
    assert view.mapToScene(QPoint(100, 100)).y() > before.y()
    scale = view.pixels_per_mm
    place = QPointF(200, 200)
    gesture = Qt.NativeGestureType.ZoomNativeGesture
    pinch = QNativeGestureEvent(gesture, pad, 2, place, place, place, 0.25, QPointF())
    QApplication.sendEvent(view.viewport(), pinch)
    assert view.pixels_per_mm == pytest.approx(1.25 * scale)


# Looking


def test_zooming_keeps_what_is_under_the_pointer(small: Window) -> None:
    place = on_lug(small, "V.2")
    small.view.zoom_by(2.0, place)
    before = small.view.mapToScene(place)
    small.view.zoom_by(1.5, place)
    after = small.view.mapToScene(place)
    assert (before - after).manhattanLength() < 1.5


def test_true_size_has_the_screens_pixels_to_a_millimetre(small: Window) -> None:
    small.view.show_true_size()
    dpi = small.screen().physicalDotsPerInch()
    assert small.view.pixels_per_mm == pytest.approx(dpi / 25.4)
    assert small.status.scale.text() == "100 %"


def test_fitting_shows_every_part(small: Window) -> None:
    small.view.zoom_by(6.0)
    small.view.fit()
    seen = small.view.mapToScene(small.view.viewport().rect()).boundingRect()
    box = small.view.wiring.scenery.layout.box
    assert seen.contains(QPointF(box.left, box.top))
    assert seen.contains(QPointF(box.right, box.bottom))


def test_the_middle_button_and_space_move_the_picture(small: Window, qtbot: QtBot) -> None:
    view = small.view
    view.zoom_by(4.0)
    for button, key in ((Qt.MouseButton.MiddleButton, None), (LEFT, Key.Key_Space)):
        before = view.mapToScene(QPoint(100, 100))
        if key:
            qtbot.keyPress(view, key)
        qtbot.mousePress(view.viewport(), button, pos=QPoint(200, 200))
        qtbot.mouseMove(view.viewport(), QPoint(180, 190))
        qtbot.mouseRelease(view.viewport(), button, pos=QPoint(180, 190))
        if key:
            qtbot.keyRelease(view, key)
        moved = view.mapToScene(QPoint(100, 100)) - before
        assert moved.x() > 0
        assert moved.y() > 0
    assert small.session.stance.positions["S"] == "up"


def test_pointing_at_a_lug_names_it_and_lights_its_net(small: Window, qtbot: QtBot) -> None:
    point_at(small, on_lug(small, "S.A0"))
    text = small.status.pointed.text()
    assert "Kill lug A0 (5)" in text
    assert "Slide switch, two poles, two positions" in text
    assert "on signal" in text
    assert small.view.toolTip().splitlines()[0] == "Kill lug A0 (5)"
    assert {"S.A0", "S.A1", "N.finish", "V.3"} <= small.view.wiring.glow.net
    assert "S.A2" not in small.view.wiring.glow.net


def test_the_net_that_is_pointed_at_follows_the_switch(small: Window, qtbot: QtBot) -> None:
    point_at(small, on_lug(small, "S.A0"))
    small.session.throw("S", "down")
    assert "S.A2" in small.view.wiring.glow.net
    assert "on ground" in small.status.pointed.text()


def test_pointing_at_a_wire_lights_its_net(small: Window, qtbot: QtBot) -> None:
    route = small.view.wiring.scenery.layout.routes["w1"].points
    (ax, ay), (bx, by) = max(
        pairwise(route),
        key=lambda s: abs(s[0][0] - s[1][0]) + abs(s[0][1] - s[1][1]),
    )
    middle = small.view.mapFromScene(QPointF((ax + bx) / 2, (ay + by) / 2))
    point_at(small, middle)
    assert "Wire w1: N.finish to S.A0" in small.status.pointed.text()
    assert "YE (yellow)" in small.status.pointed.text()
    assert "V.3" in small.view.wiring.glow.net


def test_the_menu_of_a_switch_lists_its_positions_by_the_builders_names(small: Window) -> None:
    menu = small.pointing.menu_of(Pointed("grip", "S"))
    texts = [action.text() for action in menu.actions() if action.text()]
    assert texts == ["on", "off"]
    assert [action.isChecked() for action in menu.actions()[:2]] == [True, False]
    menu.actions()[1].trigger()
    assert small.session.stance.positions["S"] == "down"


def test_the_menu_of_a_knob_turns_it(small: Window) -> None:
    menu = small.pointing.menu_of(Pointed("shaft", "V"))
    off = next(action for action in menu.actions() if "0 (off)" in action.text())
    off.trigger()
    assert small.session.stance.rotations["V.shaft"] == 0.0


def test_the_menu_key_asks_for_the_focused_parts_menu(small: Window, qtbot: QtBot) -> None:
    small.view.keys.focus_first(1)
    small.view.menu_wanted.disconnect()
    event = QContextMenuEvent(QContextMenuEvent.Reason.Keyboard, QPoint(), QPoint())
    with qtbot.waitSignal(small.view.menu_wanted) as told:
        QApplication.sendEvent(small.view.viewport(), event)
    assert told.args[0] == Pointed("part", "S")


# Keys


def test_tab_goes_from_part_to_part_and_out_again(small: Window) -> None:
    view = small.view
    view.setFocus()
    view.keys.focus_first(1)
    focused = [view.keys.focus]
    while view.focusNextPrevChild(True) and view.hasFocus():
        focused.append(view.keys.focus)
    assert focused == ["S", "V", "N", "J"]


def test_the_focused_part_is_shown_and_said(small: Window) -> None:
    small.view.setFocus()
    small.view.focusNextPrevChild(True)
    assert small.view.wiring.glow.focus == "S"
    assert small.view.accessibleDescription() == (
        "Kill (S), Slide switch, two poles, two positions, stands at on"
    )
    small.session.throw("S", "down")
    assert small.view.accessibleDescription().endswith("stands at off")


def test_arrows_throw_and_turn(small: Window, qtbot: QtBot) -> None:
    view = small.view
    view.setFocus()
    view.keys.focus_first(1)
    qtbot.keyClick(view, Key.Key_Down)
    assert small.session.stance.positions["S"] == "down"
    qtbot.keyClick(view, Key.Key_Up)
    assert small.session.stance.positions["S"] == "up"
    view.focusNextPrevChild(True)
    qtbot.keyClick(view, Key.Key_Left)
    assert small.session.stance.rotations["V.shaft"] == pytest.approx(0.95)
    qtbot.keyClick(view, Key.Key_Home)
    assert small.session.stance.rotations["V.shaft"] == 0.0
    qtbot.keyClick(view, Key.Key_End)
    assert small.session.stance.rotations["V.shaft"] == 1.0


@pytest.mark.parametrize("key", [Key.Key_Space, Key.Key_Return])
def test_space_and_enter_throw_on(small: Window, qtbot: QtBot, key: Qt.Key) -> None:
    small.view.setFocus()
    small.view.keys.focus_first(1)
    qtbot.keyClick(small.view, key)
    assert small.session.stance.positions["S"] == "down"


def test_l_steps_through_the_lugs_of_a_part(small: Window, qtbot: QtBot) -> None:
    small.view.setFocus()
    small.view.keys.focus_first(1)
    qtbot.keyClick(small.view, Key.Key_L)
    assert "Kill lug A0 (5)" in small.status.pointed.text()
    assert "N.finish" in small.view.wiring.glow.net
    qtbot.keyClick(small.view, Key.Key_L, Qt.KeyboardModifier.ShiftModifier)
    assert "Kill lug B2" in small.status.pointed.text()


def test_the_focus_comes_in_by_tab_at_either_end(small: Window) -> None:
    for reason, part in (
        (Qt.FocusReason.TabFocusReason, "S"),
        (Qt.FocusReason.BacktabFocusReason, "J"),
    ):
        QApplication.sendEvent(small.view, QFocusEvent(QEvent.Type.FocusIn, reason))
        assert small.view.keys.focus == part


def test_a_click_shows_no_ring_though_keys_go_on_from_there(small: Window, qtbot: QtBot) -> None:
    small.table_panel.view.setFocus()
    QApplication.sendEvent(
        small.view, QFocusEvent(QEvent.Type.FocusIn, Qt.FocusReason.MouseFocusReason)
    )
    click(qtbot, small, on_part(small, "V", (3, 3)))
    assert small.view.wiring.glow.focus is None
    qtbot.keyClick(small.view, Key.Key_Home)
    assert small.session.stance.rotations["V.shaft"] == 0.0
