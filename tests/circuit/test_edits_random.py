"""Any sequence of edits: what comes out is a circuit, or the edit was refused in one line."""

from __future__ import annotations

import pickle
from typing import Any

from hypothesis import assume, given
from hypothesis import strategies as st

from tests.support.circuits import IDS, POINTS, TEXTS, circuits, parts, wires
from wirer.circuit import edits
from wirer.circuit.catalogue import catalogue
from wirer.circuit.check import circuit_problems
from wirer.circuit.document import read_document, write_document
from wirer.circuit.errors import EditError
from wirer.circuit.model import Circuit
from wirer.circuit.stance import default_stance, fitted_stance
from wirer.circuit.values import known_value_names

WRONG = st.sampled_from(["", "4kk7", "up", "1", "no.such", "\n", "0"])


class Hand:
    """Somebody who edits: draws an edit and its arguments, right and wrong ones."""

    def __init__(self, draw: st.DrawFn, circuit: Circuit) -> None:
        self.draw = draw
        self.circuit = circuit

    def part(self) -> str:
        """The id of a part, mostly of one that is there."""
        return self.draw(st.sampled_from([*self.circuit.part_by_id, "Nobody"]))

    def wire(self) -> str:
        """The id of a wire, mostly of one that is there."""
        return self.draw(st.sampled_from([*self.circuit.wire_by_id, "nothing"]))

    def lug(self) -> str:
        """A lug, mostly one that is there."""
        return self.draw(st.sampled_from([*self.circuit.lugs, "Nobody.1"]))

    def key(self, part_id: str) -> str:
        """The name of a value or a lug or a position of a part, or none of them."""
        part = self.circuit.part_by_id.get(part_id)
        kind = self.circuit.kind_of(part) if part else catalogue()[0]
        names = [*known_value_names(kind), *(lug.name for lug in kind.lugs)]
        positions = kind.actuator.positions if kind.actuator else ()
        return self.draw(st.sampled_from([*names, *positions, "no.such"]))

    def add_part(self) -> Circuit:
        kind = self.draw(st.sampled_from(catalogue()))
        new = self.draw(parts(self.draw(IDS | WRONG), kind))
        return edits.add_parts(self.circuit, [new])

    def add_wire(self) -> Circuit:
        name = self.draw(IDS | WRONG)
        new = self.draw(wires(name, (self.lug(), self.lug()), [*self.circuit.lugs, "X.1"]))
        return edits.add_wires(self.circuit, [new])

    def move(self) -> Circuit:
        return edits.move_parts(self.circuit, {self.part(): self.draw(POINTS)})

    def set_value(self) -> Circuit:
        part_id = self.part()
        value = self.draw(
            st.sampled_from(["4k7", "2", "0.4", "audio", "ccw", "make", None]) | WRONG
        )
        edit = self.draw(st.sampled_from([edits.set_value, edits.set_measured]))
        return edit(self.circuit, part_id, self.key(part_id), value)

    def set_label(self) -> Circuit:
        part_id = self.part()
        edit = self.draw(st.sampled_from([edits.set_lug_label, edits.set_position_label]))
        return edit(self.circuit, part_id, self.key(part_id), self.draw(TEXTS))

    def turn(self) -> Circuit:
        turn = self.draw(st.sampled_from([0, 90, 180, 270]))
        return edits.change_part(self.circuit, self.part(), turn=turn, label=self.draw(TEXTS))

    def remove(self) -> Circuit:
        return edits.remove_parts(self.circuit, {self.part(), self.part()})

    def rename(self) -> Circuit:
        return edits.rename_part(self.circuit, self.part(), self.draw(IDS | WRONG))

    def rewire(self) -> Circuit:
        return edits.change_wire(self.circuit, self.wire(), to_lug=self.lug())

    def rename_wire(self) -> Circuit:
        return edits.change_wire(self.circuit, self.wire(), id=self.draw(IDS | WRONG))

    def cut(self) -> Circuit:
        return edits.remove_wires(self.circuit, {self.wire()})

    def swap(self) -> Circuit:
        return edits.swap_lugs(self.circuit, self.lug(), self.lug())

    EDITS = (
        add_part, add_wire, move, set_value, set_label, turn, remove, rename, rewire, rename_wire,
        cut, swap,
    )  # fmt: skip


@given(st.data(), circuits())
def test_any_edits_leave_a_circuit(data: st.DataObject, circuit: Circuit) -> None:
    stance = default_stance(circuit)
    for edit in data.draw(st.lists(st.sampled_from(Hand.EDITS), min_size=1, max_size=6)):
        before = pickle.dumps(circuit)
        edited = attempt(edit, Hand(data.draw, circuit))
        assert pickle.dumps(circuit) == before  # the value that was edited is as it was
        assert circuit_problems(edited) == []
        circuit = edited
        stance = fitted_stance(circuit, stance)
    assert read_document(write_document(circuit, stance)) == (circuit, stance)


def attempt(edit: Any, hand: Hand) -> Circuit:
    """The edited circuit, or the one before where the edit is refused."""
    try:
        edited: Circuit = edit(hand)
    except EditError as error:
        assert_one_line(str(error))
        return hand.circuit
    return edited


def assert_one_line(line: str) -> None:
    assert line.isprintable()
    assert line


@given(st.data(), circuits())
def test_an_edit_leaves_everything_else_the_same_object(
    data: st.DataObject, circuit: Circuit
) -> None:
    """So that what was worked out of an untouched part can be kept."""
    after = attempt(data.draw(st.sampled_from([Hand.move, Hand.turn])), Hand(data.draw, circuit))
    changed = [p.id for p, q in zip(circuit.parts, after.parts, strict=True) if p is not q]
    assert len(changed) <= 1
    assert after.wires is circuit.wires
    assert after.wanted is circuit.wanted


@given(circuits(), IDS)
def test_renaming_there_and_back_is_nothing(circuit: Circuit, new: str) -> None:
    taken = [name.lower() for name in (*circuit.part_by_id, *circuit.wire_by_id, new)]
    assume(len(set(taken)) == len(taken))  # a sound is read in any case
    for part in circuit.parts:
        there = edits.rename_part(circuit, part.id, new)
        assert new in there.part_by_id
        assert edits.rename_part(there, new, part.id) == circuit


@given(circuits())
def test_taking_a_circuit_apart_leaves_nothing(circuit: Circuit) -> None:
    empty = edits.remove_parts(circuit, [p.id for p in circuit.parts])
    assert (empty.parts, empty.wires) == ((), ())
    assert all(wanted.setting == {} for wanted in empty.wanted)
    assert all(waiver.places == () for waiver in empty.waived)
