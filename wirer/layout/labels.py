"""Where the names of parts and of switch positions stand: free of bodies, lugs and wires."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

from wirer.circuit.frozen import FrozenMap
from wirer.circuit.kind import Actuator
from wirer.circuit.model import Circuit, Part
from wirer.circuit.stance import positions_in_use
from wirer.layout.box import Box, boxes_union
from wirer.layout.lettering import shortened, text_width
from wirer.layout.placement import Placement
from wirer.layout.room import Ground, round_about, sides_first
from wirer.layout.route import Route

NAME_MM = 2.0
CHOICE_MM = 1.6
LINE_SHARE = 1.7
MOST_CHOICE_LETTERS = 14


@dataclass(frozen=True, slots=True)
class Label:
    """A text in its box; `height_mm` is the height of its capitals."""

    text: str
    box: Box
    height_mm: float


@dataclass(frozen=True, slots=True)
class Choice:
    """The name of one position of a switch."""

    position: str
    label: Label


@dataclass(frozen=True, slots=True)
class Labels:
    """The name of each part, and of the positions of each switch, by part id."""

    names: Mapping[str, Label] = FrozenMap()
    choices: Mapping[str, tuple[Choice, ...]] = FrozenMap()

    @property
    def boxes(self) -> Iterator[Box]:
        """The room taken by each name and by each switch's positions together."""
        yield from (label.box for label in self.names.values())
        for choices in self.choices.values():
            yield whole_box(choices)


NO_LABELS = Labels()


def whole_box(choices: Iterable[Choice]) -> Box:
    """Return the box round the names of a switch's positions."""
    return boxes_union(choice.label.box for choice in choices)


def place_labels(
    circuit: Circuit, placements: Mapping[str, Placement], routes: Mapping[str, Route]
) -> Labels:
    """Find a place for the name of each part and for the positions of each switch."""
    ground = Ground(placements, routes, {lug for wire in circuit.wires for lug in wire.ends})
    names, choices = {}, {}
    for part in circuit.parts:
        placement = placements[part.id]
        around = boxes_union([placement.extent, *placement.features])
        text = part_text(part)
        width, height = text_width(text, NAME_MM), LINE_SHARE * NAME_MM
        box = ground.best(around, width, height, round_about)
        names[part.id] = Label(text, box, NAME_MM)
        if circuit.kind_of(part).actuator:
            choices[part.id] = _place_choices(circuit, part, around, ground)
    return Labels(FrozenMap(names), FrozenMap(choices))


def part_text(part: Part) -> str:
    """Return what is written at a part: its id, and its label where it has one."""
    return shortened(f"{part.id} · {part.label}" if part.label else part.id)


def _place_choices(circuit: Circuit, part: Part, around: Box, ground: Ground) -> tuple[Choice, ...]:
    kind = circuit.kind_of(part)
    assert kind.actuator is not None
    positions, stacked = _in_order(kind.actuator, positions_in_use(kind, part), part, ground)
    texts = [shortened(part.position_name(p), MOST_CHOICE_LETTERS) for p in positions]
    widths = [text_width(text, CHOICE_MM) + CHOICE_MM for text in texts]
    line = LINE_SHARE * CHOICE_MM
    width = max(widths) if stacked else sum(widths)
    height = line * len(texts) if stacked else line
    grip = _grip_box(kind.actuator, ground.placements[part.id])
    room = ground.best(_level_with(grip, around), width, height, sides_first)
    choices, x, y = [], room.left, room.top
    for position, text, own in zip(positions, texts, widths, strict=True):
        box = Box(x, y, x + (width if stacked else own), y + line)
        choices.append(Choice(position, Label(text, box, CHOICE_MM)))
        x, y = (x, y + line) if stacked else (x + own, y)
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
