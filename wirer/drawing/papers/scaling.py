"""How a drawing fits paper: at true scale if it can, else smaller, or in tiles."""

from __future__ import annotations

import math
from dataclasses import dataclass

from wirer.drawing.papers.paper import NARROW_MM, Form, Paper
from wirer.layout.box import Box

OVERLAP_MM = 10.0


@dataclass(frozen=True, slots=True)
class Fit:
    """The form of the page, and paper by true mm."""

    form: Form
    scale: float


def best_fit(paper: Paper, content: Box, most: float = 1.0, below: float = 0.0) -> Fit:
    """Return the form in which a drawing is largest, at most at a scale; upright if both serve.

    `below` is room to be left under the drawing.
    """
    fits = []
    for across in (False, True):
        form = Form(paper, across, NARROW_MM)
        room = form.body
        scale = min(
            most,
            room.width / max(content.width, 1.0),
            (room.height - below) / max(content.height, 1.0),
        )
        fits.append(Fit(form, scale))
    return max(fits, key=lambda fit: round(fit.scale, 6))


def tiles(form: Form, content: Box) -> list[list[Box]]:
    """Return rows of tiles of a drawing at true scale, neighbours overlapping by 10 mm."""
    room = form.body
    columns = _count(content.width, room.width)
    rows = _count(content.height, room.height)
    step_x, step_y = room.width - OVERLAP_MM, room.height - OVERLAP_MM
    width = columns * step_x + OVERLAP_MM
    height = rows * step_y + OVERLAP_MM
    left = content.centre[0] - width / 2
    top = content.centre[1] - height / 2
    return [
        [
            Box(
                left + column * step_x,
                top + row * step_y,
                left + column * step_x + room.width,
                top + row * step_y + room.height,
            )
            for column in range(columns)
        ]
        for row in range(rows)
    ]


def tiled_form(paper: Paper, content: Box) -> Form:
    """Return the form that takes fewer tiles, upright if both take as many."""
    forms = [Form(paper, across, NARROW_MM) for across in (False, True)]
    return min(forms, key=lambda form: sum(map(len, tiles(form, content))))


def _count(extent: float, room: float) -> int:
    return max(1, math.ceil((extent - OVERLAP_MM) / (room - OVERLAP_MM) - 1e-9))


def scale_words(scale: float) -> str:
    """Write a scale as a draughtsman does: `scale 1:1`, `scale 1:1.14`."""
    if abs(scale - 1) < 1e-9:
        return "scale 1:1"
    return f"scale 1:{1 / scale:.3g}" if scale < 1 else f"scale {scale:.3g}:1"
