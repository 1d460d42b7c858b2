"""The drawing of one combination: what the amplifier sees, ground below and the output right.

A series-parallel network is drawn from its tree: what is in series stands on one another, what is
in parallel side by side between two rails. Any other network is drawn with a rail for each net and
its elements as rungs between them.
"""

from __future__ import annotations

from dataclasses import dataclass

import schemdraw
import schemdraw.elements as elm

from wirer.analysis.liveness import GROUND, HOT
from wirer.analysis.reduction import Group, Leaf, Tree, leaves
from wirer.drawing.schematic.strokes import FONT_TO_MM, UNIT_MM, new_drawing
from wirer.drawing.text import text_width_mm
from wirer.papers.reduced_circuit import Item, ReducedCircuit

SYMBOLS = {
    "coil": elm.Inductor,
    "resistor": elm.ResistorIEC,
    "capacitor": elm.Capacitor,
    "inductor": elm.Inductor,
}
RUNG = 2.6
LEAST_GAP = 0.7
LETTERS = 11.0
BESIDE = 0.5

Place = tuple[float, float]


@dataclass(frozen=True)
class _Extent:
    """How far a tree reaches: left and right of its terminals' line, and up."""

    left: float
    right: float
    height: float


def reduced_drawing(circuit: ReducedCircuit) -> schemdraw.Drawing:
    """Return the drawing of a reduced circuit, its ground at the origin."""
    drawing = new_drawing()
    if not circuit.items:
        drawing.add(_note((0, 0), "nothing carries signal"))
        return drawing
    if circuit.tree is None:
        _rails(drawing, circuit)
    else:
        _ladder(drawing, circuit, circuit.tree)
    return drawing


def _ladder(drawing: schemdraw.Drawing, circuit: ReducedCircuit, tree: Tree) -> None:
    columns = tree.members if isinstance(tree, Group) and tree.join == "parallel" else (tree,)
    ordered = sorted(columns, key=lambda c: (_last(c, circuit), min(p.place for p in leaves(c))))
    height = max(_extent(column, circuit).height for column in ordered)
    x, centres = 0.0, []
    for column in ordered:
        extent = _extent(column, circuit)
        x += extent.left
        centres.append(x)
        _draw(drawing, circuit, column, (x, 0.0), height)
        x += extent.right + LEAST_GAP
    _line(drawing, (centres[0], 0), (x, 0))
    _line(drawing, (centres[0], height), (x, height))
    for centre in centres[1:]:
        _dot(drawing, (centre, 0.0))
        _dot(drawing, (centre, height))
    _terminals(drawing, centres[0], x, height)


def _terminals(drawing: schemdraw.Drawing, left: float, right: float, height: float) -> None:
    for place, text in (((right, height), "tip"), ((right, 0.0), "sleeve")):
        drawing.add(elm.Dot(open=True).at(place).theta(0))
        drawing.add(_note((right + 0.25, place[1]), text))
    drawing.add(elm.Ground().at((left, 0)).theta(0))


def _last(tree: Tree, circuit: ReducedCircuit) -> int:
    """Sort coils to the left, other parts to their right, the output load last."""
    places = [leaf.place for leaf in leaves(tree)]
    if any(circuit.items[place].symbol == "coil" for place in places):
        return 0
    return 2 if min(places) >= circuit.guitar else 1


def _extent(tree: Tree, circuit: ReducedCircuit) -> _Extent:
    if isinstance(tree, Leaf):
        return _Extent(BESIDE, BESIDE + _label_width(circuit.items[tree.place]), RUNG)
    inner = [_extent(member, circuit) for member in tree.members]
    if tree.join == "series":
        return _Extent(
            max(e.left for e in inner),
            max(e.right for e in inner),
            sum(e.height for e in inner),
        )
    width = sum(e.left + e.right for e in inner) + LEAST_GAP * (len(inner) - 1)
    centre = _middle(inner)
    return _Extent(centre, width - centre, max(e.height for e in inner) + 1.0)


def _middle(extents: list[_Extent]) -> float:
    """Return where parallel members are taken hold of: half-way between the outer two."""
    centres = _centres(extents)
    return (centres[0] + centres[-1]) / 2


def _centres(extents: list[_Extent]) -> list[float]:
    x, centres = 0.0, []
    for extent in extents:
        centres.append(x + extent.left)
        x += extent.left + extent.right + LEAST_GAP
    return centres


def _draw(
    drawing: schemdraw.Drawing, circuit: ReducedCircuit, tree: Tree, foot: Place, height: float
) -> None:
    """Draw a tree upwards from its foot, lengthened by a line to the height."""
    x, y = foot
    if isinstance(tree, Leaf):
        spare = (height - RUNG) / 2
        _line(drawing, foot, (x, y + spare))
        _element(drawing, circuit.items[tree.place], (x, y + spare), up=tree.forward)
        _line(drawing, (x, y + height - spare), (x, y + height))
    elif tree.join == "series":
        heights = [_extent(member, circuit).height for member in tree.members]
        spare = (height - sum(heights)) / len(heights)
        for member, own in zip(tree.members, heights, strict=True):
            _draw(drawing, circuit, member, (x, y), own + spare)
            y += own + spare
    else:
        _draw_parallel(drawing, circuit, tree, foot, height)


def _draw_parallel(
    drawing: schemdraw.Drawing, circuit: ReducedCircuit, tree: Group, foot: Place, height: float
) -> None:
    extents = [_extent(member, circuit) for member in tree.members]
    x = foot[0] - _middle(extents)
    low, high = foot[1] + 0.5, foot[1] + height - 0.5
    centres = [x + centre for centre in _centres(extents)]
    for member, centre in zip(tree.members, centres, strict=True):
        _draw(drawing, circuit, member, (centre, low), high - low)
    for rail, outer in ((low, foot[1]), (high, foot[1] + height)):
        _line(drawing, (centres[0], rail), (centres[-1], rail))
        _line(drawing, (foot[0], rail), (foot[0], outer))
        for place in sorted({*centres[1:-1], foot[0]} - {centres[0], centres[-1]}):
            _dot(drawing, (place, rail))


def _rails(drawing: schemdraw.Drawing, circuit: ReducedCircuit) -> None:
    nets = sorted({net for pair in circuit.ends for net in pair} - {GROUND, HOT})
    level = {net: y * (RUNG + 1.0) for y, net in enumerate([GROUND, *nets, HOT])}
    touching: dict[int, list[float]] = {net: [] for net in level}
    x = 0.0
    for item, pair in zip(circuit.items, circuit.ends, strict=True):
        low, high = sorted(pair, key=lambda net: level[net])
        _element_between(drawing, item, x, (level[low], level[high]), up=low == pair[0])
        touching[low].append(x)
        touching[high].append(x)
        x += 2 * BESIDE + _label_width(item) + LEAST_GAP
    for net, places in touching.items():
        right = x if net in (GROUND, HOT) else max(places)
        _line(drawing, (min(places), level[net]), (right, level[net]))
        for place in places:
            if min(places) < place < right:
                _dot(drawing, (place, level[net]))
    _terminals(drawing, min(touching[GROUND]), x, level[HOT])


def _element_between(
    drawing: schemdraw.Drawing, item: Item, x: float, span: tuple[float, float], *, up: bool
) -> None:
    low, high = span
    top = low + 0.5 + RUNG
    _line(drawing, (x, low), (x, low + 0.5))
    _element(drawing, item, (x, low + 0.5), up=up)
    _line(drawing, (x, top), (x, high))


def _element(drawing: schemdraw.Drawing, item: Item, foot: Place, *, up: bool) -> None:
    x, y = foot
    drawing.add(SYMBOLS[item.symbol]().endpoints((x, y), (x, y + RUNG)))
    positive_up = (item.sign > 0) == up
    if item.symbol == "coil":
        _dot(drawing, (x - 0.35, y + RUNG / 2 + (0.75 if positive_up else -0.75)), 0.07)
    drawing.add(_note((x + BESIDE, y + RUNG / 2 + 0.27), item.name))
    drawing.add(_note((x + BESIDE, y + RUNG / 2 - 0.27), item.value))


def _label_width(item: Item) -> float:
    height = LETTERS * FONT_TO_MM
    return max(text_width_mm(text, height) for text in (item.name, item.value)) / UNIT_MM


def _note(place: Place, text: str) -> elm.Element:
    note = elm.Element()
    note.segments.append(
        schemdraw.segments.SegmentText(
            (0, 0), text, align=("left", "center"), fontsize=LETTERS, rotation_global=False
        )
    )
    return note.at(place).theta(0)


def _dot(drawing: schemdraw.Drawing, place: Place, radius: float = 0.09) -> None:
    drawing.add(elm.Dot(radius=radius).at(place).theta(0))


def _line(drawing: schemdraw.Drawing, start: Place, end: Place) -> None:
    if start != end:
        drawing.add(elm.Line().endpoints(start, end))
