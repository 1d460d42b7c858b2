"""Where each part lies in the wiring view: its body, its lugs and its whole extent."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from wirer.circuit.frozen import FrozenMap
from wirer.circuit.kind import Kind, Point, Shape
from wirer.circuit.model import Circuit, Part
from wirer.layout.box import Box
from wirer.layout.geometry import Polygon
from wirer.layout.outline import shape_polygon
from wirer.layout.transform import Transform

LUG_RADIUS_MM = 1.0
UNDERLAY = "underlay"
"""Trait of kinds that lie flat under the others (foil, plate): wires and parts lie on them."""


@dataclass(frozen=True, slots=True)
class Placement:
    """One part in the wiring view, in mm.

    `body` is the outline of its body, `body_box` the box round it, `extent` the box round the
    body and the lugs, `lugs` the place of each lug by its own name. `shape` is the body in the
    part's own frame. Two placements are equal when they lie alike.
    """

    part: str
    transform: Transform
    shape: Shape
    body: Polygon
    body_box: Box
    extent: Box
    lugs: Mapping[str, Point]
    underlay: bool = False


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


def parts_at(placements: Mapping[str, Placement], point: Point) -> list[str]:
    """Return the parts on whose body, or in whose box round lugs and body, a point lies."""
    return [name for name, placement in placements.items() if placement.extent.holds(point)]
