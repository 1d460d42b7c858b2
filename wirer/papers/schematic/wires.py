"""Wires as they are drawn: pieces that continue each other as one, dots where three meet."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Sequence

from wirer.circuit.kind import Point
from wirer.papers.schematic.drawn import Glyph, Stroke

_EXACT = 6


def _key(point: Point) -> Point:
    return round(point[0], _EXACT), round(point[1], _EXACT)


def tidied(strokes: Iterable[Stroke]) -> list[Stroke]:
    """Return strokes without those of no length, pieces on one line of one net as one."""
    lines: dict[tuple[int, bool, float], list[tuple[float, float]]] = defaultdict(list)
    for stroke in strokes:
        start, end = _key(stroke.start), _key(stroke.end)
        if start == end:
            continue
        along, across = (0, 1) if stroke.level else (1, 0)
        low, high = sorted((start[along], end[along]))
        lines[stroke.net, stroke.level, start[across]].append((low, high))
    result = []
    for (net, level, at), pieces in lines.items():
        for low, high in _united(pieces):
            ends = ((low, at), (high, at)) if level else ((at, low), (at, high))
            result.append(Stroke(net, *ends))
    return result


def _united(pieces: list[tuple[float, float]]) -> list[tuple[float, float]]:
    united: list[tuple[float, float]] = []
    for low, high in sorted(pieces):
        if united and low <= united[-1][1]:
            united[-1] = united[-1][0], max(high, united[-1][1])
        else:
            united.append((low, high))
    return united


def dots_of(strokes: Sequence[Stroke], glyphs: Sequence[Glyph]) -> list[Point]:
    """Return the places where more than two ways lead on, which need a dot."""
    arms: dict[Point, int] = defaultdict(int)
    net_at: dict[Point, int] = {}
    for stroke in strokes:
        for end in (stroke.start, stroke.end):
            arms[_key(end)] += 1
            net_at[_key(end)] = stroke.net
    for glyph in glyphs:
        for name in pin_names(glyph):
            arms[_key(glyph.points[name])] += 1
    for stroke in strokes:
        for point, net in net_at.items():
            if net == stroke.net and _inside(stroke, point):
                arms[point] += 2
    joined = {point for point, count in arms.items() if count > 2}
    return sorted(joined.union(_crossed(strokes)))


def _crossed(strokes: Sequence[Stroke]) -> Iterable[Point]:
    """Yield the places where two strokes of one net cross."""
    upright: dict[int, list[Stroke]] = defaultdict(list)
    for stroke in strokes:
        if not stroke.level:
            upright[stroke.net].append(stroke)
    for stroke in strokes:
        for other in upright[stroke.net] if stroke.level else ():
            place = _key((other.start[0], stroke.start[1]))
            if _inside(stroke, place) and _inside(other, place):
                yield place


def pin_names(glyph: Glyph) -> Iterable[str]:
    """Return the names of a glyph's points at which wires may end."""
    if glyph.lugs:
        return glyph.lugs
    return {"ground": ("top",), "flag": ("end",)}.get(glyph.form, ())


def _inside(stroke: Stroke, point: Point) -> bool:
    (x1, y1), (x2, y2) = _key(stroke.start), _key(stroke.end)
    x, y = point
    if y1 == y2:
        return y == y1 and x1 < x < x2
    return x == x1 and y1 < y < y2
