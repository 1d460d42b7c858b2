"""Rules of continuity: what signal never reaches."""

from __future__ import annotations

from collections.abc import Iterator

from wirer.rules.finding import Remark
from wirer.rules.inspection import Inspection
from wirer.rules.names import coil_name
from wirer.rules.registry import rule
from wirer.rules.silence import deliberate_silence


def shorted_throughout(inspection: Inspection) -> bool:
    """Return whether the output is shorted whatever the switches do."""
    return all(inspection.table.combinations[i].silent == "shorted" for i in inspection.table.which)


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
    output = circuit.kind_of(jack).output
    if output:
        text = f"No coil ever reaches the tip of {jack.name}."
        if not inspection.table.coils:
            text = "There is no coil in the circuit, so nothing can sound."
        yield Remark(text, (f"{jack.id}.{output.tip}",))


@rule(
    "lost-coil",
    "error",
    wrong="A coil sounds in no setting.",
    heard="That coil is never heard.",
    meter="Its resistance is found in none of the readings at the jack; a tap test is silent.",
    mend="Join both its ends: one towards the tip, one towards ground, and look for a short.",
)
def lost_coil(inspection: Inspection) -> Iterator[Remark]:
    """Find a coil that sounds in no setting while others do."""
    if inspection.silent.all():
        return
    heard: list[bool] = inspection.sounding.any(axis=0).tolist()
    hum_only = {i for i, coil in enumerate(inspection.harness.coils) if coil.pole == 0}
    for index, coil in enumerate(inspection.harness.coils):
        if heard[index] or index in hum_only:
            continue
        name = coil_name(inspection.circuit, coil.name)
        yield Remark(f"{name} sounds in no setting.", (coil.part, coil.start, coil.finish))


@rule(
    "silent-setting",
    "warning",
    wrong="In some setting no coil sounds, and the output is not shorted: the line is open.",
    heard="Silence, often with hiss or hum, since an open line picks it up.",
    meter="The reading is open or shows the pots alone in that setting.",
    mend="Find what the setting should sound like and the contact that should join it; where "
    "silence is meant, short the output instead or state it as wanted.",
)
def silent_setting(inspection: Inspection) -> Iterator[Remark]:
    """Find settings that are silent without a short."""
    silent = inspection.over_rows(lambda c: c.silent in ("open", "faint"))
    if inspection.silent.all() or not inspection.circuit.jacks:
        return
    meant = deliberate_silence(inspection)
    switches = tuple(inspection.table.positions)
    if (silent & ~meant).any():
        yield Remark("No coil sounds; the line to the jack is open.", switches, silent & ~meant)
    if (silent & meant).any():
        text = "Silence with everything switched off; the open line may hiss or hum."
        yield Remark(text, switches, silent & meant, "note")
