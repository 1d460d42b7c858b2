"""The application object, and the windows of a run."""

from __future__ import annotations

import gc
import signal
import sys
from pathlib import Path

from PySide6.QtCore import QCoreApplication
from PySide6.QtGui import QIcon, QImage, QPixmap
from PySide6.QtWidgets import QApplication

import wirer
from wirer.circuit.resources import resource_root
from wirer.window.house import House
from wirer.window.preferences import Preferences
from wirer.window.worker import Worker
from wirer.window.worker_process import Line


def serve(files: list[Path], line: Line) -> int:
    """Show a window for each file and stay until the last is closed; return the exit status."""
    application = application_object()
    signal.signal(signal.SIGINT, signal.SIG_DFL)  # an interrupt in the terminal ends the program
    lines = [line]

    def new_worker() -> Worker:
        return Worker(lines.pop() if lines else None)

    house = House(application, Preferences(), new_worker)
    for path in files:
        house.open_window(path)
    if not files:
        house.open_window()
    gc.freeze()  # what was loaded stays; collecting it again and again would cost frames
    return application.exec()


def application_object() -> QApplication:
    """Return the application, made if there is none yet."""
    existing = QCoreApplication.instance()
    if isinstance(existing, QApplication):
        return existing
    application = QApplication([sys.argv[0] or "wirer"])
    application.setApplicationName("wirer")
    application.setApplicationDisplayName("wirer")
    application.setApplicationVersion(wirer.__version__)
    application.setDesktopFileName("wirer")
    application.setWindowIcon(_icon())
    return application


def _icon() -> QIcon:
    data = (resource_root() / "icons" / "wirer.svg").read_bytes()
    return QIcon(QPixmap.fromImage(QImage.fromData(data)))
