"""A pole of a switch: its common, its throws, and its blade as it stands."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property
from itertools import pairwise

from wirer.circuit.kind import Point
from wirer.layout.box import Box
from wirer.papers.schematic.drawn import Glyph, Text
from wirer.papers.schematic.layered.graph import LEFT, RIGHT, Gap
from wirer.papers.schematic.lettering import LABEL_MM, LINE
from wirer.papers.schematic.symbols.symbol import (
    Ahead,
    Outlet,
    Pin,
    Plan,
    Sketch,
    Symbol,
    Variant,
    lead_text,
)

PITCH = 4
HALF = 3.0
"""Half the length of the blade: the pivot and the contacts are so far from the axis."""

CONTACT = 0.4
BUTTON = 2.4
OPEN_RISE = 1.6
"""How far the free end of a blade is lifted that has but one contact and is open."""


@dataclass(frozen=True, slots=True)
class Throw:
    """A contact of a pole, whether the blade stands on it at present."""

    pin: Pin
    closed: bool


class Pole(Symbol):
    """A pole with one common. Slots: the common, then the throws from top to bottom.

    Its headings are its own, and that of all poles of its switch.
    """

    def __init__(
        self,
        part: str,
        name: str,
        headings: tuple[tuple[str, ...], tuple[str, ...]],
        common: Pin,
        throws: Sequence[Throw],
        *,
        button: bool = False,
    ) -> None:
        self.part = part
        self.name = name
        self.kin = part
        self.headings = headings
        self.common = common
        self.throws = tuple(throws)
        self.button = button

    @property
    def nets(self) -> tuple[int, ...]:
        """The nets of the common and the throws."""
        return (self.common.net, *(throw.pin.net for throw in self.throws))

    @property
    def slot_lugs(self) -> tuple[tuple[str, ...], ...]:
        """The lugs of the common and the throws."""
        return (self.common.lugs, *(throw.pin.lugs for throw in self.throws))

    def sides(self, ahead: Ahead, /) -> tuple[int, ...]:
        """Throws and common lead to opposite sides; throws to the left unless they are ahead."""
        common, throws = ahead(self.common.net), self._throws_ahead(ahead)
        if throws is None:
            side = LEFT if common is None else RIGHT
        else:
            side = LEFT if common is None or throws <= common else RIGHT
        return (-side, *[side] * len(self.throws))

    def variants(self, plan: Plan, /) -> list[Variant]:
        """Its throws may stand in the opposite order; all poles of a switch then do."""
        slots = (0, *range(len(self.throws), 0, -1))
        pole = Pole(
            self.part, self.name, self.headings, self.common, self.throws[::-1], button=self.button
        )
        ends = tuple(plan.ends[slot] for slot in slots)
        return [Variant(pole, Plan(ends, plan.heading), slots)]

    def bias(self, ahead: Ahead, /) -> float | None:
        """Return how far its common is ahead of its throws, which then had better be left."""
        common, throws = ahead(self.common.net), self._throws_ahead(ahead)
        return None if common is None or throws is None else common - throws

    def _throws_ahead(self, ahead: Ahead) -> float | None:
        found = [place for throw in self.throws if (place := ahead(throw.pin.net)) is not None]
        return sum(found) / len(found) if found else None

    def _heights(self) -> list[int]:
        """Return the heights of its stations: the throws, and the common in their middle."""
        count = len(self.throws)
        return sorted({PITCH * i for i in range(count)} | {PITCH * (count - 1) // 2})

    def gaps(self, _plan: Plan, /) -> tuple[Gap, ...]:
        """Return rigid distances."""
        return tuple(Gap(b - a, b - a) for a, b in pairwise(self._heights()))

    @cached_property
    def stations(self) -> tuple[int, ...]:
        """The station of the common and of each throw."""
        heights = self._heights()
        count = len(self.throws)
        common = heights.index(PITCH * (count - 1) // 2)
        return (common, *(heights.index(PITCH * i) for i in range(count)))

    def places(self, heights: Sequence[int]) -> list[float]:
        """Return the heights of the common and of each throw."""
        return [float(heights[station]) for station in self.stations]

    def blade_middle(self, heights: Sequence[int]) -> float:
        """Return the height at which the blade crosses the axis (the lowest, if it is on two)."""
        pivot, *contacts = self.places(heights)
        closed = [y for y, throw in zip(contacts, self.throws, strict=True) if throw.closed]
        if closed:
            return (pivot + max(closed)) / 2
        return pivot - (OPEN_RISE / 2 if len(self.throws) == 1 else 0.0)

    def sketch(self, plan: Plan, heights: Sequence[int], /) -> Sketch:
        """Draw it about the axis x = 0."""
        sketch = Sketch()
        side = plan.ends[1].side
        places = self.places(heights)
        pivot = (-side * HALF, places[0])
        contacts = [(side * HALF, y) for y in places[1:]]
        glyph = self._glyph(pivot, contacts, headed=plan.heading != "none")
        sketch.drawn.glyphs.append(glyph)
        leads = [
            lead_text(sketch, throw.pin, at, side)
            for throw, at in zip(self.throws, contacts, strict=True)
        ]
        longest = max(outlet.lead for outlet in leads)
        sketch.outlets = [
            lead_text(sketch, self.common, pivot, -side),
            *(Outlet(outlet.start, longest) for outlet in leads),
        ]
        if plan.heading != "none":
            lines = self.headings[plan.heading == "group"]
            _head(sketch, lines, min(glyph.box.top, min(places) - 1.8))
        return sketch

    def _glyph(self, pivot: Point, contacts: Sequence[Point], *, headed: bool) -> Glyph:
        throws = {f"throw{i}": at for i, at in enumerate(contacts)}
        lugs = {f"throw{i}": throw.pin.lugs for i, throw in enumerate(self.throws)}
        marks = {f"throw{i}" for i, throw in enumerate(self.throws) if throw.closed}
        box = Box.around([pivot, *contacts]).grown(CONTACT)
        rise = OPEN_RISE if len(self.throws) == 1 and not marks else 0.0
        if self.button and headed:
            marks.add("button")
            rise += BUTTON
        return Glyph(
            "pole",
            self.name,
            {"common": pivot, **throws},
            Box(box.left, box.top - rise, box.right, box.bottom),
            {"common": self.common.lugs, **lugs},
            frozenset(marks),
        )


def _head(sketch: Sketch, lines: tuple[str, ...], top: float) -> None:
    y = top - 1.3 - LINE * (len(lines) - 1)
    for line in lines:
        sketch.drawn.texts.append(Text(line, (0.0, y), "center", LABEL_MM))
        y += LINE
