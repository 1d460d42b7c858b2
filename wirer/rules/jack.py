"""Rules of the jack and the battery that it switches."""

from __future__ import annotations

from collections.abc import Iterator

from wirer.analysis.facts import facts_of, resting_states
from wirer.analysis.harness import harness_of
from wirer.circuit.elements import Cell, circuit_elements
from wirer.rules.finding import Remark
from wirer.rules.inspection import Inspection
from wirer.rules.names import part_name
from wirer.rules.registry import rule


@rule(
    "jack-missing",
    "error",
    wrong="There is no output jack, so there is neither hot nor ground.",
    heard="Nothing.",
    meter="Nothing to measure at.",
    mend="Add a jack; its sleeve is ground, its tip is hot.",
)
def jack_missing(inspection: Inspection) -> Iterator[Remark]:
    """Find a circuit without an output."""
    if not inspection.circuit.jacks:
        yield Remark("There is no output jack.", ())


@rule(
    "jack-doubled",
    "warning",
    wrong="There are several output jacks; only the first is analysed.",
    heard="What the other jacks give is not worked out here.",
    meter="Measure at each jack by itself.",
    mend="Keep one jack to a document, or put the analysed one first.",
)
def jack_doubled(inspection: Inspection) -> Iterator[Remark]:
    """Find more than one output."""
    first, *others = inspection.circuit.jacks or (None,)
    if first and others:
        names = part_name(inspection.circuit, first.id)
        text = f"Of {len(others) + 1} jacks only {names} is analysed."
        yield Remark(text, tuple(jack.id for jack in others if jack))


@rule(
    "battery-always-on",
    "warning",
    wrong="The battery's minus is on ground even with the plug pulled.",
    heard="Nothing, until the battery is flat after some days.",
    meter="Minus to sleeve reads 0 Ω without a plug in the jack.",
    mend="Wire minus to the ring of a stereo jack, which a mono plug joins to the sleeve.",
)
def battery_always_on(inspection: Inspection) -> Iterator[Remark]:
    """Find batteries that neither the plug nor a switch takes off."""
    if not inspection.circuit.jacks:
        return
    harness = harness_of(inspection.circuit, inspection.rotations, "unplugged")
    facts = facts_of(harness, resting_states(harness))
    for cell in circuit_elements(inspection.circuit):
        if not isinstance(cell, Cell) or not inspection.wires_at.get(cell.plus):
            continue
        if facts.grounded(harness.net_of[cell.minus]).all():
            name = part_name(inspection.circuit, cell.part)
            text = f"{name} is never switched off: pulling the plug does not part it."
            yield Remark(text, (cell.minus, cell.part))


@rule(
    "battery-reversed",
    "error",
    wrong="The battery's plus is on ground where its minus should be.",
    heard="What it feeds is dead, and can be destroyed.",
    meter="Plus to sleeve reads 0 Ω with a plug in the jack and the battery taken out.",
    mend="Exchange its leads before the battery is fitted.",
)
def battery_reversed(inspection: Inspection) -> Iterator[Remark]:
    """Find batteries whose plus is on ground."""
    facts = inspection.metered
    for cell in circuit_elements(inspection.circuit):
        if not isinstance(cell, Cell):
            continue
        plus = facts.grounded(facts.harness.net_of[cell.plus])
        minus = facts.grounded(facts.harness.net_of[cell.minus])
        if (plus & ~minus).any():
            name = part_name(inspection.circuit, cell.part)
            text = f"The plus of {name} is on ground, its minus is not."
            yield Remark(text, (cell.plus, cell.minus, cell.part), plus & ~minus)
