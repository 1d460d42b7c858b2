"""What has but one place to be joined: metal parts, posts, other lone lugs, named ends."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Literal

from wirer.layout.box import Box
from wirer.papers.schematic.drawn import Glyph, Text
from wirer.papers.schematic.layered.graph import LEFT
from wirer.papers.schematic.lettering import LINE
from wirer.papers.schematic.symbols.symbol import (
    Ahead,
    Outlet,
    Pin,
    Plan,
    Sketch,
    Symbol,
    flag_glyph,
    side_of,
    side_text,
)

PLATE = 1.8
STEM = 2.0
POST = 0.5


class Single(Symbol):
    """A plate of metal or a post. Where it leads to ground or nowhere it stands upright."""

    def __init__(
        self, form: Literal["metal", "post"], part: str, lines: tuple[str, ...], pin: Pin
    ) -> None:
        self.form = form
        self.part = part
        self.name = part
        self.lines = lines
        self.pin = pin

    @property
    def nets(self) -> tuple[int, ...]:
        """Its one net."""
        return (self.pin.net,)

    @property
    def slot_lugs(self) -> tuple[tuple[str, ...], ...]:
        """Its lugs, which are one piece."""
        return (self.pin.lugs,)

    def sides(self, ahead: Ahead, /) -> tuple[int, ...]:
        """Return where it is better met."""
        return (side_of(ahead(self.pin.net)),)

    @property
    def stations(self) -> tuple[int, ...]:
        """It has but one station."""
        return (0,)

    def sketch(self, plan: Plan, heights: Sequence[int], /) -> Sketch:
        """Draw it about the axis x = 0."""
        end = plan.ends[0]
        y = float(heights[0])
        return self._lying(y, end.side) if end.way in ("port", "flag") else self._upright(y)

    def _upright(self, y: float) -> Sketch:
        """Draw it with its label above and its pin below."""
        sketch = Sketch()
        above = POST if self.form == "post" else 0.0
        box = Box(-PLATE, y - STEM - above, PLATE, y)
        points = {"pin": (0.0, y), "plate": (0.0, y - STEM)}
        lugs = {"pin": self.pin.lugs}
        sketch.drawn.glyphs.append(Glyph(self.form, self.name, points, box, lugs))
        line = box.top - 1.7 - LINE * (len(self.lines) - 1)
        for text in self.lines:
            sketch.drawn.texts.append(Text(text, (0.0, line), "center"))
            line += LINE
        sketch.outlets.append(Outlet((0.0, y), 1.0, below=True))
        return sketch

    def _lying(self, y: float, side: int) -> Sketch:
        """Draw it at the end of a wire, with its label beyond."""
        sketch = Sketch()
        pin, plate = (0.0, y), (-side * STEM, y)
        box = Box(min(0.0, plate[0]), y - PLATE, max(0.0, plate[0]), y + PLATE)
        points = {"pin": pin, "plate": plate}
        lugs = {"pin": self.pin.lugs}
        sketch.drawn.glyphs.append(Glyph(self.form, self.name, points, box, lugs))
        line = y - LINE * (len(self.lines) - 1) / 2
        for text in self.lines:
            at = (plate[0] - side * 1.3, line)
            sketch.drawn.texts.append(side_text(text, at, -side, 1.9))
            line += LINE
        sketch.outlets.append(Outlet(pin, 1.0))
        return sketch


class NamedEnd(Symbol):
    """Where a part of a net ends in its name, to go on elsewhere."""

    def __init__(self, name: str, net: int) -> None:
        self.part = ""
        self.name = name
        self.net = net

    @property
    def nets(self) -> tuple[int, ...]:
        """Its one net."""
        return (self.net,)

    @property
    def slot_lugs(self) -> tuple[tuple[str, ...], ...]:
        """It has no lugs."""
        return ((),)

    def sides(self, _ahead: Ahead, /) -> tuple[int, ...]:
        """Return the left: it stands to the right of its net."""
        return (LEFT,)

    @property
    def stations(self) -> tuple[int, ...]:
        """It has but one station."""
        return (0,)

    def sketch(self, plan: Plan, heights: Sequence[int], /) -> Sketch:
        """Draw it about the axis x = 0."""
        y = float(heights[0])
        side = plan.ends[0].side
        sketch = Sketch()
        sketch.drawn.glyphs.append(flag_glyph((0.0, y), -side, self.name))
        sketch.outlets.append(Outlet((0.0, y), 1.0))
        return sketch
