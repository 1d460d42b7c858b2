"""Windows to try, with a worker that a test has in hand."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from PySide6.QtCore import QCoreApplication, QEvent
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from tests.window.hands import HandWorker
from wirer.window.house import House
from wirer.window.preferences import Preferences
from wirer.window.window import Window

EXAMPLES = Path(__file__).parents[2] / "resources" / "examples"
SERIES = EXAMPLES / "01-baritone-three-coils-series.wirer"


@pytest.fixture
def preferences(tmp_path: Path) -> Preferences:
    """Preferences in a file that only this test has."""
    return Preferences(tmp_path / "preferences" / "window.ini")


@pytest.fixture
def house(qapp: QApplication, preferences: Preferences) -> Iterator[House]:
    """The program without a window; what it opens is closed after the test."""
    house = House(qapp, preferences, HandWorker)
    yield house
    for window in list(house.windows):
        window.session._history.mark_saved()
        window.close()
    QCoreApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete)
    qapp.processEvents()


@pytest.fixture
def opened(house: House, qtbot: QtBot) -> Callable[[Path], Window]:
    """Opens a file in a window and waits until everything is worked out."""

    def open_file(path: Path) -> Window:
        window = house.open_window(path)
        qtbot.waitExposed(window)
        qtbot.waitUntil(lambda: not window.studies.is_working)
        return window

    return open_file


@pytest.fixture
def series(opened: Callable[[Path], Window]) -> Window:
    """A window with the baritone of three coils in series: 64 settings, 13 sounds."""
    return opened(SERIES)


@pytest.fixture
def small_file(tmp_path: Path) -> Path:
    """One coil with a switch that shorts it, a volume and a jack: two settings."""
    from tests.window.hands import SMALL

    path = tmp_path / "small.wirer"
    path.write_text(SMALL, encoding="utf-8")
    return path


@pytest.fixture
def small(opened: Callable[[Path], Window], small_file: Path) -> Window:
    """A window with the small circuit."""
    return opened(small_file)
