"""The analysis against a plain solver over all lugs, on circuits at random."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.support import nodal
from tests.support.circuits import guitars, stances
from wirer.analysis.analyst import Analyst
from wirer.circuit.elements import Coil, circuit_elements
from wirer.circuit.model import Circuit
from wirer.circuit.stance import Stance


@st.composite
def guitars_in_a_stance(draw: st.DrawFn) -> tuple[Circuit, Stance]:
    circuit = draw(guitars())
    return circuit, draw(stances(circuit))


def coils_of(circuit: Circuit) -> list[Coil]:
    return [e for e in circuit_elements(circuit) if isinstance(e, Coil)]


@given(guitars_in_a_stance())
def test_weights_and_reading(drawn: tuple[Circuit, Stance]) -> None:
    circuit, stance = drawn
    analyst = Analyst(circuit, stance.rotations)
    table_states = [
        (switch.positions.index(stance.positions[switch.part]),)
        for switch in analyst.signal.switches
    ]
    found = analyst.combinations[analyst.survey(table_states)[0]]
    plain = nodal.transfers(circuit, stance, 100.0)
    expected = [
        plain[coil.name].real * coil.turns * coil.winding * coil.pole for coil in coils_of(circuit)
    ]
    assert found.weights == pytest.approx(expected, rel=1e-6, abs=1e-7)
    reading = nodal.resistance(circuit, stance)
    assert found.resistance == (
        None if reading is None else pytest.approx(reading, rel=1e-6, abs=1e-4)
    )
