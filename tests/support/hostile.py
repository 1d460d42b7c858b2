"""Texts that break what is careless with them, and a circuit that has them everywhere."""

from msgspec.structs import replace

from tests.support.wiring import Wiring
from wirer.circuit.model import Circuit, Waiver, Wanted

TEXTS = {
    "markup": '<script>alert("x & y")</script> $x_1$ %d {0} \\n',
    "long": "Wolframgewindeschneidmaschine" * 7,
    "long words": "neck and a little more of it " * 7,
    "emoji": "🎸 neck 👩‍🔧 of 🏳️‍🌈",
    "right to left": "שלום עולם, مرحبا بالعالم",
    "controls": "a\x00b\x07c\nd\te\x1bf\x7fg",
    "turned": "safe\u202egnp.exe\u202c end",
    "wide": "日本語の長いラベル" * 10,
    "combining": "e\u0301" * 60 + "\u0336" * 40,
    "blank": "   ",
}


def hostile_circuit(text: str) -> Circuit:
    """A small guitar that has a text wherever a builder can write one."""
    bench = Wiring().part("N", "coil-2wire").part("B", "humbucker-4wire").part("S", "lever-2p3t")
    bench.part("V", "pot").part("C", "capacitor").part("J", "jack-ts").part("E", "string-ground")
    bench.join("N.finish S.A1").join("N.start J.sleeve").join("B.As S.A3").join("B.Af B.Bf")
    bench.join("B.Bs J.sleeve V.can").join("S.A0 V.3").join("V.2 J.tip C.1").join("V.1 V.can E.1")
    circuit = bench.circuit(
        title=text,
        job=f"{text}\n{text}",
        notes=text,
        wanted=(Wanted({"S": "1"}, "N"), Wanted({"S": "2"}, text)),
        waived=(Waiver("ungrounded-metal", (), text or "x"), Waiver("crowded-lug", (), text)),
    )
    parts = tuple(
        replace(
            part,
            label=text,
            at=(60.0 * (number % 3), 50.0 * (number // 3)),
            lug_labels={lug.name: text for lug in circuit.kind_of(part).lugs[:1]},
            position_labels={"1": text, "2": text} if part.id == "S" else {},
        )
        for number, part in enumerate(circuit.parts)
    )
    return replace(circuit, parts=parts)
