"""Elements of schemdraw of our own: a pickup's coil, and symbols whose strokes lie where they are.

schemdraw's unit is `UNIT_MM` and its y runs up; the grid's step is `STEP_MM` and its y runs down.
"""

from __future__ import annotations

from typing import Literal

from schemdraw.elements import Element, Element2Term
from schemdraw.segments import Segment, SegmentArc, SegmentCircle, SegmentPoly

from wirer.circuit.kind import Point
from wirer.drawing.schematic.strokes import UNIT_MM
from wirer.papers.schematic.drawn import Glyph
from wirer.papers.schematic.lettering import STEP_MM

UNIT = STEP_MM / UNIT_MM
"""A step of the grid in schemdraw's units."""

THIN, USUAL, THICK = 1.2, 2.0, 4.0
"""Widths of lines, in schemdraw's figures."""

LOOPS = 5
LOOP = 0.3
_GAP = (float("nan"), float("nan"))


def on_sheet(point: Point) -> Point:
    """Return a point of the grid in schemdraw's units."""
    return point[0] * UNIT, -point[1] * UNIT


class Coil(Element2Term):  # type: ignore[no-untyped-call] # schemdraw's own hook has no types
    """A coil of a pickup: arcs from its end a to its end b, with a dot at the positive one."""

    def __init__(self, positive: str) -> None:
        super().__init__()
        length = LOOPS * LOOP
        self.segments.append(Segment([(0, 0), _GAP, (length, 0)]))
        for loop in range(LOOPS):
            middle = ((loop + 0.5) * LOOP, 0)
            arc = SegmentArc(middle, theta1=0, theta2=180, width=LOOP, height=LOOP * 1.3)
            self.segments.append(arc)
        if positive:
            x = 0.12 if positive == "a" else length - 0.12
            self.segments.append(SegmentCircle((x, -0.22), 0.07, fill="black"))


class Placed(Element):  # type: ignore[no-untyped-call] # schemdraw's own hook has no types
    """A symbol whose strokes are given where they lie; its anchors are its glyph's points."""

    def __init__(self, glyph: Glyph) -> None:
        super().__init__()
        for name, point in glyph.points.items():
            self.anchors[name] = on_sheet(point)
        self.at((0, 0)).theta(0)

    def line(
        self, *points: Point, width: float = USUAL, dashed: bool = False, arrow: bool = False
    ) -> None:
        """Add a polyline through points of the grid."""
        style: Literal["-", "--"] = "--" if dashed else "-"
        path = [on_sheet(point) for point in points]
        self.segments.append(Segment(path, lw=width, ls=style, arrow="->" if arrow else None))

    def circle(self, middle: Point, radius: float, *, filled: bool) -> None:
        """Add a circle about a point of the grid, its radius in steps; else what is below hides."""
        fill = "black" if filled else "bg"
        self.segments.append(SegmentCircle(on_sheet(middle), radius * UNIT, fill=fill))

    def oval(self, middle: Point, half: Point) -> None:
        """Add a dashed oval about a point of the grid, half its width and height in steps."""
        width, height = 2 * half[0] * UNIT, 2 * half[1] * UNIT
        arc = SegmentArc(on_sheet(middle), width, height, theta1=0, theta2=360, ls="--", lw=THIN)
        self.segments.append(arc)

    def area(self, *points: Point) -> None:
        """Add a filled polygon."""
        self.segments.append(SegmentPoly([on_sheet(point) for point in points], fill="black"))
