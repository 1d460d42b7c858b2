"""The sound as a formula: every network has its own, and the formula computes to the network."""

import math
import random
from collections.abc import Iterable, Mapping, Sequence
from itertools import permutations, product
from typing import Any

import networkx as nx
import pytest

from tests.support.series_parallel import Branch, Realised, Tree, networks, random_tree
from tests.support.surveys import coils_of, combination_of
from tests.support.wiring import BARE_JACK, Wiring
from wirer.analysis.combination import Combination
from wirer.analysis.harness import Branch as Analysed
from wirer.analysis.harness import Harness
from wirer.analysis.meter import resistances_of
from wirer.analysis.network import Network as Reduced
from wirer.analysis.sound import BridgeSound, Sound
from wirer.circuit.elements import Coil
from wirer.circuit.model import Circuit, OutputLoad
from wirer.circuit.stance import default_stance

LABELS = "ABCDE"
WHEATSTONE = ((0, 2), (0, 3), (2, 3), (2, 1), (3, 1))
UNLIKE = {label: {"resistance": f"{n + 4}k"} for n, label in enumerate("ABCDEF")}
"""Coils of which no bridge is balanced: in a balanced one the coil across does not sound."""


def coils_between(
    branches: Sequence[Branch],
    turned: Mapping[str, bool] | None = None,
    values: Mapping[str, Mapping[str, str]] | None = None,
    load: OutputLoad = BARE_JACK,
) -> Circuit:
    """Coils between nets, from start to finish unless turned; net 0 is the sleeve, 1 the tip."""
    bench = Wiring(load).part("J", "jack-ts")
    for label, _, _ in sorted(branches):
        bench.part(label, "coil-2wire", (values or {}).get(label, {}))
    posts = {0: "J.sleeve", 1: "J.tip"}
    for net in sorted({net for _, a, b in branches for net in (a, b)} - {0, 1}):
        posts[net] = f"X{net}.1"
        bench.part(f"X{net}", "terminal")
    for label, a, b in branches:
        start, finish = (b, a) if (turned or {}).get(label) else (a, b)
        bench.join(f"{label}.start", posts[start]).join(f"{label}.finish", posts[finish])
    return bench.circuit()


def analysed(circuit: Circuit) -> Combination:
    return combination_of(circuit, default_stance(circuit))


def sound_of(circuit: Circuit) -> Sound:
    sound = analysed(circuit).sound
    assert sound is not None
    return sound


def tree_of(node: Mapping[str, Any]) -> Tree:
    """The JSON of a sound as a tree, polarity left out."""
    if "coil" in node:
        return str(node["coil"])
    ((join, members),) = node.items()
    return join, frozenset(map(tree_of, members))


@pytest.mark.parametrize(("coils", "expected"), [(1, 1), (2, 2), (3, 8), (4, 52)])
def test_every_network_has_its_own_sound(coils: int, expected: int) -> None:
    """OEIS A006351: series-parallel networks with n labelled edges."""
    draw = random.Random(coils)
    trees = networks(tuple(LABELS[:coils]))
    sounds = [sound_of(coils_between(Realised(draw).branches(tree))) for tree in trees]
    assert len(trees) == len(set(sounds)) == expected
    assert [tree_of(sound.json) for sound in sounds] == list(trees)


@pytest.mark.parametrize(("coils", "expected"), [(1, 1), (2, 4), (3, 32)])
def test_every_polarity_has_its_own_sound_but_for_the_whole(coils: int, expected: int) -> None:
    """A006351(n)·2ⁿ⁻¹: each coil either way round, up to the sign of all; derived."""
    draw = random.Random(coils)
    sounds = {
        sound_of(
            coils_between(Realised(draw).branches(tree), dict(zip(LABELS, turned, strict=False)))
        )
        for tree in networks(tuple(LABELS[:coils]))
        for turned in product((False, True), repeat=coils)
    }
    assert len(sounds) == expected


def readings(networks_of_resistors: Iterable[Sequence[Branch]], ohms: Sequence[float]) -> set[str]:
    """What a meter reads of networks of resistors named "0", "1" …, rounded."""
    resistors = tuple(Analysed("R", 0, 1, ohm) for ohm in ohms)
    harness = Harness(Circuit(), {}, 0, 0, 1, resistors, (), ())
    all_networks = {
        Reduced(tuple(int(n) for n, _, _ in rows), tuple((a, b) for _, a, b in rows))
        for rows in map(sorted, networks_of_resistors)
    }
    return {f"{ohm:.9f}" for ohm in resistances_of(harness, all_networks).values()}


@pytest.mark.parametrize(
    ("resistors", "equal", "different"),
    [(1, 1, 1), (2, 2, 2), (3, 4, 8), (4, 9, 48), (5, 22, 386)],
)
def test_resistances_of_every_network(resistors: int, equal: int, different: int) -> None:
    """OEIS A048211 (n resistors of 1 Ω) and A232005 (of 1, 2 … n Ω, each once)."""
    labels = tuple(str(n) for n in range(resistors))
    every = [Realised(random.Random(0)).branches(tree) for tree in networks(labels)]
    of_one_ohm = readings(every, [1.0] * resistors)
    assert len(of_one_ohm) == equal
    assert len(readings(every, [n + 1.0 for n in range(resistors)])) == different
    if resistors == 5:
        # OEIS A174283: with bridges there is one more, 23.
        bridge = [(name, *pair) for name, pair in zip(labels, WHEATSTONE, strict=True)]
        assert len(of_one_ohm | readings([bridge], [1.0] * 5)) == 23


def computed(
    node: Mapping[str, Any], coils: Mapping[str, Coil], hertz: float
) -> tuple[complex, dict[str, complex]]:
    """Impedance of a formula and its open voltage per volt of each coil's signal, by arithmetic."""
    if "coil" in node:
        coil = coils[str(node["coil"])]
        s = 2j * math.pi * hertz
        series = coil.resistance_ohm + s * coil.inductance_henry
        impedance = 1 / (1 / series + s * coil.capacitance_farad)
        sign = -1 if node.get("reversed") else 1
        return impedance, {coil.name: sign * impedance / series}
    ((join, members),) = node.items()
    parts = [computed(member, coils, hertz) for member in members]
    if join == "series":
        return sum(z for z, _ in parts), {n: t for _, shares in parts for n, t in shares.items()}
    whole = 1 / sum(1 / z for z, _ in parts)
    return whole, {n: t * whole / z for z, shares in parts for n, t in shares.items()}


@pytest.mark.parametrize("seed", range(60))
def test_the_formula_computes_to_the_network(seed: int) -> None:
    draw = random.Random(seed)
    labels = [f"K{n}" for n in range(draw.randint(1, 7))]
    branches = Realised(draw).branches(random_tree(draw, labels))
    values = {
        label: {
            "resistance": f"{draw.uniform(2e3, 2e4):.4g}",
            "inductance": f"{draw.uniform(0.5, 12):.3g}",
            "capacitance": f"{draw.uniform(2e-11, 4e-10):.3g}",
            "winding": draw.choice(["cw", "ccw"]),
            "pole": draw.choice(["north", "south"]),
        }
        for label in labels
    }
    turned = {label: draw.random() < 0.5 for label in labels}
    circuit = coils_between(branches, turned, values, OutputLoad(cable="500p", input="1M"))
    found = analysed(circuit)
    assert found.sound is not None
    coils = {coil.name: coil for coil in coils_of(circuit)}
    impedance, shares = computed(found.sound.json, coils, 100.0)
    gain = 1 / (1 + impedance * (1e-6 + 2j * math.pi * 100.0 * 500e-12))
    weights = [(shares[name] * gain).real for name in coils]
    # The polarity of the whole is not part of a sound.
    sign = math.copysign(1, found.weights[0])
    assert found.weights == pytest.approx([sign * w for w in weights], rel=1e-9)
    direct, _ = computed(found.sound.json, coils, 0.0)
    assert found.resistance == pytest.approx(direct.real, rel=1e-9)


def isomorphic(first: Sequence[Branch], second: Sequence[Branch]) -> bool:
    """Whether two networks of named, directed coils are one, ground and hot either way.

    Coils may all be turned about together.
    """
    a, *others = (_graph(first), _graph(second), _graph([(n, y, x) for n, x, y in second]))
    return any(
        nx.is_isomorphic(a, other, nx.isomorphism.categorical_node_match("end", False), _same_coils)
        for other in others
    )


def _graph(branches: Sequence[Branch]) -> nx.MultiDiGraph:
    graph = nx.MultiDiGraph()
    for name, a, b in branches:
        graph.add_edge(a, b, name=name)
    for net in graph:
        graph.nodes[net]["end"] = net in (0, 1)
    return graph


def _same_coils(first: Mapping[Any, Any], second: Mapping[Any, Any]) -> bool:
    return {e["name"] for e in first.values()} == {e["name"] for e in second.values()}


def bridged(draw: random.Random) -> list[Branch]:
    """Five coils as a bridge, any in any arm, any way round."""
    names = list(LABELS)
    draw.shuffle(names)
    pairs = [pair if draw.random() < 0.5 else pair[::-1] for pair in WHEATSTONE]
    return [(name, a, b) for name, (a, b) in zip(names, pairs, strict=True)]


def sound_of_bridge(branches: Sequence[Branch]) -> Sound:
    sound = sound_of(coils_between(branches, values=UNLIKE))
    assert isinstance(sound.network, BridgeSound)
    return sound


def test_bridges_are_told_apart_by_isomorphism() -> None:
    """Against networkx."""
    draw = random.Random(5)
    some = [bridged(draw) for _ in range(24)]
    some += [[(name, b, a) for name, a, b in branches] for branches in some[:6]]
    some += [_upside_down(branches) for branches in some[:6]]
    sounds = list(map(sound_of_bridge, some))
    pairs = [(i, j) for i in range(len(some)) for j in range(i)]
    equal = [(i, j) for i, j in pairs if sounds[i] == sounds[j]]
    assert equal == [(i, j) for i, j in pairs if isomorphic(some[i], some[j])]
    assert len(equal) >= 12


def _upside_down(branches: Sequence[Branch]) -> list[Branch]:
    """Hot and ground exchanged, which turns all coils about."""
    swap = {0: 1, 1: 0}
    return [(name, swap.get(a, a), swap.get(b, b)) for name, a, b in branches]


def test_thirty_bridges_of_five_coils() -> None:
    """5! ways to put coils in its arms, less its four symmetries; derived."""
    ways = [
        [(n, *pair) for n, pair in zip(names, WHEATSTONE, strict=True)]
        for names in permutations(LABELS)
    ]
    # Which way round the coil across lies is a difference of polarity, so it is left out.
    unsigned = {
        frozenset((name, frozenset(ends)) for name, *ends in sound_of_bridge(way).network.coils)
        for way in ways
    }
    assert len(unsigned) == 30


def test_a_bridge_says_where_its_coils_lie() -> None:
    branches = [(n, *pair) for n, pair in zip(LABELS, WHEATSTONE, strict=True)]
    found = analysed(coils_between(branches, values=UNLIKE))
    assert found.sound is not None
    rows = found.sound.json["bridge"]
    assert isomorphic([(row["coil"], *row["between"]) for row in rows], branches)
    assert found.remarks[-1] == "bridge"


def test_a_balanced_bridge_is_no_bridge() -> None:
    """The coil across five equal coils does not sound: what is heard is two pairs in parallel."""
    found = analysed(coils_between([(n, *p) for n, p in zip(LABELS, WHEATSTONE, strict=True)]))
    assert found.sound is not None
    assert found.sound.formula == "(A + D) ∥ (B + E)"
    assert found.weights[2] == pytest.approx(0, abs=1e-12)


@pytest.mark.parametrize("arm", range(5))
def test_the_order_in_an_arm_of_a_bridge_cannot_be_heard(arm: int) -> None:
    """Two coils in series in one arm, in either order: the same currents."""
    pairs = list(WHEATSTONE)
    a, b = pairs.pop(arm)
    rest = [(n, *pair) for n, pair in zip("BCDE", pairs, strict=True)]
    one = sound_of_bridge([("A", a, 9), ("F", 9, b), *rest])
    other = [("F", a, 9), ("A", 9, b), *rest]
    assert sound_of_bridge(other) == one
    assert sound_of_bridge(_upside_down(other)) == one
    assert sound_of_bridge([("A", a, 9), ("F", b, 9), *rest]) != one
    assert sound_of_bridge([("A", a, b), ("F", a, b), *rest]) != one
