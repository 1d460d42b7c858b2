"""Drawings as files: SVG, PDF and PNG, by the name's suffix."""

from __future__ import annotations

import os
from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from datetime import date
from pathlib import Path

from PySide6.QtCore import QBuffer, QByteArray, QIODevice, QMarginsF, QRectF, QSize, QSizeF
from PySide6.QtGui import QGuiApplication, QImage, QPageSize, QPainter, QPdfWriter
from PySide6.QtSvg import QSvgGenerator

from wirer.circuit.errors import WirerError
from wirer.circuit.files import write_bytes
from wirer.circuit.model import Circuit
from wirer.circuit.stance import Stance
from wirer.drawing.page import Page, TitleBlock, paint_sheet
from wirer.drawing.palette import PRINT
from wirer.drawing.wiring import WiringLook, paint_wiring
from wirer.layout.lay_out import lay_out
from wirer.layout.layout import Layout

MM_PER_INCH = 25.4
SVG_DPI = 254
PDF_DPI = 1200
PNG_DPI = 200
MOST_PIXELS = 60_000_000

Paint = Callable[[QPainter, bool], None]
"""Paints a page in mm; the flag asks for text as outlines."""


class DrawingError(WirerError):
    """A drawing that could not be made."""


@dataclass(frozen=True, slots=True)
class Sheet:
    """A page to be written: its size in mm, what paints it, and what it says of itself."""

    width_mm: float
    height_mm: float
    paint: Paint
    title: str
    description: str


def render_wiring(
    circuit: Circuit,
    out_path: str | Path,
    layout: Layout | None = None,
    look: WiringLook | None = None,
    stance: Stance | None = None,
    day: date | None = None,
) -> None:
    """Write the wiring view of a circuit on a page fitted round it, at true size.

    Parameters
    ----------
    circuit
        What is drawn.
    out_path
        A file name ending in .svg, .pdf or .png.
    layout
        Its layout, worked out where it is not given.
    look
        How it is to look; by default in the colours of print, with the names of lugs.
    stance
        Where switches and shafts stand; by default as the look has it.
    day
        The date in the title block, by default today's.

    Raises
    ------
    DrawingError
        The suffix is another, or Qt can't make the drawing.
    FileError
        The file can't be written.
    """
    sheet = wiring_sheet(circuit, layout or lay_out(circuit), look, stance, day)
    write_sheet(sheet, Path(out_path))


def wiring_sheet(
    circuit: Circuit,
    layout: Layout,
    look: WiringLook | None = None,
    stance: Stance | None = None,
    day: date | None = None,
) -> Sheet:
    """Return the page of a wiring view, for `write_sheet`; the arguments are `render_wiring`'s."""
    look = look or WiringLook(theme=PRINT, lug_names=True)
    look = replace(look, stance=stance or look.stance)
    page = Page.fitted(layout.box)
    today = (day or date.today()).isoformat()  # the day where the user is
    block = TitleBlock(circuit.title, circuit.job, today, page.scale)

    def paint(painter: QPainter, as_paths: bool) -> None:
        paint_sheet(painter, page, block, look.theme, as_paths)
        page.enter(painter)
        paint_wiring(painter, circuit, layout, replace(look, as_paths=as_paths))

    names = ", ".join(part.name for part in circuit.parts)
    return Sheet(page.width, page.height, paint, circuit.title, names)


def write_sheet(sheet: Sheet, path: Path) -> None:
    """Write a page as the kind of file that the name's suffix says.

    Raises
    ------
    DrawingError
        The suffix is none of .svg, .pdf and .png, or Qt can't make the drawing.
    FileError
        The file can't be written; an earlier one is untouched.
    """
    make = _MAKERS.get(path.suffix.lower())
    if make is None:
        kinds = ", ".join(sorted(_MAKERS))
        raise DrawingError(f"{path.name}: a drawing's name ends in one of {kinds}")
    write_bytes(path, make(sheet))


def ensure_gui() -> None:
    """Make sure that Qt can draw, without a display where the program has opened none."""
    if QGuiApplication.instance() is None:
        os.environ["QT_QPA_PLATFORM"] = "offscreen"
        _KEPT.append(QGuiApplication(["wirer"]))


_KEPT: list[QGuiApplication] = []
"""Qt's application lives as long as the process."""


def svg_bytes(sheet: Sheet) -> bytes:
    """Return a page as SVG, its size in mm, its text as outlines and in its description."""
    buffer = _buffer()
    generator = QSvgGenerator()
    generator.setOutputDevice(buffer)
    generator.setResolution(SVG_DPI)
    dots = SVG_DPI / MM_PER_INCH
    width, height = sheet.width_mm * dots, sheet.height_mm * dots
    generator.setSize(QSize(round(width), round(height)))
    generator.setViewBox(QRectF(0, 0, round(width), round(height)))
    generator.setTitle(sheet.title)
    generator.setDescription(sheet.description)
    _paint(sheet, QPainter(), generator, dots, as_paths=True)
    return _content(buffer)


def pdf_bytes(sheet: Sheet) -> bytes:
    """Return a page as a PDF of its size, its text with embedded fonts."""
    buffer = _buffer()
    writer = QPdfWriter(buffer)
    writer.setTitle(sheet.title)
    writer.setCreator("wirer")
    writer.setResolution(PDF_DPI)
    size = QPageSize(
        QSizeF(sheet.width_mm, sheet.height_mm),
        QPageSize.Unit.Millimeter,
        "drawing",
        QPageSize.SizeMatchPolicy.ExactMatch,
    )
    if not (writer.setPageSize(size) and writer.setPageMargins(QMarginsF())):
        raise DrawingError(f"no page of {sheet.width_mm:.0f} by {sheet.height_mm:.0f} mm")
    _paint(sheet, QPainter(), writer, PDF_DPI / MM_PER_INCH, as_paths=False)
    return _content(buffer)


def png_bytes(sheet: Sheet) -> bytes:
    """Return a page as a PNG of 200 dots an inch, or fewer where that would be too large."""
    dots = PNG_DPI / MM_PER_INCH
    area = sheet.width_mm * sheet.height_mm
    dots = min(dots, (MOST_PIXELS / area) ** 0.5)
    size = QSize(max(1, round(sheet.width_mm * dots)), max(1, round(sheet.height_mm * dots)))
    image = QImage(size, QImage.Format.Format_RGB32)
    if image.isNull():
        raise DrawingError(f"no memory for a picture of {size.width()} by {size.height()} dots")
    image.setDotsPerMeterX(round(1000 * dots))
    image.setDotsPerMeterY(round(1000 * dots))
    painter = QPainter()
    _paint(sheet, painter, image, dots, as_paths=True)
    buffer = _buffer()
    if not image.save(buffer, "PNG"):  # type: ignore[call-overload] # the stub wants bytes
        raise DrawingError("Qt can't write PNG here")
    return _content(buffer)


def _paint(
    sheet: Sheet,
    painter: QPainter,
    device: QImage | QPdfWriter | QSvgGenerator,
    dots_per_mm: float,
    as_paths: bool,
) -> None:
    ensure_gui()
    if not painter.begin(device):
        raise DrawingError("Qt can't begin to draw")
    try:
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.scale(dots_per_mm, dots_per_mm)
        sheet.paint(painter, as_paths)
    finally:
        ended = painter.end()  # Qt ends the process when a device goes before its painter
    if not ended:
        raise DrawingError("Qt can't finish the drawing")


def _buffer() -> QBuffer:
    ensure_gui()
    buffer = QBuffer()
    if not buffer.open(QIODevice.OpenModeFlag.WriteOnly):
        raise DrawingError("Qt has no memory to draw in")
    return buffer


def _content(buffer: QBuffer) -> bytes:
    buffer.close()
    return bytes(QByteArray(buffer.data()).data())


_MAKERS: Mapping[str, Callable[[Sheet], bytes]] = {
    ".svg": svg_bytes,
    ".pdf": pdf_bytes,
    ".png": png_bytes,
}
