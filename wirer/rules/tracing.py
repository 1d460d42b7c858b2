"""Following the wiring lug by lug in one setting, as one would with a meter."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from functools import cached_property
from itertools import pairwise

import networkx as nx

from wirer.analysis.harness import turned_elements
from wirer.analysis.switches import position_groups
from wirer.circuit.elements import Bond, Cell, Resistor, circuit_elements
from wirer.circuit.model import Circuit
from wirer.rules.wiring import fixed_graph, things

MOST_ENDS = 2
"""How many dead ends of a way are worth naming."""
MOST_STEPS = 5
"""How many lugs and wires of a way, counted from where it ends, are worth naming."""


@dataclass
class Tracing:
    """The lugs of a circuit and what joins them in a setting, its shafts turned."""

    circuit: Circuit
    rotations: Mapping[str, float]
    _known: dict[tuple[str, ...], nx.MultiGraph] = field(default_factory=dict)

    @cached_property
    def _rest(self) -> nx.MultiGraph:
        """What is joined whatever the switches do: wires, bonds, batteries, tracks at a stop."""
        graph = fixed_graph(self.circuit)
        for element in turned_elements(self.circuit, self.rotations):
            if isinstance(element, Cell) or (isinstance(element, Resistor) and element.ohm == 0):
                graph.add_edge(*element.ends)
        return graph

    @cached_property
    def wired(self) -> frozenset[str]:
        """The lugs to which a wire goes."""
        ends = ((*w.ends, w.screen_from, w.screen_to) for w in self.circuit.wires)
        return frozenset(lug for each in ends for lug in each if lug)

    def graph(self, setting: Mapping[str, str]) -> nx.MultiGraph:
        """Return the lugs joined in a setting; a wire's edges carry its id as `wire`."""
        key = tuple(setting.values())
        if key not in self._known:
            graph = self._rest.copy()
            for part in self.circuit.switches:
                for group in position_groups(self.circuit, part).get(setting[part.id], ()):
                    nx.add_path(graph, sorted(group))
            self._known[key] = graph
        return self._known[key]

    def joined(self, lug: str, setting: Mapping[str, str]) -> frozenset[str]:
        """Return the lugs that a lug is joined to in a setting, itself among them."""
        return frozenset(nx.node_connected_component(self.graph(setting), lug))

    def dead_ends(self, lug: str, setting: Mapping[str, str]) -> tuple[str, ...]:
        """Return the lugs at which the ways from a lug stop in a setting, the farthest first.

        A lug at which an element goes on, or one on a bus or a can that has room to spare, is
        none, unless nothing else is.
        """
        graph = nx.Graph(self.graph(setting))
        far = nx.single_source_shortest_path_length(graph, lug)
        ends = [other for other in far if other != lug and graph.degree(other) == 1]
        ends.sort(key=lambda end: (end in self.wired, -far[end], end))
        free = [end for end in ends if end not in self.spare]
        telling = [end for end in free if end not in self._things]
        return tuple((telling or free or ends)[:MOST_ENDS])

    @cached_property
    def _things(self) -> frozenset[str]:
        return things(self.circuit)

    def open_contacts(self, lug: str, setting: Mapping[str, str]) -> tuple[str, ...]:
        """Return the lugs without a wire to which contacts lead from a lug in a setting."""
        ends = self.dead_ends(lug, setting)
        return tuple(end for end in ends if end not in self.wired and end not in self.spare)

    @cached_property
    def spare(self) -> frozenset[str]:
        """The lugs without a wire that are one piece with others: room on a bus or a can."""
        bonds = (e for e in circuit_elements(self.circuit) if isinstance(e, Bond))
        return frozenset(lug for bond in bonds for lug in bond.lugs) - self.wired

    def ways_to_ends(self, lug: str, setting: Mapping[str, str]) -> tuple[str, ...]:
        """Return what lies on the ways from a lug to its dead ends, from there back to it."""
        ways = [self.way(end, lug, setting) for end in self.dead_ends(lug, setting)]
        return once(*(way[:MOST_STEPS] for way in ways))

    def way_to_any(
        self, start: str, ends: Iterable[str], setting: Mapping[str, str]
    ) -> tuple[str, ...]:
        """Return the shortest way from a lug to one of several; empty if it reaches none."""
        ways = [self.way(start, end, setting) for end in ends if end != start]
        return min((way for way in ways if way), key=len, default=())

    def far_ends(self, lug: str) -> tuple[str, ...]:
        """Return the wires at a lug, and the lugs to which they lead."""
        found = []
        for wire in self.circuit.wires:
            if lug in wire.ends:
                found += [wire.id, *(end for end in wire.ends if end != lug)]
        return tuple(dict.fromkeys(found))

    def way(self, start: str, end: str, setting: Mapping[str, str]) -> tuple[str, ...]:
        """Return the lugs and wires on the shortest way from lug to lug; empty if there is none."""
        graph = self.graph(setting)
        if not nx.has_path(graph, start, end):
            return ()
        lugs: list[str] = nx.shortest_path(graph, start, end)
        places = [start]
        for a, b in pairwise(lugs):
            wires = [data["wire"] for data in graph[a][b].values() if "wire" in data]
            places += [*wires[:1], b]
        return tuple(places)


def once(*groups: Iterable[str]) -> tuple[str, ...]:
    """Return places in order, each once."""
    return tuple(dict.fromkeys(place for group in groups for place in group))
