"""Bringing parts into line: their bodies' edges or middles level, or the gaps between them equal.

Every function raises `EditError` where there is no such part or it would lie too far out.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import Literal

from wirer.circuit.errors import EditError, shown
from wirer.circuit.kind import Point
from wirer.circuit.model import Circuit
from wirer.layout.arrange import move_each
from wirer.layout.box import Box, boxes_union
from wirer.layout.placement import place

Side = Literal["left", "middle", "right", "top", "centre", "bottom"]
"""`middle` brings the middles under one another, `centre` beside one another."""
Way = Literal["across", "down"]

_X_OF: dict[Side, Callable[[Box], float]] = {
    "left": lambda box: box.left,
    "middle": lambda box: box.centre[0],
    "right": lambda box: box.right,
}
_Y_OF: dict[Side, Callable[[Box], float]] = {
    "top": lambda box: box.top,
    "centre": lambda box: box.centre[1],
    "bottom": lambda box: box.bottom,
}


def align_parts(circuit: Circuit, part_ids: Iterable[str], side: Side) -> Circuit:
    """Return the circuit with the bodies of parts brought to one side of the box round them."""
    boxes = _boxes(circuit, part_ids)
    whole = boxes_union(boxes.values())
    by: dict[str, Point] = {}
    for name, box in boxes.items():
        if side in _X_OF:
            by[name] = (_X_OF[side](whole) - _X_OF[side](box), 0.0)
        else:
            by[name] = (0.0, _Y_OF[side](whole) - _Y_OF[side](box))
    return move_each(circuit, by)


def distribute_parts(circuit: Circuit, part_ids: Iterable[str], way: Way) -> Circuit:
    """Return the circuit with equal gaps between the bodies of parts; the outermost stay.

    Where they have no room between the outermost, their middles are spaced equally instead.
    """
    boxes = _boxes(circuit, part_ids)
    axis = 0 if way == "across" else 1
    order = sorted(boxes, key=lambda name: (boxes[name].centre[axis], name))
    if len(order) < 3:
        return circuit
    spans = [_span(boxes[name], axis) for name in order]
    starts = _even_starts(spans)
    shifts = (start - low for start, (low, _) in zip(starts, spans, strict=True))
    inner = list(zip(order, shifts, strict=True))[1:-1]
    return move_each(
        circuit, {name: (shift, 0.0) if axis == 0 else (0.0, shift) for name, shift in inner}
    )


def _even_starts(spans: list[tuple[float, float]]) -> list[float]:
    """Return where each span would begin with equal gaps between them, else equal pitch."""
    lengths = [high - low for low, high in spans]
    room = spans[-1][1] - spans[0][0]
    gap = (room - sum(lengths)) / (len(spans) - 1)
    if gap >= 0:
        starts = [spans[0][0]]
        for length in lengths[:-1]:
            starts.append(starts[-1] + length + gap)
        return starts
    first, last = (sum(span) / 2 for span in (spans[0], spans[-1]))
    pitch = (last - first) / (len(spans) - 1)
    return [first + pitch * index - length / 2 for index, length in enumerate(lengths)]


def _span(box: Box, axis: int) -> tuple[float, float]:
    return (box.left, box.right) if axis == 0 else (box.top, box.bottom)


def _boxes(circuit: Circuit, part_ids: Iterable[str]) -> dict[str, Box]:
    boxes = {}
    for name in part_ids:
        part = circuit.part_by_id.get(name)
        if part is None:
            raise EditError(f'there is no part "{shown(name)}"')
        boxes[name] = place(circuit.kind_of(part), part).body_box
    return boxes
