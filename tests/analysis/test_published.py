"""Worked examples of textbooks, to half a unit of the last printed digit.

The examples and their sources are in the tables of `published/`.
"""

import itertools
import random
from pathlib import Path

import networkx as nx
import numpy as np
import pytest

from tests.support.netlist import Network, check_answers
from tests.support.wiring import Wiring, resistance_at

TABLES = Path(__file__).parent / "published"


def examples(name: str) -> list[object]:
    lines = (TABLES / name).read_text(encoding="utf-8").splitlines()
    rows = [[cell.strip() for cell in line.split("|")] for line in lines if "|" in line]
    return [pytest.param(*cells, id=number) for number, *cells in rows if number[0] != "#"]


@pytest.mark.parametrize(("network", "answers"), examples("direct_current.txt"))
def test_direct_current(network: str, answers: str) -> None:
    check_answers(network, answers)


@pytest.mark.parametrize(("network", "hertz", "answers"), examples("alternating_current.txt"))
def test_alternating_current(network: str, hertz: str, answers: str) -> None:
    check_answers(network, answers, float(hertz))


def test_a_switch_across_equal_midpoints_changes_nothing() -> None:
    """University Physics 2, chapter 10, additional problem: 12.00 Ω, the switch open or closed."""
    bench = Wiring().part("J", "jack-ts").part("S", "momentary")
    for name, ohm in (("A", "8"), ("B", "8"), ("C", "8"), ("D", "8"), ("E", "4")):
        bench.part(name, "resistor", resistance=ohm)
    bench.join("J.tip A.1 C.1").join("A.2 B.1 S.A0").join("C.2 D.1 S.A1")
    circuit = bench.join("B.2 D.2 E.1").join("E.2 J.sleeve").circuit()
    for position in ("rest", "pressed"):
        assert resistance_at(circuit, S=position) == pytest.approx(12.0, abs=0.005)


@pytest.mark.parametrize(
    ("network", "low", "high"),
    [
        ("J.tip V.2; V.1 J.sleeve", 0, 10),
        ("J.tip V.2; V.1 A.1; A.2 J.sleeve", 10, 20),
        ("J.tip V.2 B.1; V.1 B.2 A.1; A.2 J.sleeve", 10, 15),
        (
            "J.tip A.1 B.1 C.1 D.1; A.2 B.2 C.2 D.2 E.1 F.1; E.2 F.2 V.2 G.1 H.1 I.1;"
            "V.1 G.2 H.2 I.2 J.sleeve",
            7.5,
            10,
        ),
    ],
)
def test_range_of_a_pot_as_rheostat(network: str, low: float, high: float) -> None:
    """Lessons in Electric Circuits VI, chapter 3: a 10 kΩ pot among 10 kΩ resistors."""
    bench = Wiring().part("J", "jack-ts").part("V", "pot", resistance="10k")
    for name in "ABCDEFGHI":
        bench.part(name, "resistor", resistance="10k")
    for lugs in network.split(";"):
        bench.join(lugs)
    ends = [resistance_at(bench.circuit(), {"V": turn}) for turn in (0.0, 1.0)]
    assert ends == pytest.approx([low * 1000, high * 1000])


@pytest.mark.parametrize(
    ("network", "low", "high", "least"),
    [
        ("V1 T 0 1; R1 T a 100; L1 a 0 100m; C1 T 0 10u", 100, 200, 136.8),
        ("V1 T 0 1; L1 T 0 100m; R1 T a 100; C1 a 0 10u", 100, 400, 178.9),
    ],
)
def test_least_current_of_a_damped_tank(
    network: str, low: float, high: float, least: float
) -> None:
    """Lessons in Electric Circuits II, chapter 6: SPICE listings of 20 points each."""
    grid = np.linspace(low, high, 20)
    currents = [abs(Network(network, f).answer("I V1")) for f in grid]
    assert round(grid[int(np.argmin(currents))], 1) == least


@pytest.mark.parametrize(
    ("network", "low", "high", "most"),
    [
        ("V1 T 0 1; C1 T a 10u; R1 a b 1; L1 b 0 100m; R2 b 0 100", 100, 400, 178.9),
        ("V1 T 0 1; L1 T a 100m; R1 a b 1; C1 b 0 10u; R2 b 0 100", 100, 200, 136.8),
    ],
)
def test_most_current_of_a_damped_series_circuit(
    network: str, low: float, high: float, most: float
) -> None:
    """Lessons in Electric Circuits II, chapter 6: SPICE listings of 20 points each."""
    grid = np.linspace(low, high, 20)
    currents = [abs(Network(network, f).answer("I R1")) for f in grid]
    assert round(grid[int(np.argmax(currents))], 1) == most


@pytest.mark.parametrize(("corner", "ohm"), [("7", 5 / 6), ("3", 3 / 4), ("1", 7 / 12)])
def test_cube_of_twelve_resistors(corner: str, ohm: float) -> None:
    """A classic, from memory: body diagonal 5/6, face diagonal 3/4, edge 7/12 of an edge's ohms."""
    edges = [(a, a | bit) for a in range(8) for bit in (1, 2, 4) if not a & bit]
    network = "; ".join(f"R{i} {a} {b} 1" for i, (a, b) in enumerate(edges))
    assert Network(network).reading("0", corner) == pytest.approx(ohm, rel=1e-9)


@pytest.mark.parametrize("seed", range(40))
def test_random_resistors_read_as_networkx_says(seed: int) -> None:
    """Against networkx.resistance_distance, on networks of up to 8 nodes and 16 resistors."""
    draw = random.Random(seed)
    nodes = draw.randint(2, 8)
    pairs = [draw.sample(range(nodes), 2) for _ in range(draw.randint(1, 16))]
    ohms = [float(f"{10 ** draw.uniform(0, 6):.3g}") for _ in pairs]
    network = "; ".join(
        f"R{i} {a} {b} {ohm}" for i, ((a, b), ohm) in enumerate(zip(pairs, ohms, strict=True))
    )
    graph = nx.MultiGraph()
    for (a, b), ohm in zip(pairs, ohms, strict=True):
        graph.add_edge(str(a), str(b), weight=ohm)
    for a, b in itertools.combinations(sorted(graph), 2):
        found = Network(network).reading(a, b)
        if not nx.has_path(graph, a, b):
            assert found is None
            continue
        expected = nx.resistance_distance(
            graph.subgraph(nx.node_connected_component(graph, a)), a, b, "weight"
        )
        assert found == pytest.approx(expected, rel=1e-9)
