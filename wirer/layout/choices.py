"""Where the names of a switch's positions stand: beside what a hand moves, in its order."""

from __future__ import annotations

from wirer.circuit.kind import Actuator
from wirer.circuit.model import Circuit, Part
from wirer.circuit.stance import positions_in_use
from wirer.layout.box import Box
from wirer.layout.label import Choice, Label
from wirer.layout.lettering import shortened, text_width
from wirer.layout.placement import Placement
from wirer.layout.room import Ground, sides_first

CHOICE_MM = 1.6
LINE_MM = 1.7 * CHOICE_MM
MOST_LETTERS = 14


def place_choices(circuit: Circuit, part: Part, around: Box, ground: Ground) -> tuple[Choice, ...]:
    """Place the names of a switch's positions, one above the other if it is moved up and down."""
    kind = circuit.kind_of(part)
    assert kind.actuator is not None
    positions, stacked = _in_order(kind.actuator, positions_in_use(kind, part), part, ground)
    texts = [shortened(part.position_name(p), MOST_LETTERS) for p in positions]
    widths = [text_width(text, CHOICE_MM) + CHOICE_MM for text in texts]
    width = max(widths) if stacked else sum(widths)
    height = LINE_MM * len(texts) if stacked else LINE_MM
    grip = _grip_box(kind.actuator, ground.placements[part.id])
    room = ground.best(_level_with(grip, around), width, height, sides_first)
    choices, x, y = [], room.left, room.top
    for position, text, own in zip(positions, texts, widths, strict=True):
        box = Box(x, y, x + (width if stacked else own), y + LINE_MM)
        choices.append(Choice(position, Label(text, box, CHOICE_MM)))
        x, y = (x, y + LINE_MM) if stacked else (x + own, y)
    return tuple(choices)


def _in_order(
    actuator: Actuator, positions: tuple[str, ...], part: Part, ground: Ground
) -> tuple[list[str], bool]:
    """Return the positions as they lie in the view, and whether one above the other."""
    turn = ground.placements[part.id].transform
    ways = {
        position: turn.direction(actuator.moving.places.get(position, (0.0, 0.0, 0.0))[:2])
        for position in positions
    }
    spread_x = max(x for x, _ in ways.values()) - min(x for x, _ in ways.values())
    spread_y = max(y for _, y in ways.values()) - min(y for _, y in ways.values())
    if spread_x == spread_y == 0.0:
        return list(positions), False
    stacked = spread_y > spread_x
    return sorted(positions, key=lambda p: ways[p][1 if stacked else 0]), stacked


def _grip_box(actuator: Actuator, placement: Placement) -> Box:
    x, y, width, height = actuator.grip
    corners = Box.centred((x, y), width, height).corners
    return Box.around(map(placement.transform.point, corners))


def _level_with(grip: Box, around: Box) -> Box:
    """Return the strip of a part's extent that lies level with its grip."""
    return Box(around.left, grip.top, around.right, grip.bottom)
