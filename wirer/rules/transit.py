"""Rules of what happens half-way between two positions."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from wirer.analysis.facts import Facts, Mask
from wirer.analysis.switches import HalfWay
from wirer.analysis.unused import CoilState
from wirer.circuit.values import timing_of
from wirer.rules.actuators import slices
from wirer.rules.finding import Remark
from wirer.rules.halfway import halfway_facts
from wirer.rules.inspection import Inspection
from wirer.rules.names import coil_name, listed, part_name
from wirer.rules.registry import rule


@rule(
    "gap",
    "note",
    wrong="The sound drops out half-way between two positions: the switch breaks before it makes.",
    heard="A short dropout, perhaps a click, as the switch is thrown.",
    meter="Moved slowly, the reading opens between the positions.",
    mend="Nothing; or take a switch that makes before it breaks.",
)
def gap(inspection: Inspection) -> Iterator[Remark]:
    """Find switches between two sounding positions of which nothing sounds."""
    said: set[str] = set()
    for part, between, facts in halfway_facts(inspection, timing="break"):
        if part in said:
            continue
        rows = dict(slices(inspection, part))
        sounding = ~inspection.silent
        both = sounding[rows[between.first]] & sounding[rows[between.second]]
        if (both & ~_live(facts)).any():
            said.add(part)
    if said:
        parts = tuple(part for part in inspection.table.positions if part in said)
        names = listed(part_name(inspection.circuit, part) for part in parts)
        yield Remark(f"The sound drops out for a moment as one throws {names}.", parts)


@rule(
    "overlap-short",
    "warning",
    wrong="Half-way between two positions a switch that makes before it breaks shorts something.",
    heard="A click or a dropout as the switch is thrown.",
    meter="Moved slowly, the reading falls to 0 Ω, or by a coil, between the positions.",
    mend="Take a switch that breaks before it makes, or wire the throws so that neighbours "
    "may meet.",
)
def overlap_short(inspection: Inspection) -> Iterator[Remark]:
    """Find shorts of the output or of a coil on the way from one position to the next."""
    said: set[str] = set()
    for part, between, facts in halfway_facts(inspection, timing="make"):
        if part in said:
            continue
        what = _shorted(inspection, part, between, facts)
        if what:
            said.add(part)
            sure = timing_of(inspection.part(part), inspection.kind(part)) == "make"
            if_so = "" if sure else ", if it makes before it breaks"
            name = part_name(inspection.circuit, part)
            text = f"{what} is shorted for a moment while {name} moves{if_so}."
            yield Remark(text, (part,), None, None if sure else "note")


def _shorted(inspection: Inspection, part: str, between: HalfWay, facts: Facts) -> str:
    """Return what is shorted half-way and in neither of the positions, in words; empty if none."""
    rows = dict(slices(inspection, part))
    ends = (rows[between.first], rows[between.second])
    harness = facts.harness
    if harness.hot is not None and harness.ground is not None:
        now = facts.same_net(harness.hot, harness.ground)
        rest = inspection.facts.same_net(harness.hot, harness.ground)
        if (now & ~rest[ends[0]] & ~rest[ends[1]]).any():
            return "The output"
    shorted = facts.shorted_coils
    rest_coils: Mask = inspection.coil_states == CoilState.SHORTED
    new = shorted & ~rest_coils[ends[0]] & ~rest_coils[ends[1]]
    live = inspection.coil_states == CoilState.LIVE
    new &= live[ends[0]] & live[ends[1]]
    for index in np.flatnonzero(new.any(axis=0)):
        return coil_name(inspection.circuit, harness.coils[int(index)].name)
    return ""


def _live(facts: Facts) -> Mask:
    """Return in which settings any coil carries signal."""
    return np.asarray(facts.live_coils.any(axis=1), np.bool_)


@rule(
    "pop",
    "note",
    wrong="A capacitor is left charged with no path to bleed through, and a switch reconnects it.",
    heard="A pop as the switch is thrown.",
    meter="With the capacitor switched off, across it reads open.",
    mend="Solder a resistor of some 10 MΩ across it.",
)
def pop(inspection: Inspection) -> Iterator[Remark]:
    """Find capacitors that a switch takes out of circuit with one end open."""
    facts = inspection.facts
    branches = inspection.harness.branches
    for index, branch in enumerate(branches):
        if branch.conducts or branch.coil or not inspection.harness.switches:
            continue
        live = facts.live[:, index]
        off = ~live & ~facts.same_net(branch.a, branch.b)
        bled = np.zeros(len(facts), np.bool_)
        for other in branches:
            if other.conducts:
                bled |= _across(facts, branch.a, branch.b, other.a, other.b)
        if live.any() and (off & ~bled).any():
            name = part_name(inspection.circuit, branch.part)
            text = f"{name} keeps its charge when it is switched off."
            yield Remark(text, (branch.part,), off & ~bled)


def _across(facts: Facts, a: int, b: int, c: int, d: int) -> Mask:
    """Return where a branch from c to d lies between the nets a and b."""
    straight = facts.same_net(a, c) & facts.same_net(b, d)
    return straight | (facts.same_net(a, d) & facts.same_net(b, c))
