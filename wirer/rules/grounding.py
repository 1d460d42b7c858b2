"""What the rules of ground share: metal by net, a swapped jack, how to ground a thing."""

from __future__ import annotations

from collections import defaultdict
from functools import partial

from wirer.circuit.edits import add_wires, free_id
from wirer.circuit.elements import Bond, elements_of
from wirer.circuit.model import Wire, split_lug
from wirer.rules.finding import Fix
from wirer.rules.inspection import Inspection
from wirer.rules.names import lug_name
from wirer.rules.tracing import once

JUNCTION = "junction"
MOST_LUGS = 12


def metal_by_net(inspection: Inspection) -> dict[int, tuple[str, ...]]:
    """Return the lugs of metal by their fixed nets, a jack's sleeve left out."""
    nets: dict[int, list[str]] = defaultdict(list)
    for lug in inspection.metals:
        nets[inspection.net(lug)].append(lug)
    return {net: tuple(lugs) for net, lugs in nets.items()}


def islands(inspection: Inspection) -> dict[int, tuple[str, ...]]:
    """Return the nets of several pieces of metal that are never joined to the jack at all.

    They may carry signal, but only because the ground of a coil runs through them.
    """
    facts, hot = inspection.facts, inspection.harness.hot
    return {
        net: metals
        for net, metals in metal_by_net(inspection).items()
        if len(metals) > 1
        and not (hot is not None and facts.same_net(net, hot).any())
        and not facts.grounded(net).any()
    }


def island_places(inspection: Inspection, net: int, metals: tuple[str, ...]) -> tuple[str, ...]:
    """Return the metal of an island, the wires there and where they lead, its buses and posts."""
    led = (inspection.tracing.far_ends(lug) for lug in metals)
    junctions = (
        part.id
        for part in inspection.circuit.parts
        for lug in inspection.kind(part.id).lugs
        if JUNCTION in inspection.kind(part.id).traits
        and inspection.net(f"{part.id}.{lug.name}") == net
    )
    return once(once(metals, *led)[:MOST_LUGS], junctions)


def swapped_output(inspection: Inspection) -> bool:
    """Return whether the metal of the guitar is wired to the tip and none of it to the sleeve."""
    harness = inspection.harness
    if harness.hot is None or harness.hot == harness.ground:
        return False
    nets = metal_by_net(inspection)
    at_tip, at_sleeve = nets.get(harness.hot, ()), nets.get(harness.ground or 0, ())
    wired = [lug for lug in inspection.metals if inspection.wires_at[lug]]
    return len(at_tip) > 0 and not at_sleeve and 2 * len(at_tip) >= len(wired)


def through_network(inspection: Inspection, net: int) -> bool:
    """Return whether metal reaches ground by resistors and capacitors alone."""
    ground = inspection.harness.ground
    return any(
        {branch.a, branch.b} == {net, ground}
        for branch in inspection.harness.branches
        if branch.coil is None and branch.henry == 0
    )


def ground_fix(inspection: Inspection, lug: str) -> Fix | None:
    """Return the wire that would ground a lug: to the nearest grounded lug with room for it."""
    circuit = inspection.circuit
    parts = circuit.part_by_id
    here = parts[split_lug(lug)[0]].at

    def far(other: str) -> float:
        at = parts[split_lug(other)[0]].at
        return abs(at[0] - here[0]) + abs(at[1] - here[1])

    free = [
        other
        for other, net in inspection.harness.net_of.items()
        if net == inspection.harness.ground
        and other in inspection.wires_at
        and len(inspection.wires_at[other]) < inspection.lug(other).holds
        and other != lug
        and _is_ground_point(inspection, other)
    ]
    if not free:
        return None
    nearest = min(free, key=far)
    wire = Wire(id=free_id(circuit, "w"), from_lug=lug, to_lug=nearest, colour="BK")
    text = f"wire it to {lug_name(circuit, nearest)}"
    return Fix(text, partial(add_wires, wires=(wire,)))


def _is_ground_point(inspection: Inspection, lug: str) -> bool:
    """Return whether a lug is there to be ground: metal, or of a bus or post.

    A pot's lug that only happens to be on ground is no place to run other grounds to.
    """
    part = inspection.part(split_lug(lug)[0])
    elements = elements_of(inspection.circuit, part)
    joins_only = not inspection.kind(part.id).actuator and all(
        isinstance(e, Bond) for e in elements
    )
    return inspection.lug(lug).metal or joins_only
