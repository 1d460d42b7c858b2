"""A column: elements with two ends that stand on one another, ground below.

Coils, tracks and what hangs from them to ground. Neighbours are joined where they have a net in
common; what is joined to more leads out to a side, as do wipers.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property
from itertools import pairwise

from wirer.circuit.kind import Point
from wirer.layout.box import Box
from wirer.papers.schematic.drawn import Link, Stroke
from wirer.papers.schematic.layered.graph import LEFT, RIGHT, Gap
from wirer.papers.schematic.lettering import LINE
from wirer.papers.schematic.symbols.item import Item, draw_label, draw_standing, draw_wiper
from wirer.papers.schematic.symbols.runs import Way, ways_of_runs
from wirer.papers.schematic.symbols.symbol import (
    Ahead,
    Outlet,
    Pin,
    Plan,
    Sketch,
    Symbol,
    Variant,
    side_of,
    side_text,
)

STRETCH = 24
LEAST_LEAD = 2.6
MOST_VARIANTS = 8
LINK_SHARE = 0.6
"""Where along a wiper's arrow the dashed line to the next begins."""


@dataclass(frozen=True, slots=True)
class Knot:
    """A place on the axis: the pins that meet there, and the items above and below it."""

    pins: tuple[Pin, ...]
    above: int | None
    below: int | None

    @property
    def net(self) -> int:
        """The net of its pins."""
        return self.pins[0].net

    @property
    def lugs(self) -> tuple[str, ...]:
        """The lugs that meet there."""
        return tuple(dict.fromkeys(lug for pin in self.pins for lug in pin.lugs))

    @property
    def text(self) -> str:
        """What is written there."""
        return " ".join(dict.fromkeys(pin.text for pin in self.pins if pin.text))

    @property
    def upper(self) -> int:
        """The item above it, or below it where there is none above."""
        return self.above if self.above is not None else self.below or 0

    @property
    def lower(self) -> int:
        """The item below it, or above it where there is none below."""
        return self.below if self.below is not None else self.above or 0


class Column(Symbol):
    """Items from top to bottom; `joints` says for each pair of neighbours whether it is joined.

    Slots: the knots from top to bottom, then the wipers.
    """

    def __init__(self, items: Sequence[Item], joints: Sequence[bool]) -> None:
        self.items = tuple(items)
        self.joints = tuple(joints)
        self.part = items[0].part
        self.name = items[0].name
        self.source = any(item.form == "coil" for item in items)

    @cached_property
    def knots(self) -> tuple[Knot, ...]:
        """The places on the axis, from top to bottom."""
        knots = [Knot((self.items[0].a,), None, 0)]
        for index, joined in enumerate(self.joints):
            upper, lower = self.items[index].b, self.items[index + 1].a
            if joined:
                knots.append(Knot((upper, lower), index, index + 1))
            else:
                knots.append(Knot((upper,), index, None))
                knots.append(Knot((lower,), None, index + 1))
        return (*knots, Knot((self.items[-1].b,), len(self.items) - 1, None))

    @cached_property
    def wipers(self) -> tuple[Pin, ...]:
        """The wipers, from top to bottom."""
        return tuple(item.wiper for item in self.items if item.wiper)

    @cached_property
    def nets(self) -> tuple[int, ...]:
        """The net of each knot and wiper."""
        return (*(knot.net for knot in self.knots), *(wiper.net for wiper in self.wipers))

    @cached_property
    def slot_lugs(self) -> tuple[tuple[str, ...], ...]:
        """The lugs of each knot and wiper."""
        return (*(knot.lugs for knot in self.knots), *(wiper.lugs for wiper in self.wipers))

    @cached_property
    def labels(self) -> tuple[tuple[str, ...], ...]:
        """The lines at each item; the first of a part has its title."""
        parts = [item.part for item in self.items]
        return tuple(
            (*item.title, *item.lines) if parts.index(item.part) == index else item.lines
            for index, item in enumerate(self.items)
        )

    def reversed(self) -> Column:
        """Return the column upside down."""
        return Column([item.turned() for item in self.items[::-1]], self.joints[::-1])

    def variants(self, plan: Plan, /) -> list[Variant]:
        """Its runs of joined items may change places and stand upside down, ground below."""
        usual = tuple(range(len(plan.ends)))
        variants = (self._variant(plan, way) for way in ways_of_runs(self.joints))
        found = [v for v in variants if v.slots != usual and not self._lifts_ground(plan, v)]
        return found[:MOST_VARIANTS]

    def _variant(self, plan: Plan, way: Way) -> Variant:
        """Return the column with its items in another order."""
        items = [self.items[i].turned() if turn else self.items[i] for i, turn in way]
        joined = {frozenset((i, i + 1)) for i, joint in enumerate(self.joints) if joint}
        column = Column(items, [frozenset((a, b)) in joined for (a, _), (b, _) in pairwise(way)])
        tops = {knot.below: number for number, knot in enumerate(self.knots)}
        feet = {knot.above: number for number, knot in enumerate(self.knots)}
        slots = []
        for knot in column.knots:
            index, turned = way[knot.lower]
            slots.append((tops if (knot.below is not None) != turned else feet)[index])
        wipers = [index for index, item in enumerate(self.items) if item.wiper]
        slots += [len(self.knots) + wipers.index(index) for index, _ in way if index in wipers]
        ends = tuple(plan.ends[slot] for slot in slots)
        return Variant(column, Plan(ends, plan.heading), tuple(slots))

    def _lifts_ground(self, plan: Plan, variant: Variant) -> bool:
        """Tell whether a variant has ground on top of a run where the column has it below."""
        assert isinstance(variant.symbol, Column)
        below = {n for n, knot in enumerate(self.knots) if knot.below is None}
        grounded = {n for n in below if plan.ends[n].way == "ground"}
        knots = zip(variant.symbol.knots, variant.slots, strict=False)
        return any(slot in grounded and knot.below is not None for knot, slot in knots)

    def sides(self, ahead: Ahead, /) -> tuple[int, ...]:
        """Return for coils the right, else for each net the side where it is better met."""
        if self.source:
            return (RIGHT,) * len(self.nets)
        wipers = [side_of(ahead(wiper.net)) for wiper in self.wipers]
        labels = self._label_sides(wipers)
        knots = [side_of(ahead(knot.net), -labels[knot.lower]) for knot in self.knots]
        return (*knots, *wipers)

    def _label_sides(self, wipers: Sequence[int]) -> list[int]:
        """Return the side of each item's label: opposite its wiper, left of coils."""
        own = iter(wipers)
        usual = -wipers[0] if wipers else LEFT if self.source else RIGHT
        return [-next(own) if item.wiper else usual for item in self.items]

    def gaps(self, plan: Plan, /) -> tuple[Gap, ...]:
        """Return the gaps between knots and, in the midst of a track, wipers."""
        gaps: list[Gap] = []
        for index, knot in enumerate(self.knots):
            grounded = plan.ends[index].way == "ground"
            if knot.below is not None:
                height = self._height(knot.below)
                if self.items[knot.below].wiper:
                    half = height // 2 + grounded
                    gaps += [Gap(half, half + STRETCH)] * 2
                else:
                    gaps.append(Gap(height, height + STRETCH))
            elif index + 1 < len(self.knots):
                gaps.append(Gap(6 if grounded else 3, STRETCH))
        return tuple(gaps)

    def _height(self, index: int) -> int:
        """Return the least height of an item, which leaves room for its label."""
        room = math.ceil(LINE * len(self.labels[index]) + 2.4)
        least = max(self.items[index].least_height, room)
        return least + least % 2

    @cached_property
    def stations(self) -> tuple[int, ...]:
        """The station of each knot and wiper."""
        knots, wipers = [], []
        station = 0
        for knot in self.knots:
            knots.append(station)
            station += 1
            if knot.below is not None and self.items[knot.below].wiper:
                wipers.append(station)
                station += 1
        return (*knots, *wipers)

    def sketch(self, plan: Plan, heights: Sequence[int], /) -> Sketch:
        """Draw it about the axis x = 0, its stations at these heights."""
        sketch = Sketch()
        count = len(self.knots)
        places = [float(heights[station]) for station in self.stations]
        sides = self._label_sides([end.side for end in plan.ends[count:]])
        tops = {knot.below: n for n, knot in enumerate(self.knots)}
        feet = {knot.above: n for n, knot in enumerate(self.knots)}
        wipers = iter(range(count, len(places)))
        outlets: list[Outlet] = []
        for index, item in enumerate(self.items):
            top, foot = tops[index], feet[index]
            middle = (places[top] + places[foot]) / 2
            if item.wiper:
                slot = next(wipers)
                middle = places[slot]
                side = plan.ends[slot].side
                outlets.append(draw_wiper(sketch, item, item.wiper, middle, side))
            half = min(middle - places[top], places[foot] - middle)
            for knot, end in ((top, middle - half), (foot, middle + half)):
                if places[knot] != end:
                    net = plan.ends[knot].net
                    sketch.drawn.strokes.append(Stroke(net, (0.0, places[knot]), (0.0, end)))
            draw_standing(sketch, item, middle, half)
            draw_label(sketch, item, self.labels[index], middle, sides[index])
        self._draw_knots(sketch, plan, places, sides)
        sketch.outlets += outlets
        self._link(sketch, [outlet.start for outlet in outlets])
        return sketch

    def _draw_knots(
        self, sketch: Sketch, plan: Plan, places: Sequence[float], labels: Sequence[int]
    ) -> None:
        for knot, y, end in zip(self.knots, places, plan.ends, strict=False):
            label = labels[knot.upper]
            side = end.side if end.way in ("port", "flag") else -label
            if self._is_amid(knot):
                side = label
            lead = LEAST_LEAD
            if knot.text:
                text = side_text(knot.text, (side * 0.7, y - 1.0), side)
                sketch.drawn.texts.append(text)
                lead = max(lead, text.width + 1.4)
            sketch.outlets.append(Outlet((0.0, y), lead, knot.below is None))

    def _is_amid(self, knot: Knot) -> bool:
        """Tell whether a knot lies between two wipers that one shaft turns."""
        above = knot.above if knot.above is not None else (knot.below or 0) - 1
        below = knot.below if knot.below is not None else (knot.above or 0) + 1
        return above >= 0 and below < len(self.items) and self._is_linked(above, below)

    def _is_linked(self, upper: int, lower: int) -> bool:
        """Tell whether two items have wipers that one shaft turns."""
        one, other = self.items[upper], self.items[lower]
        shared = (one.part, one.shaft) == (other.part, other.shaft)
        return shared and one.wiper is not None and other.wiper is not None

    def _link(self, sketch: Sketch, arrows: Sequence[Point]) -> None:
        """Link the wipers that one shaft turns, where no text lies between them."""
        texts = [text.box for text in sketch.drawn.texts]
        tracks = [index for index, item in enumerate(self.items) if item.wiper]
        for (one, upper), (other, lower) in pairwise(zip(tracks, arrows, strict=True)):
            x = upper[0] * LINK_SHARE
            line = Box(x, upper[1], x, lower[1]).grown(0.2)
            linked = self._is_linked(one, other) and upper[0] == lower[0]
            if linked and not any(map(line.meets, texts)):
                sketch.drawn.links.append(Link((x, upper[1]), (x, lower[1])))
