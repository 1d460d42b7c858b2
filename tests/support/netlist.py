"""Textbook networks as circuits of kinds: nodes are posts, sources are coils without resistance.

A network is written as `V1 T 0 24; R1 T A 150; C1 A 0 10u`: the first letter says what it is, two
nodes follow (of a source the positive one first), then the value. Its answers are written as the
textbook prints them, which gives the tolerance: half a unit of the last printed digit.
"""

from __future__ import annotations

import cmath
import math
import re
from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal

from tests.support.wiring import Wiring
from wirer.analysis.analyst import Analyst
from wirer.circuit.model import Circuit
from wirer.circuit.stance import default_rotations

KINDS = {
    "R": ("resistor", "resistance"),
    "C": ("capacitor", "capacitance"),
    "L": ("inductor", "inductance"),
}
PREFIX = {"p": -12, "n": -9, "u": -6, "m": -3, "": 0, "k": 3, "M": 6}
_NUMBER = re.compile(r"(-?[0-9.]+(?:e-?[0-9]+)?)([pnumkM]?)")


def read(text: str) -> float:
    """A number with an SI prefix."""
    found = _NUMBER.fullmatch(text)
    assert found, text
    return float(Decimal(found[1]).scaleb(PREFIX[found[2]]))


@dataclass(frozen=True)
class Printed:
    """A printed magnitude, `5.30m`, or magnitude and degrees, `1543.7@-80.680`."""

    text: str

    def agrees(self, value: complex) -> bool:
        size, _, angle = self.text.partition("@")
        if not angle:
            plain = value.real if abs(value.imag) < 1e-9 * abs(value) else abs(value)
            return abs(plain - read(size)) <= self._half(size)
        turn = (math.degrees(cmath.phase(value)) - float(angle) + 180) % 360 - 180
        return abs(abs(value) - read(size)) <= self._half(size) and abs(turn) <= self._half(angle)

    @staticmethod
    def _half(text: str) -> float:
        found = _NUMBER.fullmatch(text)
        assert found, text
        exponent = Decimal(found[1]).as_tuple().exponent
        assert isinstance(exponent, int)
        return 0.5000001 * float(Decimal(1).scaleb(exponent + PREFIX[found[2]]))


@dataclass(frozen=True)
class Element:
    name: str
    a: str
    b: str
    value: float

    def impedance(self, hertz: float) -> complex:
        s = 2j * math.pi * hertz
        return {"R": self.value, "L": s * self.value, "C": 1 / (s * self.value or 1)}[self.name[0]]


class Network:
    """A network, asked for voltages and currents at one frequency."""

    def __init__(self, text: str, hertz: float = 100.0) -> None:
        rows = [row.split() for row in text.split(";")]
        self.elements = {n: Element(n, a, b, read(value)) for n, a, b, value in rows}
        self.hertz = hertz

    def circuit(self, tip: str, sleeve: str, extra: Mapping[str, Element] | None = None) -> Circuit:
        """The network with the jack between two of its nodes, sources left out if `extra`."""
        elements = self.elements if extra is None else {**self._passive, **extra}
        bench = Wiring()
        for node in dict.fromkeys(node for e in elements.values() for node in (e.a, e.b)):
            bench.part(f"n{node}", "terminal")
        for name, element in elements.items():
            self._add(bench, name, element)
        bench.part("J", "jack-ts").join("J.tip", f"n{tip}.1").join("J.sleeve", f"n{sleeve}.1")
        return bench.circuit()

    @property
    def _passive(self) -> dict[str, Element]:
        return {name: e for name, e in self.elements.items() if name[0] != "V"}

    @staticmethod
    def _add(bench: Wiring, name: str, element: Element) -> None:
        if name[0] == "V":
            values = {"resistance": "0", "inductance": "0", "capacitance": "0"}
            if name == "Vsense":
                values["resistance"] = "1"
            bench.part(name, "coil-2wire", values, level=f"{abs(element.value)}")
            ends = (f"{name}.finish", f"{name}.start")
            first, second = ends if element.value >= 0 else ends[::-1]
        else:
            kind, quantity = KINDS[name[0]]
            bench.part(name, kind, {quantity: f"{element.value}"})
            first, second = f"{name}.1", f"{name}.2"
        bench.join(first, f"n{element.a}.1").join(second, f"n{element.b}.1")

    def volts(self, a: str, b: str) -> complex:
        """The voltage of node `a` over node `b`."""
        return 0j if a == b else _output(self.circuit(a, b), self.hertz)

    def drop(self, name: str) -> complex:
        element = self.elements[name]
        return self.volts(element.a, element.b)

    def amperes(self, name: str) -> complex:
        """The current through an element from its first node, or out of a source."""
        if name[0] != "V":
            return self.drop(name) / self.elements[name].impedance(self.hertz)
        source = self.elements[name]
        leaving = [e for n, e in self.elements.items() if n != name and source.a in (e.a, e.b)]
        return sum(self.amperes(e.name) * (1 if e.a == source.a else -1) for e in leaving)

    def watts(self, name: str) -> complex:
        return abs(self.amperes(name)) ** 2 * self.elements[name].impedance(self.hertz).real

    def impedance(self, a: str = "T", b: str = "0") -> complex:
        """What the network is between two nodes, its sources taken out."""
        sense = {"Vsense": Element("Vsense", a, b, 1.0)}
        gain = _output(self.circuit(a, b, sense), self.hertz)
        return gain / (1 - gain)

    def reading(self, a: str = "T", b: str = "0") -> float | None:
        """What a meter reads between two nodes, the network's sources taken out."""
        circuit = self.circuit(a, b, {})
        analyst = Analyst(circuit, default_rotations(circuit))
        return analyst.combinations[analyst.survey([])[0]].resistance

    def answer(self, question: str) -> complex:
        """`V R1`, `I R1`, `P R1`, `V A 0` (between nodes), `Z` or `Req`."""
        what, *names = question.split()
        match what, names:
            case "Z", []:
                return self.impedance()
            case "Req", []:
                ohm = self.reading()
                assert ohm is not None
                return complex(ohm)
            case "V", [a, b]:
                return self.volts(a, b)
            case "V", [name]:
                return self.drop(name)
            case "I", [name]:
                return self.amperes(name)
            case "P", [name]:
                return self.watts(name)
        raise ValueError(question)


def _output(circuit: Circuit, hertz: float) -> complex:
    analyst = Analyst(circuit, default_rotations(circuit))
    combination = analyst.combinations[analyst.survey([])[0]]
    if combination.voice is None:
        return 0j
    transfers = combination.voice.curve.transfers([hertz])[0]
    total = 0j
    for branch, transfer in zip(combination.voice.coils, transfers.tolist(), strict=True):
        coil = analyst.signal.branches[branch].coil
        assert coil
        total += transfer * coil.level_volt * (-1 if branch in combination.reversed else 1)
    return total


def check_answers(text: str, answers: str, hertz: float = 100.0) -> None:
    """Compare with printed answers, `Req 18k; I R1 500u; V R1 1.5`."""
    network = Network(text, hertz)
    wrong = {}
    for row in answers.split(";"):
        question, expected = row.strip().rsplit(maxsplit=1)
        found = network.answer(question)
        if not Printed(expected).agrees(found):
            wrong[question] = (expected, found)
    assert not wrong
