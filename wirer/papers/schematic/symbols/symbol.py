"""What every symbol has: slots that lead out, stations where they do, and a picture of itself."""

from __future__ import annotations

import math
from abc import ABC, abstractmethod
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from typing import Literal

from wirer.circuit.kind import Point
from wirer.layout.box import Box
from wirer.papers.schematic.drawn import Drawn, Glyph, Stroke, Text
from wirer.papers.schematic.layered.graph import LEFT, RIGHT, Gap, Node, Port
from wirer.papers.schematic.lettering import LUG_MM, width

Way = Literal["port", "ground", "flag", "open"]
Heading = Literal["own", "group", "none"]
Ahead = Callable[[int], float | None]
"""How far a net is ahead of a symbol on the signal's way; None where it is not led to it."""

GROUND_DROP = 3.0
GROUND_HALF = 1.2
SHEATH = 5
SHEATH_HALF = (1.4, 0.9)
SCREEN_DROP = 2.1


@dataclass(frozen=True, slots=True)
class Pin:
    """A place of a symbol where something is joined: its lugs (none inside a part) and its net.

    `text` is what is written beside it.
    """

    net: int
    lugs: tuple[str, ...] = ()
    text: str = ""


@dataclass(frozen=True, slots=True)
class End:
    """How a slot leads out: by a port, to a ground symbol, to a named end, or not at all.

    `net` is what the layout is to join it to, which may be a piece of the slot's net. `screened`
    marks a screened wire there, `screen_grounded` whether its screen is on ground.
    """

    way: Way
    side: int = LEFT
    net: int = -1
    name: str = ""
    screened: bool = False
    screen_grounded: bool = False


@dataclass(frozen=True)
class Plan:
    """How a symbol is to stand: an end for each slot, and what is written above it.

    Its heading is its own, that of all poles of its switch, or none where it hangs below another.
    """

    ends: tuple[End, ...]
    heading: Heading = "own"


@dataclass(frozen=True, slots=True)
class Outlet:
    """Where a slot leaves the picture, and how far it must lead; `below`: it leads down."""

    start: Point
    lead: float = 2.0
    below: bool = False


@dataclass(slots=True)
class Sketch:
    """The picture of a symbol about its axis, with the outlet of each slot."""

    drawn: Drawn = field(default_factory=Drawn)
    outlets: list[Outlet] = field(default_factory=list)


@dataclass(frozen=True)
class Variant:
    """A symbol standing otherwise; `slots` has for each of its slots the one that it was before."""

    symbol: Symbol
    plan: Plan
    slots: tuple[int, ...]


class Symbol(ABC):
    """A symbol to be placed.

    `part` is the part's id and `name` its own; symbols of one `kin` move together. A `source`
    belongs into the first layer, a `sink` into the last.
    """

    part: str
    name: str
    kin: str = ""
    source: bool = False
    sink: bool = False

    @property
    @abstractmethod
    def nets(self) -> tuple[int, ...]:
        """The net of each slot."""

    @property
    @abstractmethod
    def slot_lugs(self) -> tuple[tuple[str, ...], ...]:
        """The lugs of each slot."""

    @abstractmethod
    def sides(self, ahead: Ahead, /) -> tuple[int, ...]:
        """Return the side to which each slot leads."""

    def variants(self, _plan: Plan, /) -> list[Variant]:
        """Return other ways in which it may stand, with its slots in another order."""
        return []

    def bias(self, _ahead: Ahead, /) -> float | None:
        """Return how much it wishes to face as it does rather than mirrored, with its sign.

        Those of one kin face alike; None has no wish.
        """
        return None

    @property
    @abstractmethod
    def stations(self) -> tuple[int, ...]:
        """The station of each slot."""

    def gaps(self, _plan: Plan, /) -> tuple[Gap, ...]:
        """Return the distances between its stations: none where it has but one."""
        return ()

    @abstractmethod
    def sketch(self, plan: Plan, heights: Sequence[int], /) -> Sketch:
        """Draw it about the axis x = 0, its stations at these heights."""

    def node(self, plan: Plan) -> Node:
        """Return the room that it takes in a layer."""
        gaps = self.gaps(plan)
        heights = [0]
        for gap in gaps:
            heights.append(heights[-1] + gap.least)
        sketch = self.sketch(plan, heights)
        drawn = _finished(sketch, plan, None)
        box = drawn.box
        ports = tuple(
            Port(end.net, station, end.side)
            for station, end in zip(self.stations, plan.ends, strict=True)
            if end.way == "port"
        )
        return Node(
            ports,
            gaps,
            above=max(0, math.ceil(-box.top)),
            below=max(0, math.ceil(box.bottom - heights[-1])),
            left=max(1, math.ceil(-box.left)),
            right=max(1, math.ceil(box.right)),
        )

    def placed(self, plan: Plan, heights: Sequence[int], node: Node) -> Drawn:
        """Draw it about the axis x = 0 with its wires led out to the sides of its node."""
        return _finished(self.sketch(plan, heights), plan, node)


def _finished(sketch: Sketch, plan: Plan, node: Node | None) -> Drawn:
    """Lead the slots out: to the sides of the node, or as far as they must at least."""
    drawn = sketch.drawn
    ports = []
    for outlet, end in zip(sketch.outlets, plan.ends, strict=True):
        x, y = outlet.start
        far = (x + end.side * outlet.lead, y)
        if end.way == "ground" and outlet.below:
            drawn.glyphs.append(ground_glyph(outlet.start))
        elif end.way != "open":
            drawn.strokes.append(Stroke(end.net, outlet.start, far))
        if end.way == "ground" and not outlet.below:
            drawn.glyphs.append(ground_glyph(far))
        elif end.way == "flag":
            drawn.glyphs.append(flag_glyph(far, end.side, end.name))
        elif end.way == "port":
            ports.append((far, end))
    _lead_out(drawn, ports, node)
    return drawn


def _lead_out(drawn: Drawn, ports: Sequence[tuple[Point, End]], node: Node | None) -> None:
    """Lead ports on to the sides of the node; a screen is shown beyond all else on its side."""
    box = drawn.box
    for (x, y), end in ports:
        edge = box.right if end.side == RIGHT else box.left
        far = x
        if end.screened:
            middle = (edge + end.side * SHEATH / 2, y)
            drawn.glyphs.append(sheath_glyph(middle, end.screen_grounded))
            far = edge + end.side * SHEATH
            if end.screen_grounded:
                top = (middle[0], y + SHEATH_HALF[1])
                drawn.glyphs.append(ground_glyph(top, SCREEN_DROP))
        if node is not None:
            far = node.right if end.side == RIGHT else -node.left
        drawn.strokes.append(Stroke(end.net, (x, y), (far, y)))


def ground_glyph(at: Point, drop: float = GROUND_DROP) -> Glyph:
    """Return a ground symbol that hangs from a place."""
    x, y = at
    box = Box(x - GROUND_HALF, y, x + GROUND_HALF, y + drop)
    return Glyph("ground", "", {"top": at}, box)


def sheath_glyph(middle: Point, grounded: bool) -> Glyph:
    """Return the dashed oval of a screen round a wire."""
    box = Box.centred(middle, 2 * SHEATH_HALF[0], 2 * SHEATH_HALF[1])
    marks = frozenset({"grounded"}) if grounded else frozenset()
    return Glyph("sheath", "", {"middle": middle}, box, marks=marks)


def flag_glyph(at: Point, side: int, name: str) -> Glyph:
    """Return a named end that points away from the wire."""
    x, y = at
    length = width(name, LUG_MM) + 2.0
    far = x + side * length
    box = Box(min(x, far), y - 1.0, max(x, far), y + 1.0)
    return Glyph("flag", name, {"end": at, "far": (far, y)}, box)


def side_text(text: str, at: Point, side: int, height_mm: float = LUG_MM) -> Text:
    """Return a text that begins at a place and runs to the left or right of it."""
    return Text(text, at, "left" if side == RIGHT else "right", height_mm)


def side_of(ahead: float | None, usual: int = LEFT) -> int:
    """Return the side on which a net is met: left unless it is ahead, the usual if it is none."""
    if ahead is None:
        return usual
    return RIGHT if ahead > 0 else LEFT


def lead_text(sketch: Sketch, pin: Pin, at: Point, side: int) -> Outlet:
    """Write what a pin is called above its lead and return an outlet that has room for it."""
    x, y = at
    if not pin.text:
        return Outlet(at, 3.0)
    text = side_text(pin.text, (x + side * 1.0, y - 1.0), side)
    sketch.drawn.texts.append(text)
    return Outlet(at, text.width + 2.4)
