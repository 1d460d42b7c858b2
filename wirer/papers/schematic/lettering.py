"""The texts of a schematic: their sizes, in steps of its grid, and how they are broken."""

from __future__ import annotations

import unicodedata

from wirer.layout.lettering import shortened, text_width

STEP_MM = 1.25
LABEL_MM = 1.9
LUG_MM = 1.5
"""Heights of capitals: of labels and values, and of the names of lugs and positions."""

LINE = 2.4
LUG_LINE = 1.8
"""Heights of a line in steps of the grid, gap included."""

LONGEST_LINE = 16
MOST_LINES = 3


def width(text: str, height_mm: float = LABEL_MM) -> float:
    """Return how much room a text takes, in steps of the grid."""
    return text_width(text, height_mm) / STEP_MM


def clean(text: str, longest: int = 60) -> str:
    """Return a text on one line, without characters that can't be drawn, shortened if too long."""
    printable = "".join(c for c in text if c.isspace() or unicodedata.category(c) != "Cc")
    return shortened(printable, longest)


def wrapped(text: str, longest: int = LONGEST_LINE, most: int = MOST_LINES) -> tuple[str, ...]:
    """Break a text between words into lines; what is left over at the end becomes …."""
    lines: list[str] = []
    for word in clean(text, longest * most * 2).split():
        piece = word if len(word) <= longest else word[: longest - 1] + "…"
        if lines and len(lines[-1]) + 1 + len(piece) <= longest:
            lines[-1] += f" {piece}"
        else:
            lines.append(piece)
    if len(lines) > most:
        lines = lines[:most]
        lines[-1] = lines[-1][: longest - 1].rstrip() + "…"
    return tuple(lines)
