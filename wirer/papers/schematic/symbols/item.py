"""An element with two ends, as it is drawn in a column or a row."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Literal

from wirer.circuit.kind import Point
from wirer.layout.box import Box
from wirer.papers.schematic.drawn import Form, Glyph, Text
from wirer.papers.schematic.lettering import LABEL_MM, LINE, LUG_MM
from wirer.papers.schematic.symbols.symbol import Outlet, Pin, Sketch, side_text

ItemForm = Literal["coil", "resistor", "capacitor", "inductor", "cell", "track"]
GLYPH: dict[ItemForm, Form] = {
    "coil": "coil",
    "resistor": "resistor",
    "capacitor": "capacitor",
    "inductor": "inductor",
    "cell": "cell",
    "track": "resistor",
}
LEAST_HEIGHT = {"coil": 10, "track": 10}
USUAL_HEIGHT = 8
BODY = {"coil": (1.2, 3.0), "resistor": (1.1, 2.1), "track": (1.1, 2.1)}
USUAL_BODY = (1.3, 2.1)
WIPER_REACH = 4.0
"""Where the wiper's arrow begins, from the axis."""


@dataclass(frozen=True, slots=True)
class Item:
    """An element with two ends: `a` on top unless it is upside down, `b` below.

    `wiper` is that of a track. `lines` are its label, `title` names its part above the first of its
    items. `positive` says which end goes positive with those of other coils ("a", "b" or neither);
    `letters` what is written at its ends inside.
    """

    form: ItemForm
    part: str
    name: str
    a: Pin
    b: Pin
    lines: tuple[str, ...] = ()
    wiper: Pin | None = None
    positive: str = ""
    letters: tuple[str, str] = ("", "")
    shaft: str = ""
    title: tuple[str, ...] = ()

    def turned(self) -> Item:
        """Return the item upside down."""
        positive = {"a": "b", "b": "a"}.get(self.positive, "")
        letters = (self.letters[1], self.letters[0])
        return replace(self, a=self.b, b=self.a, positive=positive, letters=letters)

    @property
    def body(self) -> tuple[float, float]:
        """Half the width and half the length of its body."""
        return BODY.get(self.form, USUAL_BODY)

    @property
    def least_height(self) -> int:
        """How far its ends lie apart at least."""
        return LEAST_HEIGHT.get(self.form, USUAL_HEIGHT)

    @property
    def pins(self) -> tuple[Pin, ...]:
        """Its ends and its wiper."""
        return (self.a, self.b, self.wiper) if self.wiper else (self.a, self.b)


def item_glyph(item: Item, a: Point, b: Point, box: Box) -> Glyph:
    """Return the glyph of an item from the place of its end a to that of its end b."""
    middle = ((a[0] + b[0]) / 2, (a[1] + b[1]) / 2)
    marks = frozenset({item.positive}) if item.positive else frozenset[str]()
    lugs = {"a": item.a.lugs, "b": item.b.lugs}
    return Glyph(GLYPH[item.form], item.name, {"a": a, "b": b, "middle": middle}, box, lugs, marks)


def draw_standing(sketch: Sketch, item: Item, middle: float, half: float) -> None:
    """Draw an item on the axis x = 0, its ends half its length above and below its middle."""
    half_width, half_body = item.body
    box = Box(-half_width, middle - half_body, half_width, middle + half_body)
    glyph = item_glyph(item, (0.0, middle - half), (0.0, middle + half), box)
    sketch.drawn.glyphs.append(glyph)


def draw_wiper(sketch: Sketch, item: Item, wiper: Pin, y: float, side: int) -> Outlet:
    """Draw the arrow of a wiper from a side and return where it leads out."""
    pin = (side * WIPER_REACH, y)
    tip = (side * item.body[0], y)
    points = {"pin": pin, "tip": tip}
    glyph = Glyph("wiper", item.name, points, Box.around((pin, tip)), {"pin": wiper.lugs})
    sketch.drawn.glyphs.append(glyph)
    if not wiper.text:
        return Outlet(pin, 1.0)
    text = side_text(wiper.text, (side * (WIPER_REACH - 1.0), y - 1.0), side)
    sketch.drawn.texts.append(text)
    return Outlet(pin, max(1.0, text.width - 0.4))


def draw_label(sketch: Sketch, item: Item, lines: Sequence[str], middle: float, side: int) -> None:
    """Write the label of an item beside it, and a coil's letters at its ends."""
    is_coil = item.form == "coil"
    offset = item.body[0] + (2.6 if is_coil else 1.0)
    y = middle - LINE * (len(lines) - 1) / 2
    for line in lines:
        sketch.drawn.texts.append(side_text(line, (side * offset, y), side, LABEL_MM))
        y += LINE
    for letter, sign in zip(item.letters, (-1, 1), strict=True):
        if letter:
            at = (side * (item.body[0] + 1.0), middle + sign * (item.body[1] - 0.2))
            sketch.drawn.texts.append(Text(letter, at, "center", LUG_MM))
