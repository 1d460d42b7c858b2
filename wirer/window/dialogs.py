"""Every question that is put to the person, behind one object that a test can answer for."""

from __future__ import annotations

from pathlib import Path
from typing import Literal

from PySide6.QtWidgets import QFileDialog, QMessageBox, QWidget

DOCUMENTS = "Circuits (*.wirer);;All files (*)"

Answer = Literal["save", "discard", "cancel"]


class Dialogs:
    """Asks for files, and what to do with unsaved changes."""

    def files_to_open(self, parent: QWidget, folder: str) -> list[Path]:
        """Ask for documents to open; none where the person thinks better of it."""
        names, _ = QFileDialog.getOpenFileNames(parent, "Open", folder, DOCUMENTS)
        return [Path(name) for name in names]

    def file_to_write(
        self, parent: QWidget, title: str, suggested: str, kinds: str, suffix: str
    ) -> Path | None:
        """Ask for a file to write; a name without a suffix gets the usual one."""
        name, _ = QFileDialog.getSaveFileName(parent, title, suggested, kinds)
        if not name:
            return None
        path = Path(name)
        return path if path.suffix else path.with_suffix(suffix)

    def about_changes(self, parent: QWidget, name: str) -> Answer:
        """Ask what to do with changes that are not saved."""
        buttons = QMessageBox.StandardButton
        pressed = QMessageBox.question(
            parent,
            "Unsaved changes",
            f"“{name}” has changes that are not saved.",
            buttons.Save | buttons.Discard | buttons.Cancel,
            buttons.Save,
        )
        answers: dict[QMessageBox.StandardButton, Answer] = {
            buttons.Save: "save",
            buttons.Discard: "discard",
        }
        return answers.get(pressed, "cancel")
