"""Moving, turning and flipping parts with the bends of their wires.

A wire with both ends at parts that are arranged together takes its bends along; what becomes of
the bends of a wire with one such end, `wirer.layout.bends` says. No net changes.

Every function raises `EditError` where there is no such part or it would lie too far out.
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterable, Mapping
from typing import Any, Literal

from msgspec.structs import replace

from wirer.circuit.check import wire_problems
from wirer.circuit.edits import move_parts
from wirer.circuit.errors import EditError, shown
from wirer.circuit.kind import Point
from wirer.circuit.model import Circuit, Part, Wire, split_lug
from wirer.layout.bends import End, followed_bends
from wirer.layout.box import boxes_union
from wirer.layout.placement import Placement, lug_points, place

Motion = Callable[[Point], Point]
"""Where a point of what is moved comes to lie."""

_DIGITS = 4


def move_by(circuit: Circuit, part_ids: Iterable[str], by: Point) -> Circuit:
    """Return the circuit with parts moved by so many mm to the right and down."""
    return move_each(circuit, dict.fromkeys(part_ids, by))


def move_each(circuit: Circuit, by: Mapping[str, Point]) -> Circuit:
    """Return the circuit with each part moved by its own so many mm, by part id."""
    parts = {
        name: _placed(part, _shift(by[name]))
        for name, part in _chosen(circuit, by).items()
        if by[name] != (0.0, 0.0)
    }
    return _arranged(circuit, parts, {name: _shift(by[name]) for name in parts})


def turn_parts(
    circuit: Circuit, part_ids: Iterable[str], quarters: int, about: Point | None = None
) -> Circuit:
    """Return the circuit with parts turned by quarter turns clockwise (−1: counter-clockwise).

    Several turn as one about their common middle or another point; one part about its own place.
    """
    if quarters % 4 == 0:
        return circuit
    chosen = _chosen(circuit, part_ids)
    motion = _turn(about or _pivot(circuit, chosen), quarters % 4)
    parts = {
        name: _placed(part, motion, turn=_turned(part.turn, quarters))
        for name, part in chosen.items()
    }
    return _arranged(circuit, parts, dict.fromkeys(parts, motion))


def flip_parts(circuit: Circuit, part_ids: Iterable[str], about: Point | None = None) -> Circuit:
    """Return the circuit with parts mirrored left to right as they are seen.

    Several are mirrored as one about their common middle or another point.
    """
    chosen = _chosen(circuit, part_ids)
    middle = about or _pivot(circuit, chosen)

    def motion(point: Point) -> Point:
        return _rounded((2 * middle[0] - point[0], point[1]))

    # A part is mirrored before it is turned, so that its turn changes sense.
    parts = {
        name: _placed(part, motion, flip=not part.flip, turn=_turned(-part.turn, 0))
        for name, part in chosen.items()
    }
    return _arranged(circuit, parts, dict.fromkeys(parts, motion))


def common_middle(circuit: Circuit, part_ids: Iterable[str]) -> Point:
    """Return the middle of the box round the bodies of parts."""
    chosen = _chosen(circuit, part_ids)
    if not chosen:
        raise EditError("nothing is chosen to arrange; choose a part")
    boxes = (place(circuit.kind_of(part), part).body_box for part in chosen.values())
    return _rounded(boxes_union(boxes).centre)


def _pivot(circuit: Circuit, chosen: Mapping[str, Part]) -> Point:
    if len(chosen) == 1:
        return next(iter(chosen.values())).at
    return common_middle(circuit, chosen)


def _chosen(circuit: Circuit, part_ids: Iterable[str]) -> dict[str, Part]:
    found = {}
    for part_id in part_ids:
        if part_id not in circuit.part_by_id:
            raise EditError(f'there is no part "{shown(part_id)}"')
        found[part_id] = circuit.part_by_id[part_id]
    return found


def _placed(part: Part, motion: Motion, **changes: Any) -> Part:
    """Return a part elsewhere; a motion about its own place leaves that exactly as it is."""
    at = motion(part.at)
    return replace(part, at=part.at if at == _rounded(part.at) else at, **changes)


def _rounded(point: Point) -> Point:
    return round(point[0], _DIGITS), round(point[1], _DIGITS)


def _shift(by: Point) -> Motion:
    return lambda point: _rounded((point[0] + by[0], point[1] + by[1]))


def _turn(middle: Point, quarters: int) -> Motion:
    cos, sin = ((1, 0), (0, 1), (-1, 0), (0, -1))[quarters]

    def motion(point: Point) -> Point:
        x, y = point[0] - middle[0], point[1] - middle[1]
        return _rounded((middle[0] + cos * x - sin * y, middle[1] + sin * x + cos * y))

    return motion


def _turned(turn: int, quarters: int) -> Literal[0, 90, 180, 270]:
    turns: tuple[Literal[0, 90, 180, 270], ...] = (0, 90, 180, 270)
    return turns[(turn // 90 + quarters) % 4]


def _arranged(
    circuit: Circuit, parts: Mapping[str, Part], motions: Mapping[str, Motion]
) -> Circuit:
    """Return the circuit with parts exchanged for themselves elsewhere, the bends following."""
    if not parts:
        return circuit
    move_parts(circuit, {name: part.at for name, part in parts.items()})  # refuses what is too far
    after = replace(circuit, parts=tuple(parts.get(p.id, p) for p in circuit.parts))
    bent = [w for w in circuit.wires if w.bends and any(_part_of(e) in parts for e in w.ends)]
    if not bent:
        return after
    moving = _Moving(_places(circuit, parts, bent), _places(after, parts, bent), motions)
    led = ((wire, moving.bends_of(wire)) for wire in bent)
    changed = {wire.id: replace(wire, bends=bends) for wire, bends in led if bends != wire.bends}
    lugs = frozenset(after.lugs)
    for wire in changed.values():
        for problem in wire_problems(lugs, wire, wire.id):
            raise EditError(str(problem))
    return replace(after, wires=tuple(changed.get(w.id, w) for w in circuit.wires))


def _part_of(lug: str) -> str:
    return split_lug(lug)[0]


def _places(
    circuit: Circuit, moved: Collection[str], wires: Iterable[Wire]
) -> dict[str, Placement]:
    wanted = {*moved, *(_part_of(end) for wire in wires for end in wire.ends)}
    return {n: place(circuit.kind_of(p), p) for n, p in circuit.part_by_id.items() if n in wanted}


class _Moving:
    """Where the parts at some wires lie before and after, and how those that move do."""

    def __init__(
        self,
        before: Mapping[str, Placement],
        after: Mapping[str, Placement],
        motions: Mapping[str, Motion],
    ) -> None:
        self._before, self._after = lug_points(before), lug_points(after)
        self._motions = motions
        self._bodies = [
            (before[name].body, after[name].body) for name in motions if not after[name].underlay
        ]

    def bends_of(self, wire: Wire) -> tuple[Point, ...]:
        """Return the bends that a wire then has."""
        first, second = (self._motions.get(_part_of(end)) for end in wire.ends)
        ends = tuple(End(self._before[lug], self._after[lug]) for lug in wire.ends)
        if first and second and self._move_alike(wire):
            return tuple(map(first, wire.bends))
        return followed_bends(wire.bends, (ends[0], ends[1]), self._bodies)

    def _move_alike(self, wire: Wire) -> bool:
        """Tell whether both ends are moved by one motion, be it given twice."""
        first, second = (self._motions[_part_of(end)] for end in wire.ends)
        a, b = (self._before[lug] for lug in wire.ends)
        return first is second or (first(a), first(b)) == (second(a), second(b))
