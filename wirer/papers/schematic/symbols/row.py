"""A row: elements in series from left to right, on a signal's way."""

from __future__ import annotations

from collections.abc import Sequence

from wirer.layout.box import Box
from wirer.papers.schematic.drawn import Text
from wirer.papers.schematic.layered.graph import LEFT, RIGHT
from wirer.papers.schematic.lettering import LINE, width
from wirer.papers.schematic.symbols.item import Item, item_glyph
from wirer.papers.schematic.symbols.symbol import Ahead, Outlet, Plan, Sketch, Symbol

LEAST_WIDTH = 8.0


class Row(Symbol):
    """Items side by side. Slots: its left end and its right end, before it is mirrored."""

    def __init__(self, items: Sequence[Item]) -> None:
        self.items = tuple(items)
        self.part = items[0].part
        self.name = items[0].name

    @property
    def nets(self) -> tuple[int, ...]:
        """The nets of both ends."""
        return self.items[0].a.net, self.items[-1].b.net

    @property
    def slot_lugs(self) -> tuple[tuple[str, ...], ...]:
        """The lugs of both ends."""
        return self.items[0].a.lugs, self.items[-1].b.lugs

    def sides(self, ahead: Ahead, /) -> tuple[int, ...]:
        """Return opposite sides for its ends."""
        first, last = (ahead(net) or 0.0 for net in self.nets)
        return (RIGHT, LEFT) if first > last else (LEFT, RIGHT)

    @property
    def stations(self) -> tuple[int, ...]:
        """Both ends are at the one station."""
        return 0, 0

    def sketch(self, plan: Plan, heights: Sequence[int], /) -> Sketch:
        """Draw it about the axis x = 0."""
        mirrored = plan.ends[0].side == RIGHT
        items = [item.turned() for item in self.items[::-1]] if mirrored else list(self.items)
        widths = [_room(item) for item in items]
        sketch = Sketch()
        y = float(heights[0])
        x = left = -sum(widths) / 2
        for item, room in zip(items, widths, strict=True):
            _draw_lying(sketch, item, (x, x + room), y)
            x += room
        ends = [Outlet((left, y), 1.0), Outlet((x, y), 1.0)]
        sketch.outlets = ends[::-1] if mirrored else ends
        return sketch


def _room(item: Item) -> float:
    """Return how wide an item is with its label."""
    return max(LEAST_WIDTH, *(width(line) + 1.0 for line in (*item.title, *item.lines)))


def _draw_lying(sketch: Sketch, item: Item, ends: tuple[float, float], y: float) -> None:
    middle = sum(ends) / 2
    half, length = item.body
    box = Box(middle - length, y - half, middle + length, y + half)
    sketch.drawn.glyphs.append(item_glyph(item, (ends[0], y), (ends[1], y), box))
    lines = (*item.title, *item.lines)
    line = y - half - 1.4 - LINE * (len(lines) - 1)
    for text in lines:
        sketch.drawn.texts.append(Text(text, (middle, line), "center"))
        line += LINE
