"""Tangles: coils, resistors, capacitors and chokes between a few nets, anyhow, often bridged."""

from hypothesis import strategies as st

from tests.support.wiring import Wiring
from wirer.circuit.model import Circuit, OutputLoad
from wirer.circuit.stance import Stance, default_stance

COILS = ("coil-2wire", "coil-2wire", "coil-tapped", "humbucker-4wire", "dummy-coil")
LOADS = ("resistor", "capacitor", "inductor")


def _decades(low: int, high: int) -> st.SearchStrategy[str]:
    return st.floats(low, high).map(lambda power: f"{10**power:.4g}")


VALUES = {
    "resistance": _decades(2, 6),
    "inductance": _decades(-1, 1),
    "capacitance": _decades(-11, -7),
    "winding": st.sampled_from(["cw", "ccw"]),
    "pole": st.sampled_from(["north", "south"]),
}


@st.composite
def tangles(draw: st.DrawFn) -> tuple[Circuit, Stance]:
    """A circuit of three to six nets with more elements than nets; net 0 sleeve, net 1 tip."""
    nets = draw(st.integers(3, 6))
    bench = Wiring(OutputLoad(cable="500p", input="1M")).part("J", "jack-ts")
    posts = ["J.sleeve", "J.tip", *(f"X{net}.1" for net in range(2, nets))]
    for net in range(2, nets):
        bench.part(f"X{net}", "terminal")
    choice = st.sampled_from(COILS) | st.sampled_from((*COILS, *LOADS))
    for number in range(draw(st.integers(nets, 2 * nets))):
        _add(draw, bench, f"P{number}", draw(choice), posts)
    circuit = bench.circuit()
    return circuit, default_stance(circuit)


def _add(draw: st.DrawFn, bench: Wiring, name: str, kind: str, posts: list[str]) -> None:
    names = ("resistance", "inductance", "capacitance", "winding", "pole")
    own = {
        "resistor": names[:1],
        "capacitor": names[2:3],
        "inductor": names[:2],
        "dummy-coil": names[:4],
    }.get(kind, names)
    bench.part(name, kind, {value: draw(VALUES[value]) for value in own})
    lugs = {
        "coil-tapped": ("start", "tap", "finish"),
        "humbucker-4wire": ("As", "Af", "Bs", "Bf"),
        **dict.fromkeys(LOADS, ("1", "2")),
    }.get(kind, ("start", "finish"))
    for lug in lugs:
        bench.join(f"{name}.{lug}", draw(st.sampled_from(posts)))
