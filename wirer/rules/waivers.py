"""Waivers: findings that the builder accepts, and waivers that nothing answers to any more."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from wirer.circuit.edits import change_circuit
from wirer.circuit.model import Circuit, Waiver
from wirer.rules.finding import Finding, Remark
from wirer.rules.inspection import Inspection
from wirer.rules.registry import rule


def matches(waiver: Waiver, finding: Finding) -> bool:
    """Return whether a waiver speaks of a finding: its rule, and all of its places."""
    return waiver.rule == finding.rule and set(waiver.places) <= set(finding.places)


def with_waiver(circuit: Circuit, finding: Finding, reason: str) -> Circuit:
    """Return the circuit with a finding waived: its rule at its most telling places."""
    waiver = Waiver(finding.rule, finding.places[:2], reason)
    return change_circuit(circuit, waived=(*circuit.waived, waiver))


def without_waiver(circuit: Circuit, finding: Finding) -> Circuit:
    """Return the circuit with every waiver that speaks of a finding taken away."""
    kept = tuple(waiver for waiver in circuit.waived if not matches(waiver, finding))
    return change_circuit(circuit, waived=kept)


def idle_waivers(circuit: Circuit, found: Iterable[Finding]) -> Iterator[Finding]:
    """Yield a note for each waiver that matches none of the findings."""
    found = tuple(found)
    for waiver in circuit.waived:
        if any(matches(waiver, finding) for finding in found):
            continue
        where = f" at {', '.join(waiver.places)}" if waiver.places else ""
        text = f"{waiver.rule}{where} is waived but no longer found; take the waiver away."
        yield Finding("idle-waiver", "note", text, waiver.places)


@rule(
    "idle-waiver",
    "note",
    wrong="A finding was waived, and the circuit no longer has it.",
    heard="Nothing.",
    meter="Nothing to measure.",
    mend="Take the waiver away, so that it can't hide the same mistake made again.",
)
def idle_waiver(inspection: Inspection) -> Iterator[Remark]:
    """Say nothing here: waivers are judged once every other rule has spoken."""
    del inspection
    return iter(())
