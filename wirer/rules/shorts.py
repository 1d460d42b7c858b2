"""Rules of shorts: what is joined that should not be."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from functools import partial

import numpy as np

from wirer.analysis.facts import Mask
from wirer.analysis.unused import CoilState
from wirer.circuit.edits import remove_wires
from wirer.circuit.elements import Capacitor, Cell, Inductor, Resistor, circuit_elements
from wirer.rules.actuators import decides
from wirer.rules.finding import Fix, Remark
from wirer.rules.halfway import halfway_facts
from wirer.rules.inspection import Inspection
from wirer.rules.names import coil_name, lug_name, part_name
from wirer.rules.registry import rule
from wirer.rules.silence import deliberate_silence
from wirer.rules.tracing import once
from wirer.rules.troubles import MOST_PLACES, Trouble, coil_trouble, short_trouble


@rule(
    "output-shorted",
    "warning",
    wrong="The jack's tip is joined to its sleeve.",
    heard="Dead silence.",
    meter="Tip to sleeve reads under 1 Ω.",
    mend="Find the wire, contact or solder bridge that joins hot to ground.",
)
def output_shorted(inspection: Inspection) -> Iterator[Remark]:
    """Find the output shorted, in all settings or in some."""
    shorted = inspection.over_rows(lambda c: c.silent == "shorted")
    if not shorted.any():
        return
    jack = inspection.circuit.jacks[0]
    if shorted.all():
        trouble = _way(inspection, shorted)
        text = trouble.told(f"Hot is joined to ground at {jack.name}, whatever the switches do")
        yield Remark(text, once(inspection.output_lugs, trouble.places), None, "error")
        return
    meant = deliberate_silence(inspection)
    if (shorted & ~meant).any():
        trouble = _way(inspection, shorted & ~meant)
        text = trouble.told("The output is shorted, hot being joined to ground")
        yield Remark(text, once(inspection.output_lugs, trouble.places), shorted & ~meant)
    if (shorted & meant).any():
        text = "The output is shorted where silence is meant: dead quiet."
        yield Remark(text, inspection.output_lugs, shorted & meant, "note")


def _way(inspection: Inspection, rows: Mask) -> Trouble:
    """Return how tip and sleeve are joined in the first of some settings.

    Where that is by a coil's ends being joined, the way from end to end tells more.
    """
    row = int(np.flatnonzero(rows)[0])
    setting = inspection.table.setting(row)
    coils = inspection.harness.coils
    for index in np.flatnonzero(inspection.coil_states[row] == CoilState.SHORTED).tolist():
        coil = coils[index]
        trouble = short_trouble(inspection, coil.start, coil.finish, setting)
        if 1 < len(trouble.places) < MOST_PLACES:
            name = coil_name(inspection.circuit, coil.name)
            return replace(trouble, clauses=(f"{name} is shorted there", *trouble.clauses))
    tip, sleeve = inspection.output_lugs
    return short_trouble(inspection, tip, sleeve, setting)


@rule(
    "shorted-coil",
    "warning",
    wrong="Both ends of a coil are joined to each other.",
    heard="The coil is missing where it should sound.",
    meter="The reading lacks the coil's resistance; across the coil it is near 0 Ω.",
    mend="Find the wire or contact that joins the coil's ends.",
)
def shorted_coil(inspection: Inspection) -> Iterator[Remark]:
    """Find coils shorted in all settings, or while others sound."""
    coils = inspection.harness.coils
    shorted = inspection.coil_states == CoilState.SHORTED
    for index, coil in enumerate(coils):
        own: Mask = shorted[:, index]
        name = coil_name(inspection.circuit, coil.name)
        places = (coil.start, coil.finish, coil.part)
        if own.all():
            trouble = coil_trouble(inspection, index, own)
            text = trouble.told(f"{name} is shorted on itself")
            yield Remark(text, once(places, trouble.places), None, "error")
            continue
        partners = [i for i, c in enumerate(coils) if c.part == coil.part and i != index]
        split = own & inspection.sounding[:, partners].any(axis=1)
        if split.any():
            text = f"{name} is shorted, which splits its pickup."
            yield Remark(text, places, split, "note")
        whole = own & shorted[:, partners].all(axis=1) & ~inspection.silent
        if whole.any() and decides(inspection, own):
            yield Remark(f"{name} is switched off by a short.", places, whole, "note")
        elif whole.any():
            trouble = coil_trouble(inspection, index, whole)
            text = trouble.told(f"{name} is shorted while others sound")
            yield Remark(text, once(places, trouble.places), whole)


@rule(
    "shorted-part",
    "error",
    wrong="A resistor, capacitor or inductor is bridged in every setting.",
    heard="The part does nothing: a tone control without effect, a treble bleed that is not there.",
    meter="Across the part reads near 0 Ω whatever the switches and knobs do.",
    mend="Take away the wire or solder bridge across it.",
)
def shorted_part(inspection: Inspection) -> Iterator[Remark]:
    """Find parts bridged in every setting, shafts away from their stops."""
    facts = inspection.part_turned
    for element in circuit_elements(inspection.circuit):
        if isinstance(element, (Resistor, Capacitor, Inductor)):
            a, b = (facts.harness.net_of[lug] for lug in (element.a, element.b))
            if facts.same_net(a, b).all() and not _by_battery(inspection, element.a, element.b):
                trouble = short_trouble(inspection, element.a, element.b, _first(inspection))
                text = f"{part_name(inspection.circuit, element.part)} is bridged."
                yield Remark(text, once((element.part, element.a, element.b), trouble.places))


def _first(inspection: Inspection) -> dict[str, str]:
    return inspection.table.setting(0)


def _by_battery(inspection: Inspection, a: str, b: str) -> bool:
    """Return whether only a battery, a short for signals, joins two lugs."""
    facts = inspection.metered
    return not facts.same_net(facts.harness.net_of[a], facts.harness.net_of[b]).all()


@rule(
    "battery-shorted",
    "error",
    wrong="A battery's poles are joined, in some setting or on the way to one.",
    heard="The battery is soon flat; wires and battery can get hot.",
    meter="Plus to minus reads near 0 Ω with the battery taken out.",
    mend="Don't fit the battery before the short is found.",
)
def battery_shorted(inspection: Inspection) -> Iterator[Remark]:
    """Find batteries shorted, half-way positions included."""
    facts = inspection.metered
    for cell in circuit_elements(inspection.circuit):
        if not isinstance(cell, Cell):
            continue
        plus, minus = (facts.harness.net_of[lug] for lug in (cell.plus, cell.minus))
        rows = facts.same_net(plus, minus)
        name = part_name(inspection.circuit, cell.part)
        places = (cell.part, cell.plus, cell.minus)
        if rows.any():
            yield Remark(f"The poles of {name} are joined.", places, rows)
            continue
        for part, between, moving in halfway_facts(inspection, "meter"):
            if moving.same_net(plus, minus).any():
                on = inspection.part(part)
                text = (
                    f"The poles of {name} are joined while {on.name} moves from "
                    f"{on.position_name(between.first)} to {on.position_name(between.second)}."
                )
                yield Remark(text, (*places, part))
                break


@rule(
    "self-wired",
    "error",
    wrong="Both ends of a wire are at one lug.",
    heard="Nothing of itself; what the wire was meant for is missing.",
    meter="Nothing to measure: the wire joins nothing.",
    mend="Take one end to the lug that it was meant for.",
)
def self_wired(inspection: Inspection) -> Iterator[Remark]:
    """Find wires from a lug to itself."""
    for wire in inspection.circuit.wires:
        if wire.from_lug == wire.to_lug:
            where = lug_name(inspection.circuit, wire.from_lug)
            fix = Fix(f"take wire {wire.id} away", partial(remove_wires, wire_ids=(wire.id,)))
            text = f"Wire {wire.id} starts and ends at {where}."
            yield Remark(text, (wire.id, wire.from_lug), fix=fix)
