"""Random circuits in a stance, and what the analysis says of one setting, for several tests."""

from hypothesis import strategies as st

from tests.support.circuits import circuits, guitars, stances
from wirer.analysis.analyst import Analyst
from wirer.analysis.combination import Combination
from wirer.analysis.facts import states_of
from wirer.circuit.elements import Coil, circuit_elements
from wirer.circuit.model import Circuit
from wirer.circuit.stance import Stance

Case = tuple[Circuit, Stance]


@st.composite
def guitars_in_a_stance(draw: st.DrawFn) -> Case:
    """A circuit wired like a guitar, with few omissions, its switches and shafts anyhow."""
    circuit = draw(guitars())
    return circuit, draw(stances(circuit))


@st.composite
def anything_in_a_stance(draw: st.DrawFn) -> Case:
    """Any circuit at all, its switches and shafts anyhow."""
    circuit = draw(circuits(most_parts=8, most_wires=16))
    return circuit, draw(stances(circuit))


def combination_in(analyst: Analyst, stance: Stance) -> Combination:
    """What the stance's setting does, by the analyst of its rotations."""
    states = states_of(analyst.signal, stance.positions)
    return analyst.combinations[analyst.survey(states)[0]]


def combination_of(circuit: Circuit, stance: Stance) -> Combination:
    """What a circuit does in a stance."""
    return combination_in(Analyst(circuit, stance.rotations), stance)


def coils_of(circuit: Circuit) -> list[Coil]:
    """The coils of a circuit, in part order."""
    return [element for element in circuit_elements(circuit) if isinstance(element, Coil)]
