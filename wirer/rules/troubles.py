"""Why something does not sound: where its way ends, as words and places to add to a finding."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

import networkx as nx
import numpy as np

from wirer.analysis.facts import Mask
from wirer.analysis.unused import CoilState
from wirer.circuit.elements import Coil
from wirer.circuit.model import split_lug
from wirer.rules.grounding import islands
from wirer.rules.inspection import Inspection
from wirer.rules.names import coil_name, listed, lug_name, part_name
from wirer.rules.tracing import once

TELLING = (
    CoilState.HUNG_FROM_SIGNAL,
    CoilState.HUNG_FROM_GROUND,
    CoilState.SHORTED,
    CoilState.FREE,
)
"""The states of a silent coil, the one that tells most of what is wrong first."""
MOST_PLACES = 12


@dataclass(frozen=True)
class Trouble:
    """What is wrong, as clauses to put behind a colon, and where, the most telling place first."""

    clauses: tuple[str, ...] = ()
    places: tuple[str, ...] = ()

    def told(self, sentence: str) -> str:
        """Return a sentence with the clauses behind it."""
        return f"{sentence}: {'; '.join(self.clauses)}." if self.clauses else f"{sentence}."


def called(inspection: Inspection, group: list[int]) -> tuple[str, bool]:
    """Return what people call some coils, by pickups where they are whole, and if it is plural."""
    coils = inspection.harness.coils
    parts = dict.fromkeys(coils[i].part for i in group)
    if [i for i, coil in enumerate(coils) if coil.part in parts] == sorted(group):
        return listed(part_name(inspection.circuit, part) for part in parts), len(parts) > 1
    return listed(coil_name(inspection.circuit, coils[i].name) for i in group), len(group) > 1


def coil_trouble(inspection: Inspection, index: int, rows: Mask | None = None) -> Trouble:
    """Return why a coil does not sound in some settings (all if None are given)."""
    coil = inspection.harness.coils[index]
    states = inspection.coil_states[:, index]
    among = np.ones(len(states), np.bool_) if rows is None else rows
    for state in TELLING:
        found = np.flatnonzero(among & (states == state))
        if len(found):
            setting = inspection.table.setting(int(found[0]))
            if state == CoilState.SHORTED:
                return short_trouble(inspection, coil.start, coil.finish, setting)
            return _open_trouble(inspection, coil, int(found[0]), setting)
    return Trouble(places=_wiring_of(inspection, coil))


def lost_groups(inspection: Inspection) -> list[list[int]]:
    """Return the lost coils, those together that are one pickup's or share the end that is loose.

    Coils whose loose end lies on an island of ground are left out: the island is the fault.
    """
    apart = set(islands(inspection))
    graph = nx.Graph()
    for index in inspection.lost_coils:
        nets = _loose_nets(inspection, index)
        if nets.isdisjoint(apart):
            graph.add_edge(("coil", index), ("part", inspection.harness.coils[index].part))
            graph.add_edges_from((("coil", index), ("net", net)) for net in nets)
    groups = (
        sorted(index for sort, index in group if sort == "coil")
        for group in nx.connected_components(graph)
    )
    return sorted(groups)


def _loose_nets(inspection: Inspection, index: int) -> set[int]:
    """Return the nets that the loose ends of a coil join in the setting that tells most."""
    coil = inspection.harness.coils[index]
    states = inspection.coil_states[:, index]
    for state in (CoilState.HUNG_FROM_SIGNAL, CoilState.HUNG_FROM_GROUND):
        for row in np.flatnonzero(states == state)[:1].tolist():
            held = _carrying(inspection, row)
            labels = inspection.facts.labels[row]
            ends = [end for end in (coil.finish, coil.start) if end in inspection.wires_at]
            loose = {labels[inspection.net(end)] for end in ends} - held
            return set(np.flatnonzero(np.isin(labels, list(loose))).tolist())
    return set()


def lost_trouble(inspection: Inspection, group: list[int]) -> Trouble:
    """Return why a group of coils is lost."""
    each = [coil_trouble(inspection, index) for index in group]
    if len(group) == 1:
        return each[0]
    coils = [inspection.harness.coils[index] for index in group]
    own = {
        lug_name(inspection.circuit, e) for c in coils for e in c.ends if e in inspection.wires_at
    }
    clauses = once(*(trouble.clauses for trouble in each))
    telling = tuple(c for c in clauses if not any(c.endswith(name) for name in own))
    return Trouble(telling[:2], once(*(trouble.places for trouble in each))[: MOST_PLACES + 4])


def _open_trouble(
    inspection: Inspection, coil: Coil, row: int, setting: Mapping[str, str]
) -> Trouble:
    """Return where the ways stop from the ends of a coil that lead to nothing that carries.

    How its other end comes to be held is told by places alone: that may be the mistake as well.
    """
    clauses: list[str] = []
    places: list[str] = []
    held: tuple[str, ...] = ()
    carrying = _carrying(inspection, row)
    for end in (coil.finish, coil.start):
        if end not in inspection.wires_at:
            continue
        if inspection.facts.labels[row, inspection.net(end)] in carrying:
            held = _way_held(inspection, end, row, setting)
            continue
        dead = inspection.tracing.dead_ends(end, setting)
        clauses += _stop(inspection, end, dead)
        places += [*_named_whole(inspection, dead), end]
        places += inspection.tracing.ways_to_ends(end, setting)
    return Trouble(tuple(clauses), once(places[: MOST_PLACES - 4], held[:4]))


def _stop(inspection: Inspection, end: str, dead: tuple[str, ...]) -> Iterator[str]:
    """Yield in words where the way from the end of a coil stops."""
    name = lug_name(inspection.circuit, end)
    if end not in inspection.tracing.wired:
        yield f"{name} has no wire"
    elif dead and dead[0] in inspection.tracing.spare:
        where = listed(inspection.part(p).name for p in _named_whole(inspection, dead))
        yield f"{name} goes to {where} and no further"
    elif dead:
        where = listed(lug_name(inspection.circuit, lug) for lug in dead)
        yield f"the way from {name} ends at {where}"


def _named_whole(inspection: Inspection, dead: tuple[str, ...]) -> tuple[str, ...]:
    """Return dead ends, those with mere room on a bus or a can by their part."""
    spare = inspection.tracing.spare
    return once(split_lug(lug)[0] if lug in spare else lug for lug in dead)


def _carrying(inspection: Inspection, row: int) -> set[int]:
    """Return the nets, by label, on the signal's path or at the jack."""
    facts, harness = inspection.facts, inspection.harness
    nets = {harness.hot, harness.ground}
    for index in np.flatnonzero(facts.live[row]).tolist():
        nets |= {harness.branches[index].a, harness.branches[index].b}
    return {int(facts.labels[row, net]) for net in nets if net is not None}


def _way_held(
    inspection: Inspection, end: str, row: int, setting: Mapping[str, str]
) -> tuple[str, ...]:
    """Return the way from the held end of a coil to the jack or to a part that carries."""
    branches = inspection.harness.branches
    live = {branches[i].part for i in np.flatnonzero(inspection.facts.live[row]).tolist()}
    live |= {split_lug(lug)[0] for lug in inspection.output_lugs}
    joined = inspection.tracing.joined(end, setting)
    there = sorted(lug for lug in joined if split_lug(lug)[0] in live)
    return inspection.tracing.way_to_any(end, there, setting)


def _wiring_of(inspection: Inspection, coil: Coil) -> tuple[str, ...]:
    """Return the wires at a coil's ends and where they lead."""
    ends = [end for end in (coil.finish, coil.start) if end in inspection.wires_at]
    return once(*(inspection.tracing.far_ends(end) for end in ends))[:MOST_PLACES]


def short_trouble(
    inspection: Inspection, start: str, end: str, setting: Mapping[str, str]
) -> Trouble:
    """Return by what way two points are joined that should not be."""
    if start not in inspection.wires_at or end not in inspection.wires_at:
        return Trouble()
    way = inspection.tracing.way(start, end, setting)
    parts = dict.fromkeys(split_lug(place)[0] for place in way[1:-1] if "." in place)
    ends = {split_lug(start)[0], split_lug(end)[0]}
    names = [inspection.part(part).name for part in parts if part not in ends]
    clauses = (f"the way leads over {listed(names)}",) if names else ()
    wires = tuple(place for place in way if "." not in place)
    return Trouble(clauses, way if len(way) <= 2 * MOST_PLACES else wires)


def line_trouble(inspection: Inspection, rows: Mask) -> Trouble:
    """Return where the way from the tip ends in silent settings, and those from the coils."""
    row = int(np.flatnonzero(rows)[0])
    setting = inspection.table.setting(row)
    lugs = inspection.output_lugs
    bare = [lug for lug in lugs if lug not in inspection.tracing.wired]
    tip, sleeve = lugs
    dead = inspection.tracing.dead_ends(tip, setting)
    behind = inspection.tracing.open_contacts(sleeve, setting)
    clauses = [f"{lug_name(inspection.circuit, lug)} has no wire" for lug in bare]
    if dead and tip not in bare:
        where = listed(lug_name(inspection.circuit, lug) for lug in dead)
        clauses.append(f"the way from the tip ends at {where}")
    if behind:
        where = listed(lug_name(inspection.circuit, lug) for lug in behind)
        clauses.append(f"the way from the sleeve ends at {where}")
    hung = inspection.coil_states[row] != CoilState.SHORTED
    coils = [coil_trouble(inspection, int(i), rows) for i in np.flatnonzero(hung)[:3]]
    ways = inspection.tracing.ways_to_ends(tip, setting)
    places = once(dead, behind, *(coil.places[:3] for coil in coils), ways)
    return Trouble(tuple(clauses), places[: MOST_PLACES + 4])
