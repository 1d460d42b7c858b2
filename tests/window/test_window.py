"""The main window: opening, refusing, saving, several windows, and what is remembered."""

from collections.abc import Callable, Sequence
from pathlib import Path

import pytest
from PySide6.QtCore import QMimeData, QPoint, QPointF, Qt, QUrl
from PySide6.QtGui import QDragEnterEvent, QDropEvent
from PySide6.QtWidgets import QApplication, QWidget
from pytestqt.qtbot import QtBot

from tests.window.conftest import EXAMPLES, SERIES
from wirer.circuit.edits import change_part
from wirer.circuit.files import read_file
from wirer.window.dialogs import Answer, Dialogs
from wirer.window.house import House
from wirer.window.preferences import Preferences
from wirer.window.window import Window


class Scripted(Dialogs):
    """Answers every question as a test has laid down."""

    def __init__(
        self, files: Sequence[Path] = (), target: Path | None = None, changes: Answer = "cancel"
    ) -> None:
        self.files, self.target, self.changes = list(files), target, changes
        self.asked: list[str] = []

    def files_to_open(self, _parent: QWidget, folder: str) -> list[Path]:
        self.asked.append(folder)
        return self.files

    def file_to_write(
        self, _parent: QWidget, _title: str, suggested: str, _kinds: str, _suffix: str
    ) -> Path | None:
        self.asked.append(suggested)
        return self.target

    def about_changes(self, _parent: QWidget, name: str) -> Answer:
        self.asked.append(name)
        return self.changes


def drop(window: Window, *paths: Path) -> None:
    data = QMimeData()
    data.setUrls([QUrl.fromLocalFile(str(path)) for path in paths])
    action, button = Qt.DropAction.CopyAction, Qt.MouseButton.LeftButton
    entering = QDragEnterEvent(QPoint(9, 9), action, data, button, Qt.KeyboardModifier.NoModifier)
    QApplication.sendEvent(window, entering)
    assert entering.isAccepted()
    event = QDropEvent(QPointF(9, 9), action, data, button, Qt.KeyboardModifier.NoModifier)
    QApplication.sendEvent(window, event)


def edit(window: Window) -> None:
    window.session.apply("Rename", lambda circuit: change_part(circuit, "N", label="Front"))


# Opening


def test_without_a_file_it_says_what_to_do_with_the_examples_one_click_away(
    house: House, qtbot: QtBot
) -> None:
    window = house.open_window()
    assert window.stack.currentWidget() is window.page
    titles = [button.text() for button in window.page.examples]
    assert titles[0] == "Baritone, three coils in series"
    assert len(titles) == len(list(EXAMPLES.glob("*.wirer")))
    window.page.examples[0].click()
    assert window.stack.currentWidget() is window.view
    assert window.session.path is None
    assert window.windowTitle().startswith("Baritone, three coils in series")


@pytest.mark.parametrize("file", sorted(EXAMPLES.glob("*.wirer")), ids=lambda path: path.stem[:2])
def test_every_example_is_shown_whole(opened: Callable[[Path], Window], file: Path) -> None:
    window = opened(file)
    scenery = window.view.wiring.scenery
    assert scenery.layout.routes.keys() == window.session.circuit.wire_by_id.keys()
    assert window.table_panel.model.rowCount() == len(window.studies.table or ())
    assert window.setting_panel.headline.text()
    assert not window.bar.isVisible()


def test_the_parts_are_shown_before_the_wires_are_laid(house: House) -> None:
    window = house.open_window(SERIES)
    assert window.status.working.text() == "Laying the wires…"
    assert len(window.view.wiring.scenery.layout.placements) == 15
    assert window.view.wiring.scenery.layout.routes == {}


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ('{"format": "wirer", "version": 9, "parts": [], "wires": []}', "version: 9 is newer"),
        ('{"format": "wirer", "version": 1, "parts": [{"id": "N"}], "wires": []}', "parts[0]"),
        ("{", "bad.wirer"),
        (None, "can't be read"),
    ],
)
def test_a_bad_file_opens_nothing_and_leaves_what_is_open_alone(
    small: Window, small_file: Path, tmp_path: Path, text: str | None, said: str
) -> None:
    circuit = small.session.circuit
    path = tmp_path / "bad.wirer"
    if text is not None:
        path.write_text(text)
    small.open_files([path])
    assert small.bar.isVisible()
    assert said in small.bar.line.text()
    assert str(path) in small.bar.line.text()
    assert "\n" not in small.bar.line.text()
    assert small.session.circuit is circuit
    assert small.session.path == small_file
    assert path not in small.preferences.recent
    small.open_files([small_file])
    assert not small.bar.isVisible()


def test_several_things_wrong_are_told_behind_a_button(house: House, tmp_path: Path) -> None:
    path = tmp_path / "bad.wirer"
    wires = ", ".join(f'{{"id": "w{n}", "from": "A.1", "to": "B.1"}}' for n in range(3))
    path.write_text(f'{{"format": "wirer", "version": 1, "parts": [], "wires": [{wires}]}}')
    window = house.open_window(path)
    assert window.stack.currentWidget() is window.page
    assert "more problems" in window.bar.line.text()
    window.bar.more.click()
    assert window.bar.details.isVisible()
    assert len(window.bar.details.text().splitlines()) > 1


def test_files_are_opened_by_the_dialog_one_here_and_the_others_in_windows_of_theirs(
    house: House, small_file: Path
) -> None:
    window = house.open_window()
    window.dialogs = Scripted([small_file, SERIES])
    window.menus.actions["file.open"].trigger()
    assert [each.session.name for each in house.windows] == [
        "Small",
        "Baritone, three coils in series",
    ]


def test_files_are_opened_by_dropping_them(house: House, small: Window, small_file: Path) -> None:
    drop(small, SERIES, small_file)
    assert [each.session.path for each in house.windows] == [SERIES, small_file]


def test_a_window_with_unsaved_changes_is_left_alone(
    house: House, small: Window, small_file: Path
) -> None:
    edit(small)
    drop(small, SERIES)
    assert small.session.path == small_file
    assert house.windows[1].session.path == SERIES


def test_recent_files_are_offered_the_last_one_first(
    house: House, opened: Callable[[Path], Window], small_file: Path
) -> None:
    opened(small_file)
    opened(SERIES)
    window = house.open_window()
    window.menus.fill_recent()
    texts = [action.text() for action in window.menus.recent.actions()]
    assert texts[:2] == [str(SERIES), str(small_file)]
    assert [button.text() for button in window.page.recent] == [SERIES.name, small_file.name]
    window.menus.recent.actions()[1].trigger()
    assert window.session.path == small_file


def test_a_recent_file_that_is_gone_is_told_of_and_forgotten(
    house: House, opened: Callable[[Path], Window], small_file: Path
) -> None:
    opened(small_file)
    small_file.unlink()
    window = house.open_window()
    window.page.recent[0].click()
    assert "No such file" in window.bar.line.text()
    assert window.preferences.recent == ()
    assert window.page.recent == []


def test_the_examples_menu_opens_an_example(house: House) -> None:
    window = house.open_window()
    window.menus.fill_examples()
    window.menus.examples.actions()[1].trigger()
    assert window.session.name == "Baritone, three coils in parallel"


# Saving


def test_saving_an_example_asks_where(house: House, tmp_path: Path) -> None:
    window = house.open_window()
    window.page.examples[0].click()
    target = tmp_path / "mine.wirer"
    window.dialogs = Scripted(target=target)
    window.session.throw("SN", "down")
    window.menus.actions["file.save"].trigger()
    assert window.session.path == target
    circuit, stance = read_file(target)
    assert circuit == window.session.circuit
    assert stance.positions["SN"] == "down"
    assert target in window.preferences.recent


def test_unsaved_changes_are_marked_and_asked_about(house: House, small: Window) -> None:
    assert not small.isWindowModified()
    edit(small)
    assert small.isWindowModified()
    small.dialogs = dialogs = Scripted(changes="cancel")
    assert not small.close()
    assert dialogs.asked == ["Small"]
    assert small in house.windows
    small.dialogs = Scripted(changes="save")
    path = small.session.path
    assert small.close()
    assert path is not None
    assert read_file(path)[0].part_by_id["N"].label == "Front"


def test_discarding_closes_without_writing(small: Window, small_file: Path) -> None:
    before = small_file.read_bytes()
    edit(small)
    small.dialogs = Scripted(changes="discard")
    assert small.close()
    assert small_file.read_bytes() == before


def test_throwing_a_switch_is_nothing_to_save(small: Window) -> None:
    small.session.throw("S", "down")
    assert not small.isWindowModified()
    small.dialogs = dialogs = Scripted()
    assert small.close()
    assert dialogs.asked == []


def test_what_can_not_be_written_is_told(small: Window, tmp_path: Path) -> None:
    small.dialogs = Scripted(target=tmp_path / "nowhere" / "x.wirer")
    small.menus.actions["file.save-as"].trigger()
    assert "can't be written" in small.bar.line.text()


def test_an_edit_is_undone_by_its_name(small: Window) -> None:
    edit(small)
    undo, redo = small.menus.actions["edit.undo"], small.menus.actions["edit.redo"]
    assert undo.isEnabled()
    assert undo.text() == "&Undo rename"
    undo.trigger()
    assert small.session.circuit.part_by_id["N"].label == "Neck"
    assert not undo.isEnabled()
    assert redo.isEnabled()


# Coming and going


def test_each_window_ends_its_worker(house: House, small: Window) -> None:
    worker = small._worker
    small.close()
    assert worker.is_closed  # type: ignore[attr-defined]


def test_quitting_closes_every_window_unless_one_refuses(
    house: House, opened: Callable[[Path], Window], small_file: Path
) -> None:
    first, second = opened(small_file), opened(small_file)
    edit(second)
    second.dialogs = Scripted(changes="cancel")
    first.menus.actions["file.quit"].trigger()
    assert first.is_closed
    assert not second.is_closed


def test_panels_come_back_where_they_were(
    opened: Callable[[Path], Window], small_file: Path
) -> None:
    window = opened(small_file)
    left = Qt.DockWidgetArea.LeftDockWidgetArea
    window.addDockWidget(left, window.panels.docks["controls"])
    window.resize(800, 610)
    window.close()
    again = opened(small_file)
    assert again.dockWidgetArea(again.panels.docks["controls"]) == left
    assert (again.width(), again.height()) == (800, 610)
    again.menus.actions["view.reset-panels"].trigger()
    assert again.dockWidgetArea(again.panels.docks["controls"]) != left


def test_the_distinct_filter_is_remembered(
    opened: Callable[[Path], Window], small_file: Path
) -> None:
    window = opened(small_file)
    window.menus.actions["setting.distinct"].trigger()
    window.close()
    assert opened(small_file).table_panel.distinct.isChecked()


def test_preferences_outlive_the_program(tmp_path: Path) -> None:
    file = tmp_path / "p.ini"
    first = Preferences(file)
    first.theme = "dark"
    first.note_recent(Path("/jobs/a.wirer"))
    first.note_recent(Path("/jobs/b.wirer"))
    first.note_recent(Path("/jobs/a.wirer"))
    first.keep("table/columns", ["row", "sound"])
    first.write()
    second = Preferences(file)
    assert second.theme == "dark"
    assert second.recent == (Path("/jobs/a.wirer"), Path("/jobs/b.wirer"))
    assert second.texts("table/columns") == ("row", "sound")
    second.clear_recent()
    assert second.recent == ()


def test_a_damaged_preference_is_the_usual_one(tmp_path: Path) -> None:
    file = tmp_path / "p.ini"
    file.write_text("[General]\ntheme=plaid\nrecent=\nwindow\\state=@ByteArray(zzz)\n")
    preferences = Preferences(file)
    assert preferences.theme == "system"
    assert preferences.recent == ()
