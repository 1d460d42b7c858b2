"""The picture and the table written to files from the menu."""

import csv
import io
from pathlib import Path

import pytest
from PySide6.QtGui import QImage

from tests.window.test_window import Scripted
from wirer.window.window import Window


@pytest.mark.parametrize(
    ("suffix", "start"), [(".svg", b"<?xml"), (".pdf", b"%PDF-"), (".png", b"\x89PNG\r\n\x1a\n")]
)
def test_the_picture_is_written_by_its_suffix(
    small: Window, tmp_path: Path, suffix: str, start: bytes
) -> None:
    target = tmp_path / f"picture{suffix}"
    small.dialogs = dialogs = Scripted(target=target)
    small.menus.actions["file.export-picture"].trigger()
    assert target.read_bytes().startswith(start)
    assert str(target) in small.bar.line.text()
    assert Path(dialogs.asked[0]).name == "small.pdf"


def test_the_picture_shows_the_switches_as_they_stand(small: Window, tmp_path: Path) -> None:
    pictures = []
    for position in ("up", "down"):
        small.session.throw("S", position)
        target = tmp_path / f"{position}.png"
        small.dialogs = Scripted(target=target)
        small.export_picture()
        pictures.append(QImage(str(target)))
    assert pictures[0].size() == pictures[1].size()
    assert pictures[0] != pictures[1]


def test_the_table_is_written_as_csv(series: Window, tmp_path: Path) -> None:
    """As RFC 4180 has it, read by Python's own reader."""
    target = tmp_path / "table.csv"
    series.dialogs = Scripted(target=target)
    series.menus.actions["file.export-table"].trigger()
    rows = list(csv.DictReader(io.StringIO(target.read_text(encoding="utf-8"))))
    assert len(rows) == 64
    assert rows[0]["sound"] == "N + M + B"


def test_a_filtered_table_is_written_as_it_is_shown(series: Window, tmp_path: Path) -> None:
    series.table_panel.distinct.setChecked(True)
    target = tmp_path / "table.md"
    series.dialogs = Scripted(target=target)
    series.menus.actions["file.export-table"].trigger()
    lines = target.read_text(encoding="utf-8").splitlines()
    assert sum(line.startswith("| ") for line in lines) == 13 + 1 + 1


@pytest.mark.parametrize("action", ["file.export-table", "file.export-picture"])
def test_another_suffix_is_refused_with_those_that_would_do(
    small: Window, tmp_path: Path, action: str
) -> None:
    target = tmp_path / "x.docx"
    small.dialogs = Scripted(target=target)
    small.menus.actions[action].trigger()
    assert not target.exists()
    assert "x.docx" in small.bar.line.text()
    assert ".csv" in small.bar.line.text() or ".pdf" in small.bar.line.text()


def test_thinking_better_of_it_writes_nothing(small: Window, tmp_path: Path) -> None:
    small.dialogs = Scripted(target=None)
    small.menus.actions["file.export-picture"].trigger()
    small.menus.actions["file.export-table"].trigger()
    assert not small.bar.isVisible()
