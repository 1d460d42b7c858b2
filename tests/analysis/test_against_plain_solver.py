"""The analysis against a plain solver over all lugs, on circuits at random.

The analysis contracts, prunes, reduces and solves many networks at once; the plain solver does
none of it.
"""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.support import nodal, trade
from tests.support.surveys import Case, coils_of, combination_in, guitars_in_a_stance
from tests.support.tangles import tangles
from tests.support.wiring import stance_of
from wirer.analysis.analyst import Analyst
from wirer.analysis.combination import Combination
from wirer.analysis.facts import states_of
from wirer.analysis.harness import Harness
from wirer.analysis.voice import AUDIBLE
from wirer.circuit.model import Circuit

HERTZ = (35.0, 1000.0, 7300.0)


@given(guitars_in_a_stance() | tangles())
def test_weights_and_reading(drawn: Case) -> None:
    circuit, stance = drawn
    found = combination_in(Analyst(circuit, stance.rotations), stance)
    plain = nodal.transfers(circuit, stance, 100.0)
    expected = [
        plain[coil.name].real * coil.turns * coil.winding * coil.pole for coil in coils_of(circuit)
    ]
    assert found.weights == pytest.approx(expected, rel=1e-6, abs=1e-7)
    reading = nodal.resistance(circuit, stance)
    expected_ohm = None if reading is None else pytest.approx(reading, rel=1e-6, abs=1e-4)
    assert found.resistance == expected_ohm


def on_the_edge(found: Combination) -> bool:
    """Whether a rounding decides if some coil sounds."""
    return any(0.999 < abs(weight) / AUDIBLE < 1.001 for weight in found.weights)


@given(guitars_in_a_stance() | tangles())
def test_hum_and_silence(drawn: Case) -> None:
    circuit, stance = drawn
    found = combination_in(Analyst(circuit, stance.rotations), stance)
    plain = nodal.transfers(circuit, stance, 100.0)
    heard = {c.name: plain[c.name] * c.turns * c.winding for c in coils_of(circuit)}
    heard = {name: value for name, value in heard.items() if abs(value) >= AUDIBLE}
    if found.silent is None and not on_the_edge(found):
        gross = sum(map(abs, heard.values()))
        assert found.hum == pytest.approx(abs(sum(heard.values())) / gross, abs=1e-6)
    if found.silent == "shorted":
        reading = nodal.resistance(circuit, stance)
        assert reading is not None
        assert reading < 1
    if found.silent == "open":
        assert max(map(abs, plain.values()), default=0) < 1e-7


@given(guitars_in_a_stance() | tangles())
def test_response(drawn: Case) -> None:
    circuit, stance = drawn
    found = combination_in(Analyst(circuit, stance.rotations), stance)
    if found.silent or found.voice is None or on_the_edge(found):
        assert not found.silent or (found.level_db, found.resonance) == (None, None)
        return
    at_100 = nodal.transfers(circuit, stance, 100.0)
    volts = {
        coil.name: np.copysign(coil.level_volt * coil.turns, at_100[coil.name].real)
        for coil, weight in zip(coils_of(circuit), found.weights, strict=True)
        if abs(weight) >= AUDIBLE
    }
    for hertz, height in zip(HERTZ, found.voice.response(HERTZ), strict=True):
        plain = nodal.transfers(circuit, stance, hertz)
        expected = abs(sum(plain[name] * volt for name, volt in volts.items()))
        assert height == pytest.approx(expected, rel=1e-6, abs=1e-9)
        if hertz == 1000.0:
            assert found.level_db == pytest.approx(20 * np.log10(expected), abs=1e-4)


def half_way_groups(circuit: Circuit, harness: Harness, which: dict[str, int]) -> list[list[str]]:
    """Lugs joined when some switches are between positions, by the definition of the words.

    `break`: two lugs stay joined if both positions join them; `make`: if either does.
    """
    groups: list[list[str]] = []
    for switch in harness.switches:
        resting = {
            position: nodal.resting_groups(
                Circuit(parts=(circuit.part_by_id[switch.part],), kinds=circuit.kinds),
                {switch.part: position},
            )
            for position in switch.positions
        }
        state = which[switch.part]
        if state < len(switch.positions):
            groups += map(list, resting[switch.positions[state]])
            continue
        way = switch.between[state - len(switch.positions)]
        pairs = [
            {frozenset(p) for g in resting[name] for p in _pairs(g)}
            for name in (way.first, way.second)
        ]
        joined = pairs[0] & pairs[1] if way.timing == "break" else pairs[0] | pairs[1]
        groups += map(list, joined)
    return groups


def _pairs(group: tuple[str, ...]) -> list[tuple[str, str]]:
    return [(a, b) for i, a in enumerate(group) for b in group[i + 1 :]]


@given(guitars_in_a_stance(), st.data())
def test_half_way_between_positions(drawn: Case, data: st.DataObject) -> None:
    circuit, stance = drawn
    analyst = Analyst(circuit, stance.rotations)
    harness = analyst.signal
    which = {
        switch.part: data.draw(st.integers(0, len(switch.joints) - 1))
        for switch in harness.switches
    }
    states = [(which[switch.part],) for switch in harness.switches]
    found = analyst.combinations[analyst.survey(states)[0]]
    groups = half_way_groups(circuit, harness, which)
    plain = nodal.transfers(circuit, stance, 100.0, groups)
    expected = [plain[c.name].real * c.turns * c.winding * c.pole for c in coils_of(circuit)]
    assert found.weights == pytest.approx(expected, rel=1e-6, abs=1e-7)
    reading = nodal.resistance(circuit, stance, groups)
    expected_ohm = None if reading is None else pytest.approx(reading, rel=1e-6, abs=1e-4)
    assert found.resistance == expected_ohm


@given(guitars_in_a_stance())
def test_all_settings_at_once_are_the_settings_one_by_one(drawn: Case) -> None:
    circuit, stance = drawn
    together = Analyst(circuit, stance.rotations)
    resting = [switch.resting[:3] for switch in together.signal.switches][:3]
    fixed = states_of(together.signal, stance.positions)[len(resting) :]
    which = together.survey([*resting, *fixed])
    settings = [()]
    for states in (*resting, *fixed):
        settings = [(*setting, state) for setting in settings for state in states]
    for index, setting in zip(which, settings, strict=True):
        alone = Analyst(circuit, stance.rotations)
        own = alone.combinations[alone.survey([(state,) for state in setting])[0]]
        both = together.combinations[index]
        assert both.weights == pytest.approx(own.weights, rel=1e-9, abs=1e-12)
        assert both.identity == own.identity
        assert both.states == own.states
        assert both.resistance == pytest.approx(own.resistance)


def test_the_plain_solver_itself() -> None:
    """Two coils of 4 kΩ: 8 kΩ and both whole in series, 2 kΩ and both halved in parallel."""
    circuit = trade.series_parallel()
    series, parallel = (stance_of(circuit, {"S": name}) for name in ("up", "down"))
    assert nodal.resistance(circuit, series) == pytest.approx(8000)
    assert nodal.resistance(circuit, parallel) == pytest.approx(2000)
    for stance, weight in ((series, 1), (parallel, 0.5)):
        found = nodal.transfers(circuit, stance, 100.0)
        assert found == {
            "H.A": pytest.approx(-weight, abs=1e-2),
            "H.B": pytest.approx(weight, abs=1e-2),
        }
