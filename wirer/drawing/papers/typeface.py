"""Type in millimetres: styles, measured widths, lines that fit their room, text made safe."""

from __future__ import annotations

import re
import unicodedata
from dataclasses import dataclass
from functools import cache, lru_cache
from typing import Literal

from PySide6.QtGui import QFont, QFontMetricsF, QTextLayout, QTextOption

from wirer.drawing.render import ensure_gui

PIXELS = 100
MM_PER_POINT = 25.4 / 72
HAIR_MM = 0.06
"""Widths are sums of fractions: so much is forgiven where text just fits."""

LEADING = 1.22
"""Distance of baselines by the size of the type."""

Ink = Literal["ink", "quiet", "error", "warning", "note"]
FIXED_SPACE = "\u00a0"
_SPACES = re.compile(" +")
_TURNERS = frozenset("\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069")
"""Characters that turn the direction of what follows them: they would reach beyond their text."""


@dataclass(frozen=True, slots=True)
class Style:
    """A size of type in points, its weight and the colour of the theme that it is printed in."""

    points: float
    bold: bool = False
    ink: Ink = "ink"

    @property
    def size_mm(self) -> float:
        """The size of the type."""
        return self.points * MM_PER_POINT

    @property
    def line_mm(self) -> float:
        """The height of a line."""
        return self.size_mm * LEADING


TITLE = Style(15, bold=True)
HEADING = Style(10.5, bold=True)
BODY = Style(8.5)
BODY_BOLD = Style(8.5, bold=True)
CELL = Style(7.8)
CELL_BOLD = Style(7.8, bold=True)
HEAD = Style(7, bold=True)
SMALL = Style(6.8, ink="quiet")


@cache
def font(bold: bool) -> QFont:
    """Return the papers' font, its letters unjoined so that words can be found in the file."""
    ensure_gui()
    made = QFont("sans-serif")
    made.setPixelSize(PIXELS)
    made.setBold(bold)
    made.setHintingPreference(QFont.HintingPreference.PreferNoHinting)
    made.setFeature(QFont.Tag("liga"), 0)
    return made


@cache
def _metrics(bold: bool) -> QFontMetricsF:
    return QFontMetricsF(font(bold))


def ascent_mm(style: Style) -> float:
    """Return how far letters reach above the baseline."""
    return _metrics(style.bold).ascent() / PIXELS * style.size_mm


def descent_mm(style: Style) -> float:
    """Return how far letters reach below the baseline."""
    return _metrics(style.bold).descent() / PIXELS * style.size_mm


def width_mm(text: str, style: Style) -> float:
    """Return how wide a line of text is."""
    return _pixels(text, style.bold) / PIXELS * style.size_mm


@lru_cache(maxsize=16384)
def _pixels(text: str, bold: bool) -> float:
    return float(_metrics(bold).horizontalAdvance(text))


def plain(text: str) -> str:
    """Return text on one line, with nothing in it that is not a letter, a sign or a space.

    A space at which no line may break stays one.
    """
    return _SPACES.sub(" ", "".join(map(_printable, text))).strip(" ")


def _printable(character: str) -> str:
    if character.isspace():
        return character if character == FIXED_SPACE else " "
    category = unicodedata.category(character)
    if category == "Cs":  # half of a pair: no character
        return "\ufffd"
    return "" if category == "Cc" or character in _TURNERS else character


@lru_cache(maxsize=8192)
def wrapped(text: str, style: Style, room_mm: float) -> tuple[str, ...]:
    """Return text as lines that fit a room to a hair, broken between words, else within one."""
    room_mm += HAIR_MM
    clean = plain(text)
    if not clean:
        return ()
    if width_mm(clean, style) <= room_mm:
        return (clean,)
    layout = QTextLayout(clean, font(style.bold))
    option = QTextOption()
    option.setWrapMode(QTextOption.WrapMode.WrapAtWordBoundaryOrAnywhere)
    layout.setTextOption(option)
    spans = []
    layout.beginLayout()
    while (line := layout.createLine()).isValid():
        line.setLineWidth(max(room_mm, style.size_mm) / style.size_mm * PIXELS)
        spans.append((line.textStart(), line.textLength()))
    layout.endLayout()
    units = clean.encode("utf-16-le")  # Qt counts in these
    pieces = (units[2 * at : 2 * (at + length)] for at, length in spans)
    return tuple(piece.decode("utf-16-le", "replace").strip() for piece in pieces)


def elided(text: str, style: Style, room_mm: float) -> str:
    """Return text on one line, its end replaced by … where it has no room."""
    clean = plain(text)
    if width_mm(clean, style) <= room_mm:
        return clean
    first = wrapped(clean, style, max(room_mm - width_mm("…", style), 1.0))[0]
    return first + "…"


@lru_cache(maxsize=8192)
def longest_word_mm(text: str, style: Style) -> float:
    """Return how wide the widest word of a text is."""
    return max((width_mm(word, style) for word in plain(text).split()), default=0.0)
