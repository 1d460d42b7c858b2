"""What the rules find in the examples: nothing in the correct ones, each mistake in the last.

That these wirings are right or wrong is common practice; the notes of the practice loom say why.
"""

import re

import pytest

from tests.examples.sheets import CORRECT, MISTAKES, circuit
from wirer.rules.check import findings_of

# The mistakes by their number in the notes: the rule that must speak, and a place it must name.
SPOKEN = {
    1: ("ungrounded-metal", "E.1"),
    2: ("ungrounded-metal", "T2.can"),
    3: ("hot-metal", "N.braid"),
    4: ("lost-coil", "M.start"),
    5: ("reversed-coil", "B.Bs"),
    6: ("control-idle", "T1"),
    7: ("tone-backwards", "T2.3"),
    8: ("volume-backwards", "V.1"),
    9: ("same-sound", "S"),
    10: ("crowded-lug", "V.can"),
    11: ("screen-open", "w28"),
    12: ("ground-island", "F.1"),
    13: ("self-wired", "T2.1"),
    14: ("shorted-part", "C3"),
    15: ("unwired-part", "R"),
    16: ("bodies-collide", "C2"),
    17: ("long-bare-run", "S.B1"),
    18: ("value-unusual", "V"),
    19: ("value-assumed", "C1"),
    20: ("colour-misleads", "w16"),
    21: ("doubled-wire", "w16"),
    22: ("duplicate-label", "T1"),
    23: ("idle-actuator", "PN"),
}


@pytest.mark.parametrize("name", CORRECT)
def test_a_careful_builder_finds_nothing(name: str) -> None:
    found = findings_of(circuit(name))
    assert [f.message for f in found if f.severity != "note"] == []


@pytest.mark.parametrize("name", CORRECT)
def test_no_waiver_is_idle(name: str) -> None:
    assert "idle-waiver" not in {f.rule for f in findings_of(circuit(name))}


def test_the_notes_number_every_mistake() -> None:
    numbered = re.findall(r"^(\d+)\. ([A-Z]\w*)", circuit(MISTAKES).notes, re.MULTILINE)
    assert [int(number) for number, _ in numbered] == list(SPOKEN)
    assert {part for _, part in numbered} <= set(circuit(MISTAKES).part_by_id)


@pytest.mark.parametrize("number", SPOKEN)
def test_each_mistake_is_found_where_it_is(number: int) -> None:
    rule, place = SPOKEN[number]
    found = [f for f in findings_of(circuit(MISTAKES)) if f.rule == rule and place in f.places]
    assert len(found) == 1
