"""A loom to make slips on: two single coils, leaf selector, volume, tone, jack and strings."""

from __future__ import annotations

from itertools import pairwise
from typing import Any

from msgspec.structs import replace

from wirer.circuit.edits import change_circuit
from wirer.circuit.model import Circuit, Part, Waiver, Wanted, Wire
from wirer.rules.check import findings_of
from wirer.rules.finding import Finding

SPREAD_MM = 90.0
ROW = 5


class Loom:
    """Parts and wires to add to, take from, and make a circuit of."""

    def __init__(self) -> None:
        self.parts: dict[str, Part] = {}
        self.wires: dict[str, Wire] = {}
        self.rest: dict[str, Any] = {}
        self.soldered = 0

    def part(self, part_id: str, kind: str, **fields: Any) -> Loom:
        """Add a part, well apart from the others."""
        row, column = divmod(len(self.parts), ROW)
        place = (SPREAD_MM * column, SPREAD_MM * row)
        self.parts[part_id] = Part(**{"id": part_id, "kind": kind, "at": place, **fields})
        return self

    def wire(self, start: str, end: str, wire_id: str = "", **fields: Any) -> Loom:
        """Add a wire."""
        self.soldered += 1
        name = wire_id or f"w{self.soldered}"
        self.wires[name] = Wire(id=name, from_lug=start, to_lug=end, **fields)
        return self

    def chain(self, *lugs: str, **fields: Any) -> Loom:
        """Add a wire from each lug to the next."""
        for start, end in pairwise(lugs):
            self.wire(start, end, **fields)
        return self

    def cut(self, start: str, end: str) -> Loom:
        """Take the wire between two lugs away."""
        names = [n for n, w in self.wires.items() if set(w.ends) == {start, end}]
        assert len(names) == 1, f"no single wire from {start} to {end}"
        del self.wires[names[0]]
        return self

    def values(self, part_id: str, **values: Any) -> Loom:
        """Set values of a part."""
        return self._changed(part_id, values={**self.parts[part_id].values, **values})

    def relabelled(self, part_id: str, label: str) -> Loom:
        """Set the label of a part."""
        return self._changed(part_id, label=label)

    def positions(self, part_id: str, **labels: str) -> Loom:
        """Set the builder's names of a switch's positions."""
        return self._changed(part_id, position_labels=labels)

    def of_kind(self, part_id: str, kind: str) -> Loom:
        """Take another kind for a part."""
        return self._changed(part_id, kind=kind)

    def moved(self, part_id: str, x: float, y: float) -> Loom:
        """Lay a part elsewhere."""
        return self._changed(part_id, at=(x, y))

    def _changed(self, part_id: str, **fields: Any) -> Loom:
        self.parts[part_id] = replace(self.parts[part_id], **fields)
        return self

    def wanted(self, sound: str, **setting: str) -> Loom:
        """Want a sound of a setting."""
        self.rest.setdefault("wanted", []).append(Wanted(setting=setting, sound=sound))
        return self

    def waived(self, rule: str, *places: str, reason: str = "so agreed") -> Loom:
        """Waive a finding."""
        self.rest.setdefault("waived", []).append(Waiver(rule, places, reason))
        return self

    def circuit(self) -> Circuit:
        """Return the circuit."""
        rest = {name: tuple(value) for name, value in self.rest.items()}
        plain = Circuit(parts=tuple(self.parts.values()), wires=tuple(self.wires.values()))
        return change_circuit(plain, **rest)

    def findings(self, rule: str) -> list[Finding]:
        """Return what a rule finds."""
        return [f for f in findings_of(self.circuit()) if f.rule == rule]

    def grave(self) -> list[str]:
        """Return the rules that speak as error or warning."""
        return [f.rule for f in findings_of(self.circuit()) if f.severity != "note"]


def coil(loom: Loom, part_id: str, label: str, **values: str) -> Loom:
    """Add a single coil with plain values."""
    plain = {"resistance": "6k5", "inductance": "2.5", "capacitance": "110p"}
    return loom.part(part_id, "coil-2wire", label=label, values={**plain, **values})


def controls(loom: Loom) -> Loom:
    """Add volume, tone and capacitor, jack, strings and a ground bus, wired to `V.3`."""
    loom.part("V", "pot", label="Volume", values={"resistance": "250k", "taper": "audio"})
    loom.part("T", "pot", label="Tone", values={"resistance": "250k", "taper": "audio"})
    loom.part("C", "capacitor", label="Tone capacitor", values={"capacitance": "22n"})
    loom.part("J", "jack-ts", label="Output").part("E", "string-ground", label="Strings")
    loom.part("G", "bus", label="Ground bus")
    loom.wire("V.2", "J.tip", colour="RD").wire("V.3", "T.2", colour="YE")
    loom.wire("T.1", "C.1").wire("C.2", "G.1", colour="BK").wire("V.1", "G.2", colour="BK")
    loom.wire("V.can", "G.3", colour="BK").wire("T.can", "G.4", colour="BK")
    return loom.wire("J.sleeve", "G.5", colour="BK").wire("E.1", "G.6", colour="BK")


def one_coil() -> Loom:
    """A coil straight to the controls."""
    loom = controls(coil(Loom(), "N", "Neck"))
    return loom.wire("N.finish", "V.3").wire("N.start", "G.7", colour="BK")


def two_coils() -> Loom:
    """Two coils, of which the second cancels the first's hum, on a leaf selector."""
    loom = coil(coil(Loom(), "N", "Neck"), "B", "Bridge", winding="ccw", pole="south")
    controls(loom.part("S", "selector-3", label="Selector"))
    loom.wire("N.finish", "S.A0").wire("B.finish", "S.B0").wire("S.A1", "S.B1")
    loom.wire("S.B1", "V.3").wire("S.frame", "V.can", colour="BK")
    return loom.wire("N.start", "G.7", colour="BK").wire("B.start", "G.8", colour="BK")


def humbucker() -> Loom:
    """One four-wire humbucker with a split switch."""
    values = {"resistance": "4k", "inductance": "2.2", "capacitance": "110p"}
    loom = controls(Loom().part("H", "humbucker-4wire", label="Bridge", values=values))
    loom.part("S", "toggle-1p2t", label="Split", values={"timing": "break"})
    loom.wire("H.As", "V.3").wire("H.Af", "H.Bf").wire("H.Bs", "G.7", colour="BK")
    loom.wire("H.bare", "G.8", colour="BK").wire("H.Bf", "S.A0")
    return loom.wire("S.A1", "G.7", colour="BK")
