"""The circuit in one setting as a SPICE deck, with every part under a name one can find again.

SPICE folds names to lower case, reads `M` as milli, takes a resistance of 0 for 1 mΩ and can't
solve what floats; so names are made to differ, values are written without prefixes, joints are
contracted to nets, and floating nets are tied to ground through a tera-ohm.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace

import networkx as nx

from wirer.analysis.analyst import Analyst
from wirer.analysis.deck_names import Names, commented, net_names
from wirer.analysis.facts import states_of
from wirer.analysis.harness import LEAST_OHM, turned_elements
from wirer.analysis.nets import net_labels
from wirer.circuit.elements import Capacitor, Cell, Coil, Coupling, Element, Inductor, Resistor
from wirer.circuit.model import Circuit
from wirer.circuit.stance import Stance

_TIE_OHM = 1e12
_LEAST_OHM = 1e-3
"""SPICE makes this of 0 Ω, and less beside the tie is more than its figures can hold."""
_CLOSEST = 0.99999999
"""SPICE wants coils coupled less than fully: 20 parts in 10⁹ of the inductance are left over."""


@dataclass(frozen=True)
class _Card:
    """One element of the deck: its name begins with SPICE's letter for what it is."""

    name: str
    nets: tuple[str, str]
    value: str
    remark: str = ""

    def __str__(self) -> str:
        text = f"{self.name} {self.nets[0]} {self.nets[1]} {self.value}"
        return f"{text} ; {self.remark}" if self.remark else text


def spice_deck(circuit: Circuit, stance: Stance) -> str:
    """Return the circuit in its present setting as a deck that runs in ngspice as it is.

    The sources are the coils' EMFs, each of its level in the polarity that adds at the output, so
    that v(hot) is the response; a coil that is not heard has a source of 0 V. Net 0 is ground,
    `hot` the tip.
    """
    deck = _Deck(circuit, stance)
    lines = [
        f"wirer netlist: {commented(circuit.title) or 'untitled'}",
        *(f"* {line}" for line in deck.heading()),
        *deck.body(),
        *(f"* {line}" for line in deck.floating),
        *map(str, deck.ties),
        ".ac dec 100 20 20k",
        ".print ac vm(hot) vp(hot)",
        ".end",
    ]
    return "\n".join(lines) + "\n"


class _Deck:
    """The cards of a deck, by the parts they stand for."""

    def __init__(self, circuit: Circuit, stance: Stance) -> None:
        self.circuit, self.stance = circuit, stance
        analyst = Analyst(circuit, stance.rotations)
        self.harness, self.load = analyst.signal, analyst.load
        self.emf = _emf_of_coils(analyst, stance)
        self.labels = net_labels(self.harness, states_of(self.harness, stance.positions))[0]
        self.nodes, self.names = Names(), Names()
        self.nets = net_names(self.harness, self.labels, self.nodes)
        self.inductors: dict[str, str] = {}
        self.by_part: dict[str, list[_Card | str]] = {part.id: [] for part in circuit.parts}
        for element in turned_elements(circuit, stance.rotations):
            self._write(element)
        self.output = list(self._output())
        self.ties = list(self._ties())

    def heading(self) -> Iterator[str]:
        """Yield what a reader must know: where switches and shafts stand, which net is what."""
        for part in self.circuit.switches:
            position = self.stance.positions[part.id]
            name = f"{part.id} {part.label}".strip()
            yield commented(f"switch {name}: {part.position_name(position)}")
        for shaft, rotation in self.stance.rotations.items():
            yield commented(f"shaft {shaft}: {rotation:g}")
        yield "sources: EMF of each coil at its level, in the polarity that adds at the output"
        lugs: dict[str, list[str]] = {}
        for lug in self.circuit.lugs:
            lugs.setdefault(self._net(lug), []).append(lug)
        for net, members in lugs.items():
            if len(members) > 1:
                yield commented(f"net {net}: {' '.join(members)}")

    def body(self) -> Iterator[str]:
        """Yield the cards of each part under its label, then the output's."""
        for part in self.circuit.parts:
            if cards := self.by_part[part.id]:
                yield f"* {commented(f'{part.id} {part.label}'.strip())}"
                yield from map(str, cards)
        yield "* what the jack is plugged into"
        yield from map(str, self.output)

    @property
    def floating(self) -> list[str]:
        """A line on the ties, where there are some."""
        if not self.ties:
            return []
        return ["nets without a path to ground for direct current, tied so that SPICE can solve"]

    def _net(self, lug: str) -> str:
        return self.nets[int(self.labels[self.harness.net_of[lug]])]

    def _between(self, element: Resistor | Capacitor | Inductor) -> tuple[str, str]:
        return self._net(element.a), self._net(element.b)

    def _write(self, element: Element) -> None:
        match element:
            case Coil():
                self.by_part[element.part] += self._coil(element)
            case Resistor() if element.ohm >= LEAST_OHM:
                ohm = max(element.ohm, _LEAST_OHM)
                self.by_part[element.part].append(self._two_ended("R", element, ohm))
            case Capacitor() if element.farad:
                self.by_part[element.part].append(self._two_ended("C", element, element.farad))
            case Inductor():
                self.by_part[element.part] += self._inductor(element)
            case Coupling():
                part = element.a.partition(".")[0]
                self.by_part[part].append(self._coupling(element))
            case Cell():
                text = "* a battery is a short for signals: its two lugs are one net"
                self.by_part[element.part].append(text)

    def _two_ended(self, letter: str, element: Resistor | Capacitor, value: float) -> _Card:
        inner = [lug.partition(".")[2] for lug in (element.a, element.b)]
        return self._card("_".join([letter, element.part, *inner]), self._between(element), value)

    def _card(self, name: str, nets: tuple[str, str], value: float) -> _Card:
        return _Card(self.names.new(name), nets, f"{value:.10g}")

    def _coil(self, coil: Coil) -> Iterator[_Card]:
        """Yield a coil: EMF, resistance and inductance in a row, capacitance and loss across."""
        ends = self._net(coil.start), self._net(coil.finish)
        own = coil.name.replace(".", "_")
        volt = self.emf.get(coil.name, 0.0)
        remark = "hears hum only" if not coil.pole else "" if volt else "not heard in this setting"
        behind = self.nodes.new(f"{own}_emf")
        value = f"DC 0 AC {abs(volt):.10g}{' 180' if volt < 0 else ''}"
        yield _Card(self.names.new(f"V_{own}"), (behind, ends[0]), value, remark)
        yield from self._winding(
            coil.name, (behind, ends[1]), coil.resistance_ohm, coil.inductance_henry
        )
        if coil.capacitance_farad:
            yield self._card(f"C_{own}", ends, coil.capacitance_farad)
        if coil.loss_ohm:
            yield self._card(f"R_{own}_loss", ends, coil.loss_ohm)

    def _inductor(self, inductor: Inductor) -> Iterator[_Card]:
        if inductor.ohm >= LEAST_OHM or inductor.henry:
            ends = self._between(inductor)
            yield from self._winding(inductor.part, ends, inductor.ohm, inductor.henry)

    def _winding(
        self, name: str, ends: tuple[str, str], ohm: float, henry: float
    ) -> Iterator[_Card]:
        """Yield resistance and inductance in a row."""
        own = name.replace(".", "_")
        middle = self.nodes.new(f"{own}_r") if henry else ends[1]
        yield self._card(f"R_{own}", (ends[0], middle), max(ohm, _LEAST_OHM))
        if henry:
            card = self._card(f"L_{own}", (middle, ends[1]), henry)
            self.inductors[name] = card.name
            yield card

    def _coupling(self, coupling: Coupling) -> _Card | str:
        first, second = (self.inductors.get(name) for name in (coupling.a, coupling.b))
        if not first or not second:
            return "* no inductance to couple"
        card = self._card(f"K_{coupling.a.partition('.')[0]}", (first, second), _CLOSEST)
        return replace(card, remark="fully coupled, but for what SPICE asks")

    def _output(self) -> Iterator[_Card | str]:
        harness = self.harness
        if harness.hot is None:
            yield "* there is no output jack: nothing reaches hot"
        elif self.labels[harness.hot] == self.labels[harness.ground]:
            name = self.names.new("V_short")
            yield _Card(name, ("hot", "0"), "DC 0", "tip and sleeve are joined here")
        yield self._card("R_input", ("hot", "0"), self.load.ohm)
        if self.load.farad:
            yield self._card("C_cable", ("hot", "0"), self.load.farad)

    def _ties(self) -> Iterator[_Card]:
        every = [card for cards in (*self.by_part.values(), self.output) for card in cards]
        wired = [c for c in every if isinstance(c, _Card) and not c.name.startswith("K")]
        for number, net in enumerate(_floating(wired), 1):
            yield self._card(f"R_tie{number}", (net, "0"), _TIE_OHM)


def _emf_of_coils(analyst: Analyst, stance: Stance) -> dict[str, float]:
    """Return the EMF of each coil from its start to its finish, in volt.

    Where nothing is heard every coil has its level, in its own polarity, to show that it is lost.
    """
    states = states_of(analyst.signal, stance.positions)
    combination = analyst.combinations[analyst.survey(states)[0]]
    voice = combination.voice
    if voice is None or combination.silent:
        return {c.name: c.level_volt * c.turns * c.winding * c.pole for c in analyst.signal.coils}
    return {
        coil.name: float(-volt if branch in combination.reversed else volt)
        for branch, volt in zip(voice.coils, voice.drive, strict=True)
        if (coil := analyst.signal.branches[branch].coil)
    }


def _floating(cards: Iterable[_Card]) -> Iterator[str]:
    """Yield one net of each group that no direct current can reach from ground."""
    graph = nx.Graph()
    graph.add_node("0")
    for card in cards:
        graph.add_nodes_from(card.nets)
        if not card.name.startswith("C"):
            graph.add_edge(*card.nets)
    for group in nx.connected_components(graph):
        if "0" not in group:
            yield min(group)
