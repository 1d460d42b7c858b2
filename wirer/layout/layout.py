"""The layout of a circuit as one value."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from wirer.circuit.frozen import FrozenMap
from wirer.circuit.kind import Point
from wirer.circuit.model import Wire
from wirer.layout.box import Box, boxes_union
from wirer.layout.label import NO_LABELS, Labels
from wirer.layout.placement import Placement
from wirer.layout.route import Route, Screen


@dataclass(frozen=True, eq=False)
class Layout:
    """Where everything of a circuit lies in the wiring view, in mm, x to the right and y down.

    `placements` by part id, `lugs` by `PART.lug`, `routes` by wire id; `wires` are those that the
    routes were made for. `screens` are those of screened wires, `labels` the names of parts and of
    switch positions, `reserved` the room of other words (at the arrows of shafts).
    """

    placements: Mapping[str, Placement]
    lugs: Mapping[str, Point]
    routes: Mapping[str, Route] = FrozenMap()
    wires: Mapping[str, Wire] = FrozenMap()
    screens: Mapping[str, Screen] = FrozenMap()
    labels: Labels = NO_LABELS
    reserved: tuple[Box, ...] = ()

    @property
    def box(self) -> Box:
        """The box round parts, wires and labels."""
        boxes = [placement.extent for placement in self.placements.values()]
        routes = (route.box for route in self.routes.values())
        return boxes_union([*boxes, *routes, *self.labels.boxes])
