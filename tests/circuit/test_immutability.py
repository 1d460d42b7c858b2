"""Values that can't change: what undo, workers and comparison rely on."""

import pickle
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.support.circuits import circuits, documents
from wirer.circuit.catalogue import catalogue, catalogue_kind
from wirer.circuit.elements import circuit_elements
from wirer.circuit.errors import DocumentError, EditError, Problem, QuantityError
from wirer.circuit.files import FileError
from wirer.circuit.frozen import FrozenMap
from wirer.circuit.model import Circuit, OutputLoad, Part, Waiver, Wanted, Wire
from wirer.circuit.stance import Stance

MAPS = st.dictionaries(st.text(max_size=3), st.integers(), max_size=4)

RECORDS = [
    Part(id="V", kind="pot"),
    Wire(id="w1", from_lug="V.1", to_lug="V.2"),
    OutputLoad(),
    Wanted({"S": "up"}, "N"),
    Waiver("lost-coil"),
    Circuit(),
    Stance(),
    catalogue_kind("pot"),
    catalogue_kind("momentary").actuator,
]


@pytest.mark.parametrize("record", RECORDS, ids=lambda r: type(r).__name__)
def test_no_field_of_a_record_can_be_set(record: Any) -> None:
    for name in record.__struct_fields__:
        with pytest.raises(AttributeError):
            setattr(record, name, None)
        with pytest.raises(AttributeError):
            delattr(record, name)


@pytest.mark.parametrize("name", ["values", "measured", "position_labels", "lug_labels"])
def test_no_mapping_of_a_part_can_be_changed(name: str) -> None:
    part = Part(id="V", kind="pot", **{name: {"a": "b"}})  # type: ignore[arg-type]
    mapping: Any = getattr(part, name)
    with pytest.raises(TypeError):
        mapping["a"] = "c"
    with pytest.raises(TypeError):
        del mapping["a"]
    assert not any(hasattr(mapping, m) for m in ("update", "pop", "clear", "setdefault"))


def test_the_mapping_given_to_a_part_is_not_the_one_it_keeps() -> None:
    given_values = {"resistance": "1k"}
    part = Part(id="R", kind="resistor", values=given_values)
    given_values["resistance"] = "2k"
    assert part.values == {"resistance": "1k"}


def test_mappings_of_a_circuit_can_not_be_changed() -> None:
    circuit = Circuit(parts=(Part(id="V", kind="pot"),))
    mapping: Any = circuit.part_by_id
    with pytest.raises(TypeError):
        mapping["W"] = circuit.parts[0]
    contacts: Any = catalogue_kind("momentary").actuator
    with pytest.raises(TypeError):
        contacts.contacts["rest"] = ()


@given(MAPS)
def test_a_frozen_map_is_what_a_dict_is(items: dict[str, int]) -> None:
    frozen = FrozenMap(items)
    assert dict(frozen) == items
    assert list(frozen) == list(items)
    assert frozen == items
    assert items == frozen
    assert frozen == FrozenMap(dict(reversed(items.items())))
    assert hash(frozen) == hash(FrozenMap(dict(reversed(items.items()))))
    assert frozen != {**items, "one more": 1}
    assert pickle.loads(pickle.dumps(frozen)) == frozen
    assert FrozenMap.of(frozen) is frozen


@given(MAPS, st.text(max_size=3), st.integers())
def test_a_frozen_map_with_and_without_an_entry(items: dict[str, int], key: str, x: int) -> None:
    frozen = FrozenMap(items)
    assert frozen.having(key, x) == {**items, key: x}
    assert frozen.without(key) == {k: v for k, v in items.items() if k != key}
    assert frozen == items


def test_a_frozen_map_is_no_list() -> None:
    assert FrozenMap() != []
    assert repr(FrozenMap({"a": 1})) == "FrozenMap({'a': 1})"


@given(documents())
def test_circuits_and_stances_go_to_a_worker_and_back(document: tuple[Circuit, Stance]) -> None:
    """By pickle, also after what is worked out lazily was worked out."""
    circuit, stance = document
    _ = (circuit.part_by_id, circuit.lugs, circuit.switches, circuit.jacks, circuit.wire_by_id)
    there, turned = pickle.loads(pickle.dumps((circuit, stance)))
    assert (there, turned) == (circuit, stance)
    assert (hash(there), hash(turned)) == (hash(circuit), hash(stance))
    assert there.lugs == circuit.lugs
    elements = circuit_elements(circuit)
    assert pickle.loads(pickle.dumps(elements)) == elements


@given(circuits())
def test_equal_circuits_are_equal_keys(circuit: Circuit) -> None:
    again = Circuit(**{name: getattr(circuit, name) for name in circuit.__struct_fields__})
    assert {circuit: 1}[again] == 1
    assert circuit != Circuit(title=circuit.title + "!", parts=circuit.parts)


def test_the_catalogue_can_be_a_key_and_go_to_a_worker() -> None:
    kinds = catalogue()
    assert len(set(kinds)) == len(kinds)
    assert pickle.loads(pickle.dumps(kinds)) == kinds


@pytest.mark.parametrize(
    "error",
    [
        QuantityError("one line"),
        EditError("one line"),
        FileError("one line"),
        DocumentError([Problem("parts[0].id", "is odd"), Problem("", "is odd")], "job.wirer"),
    ],
    ids=lambda e: type(e).__name__,
)
def test_errors_come_back_from_a_worker(error: Exception) -> None:
    again = pickle.loads(pickle.dumps(error))
    assert (type(again), str(again)) == (type(error), str(error))


def test_an_error_is_one_line_whatever_is_in_it() -> None:
    assert str(EditError("a\nb\x1b[31m\u2028c")) == "a\\nb\\x1b[31m\\u2028c"
    assert str(DocumentError([Problem("a\nb", "c\td")], "e\rf")) == "e\\rf: a\\nb: c\\td"
    assert str(Problem("parts[0]", "two\nlines")) == "parts[0]: two\\nlines"
