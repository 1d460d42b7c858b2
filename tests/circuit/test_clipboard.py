"""Copying and pasting: what comes in is what was copied, beside what was there."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from msgspec.structs import replace

from tests.circuit.papers import OWN_KIND, document, encoded
from tests.support.circuits import TEXTS, circuits, documents
from tests.support.wiring import Wiring
from wirer.circuit.check import circuit_problems
from wirer.circuit.clipboard import copied_text, duplicate, excerpt, paste
from wirer.circuit.document import read_document
from wirer.circuit.edits import change_part
from wirer.circuit.errors import EditError
from wirer.circuit.model import Circuit, Part, Wire, split_lug
from wirer.circuit.stance import Stance, default_stance


def volume_and_tone() -> Circuit:
    """A volume and a tone control joined by a bent wire, with a wire on to a jack."""
    parts = (
        Part(id="V", kind="pot", label="Volume", at=(10, 20), measured={"resistance": "228k"}),
        Part(id="T", kind="pot", label="Tone", at=(50, 20)),
        Part(id="J", kind="jack-ts", label="Output", at=(90, 20)),
    )
    wires = (
        Wire(id="w1", from_lug="V.3", to_lug="T.2", bends=((30, 5),), colour="YE", done=True),
        Wire(id="w2", from_lug="V.2", to_lug="J.tip"),
        Wire(
            id="w3",
            from_lug="V.1",
            to_lug="T.1",
            style="screened",
            screen_from="V.can",
            screen_to="J.sleeve",
        ),
    )
    return Circuit(parts=parts, wires=wires)


def test_what_is_copied_is_a_document_of_the_parts_and_the_wires_among_them() -> None:
    source, _ = read_document(copied_text(volume_and_tone(), ["T", "V"]).encode())
    assert [p.id for p in source.parts] == ["V", "T"]
    assert [w.id for w in source.wires] == ["w1", "w3"]
    assert (source.wires[1].screen_from, source.wires[1].screen_to) == ("V.can", None)


def test_pasting_into_an_empty_circuit_gives_it_back() -> None:
    circuit = volume_and_tone()
    pasted = paste(Circuit(), copied_text(circuit, circuit.part_by_id))
    assert pasted.circuit == circuit
    assert (pasted.parts, pasted.wires) == (("V", "T", "J"), ("w1", "w2", "w3"))


def test_pasting_beside_the_original_numbers_ids_and_labels_and_moves_bends() -> None:
    circuit = volume_and_tone()
    text = copied_text(circuit, ["V", "T"])
    pasted = paste(circuit, text, at=(130, 120))
    new = [pasted.circuit.part_by_id[name] for name in pasted.parts]
    assert [(p.id, p.label, p.at) for p in new] == [
        ("V2", "Volume 2", (110, 120)),
        ("T2", "Tone 2", (150, 120)),
    ]
    wire = pasted.circuit.wire_by_id[pasted.wires[0]]
    assert (*wire.ends, wire.bends, wire.colour) == ("V2.3", "T2.2", ((130, 105),), "YE")
    again = paste(pasted.circuit, text)
    assert again.parts == ("V3", "T3")
    assert again.circuit.part_by_id["V3"].label == "Volume 3"


def test_another_specimen_is_neither_measured_nor_soldered() -> None:
    circuit = volume_and_tone()
    pasted = paste(circuit, copied_text(circuit, ["V", "T"]))
    assert pasted.circuit.part_by_id["V2"].measured == {}
    assert not pasted.circuit.wire_by_id[pasted.wires[0]].done
    moved_over = paste(Circuit(), copied_text(circuit, ["V", "T"])).circuit
    assert moved_over.part_by_id["V"].measured == {"resistance": "228k"}
    assert moved_over.wires[0].done


def test_without_a_place_a_copy_does_not_hide_what_it_was_copied_from() -> None:
    circuit = volume_and_tone()
    text = copied_text(circuit, ["V"])
    for _ in range(3):
        circuit = paste(circuit, text).circuit
    places = [p.at for p in circuit.parts]
    assert len(set(places)) == len(places)


def test_a_duplicate_lies_beside_and_stands_alike() -> None:
    circuit = Wiring().part("S", "slide-2p2t").circuit()
    made = duplicate(circuit, ["S"], Stance(positions={"S": "down"}), offset=(0, 25))
    assert made.parts == ("S2",)
    assert made.circuit.part_by_id["S2"].at == (0, 25)
    assert made.stance.positions == {"S2": "down"}


def own(kinds: list[dict[str, Any]]) -> Circuit:
    parts = [{"id": "L", "kind": OWN_KIND["id"]}]
    return read_document(encoded(document(kinds=kinds, parts=parts)))[0]


def test_a_kind_of_ones_own_comes_along() -> None:
    pasted = paste(Circuit(), copied_text(own([OWN_KIND]), ["L"])).circuit
    assert [kind.id for kind in pasted.kinds] == [OWN_KIND["id"]]
    assert len(paste(pasted, copied_text(pasted, ["L"])).circuit.kinds) == 1


def test_two_kinds_of_one_name_stay_two() -> None:
    other = own([{**OWN_KIND, "about": "another load"}])
    pasted = paste(own([OWN_KIND]), copied_text(other, ["L"])).circuit
    assert [p.kind for p in pasted.parts] == ["trimmed-load", "trimmed-load-2"]
    assert [pasted.kind_of(p).about for p in pasted.parts] == ["", "another load"]


def test_a_kind_that_hides_the_catalogues_does_not_change_what_is_pasted() -> None:
    hiding = own([OWN_KIND])
    hiding = replace(hiding, kinds=(replace(hiding.kinds[0], id="pot"),), parts=())
    text = copied_text(Wiring().part("V", "pot").circuit(), ["V"])
    pasted = paste(hiding, text).circuit
    assert pasted.kind_of(pasted.parts[0]).name == Circuit().kind("pot").name
    assert circuit_problems(pasted) == []


@pytest.mark.parametrize(
    "text",
    ["", "a shopping list", "{", '{"format": "wirer", "version": 2}', "\ud800", "\x00", "[1]"],
)
def test_what_is_no_circuit_is_refused_in_one_line(text: str) -> None:
    with pytest.raises(EditError, match=r"^what was copied is no circuit: ") as refusal:
        paste(Circuit(), text)
    assert str(refusal.value).isprintable()


def test_a_document_without_parts_and_an_empty_choice_are_refused() -> None:
    with pytest.raises(EditError, match="no part in it"):
        paste(Circuit(), encoded(document()).decode())
    with pytest.raises(EditError, match="nothing is chosen"):
        copied_text(volume_and_tone(), [])
    with pytest.raises(EditError, match='no part "Nobody"'):
        duplicate(volume_and_tone(), ["Nobody"])


@given(documents(), circuits(), st.data())
def test_anything_pastes_anywhere(
    source: tuple[Circuit, Stance], target: Circuit, data: st.DataObject
) -> None:
    circuit, stance = source
    assume(circuit.parts)
    chosen = data.draw(st.sets(st.sampled_from([p.id for p in circuit.parts]), min_size=1))
    pasted = paste(target, copied_text(circuit, chosen, stance), at=(12.5, -7.25))
    assert circuit_problems(pasted.circuit) == []
    assert pasted.circuit.parts[: len(target.parts)] == target.parts
    assert pasted.circuit.wires[: len(target.wires)] == target.wires
    copied = excerpt(circuit, chosen)
    names = dict(zip((p.id for p in copied.parts), pasted.parts, strict=True))
    for old, new in names.items():
        kinds = (
            circuit.kind_of(circuit.part_by_id[old]),
            pasted.circuit.kind(pasted.circuit.part_by_id[new].kind),
        )
        assert replace(kinds[1], id=kinds[0].id) == kinds[0]
        if old in stance.positions:
            assert pasted.stance.positions[new] == stance.positions[old]
    for wire, wire_id in zip(copied.wires, pasted.wires, strict=True):
        ends = [(names[part], lug) for part, lug in map(split_lug, wire.ends)]
        assert [tuple(split_lug(e)) for e in pasted.circuit.wire_by_id[wire_id].ends] == ends


@given(TEXTS)
def test_labels_come_out_unlike(label: str) -> None:
    circuit = change_part(Wiring().part("V", "pot").circuit(), "V", label=label)
    for _ in range(3):
        circuit = duplicate(circuit, ["V"], default_stance(circuit)).circuit
    labels = [p.label for p in circuit.parts]
    assert len(set(labels)) == (4 if label else 1)
