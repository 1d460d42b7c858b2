"""Reading and writing documents that are circuits."""

import json
from itertools import permutations
from typing import Any

import pytest
from hypothesis import given

from tests.circuit.papers import EXAMPLE, document, encoded, example, own_kind, part, wire
from tests.support.circuits import documents
from wirer.circuit.catalogue import catalogue
from wirer.circuit.document import read_document, write_document
from wirer.circuit.kind import ResistorElement
from wirer.circuit.model import Circuit, OutputLoad, Part, Waiver, Wanted, Wire
from wirer.circuit.stance import Stance, default_stance


def read(raw: Any) -> Circuit:
    return read_document(encoded(raw))[0]


def test_the_example_of_the_design_is_read_field_by_field() -> None:
    circuit, stance = read_document(EXAMPLE.encode())
    assert circuit.title == "Job 14"
    assert [p.id for p in circuit.parts] == ["N", "S1", "V"]
    assert circuit.part_by_id["N"] == Part(
        id="N",
        kind="coil-2wire",
        label="Neck",
        at=(40.0, 20.0),
        values={
            "resistance": "6k8", "inductance": "2.6", "capacitance": "110p",
            "winding": "cw", "pole": "north",
        },
    )  # fmt: skip
    switch = circuit.part_by_id["S1"]
    assert (switch.position_name("up"), switch.position_name("down")) == ("on", "off")
    assert switch.lug_labels == {"A0": "2"}
    assert circuit.part_by_id["V"].measured == {"resistance": "228k"}
    assert circuit.wires == (
        Wire(
            id="w1",
            from_lug="N.finish",
            to_lug="S1.A1",
            colour="WH",
            style="stranded",
            gauge="24 AWG",
            bends=((42.0, 60.0),),
        ),
    )
    assert circuit.output_load == OutputLoad("500p", "1M")
    assert circuit.wanted == (Wanted({"S1": "up"}, "N + M"),)
    assert circuit.waived == (Waiver("ground-loop", ("V.can",), "…"),)
    assert stance == Stance({"S1": "up"}, {"V.shaft": 1.0})


def test_only_four_fields_are_required() -> None:
    circuit, stance = read_document(b'{"format":"wirer","version":1,"parts":[],"wires":[]}')
    assert circuit == Circuit()
    assert stance == Stance()


def test_what_is_left_out_takes_the_default_of_the_design() -> None:
    parts = [part("S", "slide-2p2t"), part("V", "pot"), part("B", "pot-blend")]
    circuit, stance = read_document(encoded(document(parts=parts, wires=[wire()])))
    assert circuit.output_load == OutputLoad(cable="500p", input="1M")
    assert stance.positions == {"S": "up"}
    assert stance.rotations == {"V.shaft": 1.0, "B.shaft": 0.5}
    assert circuit.part_by_id["V"] == Part(id="V", kind="pot", at=(0, 0), turn=0, flip=False)
    [only] = circuit.wires
    assert (only.colour, only.gauge, only.bends, only.done) == ("", "", (), False)


def test_half_a_load_keeps_the_other_half() -> None:
    assert read(document(output_load={"cable": "900p"})).output_load == OutputLoad("900p", "1M")


def test_the_last_stance_is_read() -> None:
    parts = [
        part("S", "slide-2p2t", position="down"),
        part("V", "pot-concentric", rotation={"upper": 0, "lower": 0.25}),
    ]
    _, stance = read_document(encoded(document(parts=parts)))
    assert stance == Stance({"S": "down"}, {"V.upper": 0.0, "V.lower": 0.25})


WRONG_WIRING = [
    [],
    [wire(to="V.1")],
    [wire("w1"), wire("w2")],
    [wire(style="mount", colour="GNYE")],
    [wire(style="screened", screen_from="V.can")],
]


@pytest.mark.parametrize("wires", WRONG_WIRING)
def test_what_is_wrong_wiring_loads(wires: list[dict[str, Any]]) -> None:
    """No jack, a wire from a lug to itself, one wire twice: findings, no reason to refuse."""
    assert len(read(document(parts=[part()], wires=wires)).wires) == len(wires)


def test_two_jacks_load() -> None:
    assert len(read(document(parts=[part("J", "jack-ts"), part("K", "jack-trs")])).jacks) == 2


def test_a_wanted_sound_may_speak_of_coils_that_are_not_there_yet() -> None:
    assert read(document(wanted=[{"setting": {}, "sound": "N + M"}])).wanted[0].sound == "N + M"


def test_a_document_carries_its_own_kind() -> None:
    raw = document(kinds=[own_kind()], parts=[part("R", "trimmed-load")])
    circuit = read(raw)
    kind = circuit.kind_of(circuit.parts[0])
    assert kind.elements == (ResistorElement(between=("1", "2")),)
    assert circuit.lugs == ("R.1", "R.2")


def test_a_documents_own_kind_goes_before_the_catalogues() -> None:
    """So that it keeps its meaning when a later catalogue has a kind of that name."""
    raw = document(kinds=[own_kind(id="resistor")], parts=[part("R", "resistor")])
    circuit = read(raw)
    assert circuit.kind_of(circuit.parts[0]).name == "Trimmed load"


def test_bonds_in_a_circle_are_one_piece_of_metal() -> None:
    lugs = [{"name": name, "at": [x, 0]} for x, name in enumerate("abc")]
    bonds = [{"type": "bond", "lugs": pair} for pair in (["a", "b"], ["b", "c"], ["c", "a"])]
    raw = document(
        kinds=[own_kind(id="ring", lugs=lugs, elements=bonds)], parts=[part("B", "ring")]
    )
    assert read(raw).lugs == ("B.a", "B.b", "B.c")


def test_a_byte_order_mark_is_no_hindrance() -> None:
    assert read_document(b"\xef\xbb\xbf" + EXAMPLE.encode()) == read_document(EXAMPLE.encode())


def test_the_order_of_keys_does_not_matter() -> None:
    raw = document()
    assert {read(dict(keys)) for keys in permutations(raw.items())} == {Circuit()}


@given(documents())
def test_what_is_written_is_read_again(given_document: tuple[Circuit, Stance]) -> None:
    circuit, stance = given_document
    assert read_document(write_document(circuit, stance)) == (circuit, stance)


@given(documents(wired_like_a_guitar=True))
def test_a_guitar_is_read_again_in_its_stance(given_document: tuple[Circuit, Stance]) -> None:
    circuit, stance = given_document
    written = write_document(circuit, stance)
    assert read_document(written) == (circuit, stance)
    assert write_document(*read_document(written)) == written


def test_a_kind_of_ones_own_is_read_again() -> None:
    raw = document(kinds=[own_kind()], parts=[part("R", "trimmed-load")])
    circuit, stance = read_document(encoded(raw))
    assert read_document(write_document(circuit, stance)) == (circuit, stance)


def test_every_kind_of_the_catalogue_can_be_carried_along() -> None:
    circuit = Circuit(kinds=catalogue())
    assert read_document(write_document(circuit, Stance()))[0] == circuit


def test_what_is_as_by_default_is_not_written() -> None:
    circuit, stance = read_document(encoded(document(parts=[part()])))
    assert json.loads(write_document(circuit, stance)) == document(parts=[part()])


def test_a_document_is_written_one_part_and_one_wire_a_line() -> None:
    """So that a difference between two versions of a file can be read."""
    circuit, stance = read_document(EXAMPLE.encode())
    lines = write_document(circuit, stance).decode().splitlines()
    assert sum('{"id": ' in line for line in lines) == 4
    assert '    {"id": "w1", "from": "N.finish", "to": "S1.A1", "colour": "WH"' in "\n".join(lines)


def test_text_is_written_as_itself() -> None:
    circuit = Circuit(title="Größe 4.7 kΩ ∥ “…”")
    assert "Größe 4.7 kΩ ∥ “…”" in write_document(circuit, Stance()).decode()


def test_a_stance_of_an_earlier_circuit_is_written_as_far_as_it_holds() -> None:
    """Otherwise a file could be saved that can't be opened again."""
    circuit = read(document(parts=[part("S", "rotary-1p12t", values={"stop": "3"})]))
    stale = Stance({"S": "9", "gone": "up"}, {"gone.shaft": 0.5})
    assert read_document(write_document(circuit, stale))[1] == default_stance(circuit)


def test_half_a_surrogate_pair_does_not_keep_the_work_from_being_saved() -> None:
    circuit = Circuit(title="half \ud83d pair")
    assert read_document(write_document(circuit, Stance()))[0].title == "half ? pair"


def test_the_example_is_complete() -> None:
    """The design's example names every field of a document at its top."""
    assert list(example()) == [
        "format", "version", "title", "job", "notes", "parts", "wires", "output_load",
        "wanted", "waived", "kinds",
    ]  # fmt: skip
