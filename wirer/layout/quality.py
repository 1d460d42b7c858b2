"""How well the wires are drawn, in figures.

Crossings, bends and length are the customary measures of orthogonal drawings; wires over foreign
bodies or lugs and wires that lie on one another are faults, of which there should be none.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from wirer.circuit.model import Wire, split_lug
from wirer.layout.box import Box
from wirer.layout.geometry import (
    Segment,
    point_segment_distance,
    segment_meets_polygon,
    segments_of,
)
from wirer.layout.index import BoxIndex
from wirer.layout.layout import Layout
from wirer.layout.pairs import Piece, meeting
from wirer.layout.placement import LUG_RADIUS_MM, Placement, hosts_of

HALF_WIRE_MM = 0.4


@dataclass(frozen=True, slots=True)
class Quality:
    """Judged figures of a layout.

    `over_bodies`, `across_lugs`, `over_labels` and `fallbacks` name wires, `overlaps` pairs.
    `least_spacing_mm` is between the middles of wires that run side by side, None if none do.
    """

    wires: int
    length_mm: float
    bends: int
    crossings: int
    over_bodies: tuple[str, ...]
    across_lugs: tuple[str, ...]
    over_labels: tuple[str, ...]
    overlaps: tuple[tuple[str, str], ...]
    fallbacks: tuple[str, ...]
    least_spacing_mm: float | None

    @property
    def faults(self) -> int:
        """How many wires or pairs are not drawn cleanly."""
        return (
            len(self.over_bodies) + len(self.across_lugs) + len(self.overlaps) + len(self.fallbacks)
        )


def quality(layout: Layout) -> Quality:
    """Judge the routes of a layout.

    Wires that are two metals bolted together are not judged: nothing is laid there.
    """
    routes = {name: route for name, route in layout.routes.items() if route.manner != "link"}
    crossings, overlaps, spacing = _between_wires(layout)
    parts = _part_index(layout)
    labels: BoxIndex[Box] = BoxIndex()
    for box in layout.labels.boxes:
        labels.add(box, box)
    return Quality(
        wires=len(layout.routes),
        length_mm=sum(route.length_mm for route in routes.values()),
        bends=sum(len(route.points) - 2 for route in routes.values()),
        crossings=crossings,
        over_bodies=tuple(w for w in routes if _over_body(layout, parts, w)),
        across_lugs=tuple(w for w in routes if _across_lug(layout, parts, w)),
        over_labels=tuple(w for w in routes if _over_label(layout, labels, w)),
        overlaps=overlaps,
        fallbacks=tuple(w for w, route in routes.items() if route.manner == "fallback"),
        least_spacing_mm=spacing if math.isfinite(spacing) else None,
    )


def own_lugs(wire: Wire) -> frozenset[str]:
    """Return the lugs that a wire is soldered to, its screen's included."""
    return frozenset(lug for lug in (*wire.ends, wire.screen_from, wire.screen_to) if lug)


def _part_index(layout: Layout) -> BoxIndex[Placement]:
    index: BoxIndex[Placement] = BoxIndex()
    for placement in layout.placements.values():
        index.add(placement.extent.grown(LUG_RADIUS_MM), placement)
    return index


def _near(
    layout: Layout, parts: BoxIndex[Placement], wire: str
) -> Iterator[tuple[Segment, Placement]]:
    for segment in segments_of(layout.routes[wire].points):
        for placement in parts.near(Box.around(segment)):
            yield segment, placement


def _over_body(layout: Layout, parts: BoxIndex[Placement], wire: str) -> bool:
    lugs = own_lugs(layout.wires[wire])
    own = {split_lug(lug)[0] for lug in lugs}
    for at in (layout.lugs[lug] for lug in lugs):
        own.update(hosts_of(parts.near(Box(*at, *at)), at))
    return any(
        segment_meets_polygon(segment, placement.body)
        for segment, placement in _near(layout, parts, wire)
        if placement.part not in own and not placement.underlay
    )


def _across_lug(layout: Layout, parts: BoxIndex[Placement], wire: str) -> bool:
    own = own_lugs(layout.wires[wire])
    return any(
        point_segment_distance(at, segment) < LUG_RADIUS_MM + HALF_WIRE_MM
        for segment, placement in _near(layout, parts, wire)
        for name, at in placement.lugs.items()
        if f"{placement.part}.{name}" not in own
    )


def _over_label(layout: Layout, labels: BoxIndex[Box], wire: str) -> bool:
    boxes = [Box.around(segment) for segment in segments_of(layout.routes[wire].points)]
    return any(
        label.meets(box.grown(HALF_WIRE_MM))
        for box in boxes
        for label in labels.near(box.grown(HALF_WIRE_MM))
    )


def _pieces(layout: Layout) -> Iterator[Piece]:
    for name, route in layout.routes.items():
        if route.manner != "link":
            wire = layout.wires[name]
            ends = (layout.lugs[wire.from_lug], layout.lugs[wire.to_lug])
            for segment in segments_of(route.points):
                yield Piece(name, segment, ends)


def _between_wires(layout: Layout) -> tuple[int, tuple[tuple[str, str], ...], float]:
    """Return crossings, pairs that lie on one another, and the least spacing."""
    index: BoxIndex[Piece] = BoxIndex()
    crossings, spacing = 0, math.inf
    overlaps: dict[tuple[str, str], None] = {}
    for piece in _pieces(layout):
        box = Box.around(piece.segment)
        for other in index.near(box.grown(2.0)):
            if other.wire == piece.wire:
                continue
            found = meeting(other, piece)
            crossings += found.crosses
            if found.overlaps:
                overlaps[other.wire, piece.wire] = None
            spacing = min(spacing, found.spacing_mm)
        index.add(box, piece)
    return crossings, tuple(overlaps), spacing


def report(figures: Mapping[str, Quality]) -> str:
    """Write the figures of several layouts as a table, a line each."""
    lines = [
        f"{'':28}{'wires':>6}{'mm':>8}{'bends':>6}{'cross':>6}"
        f"{'body':>6}{'lug':>5}{'name':>5}{'over':>5}{'fall':>5}{'least':>7}"
    ]
    for name, q in figures.items():
        least = f"{q.least_spacing_mm:.2f}" if q.least_spacing_mm is not None else "-"
        lines.append(
            f"{name:28.28}{q.wires:6}{q.length_mm:8.0f}{q.bends:6}{q.crossings:6}"
            f"{len(q.over_bodies):6}{len(q.across_lugs):5}"
            f"{len(q.over_labels):5}{len(q.overlaps):5}"
            f"{len(q.fallbacks):5}{least:>7}"
        )
    return "\n".join(lines)
