"""Circuits that the layout is tried on."""

from __future__ import annotations

from wirer.circuit.model import Circuit, Part, Wire


class Bench:
    """Collects parts and wires of a circuit."""

    def __init__(self, title: str = "") -> None:
        self.title = title
        self.parts: list[Part] = []
        self.wires: list[Wire] = []

    def part(self, part_id: str, kind: str, x: float, y: float, **more: object) -> None:
        self.parts.append(Part(id=part_id, kind=kind, at=(x, y), **more))  # type: ignore[arg-type]

    def wire(self, from_lug: str, to_lug: str, colour: str = "", **more: object) -> None:
        name = f"w{len(self.wires) + 1}"
        self.wires.append(
            Wire(id=name, from_lug=from_lug, to_lug=to_lug, colour=colour, **more)  # type: ignore[arg-type]
        )

    def circuit(self) -> Circuit:
        return Circuit(title=self.title, parts=tuple(self.parts), wires=tuple(self.wires))


def three_coils_six_slides() -> Circuit:
    """Each of three coils with a phase and an on/off slide, all in series; volume, treble cut.

    Common practice: the phase slide crosses its ends, the on/off slide takes its outputs on the
    upper throws, the chain on the commons, and bridges the lower throws.
    """
    bench = Bench("Baritone, three coils in series")
    for number, (name, label) in enumerate((("N", "Neck"), ("M", "Middle"), ("B", "Bridge"))):
        x = 45.0 + 85.0 * number
        bench.part(name, "coil-2wire-cover", x, 15.0, label=label)
        bench.part(f"S{name}", "slide-2p2t", x - 18.0, 62.0, label=f"{label} on/off")
        bench.part(f"P{name}", "slide-2p2t", x + 18.0, 62.0, label=f"{label} phase")
    bench.part("V", "pot", 60.0, 112.0, label="Volume")
    bench.part("T", "pot", 120.0, 112.0, label="Treble cut")
    bench.part("C", "capacitor", 150.0, 135.0, turn=0, label="Treble cap")
    bench.part("J", "jack-ts", 200.0, 112.0, label="Output")
    bench.part("G", "string-ground", 60.0, 165.0, label="Strings")
    for name in "NMB":
        bench.wire(f"{name}.finish", f"P{name}.A0", "WH")
        bench.wire(f"{name}.start", f"P{name}.B0", "BK")
        bench.wire(f"P{name}.A1", f"P{name}.B2", "YE")
        bench.wire(f"P{name}.B1", f"P{name}.A2", "GN")
        bench.wire(f"P{name}.A1", f"S{name}.A1", "RD")
        bench.wire(f"P{name}.B1", f"S{name}.B1", "BU")
        bench.wire(f"S{name}.A2", f"S{name}.B2", "", style="bare")
        bench.wire(f"{name}.cover", "V.can", "GN", gauge="24 AWG")
    bench.wire("SN.A0", "V.3", "RD")
    bench.wire("SN.B0", "SM.A0", "OG")
    bench.wire("SM.B0", "SB.A0", "OG")
    bench.wire("SB.B0", "T.can", "BK")
    bench.wire("V.3", "T.2", "RD")
    bench.wire("T.1", "C.1", "YE")
    bench.wire("C.2", "T.can", "BK")
    bench.wire("V.1", "V.can", "BK")
    bench.wire("V.can", "T.can", "BK")
    bench.wire("V.2", "J.tip", "WH", style="screened")
    bench.wire("T.can", "J.sleeve", "BK")
    bench.wire("G.1", "V.can", "BK")
    return bench.circuit()
