"""Circuits that the layout is tried on."""

from __future__ import annotations

import random

from wirer.circuit.catalogue import catalogue
from wirer.circuit.colour import NAMES
from wirer.circuit.model import Circuit, Part, Wire
from wirer.layout.placement import place


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


def two_humbuckers_one_lever() -> Circuit:
    """Two four-wire humbuckers on a four-pole five-position lever: a crowded switch.

    Common practice: pole A takes hot, B the junctions, C and D the coils to be dropped.
    """
    bench = Bench("Four poles, five positions")
    bench.part("N", "humbucker-4wire", 45.0, 20.0, label="Neck")
    bench.part("B", "humbucker-4wire", 135.0, 20.0, label="Bridge")
    bench.part("S", "lever-4p5t", 88.0, 85.0, label="Selector")
    bench.part("V", "pot-switch", 30.0, 90.0, label="Volume")
    bench.part("T", "pot", 145.0, 90.0, label="Tone")
    bench.part("C", "capacitor", 145.0, 125.0, turn=180, label="Tone cap")
    bench.part("J", "jack-ts", 30.0, 140.0, label="Output")
    for lug, colour in (("As", "RD"), ("Af", "WH"), ("Bs", "BK"), ("Bf", "GN")):
        pole = {"As": "A", "Af": "B", "Bs": "D", "Bf": "C"}[lug]
        bench.wire(f"N.{lug}", f"S.{pole}1", colour)
        bench.wire(f"B.{lug}", f"S.{pole}5", colour)
    bench.wire("N.bare", "V.can", "", style="bare")
    bench.wire("B.bare", "T.can", "", style="bare")
    for pole, first, second, colour in (
        ("A", 1, 2, "RD"), ("A", 4, 5, "RD"), ("B", 1, 2, "WH"), ("C", 2, 3, "GN"),
        ("D", 3, 5, "BK"), ("B", 3, 5, "WH"),
    ):  # fmt: skip
        bench.wire(f"S.{pole}{first}", f"S.{pole}{second}", colour)
    bench.wire("S.B0", "S.C0", "YE")
    bench.wire("S.A0", "V.3", "RD")
    bench.wire("S.D0", "V.can", "BK")
    bench.wire("S.C4", "V.A0", "VT")
    bench.wire("V.A1", "V.can", "BK")
    bench.wire("S.A3", "T.2", "OG")
    bench.wire("T.1", "C.1", "YE")
    bench.wire("C.2", "T.can", "BK")
    bench.wire("V.1", "V.can", "BK")
    bench.wire("V.can", "T.can", "BK")
    bench.wire("V.2", "J.tip", "WH", style="screened", screen_from="V.can", screen_to="J.sleeve")
    return bench.circuit()


def rotary_selector() -> Circuit:
    """A humbucker on a two-pole six-way rotary, its throws jumpered round the rim."""
    bench = Bench("Rotary")
    bench.part("H", "humbucker-4wire", 50.0, 20.0, label="Humbucker")
    bench.part("R", "rotary-2p6t", 50.0, 80.0, label="Selector")
    bench.part("V", "pot", 110.0, 80.0, label="Volume", turn=90)
    bench.part("J", "jack-ts", 110.0, 130.0, label="Output", turn=180)
    bench.part("G", "bus", 50.0, 120.0, label="Ground bus")
    for index, lug in enumerate(("As", "Af", "Bs", "Bf")):
        bench.wire(f"H.{lug}", f"R.A{index + 1}", ("RD", "WH", "BK", "GN")[index])
    bench.wire("R.A5", "R.A6", "BK")
    bench.wire("R.B1", "R.B2", "BK")
    bench.wire("R.B2", "R.B3", "BK")
    bench.wire("R.B4", "R.B6", "YE")
    bench.wire("R.A1", "R.B5", "RD")
    bench.wire("R.A0", "V.3", "RD")
    bench.wire("R.B0", "G.3", "BK")
    bench.wire("R.B1", "G.1", "BK")
    bench.wire("H.bare", "G.8", "", style="bare")
    bench.wire("V.1", "G.7", "BK")
    bench.wire("V.can", "G.6", "BK")
    bench.wire("V.2", "J.tip", "WH")
    bench.wire("J.sleeve", "G.5", "BK")
    return bench.circuit()


SIZES = {"small": (8, 12), "middle": (20, 50), "large": (60, 200)}


def random_circuit(seed: int, parts: int, wires: int, spread: float = 1.25) -> Circuit:
    """Parts of all kinds in rows that leave room between them, joined at random."""
    dice = random.Random(seed)
    bench = Bench(f"Random {seed}")
    kinds = [kind for kind in catalogue() if max(kind.body.size) < 60]
    x = y = row = 0.0
    width = 30.0 * parts**0.5 * spread
    lugs: list[str] = []
    for index in range(parts):
        kind = dice.choice(kinds)
        turn = dice.choice((0, 90, 180, 270))
        box = place(kind, Part(id="P", kind=kind.id, turn=turn)).extent
        gap = dice.uniform(8.0, 14.0) * spread
        if x > width:
            x, y, row = 0.0, y + row + gap, 0.0
        at = (round(x - box.left, 1), round(y - box.top + dice.uniform(0, 6), 1))
        bench.part(f"P{index}", kind.id, *at, turn=turn, flip=dice.random() < 0.3)
        lugs += [f"P{index}.{lug.name}" for lug in kind.lugs]
        x, row = x + box.width + gap, max(row, box.height + 6.0)
    spare = dict.fromkeys(lugs, 2)
    for _ in range(20 * wires):
        if len(bench.wires) == wires:
            break
        index = dice.randrange(len(lugs))
        one, near = lugs[index], lugs[max(0, index - 20) : index + 20]
        other = dice.choice(near if dice.random() < 0.7 else lugs)
        if one == other or not spare[one] or not spare[other]:
            continue
        spare[one] -= 1
        spare[other] -= 1
        bench.wire(one, other, dice.choice(sorted(NAMES)))
    return bench.circuit()
