"""A book on a device of pages: a PDF, a printer, the preview of one."""

from __future__ import annotations

from pathlib import Path

from PySide6.QtCore import QBuffer, QByteArray, QIODevice, QMarginsF, QRectF, QSizeF
from PySide6.QtGui import QColor, QPagedPaintDevice, QPageLayout, QPageSize, QPainter, QPdfWriter

from wirer.circuit.files import write_bytes
from wirer.drawing.palette import PRINT
from wirer.drawing.papers.book import Book
from wirer.drawing.papers.paper import Form
from wirer.drawing.render import MM_PER_INCH, PDF_DPI, DrawingError, ensure_gui


def write_book(book: Book, path: Path) -> None:
    """Write a book as a PDF.

    Raises
    ------
    DrawingError
        Qt can't make it.
    FileError
        The file can't be written; an earlier one is untouched.
    """
    write_bytes(path, book_pdf(book))


def book_pdf(book: Book) -> bytes:
    """Return a book as a PDF: vector, its text with embedded fonts, pages of their true size.

    Raises
    ------
    DrawingError
        Qt can't make it.
    """
    ensure_gui()
    buffer = QBuffer()
    if not buffer.open(QIODevice.OpenModeFlag.WriteOnly):
        raise DrawingError("Qt has no memory to draw in")
    writer = QPdfWriter(buffer)
    writer.setTitle(book.heading.title)
    writer.setCreator("wirer")
    writer.setResolution(PDF_DPI)
    paint_book(book, writer, PDF_DPI)
    buffer.close()
    return bytes(QByteArray(buffer.data()).data())


def paint_book(book: Book, device: QPagedPaintDevice, dots_per_inch: int) -> None:
    """Paint every page of a book on a device, each upright or across as it is set.

    Raises
    ------
    DrawingError
        The book has no pages, or the device can't take one.
    """
    if not book.pages:
        raise DrawingError("no sheet was chosen; choose at least one")
    painter = QPainter()
    for number, page in enumerate(book.pages):
        if not device.setPageLayout(_layout(page.form)):
            raise DrawingError(f"there is no paper of {page.form.width:.0f} mm width here")
        if not (device.newPage() if number else painter.begin(device)):
            raise DrawingError("Qt can't begin a page")
        painter.save()
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        dots = dots_per_inch / MM_PER_INCH
        painter.scale(dots, dots)
        area = QRectF(0, 0, page.form.width, page.form.height)
        painter.fillRect(area, QColor(PRINT.paper))
        for mark in page.marks:
            mark.paint(painter, PRINT)
        painter.restore()
    if not painter.end():
        raise DrawingError("Qt can't finish the papers")


def _layout(form: Form) -> QPageLayout:
    size = QPageSize(
        QSizeF(form.paper.width, form.paper.height),
        QPageSize.Unit.Millimeter,
        form.paper.name,
        QPageSize.SizeMatchPolicy.ExactMatch,
    )
    way = QPageLayout.Orientation.Landscape if form.across else QPageLayout.Orientation.Portrait
    layout = QPageLayout(size, way, QMarginsF())
    layout.setMode(QPageLayout.Mode.FullPageMode)
    return layout
