"""The analysis against ngspice: transfer of every coil in every distinct setting, and the meter."""

from pathlib import Path

import numpy as np
import pytest
from hypothesis import HealthCheck, Phase, given, settings
from hypothesis.strategies import SearchStrategy

from tests.support import spice
from tests.support.surveys import Case, combination_in, guitars_in_a_stance
from tests.support.tangles import tangles
from wirer.analysis.analyst import Analyst
from wirer.analysis.combination import Combination
from wirer.analysis.combinations import combination_table
from wirer.analysis.deck import spice_deck
from wirer.circuit.edits import change_circuit
from wirer.circuit.elements import Cell, circuit_elements
from wirer.circuit.files import read_file
from wirer.circuit.model import Circuit
from wirer.circuit.resources import resource_root
from wirer.circuit.stance import Stance

EXAMPLES = sorted(
    (file for file in (resource_root() / "examples").iterdir() if file.name.endswith(".wirer")),
    key=lambda file: file.name,
)


def transfers_of(analyst: Analyst, combination: Combination) -> spice.Sweep:
    """V(tip) per volt of EMF of each coil, from its start to its finish: (coils, frequencies)."""
    coils = [i for i, branch in enumerate(analyst.signal.branches) if branch.coil]
    found = np.zeros((len(coils), len(spice.HERTZ)), np.complex128)
    if combination.voice:
        each = combination.voice.curve.transfers(spice.HERTZ).T
        for branch, transfer in zip(combination.voice.coils, each, strict=True):
            turned = -1 if branch in combination.reversed else 1
            found[coils.index(branch)] = transfer * turned
    return found


def assert_same_transfers(found: spice.Sweep, expected: spice.Sweep, where: str) -> None:
    """Within 0.1 % in magnitude, so within 0.001 rad in phase; less than 1 µV is nothing."""
    error = np.abs(found - expected)
    assert np.all(error <= 1e-3 * np.abs(expected) + 1e-6), (where, error.max())


def without_losses(circuit: Circuit) -> Circuit:
    """The circuit without what stands for eddy currents, which a meter does not see."""
    return change_circuit(
        circuit,
        parts=tuple(
            type(part)(
                id=part.id,
                kind=part.kind,
                values={k: v for k, v in part.values.items() if not k.endswith("loss")},
                measured={k: v for k, v in part.measured.items() if not k.endswith("loss")},
            )
            for part in circuit.parts
        ),
    )


def compare(ngspice: str, folder: Path, cases: list[Case], analyst: Analyst | None = None) -> None:
    """Compare transfers and, where no battery is in the way, readings of circuits in stances."""
    swept = spice.sweeps(ngspice, [spice_deck(*case) for case in cases], folder)
    metered = [case for case in cases if not any(map(is_cell, circuit_elements(case[0])))]
    decks = [spice_deck(without_losses(circuit), stance) for circuit, stance in metered]
    read = spice.readings(ngspice, decks, folder)
    for (circuit, stance), expected in zip(cases, swept, strict=True):
        own = analyst or Analyst(circuit, stance.rotations)
        found = transfers_of(own, combination_in(own, stance))
        assert_same_transfers(found, expected, f"{circuit.title} {stance}")
    for (circuit, stance), ohms in zip(metered, read, strict=True):
        own = analyst or Analyst(circuit, stance.rotations)
        found_ohms = combination_in(own, stance).resistance
        # Every joint of 0 Ω and every coil without resistance is 1 mΩ in a deck.
        assert found_ohms == (None if ohms is None else pytest.approx(ohms, rel=1e-5, abs=0.02))


def is_cell(element: object) -> bool:
    return isinstance(element, Cell)


@pytest.mark.parametrize("file", EXAMPLES, ids=lambda file: file.name)
def test_every_distinct_setting_of_an_example(file: Path, ngspice: str, tmp_path: Path) -> None:
    circuit, stance = read_file(file)
    table = combination_table(circuit, stance)
    cases = [(circuit, Stance(table.setting(i), stance.rotations)) for i in table.firsts]
    compare(ngspice, tmp_path, cases, Analyst(circuit, stance.rotations))


@pytest.mark.parametrize("circuits", [guitars_in_a_stance(), tangles()], ids=["guitars", "tangles"])
def test_circuits_at_random(circuits: SearchStrategy[Case], ngspice: str, tmp_path: Path) -> None:
    cases: list[Case] = []

    @settings(
        max_examples=40,
        phases=[Phase.generate],
        suppress_health_check=list(HealthCheck),
        database=None,
    )
    @given(circuits)
    def collect(case: Case) -> None:
        cases.append(case)

    collect()
    assert len(cases) >= 40
    compare(ngspice, tmp_path, cases)
