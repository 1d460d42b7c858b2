"""A net's wires planned anew: a tree or a star, on lugs that hold them, every net as before."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable
from typing import Any

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from msgspec.structs import replace

from tests.support.circuits import circuits, guitars
from tests.support.wiring import Wiring
from wirer.analysis.combinations import combination_table
from wirer.circuit.check import circuit_problems
from wirer.circuit.edits import change_circuit, change_wire
from wirer.circuit.errors import EditError
from wirer.circuit.files import read_file
from wirer.circuit.joints import fixed_nets
from wirer.circuit.model import Circuit, Part, Waiver, Wire, split_lug
from wirer.circuit.resources import resource_root
from wirer.circuit.stance import default_stance
from wirer.planning.replan import Plan, plan_star, plan_tree


def nets(circuit: Circuit) -> tuple[Any, ...]:
    """The nets with a plug in and without."""
    return fixed_nets(circuit), fixed_nets(circuit, plugged=False)


def crowding(circuit: Circuit) -> dict[str, int]:
    """How many wires each lug has beyond what it holds, as the rule on crowded lugs counts."""
    counts = Counter(
        lug
        for wire in circuit.wires
        if wire.style != "mount"
        for lug in (*wire.ends, wire.screen_from, wire.screen_to)
        if lug
    )
    over = {}
    for name, count in counts.items():
        part, own = split_lug(name)
        lug = circuit.kind_of(circuit.part_by_id[part]).lug(own)
        assert lug is not None
        over[name] = max(0, count - lug.holds)
    return over


def assert_sound(circuit: Circuit, lug: str, plan: Plan) -> None:
    """Nothing but the plain wires of one net has changed, and those for the better."""
    after = plan.circuit
    assert circuit_problems(after) == []
    assert nets(after) == nets(circuit)
    net = next(n for n in fixed_nets(circuit, plugged=False) if lug in n)
    foreign = [
        w for w in circuit.wires if w.from_lug not in net or w.style in {"mount", "screened"}
    ]
    assert [w for w in after.wires if w.id in {f.id for f in foreign}] == foreign
    for wire in after.wires:
        old = circuit.wire_by_id[wire.id]
        assert (wire.colour, wire.style, wire.gauge) == (old.colour, old.style, old.gauge)
        assert set(wire.ends) == set(old.ends) or (wire.bends, wire.done) == ((), False)
    before_over, after_over = crowding(circuit), crowding(after)
    fixed = replace(circuit, wires=tuple(foreign))
    for name in net:
        assert after_over.get(name, 0) <= crowding(fixed).get(name, 0)
    assert {n: x for n, x in after_over.items() if n not in net and x} == {
        n: x for n, x in before_over.items() if n not in net and x
    }


def planned(edit: Callable[[Circuit, str], Plan], circuit: Circuit, lug: str) -> Plan | None:
    """The plan, or None where the lugs do not hold one."""
    try:
        return edit(circuit, lug)
    except EditError:
        return None


@given(guitars() | circuits(most_parts=8, most_wires=30), st.data())
def test_a_tree_changes_no_net_and_crowds_no_lug(circuit: Circuit, data: st.DataObject) -> None:
    assume(circuit.wires)
    lug = data.draw(st.sampled_from([end for wire in circuit.wires for end in wire.ends]))
    plan = planned(plan_tree, circuit, lug)
    assume(plan)
    assert plan is not None
    assert_sound(circuit, lug, plan)
    again = plan_tree(plan.circuit, lug)
    assert again.length_after_mm == pytest.approx(plan.length_after_mm)


@given(guitars() | circuits(most_parts=8, most_wires=30), st.data())
def test_a_star_changes_no_net_and_crowds_no_lug(circuit: Circuit, data: st.DataObject) -> None:
    assume(circuit.wires)
    centre = data.draw(st.sampled_from([end for wire in circuit.wires for end in wire.ends]))
    plan = planned(plan_star, circuit, centre)
    assume(plan)
    assert plan is not None
    assert_sound(circuit, centre, plan)


EXAMPLES = sorted(
    file.name for file in (resource_root() / "examples").iterdir() if file.name.endswith(".wirer")
)


@pytest.mark.parametrize("name", EXAMPLES)
def test_every_net_of_the_examples_can_be_planned_and_sounds_the_same(name: str) -> None:
    circuit, _ = read_file(str(resource_root() / "examples" / name))
    now = circuit
    for net in fixed_nets(circuit, plugged=False):
        plan = plan_tree(now, min(net))
        assert plan.shortest
        assert plan.length_after_mm <= plan.length_before_mm + 1e-6 or any(
            crowding(now).get(lug) for lug in net
        )
        now = plan.circuit
    assert nets(now) == nets(circuit)
    before, after = (combination_table(c, default_stance(c)) for c in (circuit, now))
    for row, old in zip(after, before, strict=True):
        assert row.combination.weights == pytest.approx(old.combination.weights)
        assert row.combination.resistance == pytest.approx(old.combination.resistance)


def posts(*places: tuple[float, float]) -> list[Part]:
    return [Part(id=f"P{n}", kind="terminal", at=at) for n, at in enumerate(places)]


def test_wires_led_criss_cross_are_led_from_neighbour_to_neighbour() -> None:
    ends = (("P0", "P2"), ("P2", "P1"), ("P1", "P3"))
    wires = tuple(
        Wire(
            id=f"w{n}",
            from_lug=f"{a}.1",
            to_lug=f"{b}.1",
            colour="BK",
            gauge="24 AWG",
            done=True,
            bends=((9.0, 9.0),),
        )
        for n, (a, b) in enumerate(ends)
    )
    circuit = Circuit(parts=tuple(posts((0, 0), (10, 0), (20, 0), (30, 0))), wires=wires)
    plan = plan_tree(circuit, "P3.1")
    led = {frozenset(w.ends): w for w in plan.circuit.wires}
    assert set(led) == {frozenset({f"P{n}.1", f"P{n + 1}.1"}) for n in range(3)}
    assert (plan.length_before_mm, plan.length_after_mm, plan.shortest) == (50, 30, True)
    assert [w.id for w in plan.circuit.wires] == ["w0", "w1", "w2"]
    kept = led[frozenset({"P1.1", "P2.1"})]
    assert kept == wires[1]  # it runs as planned: its bends and its mark stay
    assert plan_tree(plan.circuit, "P0.1").circuit is plan.circuit


def test_rings_and_wires_to_their_own_lug_go_and_so_does_what_was_waived_of_them() -> None:
    bench = Wiring().part("A", "terminal").part("B", "terminal")
    circuit = bench.join("A.1 B.1").join("B.1 A.1").join("A.1 A.1").circuit()
    waived = (
        Waiver(rule="ground-loop", places=("w2",)),
        Waiver(rule="ground-loop", places=("w1", "B.1")),
    )
    plan = plan_tree(change_circuit(circuit, waived=waived), "A.1")
    assert [w.id for w in plan.circuit.wires] == ["w1"]
    assert plan.circuit.waived == waived[1:]


def test_a_star_runs_from_the_nearest_lugs_of_a_bus() -> None:
    """A bus is one bar of metal: each wire goes to the lug of it that is nearest."""
    parts = (
        *posts((-19.6, 10), (19.6, 10), (19.6, 20), (19.6, 30)),
        Part(id="G", kind="bus", at=(0, 0)),
    )
    wires = tuple(
        Wire(id=f"w{n}", from_lug=f"P{n}.1", to_lug=f"P{n + 1}.1" if n < 3 else "G.4")
        for n in range(4)
    )
    plan = plan_star(Circuit(parts=parts, wires=wires), "G.4")
    led = {frozenset(w.ends) for w in plan.circuit.wires}
    assert frozenset({"P0.1", "G.1"}) in led
    on_last = [pair for pair in led if "G.8" in pair]
    assert len(on_last) == 2  # it holds two wires; the third goes to its neighbour
    assert sum("G.7" in pair for pair in led) == 1


def test_a_star_at_a_point_that_does_not_hold_it_is_refused() -> None:
    bench = Wiring()
    for part in posts(*[(n, 0) for n in range(9)]):
        bench.part(part.id, part.kind)
    circuit = bench.join(*(f"P{n}.1" for n in range(9))).circuit()
    with pytest.raises(EditError, match=r"a star at P4\.1 needs 8 wires and it holds \d"):
        plan_star(circuit, "P4.1")
    with pytest.raises(EditError, match=r'no lug "P9\.1"'):
        plan_tree(circuit, "P9.1")


def test_what_the_plug_joins_is_not_planned_with() -> None:
    """Out of its jack the plug must not leave a battery connected, nor a ground open."""
    bench = Wiring().part("J", "jack-trs").part("B", "battery").part("V", "pot")
    circuit = bench.join("B.minus J.ring").join("V.can V.1 J.sleeve").circuit()
    plan = plan_tree(circuit, "J.sleeve")
    assert nets(plan.circuit) == nets(circuit)
    assert frozenset({"J.ring", "B.minus"}) in fixed_nets(plan.circuit, plugged=False)


def test_mounts_and_screens_stay() -> None:
    bench = Wiring().part("V", "pot").part("T", "pot").part("J", "jack-ts")
    circuit = bench.join("V.can T.can").join("V.2 J.tip").join("V.1 J.sleeve V.can").circuit()
    circuit = change_wire(circuit, "w1", style="mount")
    circuit = change_wire(
        circuit, "w2", style="screened", screen_from="V.can", screen_to="J.sleeve"
    )
    plan = plan_tree(circuit, "J.sleeve")
    assert plan.circuit.wires[:2] == circuit.wires[:2]
    assert len(plan.circuit.wires) == 3  # the screen joins the can and the sleeve already
    assert nets(plan.circuit) == nets(circuit)
