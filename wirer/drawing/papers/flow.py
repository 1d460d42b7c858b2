"""Setting text down a page and on to the next: headings, paragraphs, room for other things."""

from __future__ import annotations

from dataclasses import dataclass, field

from wirer.drawing.papers.marks import Mark
from wirer.drawing.papers.page import Page, put_words
from wirer.drawing.papers.paper import Form
from wirer.drawing.papers.typeface import (
    BODY,
    HEADING,
    TITLE,
    Style,
    ascent_mm,
    elided,
    wrapped,
)
from wirer.layout.box import Box

CONTINUED = Style(9, bold=True, ink="quiet")
GAP_MM = 2.2
KEPT_MM = 14.0


@dataclass
class Flow:
    """Pages of one sheet, filled from the top; `down` is how far the last one is filled."""

    form: Form
    sheet: str
    title: str
    pages: list[Page] = field(default_factory=list)
    down: float = 0.0

    def __post_init__(self) -> None:
        self.next_page()

    @property
    def body(self) -> Box:
        """The room of a page."""
        return self.form.body

    @property
    def left(self) -> float:
        """How much room is left on the page."""
        return self.body.bottom - self.down

    @property
    def page(self) -> Page:
        """The page that is being filled."""
        return self.pages[-1]

    def next_page(self) -> None:
        """Begin a page under the sheet's title."""
        first = not self.pages
        self.pages.append(Page(self.form, self.sheet))
        self.down = self.body.top
        style = TITLE if first else CONTINUED
        text = self.title if first else f"{self.title}, continued"
        self._line(elided(text, style, self.body.width), style)
        self.down += GAP_MM if first else GAP_MM / 2

    def need(self, height: float) -> None:
        """Go on to the next page if the height is not left on this one."""
        if height > self.left and self.down > self.body.top + CONTINUED.line_mm + GAP_MM:
            self.next_page()

    def heading(self, text: str, kept: float = KEPT_MM) -> None:
        """Set a heading, never apart from so much of what follows it."""
        self.need(GAP_MM + HEADING.line_mm + kept)
        self.down += GAP_MM
        for line in wrapped(text, HEADING, self.body.width):
            self._line(line, HEADING)
        self.down += 0.8

    def paragraph(self, text: str, style: Style = BODY, indent: float = 0.0) -> None:
        """Set a paragraph, its lines broken where the page ends."""
        for line in wrapped(text, style, self.body.width - indent):
            self.need(style.line_mm)
            self._line(line, style, indent)
        self.down += 0.9

    def gap(self, height: float = GAP_MM) -> None:
        """Leave some room."""
        self.down += height

    def put(self, *marks: Mark) -> None:
        """Put marks on the page."""
        self.page.marks.extend(marks)

    def _line(self, text: str, style: Style, indent: float = 0.0) -> None:
        baseline = self.down + ascent_mm(style)
        put_words(self.page, text, style, self.body.left + indent, baseline)
        self.down += style.line_mm
