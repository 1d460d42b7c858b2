"""Ids, labels, colours and styles that a builder need not think of."""

from __future__ import annotations

import networkx as nx
import pytest
from hypothesis import given

from tests.support.circuits import circuits
from tests.support.trade import one_volume_one_tone, wiring
from tests.support.wiring import Wiring
from wirer.circuit.catalogue import catalogue, catalogue_kind
from wirer.circuit.check import circuit_problems
from wirer.circuit.edits import add_parts, add_wires
from wirer.circuit.joints import fixed_nets
from wirer.circuit.model import Circuit, Wire
from wirer.circuit.numbering import Ids, Labels, new_part
from wirer.circuit.roles import SIGNAL_COLOURS, new_wire, wire_role
from wirer.rules.wiring import fixed_graph


def test_every_kind_can_be_added_again_and_again() -> None:
    circuit = Circuit()
    for kind in catalogue() * 2:
        circuit = add_parts(circuit, [new_part(circuit, kind, (0, 0))])
    labels = [part.label for part in circuit.parts]
    assert len(set(labels)) == len(labels)
    assert circuit_problems(circuit) == []


def test_parts_are_named_by_their_class_letter_and_their_kinds_name() -> None:
    """IEEE 315: R is a resistor, a variable one too; S a switch."""
    circuit = Circuit()
    for kind, label in (("pot", "Volume"), ("pot", "Volume"), ("slide-2p2t", None)):
        part = new_part(circuit, catalogue_kind(kind), (1, 2), 90, flip=True, label=label)
        circuit = add_parts(circuit, [part])
    assert [(p.id, p.label) for p in circuit.parts[:2]] == [("R1", "Volume"), ("R2", "Volume 2")]
    assert circuit.parts[2].id == "S1"
    assert catalogue_kind("slide-2p2t").name.startswith(circuit.parts[2].label)


@pytest.mark.parametrize(
    ("wished", "given_out"), [("N", "N2"), ("S1", "S3"), ("n", "n2"), ("X", "X"), ("w1", "w2")]
)
def test_an_id_that_is_taken_is_numbered_on(wished: str, given_out: str) -> None:
    bench = Wiring().part("N", "coil-2wire").part("S1", "slide-2p2t").part("S2", "slide-2p2t")
    assert Ids(bench.join("N.start S1.A0").circuit()).kept_or_next(wished) == given_out


def test_a_long_id_stays_an_id() -> None:
    bench = Wiring().part("N" * 64, "coil-2wire")
    ids = Ids(bench.circuit())
    for name in (ids.kept_or_next("N" * 64), ids.kept_or_next("N" * 64)):
        bench.part(name, "pot")
    assert len(bench.circuit().part_by_id) == 3


def test_a_number_in_a_label_is_counted_on() -> None:
    labels = Labels(Circuit())
    wished = ["Tone", "Tone", "Tone", "Tone 2", "", "", "4.7"]
    given_out = ["Tone", "Tone 2", "Tone 3", "Tone 4", "", "", "4.7"]
    assert [labels.kept_or_next(each) for each in wished] == given_out


@given(circuits())
def test_fixed_nets_are_what_the_graph_of_the_joints_has(circuit: Circuit) -> None:
    """networkx finds the same components."""
    lugs = frozenset(circuit.lugs)
    found = {frozenset(net) & lugs for net in nx.connected_components(fixed_graph(circuit))}
    assert set(fixed_nets(circuit)) == found - {frozenset()}


def guitar() -> Circuit:
    return one_volume_one_tone(wiring().part("N", "coil-2wire"), "N.finish").circuit()


def test_a_wire_is_of_ground_of_the_tip_or_other_signal() -> None:
    circuit = guitar()
    assert wire_role(circuit, "N.start", "J.sleeve") == "ground"
    assert wire_role(circuit, "N.start", "V.1") == "ground"  # on the sleeve by a wire
    assert wire_role(circuit, "N.start", "T.can") == "ground"  # metal, not grounded yet
    assert wire_role(circuit, "N.start", "V.2") == "hot"
    assert wire_role(circuit, "N.start", "V.3") == "signal"


def test_ground_is_black_hot_is_red_and_a_new_net_has_a_colour_of_its_own() -> None:
    circuit = guitar()
    assert new_wire(circuit, "N.start", "V.1").colour == "BK"
    assert new_wire(circuit, "V.2", "J.tip").colour == "RD"
    first = new_wire(circuit, "N.finish", "T.3")
    assert first.colour == SIGNAL_COLOURS[0]
    circuit = add_wires(circuit, [first])
    assert new_wire(circuit, "T.3", "V.3").colour == SIGNAL_COLOURS[0]  # its net has one
    assert new_wire(circuit, "N.start", "T.1").colour == SIGNAL_COLOURS[1]


def test_the_builders_own_code_is_kept() -> None:
    circuit = guitar()
    ground = Wire(id="g", from_lug="V.can", to_lug="J.sleeve", colour="GNYE")
    circuit = add_wires(circuit, [ground])
    assert new_wire(circuit, "N.start", "V.can").colour == "GNYE"
    chosen = new_wire(circuit, "N.start", "V.can", colour="BU", style="bare", gauge="24 AWG")
    assert (chosen.colour, chosen.style, chosen.gauge) == ("BU", "bare", "24 AWG")


def test_when_every_colour_is_in_use_the_least_used_is_taken() -> None:
    bench = Wiring().part("G", "terminal").part("H", "terminal")
    for n in range(2 * len(SIGNAL_COLOURS)):
        bench.part(f"S{n}", "slide-1p2t")
    circuit = bench.circuit()
    for n in range(2 * len(SIGNAL_COLOURS)):
        circuit = add_wires(circuit, [new_wire(circuit, f"S{n}.A0", f"S{n}.A1")])
    assert [w.colour for w in circuit.wires] == [*SIGNAL_COLOURS, *SIGNAL_COLOURS]


def test_a_jumper_on_one_part_is_solid() -> None:
    """Common practice: jumpers lug to lug are solid, what can move is stranded."""
    circuit = guitar()
    assert new_wire(circuit, "V.1", "V.can").style == "solid"
    assert new_wire(circuit, "V.1", "T.can").style == "stranded"
