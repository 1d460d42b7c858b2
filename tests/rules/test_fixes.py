"""Applying a fix gives a circuit in which that finding is gone and nothing new is wrong."""

from __future__ import annotations

import pickle
from functools import cache

import pytest

from tests.examples.sheets import MISTAKES, circuit
from tests.rules.loom import one_coil, two_coils
from tests.rules.test_customary import lever_three
from tests.rules.test_speaking import CASES
from wirer.circuit.check import circuit_problems
from wirer.circuit.model import Circuit
from wirer.rules.check import findings_of
from wirer.rules.finding import Finding
from wirer.rules.registry import all_rules


def rotary_without_stop() -> Circuit:
    loom = one_coil().cut("V.3", "T.2").cut("N.finish", "V.3")
    loom.part("S", "rotary-1p12t", label="Rotary")
    loom.wire("N.finish", "S.A0").chain("S.A1", "S.A2", "S.A3", "V.3")
    return loom.circuit()


OTHERS = {
    "ungrounded can": two_coils().cut("T.can", "G.4").circuit(),
    "no ground with room": lever_three().cut("E.1", "G.6").circuit(),
    "rotary without stop": rotary_without_stop(),
    "practice loom": circuit(MISTAKES),
}


@cache
def fixable() -> list[tuple[str, Circuit, Finding]]:
    """Every finding that offers a fix, in every circuit of the tests."""
    made = {f"{case.rule} {n}": case.build().circuit() for n, case in enumerate(CASES)} | OTHERS
    return [
        (f"{f.rule} in {name}", sheet, f)
        for name, sheet in made.items()
        for f in findings_of(sheet)
        if f.fix
    ]


EVERY = pytest.mark.parametrize(
    ("sheet", "finding"),
    [(sheet, finding) for _, sheet, finding in fixable()],
    ids=[name for name, _, _ in fixable()],
)


def fixed(sheet: Circuit, finding: Finding) -> Circuit:
    """The circuit with a finding's fix applied, in another process for all one knows."""
    assert finding.fix
    edit = pickle.loads(pickle.dumps(finding.fix.edit))
    return edit(sheet)


@EVERY
def test_the_finding_is_gone(sheet: Circuit, finding: Finding) -> None:
    after = findings_of(fixed(sheet, finding))
    assert (finding.rule, finding.message) not in {(f.rule, f.message) for f in after}


@EVERY
def test_no_error_is_new(sheet: Circuit, finding: Finding) -> None:
    before = {(f.rule, place) for f in findings_of(sheet) for place in f.places}
    after = findings_of(fixed(sheet, finding))
    new = [
        f for f in after if f.severity == "error" and not {(f.rule, p) for p in f.places} & before
    ]
    assert [f.message for f in new] == []


@EVERY
def test_what_it_gives_is_a_circuit(sheet: Circuit, finding: Finding) -> None:
    assert circuit_problems(fixed(sheet, finding)) == []
    assert fixed(sheet, finding) != sheet


@EVERY
def test_it_says_what_it_does(sheet: Circuit, finding: Finding) -> None:
    assert finding.fix
    assert finding.fix.text[0].islower()
    assert not finding.fix.text.endswith(".")


def test_many_rules_offer_one() -> None:
    offering = {finding.rule for _, _, finding in fixable()}
    assert len(offering) >= 12
    assert offering <= set(all_rules())
