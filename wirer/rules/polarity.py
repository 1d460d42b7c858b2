"""Rules of polarity and hum: coils that oppose each other, coils that hang."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial
from itertools import combinations, pairwise

import networkx as nx
import numpy as np

from wirer.analysis.facts import Mask
from wirer.analysis.switches import position_groups
from wirer.analysis.unused import CoilState
from wirer.circuit.edits import swap_lugs
from wirer.circuit.elements import Coil
from wirer.circuit.values import timing_of
from wirer.rules.finding import Fix, Remark
from wirer.rules.inspection import Inspection
from wirer.rules.names import coil_name, listed
from wirer.rules.registry import rule
from wirer.rules.tracing import once
from wirer.rules.troubles import Trouble, called, coil_trouble
from wirer.rules.wanted import rows_as_wanted


@rule(
    "reversed-coil",
    "warning",
    wrong="A coil is out of phase with every other that it sounds with, and no switch changes it.",
    heard="Thin, hollow and quiet wherever it sounds with another; alone it is as it should be.",
    meter="The reading is right; with steel brought to the poles the needle swings the other way.",
    mend="Exchange the leads of that coil (of a pickup with a braided lead: of the other one).",
)
def reversed_coil(inspection: Inspection) -> Iterator[Remark]:
    """Find coils that always oppose those they sound with."""
    coils = inspection.harness.coils
    for group, others in _opposed(inspection):
        even = len({coils[i].part for i in group}) == len({coils[i].part for i in others})
        named = [*group, *others] if even else group
        what, many = called(inspection, group)
        whom = called(inspection, others)[0] if even else "every other coil"
        verb = "are" if many else "is"
        text = f"{what} {verb} out of phase with {whom}, whatever the switches do."
        places = once(*(_ends(coils[i]) for i in named))
        fixes = (
            _swap(inspection, [coils[i] for i in side]) for side in (group, others[: 2 * even])
        )
        yield Remark(text, places, fix=next((fix for fix in fixes if fix), None))


def _ends(coil: Coil) -> tuple[str, ...]:
    return coil.part, coil.start, coil.finish


def _swap(inspection: Inspection, coils: list[Coil]) -> Fix | None:
    """Exchange the two leads where that does not put metal on the signal."""
    if len(coils) != 1:
        return None
    coil = coils[0]
    lugs = inspection.circuit.lugs
    if coil.start not in lugs or coil.finish not in lugs:
        return None
    if inspection.lug(coil.start).metal or inspection.lug(coil.finish).metal:
        return None
    return Fix("exchange its leads", partial(swap_lugs, first=coil.start, second=coil.finish))


def _opposed(inspection: Inspection) -> Iterator[tuple[list[int], list[int]]]:
    """Yield the smaller and the larger side of each set of coils of which some oppose the rest."""
    graph = nx.Graph()
    for (i, j), relation in _relations(inspection).items():
        graph.add_edge(i, j, opposed=relation < 0)
    for component in nx.connected_components(graph):
        sides = _two_sides(graph.subgraph(component))
        if sides and sides[1]:
            yield sorted(sides[1]), sorted(sides[0])


def _relations(inspection: Inspection) -> dict[tuple[int, int], int]:
    """Return +1 for coils that always agree where they sound together, −1 if they never do."""
    weights = _weights(inspection)
    heard = inspection.sounding & ~rows_as_wanted(inspection)[:, np.newaxis]
    relations = {}
    for i, j in combinations(range(weights.shape[1]), 2):
        together = heard[:, i] & heard[:, j]
        signs = np.unique(np.sign(weights[together, i] * weights[together, j]))
        if len(signs) == 1:
            relations[i, j] = int(signs[0])
        elif len(signs) > 1:
            relations[i, j] = 0
    return relations


def _two_sides(graph: nx.Graph) -> tuple[set[int], set[int]] | None:
    """Split coils into two sides, opposed coils apart and agreeing ones together, if it can be."""
    agreeing = nx.Graph((i, j) for i, j, d in graph.edges(data=True) if not d["opposed"])
    agreeing.add_nodes_from(graph)
    sides: dict[int, int] = {}
    first = min(graph)
    queue = [(first, 0)]
    while queue:
        coil, side = queue.pop()
        if sides.setdefault(coil, side) != side:
            return None
        for other, data in graph[coil].items():
            if other not in sides:
                queue.append((other, side ^ int(data["opposed"])))
            elif sides[other] != side ^ int(data["opposed"]):
                return None
    groups = ({c for c, s in sides.items() if s == 0}, {c for c, s in sides.items() if s == 1})
    return max(groups, key=lambda g: (len(g), first in g)), min(
        groups, key=lambda g: (len(g), first in g)
    )


def _weights(inspection: Inspection) -> np.ndarray:
    weights = np.array([c.weights for c in inspection.table.combinations])
    return weights.reshape(len(weights), -1)[inspection.table.which]


@rule(
    "out-of-phase",
    "note",
    wrong="In some settings coils oppose each other.",
    heard="A thin, hollow, quieter sound; often wanted.",
    meter="The reading is the same as in phase.",
    mend="Nothing, if it is wanted.",
)
def out_of_phase(inspection: Inspection) -> Iterator[Remark]:
    """Find settings in which coils oppose, but for those that a reversed coil explains."""
    coils = inspection.harness.coils
    signs = np.sign(_weights(inspection)) * inspection.sounding
    for group, _ in _opposed(inspection):
        signs[:, group] *= -1
    rows = (signs > 0).any(axis=1) & (signs < 0).any(axis=1)
    if rows.any():
        heard = inspection.sounding[rows].any(axis=0)
        parts = dict.fromkeys(coils[i].part for i in np.flatnonzero(heard))
        yield Remark("Coils are out of phase.", tuple(parts), rows)


@rule(
    "hum-missed",
    "note",
    wrong="Two coils hum together that could cancel each other's hum.",
    heard="Hum in that setting, as loud as of one coil alone.",
    meter="Nothing: hum does not show in a reading.",
    mend="Have one of them wound the other way with its magnet turned over (reverse wound, reverse "
    "polarity), or choose the other coil of a split pair.",
)
def hum_missed(inspection: Inspection) -> Iterator[Remark]:
    """Find pairs that sound in phase and hum."""
    coils = inspection.harness.coils
    count = inspection.sounding.sum(axis=1)
    humming = inspection.over_rows(lambda c: c.hum is not None and c.hum > 0.5)
    weights = _weights(inspection)
    for i, j in combinations(range(len(coils)), 2):
        together = inspection.sounding[:, i] & inspection.sounding[:, j] & (count == 2)
        rows = together & humming & (weights[:, i] * weights[:, j] > 0)
        if rows.any():
            names = listed(coil_name(inspection.circuit, coils[k].name) for k in (i, j))
            yield Remark(f"{names} hum together.", (coils[i].part, coils[j].part), rows)


@rule(
    "hanging-coil",
    "warning",
    wrong="A coil that does not sound hangs from the signal by one end, its other end open.",
    heard="The setting sounds as it should and buzzes more: the coil is an aerial.",
    meter="The reading is right; from the coil's open end to the tip reads the coil's resistance.",
    mend="Switch the end that is on the signal, or short the coil when it is off.",
)
def hanging_coil(inspection: Inspection) -> Iterator[Remark]:
    """Find coils that hang from the signal while others sound."""
    coils = inspection.harness.coils
    coupled = {i for pair in inspection.harness.couplings for i in pair}
    branch_of = [i for i, b in enumerate(inspection.harness.branches) if b.coil]
    for index, coil in enumerate(coils):
        hung = inspection.coil_states[:, index] == CoilState.HUNG_FROM_SIGNAL
        rows: Mask = hung & ~inspection.silent
        if rows.any() and index not in inspection.lost_coils:
            trouble = coil_trouble(inspection, index, rows)
            name = coil_name(inspection.circuit, coil.name)
            text = trouble.told(f"{name} hangs from the signal by one end")
            milder = branch_of[index] in coupled or _unavoidable(inspection, trouble)
            places = once(_ends(coil), trouble.places)
            yield Remark(text, places, rows, "note" if milder else None)


def _unavoidable(inspection: Inspection, trouble: Trouble) -> bool:
    """Return whether shorting a coil that hangs would short the output as the switch is thrown.

    So it is where its open end is at a free throw of a switch that makes before it breaks and
    has ground at the next throw: the customary four-position lever has no better way.
    """
    for lug in trouble.places:
        part = lug.partition(".")[0]
        if lug not in inspection.wires_at or inspection.wires_at[lug]:
            continue
        if inspection.kind(part).actuator is None:
            continue
        if timing_of(inspection.part(part), inspection.kind(part)) == "make":
            return any(_grounded_beside(inspection, part, lug))
    return False


def _grounded_beside(inspection: Inspection, part: str, lug: str) -> Iterator[bool]:
    """Yield for the positions beside those that join a lug whether they ground its common."""
    groups = list(position_groups(inspection.circuit, inspection.part(part)).values())
    for first, second in (*pairwise(groups), *pairwise(groups[::-1])):
        for group in first:
            common = group - {lug}
            for other in second if lug in group else ():
                nets = {inspection.net(each) for each in other - common}
                yield bool(other & common) and inspection.harness.ground in nets
