"""The symbols of a schematic as elements of schemdraw: one table, form by form.

Forms follow IEC 60617 and IEEE 315: a rectangle for a resistor, arcs for a coil, bars for ground.
Each element has an anchor for every point of its glyph.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping

import schemdraw.elements as elm
from schemdraw.elements import Element, Element2Term
from schemdraw.segments import SegmentText

from wirer.circuit.errors import WirerError
from wirer.circuit.kind import Point
from wirer.drawing.schematic.elements import THICK, THIN, Coil, Placed, on_sheet
from wirer.papers.schematic.drawn import Glyph
from wirer.papers.schematic.symbols.pole import CONTACT, OPEN_RISE
from wirer.papers.schematic.symbols.single import PLATE, POST
from wirer.papers.schematic.symbols.symbol import SHEATH_HALF


class UnknownSymbolError(WirerError):
    """A glyph of a form that has no symbol."""


def element_of(glyph: Glyph) -> Element:
    """Return the placed element of a glyph.

    Raises
    ------
    UnknownSymbolError
        There is no symbol for its form.
    """
    make = SYMBOLS.get(glyph.form)
    if make is None:
        raise UnknownSymbolError(f'there is no symbol for "{glyph.form}" of {glyph.name}')
    return make(glyph)


def _between_ends(make: Callable[[], Element2Term]) -> Callable[[Glyph], Element]:
    def placed(glyph: Glyph) -> Element:
        start, end = on_sheet(glyph.points["a"]), on_sheet(glyph.points["b"])
        return make().endpoints(start, end)

    return placed


def _coil(glyph: Glyph) -> Element:
    coil = Coil(min(glyph.marks, default=""))
    return coil.endpoints(on_sheet(glyph.points["a"]), on_sheet(glyph.points["b"]))


def _cell(glyph: Glyph) -> Element:
    """Draw a cell, its longer line at its positive end a, with a plus."""
    make: Callable[[], Element2Term] = elm.BatteryCell
    cell = make()
    cell.segments.append(SegmentText((-0.3, 0.3), "+", align=("center", "center"), fontsize=10))
    return cell.endpoints(on_sheet(glyph.points["a"]), on_sheet(glyph.points["b"]))


def _wiper(glyph: Glyph) -> Element:
    element = Placed(glyph)
    element.line(glyph.points["pin"], glyph.points["tip"], arrow=True)
    return element


def _ground(glyph: Glyph) -> Element:
    element = Placed(glyph)
    x, y = glyph.points["top"]
    foot = glyph.box.bottom
    first = foot - 1.2
    element.line((x, y), (x, first))
    for place, half in enumerate((1.1, 0.7, 0.3)):
        level = first + 0.6 * place
        element.line((x - half, level), (x + half, level))
    return element


def _pole(glyph: Glyph) -> Element:
    element = Placed(glyph)
    pivot = glyph.points["common"]
    throws = {name: at for name, at in glyph.points.items() if name != "common"}
    closed = [at for name, at in throws.items() if name in glyph.marks]
    side = 1.0 if next(iter(throws.values()))[0] > pivot[0] else -1.0
    reach = abs(next(iter(throws.values()))[0] - pivot[0])
    if not closed:
        rise = OPEN_RISE if len(throws) == 1 else 0.0
        end = (pivot[0] + side * reach * 0.85, pivot[1] - rise)
        element.line(pivot, end)
    for at in closed:
        element.line(pivot, at)
    if "button" in glyph.marks:
        _button(element, glyph, pivot, closed)
    for at in (pivot, *throws.values()):
        element.circle(at, CONTACT, filled=False)
    return element


def _button(element: Placed, glyph: Glyph, pivot: Point, closed: list[Point]) -> None:
    """Add what a finger presses, above the blade."""
    top = glyph.box.top
    x = sum(point[0] for point in glyph.points.values()) / len(glyph.points)
    blade = pivot[1] if closed else pivot[1] - OPEN_RISE / 2
    element.line((x, blade), (x, top), width=THIN, dashed=True)
    element.line((x - 1.2, top + 0.8), (x - 1.2, top), (x + 1.2, top), (x + 1.2, top + 0.8))


def _matrix(glyph: Glyph) -> Element:
    element = Placed(glyph)
    box = glyph.box
    element.line(*box.corners, box.corners[0])
    bars: dict[str, list[tuple[Point, Point]]] = {}
    for name, point in glyph.points.items():
        bar, _, index = name.partition(".")
        if index:
            bars.setdefault(bar, []).append((point, glyph.points[f"lug{index}"]))
    for places in bars.values():
        heights = [point[1] for point, _ in places]
        x = places[0][0][0]
        element.line((x, min(heights)), (x, max(heights)))
        for point, _ in places:
            element.circle(point, 0.3, filled=True)
    return element


def _jack(glyph: Glyph) -> Element:
    element = Placed(glyph)
    x, foot = glyph.points["sleeve"]
    top = glyph.points["barrel"][1]
    element.line((x - 0.5, top), (x + 0.5, top), (x + 0.5, foot - 2.0), (x - 0.5, foot - 2.0),
                 (x - 0.5, top))  # fmt: skip
    element.line((x, foot - 2.0), (x, foot))
    tip = glyph.points["tip0"][1]
    for name, (start, y) in glyph.points.items():
        form = name.rstrip("0123456789")
        if form in ("tip", "ring"):
            bend = 1.2 if form == "tip" else -1.2
            element.line((start, y), (x - 4.2, y), (x - 3.0, y + bend), (x - 1.8, y))
        elif form == "parted":
            element.line((start, y), (x - 5.0, y), (x - 5.0, tip + 0.5))
            element.area((x - 5.0, tip + 0.5), (x - 5.5, tip + 1.6), (x - 4.5, tip + 1.6))
    return element


def _metal(glyph: Glyph) -> Element:
    """Draw a plate, seen on edge, at the end of its lead."""
    element = Placed(glyph)
    (x, y), (far_x, far_y) = glyph.points["pin"], glyph.points["plate"]
    element.line((x, y), (far_x, far_y))
    across = (PLATE, 0.0) if x == far_x else (0.0, PLATE)
    ends = [(far_x + sign * across[0], far_y + sign * across[1]) for sign in (-1, 1)]
    element.line(*ends, width=THICK)
    return element


def _post(glyph: Glyph) -> Element:
    element = Placed(glyph)
    pin, plate = glyph.points["pin"], glyph.points["plate"]
    element.line(pin, plate)
    element.circle(plate, POST, filled=False)
    return element


def _flag(glyph: Glyph) -> Element:
    element = Placed(glyph)
    (x, y), (far, _) = glyph.points["end"], glyph.points["far"]
    tip = 0.9 if far > x else -0.9
    element.line((x, y), (x + tip, y - 0.9), (far, y - 0.9), (far, y + 0.9), (x + tip, y + 0.9),
                 (x, y))  # fmt: skip
    return element


def _sheath(glyph: Glyph) -> Element:
    element = Placed(glyph)
    element.oval(glyph.points["middle"], SHEATH_HALF)
    return element


SYMBOLS: Mapping[str, Callable[[Glyph], Element]] = {
    "coil": _coil,
    "resistor": _between_ends(elm.ResistorIEC),
    "capacitor": _between_ends(elm.Capacitor),
    "inductor": _between_ends(elm.Inductor),
    "cell": _cell,
    "wiper": _wiper,
    "pole": _pole,
    "matrix": _matrix,
    "jack": _jack,
    "metal": _metal,
    "post": _post,
    "ground": _ground,
    "flag": _flag,
    "sheath": _sheath,
}
"""What draws each form; a form that is not here is refused."""
