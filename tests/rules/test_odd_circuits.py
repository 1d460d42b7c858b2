"""Circuits with nothing in them, with too much, and random ones: rules answer all of them."""

from __future__ import annotations

import random

import pytest
from hypothesis import given
from hypothesis import strategies as st
from msgspec.structs import replace

from tests.rules.loom import Loom, coil, two_coils
from tests.rules.test_speaking import CASES, Case
from tests.support.circuits import circuits, guitars
from wirer.circuit.model import Circuit
from wirer.rules.check import findings_of
from wirer.rules.finding import Finding
from wirer.rules.inspection import MOST_SETTINGS, TooManyToCheckError

NOTHING = {
    "nothing": Loom(),
    "only a jack": Loom().part("J", "jack-ts"),
    "no jack": coil(Loom(), "N", "Neck"),
    "only a switch": Loom().part("S", "slide-2p2t"),
    "only a pot": Loom().part("V", "pot"),
    "only a battery": Loom().part("X", "battery"),
    "no coil": Loom().part("J", "jack-ts").part("V", "pot").wire("V.2", "J.tip"),
    "no switch": coil(Loom().part("J", "jack-ts"), "N", "Neck").wire("N.finish", "J.tip"),
}


@pytest.mark.parametrize("name", NOTHING)
def test_circuits_with_little_in_them_are_inspected(name: str) -> None:
    found = findings_of(NOTHING[name].circuit())
    assert all(finding.message.endswith(".") for finding in found)
    assert ("jack-missing" in {f.rule for f in found}) == ("J" not in NOTHING[name].parts)


def many_switches(count: int) -> Circuit:
    loom = Loom()
    for n in range(count):
        loom.part(f"S{n}", "slide-2p2t")
    return loom.circuit()


def test_more_settings_than_rules_look_through_are_refused() -> None:
    assert MOST_SETTINGS == 65_536
    with pytest.raises(TooManyToCheckError, match=r"131,072 settings.*at most 65,536"):
        findings_of(many_switches(17))


@given(circuits())
def test_no_rule_fails_on_any_circuit(circuit: Circuit) -> None:
    lugs, parts, wires = set(circuit.lugs), set(circuit.part_by_id), set(circuit.wire_by_id)
    for finding in findings_of(circuit):
        assert set(finding.places) <= lugs | parts | wires | {
            place for waiver in circuit.waived for place in waiver.places
        }
        assert finding.settings != ()
        assert finding.message


@given(guitars())
def test_no_rule_fails_on_anything_like_a_guitar(circuit: Circuit) -> None:
    assert all(finding.message for finding in findings_of(circuit))


def told(finding: Finding) -> tuple[str, str]:
    return finding.rule, finding.severity


def shuffled(circuit: Circuit, seed: int) -> Circuit:
    """The circuit with its wires in another order, some of them the other way round."""
    chance = random.Random(seed)
    wires = [
        replace(
            w,
            from_lug=w.to_lug,
            to_lug=w.from_lug,
            bends=w.bends[::-1],
            screen_from=w.screen_to,
            screen_to=w.screen_from,
        )
        if chance.random() < 0.5
        else w
        for w in circuit.wires
    ]
    chance.shuffle(wires)
    return replace(circuit, wires=tuple(wires))


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.rule)
def test_the_order_of_wires_does_not_matter(case: Case) -> None:
    circuit = case.build().circuit()
    other = shuffled(circuit, 1)
    assert sorted(map(told, findings_of(other))) == sorted(map(told, findings_of(circuit)))


@given(guitars(), st.integers(0, 99))
def test_the_order_of_wires_never_matters(circuit: Circuit, seed: int) -> None:
    found, other = findings_of(circuit), findings_of(shuffled(circuit, seed))
    assert sorted(map(told, other)) == sorted(map(told, found))


def reordered(circuit: Circuit) -> Circuit:
    """The circuit with its parts in the opposite order but for the jacks, of which one counts."""
    jacks = tuple(part for part in circuit.parts if circuit.kind_of(part).output)
    others = tuple(part for part in circuit.parts if part not in jacks)
    return replace(circuit, parts=(*jacks, *reversed(others)))


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.rule)
def test_the_order_of_parts_does_not_matter(case: Case) -> None:
    circuit = case.build().circuit()
    assert {told(f) for f in findings_of(reordered(circuit))} == {
        told(f) for f in findings_of(circuit)
    }


def test_findings_come_gravest_first() -> None:
    found = findings_of(two_coils().cut("E.1", "G.6").cut("T.can", "G.4").circuit())
    ranks = [("error", "warning", "note").index(f.severity) for f in found]
    assert ranks == sorted(ranks)
    assert {"error", "warning"} <= {f.severity for f in found}
