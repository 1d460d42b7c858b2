"""Moving, turning, flipping, aligning and distributing: parts, and the bends of their wires."""

from __future__ import annotations

import math
from collections.abc import Callable
from itertools import pairwise

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from tests.support.circuits import circuits
from wirer.circuit.check import circuit_problems
from wirer.circuit.errors import EditError
from wirer.circuit.joints import fixed_nets
from wirer.circuit.model import Circuit, Part, Wire, split_lug
from wirer.layout.align import align_parts, distribute_parts
from wirer.layout.arrange import common_middle, flip_parts, move_by, move_each, turn_parts
from wirer.layout.box import Box
from wirer.layout.placement import lug_points, place_parts

TERMINALS = {"A": (0.0, 0.0), "B": (40.0, 0.0), "C": (0.0, 30.0)}


def bench(*wires: tuple[str, str, tuple[tuple[float, float], ...]]) -> Circuit:
    """Three posts, each with its one lug in its middle, and bent wires between them."""
    parts = tuple(Part(id=name, kind="terminal", at=at) for name, at in TERMINALS.items())
    made = (
        Wire(id=f"w{n}", from_lug=f"{a}.1", to_lug=f"{b}.1", bends=bends)
        for n, (a, b, bends) in enumerate(wires, 1)
    )
    return Circuit(parts=parts, wires=tuple(made))


def bends(circuit: Circuit, wire: str = "w1") -> tuple[tuple[float, float], ...]:
    return circuit.wire_by_id[wire].bends


def lugs(circuit: Circuit) -> dict[str, tuple[float, float]]:
    return dict(lug_points(place_parts(circuit)))


def boxes(circuit: Circuit) -> dict[str, Box]:
    return {name: placed.body_box for name, placed in place_parts(circuit).items()}


def test_a_move_takes_the_bends_between_the_moved_parts_along() -> None:
    circuit = bench(("A", "B", ((0, 12), (40, 12))))
    moved = move_by(circuit, ["A", "B"], (5, -2))
    assert [p.at for p in moved.parts] == [(5, -2), (45, -2), (0, 30)]
    assert bends(moved) == ((5, 10), (45, 10))


def test_the_run_to_a_moved_end_keeps_its_direction() -> None:
    """As a draughtsman stretches a drawing: what was upright stays upright."""
    circuit = bench(("A", "B", ((0, 12), (40, 12))))
    assert bends(move_by(circuit, ["A"], (6, -3))) == ((6, 12), (40, 12))
    assert bends(move_by(circuit, ["B"], (6, -3))) == ((0, 12), (46, 12))
    both = move_each(circuit, {"A": (6, -3), "B": (1, 1)})
    assert bends(both) == ((6, 12), (41, 12))


def test_bends_that_would_turn_the_wire_back_on_itself_are_dropped() -> None:
    circuit = bench(("A", "B", ((10, 0), (25, 8))))
    assert bends(move_by(circuit, ["A"], (60, 8))) == ()


def test_a_turn_back_that_somebody_drew_is_kept() -> None:
    circuit = bench(("A", "B", ((20, 0), (12, 1))))
    assert bends(move_by(circuit, ["B"], (0, 2))) == ((20, 0), (12, 1))


def test_a_bend_that_the_moved_body_comes_to_cover_is_dropped() -> None:
    circuit = Circuit(
        parts=(
            Part(id="N", kind="coil-2wire", at=(0, 0)),
            Part(id="A", kind="terminal", at=(100, 0)),
        ),
        wires=(Wire(id="w1", from_lug="N.start", to_lug="A.1", bends=((60, 3), (90, 3))),),
    )
    assert bends(move_by(circuit, ["N"], (50, 0))) == ((90, 3),)


def test_what_is_not_moved_is_the_same_object() -> None:
    circuit = bench(("A", "B", ((0, 12),)), ("B", "C", ((40, 30),)))
    moved = move_by(circuit, ["A"], (1, 0))
    assert moved.wires[1] is circuit.wires[1]
    assert moved.parts[2] is circuit.parts[2]
    assert move_by(circuit, ["A"], (0, 0)) is circuit
    assert turn_parts(circuit, ["A"], 4) is circuit


@pytest.mark.parametrize("edit", [lambda c: turn_parts(c, "X", 1), lambda c: flip_parts(c, "X")])
def test_a_part_that_is_not_there_is_refused(edit: Callable[[Circuit], Circuit]) -> None:
    with pytest.raises(EditError, match='no part "X"'):
        edit(bench())


def test_nothing_is_moved_off_the_sheet() -> None:
    with pytest.raises(EditError, match=r"A\.at: lies farther"):
        move_by(bench(), ["A"], (1e6, 0))
    with pytest.raises(EditError, match=r"w1\.bends\[0\]: lies farther"):
        move_by(bench(("A", "B", ((200, 0),))), ["A", "B"], (99_900, 0))


def test_a_quarter_turn_clockwise_brings_what_is_right_down() -> None:
    circuit = bench(("A", "B", ((20, 10),)))
    turned = turn_parts(circuit, ["A", "B"], 1)
    assert [(p.at, p.turn) for p in turned.parts[:2]] == [((20, -20), 90), ((20, 20), 90)]
    assert bends(turned) == ((10, 0),)


RIGID = {
    "turn": lambda c, ids: turn_parts(c, ids, 1),
    "turn back": lambda c, ids: turn_parts(c, ids, -1),
    "flip": flip_parts,
    "move": lambda c, ids: move_by(c, ids, (3.5, -8.25)),
}


@pytest.mark.parametrize("edit", RIGID.values(), ids=RIGID.keys())
@given(circuit=circuits(), data=st.data())
def test_parts_arranged_together_keep_their_shape_and_every_net(
    edit: Callable[[Circuit, set[str]], Circuit], circuit: Circuit, data: st.DataObject
) -> None:
    assume(circuit.parts)
    assume(all(abs(x) < 1000 for p in circuit.parts for x in p.at))
    chosen = data.draw(st.sets(st.sampled_from([p.id for p in circuit.parts]), min_size=1))
    after = edit(circuit, chosen)
    assert circuit_problems(after) == []
    assert fixed_nets(after) == fixed_nets(circuit)
    before_lugs, after_lugs = lugs(circuit), lugs(after)
    inner = [lug for lug in circuit.lugs if split_lug(lug)[0] in chosen]
    for a, b in pairwise(inner):
        assert math.dist(after_lugs[a], after_lugs[b]) == pytest.approx(
            math.dist(before_lugs[a], before_lugs[b]), abs=1e-3
        )
    for wire in circuit.wires:
        if all(split_lug(end)[0] in chosen for end in wire.ends):
            now = bends(after, wire.id)
            assert len(now) == len(wire.bends)
            for old, new in zip(wire.bends, now, strict=True):
                for end in wire.ends:
                    assert math.dist(after_lugs[end], new) == pytest.approx(
                        math.dist(before_lugs[end], old), abs=1e-3
                    )


@given(circuits(most_wires=0), st.data())
def test_four_turns_and_two_flips_lead_back(circuit: Circuit, data: st.DataObject) -> None:
    assume(circuit.parts)
    assume(all(abs(x) < 1000 for p in circuit.parts for x in p.at))
    chosen = data.draw(st.sets(st.sampled_from([p.id for p in circuit.parts]), min_size=1))
    turned = circuit
    for _ in range(4):
        turned = turn_parts(turned, chosen, 1)
    for after in (turned, flip_parts(flip_parts(circuit, chosen), chosen)):
        for old, new in zip(circuit.parts, after.parts, strict=True):
            assert (new.turn, new.flip) == (old.turn, old.flip)
            assert new.at == pytest.approx(old.at, abs=1e-3)


def test_one_part_is_turned_and_flipped_where_it_is() -> None:
    circuit = Circuit(parts=(Part(id="V", kind="pot", at=(1 / 3, 2 / 3)),))
    assert turn_parts(circuit, ["V"], 1).parts[0].at == (1 / 3, 2 / 3)
    flipped = flip_parts(turn_parts(circuit, ["V"], 1), ["V"])
    assert (flipped.parts[0].turn, flipped.parts[0].flip) == (270, True)
    turned = lugs(turn_parts(circuit, ["V"], 1))
    for name, (x, y) in lugs(flipped).items():  # mirrored left to right as seen
        assert turned[name] == pytest.approx((2 / 3 - x, y))


def row() -> Circuit:
    """A long pickup, a round pot and a small jack, unevenly placed."""
    places = {"N": ("coil-2wire", (50, 10)), "V": ("pot", (120, 44)), "J": ("jack-ts", (260, 30))}
    return Circuit(parts=tuple(Part(id=i, kind=k, at=at) for i, (k, at) in places.items()))


@pytest.mark.parametrize(
    ("side", "edge", "best"),
    [
        ("left", lambda b: b.left, min),
        ("right", lambda b: b.right, max),
        ("top", lambda b: b.top, min),
        ("bottom", lambda b: b.bottom, max),
    ],
)
def test_aligned_bodies_have_one_edge_in_common(
    side: str, edge: Callable[[Box], float], best: Callable[[list[float]], float]
) -> None:
    before = boxes(row())
    after = boxes(align_parts(row(), "NVJ", side))
    wanted = best([edge(box) for box in before.values()])
    assert [edge(box) for box in after.values()] == pytest.approx([wanted] * 3, abs=1e-3)
    for name, box in after.items():
        across = side in {"left", "right"}
        same = (box.top, before[name].top) if across else (box.left, before[name].left)
        assert same[0] == same[1]


@pytest.mark.parametrize(("side", "axis"), [("middle", 0), ("centre", 1)])
def test_aligned_middles_are_level(side: str, axis: int) -> None:
    middle = common_middle(row(), "NVJ")[axis]
    after = boxes(align_parts(row(), "NVJ", side))
    assert [box.centre[axis] for box in after.values()] == pytest.approx([middle] * 3, abs=1e-3)


def test_distributed_bodies_have_equal_gaps_and_the_outermost_stay() -> None:
    after = distribute_parts(row(), ["J", "V", "N"], "across")
    found = boxes(after)
    first, second = found["V"].left - found["N"].right, found["J"].left - found["V"].right
    assert first == pytest.approx(second, abs=1e-3)
    assert first > 0
    assert (after.parts[0], after.parts[2]) == (row().parts[0], row().parts[2])
    assert after.parts[1].at[1] == 44


def test_what_has_no_room_is_spaced_by_its_middles() -> None:
    crowded = Circuit(
        parts=tuple(
            Part(id=f"N{n}", kind="coil-2wire", at=(x, 0)) for n, x in enumerate((0, 3, 20))
        )
    )
    after = distribute_parts(crowded, crowded.part_by_id, "across")
    assert [p.at[0] for p in after.parts] == [0, 10, 20]
    assert distribute_parts(crowded, ["N0", "N2"], "across") is crowded
