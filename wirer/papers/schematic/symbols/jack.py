"""A jack: tip, sleeve and what other contacts it has."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from wirer.circuit.kind import Point
from wirer.layout.box import Box
from wirer.papers.schematic.drawn import Glyph
from wirer.papers.schematic.layered.graph import LEFT, RIGHT, Gap
from wirer.papers.schematic.lettering import LABEL_MM, LINE
from wirer.papers.schematic.symbols.symbol import (
    Ahead,
    Outlet,
    Pin,
    Plan,
    Sketch,
    Symbol,
    side_text,
)

PITCH = 4
REACH = -5.0
SLEEVE = 4.4

Spring = Literal["tip", "ring", "parted"]


@dataclass(frozen=True, slots=True)
class Contact:
    """A contact but the sleeve: a spring on the plug, or one that the plug parts from the tip."""

    pin: Pin
    spring: Spring


class Jack(Symbol):
    """An output. Slots: its contacts from the tip down, then the sleeve."""

    sink = True

    def __init__(
        self, part: str, lines: tuple[str, ...], contacts: Sequence[Contact], sleeve: Pin
    ) -> None:
        self.part = part
        self.name = part
        self.lines = lines
        self.contacts = tuple(contacts)
        self.sleeve = sleeve

    @property
    def nets(self) -> tuple[int, ...]:
        """The nets of its contacts and the sleeve."""
        return (*(contact.pin.net for contact in self.contacts), self.sleeve.net)

    @property
    def slot_lugs(self) -> tuple[tuple[str, ...], ...]:
        """The lugs of its contacts and the sleeve."""
        return (*(contact.pin.lugs for contact in self.contacts), self.sleeve.lugs)

    def sides(self, _ahead: Ahead, /) -> tuple[int, ...]:
        """Return the left: it is the end of the signal's way."""
        return (LEFT,) * len(self.nets)

    def gaps(self, _plan: Plan, /) -> tuple[Gap, ...]:
        """Return rigid distances."""
        return (Gap(PITCH, PITCH),) * (len(self.nets) - 1)

    @property
    def stations(self) -> tuple[int, ...]:
        """Each has a station of its own."""
        return tuple(range(len(self.nets)))

    def _reach(self) -> float:
        """Return where its contacts begin, which leaves room for their names."""
        names = [side_text(contact.pin.text, (0.0, 0.0), RIGHT) for contact in self.contacts]
        sleeve = side_text(self.sleeve.text, (0.0, 0.0), RIGHT).width
        return min(REACH, 1.8 - sleeve, *(-2.0 - name.width for name in names))

    def sketch(self, plan: Plan, heights: Sequence[int], /) -> Sketch:
        """Draw it about the axis x = 0."""
        sketch = Sketch()
        reach = self._reach()
        top, foot = float(heights[0]), float(heights[-1])
        points: dict[str, Point] = {}
        lugs: dict[str, tuple[str, ...]] = {}
        for index, (contact, height) in enumerate(zip(self.contacts, heights, strict=False)):
            name = f"{contact.spring}{index}"
            points[name] = (reach, float(height))
            lugs[name] = contact.pin.lugs
            sketch.outlets.append(_lead(sketch, contact.pin, points[name]))
        points["sleeve"] = (SLEEVE - 0.5, foot)
        points["barrel"] = (SLEEVE - 0.5, top - 1.6)
        lugs["sleeve"] = self.sleeve.lugs
        box = Box(SLEEVE - 1.0, top - 1.6, SLEEVE, foot - 2.0)
        sketch.drawn.glyphs.append(Glyph("jack", self.part, points, box, lugs))
        grounded = plan.ends[-1].way == "ground"
        sketch.outlets.append(Outlet(points["sleeve"], SLEEVE - reach, below=grounded))
        if self.sleeve.text and plan.ends[-1].way != "open":
            at = (SLEEVE - 1.6, foot - 1.0)
            sketch.drawn.texts.append(side_text(self.sleeve.text, at, LEFT))
        line = box.top - 2.0 - LINE * (len(self.lines) - 1)
        for text in self.lines:
            sketch.drawn.texts.append(side_text(text, (reach, line), RIGHT, LABEL_MM))
            line += LINE
        return sketch


def _lead(sketch: Sketch, pin: Pin, at: Point) -> Outlet:
    if pin.text:
        sketch.drawn.texts.append(side_text(pin.text, (at[0] + 0.4, at[1] - 1.0), RIGHT))
    return Outlet(at, 1.6)
