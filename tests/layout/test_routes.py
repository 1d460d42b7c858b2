"""What every layout owes the person who solders from it, on circuits made by hand and at random."""

import math
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from msgspec.structs import replace

from tests.layout.circuits import (
    Bench,
    random_circuit,
    rotary_selector,
    three_coils_six_slides,
    two_humbuckers_one_lever,
)
from wirer.circuit.model import Circuit
from wirer.layout.geometry import point_segment_distance
from wirer.layout.lay_out import lay_out
from wirer.layout.layout import Layout
from wirer.layout.quality import quality

CIRCUITS = [three_coils_six_slides, two_humbuckers_one_lever, rotary_selector]


def check_ends(circuit: Circuit, layout: Layout) -> None:
    """Every wire runs from its first lug to its second, to the last bit."""
    for wire in circuit.wires:
        points = layout.routes[wire.id].points
        assert (points[0], points[-1]) == tuple(layout.lugs[lug] for lug in wire.ends)


def check_straightness(layout: Layout) -> None:
    """Runs are level or upright but for short stubs at lugs and neighbours' jumpers."""
    for route in layout.routes.values():
        if route.manner == "routed":
            last = len(route.points) - 2
            for index, (a, b) in enumerate(pairwise(route.points)):
                stub = index in (0, last) and math.dist(a, b) < 2.0
                assert a[0] == b[0] or a[1] == b[1] or stub


@pytest.mark.parametrize("make", CIRCUITS)
def test_hand_made_circuits_are_drawn_without_fault(make: type) -> None:
    circuit = make()
    layout = lay_out(circuit)
    check_ends(circuit, layout)
    check_straightness(layout)
    judged = quality(layout)
    assert judged.faults == 0
    assert judged.least_spacing_mm is not None
    assert judged.least_spacing_mm >= 1.0


@settings(max_examples=12)
@given(seed=st.integers(0, 10_000), parts=st.integers(2, 14), share=st.floats(0.5, 2.5))
def test_random_circuits_are_drawn_without_fault(seed: int, parts: int, share: float) -> None:
    circuit = random_circuit(seed, parts, int(parts * share))
    layout = lay_out(circuit)
    check_ends(circuit, layout)
    check_straightness(layout)
    judged = quality(layout)
    assert not judged.over_bodies
    assert not judged.across_lugs
    assert not judged.overlaps
    assert not judged.fallbacks


def test_the_same_circuit_is_always_drawn_alike() -> None:
    circuit = two_humbuckers_one_lever()
    assert lay_out(circuit).routes == lay_out(circuit).routes


def test_a_wire_passes_its_bends_in_order() -> None:
    bench = Bench()
    bench.part("A", "terminal", 0.0, 0.0)
    bench.part("B", "terminal", 60.0, 0.0)
    bends = ((20.0, 30.0), (10.0, -20.0), (50.0, -20.0))
    bench.wire("A.1", "B.1", bends=bends)
    points = lay_out(bench.circuit()).routes["w1"].points
    ways = []
    for bend in bends:
        way = 0.0
        for segment in pairwise(points):
            if point_segment_distance(bend, segment) < 1e-9 and way >= (ways or [0.0])[-1]:
                ways.append(way + math.dist(segment[0], bend))
                break
            way += math.dist(*segment)
    assert len(ways) == 3
    assert ways == sorted(ways)


def test_a_free_way_is_as_short_as_can_be() -> None:
    """30 to the right and 20 down, one bend: 50 mm."""
    bench = Bench()
    bench.part("A", "terminal", 0.0, 0.0)
    bench.part("B", "terminal", 30.0, 20.0)
    bench.wire("A.1", "B.1")
    route = lay_out(bench.circuit()).routes["w1"]
    assert len(route.points) == 3
    assert route.length_mm == pytest.approx(50.0)


def test_a_wire_goes_round_a_body_between_its_lugs() -> None:
    bench = Bench()
    bench.part("A", "terminal", 0.0, 0.0)
    bench.part("B", "terminal", 60.0, 0.0)
    bench.part("V", "pot", 30.0, 0.0)
    bench.wire("A.1", "B.1")
    layout = lay_out(bench.circuit())
    assert quality(layout).over_bodies == ()
    assert layout.routes["w1"].length_mm > 60 + 2 * 12


def test_a_wire_runs_over_a_foil() -> None:
    bench = Bench()
    bench.part("A", "terminal", 0.0, 0.0)
    bench.part("B", "terminal", 60.0, 0.0)
    bench.part("F", "foil", 30.0, 12.0)
    bench.wire("A.1", "B.1")
    assert lay_out(bench.circuit()).routes["w1"].points == ((0.0, 0.0), (60.0, 0.0))


def test_neighbouring_lugs_are_joined_straight() -> None:
    bench = Bench()
    bench.part("S", "toggle-2p2t", 0.0, 0.0)
    bench.part("R", "rotary-1p12t", 50.0, 0.0)
    bench.wire("S.A0", "S.A1")
    bench.wire("S.A2", "S.B2")
    bench.wire("R.A1", "R.A2")
    layout = lay_out(bench.circuit())
    assert [layout.routes[f"w{n}"].manner for n in (1, 2, 3)] == ["direct"] * 3


def test_a_jumper_past_a_lug_goes_round_it_on_the_body() -> None:
    """A phase switch's crossed jumpers stay on the switch (common practice)."""
    bench = Bench()
    bench.part("S", "slide-2p2t", 0.0, 0.0)
    bench.wire("S.A1", "S.B2")
    bench.wire("S.B1", "S.A2")
    bench.wire("S.A1", "S.A2")
    layout = lay_out(bench.circuit())
    assert quality(layout).faults == 0
    box = layout.placements["S"].body_box
    for wire in ("w1", "w2"):
        assert all(box.holds(point) for point in layout.routes[wire].points)


def test_bolted_metals_are_joined_by_a_straight_link() -> None:
    bench = Bench()
    bench.part("P", "plate", 0.0, 0.0)
    bench.part("V", "pot", 60.0, 30.0)
    bench.wire("P.1", "V.can", style="mount")
    route = lay_out(bench.circuit()).routes["w1"]
    assert route.manner == "link"
    assert len(route.points) == 2


def test_a_wire_from_a_lug_to_itself_is_a_loop() -> None:
    bench = Bench()
    bench.part("V", "pot", 0.0, 0.0)
    bench.wire("V.1", "V.1")
    layout = lay_out(bench.circuit())
    route = layout.routes["w1"]
    assert route.manner == "loop"
    assert route.points[0] == route.points[-1] == layout.lugs["V.1"]
    assert route.length_mm > 5


def test_wires_that_share_a_lug_do_not_lie_on_one_another() -> None:
    bench = Bench()
    bench.part("V", "pot", 0.0, 0.0)
    for index in range(6):
        bench.part(f"T{index}", "terminal", 40.0 * math.cos(index), 40.0 * math.sin(index))
        bench.wire("V.can", f"T{index}.1")
    layout = lay_out(bench.circuit())
    firsts = [route.points[1] for route in layout.routes.values()]
    assert len(set(firsts)) == 6
    assert quality(layout).overlaps == ()


def test_parts_on_top_of_each_other_are_still_laid_out() -> None:
    bench = Bench()
    for index in range(4):
        bench.part(f"P{index}", "toggle-2p2t", 0.0, 0.0)
    for index in range(3):
        bench.wire(f"P{index}.A0", f"P{index + 1}.B1")
        bench.wire(f"P{index}.A1", f"P{index + 1}.A1")
    circuit = bench.circuit()
    layout = lay_out(circuit)
    check_ends(circuit, layout)
    assert quality(layout).across_lugs, "and it is said that they touch other lugs"


def test_parts_a_hundred_metres_apart_are_still_laid_out() -> None:
    bench = Bench()
    bench.part("A", "toggle-4p2t", -100_000.0, -100_000.0)
    bench.part("B", "toggle-4p2t", 100_000.0, 100_000.0)
    bench.part("C", "pot", 0.0, 99_999.0)
    bench.wire("A.A0", "B.D2")
    bench.wire("A.B0", "C.2")
    circuit = bench.circuit()
    layout = lay_out(circuit)
    check_ends(circuit, layout)
    assert quality(layout).faults == 0


def test_beyond_its_bound_of_work_a_wire_is_an_elbow_and_is_said_so(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr("wirer.layout.router.MOST_EFFORT", 0)
    monkeypatch.setattr("wirer.layout.routing.MOST_EFFORT", 0)
    circuit = three_coils_six_slides()
    layout = lay_out(circuit)
    check_ends(circuit, layout)
    assert len(quality(layout).fallbacks) > 20


def test_an_empty_circuit_has_an_empty_layout() -> None:
    layout = lay_out(Circuit())
    assert not layout.routes
    assert quality(layout).least_spacing_mm is None


def test_the_direction_of_a_wire_does_not_matter_to_its_length() -> None:
    bench = Bench()
    bench.part("A", "pot", 0.0, 0.0)
    bench.part("B", "slide-2p2t", 70.0, 30.0)
    bench.wire("A.2", "B.A1")
    circuit = bench.circuit()
    wire = circuit.wires[0]
    back = replace(circuit, wires=(replace(wire, from_lug=wire.to_lug, to_lug=wire.from_lug),))
    assert lay_out(circuit).routes["w1"].length_mm == pytest.approx(
        lay_out(back).routes["w1"].length_mm
    )
