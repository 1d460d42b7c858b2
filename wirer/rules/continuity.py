"""Rules of continuity: what signal never reaches, and wires that lead nowhere."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial

import networkx as nx

from wirer.circuit.edits import remove_wires
from wirer.rules.finding import Fix, Remark
from wirer.rules.grounding import island_places, islands
from wirer.rules.inspection import Inspection
from wirer.rules.names import listed, lug_name, part_name
from wirer.rules.registry import rule
from wirer.rules.shafts import idle_shafts, loose_lugs
from wirer.rules.tracing import once
from wirer.rules.troubles import Trouble, called, line_trouble, lost_groups, lost_trouble
from wirer.rules.wiring import fixed_graph, leading_nowhere, spare_wires


def shorted_throughout(inspection: Inspection) -> bool:
    """Return whether the output is shorted whatever the switches do."""
    return bool(inspection.over_rows(lambda c: c.silent == "shorted").all())


@rule(
    "no-signal",
    "error",
    wrong="No coil's signal reaches the jack's tip in any setting.",
    heard="Nothing but hiss or hum, whatever the switches do.",
    meter="Tip to sleeve reads open, or the pots alone, in every setting.",
    mend="Follow the signal from the coil's hot end to the tip and find the joint that lacks.",
)
def no_signal(inspection: Inspection) -> Iterator[Remark]:
    """Find a tip that never reaches a coil."""
    circuit = inspection.circuit
    if not circuit.jacks or not inspection.silent.all() or shorted_throughout(inspection):
        return
    jack = circuit.jacks[0]
    trouble = line_trouble(inspection, inspection.silent)
    apart = islands(inspection)
    for net, metals in apart.items():
        names = listed(lug_name(inspection.circuit, lug) for lug in metals)
        places = island_places(inspection, net, metals)
        trouble = Trouble((f"the ground at {names} is not joined to the sleeve",), places)
    text = trouble.told(f"No coil ever reaches the tip of {jack.name}")
    if not inspection.table.coils:
        text = "There is no coil in the circuit, so nothing can sound."
    yield Remark(text, once(inspection.output_lugs, trouble.places, (jack.id,)))


@rule(
    "unwired-part",
    "warning",
    wrong="No wire goes to a part.",
    heard="The part does nothing.",
    meter="Every lug of it reads open to everything else.",
    mend="Wire it, or take it away.",
)
def unwired_part(inspection: Inspection) -> Iterator[Remark]:
    """Find parts without a wire; bare metal is left to the rules of ground."""
    for part in inspection.circuit.parts:
        lugs = inspection.kind(part.id).lugs
        if any(inspection.wires_at[f"{part.id}.{lug.name}"] for lug in lugs):
            continue
        if not all(lug.metal for lug in lugs):
            text = f"No wire goes to {part_name(inspection.circuit, part.id)}."
            yield Remark(text, (part.id, *(f"{part.id}.{lug.name}" for lug in lugs)))


@rule(
    "unwired-lug",
    "warning",
    wrong="A lug that its part can't do without has no wire.",
    heard="The part is missing or does nothing: a coil is lost, a control has no effect.",
    meter="The lug reads open to everything but its own part.",
    mend="Wire the lug.",
)
def unwired_lug(inspection: Inspection) -> Iterator[Remark]:
    """Find needed lugs without a wire on parts that have some."""
    told = _told_elsewhere(inspection) if inspection.unwired_lugs else frozenset[str]()
    for reference in inspection.unwired_lugs:
        if reference not in told:
            text = f"{lug_name(inspection.circuit, reference)} has no wire."
            yield Remark(text, (reference, reference.partition(".")[0]))


def _told_elsewhere(inspection: Inspection) -> frozenset[str]:
    """Return the lugs that the finding of a lost coil, an idle control or a dead jack names."""
    idle = [lug for shaft in idle_shafts(inspection) for lug in loose_lugs(inspection, shaft)]
    coils = [inspection.harness.coils[index] for index in inspection.lost_coils]
    ends = [end for coil in coils for end in (coil.start, coil.finish)]
    dead = inspection.silent.all() and not shorted_throughout(inspection)
    return frozenset((*ends, *idle, *(inspection.output_lugs if dead else ())))


@rule(
    "stray-wire",
    "warning",
    wrong="A wire leads nowhere: what is at its end is joined to nothing in any setting.",
    heard="Nothing of itself; what the wire was meant for is missing.",
    meter="One end reads open to everything in every setting.",
    mend="Take its loose end to the lug that it was meant for, or take the wire away.",
)
def stray_wire(inspection: Inspection) -> Iterator[Remark]:
    """Find wires beyond which there is nothing in any setting."""
    for wire in leading_nowhere(inspection.circuit):
        if wire.from_lug == wire.to_lug:
            continue
        names = (lug_name(inspection.circuit, lug) for lug in wire.ends)
        text = f"Wire {wire.id}, from {' to '.join(names)}, leads nowhere."
        fix = Fix(f"take wire {wire.id} away", partial(remove_wires, wire_ids=(wire.id,)))
        yield Remark(text, once((wire.id, *wire.ends), _bare_mates(inspection, wire.ends)), fix=fix)


def _bare_mates(inspection: Inspection, ends: tuple[str, str]) -> Iterator[str]:
    """Yield the lugs without a wire of the poles at which a wire ends."""
    for part in dict.fromkeys(end.partition(".")[0] for end in ends):
        for pole in inspection.poles(part):
            if set(pole) & set(ends):
                yield from (lug for lug in pole if not inspection.wires_at[lug])


@rule(
    "doubled-wire",
    "note",
    wrong="A wire joins lugs that are joined without it.",
    heard="Nothing; it is one joint more to solder.",
    meter="With the wire lifted its ends still read 0 Ω.",
    mend="Leave it out, unless it is there on purpose.",
)
def doubled_wire(inspection: Inspection) -> Iterator[Remark]:
    """Find nets, ground apart, that hold together with a wire less."""
    harness = inspection.harness
    graph = fixed_graph(inspection.circuit)
    for component in nx.connected_components(graph):
        lug = next(iter(component))
        if harness.net_of[lug] == harness.ground:
            continue
        net = graph.subgraph(component)
        spare = spare_wires(net) if net.number_of_edges() >= len(component) else ()
        if spare:
            many = f"wires {listed(spare)} are" if len(spare) > 1 else f"wire {spare[0]} is"
            text = f"{many[0].upper()}{many[1:]} in a ring: one of its wires could be left out."
            fix = Fix(f"take wire {spare[-1]} away", partial(remove_wires, wire_ids=spare[-1:]))
            yield Remark(text, spare, fix=fix)


@rule(
    "lost-coil",
    "error",
    wrong="A coil sounds in no setting.",
    heard="That coil is never heard.",
    meter="Its resistance is found in none of the readings at the jack; a tap test is silent.",
    mend="Join both its ends: one towards the tip, one towards ground, and look for a short.",
)
def lost_coil(inspection: Inspection) -> Iterator[Remark]:
    """Find a coil that carries signal in no setting while others do."""
    for group in lost_groups(inspection):
        coils = [inspection.harness.coils[index] for index in group]
        trouble = lost_trouble(inspection, group)
        what, many = called(inspection, group)
        text = trouble.told(f"{what} sound{'' if many else 's'} in no setting")
        yield Remark(text, once(*((c.part, c.start, c.finish) for c in coils), trouble.places))
