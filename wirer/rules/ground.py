"""Rules of ground: metal must be on ground, always, and never on the signal."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial

import networkx as nx
import numpy as np

from wirer.analysis.facts import Mask
from wirer.circuit.edits import change_circuit, swap_lugs
from wirer.rules.finding import Fix, Remark
from wirer.rules.grounding import (
    ground_fix,
    island_places,
    islands,
    metal_by_net,
    swapped_output,
    through_network,
)
from wirer.rules.inspection import Inspection
from wirer.rules.names import listed, lug_name
from wirer.rules.registry import rule
from wirer.rules.tracing import once
from wirer.rules.troubles import MOST_PLACES
from wirer.rules.wiring import fixed_graph, spare_wires

STRINGS = "string-ground"


@rule(
    "ungrounded-metal",
    "warning",
    wrong="Exposed or screening metal is not joined to the jack's sleeve in any setting.",
    heard="Buzz that changes when the metal, or a hand near it, is touched.",
    meter="From the metal to the sleeve reads more than 1 Ω.",
    mend="Solder a ground wire to it, or bolt it to metal that is grounded.",
)
def ungrounded_metal(inspection: Inspection) -> Iterator[Remark]:
    """Find metal that stands alone and is never grounded."""
    if not inspection.circuit.jacks or swapped_output(inspection):
        return
    facts = inspection.facts
    for net, metals in metal_by_net(inspection).items():
        never = not facts.grounded(net).any() and not facts.on_signal(net).any()
        for lug in metals if never and len(metals) == 1 else ():
            yield _ungrounded(inspection, net, lug)


def _ungrounded(inspection: Inspection, net: int, lug: str) -> Remark:
    strings = STRINGS in inspection.kind(lug.partition(".")[0]).traits
    name = lug_name(inspection.circuit, lug)
    if through_network(inspection, net):
        text = (
            f"{name} is grounded through parts only, which limits a shock and does not prevent it."
        )
        return Remark(text, (lug,), None, "note")
    text = f"The strings are not grounded at {name}." if strings else f"{name} is not on ground."
    return Remark(text, (lug,), None, "error" if strings else None, ground_fix(inspection, lug))


@rule(
    "ground-island",
    "error",
    wrong="Several pieces of metal are joined to each other, and not to the jack's sleeve.",
    heard="Loud buzz; parts whose return runs through them are dead.",
    meter="They read 0 Ω to each other, and open to the sleeve.",
    mend="Run one wire from them to the sleeve.",
)
def ground_island(inspection: Inspection) -> Iterator[Remark]:
    """Find metal joined to other metal and never to the sleeve."""
    if not inspection.circuit.jacks or swapped_output(inspection):
        return
    facts = inspection.facts
    for net, metals in islands(inspection).items():
        if not (inspection.silent.all() and facts.on_signal(net).any()):
            names = listed(lug_name(inspection.circuit, lug) for lug in metals)
            text = f"{names} are joined to each other and not to the sleeve."
            fix = ground_fix(inspection, metals[0])
            yield Remark(text, island_places(inspection, net, metals), fix=fix)


@rule(
    "switched-ground",
    "warning",
    wrong="Metal is grounded only in some settings.",
    heard="Buzz that comes and goes with a switch.",
    meter="From the metal to the sleeve reads 0 Ω in some settings and open in others.",
    mend="Ground it by a wire of its own that no switch interrupts.",
)
def switched_ground(inspection: Inspection) -> Iterator[Remark]:
    """Find metal whose ground runs through a contact."""
    facts = inspection.facts
    for net, metals in metal_by_net(inspection).items():
        grounded = facts.grounded(net)
        loose = ~grounded & ~facts.on_signal(net)
        if grounded.any() and loose.any() and not facts.on_signal(net).any():
            names = listed(lug_name(inspection.circuit, lug) for lug in metals)
            verb = "are" if len(metals) > 1 else "is"
            yield Remark(f"{names} {verb} not on ground.", metals, loose)


@rule(
    "hot-metal",
    "error",
    wrong="Exposed or screening metal is on the signal.",
    heard="Loud hum and buzz, worse when the metal is touched.",
    meter="From the metal to the tip reads near 0 Ω, or a coil's resistance.",
    mend="Give the metal a lead of its own to ground, apart from both ends of the coil; a braided "
    "lead whose braid is one end of the coil can't be reversed or put on top of a series pair.",
)
def hot_metal(inspection: Inspection) -> Iterator[Remark]:
    """Find metal that is on the signal in some setting."""
    swapped = swapped_output(inspection)
    apart = islands(inspection)
    for net, metals in metal_by_net(inspection).items():
        rows = inspection.facts.on_signal(net)
        if not rows.any() or net in apart or (swapped and net == inspection.harness.hot):
            continue
        names = listed(lug_name(inspection.circuit, lug) for lug in metals)
        many = len(metals) > 1
        text = f"{names} {'are' if many else 'is'} metal and carr{'y' if many else 'ies'} signal."
        places = once(metals, _way_to_signal(inspection, metals, rows))
        yield Remark(text, places, None if rows.all() else rows)


def _way_to_signal(inspection: Inspection, metals: tuple[str, ...], rows: Mask) -> tuple[str, ...]:
    """Return by what way metal and tip are joined, else the wires of the metal."""
    setting = inspection.table.setting(int(np.flatnonzero(rows)[0]))
    ways = (inspection.tracing.way(lug, inspection.output_lugs[0], setting) for lug in metals)
    shortest = min((way for way in ways if way), key=len, default=())
    led = (inspection.tracing.far_ends(lug) for lug in metals[:3])
    return shortest[: 2 * MOST_PLACES] or once(*led)[:MOST_PLACES]


@rule(
    "tip-sleeve-swapped",
    "error",
    wrong="The ground is wired to the jack's tip, the signal to its sleeve.",
    heard="The guitar sounds, with loud hum that gets worse when the strings are touched.",
    meter="The strings and cans read 0 Ω to the tip instead of the sleeve.",
    mend="Exchange the wires at the tip and the sleeve.",
)
def tip_sleeve_swapped(inspection: Inspection) -> Iterator[Remark]:
    """Find a jack whose tip has the metal."""
    if not swapped_output(inspection):
        return
    jack = inspection.circuit.jacks[0]
    output = inspection.circuit.kind_of(jack).output
    if output:
        tip, sleeve = f"{jack.id}.{output.tip}", f"{jack.id}.{output.sleeve}"
        fix = Fix(
            "exchange the wires at tip and sleeve", partial(swap_lugs, first=tip, second=sleeve)
        )
        text = f"The ground is at the tip of {jack.name}, the signal at its sleeve."
        yield Remark(text, (tip, sleeve), fix=fix)


@rule(
    "ground-by-bolt",
    "note",
    wrong="Metal is grounded only by being bolted or pressed to other metal.",
    heard="Nothing, until a nut works loose: then buzz that comes and goes.",
    meter="From the metal to the sleeve the reading moves when the nut is turned.",
    mend="Solder a ground wire to it as well.",
)
def ground_by_bolt(inspection: Inspection) -> Iterator[Remark]:
    """Find metal that loses its ground with the bolts; plates and foil have it so by custom."""
    wires = inspection.circuit.wires
    if inspection.harness.ground is None or all(wire.style != "mount" for wire in wires):
        return
    soldered = fixed_graph(
        change_circuit(inspection.circuit, wires=tuple(w for w in wires if w.style != "mount"))
    )
    held = nx.node_connected_component(soldered, inspection.output_lugs[1])
    loose = tuple(
        lug
        for lug in inspection.metals
        if inspection.net(lug) == inspection.harness.ground
        and lug not in held
        and not inspection.placements[lug.partition(".")[0]].underlay
    )
    if loose:
        names = listed(lug_name(inspection.circuit, lug) for lug in loose)
        text = f"{names} {'are' if len(loose) > 1 else 'is'} grounded by bolts alone."
        yield Remark(text, once(loose, *map(inspection.wires_at.__getitem__, loose)))


@rule(
    "ground-loop",
    "note",
    wrong="Metal is grounded by two separate paths: a redundant ground, which mounts make too.",
    heard="Nothing in most guitars; whether it ever matters is disputed.",
    meter="With either path opened the metal still reads 0 Ω to the sleeve.",
    mend="Leave it; or take away one of the paths, but never the only soldered one.",
)
def ground_loop(inspection: Inspection) -> Iterator[Remark]:
    """Find rings in the ground net."""
    harness = inspection.harness
    if harness.ground is None:
        return
    graph = fixed_graph(inspection.circuit)
    ground = graph.subgraph(lug for lug in graph if harness.net_of[lug] == harness.ground)
    if nx.is_forest(ground):
        return
    plain = nx.Graph(ground)
    plain.remove_edges_from(list(nx.selfloop_edges(plain)))
    for ring in nx.biconnected_components(plain):
        wires = spare_wires(ground.subgraph(ring))
        if wires:
            metals = sorted(lug for lug in ring if lug in inspection.metals)
            where = listed(lug_name(inspection.circuit, m) for m in metals) if metals else "ground"
            yield Remark(f"Two paths lead to {where}.", (*wires, *metals))
