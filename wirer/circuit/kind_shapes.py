"""Whether what a kind looks like can be drawn: lengths that are lengths, shapes with an extent."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from itertools import chain

from wirer.circuit.errors import shown
from wirer.circuit.kind import Actuator, Kind, Shape

MOST_SHAPES = 2000
MOST_POINTS = 2000
LARGEST_MM = 1000.0


def kind_shape_problems(kind: Kind) -> Iterator[str]:
    """Yield what is wrong with the geometry of a kind."""
    for lug in kind.lugs:
        if not _short(lug.at):
            yield f"the lug {shown(lug.name)} is farther than {LARGEST_MM:g} mm away"
    if not (_short((kind.depth,)) and kind.depth >= 0):
        yield f"its depth must be between 0 and {LARGEST_MM:g} mm"
    yield from _shaft_problems(kind)
    moving = _moving_shapes(kind.actuator) if kind.actuator else ()
    shapes = (*kind.picture, *kind.holes, *moving)
    if len(shapes) > MOST_SHAPES:
        yield f"its picture has more than {MOST_SHAPES} shapes"
        return
    for shape in (kind.body, *shapes):
        yield from _shape_problems(shape)
    if not _has_extent(kind.body):
        yield "its body has no size"
    if kind.actuator:
        actuator = kind.actuator
        if not all(map(_short, (actuator.grip, *actuator.moving.places.values()))):
            yield f"what moves of it is farther than {LARGEST_MM:g} mm away"


def _short(lengths: Iterable[float]) -> bool:
    return all(-LARGEST_MM <= length <= LARGEST_MM for length in lengths)


def _shaft_problems(kind: Kind) -> Iterator[str]:
    for shaft in kind.shafts:
        rotations = (shaft.default, shaft.default if shaft.detent is None else shaft.detent)
        if not all(0 <= rotation <= 1 for rotation in rotations):
            yield f"the rotations of its shaft {shown(shaft.name)} must be between 0 and 1"
        if not (_short((*shaft.at, shaft.diameter, shaft.travel_deg)) and shaft.diameter > 0):
            yield f"the shaft {shown(shaft.name)} has a place, size or travel that can't be"


def _moving_shapes(actuator: Actuator) -> tuple[Shape, ...]:
    moving = actuator.moving
    return (*moving.shapes, *moving.behind, *moving.against)


def _shape_problems(shape: Shape) -> Iterator[str]:
    if len(shape.points) > MOST_POINTS:
        yield f"a {shape.form} of its picture has more than {MOST_POINTS} points"
        return
    lengths = (*shape.at, *shape.size, shape.radius, *chain.from_iterable(shape.points))
    if not _short(lengths):
        yield f"a {shape.form} of its picture is farther than {LARGEST_MM:g} mm away"
    if min(*shape.size, shape.radius) < 0:
        yield f"a {shape.form} of its picture has a negative size"
    if len(shape.points) < {"polygon": 3, "line": 2}.get(shape.form, 0):
        yield f"a {shape.form} of its picture has too few points"


def _has_extent(body: Shape) -> bool:
    match body.form:
        case "rect":
            return min(body.size) > 0
        case "circle":
            return body.radius > 0
        case "polygon":
            return len(set(body.points)) > 2
        case _:
            return False
