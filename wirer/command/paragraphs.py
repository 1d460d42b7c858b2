"""Running text for people: paragraphs wrapped to the output, headings marked."""

from __future__ import annotations

import click

from wirer.circuit.errors import one_line
from wirer.command.grid import wrapped
from wirer.command.output import fitted, output_width

BROADEST = 88
NARROWEST = 30


def text_width() -> int:
    """Return how wide running text is set."""
    return max(NARROWEST, min(output_width() or BROADEST, BROADEST))


def clean(text: str) -> str:
    """Return text on one line, in signs that the output has."""
    return fitted(one_line(text))


def paragraph(text: str, width: int, indent: int = 0, hang: int = 0) -> list[str]:
    """Return a text in lines with a margin, those after the first set in further by `hang`."""
    first, *rest = wrapped(clean(text), width - indent - hang) or [""]
    margin = " " * indent
    return [margin + first, *(f"{margin}{' ' * hang}{line}" for line in rest)]


def heading(text: str, *, colour: bool, foreground: str | None = None) -> str:
    """Return a heading, which stands out where there is colour."""
    line = clean(text)
    return click.style(line, bold=True, fg=foreground) if colour else line
