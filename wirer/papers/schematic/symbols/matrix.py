"""A box of contacts of which none is common to all: what they join at present is drawn inside."""

from __future__ import annotations

from collections.abc import Sequence

from wirer.circuit.kind import Point
from wirer.layout.box import Box
from wirer.papers.schematic.drawn import Glyph, Text
from wirer.papers.schematic.layered.graph import LEFT, RIGHT, Gap
from wirer.papers.schematic.lettering import LINE
from wirer.papers.schematic.symbols.symbol import (
    Ahead,
    Pin,
    Plan,
    Sketch,
    Symbol,
    lead_text,
)

PITCH = 4
BAR = 1.2


class Matrix(Symbol):
    """Lugs along both sides of a box; `closed` are the groups of places joined at present."""

    def __init__(
        self,
        part: str,
        name: str,
        lines: tuple[str, ...],
        pins: Sequence[Pin],
        closed: Sequence[Sequence[int]],
    ) -> None:
        self.part = part
        self.name = name
        self.kin = part
        self.lines = lines
        self.pins = tuple(pins)
        self.closed = tuple(tuple(group) for group in closed)

    @property
    def nets(self) -> tuple[int, ...]:
        """The net of each lug."""
        return tuple(pin.net for pin in self.pins)

    @property
    def slot_lugs(self) -> tuple[tuple[str, ...], ...]:
        """The lugs, a piece each."""
        return tuple(pin.lugs for pin in self.pins)

    @property
    def _split(self) -> int:
        return (len(self.pins) + 1) // 2

    def sides(self, _ahead: Ahead, /) -> tuple[int, ...]:
        """Return the left for the first half of its lugs, the right for the others."""
        return tuple(LEFT if i < self._split else RIGHT for i in range(len(self.pins)))

    def gaps(self, _plan: Plan, /) -> tuple[Gap, ...]:
        """Return rigid distances."""
        return (Gap(PITCH, PITCH),) * (self._split - 1)

    @property
    def stations(self) -> tuple[int, ...]:
        """Lugs of both sides are at the same heights."""
        return tuple(i % self._split for i in range(len(self.pins)))

    def sketch(self, plan: Plan, heights: Sequence[int], /) -> Sketch:
        """Draw it about the axis x = 0."""
        sketch = Sketch()
        half = BAR * (len(self.closed) + 1) / 2 + 0.8
        points: dict[str, Point] = {}
        lugs: dict[str, tuple[str, ...]] = {}
        for index, (pin, station) in enumerate(zip(self.pins, self.stations, strict=True)):
            side = LEFT if index < self._split else RIGHT
            name = f"lug{index}"
            points[name] = (side * half, float(heights[station]))
            lugs[name] = pin.lugs
            sketch.outlets.append(lead_text(sketch, pin, points[name], side))
        top, foot = float(heights[0]) - 2.0, float(heights[-1]) + 2.0
        for place, group in enumerate(self.closed):
            x = BAR * (place - (len(self.closed) - 1) / 2)
            points |= {f"bar{place}.{index}": (x, points[f"lug{index}"][1]) for index in group}
        box = Box(-half, top, half, foot)
        sketch.drawn.glyphs.append(Glyph("matrix", self.name, points, box, lugs))
        y = top - 1.4 - LINE * (len(self.lines) - 1)
        for line in self.lines if plan.heading != "none" else ():
            sketch.drawn.texts.append(Text(line, (0.0, y), "center"))
            y += LINE
        return sketch
