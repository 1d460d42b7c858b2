"""Rules of workmanship: lugs, bodies, bare wire, colours and labels."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from functools import partial

from wirer.circuit.colour import colour_words
from wirer.circuit.edits import change_part
from wirer.circuit.model import Wire
from wirer.layout.geometry import point_segment_distance, segments_of
from wirer.layout.overlap import overlapping_parts
from wirer.layout.placement import lug_points
from wirer.rules.finding import Fix, Remark
from wirer.rules.inspection import Inspection
from wirer.rules.names import listed, lug_name, part_name
from wirer.rules.registry import rule

BARE_CLEARANCE_MM = 1.2
"""A bare wire nearer than this to the middle of a foreign lug can touch its solder."""


@rule(
    "crowded-lug",
    "warning",
    wrong="More wires go to a lug than it holds.",
    heard="Nothing, until one of them falls off.",
    meter="A tug at each wire tells more than a meter.",
    mend="Take some of them to another lug of the same net, or to a post or ground bus.",
)
def crowded_lug(inspection: Inspection) -> Iterator[Remark]:
    """Find lugs with more wires than they hold."""
    bolted = {w.id for w in inspection.circuit.wires if w.style == "mount"}
    for lug, wires in inspection.wires_at.items():
        soldered = [wire for wire in wires if wire not in bolted]
        holds = inspection.lug(lug).holds
        if len(soldered) > holds:
            name = lug_name(inspection.circuit, lug)
            text = f"{len(soldered)} wires go to {name}, which holds {holds}."
            yield Remark(text, (lug, *soldered))


@rule(
    "bodies-collide",
    "warning",
    wrong="Two parts lie on one another.",
    heard="Nothing; they can't be mounted so.",
    meter="Nothing to measure.",
    mend="Move one of them.",
)
def bodies_collide(inspection: Inspection) -> Iterator[Remark]:
    """Find parts whose bodies overlap."""
    for pair in overlapping_parts(inspection.placements):
        names = listed(part_name(inspection.circuit, part) for part in pair)
        yield Remark(f"The bodies of {names} lie on one another.", pair)


@rule(
    "long-bare-run",
    "warning",
    wrong="A bare wire passes a lug that it does not belong to.",
    heard="A short that comes and goes when the harness is bent.",
    meter="Press the wire against the lug: the reading changes.",
    mend="Put a sleeve over it, take insulated wire, or lead it elsewhere.",
)
def long_bare_run(inspection: Inspection) -> Iterator[Remark]:
    """Find bare wires that pass near foreign lugs."""
    bare = [wire for wire in inspection.circuit.wires if wire.style == "bare"]
    if not bare:
        return
    places = lug_points(inspection.placements)
    for wire in bare:
        course = [places[wire.from_lug], *wire.bends, places[wire.to_lug]]
        own = inspection.net(wire.from_lug)
        near = [
            lug
            for lug, place in places.items()
            if inspection.net(lug) != own
            and min(point_segment_distance(place, leg) for leg in segments_of(course))
            < BARE_CLEARANCE_MM
        ]
        if near:
            names = listed(lug_name(inspection.circuit, lug) for lug in near[:3])
            yield Remark(f"The bare wire {wire.id} passes {names}.", (wire.id, *near))


@rule(
    "colour-misleads",
    "note",
    wrong="Wires of ground and of the output's signal have one colour.",
    heard="Nothing; the next one to open the guitar will be misled.",
    meter="Nothing to measure.",
    mend="Keep one colour for ground, and for nothing else.",
)
def colour_misleads(inspection: Inspection) -> Iterator[Remark]:
    """Find a colour that means both ground and hot."""
    harness = inspection.harness
    if harness.hot is None or harness.hot == harness.ground:
        return
    wires: dict[tuple[str, bool], list[Wire]] = defaultdict(list)
    for wire in inspection.circuit.wires:
        net = harness.net_of[wire.from_lug]
        if wire.colour and net in (harness.hot, harness.ground):
            wires[wire.colour, net == harness.hot].append(wire)
    for (colour, hot), members in wires.items():
        if hot and (colour, False) in wires:
            text = f"{colour_words(colour).capitalize()} is used for ground and for hot."
            yield Remark(text, tuple(w.id for w in (*members, *wires[colour, False])))


@rule(
    "duplicate-label",
    "note",
    wrong="Two parts have one label.",
    heard="Nothing; papers and findings can't tell them apart.",
    meter="Nothing to measure.",
    mend="Give each its own.",
)
def duplicate_label(inspection: Inspection) -> Iterator[Remark]:
    """Find labels that several parts share."""
    parts = defaultdict(list)
    for part in inspection.circuit.parts:
        if part.label:
            parts[part.label].append(part.id)
    for label, ids in parts.items():
        if len(ids) > 1:
            new = f"{label} {len(ids)}"
            fix = Fix(f'label {ids[-1]} "{new}"', partial(change_part, part_id=ids[-1], label=new))
            yield Remark(f'{listed(ids)} are all labelled "{label}".', tuple(ids), fix=fix)
