"""The combination table in the window."""

from collections.abc import Callable
from pathlib import Path

import numpy as np
import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from wirer.window.table_header import in_two_lines
from wirer.window.window import Window


def cell(window: Window, row: int, column: str) -> str:
    model = window.table_panel.model
    place = next(i for i, each in enumerate(model.columns) if each.id == column)
    return str(model.index(row, place).data())


def shown_columns(window: Window) -> list[str]:
    panel = window.table_panel
    return [panel.model.columns[place].id for place in panel.fit.shown]


def test_it_says_what_each_setting_does_in_the_builders_words(series: Window) -> None:
    """21.2 kΩ: 7.08 + 6.85 + 8.24 kΩ by a meter, beside 468 kΩ of volume (Ohm's law)."""
    assert series.table_panel.summary.text() == (
        "64 settings: 13 distinct sounds, 8 silent (shorted)."
    )
    assert cell(series, 0, "sound") == "N + M + B"
    assert cell(series, 0, "position.SN") == "on"
    assert cell(series, 1, "position.PB") == "reversed"
    in_series = 7080 + 6850 + 8240
    loaded = 1 / (1 / in_series + 1 / 468e3)
    assert cell(series, 0, "reading") == f"{loaded / 1000:.1f}k"
    assert cell(series, 63, "sound") == "silent"


def test_choosing_a_row_throws_the_switches(series: Window, qtbot: QtBot) -> None:
    view = series.table_panel.view
    index = view.model().index(9, 1)
    view.scrollTo(index)
    qtbot.mouseClick(
        view.viewport(), Qt.MouseButton.LeftButton, pos=view.visualRect(index).center()
    )
    table = series.studies.table
    assert table is not None
    assert dict(series.session.stance.positions) == table.setting(9)
    assert series.session.is_clean


def test_throwing_switches_chooses_the_row(series: Window) -> None:
    series.session.throw("SB", "down")
    table = series.studies.table
    assert table is not None
    row = series.table_panel.view.currentIndex().row()
    assert row == table.index_of(series.session.stance.positions) == 8
    selected = series.table_panel.view.selectionModel().selectedRows()
    assert [index.row() for index in selected] == [8]


def test_distinct_only_leaves_the_different_sounds(series: Window) -> None:
    """13 of 64 sound different: three coils each off, normal or reversed, (3³ − 1) / 2."""
    series.table_panel.distinct.setChecked(True)
    model = series.table_panel.model
    assert model.rowCount() == (3**3 - 1) // 2
    sounds = [cell(series, row, "sound") for row in range(model.rowCount())]
    assert len(set(sounds)) == len(sounds)
    assert "silent" not in sounds
    series.table_panel.distinct.setChecked(False)
    assert model.rowCount() == 64


def test_among_distinct_rows_the_same_sound_is_chosen(series: Window) -> None:
    series.table_panel.distinct.setChecked(True)
    series.session.take_setting(
        {"SN": "up", "SM": "up", "SB": "up", "PN": "down", "PM": "down", "PB": "down"}
    )
    row = series.table_panel.view.currentIndex().row()
    assert cell(series, row, "sound") == "N + M + B"
    assert series.session.stance.positions["PN"] == "down"


def test_a_silent_setting_is_chosen_nowhere_among_distinct_sounds(series: Window) -> None:
    series.table_panel.distinct.setChecked(True)
    series.session.take_setting({"SN": "down", "SM": "down", "SB": "down"})
    assert not series.table_panel.view.selectionModel().hasSelection()
    assert series.session.stance.positions["SN"] == "down"


@pytest.mark.parametrize("column", ["hum", "reading", "level", "resonance"])
def test_sorting_by_figures(series: Window, column: str) -> None:
    panel = series.table_panel
    table = series.studies.table
    assert table is not None
    place = next(i for i, each in enumerate(panel.model.columns) if each.id == column)
    key = panel.model.columns[place].key
    assert key is not None
    for order, sign in ((Qt.SortOrder.AscendingOrder, 1), (Qt.SortOrder.DescendingOrder, -1)):
        panel.view.sortByColumn(place, order)
        rows = [panel.model.index_in_table(row) for row in range(panel.model.rowCount())]
        keys = [key(table[row].combination) for row in rows]
        assert keys == sorted(keys, reverse=sign < 0)
    panel.view.sortByColumn(-1, Qt.SortOrder.AscendingOrder)
    assert [panel.model.index_in_table(row) for row in range(64)] == list(range(64))


def test_sorting_by_a_switch_keeps_the_order_within(series: Window) -> None:
    panel = series.table_panel
    place = next(i for i, each in enumerate(panel.model.columns) if each.id == "position.PB")
    panel.view.sortByColumn(place, Qt.SortOrder.AscendingOrder)
    rows = [panel.model.index_in_table(row) for row in range(64)]
    assert rows == [*range(0, 64, 2), *range(1, 64, 2)]


def test_rows_are_copied_as_text(series: Window) -> None:
    panel = series.table_panel
    panel.fit.choose(("row", "sound", "hum"))
    panel.view.selectRow(2)
    series.menus.actions["edit.copy-rows"].trigger()
    assert QApplication.clipboard().text() == "#\tSound\tHum %\n3\tN + −M + B\t100\n"


def test_columns_are_shown_as_there_is_room(series: Window, qtbot: QtBot) -> None:
    panel = series.table_panel
    series.resize(1024, 700)
    series.panels.share_out()
    QApplication.processEvents()
    narrow = shown_columns(series)
    assert {"sound", *(f"position.{s}" for s in ("SN", "SM", "SB", "PN", "PM", "PB"))} <= set(
        narrow
    )
    assert panel.view.horizontalScrollBar().maximum() == 0
    series.resize(1600, 1000)
    series.panels.share_out()
    QApplication.processEvents()
    assert set(narrow) < set(shown_columns(series))


def test_chosen_columns_are_remembered(
    series: Window, opened: Callable[[Path], Window], small_file: Path
) -> None:
    panel = series.table_panel
    panel._fill_column_menu()
    sound = next(a for a in panel.columns.menu().actions() if a.text() == "In words")
    sound.setChecked(True)
    assert "words" in shown_columns(series)
    another = opened(small_file)
    assert another.table_panel.fit.chosen is not None
    assert "words" in another.table_panel.fit.chosen
    panel._fill_column_menu()
    panel.columns.menu().actions()[0].trigger()
    assert series.preferences.texts("table/columns") is None


def test_the_next_and_previous_row_by_action(series: Window) -> None:
    series.menus.actions["setting.next"].trigger()
    assert series.session.stance.positions["PB"] == "down"
    series.menus.actions["setting.previous"].trigger()
    series.menus.actions["setting.previous"].trigger()
    assert series.session.stance.positions["PB"] == "up"


def test_turning_a_knob_marks_the_table_until_it_is_worked_out(small: Window, qtbot: QtBot) -> None:
    small.session.turn("V.shaft", 0.5)
    assert small.table_panel.strip.text.text() == "Being worked out…"
    qtbot.waitUntil(lambda: not small.studies.is_working)
    assert small.table_panel.strip.text.text() == "Up to date"


def test_a_long_table_shows_progress_and_can_be_stopped(small: Window) -> None:
    strip = small.table_panel.strip
    state = small.studies.state("table")
    state.status, state.done, state.total = "working", 8192, 65536
    strip.show_state(state, 65536)
    assert strip.stop.isVisibleTo(small)
    assert (strip.bar.value(), strip.bar.maximum()) == (8192, 65536)
    strip.show_state(state, 64)
    assert not strip.stop.isVisibleTo(small)
    state.status = "cancelled"
    strip.show_state(state, 65536)
    assert strip.again.isVisibleTo(small)


def test_only_what_is_shown_is_read_of_a_long_table(series: Window) -> None:
    """65,536 rows must not cost more to show than a screenful."""
    from dataclasses import replace

    from wirer.circuit.model import Circuit
    from wirer.window.table_model import TableModel

    table = series.studies.table
    assert table is not None
    long = replace(
        table,
        positions={f"S{n}": ("up", "down") for n in range(16)},
        which=np.resize(table.which, 2**16),
        same_as=np.arange(2**16, dtype=np.int32),
    )
    circuit = Circuit(
        parts=tuple(
            type(series.session.circuit.parts[0])(id=f"S{n}", kind="slide-2p2t") for n in range(16)
        )
    )
    model = TableModel()
    read: list[int] = []

    def say(index: int, _column: int) -> str:
        read.append(index)
        return "…"

    model._say = say  # type: ignore[method-assign]
    model.show(long, circuit)
    view = series.table_panel.view
    view.setModel(model)
    QApplication.processEvents()
    assert model.rowCount() == 2**16
    assert 0 < len(set(read)) < 200


def test_titles_break_between_words() -> None:
    assert in_two_lines("Neck on/off") == ("Neck", "on/off")
    assert in_two_lines("Tone, pull to split") == ("Tone, pull", "to split")
    assert in_two_lines("Sound") == ("Sound",)
