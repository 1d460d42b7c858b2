"""What an edit leaves as it was: only wires near what changed are routed anew."""

import pickle
from dataclasses import replace as dataclass_replace

import pytest
from msgspec.structs import replace

from tests.layout.circuits import Bench, random_circuit, three_coils_six_slides
from wirer.circuit.model import Circuit, Wire
from wirer.layout import lay_out as module
from wirer.layout.lay_out import lay_out, route_one
from wirer.layout.layout import Layout
from wirer.layout.quality import quality


@pytest.fixture(scope="module")
def circuit() -> Circuit:
    return three_coils_six_slides()


@pytest.fixture(scope="module")
def layout(circuit: Circuit) -> Layout:
    return lay_out(circuit)


def moved(circuit: Circuit, part: str, x: float, y: float) -> Circuit:
    parts = tuple(replace(p, at=(x, y)) if p.id == part else p for p in circuit.parts)
    return replace(circuit, parts=parts)


def changed(before: Layout, after: Layout) -> set[str]:
    return {w for w in after.routes if after.routes[w] != before.routes.get(w)}


def test_nothing_changed_nothing_routed(circuit: Circuit, layout: Layout) -> None:
    assert lay_out(circuit, layout).routes == layout.routes


def test_a_label_or_colour_changes_no_route(circuit: Circuit, layout: Layout) -> None:
    wires = tuple(replace(wire, colour="PK", done=True) for wire in circuit.wires)
    assert lay_out(replace(circuit, wires=wires), layout).routes == layout.routes


def test_names_stay_where_they_stand(circuit: Circuit, layout: Layout) -> None:
    assert lay_out(circuit, layout).labels == layout.labels
    after = lay_out(moved(circuit, "J", 203.0, 114.0), layout)
    stayed = [p for p in layout.labels.names if after.labels.names[p] == layout.labels.names[p]]
    assert len(stayed) >= len(layout.labels.names) - 2


def test_another_label_is_written_anew(circuit: Circuit, layout: Layout) -> None:
    parts = tuple(replace(p, label="Mute") if p.id == "SN" else p for p in circuit.parts)
    after = lay_out(replace(circuit, parts=parts), layout)
    assert "Mute" in after.labels.names["SN"].text
    assert after.routes == layout.routes


def test_a_screen_is_led_to_its_new_lug(circuit: Circuit, layout: Layout) -> None:
    wires = tuple(
        replace(w, screen_to="J.sleeve") if w.style == "screened" else w for w in circuit.wires
    )
    after = lay_out(replace(circuit, wires=wires), layout)
    (screen,) = after.screens.values()
    assert [tail.points[-1] for tail in screen.tails] == [layout.lugs["J.sleeve"]]
    assert after.routes == layout.routes
    assert lay_out(replace(circuit, wires=wires), after).screens == after.screens


def test_a_moved_jack_takes_only_its_own_wires_along(circuit: Circuit, layout: Layout) -> None:
    after = lay_out(moved(circuit, "J", 203.0, 114.0), layout)
    own = {w.id for w in circuit.wires if any(lug.startswith("J.") for lug in w.ends)}
    assert own <= changed(layout, after)
    assert len(changed(layout, after)) <= len(own) + 2
    assert quality(after).faults == 0


def test_a_part_put_on_a_wire_makes_it_go_round() -> None:
    bench = Bench()
    bench.part("A", "terminal", 0.0, 0.0)
    bench.part("B", "terminal", 60.0, 0.0)
    bench.part("V", "pot", 30.0, 60.0)
    bench.wire("A.1", "B.1")
    before = lay_out(bench.circuit())
    after = lay_out(moved(bench.circuit(), "V", 30.0, 0.0), before)
    assert quality(after).over_bodies == ()
    assert after.routes["w1"].length_mm > before.routes["w1"].length_mm


def test_a_part_taken_off_a_wires_way_lets_it_run_straight() -> None:
    bench = Bench()
    bench.part("A", "terminal", 0.0, 0.0)
    bench.part("B", "terminal", 60.0, 0.0)
    bench.part("V", "pot", 30.0, 0.0)
    bench.wire("A.1", "B.1")
    before = lay_out(bench.circuit())
    after = lay_out(moved(bench.circuit(), "V", 30.0, 90.0), before)
    assert after.routes["w1"].points == ((0.0, 0.0), (60.0, 0.0))


def test_a_wire_taken_away_or_added_leaves_the_others(circuit: Circuit, layout: Layout) -> None:
    without = replace(circuit, wires=circuit.wires[:-1])
    less = lay_out(without, layout)
    assert changed(layout, less) == set()
    again = lay_out(circuit, less)
    assert changed(less, again) == {circuit.wires[-1].id}


def test_other_bends_route_a_wire_anew(circuit: Circuit, layout: Layout) -> None:
    wire = circuit.wires[-1]
    bent = replace(circuit, wires=(*circuit.wires[:-1], replace(wire, bends=((10.0, 140.0),))))
    after = lay_out(bent, layout)
    assert changed(layout, after) == {wire.id}


def test_a_wire_being_drawn_ends_under_the_pointer(layout: Layout) -> None:
    route = route_one(layout, "V.2", (151.3, 77.7))
    assert route.points[0] == layout.lugs["V.2"]
    assert route.points[-1] == (151.3, 77.7)
    back = route_one(layout, (151.3, 77.7), "SN.A2")
    assert back.points[-1] == layout.lugs["SN.A2"]


def test_a_wire_being_drawn_passes_bodies_and_lugs(layout: Layout) -> None:
    route = route_one(layout, "N.finish", "J.tip")
    assert route.manner == "routed"
    drawn = dataclass_replace(
        layout,
        routes={**layout.routes, "new": route},
        wires={**layout.wires, "new": Wire(id="new", from_lug="N.finish", to_lug="J.tip")},
    )
    judged = quality(drawn)
    assert "new" not in (*judged.over_bodies, *judged.across_lugs)


def test_drawing_a_wire_keeps_what_it_found_out(monkeypatch: pytest.MonkeyPatch) -> None:
    """The pointer moves many times a second: the layout's wires are set up once."""
    layout = lay_out(random_circuit(5, 8, 10))
    made = []
    real = module.Router
    monkeypatch.setattr(module, "Router", lambda *given: made.append(1) or real(*given))
    lug = next(iter(layout.lugs))
    for step in range(5):
        route_one(layout, lug, (10.0 + step, 10.0))
    assert len(made) == 1


def test_a_layout_goes_to_another_process_and_back(layout: Layout) -> None:
    back = pickle.loads(pickle.dumps(layout))
    assert back.routes == layout.routes
    assert back.placements == layout.placements
    assert back.labels == layout.labels
