"""`wirer sheets`: the papers for the bench, and the lists as CSV."""

import csv
from pathlib import Path

import pytest

from tests.command.support import BARITONE, EXAMPLES, environment, printed, refused, start
from tests.support.printed import page_sizes_mm, text_of

SMALL = str(EXAMPLES[-1])
LISTS = {"wires.csv", "parts.csv", "test.csv", "grounds.csv", "card.csv"}


@pytest.mark.qt
def test_papers_are_made_without_a_display(tmp_path: Path) -> None:
    out = tmp_path / "job.pdf"
    hidden = {"DISPLAY", "WAYLAND_DISPLAY", "QT_QPA_PLATFORM"}
    bare = {name: text for name, text in environment().items() if name not in hidden}
    ran = start("sheets", BARITONE, "-o", str(out), env=bare)
    said = ran.communicate(timeout=120)
    assert (ran.returncode, *said) == (0, b"", b"")
    assert len(page_sizes_mm(out)) > 8


@pytest.mark.usefixtures("qapp")
def test_paper_sheets_and_revision_are_chosen(tmp_path: Path) -> None:
    out = tmp_path / "job.PDF"
    printed("sheets", SMALL, "-o", str(out), "--paper", "Letter", "--only", "wires, Card",
            "--only", "parts", "--revision", "B2", "--loop-mm", "80", "--end-mm", "0")  # fmt: skip
    sizes = page_sizes_mm(out)
    assert len(sizes) == 3
    assert all(size == pytest.approx((215.9, 279.4), abs=0.2) for size in sizes)
    said = " ".join(text_of(out).split())
    assert "revision B2" in said
    assert "0 mm for each end and 80 mm more" in said
    assert "Test sheet" not in said


@pytest.mark.usefixtures("qapp")
def test_a_drawing_at_true_scale_is_asked_for(tmp_path: Path) -> None:
    out = tmp_path / "job.pdf"
    printed("sheets", SMALL, "-o", str(out), "--only", "wiring", "--scale", "1:1")
    assert "scale 1:1" in text_of(out)


def test_lists_are_written_as_csv(tmp_path: Path) -> None:
    folder = tmp_path / "lists"
    assert printed("sheets", BARITONE, "--csv", str(folder)) == ""
    assert {path.name for path in folder.iterdir()} == LISTS
    with (folder / "wires.csv").open(encoding="utf-8", newline="") as file:
        assert len(list(csv.DictReader(file))) == 36
    printed("sheets", SMALL, "--csv", str(folder), "--loop-mm", "0", "--end-mm", "0")
    with (folder / "wires.csv").open(encoding="utf-8", newline="") as file:
        assert len(list(csv.DictReader(file))) == 18


def test_what_can_not_be_done_is_said_in_one_line(tmp_path: Path) -> None:
    out = str(tmp_path / "a.pdf")
    assert "missing option '-o' or '--csv'" in refused("sheets", SMALL)
    assert refused("sheets", SMALL, "-o", str(tmp_path / "a.svg")).endswith(
        "a.svg: the papers are a PDF; write a name that ends in .pdf"
    )
    assert 'there is no sheet "wirng"; is it wiring' in refused(
        "sheets", SMALL, "-o", out, "--only", "card,wirng"
    )
    assert "invalid value for '--paper'" in refused("sheets", SMALL, "-o", out, "--paper", "A5")
    assert "invalid value for '--end-mm'" in refused("sheets", SMALL, "-o", out, "--end-mm", "-1")
    assert "nowhere" in refused("sheets", str(tmp_path / "nowhere.wirer"), "-o", out)
    assert "can't be made: " in refused("sheets", SMALL, "--csv", str(tmp_path / "no" / "where"))
    assert list(tmp_path.iterdir()) == []


@pytest.mark.usefixtures("qapp")
def test_a_folder_that_is_not_there_gets_no_papers(tmp_path: Path) -> None:
    out = tmp_path / "nowhere" / "a.pdf"
    said = refused("sheets", SMALL, "-o", str(out), "--only", "card")
    assert said.startswith(f"wirer: {out}: can't be written: ")
