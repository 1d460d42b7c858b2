"""Standard circuits of the trade, lug by lug, as drawings of the trade give them (common practice).

The trade numbers a two-pole switch 1 to 6 by columns; here 1 2 3 are A1 A0 A2 and 4 5 6 are
B1 B0 B2. A pot's 1 2 3 are its 0 end, wiper and 10 end. A coil's hot end is its finish, its cold
end its start; of a four-wire humbucker coil 1 runs from As (hot) to Af, coil 2 from Bf to Bs.
"""

from collections.abc import Sequence
from itertools import pairwise

from tests.support.wiring import Wiring
from wirer.circuit.model import Circuit

GND, HOT = "J.sleeve", "J.tip"
NUMBERED = {"1": "A1", "2": "A0", "3": "A2", "4": "B1", "5": "B0", "6": "B2"}
FOUR_WIRE = {"H1": "H.As", "C1": "H.Af", "H2": "H.Bf", "C2": "H.Bs"}
STATE = {"I": "down", "0": "middle", "II": "up"}
"""What a toggle's handle does: thrown up it joins the lower lugs, X0–X2."""


def wiring() -> Wiring:
    """A jack with nothing in it but a meter's plug."""
    return Wiring().part("J", "jack-ts")


def humbucker(bench: Wiring, coil_ohm: str = "4k") -> Wiring:
    """Two 4 kΩ coils with four leads, the shield on ground."""
    bench.part("H", "humbucker-4wire", resistance=coil_ohm)
    return bench.join("H.bare", GND)


def trade_join(bench: Wiring, *strings: str) -> Wiring:
    """Join lugs named as the trade does: `S.2 C1` is S.A0 H.Af, GND and HOT are the jack's."""
    names = {"GND": GND, "HOT": HOT, **FOUR_WIRE}
    names |= {f"S.{number}": f"S.{lug}" for number, lug in NUMBERED.items()}
    for string in strings:
        bench.join(*(names.get(lug, lug) for lug in string.split()))
    return bench


def series_parallel(kind: str = "toggle-2p2t") -> Circuit:
    """B8: one humbucker in series or parallel on a two-pole switch."""
    bench = humbucker(wiring()).part("S", kind)
    trade_join(bench, "S.2 C1", "S.5 H2", "S.3 S.6", "S.1 GND", "S.4 HOT", "H1 HOT", "C2 GND")
    return bench.circuit()


def split_on_one_pole(kind: str = "toggle-2p-on-off-on") -> Circuit:
    """B9: the link of both coils to ground (coil 1 stays), free, or to hot (coil 2 stays)."""
    bench = humbucker(wiring()).part("S", kind)
    trade_join(bench, "C1 H2 S.2", "S.1 GND", "S.3 HOT", "H1 HOT", "C2 GND")
    return bench.circuit()


def three_ways_on_on_on(kind: str = "toggle-2p-on-on-on") -> Circuit:
    """B11 form a: series, split and parallel on one on-on-on switch."""
    bench = humbucker(wiring()).part("S", kind)
    trade_join(bench, "S.2 H2", "S.3 S.4 C1", "S.1 H1 HOT", "S.5 C2 GND")
    return bench.circuit()


def phase_switch(kind: str = "toggle-2p2t", pickup: str = "coil-2wire") -> Circuit:
    """B7: a pickup's two ends crossed over."""
    bench = wiring().part("N", pickup, resistance="8k").part("S", kind)
    hot, cold = ("N.core", "N.braid") if pickup == "coil-screened" else ("N.finish", "N.start")
    trade_join(bench, f"{hot} S.2", f"{cold} S.5", "S.1 S.6 HOT", "S.3 S.4 GND")
    return bench.circuit()


def five_way(volume: str | None = "250k", *, bridge_a1_a2: bool = False) -> Circuit:
    """B12: three single coils on a five-position lever, one volume, two tones."""
    bench = wiring().part("S", "lever-2p5")
    for name, ohm in (("B", "6k5"), ("M", "6k2"), ("N", "6k")):
        bench.part(name, "coil-2wire", resistance=ohm).join(f"{name}.start", GND)
    bench.join("B.finish S.A1").join("M.finish S.A2").join("N.finish S.A3").join("S.A0 S.B0")
    for tone, throw in (("TM", "S.B2"), ("TN", "S.B3")):
        bench.part(tone, "pot", resistance="250k").part(f"C{tone}", "capacitor", capacitance="47n")
        bench.join(throw, f"{tone}.2").join(f"{tone}.1 C{tone}.1").join(f"C{tone}.2", GND)
    if volume is None:
        bench.join("S.A0", HOT)
    else:
        bench.part("V", "pot", resistance=volume)
        bench.join("S.A0 V.3").join("V.2", HOT).join("V.1", GND)
    if bridge_a1_a2:
        bench.join("S.A1 S.A2")
    return bench.circuit()


def common_taken_for_a_throw() -> Circuit:
    """Mistake 36: the output on throw 3, pickups on the common and throws 1 and 2."""
    bench = wiring().part("S", "lever-2p5")
    for name, lug in (("B", "S.A0"), ("M", "S.A1"), ("N", "S.A2")):
        bench.part(name, "coil-2wire").join(f"{name}.start", GND).join(f"{name}.finish", lug)
    return bench.join("S.A3", HOT).circuit()


def four_way() -> Circuit:
    """B14: two pickups on a four-position lever that adds series; no pot."""
    bench = wiring().part("S", "lever-2p4t")
    bench.part("B", "coil-2wire", resistance="7k5").part("N", "coil-2wire", resistance="7k")
    bench.join("N.start S.A0").join("S.A2 S.A3", GND, "B.start").join("S.A4 S.B0 B.finish")
    return bench.join("S.B1 S.B2 N.finish", HOT).circuit()


def two_volumes(form: str, selector: str | None = "selector-3") -> Circuit:
    """B1/B2: 7 kΩ neck and 8 kΩ bridge, two 500 kΩ volumes, `dependent` or `independent`."""
    source, out = ("3", "2") if form == "dependent" else ("2", "3")
    bench = wiring()
    if selector:
        bench.part("S", selector).join("S.A1 S.B1", HOT).join("S.frame", GND)
    for name, ohm, lug in (("N", "7k", "S.A0"), ("B", "8k", "S.B0")):
        bench.part(name, "coil-2wire", resistance=ohm).part(f"V{name}", "pot", resistance="500k")
        bench.join(f"{name}.finish V{name}.{source}").join(f"{name}.start", GND, f"V{name}.1")
        bench.join(f"V{name}.{out}", lug if selector else HOT)
    return bench.circuit()


def blend(form: str = "right") -> Circuit:
    """A8: two 8 kΩ pickups on a 500 kΩ blend pot; `wrong` has its wipers as output."""
    bench = wiring().part("X", "pot-blend", resistance="500k")
    out, source = ("3", "2") if form == "right" else ("2", "3")
    for name, deck in (("N", "a"), ("B", "b")):
        bench.part(name, "coil-2wire", resistance="8k").join(f"{name}.start X.1{deck}", GND)
        bench.join(f"{name}.finish X.{source}{deck}").join(f"X.{out}{deck}", HOT)
    return bench.circuit()


def series_chain(
    coils: Sequence[str] = ("N", "M", "B"), *, phase: bool = True, volume: str | None = "250k"
) -> Circuit:
    """B20 series: each coil with an on/off slide, and a phase slide, between hot and ground."""
    bench = wiring()
    for coil in coils:
        bench.part(coil, "coil-2wire", resistance="6k").part(f"S{coil}", "slide-2p2t")
        bench.join(f"S{coil}.A2 S{coil}.B2")
        if phase:
            bench.part(f"P{coil}", "slide-2p2t")
            bench.join(f"{coil}.finish P{coil}.A0").join(f"{coil}.start P{coil}.B0")
            bench.join(f"P{coil}.A1 P{coil}.B2 S{coil}.A1")
            bench.join(f"P{coil}.A2 P{coil}.B1 S{coil}.B1")
        else:
            bench.join(f"{coil}.finish S{coil}.A1").join(f"{coil}.start S{coil}.B1")
    for upper, lower in pairwise(coils):
        bench.join(f"S{upper}.B0 S{lower}.A0")
    bench.join(f"S{coils[-1]}.B0", GND)
    return _with_volume(bench, f"S{coils[0]}.A0", volume)


def parallel_bus(coils: Sequence[str] = ("N", "M", "B"), volume: str | None = "250k") -> Circuit:
    """B20 parallel: each coil with a phase slide, its hot side broken by an on/off slide."""
    bench = wiring()
    for coil in coils:
        bench.part(coil, "coil-2wire", resistance="6k")
        bench.part(f"S{coil}", "slide-2p2t").part(f"P{coil}", "slide-2p2t")
        bench.join(f"{coil}.finish P{coil}.A0").join(f"{coil}.start P{coil}.B0")
        bench.join(f"P{coil}.A1 P{coil}.B2 S{coil}.A1").join(f"P{coil}.A2 P{coil}.B1", GND)
    bench.join(*(f"S{coil}.A0" for coil in coils))
    return _with_volume(bench, f"S{coils[0]}.A0", volume)


def _with_volume(bench: Wiring, source: str, volume: str | None) -> Circuit:
    """B3: the source on the 10 end, the wiper on the jack's tip, the 0 end on ground."""
    if volume is None:
        return bench.join(source, HOT).circuit()
    bench.part("V", "pot", resistance=volume)
    return bench.join(source, "V.3").join("V.2", HOT).join("V.1", GND).circuit()


def volumes_in_series(top_end: str = "junction") -> Circuit:
    """B23: a 7 kΩ pickup on top of an 8 kΩ one, each with a 500 kΩ volume.

    The top volume's 0 end is on the junction, or wrongly on ground.
    """
    bench = wiring()
    for name, ohm in (("T", "7k"), ("L", "8k")):
        bench.part(name, "coil-2wire", resistance=ohm).part(f"V{name}", "pot", resistance="500k")
        bench.join(f"{name}.finish V{name}.3")
    bench.join("VT.2", HOT).join("T.start VL.2").join("L.start VL.1", GND)
    return bench.join("VT.1", "VL.2" if top_end == "junction" else GND).circuit()


def braids_in_series(*, top_braid_grounded: bool) -> Circuit:
    """Mistake 23: a 7 kΩ pickup on braid only stands on top of an 8 kΩ one."""
    bench = wiring().part("T", "coil-screened", resistance="7k")
    bench.part("L", "coil-screened", resistance="8k")
    bench.join("T.core", HOT).join("T.braid L.core").join("L.braid", GND)
    if top_braid_grounded:
        bench.join("T.braid", GND)
    return bench.circuit()


def one_volume_one_tone(
    source: Wiring, hot: str, volume: str = "500k", tone: str | None = "500k", cap: str = "22n"
) -> Wiring:
    """B3 and B4: a master volume with a treble cut on its input side ("modern")."""
    source.part("V", "pot", resistance=volume)
    source.join(hot, "V.3").join("V.2", HOT).join("V.1", GND)
    if tone:
        source.part("T", "pot", resistance=tone).part("C", "capacitor", capacitance=cap)
        source.join("V.3 T.2").join("T.1 C.1").join("C.2", GND)
    return source
