"""The wiring as a graph of lugs, for rules that ask what hangs on what."""

from __future__ import annotations

from collections.abc import Iterator

import networkx as nx

from wirer.analysis.switches import position_groups
from wirer.circuit.elements import Bond, circuit_elements
from wirer.circuit.model import Circuit, Wire


def fixed_graph(circuit: Circuit) -> nx.MultiGraph:
    """Return the lugs joined by wires, screens and bonds; a wire's edges carry its id as `wire`."""
    graph = nx.MultiGraph()
    graph.add_nodes_from(circuit.lugs)
    for wire in circuit.wires:
        graph.add_edge(*wire.ends, wire=wire.id)
        if wire.screen_from and wire.screen_to:
            graph.add_edge(wire.screen_from, wire.screen_to, wire=wire.id, screen=True)
    for element in circuit_elements(circuit):
        if isinstance(element, Bond):
            for lug in element.lugs[1:]:
                graph.add_edge(element.lugs[0], lug)
    return graph


def things(circuit: Circuit) -> frozenset[str]:
    """Return the lugs at which there is something: an element, metal or a jack."""
    ends = {
        lug
        for element in circuit_elements(circuit)
        if not isinstance(element, Bond)
        for lug in element.ends
    }
    for part in circuit.parts:
        kind = circuit.kind_of(part)
        ends |= {f"{part.id}.{lug.name}" for lug in kind.lugs if lug.metal}
        if kind.output:
            ends |= {f"{part.id}.{kind.output.tip}", f"{part.id}.{kind.output.sleeve}"}
    return frozenset(ends)


def leading_nowhere(circuit: Circuit) -> Iterator[Wire]:
    """Yield the wires beyond which there is nothing, whatever contacts are closed."""
    graph = fixed_graph(circuit)
    for part in circuit.switches:
        for groups in position_groups(circuit, part).values():
            for group in groups:
                first, *others = sorted(group)
                graph.add_edges_from((first, other) for other in others)
    simple = nx.Graph(graph)
    ends = things(circuit)
    loose = [lug for lug in simple if lug not in ends and _neighbours(simple, lug) <= 1]
    while loose:
        lug = loose.pop()
        if lug not in simple:
            continue
        near = [other for other in simple[lug] if other != lug]
        simple.remove_node(lug)
        loose += [n for n in near if n not in ends and _neighbours(simple, n) <= 1]
    for wire in circuit.wires:
        if not simple.has_edge(*wire.ends):
            yield wire


def _neighbours(graph: nx.Graph, lug: str) -> int:
    return len(set(graph[lug]) - {lug})


def spare_wires(graph: nx.MultiGraph) -> tuple[str, ...]:
    """Return the wires that lie in a ring of the graph (a wire to its own lug is none)."""
    plain = nx.Graph(graph)
    plain.remove_edges_from(list(nx.selfloop_edges(plain)))
    bridges = {frozenset(edge) for edge in nx.bridges(plain)}
    found = []
    for a, b, data in graph.edges(data=True):
        several = graph.number_of_edges(a, b) > 1
        if a != b and "wire" in data and (several or frozenset((a, b)) not in bridges):
            found.append(data["wire"])
    return tuple(dict.fromkeys(found))
