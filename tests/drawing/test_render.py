"""Drawings as files, read back by other means than what wrote them."""

import os
import re
import subprocess
import sys
from datetime import date
from pathlib import Path
from xml.etree import ElementTree as ET

import pytest
from msgspec.structs import replace
from PySide6.QtGui import QImage, QPainter

from tests.layout.circuits import Bench, three_coils_six_slides
from tests.support.pdf import lines_mm, page_size_mm
from wirer.circuit.errors import WirerError
from wirer.circuit.files import FileError
from wirer.circuit.model import Circuit
from wirer.drawing.render import (
    DrawingError,
    Sheet,
    pdf_bytes,
    png_bytes,
    render_wiring,
    svg_bytes,
    wiring_sheet,
    write_sheet,
)
from wirer.layout.lay_out import lay_out

pytestmark = pytest.mark.usefixtures("qapp")

SVG = "{http://www.w3.org/2000/svg}"
DAY = date(2026, 2, 3)


@pytest.fixture(scope="module")
def circuit() -> Circuit:
    return replace(three_coils_six_slides(), job="job 26-014\nmore of it")


@pytest.fixture(scope="module")
def sheet(circuit: Circuit) -> Sheet:
    return wiring_sheet(circuit, lay_out(circuit), day=DAY)


def svg_lines_mm(data: bytes) -> list[tuple[float, float, float, float]]:
    """The straight lines of a drawing in mm, by its own view box and transforms."""
    root = ET.fromstring(data)
    width_mm = float(root.attrib["width"].removesuffix("mm"))
    mm = width_mm / float(root.attrib["viewBox"].split()[2])
    lines = []
    for group in root.iter(f"{SVG}g"):
        placed = re.match(r"matrix\(([^)]*)\)", group.attrib.get("transform", ""))
        a, b, c, d, e, f = map(float, placed[1].split(",")) if placed else (1, 0, 0, 1, 0, 0)
        for line in group.findall(f"{SVG}polyline"):
            x1, y1, x2, y2 = map(float, re.split(r"[ ,]+", line.attrib["points"].strip())[:4])
            lines.append(
                tuple(
                    mm * each
                    for x, y in ((x1, y1), (x2, y2))
                    for each in (a * x + c * y + e, b * x + d * y + f)
                )
            )
    return lines  # type: ignore[return-value]


def bars(lines: list[tuple[float, float, float, float]]) -> list[float]:
    """The lengths of level lines of about 50 mm."""
    lengths = [abs(x2 - x1) for x1, y1, x2, y2 in lines if abs(y1 - y2) < 0.01]
    return [length for length in lengths if 45 < length < 55]


def test_an_svg_is_of_its_true_size(sheet: Sheet) -> None:
    root = ET.fromstring(svg_bytes(sheet))
    assert float(root.attrib["width"].removesuffix("mm")) == pytest.approx(sheet.width_mm, abs=0.1)
    assert float(root.attrib["height"].removesuffix("mm")) == pytest.approx(
        sheet.height_mm, abs=0.1
    )


def test_the_scale_bar_of_an_svg_measures_50_mm(sheet: Sheet) -> None:
    assert bars(svg_lines_mm(svg_bytes(sheet)))[0] == pytest.approx(50.0, abs=0.1)


def test_the_scale_bar_of_a_pdf_measures_50_mm(sheet: Sheet) -> None:
    assert bars(lines_mm(pdf_bytes(sheet)))[0] == pytest.approx(50.0, abs=0.1)


def test_an_svg_has_its_texts_as_outlines_and_says_what_it_shows(sheet: Sheet) -> None:
    root = ET.fromstring(svg_bytes(sheet))
    assert not list(root.iter(f"{SVG}text"))
    assert root.findtext(f"{SVG}title") == "Baritone, three coils in series"
    assert "Neck on/off" in (root.findtext(f"{SVG}desc") or "")


def test_wires_are_in_their_colours(sheet: Sheet) -> None:
    """Red, black and orange of the palette."""
    strokes = {e.attrib.get("stroke") for e in ET.fromstring(svg_bytes(sheet)).iter()}
    assert {"#d42a2a", "#1d1d1f", "#ef7d14"} <= strokes


def test_a_pdf_page_is_of_its_true_size(sheet: Sheet) -> None:
    width, height = page_size_mm(pdf_bytes(sheet))
    assert (width, height) == pytest.approx((sheet.width_mm, sheet.height_mm), abs=0.4)


def test_a_pdf_has_its_fonts_in_it(sheet: Sheet) -> None:
    assert re.search(rb"/FontFile[23]?\b", pdf_bytes(sheet))


def test_the_text_of_a_pdf_can_be_found(sheet: Sheet, pdftotext: str, tmp_path: Path) -> None:
    path = tmp_path / "drawing.pdf"
    write_sheet(sheet, path)
    done = subprocess.run(
        [pdftotext, "-layout", str(path), "-"], capture_output=True, text=True, check=True
    )
    for words in ("Baritone, three coils in series", "V · Volume", "50 mm", "2026-02-03"):
        assert words in done.stdout
    assert "job 26-014" in done.stdout
    assert "more of it" not in done.stdout


def test_a_png_is_of_its_true_size(sheet: Sheet) -> None:
    image = QImage.fromData(png_bytes(sheet), "PNG")
    dots_per_mm = image.dotsPerMeterX() / 1000
    assert image.width() / dots_per_mm == pytest.approx(sheet.width_mm, abs=0.2)


@pytest.mark.parametrize("suffix", [".svg", ".pdf", ".png", ".PNG"])
def test_a_file_is_written_by_its_suffix(circuit: Circuit, tmp_path: Path, suffix: str) -> None:
    path = tmp_path / f"drawing{suffix}"
    render_wiring(circuit, path, day=DAY)
    beginnings = {".svg": b"<?xml", ".pdf": b"%PDF", ".png": b"\x89PNG"}
    assert path.read_bytes().startswith(beginnings[suffix.lower()])


def test_another_suffix_is_refused(circuit: Circuit, tmp_path: Path) -> None:
    with pytest.raises(DrawingError, match=r"drawing\.jpeg: .* one of \.pdf, \.png, \.svg"):
        render_wiring(circuit, tmp_path / "drawing.jpeg")


def test_a_folder_that_is_not_there_is_said_and_is_the_inputs_fault(
    sheet: Sheet, tmp_path: Path
) -> None:
    with pytest.raises(FileError, match=r"drawing\.svg: can't be written"):
        write_sheet(sheet, tmp_path / "none" / "drawing.svg")
    assert issubclass(FileError, WirerError)
    assert issubclass(DrawingError, WirerError)


def test_a_picture_that_fails_leaves_the_old_file_and_qt_alive(
    sheet: Sheet, tmp_path: Path
) -> None:
    path = tmp_path / "drawing.png"
    write_sheet(sheet, path)
    before = path.read_bytes()

    def fail(_painter: QPainter, _as_paths: bool) -> None:
        raise KeyError("a colour")

    for name in ("drawing.png", "drawing.svg", "drawing.pdf"):
        with pytest.raises(KeyError):
            write_sheet(Sheet(50.0, 50.0, fail, "", ""), tmp_path / name)
    assert path.read_bytes() == before
    write_sheet(sheet, path)


def test_odd_words_in_a_title_are_only_words(circuit: Circuit) -> None:
    title = "<script>alert(1)</script> & “x” \U0001f3b8 שלום " + "w" * 200
    odd = replace(circuit, title=title)
    data = svg_bytes(wiring_sheet(odd, lay_out(odd), day=DAY))
    assert ET.fromstring(data).findtext(f"{SVG}title") == title
    assert b"<script" not in data


def test_an_empty_circuit_still_has_a_page(tmp_path: Path) -> None:
    render_wiring(Circuit(), tmp_path / "empty.pdf")
    assert page_size_mm((tmp_path / "empty.pdf").read_bytes())[0] > 100


def test_what_is_too_large_for_paper_is_scaled_and_says_so() -> None:
    """Parts 20 m apart: fitted to 2 m, so about 1:10."""
    bench = Bench("Far")
    bench.part("A", "pot", 0.0, 0.0)
    bench.part("B", "pot", 20_000.0, 0.0)
    bench.wire("A.1", "B.1")
    circuit = bench.circuit()
    sheet = wiring_sheet(circuit, lay_out(circuit), day=DAY)
    assert sheet.width_mm < 2100
    assert bars(lines_mm(pdf_bytes(sheet)))[-1] == pytest.approx(50.0, abs=0.1)


def test_a_process_without_a_display_draws_and_ends_well(tmp_path: Path) -> None:
    """A binding that loses references would end the process only when it goes."""
    script = (
        "import sys\n"
        "from tests.layout.circuits import two_humbuckers_one_lever\n"
        "from wirer.drawing.render import render_wiring\n"
        "render_wiring(two_humbuckers_one_lever(), sys.argv[1])\n"
    )
    environment = {
        name: value
        for name, value in os.environ.items()
        if name not in {"DISPLAY", "WAYLAND_DISPLAY", "QT_QPA_PLATFORM"}
    }
    path = tmp_path / "drawing.png"
    done = subprocess.run(
        [sys.executable, "-c", script, str(path)],
        env=environment, cwd=Path(__file__).parents[2], capture_output=True, text=True, check=False,
    )  # fmt: skip
    assert (done.returncode, done.stderr) == (0, "")
    assert path.stat().st_size > 10_000
