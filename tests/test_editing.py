"""Thousands of edits of every sort: a circuit each time, undone to the start, at little cost."""

from __future__ import annotations

import gc
import pickle
import tracemalloc
from collections.abc import Iterator
from random import Random

import pytest
from hypothesis import settings
from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, initialize, invariant, rule

from tests.support.circuits import circuits
from tests.support.monkey import EDITS, Edit, edited
from wirer.circuit.check import circuit_problems
from wirer.circuit.document import read_document, write_document
from wirer.circuit.files import read_file
from wirer.circuit.model import Circuit
from wirer.circuit.resources import resource_root
from wirer.circuit.stance import default_stance, fitted_stance
from wirer.layout.placement import place_parts
from wirer.window.history import History


class Editing(RuleBasedStateMachine):
    """A session of edits, undos, redos, saves and loads."""

    @initialize(start=circuits(most_parts=4, most_wires=6))
    def open(self, start: Circuit) -> None:
        self.start = start
        self.bytes_at_start = pickle.dumps(start)
        self.history = History(start)
        self.line = [start]
        self.place = 0

    @rule(some=st.lists(st.tuples(st.sampled_from(EDITS), st.integers(0, 9999)), max_size=9))
    def edit(self, some: list[tuple[Edit, int]]) -> None:
        for edit, seed in some:
            after = edited(self.history.circuit, edit, Random(seed))
            if after is not self.history.circuit:
                self.history.do(edit.__name__, after)
                self.place += 1
                self.line = [*self.line[: self.place], after]
                assert circuit_problems(after) == []

    @rule()
    def undo(self) -> None:
        assert self.history.undo() == (self.place > 0)
        self.place = max(0, self.place - 1)

    @rule()
    def redo(self) -> None:
        further = self.place + 1 < len(self.line)
        assert self.history.redo() == further
        self.place += further

    @rule()
    def save_and_load(self) -> None:
        circuit = self.history.circuit
        stance = fitted_stance(circuit, default_stance(self.start))
        assert read_document(write_document(circuit, stance)) == (circuit, stance)

    @invariant()
    def what_is_shown_is_a_circuit_and_the_one_of_its_place(self) -> None:
        circuit = self.history.circuit
        assert circuit is self.line[self.place]
        assert circuit_problems(circuit) == []
        assert len(place_parts(circuit)) == len(circuit.parts)

    def teardown(self) -> None:
        if not hasattr(self, "history"):
            return
        while self.history.undo():
            pass
        assert self.history.circuit is self.start
        self.start.forget()
        assert pickle.loads(self.bytes_at_start) == self.start


def session(steps: int, examples: int) -> type:
    """A test case of so many sessions of so many steps."""
    case: type = Editing.TestCase
    chosen = settings(max_examples=examples, stateful_step_count=steps)
    return type(case.__name__, (case,), {"settings": chosen})


TestEditing = session(steps=30, examples=20)
TestTenThousandEdits = pytest.mark.study(session(steps=150, examples=150))


def edited_often(count: int, chance: Random) -> list[Circuit]:
    """What a history of so many edits keeps."""
    circuit, _ = read_file(
        str(resource_root() / "examples" / "01-baritone-three-coils-series.wirer")
    )
    kept = [circuit]
    while len(kept) <= count:
        after = edited(circuit, chance.choice(EDITS), chance)
        circuit.forget()
        if after is not circuit:
            kept.append(after)
            circuit = after
    circuit.forget()
    return kept


def kept_and_left(count: int, chance: Random) -> tuple[int, int]:
    """The bytes that a history of so many edits keeps, and those left once it is cleared."""
    history = edited_often(count, chance)
    gc.collect()
    held = tracemalloc.get_traced_memory()[0]
    history.clear()
    gc.collect()
    left = tracemalloc.get_traced_memory()[0]
    return held - left, left


@pytest.fixture
def tracing() -> Iterator[None]:
    tracemalloc.start()
    yield
    tracemalloc.stop()


@pytest.mark.usefixtures("tracing")
def test_an_edit_keeps_no_more_than_a_few_kilobytes() -> None:
    kept_bytes, _ = kept_and_left(600, Random(1))
    assert kept_bytes < 600 * 4096


@pytest.mark.study
@pytest.mark.usefixtures("tracing")
def test_ten_thousand_edits_keep_a_few_kilobytes_each_and_give_them_back() -> None:
    _, first_left = kept_and_left(10_000, Random(1))  # fills what is remembered up to a bound
    kept_bytes, left = kept_and_left(10_000, Random(2))
    assert kept_bytes < 10_000 * 4096
    assert left - first_left < 0.05 * kept_bytes


def test_what_is_forgotten_is_worked_out_again() -> None:
    circuit = Circuit(parts=edited(Circuit(), EDITS[0], Random(1)).parts)
    lugs, whole = circuit.lugs, pickle.dumps(circuit)
    circuit.forget()
    assert vars(circuit) == {}
    assert circuit.lugs == lugs
    assert pickle.loads(whole) == circuit
