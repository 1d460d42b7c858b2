"""What a schematic consists of: glyphs, texts, lines and dots, placed in steps of its grid.

x runs to the right, y down; a step is `STEP_MM`.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Literal

from wirer.circuit.kind import Point
from wirer.layout.box import Box, boxes_union
from wirer.papers.schematic.lettering import LABEL_MM, STEP_MM, width

Form = Literal[
    "coil", "resistor", "capacitor", "inductor", "cell", "wiper", "pole", "matrix", "jack",
    "metal", "post", "ground", "flag", "sheath",
]  # fmt: skip
"""What a glyph is: the drawing has a symbol for each."""

Across = Literal["left", "center", "right"]
SLACK = 1e-6


@dataclass(frozen=True)
class Glyph:
    """A symbol: `points` are named places of it, `lugs` the lugs at those of them that are pins.

    `marks` says more to the symbol, such as which of its ends is positive. `box` is its body.
    """

    form: Form
    name: str
    points: Mapping[str, Point]
    box: Box
    lugs: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    marks: frozenset[str] = frozenset()


@dataclass(frozen=True, slots=True)
class Text:
    """A line of text; `at` is the middle of its height, at the end or middle that `across` says."""

    text: str
    at: Point
    across: Across = "left"
    height_mm: float = LABEL_MM

    @property
    def width(self) -> float:
        """Its room, in steps; who draws it fits it in."""
        return width(self.text, self.height_mm)

    @property
    def box(self) -> Box:
        """The box round its capitals."""
        x, y = self.at
        left = x - {"left": 0.0, "center": self.width / 2, "right": self.width}[self.across]
        half = self.height_mm / STEP_MM / 2
        return Box(left, y - half, left + self.width, y + half)


@dataclass(frozen=True, slots=True)
class Stroke:
    """A level or upright piece of a wire of a net."""

    net: int
    start: Point
    end: Point

    @property
    def level(self) -> bool:
        """Whether it runs from left to right."""
        return abs(self.start[1] - self.end[1]) < SLACK


@dataclass(frozen=True, slots=True)
class Link:
    """A dashed line between what moves together."""

    start: Point
    end: Point


@dataclass(slots=True)
class Drawn:
    """A drawing, or a piece of one."""

    glyphs: list[Glyph] = field(default_factory=list)
    texts: list[Text] = field(default_factory=list)
    strokes: list[Stroke] = field(default_factory=list)
    links: list[Link] = field(default_factory=list)
    dots: list[Point] = field(default_factory=list)

    def add(self, other: Drawn) -> None:
        """Add another piece."""
        self.glyphs += other.glyphs
        self.texts += other.texts
        self.strokes += other.strokes
        self.links += other.links
        self.dots += other.dots

    @property
    def box(self) -> Box:
        """The box round everything."""
        lines = [(stroke.start, stroke.end) for stroke in self.strokes]
        lines += [(link.start, link.end) for link in self.links]
        boxes = [*(g.box for g in self.glyphs), *(t.box for t in self.texts)]
        return boxes_union([*boxes, *map(Box.around, lines)])


def moved(point: Point, dx: float, dy: float) -> Point:
    """Return a point, moved."""
    return point[0] + dx, point[1] + dy


def shifted(drawn: Drawn, dx: float, dy: float) -> Drawn:
    """Return a drawing, moved."""
    return Drawn(
        [_moved_glyph(glyph, dx, dy) for glyph in drawn.glyphs],
        [Text(t.text, moved(t.at, dx, dy), t.across, t.height_mm) for t in drawn.texts],
        [Stroke(s.net, moved(s.start, dx, dy), moved(s.end, dx, dy)) for s in drawn.strokes],
        [Link(moved(s.start, dx, dy), moved(s.end, dx, dy)) for s in drawn.links],
        [moved(dot, dx, dy) for dot in drawn.dots],
    )


def _moved_glyph(glyph: Glyph, dx: float, dy: float) -> Glyph:
    box = glyph.box
    return Glyph(
        glyph.form,
        glyph.name,
        {name: moved(point, dx, dy) for name, point in glyph.points.items()},
        Box(box.left + dx, box.top + dy, box.right + dx, box.bottom + dy),
        glyph.lugs,
        glyph.marks,
    )
