"""Reads a schematic back from its drawing alone, and measures what lies on what.

Nets: what ends at one place is joined; what ends on a line is joined to it where there is a dot;
lines that cross are not joined. Ground symbols are one net, named ends of one name are one net.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from itertools import combinations

import networkx as nx

from wirer.circuit.kind import BondElement, Point
from wirer.circuit.model import Circuit
from wirer.drawing.schematic.whole import WholeDrawing
from wirer.layout.box import Box
from wirer.papers.schematic.drawn import Drawn, Glyph

Line = tuple[Point, Point]
ENDS = {"a": "start", "b": "end"}
TWO_ENDED = ("coil", "resistor", "capacitor", "inductor", "cell")
SLACK = 0.05


def near(point: Iterable[float]) -> Point:
    """A place, rounded to what arithmetic leaves over."""
    x, y = point
    return round(float(x), 4) + 0.0, round(float(y), 4) + 0.0


@dataclass
class Reading:
    """What a drawing shows: which lugs are joined, where each is, and what is drawn amiss."""

    net_of: dict[str, int] = field(default_factory=dict)
    places: dict[str, set[Point]] = field(default_factory=lambda: defaultdict(set))
    faults: list[str] = field(default_factory=list)


def read_back(drawing: WholeDrawing) -> Reading:
    """Read the nets of a drawing from the anchors of its symbols and the lines of its wires."""
    reading = Reading()
    graph = nx.Graph()
    lines = [(near(s.path[0]), near(s.path[-1])) for s in drawing.wires.segments]
    dots = {near(dot.absanchors["xy"]) for dot in drawing.dots}
    for glyph, element in drawing.symbols:
        for name, lugs in glyph.lugs.items():
            place = near(element.absanchors[ENDS.get(name, name)])
            graph.add_node(place)
            for lug in lugs:
                reading.places[lug].add(place)
        if glyph.form == "ground":
            graph.add_edge("ground", near(element.absanchors["top"]))
        if glyph.form == "flag":
            graph.add_edge(f"named {glyph.name}", near(element.absanchors["end"]))
    for start, end in lines:
        graph.add_edge(start, end)
    _join_on_lines(graph, lines, dots, reading)
    for number, net in enumerate(nx.connected_components(graph)):
        for lug, places in reading.places.items():
            if places & net:
                reading.net_of[lug] = number
    return reading


def _join_on_lines(graph: nx.Graph, lines: list[Line], dots: set[Point], reading: Reading) -> None:
    ends = [node for node in graph if isinstance(node, tuple)]
    for place in ends:
        through = [line for line in lines if inside(place, line)]
        if through and place not in dots:
            reading.faults.append(f"something ends on a line without a dot at {place}")
        for start, _ in through if place in dots else ():
            graph.add_edge(place, start)
    for dot in dots:
        through = [line for line in lines if inside(dot, line)]
        for start, _ in through:
            graph.add_edge(dot, start)
        ways = sum(dot in line for line in lines) + 2 * sum(inside(dot, line) for line in lines)
        if ways < 1:
            reading.faults.append(f"a dot on nothing at {dot}")


def inside(place: Point, line: Line) -> bool:
    """Tell whether a place lies on a level or upright line, but not at its end."""
    (x1, y1), (x2, y2) = line
    x, y = place
    if y1 == y2:
        return y == y1 and min(x1, x2) < x < max(x1, x2)
    return x == x1 and min(y1, y2) < y < max(y1, y2)


def circuit_nets(circuit: Circuit) -> dict[str, int]:
    """The net of every lug by wires, screens and bonds, worked out apart from the program."""
    graph = nx.Graph()
    graph.add_nodes_from(circuit.lugs)
    for wire in circuit.wires:
        graph.add_edge(*wire.ends)
        if wire.screen_from and wire.screen_to:
            graph.add_edge(wire.screen_from, wire.screen_to)
    for part in circuit.parts:
        for element in circuit.kind_of(part).elements:
            if isinstance(element, BondElement) and not element.plug:
                nx.add_path(graph, [f"{part.id}.{lug}" for lug in element.lugs])
    return {lug: n for n, net in enumerate(nx.connected_components(graph)) for lug in net}


def wired_lugs(circuit: Circuit) -> set[str]:
    """The lugs that a wire or its screen ends on."""
    return {
        lug
        for wire in circuit.wires
        for lug in (*wire.ends, wire.screen_from, wire.screen_to)
        if lug
    }


def differences(circuit: Circuit, reading: Reading) -> list[str]:
    """What a reading has joined or parted otherwise than the circuit, and lugs not found."""
    nets = circuit_nets(circuit)
    found: list[str] = list(reading.faults)
    for lug in sorted(wired_lugs(circuit)):
        count = len(reading.places.get(lug, ()))
        if count != 1:
            found.append(f"{lug} is found at {count} places")
    drawn_as: dict[int, set[int]] = defaultdict(set)
    meant_as: dict[int, set[int]] = defaultdict(set)
    for lug, net in reading.net_of.items():
        drawn_as[nets[lug]].add(net)
        meant_as[net].add(nets[lug])
    for drawn, word in ((drawn_as, "parted"), (meant_as, "joined")):
        for net, others in drawn.items():
            if len(others) > 1:
                lugs = sorted(lug for lug, n in reading.net_of.items()
                              if (nets[lug] if word == "parted" else n) == net)  # fmt: skip
                found.append(f"{word}: {' '.join(lugs)}")
    return found


def overlaps(drawn: Drawn) -> list[str]:
    """What lies on what in a drawing and should not."""
    return [*_boxes_on_boxes(drawn), *_lines_on_boxes(drawn), *_lines_on_lines(drawn)]


def _boxes(drawn: Drawn) -> list[tuple[str, Box]]:
    glyphs = [(f"{g.form} {g.name}", g.box.grown(-SLACK)) for g in drawn.glyphs]
    texts = [(f"text {t.text}", t.box.grown(-SLACK)) for t in drawn.texts]
    return [(name, box) for name, box in glyphs + texts if box.width > 0 and box.height > 0]


def _boxes_on_boxes(drawn: Drawn) -> Iterator[str]:
    placed = sorted(_boxes(drawn), key=lambda each: each[1].left)
    for index, (name, box) in enumerate(placed):
        for other, another in placed[index + 1 :]:
            if another.left >= box.right:
                break
            if box.meets(another):
                yield f"{name} on {other} at {box.centre}"


def _own_lines(glyph: Glyph) -> Iterator[Line]:
    if glyph.form in TWO_ENDED:
        yield near(glyph.points["a"]), near(glyph.points["b"])
    if glyph.form == "wiper":
        yield near(glyph.points["pin"]), near(glyph.points["tip"])


def _strips(lines: Iterable[Line]) -> list[tuple[Line, Box]]:
    return [(line, Box.around(line).grown(1e-3)) for line in lines]


def _lines_on_boxes(drawn: Drawn) -> Iterator[str]:
    wires = _strips((near(s.start), near(s.end)) for s in drawn.strokes)
    links = _strips((near(link.start), near(link.end)) for link in drawn.links)
    leads = _strips(line for glyph in drawn.glyphs for line in _own_lines(glyph))
    for line, strip in [*wires, *links, *leads]:
        for text in drawn.texts:
            if strip.meets(text.box.grown(-SLACK)):
                yield f"line {line} on text {text.text}"
    for glyph in drawn.glyphs:
        if glyph.form == "sheath":
            continue
        box = glyph.box.grown(-SLACK)
        names = [name for name in (*glyph.lugs, "top", "end") if name in glyph.points]
        own = {near(glyph.points[name]) for name in names}
        for line, strip in wires:
            if strip.meets(box) and not own & set(line):
                yield f"line {line} on {glyph.form} {glyph.name}"


def _lines_on_lines(drawn: Drawn) -> Iterator[str]:
    wires = [(s.net, (near(s.start), near(s.end))) for s in drawn.strokes]
    leads = [(-1 - n, line) for n, g in enumerate(drawn.glyphs) for line in _own_lines(g)]
    for (net, line), (other, another) in combinations([*wires, *leads], 2):
        if net == other or not _touch(line, another):
            continue
        if min(net, other) < 0 and set(line) & set(another):
            continue  # a wire or a lead ends on another lead's end: that is how they join
        yield f"line {line} of {net} on line {another} of {other}"


def _touch(line: Line, other: Line) -> bool:
    """Tell whether lines run on each other or one ends on the other; crossing is no touch."""
    if any(inside(end, other) or end in other for end in line):
        return True
    return any(inside(end, line) for end in other)


def crossings(drawn: Drawn) -> int:
    """Count the places where wires of two nets cross."""
    wires = [(s.net, (near(s.start), near(s.end))) for s in drawn.strokes]
    level = [(net, line) for net, line in wires if line[0][1] == line[1][1]]
    upright = [(net, line) for net, line in wires if line[0][0] == line[1][0]]
    return sum(
        net != other and inside((up[0][0], lev[0][1]), lev) and inside((up[0][0], lev[0][1]), up)
        for net, lev in level
        for other, up in upright
    )
