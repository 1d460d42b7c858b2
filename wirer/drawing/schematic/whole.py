"""The whole schematic as a drawing of schemdraw: symbols, wires, dots, texts."""

from __future__ import annotations

from dataclasses import dataclass

import schemdraw
import schemdraw.elements as elm
from schemdraw.elements import Element
from schemdraw.segments import Segment

from wirer.drawing.schematic.elements import THIN, UNIT, on_sheet
from wirer.drawing.schematic.strokes import FONT_TO_MM, FittedText, new_drawing
from wirer.drawing.schematic.symbols import element_of
from wirer.papers.schematic.drawn import Drawn, Glyph
from wirer.papers.schematic.lettering import LUG_MM

DOT = 0.09


@dataclass(frozen=True)
class WholeDrawing:
    """A drawing with what is on it: each glyph with its element, the wires, the dots.

    The wires are one element, whose segments are level or upright lines.
    """

    drawing: schemdraw.Drawing
    symbols: tuple[tuple[Glyph, Element], ...]
    wires: Element
    dots: tuple[Element, ...]


def whole_drawing(drawn: Drawn) -> WholeDrawing:
    """Return the drawing of what was placed."""
    drawing = new_drawing()
    wires = _still(drawing)
    for stroke in drawn.strokes:
        wires.segments.append(Segment([on_sheet(stroke.start), on_sheet(stroke.end)]))
    for link in drawn.links:
        ends = [on_sheet(link.start), on_sheet(link.end)]
        _still(drawing).segments.append(Segment(ends, ls="--", lw=THIN))
    symbols = tuple((glyph, drawing.add(element_of(glyph))) for glyph in drawn.glyphs)
    dots = tuple(drawing.add(elm.Dot(radius=DOT).at(on_sheet(dot)).theta(0)) for dot in drawn.dots)
    _write(_still(drawing), drawn)
    return WholeDrawing(drawing, symbols, wires, dots)


def _write(texts: Element, drawn: Drawn) -> None:
    """Write all texts, and the names of named ends in them."""
    for text in drawn.texts:
        size = text.height_mm / FONT_TO_MM
        at, room = on_sheet(text.at), text.width * UNIT
        texts.segments.append(FittedText(at, text.text, text.across, size, room))
    for glyph in drawn.glyphs:
        if glyph.form == "flag":
            (x, y), (far, _) = glyph.points["end"], glyph.points["far"]
            middle = ((x + far) / 2 + (0.4 if far > x else -0.4), y)
            at, room = on_sheet(middle), (abs(far - x) - 1.4) * UNIT
            size = LUG_MM / FONT_TO_MM
            texts.segments.append(FittedText(at, glyph.name, "center", size, room))


def _still(drawing: schemdraw.Drawing) -> Element:
    """Add an empty element at the origin, to be filled with segments that lie where they are."""
    element = Element()
    drawing.add(element.at((0, 0)).theta(0))
    return element
