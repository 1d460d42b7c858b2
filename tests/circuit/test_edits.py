"""Edits: what each makes of a circuit, what it leaves alone, and what it refuses."""

from typing import Any

import msgspec
import pytest

from tests.circuit.papers import OWN_KIND
from wirer.circuit import edits
from wirer.circuit.check import MOST, circuit_problems
from wirer.circuit.document import read_document, write_document
from wirer.circuit.errors import EditError
from wirer.circuit.kind import Kind
from wirer.circuit.model import Circuit, OutputLoad, Part, Waiver, Wanted, Wire
from wirer.circuit.stance import default_stance

CIRCUIT = Circuit(
    title="Job 14",
    parts=(
        Part(id="N", kind="coil-2wire", label="Neck"),
        Part(id="M", kind="humbucker-4wire", values={"resistance": "4k"}),
        Part(id="S", kind="rotary-2p6t", values={"stop": "4"}),
        Part(id="V", kind="pot", at=(90.0, 70.0), measured={"resistance": "228k"}),
        Part(id="J", kind="jack-ts"),
    ),
    wires=(
        Wire(id="w1", from_lug="N.finish", to_lug="S.A1"),
        Wire(id="w2", from_lug="S.A0", to_lug="V.3", bends=((1.0, 2.0),)),
        Wire(
            id="w3", from_lug="V.2", to_lug="J.tip", style="screened",
            screen_from="V.can", screen_to="J.sleeve",
        ),
        Wire(id="w4", from_lug="V.1", to_lug="V.can"),
    ),
    wanted=(
        Wanted({"S": "1"}, "N + M"),
        Wanted({"S": "4"}, "−M.A ∥ N"),
        Wanted({}, "silent"),
    ),
    waived=(
        Waiver("ground-loop", ("V.can", "w4")),
        Waiver("lost-coil", ("N",)),
        Waiver("no-signal"),
    ),
)  # fmt: skip


def refused(edit: Any, *arguments: Any, **fields: Any) -> str:
    with pytest.raises(EditError) as error:
        edit(CIRCUIT, *arguments, **fields)
    line = str(error.value)
    assert line.isprintable()
    return line


def test_what_is_edited_here_is_a_circuit() -> None:
    assert circuit_problems(CIRCUIT) == []


def test_parts_are_added_at_the_end() -> None:
    cap, bus = Part(id="C", kind="capacitor"), Part(id="G", kind="bus")
    after = edits.add_parts(CIRCUIT, [cap, bus])
    assert after.parts == (*CIRCUIT.parts, cap, bus)
    assert all(a is b for a, b in zip(after.parts, CIRCUIT.parts, strict=False))
    assert after.wires is CIRCUIT.wires


@pytest.mark.parametrize(
    ("part", "line"),
    [
        (Part(id="N", kind="pot"), '"N" is the id of another part or wire'),
        (Part(id="w1", kind="pot"), '"w1" is the id of another part or wire'),
        (Part(id="4", kind="pot"), '4.id: "4" is not a part id; write a letter, then letters, '
         "figures or _"),
        (Part(id="C", kind="capacitator"), 'C.kind: there is no kind "capacitator"; is it '
         "capacitor?"),
        (Part(id="C", kind="capacitor", values={"capacitance": "22x"}),
         'C.values.capacitance: "22x" is not a capacitance; write for example 22n'),
        (Part(id="C", kind="capacitor", at=(float("nan"), 0.0)),
         "C.at: lies farther than 100000 mm out; write millimetres"),
    ],
)  # fmt: skip
def test_a_part_that_can_not_be_is_not_added(part: Part, line: str) -> None:
    assert refused(edits.add_parts, [part]) == line


def test_two_new_parts_of_one_id_are_not_added() -> None:
    twins = [Part(id="C", kind="capacitor"), Part(id="C", kind="resistor")]
    assert refused(edits.add_parts, twins) == '"C" is the id of another part or wire'


def test_no_more_is_added_than_can_be_read_again() -> None:
    parts = [Part(id=f"P{n}", kind="terminal") for n in range(MOST["parts"])]
    assert refused(edits.add_parts, parts).startswith(f"parts: {MOST['parts'] + 5} parts are more")
    wires = [Wire(id=f"x{n}", from_lug="V.1", to_lug="V.2") for n in range(MOST["wires"])]
    assert refused(edits.add_wires, wires).startswith(f"wires: {MOST['wires'] + 4} wires are more")


def test_a_part_is_changed_and_the_others_are_the_same_objects() -> None:
    after = edits.change_part(CIRCUIT, "V", label="Volume", turn=90, flip=True)
    changed = after.part_by_id["V"]
    assert (changed.label, changed.turn, changed.flip) == ("Volume", 90, True)
    assert changed.measured is CIRCUIT.part_by_id["V"].measured
    assert [p is q for p, q in zip(after.parts, CIRCUIT.parts, strict=True)] == [
        True, True, True, False, True,
    ]  # fmt: skip
    assert after.wires is CIRCUIT.wires


def test_a_parts_id_and_kind_are_not_changed_by_the_way() -> None:
    for fields in ({"id": "W"}, {"kind": "pot-dual"}):
        line = refused(edits.change_part, "V", **fields)
        assert line == "the id and the kind of V can't be changed like its other fields"


def test_there_is_nothing_to_change_of_what_is_not_there() -> None:
    assert refused(edits.change_part, "X", label="x") == 'there is no part "X"'
    assert refused(edits.move_parts, {"X": (0.0, 0.0)}) == 'there is no part "X"'
    assert refused(edits.set_value, "X", "resistance", "1k") == 'there is no part "X"'
    assert refused(edits.remove_parts, ["V", "X"]) == 'there is no part "X"'
    assert refused(edits.rename_part, "X", "Y") == 'there is no part "X"'
    assert refused(edits.change_wire, "x", colour="BK") == 'there is no wire "x"'
    assert refused(edits.remove_wires, ["x"]) == 'there is no wire "x"'


def test_parts_are_moved_together() -> None:
    after = edits.move_parts(CIRCUIT, {"V": (1.0, 2.0), "J": (3.0, 4.0)})
    assert [p.at for p in after.parts] == [(0, 0), (0, 0), (0, 0), (1, 2), (3, 4)]
    assert after.parts[0] is CIRCUIT.parts[0]
    line = refused(edits.move_parts, {"V": (0.0, 0.0), "J": (1e6, 0.0)})
    assert line == "J.at: lies farther than 100000 mm out; write millimetres"


def test_values_are_set_and_left_to_the_kind() -> None:
    set_ = edits.set_value(CIRCUIT, "V", "resistance", "500k")
    assert set_.part_by_id["V"].values == {"resistance": "500k"}
    assert set_.part_by_id["V"].measured == {"resistance": "228k"}
    unset = edits.set_value(set_, "V", "resistance", None)
    assert unset == CIRCUIT
    measured = edits.set_measured(CIRCUIT, "V", "resistance", None)
    assert measured.part_by_id["V"].measured == {}
    table = ((0.0, 0.0), (1.0, 1.0))
    assert edits.set_value(CIRCUIT, "V", "taper", table).part_by_id["V"].values["taper"] == table
    assert edits.set_value(CIRCUIT, "V", "taper", None) == CIRCUIT


def test_a_wrong_value_is_not_set() -> None:
    line = refused(edits.set_value, "V", "resistance", "4kk7")
    assert line == 'V.values.resistance: "4kk7" is not a resistance; write for example 4k7'
    line = refused(edits.set_measured, "V", "ohm", "4k7")
    assert line == 'V.measured.ohm: pot has no value "ohm"; it has end, resistance, share, taper'


def test_labels_are_set_and_taken_away() -> None:
    named = edits.set_position_label(CIRCUIT, "S", "1", "neck")
    assert named.part_by_id["S"].position_name("1") == "neck"
    assert edits.set_position_label(named, "S", "1", "") == CIRCUIT
    named = edits.set_lug_label(CIRCUIT, "S", "A0", "7")
    assert named.part_by_id["S"].lug_labels == {"A0": "7"}
    assert edits.set_lug_label(named, "S", "A0", "") == CIRCUIT
    assert refused(edits.set_lug_label, "V", "4", "x") == (
        'V.lug_labels: pot has no lug "4"; it has 1, 2, 3, can'
    )
    assert refused(edits.set_position_label, "V", "up", "x") == (
        'V.position_labels: pot has no position "up"; it is no switch'
    )


def test_a_stop_is_not_set_below_a_wanted_setting() -> None:
    """It would leave a document that can't be opened again."""
    line = refused(edits.set_value, "S", "stop", "3")
    assert line == '"−M.A ∥ N" is wanted there: S has no position "4"; it has 1, 2, 3'
    assert edits.set_value(CIRCUIT, "S", "stop", "5").part_by_id["S"].values == {"stop": "5"}


def test_a_removed_part_takes_its_wires_and_what_is_said_of_it_along() -> None:
    after = edits.remove_parts(CIRCUIT, ["N"])
    assert [p.id for p in after.parts] == ["M", "S", "V", "J"]
    assert [w.id for w in after.wires] == ["w2", "w3", "w4"]
    assert after.wanted == (Wanted({}, "silent"),)
    assert after.waived == (CIRCUIT.waived[0], CIRCUIT.waived[2])
    assert after.wires[0] is CIRCUIT.wires[1]


def test_a_removed_switch_takes_the_settings_that_name_it_along() -> None:
    after = edits.remove_parts(CIRCUIT, ["S"])
    assert after.wanted == (Wanted({}, "silent"),)
    assert [w.id for w in after.wires] == ["w3", "w4"]


def test_a_screen_that_ended_at_a_removed_part_ends_nowhere() -> None:
    screened = Wire(
        id="w9", from_lug="N.finish", to_lug="V.2", style="screened",
        screen_from="J.sleeve", screen_to="V.can",
    )  # fmt: skip
    after = edits.remove_parts(edits.add_wires(CIRCUIT, [screened]), ["J"])
    left = after.wire_by_id["w9"]
    assert (left.screen_from, left.screen_to) == (None, "V.can")
    assert "w3" not in after.wire_by_id


def test_nothing_that_was_waived_of_a_removed_part_excuses_a_later_one() -> None:
    after = edits.remove_parts(CIRCUIT, ["V"])
    again = edits.add_parts(after, [Part(id="V", kind="pot")])
    assert [w.rule for w in again.waived] == ["lost-coil", "no-signal"]


def test_removing_nothing_changes_nothing() -> None:
    assert edits.remove_parts(CIRCUIT, []) == CIRCUIT
    assert edits.remove_wires(CIRCUIT, []) == CIRCUIT


def test_a_part_is_renamed_everywhere() -> None:
    after = edits.rename_part(CIRCUIT, "N", "Neck_1")
    assert [p.id for p in after.parts] == ["Neck_1", "M", "S", "V", "J"]
    assert after.wires[0].ends == ("Neck_1.finish", "S.A1")
    assert [w.sound for w in after.wanted] == ["Neck_1 + M", "−M.A ∥ Neck_1", "silent"]
    assert after.waived[1].places == ("Neck_1",)
    assert circuit_problems(after) == []


def test_a_renamed_pot_keeps_its_screens_and_what_is_waived() -> None:
    after = edits.rename_part(CIRCUIT, "V", "Vol")
    wire = after.wire_by_id["w3"]
    assert (wire.ends, wire.screen_from, wire.screen_to) == (
        ("Vol.2", "J.tip"), "Vol.can", "J.sleeve",
    )  # fmt: skip
    assert after.wire_by_id["w4"].ends == ("Vol.1", "Vol.can")
    assert after.waived[0].places == ("Vol.can", "w4")
    assert after.wires[0] is CIRCUIT.wires[0]


def test_a_renamed_switch_keeps_its_settings() -> None:
    after = edits.rename_part(CIRCUIT, "S", "M2")
    assert [w.setting for w in after.wanted] == [{"M2": "1"}, {"M2": "4"}, {}]
    assert [w.sound for w in after.wanted] == [w.sound for w in CIRCUIT.wanted]


def test_a_renamed_coil_is_renamed_in_the_sounds_that_name_it_and_in_no_other() -> None:
    sounds = ["N+NN", "n + M", "M.A || -N", "(N.A+N.B)", "Neck + N", "N M", "silent", "Big N"]
    wanted = tuple(Wanted({}, sound) for sound in sounds)
    circuit = edits.change_circuit(CIRCUIT, wanted=wanted)
    after = edits.rename_part(circuit, "N", "X")
    assert [w.sound for w in after.wanted] == [
        "X+NN", "X + M", "M.A || -X", "(X.A+X.B)", "Neck + X", "N M", "silent", "Big N",
    ]  # fmt: skip


@pytest.mark.parametrize(
    ("new", "line"),
    [
        ("M", '"M" is the id of another part or wire'),
        ("w1", '"w1" is the id of another part or wire'),
        ("1N", 'N.id: "1N" is not a part id; write a letter, then letters, figures or _'),
        ("", 'N.id: "" is not a part id; write a letter, then letters, figures or _'),
        ("N.1", 'N.id: "N.1" is not a part id; write a letter, then letters, figures or _'),
    ],
)
def test_a_part_gets_no_id_that_can_not_be(new: str, line: str) -> None:
    assert refused(edits.rename_part, "N", new) == line


def test_renaming_to_the_same_name_is_nothing() -> None:
    assert edits.rename_part(CIRCUIT, "N", "N") is CIRCUIT


def test_wires_are_added_at_the_end() -> None:
    wire = Wire(id="w5", from_lug="N.start", to_lug="J.sleeve")
    after = edits.add_wires(CIRCUIT, [wire])
    assert after.wires == (*CIRCUIT.wires, wire)
    assert after.parts is CIRCUIT.parts


@pytest.mark.parametrize(
    ("fields", "line"),
    [
        ({"id": "w1"}, '"w1" is the id of another part or wire'),
        ({"id": "V"}, '"V" is the id of another part or wire'),
        ({"id": "w 5"}, 'w 5.id: "w 5" is not a wire id; write for example w1'),
        ({"to_lug": "V.4"}, 'w5.to: there is no lug "V.4"; V has 1, 2, 3, can'),
        ({"colour": "RED"}, 'w5.colour: "RED" is not a colour of IEC 60757; write BK, BN, RD, OG, '
         "YE, GN, BU, VT, GY, WH, PK, TQ, GD, SR or a pair such as GNYE"),
    ],
)  # fmt: skip
def test_a_wire_that_can_not_be_is_not_added(fields: dict[str, str], line: str) -> None:
    wire = Wire(**{"id": "w5", "from_lug": "V.1", "to_lug": "V.2", **fields})  # type: ignore[arg-type]
    assert refused(edits.add_wires, [wire]) == line


def test_a_wire_is_rewired_coloured_and_bent() -> None:
    after = edits.change_wire(CIRCUIT, "w2", to_lug="V.2", colour="BU", bends=(), done=True)
    assert after.wire_by_id["w2"] == Wire(
        id="w2", from_lug="S.A0", to_lug="V.2", colour="BU", done=True
    )
    assert after.wires[0] is CIRCUIT.wires[0]
    assert after.parts is CIRCUIT.parts


def test_a_wire_can_be_called_otherwise_and_keeps_what_is_waived_of_it() -> None:
    after = edits.change_wire(CIRCUIT, "w4", id="ground")
    assert after.wire_by_id["ground"].ends == ("V.1", "V.can")
    assert after.waived[0].places == ("V.can", "ground")
    assert refused(edits.change_wire, "w4", id="w1") == '"w1" is the id of another part or wire'
    assert refused(edits.change_wire, "w4", id="V") == '"V" is the id of another part or wire'


def test_a_wire_is_not_soldered_to_nothing() -> None:
    line = refused(edits.change_wire, "w2", to_lug="X.1")
    assert line == 'w2.to: there is no lug "X.1"; there is no part "X"'
    line = refused(edits.change_wire, "w2", screen_to="J.sleeve")
    assert line == 'w2.style: a stranded wire has no screen; write "screened"'


def test_removed_wires_are_gone_with_what_is_waived_of_them() -> None:
    after = edits.remove_wires(CIRCUIT, ["w4", "w1"])
    assert [w.id for w in after.wires] == ["w2", "w3"]
    assert [w.rule for w in after.waived] == ["lost-coil", "no-signal"]
    assert after.parts is CIRCUIT.parts


def test_the_wires_of_two_lugs_are_swapped() -> None:
    """Common practice: a pot turns the wrong way, so its outer lugs are exchanged."""
    after = edits.swap_lugs(CIRCUIT, "V.1", "V.3")
    assert after.wire_by_id["w2"].ends == ("S.A0", "V.1")
    assert after.wire_by_id["w4"].ends == ("V.3", "V.can")
    assert edits.swap_lugs(after, "V.3", "V.1") == CIRCUIT


def test_the_rest_of_a_circuit_is_changed_as_a_whole() -> None:
    after = edits.change_circuit(CIRCUIT, title="Job 15", output_load=OutputLoad("900p", "500k"))
    assert (after.title, after.output_load.cable) == ("Job 15", "900p")
    assert after.parts is CIRCUIT.parts
    assert refused(edits.change_circuit, output_load=OutputLoad("9", "0")) == (
        "output_load.input: an input of 0 Ω shorts the guitar; write 1M"
    )
    assert refused(edits.change_circuit, wanted=(Wanted({"S": "6"}, "N"),)) == (
        'wanted[0].setting: S has no position "6"; it has 1, 2, 3, 4'
    )


def test_a_kind_that_is_in_use_can_not_be_taken_away() -> None:
    own = msgspec.convert(OWN_KIND, Kind)
    circuit = edits.add_parts(
        edits.change_circuit(CIRCUIT, kinds=(own,)), [Part(id="R", kind=own.id)]
    )
    with pytest.raises(EditError, match=r'^parts\[5\].kind: there is no kind "trimmed-load"'):
        edits.change_circuit(circuit, kinds=())


def test_a_free_id_is_the_first_that_nothing_has() -> None:
    assert edits.free_id(CIRCUIT, "w") == "w5"
    assert edits.free_id(CIRCUIT, "C") == "C1"
    assert edits.free_id(edits.remove_wires(CIRCUIT, ["w2"]), "w") == "w2"


def test_what_was_edited_can_be_saved_and_opened() -> None:
    after = edits.rename_part(edits.remove_parts(CIRCUIT, ["M"]), "V", "Vol")
    stance = default_stance(after)
    assert read_document(write_document(after, stance)) == (after, stance)
