"""A second solver, as plain as can be: Kirchhoff's laws over all lugs, by least squares.

Nothing is contracted, pruned or reduced: every wire, bond, closed contact and stop of a track is an
unknown current at zero volts, every floating part stays in. It shares no code with the analysis.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from wirer.circuit.elements import (
    Bond,
    Capacitor,
    Cell,
    Coil,
    Coupling,
    Inductor,
    Resistor,
    Track,
    circuit_elements,
)
from wirer.circuit.model import Circuit
from wirer.circuit.quantity import parse_quantity
from wirer.circuit.stance import Stance, joined_lugs
from wirer.circuit.taper import track_segments

Groups = Iterable[Sequence[str]]
UNIT_OHM = 1e5


def resting_groups(circuit: Circuit, positions: Mapping[str, str]) -> list[tuple[str, ...]]:
    """The lugs joined by the contacts of every switch where it rests."""
    groups: list[tuple[str, ...]] = []
    for part in circuit.switches:
        kind = circuit.kind_of(part)
        assert kind.actuator is not None
        groups.extend(joined_lugs(kind.actuator, kind, part, positions[part.id]))
    return groups


@dataclass
class _Equations:
    """Rows of a linear system over lugs and named currents, sleeve at 0 V."""

    ground: str
    names: dict[str, int] = field(default_factory=dict)
    entries: list[tuple[int, int, complex]] = field(default_factory=list)
    rows: int = 0

    def unknown(self, name: str) -> int:
        return self.names.setdefault(name, len(self.names))

    def admittance(self, a: str, b: str, siemens: complex) -> None:
        scaled = siemens * UNIT_OHM
        for lug, other in ((a, b), (b, a)):
            row = self.unknown(lug)
            self.entries += [(row, row, scaled), (row, self.unknown(other), -scaled)]

    def branch(self, name: str, a: str, b: str, ohm: complex) -> int:
        """Add a branch with its current as an unknown, and give its row: v(a) − v(b) − Z·i."""
        row, i, j = self.unknown(name), self.unknown(a), self.unknown(b)
        self.entries += [(i, row, 1), (j, row, -1), (row, i, 1), (row, j, -1)]
        self.entries.append((row, row, -ohm / UNIT_OHM))
        return row

    def solution(self, columns: Sequence[Mapping[int, complex]]) -> tuple[NDArray, NDArray]:
        """Unknowns for each right-hand side, and by how much its equations are not met."""
        size = len(self.names)
        matrix = np.zeros((size, size), np.complex128)
        for row, column, value in self.entries:
            matrix[row, column] += value
        at = self.names[self.ground]
        matrix[at, :] = 0
        matrix[at, at] = 1
        right = np.zeros((size, len(columns)), np.complex128)
        for number, column in enumerate(columns):
            for row, value in column.items():
                right[row, number] = value
        right[at, :] = 0
        found = np.linalg.lstsq(matrix, right, rcond=None)[0]
        return found, np.abs(matrix @ found - right).max(axis=0, initial=0.0)


def transfers(
    circuit: Circuit, stance: Stance, hertz: float, groups: Groups | None = None
) -> dict[str, complex]:
    """V(tip) per volt of EMF of every coil; `groups` stands for the contacts, else the stance."""
    jack, output = circuit.jacks[0], circuit.kind_of(circuit.jacks[0]).output
    assert output is not None
    tip, sleeve = f"{jack.id}.{output.tip}", f"{jack.id}.{output.sleeve}"
    s = 2j * math.pi * hertz
    equations = _Equations(sleeve)
    joints = _joints(circuit, stance, groups)
    rows = _elements(equations, circuit, stance, s)
    joints += [(e.plus, e.minus) for e in circuit_elements(circuit) if isinstance(e, Cell)]
    _stamp_joints(equations, joints)
    load = circuit.output_load
    input_ohm = parse_quantity(load.input, "resistance")
    farad = parse_quantity(load.cable, "capacitance")
    equations.admittance(tip, sleeve, 1 / input_ohm + s * farad)
    found, _ = equations.solution([{row: -1} for row in rows.values()])
    heights = found[equations.names[tip]]
    return dict(zip(rows, heights.tolist(), strict=True))


def resistance(circuit: Circuit, stance: Stance, groups: Groups | None = None) -> float | None:
    """What a meter reads between tip and sleeve, None where there is no path."""
    jack, output = circuit.jacks[0], circuit.kind_of(circuit.jacks[0]).output
    assert output is not None
    tip, sleeve = f"{jack.id}.{output.tip}", f"{jack.id}.{output.sleeve}"
    equations = _Equations(sleeve)
    equations.unknown(tip)
    _elements(equations, circuit, stance, 0)
    _stamp_joints(equations, _joints(circuit, stance, groups))
    if tip == sleeve:
        return 0.0
    equations.unknown(sleeve)
    found, missed = equations.solution([{equations.names[tip]: 1}])
    return None if missed[0] > 1e-6 else float(found[equations.names[tip], 0].real) * UNIT_OHM


def _joints(circuit: Circuit, stance: Stance, groups: Groups | None) -> list[tuple[str, str]]:
    joints = [wire.ends for wire in circuit.wires]
    joints += [(w.screen_from, w.screen_to) for w in circuit.wires if w.screen_from and w.screen_to]
    bonds = [e.lugs for e in circuit_elements(circuit) if isinstance(e, Bond)]
    contacts = resting_groups(circuit, stance.positions) if groups is None else list(groups)
    for group in (*bonds, *contacts):
        first, *others = group
        joints += [(first, lug) for lug in others]
    return [pair for pair in joints if pair[0] != pair[1]]


def _stamp_joints(equations: _Equations, joints: Iterable[tuple[str, str]]) -> None:
    for number, (a, b) in enumerate(joints):
        equations.branch(f"joint {number}", a, b, 0)


def _elements(
    equations: _Equations, circuit: Circuit, stance: Stance, s: complex
) -> dict[str, int]:
    """Write down every element at a complex frequency (0 for a meter); give the coils' rows."""
    rows: dict[str, int] = {}
    henries: dict[str, float] = {}
    for number, element in enumerate(circuit_elements(circuit)):
        name = f"element {number}"
        match element:
            case Coil():
                henries[element.name] = element.inductance_henry
                ohm = element.resistance_ohm + s * element.inductance_henry
                ends = element.start, element.finish
                rows[element.name] = equations.branch(name, *ends, ohm)
                loss = 1 / element.loss_ohm if element.loss_ohm and s else 0
                equations.admittance(*ends, loss + s * element.capacitance_farad)
            case Resistor(_, _, a, b, ohm, eddy):
                if s or not eddy:
                    equations.branch(name, a, b, ohm)
            case Inductor(_, _, a, b, henry, ohm):
                equations.branch(name, a, b, ohm + s * henry)
            case Capacitor(_, _, a, b, farad):
                equations.admittance(a, b, s * farad)
            case Track():
                for part, (a, b, ohm) in enumerate(_track(element, stance)):
                    equations.branch(f"{name} {part}", a, b, ohm)
            case Coupling(a, b):
                mutual = s * math.sqrt(henries[a] * henries[b]) / UNIT_OHM
                equations.entries += [(rows[a], rows[b], -mutual), (rows[b], rows[a], -mutual)]
    return rows


def _track(track: Track, stance: Stance) -> Iterator[tuple[str, str, float]]:
    below, above = track_segments(track, stance.rotations[f"{track.part}.{track.shaft}"])
    if math.isfinite(below):
        yield track.ccw, track.wiper, below
    if math.isfinite(above):
        yield track.wiper, track.cw, above
