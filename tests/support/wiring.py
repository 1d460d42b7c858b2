"""A short way to write circuits down in a test: parts, and strings of lugs joined by wires."""

from collections.abc import Mapping
from itertools import pairwise
from typing import Any, Self

from wirer.analysis.combinations import Row, combination_table
from wirer.circuit.check import circuit_problems
from wirer.circuit.model import Circuit, OutputLoad, Part, Wire
from wirer.circuit.stance import Stance, default_stance, turned

BARE_JACK = OutputLoad(cable="0", input="1000000G")
"""No cable, and an input that loads nothing: 1e15 Ω, the most that a document may say."""


class Wiring:
    """Collects parts and wires; `circuit` gives what they make."""

    def __init__(self, load: OutputLoad = BARE_JACK) -> None:
        self.parts: list[Part] = []
        self.wires: list[Wire] = []
        self.load = load

    def part(
        self, part_id: str, kind: str, values: Mapping[str, Any] | None = None, **more: Any
    ) -> Self:
        """Add a part; its values are given as a mapping or, where their names allow, by keyword."""
        self.parts.append(Part(id=part_id, kind=kind, values={**(values or {}), **more}))
        return self

    def join(self, *lugs: str) -> Self:
        """Wire lugs together one after the other; several strings may hold several lugs each."""
        names = " ".join(lugs).split()
        for a, b in pairwise(names):
            self.wires.append(Wire(id=f"w{len(self.wires) + 1}", from_lug=a, to_lug=b))
        return self

    def circuit(self, **fields: Any) -> Circuit:
        """Return the circuit, which must be one."""
        made = Circuit(
            parts=tuple(self.parts), wires=tuple(self.wires), output_load=self.load, **fields
        )
        problems = circuit_problems(made)
        assert not problems, problems[0]
        return made


def stance_of(
    circuit: Circuit,
    positions: Mapping[str, str] | None = None,
    rotations: Mapping[str, float] | None = None,
) -> Stance:
    """Return the default stance with some switches thrown and shafts (`PART`) turned."""
    usual = default_stance(circuit)
    stance = Stance({**usual.positions, **(positions or {})}, usual.rotations)
    for shaft, rotation in (rotations or {}).items():
        stance = turned(circuit, stance, shaft, rotation)
    return stance


def row_of(
    circuit: Circuit,
    positions: Mapping[str, str] | None = None,
    rotations: Mapping[str, float] | None = None,
) -> Row:
    """Return the row of the combination table for one setting (else the first positions)."""
    stance = stance_of(circuit, positions, rotations)
    table = combination_table(circuit, stance)
    return table[table.index_of(stance.positions)]


def resistance_at(
    circuit: Circuit, rotations: Mapping[str, float] | None = None, **positions: str
) -> float | None:
    """Return what a meter reads at the jack in one setting."""
    return row_of(circuit, positions, rotations).combination.resistance
