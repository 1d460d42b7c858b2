"""The schematic on its sheet, read by other means than what wrote it."""

from __future__ import annotations

import subprocess
from datetime import date
from pathlib import Path
from xml.etree import ElementTree as ET

import pytest
from PySide6.QtGui import QImage

from tests.examples.sheets import NAMES, opened
from tests.support.pdf import page_size_mm
from wirer.circuit.model import Circuit, Part, Wire
from wirer.circuit.stance import Stance, default_stance
from wirer.drawing.render import DrawingError, pdf_bytes, png_bytes, svg_bytes
from wirer.drawing.schematic.render import render_schematic, schematic_sheet
from wirer.drawing.schematic.strokes import drawing_box
from wirer.drawing.schematic.whole import whole_drawing
from wirer.papers.schematic.drawn import Drawn
from wirer.papers.schematic.lettering import STEP_MM
from wirer.papers.schematic.schematic import schematic_of

pytestmark = pytest.mark.usefixtures("qapp")

DAY = date(2026, 2, 3)
A4_MM = (297.0, 210.0)  # ISO 216, landscape


@pytest.mark.parametrize("name", NAMES)
def test_an_example_fits_on_a4_landscape(name: str) -> None:
    circuit, stance = opened(name)
    assert page_size_mm(pdf_bytes(schematic_sheet(circuit, stance, DAY))) == pytest.approx(
        A4_MM, abs=0.2
    )


def test_what_is_written_on_it_can_be_found(pdftotext: str, tmp_path: Path) -> None:
    circuit, stance = opened(NAMES[0])
    out = tmp_path / "a.pdf"
    render_schematic(circuit, stance, out, DAY)
    text = subprocess.run(
        [pdftotext, "-layout", str(out), "-"], capture_output=True, text=True, check=True
    ).stdout
    for words in (circuit.title, "2026-02-03", "Schematic", "8.24 kΩ*, 3.04 H*", "PN Neck phase"):
        assert words in text
    assert "Drawn with SN on, SM on" in text


def test_it_is_written_as_what_the_name_says(tmp_path: Path) -> None:
    circuit, stance = opened(NAMES[7])
    for suffix in ("svg", "png", "pdf"):
        render_schematic(circuit, stance, tmp_path / f"a.{suffix}", DAY)
    ET.parse(tmp_path / "a.svg")
    assert QImage(str(tmp_path / "a.png")).width() > 2000
    with pytest.raises(DrawingError, match="ends in one of"):
        render_schematic(circuit, stance, tmp_path / "a.gif", DAY)


def test_an_empty_circuit_is_a_sheet() -> None:
    sheet = schematic_sheet(Circuit(), Stance(), DAY)
    assert QImage.fromData(png_bytes(sheet)).width() > 0
    assert svg_bytes(sheet)


def test_a_large_circuit_gets_a_larger_sheet() -> None:
    parts = tuple(Part(id=f"S{n}", kind="rotary-4p3t") for n in range(40))
    wires = tuple(Wire(id=f"w{n}", from_lug=f"S{n}.A1", to_lug=f"S{n + 1}.D0") for n in range(39))
    circuit = Circuit(parts=parts, wires=wires)
    width, height = page_size_mm(pdf_bytes(schematic_sheet(circuit, default_stance(circuit), DAY)))
    assert width > A4_MM[0]
    assert width / height == pytest.approx(2**0.5, rel=0.01)  # ISO 216


@pytest.mark.parametrize("name", NAMES)
def test_no_ink_leaves_the_room_that_was_kept_for_it(name: str) -> None:
    """The box round what schemdraw draws, texts by their real letters, is that of the placing."""
    drawn: Drawn = schematic_of(*opened(name)).drawn
    box = drawing_box(whole_drawing(drawn).drawing)
    kept = drawn.box
    slack = 0.6  # half a line's width, and the bulge of arcs
    assert box.left >= kept.left * STEP_MM - slack
    assert box.right <= kept.right * STEP_MM + slack
    assert box.top >= kept.top * STEP_MM - slack
    assert box.bottom <= kept.bottom * STEP_MM + slack
