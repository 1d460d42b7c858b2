"""Where each part lies in the wiring view: its body, its lugs and its whole extent."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from functools import lru_cache

from wirer.circuit.frozen import FrozenMap
from wirer.circuit.kind import Kind, Point, Shape
from wirer.circuit.model import Circuit, Part
from wirer.layout.box import Box
from wirer.layout.geometry import Polygon, point_in_polygon
from wirer.layout.outline import shape_polygon
from wirer.layout.transform import Transform

LUG_RADIUS_MM = 1.0
HAIR_MM = 0.3
UNDERLAY = "underlay"
"""Trait of kinds that lie flat under the others (foil, plate): wires and parts lie on them."""


@dataclass(frozen=True, slots=True)
class Placement:
    """One part in the wiring view, in mm.

    `body` is the outline of its body, `body_box` the box round it, `extent` the box round the
    body and the lugs, `lugs` the place of each lug by its own name. `shape` is the body in the
    part's own frame. `features` are the boxes of what is drawn beyond the body: ears, springs, the
    end of a lever. Two placements are equal when they lie alike.
    """

    part: str
    transform: Transform
    shape: Shape
    body: Polygon
    body_box: Box
    extent: Box
    lugs: Mapping[str, Point]
    features: tuple[Box, ...] = ()
    underlay: bool = False


@lru_cache(maxsize=4096)
def place(kind: Kind, part: Part) -> Placement:
    """Return where a part of a kind lies."""
    transform = Transform.of(part)
    body = tuple(map(transform.point, shape_polygon(kind.body)))
    lugs = FrozenMap({lug.name: transform.point(lug.at) for lug in kind.lugs})
    body_box = Box.around(body)
    extent = body_box
    for x, y in lugs.values():
        extent = extent.united(Box.centred((x, y), 2 * LUG_RADIUS_MM, 2 * LUG_RADIUS_MM))
    return Placement(
        part=part.id,
        transform=transform,
        shape=kind.body,
        body=body,
        body_box=body_box,
        extent=extent,
        lugs=lugs,
        features=tuple(_beyond(_feature_boxes(kind, transform), body_box)),
        underlay=UNDERLAY in kind.traits,
    )


def place_parts(circuit: Circuit) -> Mapping[str, Placement]:
    """Return where every part of a circuit lies, by part id."""
    return FrozenMap({part.id: place(circuit.kind_of(part), part) for part in circuit.parts})


def lug_points(placements: Mapping[str, Placement]) -> Mapping[str, Point]:
    """Return where every lug lies, by `PART.lug`."""
    return FrozenMap(
        {
            f"{placement.part}.{name}": at
            for placement in placements.values()
            for name, at in placement.lugs.items()
        }
    )


def _feature_boxes(kind: Kind, transform: Transform) -> Iterator[Box]:
    """Yield the boxes of the strokes of a kind's picture and of what moves on it."""
    for shape in kind.picture:
        yield Box.around(map(transform.point, shape_polygon(shape)))
    if kind.actuator:
        x, y, width, height = kind.actuator.grip
        yield Box.around(map(transform.point, Box.centred((x, y), width, height).corners))
        moving = kind.actuator.moving
        for dx, dy, turn in moving.places.values():
            for shape in (*moving.shapes, *moving.behind) if turn == 0 else ():
                corners = ((x + dx, y + dy) for x, y in shape_polygon(shape))
                yield Box.around(map(transform.point, corners))


def _beyond(boxes: Iterable[Box], body: Box) -> Iterator[Box]:
    """Yield the parts of boxes that lie outside a body's box by more than a hair."""
    for box in dict.fromkeys(boxes):
        for part in box.outside(body):
            if min(part.width, part.height) > HAIR_MM:
                yield part


def parts_at(placements: Mapping[str, Placement], point: Point) -> list[str]:
    """Return the parts on whose body, or in whose box round lugs and body, a point lies."""
    return [name for name, placement in placements.items() if placement.extent.holds(point)]


def hosts_of(placements: Iterable[Placement], lug: Point) -> list[str]:
    """Return the parts on whose body a lug lies, be it a lug of theirs or of a part on top."""
    return [
        placement.part
        for placement in placements
        if placement.body_box.holds(lug) and point_in_polygon(lug, placement.body)
    ]
