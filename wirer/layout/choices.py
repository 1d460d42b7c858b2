"""Where the names of a switch's positions stand: beside what a hand moves, in its order."""

from __future__ import annotations

from wirer.circuit.kind import Actuator, Point
from wirer.circuit.model import Circuit, Part
from wirer.circuit.stance import positions_in_use
from wirer.layout.box import Box
from wirer.layout.label import Choice, Label
from wirer.layout.lettering import shortened, text_width
from wirer.layout.room import Ground, over_first, sides_first
from wirer.layout.transform import Transform

CHOICE_MM = 1.6
LINE_MM = 1.7 * CHOICE_MM
MOST_LETTERS = 14


def place_choices(circuit: Circuit, part: Part, around: Box, ground: Ground) -> tuple[Choice, ...]:
    """Place the names of a switch's positions, one above the other if it is moved up and down."""
    actuator = circuit.kind_of(part).actuator
    assert actuator is not None
    transform = ground.placements[part.id].transform
    named = choice_texts(circuit, part, transform)
    texts = [text for _, text in named]
    stacked = _runs_upright(actuator, transform)
    widths = [text_width(text, CHOICE_MM) + CHOICE_MM for text in texts]
    width = max(widths) if stacked else sum(widths)
    height = LINE_MM * len(texts) if stacked else LINE_MM
    grip = _grip_box(actuator, transform)
    if stacked:
        strip = Box(around.left, grip.top, around.right, grip.bottom)
        room = ground.best(strip, width, height, sides_first)
    else:
        strip = Box(grip.left, around.top, grip.right, around.bottom)
        room = ground.best(strip, width, height, over_first)
    choices, x, y = [], room.left, room.top
    for (position, text), own in zip(named, widths, strict=True):
        box = Box(x, y, x + (width if stacked else own), y + LINE_MM)
        choices.append(Choice(position, Label(text, box, CHOICE_MM)))
        x, y = (x, y + LINE_MM) if stacked else (x + own, y)
    return tuple(choices)


def choice_texts(circuit: Circuit, part: Part, transform: Transform) -> tuple[tuple[str, str], ...]:
    """Return the positions of a switch with their names, in the order in which they lie."""
    kind = circuit.kind_of(part)
    if kind.actuator is None:
        return ()
    axis = 1 if _runs_upright(kind.actuator, transform) else 0
    ways = _ways(kind.actuator, transform)
    positions = sorted(positions_in_use(kind, part), key=lambda p: ways[p][axis])
    return tuple((p, shortened(part.position_name(p), MOST_LETTERS)) for p in positions)


def _ways(actuator: Actuator, transform: Transform) -> dict[str, Point]:
    """Return how far in the view each position moves the actuator."""
    still = (0.0, 0.0, 0.0)
    return {
        position: transform.direction(actuator.moving.places.get(position, still)[:2])
        for position in actuator.positions
    }


def _runs_upright(actuator: Actuator, transform: Transform) -> bool:
    """Tell whether an actuator is moved up and down in the view rather than across or round."""
    xs = [x for x, _ in _ways(actuator, transform).values()]
    ys = [y for _, y in _ways(actuator, transform).values()]
    return max(ys) - min(ys) > max(xs) - min(xs)


def _grip_box(actuator: Actuator, transform: Transform) -> Box:
    x, y, width, height = actuator.grip
    corners = Box.centred((x, y), width, height).corners
    return Box.around(map(transform.point, corners))
